"""What a plan says in one value: a quantity with its doubts, or that it is still to find out."""

from __future__ import annotations

from typing import NamedTuple

from validator.plan.dimensions import Dimension


class Quantity(NamedTuple):
    """A figure as the plan gives it, in base units, with the text as written.

    `low` and `high` differ for a range (`10 to 25`) or for several readings (`[4522, 4518]`); a rule is judged at the
    worse end. `assumed` marks a figure nobody has verified.
    """

    low: float
    high: float
    dimension: Dimension
    text: str
    assumed: bool = False
    readings: tuple[float, ...] = ()

    @property
    def exact(self) -> bool:
        return self.low == self.high


class ToFind(NamedTuple):
    """`to find out by electrician`: nobody knows yet, and who can say."""

    by: str | None
    text: str


class NothingStated(NamedTuple):
    """`none` where a maker's figure could stand: the paper was read, and gives no figure."""

    text: str = "none"
