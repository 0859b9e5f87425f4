"""The report as JUnit XML, held against an XML schema of the form (in `data`) and XML 1.0 (2.2, characters)."""

from __future__ import annotations

import functools
from collections import Counter
from pathlib import Path
from xml.etree import ElementTree

import pytest
import xmlschema

from tests.reporting.plans import DATA, DAY, PLANS, WASTE, judged, printed, report_data, unreadable
from validator.commands.inspecting import inspect
from validator.commands.main import main
from validator.judging.rules import Severity
from validator.plan.problems import Place, Problem, Unreadable
from validator.reporting import junit_form


@functools.cache
def text(*plans: str, fail_on: Severity = "put right") -> str:
    return junit_form.whole([junit_form.of_plan(judged(plan), DAY, fail_on) for plan in plans])


@functools.cache
def document(*plans: str, fail_on: Severity = "put right") -> ElementTree.Element:
    return ElementTree.fromstring(text(*plans, fail_on=fail_on))


def of_file(file: Path) -> ElementTree.Element:
    return ElementTree.fromstring(junit_form.whole([junit_form.of_plan(inspect(str(file), (), DAY), DAY)]))


def case(root: ElementTree.Element, rule: str, name: str) -> ElementTree.Element:
    (found,) = (
        each for each in root.iter("testcase") if each.get("classname", "").endswith(rule) and each.get("name") == name
    )
    return found


@functools.cache
def schema() -> xmlschema.XMLSchema:
    return xmlschema.XMLSchema(str(DATA / "junit-10.xsd"))


def is_valid(xml: str) -> bool:
    return bool(schema().is_valid(ElementTree.fromstring(xml)))


@pytest.mark.parametrize("plan", PLANS)
def test_a_report_is_valid_by_the_schema(plan: str) -> None:
    assert is_valid(text(plan))


def test_a_report_of_several_plans_is_valid_by_the_schema() -> None:
    assert is_valid(text(*PLANS))


def test_the_schema_finds_what_is_wrong_in_a_report() -> None:
    assert not is_valid(text("weavers-row").replace('<failure type="', '<failure kind="'))


@pytest.mark.parametrize("plan", PLANS)
@pytest.mark.parametrize("fail_on", ["stop", "put right", "improve", "note"])
def test_failures_and_errors_are_what_makes_the_plan_not_ready(plan: str, fail_on: Severity) -> None:
    milder = {"stop": 1, "put right": 2, "improve": 3, "note": 4}[fail_on]
    outcomes = report_data(plan)["outcomes"]
    grave = ("stop", "put right", "improve", "note")[:milder]
    root = document(plan, fail_on=fail_on)
    assert root.get("tests") == str(len(outcomes))
    assert root.get("failures") == str(sum(o["result"] == "not met" and o["severity"] in grave for o in outcomes))
    assert root.get("errors") == str(sum(o["result"] == "not known" and o["severity"] == "stop" for o in outcomes))


@pytest.mark.parametrize("plan", PLANS)
def test_every_outcome_is_a_case_under_its_rule(plan: str) -> None:
    rules = Counter(each.get("classname", "").rpartition(": ")[2] for each in document(plan).iter("testcase"))
    assert rules == Counter(outcome["rule"] for outcome in report_data(plan)["outcomes"])


@pytest.mark.parametrize("plan", PLANS)
def test_the_counts_of_suites_are_those_of_their_cases(plan: str) -> None:
    root = document(plan)
    for suite in root.iter("testsuite"):
        for counted, tag in (("failures", "failure"), ("errors", "error"), ("skipped", "skipped")):
            assert suite.get(counted) == str(len(suite.findall(f"testcase/{tag}")))
        assert suite.get("tests") == str(len(suite.findall("testcase")))
    for counted in ("tests", "failures", "errors"):
        assert root.get(counted) == str(sum(int(suite.get(counted, "")) for suite in root))


def test_no_two_cases_have_one_name() -> None:
    names = Counter((each.get("classname"), each.get("name")) for each in document(*PLANS).iter("testcase"))
    assert names.most_common(1)[0][1] == 1


def test_what_is_not_met_is_a_failure_with_its_severity_and_both_figures() -> None:
    failure = case(document("weavers-row"), "hood-over-gas-hob", "hob, east wall").find("failure")
    assert failure is not None
    assert failure.get("type") == "stop"
    assert "have 647 mm, need at least 700 mm" in failure.get("message", "")
    assert "clearance: 647 = 1580 hood − 891 worktop − 42 pan supports" in (failure.text or "")


def test_what_is_milder_than_asked_for_is_skipped_and_says_so() -> None:
    mild = case(document("weavers-row"), "socket-well-away-from-sink", "S2, north wall")
    (skipped,) = mild
    assert (skipped.tag, skipped.get("type")) == ("skipped", "improve")
    (failure,) = case(document("weavers-row", fail_on="improve"), "socket-well-away-from-sink", "S2, north wall")
    assert failure.tag == "failure"


