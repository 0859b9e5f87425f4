"""Values of a plan and figures of its rows as cells of a sheet."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from validator.judging.outcomes import Outcome, Result
from validator.measures.room.walls import at_left, at_right
from validator.measures.rows import Given, Known, NotKnown, Row
from validator.measures.tracing import all_missing
from validator.plan.dimensions import LENGTH, Dimension
from validator.plan.elements import Element
from validator.plan.fields import Along, Height, Size
from validator.plan.names import fold
from validator.plan.plan import Plan
from validator.plan.values import NothingStated, Quantity, ToFind
from validator.reporting.printing import Printer

OPEN = "not known"
NONE = "–"


class Cell(NamedTuple):
    """What stands in one cell; `blank` is left open to be written in on site, `strong` is what is set out by."""

    text: str
    blank: bool = False
    strong: bool = False


def given(value: Given, printer: Printer, *, unit: bool = False) -> str:
    """A length that a measure found, with both ends of its range: `3568 to 3571`."""
    doubt = ", assumed" if isinstance(value, Known) and value.assumed else ""
    return printer.given(value, OPEN, unit=unit) + doubt


def of_row(row: Row, name: str, printer: Printer, *, unit: bool = False) -> str | None:
    """A field or figure of a row with both ends of its range; None for what it does not have at all."""
    figure, declared = row.figures.get(name), row.fields.get(name)
    if figure is None and (declared is None or (name not in row.known and name not in row.missing)):
        return None
    type = figure.dimension if figure is not None else declared.type if declared is not None else None
    if all_missing(row, name) if figure is not None else name not in row.known:
        return OPEN
    try:
        values = [getattr(corner, name) for corner in row.corners()]
    except NotKnown:
        return OPEN
    known = row.known.get(name)
    doubt = ", assumed" if known is not None and known.assumed else ""
    if isinstance(values[0], float) and isinstance(type, Dimension):
        return printer.ends(min(values), max(values), type, unit=unit) + doubt
    if isinstance(values[0], tuple):
        return ", ".join(printer.value(value, type) for value in values[0]) + doubt
    if isinstance(values[0], str) and known is not None and known.text:
        return known.text if declared is not None and not isinstance(type, Dimension) else known.text + doubt
    return printer.value(values[0], type) + doubt


def written(value: object, printer: Printer) -> str:
    """A value of the plan in its own units: a quantity, a size, a word, or an element by its parts."""
    match value:
        case None:
            return NONE
        case bool():
            return printer.value(value, None)
        case ToFind():
            return OPEN
        case NothingStated():
            return "none"
        case Quantity():
            doubt = ", assumed" if value.assumed else ""
            return printer.ends(value.low, value.high, value.dimension) + doubt
        case Size(w=Quantity() as wide, h=Quantity() as high, d=None):
            return f"{written(wide, printer)} x {written(high, printer)}"
        case Size():
            sides = (("w", value.w), ("h", value.h), ("d", value.d))
            return " x ".join(f"{written(side, printer)} {letter}" for letter, side in sides if side is not None)
        case Along():
            return f"{written(value.amount, printer)} from {value.from_}"
        case Height():
            datum = f" {value.relation} {value.datum}" if value.datum else ""
            return f"{written(value.amount, printer)}{datum}"
        case Element():
            return ", ".join(_parts(value, printer)) or NONE
        case tuple() | list():
            return ", ".join(written(part, printer) for part in value) or NONE
    return str(value)


def _parts(element: Element, printer: Printer) -> Iterator[str]:
    for name in type(element).model_fields:
        value = getattr(element, name)
        if value is not None and name != "note":
            yield f"{name.rstrip('_').replace('_', ' ')} {written(value, printer)}"


def left_of(plan: Plan, wall: str) -> str:
    """From where places along a wall count, in words: the wall that meets its left end as one faces it."""
    beside = at_left(plan, wall)
    return f"{beside}, at your left" if beside is not None else "its left end"


def right_of(plan: Plan, wall: str) -> str:
    beside = at_right(plan, wall)
    return f"{beside}, at your right" if beside is not None else "its right end"


class Binding:
    """How far each thing may move before a rule about it would not be met any more."""

    MOST = 2

    def __init__(self, outcomes: tuple[Outcome, ...], numbers: dict[int, int], printer: Printer) -> None:
        self._printer = printer
        self._numbers = numbers
        self._by_thing: dict[str, list[Outcome]] = {}
        for outcome in outcomes:
            if outcome.rule.dimension is not None and outcome.rule.dimension.same_as(LENGTH) and outcome.checks:
                self._by_thing.setdefault(fold(outcome.subject.name), []).append(outcome)

    def says(self, name: str, otherwise: str, *, held_in: str = "") -> str:
        """`room to move: 3 (Room for plug and flex above the worktop)`; what is not met or agreed comes first.

        `otherwise` is said of what no rule holds.
        """
        about = sorted(self._by_thing.get(fold(name), ()), key=lambda outcome: -outcome.short)
        held = [f"stays inside {held_in}"] if held_in else []
        wrong = [outcome for outcome in about if outcome.result is Result.NOT_MET]
        agreed = [outcome for outcome in about if outcome.result is Result.AGREED]
        if wrong:
            numbers = sorted({self._numbers[id(outcome)] for outcome in wrong if id(outcome) in self._numbers})
            said = ", ".join(map(str, numbers))
            return "; ".join([f"binds: point {said} is open", *held])
        if agreed:
            titles = dict.fromkeys(self._printer.text(outcome.rule.title) for outcome in agreed)
            return "; ".join(["binds: agreed (" + ", ".join(titles) + ")", *held])
        spare: dict[str, str] = {}
        for outcome in about:
            title = self._printer.text(outcome.rule.title)
            if outcome.result is Result.MET and title not in spare:
                spare[title] = self._printer.value(max(0.0, -outcome.short), LENGTH)
        room = ", ".join(f"{much} ({title})" for title, much in list(spare.items())[: self.MOST])
        return "; ".join([*held, *([f"room to move: {room}"] if room else [])]) or otherwise
