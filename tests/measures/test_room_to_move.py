"""Aisles, valves within reach, and worktops in the lengths they are sold in."""

from __future__ import annotations

import pytest

from tests.measures.plans import row, rows, to_find

WALLS = "walls: {north: {length: 2800}, east: {length: [2510, 2500]}, south: {length: 2800}, west: {length: 2504}}\n"
KINDS = "kinds: {base: {height: 720, depth: 560, front: 20, void behind: 50}}\n"


def test_the_aisle_of_a_galley_is_what_two_runs_leave_of_the_shorter_wall() -> None:
    runs = "runs: {a: {against: north, order: {B1: base 600}}, b: {against: south, order: {B2: base 600}}}"
    found = row(WALLS + KINDS + runs, "aisle")
    assert min(corner.width for corner in found.corners()) == pytest.approx(2500 - 2 * (50 + 560 + 20))


def test_runs_round_a_corner_leave_no_aisle() -> None:
    runs = "runs: {a: {against: north, order: {B1: base 600}}, b: {against: east, order: {B2: base 600}}}"
    assert rows(WALLS + KINDS + runs, "aisle") == []


def test_an_island_says_its_aisle_itself() -> None:
    island = "isle: {faces: north, aisle: 1100 to a, order: {B2: base 600}}"
    runs = f"runs: {{a: {{against: north, order: {{B1: base 600}}}}, {island}}}"
    assert row(WALLS + KINDS + runs, "aisle").width == 1100


def test_an_island_without_an_aisle_asks_for_it() -> None:
    runs = "runs: {isle: {faces: north, order: {B2: base 600}}}"
    assert to_find(row(WALLS + KINDS + runs, "aisle"), "width") == {"/runs/isle/aisle"}


def test_things_of_an_island_count_from_its_own_left_end() -> None:
    runs = "runs: {isle: {faces: north, aisle: 1100, order: {B2: base 600, B3: base 500}}}"
    assert [each.left for each in rows(WALLS + KINDS + runs, "unit in a run")] == [0, 600]


def test_an_island_has_no_wall_to_fit_between() -> None:
    runs = "runs: {isle: {faces: north, aisle: 1100, order: {B2: base 600}}}"
    assert rows(WALLS + KINDS + runs, "run against its wall") == []


@pytest.mark.parametrize(("valve", "where"), [("B1", "in a unit"), ("oven", "behind an appliance")])
def test_a_gas_valve_is_where_its_unit_is(valve: str, where: str) -> None:
    runs = f"runs: {{a: {{against: north, order: {{B1: base 600, oven: 600}}}}}}\ngas: {{valve: {valve}}}"
    assert row(WALLS + KINDS + runs, "gas pipe").valve == where
