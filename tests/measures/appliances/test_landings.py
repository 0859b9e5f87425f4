"""The worktop beside hobs: how far it goes to each side, what ends it, and what stands up there."""

from __future__ import annotations

from typing import Any

import pytest

from tests.measures.plans import ends, left_out, row, rows, to_find, working

KIND, BOTH = "side of a hob", "worktop beside a hob"
ROOM = """
walls: {north: {length: 4000}, east: {length: 3000}, south: {length: 4000}, west: {length: 3000}}
kinds: {base: {height: 715, depth: 560}, tall: {height: 2100, depth: 580}, worktop: {thickness: 38}}
"""
HOB = "hob: {is: gas hob, in: A2, width: 580}"


def kitchen(order: str, appliances: str = HOB, more: str = "", run: str = "against: north") -> str:
    return f"{ROOM}\nruns:\n  long: {{{run}, order: {{{order}}}}}\nappliances: {{{appliances}}}\n{more}"


def sides(order: str, appliances: str = HOB, more: str = "", run: str = "against: north") -> tuple[Any, Any]:
    left, right = rows(kitchen(order, appliances, more, run), KIND)
    return left, right


def test_worktop_goes_from_the_edge_of_the_hob_to_the_tall_unit() -> None:
    """The hob reaches from 910 to 1490; T1 ends at 600."""
    left, _ = sides("T1: tall 600, A1: base 300, A2: base 600, A3: base 500")
    assert (left.ends_at, left.landing, left.upright, left.room) == ("tall unit", 310, "tall unit", 310)
    assert working(left, "landing") == [(910, "left side of hob"), (600, "right side of T1")]


def test_the_sides_are_called_by_the_hob() -> None:
    names = [side.subject.name for side in sides("A1: base 300, A2: base 600")]
    assert names == ["hob, left side", "hob, right side"]


def test_a_run_that_starts_at_the_wall_ends_there() -> None:
    left, _ = sides("A1: base 300, A2: base 600")
    assert (left.ends_at, left.landing, left.upright, left.room) == ("wall", 310, "wall", 310)


def test_a_run_with_room_behind_its_end_is_open_there_and_the_wall_is_further() -> None:
    _, right = sides("A1: base 300, A2: base 600, A3: base 500")
    assert (right.ends_at, right.landing, right.upright, right.room) == ("open end", 510, "wall", 3110)


def test_a_worktop_is_scribed_to_a_wall_that_is_near() -> None:
    _, right = sides("A1: base 300, A2: base 600, A3: base 3060")
    assert (right.ends_at, right.landing) == ("wall", 3110)


def test_readings_of_the_wall_go_into_the_worktop_that_ends_there() -> None:
    text = kitchen("A1: base 300, A2: base 600, F1: {is: filler, rest: true}").replace(
        "4000}, east", "[3990, 4010]}, east"
    )
    assert ends(rows(text, KIND)[1], "landing") == (3100, 3120)


def test_the_cut_out_of_a_sink_ends_the_worktop() -> None:
    """The cut-out reaches from 1500 + 500 − 390 = 1610; the hob ends at 1190."""
    _, right = sides(
        "A1: base 600, A2: base 600, A3: base 300, B1: base 1000", f"{HOB}, sink: {{in: B1, cut-out: 780 x 480}}"
    )
    assert (right.ends_at, right.landing) == ("sink", 1610 - 1190)


@pytest.mark.parametrize(
    ("machine", "end"),
    [
        ("dishwasher: {body: 598 w x 815 h x 550 d}", ("open end", 610)),
        ("dishwasher: {}", ("open end", 610)),
        ("fridge: {body: 595 w x 819 h x 545 d}", ("open end", 610)),
        ("fridge: {body: 595 w x 1850 h x 650 d}", ("tall unit", 10)),
    ],
)
def test_a_worktop_lies_over_low_machines_only(machine: str, end: tuple[str, float]) -> None:
    name = machine.split(":")[0]
    _, right = sides(f"A1: base 600, A2: base 600, {name}: 600", f"{HOB}, {machine}")
    assert (right.ends_at, right.landing) == end


