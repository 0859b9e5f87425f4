"""Departures agreed in a plan: what they cover, and what is found about the departures themselves.

The plan has a waste that falls too little, which is official guidance, and gas work by somebody who is on no register,
which is law. Figures are made up but for the least fall of 18 mm/m (Approved Document H, Diagram 3; secondary).
"""

from __future__ import annotations

from datetime import date

import pytest

from tests.measures.plans import library
from validator.judging.apply import Judgement, judge
from validator.judging.books import read_books
from validator.judging.outcomes import Outcome, Result
from validator.judging.ready import ready
from validator.plan.files import read_plan
from validator.plan.load import load
from validator.plan.problems import Problem, Unreadable
from validator.reference.folder import rules_folder

WASH_HOUSE = """\
dryfit: 1
heights from: bare floor
project: {{title: Wash house, country: GB-ENG, lengths in: mm, built: 2012, starts: 2027-02-01}}
walls: none
openings: none
runs: none
worktops: none
appliances:
  sink: {{waste: 40 mm to stack 1500 at {sink} mm/m}}
  dishwasher: {{waste: 40 mm to stack 1500 at {dishwasher} mm/m}}
points: none
circuits: none
fixings: none
coatings: none
floors: none
people: {{friend: {{register: {register}}}}}
work:
  order: usual
  days: every day
  connect gas: {{by: friend, takes: 1 day, on: 2027-03-01}}
agreed:
{agreed}
requirements: {{one fall: {{each: waste, figure: slope, equals: 20 mm/m, severity: note}}}}
"""
ON = date(2027, 3, 1)
SINK = "at: sink, reason: the sill is low, by: householder"


def judged(*agreed: str, on: date = ON, sink: float = 12, dishwasher: float = 25, register: str = "none") -> Judgement:
    """The plan judged with these departures, each `rule: {at: …}`."""
    lines = "\n".join(f"  {line}" for line in agreed)
    text = WASH_HOUSE.format(sink=sink, dishwasher=dishwasher, register=register, agreed=lines)
    plan = load(read_plan(["-"], text.encode))
    return judge(plan, library(), read_books(rules_folder(), library(), plan), on)


def of(judgement: Judgement, rule: str, thing: str) -> Outcome:
    (found,) = [o for o in judgement.outcomes if o.rule.name == rule and o.subject.name == thing]
    return found


def fall_of_sink(judgement: Judgement) -> Result:
    return of(judgement, "waste-fall", "sink").result


def found_about(judgement: Judgement, departure: str) -> set[str]:
    """The rules about departures that are not met by a departure."""
    return {
        outcome.rule.name
        for outcome in judgement.outcomes
        if outcome.rule.each == "departure" and outcome.subject.name == departure and outcome.result is Result.NOT_MET
    }


