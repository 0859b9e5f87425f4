"""Where each wall of a room lies in its plane, in mm, with the room's first wall along the first axis."""

from __future__ import annotations

import math
from typing import NamedTuple

from validator.measures import reading
from validator.measures.rows import Known, Missing, Why
from validator.measures.shapes import Point, Shape, four_sided
from validator.measures.walls import length_of
from validator.plan.plan import Plan
from validator.plan.rooms import Room
from validator.plan.values import Quantity

CLOSED = 4
"""So many walls with right angles between them close a room; fewer are a part of one."""

THICK = 100.0
"""How thick a wall is drawn behind its face. What would stand deeper in it than this counts as this deep."""


ROOMS_APART = 1e6
"""How far the first walls of two rooms are drawn apart; nothing in a house is as wide."""


class WallLine(NamedTuple):
    """A wall seen from above: its left end, the unit direction to its right end, and the one into the room.

    `following` is the wall at its right end, `slack` how far its length may be off, `of_room` how far those of all may
    be together; `assumed` is whether the drawing rests on a figure nobody has verified.
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
    assumed: bool = False

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

    Corners are right angles but for those that `corners` says how far they are out. Four walls close; what they miss
    each other by is shared out along them. More have a corner that turns outwards, and nobody has said which. Rooms lie
    so far apart that nothing of one is near anything of another.
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
    if len(room.walls) > CLOSED:
        return (Missing(room.pointer_to("corners"), "which corners of the room turn outwards", Why.UNCLEAR),)
    lengths = {name: length_of(plan, name) for name in room.walls}
    missing = [gap for gap in lengths.values() if isinstance(gap, Missing)]
    turns = _turns(room)
    missing += [turn for turn in turns if isinstance(turn, Missing)]
    if missing:
        return tuple(missing)
    known = {name: length for name, length in lengths.items() if isinstance(length, Known)}
    headings = [0.0]
    for turn in turns[:-1]:
        headings.append(headings[-1] - (turn if isinstance(turn, float) else 0.0))
    ways = [(_tidy(math.cos(heading)), _tidy(math.sin(heading))) for heading in headings]
    measured = [_middle(length) for length in known.values()]
    drawn = _closing(measured, ways)
    slacks = [
        ((length.high or 0.0) - (length.low or 0.0)) / 2 + abs(as_drawn - as_measured)
        for length, as_drawn, as_measured in zip(known.values(), drawn, measured, strict=True)
    ]
    assumed = any(length.rests_on_assumption for length in known.values())
    found: dict[str, WallLine] = {}
    x, y = place * ROOMS_APART, 0.0
    names = list(known)
    after = names[1:] + (names[:1] if len(names) == CLOSED else [""])
    of_room = math.fsum(slacks)
    for name, following, way, length, slack in zip(names, after, ways, drawn, slacks, strict=True):
        inward = (way[1], -way[0])
        line = WallLine(name, room.name, following, (x, y), way, inward, length, slack, of_room, assumed)
        found[name] = line
        x, y = x + length * way[0], y + length * way[1]
    return found


def _closing(lengths: list[float], ways: list[Point]) -> list[float]:
    """The lengths of four walls so that they close, each way shared out over the walls that lie along it."""
    if len(lengths) != CLOSED:
        return lengths
    found = list(lengths)
    for axis in (0, 1):
        along = [number for number, way in enumerate(ways) if abs(way[axis]) > 0.7]
        error = math.fsum(found[number] * ways[number][axis] for number in range(CLOSED))
        for number in along:
            found[number] -= error / ways[number][axis] / len(along)
    return found


def _middle(known: Known) -> float:
    return ((known.low or 0.0) + (known.high or 0.0)) / 2


def _turns(room: Room) -> list[float | Missing]:
    """How far one turns to the right at the end of each wall, in radians."""
    said = {}
    for name, corner in room.corners.items():
        between = room.corner(name)
        if between is not None:
            said[between[0]] = corner
    turns: list[float | Missing] = []
    for wall in room.walls:
        if wall not in said:
            turns.append(math.pi / 2)
            continue
        corner = said[wall]
        if isinstance(corner.out, Quantity) and isinstance(corner.over, Quantity) and corner.way is not None:
            out = (corner.out.low + corner.out.high) / 2 / corner.over.low
            turns.append(math.pi / 2 + math.atan(out) * (-1 if corner.way == "open" else 1))
        else:
            gap = reading.read(corner, "out", f"corner at the right of the {wall} wall")
            turns.append(
                gap if isinstance(gap, Missing) else Missing(corner.pointer, f"corner right of the {wall} wall")
            )
    return turns


def _tidy(value: float) -> float:
    """The number itself, or the whole one that it misses by rounding only, so that a square room stays square."""
    return float(round(value)) if abs(value - round(value)) < 1e-12 else value
