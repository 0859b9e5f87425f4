"""Hobs and the units that hang over them: which unit counts, how high it hangs, and what is missing for it."""

from __future__ import annotations

from typing import Any

import pytest

from tests.measures.plans import ends, gaps, known, left_out, row, rows, to_find, working
from validator.measures.rows import Why

KIND = "unit over a hob"

ROOM = """
heights from: bare floor
walls: {north: {length: 4200}, east: {length: 3000}, south: {length: 4200}, west: {length: 3000}}
ceiling: 2450
floors: {cork planks: {thickness: 10.5, underlay: 1.5, laid: after units}}
kinds: {base: {height: 715, legs: 90 to 140}, wall: {height: 600, depth: 300}, worktop: {thickness: 28}}
worktops: {long top: {on: long}}
"""
LONG = "long: {against: north, legs: 105 at high spot, order: {A1: base 600, A2: base 700, A3: base 500}}"
GAS = "hob: {is: gas hob, in: A2, width: 580, pan support: 44}"
OVER = "{W1: wall 600 over A1, W2: wall 700 over A2}"
UP = "underside: 1650 from finished floor"


def kitchen(order: str = OVER, hung: str = UP, hob: str = GAS, against: str = "north", more: str = "") -> str:
    units = f"units: {{against: {against}, {hung}, order: {order}}}"
    return f"{ROOM}\nruns:\n  {LONG}\n  {units}\nappliances: {{{hob}}}\n{more}"


def over(*said: str, **named: str) -> Any:
    return row(kitchen(*said, **named), KIND)


def test_clearance_is_from_the_pan_supports_to_the_underside() -> None:
    """Worktop 105 + 715 + 28 − 12 = 836; 1650 − 836 − 44 = 770."""
    found = over()
    assert (found.fuel, found.surface, found.supports, found.clearance) == ("gas", 836, 44, 770)
    assert working(found, "clearance") == [(1650, "underside of W2"), (836, "worktop"), (44, "pan supports")]


def test_the_row_is_about_the_hob_and_names_the_unit() -> None:
    """The middle of A2 is 600 + 350 = 950; the hob reaches 290 to each side, all of it below W2."""
    found = over()
    assert (found.subject.name, found.subject.context, found.subject.along) == ("hob", "north wall", (660, 1240))
    assert (found.unit, found.overlap) == ("W2", 580)


def test_a_unit_counts_without_being_placed_over_that_of_the_hob() -> None:
    """W1 from 0 to 800 hangs 800 − 660 over the hob."""
    found = over("{W1: wall 800}")
    assert (found.unit, found.overlap) == ("W1", 140)


def test_a_unit_may_be_placed_over_the_hob_by_its_name() -> None:
    assert over("{W1: wall 700 over hob}").unit == "W1"


@pytest.mark.parametrize(
    ("order", "against"),
    [
        ("{W1: wall 600 over A1}", "north"),  # ends 60 before the hob
        ("{W1: wall 660}", "north"),  # ends where the hob begins
        ("{W1: wall 500 over A3}", "north"),
        ("{F1: filler 700, W1: wall 600}", "south"),
        ("{F1: filler 1600}", "north"),  # no unit
    ],
)
def test_what_does_not_hang_over_the_hob_makes_no_row(order: str, against: str) -> None:
    assert rows(kitchen(order, against=against), KIND) == []


def test_a_shared_side_in_inches_is_no_overlap() -> None:
    """26 in is 660.4 mm: the hob moved to reach from there begins where W1 ends."""
    hob = "hob: {is: gas hob, in: A2, width: 22-13/16 in, along: 37-13/32 in from west, pan support: 44}"
    assert rows(kitchen("{W1: wall 26 in}", hob=hob), KIND) == []


def test_the_lowest_of_several_units_counts() -> None:
    low = "W2: {is: wall, width: 600, underside: 1500 from finished floor}"
    found = over(f"{{W1: wall 900, {low}}}")
    assert (found.unit, found.underside) == ("W2", 1500)


def test_a_protected_unit_does_not_stand_for_one_that_is_not() -> None:
    """W1 hangs to 900 and W2 to 1500: both are over the hob, which reaches from 660 to 1240."""
    low = "W2: {is: wall, width: 600, underside: 1500 from finished floor, protected: yes}"
    assert [(one.unit, one.underside) for one in rows(kitchen(f"{{W1: wall 900, {low}}}"), KIND)] == [
        ("W2", 1500),
        ("W1", 1650),
    ]
    assert len(rows(kitchen(f"{{W1: {{is: wall, width: 900, protected: yes}}, {low}}}"), KIND)) == 1


def test_a_hob_of_unknown_place_may_have_units_over_it() -> None:
    assert left_out(kitchen(hob="hob: {is: gas hob, width: 580}"), KIND) == ["/appliances/hob/in"]


def test_a_unit_of_unknown_height_may_be_the_lowest() -> None:
    unknown = "W2: {is: wall, width: 600, underside: to find out}"
    found = over(f"{{W1: wall 900, {unknown}}}")
    assert to_find(found, "clearance") == {"/runs/units/order/W2/underside"}


