"""The report as SARIF, held against the JSON Schema of SARIF 2.1.0 (OASIS; the file itself is in `data`) and its text.

What the text of the standard says of `kind`, `level`, message strings and fingerprints (3.27.9, 3.27.10, 3.11, 3.27.17)
is from memory.
"""

from __future__ import annotations

import functools
import json
import re
from collections import Counter
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest
from jsonschema import Draft4Validator

from tests.reporting.plans import AWKWARD, DATA, DAY, PLANS, WASTE, judged, printed, report_data, unreadable
from validator.commands.inspecting import inspect
from validator.commands.main import main
from validator.reporting import sarif_form

KINDS = {"met": "pass", "not met": "fail", "not known": "open", "agreed": "fail"}


def log(*plans: str) -> Any:
    return json.loads(written(plans))


@functools.cache
def written(plans: tuple[str, ...]) -> str:
    return sarif_form.whole([sarif_form.of_plan(judged(plan), DAY) for plan in plans])


def run(plan: str) -> Any:
    return log(plan)["runs"][0]


def run_of(file: Path) -> Any:
    return json.loads(sarif_form.whole([sarif_form.of_plan(inspect(str(file), (), DAY), DAY)]))["runs"][0]


def result(plan: str, rule: str, thing: str) -> Any:
    found = [
        each for each in run(plan)["results"] if each["ruleId"] == rule and each["properties"].get("thing") == thing
    ]
    assert len(found) == 1
    return found[0]


@functools.cache
def schema() -> Draft4Validator:
    return Draft4Validator(json.loads((DATA / "sarif-2.1.0-rtm.5.json").read_text("utf-8")))


def mistakes(document: Any) -> list[str]:
    return [f"{error.json_path}: {error.message}" for error in schema().iter_errors(document)]


@pytest.mark.parametrize("plan", PLANS)
def test_a_log_is_valid_by_the_schema(plan: str) -> None:
    assert mistakes(log(plan)) == []


def test_several_plans_are_several_runs_of_one_valid_log() -> None:
    several = log(*PLANS)
    assert [each["properties"]["ready"] for each in several["runs"]] == [False, True, False]
    assert mistakes(several) == []


def test_the_schema_finds_what_is_wrong_in_a_log() -> None:
    wrong = log("weavers-row")
    wrong["runs"][0]["results"][0]["kind"] = "not met"
    assert mistakes(wrong)


@pytest.mark.parametrize("plan", PLANS)
def test_every_outcome_is_a_result_of_its_kind_in_the_same_order(plan: str) -> None:
    outcomes = report_data(plan)["outcomes"]
    results = [each for each in run(plan)["results"] if each["kind"] != "notApplicable"]
    assert [(each["ruleId"], each["properties"]["thing"], each["kind"]) for each in results] == [
        (outcome["rule"], outcome["thing"], KINDS[outcome["result"]]) for outcome in outcomes
    ]


@pytest.mark.parametrize("plan", PLANS)
def test_a_rule_without_anything_to_judge_does_not_apply(plan: str) -> None:
    idle = [each["ruleId"] for each in run(plan)["results"] if each["kind"] == "notApplicable"]
    assert idle == report_data(plan)["rules that found nothing to judge"]


@pytest.mark.parametrize("plan", PLANS)
def test_the_figures_are_those_of_the_json_form(plan: str) -> None:
    outcomes = report_data(plan)["outcomes"]
    results = [each for each in run(plan)["results"] if each["kind"] != "notApplicable"]
    for each, outcome in zip(results, outcomes, strict=True):
        plain = [{key: value for key, value in check.items() if key != "shown"} for check in outcome["checks"]]
        assert each["properties"]["checks"] == plain


@pytest.mark.parametrize("plan", PLANS)
def test_the_index_of_a_result_leads_to_its_rule(plan: str) -> None:
    found = run(plan)
    rules = [rule["id"] for rule in found["tool"]["driver"]["rules"]]
    assert len(rules) == len(set(rules))
    assert all(rules[each["ruleIndex"]] == each["ruleId"] for each in found["results"])


@pytest.mark.parametrize("plan", PLANS)
def test_only_what_fails_has_a_level(plan: str) -> None:
    for each in run(plan)["results"]:
        assert (each["level"] == "none") == (each["kind"] != "fail")


