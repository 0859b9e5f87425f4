"""Corners in the forms a plan may give them: an offset, a tape, an angle, and corners that stick into the room."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, gaps, row, rows, site, to_find
from validator.measures.room.corners import corner_found

WALLS = "walls: {north: {length: 4000}, east: {length: 3000}, south: {length: 4000}, west: {length: 3000}}\n"
KIND = "corner of a room"


def corner(written: str) -> str:
    return f'{WALLS}corners: {{north-east: "{written}"}}\n'


@pytest.mark.parametrize(
    ("written", "way", "out", "over", "angle"),
    [
        ("6 open in 600", "open", 6, 600, 90.573),
        ("4 closed in 600", "closed", 4, 600, 89.618),
        ("1414.2136 across 1000 and 1000", "open", 0, 1000, 90),
        ("1005 across 600 and 800", "open", 6.266, 600, 90.598),
        ("1406 across 1000 and 1000", "closed", 11.582, 1000, 89.336),
        ("90.5 deg", "open", 8.727, 1000, 90.5),
        ("89 °", "closed", 17.455, 1000, 89),
        ("square", "open", 0, 1000, 90),
        ("outside, 4 open in 600", "open", 4, 600, 90.382),
        ("outside 1406 across 1000 and 1000", "closed", 11.582, 1000, 89.336),
    ],
)
def test_a_corner_is_out_by_so_much_over_so_much_however_it_is_written(
    written: str, way: str, out: float, over: float, angle: float
) -> None:
    found = row(corner(written), KIND)
    assert (found.way, found.over, found.subject.name) == (way, over, "corner of the north and east walls")
    assert found.out_of_square == pytest.approx(out, abs=0.001)
    assert found.angle == pytest.approx(angle, abs=0.001)


def test_a_corner_is_further_out_at_the_far_end_of_its_longer_wall() -> None:
    assert row(corner("6 open in 600"), KIND).at_far_end == pytest.approx(40)


def test_readings_of_a_tape_keep_their_ends() -> None:
    text = corner("x").replace('"x"', "{across: [1416, 1420], left: 1000, right: 1000}")
    assert list(ends(row(text, KIND), "out_of_square")) == pytest.approx([2.53, 8.21], abs=0.01)


@pytest.mark.parametrize(
    ("written", "inside"),
    [("6 open in 600", 90.573), ("outside", 270), ("outside, square", 270), ("outside, 4 open in 600", 269.618)],
)
def test_the_angle_of_the_room_is_what_a_corner_that_sticks_out_leaves_of_the_whole_turn(
    written: str, inside: float
) -> None:
    (only,) = site(corner(written)).plan.rooms.values()
    found = corner_found(only, "north", "east")
    assert found is not None
    assert found.inside == pytest.approx(inside, abs=0.001)


def test_a_corner_that_only_sticks_out_is_no_row_because_nothing_more_is_said_of_it() -> None:
    assert rows(corner("outside"), KIND) == []
    assert rows(WALLS, KIND) == []


@pytest.mark.parametrize(
    ("written", "pointer"),
    [
        ("to find out", "/corners/north-east/out"),
        ("2000 across 1000 and 1000", "/corners/north-east/across"),
        ("100 across 1000 and 1200", "/corners/north-east/across"),
        ("6 open in 0", "/corners/north-east/over"),
        ("180 deg", "/corners/north-east/angle"),
    ],
)
def test_a_corner_that_cannot_be_is_not_known(written: str, pointer: str) -> None:
    assert pointer in to_find(row(corner(written), KIND), "out_of_square")


def test_a_tape_longer_than_both_lengths_says_why() -> None:
    (gap,) = gaps(row(corner("2000 across 1000 and 1000"), KIND), "slant")
    assert gap.detail.startswith("a tape across a corner is longer than the difference")
