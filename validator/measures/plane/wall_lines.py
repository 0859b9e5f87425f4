"""Where each wall of a room lies in its plane, in mm, with the room's first wall along the first axis."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from validator.measures.plane.shapes import Point, Shape, four_sided
from validator.measures.room.outline import FEWEST, OutlineWall, corners_of, middle, walked
from validator.measures.room.walls import length_of
from validator.measures.rows import Known, Missing, Why, assumed_among, gaps_of
from validator.plan.plan import Plan
from validator.plan.rooms import Room

THICK = 100.0
"""How thick a wall is drawn behind its face. What would stand deeper in it than this counts as this deep."""


ROOMS_APART = 1e6
"""How far the first walls of two rooms are drawn apart; nothing in a house is as wide."""


class WallLine(NamedTuple):
    """A wall seen from above: its left end, the unit direction to its right end, and the one into the room.

    `following` is the wall at its right end, `slack` how far its length may be off, `of_room` how far those of all may
    be together; `assumed` are the figures behind the drawing that nobody has verified.
    """

    name: str
    room: str
    following: str
    start: Point
    along: Point
    inward: Point
    length: float
    slack: float = 0.0
    of_room: float = 0.0
    assumed: tuple[Known, ...] = ()

    def at(self, along: float, out: float) -> Point:
        """The point so far from the left end and so far out from the face of the wall."""
        (x, y), (ax, ay), (ix, iy) = self.start, self.along, self.inward
        return (x + along * ax + out * ix, y + along * ay + out * iy)

    def part(self, left: float, right: float, near: float, far: float) -> Shape:
        """What lies between two places along the wall and two distances out from it."""
        return four_sided((self.at(left, near), self.at(right, near), self.at(right, far), self.at(left, far)))

    def slack_to(self, other: WallLine, *, wall_itself: bool = False) -> float:
        """How far places along this wall may be off as seen from another, besides what each of them is off.

        Places count from left ends, so that only the wall left of a corner makes them uncertain there; `wall_itself` is
        for the face of the other wall, which passes through the corner wherever that is.
        """
        if other.name == self.name:
            return 0.0
        if other.name == self.following:
            return self.slack
        if self.name == other.following:
            return 0.0 if wall_itself else other.slack
        return self.of_room


class Drawn(NamedTuple):
    """The walls of all rooms by name; what is missing to draw the others, by the name of each of their walls."""

    lines: dict[str, WallLine]
    undrawn: dict[str, tuple[Missing, ...]]


def wall_lines(plan: Plan) -> Drawn:
    """The walls, walked clockwise room by room.

    Fewer than three, or three at right angles, are a part of a room and stay open. Rooms lie so far apart that nothing
    of one is near anything of another.
    """
    drawn = Drawn({}, {})
    for number, room in enumerate(plan.rooms.values()):
        lines = _walked(plan, room, number)
        if isinstance(lines, dict):
            drawn.lines.update(lines)
        else:
            drawn.undrawn.update(dict.fromkeys(room.walls, lines))
    return drawn


def _walked(plan: Plan, room: Room, place: int) -> dict[str, WallLine] | tuple[Missing, ...]:
    lengths = [length_of(plan, name) for name in room.walls]
    corners = corners_of(room)
    missing = [*corners.missing, *gaps_of(*lengths)]
    if len(room.walls) > FEWEST and not corners.missing and not corners.enclose:
        detail = "the corners as they are given enclose no room"
        missing.append(Missing(room.corners.pointer, "corners of the room", Why.UNCLEAR, detail=detail))
    if missing:
        return tuple(dict.fromkeys(missing))
    known = [length for length in lengths if isinstance(length, Known)]
    measured = [middle(length) for length in known]
    names = list(room.walls)
    if not names:
        return {}
    closed = len(names) >= FEWEST and corners.enclose
    drawn = _drawn(names, measured, corners.inside, closed=closed)
    slacks = [
        ((length.high or 0.0) - (length.low or 0.0)) / 2 + abs(wall.length - as_measured)
        for length, wall, as_measured in zip(known, drawn, measured, strict=True)
    ]
    assumed = assumed_among(*known)
    after = names[1:] + (names[:1] if closed else [""])
    of_room = math.fsum(slacks)
    return {
        wall.name: WallLine(
            wall.name,
            room.name,
            following,
            (wall.start[0] + place * ROOMS_APART, wall.start[1]),
            wall.along,
            wall.inward,
            wall.length,
            slack,
            of_room,
            assumed,
        )
        for wall, following, slack in zip(drawn, after, slacks, strict=True)
    }


def _drawn(names: list[str], lengths: list[float], inside: Sequence[float], *, closed: bool) -> Sequence[OutlineWall]:
    """The walls of a room where they are drawn; what leaves a side open as it was measured.

    A room of right angles keeps them: what it misses is shared out among the walls that lie the same way.
    """
    headings = [0.0]
    for angle in inside[: len(names) - 1]:
        headings.append(headings[-1] - math.radians(180 - angle))
    ways = [(_tidy(math.cos(heading)), _tidy(math.sin(heading))) for heading in headings]
    if closed and not all(0.0 in way for way in ways):
        return walked(names, lengths, inside).walls
    found: list[OutlineWall] = []
    x, y = 0.0, 0.0
    shared = _closing(lengths, ways) if closed else lengths
    for name, way, length in zip(names, ways, shared, strict=True):
        found.append(OutlineWall(name, (x, y), way, (way[1], -way[0]), length))
        x, y = x + length * way[0], y + length * way[1]
    return found


def _closing(lengths: list[float], ways: list[Point]) -> list[float]:
    """The lengths of walls at right angles to each other so that they close."""
    found = list(lengths)
    for axis in (0, 1):
        along = [number for number, way in enumerate(ways) if way[axis]]
        error = math.fsum(found[number] * ways[number][axis] for number in along)
        for number in along:
            found[number] -= error * ways[number][axis] / len(along)
    return found


def _tidy(value: float) -> float:
    """The number itself, or the whole one that it misses by rounding only, so that a square room stays square."""
    return float(round(value)) if abs(value - round(value)) < 1e-12 else value
