"""`dryfit new`: a plan to start from, valid as written, that asks nothing it need not know and writes over nothing."""

from __future__ import annotations

import json
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from tests.commands.conftest import Here, Write
from tests.commands.running import ON
from tests.commands.starter_answers import INCHES, MILLIMETRES, NO_OPENINGS, answered, open_values
from validator.commands.inspecting import Inspector
from validator.judging.apply import Judgement
from validator.plan.files import read_plan
from validator.reference.folder import rules_folder
from validator.reporting.points import put_together, where_to_answer
from validator.reporting.starter import parts, whole

COUNTRIES = ("GB-ENG", "GB-SCT", "US", "US-OR")
ANSWERS = (("GB-ENG", MILLIMETRES), ("GB-SCT", MILLIMETRES), ("US-OR", INCHES))
NOT_WITH_THIS_HOB = "pan support"  # the hob of the answers is flat glass; a gas hob's is asked for


@cache
def inspector() -> Inspector:
    return Inspector((), date.fromisoformat(ON), passing=True)


def judged(text: str) -> Judgement:
    return inspector().inspect(read_plan(["-"], text.encode))


def asked_lines(judgement: Judgement) -> set[int]:
    """The lines of a plan at which something is to be found out, or read in a paper."""
    return {
        judgement.site.plan.place(where_to_answer(missing, judgement)).line
        for outcome in judgement.outcomes
        for missing in (*outcome.missing, *outcome.supposing)
    }


@pytest.mark.parametrize("country", COUNTRIES)
def test_a_starter_plan_is_read_and_nothing_in_it_is_wrong(here: Here, country: str) -> None:
    assert here("new", "kitchen.yaml", "--country", country).status == 0
    checked = here("check", "kitchen.yaml", "--form", "json", "--on", ON)
    report = json.loads(checked.out)
    assert checked.status == 1
    assert report["plan"]["country"] == country
    assert report["points"] == []
    assert report["errands"] != []


@pytest.mark.parametrize("path", ["kitchen/", "kitchen"])
def test_a_folder_is_the_same_plan_in_four_files(here: Here, folder: Path, path: str) -> None:
    here("new", "one.yaml", "--country", "GB-SCT")
    here("new", path, "--country", "GB-SCT")
    assert sorted(file.name for file in (folder / "kitchen").iterdir()) == [
        "job.yaml",
        "kinds.yaml",
        "layout.yaml",
        "survey.yaml",
    ]
    one, four = (json.loads(here("measure", plan, "--form", "json").out) for plan in ("one.yaml", "kitchen"))
    assert [entry["at"] for entry in one["to find out"]] == [entry["at"] for entry in four["to find out"]]


@pytest.mark.parametrize("words", [("kitchen.toml",), ("kitchen", "--toml")])
def test_a_plan_in_toml_asks_the_same(here: Here, words: tuple[str, ...]) -> None:
    here("new", "kitchen.yaml", "--country", "US-OR")
    assert here("new", *words, "--country", "US-OR").status == 0
    yaml, toml = (json.loads(here("measure", plan, "--form", "json").out) for plan in ("kitchen.yaml", words[0]))
    assert {entry["at"] for entry in yaml["to find out"]} == {entry["at"] for entry in toml["to find out"]}


@pytest.mark.parametrize(("country", "answers"), ANSWERS)
def test_every_open_value_is_one_that_a_rule_waits_for(country: str, answers: tuple[str, ...]) -> None:
    text = whole(rules_folder(), country)
    lines = text.splitlines()
    when_all_are_open = asked_lines(judged(text))
    for number, (start, _) in enumerate(open_values(text)):
        line = text.count("\n", 0, start) + 1
        if line in when_all_are_open or NOT_WITH_THIS_HOB in lines[line - 1]:
            continue
        alone = judged(answered(text, answers, leave_open=number) + NO_OPENINGS)
        assert asked_lines(alone), f"nobody needs to know: {lines[line - 1].strip()}"


