"""Aisles against published limits and a worked example of two facing runs in two rooms. All seen at second hand."""

from __future__ import annotations

from typing import Any

import pytest

from tests.measures.plans import rows
from tests.standards.by_hand import applied, met, row
from validator.judging.outcomes import Result
from validator.measures.plane.open_in_aisles import OpenInAisle
from validator.measures.plane.room_to_move import Aisle, SeatsAtWorktop

INCH = 25.4


def aisle(
    width: float, side: str = "front", *, accessible: str = "no", cooks: int = 1, enclosed: bool = False
) -> Aisle:
    return row(
        Aisle, side=side, drawn=width, handles=(), to="run", accessible=accessible, enclosed=enclosed, cooks=cooks
    )


def two_runs(room: int, handle: str) -> dict[str, Any]:
    """Facing runs 620 mm deep with a dishwasher whose door comes 600 mm past the edge of the worktop."""
    text = f"""
walls: {{north: {{length: 2100}}, east: {{length: {room}}}, south: {{length: 2100}}, west: {{length: {room}}}}}
kinds: {{base: {{height: 720, depth: 560, front: 20, void behind: 40, handle: {handle}, opens: door}}}}
runs:
  a: {{against: north, order: {{B1: base 900, dishwasher: 600, B2: base 600}}}}
  b: {{against: south, order: {{B3: base 1200, B4: base 900}}}}
worktops: {{top: {{on: a, depth: 620}}, other top: {{on: b, depth: 620}}}}
appliances: {{dishwasher: {{body: 598 w x 815 h x 550 d, door: drops, open: 600, handle: {handle}}}}}
"""
    found = {each.subject.name: each for each in rows(text, "aisle")}
    found["door"] = next(each for each in rows(text, "open door in an aisle") if each.subject.name == "dishwasher")
    return found


@pytest.mark.parametrize(("room", "clear", "with_handles", "left"), [(2480, 1240, 1220, 640), (2400, 1160, 1140, 560)])
def test_worked_example_of_two_facing_runs(room: int, clear: float, with_handles: float, left: float) -> None:
    """The clear way is the room less both worktops, then less handles of 10 mm each; the open door takes 600 mm."""
    assert two_runs(room, "none")["a"].width == clear
    assert two_runs(room, "10")["a"].width == with_handles
    assert two_runs(room, "10")["door"].left == left


@pytest.mark.parametrize(("width", "result"), [(1220, Result.MET), (1140, Result.NOT_MET)])
def test_category_two_of_approved_document_m(width: float, result: Result) -> None:
    """1200 mm clear in front of and between fixed units, appliances and walls."""
    assert met("GB-ENG", "clear-zone-for-access", aisle(width, accessible="category 2")) is (result is Result.MET)
    assert applied("GB-ENG", "clear-zone-for-access", aisle(width)) is None


@pytest.mark.parametrize(
    ("country", "rule", "least", "more"),
    [
        ("GB", "aisle-wide-enough", 1000, {}),  # NHBC Standards 2020, seen itself
        ("GB-ENG", "clear-zone-for-wheelchairs", 1500, {"accessible": "category 3"}),
        ("DE", "movement-zone", 1200, {}),  # HEA, seen itself
        ("DE", "way-round-an-island", 1200, {"side": "back"}),
        ("US", "work-aisle", 42 * INCH, {}),
        ("US", "work-aisle-for-two-cooks", 48 * INCH, {"cooks": 2}),
        ("US", "way-round-an-island", 36 * INCH, {"side": "end"}),
        ("US", "pass-through-kitchen-for-access", 40 * INCH, {"accessible": "yes"}),
        ("US", "kitchen-on-three-sides-for-access", 60 * INCH, {"accessible": "yes", "enclosed": True}),
    ],
)
def test_published_widths_of_aisles(country: str, rule: str, least: float, more: dict[str, Any]) -> None:
    assert met(country, rule, aisle(least, **more))
    assert not met(country, rule, aisle(least - 1, **more))


def test_standing_room_at_an_open_dishwasher() -> None:
    """NKBA kitchen planning guidelines: 21 in; planning notes from Britain would have 400 mm left over."""

    def door(left: float) -> OpenInAisle:
        return row(OpenInAisle, sort="machine", drawn=left + 600, out=600, to="B3")

    rule = "room-beside-an-open-door"
    assert met("US", rule, door(21 * INCH))
    assert not met("US", rule, door(21 * INCH - 1))
    assert met("GB", rule, door(400))
    assert not met("GB", rule, door(399))


def test_room_behind_seats() -> None:
    """NKBA kitchen planning guidelines: 32 in without traffic, 44 in where people walk past."""

    def seats(behind: float) -> SeatsAtWorktop:
        return row(SeatsAtWorktop, drawn=behind, handles=(), to="wall", passage=True)

    assert met("US", "room-behind-seats", seats(32 * INCH))
    assert not met("US", "room-behind-seats", seats(32 * INCH - 1))
    rule = "room-to-pass-behind-seats"
    assert met("US", rule, seats(44 * INCH))
    assert not met("US", rule, seats(44 * INCH - 1))
