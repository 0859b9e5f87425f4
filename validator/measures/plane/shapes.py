"""Convex shapes in the plane of a room, in mm: how far they are apart, and how deep one stands in another.

Plain arithmetic, so that a check loads no library for it; the tests hold it to one.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

Point = tuple[float, float]

CELL = 600.0
"""The side of a cell of the index: about the width of a unit."""


class Box(NamedTuple):
    """The rectangle round a shape, square to the axes."""

    west: float
    south: float
    east: float
    north: float

    def apart(self, other: Box) -> float:
        """How far two boxes are apart; less than 0, the least way out, where they overlap."""
        across = max(other.west - self.east, self.west - other.east)
        along = max(other.south - self.north, self.south - other.north)
        if across > 0 and along > 0:
            return math.hypot(across, along)
        return max(across, along)

    def grown(self, by: float) -> Box:
        return Box(self.west - by, self.south - by, self.east + by, self.north + by)


class Shape(NamedTuple):
    """A convex shape by its corners in order, `square` where it is its own box.

    A sweep of a quarter turn has `radius` from its first corner, where the hinge is, to the other two.
    """

    corners: tuple[Point, ...]
    box: Box
    square: bool = False
    radius: float = 0.0


def four_sided(corners: tuple[Point, Point, Point, Point]) -> Shape:
    """A quadrilateral from its corners in order."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = corners
    box = Box(min(ax, bx, cx, dx), min(ay, by, cy, dy), max(ax, bx, cx, dx), max(ay, by, cy, dy))
    square = (ax == bx and by == cy and cx == dx and dy == ay) or (ay == by and bx == cx and cy == dy and dx == ax)
    return Shape(corners, box, square)


def quarter_turn(hinge: Point, shut: Point, wide: Point) -> Shape:
    """What a leaf sweeps as it turns: `shut` and `wide` are its free end, shut and open at a right angle."""
    (hx, hy), (ax, ay), (bx, by) = corners = (hinge, shut, wide)
    radius = math.hypot(ax - hx, ay - hy)
    box = Box(min(hx, ax, bx), min(hy, ay, by), max(hx, ax, bx), max(hy, ay, by))
    turn = Shape(corners, box, False, radius)
    if (ax == hx and by == hy) or (ay == hy and bx == hx):
        return turn
    box = Box(-_reach(turn, (-1, 0)), -_reach(turn, (0, -1)), _reach(turn, (1, 0)), _reach(turn, (0, 1)))
    return Shape(corners, box, False, radius)


def apart(one: Shape, other: Shape) -> float:
    """The distance between two convex shapes; less than 0, by the least way out, where they overlap."""
    if one.square and other.square:
        return one.box.apart(other.box)
    return max(-_reach(one, way) - _reach(other, (-way[0], -way[1])) for way in _ways(one, other))


def _reach(shape: Shape, way: Point) -> float:
    """How far a shape reaches in a direction of length 1."""
    x, y = way
    corners = shape.corners
    far = max([x * px + y * py for px, py in corners])
    if shape.radius:
        (hx, hy), (ax, ay), (bx, by) = corners
        if x * (ax - hx) + y * (ay - hy) > 0 and x * (bx - hx) + y * (by - hy) > 0:
            return max(far, x * hx + y * hy + shape.radius)
    return far


def _ways(one: Shape, other: Shape) -> Iterator[Point]:
    """The directions in which two shapes can be least far apart: across an edge of either, or from corner to corner.

    An arc is met along the line from its hinge.
    """
    for shape in (one, other):
        for (ax, ay), (bx, by) in zip(shape.corners, shape.corners[1:] + shape.corners[:1], strict=True):
            length = math.hypot(bx - ax, by - ay)
            if length:
                across = ((by - ay) / length, (ax - bx) / length)
                yield across
                yield -across[0], -across[1]
    for ax, ay in one.corners:
        for bx, by in other.corners:
            length = math.hypot(bx - ax, by - ay)
            if length:
                along = ((bx - ax) / length, (by - ay) / length)
                yield along
                yield -along[0], -along[1]


class Index:
    """Shapes by the cells they lie in, so that what is near is found without looking at the rest."""

    def __init__(self, boxes: Iterable[Box]) -> None:
        self._boxes = list(boxes)
        self._cells: dict[tuple[int, int], list[int]] = {}
        for number, box in enumerate(self._boxes):
            for cell in _cells(box):
                self._cells.setdefault(cell, []).append(number)

    def near(self, box: Box, within: float) -> list[tuple[float, int]]:
        """The numbers of the boxes within a distance of one, each with its distance, the nearest first."""
        met = {number for cell in _cells(box.grown(within)) for number in self._cells.get(cell, ())}
        found = [(box.apart(self._boxes[number]), number) for number in met]
        return sorted(pair for pair in found if pair[0] <= within)

    def in_box(self, box: Box) -> list[int]:
        """The numbers of the boxes that a box touches, in no order."""
        west, south, east, north = box
        met = {number for cell in _cells(box) for number in self._cells.get(cell, ())}
        boxes = self._boxes
        return [
            number
            for number in met
            if boxes[number].west <= east
            and boxes[number].east >= west
            and boxes[number].south <= north
            and boxes[number].north >= south
        ]


def _cells(box: Box) -> Iterator[tuple[int, int]]:
    for column in range(math.floor(box.west / CELL), math.floor(box.east / CELL) + 1):
        for row in range(math.floor(box.south / CELL), math.floor(box.north / CELL) + 1):
            yield column, row
