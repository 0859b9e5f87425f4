"""Heights: one footing for all of them, floors before and after the units, worktops and what goes under them."""

from __future__ import annotations

from typing import Any

import pytest

from tests.measures.plans import ends, gaps, known, left_out, row, rows, to_find, working
from validator.measures.rows import Why

FLOOR = "floor build-up"
LEGS = "unit on legs"
WORKTOP = "worktop on a run"
UNDER = "appliance under a worktop"
POINT = "point on a wall"
HOLE = "drill point"

KITCHEN = """
heights from: bare floor
walls: {north: {length: 4200}, east: {length: 3000}, south: {length: 4200}, west: {length: 3000}}
ceiling: [2452, 2447, 2449]
floor: {levels: {hall door: 0, window: 7 low, sink: 11 low}}
floors: {cork planks: {thickness: 10.5, underlay: 1.5, laid: after units}}
kinds:
  base: {height: 715, depth: 555, legs: 90 to 140}
  tall: {like: base, height: 1995}
  wall: {height: 710, depth: 320, hangers: {down: 45, in: 38}}
  worktop: {thickness: 28}
  plate: {plate: 120 x 80, cable: straight up}
runs:
  long:
    against: north
    legs: 105 at high spot
    order: {A1: base 600, dishwasher: 600, A2: base 600, T1: tall 600}
worktops: {long top: {on: long}}
appliances: {dishwasher: {body: 598 w x 812 h x 550 d}}
"""


def without(text: str, line: str) -> str:
    assert line in text
    return text.replace(line, "")


def with_(text: str, old: str, new: str) -> str:
    assert old in text
    return text.replace(old, new)


def upper(hung: str, units: str = "{W1: wall 600 over A1}") -> str:
    """The kitchen with a run of wall units, hung as given."""
    return with_(KITCHEN, "worktops:", f"  upper: {{against: north, {hung}, order: {units}}}\nworktops:")


def hole(text: str) -> Any:
    return next(row for row in rows(text, HOLE))


def point(up: str, text: str = KITCHEN) -> Any:
    return row(f"{text}\npoints: {{P1: {{is: plate, over: A1, up: {up}}}}}", POINT)


def test_a_floor_is_as_thick_as_its_layers() -> None:
    floor = row(KITCHEN, FLOOR)
    assert floor.thickness == 12
    assert working(floor, "thickness") == [(10.5, "cork planks"), (1.5, "underlay")]


def test_a_floor_of_three_layers() -> None:
    text = "floors: {cork planks: {thickness: 10, underlay: 2, sheet: 0.2, laid: after units}}"
    assert row(text, FLOOR).thickness == pytest.approx(12.2)


def test_a_thickness_that_is_left_out_is_to_find_out() -> None:
    floor = row("floors: {cork planks: {underlay: 2, laid: after units}}", FLOOR)
    assert to_find(floor, "thickness") == {"/floors/cork planks/thickness"}


def test_floors_left_out_are_not_floors_none() -> None:
    assert left_out("ceiling: 2400\nheights from: bare floor", FLOOR) == ["/floors"]
    assert rows("floors: none", FLOOR) == []


def test_a_worktop_stands_on_legs_and_unit() -> None:
    """105 + 715 + 28 = 848 above the bare floor; 848 − 12 = 836 above the finished one."""
    top = row(KITCHEN, WORKTOP)
    assert (top.underside, top.above_bare_floor, top.height) == (820, 848, 836)
    assert working(top, "height") == [
        (0, "floor under the units"),
        (105, "legs"),
        (715, "unit"),
        (28, "long top"),
        (12, "floor"),
    ]


def test_units_stand_on_a_floor_that_is_laid_before_them() -> None:
    top = row(with_(KITCHEN, "laid: after units", "laid: before units"), WORKTOP)
    assert (top.underside, top.above_bare_floor, top.height) == (832, 860, 848)


def test_without_a_floor_both_floors_are_one() -> None:
    top = row(with_(KITCHEN, "{cork planks: {thickness: 10.5, underlay: 1.5, laid: after units}}", "none"), WORKTOP)
    assert (top.above_bare_floor, top.height) == (848, 848)


def test_tall_units_beside_a_worktop_do_not_carry_it() -> None:
    assert row(KITCHEN, WORKTOP).carcass == 715


