"""Holes beside recorded routes, holes of rails, and holes seen from the other face."""

from __future__ import annotations

import random
from typing import Any

import pytest

from tests.measures.plans import ends, left_out, rows, site, to_find

WALL = """
heights from: bare floor
walls: {north: {made of: thin, length: 3000}, east: {length: 2000}, south: {length: 3000}, west: {length: 2000}}
layers: {thin: [plasterboard 12.5, stud 70, plasterboard 12.5]}
ceiling: 2400
runs: none
"""
HOLE = "drill: {D1: {wall: north, along: 1000 from west, up: 1500, hole: 8 x 40}}\n"


def near(route: str, hole: str = HOLE) -> Any:
    (row,) = rows(f"{WALL}{hole}routes: {{R1: {{wall: north, {route}}}}}", "hole near a route")
    return row


def test_a_hole_is_measured_to_the_nearest_place_of_a_route() -> None:
    row = near("is: cable, from: '1300 from west, 0', to: '1300 from west, 1100', known by: photo")
    assert (row.route, row.aside, row.clear_of_route) == ("R1", 500, 500)


def test_a_hole_that_ends_before_a_seen_route_is_clear_by_the_difference() -> None:
    line = "from: '1000 from west, 0', to: '1000 from west, 2000', deep: 70"
    assert near(f"is: cable, {line}, known by: photo").clear_of_route == 30
    assert near(f"is: cable, {line}, known by: detector").clear_of_route == 0


@pytest.mark.parametrize("known_by", ["guess", "detector", "drawing"])
def test_what_nobody_has_seen_is_assumed(known_by: str) -> None:
    row = near(f"is: gas pipe, from: '1300 from west, 0', to: '1300 from west, 2000', known by: {known_by}")
    assert not row.settled
    assert row.known["aside"].assumed


def test_doubt_about_a_place_counts_at_its_nearer_end() -> None:
    row = near("is: cable, from: '1290 to 1310 from west, 0', to: '1290 to 1310 from west, 2000', known by: photo")
    assert ends(row, "aside") == (290, 310)


def test_a_route_without_an_end_leaves_its_holes_open() -> None:
    assert to_find(near("is: cable, from: '1300 from west, 0', known by: photo"), "clear_of_route") == {"/routes/R1/to"}


def test_routes_left_out_are_not_known_and_none_are_none() -> None:
    assert left_out(WALL + HOLE, "hole near a route") == ["/routes"]
    assert rows(WALL + HOLE + "routes: none", "hole near a route") == []


def test_a_route_of_another_wall_is_nothing_to_a_hole() -> None:
    text = f"{WALL}{HOLE}routes: {{R1: {{is: cable, wall: south, from: '9 from west, 0', to: '9 from west, 9'}}}}"
    assert rows(text, "hole near a route") == []


def test_a_point_beyond_a_wall_has_its_strip_on_this_face() -> None:
    beyond = "beyond: {S9: {along: 1100 from west, up: 300, plate: 146 x 86}}, length: 3000"
    (row,) = rows(WALL.replace("length: 3000", beyond, 1) + HOLE, "hole seen from the other face")
    assert (row.wall_thickness, row.clear_of_strip) == (95, 27)


def test_what_lies_beyond_is_asked_for() -> None:
    (row,) = rows(WALL + HOLE, "hole seen from the other face")
    assert to_find(row, "has_strip") == {"/walls/north/beyond"}


def test_a_row_of_holes_goes_on_to_the_right() -> None:
    row = "drill: {D: {wall: north, along: 100 from west, up: 90, every: 300, number: 3}}\n"
    assert [hole.along for hole in rows(WALL + row + "points: none", "drill point")] == [100, 400, 700]


def test_a_rail_has_holes_no_further_apart_than_its_centres() -> None:
    text = WALL.replace(
        "runs: none", "runs: {r: {against: north, underside: 1400, order: {W1: wall 600, W2: wall 500}}}"
    )
    text += "kinds: {wall: {height: 720, depth: 300, hangers: {down: 35}}}\npoints: none\n"
    text += "fixings: {rail: {for: r, at: rail, centres: 300, from ends: 50, hole: 8 x 60}}\n"
    found = rows(text, "drill point")
    assert [hole.along for hole in found] == [50, 300, 550, 800, 1050]
    assert {hole.up for hole in found} == {2085}


def test_the_search_finds_what_looking_at_every_leg_finds() -> None:
    lot = random.Random(20)
    lines = [
        f"  R{number}: {{is: cable, wall: north, known by: photo, from: '{lot.randint(0, 3000)} from west, "
        f"{lot.randint(0, 2400)}', to: '{lot.randint(0, 3000)} from west, {lot.choice((100, 300, 2300))}'}}"
        for number in range(60)
    ]
    placed = site(WALL + "routes:\n" + "\n".join(lines) + "\n")
    (group,) = placed.routes.by_wall["north"]
    legs = [leg for route in placed.routes.all for leg in route.legs()]
    for _ in range(200):
        x, y = lot.uniform(0, 3000), lot.uniform(0, 2400)
        assert group.nearest(x, y)[0] == pytest.approx(min(leg.away(x, y) for leg in legs))
