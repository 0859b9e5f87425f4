"""Routes recorded on the wall at the back of another: what runs in one face of a wall lies in the other one's way."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from validator.measures.arithmetic import total
from validator.measures.drilling.holes_beyond import Behind, other_faces, seen_from, thinnest
from validator.measures.drilling.placed_routes import PlacedRoute, Spot
from validator.measures.drilling.strips import ends_of
from validator.measures.room.walls import worked
from validator.measures.rows import Known, Row, Subject, figure, gaps_of, given
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.site import Site


class FromOtherFace(Row, kind="route seen from the other face"):
    """How deep a route lies for somebody who drills from the face of the wall that it is not recorded on."""

    layers: tuple[float, ...] = given(LENGTH, "layers of the wall", many=True)
    deep: float = given(LENGTH, "below the other face")

    @figure(LENGTH, "below this face", start="face of the wall", end="route")
    def deep_from_here(self) -> float:
        return total(self.layers) - self.deep


def routes_behind(site: Site, routes: Sequence[PlacedRoute]) -> Iterator[PlacedRoute]:
    """Each route once more for every wall at whose back it is recorded, as it lies in that wall."""
    walls = site.plan.walls
    if not routes or not any(wall.other_face is not None for wall in walls.values()):
        return
    for name in walls:
        for behind in other_faces(site, name):
            for placed in routes:
                if fold(placed.wall) == fold(behind.wall):
                    yield _seen_from(site, name, behind, placed)


def _seen_from(site: Site, wall: str, behind: Behind, placed: PlacedRoute) -> PlacedRoute:
    pointer, spots, gaps = placed.route.pointer, [], list(placed.gaps)
    subject = Subject(placed.name, pointer, f"{wall} wall", wall)
    for x, y, off in placed.spots:
        there = (Known(at, pointer, "", placed.name, low=at - off, high=at + off) for at in (x, y))
        along, up = seen_from(site, wall, behind, subject, *there)
        here, high = ends_of(along), ends_of(up)
        if here is None or high is None:
            gaps += gaps_of(along, up)
        else:
            doubt = math.hypot((here[1] - here[0]) / 2, (high[1] - high[0]) / 2)
            spots.append(Spot((here[0] + here[1]) / 2, (high[0] + high[1]) / 2, doubt))
    thick = thinnest(site, site.make_ups.at(wall))
    deep = worked(FromOtherFace(subject, layers=thick, deep=placed.deep), "deep_from_here", "depth of it")
    name = f"{placed.name} in the other face"
    return PlacedRoute(name, placed.route, wall, tuple(spots), tuple(dict.fromkeys(gaps)), deep)
