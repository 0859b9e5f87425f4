"""The way in: narrow places, heads and turns for machines, tall units and worktops; turns held to a sweep."""

from __future__ import annotations

import math
import random

import pytest
from shapely import Point, Polygon, box
from shapely.affinity import rotate

from tests.measures.plans import row, rows, to_find
from validator.measures.room.round_corners import longest_round, shortest_on_plan

FRIDGE = "appliances: {fridge: {body: 700 w x 1800 h x 650 d}}\n"
LONG = (
    "walls: {north: {length: 4000}}\nkinds: {base: {height: 720, depth: 560}}\n"
    "runs: {a: {against: north, order: {B1: base 1400, B2: base 1400}}}\n"
)


def test_the_lowest_head_counts() -> None:
    way = "way in: {door: {width: 800, headroom: 1981}, stair: {width: 800, headroom: 1900}}\n"
    assert row(way + FRIDGE, "thing to carry in").under_heads == 100


def test_a_head_nobody_measured_is_asked_for() -> None:
    way = "way in: {door: {width: 800, headroom: 1981}, stair: {width: 800}}\n"
    assert to_find(row(way + FRIDGE, "thing to carry in"), "under_heads") == {"/way in/stair/headroom"}


def test_the_turn_with_least_to_spare_counts() -> None:
    way = "way in: {hall: {width: 900, turn: 900 x 950}, landing: {width: 900, turn: 800 x 820}}\n"
    found = row(way + FRIDGE, "thing to carry in")
    assert found.turn == "landing"
    assert found.round_turn == pytest.approx(longest_round(800, 820, 650) - 700)


def test_a_way_without_a_turn_asks_for_none() -> None:
    found = row("way in: {door: {width: 800}}\n" + FRIDGE, "thing to carry in")
    assert not found.has_turn


def test_a_tall_unit_comes_in_one_piece_or_is_put_together_inside() -> None:
    text = (
        "way in: {door: {width: 800}}\nwalls: {north: {length: 4000}}\n"
        "kinds: {base: {height: 720, depth: 560}, tall: {height: 2000, depth: 560}}\n"
        "runs: {a: {against: north, order: {B1: base 600, T1: tall 600, T2: tall 500}}}\n"
    )
    whole = text.replace("tall: {", "tall: {stood up: as it comes, ")
    assert [each.subject.name for each in rows(whole, "thing to carry in")] == ["T1", "T2"]
    assert rows(text.replace("tall: {", "tall: {stood up: put together upright, "), "thing to carry in") == []


def test_a_worktop_too_long_for_a_turn_lies_flat_is_tilted_up_to_the_headroom() -> None:
    top = "worktops: {top: {on: a, depth: 620, thickness: 38, past end: 0}}\n"
    way = "way in: {landing: {width: 900, headroom: 2300, turn: 860 x 880}}\n"
    found = row(way + LONG + top, "thing to carry in")
    assert found.length == pytest.approx(shortest_on_plan(2800, 620, 2300))
    assert to_find(row(way.replace("headroom: 2300, ", "") + LONG + top, "thing to carry in"), "round_turn") == {
        "/way in/landing/headroom"
    }


def test_worktops_make_no_rows_where_nothing_turns() -> None:
    top = "worktops: {top: {on: a, depth: 620, thickness: 38, past end: 0}}\n"
    assert rows("way in: {door: {width: 800}}\n" + LONG + top, "thing to carry in") == []


@pytest.mark.parametrize(("a", "b"), [(860, 880), (700, 1200), (1000, 1000)])
def test_a_thing_of_no_width_follows_the_ladder_of_the_textbooks(a: float, b: float) -> None:
    assert longest_round(a, b, 0) == pytest.approx((a ** (2 / 3) + b ** (2 / 3)) ** 1.5)


def test_what_is_wider_than_a_way_does_not_come_in() -> None:
    assert longest_round(700, 900, 701) == 0


def test_the_longest_that_comes_round_is_the_longest_a_sweep_lets_pass() -> None:
    """Rectangles slid along both outer walls through all angles, in ways drawn by chance; or not turned at all."""
    chance = random.Random(20261)
    for _ in range(12):
        a, b = chance.uniform(600, 1400), chance.uniform(600, 1400)
        across = chance.uniform(30, 0.95 * min(a, b))
        longest = longest_round(a, b, across)
        assert _passes(longest - 2, across, a, b)
        assert not _passes(longest + 2, across, a, b)


def _passes(length: float, across: float, a: float, b: float) -> bool:
    """Ways: one along the first axis and `b` high, one along the second and `a` wide; the inner corner is at (a, b)."""
    if length <= max(a, b):
        return True  # it goes sideways into the other way
    inner = box(a, b, a + 20_000, b + 20_000)
    for step in range(1, 1800):
        angle = math.pi / 2 * step / 1800
        x, y = length * math.cos(angle), length * math.sin(angle)
        inward = (across * math.sin(angle), across * math.cos(angle))
        thing = Polygon([(x, 0), (0, y), (inward[0], y + inward[1]), (x + inward[0], inward[1])])
        if thing.intersection(inner).area > 1e-6:
            return False
    return True


def test_a_thing_tilted_into_the_headroom_is_as_short_as_a_turned_rectangle() -> None:
    chance = random.Random(20262)
    for _ in range(10):
        length, deep = chance.uniform(1500, 3600), chance.uniform(300, 900)
        headroom = chance.uniform(deep, 2600)
        turned = [rotate(box(0, 0, length, deep), tenth / 10, origin=Point(0, 0)).bounds for tenth in range(900)]
        fitting = [right - left for left, low, right, high in turned if high - low <= headroom + 1e-6]
        assert shortest_on_plan(length, deep, headroom) == pytest.approx(min(fitting), abs=6)
