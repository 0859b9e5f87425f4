"""What a rule says of one row: met, not met, not known, and on what it was judged. The limits here are made up."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.measures.plans import site
from validator.judging.apply import apply
from validator.judging.books import read_rulebooks
from validator.judging.expressions import read_expression, scope_of
from validator.judging.outcomes import Outcome, Result
from validator.judging.rules import Rule
from validator.measures.appliances.hoods import HobUnderHood
from validator.measures.rows import Given, Known, Missing, Subject, Why
from validator.plan.dimensions import LENGTH
from validator.reference.library import read_library

RulesOf = Callable[[dict[str, str]], Path]
ReadRule = Callable[..., Rule]

RULE = """\
book: {{title: Cooking, covers: everywhere}}
rules:
  hood-height:
    title: Height of a hood
    each: hob under hood
    {lines}
    before: drilling
    because: Heads meet it.
    remedy: "Hang it {{short}} higher, at {{surface + supports + need}}."
    tried: {{plan: fragments/hob, vary: /appliances/hood/up, met: 1600, not_met: 1599}}
"""


@pytest.fixture
def read_rule(rules_of: RulesOf) -> ReadRule:
    """Reads one rule about a hood from the lines that matter to a test."""

    def read(severity: str = "put right", source: str = "common practice", **lines: str) -> Rule:
        lines = {"figure": "clearance", "at_least": "650 mm", **lines, "severity": severity, "source": source}
        written = "\n    ".join(f"{key}: {text}" for key, text in lines.items() if text)
        folder = rules_of({"everywhere/cooking.yaml": RULE.format(lines=written)})
        (rule,) = read_rulebooks(folder, read_library(folder), "").rules
        return rule

    return read


def _length(low: float, high: float | None = None, *, assumed: bool = False) -> Known:
    return Known(low, "/appliances/hood/up", f"{low:g}", low=low, high=high or low, assumed=assumed)


def _hood(underside: Given, **values: Given) -> HobUnderHood:
    """A hob with its surface at 900 and pan supports of 40, so that an underside of 1590 clears 650."""
    given = {"fuel": Known("gas"), "surface": _length(900.0), "supports": _length(40.0), **values}
    return HobUnderHood(Subject("hob", "/appliances/hob"), underside=underside, **given)


def _judged(rule: Rule, row: HobUnderHood) -> Outcome | None:
    return apply(rule, row, site(""))


def _result(rule: Rule, row: HobUnderHood) -> Result:
    outcome = _judged(rule, row)
    assert outcome is not None
    return outcome.result


def _none_stated(pointer: str = "/stated/hob") -> Missing:
    return Missing(pointer, "hob maker's figure", Why.NOTHING_STATED)


def _unread(pointer: str = "/stated/hood") -> Missing:
    return Missing(pointer, "hood maker's figure", Why.UNREAD)


def test_a_figure_at_its_limit_is_met(read_rule: ReadRule) -> None:
    assert _result(read_rule(), _hood(_length(1590.0))) is Result.MET


def test_half_a_millimetre_is_given_away_because_inches_do_not_land_on_whole_millimetres(read_rule: ReadRule) -> None:
    assert _result(read_rule(), _hood(_length(1589.5))) is Result.MET
    assert _result(read_rule(), _hood(_length(1589.4))) is Result.NOT_MET


def test_a_rule_may_give_away_nothing(read_rule: ReadRule) -> None:
    assert _result(read_rule(tolerance="0.01 mm"), _hood(_length(1589.9))) is Result.NOT_MET


def test_what_is_missing_makes_the_outcome_not_known_and_names_all_of_it(read_rule: ReadRule) -> None:
    row = _hood(Missing("/appliances/hood/up", "hood"), supports=Missing("/appliances/hob/pan support", "pan supports"))
    outcome = _judged(read_rule(), row)
    assert outcome is not None
    assert outcome.result is Result.NOT_KNOWN
    assert {gap.pointer for gap in outcome.missing} == {"/appliances/hood/up", "/appliances/hob/pan support"}


def test_a_range_is_judged_at_its_worse_end(read_rule: ReadRule) -> None:
    outcome = _judged(read_rule(), _hood(_length(1580.0, 1600.0)))
    assert outcome is not None
    assert outcome.result is Result.NOT_MET
    assert outcome.checks[0].have == 640.0


@pytest.mark.parametrize(
    ("asked", "underside", "result"),
    [
        ("at_least: own.reach", 1579.0, Result.NOT_MET),
        ("at_least: own.reach", 1580.0, Result.MET),
        ("at_most: own.reach", 1561.0, Result.NOT_MET),
        ("at_most: own.reach", 1560.0, Result.MET),
    ],
)
def test_a_range_of_the_households_own_is_judged_at_its_worse_end(
    read_rule: ReadRule, asked: str, underside: float, result: Result
) -> None:
    """A reach of 620 to 640 over pan supports at 940: as a least it asks for 1580, as a most for 1560."""
    bound, _, expression = asked.partition(": ")
    rule = read_rule(**{"at_least": "", bound: "0 mm"})
    scope = scope_of(HobUnderHood, {}, {expression: LENGTH})
    own = Known(620.0, "/own/reach", "620 to 640", "reach", low=620.0, high=640.0)
    limit = rule.limits[0]._replace(expression=read_expression(expression, scope, LENGTH))
    outcome = _judged(rule._replace(tolerance=0.01, limits=(limit,), own={expression: own}), _hood(_length(underside)))
    assert outcome is not None
    assert outcome.result is result
    assert outcome.checks[0].need == outcome.rule.names[expression] == (640.0 if bound == "at_least" else 620.0)


def test_a_figure_that_must_equal_several_limits_has_to_equal_each(read_rule: ReadRule) -> None:
    rule = read_rule(at_least="", equals="[650 mm, 1000 mm - 340 mm]")
    assert _result(rule, _hood(_length(1590.0))) is Result.NOT_MET
    assert _result(rule, _hood(_length(1600.0))) is Result.NOT_MET


def test_a_condition_that_is_false_makes_no_outcome(read_rule: ReadRule) -> None:
    assert _judged(read_rule(when="fuel == 'induction'"), _hood(_length(1.0))) is None


def test_a_condition_that_is_not_known_does_not_matter_where_the_limit_holds_anyway(read_rule: ReadRule) -> None:
    unknown = Missing("/appliances/hob/is", "fuel of the hob")
    rule = read_rule(when="fuel == 'gas'")
    assert _result(rule, _hood(_length(1590.0), fuel=unknown)) is Result.MET
    outcome = _judged(rule, _hood(_length(1500.0), fuel=unknown))
    assert outcome is not None
    assert outcome.result is Result.NOT_KNOWN
    assert [gap.pointer for gap in outcome.missing] == ["/appliances/hob/is"]


def test_met_on_an_assumed_figure_says_on_which(read_rule: ReadRule) -> None:
    outcome = _judged(read_rule(), _hood(_length(1600.0, assumed=True)))
    assert outcome is not None
    assert outcome.result is Result.MET
    assert [(gap.pointer, gap.why) for gap in outcome.supposing] == [("/appliances/hood/up", Why.ASSUMED)]


def test_met_on_a_drawn_distance_says_which_assumed_figures_it_was_drawn_by(read_rule: ReadRule) -> None:
    wall = Known(2600.0, "/walls/east/length", "2600 assumed", "east wall", low=2600.0, high=2600.0, assumed=True)
    drawn = _length(1600.0, assumed=True)._replace(rests_on=(wall,))
    outcome = _judged(read_rule(), _hood(drawn))
    assert outcome is not None
    assert [(missing.pointer, missing.label) for missing in outcome.supposing] == [("/walls/east/length", "east wall")]


def test_an_assumed_figure_does_not_settle_a_stop(read_rule: ReadRule) -> None:
    assert _result(read_rule("stop"), _hood(_length(1600.0, assumed=True))) is Result.NOT_KNOWN
    assert _result(read_rule("stop"), _hood(_length(1500.0, assumed=True))) is Result.NOT_MET


def test_an_assumed_figure_does_not_settle_that_a_stop_does_not_apply(read_rule: ReadRule) -> None:
    row = _hood(_length(1500.0), surface=_length(950.0, assumed=True))
    outcome = _judged(read_rule("stop", when="surface <= 900 mm"), row)
    assert outcome is not None
    assert (outcome.result, [gap.why for gap in outcome.missing]) == (Result.NOT_KNOWN, [Why.ASSUMED])
    assert _judged(read_rule("stop", when="surface <= 900 mm and fuel == 'induction'"), row) is None
    assert _judged(read_rule("put right", when="surface <= 900 mm"), row) is None
    assert _judged(read_rule("stop", when="supports > 40 mm"), row) is None


PAPERS = "[hob_says, hood_says]"


def test_of_two_makers_figures_the_greater_holds_before_the_rules_own(read_rule: ReadRule) -> None:
    row = _hood(
        _length(1640.0),
        hob_stated=_length(700.0),
        hob_from=_length(0.0),
        hood_stated=_length(600.0),
        hood_from=_length(40.0),
    )
    outcome = _judged(read_rule(at_least="760 mm", stated=PAPERS), row)
    assert outcome is not None
    assert outcome.result is Result.MET
    assert (outcome.checks[0].need, outcome.checks[0].need_from) == (700.0, "hob_says")


def test_a_maker_who_gives_no_figure_counts_as_the_rules_own_limit(read_rule: ReadRule) -> None:
    row = _hood(_length(1690.0), hob_stated=_none_stated(), hood_stated=_length(650.0), hood_from=_length(0.0))
    outcome = _judged(read_rule(at_least="760 mm", stated=PAPERS), row)
    assert outcome is not None
    assert outcome.result is Result.NOT_MET
    assert outcome.checks[0].need == 760.0


def test_under_law_the_rules_own_limit_counts_beside_the_makers(read_rule: ReadRule) -> None:
    rule = read_rule(at_least="760 mm", stated=PAPERS, source="{document: building-act, clause: section 1}")
    row = _hood(_length(1690.0), hob_stated=_length(650.0), hob_from=_length(0.0), hood_stated=_none_stated("/x"))
    assert _result(rule, row) is Result.NOT_MET


def test_an_unread_paper_keeps_a_stop_open_and_is_said_of_anything_milder(read_rule: ReadRule) -> None:
    row = _hood(_length(1800.0), hob_stated=_length(650.0), hob_from=_length(0.0), hood_stated=_unread())
    open_stop = _judged(read_rule("stop", stated=PAPERS), row)
    milder = _judged(read_rule(stated=PAPERS), row)
    assert open_stop is not None
    assert milder is not None
    assert (open_stop.result, [gap.why for gap in open_stop.missing]) == (Result.NOT_KNOWN, [Why.UNREAD])
    assert (milder.result, [gap.why for gap in milder.supposing]) == (Result.MET, [Why.UNREAD])


def test_a_makers_figure_from_a_place_nobody_can_convert_is_not_known(read_rule: ReadRule) -> None:
    unclear = Missing("/stated/hob/hood above", "where it starts", Why.UNCLEAR)
    row = _hood(_length(1800.0), hob_stated=_length(650.0), hob_from=unclear, hood_stated=_none_stated("/x"))
    assert _result(read_rule(stated=PAPERS), row) is Result.NOT_KNOWN


def test_both_bounds_of_a_rule_are_checked(read_rule: ReadRule) -> None:
    rule = read_rule(at_least="", within="[650 mm, 700 mm]")
    assert _result(rule, _hood(_length(1590.0))) is Result.MET
    assert _result(rule, _hood(_length(1640.0))) is Result.MET
    assert _result(rule, _hood(_length(1641.0))) is Result.NOT_MET
    assert _result(rule, _hood(_length(1589.0))) is Result.NOT_MET


def test_of_several_limits_on_one_side_the_strictest_counts(read_rule: ReadRule) -> None:
    rule = read_rule(at_least="[600 mm, 15 * supports]")
    assert _result(rule, _hood(_length(1540.0))) is Result.MET
    assert _result(rule, _hood(_length(1589.0), supports=_length(50.0))) is Result.NOT_MET


def test_a_figure_that_misses_one_limit_is_not_met_whatever_the_others_turn_out_to_be(read_rule: ReadRule) -> None:
    rule = read_rule(at_least="[clearance + 1 mm, hob_says]")
    outcome = _judged(rule, _hood(_length(1590.0)))
    assert outcome is not None
    assert (outcome.result, outcome.short, outcome.missing) == (Result.NOT_MET, 1.0, ())
    assert _result(read_rule(at_least="[650 mm, hob_says]"), _hood(_length(1590.0))) is Result.NOT_KNOWN


def test_a_makers_figure_that_is_missed_settles_it_though_another_makers_cannot_be_converted(
    read_rule: ReadRule,
) -> None:
    unclear = Missing("/stated/hob/hood above", "where it starts", Why.UNCLEAR)
    papers = {"hood_stated": _length(700.0), "hood_from": _length(0.0), "hob_stated": _length(650.0)}
    row = _hood(_length(1600.0), hob_from=unclear, **papers)
    assert _result(read_rule(stated=PAPERS), row) is Result.NOT_MET


def test_what_the_rules_own_limit_rests_on_need_not_be_known_where_the_maker_says(read_rule: ReadRule) -> None:
    row = _hood(_length(1590.0), hood_stated=_length(650.0), hood_from=_length(0.0))
    own = "2 * hob_says"
    assert _result(read_rule(at_least=own, stated="[hood_says]"), row) is Result.MET
    law = "{document: building-act, clause: section 1}"
    assert _result(read_rule(at_least=own, stated="[hood_says]", source=law), row) is Result.NOT_KNOWN


def test_a_makers_figure_that_cannot_be_converted_may_ask_less_than_the_rule(read_rule: ReadRule) -> None:
    unclear = Missing("/stated/hob/hood above", "where it starts", Why.UNCLEAR)
    row = _hood(_length(1500.0), hob_stated=_length(500.0), hob_from=unclear)
    assert _result(read_rule(stated="[hob_says]"), row) is Result.NOT_KNOWN


def test_an_end_at_which_the_rule_applies_and_is_missed_counts_before_one_at_which_it_may_not(
    read_rule: ReadRule,
) -> None:
    """At 1500 the rule applies for certain and 560 are left; at 1600 it does for a gas hob only."""
    unknown = Missing("/appliances/hob/is", "fuel of the hob")
    rule = read_rule(when="underside < 1550 mm or fuel == 'gas'")
    assert _result(rule, _hood(_length(1500.0, 1600.0), fuel=unknown)) is Result.NOT_MET
    assert _result(rule, _hood(_length(1560.0, 1600.0), fuel=unknown)) is Result.NOT_KNOWN


LENGTHS = st.floats(0.0, 2400.0).map(_length)
FUELS = st.sampled_from(["gas", "induction"]).map(Known)
PAPER_GAPS = st.sampled_from([_unread("/stated/hob"), _unread("/stated/hood"), _none_stated()])
FILLED = st.fixed_dictionaries(
    {
        "underside": LENGTHS,
        "fuel": FUELS,
        "surface": LENGTHS,
        "supports": LENGTHS,
        "hob_stated": LENGTHS,
        "hob_from": LENGTHS,
        "hood_stated": LENGTHS,
        "hood_from": LENGTHS,
    }
)


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    filled=FILLED,
    open_fields=st.sets(st.sampled_from(["underside", "fuel", "surface", "supports", "hob_from", "hood_from"])),
    papers=st.dictionaries(st.sampled_from(["hob_stated", "hood_stated"]), PAPER_GAPS),
    severity=st.sampled_from(["stop", "put right"]),
    law=st.booleans(),
)
def test_finding_out_what_is_missing_never_turns_met_into_not_met(
    read_rule: ReadRule,
    filled: dict[str, Known],
    open_fields: set[str],
    papers: dict[str, Missing],
    severity: str,
    law: bool,
) -> None:
    source = "{document: building-act, clause: section 1}" if law else "common practice"
    rule = read_rule(severity, source, when="fuel == 'gas' or surface > 900 mm", stated=PAPERS)
    unread = {name for name, gap in papers.items() if gap.why is Why.UNREAD}
    before = {
        name: papers.get(name, Missing(f"/{name}", name) if name in open_fields else value)
        for name, value in filled.items()
    }
    after = {name: papers[name] if name in papers and name not in unread else value for name, value in filled.items()}
    was = _judged(rule, HobUnderHood(Subject("hob", ""), **before))
    now = _judged(rule, HobUnderHood(Subject("hob", ""), **after))
    if was is not None and was.result is Result.MET and not was.supposing:
        assert now is None or now.result is Result.MET
