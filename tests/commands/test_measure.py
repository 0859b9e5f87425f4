"""`dryfit measure`: what is not known, in the order in which it is walked, with where each answer goes."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.commands.conftest import Here, Write
from tests.commands.running import DEMO, ON, PUMP_HOUSE

BOATHOUSE = """\
dryfit: 1
heights from: bare floor
project: {title: Boathouse, country: GB-ENG, lengths in: mm}
layers: {boarded: [plasterboard to find out, stud 95]}
ceiling: to find out
walls:
  slip: {made of: boarded, length: to find out}
  quay: {made of: boarded, length: to find out}
floor: {levels: {by the ramp: 0, at the hatch: to find out}}
floors: none
kinds:
  base: {height: to find out, legs: 135 to 180}
  wall: {height: 720, hangers: {down: 35, in: 40}}
  worktop: {thickness: 38}
runs:
  galley:
    against: quay
    legs: to find out
    order: {G1: base 600, G2: base 500, G3: base 400}
  lockers:
    against: slip
    underside: 1500
    order: {L1: wall 600}
worktops: {top: {on: galley}}
appliances:
  dishwasher: {in: G1, waste: 40 mm to stack to find out at 25 mm/m}
  sink: {in: G3, waste: to find out by plumber}
points:
  P1: {is: double socket, wall: quay, along: 1300 from slip, up: to find out, plate: 146 x 86}
  P2: {is: double socket, wall: quay, along: 150 from slip, up: to find out, plate: 146 x 86}
circuits: none
fixings:
  rail: {for: lockers, at: hangers, into: studs, through: 18, screw: 5 x 100, hole: 4 x 70}
stated:
  rail: {read: box, embedment: to find out}