@pytest.mark.parametrize(
    "hung",
    [
        "underside: 1662",
        "underside: 814 above worktop",
        "underside: 788 below ceiling",
        "tops: 2262",
        "tops: 2250 from finished floor",
    ],
)
def test_a_unit_may_be_given_from_anything(hung: str) -> None:
    """All of them 1650 above the finished floor, with 12 of floor below it and 600 of unit below its top."""
    assert over(hung=hung).underside == 1650


def test_a_unit_level_with_a_tall_one() -> None:
    """Legs 105, unit 2100, floor 12: 2193 − 600 = 1593."""
    tall = LONG.replace("A3: base 500", "T1: {is: base, width: 500, height: 2100}")
    text = kitchen(hung="tops: level with T1").replace(LONG, tall)
    assert row(text, KIND).underside == 1593


def test_a_unit_given_from_the_finished_floor_does_not_hang_on_its_thickness() -> None:
    found = row(kitchen().replace("thickness: 10.5", "thickness: 8 to 14"), KIND)
    assert found.underside == 1650
    assert ends(found, "clearance") == (767.5, 773.5)


def test_readings_of_the_wall_do_not_blur_what_is_set_out_from_one_end() -> None:
    """Both runs are set out from the right end: A2 under W2, whatever the wall measures."""
    text = f"""{ROOM.replace("length: 4200", "length: [4194, 4206]", 1)}
runs:
  long: {{against: north, from: 100 from east, legs: 105 at high spot, order: {{A1: base 600, A2: base 700}}}}
  units: {{against: north, from: 100 from east, {UP}, order: {{W1: wall 600, W2: wall 700}}}}
appliances: {{hob: {{is: induction hob, in: A2, width: 580}}}}
"""
    found = row(text, KIND)
    assert (found.unit, ends(found, "overlap")) == ("W2", (580, 580))


@pytest.mark.parametrize(("kind", "fuel"), [("induction hob", "induction"), ("ceramic hob", "ceramic")])
def test_flat_glass_has_no_pan_supports(kind: str, fuel: str) -> None:
    found = over(hob=f"hob: {{is: {kind}, in: A2, width: 580}}")
    assert (found.fuel, found.clearance) == (fuel, 814)


def test_the_leaflet_of_the_hob_is_brought_to_the_pan_supports() -> None:
    found = over(more="stated: {hob: {read: hob leaflet p. 5, unit above: 690 from hob surface}}")
    assert found.hob_says == 690 - 44


def test_an_unread_leaflet_is_unread() -> None:
    assert {gap.why for gap in gaps(over(), "hob_says")} == {Why.UNREAD}


@pytest.mark.parametrize(
    ("order", "hob", "pointer"),
    [
        ("{W1: wall 700 over A2}", "hob: {is: gas hob, in: A2, pan support: 44}", "/appliances/hob/width"),
        ("{W1: {is: wall, over: A2, width: to find out}}", GAS, "/runs/units/order/W1/width"),
    ],
)
def test_a_unit_that_may_hang_over_the_hob_names_what_is_missing(order: str, hob: str, pointer: str) -> None:
    found = over(order, hob=hob)
    assert to_find(found, "overlap") == {pointer}
    assert found.clearance == 770


def test_a_cooker_is_as_wide_as_its_body() -> None:
    """It stands from 600 to 1300 and is 598 wide: 651 to 1249, 906 high."""
    cooker = "cooker: {is: gas cooker, body: 598 w x 906 h x 600 d, pan support: 30}"
    text = kitchen("{W1: wall 700 over cooker}", hob=cooker).replace("A2: base 700", "cooker: 700")
    found = row(text, KIND)
    assert (known(found, "overlap").value, found.clearance) == (598, 1650 - 906 - 30)


def test_units_hung_nowhere_are_over_no_hob() -> None:
    text = f"{ROOM}\nruns: {{{LONG}}}"
    assert (rows(text, KIND), left_out(text, KIND)) == ([], [])


def test_appliances_left_out_may_be_hobs() -> None:
    assert left_out(kitchen().replace(f"appliances: {{{GAS}}}", ""), KIND) == ["/appliances"]


def test_an_appliance_of_unknown_kind_may_be_a_hob() -> None:
    assert left_out(kitchen(hob="flames: {in: A2}"), KIND) == ["/appliances/flames/is"]


def test_runs_left_out_may_hang_over_a_hob() -> None:
    assert left_out("appliances: {hob: {is: gas hob}}", KIND) == ["/runs"]
    assert left_out("appliances: {basin: {is: sink}}", KIND) == []


def test_what_a_paper_asks_for_a_hood_says_nothing_of_a_unit() -> None:
    found = over(more="stated: {hob: {read: hob leaflet p. 5, hood above: 650 from pan supports}}")
    (gap,) = gaps(found, "hob_stated")
    assert (gap.why, gap.pointer) == (Why.UNREAD, "/stated/hob/unit above")
