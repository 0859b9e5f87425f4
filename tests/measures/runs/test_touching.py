"""Which things of a run touch."""

from __future__ import annotations

import pytest

from tests.measures.plans import row, site
from validator.measures.runs.touching import touching

PLAN = """
walls: {north: {length: 4000}}
kinds: {base: {height: 720, depth: 560}, wall: {height: 720, depth: 300}}
"""


def pairs(base: str, wall: str, run: str = "hung") -> list[str]:
    runs = f"runs: {{low: {{against: north, order: {{{base}}}}}, "
    hung = f"hung: {{against: north, joined: 4 connectors, underside: 1450 from bare floor, order: {{{wall}}}}}}}\n"
    return [f"{left.name} {right.name}" for left, right in touching(site(PLAN + runs + hung), run)]


LOW = "B1: base 600, B2: base 600"


@pytest.mark.parametrize("width", [600, 500])
def test_units_hung_over_others_touch_where_their_sides_come_together(width: int) -> None:
    found = pairs(LOW, f"W1: wall {width} over B1, W2: wall {width} over B2")
    assert found == (["W1 W2"] if width == 600 else [])


def test_units_that_follow_one_another_touch() -> None:
    assert pairs("B1: base 600, B2: base 600, F: filler 50", "W1: wall 600", "low") == ["B1 B2", "B2 F"]


def test_a_unit_of_unknown_width_touches_nothing_that_has_a_place_of_its_own() -> None:
    assert pairs(LOW, "W1: wall to find out over B1, W2: wall 600 over B2") == []


def test_units_hung_over_others_that_touch_are_asked_how_they_are_joined() -> None:
    runs = "runs: {low: {against: north, order: {B1: base 600, P: 600, B2: base 600}}, "
    order = "order: {W1: wall 600 over B1, W2: wall 600 over P}"
    hung = f"hung: {{against: north, joined: 2, underside: 1450 from bare floor, {order}}}}}\n"
    assert row(PLAN + runs + hung, "units side by side").connectors == 2
