"""Outcomes put together: one rule is one point however many places fail it, in the order of the work."""

from __future__ import annotations

import pytest

from tests.reporting.made import judgement, not_known, not_met, outcome, rule
from validator.judging.outcomes import Outcome, Result
from validator.measures.rows import Missing, Subject, Why
from validator.reporting.points import Points, of_each, put_together

FALL = Missing("/appliances/sink/waste/fall", "fall of the sink's waste", by="plumber")
DEPTH = Missing("/appliances/sink/depth", "depth of the sink")


def made(*outcomes: Outcome) -> Points:
    return put_together(judgement(outcomes))


def test_one_rule_at_several_places_is_one_point() -> None:
    points = made(*(not_met(rule("fall"), thing) for thing in ("sink", "bath", "shower")))
    (point,) = points.points
    assert [found.subject.name for found in point.outcomes] == ["sink", "bath", "shower"]


def test_a_rule_that_is_met_or_not_known_elsewhere_is_a_point_only_where_it_is_not_met() -> None:
    fall = rule("fall")
    points = made(not_met(fall, "sink"), outcome(fall, "bath", Result.MET), not_known(fall, "shower", FALL))
    assert [[found.subject.name for found in point.outcomes] for point in points.points] == [["sink"]]
    assert [[found.subject.name for found in errand.outcomes] for errand in points.errands] == [["shower"]]


def test_points_follow_the_stages_of_the_work_and_within_one_the_severities() -> None:
    points = made(
        not_met(rule("last", "stop", "hand-over"), "a"),
        not_met(rule("mild", "note", "first fix"), "a"),
        not_met(rule("middling", "put right", "first fix"), "a"),
        not_met(rule("grave", "stop", "first fix"), "a"),
        not_met(rule("better", "improve", "first fix"), "a"),
        not_met(rule("first", "note", "ordering"), "a"),
    )
    assert [point.rule.name for point in points.points] == ["first", "grave", "middling", "better", "mild", "last"]


def test_points_and_errands_are_numbered_on_from_one() -> None:
    points = made(not_known(rule("deep"), "sink", DEPTH), not_met(rule("fall"), "sink"), not_met(rule("bore"), "sink"))
    assert [entry.number for entry in points.numbered] == [1, 2, 3]
    assert [point.number for point in points.points] == [1, 2]


def test_what_several_rules_wait_for_is_found_out_once() -> None:
    points = made(
        not_known(rule("fall"), "sink", FALL),
        not_known(rule("slope", "stop"), "sink", FALL),
        not_known(rule("depth"), "sink", DEPTH, FALL),
    )
    assert [(errand.missing.label, len(errand.outcomes)) for errand in points.errands] == [
        ("fall of the sink's waste", 3),
        ("depth of the sink", 1),
    ]


def test_an_errand_is_as_grave_as_the_gravest_rule_that_waits_and_says_who_can_answer() -> None:
    points = made(not_known(rule("mild", "note"), "sink", FALL), not_known(rule("grave", "stop"), "sink", FALL))
    (errand,) = points.errands
    assert (errand.severity, errand.stops, errand.missing.by) == ("stop", True, "plumber")


def test_the_gravest_errands_come_first() -> None:
    points = made(not_known(rule("mild", "improve"), "sink", DEPTH), not_known(rule("grave", "stop"), "sink", FALL))
    assert [errand.severity for errand in points.errands] == ["stop", "improve"]


def test_a_section_that_is_left_out_is_one_errand_whatever_waits_for_it() -> None:
    points = made(
        not_known(rule("a"), "walls", Missing("/walls", "walls of the room")),
        not_known(rule("b"), "walls", Missing("/walls", "walls")),
    )
    assert len(points.errands) == 1


@pytest.mark.parametrize(("plan", "errands"), [("fixings: none", 2), ("", 1)])
def test_what_a_section_that_is_there_does_not_hold_is_an_errand_of_its_own(plan: str, errands: int) -> None:
    waiting = [
        not_known(rule(of), of, Missing("/fixings", f"what holds {of}", asks=f"{of} on its fixings.held_by"))
        for of in ("hung unit", "hood")
    ]
    assert len(put_together(judgement(waiting, plan=plan)).errands) == errands


def test_the_same_pointer_for_two_figures_is_two_errands() -> None:
    points = made(
        not_known(rule("a"), "sink", Missing("/appliances/sink", "width")),
        not_known(rule("b"), "sink", Missing("/appliances/sink", "depth")),
    )
    assert len(points.errands) == 2


@pytest.mark.parametrize(
    ("results", "counted"),
    [
        ([Result.MET, Result.MET], Result.MET),
        ([Result.MET, Result.AGREED], Result.AGREED),
        ([Result.AGREED, Result.NOT_KNOWN], Result.NOT_KNOWN),
        ([Result.NOT_KNOWN, Result.NOT_MET, Result.MET], Result.NOT_MET),
    ],
)
def test_a_rule_counts_by_its_worst_outcome(results: list[Result], counted: Result) -> None:
    fall = rule("fall")
    tally = made(*(outcome(fall, f"thing {at}", result, FALL) for at, result in enumerate(results))).tally
    assert tally == {result: int(result is counted) for result in Result}


def test_met_on_a_supposition_is_said_so() -> None:
    assumed = Missing("/layers", "dabs", Why.ASSUMED, detail="22 assumed")
    supposed = outcome(rule("fall"), "sink", Result.MET)._replace(supposing=(assumed,))
    points = made(supposed, outcome(rule("bore"), "sink", Result.MET))
    assert points.supposing == (supposed,)


def test_the_numbers_of_outcomes_are_those_of_their_points() -> None:
    fall, bore = not_met(rule("fall"), "sink"), not_met(rule("bore"), "sink")
    unknown = not_known(rule("deep"), "sink", FALL)
    points = made(fall, bore, unknown)
    assert points.numbers([bore, unknown]) == [2, 3]
    assert points.numbers([]) == []


def test_an_outcome_without_a_place_is_a_point_all_the_same() -> None:
    nowhere = not_met(rule("fall"), "sink")._replace(subject=Subject("the whole plan", ""))
    assert [point.outcomes for point in made(nowhere).points] == [(nowhere,)]


def test_what_a_kind_leaves_open_is_called_from_the_inside_out() -> None:
    assert of_each(["kinds", "base", "height"]) == "height of each base"
    assert of_each(["kinds", "wall", "hangers", "in"]) == "in of the hangers of each wall"
