"""Drill points: two a wall unit, and the strip that is most dangerous to each."""

from __future__ import annotations

from typing import Any

import pytest

from tests.measures.plans import ends, gaps, left_out, rows, to_find, working

KIND = "drill point"

WALL = """
heights from: bare floor
walls: {north: {length: 3600}, east: {length: 3000}, south: {length: 3600}, west: {length: 3000}}
ceiling: 2450
kinds:
  wall: {height: 710, depth: 320, hangers: {down: 45, in: 38}}
  plate: {plate: 120 x 80, cable: straight up}
runs: {upper: {against: north, underside: 1420, order: {G1: gap 250, W1: wall 600, W2: wall 500}}}
"""


def holes(points: str = "points: none", text: str = WALL) -> dict[str, Any]:
    return {row.subject.name: row for row in rows(f"{text}\n{points}", KIND)}


def one(written: str, hole: str = "W1 left hanger", text: str = WALL) -> Any:
    return holes(f"points: {{{written}}}", text)[hole]


def test_two_holes_a_unit_in_from_its_sides_and_down_from_its_top() -> None:
    """1420 + 710 − 45 = 2085 up; 250 + 38 and 850 − 38 along."""
    found = holes()
    assert {name: (row.along, row.up) for name, row in found.items()} == {
        "W1 left hanger": (288, 2085),
        "W1 right hanger": (812, 2085),
        "W2 left hanger": (888, 2085),
        "W2 right hanger": (1312, 2085),
    }


def test_the_working_of_a_hole_starts_at_the_unit() -> None:
    row = holes()["W2 right hanger"]
    assert working(*row.known["along"].origin) == [(1350, "right side of W2"), (38, "in from its side")]
    assert row.subject.along == (1312, 1312)


def test_a_hole_is_measured_to_the_ceiling_and_to_the_nearer_corner() -> None:
    found = holes(text=WALL.replace("W2: wall 500", "W2: wall 500, W3: wall 1500, W4: wall 700"))
    assert found["W1 left hanger"].below_ceiling == 365
    assert found["W1 left hanger"].to_corner == 288
    assert found["W4 right hanger"].to_corner == 3600 - (250 + 600 + 500 + 1500 + 700 - 38)


def test_without_points_on_the_wall_there_is_no_strip() -> None:
    assert not holes()["W1 left hanger"].has_strip
    assert not one("P1: {is: plate, wall: east, along: 300 from north, up: 1100}").has_strip


def test_points_left_out_leave_every_strip_open() -> None:
    row = holes("")["W1 left hanger"]
    assert to_find(row, "clear_of_strip") == {"/points"}
    assert to_find(row, "has_strip") == {"/points"}
    assert row.up == 2085


def test_a_strip_is_as_wide_as_the_plate_it_rises_from() -> None:
    """400 − 288 = 112 aside, 60 of it strip: 52 clear."""
    row = one("P1: {is: plate, wall: north, along: 400 from west, up: 1100}")
    assert (row.strip_of, row.runs, row.aside, row.half_strip, row.clear_of_strip) == ("P1", "upright", 112, 60, 52)


def test_a_hole_in_the_strip_is_less_than_clear() -> None:
    assert one("P1: {is: plate, wall: north, along: 300 from west, up: 1100}").clear_of_strip == 12 - 60


@pytest.mark.parametrize(
    ("cable", "up", "strip"),
    [
        ("straight up", 1100, True),
        ("straight up", 2300, False),
        ("straight up", 2120, True),  # the plate itself reaches down to 2080
        ("straight down", 1100, False),
        ("straight down", 2300, True),
        ("on the surface", 1100, False),
    ],
)
def test_an_upright_strip_counts_only_on_the_side_its_cable_runs(cable: str, up: int, strip: bool) -> None:
    row = one(f"P1: {{is: plate, wall: north, along: 300 from west, up: {up}, cable: {cable}}}")
    assert row.has_strip is strip


@pytest.mark.parametrize(
    ("cable", "along", "strip"),
    [("from left", 500, True), ("from left", 100, False), ("from right", 100, True), ("from right", 500, False)],
)
def test_a_level_strip_counts_only_on_the_side_its_cable_comes_from(cable: str, along: int, strip: bool) -> None:
    row = one(f"P1: {{is: plate, wall: north, along: {along} from west, up: 2000, cable: {cable}}}")
    assert row.has_strip is strip


