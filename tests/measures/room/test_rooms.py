"""Every room with its own floor and ceiling: what stands in one is measured from that one."""

from __future__ import annotations

from tests.measures.plans import left_out, row, rows, site, to_find
from validator.measures.room.walls import at_left, at_right, which_end
from validator.measures.rows import Known

ROOMS = """
heights from: finished floor
ceiling: 2400 from bare floor
walls: {north: {length: 4200}, east: {length: 3000}, south: {length: 4200}, west: {length: 3000}}
floor: {levels: {door: 0, sink: 6 low}}
floors: {laminate: {thickness: 8, underlay: 2, laid: after units, gap: 10}}
openings: none
rooms:
  utility:
    ceiling: 2200 from bare floor
    walls: {north: {length: 2000}, lane: {length: 1500}, south: {length: 2000}, yard: {length: 1500}}
    floor: {levels: {door: 0, drain: 14 low}}
    floors: {tiles: {thickness: 10, underlay: none, sheet: 7, laid: before units}}
kinds: {base: {height: 720, legs: 100 to 170}}
runs:
  sink run: {against: room / north, legs: 150, order: {B1: base 600}}
  wash run: {against: utility / north, from: 100 from yard, legs: 150, order: {U1: base 600}}
  island: {faces: lane, aisle: 1000, legs: 150, order: {U2: base 600}}
worktops: {top: {on: sink run, thickness: 38}, bench: {on: wash run, thickness: 38}, slab: {on: island, thickness: 38}}
"""


def test_the_walls_of_a_room_meet_each_other_and_no_others() -> None:
    plan = site(ROOMS).plan
    assert [at_left(plan, "utility / north"), at_right(plan, "utility / north")] == ["yard", "lane"]
    assert [at_left(plan, "room / north"), at_right(plan, "east")] == ["west", "room / south"]
    assert [which_end(plan, "lane", name) for name in ("north", "utility / south", "east")] == ["left", "right", ""]


def test_a_worktop_counts_from_the_floor_of_its_own_room_also_that_of_an_island() -> None:
    assert [(top.subject.name, top.above_bare_floor, top.height) for top in rows(ROOMS, "worktop on a run")] == [
        ("top", 908, 898),
        ("bench", 925, 908),
        ("slab", 925, 908),
    ]


def test_legs_reach_the_low_spot_of_their_own_room() -> None:
    assert [unit.at_low_spot for unit in rows(ROOMS, "unit on legs")] == [156, 164, 164]


def test_a_ceiling_is_that_of_the_room_of_a_wall() -> None:
    levels = site(ROOMS).levels
    ceilings = [levels.at(wall).ceiling for wall in ("east", "lane", "island")]
    assert [ceiling.value for ceiling in ceilings if isinstance(ceiling, Known)] == [2400, 2200, 2200]


def test_each_room_has_a_floor_build_up_and_says_of_which_room_it_is() -> None:
    found = rows(ROOMS, "floor build-up")
    assert [(floor.subject.context, floor.thickness) for floor in found] == [("room", 10), ("utility", 17)]


def test_a_room_that_says_nothing_of_its_doors_and_windows_is_asked_for_them() -> None:
    assert left_out(ROOMS, "thing at an opening") == ["/rooms/utility/openings"]


def test_a_room_without_floors_is_asked_for_its_own() -> None:
    text = ROOMS.replace("    floors: {tiles: {thickness: 10, underlay: none, sheet: 7, laid: before units}}\n", "")
    _, bench, _ = rows(text, "worktop on a run")
    assert to_find(bench, "height") == {"/rooms/utility/floors"}
    assert left_out(text, "floor build-up") == ["/rooms/utility/floors"]


def test_a_floating_floor_meets_the_walls_of_its_own_room() -> None:
    assert [edge.at for edge in rows(ROOMS, "edge of a floating floor")] == [
        "room / north",
        "east",
        "room / south",
        "west",
    ]


def test_one_floor_at_the_top_of_a_plan_without_walls_there_is_laid_in_every_room() -> None:
    text = """
floors: {laminate: {thickness: 8, underlay: 2, laid: after units, gap: 10}}
rooms:
  hall: {walls: {a: {length: 1000}, b: {length: 900}, c: {length: 1000}, d: {length: 900}}}
  den: {walls: {e: {length: 3000}, f: {length: 2000}, g: {length: 3000}, h: {length: 2000}}}
"""
    assert row(text, "floor build-up").thickness == 10
    assert [edge.run for edge in rows(text, "edge of a floating floor")] == [
        900,
        1000,
        900,
        1000,
        2000,
        3000,
        2000,
        3000,
    ]
