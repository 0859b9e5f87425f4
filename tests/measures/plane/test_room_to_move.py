"""Aisles, valves within reach, and worktops in the lengths they are sold in."""

from __future__ import annotations

from typing import Any

import pytest

from tests.measures.plans import ends, row, rows, to_find

WALLS = "walls: {north: {length: 2800}, east: {length: [2510, 2500]}, south: {length: 2800}, west: {length: 2504}}\n"
KINDS = "kinds: {base: {height: 720, depth: 560, front: 20, void behind: 50, handle: none}}\n"
HANDLES = KINDS.replace("none", "30")
GALLEY = (
    "runs: {a: {against: north, order: {B1: base 600}}, b: {against: south, order: {F1: filler 2200, B2: base 600}}}"
)
ROOM = "walls: {north: {length: 4000}, east: {length: 4000}, south: {length: 4000}, west: {length: 4000}}\n"
ISLAND = (
    "runs: {a: {against: north, order: {B1: base 600, B2: base 2000}}, "
    "isle: {faces: north, aisle: 1100 to a, along: 900 from west, order: {B3: base 1000, B4: base 600}}}\n"
)


def found(text: str, kind: str = "aisle") -> dict[tuple[str, str], Any]:
    """The rows of one kind by the name and the side of what they are about."""
    return {(each.subject.name, each.subject.context): each for each in rows(text, kind)}


def test_the_aisle_of_a_galley_is_what_two_runs_leave_of_the_shorter_wall() -> None:
    aisle = found(WALLS + KINDS + GALLEY)["a", ""]
    assert ends(aisle, "width")[0] == pytest.approx(2500 - 2 * (50 + 560 + 20), abs=1)


def test_handles_on_both_sides_come_off_an_aisle() -> None:
    aisle = found(ROOM.replace("4000", "2500") + HANDLES + GALLEY)["a", ""]
    assert aisle.width == 2500 - 2 * 630 - 2 * 30


def test_what_does_not_lie_straight_ahead_is_not_in_the_way() -> None:
    runs = "runs: {a: {against: north, order: {B1: base 600}}, b: {against: south, order: {F1: gap 500, B2: base 600}}}"
    aisle = found(ROOM.replace("4000", "2400") + HANDLES + runs)["a", ""]
    assert (aisle.to, aisle.width) == ("south wall", 2400 - 630 - 30)


def test_a_worktop_that_passes_the_fronts_makes_the_aisle_narrower() -> None:
    top = "\nworktops: {top: {on: b, depth: 700}}"
    aisle = found(ROOM.replace("4000", "2500") + KINDS + GALLEY + top)["a", ""]
    assert aisle.width == 2500 - 630 - 700


def test_a_run_alone_looks_at_the_wall_across() -> None:
    aisle = row(ROOM.replace("4000", "1800") + KINDS + "runs: {a: {against: north, order: {B1: base 600}}}", "aisle")
    assert (aisle.to, aisle.width) == ("south wall", 1800 - 630)


def test_a_run_that_returns_from_the_corner_is_not_in_the_way() -> None:
    runs = (
        "runs: {a: {against: north, order: {B1: base 4000}}, "
        "b: {against: east, from: fronts of a, order: {F1: filler 50, B2: base 600, B3: base 600}}}"
    )
    assert found(ROOM.replace("4000", "2300") + KINDS + runs.replace("4000", "2300"))["a", ""].to == "south wall"


def test_a_unit_round_the_corner_that_stands_a_step_away_is_in_the_way() -> None:
    runs = (
        "runs: {a: {against: north, order: {B1: base 4000}}, b: {against: east, order: {F1: gap 1500, B2: base 600}}}"
    )
    aisle = found(ROOM + KINDS + runs)["a", ""]
    assert (aisle.to, aisle.width) == ("b", 1500 - 630)


def test_what_lies_far_off_is_no_nearer_than_the_reach() -> None:
    aisle = row(ROOM + "kinds: {base: {depth: 560}}\nruns: {a: {against: north, order: {B1: base 600}}}", "aisle")
    assert (aisle.to, aisle.width) == ("anything", 1850)


def test_handles_nobody_gave_are_asked_for_where_they_count() -> None:
    asked = to_find(
        found(ROOM.replace("4000", "2500") + KINDS.replace(", handle: none", "") + GALLEY)["a", ""], "width"
    )
    assert asked == {"/runs/a/order/B1/handle", "/runs/b/order/B2/handle"}


def test_an_island_has_a_way_on_each_side() -> None:
    ways = found(ROOM + KINDS + ISLAND)
    assert {side: way.width for (name, side), way in ways.items() if name == "isle"} == {
        "front": 1100,
        "back": 4000 - 630 - 1100 - 630,
        "left end": 4000 - 900 - 1600,
        "right end": 900,
    }