def test_a_fridge_of_unknown_height_may_end_the_worktop() -> None:
    _, right = sides("A1: base 600, A2: base 600, fridge: 600", f"{HOB}, fridge: {{}}")
    assert to_find(right, "ends_at") == {"/appliances/fridge/body"}


def test_a_cooker_stands_in_the_worktop_of_its_neighbour() -> None:
    cooker = "cooker: {is: gas cooker, body: 598 w x 900 h x 600 d}"
    found = rows(kitchen("A1: base 400, cooker: 600, A3: base 500, A2: base 600", f"{cooker}, {HOB}"), KIND)
    assert [(side.ends_at, side.landing) for side in found] == [
        ("wall", 401),
        ("hob", 511),
        ("hob", 511),
        ("open end", 10),
    ]


def test_two_hobs_in_one_unit_end_at_each_other() -> None:
    two = (
        "gas hob: {in: A2, width: 290, along: 450 from west}, induction hob: {in: A2, width: 290, along: 750 from west}"
    )
    found = rows(kitchen("A1: base 300, A2: base 600", two), KIND)
    assert [(side.ends_at, side.landing) for side in found] == [
        ("wall", 305),
        ("hob", 10),
        ("hob", 10),
        ("open end", 5),
    ]


def test_a_panel_against_a_tall_unit_belongs_to_it() -> None:
    left, _ = sides("T1: tall 600, P1: panel 18, A1: base 300, A2: base 600")
    assert (left.ends_at, left.landing) == ("tall unit", 310)


def test_an_empty_place_at_the_end_is_an_open_end_and_one_between_units_is_bridged() -> None:
    left, right = sides("G1: gap 500, A1: base 300, A2: base 600, G2: gap 700, A3: base 400")
    assert (left.ends_at, left.landing) == ("open end", 310)
    assert (right.ends_at, right.landing) == ("open end", 10 + 700 + 400)


def test_another_run_along_the_wall_goes_on_beside_it() -> None:
    more = "tall: {against: north, from: 0 from east, order: {T1: tall 600}}"
    text = kitchen("A1: base 600, A2: base 600, A3: base 2200").replace("appliances:", f"  {more}\nappliances:")
    assert rows(text, KIND)[1].ends_at == "tall unit"


def test_another_run_some_way_off_leaves_an_open_end() -> None:
    more = "tall: {against: north, from: 0 from east, order: {T1: tall 600}}"
    text = kitchen("A1: base 600, A2: base 600, A3: base 500").replace("appliances:", f"  {more}\nappliances:")
    assert (rows(text, KIND)[1].ends_at, rows(text, KIND)[1].landing) == ("open end", 510)


CORNER = "  other: {against: west, order: {%s}}\nappliances:"


def test_a_run_from_the_fronts_of_another_has_the_worktop_of_the_corner_too() -> None:
    """It starts at 560 + 19 + 41 = 620, where the fronts of the other run are; the worktop goes on to the wall."""
    base = "{is: base, width: 1000, front: 19, void behind: 41}"
    text = kitchen("A1: base 300, A2: base 600", run="against: north, from: fronts of other")
    left, _ = rows(text.replace("appliances:", CORNER % f"C1: {base}"), KIND)
    assert (left.ends_at, left.landing) == ("wall", 620 + 310)


def test_a_tall_unit_round_the_corner_ends_the_worktop_at_its_front() -> None:
    tall = "{is: tall, width: 600, front: 19, void behind: 41}"
    text = kitchen("A1: base 300, A2: base 600", run="against: north, from: fronts of other")
    left, _ = rows(text.replace("appliances:", CORNER % f"C1: {tall}"), KIND)
    assert (left.ends_at, left.landing, left.upright, left.room) == ("tall unit", 310, "tall unit", 310)


def test_a_run_that_ends_before_one_at_right_angles_meets_a_corner() -> None:
    text = kitchen("A1: base 300, A2: base 600", run="against: north, from: 650 from west")
    left, _ = rows(text.replace("appliances:", CORNER % "F1: filler 2000, C1: base 1000"), KIND)
    assert (left.ends_at, left.landing) == ("corner", 310)


