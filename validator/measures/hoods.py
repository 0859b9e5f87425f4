"""Hobs and the hoods over them."""

from __future__ import annotations

from validator.measures.rows import Row, Words, figure, given
from validator.plan.dimensions import LENGTH


class HobUnderHood(Row, kind="hob under hood"):
    """A hob and the hood over it; heights from the finished floor.

    Makers measure from different places: `hob_from` and `hood_from` say how far below the pan supports each paper starts.
    """

    fuel: str = given(Words(("gas", "induction", "ceramic", "solid plate")), "fuel of the hob")
    underside: float = given(LENGTH, "hood")
    surface: float = given(LENGTH, "worktop")
    supports: float = given(LENGTH, "pan supports")
    hob_stated: float = given(LENGTH, "hob maker's figure")
    hob_from: float = given(LENGTH, "where it starts, below the pan supports")
    hood_stated: float = given(LENGTH, "hood maker's figure")
    hood_from: float = given(LENGTH, "where it starts, below the pan supports")

    @figure(LENGTH, "clearance", start="pan supports", end="lowest edge of the hood")
    def clearance(self) -> float:
        return self.underside - self.surface - self.supports

    @figure(LENGTH, "what the hob's maker asks", start="pan supports", end="lowest edge of the hood")
    def hob_says(self) -> float:
        return self.hob_stated - self.hob_from

    @figure(LENGTH, "what the hood's maker asks", start="pan supports", end="lowest edge of the hood")
    def hood_says(self) -> float:
        return self.hood_stated - self.hood_from
