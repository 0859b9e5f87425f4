"""The outline of a room walked along its walls: held to shapely in rooms drawn by chance, and to sums done by hand."""

from __future__ import annotations

import math
import random

import pytest
from shapely.geometry import Polygon
from shapely.validation import explain_validity

from tests.measures.plans import site
from validator.measures.room.outline import Outline, corners_of, crossings, outline_of, walked
from validator.measures.rows import Missing

Point = tuple[float, float]


def room(chance: random.Random) -> list[Point]:
    """The corners of a room of three to nine walls, clockwise, with some that stick into it."""
    count = chance.randint(3, 9)
    steps = [chance.uniform(0.6, 1.4) for _ in range(count)]
    turns = [2 * math.pi * sum(steps[:at]) / sum(steps) for at in range(count)]
    radii = [chance.uniform(1200, 4500) for _ in range(count)]
    return [(r * math.cos(-t), r * math.sin(-t)) for r, t in zip(radii, turns, strict=True)]


def measured(corners: list[Point]) -> tuple[list[float], list[float]]:
    """The lengths of the walls, and the angle inside the room at the right end of each."""
    sides = list(zip(corners, corners[1:] + corners[:1], strict=True))
    headings = [math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in sides]
    right = [(one - other) % (2 * math.pi) for one, other in zip(headings, headings[1:] + headings[:1], strict=True)]
    turns = [turn - 2 * math.pi if turn > math.pi else turn for turn in right]
    return [math.dist(a, b) for a, b in sides], [180 - math.degrees(turn) for turn in turns]


@pytest.mark.parametrize("seed", range(60))
def test_a_room_measured_without_error_closes_and_has_the_area_it_was_drawn_with(seed: int) -> None:
    corners = room(random.Random(seed))
    lengths, inside = measured(corners)
    found = walked([str(at) for at in range(len(lengths))], lengths, inside)
    assert found.gap == pytest.approx(0, abs=1e-6)
    assert Polygon(found.vertices).area == pytest.approx(Polygon(corners).area, rel=1e-9)
    for wall, length in zip(found.walls, lengths, strict=True):
        assert wall.length == pytest.approx(length)


@pytest.mark.parametrize("seed", range(60))
def test_what_is_off_by_a_tape_is_shared_out_so_that_the_room_closes_at_nearly_the_same_area(seed: int) -> None:
    chance = random.Random(seed)
    corners = room(chance)
    lengths, inside = measured(corners)
    off = [length + chance.uniform(-5, 5) for length in lengths]
    found = walked([str(at) for at in range(len(off))], off, inside)
    assert found.gap < 5 * math.sqrt(2) * len(off)
    assert found.walls[-1].end == pytest.approx((0, 0), abs=1e-6)
    around, area = sum(off), Polygon(corners).area
    assert abs(Polygon(found.vertices).area - area) < found.gap * around + 5 * around


@pytest.mark.parametrize("seed", range(60))
def test_walls_that_cross_are_those_that_make_an_outline_invalid(seed: int) -> None:
    chance = random.Random(seed)
    corners = [(chance.uniform(0, 4000), chance.uniform(0, 3000)) for _ in range(chance.randint(4, 8))]
    polygon = Polygon(corners)
    assert (crossings(corners) == 0) == polygon.is_valid, explain_validity(polygon)


@pytest.mark.parametrize("seed", range(30))
def test_every_wall_has_the_room_at_its_right(seed: int) -> None:
    lengths, inside = measured(room(random.Random(seed)))
    found = walked([str(at) for at in range(len(lengths))], lengths, inside)
    polygon = Polygon(found.vertices)
    for wall in found.walls:
        middle = [wall.start[axis] + wall.length / 2 * wall.along[axis] + wall.inward[axis] for axis in (0, 1)]
        assert polygon.buffer(0.01).covers(Polygon([wall.start, wall.end, tuple(middle)]))


SQUARE = "walls: {n: {length: 4000}, e: {length: 3000}, s: {length: 4000}, w: {length: 3000}}\n"
L_SHAPED = """walls:
  a: {length: 4000}
  b: {length: 1500}
  c: {length: 1800}
  d: {length: 1400}
  e: {length: 2200}
  f: {length: 2900}
"""


