"""Doors and windows against what stands, hangs and is carried in."""

from __future__ import annotations

import pytest

from tests.measures.plans import left_out, row, rows, to_find

ROOM = """
heights from: bare floor
walls: {north: {length: 4000}, east: {length: 3000}, south: {length: 4000}, west: {length: 3000}}
kinds: {wall: {height: 700, depth: 300, hangers: {down: 30, in: 40}}, base: {height: 720, depth: 560}}
floors: none
points: none
"""
WINDOW = "openings: {window: {wall: north, along: 1000 from west, size: 900 w x 1000 h, up: 1050, opens: out}}\n"


def hung(gap: int, tops: int = 2100) -> str:
    order = f"{{F1: {{is: gap, width: {gap}}}, W1: wall 500}}"
    return f"runs: {{wall units: {{against: north, tops: {tops} from bare floor, order: {order}}}}}"


@pytest.mark.parametrize(("gap", "clear"), [(400, 100), (600, -100), (2000, 100)])
def test_a_unit_beside_a_window_is_clear_by_what_lies_between(gap: int, clear: float) -> None:
    assert row(ROOM + WINDOW + hung(gap), "thing at an opening").clear == pytest.approx(clear)


def test_a_unit_over_a_window_is_clear_by_what_lies_above_its_head() -> None:
    """The head of the window is at 2050, the underside of the unit at 2800 − 700."""
    assert row(ROOM + WINDOW + hung(1100, 2800), "thing at an opening").clear == pytest.approx(50)


def test_an_opening_from_the_right_is_counted_from_there() -> None:
    right = "openings: {hatch: {is: window, wall: north, along: 2100 from east, size: 900 w x 1000 h, up: 1050}}\n"
    assert row(ROOM + right + hung(400), "thing at an opening").clear == pytest.approx(100)


def test_a_door_starts_at_the_floor() -> None:
    door = "openings: {hall door: {wall: north, along: 1000 from west, size: 800 w x 2000 h}}\n"
    base = "runs: {run: {against: north, legs: 150 at high spot, order: {F1: gap 900, B1: base 600}}}"
    assert row(ROOM + door + base, "thing at an opening").clear == pytest.approx(-500)


def test_without_openings_nobody_knows_of_any() -> None:
    assert left_out(ROOM + hung(400), "thing at an opening") == ["/openings"]


def test_no_openings_on_a_wall_leave_nothing_to_judge() -> None:
    assert rows(ROOM + "openings: none\n" + hung(400), "thing at an opening") == []


def test_a_window_of_unknown_place_asks_for_it() -> None:
    text = ROOM + "openings: {window: {wall: north, size: 900 w x 1000 h, up: 1050}}\n" + hung(400)
    assert to_find(row(text, "thing at an opening"), "aside") == {"/openings/window/along"}


def test_a_thing_comes_in_by_its_narrower_side() -> None:
    text = "way in: {door: {width: 700}, stair: {width: 680}}\nappliances: {fridge: {body: 700 w x 1800 h x 650 d}}"
    assert row(text, "thing to carry in").to_spare == pytest.approx(30)
