"""`dryfit quantities`: what has to be cut and bought, for people and for machines."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.commands.conftest import Here, Write
from tests.commands.running import ON
from validator.reporting.columns import columns

JETTY = """\
dryfit: 1
heights from: bare floor
project: {title: Jetty, country: GB-ENG, lengths in: mm}
walls: {north: {length: [3010, 3004]}}
floor: {levels: {door: 0, sink: 9 low}}
floors: none
boards: {plinth: 2700, saw cut: 3}
kinds:
  base: {height: 720, depth: 560, front: 19, void behind: 40, legs: 135 to 180}
  worktop: {material: laminate, thickness: 38, depth: 600, stock: 4100}
runs:
  galley: {against: north, legs: 150 at high spot, order: {F1: filler 20, B1: base 600, B2: base 800, F2: filler rest}}
worktops: {top: {on: galley}}
appliances: {sink: {in: B2, cut-out: 780 x 480}}
"""

CHANDLERY = """\
dryfit: 1
project: {title: Chandlery, country: US-ME, lengths in: in}
walls: {north: {length: 120}}
kinds: {base: {height: 30, depth: 24, legs: 4 to 6}, worktop: {material: quartz, thickness: 1-1/4, depth: 25-1/2}}
runs: {bench: {against: north, legs: 4-1/2 at high spot, order: {B1: base 36, B2: base 30, F1: filler rest}}}
countertops: {top: {on: bench}}
appliances: none
"""


def test_lengths_boards_and_numbers_are_printed(here: Here, write: Write) -> None:
    ran = here("quantities", write("plan.yaml", JETTY), "--on", ON)
    assert (ran.status, ran.err) == (0, "")
    assert "   top                   3004 to 3010 x 600 x 38" in ran.out
    assert "cut-out    sink: 780 x 480, its middle 1020 from the left end" in ran.out
    assert "   laminate worktop 600 x 38" in ran.out
    assert "left over 1087" in ran.out
    assert "   galley                3004 to 3010 long, 150 to 159 high, cut to fit" in ran.out
    assert "   F2 filler             1584 to 1590 wide, cut to fit" in ran.out
    assert "    1  base 600\n         B1" in ran.out
    assert "Reckoned with a saw cut of 3." in ran.out
    assert "OPEN" not in ran.out


def test_an_american_plan_has_inches_and_american_words(here: Here, write: Write) -> None:
    ran = here("quantities", write("plan.yaml", CHANDLERY), "--on", ON)
    assert "COUNTERTOPS" in ran.out
    assert "CABINETS" in ran.out
    assert "   top                   120 x 25-1/2 x 1-1/4" in ran.out
    assert "lengths in which the toe kick is sold" in ran.out


@pytest.mark.parametrize("name", ["W1", "東京の流し台の下にある引き出し" * 3, "a drawer unit with a name " * 5])
def test_lines_keep_to_eighty_columns_however_long_names_are(here: Here, write: Write, name: str) -> None:
    plan = JETTY.replace("B2", name.strip()).replace("galley", f"galley {name.strip()}")
    ran = here("quantities", write("plan.yaml", plan), "--on", ON)
    assert ran.status == 0
    assert max(columns(line) for line in ran.out.splitlines()) <= 80


def test_the_form_for_machines_has_the_same_figures(here: Here, write: Write) -> None:
    data = json.loads(here("quantities", write("plan.yaml", JETTY), "--form", "json", "--on", ON).out)
    assert data["worktops"][0]["length"] == {"low": 3004, "high": 3010}
    assert [(board["of"], board["length"], board["left over"]) for board in data["boards"]] == [
        ("laminate worktop 600 x 38", 4100, 1087),
        ("plinth", 2700, 0),
        ("plinth", 2700, 2387),
    ]
    assert data["open"] == []


def test_what_is_not_known_says_where_its_answer_goes(here: Here, write: Write) -> None:
    plan = write("plan.yaml", JETTY.replace(", depth: 600, stock: 4100", ""))
    data = json.loads(here("quantities", plan, "--form", "json", "--on", ON).out)
    assert {entry["key"]: entry["how"] for entry in data["open"]} == {
        "worktops / top / depth": "Read the depth in its order.",
        "worktops / top / stock": "Ask in what lengths the worktop is sold, and write them all.",
    }
    assert data["worktops"][0]["depth"] is None


def test_a_plan_that_cannot_be_read_is_said_as_everywhere(here: Here, write: Write) -> None:
    ran = here("quantities", write("plan.yaml", JETTY.replace("laminate,", "laminate, thikness: 3,")), "--on", ON)
    assert (ran.status, ran.out) == (2, "")
    assert "thikness" in ran.err


def test_the_same_plan_gives_the_same_bytes(here: Here, write: Write, tmp_path: Path) -> None:
    plan = write("plan.yaml", JETTY)
    assert here("quantities", plan, "--on", ON).out == here("quantities", plan, "--on", ON).out


def test_what_lies_open_is_said_in_its_place(here: Here, write: Write) -> None:
    plan = write("plan.yaml", JETTY.replace("F2: filler rest", "F2: gap rest"))
    ran = here("quantities", plan, "--on", ON)
    assert "   top                   open x 600 x 38" in ran.out
    assert "how far top passes its right end" in ran.out
    assert "answer at  worktops / top / past end" in ran.out
    assert "One figure is open" in ran.out