def test_an_island_that_touches_a_wall_has_no_way_there() -> None:
    ways = found(ROOM + KINDS + ISLAND.replace("900 from west", "0 from west"))
    assert ("isle", "right end") not in ways
    assert ("isle", "left end") in ways


def test_a_worktop_past_its_units_makes_the_way_narrower() -> None:
    top = "worktops: {top: {on: isle, depth: 650, past: {ends: 20}}}"
    ways = found(ROOM + KINDS + ISLAND + top)
    assert [ways["isle", end].width for end in ("left end", "right end")] == [1480, 880]


def test_a_worktop_past_one_end_of_an_island_makes_the_way_at_that_end_narrower() -> None:
    for said in ("left", "east"):
        ways = found(ROOM + KINDS + ISLAND + f"worktops: {{top: {{on: isle, depth: 650, past: {{{said}: 20}}}}}}")
        assert [ways["isle", end].width for end in ("left end", "right end")] == [1480, 900]


def test_a_worktop_without_a_depth_asks_for_it() -> None:
    ways = found(ROOM.replace("4000", "2500") + KINDS + GALLEY + "\nworktops: {top: {on: a}}")
    assert to_find(ways["a", ""], "width") == {"/worktops/top/depth"}


def test_the_depth_of_a_worktop_holds_what_passes_the_back_of_its_units() -> None:
    top = "worktops: {top: {on: isle, depth: 900, past: {south: 250}}}"
    assert found(ROOM + KINDS + ISLAND + top)["isle", "back"].width == 4000 - 630 - 1100 - 900


def test_an_island_nobody_placed_has_the_aisle_the_plan_gives_it() -> None:
    island = "isle: {faces: north, aisle: 1100 to a, order: {B2: base 600}}"
    runs = f"runs: {{a: {{against: north, order: {{B1: base 600}}}}, {island}}}"
    ways = found(ROOM + KINDS + runs)
    assert ways["isle", "front"].width == 1100
    assert to_find(ways["isle", "back"], "width") == {"/runs/isle/along"}
    assert to_find(ways["a", ""], "width") == {"/runs/isle/along"}


def test_an_island_without_an_aisle_asks_for_it() -> None:
    runs = "runs: {isle: {faces: north, along: 500 from west, order: {B2: base 600}}}"
    assert to_find(found(ROOM + KINDS + runs)["isle", "front"], "width") == {"/runs/isle/aisle"}


def test_units_that_hang_are_in_nobodys_way() -> None:
    hung = KINDS.replace("}}", "}, wall: {height: 720, depth: 300}}")
    wall_units = "w: {against: south, tops: 2110 from bare floor, order: {W1: wall 600}}"
    runs = f"runs: {{a: {{against: north, order: {{B1: base 600}}}}, {wall_units}}}"
    assert found(ROOM.replace("4000", "2300") + hung + runs)["a", ""].to == "south wall"


def test_three_runs_enclose_the_way_between_the_two_that_face_each_other() -> None:
    runs = (
        "runs: {a: {against: north, order: {B1: base 2300}}, b: {against: south, order: {B2: base 2300}}, "
        "c: {against: east, from: fronts of a, order: {B3: base 900}}}"
    )
    ways = found(ROOM.replace("4000", "2300") + KINDS + runs)
    assert [ways[name, ""].enclosed for name in "abc"] == [True, True, False]


@pytest.mark.parametrize(
    ("household", "cooks"),
    [
        ("", 1),
        ("household: {ann: {height: 1700}, bo: {height: 1800}}", 2),
        ("household: {ann: {}, bo: {cooks: no}}", 1),
    ],
)
def test_cooks_are_those_of_the_household_who_cook(household: str, cooks: int) -> None:
    assert found(ROOM + KINDS + ISLAND + household)["isle", "front"].cooks == cooks


def test_seats_have_behind_them_what_lies_behind_their_side() -> None:
    top = "worktops: {top: {on: isle, depth: 900, seats: south with a way past}}"
    seats = row(ROOM + KINDS + ISLAND + top, "seats at a worktop")
    assert (seats.behind, seats.passage, seats.to) == (4000 - 630 - 1100 - 900, True, "south wall")


def test_seats_that_do_not_say_whether_people_pass_ask_for_it() -> None:
    seats = row(ROOM + KINDS + ISLAND + "worktops: {top: {on: isle, depth: 900, seats: back}}", "seats at a worktop")
    assert to_find(seats, "passage") == {"/worktops/top/seats/passage"}


def test_things_of_an_island_count_from_its_own_left_end() -> None:
    runs = "runs: {isle: {faces: north, aisle: 1100, order: {B2: base 600, B3: base 500}}}"
    assert [each.left for each in rows(WALLS + KINDS + runs, "unit in a run")] == [0, 600]


def test_an_island_has_no_wall_to_fit_between() -> None:
    runs = "runs: {isle: {faces: north, aisle: 1100, order: {B2: base 600}}}"
    assert rows(WALLS + KINDS + runs, "run against its wall") == []
