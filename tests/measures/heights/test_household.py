"""The household: worktops for who cooks at them, shelves within reach, and what is used sitting down."""

from __future__ import annotations

from typing import Any

import pytest

from tests.measures.plans import row, rows, to_find
from tests.plan.plans import problems

COOK = "worktop for a cook"
SEATED = "worktop for somebody seated"
SHELVES = "shelves to reach"
OVEN = "oven for somebody seated"

KITCHEN = """
heights from: finished floor
walls: {north: {length: 4200}, east: {length: 3000}, south: {length: 4200}, west: {length: 3000}}
floor: {levels: {everywhere: 0}}
floors: {cork planks: {thickness: 10.5, underlay: 1.5, laid: after units}}
household: {Ada: {elbow: 1060, reach: 1900}, Bo: {height: 1730, reach: 1780}, Cy: {height: 1150, cooks: no}}
kinds:
  base: {height: 720, depth: 555, legs: 90 to 160}
  wall: {height: 600, depth: 320, shelves: 2}
  worktop: {thickness: 30}
runs:
  long: {against: north, legs: 152 at high spot, order: {A1: base 600, oven: 600, A2: base 600}}
  upper: {against: north, underside: 1400, order: {W1: wall 600 over A1}}
worktops: {long top: {on: long}}
appliances:
  sink: {in: A1}
  oven: {body: 595 w x 595 h x 550 d}
"""


def with_(old: str, new: str, text: str = KITCHEN) -> str:
    assert old in text
    return text.replace(old, new)


def seated(extra: str = "") -> str:
    return with_("Bo: {height: 1730,", "Bo: {seated: yes,") + extra


def cooks() -> dict[str, Any]:
    return {found.cook: found for found in rows(KITCHEN, COOK)}


def test_a_worktop_for_each_cook() -> None:
    """152 + 720 + 30 − 12 = 890 above the finished floor; the elbow at 1060 is 170 above it."""
    ada = cooks()["Ada"]
    assert (ada.subject.name, ada.has_elbow, ada.below_elbow) == ("long top for Ada", True, 170)
    assert (ada.has_sink, ada.has_hob) == (True, False)


def test_the_height_of_a_cook_tells_of_a_worktop_where_no_elbow_is_given() -> None:
    bo = cooks()["Bo"]
    assert (bo.has_elbow, bo.suited, bo.height) == (False, 950, 890)


def test_who_does_not_cook_or_sits_has_no_worktop_to_stand_at() -> None:
    assert set(cooks()) == {"Ada", "Bo"}
    assert [found.cook for found in rows(seated(), COOK)] == ["Ada"]


@pytest.mark.parametrize("household", ["", "household: none\n", "household: {Ada: {reach: 1900}}\n"])
def test_nobody_is_asked_how_tall_they_are(household: str) -> None:
    lines = [line for line in KITCHEN.splitlines() if not line.startswith("household")]
    text = "\n".join(lines) + "\n" + household
    assert (rows(text, COOK), rows(text, SEATED), rows(text, OVEN)) == ([], [], [])


def test_somebody_shorter_than_the_table_has_no_usual_height() -> None:
    _, bo = rows(with_("height: 1730", "height: 1450"), COOK)
    assert to_find(bo, "suited") == {"/household/Bo/height"}


def test_the_shortest_reach_counts_for_every_hung_unit() -> None:
    """Two shelves in 600 stand 200 apart: the upper one is 400 above the underside at 1400."""
    shelf = row(KITCHEN, SHELVES)
    assert (shelf.reach, shelf.bottom, shelf.top_shelf) == (1780, 1400, pytest.approx(1800))


def test_shelves_nobody_counted_are_asked_for() -> None:
    assert to_find(row(with_(", shelves: 2", ""), SHELVES), "top_shelf") == {"/runs/upper/order/W1/shelves"}


def test_the_lowest_worktop_is_for_whoever_sits() -> None:
    found = row(seated(), SEATED)
    assert (found.subject.name, found.lowest, found.knees) == ("Bo", 890, 860)


def test_an_oven_under_the_worktop_has_its_controls_there() -> None:
    oven = row(seated(), OVEN)
    assert (oven.controls, oven.underside) == (860, 265)


def test_an_oven_in_a_housing_starts_where_the_plan_says() -> None:
    text = with_("oven: {body", "oven: {in: A2, up: 400, body", seated())
    assert (row(text, OVEN).underside, row(text, OVEN).controls) == (400, 995)
    unsaid = with_("oven: {body", "oven: {in: A2, body", seated())
    assert to_find(row(unsaid, OVEN), "controls") == {"/appliances/oven/up"}


def test_a_key_nobody_knows_is_refused_with_the_nearest() -> None:
    (problem,) = problems(with_("heights from: finished floor\n", "", with_("elbow: 1060", "elbows: 1060")))
    assert problem.nearest == "elbow"
