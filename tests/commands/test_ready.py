"""`dryfit ready`: yes or no for one stage of the work, with what is in the way of it and of what comes before."""

from __future__ import annotations

import json

import pytest

from tests.commands.conftest import Here, Write
from tests.commands.running import DEMO, ON, own_rule
from validator.commands.inspecting import library

FAULTY, RIGHT = DEMO / "weavers-row", DEMO / "tern-cottage"
OWN_LIMIT = "30 mm/m"  # the wastes of the right plan fall 25 mm in a metre


def changed(write: Write, before: str, after: str) -> str:
    """The right plan with one text in place of another, in a folder of its own."""
    texts = {file.name: file.read_text("utf-8") for file in RIGHT.glob("*.yaml")}
    assert sum(text.count(before) for text in texts.values()) == 1
    for name, text in texts.items():
        write(f"plan/{name}", text.replace(before, after))
    return "plan"


@pytest.mark.parametrize("stage", list(library().stages))
def test_a_plan_that_is_ready_is_ready_for_every_stage(here: Here, stage: str) -> None:
    ran = here("ready", stage, RIGHT, "--on", ON)
    assert ran.status == 0
    assert "YES." in ran.out.splitlines()[1]


def test_not_yet_names_what_is_in_the_way_by_stage(here: Here) -> None:
    ran = here("ready", "drilling", FAULTY, "--on", ON)
    assert ran.status == 1
    assert ran.out.startswith("May I now drill, and hang units?")
    places = [ran.out.index(f"BEFORE {stage}") for stage in ("ORDERING", "FIRST FIX", "PAINTING", "DRILLING")]
    assert places == sorted(places)
    assert "BEFORE THE FLOOR" not in ran.out
    assert "BEFORE FLOOR" not in ran.out


def test_numbers_and_blocking_are_those_of_the_report(here: Here) -> None:
    report = json.loads(here("check", FAULTY, "--form", "json", "--on", ON).out)
    upto = report["stages"][:4]
    wanted = sorted({number for stage in upto for number in stage["points"]})
    lines = here("ready", "drilling", FAULTY, "--on", ON).out.splitlines()
    assert [int(line[:2]) for line in lines if line[:2].strip().isdigit() and line[2:7] == " " * 5] == wanted


def test_what_is_wrong_later_does_not_stop_an_earlier_stage(here: Here, write: Write) -> None:
    write("own.yaml", own_rule("stop", OWN_LIMIT).replace("before: first fix", "before: floor"))
    assert here("ready", "drilling", RIGHT, "--rules", "own.yaml", "--on", ON).status == 0
    assert here("ready", "floor", RIGHT, "--rules", "own.yaml", "--on", ON).status == 1


def test_what_is_not_known_says_who_can_say_and_where_the_answer_goes(here: Here, write: Write) -> None:
    plan = changed(write, "gully 1600 at 25 mm/m", "gully 1600 at to find out by plumber")
    write("own.yaml", own_rule("stop", "20 mm/m"))
    ran = here("ready", "first fix", plan, "--rules", "own.yaml", "--on", ON)
    assert ran.status == 1
    assert "plumber; appliances / dishwasher / waste / fall" in ran.out
    assert "Measure how far it falls" in ran.out


def test_what_could_be_better_is_counted_and_not_in_the_way(here: Here, write: Write) -> None:
    write("own.yaml", own_rule("improve", OWN_LIMIT))
    ran = here("ready", "hand-over", RIGHT, "--rules", "own.yaml", "--on", ON)
    assert ran.status == 0
    assert "One point could be better." in ran.out


def test_an_agreed_departure_is_said(here: Here) -> None:
    assert "«further along it would" in here("ready", "first fix", RIGHT, "--on", ON).out


def test_a_supposed_figure_is_said(here: Here, write: Write) -> None:
    plan = changed(write, "gully 1600 at 25 mm/m", "gully 1600 at 25 mm/m assumed")
    ran = here("ready", "first fix", plan, "--on", ON)
    assert ran.status == 0
    assert "met, if" in ran.out


def test_a_plan_without_a_country_is_never_ready(here: Here, write: Write) -> None:
    ran = here("ready", "drilling", changed(write, "country: GB-ENG, ", ""), "--on", ON)
    assert ran.status == 1
    assert "names no country" in ran.out


def test_spelling_of_a_stage_is_as_free_as_that_of_names(here: Here) -> None:
    assert here("ready", "First-Fix", RIGHT, "--on", ON).status == 0


def test_a_stage_that_is_not_there_names_the_nearest(here: Here) -> None:
    ran = here("ready", "driling", RIGHT)
    assert (ran.status, ran.out) == (2, "")
    assert "There is no stage `driling`." in ran.err
    assert "Perhaps «drilling» was meant." in ran.err


def test_a_plan_that_cannot_be_read_is_neither_yes_nor_no(here: Here, write: Write) -> None:
    ran = here("ready", "drilling", write("plan.yaml", "dryfit: 1\nwals: none\n"))
    assert (ran.status, ran.out) == (2, "")
    assert "line 2" in ran.err


def test_help_names_every_stage(here: Here) -> None:
    said = " ".join(here("ready", "--help").out.split())
    assert "Stages: " + ", ".join(library().stages) + "." in said


@pytest.mark.parametrize(("called", "stage"), [("rough-in", "first fix"), ("Trim-out", "second fix")])
def test_a_stage_may_be_named_as_a_report_calls_it_in_another_country(here: Here, called: str, stage: str) -> None:
    assert here("ready", called, RIGHT, "--on", ON).out == here("ready", stage, RIGHT, "--on", ON).out
