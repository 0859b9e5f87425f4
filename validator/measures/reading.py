"""From the values of a plan to the values of a row: each with its pointer, its text as written and its doubts."""

from __future__ import annotations

from validator.measures.rows import Given, Known, Missing, Why
from validator.plan.elements import Element
from validator.plan.values import NothingStated, Quantity, ToFind

Written = Quantity | ToFind | NothingStated | None


def quantity(value: Written, pointer: str, label: str, *, absent: Why = Why.LEFT_OUT) -> Given:
    """A quantity of the plan as a value for a row; `absent` says what it means that the plan has none."""
    match value:
        case Quantity():
            return Known(value.low, pointer, value.text, label, low=value.low, high=value.high, assumed=value.assumed)
        case ToFind():
            return Missing(pointer, label, Why.TO_FIND, value.by)
        case NothingStated():
            return Missing(pointer, label, Why.NOTHING_STATED)
        case None:
            return Missing(pointer, label, absent)


def read(element: Element, field: str, label: str) -> Given:
    """The quantity in a field of an element, for a row."""
    return quantity(getattr(element, field), element.pointer_to(field), label)


def stated(value: Written, pointer: str, label: str) -> Given:
    """A maker's figure: left out and to find out both mean that nobody has read the paper."""
    found = quantity(value, pointer, label, absent=Why.UNREAD)
    if isinstance(found, Missing) and found.why is Why.TO_FIND:
        return Missing(pointer, label, Why.UNREAD, found.by)
    return found


def word(value: str | bool | ToFind | None, pointer: str, label: str) -> Given:
    """A word or a yes/no of the plan as a value for a row."""
    if value is None:
        return Missing(pointer, label)
    if isinstance(value, ToFind):
        return Missing(pointer, label, Why.TO_FIND, value.by)
    return Known(value, pointer, str(value), label)


def exactly(value: float | str | bool, pointer: str, label: str, note: str = "") -> Known:
    """A value that follows from what the plan says without a sum (a 0 where there is no floor)."""
    number = float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None
    return Known(value if number is None else number, pointer, "", label, low=number, high=number, note=note)


def parts(values: list[Given]) -> Given:
    """Several values as one list field: known only when every one is."""
    missing: list[Missing] = []
    for value in values:
        if isinstance(value, Missing):
            missing.append(value)
        elif not isinstance(value, Known):
            missing.extend(value)
    if missing:
        return tuple(missing)
    known = tuple(value for value in values if isinstance(value, Known))
    return Known(tuple(value.value for value in known), parts=known)
