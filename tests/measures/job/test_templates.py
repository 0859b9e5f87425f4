"""Templates of worktops against the dates of the work."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, row, rows, to_find
from validator.plan.dimensions import DAY

WORK = """
work:
  order: usual
  days: every day
  fit units: {by: householder, takes: 3 days, on: 2027-03-08}
  template: {by: householder, takes: 1 day}
  fit worktops: {by: householder, takes: 1 day, on: 2027-03-20}
"""
TEMPLATE = "template of a worktop"
NEEDED = "thing needed at a template"


def test_a_template_comes_after_the_units_and_before_the_fitting() -> None:
    """Units from the 8th to the 10th, template on the 11th."""
    found = row(WORK, TEMPLATE)
    assert (found.after_units / DAY, found.to_fitting / DAY) == (1, 9)


def test_a_fitting_without_a_date_is_not_agreed_yet() -> None:
    assert to_find(row(WORK.replace(", on: 2027-03-20", ""), TEMPLATE), "to_fitting") == {"/work/fit worktops/on"}


def test_days_that_the_template_waits_for_its_top_may_stand_with_it() -> None:
    """`dries` is the wait that a task starts."""
    text = WORK.replace(", on: 2027-03-20", "").replace("template: {by", "template: {dries: 9 days, by")
    assert row(text, TEMPLATE).to_fitting / DAY == pytest.approx(10)


def test_units_that_may_take_longer_put_off_the_template_and_the_fitting_with_it() -> None:
    """Two to five days of units: the template always comes the day after, the fitting ten days after that."""
    text = WORK.replace("takes: 3 days, on: 2027-03-08", "takes: 2 to 5 days, on: 2027-03-08")
    text = text.replace(", on: 2027-03-20", "").replace("template: {by", "template: {dries: 9 days, by")
    found = row(text, TEMPLATE)
    assert [each / DAY for each in ends(found, "after_units")] == [1, 1]
    assert [each / DAY for each in ends(found, "to_fitting")] == [10, 10]


def test_a_fixed_template_is_judged_by_the_longest_that_the_units_may_take() -> None:
    text = WORK.replace("takes: 3 days, on: 2027-03-08", "takes: 2 to 5 days, on: 2027-03-08")
    assert row(text.replace("template: {by", "template: {on: 2027-03-12, by"), TEMPLATE).after_units == 0


def test_a_template_goes_by_a_longer_name_too() -> None:
    text = WORK.replace("order: usual", "order: as written").replace("template:", "template worktops:")
    assert row(text, TEMPLATE).to_fitting / DAY == 9
    assert row(text + "appliances: {sink: {due: 2027-03-09}}", NEEDED).in_hand / DAY == 2


def test_a_plan_without_a_template_has_nothing_to_judge() -> None:
    text = WORK.replace("  template: {by: householder, takes: 1 day}\n", "")
    assert (rows(text, TEMPLATE), rows(text + "appliances: {sink: {in: B1}}", NEEDED)) == ([], [])


def test_a_sink_is_there_for_the_template_by_its_own_date_or_that_of_its_delivery() -> None:
    own = row(WORK + "appliances: {sink: {due: 2027-03-09}}", NEEDED)
    deliveries = "appliances: {sink: {note: chosen}}\ndeliveries: {sink: {due: 2027-03-09}}"
    delivered = row(WORK + deliveries, NEEDED)
    assert (own.in_hand / DAY, delivered.in_hand / DAY) == (2, 2)


def test_a_sink_without_a_date_asks_for_it() -> None:
    assert to_find(row(WORK + "appliances: {sink: {note: chosen}}", NEEDED), "in_hand") == {"/appliances/sink/due"}


def test_a_cooker_is_not_needed_for_a_template() -> None:
    assert rows(WORK + "appliances: {cooker: {is: gas cooker}, oven: {is: oven}}", NEEDED) == []
