"""Headroom under a sloping ceiling, by similar triangles: each slope is a 3-4-5 triangle, so that sums can be seen."""

from __future__ import annotations

import pytest

from tests.measures.plans import row, rows, to_find

WALLS = """
heights from: bare floor
walls: {north: {length: 4000}, east: {length: 3000}, south: {length: 4000}, west: {length: 3000}}
floors: none
kinds: {base: {height: 720, depth: 560, void behind: 40, front: 20}}
appliances: {sink: {in: B1, cut-out: 500 x 400}}
"""
STEEP = "ceiling: {height: 2400, slopes: {west: {from: 1200, sloping length: 2000}}}\n"
"""Rises 1200 over 1600."""


@pytest.mark.parametrize(("gap", "headroom"), [(500, 1800), (900, 2100), (1300, 2400), (2300, 2400)])
def test_headroom_rises_with_the_slope_and_stops_at_the_flat_ceiling(gap: int, headroom: float) -> None:
    run = f"runs: {{sink run: {{against: north, order: {{F1: gap {gap}, B1: base 600}}}}}}"
    assert row(WALLS + STEEP + run, "place to stand").headroom == pytest.approx(headroom)


def test_on_the_other_side_the_wall_under_the_slope_is_at_the_right() -> None:
    run = "runs: {sink run: {against: south, order: {F1: gap 2900, B1: base 600}}}"
    assert row(WALLS + STEEP + run, "place to stand").from_wall == pytest.approx(800)


def test_at_the_low_wall_itself_one_stands_before_the_fronts() -> None:
    """40 of void, 560 of unit, 20 of front and half a person."""
    run = "runs: {sink run: {against: west, order: {B1: base 600}}}"
    assert row(WALLS + STEEP + run, "place to stand").from_wall == pytest.approx(920)


def test_away_from_the_slope_there_is_nothing_to_judge() -> None:
    run = "runs: {sink run: {against: east, order: {B1: base 600}}}"
    assert rows(WALLS + STEEP + run, "place to stand") == []


def test_a_slope_shorter_than_it_rises_is_no_slope() -> None:
    short = "ceiling: {height: 2400, slopes: {west: {from: 1200, sloping length: 1100}}}\n"
    run = "runs: {sink run: {against: north, order: {B1: base 600}}}"
    wanted = {"/ceiling/slopes/west/sloping length"}
    assert to_find(row(WALLS + short + run, "place to stand"), "headroom") == wanted


@pytest.mark.parametrize(("wall", "gap", "ceilings"), [
    ("north", 460, (1575, 2025)),  # hangers at 500 and 1100 from the low wall: 1200 + 0.75 of that
    ("north", 2360, (2400, 2400)),
    ("south", 2940, (1965, 1515)),  # at 2980 and 3580 from the left, 1020 and 420 from the low wall at the right
    ("west", 500, (1200, 1200)),
    ("east", 500, (2400, 2400)),
])  # fmt: skip
def test_a_hole_is_measured_to_the_ceiling_over_it(wall: str, gap: int, ceilings: tuple[float, float]) -> None:
    kinds = "kinds: {wall: {height: 500, depth: 300, hangers: {down: 35, in: 40}}}\npoints: none\n"
    room = "".join(line for line in WALLS.splitlines(keepends=True) if not line.startswith(("kinds", "appliances")))
    order = f"{{F1: {{is: gap, width: {gap}}}, W1: wall 680}}"
    run = f"runs: {{units: {{against: {wall}, tops: 1300 from bare floor, order: {order}}}}}"
    holes = rows(room + kinds + STEEP + run, "drill point")
    assert tuple(hole.ceiling for hole in holes) == pytest.approx(ceilings)
