"""Surveys, openings, slopes, islands, money and papers: short forms, and what is wrong with them."""

from __future__ import annotations

from typing import Any

import pytest

from tests.plan.plans import plan, problems
from validator.plan.elements import Element
from validator.plan.sections.furniture import Aisle
from validator.plan.sections.money import Budget, Paper
from validator.plan.sections.room import Corner
from validator.plan.sections.survey import Survey, Suspect

WALLS = "walls: {north: {length: 3000}, east: {length: 2500}, south: {length: 3000}, west: {length: 2500}}\n"


def read(model: type[Element], written: object) -> Any:
    return model.model_validate(written, context={"lengths in": "mm", "names": {}})


@pytest.mark.parametrize(
    ("model", "short", "long"),
    [
        (Suspect, "none by laboratory on 2027-02-03", {"result": "none", "by": "laboratory", "tested": "2027-02-03"}),
        (Suspect, "left covered", {"result": "left covered"}),
        (Suspect, "to find out by laboratory", {"result": "to find out by laboratory"}),
        (Corner, "6 open in 600", {"out": "6", "way": "open", "over": "600"}),
        (Aisle, "1100 to sink run", {"width": "1100", "to": "sink run"}),
        (Aisle, "1100", {"width": "1100"}),
        (Paper, "held on 2027-03-02", {"standing": "held", "dated": "2027-03-02"}),
        (Paper, "from electrician", {"by": "electrician"}),
        (Paper, "asked for", {"standing": "asked for"}),
    ],
)
def test_a_short_form_says_the_same_as_the_long_one(model: type[Element], short: object, long: object) -> None:
    assert read(model, short) == read(model, long)


def test_nothing_suspect_is_an_empty_list_and_not_a_missing_one() -> None:
    survey = read(Survey, {"asbestos": "none"})
    assert (survey.asbestos, survey.lead_paint) == ({}, None)


@pytest.mark.parametrize(("written", "rate"), [("included", 0.0), ("none", 0.0), ("20 %", 0.2)])
def test_tax_that_is_included_adds_nothing(written: str, rate: float) -> None:
    assert read(Budget, {"vat": written}).vat.low == rate


def test_american_words_name_the_same_things() -> None:
    found = plan(
        "survey: {main shutoff: crawl space, panel: {spaces free: 2}}\n"
        "people: {plumber: {license: to find out, bid: 900}}\nmoney: {sales tax: none}\n"
    )
    assert found.survey is not None
    assert found.survey.consumer_unit is not None
    assert found.people["plumber"].quote is not None


A_CORNER = "a corner is written with how far it is out and over what length, with a tape across it, or its angle"
OF_THE_ROOM = "no wall of this plan is called"


@pytest.mark.parametrize(
    ("text", "message", "nearest"),
    [
        ("survey: {asbestos: {tiles: absent}}", "`absent` cannot stand here", "present"),
        ("survey: {consumer unit: {ways fee: 2}}", "the consumer unit has no `ways fee`", "ways free"),
        (WALLS + "openings: {door: {wall: nort}}", f"{OF_THE_ROOM} `nort`", "north"),
        (
            WALLS + "openings: {door: {wall: north, along: 300 from south}}",
            "the south wall does not meet the north wall",
            "",
        ),
        (WALLS + "corners: {north-eats: 6 open in 600}", "`north-eats` is no corner of the room", "north-east"),
        (
            WALLS + "diagonals: {north-east: 4000}",
            "`north-east` does not run from corner to corner",
            "",
        ),
        (WALLS + "corners: {north-east: 6 opne in 600}", A_CORNER, ""),
        (WALLS + "ceiling: {height: 2400, slopes: {wets: {from: 1200}}}", f"{OF_THE_ROOM} `wets`", "west"),
        (WALLS + "runs: {isle: {order: none}}", "isle stands nowhere", ""),
        (WALLS + "runs: {isle: {faces: nroth, order: none}}", f"{OF_THE_ROOM} `nroth`", "north"),
        ("money: {contingncy: 10 %}", "the money has no `contingncy`", "contingency"),
        (
            "people: {joiner: {trade: joinery}}\npapers: {permit: from joyner}",
            "no person of this plan is called `joyner`",
            "joiner",
        ),
        (
            "work: {order: usual, paint: {takes: 1 day}}\ndeliveries: {tins: {for: pant}}",
            "no task of this plan is called `pant`",
            "paint",
        ),
        (
            WALLS + "runs: {r: {against: north, order: {B1: gap 5}}}\ngas: {valve: B2}",
            "no thing in a run of this plan is called `B2`",
            "",
        ),
    ],
)
def test_a_slip_is_said_with_what_was_meant(text: str, message: str, nearest: str) -> None:
    assert [(wrong.message, wrong.nearest) for wrong in problems(text + "\n")] == [(message, nearest)]


def test_an_island_stands_against_no_wall() -> None:
    text = WALLS + "runs: {isle: {faces: north, against: south, order: none}}\n"
    assert [wrong.message for wrong in problems(text)] == ["an island faces a wall, and stands against none"]


def test_a_socket_needs_no_kind_but_a_unit_does() -> None:
    assert plan("points: {S1: {is: double socket}}\n").points["S1"].is_ == "double socket"
    assert [
        wrong.message for wrong in problems(WALLS + "runs: {r: {against: north, order: {B1: double socket 600}}}\n")
    ] == ["`double socket` is no kind of this plan"]
