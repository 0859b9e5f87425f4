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


@pytest.mark.parametrize(
    ("fixing", "before"),
    [
        ("plug: frame fixing 8 x 80, hole: 8 x 85", 15),
        ("plug: frame fixing 8 x 100, hole: 8 x 60", 2),  # the tip comes to 98, whatever was drilled
        ("plug: 8 x 50, screw: 5 x 90, hole: 8 x 55", 12),
        ("screw: 5 x 90, into: studs", 12),
    ],
)
def test_a_fixing_longer_than_its_hole_reaches_as_deep_as_its_tip(fixing: str, before: float) -> None:
    text = WALL.replace("runs: none", "runs: {r: {against: north, underside: 1400, order: {W1: wall 600}}}")
    text += "kinds: {wall: {height: 720, depth: 300, hangers: {down: 35, in: 40}}}\n"
    text += f"fixings: {{rail: {{for: r, at: hangers, through: 2, {fixing}}}}}\n"
    line = "from: '40 from west, 0', to: '40 from west, 2000', deep: 100"
    left, _ = rows(f"{text}routes: {{R1: {{wall: north, is: cable, {line}, known by: photo}}}}", "hole near a route")
    assert left.ends_before == before


def test_of_routes_at_several_depths_the_one_nearest_to_the_end_of_the_hole_counts() -> None:
    """The deeper one is nearer along the face, at 10, and ends 60 behind the hole; the other is 40 beside it."""
    deep, face = (
        f"wall: north, is: cable, known by: photo, from: '{x} from west, 0', to: '{x} from west, 2000', deep: {deep}"
        for x, deep in ((1010, 100), (1040, 10))
    )
    (found,) = rows(f"{WALL}{HOLE}routes: {{deep one: {{{deep}}}, face one: {{{face}}}}}", "hole near a route")
    assert (found.route, found.clear_of_route) == ("face one", 40)


BEHIND = """
rooms:
  hall:
    ceiling: 2400
    walls: {party: {length: 2000}, front: {length: 1500}, far: {length: 2000}, side: {length: 1500}}
"""
PIPE = "is: gas pipe, wall: hall / party, known by: photo, from: '{x} from side, 0', to: '{x} from side, 2400'"
NORTH_SAYS = WALL.replace("length: 3000}", "length: 3000, other face: hall / party starts 500 from west}", 1) + BEHIND
PARTY_SAYS = WALL + BEHIND.replace("length: 2000}", "length: 4000, other face: north starts 500 from side}", 1)


@pytest.mark.parametrize(("deep", "clear"), [("", 100), (", deep: 15", (100**2 + 40**2) ** 0.5)])
@pytest.mark.parametrize(("walls", "x"), [(NORTH_SAYS, 1600), (PARTY_SAYS, 2600)])
def test_a_pipe_recorded_on_the_other_face_lies_in_this_wall_too(walls: str, x: int, deep: str, clear: float) -> None:
    """500 + 2000 − 1600, or 500 + 3000 − 2600: 900 from west, and D1 at 1000. Of 95 of wall 40 are drilled."""
    (found,) = rows(f"{walls}{HOLE}routes: {{R1: {{{PIPE.format(x=x)}{deep}}}}}", "hole near a route")
    assert (found.route, found.clear_of_route) == ("R1 in the other face", pytest.approx(clear))


def test_a_wall_that_backs_onto_two_rooms_has_the_points_of_both_behind_it() -> None:
    larder = BEHIND.replace("rooms:", "").replace("hall:", "larder:").replace("party:", "back:")
    text = WALL.replace("length: 3000}", "length: 3000, other face: hall / party starts 0 from west}", 1)
    text += BEHIND + larder.replace("length: 2000}", "length: 2000, other face: north starts 900 from front}", 1)
    text += "points: {S1: {is: socket, wall: larder / back, along: 1000 from side, up: 400, plate: 90 x 90}}\n"
    found = rows(text + HOLE, "hole seen from the other face")
    assert [row.has_strip for row in found] == [True]


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
