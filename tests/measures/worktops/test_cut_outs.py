"""Cut-outs: strips of worktop before, behind and beside them, and what hangs down into the unit."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, left_out, row, rows, to_find

ROOM = """
walls: {north: {length: 4000}, east: {length: 3000}, south: {length: 4000}, west: {length: 3000}}
kinds: {base: {height: 720, depth: 560, opens: door}, drawers: {like: base, opens: drawers}}
runs: {a: {against: north, order: {B1: base 800, B2: drawers 900, B3: base 600}}}
worktops: {top: {on: a, thickness: 38, depth: 620, material: laminate}}
"""
CUT_OUT = "cut-out in a worktop"


def sink(more: str) -> str:
    return ROOM + f"appliances: {{sink: {{in: B1, {more}}}}}\n"


def hob(more: str) -> str:
    return ROOM + f"appliances: {{hob: {{is: gas hob, in: B2, {more}}}}}\n"


def test_the_back_strip_is_what_the_front_strip_and_the_cut_out_leave() -> None:
    found = row(sink("cut-out: 500 x 480, from front: 70"), CUT_OUT)
    assert (found.back, found.narrower_strip) == (70, 70)


def test_its_middle_is_as_far_out_as_the_back_strip_and_half_of_it() -> None:
    """620 deep, 70 before a cut-out of 480: its middle is 310 before the back edge."""
    assert row(sink("cut-out: 500 x 480, from front: 70"), CUT_OUT).out == 310


def test_letters_of_a_cut_out_tell_width_and_depth() -> None:
    assert row(sink("cut-out: 500 w x 450 d, from front: 70"), CUT_OUT).back == 100


def test_a_cut_out_of_unknown_place_asks_for_the_front_strip() -> None:
    assert to_find(row(sink("cut-out: 500 x 480"), CUT_OUT), "back") == {"/appliances/sink/from front"}


def test_a_cut_out_is_as_far_from_the_end_as_from_the_nearer_one() -> None:
    """About the middle of the unit, 400; its left edge is 150 from the end of the worktop."""
    assert row(sink("cut-out: 500 x 480"), CUT_OUT).to_end == 150


def test_a_sink_may_stand_beside_the_middle_of_its_unit() -> None:
    assert row(sink("cut-out: 500 x 480, along: 350 from west"), CUT_OUT).to_end == 100


def test_two_cut_outs_are_as_far_apart_as_the_strip_between_them() -> None:
    text = ROOM + "appliances: {sink: {in: B1, cut-out: 500 x 480}, hob: {is: gas hob, in: B2, cut-out: 560 x 490}}\n"
    assert {each.subject.name: each.to_next for each in rows(text, CUT_OUT)} == {"sink": 320, "hob": 320}


def test_one_cut_out_alone_has_no_next() -> None:
    assert row(sink("cut-out: 500 x 480"), CUT_OUT).has_next is False


@pytest.mark.parametrize(("sides", "beside"), [("", 12), ("sides: 15, ", 15)])
def test_a_bowl_hangs_between_the_sides_of_its_unit(sides: str, beside: float) -> None:
    """Sides of which the plan says nothing are taken from the table of usual sizes."""
    text = sink("cut-out: 780 x 480, bowl: 740 w x 400 d x 180 h").replace("opens: door}", f"{sides}opens: door}}")
    assert row(text, CUT_OUT).beside == beside


def test_a_hob_hangs_through_its_cut_out() -> None:
    assert row(hob("cut-out: 560 x 490"), CUT_OUT).beside == 152


def test_air_below_a_hob_is_what_it_leaves_of_worktop_and_free_space() -> None:
    found = row(hob("cut-out: 560 x 490, body: 590 w x 520 d x 55 h, free below: 70 to 80"), CUT_OUT)
    assert ends(found, "air") == (53, 63)
    assert found.below == "drawers"


def test_a_hob_over_drawers_asks_what_is_free_below_it() -> None:
    found = row(hob("cut-out: 560 x 490, body: 590 w x 520 d x 55 h"), CUT_OUT)
    assert to_find(found, "air") == {"/appliances/hob/free below"}


@pytest.mark.parametrize(("set_", "air"), [("drop-in", 28), ("undermount", -10)])
def test_a_bowl_hangs_from_the_surface_or_from_the_underside(set_: str, air: float) -> None:
    """A bowl of 180 over 170 of free height, in a worktop of 38."""
    text = sink(f"cut-out: 700 x 480, bowl: 700 w x 400 d x 180 h, free below: 170, set: {set_}")
    assert row(text, CUT_OUT).air == air


def test_a_bowl_over_drawers_asks_how_it_is_set() -> None:
    text = sink("cut-out: 700 x 480, bowl: 700 w x 400 d x 180 h, free below: 170")
    assert to_find(row(text, CUT_OUT), "air") == {"/appliances/sink/set"}


def test_a_unit_that_does_not_say_how_it_opens_leaves_open_what_is_below() -> None:
    text = hob("cut-out: 560 x 490").replace("drawers: {like: base, opens: drawers}", "drawers: {height: 720}")
    assert to_find(row(text, CUT_OUT), "below") == {"/runs/a/order/B2/opens"}


@pytest.mark.parametrize(("said", "lined"), [("aluminium tape", True), ("none", False)])
def test_the_edge_of_a_hob_is_lined_with_something_or_with_nothing(said: str, lined: bool) -> None:
    assert row(hob(f"cut-out: 560 x 490, lined: {said}"), CUT_OUT).has_lining is lined


def test_a_cooker_needs_no_cut_out() -> None:
    cooker = ROOM.replace("B3: base 600", "cooker: 600") + "appliances: {cooker: {is: gas cooker}}\n"
    assert rows(cooker, CUT_OUT) == []


def test_cut_outs_of_an_island_count_from_its_left_end() -> None:
    island = "runs: {isle: {faces: north, order: {B1: base 800, B2: base 800}}}\nworktops: {top: {on: isle}}\n"
    walls = "walls: {north: {length: 4000}}\nkinds: {base: {height: 720, depth: 560, opens: door}}\n"
    found = row(walls + island + "appliances: {sink: {in: B2, cut-out: 500 x 480}}\n", CUT_OUT)
    assert (found.left, found.right, found.to_end) == (950, 1450, 150)


@pytest.mark.parametrize("section", ["worktops", "appliances"])
def test_without_worktops_or_appliances_nobody_knows_of_cut_outs(section: str) -> None:
    text = sink("cut-out: 500 x 480")
    lines = [line for line in text.splitlines() if not line.startswith(section)]
    assert left_out("\n".join(lines), CUT_OUT) == [f"/{section}"]


def test_a_hob_over_an_opening_has_no_sides_beside_it() -> None:
    text = ROOM.replace("B2: drawers 900", "oven: 600")
    more = "appliances: {oven: {is: oven}, hob: {is: gas hob, over: oven, cut-out: 580 x 490}}\n"
    assert row(text + more, CUT_OUT).beside == 10


def test_a_sink_that_nobody_says_the_unit_of_is_still_cut_into_a_worktop() -> None:
    assert left_out(ROOM + "appliances: {sink: {cut-out: 500 x 480}}\n", CUT_OUT) == ["/appliances/sink/in"]


def test_a_hob_in_a_run_without_a_worktop_asks_for_it() -> None:
    text = ROOM.replace("runs: {", "runs: {b: {against: south, order: {B9: base 600}}, ")
    assert left_out(text + "appliances: {hob: {is: gas hob, in: B9}}\n", CUT_OUT) == ["/worktops"]


def test_a_plan_that_has_no_worktops_asks_no_hob_for_one() -> None:
    text = ROOM.partition("worktops:")[0] + "worktops: none\nappliances: {hob: {is: gas hob, in: B2}}\n"
    assert (rows(text, CUT_OUT), left_out(text, CUT_OUT)) == ([], [])
