"""Fixings beside edges of their wall, and beside each other. Every figure is a sum that can be followed by hand."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, left_out, library, row, rows, to_find

EDGE = "fixing near an edge"
NEXT = "fixings side by side"

ROOM = """
layers: {brickwork: [plaster 13, brick 215]}
walls:
  west: {made of: brickwork, length: 2000}
  north: {made of: brickwork, length: 4000}
kinds: {wall: {height: 700, depth: 320, hangers: {down: 40, in: 50}}}
ceiling: 2400 from bare floor
fixings: {rail: {for: wall units, at: hangers, through: 2, plug: frame fixing 8 x 80}}
"""
WINDOW = "openings: {window: {wall: north, along: 800 from west, size: 1000 x 1000, up: 1000 from bare floor}}"


def units(order: str, where: str = "underside: 1500 from bare floor") -> str:
    return f"runs: {{upper run: {{against: north, {where}, order: {{{order}}}}}}}"


def plan(*parts: str) -> str:
    return "\n".join((ROOM, *parts))


def test_a_hole_beside_a_window_counts_from_its_side() -> None:
    left, right = rows(plan(units("W1: wall 600"), WINDOW), EDGE)
    assert (left.subject.name, right.subject.name) == ("W1 left hanger", "W1 right hanger")
    assert (left.to_edge, right.to_edge) == (800 - 50, 800 - 550)
    assert right.edge == "window"


def test_a_hole_over_a_window_counts_from_its_head() -> None:
    over = units("G: gap 1000, W1: wall 600", "underside: 2000 from bare floor").replace("2000", "1450")
    assert {hole.to_edge for hole in rows(plan(over, WINDOW), EDGE)} == {1450 + 700 - 40 - 2000}


def test_an_unknown_place_of_a_window_is_to_find_out() -> None:
    window = "openings: {window: {wall: north, size: 1000 x 1000, up: 1000 from bare floor}}"
    assert "/openings/window/along" in to_find(rows(plan(units("W1: wall 600"), window), EDGE)[0], "to_edge")


def test_the_nearest_of_several_openings_counts() -> None:
    more = WINDOW.replace("openings: {", "openings: {door: {wall: north, along: 2000 from west, size: 800 x 2000}, ")
    (_, right) = rows(plan(units("G: gap 1200, W1: wall 600"), more.replace("800 from", "100 from")), EDGE)
    assert (right.edge, right.to_edge) == ("door", 2000 - 1750)


def test_a_plan_without_openings_says_so() -> None:
    assert left_out(plan(units("W1: wall 600")), EDGE) == ["/openings"]


def test_a_wall_without_openings_and_with_both_ends_in_corners_has_no_edge() -> None:
    elsewhere = "openings: {window: {wall: west, along: 800 from north, size: 1000 x 1000, up: 1000 from bare floor}}"
    assert rows(plan(units("W1: wall 600"), elsewhere), EDGE) == []


def test_a_wall_that_ends_in_the_room_has_an_edge_there() -> None:
    corner = "openings: none\ncorners: {west-north: outside}"
    left, right = rows(plan(units("W1: wall 600"), corner), EDGE)
    assert (left.to_edge, right.to_edge) == (50, 550)
    assert left.edge == "left end of the wall"


@pytest.mark.parametrize(
    ("made_of", "fixing", "least", "usual"),
    [
        ("brick 215", "plug: frame fixing 8 x 80", 50, 100),
        ("brick 215", "plug: frame fixing 14 x 100", 70, 140),
        ("hollow block 215", "plug: nylon plug 8 x 50, screw: 5 x 70", 70, 140),
        ("concrete 150", "plug: frame fixing 10 x 80", 50, 85),
        ("aerated block 100", "plug: frame fixing 8 x 80", 50, 100),
    ],
)
def test_how_near_an_edge_a_fixing_may_sit_is_looked_up_by_its_wall_and_its_thickness(
    made_of: str, fixing: str, least: float, usual: float
) -> None:
    text = plan(units("W1: wall 600"), WINDOW).replace("brick 215", made_of)
    hole = rows(text.replace("plug: frame fixing 8 x 80", fixing), EDGE)[0]
    table = library().table("edge-distances", "GB-ENG")
    assert table is not None
    found = [table.find(gives, {"base": hole.base, "fixing": hole.diameter}) for gives in ("least", "usual")]
    assert [cell and cell.value for cell in found] == [least, usual]


def test_a_maker_may_say_how_near_an_edge() -> None:
    says = "stated: {frame fixing: {read: box, edge: 60}}"
    assert rows(plan(units("W1: wall 600"), WINDOW, says), EDGE)[0].maker_edge == 60


def test_a_window_of_uncertain_place_is_judged_at_both_ends() -> None:
    window = WINDOW.replace("800 from west", "790 to 810 from west")
    assert ends(rows(plan(units("W1: wall 600"), window), EDGE)[1], "to_edge") == (240, 260)


def test_the_two_closest_holes_of_neighbouring_units_count() -> None:
    found = row(plan(units("W1: wall 600, W2: wall 450, G: gap 300, W3: wall 450")), NEXT)
    assert found.between == 100
    assert found.subject.context == "W1 right hanger and W2 left hanger"


def test_runs_do_not_count_beside_each_other() -> None:
    two = """
runs:
  one run: {against: north, underside: 1500 from bare floor, order: {W1: wall 600}}
  other run: {against: west, underside: 1500 from bare floor, order: {W2: wall 450}}
"""
    assert [found.between for found in rows(plan(two), NEXT)] == [500, 350]


def test_units_without_hangers_are_a_question() -> None:
    bare = plan(units("W1: wall 600, W2: wall 600")).replace(", hangers: {down: 40, in: 50}", "")
    assert to_find(row(bare, NEXT), "between")


def test_a_hundred_units_cost_no_more_than_their_share() -> None:
    """Each hole is measured once: twice the units make twice the rows, whatever else hangs there."""
    few, many = (
        len(rows(plan(units(", ".join(f"W{number}: wall 300" for number in range(count))), WINDOW), EDGE))
        for count in (10, 20)
    )
    assert (few, many) == (20, 40)
