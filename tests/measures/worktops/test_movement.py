"""Timber worktops that swell and shrink, gaps at walls, sealant, and how tops are kept and held."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, left_out, row, rows, to_find

ROOM = """
walls: {north: {length: 4000}, east: {length: 3000}, south: {length: 4000}, west: {length: 3000}}
kinds: {base: {height: 720, depth: 560, opens: door}}
runs: {a: {against: north, order: {B1: base 800, dishwasher: 600}}}
appliances: {dishwasher: {body: 598 w x 815 h x 550 d}}
"""
AT_WALL = "worktop at its wall"
OAK = "material: solid oak, depth: 600, moisture: 10 % by pin meter, settles at: 8 to 12 %"


def top(said: str) -> str:
    return ROOM + f"worktops: {{top: {{on: a, {said}}}}}\n"


def test_a_timber_top_swells_from_how_it_is_fitted_to_the_dampest_it_will_be() -> None:
    """600 × 0.00365 × 2 each way."""
    found = row(top(f"{OAK}, gap at wall: 5, cover at wall: 12"), AT_WALL)
    assert (found.swelling, found.shrinking, found.movement) == pytest.approx((4.38, 4.38, 8.76))
    assert (found.least_gap, found.widest_gap, found.least_overlap) == pytest.approx((0.62, 9.38, 2.62))


def test_timber_fitted_damp_moves_as_far_as_from_there_to_its_driest() -> None:
    """600 × 0.00365 × 7 for one per cent each, from 15 to 8 %; in use alone it would be 4."""
    found = row(top(OAK.replace("10 %", "15 %")), AT_WALL)
    assert found.movement == pytest.approx(15.33)


def test_slots_leave_what_the_timber_does_not_take_of_them() -> None:
    found = row(top(f"{OAK}, held by: slotted brackets, slots: 10"), AT_WALL)
    assert found.travel_left == pytest.approx(1.24)


def test_a_moisture_in_doubt_keeps_both_ends() -> None:
    found = row(top(OAK.replace("10 %", "9 to 11 %")), AT_WALL)
    assert ends(found, "swelling") == pytest.approx((2.19, 6.57))


def test_a_timber_that_the_table_does_not_have_is_not_known() -> None:
    found = row(top(OAK.replace("solid oak", "solid iroko")), AT_WALL)
    assert to_find(found, "swelling") == {"/worktops/top/material"}


def test_what_is_missing_for_a_movement_is_asked_for_at_once() -> None:
    found = row(top("material: solid oak"), AT_WALL)
    assert to_find(found, "swelling") == {f"/worktops/top/{key}" for key in ("depth", "settles at", "moisture")}


@pytest.mark.parametrize(("cover", "has"), [("12", True), ("none", False)])
def test_a_gap_has_a_cover_or_none(cover: str, has: bool) -> None:
    assert row(top(f"{OAK}, cover at wall: {cover}"), AT_WALL).has_cover is has


def test_a_cover_that_nobody_speaks_of_is_asked_for() -> None:
    assert to_find(row(top(OAK), AT_WALL), "has_cover") == {"/worktops/top/cover at wall"}


def test_the_top_of_an_island_has_no_wall() -> None:
    island = "walls: {north: {length: 4000}}\nkinds: {base: {height: 720}}\n"
    runs = "runs: {isle: {faces: north, order: {B1: base 800}}}\nworktops: {top: {on: isle}}\n"
    assert rows(island + runs, AT_WALL) == []


def test_without_worktops_nobody_knows_of_their_gaps() -> None:
    assert left_out(ROOM, AT_WALL) == ["/worktops"]


SEALANT = "sealant joint of a worktop"


def test_a_sealant_takes_its_share_of_the_width() -> None:
    found = row(top("material: granite, seal: {width: 8, class: 25, moves: 2}"), SEALANT)
    assert (found.can_take, found.width_needed) == (2, 8)


def test_the_joint_of_a_timber_top_moves_as_far_as_the_top() -> None:
    assert row(top(f"{OAK}, seal: '10, class 25'"), SEALANT).moves == pytest.approx(8.76)


def test_the_joint_of_another_top_asks_how_far_it_moves() -> None:
    assert to_find(row(top("material: granite, seal: '8, class 25'"), SEALANT), "width_needed") == {
        "/worktops/top/seal/moves"
    }


def test_no_sealant_in_the_plan_makes_no_row() -> None:
    assert rows(top(OAK), SEALANT) == []


@pytest.mark.parametrize(("said", "has"), [("foil", True), ("none", False)])
def test_over_a_machine_a_worktop_has_a_barrier_or_none(said: str, has: bool) -> None:
    found = row(top(f"material: laminate, barrier: {said}"), "worktop over a machine")
    assert (found.has_barrier, found.machine) == (has, "dishwasher")


def test_a_machine_in_a_unit_or_one_that_only_its_opening_names_steams_too() -> None:
    listed = "appliances: {dishwasher: {body: 598 w x 815 h x 550 d}}"
    named = top("material: laminate").replace(listed, "appliances: none")
    assert row(named, "worktop over a machine").machine == "dishwasher"
    inside = named.replace("dishwasher: 600", "B9: base 600").replace("none", "{machine: {is: dishwasher, in: B9}}")
    assert row(inside, "worktop over a machine").machine == "machine"


def test_a_fridge_does_not_steam() -> None:
    cold = top("material: laminate").replace("dishwasher", "fridge")
    assert rows(cold, "worktop over a machine") == []


def test_what_nobody_says_of_a_worktop_is_asked_for() -> None:
    found = row(top("material: laminate"), "worktop as fitted")
    assert to_find(found, "sealed") == {"/worktops/top/sealed"}
    assert to_find(found, "fitted_at") == {"/worktops/top/moisture"}
