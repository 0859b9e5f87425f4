"""One figure of a ready demo plan at a time, moved over each limit that applies: that rule turns, and no other."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from tests.crossings import Crossing, Moved
from validator.judging.outcomes import Outcome
from validator.judging.rules import Rule

DEMOS = Path(__file__).parent.parent / "plans_demo"
DAY = date(2027, 1, 15)

NOT_A_FIGURE_OF_THE_PLAN = {
    "coat-never-thinner-than-the-one-below": "a coat written `neat` has no figure to move",
    "cured-before-the-next-task": "counts days from tasks whose dates are worked out",
    "panel-between-machines": "counts machines",
    "paint-dry-before-the-next-task": "counts days from tasks whose dates are worked out",
    "clear-of-doors-and-windows": "there is nothing within reach of an opening",
    "departure-still-in-date": "the departure names no day",
    "new-plaster-two-coats": "counts coats",
    "ring-cable": "a conductor comes in steps of a table",
    "laminate-longest-across": "the boards run the other way from where the room is long",
    "extract-rate-of-a-hood": "the unit of the flow has a figure in it, so that there is no one number to move",
    "unit-on-a-stud": "counts studs",
    "tops-lined-through": "units that hang level with the tall unit go with it",
    "worktop-in-one-length": "no length that it is sold in comes close",
}
"""Limits that no single figure typed in the demo plans can be moved across, and why."""

TOGETHER = {
    frozenset({"waste-bore", "waste-length"}): "how long a waste may be hangs on its bore",
    frozenset({"point-not-over-hob", "point-beside-hob"}): "a point over a hob is no longer beside it",
    frozenset(
        {"legs-short-enough-at-the-high-spot", "appliance-goes-in-and-out"}
    ): "the opening is as high as the legs",
    frozenset({"plinth-not-too-low", "appliance-goes-in-and-out"}): "plinth and opening are as high as the legs",
    frozenset(
        {"legs-short-enough-at-the-high-spot", "plinth-not-too-low", "appliance-goes-in-and-out"}
    ): "legs, plinth and opening end together",
    frozenset(
        {"tall-unit-tips-up", "tall-unit-tips-up-on-its-legs"}
    ): "what never comes up is not asked about its legs",
    frozenset({"run-not-longer-than-its-wall", "run-with-room-at-its-end"}): "what is too long has no end to judge",
}
"""Limits that meet in one millimetre, and why."""


@pytest.mark.parametrize("plan", ["tern-cottage", "rowan-garret", "tallow-lane"])
def test_one_figure_moved_over_a_limit_turns_that_rule_and_no_other(plan: str) -> None:
    moved = Moved(DEMOS / plan, DAY)
    limits = moved.limits()
    assert len(limits) > 30
    wrong = {limit.rule.name: found for limit in limits if (found := _not_alone(moved, limit)) is not None}
    assert wrong == {}


def _not_alone(moved: Moved, limit: Outcome) -> list[Crossing] | None:
    """Every crossing of a limit, where none of them turns this rule alone; None where one does, or none is expected."""
    tried = []
    kin = {rule.name for rule in moved.before.books.rules if _share_a_figure(rule, limit.rule)}
    for crossing in moved.crossings(limit):
        if crossing.turned <= kin or crossing.turned in TOGETHER:
            return None
        tried.append(crossing)
    return None if not tried and limit.rule.name in NOT_A_FIGURE_OF_THE_PLAN else tried


def _share_a_figure(one: Rule, other: Rule) -> bool:
    """Whether two rules hold the same figure of the same things: where one ends, the other may begin."""
    return (one.each, one.figure) == (other.each, other.figure)
