"""Walls, floors and ceilings as found: how far out of plumb, flat and level they are."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import least, most
from validator.measures.room.walls import length_of, named_gap
from validator.measures.rows import Given, Known, Missing, Row, Rows, Subject, figure, gaps_of, given
from validator.plan.dimensions import LENGTH
from validator.plan.values import Quantity

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.rooms import Room
    from validator.plan.sections.room import Flatness

USUAL_EDGE = 2000.0
"""The straight edge of a flatness that names none."""


class WallPlumb(Row, kind="wall held plumb"):
    """A wall held against a level or a plumb line: its lean over a height, and the storey it stands in."""

    lean: float = given(LENGTH, "lean")
    over: float = given(LENGTH, "height it was held over")
    storey: float = given(LENGTH, "height of the room")

    @figure(LENGTH, "lean in the storey", start="foot of the wall, plumb", end="wall at the ceiling")
    def in_storey(self) -> float:
        return self.lean / self.over * self.storey


class UnderStraightEdge(Row, kind="wall under a straight edge"):
    """A wall under a straight edge: the widest gap between the two."""

    gap: float = given(LENGTH, "gap under the straight edge")
    under: float = given(LENGTH, "straight edge")


class FloorUnderStraightEdge(Row, kind="floor under a straight edge"):
    """A floor under a straight edge: the widest gap between the two."""

    gap: float = given(LENGTH, "gap under the straight edge")
    under: float = given(LENGTH, "straight edge")


class WallReadings(Row, kind="wall measured more than once"):
    """The readings of a wall's length, at several heights or by several people."""

    readings: tuple[float, ...] = given(LENGTH, "readings", many=True)

    @figure(LENGTH, "difference of the readings", start="shortest reading", end="longest reading")
    def spread(self) -> float:
        return most(self.readings) - least(self.readings)


class CeilingLevel(Row, kind="ceiling measured more than once"):
    """The readings of a ceiling's height, all from the bare floor, and the longest wall of the room."""

    readings: tuple[float, ...] = given(LENGTH, "readings", many=True)
    across: float = given(LENGTH, "longest wall")

    @figure(LENGTH, "difference of the readings", start="lowest reading", end="highest reading")
    def spread(self) -> float:
        return most(self.readings) - least(self.readings)


class FloorLevel(Row, kind="floor as found"):
    """How far a floor falls over a room, and the longest wall of that."""

    fall: float = given(LENGTH, "fall of the floor")
    across: float = given(LENGTH, "longest wall")


def walls_held_plumb(site: Site) -> Rows:
    """A row for each wall that was held plumb, or is to be. A wall nobody speaks of is scribed to as it comes."""
    rows = Rows()
    for room in site.plan.rooms.values():
        for name, wall in room.walls.items():
            if wall.plumb is None:
                continue
            storey = site.levels.of(room).ceiling
            over = storey if wall.plumb.over is None else reading.read(wall.plumb, "over", "height it was held over")
            way = f", its top leaning {wall.plumb.way}" if wall.plumb.way else ""
            rows.rows.append(
                WallPlumb(
                    Subject(f"{name} wall", wall.plumb.pointer, f"{name} wall{way}", name),
                    lean=named_gap(reading.read(wall.plumb, "lean", "lean"), f"lean of the {name} wall"),
                    over=over,
                    storey=storey,
                )
            )
    return rows


def walls_under_straight_edges(site: Site) -> Rows:
    """A row for each wall that was held under a straight edge, or is to be."""
    rows = Rows()
    for name, wall in site.plan.walls.items():
        if wall.flatness is not None:
            subject = Subject(f"{name} wall", wall.flatness.pointer, wall=name)
            rows.rows.append(UnderStraightEdge(subject, **_gap(wall.flatness, f"the {name} wall")))
    return rows


def floors_under_straight_edges(site: Site) -> Rows:
    """A row for each room whose floor was held under a straight edge, or is to be."""
    rows = Rows()
    for room in _each_floor(site):
        assert room.floor is not None
        if room.floor.flatness is not None:
            subject = Subject("floor", room.floor.flatness.pointer, room.called)
            rows.rows.append(FloorUnderStraightEdge(subject, **_gap(room.floor.flatness, "the floor")))
    return rows


def _gap(flatness: Flatness, of: str) -> dict[str, Given]:
    under: Given = reading.exactly(USUAL_EDGE, flatness.pointer, "straight edge", "the usual one")
    if flatness.under is not None:
        under = reading.read(flatness, "under", "straight edge")
    return {
        "gap": named_gap(reading.read(flatness, "gap", "gap"), f"gap under a straight edge on {of}"),
        "under": under,
    }


def walls_measured_again(site: Site) -> Rows:
    """A row for each wall with several readings of its length."""
    rows = Rows()
    for name, wall in site.plan.walls.items():
        found = _readings(wall.length, wall.pointer_to("length"))
        if found:
            subject = Subject(f"{name} wall", wall.pointer_to("length"), wall=name)
            rows.rows.append(WallReadings(subject, readings=reading.parts(found)))
    return rows


def ceilings_measured_again(site: Site) -> Rows:
    """A row for each room with several readings of its ceiling."""
    rows = Rows()
    seen: set[str] = set()
    for room in site.plan.rooms.values():
        if room.ceiling is None or room.ceiling.height is None or room.ceiling.pointer in seen:
            continue
        seen.add(room.ceiling.pointer)
        pointer = room.ceiling.pointer_to("height")
        found = _readings(room.ceiling.height.amount, pointer)
        if found:
            subject = Subject("ceiling", pointer, room.called)
            across = _longest_wall(site, room)
            rows.rows.append(CeilingLevel(subject, readings=reading.parts(found), across=across))
    return rows


def floors_as_found(site: Site) -> Rows:
    """A row for each room with levels of its floor; where there are none, each unit on legs asks for them."""
    rows = Rows()
    for room in _each_floor(site):
        assert room.floor is not None
        if room.floor.levels is not None:
            subject = Subject("floor", room.floor.pointer_to("levels"), room.called)
            fall, across = site.levels.of(room).fall, _longest_wall(site, room)
            rows.rows.append(FloorLevel(subject, fall=fall, across=across))
    return rows


def _each_floor(site: Site) -> list[Room]:
    """The rooms with a floor as found; one that stands at the top for several rooms counts with the first."""
    found: dict[str, Room] = {}
    for room in site.plan.rooms.values():
        if room.floor is not None:
            found.setdefault(room.floor.pointer, room)
    return list(found.values())


def _longest_wall(site: Site, room: Room) -> Given:
    lengths = [length_of(site.plan, wall) for wall in room.walls]
    gaps = gaps_of(*lengths)
    known = [length for length in lengths if isinstance(length, Known)]
    if gaps or not known:
        return gaps or Missing(room.walls.pointer, "walls of the room")
    return max(known, key=lambda length: length.low or 0.0)


def _readings(value: object, pointer: str) -> list[Given]:
    """Several readings one by one; nothing where there is one, or none."""
    if not isinstance(value, Quantity) or len(value.readings or ()) < 2:
        return []
    return [Known(each, pointer, "", "reading", low=each, high=each) for each in value.readings]
