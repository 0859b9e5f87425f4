"""Tall units tipped up, tops in line, units under ceilings that slope, and hung units over a worktop."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, left_out, row, rows, to_find

TALL = "tall unit"
BESIDE = "hung unit beside a tall unit"
UNDER = "unit under the ceiling"
OVER = "hung unit over a worktop"

KITCHEN = """
heights from: bare floor
walls: {north: {length: 4200}, east: {length: 3000}, south: {length: 4200}, west: {length: 3000}}
ceiling: [2412, 2407, 2409]
floor: {levels: {everywhere: 0}}
floors: {cork planks: {thickness: 10.5, underlay: 1.5, laid: before units}}
kinds:
  base: {height: 715, depth: 555, front: 18, legs: 90 to 140}
  tall: {like: base, height: 1995, stood up: as it comes}
  wall: {height: 710, depth: 320, hangers: {down: 45, in: 38}, cornice: 55}
  worktop: {thickness: 28}
runs:
  long: {against: north, legs: 105 at high spot, order: {T1: tall 600, A1: base 600, A2: base 600}}
  upper: {against: north, tops: 2100, order: {W1: wall 600 over A1}}
worktops: {long top: {on: long}}
"""


def with_(old: str, new: str, text: str = KITCHEN) -> str:
    assert old in text
    return text.replace(old, new)


def test_a_tall_unit_is_tipped_up_on_the_floor_laid_before() -> None:
    """2407 − 12 = 2395 is left between floor and ceiling; √(1995² + 555²) = 2070.8 comes up in it."""
    unit = row(KITCHEN, TALL)
    assert ends(unit, "room") == (2395, 2400)
    assert unit.diagonal == pytest.approx(2070.76, abs=0.01)
    assert unit.diagonal_on_legs == pytest.approx((2100**2 + 555**2) ** 0.5)


def test_base_units_are_not_tall_and_a_unit_without_a_worktop_on_its_run_is() -> None:
    assert [unit.subject.name for unit in rows(KITCHEN, TALL)] == ["T1"]
    text = with_("worktops: {", "  larders: {against: south, legs: 105, order: {L1: base 600}}\nworktops: {")
    assert [unit.subject.name for unit in rows(text, TALL)] == ["T1", "L1"]


def test_how_it_is_stood_up_is_to_find_out() -> None:
    unit = row(with_(", stood up: as it comes", ""), TALL)
    assert to_find(unit, "stood_up") == {"/runs/long/order/T1/stood up"}


def test_tops_are_compared_with_the_nearest_tall_unit() -> None:
    """12 + 105 + 1995 = 2112 is 12 higher than 2100."""
    unit = row(KITCHEN, BESIDE)
    assert (unit.tall_unit, unit.below, unit.above, unit.out_of_line) == ("T1", 12, -12, 12)
    two = with_("A2: base 600", "A2: base 600, T2: {is: tall, width: 600, height: 2000}")
    assert row(with_("over A1", "over A2", two), BESIDE).tall_unit == "T2"


def test_tops_level_with_the_tall_unit_are_in_line() -> None:
    assert row(with_("tops: 2100", "tops: level with T1"), BESIDE).out_of_line == 0


def test_a_wall_without_tall_units_has_nothing_to_be_level_with() -> None:
    assert rows(with_("T1: tall 600, ", ""), BESIDE) == []


def test_tops_under_the_lowest_reading_of_the_ceiling() -> None:
    tall, hung = rows(KITCHEN, UNDER)
    assert ends(tall, "above") == (295, 300)
    assert ends(hung, "above") == (307, 312)
    assert (tall.has_cornice, hung.has_cornice, hung.cornice) == (False, True, 55)


def test_no_cornice_is_said_by_none() -> None:
    *_, hung = rows(with_("cornice: 55", "cornice: none"), UNDER)
    assert hung.has_cornice is False


def slope(wall: str) -> str:
    """A ceiling that rises by 1000 over 1000 from a wall."""
    return with_(
        "ceiling: [2412, 2407, 2409]",
        f"ceiling: {{height: 2400, slopes: {{{wall}: {{from: 1400, sloping length: 1414.2136}}}}}}",
    )


@pytest.mark.parametrize(
    ("wall", "ceiling"),
    [("west", 2000), ("east", 2400), ("north", 1400)],
)
def test_under_a_slope_the_lower_end_of_the_unit_counts(wall: str, ceiling: float) -> None:
    """W1 stands from 600 to 1200 along the north wall: 600 from the west wall the ceiling is at 2000."""
    *_, hung = rows(slope(wall), UNDER)
    assert hung.ceiling == pytest.approx(ceiling, abs=0.01)


def test_a_slope_across_the_room_comes_down_on_the_front() -> None:
    """In a room 1200 deep a unit of 320 ends 880 from the south wall, where the ceiling is at 2280."""
    text = with_("east: {length: 3000}", "east: {length: 1200}", slope("south"))
    text = with_("west: {length: 3000}", "west: {length: 1200}", text)
    *_, hung = rows(text, UNDER)
    assert hung.ceiling == pytest.approx(2280, abs=0.01)


def test_a_hung_unit_over_its_worktop() -> None:
    """2100 − 710 = 1390 above the bare floor, less 12 + 105 + 715 + 28 = 860."""
    assert row(KITCHEN, OVER).clear == 530


def test_a_height_above_the_worktop_does_not_doubt_the_worktop_twice() -> None:
    text = with_("tops: 2100", "underside: 500 above worktop", with_("thickness: 28", "thickness: 27 to 29"))
    assert ends(row(text, OVER), "clear") == (500, 500)


def test_a_unit_beside_the_worktop_hangs_over_none() -> None:
    assert rows(with_("W1: wall 600 over A1", "F: {is: gap, width: 3000}, W1: wall 600"), OVER) == []


def test_a_hung_unit_that_carries_a_worktop_hangs_over_none() -> None:
    text = with_(
        "worktops: {", "  low: {against: north, underside: 300, order: {H: base 600 right of A2}}\nworktops: {"
    )
    text = with_("long top: {on: long}", "long top: {on: long}, low top: {on: low}", text)
    assert [unit.subject.name for unit in rows(text, OVER)] == ["W1"]


def test_left_out_runs_and_worktops_are_not_known() -> None:
    assert [left_out("floors: none", kind) for kind in (TALL, BESIDE, UNDER, OVER)] == [["/runs"]] * 4
    assert left_out(with_("worktops: {long top: {on: long}}", ""), OVER) == ["/worktops"]
