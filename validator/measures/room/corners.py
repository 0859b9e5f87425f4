"""Corners of rooms as found: by how far they are out over a length, by a tape across them, or by their angle."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.arithmetic import root
from validator.measures.room.walls import length_of, worked
from validator.measures.rows import Given, Known, Missing, Row, Rows, Subject, Why, Words, figure, gaps_of, given
from validator.measures.tracing import derived
from validator.plan.dimensions import ANGLE, LENGTH, NUMBER, SLOPE
from validator.plan.rooms import Room

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.room import Corner

RIGHT = 90.0


class TapeAcross(Row, kind="tape across a corner"):
    """A triangle of two marks and the corner between them; the law of cosines gives the corner."""

    across: float = given(LENGTH, "tape across the corner")
    left: float = given(LENGTH, "along the left wall")
    right: float = given(LENGTH, "along the right wall")

    @figure(NUMBER, "cosine of the corner")
    def cosine(self) -> float:
        square = self.left * self.left + self.right * self.right - self.across * self.across
        return square / (2 * self.left * self.right)

    @figure(SLOPE, "how far it opens")
    def opening(self) -> float:
        return self.cosine * -1 / root(1 - self.cosine * self.cosine)

    @figure(SLOPE, "how far it closes")
    def closing(self) -> float:
        return self.cosine / root(1 - self.cosine * self.cosine)


class OutOver(Row, kind="offset of a corner"):
    """How far the end of a length along one wall lies off the square on the other."""

    out: float = given(LENGTH, "out")
    over: float = given(LENGTH, "over")

    @figure(SLOPE, "how far it is out")
    def slant(self) -> float:
        return self.out / self.over


class OutAt(Row, kind="offset of a corner at a length"):
    """How far a corner is out at a length along one of its walls."""

    slant: float = given(SLOPE, "out for each length")
    over: float = given(LENGTH, "over")

    @figure(LENGTH, "out", start="square on the other wall", end="wall")
    def out(self) -> float:
        return self.slant * self.over


class CornerOfRoom(Row, kind="corner of a room"):
    """A corner that the plan says something of; open is more than a right angle, closed is less.

    `slant` is how far it is out for each length along a wall, `over` the length over which that was measured, and
    `wall` the longer of the two walls.
    """

    way: str = given(Words(("open", "closed")), "whether it is open or closed")
    slant: float = given(SLOPE, "out for each length")
    over: float = given(LENGTH, "measured over")
    angle: float = given(ANGLE, "angle of the corner")
    wall: float = given(LENGTH, "longer wall")

    @figure(LENGTH, "out of square", start="square on the other wall", end="wall, at the end of what was measured")
    def out_of_square(self) -> float:
        return self.slant * self.over

    @figure(LENGTH, "out of square along the wall", start="square on the other wall", end="far end of the longer wall")
    def at_far_end(self) -> float:
        return self.slant * self.wall


class CornerFound(NamedTuple):
    """A corner as the plan gives it: `way`, `out` and `over` as in `6 open in 600`, whichever way it was measured.

    `inside` is the angle of the room there in degrees, as far as it is known; `gaps` is all that is missing.
    `square_by_default` is true where the plan says no more than that the corner stands out.
    """

    said: Corner
    way: Given
    slant: Given
    over: Given
    angle: Given
    inside: float
    square_by_default: bool
    gaps: tuple[Missing, ...]

    @property
    def out(self) -> Given:
        """How far it is out over `over`."""
        if self.said.out is not None:
            return reading.read(self.said, "out", "out")
        subject = Subject("corner", self.said.pointer)
        return worked(OutAt(subject, slant=self.slant, over=self.over), "out", "out")


METRE = 1000.0
"""A corner given by its angle is out by so much over each metre."""


def corners_between(room: Room) -> list[tuple[str, str]]:
    """The walls that meet at the right end of each wall; fewer than three do not come round to the first."""
    walls = list(room.walls)
    return list(zip(walls, walls[1:] + walls[:1], strict=True))[: None if len(walls) > 2 else -1]


def corner_found(room: Room, left: str, right: str) -> CornerFound | None:
    """The corner at the right end of one wall and the left end of the next; None where the plan says nothing of it."""
    said = room.corner_at(left, right)
    if said is None:
        return None
    label = f"corner of the {left} and {right} walls"
    angle: Given
    if said.across is not None or said.left is not None or said.right is not None:
        way, slant, over, angle = _by_tape(said, label)
    elif said.angle is not None:
        way, slant, over, angle = _by_angle(said, label)
    elif said.out is not None or said.way is not None or not said.outside:
        way, slant, over, angle = _by_offset(said, label)
    else:
        nobody = Missing(said.pointer_to("out"), label)
        return CornerFound(said, nobody, nobody, nobody, nobody, 360 - RIGHT, True, ())
    gaps = gaps_of(angle)
    degrees = _middle(angle) if isinstance(angle, Known) else RIGHT
    return CornerFound(said, way, slant, over, angle, 360 - degrees if said.outside else degrees, False, gaps)


def corners_of_rooms(site: Site) -> Rows:
    """A row for each corner of which the plan says how far it is out, or asks to find it out."""
    rows = Rows()
    for room in site.plan.rooms.values():
        for left, right in corners_between(room):
            found = corner_found(room, left, right)
            if found is not None and not found.square_by_default:
                rows.rows.append(_row(site, left, right, found))
    return rows


def _row(site: Site, left: str, right: str, found: CornerFound) -> Row:
    lengths = [length_of(site.plan, wall) for wall in (left, right)]
    known = [length for length in lengths if isinstance(length, Known)]
    longer: Given = max(known, key=_middle) if len(known) == len(lengths) else lengths[0]
    if not isinstance(longer, Known) or len(known) < len(lengths):
        longer = next(length for length in lengths if not isinstance(length, Known))
    subject = Subject(f"corner of the {left} and {right} walls", found.said.pointer, f"{left} wall", left)
    return CornerOfRoom(subject, way=found.way, slant=found.slant, over=found.over, angle=found.angle, wall=longer)


Four = tuple[Given, Given, Given, Given]
"""Way, slant, length it holds over, and angle of a corner."""


def _by_offset(said: Corner, label: str) -> Four:
    out, over = reading.read(said, "out", "out"), reading.read(said, "over", "over")
    way = reading.word(said.way, said.pointer_to("way"), f"whether the {label} is open or closed")
    if isinstance(over, Known) and not (over.low or 0.0) > 0:
        over = Missing(over.pointer, "over", Why.UNCLEAR, detail="over what length is the corner out?")
    slant = worked(OutOver(Subject(label, said.pointer), out=out, over=over), "slant", "out for each length")
    if not isinstance(slant, Known) or not isinstance(way, Known):
        gaps = gaps_of(slant, way)
        return way, slant, over, gaps
    sign = 1 if way.value == "open" else -1
    return way, slant, over, _angle(slant, sign, label)


def _by_tape(said: Corner, label: str) -> Four:
    sides = {
        "across": reading.read(said, "across", "tape across the corner"),
        "left": reading.read(said, "left", "along the left wall"),
        "right": reading.read(said, "right", "along the right wall"),
    }
    gaps = gaps_of(*sides.values())
    known = {name: side for name, side in sides.items() if isinstance(side, Known)}
    if not gaps and not _is_triangle(known):
        detail = (
            "a tape across a corner is longer than the difference of the two lengths and shorter than both together"
        )
        gaps = (Missing(said.pointer_to("across"), label, Why.UNCLEAR, detail=detail),)
    if gaps:
        return gaps, gaps, gaps, gaps
    tape = TapeAcross(Subject(label, said.pointer), **sides)
    opens = tape.cosine <= 0
    pointer = said.pointer_to("across")
    slant = derived(tape, "opening" if opens else "closing", "out for each length")
    way = reading.exactly("open" if opens else "closed", pointer, "whether it is open or closed")
    over = min(known["left"], known["right"], key=_middle)
    if not isinstance(slant, Known):
        return way, slant, over, slant
    return way, slant, over, _angle(slant, 1 if opens else -1, label)


def _by_angle(said: Corner, label: str) -> Four:
    angle = reading.read(said, "angle", label)
    pointer = said.pointer_to("angle")
    if isinstance(angle, Known) and not (float(angle.low or 0.0) > 0 and float(angle.high or 0.0) < 2 * RIGHT):
        angle = Missing(pointer, label, Why.UNCLEAR, detail="the angle of a corner lies between 0 and 180 degrees")
    if not isinstance(angle, Known):
        return angle, angle, angle, angle
    opens = _middle(angle) >= RIGHT
    sign = 1 if opens else -1
    ends = sorted(sign * math.tan(math.radians(end - RIGHT)) for end in (angle.low or 0.0, angle.high or 0.0))
    slant = Known(ends[0], pointer, angle.text, f"{label}, {angle.text}", ends[0], ends[1], angle.assumed)
    way = reading.exactly("open" if opens else "closed", pointer, "whether it is open or closed")
    return way, slant, reading.exactly(METRE, pointer, "over"), angle


def _angle(slant: Known, sign: int, label: str) -> Known:
    """The angle in degrees of a corner that is out by a slant, at both ends of it."""
    low, high = (slant.low or 0.0, slant.high or 0.0)
    ends = sorted(RIGHT + sign * math.degrees(math.atan(end)) for end in (low, high))
    degrees = RIGHT + sign * math.degrees(math.atan(slant.value))
    return Known(degrees, slant.pointer, "", label, ends[0], ends[1], slant.assumed)


def _is_triangle(sides: dict[str, Known]) -> bool:
    """Whether three sides make a triangle at every end of their ranges."""
    across, left, right = ((sides[name].low or 0.0, sides[name].high or 0.0) for name in ("across", "left", "right"))
    ends = itertools.product(across, left, right)
    return all(one > 0 and other > 0 and abs(one - other) < tape < one + other for tape, one, other in ends)


def _middle(value: Known) -> float:
    return ((value.low or 0.0) + (value.high or 0.0)) / 2
