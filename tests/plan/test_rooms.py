"""Several rooms in one plan: what each holds, by which names their walls are called, and what is wrong with them."""

from __future__ import annotations

import json

import pytest

from tests.plan.plans import HEAD, Wrong, plan, problems
from validator.plan.json_reader import read_json
from validator.plan.load import load
from validator.plan.merging import merge
from validator.plan.plan import Plan
from validator.plan.problems import Unreadable
from validator.plan.toml_reader import read_toml
from validator.plan.yaml_reader import read_yaml

ROOMS = """\
ceiling: 2400
walls: {north: {length: 4200}, east: {length: 3000}, south: {length: 4200}, west: {length: 3000}}
openings: {window: {wall: north, along: 500 from west}, hatch: {wall: lane, along: 300 from utility / north}}
rooms:
  utility:
    ceiling: 2200
    walls: {north: {length: 2000}, lane: {length: 1500}, south: {length: 2000}, yard: {length: 1500}}
    corners: {north-lane: 5 open in 600}
    openings: {window: {wall: north, along: 400 from yard}}
    floors: none
kinds: {base: {height: 720}}
runs:
  sink run: {against: room / north, order: {B1: base 600}}
  wash run: {against: utility / north, from: 100 from yard, order: {U1: base 600, U2: {is: base, corner: north-lane}}}
  island: {faces: lane, aisle: 1000, order: {U3: base 600}}
"""


@pytest.fixture(scope="module")
def rooms() -> Plan:
    return plan(ROOMS)


def test_each_room_has_its_walls_in_walking_order_by_the_names_of_the_plan(rooms: Plan) -> None:
    assert {name: list(room.walls) for name, room in rooms.rooms.items()} == {
        "room": ["room / north", "east", "room / south", "west"],
        "utility": ["utility / north", "lane", "utility / south", "yard"],
    }


def test_the_walls_of_all_rooms_are_found_by_a_name_alone_or_with_the_room(rooms: Plan) -> None:
    assert rooms.walls["lane"] is rooms.walls["utility / lane"]
    assert (rooms.walls["Utility / North"].pointer, "north" in rooms.walls) == ("/rooms/utility/walls/north", False)


def test_inside_a_room_a_wall_needs_no_room_before_its_name(rooms: Plan) -> None:
    utility = rooms.rooms["utility"]
    assert utility.openings["window"].wall == "utility / north"
    assert utility.walls["north"] is rooms.walls["utility / north"]


def test_an_opening_at_the_top_belongs_to_the_room_of_its_wall(rooms: Plan) -> None:
    assert {name: list(room.openings) for name, room in rooms.rooms.items()} == {
        "room": ["window"],
        "utility": ["window", "hatch"],
    }
    assert list(rooms.openings) == ["room / window", "utility / window", "hatch"]


def test_an_island_belongs_to_the_room_of_the_wall_it_faces(rooms: Plan) -> None:
    assert [getattr(rooms.room_of(name), "name", None) for name in ("lane", "island", "west", "moon")] == [
        "utility",
        "utility",
        "room",
        None,
    ]


def test_a_corner_is_named_by_the_two_walls_of_its_room(rooms: Plan) -> None:
    utility = rooms.rooms["utility"]
    assert [utility.corner(name) for name in ("north-lane", "utility / lane-north", "north-east")] == [
        ("utility / north", "lane"),
        ("utility / north", "lane"),
        None,
    ]


def test_the_project_may_name_the_room_at_the_top() -> None:
    head = HEAD.replace("title:", "room: kitchen, title:")
    found = plan(ROOMS.replace("room / north", "kitchen / north"), head)
    assert list(found.rooms) == ["kitchen", "utility"]


def test_without_walls_at_the_top_every_room_has_what_stands_there_and_it_does_not_say_itself() -> None:
    found = plan(
        "ceiling: 2400\nfloors: {cork: {thickness: 6}}\n"
        "rooms: {utility: {walls: {lane: {}}, floors: none}, scullery: {ceiling: 2100, walls: {well: {}}}}\n"
    )
    assert [(room.name, room.ceiling.height.amount.low, list(room.floors)) for room in found.rooms.values()] == [  # type: ignore[union-attr]
        ("utility", 2400, []),
        ("scullery", 2100, ["cork"]),
    ]


