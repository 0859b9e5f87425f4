"""What lies straight ahead of a side of a run, in mm: how far off, and what of that hangs on what is not known.

A side is looked at edge by edge, each in the frame of its own direction. Runs round a corner start beside what they are
seen from and stand in nobody's way there; what stands off further does.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Literal, NamedTuple

from validator.measures.plane.footprints import AT_MOST, HIGH, Footprint, Plane
from validator.measures.plane.shapes import Box, Point
from validator.measures.rows import Missing

if TYPE_CHECKING:
    from validator.measures.plane.wall_lines import WallLine

Side = Literal["front", "back", "left", "right"]
SIDES: tuple[Side, ...] = ("front", "back", "left", "right")

ALIKE = 0.7
"""From this cosine on two directions count as one: less than 45 degrees lie between them."""

TOUCH = 1.0
"""What is no nearer than this to a strip only touches it."""


class Edge(NamedTuple):
    """An edge of a thing: from `low` to `high` across the direction one looks in, and how far along it the edge lies.

    `ahead` is that direction, `across` the one along the edge; both are of length 1.
    """

    of: Footprint
    ahead: Point
    across: Point
    low: float
    high: float
    at: float

    def strip(self, reach: float) -> Box:
        """The box round what lies before the edge."""
        (ax, ay), (cx, cy) = self.ahead, self.across
        corners = [
            (side * cx + out * ax, side * cy + out * ay)
            for side in (self.low, self.high)
            for out in (self.at, self.at + reach)
        ]
        xs, ys = [x for x, _ in corners], [y for _, y in corners]
        return Box(min(xs), min(ys), max(xs), max(ys))

    def to(self, corners: Iterable[Point]) -> tuple[float, float] | None:
        """From where to where a convex thing lies in the strip before the edge; None where it lies beside it."""
        placed = [(_dot(corner, self.across), _dot(corner, self.ahead) - self.at) for corner in corners]
        low, high = self.low + TOUCH, self.high - TOUCH
        inside = [out for side, out in placed if low <= side <= high]
        for (side, out), (next_side, next_out) in zip(placed, placed[1:] + placed[:1], strict=True):
            for limit in (low, high):
                if (side - limit) * (next_side - limit) < 0:
                    inside.append(out + (next_out - out) * (limit - side) / (next_side - side))
        return (min(inside), max(inside)) if inside else None


class Met(NamedTuple):
    """A thing ahead: how far off it is from the edge, without handles, and how far the handle in between stands out."""

    edge: Edge
    thing: Footprint
    gap: float
    handle: float
    no_handle: tuple[Missing, ...]
    slack: float


def edge_of(thing: Footprint, side: Side, past: float = 0.0) -> Edge:
    """A side of a thing, its ends as one faces its front, as one looks away from it; `past` further out than drawn."""
    line, out = thing.line, thing.outward
    inner, outer = sorted((thing.back, thing.face))
    if side in ("front", "back"):
        sign = out if side == "front" else -out
        at = thing.face if side == "front" else thing.back
        ahead, across = _times(line.inward, sign), line.along
        return Edge(thing, ahead, across, *_ends(line, across, thing.left, thing.right), _along(line, ahead, at, past))
    sign = out if side == "right" else -out
    at = thing.right if sign > 0 else thing.left
    ahead = _times(line.along, sign)
    start = _dot(line.start, line.inward)
    return Edge(thing, ahead, line.inward, start + inner, start + outer, _dot(line.start, ahead) + sign * at + past)


def joined(things: Iterable[Footprint]) -> Iterator[Footprint]:
    """Things of a run that stand side by side and come out alike, as one, so that each way is looked along once."""
    last: Footprint | None = None
    for thing in sorted(things, key=lambda each: (each.layers, each.left)):
        if last is not None and _alike(last, thing):
            last = last._replace(right=max(last.right, thing.right), slack=max(last.slack, thing.slack))
            continue
        if last is not None:
            yield last
        last = thing
    if last is not None:
        yield last


def met_ahead(plane: Plane, edge: Edge, reach: float) -> Iterator[Met]:
    """Everything that lies ahead of an edge within reach and may be in the way, in no order."""
    own = edge.of
    for number in plane.index.in_box(edge.strip(reach)):
        thing = plane.footprints[number]
        if thing.layers == HIGH or (thing.run == own.run and own.run) or _beside(thing, own):
            continue
        outward = _times(thing.line.inward, thing.outward)
        if not thing.run and _dot(outward, edge.ahead) > -(1 - ALIKE):
            continue
        found = edge.to(plane.without_handles[number])
        if found is None or found[1] <= TOUCH or found[0] > reach:
            continue
        faces = _dot(outward, edge.ahead) < -ALIKE
        slack = own.slack + thing.slack + slack_between(plane, own.line, thing.line, wall_itself=not thing.run)
        yield Met(edge, thing, found[0], thing.handle if faces else 0, thing.no_handle if faces else (), slack)


def without_returns(met: Iterable[Met]) -> list[Met]:
    """The things ahead without runs that return round the corner, of which a part stands close beside the edge."""
    found = list(met)
    returns = {
        (one.edge.of.side, one.thing.side) for one in found if one.gap < AT_MOST and one.thing.run and _is_return(one)
    }
    return [one for one in found if (one.edge.of.side, one.thing.side) not in returns]


def unplaced_ahead(plane: Plane, line: WallLine, side: tuple[str, int]) -> tuple[Missing, ...]:
    """What is missing for things of the room that stand nobody knows where, and might lie across from a side."""
    gaps: list[Missing] = []
    for thing in plane.unplaced:
        other = plane.lines.get(thing.side[0])
        if thing.room != line.room or thing.layers == HIGH or thing.side == side:
            continue
        if other is None or abs(_dot(other.along, line.along)) > ALIKE:
            gaps.extend(thing.missing)
    return tuple(dict.fromkeys(gaps))


def slack_between(plane: Plane, line: WallLine, other: WallLine, *, wall_itself: bool = False) -> float:
    """How far a distance from wall to wall may be off; across a room of four, as far as the side walls are."""
    right = plane.lines.get(line.following)
    if right is not None and right.following == other.name:
        left = plane.lines.get(other.following)
        if left is not None and left.following == line.name:
            return max(left.slack, right.slack)
    return line.slack_to(other, wall_itself=wall_itself)


def _alike(one: Footprint, other: Footprint) -> bool:
    """Whether a thing stands right of another, as far out and with the same handle."""
    return abs(other.left - one.right) < TOUCH and _profile(one) == _profile(other)


def _profile(thing: Footprint) -> tuple[object, ...]:
    return thing.back, thing.face, thing.layers, thing.handle, thing.no_handle, thing.no_face, thing.assumed


def _is_return(one: Met) -> bool:
    """Whether a thing stands against a wall that meets the one the edge is seen from."""
    return one.thing.outward > 0 and abs(_dot(one.thing.line.along, one.edge.across)) < ALIKE


def _beside(thing: Footprint, own: Footprint) -> bool:
    """Whether a thing is, or stands against, the same wall as another that stands against it."""
    return thing.line.name == own.line.name and thing.outward > 0 and own.outward > 0


def _ends(line: WallLine, across: Point, left: float, right: float) -> tuple[float, float]:
    start = _dot(line.start, across)
    return start + left, start + right


def _along(line: WallLine, ahead: Point, out: float, past: float) -> float:
    """How far along a direction square to a wall something lies that is so far out from it."""
    return _dot(line.start, ahead) + out * _dot(line.inward, ahead) + past


def _times(way: Point, sign: int) -> Point:
    return sign * way[0], sign * way[1]


def _dot(one: Point, other: Point) -> float:
    return one[0] * other[0] + one[1] * other[1]
