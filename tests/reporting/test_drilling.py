"""The drilling schedule: every hole as somebody drills it, as text and as data."""

from __future__ import annotations

import functools
import re
from typing import Any

import pytest

from tests.reporting.plans import DAY, REPOSITORY
from validator.commands.inspecting import Inspector
from validator.judging.apply import Judgement
from validator.plan.files import read_plan
from validator.reporting.drilling import as_data, as_text
from validator.reporting.style import Style

DEMOS = sorted(path.name for path in (REPOSITORY / "plans_demo").iterdir() if path.is_dir())
WIDTH = 80

SHED = """\
dryfit: 1
heights from: bare floor
project: {title: Kiln shed, country: GB-ENG, lengths in: mm}
layers: {tiled: [tile 8, plaster 13, brick 215], block: [perforated brick 100], frame: [plasterboard 12.5, stud 90]}
ceiling: 2400
floors: {stone: {thickness: 20, underlay: none, laid: before units}}
worktops: none
runs: none
fixings: none
walls:
  north: {made of: tiled, length: 3000, beyond: none}
  east: {made of: block, length: 2000, beyond: none}
  south: {made of: frame, length: 3000, beyond: none}
  west: {made of: block, length: 2000, beyond: none}
kinds: {double socket: {plate: 146 x 86, cable: straight up}}
points: {S1: {is: double socket, wall: north, along: 1000 from west, up: 1100}}
routes:
  hob pipe: {is: gas pipe, wall: east, from: '500 from north, 0', to: '500 from north, 900', known by: photo}
drill:
  D2: {wall: north, along: 1050 from west, up: 1520, for: shelf, hole: 8 x 60}
  D1: {wall: north, along: 400 from west, up: 1520, hole: 8 x 60}
  D3: {wall: east, along: 530 from north, up: 800, hole: 6 x 50}
  D4: {wall: south, along: 1500 from west, up: 1000, hole: 3 x 40}
  D5: {wall: south, along: 3400 from east, up: 1000}
"""


@functools.cache
def judged(text: str) -> Judgement:
    """A plan in one text, judged by all rules of its country."""
    return Inspector((), DAY).inspect(read_plan(["-"], text.encode))


@functools.cache
def demo(name: str) -> Judgement:
    return Inspector((), DAY).inspect(read_plan([str(REPOSITORY / "plans_demo" / name)], bytes))


def text_of(judgement: Judgement) -> str:
    return as_text(judgement, Style())


def holes_of(judgement: Judgement) -> dict[str, Any]:
    return {hole["name"]: hole for hole in as_data(judgement)["holes"]}


def lines_of(judgement: Judgement, name: str) -> list[str]:
    """The lines about one hole, without the spaces around them."""
    lines = text_of(judgement).splitlines()
    at = next(number for number, line in enumerate(lines) if line.startswith(f"{name} "))
    found = [lines[at]]
    for line in lines[at + 1 :]:
        if not line.startswith("    "):
            break
        found.append(line)
    return [" ".join(line.split()) for line in found]


@pytest.mark.parametrize("name", DEMOS)
def test_the_schedule_of_every_demo_fits_a_page(name: str) -> None:
    text = text_of(demo(name))
    assert [line for line in text.splitlines() if len(line) > WIDTH] == []
    assert text.startswith("HOLES TO DRILL")


@pytest.mark.parametrize("name", DEMOS)
def test_text_and_data_tell_of_the_same_holes(name: str) -> None:
    text = text_of(demo(name))
    assert all(f"\n{hole}" in text for hole in holes_of(demo(name)))


def test_holes_stand_wall_by_wall_from_the_left() -> None:
    shed = judged(SHED)
    assert list(holes_of(shed)) == ["D1", "D2", "D3", "D4", "D5"]


def test_a_height_is_from_the_floor_that_is_there_that_day() -> None:
    shed = judged(SHED)
    assert holes_of(shed)["D1"]["up"] == [1500, 1500]
    assert "up from the finished floor, there that day" in text_of(shed)
    shed = judged(SHED.replace("before units", "after units"))
    assert holes_of(shed)["D1"]["up"] == [1520, 1520]
    assert "up from the bare floor, there that day" in text_of(shed)


def test_without_a_floor_in_the_plan_heights_are_from_the_bare_floor_and_say_so() -> None:
    shed = judged(SHED.replace("floors: {stone: {thickness: 20, underlay: none, laid: before units}}\n", ""))
    assert holes_of(shed)["D1"]["up"] is None
    assert lines_of(shed, "D1")[0] == "D1 400 1520 - 8 60"
    assert "which floor is there that day is not known" in text_of(shed)


