"""Joints of worktops: what is below them, the nearest cut-out, corners, and the lengths from joint to joint."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, left_out, row, rows, to_find

ROOM = """
walls: {north: {length: 4000}, east: {length: 3000}, south: {length: 4000}, west: {length: 3000}}
kinds: {base: {height: 720, depth: 560, front: 19, void behind: 50}}
"""
RUN = "runs: {a: {against: north, order: {B1: base 600, dishwasher: 600, B2: base 800, B3: base 1000}}}\n"
SINK = "appliances: {sink: {in: B2, cut-out: 700 x 480}}\n"
JOINT = "joint of a worktop"


def top(joint: str, more: str = "") -> str:
    return f"worktops: {{top: {{on: a, {joint}{more}}}}}\n"


def test_a_joint_is_as_far_from_an_opening_as_from_its_nearer_side() -> None:
    """The dishwasher takes 600 to 1200."""
    found = row(ROOM + RUN + SINK + top("joint: butt at 1350 from west"), JOINT)
    assert (found.clear_of_opening, found.opening) == (150, "dishwasher")


def test_a_joint_over_an_opening_is_inside_it_by_less_than_nothing() -> None:
    assert row(ROOM + RUN + SINK + top("joint: butt at 1100 from west"), JOINT).clear_of_opening == -100


def test_a_joint_may_be_given_from_the_wall_at_the_right() -> None:
    found = row(ROOM + RUN + SINK + top("joint: butt at 1700 from east"), JOINT)
    assert found.at == 2300


def test_a_joint_is_as_far_from_a_cut_out_as_from_its_nearer_edge() -> None:
    """The cut-out of 700 lies about 1600, so that it ends at 1950."""
    found = row(ROOM + RUN + SINK + top("joint: butt at 2070 from west"), JOINT)
    assert (found.clear_of_cut_out, found.cut_out) == (120, "sink")


def test_a_worktop_without_openings_and_cut_outs_says_so() -> None:
    plain = "runs: {a: {against: north, order: {B1: base 1000, B2: base 1000}}}\n"
    found = row(ROOM + plain + "appliances: none\n" + top("joint: butt at 1000 from west"), JOINT)
    assert (found.has_opening, found.has_cut_out) == (False, False)


def test_a_joint_off_its_worktop_has_less_than_nothing_beside_it() -> None:
    assert row(ROOM + RUN + SINK + top("joint: butt at 3040 from west"), JOINT).from_end == -40


def test_a_joint_without_a_place_asks_for_it() -> None:
    found = row(ROOM + RUN + SINK + top("joint: butt"), JOINT)
    assert to_find(found, "from_end") == {"/worktops/top/joint/at"}


def test_a_cut_out_of_unknown_width_leaves_open_how_near_it_is() -> None:
    found = row(ROOM + RUN + "appliances: {sink: {in: B2}}\n" + top("joint: butt at 2300 from west"), JOINT)
    assert to_find(found, "clear_of_cut_out") == {"/appliances/sink/cut out"}


def test_a_place_in_doubt_keeps_both_its_ends() -> None:
    found = row(ROOM + RUN + SINK + top("joint: butt at 2050 to 2060 from west"), JOINT)
    assert ends(found, "clear_of_cut_out") == (100, 110)


def test_several_joints_are_a_row_each_and_take_the_bolts_of_their_worktop() -> None:
    said = "bolts: 3, joints: {J1: butt at 300 from west, J2: {is: butt, at: 2500 from west, bolts: 4}}"
    assert [(each.at, each.bolts) for each in rows(ROOM + RUN + SINK + top(said), JOINT)] == [(300, 3), (2500, 4)]


def test_bolts_that_nobody_counts_are_asked_for() -> None:
    found = row(ROOM + RUN + SINK + top("joint: butt at 2300 from west"), JOINT)
    assert to_find(found, "bolts") == {"/worktops/top/bolts"}


def test_without_worktops_nobody_knows_of_joints() -> None:
    assert left_out(ROOM + RUN, JOINT) == ["/worktops"]


CORNER = """
runs:
  a: {against: north, order: {B1: base 1000, B2: base 3000}}
  b: {against: east, from: fronts of a, order: {B3: base 900, B4: base 900}}
