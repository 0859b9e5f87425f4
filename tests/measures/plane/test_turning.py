"""The largest circle free on the floor of a room, where a plan asks for access."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, row, rows, to_find

ASKS = "project: {title: Heron Wharf, country: GB-ENG, lengths in: mm, accessible: yes}"
ROOM = "walls: {north: {length: 3000}, east: {length: 2500}, south: {length: 3000}, west: {length: 2500}}\n"
KINDS = "kinds: {base: {height: 720, depth: 560, front: 20, void behind: 50, handle: 30}}\n"
RUNS = "runs: {a: {against: north, order: {B1: base 3000}}}\n"


def circle(text: str) -> float:
    return float(row(text, "room to turn in", ASKS).circle)


def test_a_plan_that_asks_for_no_access_has_no_row() -> None:
    assert rows(ROOM + KINDS + RUNS, "room to turn in") == []


def test_the_circle_lies_between_handles_and_the_wall_across() -> None:
    assert circle(ROOM + KINDS + RUNS) == pytest.approx(2500 - 660, abs=1)


def test_tiles_to_come_on_the_wall_across_take_their_thickness() -> None:
    bare = ROOM.replace("}", ", tiles: none}", 4)
    tiled = bare.replace("south: {length: 3000, tiles: none}", "south: {length: 3000, tiles: 12}")
    assert circle(tiled + KINDS + RUNS) == pytest.approx(2500 - 660 - 12, abs=1)
    unsaid = bare.replace("south: {length: 3000, tiles: none}", "south: {length: 3000}")
    assert to_find(row(unsaid + KINDS + RUNS, "room to turn in", ASKS), "circle") == {"/walls/south/tiles"}


def test_three_walls_at_right_angles_leave_the_room_open_and_no_circle_known() -> None:
    walls = "walls: {north: {length: 3000}, east: {length: 3000}, south: {length: 3000}}\n"
    assert to_find(row(walls + KINDS + RUNS, "room to turn in", ASKS), "circle") == {"/walls"}


def test_an_island_leaves_its_wider_side() -> None:
    """Behind an island as long as the room, 2370 mm deep from the wall, the rest of 4500 mm is free."""
    island = "}}, isle: {faces: north, along: 0 from west, aisle: 1110 to a, order: {B2: base 3000}}}\n"
    walls = ROOM.replace("2500", "4500")
    assert circle(walls + KINDS + RUNS.replace("}}}\n", island)) == pytest.approx(4500 - 630 - 1110 - 630, abs=1)


def test_a_handle_nobody_gave_is_asked_for_where_it_is_near() -> None:
    found = row(ROOM + KINDS.replace(", handle: 30", "") + RUNS, "room to turn in", ASKS)
    assert to_find(found, "circle") == {"/runs/a/order/B1/handle"}


def test_readings_that_differ_leave_a_doubt() -> None:
    walls = ROOM.replace("east: {length: 2500}", "east: {length: [2500, 2520]}")
    low, high = ends(row(walls + KINDS + RUNS, "room to turn in", ASKS), "circle")
    assert low < 1840 < high
