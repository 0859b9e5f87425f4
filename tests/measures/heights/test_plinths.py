"""Plinths and the floor under a run: what the board has to close, and where a run has spots of its own."""

from __future__ import annotations

from tests.measures.plans import left_out, row, rows, to_find

PLINTH = "plinth of a run"
LEGS = "unit on legs"

KITCHEN = """
heights from: bare floor
walls: {north: {length: 4200}, east: {length: 3000}, south: {length: 4200}, west: {length: 3000}}
floor: {levels: {north-west corner: 3 low, north-east corner: 11 low, south wall: 0, west wall: 24 low}}
floors: {cork planks: {thickness: 10.5, underlay: 1.5, laid: after units}}
kinds:
  base: {height: 715, depth: 555, legs: 90 to 140, plinth: 125, set back: 45}
runs:
  long: {against: north, legs: 105 at high spot, order: {A1: base 600, A2: base 600}}
"""


def with_(old: str, new: str) -> str:
    assert old in KITCHEN
    return KITCHEN.replace(old, new)


def test_a_floor_laid_after_the_units_comes_off_the_plinth() -> None:
    """105 + 3 − 12 = 96 where the run is highest; 105 + 11 − 12 = 104 at its low spot."""
    plinth = row(KITCHEN, PLINTH)
    assert (plinth.at_high_spot, plinth.at_low_spot, plinth.board, plinth.to_cut) == (96, 104, 125, 29)


def test_a_floor_laid_before_the_units_leaves_the_whole_leg_in_sight() -> None:
    plinth = row(with_("after units", "before units"), PLINTH)
    assert (plinth.at_high_spot, plinth.at_low_spot) == (108, 116)


def test_a_run_has_the_spots_of_its_own_wall_and_corners() -> None:
    unit = rows(KITCHEN, LEGS)[0]
    assert (unit.rise, unit.fall, unit.at_high_spot, unit.at_low_spot) == (3, 11, 108, 116)


def test_a_spot_that_names_no_wall_may_lie_under_any_run() -> None:
    unit = rows(with_("south wall: 0", "by the door: 0"), LEGS)[0]
    assert (unit.rise, unit.fall) == (0, 11)


def test_without_both_corners_of_its_wall_a_run_stands_on_the_whole_floor() -> None:
    unit = rows(with_("north-east corner", "east wall"), LEGS)[0]
    assert (unit.rise, unit.fall) == (0, 24)


def test_where_every_spot_lies_low_the_high_spot_may_be_anywhere() -> None:
    unit = rows(with_("south wall: 0, ", ""), LEGS)[0]
    assert (unit.rise, unit.fall) == (0, 11)


def test_an_island_stands_on_the_whole_floor() -> None:
    text = with_("against: north,", "faces: north, aisle: 1000, along: 900 from west,")
    assert (row(text, PLINTH).rise, row(text, PLINTH).fall) == (0, 24)


def test_one_unit_that_says_the_board_says_it_for_the_run() -> None:
    text = with_(", plinth: 125", "").replace("A2: base 600", "A2: {is: base, width: 600, plinth: 120}")
    assert row(text, PLINTH).board == 120


def test_a_board_nobody_said_is_asked_once_a_run() -> None:
    assert to_find(row(with_(", plinth: 125", ""), PLINTH), "board") == {"/runs/long/order/A1/plinth"}


def test_legs_in_sight_have_no_plinth() -> None:
    assert rows(with_("plinth: 125", "plinth: none"), PLINTH) == []


def test_units_without_legs_and_hung_ones_have_no_plinth() -> None:
    assert rows(with_("legs: 90 to 140", "legs: none"), PLINTH) == []
    assert rows(with_("legs: 105 at high spot", "underside: 300"), PLINTH) == []


def test_legs_as_built_count_at_both_ends() -> None:
    plinth = row(KITCHEN + "built: {A2: {legs: 109}}", PLINTH)
    assert (plinth.at_high_spot, plinth.at_low_spot) == (96, 108)


def test_the_room_for_the_toes_is_only_judged_where_it_is_said() -> None:
    assert row(KITCHEN, PLINTH).toe_space == 45
    assert row(with_(", set back: 45", ""), PLINTH).has_set_back is False


def test_without_runs_nobody_knows() -> None:
    assert left_out("floors: none", PLINTH) == ["/runs"]


def test_levels_left_out_are_to_find_out() -> None:
    text = "\n".join(line for line in KITCHEN.splitlines() if not line.startswith("floor:"))
    assert to_find(row(text, PLINTH), "at_low_spot") == {"/floor/levels"}


def test_a_room_of_its_own_has_its_own_floor() -> None:
    short = "runs:\n  short: {against: utility / north, legs: 100, order: {B1: base 600}}"
    text = with_("against: north", "against: room / north").replace("kinds:", UTILITY).replace("runs:", short)
    found = {plinth.subject.name: plinth for plinth in rows(text, PLINTH)}
    assert (found["short"].rise, found["short"].fall, found["short"].at_low_spot) == (2, 5, 105)
    assert found["long"].at_low_spot == 104


UTILITY = """rooms:
  utility:
    walls: {north: {length: 2000}, east: {length: 1500}, south: {length: 2000}, west: {length: 1500}}
    floor: {levels: {north-west corner: 2 low, north-east corner: 5 low, south wall: 0}}
    floors: none
kinds:"""
