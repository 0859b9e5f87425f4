"""Where water can be shut off, the stopcock, and the drain hoses of machines."""

from __future__ import annotations

import pytest

from tests.measures.plans import left_out, row, rows, to_find

FEED, STOPCOCK, HOSE = "appliance on water", "stopcock", "drain hose of a machine"
RUNS = (
    "kinds: {base: {height: 720}, tall: {height: 2100}}\n"
    "runs: {a: {against: north, order: {B1: base 600, dishwasher: 600, B2: base 600, T1: tall 600}}}\n"
)


def fed(appliances: str) -> str:
    return RUNS + f"appliances: {{{appliances}}}\n"


@pytest.mark.parametrize(
    ("feed", "where"), [("B1", "in a unit"), ("B2", "in a unit"), ("dishwasher", "behind a machine")]
)
def test_water_is_shut_off_in_a_unit_or_behind_the_machine_itself(feed: str, where: str) -> None:
    assert row(fed(f"dishwasher: {{feed: {feed}}}"), FEED).feed == where


def test_a_valve_in_the_housing_of_a_fridge_is_behind_a_machine() -> None:
    assert row(fed("fridge: {in: T1, feed: T1}"), FEED).feed == "behind a machine"


def test_a_sink_shares_its_unit_with_its_valve() -> None:
    assert row(fed("sink: {in: B1, feed: B1}"), FEED).feed == "in a unit"


def test_a_sink_has_its_shut_off_from_its_tap() -> None:
    (found,) = rows(fed("sink: {in: B1}, mixer: {is: tap, behind: sink, feed: B1}"), FEED)
    assert (found.subject.name, found.feed) == ("sink", "in a unit")


@pytest.mark.parametrize("appliance", ["sink", "dishwasher", "washing machine", "boiling tap"])
def test_what_needs_water_asks_where_it_is_shut_off(appliance: str) -> None:
    assert to_find(row(fed(f"{appliance}: {{in: B1}}"), FEED), "feed") == {f"/appliances/{appliance}/feed"}


def test_a_fridge_without_a_feed_is_not_on_water() -> None:
    assert rows(fed("fridge: {in: T1}"), FEED) == []


def test_an_appliance_that_nobody_names_may_be_on_water() -> None:
    assert left_out(fed("white box: {in: B1}"), FEED) == ["/appliances/white box/is"]


def test_a_stopcock_is_found_and_turned() -> None:
    found = row(fed("sink: {in: B1}") + "survey: {stopcock: {in: hall, turns: yes, within reach: no}}", STOPCOCK)
    assert (found.turns, found.within_reach) == (True, False)


@pytest.mark.parametrize(
    ("survey", "asked"),
    [
        ("{}", "/survey/stopcock"),
        ("{stopcock: hall}", "/survey/stopcock/turns"),
        ("{stopcock: {turns: yes}}", "/survey/stopcock/in"),
        ("{stopcock: {in: hall, turns: to find out}}", "/survey/stopcock/turns"),
    ],
)
def test_a_stopcock_that_nobody_found_or_turned_is_not_known(survey: str, asked: str) -> None:
    assert asked in to_find(row(fed("sink: {in: B1}") + f"survey: {survey}", STOPCOCK), "turns")


def test_a_plan_without_anything_on_water_asks_for_no_stopcock() -> None:
    assert rows(fed("oven: {in: T1}"), STOPCOCK) == []


@pytest.mark.parametrize(("written", "has_one"), [("behind the sink", True), ("none", False)])
def test_an_air_gap_is_where_it_is_said_to_be(written: str, has_one: bool) -> None:
    assert row(fed(f"dishwasher: {{air gap: {written}}}"), HOSE).air_gap is has_one


def test_how_a_drain_hose_runs_is_asked_for() -> None:
    hose = row(fed("dishwasher: {body: 598 w x 815 h x 550 d}"), HOSE)
    assert to_find(hose, "hose") == {"/appliances/dishwasher/hose"}
    assert to_find(hose, "air_gap") == {"/appliances/dishwasher/air gap"}


def test_only_machines_have_drain_hoses() -> None:
    assert rows(fed("sink: {in: B1}"), HOSE) == []


def test_a_plan_without_units_by_its_own_word_is_not_asked_for_a_valve_in_one() -> None:
    text = "appliances: {dishwasher: {hose: raised}}\n"
    assert rows(text + "runs: none", FEED) == []
    assert to_find(row(text, FEED), "feed") == {"/appliances/dishwasher/feed"}
