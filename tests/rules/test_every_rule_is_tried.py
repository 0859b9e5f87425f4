"""Every rule of every book, tried in its fragment on both sides of its limit and with the varied value left out."""

from __future__ import annotations

import pytest

from tests.rules.trials import TRIALS, all_rules, all_trials
from validator.judging.outcomes import Check, Result
from validator.judging.trials import Side, Tried
from validator.plan.dimensions import DATE, DURATION, LENGTH, NUMBER, Dimension
from validator.plan.problems import Unreadable
from validator.plan.quantities import parse_any
from validator.plan.values import Quantity
from validator.reference.folder import rules_folder

ALL = all_trials()
DAY = 86400.0

FALLS_BACK = {
    "floor-level-enough": "a floor falls by as much as the spots that were measured say",
    "countertop-parallel-to-floor": "a floor falls by as much as the spots that were measured say",
    "room-corners-add-up": "a corner that nobody measured is taken for what the others leave over",
    "departure-still-in-date": "a departure without an end is agreed for good",
    "departure-not-worse": "a departure without a figure is agreed whatever it comes to",
    "plaster-dry-before-the-next-task": "a task without a fixed date starts when what it follows is dry",
    "paint-dry-before-the-next-task": "a task without a fixed date starts when what it follows is dry",
    "cured-before-the-next-task": "a task without a fixed date starts when what it follows has cured",
    "template-after-the-units": "a template without a fixed date comes the day after what it follows",
    "timber-left-at-the-end": "a sink stands in the middle of its unit unless the plan says otherwise",
    "timber-left-between-cut-outs": "a hob stands in the middle of its unit unless the plan says otherwise",
}
"""Rules for which leaving the varied value out says something, and what."""


@pytest.mark.parametrize("tried", ALL, ids=str)
def test_the_rule_is_met_on_one_side_of_its_limit(tried: Tried) -> None:
    assert results(TRIALS.side(tried, Result.MET)) == {Result.MET}


@pytest.mark.parametrize("tried", ALL, ids=str)
def test_the_rule_is_not_met_on_the_other(tried: Tried) -> None:
    found = results(TRIALS.side(tried, Result.NOT_MET))
    assert Result.NOT_MET in found
    assert Result.NOT_KNOWN not in found


@pytest.mark.parametrize("tried", ALL, ids=str)
def test_the_two_sides_are_next_to_each_other(tried: Tried) -> None:
    """Between the two sides what is to spare moves by no more than 1 mm, a day, one or 1 %; or, where a table makes it
    jump, the value in the plan does. Rules that ask for a condition or a word have nothing between yes and no.
    """
    if tried.rule.dimension is None:
        return
    met, not_met = (worst(side) for side in TRIALS.sides(tried))
    near = abs(not_met.short - met.short) <= step(tried.rule.dimension, float(not_met.need))
    assert near or next_to(tried.trial.met, tried.trial.not_met)


@pytest.mark.parametrize("tried", ALL, ids=str)
def test_nothing_left_out_counts_as_met(tried: Tried) -> None:
    """Without the varied value the rule is not known, or finds nothing to judge, or the plan cannot be read."""
    try:
        found = {outcome.result for outcome in TRIALS.judged(tried, TRIALS.without(tried))[1]}
    except Unreadable:
        return
    assert found == {Result.MET} if tried.rule.name in FALLS_BACK else found <= {Result.NOT_KNOWN}


def test_every_rule_has_a_trial() -> None:
    assert [name for name, rule in all_rules().items() if not rule.tried] == []


def test_every_fragment_is_used() -> None:
    there = {f"fragments/{file.stem}" for file in (rules_folder() / "fragments").glob("*.yaml")}
    assert there == {tried.trial.plan for tried in ALL}


@pytest.mark.parametrize("tried", ALL, ids=str)
def test_the_fragment_has_a_country_where_the_rule_applies(tried: Tried) -> None:
    country = TRIALS.fragment(tried)["project"]["country"]
    assert tried.rule.covers == "everywhere" or country.startswith(tried.rule.covers)


def results(side: Side) -> set[Result]:
    return {outcome.result for outcome in side.outcomes}


def worst(side: Side) -> Check:
    """The check with least to spare."""
    return max((check for outcome in side.outcomes for check in outcome.checks), key=lambda check: check.short)


def step(dimension: Dimension, need: float) -> float:
    """How far apart two neighbouring values of a dimension are."""
    if dimension.same_as(LENGTH):
        return 1.0 + 1e-6
    if dimension.same_as(NUMBER):
        return 1.0
    if dimension.same_as(DATE) or dimension.same_as(DURATION):
        return DAY
    return 0.0101 * abs(need)


def next_to(met: object, not_met: object) -> bool:
    """Whether two values of a plan, as written, are neighbours."""
    first, second = (parse_any(str(value), "mm") for value in (met, not_met))
    assert isinstance(first, Quantity)
    assert isinstance(second, Quantity)
    return abs(first.low - second.low) <= step(first.dimension, second.low)
