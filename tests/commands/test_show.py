"""`dryfit show`: everything worked out about one thing of a plan, with where it comes from."""

from __future__ import annotations

import json

import pytest

from tests.commands.conftest import Here, Write
from tests.commands.running import DEMO, ON, PUMP_HOUSE, dryfit, own_rule

BOOT_ROOM = """\
dryfit: 1
heights from: bare floor
project: {title: Boot room, country: GB-ENG, lengths in: mm, starts: 2027-02-01}
ceiling: 2400
walls:
  yard: {length: [2812, 2809]}
  lane: {length: 2100}
floor: {levels: {hatch: 0, drain: 11 low}}
floors: none
kinds:
  base: {height: 720, depth: 560, legs: 135 to 180}
  worktop: {thickness: 38}
runs:
  bench:
    against: yard
    legs: 150 at high spot
    order: {G1: base 600, G2: base 450}
worktops: {bench top: {on: bench}}
points:
  P1: {is: double socket, wall: yard, along: 900 from lane, up: 1100 from bare floor}
appliances: none
"""


def lines_about(text: str, start: str) -> str:
    """The first line that starts so, with what it goes on with below."""
    lines = text.splitlines()
    at = next(number for number, line in enumerate(lines) if line.strip().startswith(start))
    found = [lines[at].strip()]
    for line in lines[at + 1 :]:
        if not line.startswith(" " * 6):
            break
        found.append(line.strip())
    return " ".join(found)


def test_a_figure_is_shown_with_its_working_and_the_line_of_the_plan(here: Here, write: Write) -> None:
    ran = here("show", "G2", write("plan.yaml", BOOT_ROOM), "--on", ON)
    assert (ran.status, ran.err) == (0, "")
    assert "unit in a run" in ran.out
    assert "right side: 1050 mm = 600 G1 + 450 G2" in ran.out
    assert "(line 17)" in ran.out


def test_a_figure_follows_its_parts_down_to_what_the_plan_says(here: Here, write: Write) -> None:
    ran = here("show", "bench top", write("plan.yaml", BOOT_ROOM), "--on", ON)
    assert "908" in ran.out  # 150 legs + 720 unit + 38 worktop
    for part in ("150 legs", "720", "38"):
        assert part in ran.out


def test_what_is_missing_is_named_and_not_left_out(here: Here, write: Write) -> None:
    write("plan.yaml", BOOT_ROOM.replace("height: 720, ", ""))
    ran = here("show", "bench top", "plan.yaml", "--on", ON)
    assert ran.status == 0
    assert "not known" in ran.out


def test_what_the_rules_say_of_it_is_shown(here: Here, write: Write) -> None:
    write("plan.yaml", PUMP_HOUSE)
    ran = here("show", "dishwasher", "plan.yaml", "--rules", write("own.yaml", own_rule()))
    assert "rule waste-fall: met" in lines_about(ran.out, "rule waste-fall")
    said = lines_about(ran.out, "rule steeper-waste")
    assert "not met" in said
    assert "25 mm/m" in said
    assert "30 mm/m" in said


@pytest.mark.parametrize("name", ["g2", "G2", "bench / G2"])
def test_names_are_found_however_they_are_spelt(here: Here, write: Write, name: str) -> None:
    ran = here("show", name, write("plan.yaml", BOOT_ROOM))
    assert ran.status == 0
    assert ran.out.startswith("G2")


def test_a_name_there_is_not_leaves_with_1_and_the_nearest(here: Here, write: Write) -> None:
    ran = here("show", "bench topp", write("plan.yaml", BOOT_ROOM))
    assert (ran.status, ran.out) == (1, "")
    assert "«bench topp»" in ran.err
    assert "Perhaps «bench top» was meant." in " ".join(ran.err.split())


