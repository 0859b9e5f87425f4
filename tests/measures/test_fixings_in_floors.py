"""Fixings of islands in the floor, and a membrane in that."""

from __future__ import annotations

from tests.measures.plans import ends, row, rows, to_find

KIND = "fixing in a floor"

PLAN = """
layers: {slab: [cement screed 60 to 70, damp-proof membrane, concrete 100]}
walls: {north: {length: 4000}, east: {length: 5000}, south: {length: 4000}, west: {length: 5000}}
floor: {made of: slab}
kinds: {base: {height: 720, depth: 560}}
runs:
  sink run: {against: north, order: {B1: base 1200}}
  island: {faces: north, aisle: 1200 to sink run, order: {B2: base 600}}
fixings: {cleats: {for: island, through: 20, plug: frame fixing 8 x 60, hole: 8 x 50}}
"""


def test_the_hole_of_an_island_ends_above_the_membrane_by_what_the_screed_leaves() -> None:
    assert ends(row(PLAN, KIND), "above_membrane") == (10, 20)


def test_a_floor_without_a_membrane_has_none_to_keep_clear_of() -> None:
    assert row(PLAN.replace("damp-proof membrane, ", ""), KIND).has_membrane is False


def test_a_floor_of_which_nobody_knows_the_layers_may_have_one() -> None:
    assert to_find(row(PLAN.replace("floor: {made of: slab}", ""), KIND), "has_membrane") == {"/floor/made of"}
    unknown = PLAN.replace("damp-proof membrane", "to find out by builder")
    assert to_find(row(unknown, KIND), "has_membrane") == {"/layers/slab/1/material"}


def test_what_stands_against_no_wall_is_not_fixed_in_one() -> None:
    assert rows(PLAN, "fixing in a wall") == []


def test_a_fixing_for_a_run_at_a_wall_is_not_in_the_floor() -> None:
    assert rows(PLAN.replace("for: island", "for: sink run"), KIND) == []
