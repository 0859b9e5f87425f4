"""Drill points: each hole that the plan leads to, with the strip most dangerous to it and the edges of its wall."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import least
from validator.measures.drilling.strips import FIELDS, RUNS, Source, StripsOfWall, strip_fields
from validator.measures.room.slopes import ceiling_at
from validator.measures.room.walls import at_left, at_right, difference, length_of
from validator.measures.rows import (
    NAME,
    YES_NO,
    Given,
    Known,
    LeftOut,
    Missing,
    Row,
    Rows,
    Words,
    figure,
    given,
)
from validator.measures.services.point_places import PlacedPoint
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.drilling.holes import Hole
    from validator.measures.site import Site


class DrillPoint(Row, kind="drill point"):
    """One hole in a wall with the strip nearest to it that a cable may run in.

    The strip runs upright or level from a point, as wide as its plate; all four ways where the plan does not say which
    way the cable goes. `aside` is from the middle of the strip to the middle of the hole, across the strip. `has_strip`
    is whether any cable may run there at all: where none may, the fields of the strip are not there, so a rule about
    the strip asks for it in its `when`. `has_corner` is whether an end of the wall is a corner into the room, beside
    which cables may run; `to_corner` is from the nearer one of those.
    """

    along: float = given(LENGTH, "hole along the wall")
    up: float = given(LENGTH, "hole above the bare floor")
    has_strip: bool = given(YES_NO, "whether a cable may run near it")
    aside: float = given(LENGTH, "hole from the middle of the strip")
    half_strip: float = given(LENGTH, "half the plate")
    strip_of: str = given(NAME, "point whose cable may run there")
    runs: str = given(Words(RUNS), "how the strip runs")
    ceiling: float = given(LENGTH, "ceiling above the bare floor")
    finished_floor: float = given(LENGTH, "finished floor above the bare floor")
    has_corner: bool = given(YES_NO, "whether an end of its wall is a corner into the room")
    to_corner: float = given(LENGTH, "nearer corner of the wall")
    to_end: float = given(LENGTH, "nearer end of the wall")

    @figure(LENGTH, "clear of the strip", start="edge of the strip", end="middle of the hole")
    def clear_of_strip(self) -> float:
        return self.aside - self.half_strip

    @figure(LENGTH, "below the ceiling", start="top of the wall", end="middle of the hole")
    def below_ceiling(self) -> float:
        return self.ceiling - self.up

    @figure(LENGTH, "height above the finished floor", start="finished floor", end="middle of the hole")
    def above_floor(self) -> float:
        return self.up - self.finished_floor

    @figure(LENGTH, "inside its wall", start="nearest edge of the wall", end="middle of the hole")
    def inside_wall(self) -> float:
        return least(self.to_end, self.up, self.below_ceiling)


def drill_points(site: Site) -> Rows:
    """A row for each hole of the plan."""
    rows = Rows([_row(site, hole) for hole in site.holes.all])
    if site.plan.runs.left_out:
        rows.left_out = [LeftOut(DrillPoint.kind, Missing("/runs", "runs of units"))]
    return rows


def _row(site: Site, hole: Hole) -> DrillPoint:
    return DrillPoint(
        hole.subject,
        along=hole.along,
        up=hole.up,
        ceiling=ceiling_at(site, hole.wall, hole.along),
        finished_floor=site.levels.at(hole.wall).finished_floor,
        **_ends_of_wall(site, hole),
        **_nearest_strip(site, hole),
    )


def _ends_of_wall(site: Site, hole: Hole) -> dict[str, Given]:
    """From the hole to the nearer end of its wall, and to the nearer of its corners into the room."""
    from_right = difference(length_of(site.plan, hole.wall), hole.along, hole.subject, "to the right end of the wall")
    ends = {at_left: hole.along, at_right: from_right}
    inside = [place for beside, place in ends.items() if not _is_outside(site, hole.wall, beside(site.plan, hole.wall))]
    found: dict[str, Given] = {"to_end": _nearer(list(ends.values()))}
    label, pointer = "whether an end of its wall is a corner into the room", site.plan.walls.pointer
    found["has_corner"] = reading.exactly(bool(inside), pointer, label)
    if inside:
        found["to_corner"] = _nearer(inside)
    return found


def _is_outside(site: Site, wall: str, other: str | None) -> bool:
    """Whether a corner sticks into the room; where the plan says nothing of it, it does not."""
    room = site.plan.room_of(wall)
    corner = room.corner_at(wall, other) if room is not None and other is not None else None
    return corner is not None and corner.outside


def _nearer(places: list[Given]) -> Given:
    """The one of some distances that may be least; the first that is not known, where one is not."""
    known = [place for place in places if isinstance(place, Known)]
    if len(known) < len(places):
        return next(place for place in places if not isinstance(place, Known))
    return min(known, key=lambda place: float(place.low or 0.0))


def _nearest_strip(site: Site, hole: Hole) -> dict[str, Given]:
    """The fields of the strip most dangerous to a hole; nobody knows of strips while the plan leaves out its points."""
    points = site.plan.points
    if points.left_out:
        return dict.fromkeys(FIELDS, Missing(points.pointer, "sockets, switches and connection units"))
    return strip_fields(site.strips.on(hole.wall), hole, points.pointer)


class Strips:
    """The strips of every wall from the points on it, put in order once a wall."""

    def __init__(self, site: Site) -> None:
        self._site = site
        self._walls: dict[str, StripsOfWall] = {}

    def on(self, wall: str) -> StripsOfWall:
        """The strips of a wall, with those of points of which nobody knows the wall."""
        key = fold(wall)
        if key not in self._walls:
            by_wall = self._site.points.by_wall
            placed = by_wall.get(key, []) + (by_wall.get("", []) if key else [])
            self._walls[key] = StripsOfWall(self.source(point) for point in placed)
        return self._walls[key]

    def source(self, placed: PlacedPoint) -> Source:
        """A point as the start of strips."""
        points, name = self._site.points, placed.name
        return Source(
            name,
            placed.point.pointer,
            placed.along,
            points.height(name),
            points.half_plate(name, "w"),
            points.half_plate(name, "h"),
            placed.point.cable,
        )
