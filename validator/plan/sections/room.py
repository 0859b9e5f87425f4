"""Layers, walls, ceiling and floor as found, and the floors to be laid on it."""

from __future__ import annotations

from typing import Literal

from validator.plan.elements import Element
from validator.plan.fields import Date, Height, Length, Moisture, Size, Term


class Layer(Element):
    """One layer of a wall or floor, room side first: `dabs 10 to 25`."""

    material: Term
    thickness: Length | None = None


class Wall(Element):
    """A wall; the walls of a room are listed clockwise, seen from above. Facing it, the one before stands at the left."""

    made_of: Term | None = None
    length: Length | None = None


class Ceiling(Element):
    height: Height | None = None


class MoistureReading(Element):
    """A reading with its meter: `78 % by hygrometer`, `2.1 % by carbide`, `9 % by pin meter`."""

    reading: Moisture | None = None
    meter: Literal["hygrometer", "carbide", "pin meter", "gypsum scale"] | None = None
    taken: Date | None = None


class Floor(Element):
    """The floor as found. Levels: how far each spot lies below the high spot, `9 low`; the high spot itself is 0."""

    made_of: Term | None = None
    levels: dict[str, Length] | None = None
    moisture: MoistureReading | None = None
    heated: bool | None = None


class Covering(Element):
    """A floor to be laid: `laminate: {thickness: 8, underlay: 3, laid: after units, gap: 10}`. `is` is the name if left out."""

    is_: Term | None = None
    thickness: Length | None = None
    underlay: Length | None = None
    sheet: Length | None = None
    laid: Literal["before units", "after units"] | None = None
    gap: Length | None = None
    fixed: dict[str, Length] | None = None  # gap left at each fixed thing, by its name
    board: Size | None = None
    runs: str | None = None  # "north to south": from which wall to which the boards run
    moved_by: Literal["humid air", "heated floor"] | None = None