@pytest.mark.parametrize(("country", "answers"), ANSWERS)
def test_once_every_value_is_answered_nothing_is_wrong_or_unknown(country: str, answers: tuple[str, ...]) -> None:
    text = whole(rules_folder(), country)
    assert len(open_values(text)) == len(answers)
    found = put_together(judged(answered(text, answers) + NO_OPENINGS))
    assert ([point.rule.name for point in found.points], [errand.at for errand in found.errands]) == ([], [])


def test_americans_read_their_own_words_and_inches() -> None:
    text = whole(rules_folder(), "US-OR")
    assert "lengths in: in\n" in text
    assert "receptacle" in text
    for ours in ("worktop:", "socket", "hob:", "skirting", "metre"):
        assert ours not in text


@pytest.mark.parametrize("country", ["GB-ENG", "US"])
def test_each_part_says_where_its_heights_start(country: str) -> None:
    for text in parts(rules_folder(), country).values():
        assert text.startswith("dryfit: 1\nheights from: bare floor")


def test_a_file_that_is_there_stays_as_it_is(here: Here, write: Write) -> None:
    file = write("kitchen.yaml", "mine\n")
    ran = here("new", "kitchen.yaml", "--country", "GB-ENG")
    assert (ran.status, ran.out) == (1, "")
    assert "`kitchen.yaml` is there already" in ran.err
    assert file.read_text("utf-8") == "mine\n"


def test_nothing_is_added_to_a_folder_that_has_a_plan(here: Here, write: Write) -> None:
    file = write("plan/walls.yaml", "mine\n")
    assert here("new", "plan/", "--country", "GB-ENG").status == 1
    assert list(file.parent.iterdir()) == [file]


def test_without_a_country_the_choices_are_listed(here: Here, folder: Path) -> None:
    ran = here("new", "kitchen.yaml")
    assert ran.status == 1
    for code in ("GB-ENG", "GB-SCT", "US-OR"):
        assert code in ran.err
    assert list(folder.iterdir()) == []


@pytest.mark.parametrize(("written", "meant"), [("england", "GB-ENG"), ("Scotland", "GB-SCT"), ("GB-EN", "GB-ENG")])
def test_a_country_that_is_not_there_names_the_nearest(here: Here, written: str, meant: str) -> None:
    ran = here("new", "kitchen.yaml", "--country", written)
    assert ran.status == 1
    assert f"Perhaps «{meant}» was meant." in ran.err


def test_a_code_may_be_written_small(here: Here, folder: Path) -> None:
    assert here("new", "kitchen.yaml", "--country", "us_or").status == 0
    assert "country: US-OR\n" in (folder / "kitchen.yaml").read_text("utf-8")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("kitchen.txt",), "ends in .yaml or .toml, not in .txt"),
        (("kitchen.yaml", "--toml"), "is the name of a YAML file"),
        (("nowhere/kitchen.yaml",), "cannot be written"),
    ],
)
def test_what_cannot_be_written_is_said(here: Here, folder: Path, words: tuple[str, ...], said: str) -> None:
    ran = here("new", *words, "--country", "GB-ENG")
    assert (ran.status, ran.out) == (1, "")
    assert said in ran.err
    assert list(folder.iterdir()) == []


def test_a_folder_half_written_is_taken_away_again(here: Here, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The third of four files finds the disk full."""
    opened: list[str] = []

    def full(file: Path, *words: str, **more: str) -> object:
        opened.append(str(file))
        if len(opened) == 3:
            raise OSError(28, "No space left on device", str(file))
        return open(file, *words, **more)  # type: ignore[call-overload]

    monkeypatch.setattr("validator.commands.new.open", full, raising=False)
    ran = here("new", "kitchen/", "--country", "GB-ENG")
    assert ran.status == 1
    assert "No space left on device" in ran.err
    assert list(folder.iterdir()) == []


def test_a_name_with_spaces_and_umlauts_is_quoted_in_what_to_do_next(here: Here) -> None:
    assert "dryfit measure 'Neue Küche.yaml'" in here("new", "Neue Küche.yaml", "--country", "GB-ENG").out
