"""Units that hang beside a hob: which counts, how far aside it hangs and how high."""

from __future__ import annotations

from typing import Any

import pytest

from tests.measures.plans import gaps, left_out, rows, to_find, working
from validator.measures.rows import Why

KIND = "unit beside a hob"
ROOM = """
heights from: bare floor
walls: {north: {length: 4200}, east: {length: 3000}, south: {length: 4200}, west: {length: 3000}}
floors: none
kinds: {base: {height: 715}, wall: {height: 600, depth: 300}, worktop: {thickness: 30}}
worktops: {long top: {on: long}}
"""
LONG = "long: {against: north, legs: 105 at high spot, order: {A1: base 600, A2: base 700, A3: base 500}}"
GAS = "hob: {is: gas hob, in: A2, width: 600, pan support: 44}"


def kitchen(order: str, hob: str = GAS, against: str = "north", more: str = "") -> str:
    units = f"units: {{against: {against}, underside: 1400, order: {{{order}}}}}"
    return f"{ROOM}\nruns:\n  {LONG}\n  {units}\nappliances: {{{hob}}}\n{more}"


def beside(*said: str, **named: str) -> list[Any]:
    return rows(kitchen(*said, **named), KIND)


def test_a_unit_to_the_left_ends_before_the_hob() -> None:
    """The hob reaches from 650 to 1250; W1 ends at 600. The worktop comes to 850, the underside to 1400."""
    (found,) = beside("W1: wall 600")
    assert (found.subject.name, found.unit, found.aside, found.clearance) == ("hob, left side", "W1", 50, 506)
    assert working(found, "aside") == [(650, "left side of hob"), (600, "right side of W1")]


def test_of_several_units_the_nearest_on_each_side_counts() -> None:
    found = beside("W1: wall 300, W2: wall 300, G1: gap 700, W3: wall 300, W4: wall 300")
    assert [(row.subject.name, row.unit, row.aside) for row in found] == [
        ("hob, left side", "W2", 50),
        ("hob, right side", "W3", 50),
    ]


def test_a_unit_further_off_counts_where_it_hangs_lower_or_is_not_protected() -> None:
    low = "W1: {is: wall, width: 300, underside: 1300}"
    assert [(row.unit, row.aside) for row in beside(f"{low}, W2: wall 300")] == [("W2", 50), ("W1", 350)]
    lined = "W2: {is: wall, width: 300, protected: yes}"
    assert [row.unit for row in beside(f"W1: wall 300, {lined}")] == ["W2", "W1"]


def test_a_hob_of_unknown_place_may_have_units_beside_it() -> None:
    assert left_out(kitchen("W1: wall 600", hob="hob: {is: gas hob, width: 600}"), KIND) == ["/appliances/hob/in"]


@pytest.mark.parametrize(("order", "against"), [("W1: wall 700 over A2", "north"), ("W1: wall 600", "south")])
def test_what_hangs_over_the_hob_or_on_another_wall_does_not_hang_beside_it(order: str, against: str) -> None:
    assert beside(order, against=against) == []


def test_a_unit_of_unknown_place_may_be_the_nearest() -> None:
    left, _ = beside("W1: {is: wall, width: to find out}, W2: wall 300")
    assert to_find(left, "aside") == {"/runs/units/order/W1/width"}


def test_the_leaflet_has_a_figure_of_its_own_for_units_beside_the_hob() -> None:
    (found,) = beside("W1: wall 600", more="stated: {hob: {read: leaflet, unit beside: 450 from worktop}}")
    assert found.hob_says == 450 - 44
    (silent,) = beside("W1: wall 600", more="stated: {hob: {read: leaflet, unit above: 700 from worktop}}")
    assert {gap.why for gap in gaps(silent, "hob_says")} == {Why.UNREAD}


def test_a_unit_may_say_that_it_is_protected() -> None:
    (found,) = beside("W1: {is: wall, width: 600, protected: yes}")
    assert found.protected is True


def test_without_hung_units_nothing_hangs_beside_a_hob() -> None:
    assert rows(f"{ROOM}\nruns: {{{LONG}}}\nappliances: {{{GAS}}}", KIND) == []


def test_what_is_left_out_may_hang_beside_a_hob() -> None:
    assert left_out(kitchen("W1: wall 600").replace(f"appliances: {{{GAS}}}", ""), KIND) == ["/appliances"]
    assert left_out("appliances: {hob: {is: gas hob}}", KIND) == ["/runs"]
