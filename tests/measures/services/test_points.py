"""Electrical points: where they are on the wall, and how near to sinks and hobs."""

from __future__ import annotations

from typing import Any

import pytest

from tests.measures.plans import ends, gaps, left_out, rows, to_find, working

POINT = "point on a wall"
SINK = "point near a sink"
HOB = "point near a hob"

KITCHEN = """
heights from: bare floor
walls: {north: {length: 4200}, east: {length: 3000}, south: {length: 4200}, west: {length: 3000}}
ceiling: 2450
floors: none
kinds:
  base: {height: 715, depth: 555, legs: 90 to 140}
  worktop: {thickness: 28}
  plate: {plate: 120 x 80, up: 210 above worktop, cable: straight up}
  low plate: {plate: 80 x 80, up: 300}
runs:
  long: {against: north, legs: 105 at high spot, order: {A1: base 600, A2: base 900, A3: base 500, A4: base 700}}
  short: {against: south, legs: 105 at high spot, order: {B1: base 600}}
worktops: {long top: {on: long}, short top: {on: short}}
appliances:
  bowl: {is: sink, in: A2, cut-out: 760 x 460, bowl: 330 w x 410 d x 170 h}
  hob: {is: induction hob, in: A4, width: 580}
"""


def points(written: str, text: str = KITCHEN) -> dict[str, Any]:
    return {row.subject.name: row for row in rows(f"{text}\npoints: {{{written}}}", POINT)}


def near(kind: str, written: str, text: str = KITCHEN) -> dict[str, Any]:
    return {row.subject.name: row for row in rows(f"{text}\npoints: {{{written}}}", kind)}


@pytest.mark.parametrize("word", ["over", "in", "behind", "above"])
def test_a_point_over_in_behind_or_above_a_thing_is_at_its_middle(word: str) -> None:
    point = points(f"P1: plate {word} A2")["P1"]
    assert (point.along, point.wall) == (1050, "north")


def test_a_point_over_an_appliance_is_at_the_middle_of_the_appliance() -> None:
    assert points("P1: plate over hob")["P1"].along == 600 + 900 + 500 + 350
    text = KITCHEN.replace("in: A4, width: 580", "in: A4, along: 2300 from west, width: 580")
    assert points("P1: plate over hob", text)["P1"].along == 2300


@pytest.mark.parametrize(("along", "middle"), [("815 from west", 815), ("815 from east", 3385)])
def test_a_point_is_measured_from_the_wall_that_it_names(along: str, middle: float) -> None:
    assert points(f"P1: {{is: plate, wall: north, along: {along}}}")["P1"].along == middle


def test_plates_stand_against_each_other_or_a_gap_apart() -> None:
    """1050 + 60 + 40 = 1150; with 15 between 1165; to the left 1050 − 60 − 15 − 40 = 935."""
    written = "P1: plate over A2, P2: low plate right of P1, P3: {is: low plate, right of: P1, gap: 15}"
    found = points(f"{written}, P4: {{is: low plate, left of: P1, gap: 15}}")
    assert [found[name].along for name in ("P2", "P3", "P4")] == [1150, 1165, 935]
    assert working(*found["P3"].known["along"].origin) == [
        (1050, "middle of A2"),
        (60, "half the plate"),
        (15, "gap"),
        (40, "half the plate"),
    ]


def test_a_row_of_points_may_be_written_in_any_order() -> None:
    found = points("P3: plate right of P2, P2: plate right of P1, P1: plate over A1")
    assert [found[name].along for name in ("P1", "P2", "P3")] == [300, 420, 540]


def test_a_row_of_two_thousand_points_is_followed_to_its_first() -> None:
    written = ", ".join(f"P{number}: plate right of P{number + 1}" for number in range(2000))
    assert points(f"{written}, P2000: plate over A1")["P0"].along == 300 + 2000 * 120


def test_a_built_point_no_longer_moves_with_the_layout() -> None:
    text = KITCHEN + "built: {P1: {along: 1044 from west, up: 1062 from bare floor}}"
    for layout in (text, text.replace("A1: base 600", "A1: base 500")):
        point = points("P1: plate over A2", layout)["P1"]
        assert (point.along, point.up) == (1044, 1062)


