"""A real-sized kitchen, and what a person would get wrong in it: each mistake is found before anything is ordered."""

from __future__ import annotations

import functools
from datetime import date
from pathlib import Path

import pytest

from validator.commands.inspecting import Inspector
from validator.judging.outcomes import Result
from validator.judging.ready import ready
from validator.plan.files import documents_of
from validator.plan.merging import merge

PLAN = (Path(__file__).parent.parent / "plans_demo" / "plover-mews" / "plan.yaml").read_text("utf-8")
DAY = date(2027, 4, 15)

MISTAKES = {
    "the dishwasher no longer goes in after the floor": (
        (
            "{sheet vinyl: {thickness: 3, underlay: none, laid: after units}}",
            "{boards: {thickness: 60, underlay: none, laid: after units}}",
        ),
        "appliance-goes-in-and-out",
        "dishwasher",
    ),
    "a corner drawer hits a handle": (("F2: post 80, ", "F2: post 10, "), "drawer-runs-out-clear", "B4"),
    "a mitre over the dishwasher": (
        ("sink top: {on: sink run,", "sink top: {on: sink run, joint: mitre at 2200 from west,"),
        "joint-not-over-an-opening",
        "joint of sink top",
    ),
    "legs out of range at the low spot": (
        ("under the window: 7 low", "under the window: 41 low"),
        "legs-reach-the-low-spot",
        "T1",
    ),
    "an aisle closed by the open oven": (
        ("aisle: 1180 to sink run", "aisle: 640 to sink run"),
        "aisle-not-shut-by-a-door",
        "oven",
    ),
    "a tall unit that cannot be stood up": (
        (
            "tall: {like: base, height: 1970, opens: door, stood up: put together upright",
            "tall: {like: base, height: 2370, opens: door, stood up: put together lying",
        ),
        "tall-unit-tips-up",
        "T1",
    ),
    "a sink where one cannot stand upright": (
        ("ceiling: [2432, 2429, 2434]", "ceiling: {height: 2429, slopes: {north: {from: 1400, sloping length: 2200}}}"),
        "headroom-where-one-stands",
        "sink",
    ),
    "a fridge that does not come through the hall": (
        ("fridge freezer: {in: T1,", "fridge freezer: {in: T1, body: 910 w x 1770 h x 920 d,"),
        "comes-in-by-the-way-in",
        "fridge freezer",
    ),
}


@functools.cache
def _inspector() -> Inspector:
    return Inspector((), DAY)


def _not_met(text: str) -> set[tuple[str, str]]:
    judged = _inspector().inspect(merge(documents_of([("plan.yaml", text.encode())])))
    return {(o.rule.name, o.subject.name) for o in judged.outcomes if o.result is Result.NOT_MET}


def test_it_takes_less_than_a_hundred_and_twenty_lines() -> None:
    assert len(PLAN.splitlines()) < 120


def test_it_is_ready_with_nothing_to_find_out() -> None:
    judged = _inspector().inspect(merge(documents_of([("plan.yaml", PLAN.encode())])))
    assert ready(judged)
    assert not [o for o in judged.outcomes if o.result is Result.NOT_KNOWN]


@pytest.mark.parametrize("mistake", MISTAKES)
def test_a_mistake_is_found_at_the_thing(mistake: str) -> None:
    (right, wrong), rule, thing = MISTAKES[mistake]
    assert PLAN.count(right) == 1
    before, after = _not_met(PLAN), _not_met(PLAN.replace(right, wrong))
    assert (rule, thing) not in before
    assert (rule, thing) in after, sorted(after - before)
