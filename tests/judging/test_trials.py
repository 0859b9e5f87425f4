"""Trials of a book: found in the right plan, judged on both sides, and every way in which one can fail is said."""

from __future__ import annotations

from pathlib import Path

import pytest

from validator.judging.outcomes import Result
from validator.judging.trials import Side, Trials, trials_of
from validator.reference.folder import rules_folder

PLAN = """\
dryfit: 1
heights from: bare floor
project: {title: One waste, country: GB-ENG, lengths in: mm}
appliances:
  dishwasher: {waste: 40 mm to stack 1500 at 25 mm/m}
  washer: {waste: {pipe: 40 mm, to: stack, length: 1200, fall: 28 mm/m}}
"""

BOOK = """\
book: {title: House rules, covers: everywhere}
rules:
  steeper-waste:
    title: A steeper waste
    each: waste
    when: pipe < 100 mm
    figure: slope
    at_least: 30 mm/m
    severity: improve
    before: first fix
    because: It was always so here.
    remedy: Lay it at {need}.
    source: common practice
    tried: {plan: one-waste, vary: /appliances/washer/waste/fall, met: 30 mm/m, not_met: 29 mm/m, thing: washer}
"""


def sides(folder: Path, *changes: tuple[str, str], plan: str = PLAN) -> tuple[Side, Side]:
    """Both sides of the trial of the book, some of its words changed, with its plan beside it."""
    text = BOOK
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    (folder / "one-waste.yaml").write_text(plan, "utf-8")
    book = folder / "house.yaml"
    book.write_text(text, "utf-8")
    trials = Trials(rules_folder(), [book])
    (tried,) = trials_of(trials.rules_in(book))
    return trials.sides(tried)


def said(side: Side) -> str:
    return " ".join(f"{problem.message}; {problem.expected}; {problem.nearest}" for problem in side.problems)


def test_both_sides_are_as_claimed(tmp_path: Path) -> None:
    met, not_met = sides(tmp_path)
    assert (met.as_claimed, not_met.as_claimed) == (True, True)
    assert [outcome.result for outcome in met.outcomes] == [Result.MET]
    assert [outcome.result for outcome in not_met.outcomes] == [Result.NOT_MET]


def test_only_the_thing_named_is_looked_at(tmp_path: Path) -> None:
    met, _ = sides(tmp_path, (", thing: washer", ""))
    assert {outcome.subject.name: outcome.result for outcome in met.outcomes} == {
        "dishwasher": Result.NOT_MET,
        "washer": Result.MET,
    }
    assert not met.as_claimed
    assert met.worst is not None
    assert met.worst.subject.name == "dishwasher"


def test_a_value_that_is_met_after_all_is_not_as_claimed(tmp_path: Path) -> None:
    met, not_met = sides(tmp_path, ("not_met: 29 mm/m", "not_met: 31 mm/m"))
    assert (met.as_claimed, not_met.as_claimed) == (True, False)


def test_a_side_that_is_not_known_is_not_as_claimed(tmp_path: Path) -> None:
    met, not_met = sides(tmp_path, ("met: 30 mm/m", "met: to find out"), ("not_met: 29 mm/m", "not_met: to find out"))
    assert [outcome.result for outcome in met.outcomes] == [Result.NOT_KNOWN]
    assert (met.as_claimed, not_met.as_claimed) == (False, False)


def test_a_plan_in_toml_serves_as_well(tmp_path: Path) -> None:
    (tmp_path / "same.toml").write_text(
        'dryfit = "1"\n[project]\ntitle = "One waste"\ncountry = "GB-ENG"\n"lengths in" = "mm"\n'
        '[appliances.washer.waste]\npipe = "40 mm"\nto = "stack"\nlength = "1200"\nfall = "28 mm/m"\n',
        "utf-8",
    )
    met, not_met = sides(tmp_path, ("plan: one-waste", "plan: same"))
    assert (met.as_claimed, not_met.as_claimed) == (True, True)


