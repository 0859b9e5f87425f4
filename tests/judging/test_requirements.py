"""The household's own rules and departures, read from a plan and held against the books.

The plan and its figures are made up.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from validator.judging.books import Books, read_books
from validator.measures.rows import Known, Missing, Why
from validator.plan.files import read_plan
from validator.plan.load import load
from validator.plan.plan import Plan
from validator.plan.problems import Problem, Unreadable
from validator.reference.library import read_library

RulesOf = Callable[[dict[str, str]], Path]

BOOK = """\
book: {title: Cooking, covers: everywhere}
rules:
  hood-height:
    title: Height of a hood
    each: hob under hood
    figure: clearance
    at_least: 700 mm
    severity: stop
    before: drilling
    because: Heads meet it.
    remedy: Hang it {short} higher.
    source: common practice
    also_called: [height-of-hood]
    tried: {plan: fragments/hob, vary: /appliances/hood/up, met: 1600, not_met: 1599}
"""
SCOTTISH = (
    BOOK.replace("everywhere", "GB-SCT").replace("hood-height", "ducts-in-scotland").replace("height-of-hood", "a")
)

PLAN = """\
dryfit: 1
project: {title: Weir house, country: GB-ENG, lengths in: mm}
own: {elbow of the cook: 1080, oven height: to find out by householder, least load: 40 kg}
"""


@pytest.fixture
def rules(rules_of: RulesOf) -> Path:
    return rules_of({"everywhere/a.yaml": BOOK, "GB-SCT/b.yaml": SCOTTISH})


def _plan(folder: Path, text: str) -> Plan:
    file = folder.parent / "plan.yaml"
    file.write_text(PLAN + text, "utf-8")
    return load(read_plan([str(file)], lambda: b""))


def _read(rules: Path, text: str) -> Books:
    return read_books(rules, read_library(rules), _plan(rules, text))


def _mistakes(rules: Path, text: str) -> list[Problem]:
    plan = _plan(rules, text)
    with pytest.raises(Unreadable) as unreadable:
        read_books(rules, read_library(rules), plan)
    return unreadable.value.problems


def _requirement(*lines: str) -> str:
    return "requirements:\n  worktop for the cook:\n" + "".join(f"    {line}\n" for line in lines)


HEIGHT = ("each: worktop on a run", "figure: height", "at_least: own.elbow_of_the_cook - 150 mm")


def test_a_requirement_says_only_what_it_asks_for(rules: Path) -> None:
    rule = _read(rules, _requirement(*HEIGHT)).rules[-1]
    assert (rule.name, rule.severity, rule.before) == ("worktop for the cook", "put right", "hand-over")
    assert (str(rule.source), rule.because) == ("household", "The household asks for it.")
    assert rule.remedy.text == "Bring it to {need}: it comes to {have}."


def test_a_requirement_may_say_the_rest_itself(rules: Path) -> None:
    said = (
        "title: High enough",
        "severity: note",
        "before: drilling",
        "because: It hurts.",
        "remedy: Raise it {short}.",
    )
    rule = _read(rules, _requirement(*HEIGHT, *said)).rules[-1]
    assert (rule.title, rule.severity, rule.before, rule.because) == ("High enough", "note", "drilling", "It hurts.")
    assert rule.remedy.text == "Raise it {short}."


def test_a_requirement_that_holds_has_a_remedy_without_figures(rules: Path) -> None:
    rule = _read(rules, _requirement("each: hob under hood", "holds: fuel != 'gas'")).rules[-1]
    assert rule.remedy.text == "Keep to what the household asks for."


def test_a_value_of_the_household_is_given_to_the_rules_expressions(rules: Path) -> None:
    rule = _read(rules, _requirement(*HEIGHT)).rules[-1]
    assert rule.names == {"own.elbow_of_the_cook": 1080.0}


def test_a_value_still_to_find_out_is_taken_for_the_figures_dimension_and_is_missing(rules: Path) -> None:
    rule = _read(rules, _requirement(*HEIGHT[:2], "at_least: own.oven_height")).rules[-1]
    missing = rule.names["own.oven_height"]
    assert isinstance(missing, Missing)
    assert (missing.pointer, missing.why, missing.by) == ("/own/oven height", Why.TO_FIND, "householder")


MISTAKES = [
    (_requirement(*HEIGHT[:2], "at_least: own.elbow_of_the_cok"), 8, "own.elbow_of_the_cook"),
    (_requirement(*HEIGHT[:2], "at_least: own.least_load"), 8, ""),
    (_requirement(*HEIGHT[:2], "at_least: 900"), 8, ""),
    (_requirement(HEIGHT[0], "figure: hight", "at_least: 900 mm"), 7, "height"),
    (_requirement("each: worktop on run", *HEIGHT[1:]), 6, "worktop on a run"),
    (_requirement(*HEIGHT, "tightens: nothing"), 9, "title"),
    (_requirement(*HEIGHT[:2]), 7, ""),
    (_requirement(*HEIGHT).replace("worktop for the cook", "R12"), 5, ""),
    (_requirement(*HEIGHT).replace("worktop for the cook", "Hood height"), 5, ""),
    (_requirement(*HEIGHT).replace("worktop for the cook", "height of hood"), 5, ""),
]


@pytest.mark.parametrize(("text", "line", "nearest"), MISTAKES)
def test_a_mistake_in_a_requirement_is_shown_in_the_plan(rules: Path, text: str, line: int, nearest: str) -> None:
    (problem,) = _mistakes(rules, text)
    assert (Path(problem.place.file).name, problem.place.line, problem.nearest) == ("plan.yaml", line, nearest)


@pytest.mark.parametrize(
    "name", ["hood-height", "Hood height", "height-of-hood", "ducts-in-scotland", "worktop-for-the-cook"]
)
def test_a_departure_may_name_any_rule_there_is(rules: Path, name: str) -> None:
    agreed = f"agreed:\n  {name}: {{at: hob, reason: the window, by: householder}}\n"
    assert _read(rules, _requirement(*HEIGHT) + agreed).knows(name)


def test_a_departure_from_a_rule_there_is_not_is_a_mistake(rules: Path) -> None:
    agreed = "agreed:\n  hod-height: {at: hob, reason: the window, by: householder}\n"
    (problem,) = _mistakes(rules, agreed)
    assert (problem.message, problem.nearest) == ("there is no rule `hod-height` to depart from", "hood-height")
    assert (Path(problem.place.file).name, problem.place.line) == ("plan.yaml", 5)


def test_the_plans_country_chooses_the_books(rules: Path) -> None:
    assert [rule.name for rule in _read(rules, "").rules] == ["hood-height"]


def test_many_ranges_of_the_household_reach_both_extremes_by_a_few_hundred_ends(rules: Path) -> None:
    own = {f"own.v{number}": Known(1.0, low=1.0, high=2.0) for number in range(24)}
    rule = _read(rules, _requirement(*HEIGHT)).rules[-1]._replace(own=own)
    sums = [sum(value for value in end.names.values() if isinstance(value, float)) for end in rule.at_ends()]
    assert (min(sums), max(sums), len(sums)) == (24.0, 48.0, 2**9)