@pytest.mark.parametrize(
    ("rule", "thing", "severity", "level"),
    [
        ("hood-over-gas-hob", "hob", "stop", "error"),
        ("waste-fall", "sink", "put right", "error"),
        ("socket-well-away-from-sink", "S2", "improve", "warning"),
    ],
)
def test_the_level_of_a_failure_follows_the_severity(rule: str, thing: str, severity: str, level: str) -> None:
    found = result("weavers-row", rule, thing)
    assert (found["properties"]["severity"], found["level"]) == (severity, level)


def test_a_rule_says_why_what_to_do_and_what_it_rests_on() -> None:
    rule = next(each for each in run("weavers-row")["tool"]["driver"]["rules"] if each["id"] == "waste-fall")
    because, to_do, rests_on = rule["help"]["text"].split("\n\n")
    assert because == rule["fullDescription"]["text"]
    assert to_do.startswith("Do this: Lay the pipe at …")
    assert rests_on.startswith("Rests on: Approved Document H")
    assert rule["properties"]["standing"] == "official guidance"
    assert rule["properties"]["before"] == "first fix"


def test_what_was_agreed_is_suppressed_with_the_reason() -> None:
    found = result("tern-cottage", "socket-well-away-from-sink", "S2")
    (suppression,) = found["suppressions"]
    assert (found["kind"], found["level"]) == ("fail", "warning")
    assert (suppression["kind"], suppression["status"]) == ("external", "accepted")
    assert suppression["justification"] == "«further along it would come behind the kettle shelf»; householder"
    assert suppression["location"]["logicalLocations"][0]["fullyQualifiedName"] == "/agreed/socket-well-away-from-sink"


@pytest.mark.parametrize("plan", PLANS)
def test_nothing_but_what_was_agreed_is_suppressed(plan: str) -> None:
    suppressed = sum("suppressions" in each for each in run(plan)["results"])
    assert suppressed == sum(outcome["result"] == "agreed" for outcome in report_data(plan)["outcomes"])


