"""Things beside each other on a wall: what is clear between them, at which heights they meet, and what is not asked."""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import Any

from tests.measures.plans import ends, left_out, rows, site, to_find

KIND = "thing beside its neighbours"
ROOM = """
heights from: bare floor
walls: {north: {length: 4000}, east: {length: 3000}, south: {length: 4000}, west: {length: 3000}}
floor: {levels: {everywhere: 0}}
floors: none
kinds:
  base: {height: 720, depth: 560, legs: 130 to 170}
  tall: {like: base, height: 1970}
  wall: {height: 720, depth: 300}
  top box: {height: 350, depth: 560}
"""
BASES = "  low: {against: north, legs: 150 at high spot, order: {B1: base 600, B2: base 600, T1: tall 600}}\n"


def clear(text: str, room: str = ROOM) -> dict[str, float]:
    return {row.subject.name: row.clear for row in rows(room + "runs:\n" + text, KIND)}


def thing(text: str, name: str, room: str = ROOM) -> Any:
    return next(row for row in rows(room + "runs:\n" + text, KIND) if row.subject.name == name)


def test_two_runs_on_one_wall_meet_where_one_ends_and_the_other_begins() -> None:
    """1800 beside 4000 − 600 − 1580 = 1820."""
    other = "  right: {against: north, from: 1580 from east, order: {B3: base 600}}\n"
    assert clear(BASES + other) == {"T1": 20, "B3": 20}


def test_they_overlap_by_less_than_nothing() -> None:
    other = "  right: {against: north, from: 1650 from east, order: {B3: base 600}}\n"
    assert clear(BASES + other) == {"T1": -50, "B3": -50}
    assert thing(BASES + other, "B3").nearest == "T1"


def test_what_follows_in_one_stretch_has_no_row() -> None:
    assert clear(BASES) == {}


def test_a_wall_unit_hangs_over_a_base_unit_and_into_a_tall_one() -> None:
    """Base units end at 870, tall ones at 2120; the wall units hang from 1400 to 2120."""
    hung = "  hung: {against: north, underside: 1400, order: {W1: wall 600 over B1, W2: wall 700 right of W1}}\n"
    assert clear(BASES + hung) == {"W2": -100, "T1": -100}


def test_a_box_above_a_tall_unit_is_clear_of_it() -> None:
    hung = (
        "  hung: {against: north, underside: 1400, order: {U1: {is: top box, width: 600, over: T1, underside: 2130}}}\n"
    )
    assert clear(BASES + hung) == {}


def test_hung_units_of_two_runs_meet_only_at_one_height() -> None:
    first = "  first: {against: north, underside: 1400, order: {W1: wall 600 over B1}}\n"
    assert clear(BASES + first + "  over: {against: north, underside: 2130, order: {W2: wall 600 over B1}}\n") == {}
    beside = "  beside: {against: north, underside: 1450, order: {W2: wall 600 over B1}}\n"
    assert clear(BASES + first + beside) == {"W1": -600, "W2": -600}


def test_one_that_overlaps_is_asked_for_its_height_first() -> None:
    first = "  first: {against: north, underside: 1400, order: {W1: wall 600 over B1}}\n"
    open_end = "  second: {against: north, underside: to find out, order: {W2: wall 600 over B1}}\n"
    assert to_find(thing(BASES + first + open_end, "W2"), "clear") == {"/runs/second/underside"}


def test_a_pinned_unit_in_the_middle_of_a_run_meets_those_before_and_after_it() -> None:
    text = "  long: {against: north, order: {B1: base 600, B2: base 600, B3: base 600}}\n"
    assert clear(text + "built: {B2: {along: 590 from west}}\n") == {"B1": -10, "B2": -10}


def test_the_same_reading_of_a_wall_moves_both() -> None:
    room = ROOM.replace("north: {length: 4000}", "north: {length: [4010, 4000]}")
    run = "  right: {against: north, from: 600 from east, order: {B3: base 600}}\n"
    hung = "  hung: {against: north, underside: 200, order: {W1: wall 600 over B3}}\n"
    tall = run.replace("base", "tall").replace("600 from east,", "600 from east, legs: 150 at high spot,")
    assert ends(thing(tall + hung, "W1", room), "clear") == (-600, -600)


def test_gaps_and_things_without_a_place_have_no_rows() -> None:
    gap = "  a: {against: north, order: {G: gap 900}}\n"
    assert clear(gap + "  b: {against: north, order: {B1: base 600, B2: base to find out}}\n") == {}
    assert left_out(ROOM, KIND) == ["/runs"]


def test_work_grows_with_the_number_of_units() -> None:
    def work(count: int) -> int:
        room = ROOM.replace("north: {length: 4000}", f"north: {{length: {count * 1000}}}")
        low = ", ".join(f"B{n}: base 600" for n in range(count))
        hung = ", ".join(f"W{n}: wall 600 over B{n}" for n in range(count))
        text = f"  a: {{against: north, legs: 150 at high spot, order: {{{low}}}}}\n"
        text += f"  b: {{against: north, underside: 1400, order: {{{hung}}}}}\n"
        return calls(lambda: site(room + "runs:\n" + text).rows(KIND))

    assert work(120) < 2.6 * work(60)


def calls(function: Callable[[], object]) -> int:
    """How many functions of Python a call comes to."""
    count = 0

    def counting(frame: object, event: str, argument: object) -> None:
        nonlocal count
        count += event == "call"

    sys.setprofile(counting)
    try:
        function()
    finally:
        sys.setprofile(None)
    return count
