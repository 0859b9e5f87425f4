"""What is behind a hob, and how wide the hood is that hangs over it."""

from __future__ import annotations

from tests.measures.plans import left_out, row, rows, to_find

KIND = "splashback behind a hob"
ROOM = """
heights from: finished floor
walls: {north: {length: 3200}, east: {length: 2600}, south: {length: 3200}, west: {length: 2600}}
kinds: {base: {height: 715, depth: 560}}
"""
RUN = "{long: {against: north, order: {A1: base 600}}}"


def kitchen(hob: str, runs: str = RUN, more: str = "") -> str:
    return f"{ROOM}runs: {runs}\nappliances: {{hob: {{is: gas hob, in: A1, width: 580, pan support: 45{hob}}}{more}}}"


def test_a_splashback_may_be_written_in_one_line() -> None:
    found = row(kitchen(", splashback: toughened glass on cement board"), KIND)
    assert (found.fuel, found.material, found.backing) == ("gas", "toughened glass", "cement board")
    assert to_find(found, "room") == {"/appliances/hob/splashback/to burners"}


def test_a_splashback_with_all_that_is_known_of_it() -> None:
    found = row(kitchen(", splashback: {is: ceramic tile, height: 600, to burners: 70}"), KIND)
    assert (found.material, found.room, found.above_burners) == ("ceramic tile", 70, 555)
    raised = row(kitchen(", splashback: {is: toughened glass, height: 600, gap: 3}"), KIND)
    assert raised.above_burners == 558


def test_what_is_behind_a_hob_that_does_not_say_is_not_known() -> None:
    found = row(kitchen(""), KIND)
    assert to_find(found, "material") == {"/appliances/hob/splashback"}
    assert to_find(found, "room") == {"/appliances/hob/splashback"}


def test_behind_a_hob_on_an_island_there_is_no_wall() -> None:
    assert rows(kitchen("", "{long: {faces: north, aisle: 1100, order: {A1: base 600}}}"), KIND) == []


def test_appliances_left_out_may_be_hobs() -> None:
    assert left_out(ROOM, KIND) == ["/appliances"]


def test_a_hood_is_compared_with_the_width_of_its_hob() -> None:
    found = row(kitchen("", more=", hood: {over: hob, width: 600, up: 1600}"), "hob under hood")
    assert found.wider == 20
    unsaid = row(kitchen("", more=", hood: {over: hob, up: 1600}"), "hob under hood")
    assert to_find(unsaid, "wider") == {"/appliances/hood/width"}