def test_a_plan_that_is_not_beside_the_book_is_one_of_the_rules_own(tmp_path: Path) -> None:
    met, not_met = sides(
        tmp_path,
        ("plan: one-waste", "plan: fragments/wastes"),
        ("/appliances/washer/waste/fall", "/appliances/dishwasher/waste/fall"),
        ("thing: washer", "thing: dishwasher"),
    )
    assert (met.as_claimed, not_met.as_claimed) == (True, True)


def test_the_plan_beside_the_book_goes_before_that_of_the_rules(tmp_path: Path) -> None:
    (tmp_path / "fragments").mkdir()
    (tmp_path / "fragments" / "wastes.yaml").write_text(PLAN.replace("washer", "machine"), "utf-8")
    changes = (
        ("plan: one-waste", "plan: fragments/wastes"),
        ("washer/waste", "machine/waste"),
        (": washer", ": machine"),
    )
    met, not_met = sides(tmp_path, *changes)
    assert (met.as_claimed, not_met.as_claimed) == (True, True)


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("plan: one-waste", "plan: one-wast", "there is no plan `one-wast` to try the rule in"),
        ("plan: one-waste", "plan: one-wast", "one-waste"),
        ("plan: one-waste", "plan: fragments/waste", "fragments/wastes"),
        ("plan: one-waste", "plan: /nowhere/one-waste", "there is no plan `/nowhere/one-waste`"),
        ("plan: one-waste", "plan: ../nowhere/one-waste", "there is no plan `../nowhere/one-waste`"),
        ("washer/waste/fall", "washer/waste/fal", "has no `fal` to vary"),
        ("washer/waste/fall", "dishwasher/waste/fall", "is written in one line: it has no `fall`"),
        ("thing: washer", "thing: washr", "the plan has no waste called `washr`"),
        ("when: pipe < 100 mm", "when: pipe > 100 mm", "`when` never holds in this plan"),
        ("each: waste", "each: drop of a waste", "there is nothing to judge"),
        ("covers: everywhere", "covers: US", "the rule does not apply in GB-ENG"),
        ("thing: washer", "thing: washer, on: tomorrow", "`on: tomorrow` is no date"),
    ],
)
def test_what_keeps_a_trial_from_being_tried_is_said(tmp_path: Path, old: str, new: str, message: str) -> None:
    changes = [(old, new)]
    if "drop" in new:
        changes += [("    when: pipe < 100 mm\n", ""), ("figure: slope", "figure: fall"), (", thing: washer", "")]
    for side in sides(tmp_path, *changes):
        assert message in said(side)
        assert not side.as_claimed


def test_a_value_with_which_the_plan_cannot_be_read_is_said(tmp_path: Path) -> None:
    met, not_met = sides(tmp_path, ("not_met: 29 mm/m", "not_met: 29 kg"))
    assert met.as_claimed
    assert not not_met.as_claimed
    assert "29 kg" in said(not_met)


def test_a_place_in_a_list_is_counted_from_0(tmp_path: Path) -> None:
    tried = sides(
        tmp_path,
        ("/appliances/washer/waste/fall", "/walls/north/length/2"),
        plan=PLAN + "walls: {north: {length: [2400, 2401]}}\n",
    )
    assert "is a list of 2, which has no `2`" in said(tried[0])


def test_rules_of_the_folder_itself_are_found_by_their_book() -> None:
    trials = Trials(rules_folder())
    rules = trials.rules_in(rules_folder() / "GB" / "cooking.yaml")
    names = ["hood-over-gas-hob", "unit-over-gas-hob", "unit-beside-gas-hob", "unit-close-beside-gas-hob"]
    names += ["window-opens-where-gas-burns", "gas-work-registered"]
    assert [(rule.name, rule.covers) for rule in rules] == [(name, "GB") for name in names]


def test_every_book_of_a_folder_is_tried_also_those_for_parts_of_a_country() -> None:
    trials = Trials(rules_folder())
    assert {rule.covers for rule in trials.rules_in(rules_folder())} >= {"everywhere", "GB", "GB-ENG", "US", "AU"}