def test_a_point_is_as_high_above_the_worktop_as_it_says() -> None:
    """Worktop 105 + 715 + 28 = 848; 848 + 210 = 1058 above the floor."""
    point = points("P1: plate over A1")["P1"]
    assert (point.up, point.worktop, point.above_worktop, point.above_floor) == (1058, 848, 210, 1058)
    assert (point.plate_width, point.plate_height) == (120, 80)


@pytest.mark.parametrize(
    ("written", "over"),
    [
        ("P1: plate over A1", True),
        ("P1: low plate in A1", False),
        ("P1: low plate behind A1", False),
        ("P1: {is: plate, wall: north, along: 300 from west}", True),
        ("P1: {is: plate, wall: east, along: 300 from north}", False),
    ],
)
def test_whether_a_worktop_lies_below_a_point(written: str, over: bool) -> None:
    assert points(written)["P1"].over_worktop is over


def test_on_a_wall_with_two_worktops_a_point_says_over_which_unit_it_is() -> None:
    text = KITCHEN.replace("short: {against: south", "short: {against: north, from: 700 from east")
    assert points("P1: plate over B1", text)["P1"].up == 1058
    (gap,) = gaps(points("P1: {is: plate, wall: north, along: 300 from west}", text)["P1"], "up")
    assert gap.detail == "from which worktop is it counted: long top, short top?"


@pytest.mark.parametrize(
    ("written", "field", "pointers"),
    [
        ("P1: {is: plate}", "along", {"/points/P1/wall", "/points/P1/along"}),
        ("P1: {is: plate, wall: north}", "along", {"/points/P1/along"}),
        ("P1: {is: plate, along: 300 from west}", "along", {"/points/P1/wall"}),
        ("P1: {is: plate, wall: north, along: to find out}", "along", {"/points/P1/along"}),
        ("P1: {is: bare, over: A1}", "up", {"/points/P1/up"}),
        ("P1: {is: bare, over: A1}", "plate_width", {"/points/P1/plate"}),
        ("P1: {is: bare, over: A1}, P2: {is: plate, right of: P1}", "along", set()),
    ],
)
def test_a_point_names_what_it_lacks(written: str, field: str, pointers: set[str]) -> None:
    text = KITCHEN.replace("  low plate:", "  bare: {cable: straight up}\n  low plate:")
    assert to_find(points(written, text)["P1"], field) == pointers


def test_a_point_beside_one_whose_plate_nobody_knows_has_no_place() -> None:
    text = KITCHEN.replace("  low plate:", "  bare: {cable: straight up}\n  low plate:")
    found = points("P1: {is: bare, over: A1}, P2: plate right of P1", text)
    assert to_find(found["P2"], "along") == {"/points/P1/plate"}


def test_points_left_out_are_not_points_none() -> None:
    assert left_out(KITCHEN, POINT) == ["/points"]
    assert left_out(KITCHEN, SINK) == ["/points"]
    assert rows(KITCHEN + "points: none", POINT) == []
    assert left_out("heights from: bare floor\nceiling: 2400", HOB) == ["/points", "/appliances"]


def test_a_point_is_as_far_from_a_sink_as_their_edges() -> None:
    """Middles 300 and 1050 are 750 apart; 60 of the plate and 380 of the cut-out leave 310."""
    point = near(SINK, "P1: plate over A1")["P1"]
    assert (point.apart, point.half_plate, point.half_sink, point.distance) == (750, 60, 380, 310)
    assert point.above_worktop == 210


def test_a_bowl_holds_its_width_by_depth_by_height() -> None:
    """330 × 410 × 170 mm = 23.0 litres."""
    assert near(SINK, "P1: plate over A1")["P1"].volume / 1e6 == pytest.approx(23.001)


def test_a_bowl_of_unknown_size_is_to_find_out() -> None:
    text = KITCHEN.replace(", bowl: 330 w x 410 d x 170 h", "")
    assert to_find(near(SINK, "P1: plate over A1", text)["P1"], "volume") == {"/appliances/bowl/bowl"}


