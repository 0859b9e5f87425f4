"""What walls and floors may be out of plumb, flat and level, held to published figures.

NHBC Standards 2020, 9.1.3 and 9.1.5 (read): walls 3 mm under 2 m and 8 mm in a storey of up to 3 m; floors 5 mm under
2 m, 3 mm a metre up to 6 m and 20 mm beyond. DIN 18202, tables 2 and 3, as the extended table of the German building
trades confederation reports them. American remodelling guidelines, as a page reports them: 1/4 in in 12 ft.
"""

from __future__ import annotations

import pytest

from tests.standards.by_hand import cell, met
from validator.measures import reading
from validator.measures.room.as_found import FloorLevel, FloorUnderStraightEdge, UnderStraightEdge, WallPlumb
from validator.measures.rows import Row, Subject


def made(row: type[Row], **values: float) -> Row:
    return row(Subject("it", "/it"), **{name: reading.exactly(value, "/it", name) for name, value in values.items()})


@pytest.mark.parametrize(("lean", "fine"), [(8, True), (8.2, False)])
def test_a_wall_of_a_new_british_home_leans_8_mm_in_a_storey_at_most(lean: float, fine: bool) -> None:
    assert met("GB-ENG", "wall-plumb-enough", made(WallPlumb, lean=lean, over=2400, storey=2400)) == fine


@pytest.mark.parametrize(("gap", "fine"), [(3, True), (3.2, False)])
def test_a_wall_of_a_new_british_home_is_flat_to_3_mm_under_2_m(gap: float, fine: bool) -> None:
    assert met("GB-ENG", "wall-flat-enough", made(UnderStraightEdge, gap=gap, under=2000)) == fine


@pytest.mark.parametrize(("gap", "fine"), [(5, True), (5.2, False)])
def test_a_floor_of_a_new_british_home_is_flat_to_5_mm_under_2_m(gap: float, fine: bool) -> None:
    assert met("GB-ENG", "floor-flat-enough", made(FloorUnderStraightEdge, gap=gap, under=2000)) == fine


@pytest.mark.parametrize(
    ("fall", "across", "fine"),
    [(9, 3000, True), (9.2, 3000, False), (18, 6000, True), (20, 8000, True), (20.2, 8000, False)],
)
def test_a_floor_of_a_new_british_home_falls_3_mm_a_metre_and_20_at_most(
    fall: float, across: float, fine: bool
) -> None:
    assert met("GB-ENG", "floor-level-enough", made(FloorLevel, fall=fall, across=across)) == fine


@pytest.mark.parametrize(
    ("under", "wall", "floor"),
    [(100, 3, 2), (1000, 5, 4), (2000, 7, 6), (3999, 7, 6), (4000, 10, 10), (10000, 20, 12)],
)
def test_gaps_under_a_straight_edge_by_its_length(under: float, wall: float, floor: float) -> None:
    found = [cell("DE", table, "gap", under=under) for table in ("wall-flatness", "floor-flatness")]
    assert found == [wall, floor]


@pytest.mark.parametrize(("fall", "fine"), [(6.35, True), (6.5, False)])
def test_a_countertop_may_run_a_quarter_inch_out_of_parallel_with_the_floor_in_12_feet(fall: float, fine: bool) -> None:
    row = made(FloorLevel, fall=fall, across=12 * 12 * 25.4)
    assert met("US-OR", "countertop-parallel-to-floor", row) == fine
