"""What the things of a kind have in common: where one of them lacks it, the kind is asked, so that one answer does."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.room.walls import named_gap
from validator.measures.rows import Given
from validator.plan.order import BUILT_IN
from validator.plan.pointers import join
from validator.plan.values import NothingStated

if TYPE_CHECKING:
    from validator.plan.sections.furniture import Item


def asked_at(item: Item, field: str) -> str:
    """The pointer at which a field of a thing stands, or is to be answered: with its kind, where it has one."""
    if getattr(item, field) is not None or item.is_ in BUILT_IN:
        return item.pointer_to(field)
    return join("/kinds", item.is_, field.replace("_", " "))


def of_kind(item: Item, field: str, label: str) -> Given:
    """A length of a thing in a run; 0 where the plan says `none`."""
    value, pointer = getattr(item, field), asked_at(item, field)
    if isinstance(value, NothingStated):
        return reading.exactly(0, pointer, label, "there is none")
    return named_gap(reading.quantity(value, pointer, label), f"{label} of {item.is_}")
