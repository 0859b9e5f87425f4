"""Where several rules look at one place, one of them speaks: a fault is one point, and it is never none."""

from __future__ import annotations

import functools
from datetime import date

import pytest

from validator.commands.inspecting import Inspector
from validator.judging.outcomes import Result
from validator.plan.files import read_plan

RULES = {
    "door-opens-clear",
    "drawer-runs-out-clear",
    "handle-clear-beside-the-hinge",
    "corner-post",
    "corner-post-of-a-usual-width",
    "front-clear-of-the-wall-beside-it",
    "fridge-door-clear-of-the-wall",
}
HEAD = """dryfit: 1
heights from: finished floor
project: {title: One point, country: GB-ENG, lengths in: mm}
walls: {north: {length: 3000}, east: {length: 2600}, south: {length: 3000}, west: {length: 2600}}
kinds:
  base: {height: 720, depth: 560, front: 19, void behind: 50, handle: 32, opens: door}
  drawers: {like: base, opens: drawers}
  tall: {like: base, height: 1970}
"""


@functools.cache
def inspector() -> Inspector:
    return Inspector((), date(2027, 4, 15))


def points(text: str) -> list[tuple[str, str]]:
    judged = inspector().inspect(read_plan(["-"], (HEAD + text).encode))
    return [
        (outcome.subject.name, outcome.rule.name)
        for outcome in judged.outcomes
        if outcome.result is Result.NOT_MET and outcome.rule.name in RULES
    ]


AT_WALL = "r at the west wall"


@pytest.mark.parametrize(
    ("filler", "found"),
    [
        (12, [("B1", "handle-clear-beside-the-hinge")]),
        (31, [("B1", "handle-clear-beside-the-hinge")]),
        (33, []),
    ],
)
def test_a_door_hinged_at_a_wall(filler: int, found: list[tuple[str, str]]) -> None:
    assert points(f"runs: {{r: {{against: north, order: {{F1: filler {filler}, B1: base 500 left}}}}}}") == found


@pytest.mark.parametrize(("filler", "found"), [(24, [(AT_WALL, "front-clear-of-the-wall-beside-it")]), (25, [])])
def test_a_door_hinged_away_from_the_wall(filler: int, found: list[tuple[str, str]]) -> None:
    assert points(f"runs: {{r: {{against: north, order: {{F1: filler {filler}, B1: base 500 right}}}}}}") == found


@pytest.mark.parametrize(
    ("filler", "found"),
    [
        (12, [("T1", "handle-clear-beside-the-hinge")]),
        (33, [(AT_WALL, "fridge-door-clear-of-the-wall")]),
        (40, []),
    ],
)
def test_a_fridge_hinged_at_a_wall(filler: int, found: list[tuple[str, str]]) -> None:
    text = f"runs: {{r: {{against: north, order: {{F1: filler {filler}, T1: tall 600 left}}}}}}\n"
    assert points(text + "appliances: {fridge: {in: T1}}") == found


@pytest.mark.parametrize(
    ("post", "found"),
    [
        (20, [("B3", "door-opens-clear"), ("B2", "drawer-runs-out-clear")]),
        (34, [("B3", "handle-clear-beside-the-hinge"), ("B2", "corner-post")]),
        (60, [("B3", "handle-clear-beside-the-hinge")]),
        (64, []),
    ],
)
def test_fronts_in_a_corner_get_one_point_each(post: int, found: list[tuple[str, str]]) -> None:
    """The handle across stands out 32; that of B3 lies beside its hinge once it is open and takes 32 more."""
    runs = f"runs:\n  a: {{against: north, order: {{F1: filler {1771 - post}, B2: drawers 600, F2: post {post}}}}}\n"
    assert (
        points(runs + f"  b: {{against: east, from: fronts of a, order: {{P1: post {post}, B3: base 500 left}}}}")
        == found
    )
