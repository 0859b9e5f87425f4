"""Upstands below sills and plates, splashbacks below hoods, and machines on feet between floor and worktop."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, row, rows, to_find

PLATE = "point over an upstand"
PANEL = "splashback at a hob"
WINDOW = "window over a worktop"
MACHINE = "appliance under a worktop"

KITCHEN = """
heights from: bare floor
walls: {north: {length: 4200}, east: {length: 3000}, south: {length: 4200}, west: {length: 3000}}
ceiling: 2400
floor: {levels: {door: 0, sink: 9 low}}
floors: {cork planks: {thickness: 10.5, underlay: 1.5, laid: after units}}
openings: {window: {wall: north, along: 700 from west, size: 600 w x 900 h, up: 930, opens: top hung}}
kinds:
  base: {height: 720, depth: 555, legs: 90 to 160}
  worktop: {thickness: 28, upstand: 60}
  plate: {plate: 120 x 80, cable: straight up}
runs:
  long: {against: north, legs: 112 at high spot, order: {A1: base 600, dishwasher: 600, A2: base 600}}
worktops: {long top: {on: long}}
appliances:
  dishwasher: {body: 598 w x 815 to 860 h x 550 d}
  hob: {is: induction hob, in: A2, width: 580, splashback: {is: glass, height: 600, gap: 3}}
  hood: {over: hob, up: 1500 from finished floor}
points: {P1: {is: plate, over: A1, up: 130 above worktop}, P2: {is: plate, in: A1, up: 300}}
"""


def with_(old: str, new: str, text: str = KITCHEN) -> str:
    assert old in text
    return text.replace(old, new)


def test_only_a_plate_over_the_worktop_meets_its_upstand() -> None:
    """The middle at 130 less half of 80 is 90 above the worktop."""
    plate = row(KITCHEN, PLATE)
    assert (plate.subject.name, plate.lower_edge, plate.upstand) == ("P1", 90, 60)


@pytest.mark.parametrize("upstand", ["", ", upstand: none"])
def test_without_an_upstand_there_is_nothing_to_meet(upstand: str) -> None:
    text = with_(", upstand: 60", upstand)
    assert rows(text, PLATE) == []
    assert row(text, WINDOW).has_upstand is False


def test_an_upstand_to_find_out_is_asked_for() -> None:
    text = with_("upstand: 60", "upstand: to find out")
    assert to_find(row(text, PLATE), "upstand") == {"/worktops/long top/upstand"}


def test_the_upstand_of_the_worktop_under_a_window() -> None:
    """The sill at 930 is 70 above the worktop at 112 + 720 + 28 = 860."""
    window = row(KITCHEN, WINDOW)
    assert (window.sill_above, window.has_upstand, window.upstand) == (70, True, 60)


def test_a_panel_between_worktop_and_hood() -> None:
    """The hood at 1500 is 652 above the worktop at 860 − 12 = 848; 3 + 600 leave 49."""
    panel = row(KITCHEN, PANEL)
    assert (panel.gap, panel.left_above, panel.has_above) == (3, 49, True)


def test_a_unit_that_hangs_lower_than_the_hood_ends_the_panel() -> None:
    text = with_("kinds:", "kinds:\n  wall: {height: 500, depth: 300}")
    upper = "  upper: {against: north, underside: 1400, order: {W1: wall 600 over A2}}\n"
    text = with_("worktops:", f"{upper}worktops:", text)
    assert row(text, PANEL).left_above == 1400 - 860 - 603


def test_nothing_over_the_hob_leaves_the_panel_free() -> None:
    assert row(with_("  hood: {over: hob, up: 1500 from finished floor}\n", ""), PANEL).has_above is False


def test_a_splashback_of_which_only_the_material_is_said_is_no_panel_yet() -> None:
    assert rows(with_("{is: glass, height: 600, gap: 3}", "glass on plaster"), PANEL) == []


def test_a_range_of_heights_is_a_machine_on_feet() -> None:
    """Wound in 815; wound out 860 against 832 − 12 + 9 = 829 at the low spot."""
    machine = row(KITCHEN, MACHINE)
    assert (machine.has_feet, machine.body, machine.body_most, machine.deepest) == (True, 815, 860, 829)
    assert ends(machine, "body") == (815, 815)


def test_a_floor_that_stops_in_front_of_machines_leaves_them_on_the_bare_one() -> None:
    text = with_("laid: after units", "laid: after units, under machines: no")
    machine = row(text, MACHINE)
    assert (machine.deepest, machine.opening_after) == (841, 820)


def test_one_height_says_nothing_of_the_feet() -> None:
    assert row(with_("815 to 860 h", "815 h"), MACHINE).has_feet is False


def test_whether_the_floor_runs_on_may_be_to_find_out() -> None:
    text = with_("laid: after units", "laid: after units, under machines: to find out")
    assert to_find(row(text, MACHINE), "deepest") == {"/floors/cork planks/under machines"}


TWO_TOPS = with_(
    "worktops: {long top: {on: long}}",
    "worktops: {left: {on: long, between: west wall and dishwasher, upstand: none}, "
    "right: {on: long, between: dishwasher and A2, thickness: 40}}",
    KITCHEN.replace("A2: base 600", "A3: base 600, A2: base 600").replace("in: A2, width", "in: A3, width"),
)


def test_of_two_worktops_on_a_run_a_plate_meets_the_upstand_of_that_below_it() -> None:
    points = "P1: {is: plate, over: A1, up: 130 above worktop}"
    there = TWO_TOPS.replace(points, points.replace("A1", "A3"))
    assert (rows(TWO_TOPS, PLATE), row(there, PLATE).upstand) == ([], 60)


def test_of_two_worktops_on_a_run_a_hob_lies_in_the_one_over_its_unit() -> None:
    """Legs 112, unit 720, top 40; the other top of the run is 28 thick."""
    found = row(TWO_TOPS, "hob under hood")
    assert found.surface == row(TWO_TOPS.replace("thickness: 40", "thickness: 30"), "hob under hood").surface + 10
