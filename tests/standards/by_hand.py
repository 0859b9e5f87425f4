"""Rows written by hand, judged by the real books: what the checks against published values are made of."""

from __future__ import annotations

import functools
import itertools
import json
import tempfile
from datetime import date
from pathlib import Path
from typing import TypeVar

from validator.judging.apply import apply
from validator.judging.books import Books, read_rulebooks
from validator.judging.outcomes import Outcome, Result
from validator.measures.rows import Given, Known, Missing, Row, Subject, Why
from validator.measures.site import Site
from validator.plan.files import read_plan
from validator.plan.load import load
from validator.plan.plan import Plan
from validator.reference.folder import rules_folder
from validator.reference.library import Library, read_library

R = TypeVar("R", bound=Row)
Value = float | str | bool | tuple[float, ...]
DAY = date(2026, 6, 1)
SILENT = Missing("", "a maker's figure", Why.NOTHING_STATED)
"""What stands for a maker's paper that was read and gives no figure."""


def row(kind: type[R], /, **values: Value | Given) -> R:
    """A row of a kind with known values in base units (mm, A, s, shares); a pair in brackets is a list field."""
    return kind(Subject("by hand", ""), **{name: _given(value) for name, value in values.items()})


_DOUBTS = itertools.count(1)


def between(low: float, high: float) -> Known:
    """A value somewhere between two ends, whatever the other values are."""
    return Known(low, f"/doubt {next(_DOUBTS)}", low=low, high=high)


def parts(*values: Known | float) -> Known:
    """A list field of values of which some may lie between two ends."""
    known = tuple(value if isinstance(value, Known) else _exact(value) for value in values)
    return Known(tuple(value.value for value in known), parts=known)


def judged(country: str, rule: str, about: Row) -> Outcome:
    """What the rule of this name says of the row in a country; AssertionError where its `when` keeps it out."""
    outcome = applied(country, rule, about)
    assert outcome is not None, f"{rule} does not apply to the row"
    return outcome


def applied(country: str, rule: str, about: Row) -> Outcome | None:
    """What the rule of this name says of the row in a country, or None where it does not apply to it."""
    found = next(each for each in books(country).rules if each.name == rule)
    return apply(found, about, site(country))


def met(country: str, rule: str, about: Row) -> bool:
    """Whether the row meets the rule; AssertionError where that is not known."""
    outcome = judged(country, rule, about)
    assert outcome.result in (Result.MET, Result.NOT_MET), outcome.missing
    return outcome.result is Result.MET


def need(country: str, rule: str, about: Row) -> float:
    """The limit that the rule holds the row to, the strictest where there are several."""
    check = max(judged(country, rule, about).checks, key=lambda check: check.short)
    return float(check.need)


def cell(country: str, table: str, gives: str, **by: float | str) -> float | None:
    """A cell of a table for a country, or None where the table has no such row."""
    found = library().table(table, country)
    assert found is not None, f"no table {table} for {country}"
    value = found.find(gives, by)
    return None if value is None else float(value.value)


def plan(said: object) -> Plan:
    """A plan from plain data."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "plan.yaml"
        file.write_text(json.dumps(said), encoding="utf-8")
        return load(read_plan([str(file)], bytes))


@functools.cache
def library() -> Library:
    return read_library(rules_folder())


@functools.cache
def books(country: str) -> Books:
    return read_rulebooks(rules_folder(), library(), country)


@functools.cache
def site(country: str) -> Site:
    return Site(plan({"dryfit": "1", "project": {"country": country}}), library(), DAY)


def _given(value: Value | Given) -> Given:
    if isinstance(value, Known | Missing):
        return value
    if isinstance(value, tuple) and all(isinstance(each, Missing) for each in value) and value:
        return tuple(each for each in value if isinstance(each, Missing))
    if isinstance(value, tuple):
        return parts(*(each for each in value if isinstance(each, int | float)))
    return _exact(value)


def _exact(value: float | str | bool) -> Known:
    number = float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None
    return Known(value if number is None else number, low=number, high=number)
