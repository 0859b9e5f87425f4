"""What is ordered, and the time there is for it."""

from __future__ import annotations

import pytest

from tests.measures.plans import row, rows, to_find
from validator.plan.dimensions import DAY

KIND = "thing ordered"


def test_the_time_is_from_the_order_to_the_day_it_is_due() -> None:
    """From 30 March to 11 May are six weeks (calendar)."""
    found = row("deliveries: {units: {ordered: 2026-03-30, lead time: 5 weeks, due: 2026-05-11}}", KIND)
    assert (found.time / DAY, found.lead_time / DAY) == (42, 35)


def test_what_is_not_ordered_can_be_ordered_on_the_day_of_the_check_at_the_earliest() -> None:
    """The day of the check is 1 March 2027."""
    assert row("deliveries: {units: {lead time: 5 weeks, due: 2027-03-31}}", KIND).time / DAY == 30


def test_a_day_that_a_supplier_has_promised_needs_no_lead_time() -> None:
    assert row("deliveries: {units: {ordered: 2027-01-04, due: 2027-03-31}}", KIND).lead_time == 0


@pytest.mark.parametrize(
    ("delivery", "figure", "asked"),
    [
        ("{due: 2027-03-31}", "lead_time", "lead time"),
        ("{due: 2027-03-31, lead time: to find out by supplier}", "lead_time", "lead time"),
        ("{due: 2027-03-31, ordered: to find out}", "time", "ordered"),
        ("{ordered: 2027-03-31}", "time", "due"),
    ],
)
def test_what_is_not_known_of_an_order_is_asked(delivery: str, figure: str, asked: str) -> None:
    assert to_find(row(f"deliveries: {{units: {delivery}}}", KIND), figure) == {f"/deliveries/units/{asked}"}


def test_an_appliance_is_ordered_where_it_has_a_day() -> None:
    text = "appliances: {oven: {due: 2027-03-31, lead time: 2 weeks}, hob: {is: gas hob}}"
    assert [found.subject.name for found in rows(text, KIND)] == ["oven"]
