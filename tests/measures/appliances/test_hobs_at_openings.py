"""Hobs by doorways and windows: which opening counts, and how far from it the hob is along the wall."""

from __future__ import annotations

import pytest

from tests.measures.plans import left_out, row, rows, to_find, working

DOORWAY, WINDOW = "hob by a doorway", "hob by a window"
ROOM = """
heights from: bare floor
walls: {north: {length: 4200}, east: {length: 3000}, south: {length: 4200}, west: {length: 3000}}
kinds: {base: {height: 715}}
runs: {long: {against: north, from: 1000 from west, order: {A1: base 600, A2: base 600}}}
appliances: {hob: {is: gas hob, in: A2, width: 580}}
"""


def openings(said: str) -> str:
    return f"{ROOM}openings: {{{said}}}"


def test_a_hob_is_counted_from_the_edge_of_the_doorway() -> None:
    """The door takes 100 to 900, the hob 1610 to 2190."""
    found = row(openings("hall door: {wall: north, along: 100 from west, size: 800 w x 2000 h}"), DOORWAY)
    assert (found.subject.name, found.doorway, found.fuel, found.clear) == ("hob", "hall door", "gas", 710)
    assert working(found, "clear") == [(1610, "left side of hob"), (900, "far edge of the hall door")]


def test_a_doorway_to_the_right_given_from_the_right() -> None:
    """It takes 4200 − 900 − 800 = 2500 to 3300."""
    found = row(openings("door: {wall: north, along: 900 from east, size: 800 w x 2000 h}"), DOORWAY)
    assert found.clear == 2500 - 2190


def test_the_nearest_doorway_counts_and_an_open_passage_is_one() -> None:
    door = "door: {wall: north, along: 100 from west, size: 800 w x 2000 h}"
    passage = "passage: {is: opening, wall: north, along: 2300 from west, size: 900 w x 2100 h}"
    found = row(openings(f"{door}, {passage}"), DOORWAY)
    assert (found.doorway, found.clear) == ("passage", 110)


def test_a_hob_under_a_window_is_less_than_nothing_clear_of_it() -> None:
    """The window takes 1900 to 2800: 290 of the hob are under it."""
    window = "window: {wall: north, along: 1900 from west, size: 900 w x 900 h, up: 1100, opens: in}"
    found = row(openings(window), WINDOW)
    assert (found.window, found.opens, found.clear) == ("window", "in", -290)


def test_a_window_that_is_fixed_shut_does_not_stand_for_one_that_opens() -> None:
    """The hob takes 1610 to 2190: 480 of it are under the fixed window and 90 under the other."""
    shut = "fixed window: {wall: north, along: 1200 from west, size: 890 w x 900 h, up: 1100, opens: fixed}"
    other = "window: {wall: north, along: 2100 from west, size: 900 w x 900 h, up: 1100, opens: in}"
    found = row(openings(f"{shut}, {other}"), WINDOW)
    assert (found.window, found.clear) == ("window", -90)


@pytest.mark.parametrize("kind", [DOORWAY, WINDOW])
def test_openings_of_other_walls_and_sorts_make_no_row(kind: str) -> None:
    other = {DOORWAY: "window", WINDOW: "door"}[kind]
    said = f"{other}: {{wall: north, along: 100 from west, size: 800 w x 900 h}}"
    own = f"{kind.split()[-1].replace('doorway', 'door')}: {{wall: south, along: 100 from west, size: 800 w x 900 h}}"
    assert rows(openings(f"{said}, back {own}"), kind) == []


def test_a_hob_of_unknown_place_may_be_by_any_doorway() -> None:
    lost = openings("door: {wall: north, along: 100 from west, size: 800 w x 2000 h}").replace("in: A2, ", "")
    assert left_out(lost, DOORWAY) == ["/appliances/hob/in"]
    assert left_out(lost, WINDOW) == []


def test_an_opening_of_unknown_size_is_named() -> None:
    found = row(openings("window: {wall: north, along: 100 from west, up: 1100}"), WINDOW)
    assert to_find(found, "clear") == {"/openings/window/size"}
    assert to_find(found, "opens") == {"/openings/window/opens"}


def test_what_is_left_out_may_be_a_doorway_or_a_hob() -> None:
    assert left_out(ROOM, DOORWAY) == ["/openings"]
    assert left_out("openings: none", WINDOW) == ["/appliances"]
    assert left_out("appliances: {basin: {}}", WINDOW) == ["/appliances/basin/is"]


@pytest.mark.parametrize(
    ("written", "aired"),
    [
        ("none", False),
        ("{door: {wall: south}}", False),
        ("{window: {wall: south, opens: fixed}}", False),
        ("{window: {wall: south, opens: out}}", True),
        ("{old light: {is: window, opens: fixed}, kitchen window: {wall: west, opens: top hung}}", True),
    ],
)
def test_a_window_on_any_wall_airs_the_room_of_a_hob_if_it_opens(written: str, aired: bool) -> None:
    assert row(f"{ROOM}openings: {written}", "room of a hob").aired is aired


@pytest.mark.parametrize(
    ("written", "pointers"),
    [
        ("", {"/openings"}),
        ("openings: {window: {wall: south}}", {"/openings/window/opens"}),
        ("openings: {thing: {wall: south}}", {"/openings/thing/is"}),
    ],
)
def test_a_window_that_nobody_told_of_may_air_the_room(written: str, pointers: set[str]) -> None:
    assert to_find(row(ROOM + written, "room of a hob"), "aired") == pointers
