"""Walls, floors and ceilings as found, and what of the room stands in the way of units."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, row, rows, to_find

WALLS = "walls: {n: {length: 4000}, e: {length: 3000}, s: {length: 4000}, w: {length: 3000}}\n"
CEILING = "heights from: bare floor\nceiling: 2400\n"


def wall(said: str) -> str:
    return f"{CEILING}walls: {{n: {{length: 4000, {said}}}, e: {{length: 3000}}}}\n"


@pytest.mark.parametrize(
    ("plumb", "lean", "over", "storey"),
    [
        ("4 out at top", 4, 2400, 4),
        ("6 in at top over 2000", 6, 2000, 7.2),
        ("0", 0, 2400, 0),
        ("{lean: 5, over: 1200}", 5, 1200, 10),
    ],
)
def test_a_lean_holds_over_the_height_it_was_measured_over_else_over_the_storey(
    plumb: str, lean: float, over: float, storey: float
) -> None:
    found = row(wall(f"plumb: {plumb}"), "wall held plumb")
    assert (found.lean, found.over, found.in_storey) == (lean, over, pytest.approx(storey))


def test_a_lean_says_which_way_the_top_goes() -> None:
    assert row(wall("plumb: 4 in at top"), "wall held plumb").subject.context == "n wall, its top leaning in"


def test_without_a_ceiling_a_lean_over_the_storey_is_not_known() -> None:
    found = row(wall("plumb: 4 out at top").replace("ceiling: 2400\n", ""), "wall held plumb")
    assert to_find(found, "in_storey") == {"/ceiling"}


def test_walls_that_nobody_held_plumb_or_flat_make_no_rows() -> None:
    assert rows(WALLS, "wall held plumb") == rows(WALLS, "wall under a straight edge") == []


@pytest.mark.parametrize(("flatness", "gap", "under"), [("3", 3, 2000), ("4 under 1 m", 4, 1000)])
def test_a_flatness_is_under_a_straight_edge_of_two_metres_unless_it_says_so(
    flatness: str, gap: float, under: float
) -> None:
    on_wall = row(wall(f"flatness: {flatness}"), "wall under a straight edge")
    on_floor = row(f"floor: {{flatness: {flatness}}}\n", "floor under a straight edge")
    assert (on_wall.gap, on_wall.under) == (on_floor.gap, on_floor.under) == (gap, under)


def test_a_flatness_still_to_be_found_is_asked_for() -> None:
    found = row(wall("flatness: to find out"), "wall under a straight edge")
    assert to_find(found, "gap") == {"/walls/n/flatness/gap"}


def test_readings_of_a_wall_may_have_the_names_of_their_heights() -> None:
    found = row(
        "walls: {n: {length: {floor: 4522, worktop: 4518, wall units: 4516}}}\n", "wall measured more than once"
    )
    assert found.spread == 6


def test_a_range_is_one_reading_and_no_row() -> None:
    assert rows("walls: {n: {length: 4516 to 4522}}\n", "wall measured more than once") == []


def test_readings_of_a_ceiling_are_held_against_the_longest_wall() -> None:
    found = row(WALLS + "heights from: bare floor\nceiling: [2404, 2396, 2400]\n", "ceiling measured more than once")
    assert (found.spread, found.across) == (8, 4000)


def test_a_floor_falls_from_its_high_spot_over_the_longest_wall() -> None:
    found = row(WALLS + "floor: {levels: {sink: 5 low, door: 12 low}}\n", "floor as found")
    assert (found.fall, found.across) == (12, 4000)


BOXED = f"""{CEILING}floors: none
walls: {{n: {{length: 4000}}, e: {{length: 3000, height: 1500}}, s: {{length: 4000}}, w: {{length: 3000}}}}
boxings:
  pipe: {{wall: n, along: 0 from w, size: 180 w x 150 d}}
  beam: {{wall: n, along: 0 from e, size: 1000 w x 300 d, up: 2100}}
kinds: {{base: {{height: 720, void behind: 40}}, tall: {{like: base, height: 1970}}, wall: {{height: 720, depth: 300}}}}
runs:
  run: {{against: n, from: 150 from w, legs: 150, order: {{B1: base 600, G: {{is: gap, width: 2300}}, T1: tall 600}}}}
  hung: {{against: n, underside: 1400, order: {{W1: wall 600}}}}
  low: {{against: e, underside: 700, order: {{W2: wall 600}}}}
"""


def test_a_unit_is_held_against_the_boxing_nearest_along_its_wall() -> None:
    found = rows(BOXED, "unit at a boxing")
    assert [(unit.subject.name, unit.boxing, unit.clear) for unit in found] == [
        ("B1", "pipe", -30),
        ("T1", "beam", -20),
        ("W1", "pipe", -150),
    ]


def test_a_void_deeper_than_a_boxing_takes_it() -> None:
    deep = BOXED.replace("void behind: 40", "void behind: 170")
    first, *_ = rows(deep, "unit at a boxing")
    assert first.clear == 20


def test_a_unit_below_a_bulkhead_is_clear_of_it() -> None:
    _, tall, _ = rows(BOXED.replace("up: 2100", "up: 2150"), "unit at a boxing")
    assert tall.clear == 30


def test_a_boxing_of_which_nobody_knows_the_depth_leaves_only_what_stands_across_it_open() -> None:
    first, *_ = rows(BOXED.replace("180 w x 150 d", "180 w x 2400 h"), "unit at a boxing")
    assert to_find(first, "clear") == {"/boxings/pipe/size"}
    aside = BOXED.replace("180 w x 150 d", "100 w x 2400 h")
    first, *_ = rows(aside, "unit at a boxing")
    assert first.clear == 50


def test_a_plan_without_boxings_is_not_asked_for_them() -> None:
    assert rows(BOXED.replace("boxings:", "survey: {note: x}\nold:", 1).partition("old:")[0], "unit at a boxing") == []


def test_a_unit_on_a_knee_wall_ends_below_its_top() -> None:
    assert [(unit.subject.name, unit.above) for unit in rows(BOXED, "unit at a low wall")] == [("W2", 80)]


def test_a_knee_wall_measured_twice_keeps_both_ends() -> None:
    (found,) = rows(BOXED.replace("height: 1500", "height: [1500, 1496]"), "unit at a low wall")
    assert ends(found, "above") == (76, 80)


def test_a_wall_is_not_named_twice() -> None:
    subject = row(wall("flatness: 5 under 2 m"), "wall under a straight edge").subject
    assert (subject.name, subject.context, subject.wall) == ("n wall", "", "n")
