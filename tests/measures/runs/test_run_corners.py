"""Corners in which runs meet: room for both, posts that clear handles, corner units, and appliances beside a corner."""

from __future__ import annotations

from typing import Any

import pytest

from tests.measures.plans import left_out, rows, site, to_find, working

CORNER, FRONT = "corner of two runs", "front beside a corner"
ROOM = """
heights from: bare floor
walls: {north: {length: 3000}, east: {length: 2600}, south: {length: 3000}, west: {length: 2600}}
kinds:
  base: {height: 720, depth: 560, front: 20, void behind: 40, opens: door, handle: 30}
  drawers: {like: base, opens: drawers}
  bare: {like: base, handle: none}
  corner: {like: base, blind: 640}
  turning: {like: base, other side: 900}
  open shelf: {like: base, opens: nothing}
  plain: {height: 720, depth: 560, front: 20, void behind: 40}
  wall: {height: 720, depth: 300}
"""


def plan(north: str, east: str, rest: str = "") -> str:
    return f"{ROOM}runs:\n  n: {{against: north, order: {{{north}}}}}\n  e: {{against: east, {east}}}\n{rest}"


THROUGH = "F1: filler 800, B1: base 600, B2: base 600, C1: corner 1000"
CLEAR = "from: fronts of n, order: {P1: post 50, D1: drawers 600, D2: drawers 600}"


def corner(north: str, east: str, name: str = "north-east corner") -> Any:
    return next(row for row in rows(plan(north, east), CORNER) if row.subject.name == name)


def fronts(north: str, east: str, rest: str = "") -> dict[str, Any]:
    return {row.subject.name: row for row in rows(plan(north, east, rest), FRONT)}


def test_a_run_from_the_fronts_of_another_is_clear_of_its_carcass() -> None:
    """620 + 50 − 600 is 70."""
    assert corner(THROUGH, CLEAR).clear == 70


def test_two_runs_that_both_go_into_the_corner_overlap_in_it() -> None:
    found = corner(THROUGH, "order: {D1: drawers 600}")
    assert found.clear == -600
    assert corner(THROUGH, "order: {F2: filler 580, D1: drawers 600}").clear == -20


def test_either_may_make_room_for_the_other() -> None:
    """The north run ends at 2200: 800 from the corner, and the east run is 600 deep."""
    assert corner("F1: filler 1000, B1: base 1200", "order: {D1: drawers 600}").clear == 200


def test_the_other_leg_of_a_corner_unit_takes_its_place_on_the_other_wall() -> None:
    legs = "F1: filler 1500, B1: base 600, C1: turning 900"
    assert corner(legs, "order: {F2: filler 890, D1: drawers 600}").clear == -10
    assert fronts(legs, "order: {F2: filler 900, D1: drawers 600}") == {}


def test_hung_units_meet_in_the_corner_by_their_own_depth() -> None:
    text = f"{ROOM}runs:\n  n: {{against: north, underside: 1400, order: {{W1: wall 3000}}}}\n"
    text += "  e: {against: east, underside: 1400, order: {F1: filler 290, W2: wall 600}}\n"
    found = {row.subject.name: row for row in rows(text, CORNER)}
    assert (set(found), found["north-east corner, wall units"].clear) == ({"north-east corner, wall units"}, -10)


def test_each_front_is_measured_from_the_handles_across_the_corner() -> None:
    """D1 starts at 670, and 620 + 30 are taken; the corner unit's door starts at 640, and as much is taken."""
    found = fronts(THROUGH, CLEAR)
    assert (found["D1"].post, found["D1"].from_fronts, found["D1"].clear) == (70, 50, 20)
    assert (found["C1"].post, found["C1"].clear) == (40, -10)
    assert found["D1"].drawers
    assert working(found["D1"], "clear")[1:] == [(620, "fronts of n"), (30, "handle")]


def test_the_post_of_a_corner_unit_counts_behind_its_blind_part() -> None:
    posted = THROUGH.replace("C1: corner 1000", "C1: {is: corner, width: 1000, post: 60}")
    assert fronts(posted, CLEAR)["C1"].clear == 50


def test_a_unit_in_the_corner_is_asked_how_much_of_it_is_blind() -> None:
    found = fronts(THROUGH.replace("corner 1000", "base 1000"), CLEAR)
    assert to_find(found["C1"], "clear") == {"/kinds/base/blind"}


def test_a_front_without_a_handle_takes_none() -> None:
    found = fronts(THROUGH, CLEAR.replace("D1: drawers", "D1: bare"))
    assert found["C1"].clear == 20
    assert not found["C1"].drawers


def test_a_handle_nobody_gave_is_asked_of_the_kind() -> None:
    found = fronts(THROUGH, CLEAR.replace("D1: drawers", "D1: plain"))
    assert to_find(found["C1"], "clear") == {"/kinds/plain/handle"}
    assert to_find(found["C1"], "drawers") == {"/kinds/plain/opens"}


def test_what_has_no_front_is_passed_over() -> None:
    found = fronts(THROUGH, CLEAR.replace("D1: drawers 600", "S1: open shelf 300, D1: drawers 600"))
    assert found["D1"].post == 370


def test_fronts_far_from_the_corner_have_no_row() -> None:
    assert fronts(THROUGH, "order: {F2: filler 1300, D1: drawers 600}") == {}
    assert fronts("B1: base 600", CLEAR.replace("from: fronts of n", "from: 620 from north")) == {}


def test_a_machine_across_the_corner_stands_out_by_its_body_and_its_handle() -> None:
    """A dishwasher of 630 in a run of 620: 670 − 630 − 45 is −5."""
    north = "F1: filler 1400, B1: base 300, dishwasher: 600, F3: filler 700"
    machine = "appliances: {dishwasher: {body: 598 w x 815 h x 630 d, handle: 45}}"
    found = fronts(north, CLEAR, machine)
    assert (found["D1"].clear, found["D1"].meets_appliance, found["dishwasher"].is_appliance) == (-5, True, True)
    assert found["dishwasher"].from_fronts == 80


def test_an_oven_in_a_unit_without_doors_shows_its_own_handle() -> None:
    north = "F1: filler 1700, O1: open shelf 600, F3: filler 700"
    found = fronts(north, CLEAR, "appliances: {oven: {in: O1, handle: 48}}")
    assert (found["D1"].clear, found["D1"].meets_appliance) == (2, True)
    assert to_find(fronts(north, CLEAR, "appliances: {oven: {in: O1}}")["D1"], "clear") == {"/appliances/oven/handle"}


@pytest.mark.parametrize("kind", [CORNER, FRONT])
def test_without_runs_they_are_asked_for(kind: str) -> None:
    assert left_out(ROOM, kind) == ["/runs"]


@pytest.mark.parametrize("kind", [CORNER, FRONT])
def test_two_walls_that_do_not_close_a_room_meet_once(kind: str) -> None:
    walls = ROOM.replace(", south: {length: 3000}, west: {length: 2600}", "")
    text = plan(THROUGH, CLEAR).replace(ROOM, walls)
    assert len(site(text).rows(kind).rows) == (1 if kind == CORNER else 2)


def test_a_front_says_whether_it_is_hinged_beside_the_corner_and_with_what_handle() -> None:
    """The end of the north run at the corner is at the right, that of the east run at the left."""
    found = fronts(
        "F1: filler 1730, B1: base 600 right, P0: post 50",
        "from: fronts of n, order: {P1: post 50, B2: base 600 right}",
    )
    assert [(found[name].hinged_here, found[name].own_handle) for name in ("B1", "B2")] == [(True, 30), (False, 30)]
