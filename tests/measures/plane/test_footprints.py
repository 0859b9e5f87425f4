"""Where the things of a room stand in its plane: along their walls, out from them, islands, and what is not known."""

from __future__ import annotations

import pytest

from tests.measures.plans import site
from validator.measures.plane.footprints import EDGE, HIGH, LOW, TALL, Footprint, Plane

ROOM = "walls: {north: {length: 4000}, east: {length: 3000}, south: {length: 4000}, west: {length: 3000}}\n"
KINDS = "kinds: {base: {height: 720, depth: 560, front: 20, void behind: 50, handle: 35}}\n"


def _plane(text: str) -> Plane:
    return site(text).plane


def _named(plane: Plane, name: str) -> Footprint:
    (found,) = [footprint for footprint in plane.footprints if footprint.name == name]
    return found


def test_a_unit_stands_before_its_wall_with_its_handle() -> None:
    plane = _plane(ROOM + KINDS + "runs: {sink run: {against: north, order: {F1: filler 40, B1: base 600}}}")
    assert _named(plane, "B1").shape.box == (40, -(50 + 560 + 20 + 35), 640, 0)


def test_walls_are_walked_clockwise() -> None:
    plane = _plane(ROOM + KINDS + "runs: {hob run: {against: east, order: {B1: base 600}}}")
    assert _named(plane, "B1").shape.box == (4000 - 665, -600, 4000, 0)


def test_an_island_stands_across_its_aisle_and_looks_at_the_wall() -> None:
    plane = _plane(
        ROOM
        + KINDS
        + "runs: {sink run: {against: north, order: {B1: base 600}},"
        + " island: {faces: north, along: 1000 from west, aisle: 1100 to sink run, order: {B2: base 900}}}"
    )
    assert _named(plane, "B2").shape.box == (1000, -(630 + 1100 + 630), 1900, -(630 + 1100 - 35))


ISLAND = (
    "runs: {sink run: {against: north, order: {B1: base 600}},"
    " island: {faces: north, along: 1000 from west, aisle: 1100 to sink run, order: {B2: base 900, B3: base 600}}}"
)


@pytest.mark.parametrize(("along", "west"), [("1000 from west", 1000), ("1000 from east", 4000 - 1000 - 1500)])
def test_an_island_has_its_first_thing_at_the_left_of_whoever_faces_its_fronts(along: str, west: float) -> None:
    """Facing them one looks south: east is at one's left. The place is that of the end nearer to the wall named."""
    plane = _plane(ROOM + KINDS + ISLAND.replace("1000 from west", along))
    first, second = _named(plane, "B2"), _named(plane, "B3")
    assert (second.left, second.right) == (west, west + 600)
    assert (first.left, first.right) == (west + 600, west + 1500)


def test_the_doubt_of_a_thing_of_an_island_is_that_of_what_stands_between_it_and_the_wall_it_is_placed_from() -> None:
    """1000 from west: the last thing stands nearest to that wall."""
    plane = _plane(ROOM + KINDS + ISLAND.replace("base 600}}}", "base 600 to 604}}}"))
    first, second = _named(plane, "B2"), _named(plane, "B3")
    assert (first.left, first.slack) == (1602, 2)
    assert (second.left, second.right, second.slack) == (1000, 1602, 2)


def test_a_width_nobody_knows_leaves_open_where_the_rest_of_an_island_stands() -> None:
    text = ROOM + KINDS + ISLAND.replace("B3: base 600", "B3: {is: base}")
    assert [gap.pointer for gap in _plane(text).lacking["island"]] == ["/runs/island/order/B3/width"]
    from_east = _plane(text.replace("1000 from west", "1000 from east"))
    assert (_named(from_east, "B2").left, _named(from_east, "B2").right) == (4000 - 1000 - 900, 3000)


def test_an_island_without_its_place_along_the_wall_is_not_placed() -> None:
    plane = _plane(ROOM + KINDS + "runs: {island: {faces: north, aisle: 1100, order: {B2: base 900}}}")
    assert [gap.pointer for unplaced in plane.unplaced for gap in unplaced.missing] == ["/runs/island/along"]


def test_a_room_without_the_length_of_a_wall_cannot_be_drawn() -> None:
    plane = _plane("walls: {north: {length: 4000}, east: {length: to find out}}")
    assert [gap.pointer for gap in plane.undrawn["north"]] == ["/walls/east/length"]