class TestCovering:
    def test_without_a_departure_the_point_is_not_met(self) -> None:
        assert fall_of_sink(judged("waste-fall: {at: dishwasher, reason: x, by: householder}")) is Result.NOT_MET

    def test_what_is_not_met_there_is_agreed_with_reason_and_by_whom(self) -> None:
        outcome = of(judged(f"waste-fall: {{{SINK}, until: 2027-12-31}}"), "waste-fall", "sink")
        assert outcome.result is Result.AGREED
        assert outcome.departure is not None
        assert (outcome.departure.reason, outcome.departure.by) == ("the sill is low", "householder")
        assert outcome.departure.pointer == "/agreed/waste-fall"
        assert outcome.departure.until == date(2027, 12, 31).toordinal() * 86400.0

    def test_the_figures_stay_as_they_are(self) -> None:
        plain = of(judged("waste-fall: {at: dishwasher, reason: x, by: householder}"), "waste-fall", "sink")
        covered = of(judged(f"waste-fall: {{{SINK}}}"), "waste-fall", "sink")
        assert covered.checks == plain.checks
        assert not covered.checks[0].ok

    def test_it_holds_at_its_own_place_only(self) -> None:
        judgement = judged(f"waste-fall: {{{SINK}}}", dishwasher=12)
        assert fall_of_sink(judgement) is Result.AGREED
        assert of(judgement, "waste-fall", "dishwasher").result is Result.NOT_MET

    def test_one_rule_may_be_departed_from_in_several_places(self) -> None:
        judgement = judged(
            f"waste-fall: [{{{SINK}}}, {{at: dishwasher, reason: the floor is thin, by: householder}}]", dishwasher=12
        )
        assert fall_of_sink(judgement) is Result.AGREED
        assert of(judgement, "waste-fall", "dishwasher").result is Result.AGREED

    @pytest.mark.parametrize("spelt", ["Waste-Fall", "waste fall", "waste_fall"])
    def test_the_rule_is_found_however_it_is_spelt(self, spelt: str) -> None:
        assert fall_of_sink(judged(f"{spelt}: {{{SINK}}}")) is Result.AGREED

    def test_another_rule_at_the_same_place_is_not_covered(self) -> None:
        judgement = judged(f"waste-length: {{{SINK}}}")
        assert fall_of_sink(judgement) is Result.NOT_MET

    def test_what_is_met_stays_met(self) -> None:
        assert fall_of_sink(judged(f"waste-fall: {{{SINK}}}", sink=25)) is Result.MET

    def test_what_is_not_known_stays_not_known(self) -> None:
        text = WASH_HOUSE.format(sink=12, dishwasher=25, register="none", agreed=f"  waste-fall: {{{SINK}}}")
        plan = load(read_plan(["-"], text.replace(" at 12 mm/m", "").encode))
        judgement = judge(plan, library(), read_books(rules_folder(), library(), plan), ON)
        assert fall_of_sink(judgement) is Result.NOT_KNOWN

    def test_a_rule_of_law_is_never_covered(self) -> None:
        judgement = judged("gas-work-registered: {at: connect gas, reason: a friend does it, by: householder}")
        assert of(judgement, "gas-work-registered", "connect gas").result is Result.NOT_MET

    @pytest.mark.parametrize(
        ("on", "result"),
        [
            (date(2027, 6, 29), Result.AGREED),
            (date(2027, 6, 30), Result.AGREED),
            (date(2027, 7, 1), Result.NOT_MET),
        ],
    )
    def test_it_holds_until_its_day_and_on_it(self, on: date, result: Result) -> None:
        assert fall_of_sink(judged(f"waste-fall: {{{SINK}, until: 2027-06-30}}", on=on)) is result

    def test_it_does_not_hold_while_nobody_knows_until_when(self) -> None:
        assert fall_of_sink(judged(f"waste-fall: {{{SINK}, until: to find out}}")) is Result.NOT_MET

    @pytest.mark.parametrize(
        ("no_worse_than", "result"),
        [
            ("12 mm/m", Result.AGREED),
            ("11.9 mm/m", Result.AGREED),
            ("12.1 mm/m", Result.NOT_MET),
            ("18 mm/m", Result.NOT_MET),
        ],
    )
    def test_a_figure_worse_than_the_one_agreed_is_not_covered(self, no_worse_than: str, result: Result) -> None:
        assert fall_of_sink(judged(f"waste-fall: {{{SINK}, no worse than: {no_worse_than}}}")) is result

    @pytest.mark.parametrize(("no_worse_than", "result"), [("100 mm/m", Result.AGREED), ("95 mm/m", Result.NOT_MET)])
    def test_worse_is_more_where_there_is_too_much(self, no_worse_than: str, result: Result) -> None:
        judgement = judged(f"waste-fall: {{{SINK}, no worse than: {no_worse_than}}}", sink=97)
        assert fall_of_sink(judgement) is result

    @pytest.mark.parametrize(
        ("sink", "no_worse_than", "result"),
        [
            (12, "12 mm/m", Result.AGREED),
            (12, "13 mm/m", Result.NOT_MET),
            (27, "13 mm/m", Result.AGREED),
            (28, "13 mm/m", Result.NOT_MET),
        ],
    )
    def test_worse_is_further_off_where_one_figure_is_asked_for(
        self, sink: float, no_worse_than: str, result: Result
    ) -> None:
        judgement = judged(f"one fall: {{{SINK}, no worse than: {no_worse_than}}}", sink=sink)
        assert of(judgement, "one fall", "sink").result is result

    def test_a_figure_of_another_kind_agrees_to_nothing(self) -> None:
        assert fall_of_sink(judged(f"waste-fall: {{{SINK}, no worse than: 240 mm}}")) is Result.NOT_MET