def test_a_message_says_both_figures_with_their_unit_and_what_to_do(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(WASTE, "utf-8")
    (failure,) = (each for each in run_of(tmp_path / "plan.yaml")["results"] if each["kind"] == "fail")
    assert failure["message"]["text"] == (
        "Fall of a waste (sink, to stack): not met, have 12 mm/m, need at least 18 mm/m; short by 6 mm/m. "
        "Lay the pipe at 18 mm/m; over 2600 mm that makes 46.8 mm."
    )


def test_a_region_is_the_line_and_column_of_the_value(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(WASTE, "utf-8")
    (failure,) = (each for each in run_of(tmp_path / "plan.yaml")["results"] if each["kind"] == "fail")
    (location,) = failure["locations"]
    column = WASTE.splitlines()[7].index("40 mm") + 1
    assert location["physicalLocation"]["region"] == {"startLine": 8, "startColumn": column}
    assert location["logicalLocations"][0]["fullyQualifiedName"] == "/appliances/sink/waste"


def test_columns_are_counted_in_characters_of_unicode() -> None:
    found = result("awkward", "legs-reach-the-low-spot", "B2")
    region = found["locations"][0]["physicalLocation"]["region"]
    line = AWKWARD.read_text("utf-8").splitlines()[region["startLine"] - 1]
    assert run("awkward")["columnKind"] == "unicodeCodePoints"
    assert line[region["startColumn"] - 1 :].startswith("base 800,")
    assert "🔥" in line[: region["startColumn"] - 1]


def test_every_region_lies_in_its_file() -> None:
    for each in run("tern-cottage")["results"]:
        for location in each.get("locations", []) + each.get("relatedLocations", []):
            physical = location["physicalLocation"]
            region = physical.get("region")
            if region is not None:
                lines = Path(unquote(physical["artifactLocation"]["uri"])).read_text("utf-8").splitlines()
                assert region["startColumn"] <= len(lines[region["startLine"] - 1])


def test_what_is_not_known_leads_to_where_it_would_stand() -> None:
    found = result("awkward", "base-dry-by-hygrometer", "laminate")
    assert (found["kind"], found["level"]) == ("open", "none")
    assert "/floor/moisture" in found["relatedLocations"][0]["logicalLocations"][0]["fullyQualifiedName"]


def test_fingerprints_stay_when_lines_move(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(WASTE, "utf-8")
    before = run_of(tmp_path / "plan.yaml")["results"]
    (tmp_path / "plan.yaml").write_text("# one line\n# and another\n" + WASTE, "utf-8")
    after = run_of(tmp_path / "plan.yaml")["results"]
    assert [each.get("partialFingerprints") for each in before] == [each.get("partialFingerprints") for each in after]
    moved = [(old, new) for old, new in zip(before, after, strict=True) if old.get("locations") != new.get("locations")]
    assert moved


def test_a_fingerprint_changes_with_the_name_of_the_thing(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(WASTE, "utf-8")
    before = run_of(tmp_path / "plan.yaml")["results"]
    (tmp_path / "plan.yaml").write_text(WASTE.replace("  sink:", "  dishwasher:"), "utf-8")
    after = run_of(tmp_path / "plan.yaml")["results"]
    (old,) = (each["partialFingerprints"] for each in before if each["kind"] == "fail")
    (new,) = (each["partialFingerprints"] for each in after if each["kind"] == "fail")
    assert old != new


@pytest.mark.parametrize("plan", PLANS)
def test_no_two_results_of_a_run_have_one_fingerprint(plan: str) -> None:
    prints = Counter(
        each["partialFingerprints"]["ruleAndThing/v1"] for each in run(plan)["results"] if "partialFingerprints" in each
    )
    assert prints.most_common(1)[0][1] == 1


def test_addresses_are_relative_and_encoded(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    file = Path("Küche 1", "größe #2.yaml")
    file.parent.mkdir()
    file.write_text(WASTE, "utf-8")
    for given in (file, tmp_path / file, Path("Küche 1", "..", file)):
        found = run_of(given)
        assert found["artifacts"][0]["location"]["uri"] == "K%C3%BCche%201/gr%C3%B6%C3%9Fe%20%232.yaml"


def test_a_file_outside_the_working_folder_has_a_whole_address(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "plan.yaml").write_text(WASTE, "utf-8")
    (tmp_path / "elsewhere").mkdir()
    monkeypatch.chdir(tmp_path / "elsewhere")
    found = run_of(Path("..", "plan.yaml"))
    assert found["artifacts"][0]["location"]["uri"] == (tmp_path / "plan.yaml").as_uri()


def test_no_name_is_taken_for_a_placeholder_or_a_link() -> None:
    texts = [
        part["message"]["text"]
        for each in run("awkward")["results"]
        for part in (each, *each.get("relatedLocations", []))
    ]
    assert any("{{0}} {{{{sink}}}}" in text for text in texts)
    assert not [text for text in texts if re.search(r"(?<!\{)(?:\{\{)*\{(?!\{)", text)]
    assert any("[a] (http://b.example)" in text for text in texts)
    assert not [text for text in texts if "](" in text]


@pytest.mark.parametrize("plan", PLANS)
def test_the_same_plan_gives_the_same_bytes(plan: str) -> None:
    first = printed("sarif", plan, seed=1)
    assert json.loads(first)["runs"]
    assert first == printed("sarif", plan, seed=2)


def test_a_plan_that_cannot_be_read_fails_at_each_mistake(tmp_path: Path) -> None:
    file = tmp_path / "plan.yaml"
    file.write_text(WASTE.replace("runs: none", "ruuns: none").replace("points: none", "pionts: none"), "utf-8")
    document = json.loads(sarif_form.whole([sarif_form.of_unreadable(unreadable(file))]))
    (found,) = document["runs"]
    assert mistakes(document) == []
    assert found["invocations"] == [{"executionSuccessful": False}]
    assert {(each["kind"], each["level"]) for each in found["results"]} == {("fail", "error")}
    assert [each["locations"][0]["physicalLocation"]["region"]["startLine"] for each in found["results"]] == [5, 9]


def test_the_command_prints_a_valid_log_of_readable_and_unreadable_plans(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    status = main(["check", str(PLANS["tern-cottage"]), str(tmp_path / "none.yaml"), "--form", "sarif"])
    document = json.loads(capsys.readouterr().out)
    assert status == 2
    assert mistakes(document) == []
    assert [each["invocations"][0]["executionSuccessful"] for each in document["runs"]] == [True, False]


def test_standard_input_has_no_address_but_a_line(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("validator.commands.inspecting._standard_input", WASTE.encode)
    found = run_of(Path("-"))
    (failure,) = (each for each in found["results"] if each["kind"] == "fail")
    assert failure["locations"][0]["message"]["text"] == "standard input, line 8"
    assert "physicalLocation" not in failure["locations"][0]


def test_a_plan_without_a_country_is_told_that_national_rules_are_missing(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(WASTE.replace("country: GB-ENG, ", ""), "utf-8")
    found = run_of(tmp_path / "plan.yaml")
    (notice,) = found["invocations"][0]["toolConfigurationNotifications"]
    assert notice["message"]["text"].startswith("The plan names no country")
    assert not found["properties"]["ready"]
