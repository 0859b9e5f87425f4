"""Which points hang together: a cure that changes one value moves every figure that rests on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from validator.judging.outcomes import Outcome
from validator.measures.rows import Known, NotKnown, Row
from validator.measures.tracing import trace
from validator.reporting.points import Point, Points

MOVABLE = ("/runs/", "/appliances/", "/points/", "/fixings/", "/worktops/", "/built/")
"""What can be changed to cure a point. What every figure shares (the floor, a wall) connects nothing."""


@dataclass(frozen=True, slots=True)
class Connection:
    """A value that other points rest on too: what it is called, its pointer, and their numbers."""

    label: str
    pointer: str
    numbers: tuple[int, ...]


def connections(point: Point, points: Points) -> list[Connection]:
    """The values of this point's figures on which the figures of other points rest as well."""
    own = dict(_values(point.outcomes))
    shared: dict[str, list[int]] = {}
    for other in points.points:
        if other.number != point.number:
            for pointer in dict(_values(other.outcomes)).keys() & own.keys():
                shared.setdefault(pointer, []).append(other.number)
    by_label: dict[str, Connection] = {}
    for pointer in own:
        if pointer in shared:
            label = own[pointer]
            before = by_label.get(label, Connection(label, pointer, ()))
            numbers = tuple(sorted({*before.numbers, *shared[pointer]}))
            by_label[label] = Connection(label, before.pointer, numbers)
    return list(by_label.values())


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
    elif value.text and value.pointer.startswith(MOVABLE):
        yield value.pointer, value.label
