"""Finding out what is missing never turns *met* into *not met*: whole plans with fields taken away, and put back."""

from __future__ import annotations

import copy
import functools
import json
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from validator.judging.apply import judge
from validator.judging.books import Books, books_for, read_rulebooks
from validator.judging.outcomes import Outcome, Result
from validator.plan.files import read_plan
from validator.plan.load import load
from validator.plan.problems import Unreadable
from validator.reference.folder import rules_folder
from validator.reference.library import Library, read_library

ROOT = Path(__file__).parent.parent.parent
DAY = date(2027, 1, 15)
COMPLETE = {"order", "fixed", "levels", "serves", "coats", "by", "for", "walls", "after", "is", "against", "on", "like"}
"""Not fields that may be missing but lists of what there is, and what a thing is: taken away they make another plan."""
SECTIONS = ("appliances", "points", "circuits", "fixings", "coatings", "floors", "floor", "runs", "kinds", "walls")


@functools.cache
def _library() -> Library:
    return read_library(rules_folder())


@functools.cache
def _books(country: str) -> Books:
    return read_rulebooks(rules_folder(), _library(), country)


@functools.cache
def _data(name: str) -> dict[str, Any]:
    found: dict[str, Any] = YAML(typ="base").load((ROOT / name).read_text("utf-8"))
    return found


def _fields(value: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """The paths of all fields of things: every key below a section and a name, down to the leaves."""
    if not isinstance(value, dict):
        return
    for key, below in value.items():
        here = (*path, key)
        if key == "order":
            yield from (found for name in below for found in _fields(below[name], (*here, name)))
        elif key not in COMPLETE:
            if len(here) >= (2 if path[:1] == ("floor",) else 3):
                yield here
            yield from _fields(below, here)


def _without(data: dict[str, Any], paths: list[tuple[str, ...]]) -> dict[str, Any]:
    left = copy.deepcopy(data)
    for path in paths:
        holder: Any = left
        for key in path[:-1]:
            holder = holder.get(key, {}) if isinstance(holder, dict) else {}
        if isinstance(holder, dict) and len(holder) > 1:
            holder.pop(path[-1], None)
    return left


def _judged(data: dict[str, Any]) -> dict[tuple[str, str, str], Outcome] | None:
    try:
        plan = load(read_plan(["-"], json.dumps(data).encode))
    except Unreadable:
        return None
    judgement = judge(plan, _library(), books_for(plan, _library(), _books(plan.project.country or "")), DAY)
    return {(o.rule.name, o.subject.pointer, o.subject.name): o for o in judgement.outcomes}


@functools.cache
def _whole(name: str) -> dict[tuple[str, str, str], Outcome]:
    judged = _judged(_data(name))
    assert judged is not None
    return judged


PLANS = ["plans_demo/weavers-row/plan.yaml", "rules/fragments/circuits.yaml", "rules/fragments/gas-hob.yaml"]


@pytest.mark.parametrize("name", PLANS)
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_what_is_met_with_fields_missing_is_met_when_they_are_filled_in(name: str, data: st.DataObject) -> None:
    whole = _data(name)
    fields = [path for section in SECTIONS for path in _fields(whole.get(section), (section,))]
    taken = data.draw(st.lists(st.sampled_from(fields), min_size=1, max_size=4, unique=True))
    before = _judged(_without(whole, taken))
    if before is None:
        return
    after = _whole(name)
    turned = [
        key
        for key, outcome in before.items()
        if outcome.result is Result.MET and not outcome.supposing and key in after
        if after[key].result is Result.NOT_MET
    ]
    assert not turned, (taken, turned)
