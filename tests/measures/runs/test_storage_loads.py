"""What hung units carry."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, row, rows, to_find

KIND = "{height: 720, depth: 300, underside: 1400 from bare floor, shelves: 2, weight: 25 kg/m}"


def unit(kind: str = KIND, line: str = "wall 800") -> str:
    return f"""
walls: {{north: {{length: 3000}}}}
kinds: {{wall: {kind}, base: {{height: 720, depth: 560}}}}
runs: {{units: {{against: north, order: {{W1: {line}}}}}}}
"""


def test_a_load_that_nobody_gives_is_no_load_of_nothing() -> None:
    found = row(unit(), "load of a hung unit")
    assert not found.says_load
    assert to_find(found, "reckoned") == {"/runs/units/order/W1/load"}


def test_a_load_by_the_width_is_that_of_the_whole_unit() -> None:
    found = row(unit(KIND.replace("shelves", "load: 50 kg/m, shelves")), "load of a hung unit")
    assert found.says_load
    assert found.reckoned == pytest.approx(40)


def test_a_unit_without_shelves_still_has_its_bottom() -> None:
    found = row(unit(KIND.replace("shelves: 2", "shelves: 0")), "load of a hung unit")
    assert found.surface == pytest.approx(764 * 300)


def test_shelves_in_doubt_keep_their_range() -> None:
    found = row(unit(KIND.replace("shelves: 2", "shelves: 1 to 3")), "load of a hung unit")
    assert ends(found, "surface") == pytest.approx((2 * 764 * 300, 4 * 764 * 300))


def test_shelves_nobody_counted_leave_the_load_open() -> None:
    found = row(unit(KIND.replace("shelves: 2, ", "")), "load of a hung unit")
    assert to_find(found, "stored") == {"/runs/units/order/W1/shelves"}


def test_standing_units_hang_on_nothing() -> None:
    assert rows(unit(line="base 600"), "load of a hung unit") == []


def test_sides_that_the_plan_gives_count_before_the_usual_ones() -> None:
    found = row(unit(KIND.replace("shelves: 2", "shelves: 0, sides: 16")), "load of a hung unit")
    assert found.surface == pytest.approx(768 * 300)
