"""Which points hang together: a cure that changes one value moves every figure that rests on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from validator.judging.outcomes import Outcome
from validator.measures.rows import Known, NotKnown, Row
from validator.measures.tracing import trace
from validator.reporting.points import Point, Points


@dataclass(frozen=True, slots=True)
class Connection:
    """Another point that rests on a value of this one: its number, the value's pointer and what it is called."""

    number: int
    pointer: str
    label: str


def connections(point: Point, points: Points) -> list[Connection]:
    """The other points whose figures rest on a value that this point's figure rests on, each with one such value.

    Heights and places that every figure shares (the floor, a wall) connect nothing: only values of a run, an appliance,
    a point or a fixing can be changed to cure one.
    """
    own = dict(_values(point.outcomes))
    found: list[Connection] = []
    for other in points.points:
        if other.number == point.number:
            continue
        shared = [pointer for pointer in dict(_values(other.outcomes)) if pointer in own]
        if shared:
            found.append(Connection(other.number, shared[0], own[shared[0]]))
    return found


MOVABLE = ("/runs/", "/appliances/", "/points/", "/fixings/", "/worktops/", "/built/")


def _values(outcomes: tuple[Outcome, ...]) -> Iterator[tuple[str, str]]:
    for outcome in outcomes:
        if outcome.row is not None and outcome.rule.figure in outcome.row.figures:
            yield from _leaves(outcome.row, outcome.rule.figure)


def _leaves(row: Row, name: str) -> Iterator[tuple[str, str]]:
    try:
        read = trace(row, name)[1].read
    except NotKnown:
        return
    for known in read.values():
        for value in known.parts or (known,):
            yield from _leaf(value)


def _leaf(value: Known) -> Iterator[tuple[str, str]]:
    if value.origin is not None:
        yield from _leaves(*value.origin)
    elif value.pointer.startswith(MOVABLE):
        yield value.pointer, value.label
