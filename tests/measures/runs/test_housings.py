"""Appliances in housings and machines in openings: clear space, what the makers ask, and how deep the run is."""

from __future__ import annotations

from typing import Any

import pytest

from tests.measures.plans import ends, left_out, row, rows, to_find, working
from validator.measures.rows import Why

HOUSING, OPENING = "appliance in a housing", "machine in an opening"
ROOM = """
walls: {north: {length: 4000}, east: {length: 3000}, south: {length: 4000}, west: {length: 3000}}
kinds:
  base: {height: 720, depth: 560, front: 19, void behind: 50}
  tall: {height: 1970, depth: 560, front: 19, void behind: 50, sides: 18}
  bare: {height: 1970}
runs: {tall run: {against: north, order: {T1: tall 600, dishwasher: 600, B1: base 600, T2: bare 600}}}
"""


def housed(text: str) -> Any:
    return row(ROOM + text, HOUSING)


def opening(text: str, room: str = ROOM) -> Any:
    return row(room + text, OPENING)


def test_the_clear_width_is_the_carcass_less_its_two_sides() -> None:
    found = housed("appliances: {oven: {in: T1, niche: 560 w}}")
    assert (found.inside_width, found.niche_width) == (564, 560)
    assert working(found, "inside_width") == [(564, "clear width of T1")]


def test_a_clear_width_that_was_measured_goes_before_the_sides() -> None:
    room = ROOM.replace("sides: 18", "inside: 551 w x 590 h")
    found = row(room + "appliances: {oven: {in: T1, niche: 560 w x 585 h x 545 d}}", HOUSING)
    assert (found.inside_width, found.inside_height, found.inside_depth) == (551, 590, 560)
    assert (found.niche_height, found.niche_depth) == (585, 545)


def test_the_makers_paper_goes_before_what_the_appliance_itself_says() -> None:
    paper = "stated: {oven: {read: p. 3, niche: 568 w x 600 h}}"
    found = housed(f"appliances: {{oven: {{in: T1, niche: 560 w}}}}\n{paper}")
    assert (found.niche_width, found.asks_height, found.asks_depth) == (568, True, False)


def test_a_niche_given_as_a_range_keeps_both_ends() -> None:
    assert ends(housed("appliances: {oven: {in: T1, niche: 560 to 568 w}}"), "niche_width") == (560, 568)


def test_a_niche_nobody_knows_is_asked_for_once() -> None:
    found = housed("appliances: {oven: {in: T1}}")
    asked = to_find(found, "niche_width") | to_find(found, "asks_height") | to_find(found, "asks_depth")
    assert asked == {"/appliances/oven/niche"}


def test_sides_and_clear_height_are_asked_of_the_kind() -> None:
    found = housed("appliances: {oven: {in: T2, niche: 560 w x 590 h}}")
    assert to_find(found, "inside_width") == {"/kinds/bare/sides"}
    assert to_find(found, "inside_height") == {"/kinds/bare/inside"}


def test_a_fridge_is_asked_for_the_air_behind_it() -> None:
    found = housed("appliances: {fridge freezer: {in: T1, niche: 560 w}}")
    assert (found.cold, found.air) == (True, 50)
    assert found.missing["maker_air"][0].why is Why.UNREAD


@pytest.mark.parametrize("what", ["sink: {in: T1}", "hob: {is: gas hob, in: T1}", "oven: {in: dishwasher}", "oven: {}"])
def test_what_is_not_built_into_a_unit_has_no_housing(what: str) -> None:
    assert rows(ROOM + f"appliances: {{{what}}}", HOUSING) == []


def test_without_appliances_they_are_asked_for() -> None:
    assert left_out(ROOM, HOUSING) == ["/appliances"]


def test_a_machine_has_the_play_that_its_opening_leaves_and_the_depth_of_the_run() -> None:
    """600 − 596 is 4; 50 + 560 + 19 − 550 is 79."""
    found = opening("appliances: {dishwasher: {body: 596 w x 815 h x 550 d}}")
    assert (found.play, found.room_behind, found.free_standing) == (4, 79, True)


def test_the_depth_is_that_of_the_unit_beside_it() -> None:
    room = ROOM.replace("T2: bare 600", "T2: bare 600, oven: 600")
    found = next(each for each in rows(room, OPENING) if each.subject.name == "oven")
    assert to_find(found, "room_behind") >= {"/kinds/bare/depth", "/kinds/bare/void behind", "/kinds/bare/front"}


def test_a_machine_without_a_body_is_asked_for_it() -> None:
    assert to_find(opening(""), "play") == {"/appliances/dishwasher/body"}


def test_an_opening_takes_the_machine_that_says_it_stands_there() -> None:
    room = ROOM.replace("dishwasher: 600", "O1: opening 610")
    found = opening("appliances: {washer: {is: washing machine, in: O1, body: 597 w x 845 h x 590 d}}", room)
    assert (found.subject.name, found.play) == ("washer", 13)


def test_a_cookers_paper_may_give_the_width_of_its_opening() -> None:
    room = ROOM.replace("dishwasher: 600", "cooker: 610")
    paper = "stated: {cooker: {read: p. 2, opening width: 605}}"
    found = opening(f"appliances: {{cooker: {{is: gas cooker, body: 600 w x 900 h x 600 d}}}}\n{paper}", room)
    assert (found.maker_width, found.free_standing) == (605, False)


def test_a_machine_in_a_run_without_units_stands_flush_with_nothing() -> None:
    room = ROOM.replace("T1: tall 600, dishwasher: 600, B1: base 600, T2: bare 600", "dishwasher: 600")
    room = room.replace("  base: {height: 720, depth: 560, front: 19, void behind: 50}\n", "")
    room = room.replace(
        "  tall: {height: 1970, depth: 560, front: 19, void behind: 50, sides: 18}\n", "  worktop: {thickness: 38}\n"
    )
    room = room.replace("  bare: {height: 1970}\n", "")
    found = opening("", room)
    assert (found.free_standing, found.missing["run_depths"][0].why) == (False, Why.UNCLEAR)
