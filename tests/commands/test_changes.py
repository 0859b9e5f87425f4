"""`dryfit changes OLD NEW`: what moved between two files, a revision and a file, and two revisions."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.commands.conftest import Here, Write
from tests.commands.repositories import GOOD, STOPPED, Repository, make
from tests.commands.running import ON

LANDING = """\
dryfit: 1
heights from: bare floor
project: {title: Landing stage, country: GB-ENG, lengths in: mm}
walls: {north: {length: 3000}, east: {length: 2000}}
floors: none
kinds: {base: {height: 720, depth: 560, legs: 135 to 180}, worktop: {thickness: 38, depth: 600}}
runs: {galley: {against: north, legs: 150 at high spot, order: {B1: base 600, B2: base 800}}}
worktops: {top: {on: galley}}
points: {S1: {is: double socket, wall: north, along: 900 from east, up: 1060, plate: 146 x 86}}
"""


@pytest.fixture
def repository(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Repository:
    return make(folder, monkeypatch)


def test_places_and_figures_are_told_from_and_to(here: Here, write: Write) -> None:
    old = write("old.yaml", LANDING)
    new = write("new.yaml", LANDING.replace("900 from east", "940 from east").replace("150 at", "152 at"))
    ran = here("changes", old, new, "--on", ON)
    assert (ran.status, ran.err) == (0, "")
    assert "S1, point on a wall\n           middle along the wall: 2100 → 2060" in ran.out
    assert "worktop above the bare floor: 908 → 910" in ran.out


def test_nothing_moved_is_said_as_such(here: Here, write: Write) -> None:
    plan = write("plan.yaml", LANDING)
    ran = here("changes", plan, plan, "--on", ON)
    assert "NOTHING HAS CHANGED IN WHAT THE RULES SAY." in ran.out
    assert "MOVED" not in ran.out


def test_a_thing_that_came_or_went_is_named(here: Here, write: Write) -> None:
    old = write("old.yaml", LANDING)
    new = write("new.yaml", LANDING.replace("S1: {", "S9: {"))
    data = json.loads(here("changes", old, new, "--form", "json", "--on", ON).out)
    figures = [(moved["thing"], moved["before"], moved["now"]) for moved in data["figures"]]
    assert ("S9", "", "new") in figures
    assert ("S1", "gone", "") in figures


def test_a_revision_is_compared_with_the_file(here: Here, repository: Repository) -> None:
    repository.commit(plan=GOOD)
    repository.write("plan.yaml", STOPPED)
    ran = here("changes", "HEAD", "plan.yaml", "--on", ON)
    assert ran.status == 1
    assert "THIS CHANGE BRINGS WHAT BLOCKS." in ran.out
    assert "met → not met" in ran.out


def test_two_revisions_are_of_the_plan_named_behind_them(here: Here, repository: Repository) -> None:
    repository.commit(plan=STOPPED)
    repository.commit(plan=GOOD)
    ran = here("changes", "HEAD~1", "HEAD", "plan.yaml", "--on", ON)
    assert (ran.status, "not met → met" in ran.out) == (0, True)
    ran = here("changes", "HEAD~1", "HEAD", "--on", ON)
    assert ran.status == 2
    assert "name the plan behind both" in ran.err


def test_a_plan_that_cannot_be_read_is_refused(here: Here, write: Write) -> None:
    ran = here("changes", write("old.yaml", LANDING), write("new.yaml", "dryfit: [\n"), "--on", ON)
    assert (ran.status, ran.out) == (2, "")
    assert "new.yaml" in ran.err
