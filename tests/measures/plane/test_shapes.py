"""Distances between shapes of a plan, held to a library for plane geometry on shapes drawn by lot."""

from __future__ import annotations

import math
from random import Random

import pytest
import shapely
from shapely.affinity import translate

from validator.measures.plane.shapes import Box, Index, Shape, apart, four_sided, quarter_turn

FINE = 2_000
"""So many straight pieces stand for an arc; at 900 mm they miss it by less than a thousandth of a millimetre."""


def _rectangle(lot: Random) -> Shape:
    turned = lot.choice((0.0, 0.0, lot.uniform(0, math.tau)))
    x, y, width, depth = lot.uniform(-900, 900), lot.uniform(-900, 900), lot.uniform(20, 900), lot.uniform(20, 700)

    def at(along: float, out: float) -> tuple[float, float]:
        cos, sin = math.cos(turned), math.sin(turned)
        return x + along * cos - out * sin, y + along * sin + out * cos

    return four_sided((at(0, 0), at(width, 0), at(width, depth), at(0, depth)))


def _swing(lot: Random) -> Shape:
    x, y, radius, start = (
        lot.uniform(-900, 900),
        lot.uniform(-900, 900),
        lot.uniform(150, 900),
        lot.uniform(0, math.tau),
    )
    end = start + lot.choice((1, -1)) * math.pi / 2

    def at(angle: float) -> tuple[float, float]:
        return x + radius * math.cos(angle), y + radius * math.sin(angle)

    return quarter_turn((x, y), at(start), at(end))


def _polygon(shape: Shape) -> shapely.Polygon:
    if not shape.radius:
        return shapely.Polygon(shape.corners)
    (x, y), (ax, ay), (bx, by) = shape.corners
    start = math.atan2(ay - y, ax - x)
    turn = math.copysign(math.pi / 2, (ax - x) * (by - y) - (ay - y) * (bx - x))
    arc = [
        (
            x + shape.radius * math.cos(start + turn * part / FINE),
            y + shape.radius * math.sin(start + turn * part / FINE),
        )
        for part in range(FINE + 1)
    ]
    return shapely.Polygon([(x, y), *arc])


@pytest.mark.parametrize("seed", range(40))
def test_shapes_that_do_not_meet_are_as_far_apart_as_the_library_says(seed: int) -> None:
    lot = Random(seed)
    for one, other in ((_rectangle(lot), _rectangle(lot)), (_rectangle(lot), _swing(lot)), (_swing(lot), _swing(lot))):
        distance = _polygon(one).distance(_polygon(other))
        if distance > 0:
            assert apart(one, other) == pytest.approx(distance, abs=2e-3)
            assert apart(other, one) == pytest.approx(distance, abs=2e-3)
        else:
            assert apart(one, other) <= 2e-3


@pytest.mark.parametrize("seed", range(40))
def test_shapes_that_overlap_part_when_one_moves_as_far_as_said_and_not_before(seed: int) -> None:
    lot = Random(1_000 + seed)
    one, other = _rectangle(lot), lot.choice((_rectangle, _swing))(lot)
    deep = -apart(one, other)
    if deep <= 1:
        return
    still, moving = _polygon(one), _polygon(other)
    ways = [math.tau * part / 3_600 for part in range(3_600)]

    def left_over(by: float) -> float:
        return min(
            still.intersection(translate(moving, by * math.cos(way), by * math.sin(way))).area for way in ways[::20]
        )

    assert left_over(deep * 0.9 - 1) > 0
    assert any(
        still.intersection(translate(moving, (deep + 0.5) * math.cos(way), (deep + 0.5) * math.sin(way))).area < 200
        for way in ways
    )


@pytest.mark.parametrize("seed", range(20))
def test_the_box_round_a_swing_is_that_of_the_library(seed: int) -> None:
    swing = _swing(Random(seed))
    assert tuple(swing.box) == pytest.approx(_polygon(swing).bounds, abs=2e-3)


@pytest.mark.parametrize("seed", range(10))
def test_the_index_finds_what_is_near_the_nearest_first(seed: int) -> None:
    lot = Random(seed)
    boxes = [_rectangle(lot).box for _ in range(60)]
    asked = _rectangle(lot).box
    tree = shapely.STRtree([shapely.box(*box) for box in boxes])
    near = Index(boxes).near(asked, 400)
    assert {number for _, number in near} == set(tree.query(shapely.box(*asked), "dwithin", 400).tolist())
    assert [distance for distance, _ in near] == sorted(distance for distance, _ in near)


def test_boxes_corner_to_corner_are_apart_on_the_slant() -> None:
    assert Box(0, 0, 10, 10).apart(Box(13, 14, 20, 20)) == 5


def test_boxes_that_overlap_are_apart_by_the_least_way_out() -> None:
    assert Box(0, 0, 600, 600).apart(Box(580, 100, 900, 500)) == -20
