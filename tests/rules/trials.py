"""The trials of the rules: each rule's fragment with one value set, left out, or as it is, judged for real."""

from __future__ import annotations

import copy
import functools
import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML

from validator.judging.apply import judge
from validator.judging.books import Books, read_books, read_rulebooks
from validator.judging.outcomes import Outcome, Result
from validator.judging.rules import Rule, Trial
from validator.plan.files import read_plan
from validator.plan.load import load
from validator.plan.names import fold
from validator.plan.plan import Plan
from validator.plan.pointers import split
from validator.reference.folder import rules_folder
from validator.reference.library import Library, read_library

COUNTRIES = ("GB", "GB-ENG", "GB-SCT", "US", "US-CA", "AU", "NZ")
"""Every country a book is for, and one that no book is for, where what applies everywhere is all there is."""

DAY = date(2026, 5, 1)


@dataclass(frozen=True)
class Tried:
    """One trial of one rule."""

    rule: Rule
    trial: Trial

    def __str__(self) -> str:
        return f"{self.rule.covers} {self.rule.name} {self.trial.met}"


def all_rules() -> dict[tuple[str, str], Rule]:
    """Every rule of every book, by what its book covers and its name."""
    return {(rule.covers, rule.name): rule for country in COUNTRIES for rule in _books(country).rules}


def all_trials() -> list[Tried]:
    return [Tried(rule, trial) for rule in all_rules().values() for trial in rule.tried]


def outcomes(tried: Tried, data: object, folder: Path) -> list[Outcome]:
    """What the rule says of the thing of its trial, in a fragment with this content."""
    plan = _plan(data, folder)
    books = read_books(rules_folder(), library(), plan)
    found = judge(plan, library(), books, _day(tried.trial)).outcomes
    return [
        outcome
        for outcome in found
        if (outcome.rule.name, outcome.rule.covers) == (tried.rule.name, tried.rule.covers) and _about(tried, outcome)
    ]


def fragment(tried: Tried) -> dict[str, Any]:
    """The content of the fragment as it stands, every value a text."""
    written: dict[str, Any] = _fragment(tried.trial.plan)
    return copy.deepcopy(written)


def with_value(tried: Tried, value: object) -> dict[str, Any]:
    """The fragment with the varied place set to a value."""
    data = fragment(tried)
    holder, key = _holder(data, tried.trial.vary)
    holder[key] = value
    return data


def without(tried: Tried) -> dict[str, Any]:
    """The fragment with the varied place left out."""
    data = fragment(tried)
    holder, key = _holder(data, tried.trial.vary)
    del holder[key]
    return data


def results(of: Sequence[Outcome]) -> set[Result]:
    return {outcome.result for outcome in of}


@functools.cache
def library() -> Library:
    return read_library(rules_folder())


@functools.cache
def _books(country: str) -> Books:
    return read_rulebooks(rules_folder(), library(), country)


@functools.cache
def _fragment(name: str) -> dict[str, Any]:
    text = (rules_folder() / f"{name}.yaml").read_text(encoding="utf-8")
    reader = YAML(typ="base", pure=True)
    found: dict[str, Any] = reader.load(text)
    return found


def _plan(data: object, folder: Path) -> Plan:
    file = folder / "plan.yaml"
    file.write_text(json.dumps(data), encoding="utf-8")
    return load(read_plan([str(file)], bytes))


def _holder(data: Any, pointer: str) -> tuple[Any, Any]:
    """The mapping or list that holds a place, and its key there as written."""
    *way, last = split(pointer)
    for segment in way:
        data = data[_key(data, segment)]
    return data, _key(data, last)


def _key(holder: Any, segment: str) -> Any:
    if isinstance(holder, list):
        return int(segment)
    return next(key for key in holder if fold(key) == fold(segment))


def _about(tried: Tried, outcome: Outcome) -> bool:
    """Whether an outcome is about the thing of the trial: its name, or its name with more behind it."""
    thing, name = fold(tried.trial.thing), fold(outcome.subject.name)
    return not thing or name == thing or name.startswith((f"{thing} ", f"{thing},"))


def _day(trial: Trial) -> date:
    return date.fromisoformat(trial.on) if trial.on else DAY

