"""Deliveries against the dates of the work, and papers."""

from __future__ import annotations

import pytest

from tests.measures.plans import row, rows, to_find

DAY = 86400.0
STARTS = "project: {title: Heron Wharf, country: GB-ENG, lengths in: mm, starts: 2027-04-05}"
WORK = """
work:
  order: usual
  days: every day
  plaster: {by: householder, takes: 1 day, dries: 10 days}
  fit units: {by: householder, takes: 2 days, on: 2027-04-20}
"""


def test_a_delivery_is_needed_by_the_task_that_fits_it() -> None:
    found = row(WORK + "deliveries: {units: {due: 2027-04-18}}", "delivery", STARTS)
    assert (found.task, found.in_hand / DAY) == ("fit units", 2)


def test_a_delivery_may_say_which_task_needs_it() -> None:
    found = row(WORK + "deliveries: {boards: {due: 2027-04-04, for: plaster}}", "delivery", STARTS)
    assert found.in_hand / DAY == 1


def test_a_delivery_that_no_task_is_named_after_asks_which_needs_it() -> None:
    found = row(WORK + "deliveries: {handles: {due: 2027-04-18}}", "delivery", STARTS)
    assert to_find(found, "in_hand") == {"/deliveries/handles/for"}


def test_the_room_is_dry_when_its_plaster_is() -> None:
    """Plaster of 5 April dries for ten days from that evening, so that the room is dry on the 16th."""
    found = row(WORK + "deliveries: {units: {due: 2027-04-18}}", "delivery", STARTS)
    assert found.after_dry / DAY == 2


def test_the_room_is_dry_when_the_plaster_is_that_a_coating_says_was_done_later() -> None:
    """Plastered on 8 April, so that the room is dry on the 19th; the delivery of the 18th comes a day early."""
    coating = "coatings: {walls: {on: new gypsum plaster, walls: all, plastered: 2027-04-08}}\n"
    found = row(WORK + coating + "deliveries: {units: {due: 2027-04-18}}", "delivery", STARTS)
    assert found.after_dry / DAY == -1


def test_what_dries_under_a_name_of_ones_own_leaves_open_when_the_room_is_dry() -> None:
    text = WORK.replace("plaster: {", "skim: {") + "deliveries: {units: {due: 2027-04-18}}"
    assert to_find(row(text, "delivery", STARTS), "after_dry") == {"/work/skim/dries"}


def units(hang: str, fit: str) -> str:
    work = f"  order: usual\n  days: every day\n  hang wall units: {hang}\n  fit base units: {fit}\n"
    return f"work:\n{work}deliveries: {{units: {{due: 2027-04-18}}}}"


def test_a_task_without_a_date_may_be_the_first_that_needs_a_delivery() -> None:
    found = row(units("{on: to find out}", "{takes: 2 days, on: 2027-04-20}"), "delivery", STARTS)
    assert to_find(found, "in_hand") == {"/work/hang wall units/on"}


def test_a_task_without_a_date_that_follows_the_first_needs_nothing_sooner() -> None:
    """Base units follow the wall units, of which nobody says how long they take."""
    found = row(units("{on: 2027-04-19}", "{takes: 2 days}"), "delivery", STARTS)
    assert (found.task, found.in_hand / DAY) == ("hang wall units", 1)


def test_an_appliance_with_a_day_is_a_delivery_too() -> None:
    text = WORK + "appliances: {oven: {due: 2027-04-10, for: fit units}}"
    assert row(text, "delivery", STARTS).in_hand / DAY == 10


def test_a_permit_comes_before_the_work_and_a_certificate_after_it() -> None:
    text = "papers: {building warrant: asked for, gas certificate: held on 2027-05-02}"
    assert [(each.sort, each.standing) for each in rows(text, "paper")] == [
        ("permit", "asked for"),
        ("certificate", "held"),
    ]


@pytest.mark.parametrize(
    "name",
    ["planning permission", "landlord's consents", "consent of landlord", "permit (electrical)", "party wall award"],
)
def test_whatever_permits_the_work_comes_before_it(name: str) -> None:
    assert row(f"papers: {{{name}: asked for}}", "paper").sort == "permit"


@pytest.mark.parametrize(
    "name", ["building permit completion certificate", "final inspection", "gas safety certificate"]
)
def test_what_certifies_the_work_comes_after_it_also_where_it_names_a_permit(name: str) -> None:
    assert row(f"papers: {{{name}: asked for}}", "paper").sort == "certificate"


def test_a_paper_that_somebody_gives_is_promised() -> None:
    text = "people: {electrician: {trade: electrical}}\npapers: {electrical certificate: from electrician}"
    assert row(text, "paper").standing == "promised"
