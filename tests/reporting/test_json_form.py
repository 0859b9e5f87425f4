"""The report for machines: valid JSON (RFC 8259, which knows no NaN; from memory), every outcome, places there are, and
the same bytes each time.
"""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest

from tests.reporting.plans import DAY, PLANS, judged, printed, report_data
from validator.judging.outcomes import Result
from validator.judging.ready import ready, stage_verdicts
from validator.reporting.columns import OBEYED
from validator.reporting.json_form import as_data, as_text

EVERY = sorted(PLANS)


def refuse(constant: str) -> float:
    raise ValueError(f"{constant} is no JSON")


@pytest.mark.parametrize("plan", EVERY)
def test_it_is_json_and_comes_back_as_it_was(plan: str) -> None:
    text = as_text(report_data(plan))
    assert json.loads(text, parse_constant=refuse) == report_data(plan)
    assert text.endswith("}\n")


@pytest.mark.parametrize("plan", EVERY)
def test_nothing_in_it_steers_a_terminal(plan: str) -> None:
    assert not OBEYED.search(as_text(report_data(plan)))


@pytest.mark.parametrize("name", ["\x1b[2J", "\x9b", "\u202e", "\x7f", "\udcff", "\u2028"])
def test_what_a_terminal_would_obey_is_an_escape_that_reads_back(name: str) -> None:
    text = as_text({"thing": name})
    assert name not in text
    assert json.loads(text) == {"thing": name}


@pytest.mark.parametrize("nothing", [math.nan, math.inf, -math.inf])
def test_a_figure_that_is_no_number_is_a_fault_and_not_a_report(nothing: float) -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        as_text({"have": nothing})


@pytest.mark.parametrize("plan", EVERY)
def test_every_outcome_is_there_in_order(plan: str) -> None:
    judgement = judged(plan)
    found = [(entry["rule"], entry["thing"], entry["result"]) for entry in report_data(plan)["outcomes"]]
    assert found == [(o.rule.name, o.subject.name, o.result.value) for o in judgement.outcomes]
    assert len(found) > 20


@pytest.mark.parametrize("plan", EVERY)
def test_every_outcome_stands_at_a_line_of_a_file_there_is(plan: str) -> None:
    for outcome in report_data(plan)["outcomes"]:
        lines = Path(outcome["file"]).read_text("utf-8").splitlines()
        assert 0 <= outcome["line"] <= len(lines)
        if outcome["line"]:
            assert 1 <= outcome["column"] <= len(lines[outcome["line"] - 1]) + 1
        assert outcome["line"] or outcome["result"] == "not known" or outcome["at"] == ""


@pytest.mark.parametrize("plan", EVERY)
def test_an_outcome_that_is_not_met_has_its_figures_cure_and_source(plan: str) -> None:
    wrong = [outcome for outcome in report_data(plan)["outcomes"] if outcome["result"] == "not met"]
    for outcome in wrong:
        assert any(not check["ok"] for check in outcome["checks"])
        assert outcome["do this"]
        assert outcome["rests on"]["standing"]


@pytest.mark.parametrize("plan", EVERY)
def test_an_outcome_that_is_not_known_says_what_to_find_out(plan: str) -> None:
    unknown = [outcome for outcome in report_data(plan)["outcomes"] if outcome["result"] == "not known"]
    for outcome in unknown:
        assert outcome["find out"]
        assert all(gap["what"] and gap["why"] for gap in outcome["find out"])


@pytest.mark.parametrize("plan", EVERY)
def test_a_check_fails_by_as_much_as_it_says(plan: str) -> None:
    compared = 0
    for outcome in report_data(plan)["outcomes"]:
        for check in outcome["checks"]:
            if check["bound"] in ("at least", "at most") and not isinstance(check["have"], str):
                short = check["need"] - check["have"] if check["bound"] == "at least" else check["have"] - check["need"]
                assert check["short"] == pytest.approx(short, abs=1e-6)
                assert check["ok"] or short > 0
                compared += 1
    assert compared > 10


@pytest.mark.parametrize("plan", EVERY)
@pytest.mark.parametrize("fail_on", ["stop", "put right", "note"])
def test_the_verdicts_are_those_of_the_judge(plan: str, fail_on: str) -> None:
    judgement = judged(plan)
    data = as_data(judgement, DAY, fail_on)  # type: ignore[arg-type]
    assert data["ready"] == ready(judgement, fail_on)  # type: ignore[arg-type]
    found = [(stage["stage"], stage["ready"]) for stage in data["stages"]]
    assert found == [(v.stage, v.ready) for v in stage_verdicts(judgement, fail_on)]  # type: ignore[arg-type]
    assert [stage for stage, _ in found] == list(judgement.site.library.stages)


@pytest.mark.parametrize("plan", EVERY)
def test_the_tally_counts_every_rule_once_by_its_worst(plan: str) -> None:
    data = report_data(plan)
    gravity = ["not met", "not known", "agreed", "met"]
    worst: dict[str, str] = {}
    for outcome in data["outcomes"]:
        worst[outcome["rule"]] = min(worst.get(outcome["rule"], "met"), outcome["result"], key=gravity.index)
    assert data["tally"] == {result.value: list(worst.values()).count(result.value) for result in Result}


@pytest.mark.parametrize("plan", EVERY)
def test_a_rule_found_something_to_judge_or_is_named_as_idle(plan: str) -> None:
    data = report_data(plan)
    judging = {outcome["rule"] for outcome in data["outcomes"]}
    idle = set(data["rules that found nothing to judge"])
    assert not judging & idle
    assert judging | idle == {rule.name for rule in judged(plan).books.rules}


@pytest.mark.parametrize("plan", EVERY)
def test_points_and_errands_are_numbered_on_and_stages_speak_of_them(plan: str) -> None:
    data = report_data(plan)
    numbers = [entry["number"] for entry in (*data["points"], *data["errands"])]
    assert numbers == list(range(1, len(numbers) + 1))
    assert {number for stage in data["stages"] for number in stage["points"] + stage["find out"]} <= set(numbers)


@pytest.mark.parametrize("plan", EVERY)
def test_the_same_plan_and_day_give_the_same_bytes(plan: str) -> None:
    """Two processes whose sets are in different orders."""
    assert printed("json", plan, 1) == printed("json", plan, 2)
