"""Wastes and their fall."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, known, left_out, row, rows, to_find, working
from validator.measures.tracing import trace

WASTE = "waste"
DROP = "drop of a waste"


def sink(waste: str) -> str:
    return f"appliances: {{sink: {{waste: {waste}}}}}\n"


def test_a_stated_fall_is_taken_as_it_is() -> None:
    waste = row(sink("40 mm to gully 2100 at 25 mm/m"), WASTE)
    assert (waste.appliance, waste.pipe, waste.length, waste.slope) == ("sink", 40, 2100, 0.025)


def test_a_fall_follows_from_drop_and_length() -> None:
    """1:40 is 25 mm in each metre (definition of a gradient)."""
    waste = row(sink("{pipe: 40 mm, length: 2000, drop: 50}"), WASTE)
    assert waste.slope == pytest.approx(1 / 40)


def test_the_working_of_a_derived_fall_is_drop_over_length() -> None:
    waste = row(sink("{pipe: 40 mm, length: 2000, drop: 50}"), WASTE)
    origin = known(waste, "slope").origin
    assert origin is not None
    assert working(*origin) == [(50, "drop"), (2000, "long")]
    assert trace(*origin)[0].sign == "÷"


def test_a_drop_that_is_not_certain_gives_a_fall_between_two_ends() -> None:
    waste = row(sink("{pipe: 40 mm, length: 2000, drop: 30 to 50}"), WASTE)
    assert ends(waste, "slope") == pytest.approx((0.015, 0.025))


def test_every_drop_is_a_row_of_its_own() -> None:
    assert row(sink("{pipe: 40 mm, length: 1600, drop: 40}"), DROP).fall == pytest.approx(0.025)
    assert rows(sink("40 mm to gully 2100 at 25 mm/m"), DROP) == []


@pytest.mark.parametrize(
    ("waste", "figure", "pointer"),
    [
        ("{length: 2000, fall: 20 mm/m}", "pipe", "/appliances/sink/waste/pipe"),
        ("{pipe: 40 mm, fall: 20 mm/m}", "length", "/appliances/sink/waste/length"),
        ("{pipe: 40 mm, length: 2000}", "slope", "/appliances/sink/waste/fall"),
        ("{pipe: 40 mm, drop: 50}", "slope", "/appliances/sink/waste/length"),
        ("{pipe: 40 mm, length: 2000, drop: to find out by plumber}", "slope", "/appliances/sink/waste/drop"),
    ],
)
def test_what_is_left_out_is_to_find_out_at_its_place(waste: str, figure: str, pointer: str) -> None:
    assert to_find(row(sink(waste), WASTE), figure) == {pointer}


def test_a_sink_without_a_waste_is_not_passed_over() -> None:
    waste = row("appliances: {sink: {bowl: 340 w x 400 d x 180 h}}\n", WASTE)
    assert to_find(waste, "slope") == {"/appliances/sink/waste"}


def test_an_appliance_that_drains_nothing_has_no_waste() -> None:
    assert rows("appliances: {microwave: {power: 900 W}}\n", WASTE) == []


def test_appliances_left_out_are_not_known() -> None:
    assert left_out("", WASTE) == left_out("", DROP) == ["/appliances"]


@pytest.mark.parametrize(("vent", "vented"), [("air admittance valve", True), ("none", False)])
def test_a_branch_has_the_vent_that_it_is_said_to_have(vent: str, vented: bool) -> None:
    assert row(f"appliances: {{sink: {{waste: 40 mm, vent: {vent}}}}}\n", WASTE).vented is vented


def test_a_branch_without_a_word_of_a_vent_has_none() -> None:
    assert row(sink("40 mm"), WASTE).vented is False


def test_a_vent_that_is_to_find_out_is_not_known() -> None:
    waste = row("appliances: {sink: {waste: 40 mm, vent: to find out by plumber}}\n", WASTE)
    assert to_find(waste, "vented") == {"/appliances/sink/vent"}
