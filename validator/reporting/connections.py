"""Which points hang together: a cure that changes one value moves every figure that rests on it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from validator.judging.outcomes import Outcome
from validator.measures.rows import Known, NotKnown, Row
from validator.measures.tracing import trace
from validator.reporting.lines import some
from validator.reporting.points import Point, Points

MOVABLE = ("/runs/", "/appliances/", "/points/", "/fixings/", "/worktops/", "/built/")
"""What can be changed to cure a point. What every figure shares (the floor, a wall) connects nothing."""
MOST_LABELS = 5


class Connection(NamedTuple):
    """A value that other points rest on too: what it is called, its pointer, and their numbers."""

    label: str
    pointer: str
    numbers: tuple[int, ...]


class Moves(NamedTuple):
    """The same points, and all the values that move them: a line of a report, not one for each value."""

    numbers: tuple[int, ...]
    labels: tuple[str, ...]
    pointers: tuple[str, ...]

    @property
    def condition(self) -> str:
        """`if there is a change of legs`, or `if any of these is changed - F1, B1`."""
        if len(self.labels) == 1:
            return f"if there is a change of {self.labels[0]}"
        return f"if any of these is changed: {some(list(self.labels), MOST_LABELS)}"


class Connections:
    """The values of a report's points, each point looked into once."""

    def __init__(self, points: Points) -> None:
        self._values = {point.number: dict(_values(point.outcomes)) for point in points.points}
        self._resting: dict[str, list[int]] = {}
        for number, values in self._values.items():
            for pointer in values:
                self._resting.setdefault(pointer, []).append(number)

    def of(self, point: Point) -> list[Connection]:
        """The values of this point's figures on which the figures of other points rest as well."""
        by_label: dict[str, Connection] = {}
        for pointer, label in self._values[point.number].items():
            others = [number for number in self._resting[pointer] if number != point.number]
            if others:
                before = by_label.get(label, Connection(label, pointer, ()))
                by_label[label] = Connection(label, before.pointer, tuple(sorted({*before.numbers, *others})))
        return list(by_label.values())

    def together(self, point: Point) -> list[Moves]:
        """The same, those that move the same points in one."""
        by_numbers: dict[tuple[int, ...], list[Connection]] = {}
        for connection in self.of(point):
            by_numbers.setdefault(connection.numbers, []).append(connection)
        return [
            Moves(numbers, tuple(each.label for each in found), tuple(each.pointer for each in found))
            for numbers, found in by_numbers.items()
        ]


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
    elif value.text and not value.note and value.pointer.startswith(MOVABLE):  # a table's figure is nobody's to change
        yield value.pointer, value.label