coatings: none
"""


@pytest.fixture
def plan(write: Write) -> Path:
    return write("plan.yaml", BOATHOUSE)


def asked(here: Here, plan: Path) -> list[dict[str, Any]]:
    ran = here("measure", plan, "--form", "json", "--on", ON)
    assert ran.status == 0
    entries: list[dict[str, Any]] = json.loads(ran.out)["to find out"]
    return entries


def test_walls_come_as_listed_then_the_room_then_people_then_papers_then_choices(here: Here, plan: Path) -> None:
    parts = list(dict.fromkeys(entry["part"] for entry in asked(here, plan)))
    assert parts == [
        "slip wall, from left to right",
        "quay wall, from left to right",
        "Floor, ceiling and the rest of the room",
        "Ask: plumber",
        "In lists, leaflets and boxes, on rating plates and parts",
        "To choose",
    ]


def test_along_a_wall_one_walks_from_left_to_right(here: Here, plan: Path) -> None:
    quay = [entry["key"] for entry in asked(here, plan) if entry.get("wall") == "quay"]
    assert quay == [
        "walls / quay / length",
        "points / P2 / up",
        "appliances / dishwasher / waste / length",
        "points / P1 / up",
    ]


def test_what_a_kind_leaves_open_is_asked_once_at_the_kind(here: Here, plan: Path) -> None:
    heights = [entry for entry in asked(here, plan) if entry["key"].endswith("/ height")]
    assert [(entry["key"], entry["what"]) for entry in heights] == [("kinds / base / height", "height of each base")]


def test_one_answer_that_settles_several_figures_is_asked_once(here: Here, plan: Path) -> None:
    wastes = [entry for entry in asked(here, plan) if entry["key"].startswith("appliances / sink / waste")]
    assert [(entry["key"], entry["ask"]) for entry in wastes] == [("appliances / sink / waste", "plumber")]


def test_where_the_tightest_counts_three_readings_are_asked_for(here: Here, plan: Path) -> None:
    thrice = {entry["key"] for entry in asked(here, plan) if entry["readings"] == 3}
    assert thrice == {"walls / slip / length", "walls / quay / length", "ceiling"}
    line = next(line for line in here("measure", plan).out.splitlines() if "walls / slip / length" in line)
    assert line.split("length")[1].split() == ["_" * 10] * 3


def test_numbers_and_places_are_those_of_the_report(here: Here, plan: Path) -> None:
    report = json.loads(here("check", plan, "--form", "json", "--on", ON).out)
    in_report = {errand["number"]: errand["answer at"] for errand in report["errands"]}
    in_list = {entry["number"]: entry["at"] for entry in asked(here, plan) if entry["number"] is not None}
    assert in_list == in_report


def test_every_entry_has_words_how_to_find_it_out(here: Here, plan: Path) -> None:
    assert all(entry["how"] and entry["what"] for entry in asked(here, plan))


@pytest.mark.parametrize(
    ("key", "before", "after"),
    [
        (
            "walls / slip / length",
            "slip: {made of: boarded, length: to find out}",
            "slip: {length: [2410, 2408, 2411]}",
        ),
        ("points / P1 / up", "1300 from slip, up: to find out", "1300 from slip, up: 1100"),
        ("kinds / base / height", "base: {height: to find out", "base: {height: 720"),
        ("appliances / sink / waste", "waste: to find out by plumber", "waste: 40 mm to stack 900 at 25 mm/m"),
        ("ceiling", "ceiling: to find out", "ceiling: [2405, 2401, 2402]"),
    ],
)
def test_an_answer_typed_back_at_its_key_is_asked_no_more(
    here: Here, write: Write, key: str, before: str, after: str
) -> None:
    assert BOATHOUSE.count(before) == 1
    assert key in {entry["key"] for entry in asked(here, write("plan.yaml", BOATHOUSE))}
    assert key not in {entry["key"] for entry in asked(here, write("plan.yaml", BOATHOUSE.replace(before, after)))}


def test_a_paper_nobody_has_read_is_on_the_list_though_nothing_waits_for_it(here: Here, write: Write) -> None:
    text = (DEMO / "tern-cottage" / "kinds.yaml").read_text("utf-8")
    assert "opening height: 820" in text
    for file in (DEMO / "tern-cottage").glob("*.yaml"):
        write(
            f"plan/{file.name}", file.read_text("utf-8").replace("opening height: 820", "opening height: to find out")
        )
    found = [(entry["key"], entry["number"]) for entry in asked(here, Path("plan"))]
    assert found == [("stated / dishwasher / opening height", None)]


def test_an_assumed_figure_is_on_the_list_to_be_made_sure_of(here: Here, write: Write) -> None:
    entries = asked(here, write("plan.yaml", PUMP_HOUSE.replace("25 mm/m", "25 mm/m assumed")))
    fall = next(entry for entry in entries if entry["key"] == "appliances / dishwasher / waste / fall")
    assert fall["number"] is None
    assert "assumed" in fall["how"]


def test_a_section_left_out_is_asked_for_or_said_to_be_none(here: Here, write: Write) -> None:
    entries = asked(here, write("plan.yaml", PUMP_HOUSE.replace("points: none\n", "")))
    assert any("`points: none`" in entry["how"] for entry in entries)


def test_the_list_fits_a_printed_page(here: Here, plan: Path) -> None:
    assert max(map(len, here("measure", plan).out.splitlines())) <= 80


def test_nothing_left_to_find_out_is_said(here: Here) -> None:
    ran = here("measure", DEMO / "tern-cottage", "--on", ON)
    assert ran.status == 0
    assert "Nothing is left to find out." in ran.out


def test_american_plans_have_their_keys_and_words(here: Here) -> None:
    here("new", "kitchen.yaml", "--country", "US-OR")
    entries = asked(here, Path("kitchen.yaml"))
    drain = next(entry for entry in entries if entry["key"] == "appliances / sink / drain")
    assert (drain["what"], drain["wall"]) == ("drain of sink", "north")
    length = next(entry for entry in entries if entry["key"] == "walls / north / length")
    assert "countertop" in length["how"]


def test_a_plan_that_cannot_be_read_has_no_list(here: Here, write: Write) -> None:
    ran = here("measure", write("plan.yaml", "dryfit: 1\nwalls: {a: {lenght: 5}}\n"))
    assert (ran.status, ran.out) == (2, "")
    assert "line 2" in ran.err


def test_what_a_record_leaves_open_is_found_out_at_its_wall(here: Here, write: Write) -> None:
    text = BOATHOUSE + "built: {magnet: {wall: slip, studs: {found: [120, 520, 920]}}}\n"
    found = {each["at"]: each for each in asked(here, write("plan.yaml", text))}
    assert found["/built/magnet/known by"]["wall"] == "slip"
    assert "pilot holes at both its edges" in found["/built/magnet/known by"]["how"]