def test_a_stop_that_is_not_known_is_an_error(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(WASTE.replace("circuits: none\n", ""), "utf-8")
    errors = of_file(tmp_path / "plan.yaml").findall(".//error")
    assert errors
    assert {error.get("type") for error in errors} == {"not known"}


def test_another_thing_not_known_is_skipped_and_says_what_is_missing() -> None:
    (skipped,) = case(document("awkward"), "base-dry-by-hygrometer", "laminate")
    assert (skipped.tag, skipped.get("type")) == ("skipped", "not known")
    assert "to find out" in skipped.get("message", "")


def test_what_was_agreed_is_skipped_with_the_reason() -> None:
    (skipped,) = case(document("tern-cottage"), "socket-well-away-from-sink", "S2, north wall")
    assert (skipped.tag, skipped.get("type")) == ("skipped", "agreed")
    assert "further along it would come behind the kettle shelf" in skipped.get("message", "")


def test_what_is_met_says_its_figures() -> None:
    (out,) = case(document("tern-cottage"), "hood-over-gas-hob", "hob, north wall")
    assert out.tag == "system-out"
    assert "met, have 684 mm, need at least 650 mm" in (out.text or "")


def test_names_come_back_as_the_plan_has_them() -> None:
    names = {each.get("name") for each in document("awkward").iter("testcase")}
    said = " ".join(name or "" for name in names)
    assert "\"S2\" <script>alert(1)</script> & `rm -r` | 'x' \\ $x$ :smile:" in said
    assert "🔥 **bold** _it_ ~~x~~" in said
    assert "עמוד 12 שולחן" in said
    assert "two lines and a tab" in said


def test_what_xml_cannot_hold_is_shown_as_a_mark() -> None:
    problem = Problem("a \x00 and a \x1b[31m and half a pair \ud83d", Place("a\x07\ufffe.yaml", 1, 1))
    xml = junit_form.whole([junit_form.of_unreadable(Unreadable([problem]))])
    (error,) = ElementTree.fromstring(xml.encode()).iter("error")
    assert error.get("message") == "A \ufffd and a \ufffd[31m and half a pair \ufffd."
    assert is_valid(xml)


def test_what_turns_the_direction_of_a_text_is_written_as_a_reference() -> None:
    problem = Problem("turned \u202e round", Place("plan.yaml", 1, 1))
    xml = junit_form.whole([junit_form.of_unreadable(Unreadable([problem]))])
    assert "\u202e" not in xml
    (error,) = ElementTree.fromstring(xml).iter("error")
    assert error.get("message") == "Turned \u202e round."


@pytest.mark.parametrize("plan", PLANS)
def test_the_same_plan_gives_the_same_bytes(plan: str) -> None:
    first = printed("junit", plan, seed=1)
    assert first.startswith(b'<?xml version="1.0" encoding="UTF-8"?>\n<testsuites')
    assert first == printed("junit", plan, seed=2)


def test_there_are_no_times() -> None:
    assert not [each for each in document(*PLANS).iter() if {"time", "timestamp"} & each.attrib.keys()]


def test_two_plans_of_one_title_are_told_apart_by_their_files(tmp_path: Path) -> None:
    files = [tmp_path / "one.yaml", tmp_path / "two.yaml"]
    for file in files:
        file.write_text(WASTE, "utf-8")
    root = ElementTree.fromstring(
        junit_form.whole([junit_form.of_plan(inspect(str(file), (), DAY), DAY) for file in files])
    )
    for file in files:
        assert case(root, f"Pump room ({file}): waste-fall", "sink, to stack").find("failure") is not None


def test_a_plan_without_a_country_has_an_error(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(WASTE.replace("country: GB-ENG, ", "").replace("at 12", "at 20"), "utf-8")
    (error,) = case(of_file(tmp_path / "plan.yaml"), "rules of the country", "project")
    assert (error.tag, error.get("type")) == ("error", "not known")


def test_every_mistake_in_a_plan_that_cannot_be_read_is_an_error(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(WASTE.replace("runs: none", "ruuns: none"), "utf-8")
    found = unreadable(tmp_path / "plan.yaml")
    xml = junit_form.whole([junit_form.of_unreadable(found)])
    root = ElementTree.fromstring(xml)
    assert is_valid(xml)
    assert root.get("errors") == str(len(found.problems)) == "1"
    (each,) = root.iter("testcase")
    assert each.get("name") == f"{tmp_path / 'plan.yaml'}, line 5"


def test_the_command_prints_a_valid_report_of_readable_and_unreadable_plans(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    status = main(["check", str(PLANS["tern-cottage"]), str(tmp_path / "none.yaml"), "--form", "junit"])
    out = capsys.readouterr().out
    assert status == 2
    assert is_valid(out)
    assert ElementTree.fromstring(out).get("errors") == "1"