@pytest.mark.parametrize(
    ("hole", "into", "drill"),
    [
        ("D1", "brick", "tile bit with hammer off, then hammer on"),
        ("D3", "perforated brick", "hammer off"),
        ("D4", "stud", "wood bit"),
    ],
)
def test_hammer_or_not_follows_from_what_the_hole_goes_into(hole: str, into: str, drill: str) -> None:
    shed = judged(SHED)
    found = holes_of(shed)[hole]
    assert (found["into"], found["drill"]) == (into, drill)


def test_what_is_near_is_named_with_how_far() -> None:
    shed = judged(SHED)
    assert lines_of(shed, "D1") == [
        "D1 400 1500 - 8 60",
        "into brick, tile bit with hammer off, then hammer on, clear",
        "near: strip of S1 527 away",
    ]
    assert lines_of(shed, "D2")[1:3] == [
        "shelf, into brick, tile bit with hammer off, then hammer on, IN A STRIP",
        "near: inside the strip of S1 by 23",
    ]
    assert holes_of(shed)["D3"]["near"] == [{"name": "hob pipe", "what": "gas pipe", "clear": 30}]


def test_what_is_wrong_says_by_how_much() -> None:
    shed = judged(SHED)
    assert lines_of(shed, "D3")[1:] == [
        "into perforated brick, hammer off, TOO NEAR",
        "near: hob pipe (gas pipe) 30 away",
        "Hole clear of a recorded gas pipe: short by 20",
    ]


def test_a_hole_beyond_its_wall_is_off_its_wall_whatever_else_is_said() -> None:
    shed = judged(SHED)
    assert holes_of(shed)["D5"]["outcome"] == "off its wall"


def test_nothing_near_is_said_to_be_what_the_plan_knows() -> None:
    shed = judged(SHED)
    assert "near: nothing that the plan knows of" in lines_of(shed, "D4")


def test_routes_left_out_are_told_once_and_leave_every_hole_open() -> None:
    shed = judged("".join(line for line in SHED.splitlines(True) if "hob pipe" not in line and line != "routes:\n"))
    text = text_of(shed)
    assert text.count("NOT KNOWN of every hole") == 1
    assert {hole["outcome"] for hole in holes_of(shed).values()} == {"in a strip", "not known", "off its wall"}


def test_an_inch_plan_is_drilled_in_inches() -> None:
    text = text_of(demo("cedar-street"))
    assert "In inches" in text
    assert "15-1/4    87-1/4    51-1/2" in text


def test_a_plan_without_holes_says_so() -> None:
    shed = judged(SHED.partition("drill:")[0])
    assert text_of(shed).splitlines()[-1] == "There is no hole to drill."
    assert holes_of(shed) == {}


SEVERE = {"off its wall": 4, "too deep": 4, "too near": 3, "in a strip": 3, "not known": 2, "with care": 1, "clear": 0}


@pytest.mark.parametrize("known", ["photo", "drawing", "guess"])
@pytest.mark.parametrize("what", ["cable", "gas pipe", "water pipe"])
def test_a_hole_nearer_to_a_route_is_never_told_better(what: str, known: str) -> None:
    runs = f"from: '20 from north, 0', to: '20 from north, 900', known by: {known}"
    route = f"routes: {{R: {{is: {what}, wall: east, {runs}}}}}"
    holes = "".join(
        f"  D{away}: {{wall: east, along: {20 + away} from north, up: 500}}\n" for away in range(0, 400, 10)
    )
    start = SHED.partition("routes:")[0]
    found = holes_of(judged(f"{start}{route}\ndrill:\n{holes}"))
    grave = [SEVERE[found[f"D{away}"]["outcome"]] for away in range(0, 400, 10)]
    assert grave == sorted(grave, reverse=True)
    assert grave[0] == 3


def test_the_same_plan_in_inches_is_told_the_same() -> None:
    metric = judged(SHED)
    head, _, body = SHED.partition("layers:")
    in_mm = re.sub(r"\b(\d+(?:\.\d+)?)\b", r"\1 mm", body)
    inches = judged(f"{head.replace('lengths in: mm', 'lengths in: in')}layers:{in_mm}")
    assert [hole["outcome"] for hole in as_data(metric)["holes"]] == [
        hole["outcome"] for hole in as_data(inches)["holes"]
    ]


def test_a_deeper_hole_is_never_told_better() -> None:
    line = "wall: east, along: 1200 from north, up: 500, hole: 6 x"
    holes = "".join(f"  D{deep}: {{{line} {deep}}}\n" for deep in range(20, 140, 10))
    found = holes_of(judged(f"{SHED.partition('drill:')[0]}drill:\n{holes}"))
    grave = [SEVERE[found[f"D{deep}"]["outcome"]] for deep in range(20, 140, 10)]
    assert grave == sorted(grave)
    assert (grave[0], grave[-1]) == (0, 4)
