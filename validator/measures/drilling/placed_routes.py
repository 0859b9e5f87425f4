"""Routes on their walls: corners, straight pieces, and how deep they lie, as plain figures for the search."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from validator.measures.rows import Given, Known, Missing

if TYPE_CHECKING:
    from validator.plan.sections.drilling import Route

SETTLED = ("photo", "opened up")
"""How a route is known for sure: somebody has seen it. All else only says where to look for it."""


class Spot(NamedTuple):
    """A corner of a route as plain figures: along, up, and how far it may be off."""

    x: float
    y: float
    off: float


class Leg(NamedTuple):
    """A straight piece of a route between two corners; `off` is how far any place of it may be off."""

    of: PlacedRoute
    start: Spot
    end: Spot
    off: float

    @property
    def aslant(self) -> float:
        """How far it is off upright and off level, whichever is less."""
        return min(abs(self.end.x - self.start.x), abs(self.end.y - self.start.y))

    def away(self, x: float, y: float) -> float:
        """From a place on the wall to the nearest of the piece."""
        (ax, ay, _), (bx, by, _) = self.start, self.end
        dx, dy = bx - ax, by - ay
        whole = dx * dx + dy * dy
        share = min(1.0, max(0.0, ((x - ax) * dx + (y - ay) * dy) / whole)) if whole else 0.0
        return math.hypot(x - ax - share * dx, y - ay - share * dy)


class PlacedRoute(NamedTuple):
    """A route on its wall: its corners, or what has to be found out before all of them are known.

    `deep` is from the face of the wall it is looked at from, which may be the other one than it is recorded on.
    """

    name: str
    route: Route
    wall: str
    spots: tuple[Spot, ...]
    gaps: tuple[Missing, ...]
    deep: Given

    @property
    def least_deep(self) -> float:
        """How far below the face of its wall it lies at least, for sure; 0 where nobody has seen that."""
        return float(self.deep.low or 0.0) if self.settled and isinstance(self.deep, Known) else 0.0

    @property
    def settled(self) -> bool:
        """Whether somebody has seen it."""
        return self.route.known_by in SETTLED

    @property
    def group(self) -> tuple[str, bool, bool]:
        """What it is told apart by: what it is, whether somebody has seen it, and whether its place is open."""
        what = self.route.is_ if isinstance(self.route.is_, str) else ""
        return what, self.settled, bool(self.gaps)

    def legs(self) -> list[Leg]:
        if self.gaps:
            return []
        return [Leg(self, start, end, max(start.off, end.off)) for start, end in pairwise(self.spots)]