def test_a_level_strip_is_as_wide_as_the_plate_is_high() -> None:
    row = one("P1: {is: plate, wall: north, along: 900 from west, up: 2000, cable: from left}")
    assert (row.runs, row.aside, row.half_strip, row.clear_of_strip) == ("level", 85, 40, 45)


def test_a_cable_of_unknown_way_may_run_all_four() -> None:
    text = WALL.replace(", cable: straight up", "")
    level = one("P1: {is: plate, wall: north, along: 900 from west, up: 2000}", text=text)
    assert (level.runs, level.clear_of_strip) == ("level", 45)
    upright = one("P1: {is: plate, wall: north, along: 300 from west, up: 2200}", text=text)
    assert (upright.runs, upright.clear_of_strip) == ("upright", -48)


def test_the_strip_that_leaves_least_clear_counts() -> None:
    """P1 is nearer by its middle (112 against 130), P2 by its edge (52 against 30), because its plate is wider."""
    points = "P1: {is: plate, wall: north, along: 400 from west, up: 1100}"
    wide = "P2: {is: plate, wall: north, along: 418 from west, up: 1100, plate: 200 x 80}"
    row = one(f"{points}, {wide}")
    assert (row.strip_of, row.clear_of_strip) == ("P2", 30)


def test_a_built_point_has_its_strip_where_it_was_measured() -> None:
    text = WALL + "built: {P1: {along: 430 from west, up: 1104 from bare floor}}"
    assert one("P1: {is: plate, wall: north, along: 400 from west, up: 1100}", text=text).aside == 142


def test_a_point_over_a_unit_moves_with_the_holes_of_the_unit() -> None:
    """Whatever the gap before W1 is, its middle is 300 − 38 = 262 from its hanger."""
    text = WALL.replace("G1: gap 250", "G1: gap 240 to 260")
    row = one("P1: {is: plate, over: W1, up: 1100}", text=text)
    assert ends(row, "aside") == (262, 262)
    assert ends(row, "along") == (278, 298)


def test_a_strip_that_doubt_lays_over_the_hole_is_nothing_clear_at_its_worse_end() -> None:
    text = WALL.replace("G1: gap 250", "G1: gap 240 to 260")
    row = one("P1: {is: plate, wall: north, along: 290 from west, up: 1100}", text=text)
    assert ends(row, "aside") == (0, 12)
    assert ends(row, "clear_of_strip")[0] == -60


def test_a_plate_of_unknown_width_is_asked_for_unless_a_hole_lies_in_a_known_strip() -> None:
    text = WALL.replace("  plate: {plate:", "  bare: {cable: straight up}\n  plate: {plate:")
    bare = "P2: {is: bare, wall: north, along: 2000 from west, up: 1100}"
    beside = one(f"P1: {{is: plate, wall: north, along: 400 from west, up: 1100}}, {bare}", text=text)
    assert to_find(beside, "clear_of_strip") == {"/points/P2/plate"}
    inside = one(f"P1: {{is: plate, wall: north, along: 300 from west, up: 1100}}, {bare}", text=text)
    assert inside.strip_of == "P1"


def test_a_point_of_unknown_height_may_or_may_not_have_its_strip_there() -> None:
    row = one("P1: {is: plate, wall: north, along: 300 from west}")
    assert to_find(row, "clear_of_strip") == {"/points/P1/up"}
    assert to_find(row, "has_strip") == {"/points/P1/up"}


def test_a_point_of_unknown_wall_may_be_on_this_one() -> None:
    assert to_find(one("P1: {is: plate, along: 300 from west, up: 1100}"), "clear_of_strip") == {"/points/P1/wall"}


def test_a_point_that_cannot_be_nearer_need_not_be_known_better() -> None:
    """P2 is 2000 away whatever its height turns out to be; P1 is 112 aside."""
    near = "P1: {is: plate, wall: north, along: 400 from west, up: 1100}"
    assert one(f"{near}, P2: {{is: plate, wall: north, along: 2300 from west}}").clear_of_strip == 52


@pytest.mark.parametrize(
    ("fixings", "count"),
    [
        ("", 4),
        ("fixings: none", 4),
        ("fixings: {rail: {for: wall units, at: hangers}}", 4),
        ("fixings: {rail: {for: upper, at: hangers}}", 4),
        ("fixings: {screws: {for: W1, at: top, each: 3}, rail: {for: W2, at: hangers}}", 5),
    ],
)
def test_units_are_fixed_at_their_hangers_unless_the_plan_says_otherwise(fixings: str, count: int) -> None:
    assert len(holes(text=WALL + fixings)) == count