def test_points_below_the_worktop_are_not_near() -> None:
    assert set(near(SINK, "P1: plate over A1, P3: low plate in A2, P4: {is: low plate, wall: east}")) == {"P1"}


DRAWN = KITCHEN.replace("depth: 555", "depth: 520, void behind: 20, front: 15")


def test_a_point_round_the_corner_beside_a_hob_is_as_far_as_the_hob_from_that_wall() -> None:
    """The hob ends at 2350 + 290 = 2640; its wall is 4200 long."""
    row = near(HOB, "P1: {is: plate, wall: east, along: 300 from north}", DRAWN)["P1"]
    assert row.distance == 4200 - 2640


def test_a_point_round_the_corner_in_front_of_a_sink_is_as_far_as_corner_from_corner() -> None:
    """Pythagoras: the cut-out ends 670 from the west wall and 555 from the north wall, the plate begins at 1055."""
    row = near(SINK, "P1: {is: plate, wall: west, along: 1115 from north}", DRAWN)["P1"]
    assert row.distance == pytest.approx((670**2 + 500**2) ** 0.5)


def test_a_point_across_the_room_is_measured_across_the_room() -> None:
    """3000 less the 555 of the sink's unit."""
    row = near(SINK, "P1: {is: plate, wall: south, along: 1050 from west, up: 1050}", DRAWN)["P1"]
    assert row.distance == 3000 - 555


def test_a_unit_of_which_nobody_knows_how_far_it_stands_out_leaves_a_range() -> None:
    text = DRAWN.replace(", void behind: 20, front: 15", "")
    low, high = ends(near(SINK, "P1: {is: plate, wall: south, along: 1050 from west}", text)["P1"], "distance")
    assert low < 3000 - 555 < high


@pytest.mark.parametrize(
    ("written", "text", "pointer"),
    [
        ("P1: {is: plate, wall: east}", DRAWN, "/points/P1/along"),
        (
            "P1: {is: plate, wall: east, along: 300 from north}",
            DRAWN.replace("east: {length: 3000}", "east: {}"),
            "/walls/east/length",
        ),
    ],
)
def test_a_point_round_the_corner_without_its_place_is_not_passed_over(written: str, text: str, pointer: str) -> None:
    assert pointer in to_find(near(SINK, written, text)["P1"], "distance")


def test_a_point_round_the_corner_is_as_high_as_it_is_above_the_worktop_of_the_hob() -> None:
    """Worktop 105 + 715 + 28 = 848; no worktop lies along the east wall."""
    row = near(HOB, "P1: {is: plate, wall: east, along: 300 from north, up: 1048}", DRAWN)["P1"]
    assert row.above_worktop == 200


def test_a_sink_on_an_island_is_measured_from_the_wall_behind_it() -> None:
    """An aisle of 1000 from the fronts, 555 out from the north wall: the sink lies 1555 to 2110 out."""
    island = "  isle: {faces: north, along: 600 from west, aisle: 1000 to long, order: {C1: base 900}}\nworktops:"
    text = DRAWN.replace("worktops:", island).replace("is: sink, in: A2", "is: sink, in: C1")
    text = text.replace("short top: {on: short}", "short top: {on: short}, isle top: {on: isle}")
    row = near(SINK, "P1: {is: plate, wall: north, along: 1050 from west, up: 1050}", text)["P1"]
    assert row.distance == 1555


def test_a_sink_of_another_room_is_not_near() -> None:
    text = DRAWN.replace("walls: {north", "rooms: {kitchen: {walls: {north", 1).replace(
        "west: {length: 3000}}\n",
        "west: {length: 3000}}}, hall: {walls: {front: {length: 2000}, side: {length: 2000}, "
        "back: {length: 2000}, stairs: {length: 2000}}}}\n",
    )
    assert near(SINK, "P1: {is: plate, wall: front, along: 500 from side, up: 1050}", text) == {}


