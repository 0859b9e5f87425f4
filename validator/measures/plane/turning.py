"""Room to turn in: the largest circle free of everything that stands on the floor, where a plan asks for access."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures.plane.footprints import AT_MOST, HIGH, drawn
from validator.measures.rows import Given, Missing, Row, Rows, Subject, figure, given
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.plane.footprints import Footprint
    from validator.measures.plane.wall_lines import WallLine
    from validator.measures.site import Site
    from validator.plan.rooms import Room

WITHIN = 0.05
"""How near the circle comes to the largest there is, in mm."""


class RoomToTurn(Row, kind="room to turn in"):
    """A room with runs in a plan that asks for access: the largest circle on its floor that nothing stands in."""

    drawn: float = given(LENGTH, "by the drawing")

    @figure(LENGTH, "circle to turn in", start="one side", end="other side")
    def circle(self) -> float:
        return self.drawn


def rooms_to_turn_in(site: Site) -> Rows:
    """A row for each room in which a run stands, where the plan asks for access; else none."""
    if site.plan.project.accessible in (None, "no"):
        return Rows()
    kitchens = {room.name for name in site.plan.runs if (room := site.plan.room_of(name)) is not None}
    rooms = [room for room in site.plan.rooms.values() if room.name in kitchens]
    return Rows([RoomToTurn(Subject(room.called or "room", room.pointer), drawn=_circle(site, room)) for room in rooms])


def _circle(site: Site, room: Room) -> Given:
    plane, pointer = site.plane, room.walls.pointer
    missing = tuple(gap for wall in room.walls for gap in plane.undrawn.get(wall, ()))
    missing += tuple(gap for thing in plane.unplaced if thing.room in (room.name, "") for gap in thing.missing)
    lines = [plane.lines[wall] for wall in room.walls if wall in plane.lines]
    if not missing and not (lines and all(line.following for line in lines)):
        missing = (Missing(pointer, "walls that close the room"),)
    if missing:
        return tuple(dict.fromkeys(missing))
    footprints = [thing for thing in plane.footprints if thing.line.room == room.name and thing.layers != HIGH]
    things = [thing for thing in footprints if thing.run or thing.face or thing.no_face]  # bare walls are the outline
    found, near = _largest(lines, things)
    gaps = tuple(dict.fromkeys(gap for thing in near for gap in thing.no_face + thing.no_handle))
    if gaps:
        return gaps
    slack = 2 * max((thing.slack for thing in near), default=0.0) + max(line.of_room for line in lines)
    assumed = tuple(one for line in lines for one in line.assumed)
    assumed += tuple(one for thing in things for one in thing.assumed)
    return drawn(found, min(slack, found), pointer, "by the drawing", assumed)


def _largest(lines: list[WallLine], things: list[Footprint]) -> tuple[float, list[Footprint]]:
    """The width of the largest free circle, and what stands so near it that an unknown handle would count.

    The library for it is loaded only where a plan asks for access.
    """
    from shapely import Point, Polygon, union_all
    from shapely.ops import polylabel

    taken = [Polygon(thing.shape.corners) for thing in things]
    free = Polygon([line.start for line in lines]).difference(union_all(taken))
    parts = [part for part in getattr(free, "geoms", [free]) if not part.is_empty]
    best, middle = 0.0, Point(0, 0)
    for part in parts:
        label = polylabel(part, tolerance=WITHIN)
        radius = label.distance(part.boundary)
        if radius > best:
            best, middle = radius, label
    near = [thing for thing, shape in zip(things, taken, strict=True) if middle.distance(shape) < best + AT_MOST]
    return 2 * best, near