RAIL = "at: rail, centres: 300, from ends: 50"


@pytest.mark.parametrize("meant", ["upper", "wall units", "[W1, W2]"])
def test_a_rail_behind_units_has_the_same_holes_however_they_are_named(meant: str) -> None:
    found = holes(text=f"{WALL}fixings: {{rail: {{for: {meant}, {RAIL}}}}}")
    assert [row.along for row in found.values()] == [300, 550, 800, 1050, 1300]


def test_a_rail_without_centres_has_holes_of_unknown_place_between_its_ends() -> None:
    found = holes(text=f"{WALL}fixings: {{rail: {{for: upper, at: rail, from ends: 50}}}}")
    assert [row.known.get("along") and row.along for row in found.values()] == [300, 1300, None]
    assert to_find(found["rail between its ends"], "along") == {"/fixings/rail/centres"}


@pytest.mark.parametrize("at", ["", ", at: hangers", ", at: rail"])
def test_where_nobody_says_where_fixings_sit_their_holes_are_of_unknown_place(at: str) -> None:
    text = WALL.replace("kinds:", "kinds:\n  tall: {height: 2000, depth: 560}").replace(
        "runs: {", "runs: {larder: {against: east, legs: 150 at high spot, order: {T1: tall 600}}, "
    )
    found = holes(text=f"{text}fixings: {{brackets: {{for: T1{at}}}}}")
    assert to_find(found["T1 brackets"], "along") == {"/fixings/brackets/at"}


def test_a_hung_unit_whose_fixing_does_not_say_where_it_sits_keeps_a_hole() -> None:
    found = holes(text=f"{WALL}fixings: {{batten: {{for: wall units}}}}")
    assert {name: to_find(row, "along") for name, row in found.items()} == {
        "W1 batten": {"/fixings/batten/at"},
        "W2 batten": {"/fixings/batten/at"},
    }


def test_screws_into_studs_sit_where_the_studs_were_found() -> None:
    text = WALL.replace("north: {length: 3600}", "north: {length: 3600, studs: {first: 300, every: 600}}")
    text += f"fixings: {{rail: {{for: upper, {RAIL}, into: studs, screw: 5 x 80}}}}\n"
    assert [row.along for row in holes(text=text).values()] == [300, 900]
    text += "built: {sweep: {wall: north, studs: {found: [350, 950]}}}\n"
    assert [row.along for row in holes(text=text).values()] == [350, 950]


def test_hangers_that_nobody_described_are_to_find_out() -> None:
    row = holes(text=WALL.replace(", hangers: {down: 45, in: 38}", ""))["W1 left hanger"]
    assert to_find(row, "along") == {"/runs/upper/order/W1/hangers/in"}
    assert to_find(row, "up") == {"/runs/upper/order/W1/hangers/down"}


def test_a_unit_without_a_height_to_hang_at_has_holes_of_unknown_height() -> None:
    text = WALL.replace("underside: 1420", "underside: to find out by fitter")
    assert to_find(holes(text=text)["W1 left hanger"], "up") == {"/runs/upper/underside"}


def test_without_the_length_of_the_wall_nobody_knows_its_right_corner() -> None:
    text = WALL.replace("north: {length: 3600}", "north: {made of: block}")
    assert to_find(holes(text=text)["W1 left hanger"], "to_corner") == {"/walls/north/length"}


def test_runs_left_out_leave_all_holes_open() -> None:
    assert left_out("ceiling: 2400\nheights from: bare floor", KIND) == ["/runs"]


def test_gaps_and_fillers_have_no_holes() -> None:
    assert {row.subject.name.split()[0] for row in holes().values()} == {"W1", "W2"}


def test_what_leaves_a_strip_open_says_why() -> None:
    (gap,) = gaps(one("P1: {is: plate, wall: north, along: 300 from west}"), "aside")
    assert gap.label == "height of P1"


def test_a_hole_is_also_measured_from_the_finished_floor() -> None:
    floor = "floors: {stone: {thickness: 18, underlay: none, laid: after units}}"
    hole = one("S1: {is: plate, wall: north, along: 900 from west, up: 300}", text=f"{WALL}{floor}\n")
    assert hole.up - hole.above_floor == 18