def test_a_room_that_cannot_be_drawn_leaves_the_others() -> None:
    larder = "rooms: {larder: {walls: {inner: {length: to find out}}}}\n"
    runs = "runs: {sinks: {against: north, order: {B1: base 600}}, jars: {against: inner, order: {B2: base 600}}}"
    plane = _plane(ROOM + KINDS + larder + runs)
    assert list(plane.of) == ["/runs/sinks/order/B1"]
    assert [gap.pointer for gap in plane.lacking["jars"]] == ["/rooms/larder/walls/inner/length"]


def test_without_walls_nothing_stands_anywhere() -> None:
    plane = _plane(KINDS + "openings: {hall door: {swings: in}}")
    assert (plane.lines, plane.footprints) == ({}, [])


def test_five_walls_at_right_angles_enclose_no_room() -> None:
    walls = ", ".join(f"{name}: {{length: 3000}}" for name in "abcde")
    assert [gap.pointer for gap in _plane(f"walls: {{{walls}}}").undrawn["a"]] == ["/corners"]


def test_a_room_with_a_corner_that_stands_out_is_drawn_round_it() -> None:
    plane = _plane(
        "walls: {north: {length: 4000}, east: {length: 2000}, ledge: {length: 1000}, inner: {length: 1000},"
        " south: {length: 3000}, west: {length: 3000}}\ncorners: {ledge-inner: outside}"
    )
    assert (plane.lines["inner"].start, plane.lines["inner"].inward) == ((3000, -2000), (-1, 0))


def test_three_walls_at_right_angles_leave_the_fourth_side_open() -> None:
    plane = _plane("walls: {west: {length: 3000}, north: {length: 4000}, east: {length: 2000}}")
    assert [wall.following for wall in plane.lines.values()] == ["north", "east", ""]


def test_what_the_plan_is_silent_about_is_kept_with_the_footprint() -> None:
    text = ROOM + "kinds: {base: {depth: 560, front: 20}}\nruns: {sink run: {against: north, order: {B1: base 600}}}"
    unit = _named(_plane(text), "B1")
    assert [gap.pointer for gap in unit.no_face] == ["/runs/sink run/order/B1/void behind"]
    assert [gap.pointer for gap in unit.no_handle] == ["/runs/sink run/order/B1/handle"]


def test_half_of_what_a_place_may_be_off_is_its_slack() -> None:
    text = ROOM + "kinds: {base: {depth: 560 to 564, front: 20, void behind: 40 to 60, handle: none}}\n"
    unit = _named(_plane(text + "runs: {sink run: {against: north, order: {F1: filler 30 to 50, B1: base 600}}}"), "B1")
    assert (unit.left, unit.face, unit.slack) == (40, 632, 10 + 2 + 10)


def test_walls_that_do_not_quite_close_are_drawn_so_that_they_do() -> None:
    lines = _plane("walls: {north: {length: 4002}, east: {length: 3000}, south: {length: 4000}, west: {length: 3000}}")
    north, south = lines.lines["north"], lines.lines["south"]
    assert (north.length, south.length, north.slack, south.slack) == (4001, 4001, 1, 1)


def test_a_corner_that_is_open_turns_the_next_wall_outwards() -> None:
    plane = _plane("walls: {north: {length: 4000}, east: {length: 3000}}\ncorners: {north-east: 6 open in 600}")
    along = plane.lines["east"].along
    assert round(along[0] / -along[1], 6) == 0.01


def test_a_tall_unit_stands_in_every_layer_and_a_hung_one_above_the_worktop() -> None:
    text = ROOM + (
        "kinds: {base: {height: 720, depth: 560}, tall: {height: 1970, depth: 560}, worktop: {thickness: 38},"
        " wall: {height: 720, depth: 300, hangers: {down: 35, in: 40}}}\n"
        "runs: {sink run: {against: north, order: {B1: base 600, T1: tall 600}},"
        " hung: {against: north, order: {W1: wall 600}}}\nworktops: {sink top: {on: sink run}}"
    )
    plane = _plane(text)
    assert [_named(plane, name).layers for name in ("B1", "T1", "W1", "sink top")] == [LOW, TALL, HIGH, EDGE]


def test_a_machine_deeper_than_the_units_stands_out_from_them() -> None:
    text = ROOM + KINDS + "runs: {sink run: {against: north, order: {B1: base 600, washing machine: 600}}}\n"
    plane = _plane(text + "appliances: {washing machine: {body: 598 w x 850 h x 660 d, handle: none}}")
    assert _named(plane, "washing machine").face == 660