appliances: {hob: {is: induction hob, in: B3, cut-out: 560 x 490}}
"""
TOPS = "worktops: {long: {on: a}, short: {on: b, corner: masons mitre}}\n"


def test_a_joint_in_a_corner_lies_where_the_second_top_starts() -> None:
    """Fronts at 50 + 560 + 19; the cut-out of 560 lies in the middle of the first unit."""
    found = row(ROOM + CORNER + TOPS, JOINT)
    assert (found.at, found.clear_of_cut_out, found.form) == (629, 170, "masons mitre")


def test_a_corner_that_nobody_writes_down_asks_how_it_is_joined() -> None:
    found = row(ROOM + CORNER + "worktops: {long: {on: a}, short: {on: b}}\n", JOINT)
    assert to_find(found, "form") == {"/worktops/short/corner/is"}


def test_either_top_of_a_corner_may_say_how_it_is_joined() -> None:
    tops = "worktops: {long: {on: a, corner: butt with short}, short: {on: b}}\n"
    assert row(ROOM + CORNER + tops, JOINT).form == "butt"


@pytest.mark.parametrize(("corner", "degrees"), [("6 open in 600", 90.573), ("6 closed in 600", 89.427)])
def test_a_corner_has_the_angle_of_what_gapes_over_a_length(corner: str, degrees: float) -> None:
    found = row(ROOM + f"corners: {{north-east: {corner}}}\n" + CORNER + TOPS, JOINT)
    assert found.corner_angle == pytest.approx(degrees, abs=0.001)


@pytest.mark.parametrize("corners", ["none", "{south-west: 6 open in 600}"])
def test_a_corner_that_is_not_among_those_listed_is_square(corners: str) -> None:
    assert row(ROOM + f"corners: {corners}\n" + CORNER + TOPS, JOINT).corner_angle == 90


def test_corners_that_nobody_measured_are_asked_for() -> None:
    assert to_find(row(ROOM + CORNER + TOPS, JOINT), "corner_angle") == {"/corners"}


U_SHAPE = (
    "runs: {n: {against: north, order: {B1: base 1000, range: 600, B2: base 2400}}, "
    "w: {against: west, from: fronts of n, order: {B4: base 900}}, "
    "e: {against: east, from: fronts of n, order: {B5: base 600, slot: 600, B6: base 600}}}\n"
    "appliances: {range: {is: gas cooker}, slot: {is: gas cooker}}\n"
)
LEFT_TOP, RIGHT_TOP = "left: {on: n, between: west wall and range}", "right: {on: n, between: range and east wall}"


@pytest.mark.parametrize("tops", [f"{LEFT_TOP}, {RIGHT_TOP}", f"{RIGHT_TOP}, {LEFT_TOP}"])
def test_each_corner_is_that_of_the_tops_which_reach_it(tops: str) -> None:
    """A cooker parts the top of the middle run, another that of the run at the right."""
    sides = "wt: {on: w}, near: {on: e, between: north wall and slot}, far: {on: e, between: slot and south wall}"
    found = rows(ROOM + U_SHAPE + f"worktops: {{{tops}, {sides}}}\n", JOINT)
    assert [each.subject.name for each in found] == ["corner of wt and left", "corner of near and right"]


def test_a_corner_joint_with_one_top_says_nothing_of_the_corner_with_another() -> None:
    tops = "worktops: {n: {on: n, corner: masons mitre with wt}, wt: {on: w}, et: {on: e}}\n"
    west, east = rows(ROOM + U_SHAPE.replace("range: 600", "B3: base 600") + tops, JOINT)
    assert west.form == "masons mitre"
    assert to_find(east, "form") == {"/worktops/et/corner/is"}


@pytest.mark.parametrize("new", ["B4: base 900, T1: tall 600", "T1: tall 600, B1: base 1000"])
def test_a_tall_unit_in_the_corner_leaves_no_joint_there(new: str) -> None:
    """It stands at the corner of either run."""
    room = ROOM.replace("kinds: {", "kinds: {tall: {height: 2000, depth: 560, front: 19, void behind: 50}, ")
    old = new.replace("T1: tall 600", "").strip(", ")
    runs = U_SHAPE.replace(old, new).replace("B2: base 2400", "B2: base 1500")
    found = rows(room + runs + "worktops: {n: {on: n}, wt: {on: w}}\n", JOINT)
    assert found == []


LENGTH = "length of a worktop"


def test_a_worktop_is_as_long_as_from_joint_to_joint() -> None:
    found = rows(ROOM + RUN + SINK + top("joint: butt at 2300 from west", ", stock: 2400, past end: 0"), LENGTH)
    assert [(each.length, each.has_joint) for each in found] == [(2300, False), (700, False)]


def test_a_joint_of_unknown_place_leaves_a_worktop_in_one_length() -> None:
    found = row(ROOM + RUN + SINK + top("joint: butt", ", stock: 2400, past end: 0"), LENGTH)
    assert (found.length, found.has_joint) == (3000, True)


def test_a_worktop_is_as_long_as_it_is_cut_past_its_free_end_and_short_of_the_wall() -> None:
    found = row(ROOM + RUN + top("past end: 20, gap at wall: 5, stock: 3000"), LENGTH)
    assert found.length == 3000 + 20 - 5


def test_how_long_a_worktop_is_hangs_on_how_far_it_passes_its_free_end() -> None:
    assert to_find(row(ROOM + RUN + top("stock: 4000"), LENGTH), "length") == {"/worktops/top/past end"}