def outline(text: str) -> Outline | tuple[Missing, ...]:
    found = site(text)
    (only,) = found.plan.rooms.values()
    return outline_of(found, only)


def test_four_walls_without_a_word_on_their_corners_make_a_rectangle() -> None:
    found = outline(SQUARE)
    assert isinstance(found, Outline)
    assert (found.vertices, found.gap) == (((0, 0), (4000, 0), (4000, -3000), (0, -3000)), 0)
    assert [value.label for value in found.assumed] == ["squareness of the corners"]


def test_two_walls_across_from_each_other_that_differ_leave_the_difference_as_the_gap() -> None:
    found = outline(SQUARE.replace("s: {length: 4000}", "s: {length: 3960}"))
    assert isinstance(found, Outline)
    assert [found.gap, *found.miss] == pytest.approx([40, -40, 0])


def test_an_outside_corner_makes_a_room_of_six_walls() -> None:
    found = outline(L_SHAPED + "corners: {c-d: outside}\n")
    assert isinstance(found, Outline)
    assert (found.gap, Polygon(found.vertices).area) == (0, 4000 * 1500 + 2200 * 1400)


def test_a_room_of_six_walls_without_an_outside_corner_encloses_nothing() -> None:
    found = outline(L_SHAPED)
    assert isinstance(found, tuple)
    assert [(gap.pointer, gap.detail) for gap in found] == [
        ("/corners", "the corners as they are given enclose no room"),
    ]


def test_two_walls_in_one_line_with_something_between_them_do_not_cross() -> None:
    breast = [(0, 0), (4000, 0), (4000, -1100), (2500, -1100), (2500, -500), (1500, -500), (1500, -1100), (0, -1100)]
    assert crossings([(float(x), float(y)) for x, y in breast]) == 0


def test_corners_nobody_measured_take_what_the_measured_one_leaves_over() -> None:
    (only,) = site(SQUARE + "corners: {n-e: 93 deg}\n").plan.rooms.values()
    assert corners_of(only).inside == pytest.approx((93, 89, 89, 89))


def test_corners_that_were_all_measured_may_be_off_by_their_tape_and_no_more() -> None:
    corners = "corners: {n-e: 90.5 deg, e-s: 90 deg, s-w: 90 deg, w-n: 90 deg}\n"
    (only,) = site(SQUARE + corners).plan.rooms.values()
    assert corners_of(only).inside == pytest.approx((90.375, 89.875, 89.875, 89.875))
    (other,) = site(SQUARE + corners.replace("90.5", "96")).plan.rooms.values()
    assert [corners_of(other).off, corners_of(other).enclose] == pytest.approx([-6, False])


def test_a_bay_of_oblique_corners_closes() -> None:
    bay = "walls: {a: {length: 1000}, b: {length: 1000}, c: {length: 1000}, d: {length: 2414}}\n"
    found = outline(bay + "corners: {a-b: 135 deg, b-c: 135 deg, c-d: 45 deg, d-a: 45 deg}\n")
    assert isinstance(found, Outline)
    assert found.gap == pytest.approx(0.2, abs=0.02)
    assert not found.assumed


@pytest.mark.parametrize(
    ("text", "pointer", "detail"),
    [
        ("walls: {n: {length: 4000}, e: {length: 3000}}\n", "/walls", "fewer than three walls enclose no room"),
        (SQUARE.replace("3000}, s", "0}, s"), "/walls/e/length", "a wall of no length stands nowhere"),
        (SQUARE.replace("e: {length: 3000}", "e: to find out"), "/walls/e/length", ""),
        (SQUARE + "corners: {n-e: to find out}\n", "/corners/n-e/out", ""),
        (SQUARE + "corners: {n-e: 0.5 deg}\n", "/corners", "the corners as they are given enclose no room"),
    ],
)
def test_what_is_in_the_way_of_an_outline_is_said(text: str, pointer: str, detail: str) -> None:
    found = outline(text)
    assert isinstance(found, tuple)
    assert (pointer, detail) in [(gap.pointer, gap.detail) for gap in found]
