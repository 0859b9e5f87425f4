"""Ready or not: for each stage of the work and as a whole, from outcomes made by hand."""

from __future__ import annotations

from typing import get_args

import pytest

from tests.reporting.made import judgement, not_known, not_met, outcome, rule
from validator.judging.outcomes import Result
from validator.judging.ready import StageVerdict, blocks, ready, stage_verdicts
from validator.judging.rules import SEVERITIES, Severity
from validator.measures.rows import Missing

FALL = Missing("/appliances/sink/waste/fall", "fall")
STAGES = ["ordering", "first fix", "painting", "drilling", "template", "floor", "second fix", "hand-over"]


def verdict(stage: str, verdicts: list[StageVerdict]) -> StageVerdict:
    (found,) = [each for each in verdicts if each.stage == stage]
    return found


def stages_ready(*outcomes: object, **names: object) -> dict[str, bool]:
    found = stage_verdicts(judgement(outcomes), **names)  # type: ignore[arg-type]
    return {each.stage: each.ready for each in found}


class TestWhole:
    @pytest.mark.parametrize(
        ("result", "severity", "is_ready"),
        [
            (Result.NOT_MET, "stop", False),
            (Result.NOT_MET, "put right", False),
            (Result.NOT_MET, "improve", True),
            (Result.NOT_MET, "note", True),
            (Result.NOT_KNOWN, "stop", False),
            (Result.NOT_KNOWN, "put right", True),
            (Result.NOT_KNOWN, "improve", True),
            (Result.NOT_KNOWN, "note", True),
            *[(result, severity, True) for result in (Result.MET, Result.AGREED) for severity in SEVERITIES],
        ],
    )
    def test_what_stands_in_the_way(self, result: Result, severity: Severity, is_ready: bool) -> None:
        missing = (FALL,) if result is Result.NOT_KNOWN else ()
        assert ready(judgement([outcome(rule("fall", severity), "sink", result, *missing)])) == is_ready

    def test_one_outcome_is_enough(self) -> None:
        met = [outcome(rule("fall"), f"waste {number}", Result.MET) for number in range(50)]
        assert ready(judgement(met))
        assert not ready(judgement([*met, not_met(rule("bore"), "sink")]))

    def test_without_a_country_nothing_is_ready(self) -> None:
        assert not ready(judgement([], country_missing=True))
        assert ready(judgement([]))

    @pytest.mark.parametrize("fail_on", SEVERITIES)
    @pytest.mark.parametrize("severity", SEVERITIES)
    def test_the_mildest_severity_that_counts_moves_what_is_not_met(
        self, severity: Severity, fail_on: Severity
    ) -> None:
        counts = SEVERITIES.index(severity) <= SEVERITIES.index(fail_on)
        assert blocks(not_met(rule("fall", severity), "sink"), fail_on) == counts

    @pytest.mark.parametrize("fail_on", SEVERITIES)
    @pytest.mark.parametrize("severity", SEVERITIES)
    def test_and_never_what_is_not_known(self, severity: Severity, fail_on: Severity) -> None:
        assert blocks(not_known(rule("fall", severity), "sink", FALL), fail_on) == (severity == "stop")

    def test_severities_go_from_grave_to_mild(self) -> None:
        assert get_args(Severity) == ("stop", "put right", "improve", "note") == SEVERITIES


class TestStages:
    def test_stages_come_in_the_order_of_the_work_each_with_its_question(self) -> None:
        verdicts = stage_verdicts(judgement([]))
        assert [each.stage for each in verdicts] == STAGES
        assert all(each.question.endswith("?") for each in verdicts)
        assert all(each.ready for each in verdicts)

    def test_what_is_wrong_stops_its_stage_and_all_that_follow(self) -> None:
        found = stages_ready(not_met(rule("hole", before="drilling"), "rail"))
        assert found == {stage: STAGES.index(stage) < STAGES.index("drilling") for stage in STAGES}

    def test_a_stage_says_what_blocks_it_itself_and_which_earlier_stages_do(self) -> None:
        paint, hole = (
            not_met(rule("paint", before="painting"), "wall"),
            not_met(rule("hole", before="drilling"), "rail"),
        )
        verdicts = stage_verdicts(judgement([hole, paint]))
        assert verdict("painting", verdicts).blocking == (paint,)
        assert verdict("drilling", verdicts).blocking == (hole,)
        assert verdict("drilling", verdicts).earlier == ("painting",)
        assert verdict("floor", verdicts).blocking == ()
        assert verdict("floor", verdicts).earlier == ("painting", "drilling")

    def test_what_is_not_known_and_does_not_block_is_open(self) -> None:
        unknown = not_known(rule("fall", "put right"), "sink", FALL)
        found = verdict("first fix", stage_verdicts(judgement([unknown])))
        assert (found.blocking, found.open, found.ready) == ((), (unknown,), True)

    def test_a_stop_that_is_not_known_blocks_and_is_not_open_besides(self) -> None:
        unknown = not_known(rule("fall", "stop"), "sink", FALL)
        found = verdict("first fix", stage_verdicts(judgement([unknown])))
        assert (found.blocking, found.open, found.ready) == ((unknown,), (), False)

    def test_without_a_country_no_stage_is_ready(self) -> None:
        verdicts = stage_verdicts(judgement([], country_missing=True))
        assert not any(each.ready for each in verdicts)

    @pytest.mark.parametrize("fail_on", SEVERITIES)
    def test_all_stages_are_ready_exactly_where_the_whole_is(self, fail_on: Severity) -> None:
        for severity in SEVERITIES:
            for before in STAGES:
                found = judgement([not_met(rule("fall", severity, before), "sink")])
                assert ready(found, fail_on) == all(each.ready for each in stage_verdicts(found, fail_on))

    def test_the_mildest_severity_that_counts_moves_the_stages_too(self) -> None:
        mild = not_met(rule("fall", "improve", "first fix"), "sink")
        assert stages_ready(mild)["first fix"]
        assert not stages_ready(mild, fail_on="improve")["first fix"]