class TestFindings:
    """What the rules of `rules/everywhere/departures.yaml` say of a departure."""

    NAME = "waste-fall at sink"

    def test_one_that_is_as_it_should_be_has_none(self) -> None:
        judgement = judged(f"waste-fall: {{{SINK}, until: 2027-12-31, no worse than: 10 mm/m}}")
        assert found_about(judgement, self.NAME) == set()
        assert {o.result for o in judgement.outcomes if o.rule.each == "departure"} == {Result.MET}

    def test_one_about_a_thing_there_is_not_matches_nothing(self) -> None:
        judgement = judged("waste-fall: {at: bidet, reason: x, by: householder}")
        assert found_about(judgement, "waste-fall at bidet") == {"departure-matches-something"}

    def test_one_from_what_is_met_by_now_matches_nothing(self) -> None:
        judgement = judged(f"waste-fall: {{{SINK}}}", sink=25)
        assert found_about(judgement, self.NAME) == {"departure-matches-something"}

    def test_one_from_a_rule_that_does_not_apply_matches_nothing(self) -> None:
        judgement = judged("wall-unit-screw-well-into-timber: {at: sink, reason: x, by: householder}")
        assert found_about(judgement, "wall-unit-screw-well-into-timber at sink") == {"departure-matches-something"}

    def test_one_that_has_run_out_is_out_of_date(self) -> None:
        judgement = judged(f"waste-fall: {{{SINK}, until: 2027-02-28}}")
        assert found_about(judgement, self.NAME) == {"departure-still-in-date"}

    def test_one_that_got_worse_is_worse(self) -> None:
        judgement = judged(f"waste-fall: {{{SINK}, no worse than: 15 mm/m}}")
        assert found_about(judgement, self.NAME) == {"departure-not-worse"}

    def test_one_from_law_is_from_law_and_stops(self) -> None:
        judgement = judged("gas-work-registered: {at: connect gas, reason: a friend does it, by: householder}")
        (found,) = [
            o for o in judgement.outcomes if o.rule.name == "departure-not-from-law" and o.result is Result.NOT_MET
        ]
        assert found.subject.name == "gas-work-registered at connect gas"
        assert found.rule.severity == "stop"

    def test_everything_wrong_with_one_is_found_at_once(self) -> None:
        judgement = judged(f"waste-fall: {{{SINK}, until: 2027-02-28, no worse than: 15 mm/m}}")
        assert found_about(judgement, self.NAME) == {"departure-still-in-date", "departure-not-worse"}

    def test_until_to_find_out_is_not_known(self) -> None:
        judgement = judged(f"waste-fall: {{{SINK}, until: to find out}}")
        assert of(judgement, "departure-still-in-date", self.NAME).result is Result.NOT_KNOWN

    def test_a_finding_about_a_departure_cannot_be_departed_from(self) -> None:
        name = "waste-fall at bidet"
        judgement = judged(
            "waste-fall: {at: bidet, reason: x, by: householder}",
            f"departure-matches-something: {{at: {name}, reason: x, by: householder}}",
        )
        assert of(judgement, "departure-matches-something", name).result is Result.NOT_MET

    @pytest.mark.parametrize("until", ["2027-12-31", "2027-02-28"])
    def test_a_plan_is_not_ready_with_a_departure_that_no_longer_holds(self, until: str) -> None:
        judgement = judged(f"waste-fall: {{{SINK}, until: {until}}}", register="card 88321, looked up: 2027-02-01")
        assert ready(judgement) == (until == "2027-12-31")


def problem(agreed: str) -> Problem:
    with pytest.raises(Unreadable) as unreadable:
        judged(agreed)
    (found,) = unreadable.value.problems
    return found


class TestUnreadable:
    def test_a_departure_from_a_rule_there_is_not_is_an_error_with_the_nearest(self) -> None:
        found = problem(f"waste-fal: {{{SINK}}}")
        assert found.message == "there is no rule `waste-fal` to depart from"
        assert (found.nearest, found.place.line) == ("waste-fall", 22)

    @pytest.mark.parametrize("left_out", ["at: sink, ", "reason: the sill is low, ", ", by: householder"])
    def test_a_departure_says_where_why_and_by_whom(self, left_out: str) -> None:
        found = problem(f"waste-fall: {{{SINK.replace(left_out, '')}}}")
        assert left_out.strip(", ").split(":")[0] in found.message + found.expected
