"""Wastes: bore, length and fall."""

from __future__ import annotations

from validator.measures.rows import Row, Words, figure, given
from validator.plan.dimensions import LENGTH, SLOPE


class Drop(Row, kind="drop of a waste"):
    """How a waste falls, from the heights of its ends."""

    drop: float = given(LENGTH, "drop")
    length: float = given(LENGTH, "long")

    @figure(SLOPE, "fall", start="trap", end="stack")
    def fall(self) -> float:
        return self.drop / self.length


class Waste(Row, kind="waste"):
    """A branch from one appliance to the stack or gully, without a vent of its own."""

    appliance: str = given(Words(("sink", "dishwasher", "washing machine")), "what it drains")
    pipe: float = given(LENGTH, "bore")
    length: float = given(LENGTH, "length")
    slope: float = given(SLOPE, "fall")
