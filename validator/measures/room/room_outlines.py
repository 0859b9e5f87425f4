"""Whether rooms close as they were measured: the walk along their walls, and diagonals held against it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import most, root
from validator.measures.room.outline import FEWEST, Outline, corners_of, outline_of
from validator.measures.rows import Given, Known, Missing, Row, Rows, Subject, Why, figure, given
from validator.plan.dimensions import ANGLE, LENGTH, NUMBER

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.rooms import Room


class RoomOutline(Row, kind="room"):
    """A room walked round by its walls and corners as measured, at the middle of several readings.

    The first wall is walked along; `along` and `across` are what the walk misses its start by.
    """

    around: float = given(LENGTH, "length of all walls")
    along: float = given(LENGTH, "missed along the first wall")
    across: float = given(LENGTH, "missed at right angles to it")
    off: float = given(ANGLE, "what the corners miss of enclosing a room")
    crossings: float = given(NUMBER, "walls that cross")

    @figure(LENGTH, "gap", start="end of the last wall", end="start of the first")
    def gap(self) -> float:
        return root(self.along * self.along + self.across * self.across)

    @figure(ANGLE, "corners that do not add up", start="all corners together", end="those of a closed room")
    def corners_off(self) -> float:
        return most(self.off, self.off * -1)


class DiagonalOfRoom(Row, kind="diagonal of a room"):
    """A tape from corner to corner, and what the walls and corners as measured make of it."""

    taped: float = given(LENGTH, "diagonal as taped")
    drawn: float = given(LENGTH, "diagonal by walls and corners")

    @figure(LENGTH, "difference", start="diagonal by walls and corners", end="diagonal as taped")
    def difference(self) -> float:
        return most(self.taped - self.drawn, self.drawn - self.taped)


def rooms_found(site: Site) -> Rows:
    """A row for each room of three walls or more; of fewer a plan has only those that something is built against."""
    rooms = [room for room in site.plan.rooms.values() if len(room.walls) >= FEWEST]
    return Rows([_room(site, room) for room in rooms])


def _room(site: Site, room: Room) -> Row:
    subject = Subject(room.called or "room", room.walls.pointer)
    corners = corners_of(room)
    off: Given = corners.missing or reading.exactly(corners.off, room.corners.pointer, "corners")
    outline = outline_of(site, room)
    if not isinstance(outline, Outline):
        return RoomOutline(subject, around=outline, along=outline, across=outline, crossings=outline, off=off)
    along, across = outline.miss
    return RoomOutline(
        subject,
        around=_known(outline.around, room, "length of all walls", ()),
        along=_known(abs(along), room, "miss along the first wall", outline.assumed),
        across=_known(abs(across), room, "miss at right angles to it", outline.assumed),
        crossings=_known(outline.crossings, room, "walls that cross", ()),
        off=off,
    )


def _known(value: float, room: Room, label: str, assumed: tuple[Known, ...]) -> Known:
    return Known(value, room.walls.pointer, "", label, value, value, bool(assumed), rests_on=assumed)


def diagonals_of_rooms(site: Site) -> Rows:
    """A row for each diagonal that the plan gives."""
    rows = Rows()
    for room in site.plan.rooms.values():
        if room.diagonals:
            outline = outline_of(site, room)
            rows.rows += [_diagonal(room, name, outline) for name in room.diagonals]
    return rows


def _diagonal(room: Room, name: str, outline: Outline | tuple[Missing, ...]) -> Row:
    said, ends = room.diagonals[name], room.between(name)
    drawn: Given = Missing(said.pointer, name, Why.UNCLEAR, detail="it does not run from corner to corner")
    if not isinstance(outline, Outline):
        drawn = outline
    elif ends is not None:
        corner, other = (outline.walls[end].end for end in ends)
        drawn = _known(math.dist(corner, other), room, "diagonal by walls and corners", outline.assumed)
    subject = Subject(name, said.pointer, room.called)
    return DiagonalOfRoom(subject, taped=reading.read(said, "length", f"diagonal {name}"), drawn=drawn)
