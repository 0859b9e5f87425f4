"""Drill points, derived from hangers, and the strips in which cables may run."""

from __future__ import annotations

from validator.measures.rows import NAME, Row, Words, figure, given
from validator.plan.dimensions import LENGTH


class DrillPoint(Row, kind="drill point"):
    """One hole in a wall with the strip nearest to it that a cable may run in.

    The strip runs upright or level from a point, as wide as its plate, where the plan does not say which way its cable goes
    both ways and all ways. `aside` is from the middle of the strip to the middle of the hole, across the strip.
    """

    along: float = given(LENGTH, "hole along the wall")
    up: float = given(LENGTH, "hole above the bare floor")
    aside: float = given(LENGTH, "hole from the middle of the strip")
    half_strip: float = given(LENGTH, "half the plate")
    strip_of: str = given(NAME, "point whose cable may run there")
    runs: str = given(Words(("upright", "level")), "how the strip runs")
    ceiling: float = given(LENGTH, "ceiling above the bare floor")
    to_corner: float = given(LENGTH, "nearer end of the wall")

    @figure(LENGTH, "clear of the strip", start="edge of the strip", end="middle of the hole")
    def clear_of_strip(self) -> float:
        return self.aside - self.half_strip

    @figure(LENGTH, "below the ceiling", start="top of the wall", end="middle of the hole")
    def below_ceiling(self) -> float:
        return self.ceiling - self.up
