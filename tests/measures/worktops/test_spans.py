"""Worktops over openings: spans, what holds them, and how far they sag."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, gaps, left_out, row, rows, to_find
from validator.measures.rows import Why

KIND = "worktop over an opening"
WALLS = "walls: {north: {length: 3600}, east: {length: 3000}, south: {length: 3600}, west: {length: 3000}}\n"
LAMINATE = "{thickness: 38, depth: 600, material: laminate}"


def kitchen(order: str, top: str = "{on: a}", worktop: str = LAMINATE, more: str = "") -> str:
    kinds = f"kinds: {{base: {{height: 720, depth: 560}}, worktop: {worktop}}}\n"
    return f"{WALLS}{kinds}runs: {{a: {{against: north, order: {{{order}}}}}}}\nworktops: {{top: {top}}}\n{more}"


ONE = "B1: base 600, dishwasher: 600, B2: base 600"


def test_a_worktop_spans_from_the_side_of_one_unit_to_that_of_the_next() -> None:
    found = row(kitchen(ONE), KIND)
    assert (found.span, found.machines, found.held_at_both) == (600, 1, True)
    assert found.subject.name == "top over dishwasher"


def test_two_machines_side_by_side_span_twice_as_far() -> None:
    found = row(kitchen("B1: base 600, dishwasher: 600, washing machine: 610, B2: base 600"), KIND)
    assert (found.span, found.machines) == (1210, 2)


def test_the_longest_span_is_that_of_the_material_and_its_thickness() -> None:
    stone = "{thickness: 30, depth: 600, material: granite}"
    assert row(kitchen(ONE), KIND).longest_span == 900
    assert row(kitchen(ONE, worktop=stone), KIND).longest_span == pytest.approx(914.4)
    assert row(kitchen(ONE, worktop=stone.replace("30", "20")), KIND).longest_span == pytest.approx(609.6)


def test_what_its_maker_says_goes_first() -> None:
    found = row(kitchen(ONE, more="stated: {top: {read: fitting guide p. 4, span: 750}}"), KIND)
    assert (found.longest_span, found.has_makers_span) == (750, True)


def test_a_maker_who_gives_no_span_leaves_it_to_the_table() -> None:
    found = row(kitchen(ONE, more="stated: {top: {read: fitting guide p. 4, span: none}}"), KIND)
    assert (found.longest_span, found.has_makers_span) == (900, False)


def test_a_material_no_table_has_asks_for_the_makers_paper() -> None:
    found = row(kitchen(ONE, worktop="{thickness: 12, depth: 600, material: solid surface}"), KIND)
    (gap,) = gaps(found, "longest_span")
    assert (gap.pointer, gap.why) == ("/stated/top/span", Why.UNREAD)


def test_a_thickness_no_table_has_is_not_known() -> None:
    found = row(kitchen(ONE, worktop="{thickness: 60, depth: 600, material: laminate}"), KIND)
    assert [gap.why for gap in gaps(found, "sag_in_time")] == [Why.NO_TABLE_ROW]


def test_nothing_known_of_a_worktop_asks_for_material_thickness_and_depth_once() -> None:
    found = row(kitchen(ONE, worktop="{}"), KIND)
    wanted = {"/worktops/top/material", "/worktops/top/thickness", "/worktops/top/depth"}
    assert to_find(found, "sag_under_a_person") == wanted


def test_a_thickness_in_doubt_leaves_the_sag_in_doubt() -> None:
    found = row(kitchen(ONE, worktop="{thickness: 30 to 38, depth: 600, material: oak}"), KIND)
    least, most = ends(found, "sag_under_a_person")
    assert most / least == pytest.approx((38 / 30) ** 3)


def test_an_opening_between_units_has_no_rail_unless_the_plan_says_so() -> None:
    assert row(kitchen(ONE), KIND).support == "nothing"
    assert row(kitchen(ONE, "{on: a, supports: {dishwasher: rails front and back}}"), KIND).support == (
        "rails front and back"
    )
    assert row(kitchen(ONE, "{on: a, supports: {B2: rails}}"), KIND).support == "nothing"


def test_the_end_of_a_run_beside_a_machine_asks_what_holds_it() -> None:
    found = row(kitchen("B1: base 600, dishwasher: 600"), KIND)
    assert found.held_at_both is False
    assert to_find(found, "support") == {"/worktops/top/supports"}


def test_one_support_alone_is_everywhere() -> None:
    found = row(kitchen("B1: base 600, dishwasher: 600", "{on: a, supports: wall batten}"), KIND)
    assert found.support == "wall batten"


def test_a_worktop_without_supports_says_so() -> None:
    assert row(kitchen("B1: base 600, dishwasher: 600", "{on: a, supports: none}"), KIND).support == "nothing"


def test_an_end_panel_in_the_run_holds_its_end() -> None:
    assert row(kitchen("B1: base 600, dishwasher: 600, P1: panel 18"), KIND).held_at_both is True


def test_units_side_by_side_leave_nothing_to_span() -> None:
    assert rows(kitchen("B1: base 600, B2: base 600"), KIND) == []


def test_a_plan_without_worktops_is_asked_for_them() -> None:
    assert left_out(WALLS, KIND) == ["/worktops"]
