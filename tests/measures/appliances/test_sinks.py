"""Sinks and what lies beside them, dishwashers, places to set down, and the ways between sink, hob and fridge."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, gaps, left_out, row, rows, to_find, working

ROOM = """
walls: {north: {length: 5000}, east: {length: 3000}, south: {length: 5000}, west: {length: 3000}}
kinds: {base: {height: 715, depth: 560}, tall: {height: 2100, depth: 560}, worktop: {thickness: 38}}
"""
SINK = "sink: {in: B2, cut-out: 700 x 480}"


def kitchen(order: str, appliances: str = SINK, more: str = "") -> str:
    return f"{ROOM}\nruns:\n  long: {{against: north, order: {{{order}}}}}\n{more}\nappliances: {{{appliances}}}"


def test_worktop_beside_a_sink_starts_at_its_cut_out() -> None:
    """The cut-out takes 450 to 1150 of B2, which takes 400 to 1200."""
    found = row(kitchen("B1: base 400, B2: base 800, B3: base 500"), "worktop beside a sink")
    assert (found.left, found.right, found.lesser, found.greater) == (450, 550, 450, 550)


def test_a_sink_without_a_size_is_asked_for_its_cut_out() -> None:
    found = row(kitchen("B1: base 400, B2: base 800", "sink: {in: B2}"), "worktop beside a sink")
    assert to_find(found, "lesser") == {"/appliances/sink/cut out"}


def test_a_sink_that_sits_nowhere_says_so() -> None:
    found = row(kitchen("B1: base 400", "sink: {cut-out: 700 x 480}"), "worktop beside a sink")
    assert to_find(found, "lesser") == {"/appliances/sink/in"}


@pytest.mark.parametrize(
    ("order", "away"),
    [
        ("B2: base 800, B3: base 300, dishwasher: 600", 350),
        ("dishwasher: 600, B3: base 300, B2: base 800", 350),
        ("B2: base 800, dishwasher: 600", 50),
    ],
)
def test_a_dishwasher_is_counted_from_the_edge_of_the_sink(order: str, away: float) -> None:
    found = row(kitchen(order, f"{SINK}, dishwasher: {{}}"), "dishwasher by a sink")
    assert (found.sink, found.away) == ("sink", away)


def test_the_nearest_of_two_sinks_counts() -> None:
    two = f"{SINK}, prep sink: {{is: sink, in: B4, cut-out: 300 x 400}}, dishwasher: {{}}"
    found = row(kitchen("B2: base 800, B3: base 900, dishwasher: 600, B4: base 400", two), "dishwasher by a sink")
    assert (found.sink, found.away) == ("prep sink", 50)


def test_a_dishwasher_on_another_wall_is_counted_from_the_sink_on_the_plan() -> None:
    """The cut-out starts 1050 from the west wall, its front 560 out from the north one; the machine's front is 560 out
    from the west wall and begins 860 from the north one: 490 aside and 300 down.
    """
    more = "  other: {against: west, order: {B8: base 1540, dishwasher: 600}}"
    found = row(kitchen("B1: base 1000, B2: base 800", f"{SINK}, dishwasher: {{}}", more), "dishwasher by a sink")
    assert found.sink == "sink"
    assert found.away == pytest.approx((490**2 + 300**2) ** 0.5)


def test_a_dishwasher_across_the_aisle_is_as_far_as_the_aisle_is_wide() -> None:
    more = "  other: {against: south, order: {G1: gap 3800, B8: base 600, dishwasher: 600}}"
    found = row(kitchen("B2: base 800", f"{SINK}, dishwasher: {{}}", more), "dishwasher by a sink")
    assert found.away == 3000 - 2 * 560


def test_a_dishwasher_that_stands_nowhere_yet_is_asked_for_its_place() -> None:
    found = row(kitchen("B2: base 800", f"{SINK}, dishwasher: {{}}"), "dishwasher by a sink")
    assert to_find(found, "away") == {"/appliances/dishwasher/in"}


def test_without_a_sink_no_dishwasher_is_by_one() -> None:
    assert rows(kitchen("dishwasher: 600", "dishwasher: {}"), "dishwasher by a sink") == []


def test_a_tall_oven_has_the_worktop_at_either_side() -> None:
    text = kitchen("B1: base 400, T1: tall 600, B3: base 500", "oven: {in: T1}")
    found = row(text, "place to set down")
    assert (found.sort, found.landing, found.faced) == ("oven", 500, False)
    assert working(found, "landing") == [(400, "worktop to the left"), (500, "worktop to the right")]


@pytest.mark.parametrize(("door", "landing"), [("left", 500), ("right", 400), ("none", 500)])
def test_a_fridge_has_it_at_the_side_of_its_handle(door: str, landing: float) -> None:
    fridge = f"fridge: {{body: 590 w x 1800 h x 600 d, door: {door}}}"
    text = kitchen("B1: base 400, fridge: 600, B3: base 500", fridge)
    assert row(text, "place to set down").landing == landing


def test_between_two_tall_things_there_is_none() -> None:
    text = kitchen("T0: tall 600, T1: tall 600, T2: tall 600", "oven: {in: T1}")
    text = text.replace("appliances:", "  low: {against: south, order: {B9: base 600}}\nappliances:")
    assert row(text, "place to set down").landing == 0


def test_what_stands_under_the_worktop_has_it_right_above() -> None:
    text = kitchen("B1: base 400, oven: 600, B3: base 500", "oven: {}")
    assert rows(text, "place to set down") == []


def test_an_island_across_the_aisle_may_take_what_is_set_down() -> None:
    more = "  island: {faces: north, aisle: {width: 1100, to: long}, order: {B9: base 900}}"
    found = row(kitchen("T1: tall 600, B1: base 300", "oven: {in: T1}", more), "place to set down")
    assert (found.faced, found.across) == (True, 1100)


TRIANGLE = "sink: {in: B2, cut-out: 500 x 480}, hob: {is: gas hob, in: B4, width: 580}, fridge: {in: T1}"


def test_ways_along_one_wall_and_round_the_corner() -> None:
    """Sink at 1100 and fridge at 4700 on the north wall, 560 out; the hob 700 from the right end of the east wall."""
    more = "  side: {against: east, order: {G1: gap 2000, B4: base 600}}"
    found = row(kitchen("B1: base 800, B2: base 600, G2: gap 3000, T1: tall 600", TRIANGLE, more), "work triangle")
    across, along = 5000 - 560 - 1100, 2300 - 560
    assert found.fridge_to_sink == 3600
    assert found.sink_to_hob == pytest.approx((across**2 + along**2) ** 0.5)
    assert found.hob_to_fridge == pytest.approx(((5000 - 560 - 4700) ** 2 + along**2) ** 0.5)
    assert found.all_round == pytest.approx(found.sink_to_hob + found.hob_to_fridge + 3600)
    assert (found.longest, found.shortest) == (found.sink_to_hob, found.hob_to_fridge)


def test_the_row_is_called_by_its_three_corners() -> None:
    found = row(kitchen("B2: base 600, B3: base 600, B4: base 600, T1: tall 600", TRIANGLE), "work triangle")
    assert found.subject.name == "sink, hob and fridge"


def test_what_is_not_sure_of_a_place_stays_in_the_ways_to_it() -> None:
    """Sink at 1100, fridge at 2300 to 2320: there and back 2400 to 2440."""
    order = "B1: base 800, B2: base 600, B4: {is: base, width: 600 to 620}, T1: tall 600"
    low, high = ends(row(kitchen(order, TRIANGLE), "work triangle"), "all_round")
    assert low <= 2400
    assert high >= 2440


def test_without_one_of_the_three_there_is_no_triangle() -> None:
    assert rows(kitchen("B2: base 600"), "work triangle") == []
    two = "sink: {in: B2}, hob: {is: gas hob, in: B4}"
    assert rows(kitchen("B2: base 600, B4: base 600", two), "work triangle") == []


def test_the_ways_to_a_fridge_that_stands_nowhere_yet_are_not_known() -> None:
    fridge = "sink: {in: B2}, hob: {is: gas hob, in: B4}, fridge: {body: 600 w x 1800 h x 600 d}"
    found = row(kitchen("B2: base 600, B4: base 600", fridge), "work triangle")
    assert to_find(found, "all_round") == {"/appliances/fridge/in"}
    assert found.sink_to_hob == 600


def test_of_two_fridges_the_one_that_stands_in_a_run_counts() -> None:
    both = "sink: {in: B2}, hob: {is: gas hob, in: B4}, old fridge: {is: fridge}, fridge: {in: T1}"
    found = row(kitchen("B2: base 600, B4: base 600, T1: tall 600", both), "work triangle")
    assert found.subject.name == "sink, hob and fridge"


def test_a_room_of_unknown_size_leaves_the_ways_unknown() -> None:
    text = kitchen("B2: base 600, B4: base 600, T1: tall 600", TRIANGLE).replace("{length: 3000}", "{}", 1)
    assert {gap.pointer for gap in gaps(row(text, "work triangle"), "all_round")} == {"/walls/east/length"}


@pytest.mark.parametrize("kind", ["worktop beside a sink", "dishwasher by a sink", "place to set down"])
def test_appliances_left_out_may_be_anything(kind: str) -> None:
    assert left_out(f"{ROOM}\nruns: {{long: {{against: north, order: {{B1: base 600}}}}}}", kind) == ["/appliances"]
