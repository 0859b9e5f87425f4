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

NO_ONE_FIGURE = {
    "counted": {
        "new-plaster-two-coats",
        "unit-on-a-stud",
        "tall-unit-anchored",
        "room-outline-crosses-nothing",
        "joint-not-over-an-opening",
        "panel-between-machines",
        "room-corners-add-up",
    },
    "in steps, of a table or of what is sold": {
        "ring-cable",
        "ring-conductors",
        "worktop-in-one-length",
        "laminate-held-every-unit",
    },
    "a day that is worked out": {"cured-before-the-next-task", "paint-dry-before-the-next-task"},
    "a word, `neat`": {"coat-never-thinner-than-the-one-below"},
    "a unit with a figure in it, `m3/h`": {"extract-rate-of-a-hood"},
    "the other way from where the room is long": {"laminate-longest-across"},
    "nothing is near enough to be measured to": {
        "clear-of-doors-and-windows",
        "door-opens-clear",
        "drawer-runs-out-clear",
        "drawers-clear-of-a-machine",
        "machine-door-opens-clear",
        "machine-door-clear-of-what-is-open",
        "room-door-opens-clear",
        "room-door-clear-of-what-is-open",
        "hob-not-in-door-swing",
        "hob-well-away-from-an-open-door",
        "door-clear-of-the-place-before-a-hob",
        "aisle-wide-enough",
        "aisle-not-shut-by-a-door",
        "room-beside-an-open-door",
        "units-side-by-side",
    },
    "what moves it moves what it is measured from": {
        "hole-on-its-wall",
        "tops-lined-through",
        "runs-clear-of-each-other-in-the-corner",
        "corner-post-of-a-usual-width",
        "last-filler-tapers-little",
        "laminate-overhang-held",
        "edge-of-an-overhang-firm",
        "drill-away-from-the-corner-strip",
    },
    "a unit has one hanger at each side": {"hung-unit-on-two-fixings"},
}
"""Limits that no single figure typed in a demo plan brings to turn, by the reason."""

TOGETHER = {
    "how long a waste may be hangs on its bore": {"waste-bore", "waste-length"},
    "a point over a hob is no longer beside it": {"point-not-over-hob", "point-beside-hob"},
    "legs, plinth and opening are as high as one another": {
        "legs-short-enough-at-the-high-spot",
        "plinth-not-too-low",
        "appliance-goes-in-and-out",
        "opening-for-machines-of-the-trade",
    },
    "what is too long has no end to judge": {"run-not-longer-than-its-wall", "run-with-room-at-its-end"},
    "a top is shallower by the strip behind its cut-outs": {"worktop-of-the-standard-depth", "cut-out-back-strip"},
    "a thinner front lies further behind the edge of its top": {
        "door-thick-enough-for-hinge-cups",
        "worktop-evenly-past-its-fronts",
    },
    "legs are as long as the floor is low": {"floor-level-enough", "plinth-closes-the-gap"},
    "a unit brings its fixings to the edge of an opening": {
        "clear-of-doors-and-windows",
        "fixing-away-from-an-edge",
        "fixing-well-away-from-an-edge",
    },
    "half is left in a joint, and half without a hanger; what does not hold is asked no more": {
        "hung-unit-held",
        "hung-unit-held-in-joints",
        "hung-unit-held-by-one-less",
        "hung-unit-leaned-on",
    },
}
"""Limits that meet in one millimetre, by the reason."""


@pytest.mark.parametrize("plan", ["tern-cottage", "plover-mews"])
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
    expected = [kin, *(rules for rules in TOGETHER.values() if limit.rule.name in rules)]
    for crossing in moved.crossings(limit):
        if any(crossing.turned <= rules for rules in expected):
            return None
        tried.append(crossing)
    counted = limit.rule.name == "tall-unit-anchored"  # each fixing that is left out is a hole less, too
    none_expected = any(limit.rule.name in rules for rules in NO_ONE_FIGURE.values())
    return None if none_expected and (counted or not tried) else tried


def _share_a_figure(one: Rule, other: Rule) -> bool:
    """Whether two rules hold the same figure of the same things: where one ends, the other may begin."""
    return (one.each, one.figure) == (other.each, other.figure)