def test_the_higher_of_two_units_carries_the_worktop() -> None:
    text = with_(KITCHEN, "A2: base 600", "A2: {is: base, width: 600, height: 719}")
    assert row(text, WORKTOP).carcass == 719


def test_built_legs_win_over_those_of_the_plan() -> None:
    text = KITCHEN + "built: {A2: {legs: 109}}"
    assert row(text, WORKTOP).underside == 824
    assert [unit.setting for unit in rows(text, LEGS)] == [105, 109, 105]


def test_units_without_legs_stand_on_the_floor() -> None:
    text = with_(with_(KITCHEN, "legs: 105 at high spot", "legs: none"), "legs: 90 to 140", "legs: none")
    assert row(text, WORKTOP).underside == 715
    assert rows(text, LEGS) == []


@pytest.mark.parametrize(
    ("line", "figure", "pointers"),
    [
        ("    legs: 105 at high spot\n", "underside", {"/runs/long/legs"}),
        ("height: 715, ", "underside", {"/runs/long/order/A1/height", "/runs/long/order/A2/height"}),
        ("thickness: 28", "above_bare_floor", {"/worktops/long top/thickness"}),
        (", laid: after units", "underside", {"/floors/cork planks/laid"}),
        ("thickness: 10.5, ", "height", {"/floors/cork planks/thickness"}),
    ],
)
def test_a_worktop_names_what_its_height_lacks(line: str, figure: str, pointers: set[str]) -> None:
    assert to_find(row(without(KITCHEN, line), WORKTOP), figure) == pointers


def test_without_a_word_on_floors_no_worktop_has_a_height() -> None:
    text = without(KITCHEN, "floors: {cork planks: {thickness: 10.5, underlay: 1.5, laid: after units}}\n")
    assert to_find(row(text, WORKTOP), "height") == {"/floors"}


def test_of_two_floors_nobody_knows_which_lies_there() -> None:
    text = with_(KITCHEN, "laid: after units}}", "laid: after units}, tiles: {thickness: 9, laid: after units}}")
    found = gaps(row(text, WORKTOP), "height")
    assert {gap.why for gap in found} == {Why.UNCLEAR}
    assert "cork planks, tiles" in found[0].detail


def test_legs_reach_from_the_high_spot_to_the_low() -> None:
    """Levels 0, 7 and 11 low: the fall is 11, so 105 at the high spot is 116 at the low."""
    unit = rows(KITCHEN, LEGS)[0]
    assert (unit.setting, unit.fall, unit.at_low_spot) == (105, 11, 116)
    assert (unit.leg_least, unit.leg_most) == (90, 140)


def test_every_standing_unit_has_legs_and_nothing_else_does() -> None:
    text = upper("underside: 520 above worktop")
    assert [row.subject.name for row in rows(text, LEGS)] == ["A1", "A2", "T1"]


def test_the_high_spot_counts_though_no_reading_names_it() -> None:
    text = with_(KITCHEN, "{hall door: 0, window: 7 low, sink: 11 low}", "{window: 7 low, sink: 11 low}")
    assert rows(text, LEGS)[0].fall == 11


def test_a_level_with_a_doubt_makes_the_fall_doubtful() -> None:
    text = with_(KITCHEN, "sink: 11 low", "sink: 9 to 12 low")
    assert ends(rows(text, LEGS)[0], "at_low_spot") == (114, 117)


def test_without_levels_nobody_knows_the_fall() -> None:
    text = without(KITCHEN, "floor: {levels: {hall door: 0, window: 7 low, sink: 11 low}}\n")
    assert to_find(rows(text, LEGS)[0], "at_low_spot") == {"/floor/levels"}


def test_legs_of_which_nobody_said_how_far_they_reach() -> None:
    unit = rows(without(KITCHEN, ", legs: 90 to 140"), LEGS)[0]
    assert to_find(unit, "leg_least") == {"/runs/long/order/A1/legs"}


def test_a_machine_goes_under_its_worktop_before_and_after_the_floor() -> None:
    """105 + 715 = 820 up to the worktop; 12 of floor leave 808."""
    machine = row(KITCHEN, UNDER)
    assert machine.subject.name == "dishwasher"
    assert (machine.opening_before, machine.opening_after, machine.body) == (820, 808, 812)
    assert machine.laid == "after units"


def test_under_a_floor_laid_before_the_units_nothing_changes_after() -> None:
    machine = row(with_(KITCHEN, "laid: after units", "laid: before units"), UNDER)
    assert (machine.opening_before, machine.opening_after) == (820, 820)