def test_a_point_of_unknown_height_stays_until_it_is_known() -> None:
    text = KITCHEN.replace("{plate: 80 x 80, up: 300}", "{plate: 80 x 80}")
    row = near(SINK, "P3: low plate in A2", text)["P3"]
    assert row.distance < 0
    assert to_find(row, "above_worktop") == {"/points/P3/up"}


def test_the_nearest_of_two_sinks_counts_by_its_edge() -> None:
    """290 − 60 − 180 = 50 to the small bowl, 460 − 60 − 380 = 20 to the large one, whose middle is further away."""
    small = "small bowl: {is: sink, in: A1, cut-out: 360 x 360, bowl: 300 w x 300 d x 120 h}"
    text = KITCHEN.replace("  hob:", f"  {small}\n  hob:")
    row = near(SINK, "P1: {is: plate, wall: north, along: 590 from west}", text)["P1"]
    assert (row.apart, row.half_sink) == (460, 380)


def test_a_sink_of_unknown_place_may_be_near_every_point() -> None:
    text = KITCHEN.replace("is: sink, in: A2, ", "is: sink, ")
    found = near(SINK, "P1: plate over A1, P2: plate over B1", text)
    assert {name: to_find(row, "distance") for name, row in found.items()} == {
        "P1": {"/appliances/bowl/in"},
        "P2": {"/appliances/bowl/in"},
    }


def test_points_and_sinks_that_move_together_keep_their_distance() -> None:
    text = KITCHEN.replace("A1: base 600", "A1: base 594 to 606")
    row = near(SINK, "P1: plate over A3", text)["P1"]
    assert ends(row, "distance") == (260, 260)


def test_a_point_is_as_far_from_a_hob_as_their_edges() -> None:
    """Middles 1750 and 2350 are 600 apart; 60 and 290 off leave 250."""
    row = near(HOB, "P1: plate over A3")["P1"]
    assert (row.apart, row.half_hob, row.distance, row.fuel) == (600, 290, 250, "induction")


def test_an_electric_cooker_does_not_tell_what_its_hob_is() -> None:
    text = KITCHEN.replace("is: induction hob", "is: electric cooker")
    assert to_find(near(HOB, "P1: plate over A3", text)["P1"], "fuel") == {"/appliances/hob/hob"}


@pytest.mark.parametrize(
    ("circuits", "protected"),
    [
        ("ring: {is: ring, rcd: 30 mA, serves: [P1]}", True),
        ("ring: {is: ring, rcd: 100 mA, serves: [P1]}", False),
        ("other: {rcd: 30 mA, serves: [P2]}, ring: {rcd: 300 mA, serves: [P1]}", False),
        ("one: {rcd: 30 mA, serves: [P1]}, two: {rcd: 300 mA, serves: [P1]}", False),
        ("one: {rcd: 10 mA, serves: [P1]}, two: {rcd: 30 mA, serves: [P1]}", True),
    ],
)
def test_a_device_of_the_country_s_rating_protects_a_point(circuits: str, protected: bool) -> None:
    text = f"{KITCHEN}circuits: {{{circuits}}}"
    assert near(SINK, "P1: plate over A1, P2: plate over A3", text)["P1"].protected is protected


@pytest.mark.parametrize(("said", "protected"), [("yes", True), ("no", False)])
def test_a_point_may_say_itself_that_it_is_protected(said: str, protected: bool) -> None:
    assert near(SINK, f"P1: {{is: plate, over: A1, rcd: {said}}}")["P1"].protected is protected


@pytest.mark.parametrize(
    ("circuits", "pointer"),
    [
        ("", "/circuits"),
        ("circuits: {ring: {is: ring, serves: [P1]}}", "/circuits/ring/rcd"),
        ("circuits: {ring: {is: ring, rcd: 30 mA, serves: [P2]}}", "/points/P1/rcd"),
    ],
)
def test_protection_that_nobody_told_of_is_to_find_out(circuits: str, pointer: str) -> None:
    found = near(SINK, "P1: plate over A1, P2: plate over A3", KITCHEN + circuits)
    assert to_find(found["P1"], "protected") == {pointer}
