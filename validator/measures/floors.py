"""Floating floors: gaps at every edge, longest runs, and the base they are laid on."""

from __future__ import annotations

from validator.measures.rows import NAME, TERM, YES_NO, Row, Words, figure, given
from validator.plan.dimensions import LENGTH, MOISTURE


class FloorEdge(Row, kind="edge of a floating floor"):
    """One edge of a floating floor, at a wall or at a fixed thing; `run` is the longest floor that pushes on it."""

    covering: str = given(TERM, "floor")
    gap: float = given(LENGTH, "gap")
    run: float = given(LENGTH, "floor that pushes on it")
    at: str = given(NAME, "what it meets")
    maker_gap: float = given(LENGTH, "gap the maker asks for")


class FloorField(Row, kind="floating floor"):
    """A floating floor in one piece: its greatest length along its boards and across them."""

    covering: str = given(TERM, "floor")
    length_along: float = given(LENGTH, "room along the boards")
    length_across: float = given(LENGTH, "room across the boards")
    maker_longest: float = given(LENGTH, "longest run the maker allows")

    @figure(LENGTH, "length along the boards", start="wall", end="wall")
    def along(self) -> float:
        return self.length_along

    @figure(LENGTH, "length across the boards", start="wall", end="wall")
    def across(self) -> float:
        return self.length_across


class BaseUnderFloor(Row, kind="base under a floor"):
    """The base a floor is to be laid on, with its moisture by the meter that read it."""

    covering: str = given(TERM, "floor")
    base: str = given(TERM, "base")
    reading: float = given(MOISTURE, "moisture")
    meter: str = given(Words(("hygrometer", "carbide", "pin meter", "gypsum scale")), "meter")
    heated: bool = given(YES_NO, "whether the floor is heated")