def test_a_plan_without_rooms_has_one_whose_name_nobody_is_told() -> None:
    (room,) = plan("walls: {north: {}, east: {}}\n").rooms.values()
    assert (room.called, list(room.walls), room.pointer_to("floor")) == ("", ["north", "east"], "/floor")


MEET = "the utility / south wall does not meet the utility / north wall"
TYPO = "no wall of this plan is called `utilty / north`"


@pytest.mark.parametrize(
    ("changed", "expected"),
    [
        (("against: room / north", "against: north"), Wrong(16, "several rooms have a north wall", "")),
        (("against: room / north", "against: utilty / north"), Wrong(16, TYPO, "utility / north")),
        (("100 from yard", "100 from west"), Wrong(17, "no wall of the utility is called `west`", "")),
        (("100 from yard", "100 from south"), Wrong(17, MEET, "")),
        (
            ("corner: north-lane", "corner: north-east"),
            Wrong(17, "`north-east` is no corner of the room", "north-lane"),
        ),
        (("north, along: 400", "nroth, along: 400"), Wrong(12, "no wall of the utility is called `nroth`", "north")),
        (("    floors: none", "    flors: none"), Wrong(13, "a room has no `flors`", "floors")),
        (("    floors", "    flooring: none\n    floors"), Wrong(14, "`floors` and `flooring` are one", "")),
        (("  utility:", "  room: none\n  utility:"), Wrong(8, "`room` is the room at the top", "")),
    ],
)
def test_what_is_wrong_with_a_room_is_said_at_its_place(changed: tuple[str, str], expected: Wrong) -> None:
    assert ROOMS.count(changed[0]) == 1
    assert expected in problems(ROOMS.replace(*changed))


def test_what_is_no_room_at_all_is_said() -> None:
    assert problems("rooms: {utility: tidy}\n") == [Wrong(4, "a room cannot be `tidy`", "")]
    assert problems("rooms: tidy\n") == [Wrong(4, "`rooms` cannot be `tidy`", "")]


def test_a_name_that_no_room_has_alone_is_asked_for_where_no_walls_stand_at_the_top() -> None:
    text = "rooms: {a: {walls: {north: {}}}, b: {walls: {north: {}}}}\nopenings: {door: {wall: north}}\n"
    assert problems(text) == [Wrong(5, "several rooms have a north wall", "")]


def test_the_files_of_a_plan_go_on_with_a_room_part_by_part() -> None:
    survey = read_yaml("dryfit: 1\nrooms: {utility: {walls: {lane: {}}}}\n", "survey.yaml")
    layout = read_yaml("dryfit: 1\nrooms: {Utility: {floors: none}}\n", "layout.yaml")
    found = load(merge([survey, layout])).rooms["utility"]
    assert (list(found.walls), found.floors.none) == (["lane"], True)
    again = read_yaml("dryfit: 1\nrooms: {utility: {walls: {yard: {}}}}\n", "more.yaml")
    with pytest.raises(Unreadable, match=r"survey\.yaml, line 2"):
        merge([survey, again])


def test_rooms_are_the_same_in_json_and_toml() -> None:
    data = {
        "dryfit": 1,
        "rooms": {"utility": {"ceiling": "2200 from bare floor", "walls": {"lane": {"length": 1500}}}},
    }
    toml = """
dryfit = 1
[rooms.utility]
ceiling = "2200 from bare floor"
[rooms.utility.walls]
lane = {length = 1500}
"""
    for document in (read_json(json.dumps(data), "plan.json"), read_toml(toml, "plan.toml")):
        head = read_yaml("dryfit: 1\nproject: {lengths in: mm}\n", "head.yaml")
        found = load(merge([head, document])).rooms["utility"]
        assert (found.walls["lane"].length.low, found.ceiling.height.amount.low) == (1500, 2200)  # type: ignore[union-attr]