def test_an_opening_whose_machine_is_not_in_the_plan_asks_for_it() -> None:
    text = with_(KITCHEN, "appliances: {dishwasher: {body: 598 w x 812 h x 550 d}}", "appliances: none")
    assert to_find(row(text, UNDER), "body") == {"/appliances/dishwasher/body"}


def test_what_a_maker_asks_is_unread_stated_or_read_and_not_there() -> None:
    unread = row(KITCHEN, UNDER)
    assert gaps(unread, "maker_opening")[0].why is Why.UNREAD
    stated = row(KITCHEN + "stated: {dishwasher: {read: leaflet p. 4, opening height: 820}}", UNDER)
    assert stated.maker_opening == 820
    silent = row(KITCHEN + "stated: {dishwasher: {read: leaflet p. 4, opening height: none}}", UNDER)
    assert gaps(silent, "maker_opening")[0].why is Why.NOTHING_STATED


@pytest.mark.parametrize(
    "machine", ["{is: gas cooker, body: 598 w x 900 h x 600 d}", "{is: fridge freezer, body: 598 w x 1850 h x 600 d}"]
)
def test_what_stands_beside_a_worktop_is_not_under_it(machine: str) -> None:
    text = with_(KITCHEN, "{body: 598 w x 812 h x 550 d}", machine)
    assert rows(text, UNDER) == []


@pytest.mark.parametrize(
    ("up", "height"),
    [
        ("1100", 1100),
        ("1100 from bare floor", 1100),
        ("1100 from finished floor", 1112),
        ("210 above worktop", 848 + 210),
        ("340 below ceiling", 2447 - 340),
    ],
)
def test_every_datum_comes_down_to_the_bare_floor(up: str, height: float) -> None:
    assert ends(point(up), "up")[0] == height


def test_a_file_says_where_its_heights_start() -> None:
    text = with_(KITCHEN, "heights from: bare floor", "heights from: finished floor")
    text = with_(text, "ceiling: [2452, 2447, 2449]", "ceiling: 2450 from bare floor")
    assert point("1100", text).up == 1112
    assert point("1100", text).above_floor == 1100


def test_a_ceiling_read_three_times_leaves_a_range() -> None:
    assert ends(point("340 below ceiling"), "up") == (2107, 2112)


def test_a_wall_unit_hangs_above_the_worktop() -> None:
    """848 + 520 = 1368 underside, + 710 = 2078 top, 45 down to the hangers."""
    assert hole(upper("underside: 520 above worktop")).up == 2033


def test_a_wall_unit_hangs_from_its_top() -> None:
    assert hole(upper("tops: 2100 from bare floor")).up == 2055


def test_a_wall_unit_level_with_a_tall_unit() -> None:
    """105 + 1995 = 2100, 45 down."""
    up = hole(upper("tops: level with T1"))
    assert up.up == 2055
    assert known(up, "up").origin is not None


def test_wall_units_over_a_wall_without_a_worktop_have_no_height_above_one() -> None:
    hung = upper("underside: 520 above worktop", "{W1: wall 600}")
    text = with_(hung, "upper: {against: north", "upper: {against: south")
    (gap,) = gaps(hole(text), "up")
    assert gap.detail == "there is no worktop on the south wall"


def test_one_line_of_floor_moves_every_height_that_rests_on_it() -> None:
    """4 more of floor: 4 more under units that stand on it, under what hangs above them, and under points."""
    text = with_(upper("underside: 520 above worktop"), "laid: after units", "laid: before units")
    points = """
points:
  P1: {is: plate, over: A1, up: 210 above worktop}
  P2: {is: plate, over: A1, up: 1100 from finished floor}
"""
    before, after = text + points, with_(text, "thickness: 10.5", "thickness: 14.5") + points
    moved = [
        (row(after, FLOOR).thickness, row(before, FLOOR).thickness),
        (row(after, WORKTOP).above_bare_floor, row(before, WORKTOP).above_bare_floor),
        (hole(after).up, hole(before).up),
        *((new.up, old.up) for new, old in zip(rows(after, POINT), rows(before, POINT), strict=True)),
    ]
    assert [new - old for new, old in moved] == [4] * 5
    assert row(after, WORKTOP).height == row(before, WORKTOP).height
