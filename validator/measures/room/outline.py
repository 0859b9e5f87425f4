"""The outline of a room, walked along its walls clockwise, in mm: where each wall lies, and whether it closes.

What the walk misses its start by is shared out along the way, by the compass rule of surveyors: each corner is moved by
the part of the miss that lies behind it (Bowditch, as every text on traverses gives it). Corners that nobody measured
are taken as right angles and take the share of the angles that the others leave over.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from validator.measures.room.corners import RIGHT, CornerFound, corner_found, corners_between
from validator.measures.room.walls import length_of
from validator.measures.rows import Known, Missing, Why, assumed_among
from validator.plan.rooms import Room

if TYPE_CHECKING:
    from validator.measures.site import Site

Point = tuple[float, float]

FEWEST = 3
"""Fewer walls enclose no room."""

GIVES = 5.0
"""Degrees by which a corner that nobody measured may differ from a right angle before a room is no room."""

SLIPS = 1.0
"""Degrees by which a measured corner may be off by its tape."""


class OutlineWall(NamedTuple):
    """A wall of an outline: its left end, the unit direction to its right end, the one into the room, its length."""

    name: str
    start: Point
    along: Point
    inward: Point
    length: float

    @property
    def end(self) -> Point:
        return self.start[0] + self.length * self.along[0], self.start[1] + self.length * self.along[1]


@dataclass(frozen=True, slots=True)
class Outline:
    """A closed outline. The first wall starts at the origin along the first axis, the room lies at its right.

    `miss` is the way from the end of the walk as measured back to its start, `around` the length walked. `assumed` are
    the lengths nobody has verified, and the corners where some are right angles only because nobody says otherwise.
    """

    walls: tuple[OutlineWall, ...]
    miss: Point
    around: float
    assumed: tuple[Known, ...] = ()

    @property
    def vertices(self) -> tuple[Point, ...]:
        """The left end of each wall, clockwise."""
        return tuple(wall.start for wall in self.walls)

    @property
    def gap(self) -> float:
        """By how much the outline as measured does not close."""
        return math.hypot(*self.miss)

    @property
    def crossings(self) -> int:
        """How many pairs of walls cross that do not meet in a corner."""
        return crossings(self.vertices)


class Corners(NamedTuple):
    """The corners of a room: each inside angle in degrees, at the right end of each wall, as far as they are known.

    `off` is by how many degrees they fail to enclose a room, without what corners that nobody measured take; `enclose`
    is whether the rest is so little that it could be shared out. `taken` counts the corners nobody measured.
    """

    inside: tuple[float, ...]
    off: float
    enclose: bool
    taken: int
    missing: tuple[Missing, ...]


def outline_of(site: Site, room: Room) -> Outline | tuple[Missing, ...]:
    """The outline of a room; else everything that has to be found out, or is contradictory, before it can be walked."""
    lengths = [length_of(site.plan, wall) for wall in room.walls]
    corners = corners_of(room)
    missing = list(corners.missing)
    for length in lengths:
        if not isinstance(length, Known):
            missing += [length] if isinstance(length, Missing) else length
        elif not middle(length) > 0:
            detail = "a wall of no length stands nowhere"
            missing.append(Missing(length.pointer, length.label, Why.UNCLEAR, detail=detail))
    if len(room.walls) < FEWEST:
        detail = "fewer than three walls enclose no room"
        missing.append(Missing(room.walls.pointer, "walls of the room", Why.UNCLEAR, detail=detail))
    elif not corners.missing and not corners.enclose:
        detail = "the corners as they are given enclose no room"
        missing.append(Missing(room.corners.pointer, "corners of the room", Why.UNCLEAR, detail=detail))
    if missing:
        return tuple(dict.fromkeys(missing))
    known = [length for length in lengths if isinstance(length, Known)]
    assumed = assumed_among(*known)
    if corners.taken:
        assumed += (Known(RIGHT, room.corners.pointer, "", "squareness of the corners", assumed=True),)
    return walked(list(room.walls), [middle(length) for length in known], corners.inside, assumed)


def corners_of(room: Room) -> Corners:
    """The inside angles of a room as given, and right ones where nothing is said."""
    found: list[CornerFound | None] = [corner_found(room, left, right) for left, right in corners_between(room)]
    said = [corner for corner in found if corner is not None]
    missing = tuple(gap for corner in said for gap in corner.gaps)
    taken = [corner is None or corner.square_by_default for corner in found]
    inside = [90.0 if corner is None else corner.inside for corner in found]
    off = math.fsum(180 - angle for angle in inside) - 360
    share, gives = (sum(taken), GIVES) if any(taken) else (len(inside) or 1, SLIPS)
    enclose = abs(off) <= gives * share
    if enclose:
        inside = [angle + off / share * (each or not any(taken)) for angle, each in zip(inside, taken, strict=True)]
        off = 0.0 if any(taken) else off
    return Corners(tuple(inside), off, enclose, sum(taken), missing)


def walked(
    names: Sequence[str], lengths: Sequence[float], inside: Sequence[float], assumed: tuple[Known, ...] = ()
) -> Outline:
    """The outline of walls of these lengths; `inside` are the angles of the room at the right end of each."""
    heading, x, y = 0.0, 0.0, 0.0
    ends: list[Point] = []
    for length, angle in zip(lengths, inside, strict=True):
        x, y = x + length * _tidy(math.cos(heading)), y + length * _tidy(math.sin(heading))
        ends.append((x, y))
        heading -= math.radians(180 - angle)
    miss, around = (0.0 - x, 0.0 - y), math.fsum(lengths)
    behind = 0.0
    corners: list[Point] = [(0.0, 0.0)]
    for length, (x, y) in zip(lengths[:-1], ends[:-1], strict=True):
        behind += length
        corners.append((x + miss[0] * behind / around, y + miss[1] * behind / around))
    walls = [
        _wall(name, start, end) for name, start, end in zip(names, corners, corners[1:] + corners[:1], strict=True)
    ]
    return Outline(tuple(walls), miss, around, assumed)


def crossings(vertices: Sequence[Point]) -> int:
    """How many pairs of sides of a closed figure cross that are not neighbours."""
    sides = list(zip(vertices, [*vertices[1:], vertices[0]], strict=True))
    count = 0
    for first in range(len(sides)):
        for second in range(first + 2, len(sides) - (first == 0)):
            count += _cross(*sides[first], *sides[second])
    return count


def middle(length: Known) -> float:
    """The middle of a range or of several readings."""
    return ((length.low or 0.0) + (length.high or 0.0)) / 2


def _wall(name: str, start: Point, end: Point) -> OutlineWall:
    x, y = end[0] - start[0], end[1] - start[1]
    length = math.hypot(x, y)
    along = (x / length, y / length) if length else (1.0, 0.0)
    return OutlineWall(name, start, along, (along[1], -along[0]), length)


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    left, right = _side(a, b, c), _side(a, b, d)
    if left == right == 0:  # in one line: two alcoves beside a chimney breast do not meet
        return all(
            max(min(a[axis], b[axis]), min(c[axis], d[axis])) <= min(max(a[axis], b[axis]), max(c[axis], d[axis]))
            for axis in (0, 1)
        )
    return left * right <= 0 and _side(c, d, a) * _side(c, d, b) <= 0


def _side(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _tidy(value: float) -> float:
    """The number itself, or the whole one that it misses by rounding only, so that a square room stays square."""
    return float(round(value)) if abs(value - round(value)) < 1e-12 else value
