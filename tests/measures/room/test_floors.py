"""Edges, runs and bases of floors to be laid."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, gaps, left_out, row, rows, to_find
from validator.measures.rows import Why

EDGE = "edge of a floating floor"
FIELD = "floating floor"
BASE = "base under a floor"

ROOM = """
layers: {slab: [cement screed 60, concrete 150]}
walls:
  north: {length: [5210, 5204]}
  east: {length: 3360 to 3380}
  south: {length: 5190}
  west: {length: [3372, 3377]}
"""

LAMINATE = "floors: {laminate: {thickness: 8, gap: 9, runs: east to west, fixed: {boiler plinth: 7}}}\n"


def test_a_floating_floor_has_an_edge_at_every_wall_and_every_fixed_thing() -> None:
    found = rows(ROOM + LAMINATE, EDGE)
    assert [(edge.at, edge.gap) for edge in found] == [
        ("north", 9),
        ("east", 9),
        ("south", 9),
        ("west", 9),
        ("boiler plinth", 7),
    ]


def test_what_pushes_on_a_wall_is_the_room_at_right_angles_to_it_at_its_longest() -> None:
    north, east, *_ = rows(ROOM + LAMINATE, EDGE)
    assert ends(north, "run") == (3377, 3380)
    assert ends(east, "run") == (5210, 5210)


def test_what_pushes_on_a_fixed_thing_is_the_longest_floor_of_the_room() -> None:
    *_, plinth = rows(ROOM + LAMINATE, EDGE)
    assert plinth.run == 5210


def test_a_wall_that_nobody_measured_leaves_the_floor_beside_it_unknown() -> None:
    north, east, *_ = rows(ROOM.replace("west: {length: [3372, 3377]}", "west: {}") + LAMINATE, EDGE)
    assert to_find(north, "run") == {"/walls/west/length"}
    assert east.run == 5210


def test_a_room_that_is_no_rectangle_is_a_question() -> None:
    room = ROOM + "  niche: {length: 900}\n"
    north, *_ = rows(room + LAMINATE, EDGE)
    (gap,) = gaps(north, "run")
    assert (gap.pointer, gap.why) == ("/walls", Why.UNCLEAR)
    assert gap.detail == "how far does the floor reach from the north wall, at right angles to it?"


@pytest.mark.parametrize("covering", ["porcelain tiles", "glued vinyl"])
def test_floors_that_are_fixed_to_their_base_have_no_edges_to_judge(covering: str) -> None:
    floors = f"floors: {{{covering}: {{thickness: 10}}}}"
    assert rows(ROOM + floors, EDGE) == []
    assert left_out(ROOM + floors, EDGE) == []


def test_a_floor_nobody_has_heard_of_may_float_or_not() -> None:
    floors = "floors: {pressed bamboo tongue: {thickness: 10, gap: 8}}"
    assert rows(ROOM + floors, EDGE) == []
    assert left_out(ROOM + floors, EDGE) == ["/floors/pressed bamboo tongue"]


def test_a_gap_that_is_left_out_is_to_find_out() -> None:
    north, *_ = rows(ROOM + LAMINATE.replace("gap: 9, ", ""), EDGE)
    assert to_find(north, "gap") == {"/floors/laminate/gap"}


def test_along_and_across_follow_from_how_the_boards_run() -> None:
    along_the_room = row(ROOM + LAMINATE, FIELD)
    assert (along_the_room.along, ends(along_the_room, "across")) == (5210, (3377, 3380))
    across_the_room = row(ROOM + LAMINATE.replace("east to west", "south to north"), FIELD)
    assert (ends(across_the_room, "along"), across_the_room.across) == ((3377, 3380), 5210)


def test_boards_that_run_to_a_wall_beside_are_a_question() -> None:
    floor = row(ROOM + LAMINATE.replace("east to west", "east to north"), FIELD)
    (gap,) = gaps(floor, "along")
    assert (gap.pointer, gap.why) == ("/floors/laminate/runs", Why.UNCLEAR)


def test_without_the_way_the_boards_run_neither_length_is_known() -> None:
    floor = row(ROOM + LAMINATE.replace("runs: east to west, ", ""), FIELD)
    assert to_find(floor, "along") == to_find(floor, "across") == {"/floors/laminate/runs"}


def test_a_makers_gap_and_longest_run_come_from_the_floors_paper() -> None:
    stated = "stated: {laminate: {read: pack, gap: 10, longest run: 8 m}}\n"
    assert rows(ROOM + LAMINATE + stated, EDGE)[0].maker_gap == 10
    assert row(ROOM + LAMINATE + stated, FIELD).maker_longest == 8000


def test_a_floors_paper_is_unread_until_it_gives_a_figure_or_none() -> None:
    half_read = "stated: {laminate: {read: pack, gap: none}}\n"
    assert [gap.why for gap in gaps(row(ROOM + LAMINATE + half_read, FIELD), "maker_longest")] == [Why.UNREAD]
    assert [gap.why for gap in gaps(rows(ROOM + LAMINATE + half_read, EDGE)[0], "maker_gap")] == [Why.NOTHING_STATED]


def test_the_base_is_the_top_layer_of_the_floor_with_its_reading_and_meter() -> None:
    floor = "floor: {made of: slab, moisture: 68 % by hygrometer, heated: no}\n"
    base = row(ROOM + LAMINATE + floor, BASE)
    assert (base.base, base.reading, base.meter, base.heated) == ("cement screed", 0.68, "hygrometer", False)


def test_a_base_nobody_has_read_the_moisture_of_is_not_known() -> None:
    base = row(ROOM + LAMINATE + "floor: {made of: slab}\n", BASE)
    assert to_find(base, "reading") == {"/floor/moisture"}
    assert to_find(base, "heated") == {"/floor/heated"}


def test_a_fixed_floor_has_a_base_too() -> None:
    floor = "floors: {porcelain tiles: {thickness: 10}}\nfloor: {made of: slab}\n"
    assert row(ROOM + floor, BASE).covering == "porcelain tiles"


def test_no_floors_is_no_rows_and_floors_left_out_is_not_known() -> None:
    for kind in (EDGE, FIELD, BASE):
        assert left_out(ROOM, kind) == ["/floors"]
        assert left_out(ROOM + "floors: none\n", kind) == []
        assert rows(ROOM + "floors: none\n", kind) == []