@pytest.mark.parametrize("name", ["", " ", "\x1b[31mG1", "G1\n", "x" * 500])
def test_any_text_may_be_asked_for(here: Here, write: Write, name: str) -> None:
    ran = here("show", name, write("plan.yaml", BOOT_ROOM))
    assert ran.status in (0, 1)
    assert "\x1b" not in ran.out + ran.err
    assert all(len(line) <= 80 for line in (ran.out + ran.err).splitlines())


def test_a_plan_that_cannot_be_read_leaves_with_2(here: Here, write: Write) -> None:
    ran = here("show", "G1", write("plan.yaml", BOOT_ROOM.replace("lane", "{lane")))
    assert (ran.status, ran.out) == (2, "")
    assert "plan.yaml" in ran.err


def test_a_plan_is_read_from_standard_input(write: Write) -> None:
    ran = dryfit("show", "G1", "-", stdin=BOOT_ROOM.encode())
    assert ran.status == 0
    assert ran.out.startswith("G1")


def test_everything_a_report_names_can_be_shown(here: Here) -> None:
    """Every thing that an outcome of a demo plan is about, by the name the report prints."""
    plan = DEMO / "weavers-row"
    report = json.loads(here("check", plan, "--on", ON, "--form", "json").out)
    of_a_row = {outcome["thing"] for outcome in report["outcomes"] if outcome["checks"]}
    assert len(of_a_row) > 20
    for thing in sorted(of_a_row):
        ran = here("show", thing, plan, "--on", ON)
        assert (thing, ran.status) == (thing, 0)
        assert all(len(line) <= 80 for line in ran.out.splitlines())


def test_of_a_wall_all_that_is_known_is_shown_with_how_it_is_known(here: Here, write: Write) -> None:
    plan = write(
        "plan.yaml",
        BOOT_ROOM.replace("walls:\n", "layers: {front: [lime plaster 24, solid brick 215]}\nwalls:\n").replace(
            "yard: {length:", "yard: {made of: front, length:"
        )
        + "routes: {old feed: {is: cable, wall: yard, from: '300 from lane, 400', deep: 25}}\n"
        + "built:\n"
        + "  trial hole: {wall: yard, layers: [lime plaster 31, solid brick], known by: trial hole, seen: 2027-01-20}\n"
        + "  spun plug: {wall: yard, along: 700 from lane, up: 1400, failed: 60 deep}\n",
    )
    ran = here("show", "wall", "yard", plan, "--on", ON)
    assert (ran.status, ran.err) == (0, "")
    assert max(len(line) for line in ran.out.splitlines()) <= 80
    said = " ".join(ran.out.split())
    assert "BEHIND THE YARD WALL" in said
    assert "lime plaster 31 0 as found, trial hole: trial hole, 20 January 2027" in said
    assert "solid brick 215 31 as drawn" in said
    assert "P1 1909 to 1912 1100 double socket; nobody knows which way its cable goes" in said
    assert "old feed cable, 25 deep" in said
    assert "failed hole, 60 deep" in said


def test_a_sheet_of_a_wall_gives_heights_above_the_floor_to_come_as_well(here: Here, write: Write) -> None:
    plan = write("plan.yaml", BOOT_ROOM.replace("floors: none", "floors: {vinyl: {thickness: 10, underlay: 2}}"))
    ran = here("show", "yard wall", plan, "--on", ON)
    assert "P1 1909 to 1912 1100 1088" in " ".join(ran.out.split())


def test_a_sheet_of_an_american_wall_is_in_inches(here: Here) -> None:
    ran = here("show", "wall", "north", DEMO / "cedar-street", "--on", ON)
    assert ran.status == 0
    assert "receptacle" in ran.out
    assert max(len(line) for line in ran.out.splitlines()) <= 80


def test_of_a_wall_unit_it_says_first_what_holds_it_and_with_what_reserve() -> None:
    ran = dryfit("show", "W1", DEMO / "tern-cottage", "--on", ON)
    first, second, *_ = ran.out.splitlines()
    assert first.startswith("W1, north wall: hung unit on its fixings")
    assert second.strip() == "held by rail, in brick, 2 of them, reserve 2.85"
