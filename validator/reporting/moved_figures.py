"""Every place and figure of a plan that came out otherwise than before, whether a rule asks for it or not."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any, NamedTuple, TypeVar

from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome
from validator.measures.catalogue import MEASURES
from validator.measures.rows import NotKnown, Row
from validator.measures.tracing import all_missing
from validator.plan.dimensions import Dimension
from validator.plan.names import fold
from validator.plan.pointers import folded
from validator.reporting.printing import Printer

PLACES = {"point on a wall": ("along", "up"), "drill point": ("along", "up")}
"""Fields that say where a thing is, for kinds of rows whose figures do not."""

OPEN = "not known"


T = TypeVar("T")
Key = tuple[str, str, str]


class Moved(NamedTuple):
    """One figure of one thing, as it was and as it is; '' where that side has no such thing."""

    kind: str
    thing: str
    label: str
    before: str
    now: str


class Turned(NamedTuple):
    """One rule at one thing that came out otherwise; '' where that side does not judge it."""

    rule: str
    title: str
    thing: str
    before: str
    now: str


def moved_figures(before: Judgement, now: Judgement) -> list[Moved]:
    """What moved, kind by kind, in the order of the plan as it is now; what is gone comes last in its kind."""
    was_by, is_by = Printer(before.site), Printer(now.site)
    return [found for kind in MEASURES for found in _of_kind(kind, before, now, was_by, is_by)]


def _of_kind(kind: str, before: Judgement, now: Judgement, was_by: Printer, is_by: Printer) -> Iterator[Moved]:
    if not MEASURES[kind].measure:
        return
    olds = _waiting(before.site.rows(kind).rows, _key)
    said = is_by.text(kind)
    for row in now.site.rows(kind).rows:
        old = _taken(olds, _key(row))
        if old is None:
            yield Moved(said, row.subject.name, "", "", "new")
            continue
        for name in (*PLACES.get(kind, ()), *row.figures):
            was, is_now = _shown(old, name, was_by), _shown(row, name, is_by)
            if was != is_now and {was, is_now} != {OPEN, ""}:
                label = row.figures[name].label if name in row.figures else row.fields[name].label
                yield Moved(said, row.subject.name, is_by.text(label), was, is_now)
    gone = (old for alike in olds.values() for old in alike)
    yield from (Moved(said, old.subject.name, "", "gone", "") for old in gone)


def _waiting(things: Iterable[T], key: Callable[[T], Key]) -> dict[Key, list[T]]:
    """The things by their keys, those of one key in their order."""
    found: dict[Key, list[T]] = {}
    for thing in things:
        found.setdefault(key(thing), []).append(thing)
    return found


def _taken(waiting: dict[Key, list[T]], key: Key) -> T | None:
    return waiting[key].pop(0) if waiting.get(key) else None


def _key(row: Row) -> Key:
    return folded(row.subject.pointer), fold(row.subject.name), fold(row.subject.wall)


def _shown(row: Row, name: str, printer: Printer) -> str:
    """The figure at both ends of its range."""
    if name in row.figures:
        type: Any = row.figures[name].dimension
        if all_missing(row, name):
            return OPEN
    else:
        type = row.fields[name].type
    try:
        values = [float(getattr(corner, name)) for corner in row.corners()]
    except NotKnown:
        return OPEN
    low, high = (
        printer.value(value, type if isinstance(type, Dimension) else None) for value in (min(values), max(values))
    )
    return low if low == high else f"{low} to {high}"


def turned_outcomes(before: Judgement, now: Judgement) -> list[Turned]:
    """Every rule at every thing whose result is another."""
    printer = Printer(now.site)
    olds = _waiting(before.outcomes, _of)
    found = []
    for outcome in now.outcomes:
        old = _taken(olds, _of(outcome))
        was = old.result.value if old is not None else ""
        if was != outcome.result.value:
            found.append(_turned(outcome, was, outcome.result.value, printer))
    return found + [_turned(old, old.result.value, "", printer) for alike in olds.values() for old in alike]


def _of(outcome: Outcome) -> Key:
    return outcome.rule.name, folded(outcome.subject.pointer), fold(outcome.subject.name)


def _turned(outcome: Outcome, was: str, is_now: str, printer: Printer) -> Turned:
    return Turned(outcome.rule.name, printer.text(outcome.rule.title), outcome.subject.name, was, is_now)


def in_lines(figures: list[Moved]) -> Iterator[tuple[str, list[str]]]:
    """The figures of each thing together: its name and kind, then `label: before → now` of each."""
    by_thing: dict[tuple[str, str], list[str]] = {}
    for moved in figures:
        about = moved.label + ": " if moved.label else ""
        change = " → ".join(text for text in (moved.before, moved.now) if text)
        by_thing.setdefault((moved.thing, moved.kind), []).append(about + change)
    yield from ((f"{thing}, {kind}", said) for (thing, kind), said in by_thing.items())