def test_an_island_has_open_ends_and_nothing_stands_up_beside_it() -> None:
    left, right = sides("A1: base 300, A2: base 600, A3: base 400", run="faces: north, aisle: 1100")
    assert [(side.ends_at, side.landing, side.upright) for side in (left, right)] == [
        ("open end", 310, "nothing"),
        ("open end", 410, "nothing"),
    ]


def test_a_tall_unit_stands_beside_a_hob_though_the_worktop_ends_before_it() -> None:
    """The hob reaches to 1190: T1 stands 10 + 100 further on, and in the second plan behind a sink 400 wide."""
    _, right = sides("A1: base 600, A2: base 600, G1: gap 100, T1: tall 600")
    assert (right.ends_at, right.landing, right.upright, right.room) == ("open end", 10, "tall unit", 110)
    sink = f"{HOB}, sink: {{in: A3, cut-out: 380 x 380}}"
    _, right = sides("A1: base 600, A2: base 600, A3: base 400, T1: tall 600", sink)
    assert (right.ends_at, right.upright, right.room) == ("sink", "tall unit", 410)


def test_the_papers_are_those_for_what_stands_there() -> None:
    more = "stated: {hob: {read: hob leaflet p. 3, to wall: 100, to tall unit: 200, burner in: 45}}"
    left, right = sides("T1: tall 600, A1: base 200, A2: base 600", more=more)
    assert (left.maker_says, right.maker_says) == (200, 100)
    assert left.burner_room == 210 + 45


def test_a_tall_unit_says_whether_it_is_protected_and_a_wall_by_what_its_splashback_is_fixed_on() -> None:
    tile = f"{HOB[:-1]}, side splashback: ceramic tile on cement board}}"
    left, right = sides("T1: {is: tall, width: 600, protected: no}, A1: base 200, A2: base 600", tile)
    assert (left.protected, right.lining) == (False, "cement board")
    left, right = sides("T1: tall 600, A1: base 200, A2: base 600")
    assert to_find(left, "protected") == {"/runs/long/order/T1/protected"}
    assert to_find(right, "lining") == {"/appliances/hob/side splashback"}


def test_both_sides_of_a_hob_stand_in_one_row() -> None:
    found = row(kitchen("A1: base 300, A2: base 600, A3: base 400"), BOTH)
    assert (found.left, found.right, found.lesser, found.greater, found.island) == (310, 410, 310, 410, False)


def test_what_lies_behind_a_hob_on_an_island() -> None:
    """A top 900 deep, cut out from 60 to 550."""
    hob = "hob: {is: induction hob, in: A2, width: 580, cut-out: 560 x 490, from front: 60}"
    more = "worktops: {top: {on: long, depth: 900}}"
    found = row(kitchen("A1: base 300, A2: base 600", hob, more, "faces: north, aisle: 1100"), BOTH)
    assert (found.island, found.behind) == (True, 350)


def test_missing_widths_and_heights_are_named() -> None:
    left, right = sides(
        "A1: {is: base, width: to find out}, A2: base 600, A3: {is: tall, width: 600, height: to find out}"
    )
    assert to_find(left, "landing") == {"/runs/long/order/A1/width"}
    assert "/runs/long/order/A3/height" in to_find(right, "ends_at")
    found = row(kitchen("A1: base 300, A2: base 600", "hob: {is: gas hob, in: A2}"), BOTH)
    assert to_find(found, "lesser") == {"/appliances/hob/width"}


def test_a_hob_that_sits_nowhere_says_so() -> None:
    left, _ = sides("A1: base 300, A2: base 600", "hob: {is: gas hob, width: 580}")
    assert to_find(left, "landing") == {"/appliances/hob/in"}


def test_what_is_left_out_may_be_a_hob() -> None:
    assert left_out(f"{ROOM}\nruns: {{long: {{against: north, order: {{A1: base 600}}}}}}", KIND) == ["/appliances"]
    assert left_out("appliances: {hob: {is: gas hob}}", KIND) == ["/runs"]
    assert left_out(kitchen("A2: base 600", "flames: {in: A2}"), BOTH) == ["/appliances/flames/is"]
