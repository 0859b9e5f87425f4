"""The ends of runs at walls: room past tiles, corners out of square, what opens there and where a fridge is hinged."""

from __future__ import annotations

from typing import Any

import pytest

from tests.measures.plans import ends, left_out, rows, to_find

KIND = "end of a run at a wall"
ROOM = """
walls: {north: {length: [3006, 3000]}, east: {length: 2500}, south: {length: 3000}, west: {length: 2500}}
kinds:
  base: {height: 720, depth: 560, front: 20, void behind: 20, opens: door}
  tall: {like: base, height: 1970}
  plain: {depth: 560}
  wall: {depth: 300, front: 20}
"""
RUN = "runs: {long: {against: north, order: {F1: filler 30, T1: tall 600 left, B1: base 600, B2: base 600}}}\n"


def end(text: str, wall: str = "west", room: str = ROOM) -> Any:
    return next(row for row in rows(room + text, KIND) if row.subject.name.endswith(f"at the {wall} wall"))


def test_each_end_is_measured_to_the_nearest_carcass_at_both_ends_of_the_readings() -> None:
    """3000 − 30 − 1800 = 1170 at the tightest reading."""
    assert end(RUN).room == 30
    assert ends(end(RUN, "east"), "room") == (1170, 1176)


def test_a_piece_that_takes_the_rest_leaves_the_same_room_whatever_the_wall_reads() -> None:
    text = "runs: {long: {against: north, order: {F1: filler rest, B1: base 2000, B2: base 970}}}"
    assert ends(end(text), "room") == (30, 36)
    assert ends(end(text, "east"), "room") == (0, 0)
    assert (end(text).closes, end(text, "east").closes) == (True, False)


def test_tiles_to_come_take_their_thickness() -> None:
    tiled = ROOM.replace("west: {length: 2500}", "west: {length: 2500, tiles: 12}")
    assert end(RUN, room=tiled).room == 18


def test_a_wall_that_says_none_of_tiles_while_another_is_tiled_is_asked() -> None:
    tiled = ROOM.replace("west: {length: 2500}", "west: {length: 2500, tiles: 12}")
    assert to_find(end(RUN, "east", tiled), "room") == {"/walls/east/tiles"}
    told = tiled.replace("east: {length: 2500}", "east: {length: 2500, tiles: none}")
    assert ends(end(RUN, "east", told), "room") == (1170, 1176)


def test_a_closed_corner_takes_its_share_over_the_depth_of_the_run() -> None:
    """6 in 500 over 20 + 560 + 20 is 7.2."""
    row = end("corners: {north-west: 6 closed in 500}\n" + RUN)
    assert (row.corner, row.taper) == ("closed", pytest.approx(7.2))
    assert row.room_at_fronts == pytest.approx(30 - 7.2)
    assert end("corners: {north-west: 6 closed in 500}\n" + RUN, "east").corner == "not said"


def test_a_hung_unit_has_no_void_behind_it() -> None:
    hung = "runs: {hung: {against: north, underside: 1400 from bare floor, order: {W1: wall 600}}}"
    text = "corners: {north-west: 5 open in 320}\n" + hung
    assert end(text).taper == pytest.approx(5)


def test_a_fridge_is_hinged_at_the_wall_or_away_from_it_or_nobody_says() -> None:
    fridge = RUN + "appliances: {fridge freezer: {in: T1}}"
    assert (end(fridge).cold, end(fridge).hinged_at_wall, end(fridge, "east").cold) == (True, True, False)
    assert not end(fridge.replace("600 left", "600 right")).hinged_at_wall
    assert to_find(end(fridge.replace("600 left", "600")), "hinged_at_wall") == {"/runs/long/order/T1/hand"}


def test_a_fridge_of_its_own_front_is_hinged_where_its_maker_hung_it() -> None:
    run = "runs: {long: {against: north, order: {F1: filler 30, fridge: 600, B1: base 600}}}\n"
    text = run + "appliances: {fridge: {door: left, handle: 35}}"
    assert (end(text).cold, end(text).hinged_at_wall, end(text).handle) == (True, True, 35)
    assert not end(text.replace("door: left", "door: right")).hinged_at_wall
    assert to_find(end(text.replace("door: left, ", "")), "hinged_at_wall") == {"/appliances/fridge/door"}


@pytest.mark.parametrize(("opens", "hinged"), [("two doors", True), ("drawers", False), ("nothing", False)])
def test_of_two_doors_one_is_hinged_at_the_wall_and_of_drawers_none(opens: str, hinged: bool) -> None:
    text = f"runs: {{long: {{against: north, order: {{B1: {{is: base, width: 600, opens: {opens}}}}}}}}}"
    assert end(text).hinged_at_wall == hinged


def test_what_opens_is_asked_of_the_kind() -> None:
    row = end("runs: {long: {against: north, order: {B1: plain 600}}}")
    assert to_find(row, "opens") == {"/kinds/plain/opens"}
    assert end("runs: {long: {against: north, order: {dishwasher: 600}}}").opens == "appliance"


def test_islands_and_runs_of_nothing_but_fillers_have_no_ends_at_walls() -> None:
    island = "isle: {faces: north, aisle: 1100, order: {B1: base 600}}"
    text = f"runs: {{{island}, long: {{against: north, order: {{F1: filler 30}}}}}}"
    assert rows(ROOM + text, KIND) == []


def test_without_runs_they_are_asked_for() -> None:
    assert left_out(ROOM, KIND) == ["/runs"]
