"""Tasks of a fixed day against what they follow."""

from __future__ import annotations

import pytest

from tests.measures.plans import left_out, row, rows, to_find
from validator.plan.dimensions import DAY

KIND = "task of a fixed day"
PROJECT = "project: {title: Heron Wharf, country: GB-ENG, lengths in: mm, starts: 2027-03-01}"
USUAL = "work:\n  order: usual\n  days: every day\n"


@pytest.mark.parametrize(("day", "after"), [("2027-03-03", 0), ("2027-03-04", 1)])
def test_a_task_starts_the_day_after_what_it_follows_ends(day: str, after: float) -> None:
    """Stripped out from the 1st to the 3rd."""
    found = row(USUAL + f"  strip out: {{takes: 3 days}}\n  first fix: {{takes: 1 day, on: {day}}}\n", KIND, PROJECT)
    assert (found.subject.name, found.task_before, found.after_it / DAY) == ("first fix", "strip out", after)


def test_of_all_it_follows_that_counts_which_ends_last() -> None:
    work = USUAL + "  noggins: {takes: 1 day}\n  first fix: {takes: 4 days}\n  board: {takes: 1 day, on: 2027-03-10}\n"
    assert row(work, KIND, PROJECT).task_before == "first fix"


def test_what_may_take_longer_is_counted_at_its_longest() -> None:
    work = USUAL + "  strip out: {takes: 2 to 5 days}\n  first fix: {takes: 1 day, on: 2027-03-05}\n"
    assert row(work, KIND, PROJECT).after_it == 0


def test_a_task_that_the_programme_places_has_no_row() -> None:
    assert rows(USUAL + "  strip out: {takes: 3 days}\n  first fix: {takes: 1 day}\n", KIND, PROJECT) == []


def test_what_has_to_dry_before_it_is_not_said_twice() -> None:
    work = USUAL + "  plaster: {takes: 1 day, dries: 10 days}\n  paint: {takes: 1 day, on: 2027-03-01}\n"
    assert rows(work, KIND, PROJECT) == []


def test_how_long_the_task_before_takes_is_asked() -> None:
    found = row(USUAL + "  strip out: {}\n  first fix: {takes: 1 day, on: 2027-03-05}\n", KIND, PROJECT)
    assert to_find(found, "after_it") == {"/work/strip out/takes"}


def test_fixed_days_without_an_order_of_work_ask_for_it() -> None:
    work = "work: {days: every day, strip out: {takes: 3 days, on: 2027-03-01}, first fix: {on: 2027-03-02}}\n"
    assert left_out(work, KIND, PROJECT) == ["/work/order"]
