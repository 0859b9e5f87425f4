"""Setting out: every place follows from the order of the runs; sums by hand beside each."""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import Any

import pytest

from tests.measures.plans import ends, gaps, left_out, rows, site, to_find, working
from validator.measures.rows import Known
from validator.measures.tracing import derived

UNIT = "unit in a run"
RUN = "run against its wall"

ROOM = """
walls: {north: {length: 4200}, east: {length: 3000}, south: {length: 4200}, west: {length: 3000}}
kinds:
  base: {depth: 555, front: 20, void behind: 45}
  wall: {depth: 320}
  corner wall: {like: wall}
  post: {}
"""


def places(text: str, room: str = ROOM) -> dict[str, tuple[float, float]]:
    """Left and right side of everything, at the first reading of each wall."""
    return {row.subject.name: (row.left, row.right) for row in rows(room + text, UNIT)}


def side(text: str, name: str, figure: str, room: str = ROOM) -> tuple[float | None, float | None]:
    """A side of a thing at both ends of what is not certain."""
    row = next(row for row in rows(room + text, UNIT) if row.subject.name == name)
    found = derived(row, figure)
    assert isinstance(found, Known)
    return found.low, found.high


def unit(text: str, name: str, room: str = ROOM) -> Any:
    return next(row for row in rows(room + text, UNIT) if row.subject.name == name)


def run(text: str, name: str, room: str = ROOM) -> Any:
    return next(row for row in rows(room + text, RUN) if row.subject.name == name)


def test_things_stand_side_by_side_from_the_left_end() -> None:
    text = "runs: {long: {against: north, order: {A1: base 450, A2: base 900, dishwasher: 600}}}"
    assert places(text) == {"A1": (0, 450), "A2": (450, 1350), "dishwasher": (1350, 1950)}


def test_the_working_of_a_place_names_what_stands_before() -> None:
    row = unit("runs: {long: {against: north, order: {A1: base 450, A2: base 900, A3: base 300}}}", "A3")
    assert working(row, "left") == [(0, "left end of the wall"), (450, "A1"), (900, "A2")]


def test_a_place_is_drawn_where_it_is() -> None:
    row = unit("runs: {long: {against: north, order: {A1: base 450, A2: base 900}}}", "A2")
    assert (row.subject.wall, row.subject.context, row.subject.along) == ("north", "north wall", (450, 1350))
    assert row.middle == 900


def test_rest_takes_what_is_left_of_the_wall() -> None:
    """4200 − 450 − 900 = 2850 left over, wherever the piece stands."""
    text = "runs: {long: {against: north, order: {A1: base 450, F1: filler rest, A2: base 900}}}"
    assert places(text)["F1"] == (450, 3300)
    assert places(text)["A2"] == (3300, 4200)


def test_rest_is_what_the_tightest_reading_leaves_up_to_the_widest() -> None:
    room = ROOM.replace("north: {length: 4200}", "north: {length: [4206, 4198, 4201]}")
    text = "runs: {long: {against: north, order: {F1: filler rest, A1: base 450, A2: base 900}}}"
    assert ends(unit(text, "F1", room), "width") == (2848, 2856)
    assert side(text, "A1", "left", room) == (2848, 2856)


def test_what_stands_right_of_the_rest_hangs_on_the_wall_alone() -> None:
    """A void that is not certain moves the start, not what stands against the other end: 3000 − 600 = 2400."""
    text = """
runs:
  long: {against: north, order: {A1: {is: base, width: 600, void behind: 40 to 55}}}
  short: {against: east, from: fronts of long, order: {B1: base 500, F1: filler rest, B2: base 600}}
"""
    assert side(text, "B1", "left") == (615, 630)
    assert side(text, "F1", "right") == (2400, 2400)
    assert side(text, "B2", "left") == (2400, 2400)


def test_a_width_that_is_not_certain_moves_everything_after_it() -> None:
    text = "runs: {long: {against: north, order: {A1: base 445 to 450, A2: base 900, A3: base 300}}}"
    assert side(text, "A3", "left") == (1345, 1350)


def test_a_run_starts_at_the_fronts_of_the_run_in_the_corner_at_its_left() -> None:
    """45 void + 555 unit + 20 front = 620."""
    text = """
runs:
  long: {against: north, order: {A1: base 600, A2: base 600}}
  short: {against: east, from: fronts of long, order: {P1: post 40, B1: base 500}}
"""
    assert places(text)["P1"] == (620, 660)
    assert places(text)["B1"] == (660, 1160)
    row = unit(text, "P1")
    origin = row.known["start"].origin
    assert working(*origin) == [(45, "void behind"), (555, "A2"), (20, "front")]


def test_the_corner_counts_the_unit_that_stands_nearest_to_it() -> None:
    text = """
runs:
  long: {against: north, order: {A1: {is: base, width: 600, depth: 300}, A2: base 600, P0: post 30}}
  short: {against: east, from: fronts of long, order: {B1: base 500}}
"""
    assert places(text)["B1"][0] == 620


def test_a_run_that_ends_at_the_fronts_of_the_corner_at_its_right_is_set_out_from_there() -> None:
    """West is left of north, so north stands at its right end: 3000 − 620 = 2380, counted back from there."""
    text = """
runs:
  long: {against: north, order: {A1: base 600, A2: base 600}}
  short: {against: west, from: fronts of long, order: {B1: base 500, P1: post 40}}
"""
    assert places(text)["P1"] == (2340, 2380)
    assert places(text)["B1"] == (1840, 2340)


def test_rest_in_a_run_that_ends_at_fronts_reaches_to_the_other_end_of_the_wall() -> None:
    text = """
runs:
  long: {against: north, order: {A1: base 600}}
  short: {against: west, from: fronts of long, order: {F1: filler rest, B1: base 500}}
"""
    assert places(text)["F1"] == (0, 1880)
    assert run(text, "short").left_over == 1880


@pytest.mark.parametrize(("start", "left"), [("700 from west", 700), ("700 from east", 4200 - 700 - 900)])
def test_a_run_is_set_out_from_the_wall_that_it_names(start: str, left: float) -> None:
    text = f"runs: {{long: {{against: north, from: {start}, order: {{A1: base 900}}}}}}"
    assert places(text)["A1"] == (left, left + 900)


def test_over_sets_left_sides_in_line() -> None:
    text = """
runs:
  long: {against: north, order: {A1: base 450, A2: base 900}}
  upper: {against: north, underside: 1400 from bare floor, order: {W1: wall 600 over A2, W2: wall 300}}
"""
    assert places(text)["W1"] == (450, 1050)
    assert places(text)["W2"] == (1050, 1350)


def test_left_of_and_right_of_stand_against_each_other() -> None:
    text = """
runs:
  long: {against: north, order: {A1: base 900, A2: base 900}}
  upper:
    against: north
    underside: 1400 from bare floor
    order: {W1: wall 300 left of W2, W2: wall 400 left of W3, W3: wall 500 over A2, W4: wall 200 right of W3}
"""
    assert places(text)["W2"] == (500, 900)
    assert places(text)["W1"] == (200, 500)
    assert places(text)["W4"] == (1400, 1600)


def test_left_of_a_thing_that_does_not_stand_next_in_the_order() -> None:
    text = """
runs:
  long: {against: north, order: {A1: base 900, A2: base 900}}
  upper: {against: north, underside: 1400 from bare floor, order: {W1: wall 300 left of A2, W2: wall 400 right of A2}}
"""
    assert places(text)["W1"] == (600, 900)
    assert places(text)["W2"] == (1800, 2200)


@pytest.mark.parametrize(
    ("corner", "left"), [("north-east", 4200 - 650), ("east-north", 4200 - 650), ("north-west", 0), ("West North", 0)]
)
def test_a_corner_unit_stands_against_its_end(corner: str, left: float) -> None:
    text = f"""
runs: {{upper: {{against: north, underside: 1400 from bare floor, order: {{W1: corner wall 650 in {corner}}}}}}}
"""
    assert places(text)["W1"] == (left, left + 650)


def test_a_filler_takes_the_rest_up_to_a_thing_that_stands_by_itself() -> None:
    text = """
runs:
  long: {against: north, order: {A1: base 900, A2: base 900}}
  upper: {against: north, underside: 1400 from bare floor, order: {F1: filler rest, W1: wall 600 over A2}}
"""
    assert places(text)["F1"] == (0, 900)


def test_a_built_unit_stays_where_it_was_measured_and_what_follows_it_moves() -> None:
    text = """
runs: {long: {against: north, order: {A1: base 450, A2: base 900, A3: base 300}}}
built: {A2: {along: 458 from west}}
"""
    assert places(text) == {"A1": (0, 450), "A2": (458, 1358), "A3": (1358, 1658)}


def test_a_built_unit_measured_from_the_right_counts_to_its_right_side() -> None:
    text = """
runs: {long: {against: north, order: {A1: base 450, A2: base 900}}}
built: {A2: {along: 2000 from east}}
"""
    assert places(text)["A2"] == (4200 - 2000 - 900, 2200)


def test_a_built_unit_that_the_plan_runs_into_leaves_less_than_nothing() -> None:
    text = """
runs: {long: {against: north, order: {A1: base 450, A2: base 900}}}
built: {A2: {along: 441 from west}}
"""
    assert run(text, "long, A1").left_over == -9


def test_a_run_and_what_is_left_of_its_wall() -> None:
    text = "runs: {long: {against: north, order: {A1: base 450, A2: base 900, A3: base 300}}}"
    row = run(text, "long")
    assert (row.taken, row.left_over, row.has_closing, row.ends_at_wall) == (1650, 2550, False, True)
    assert working(row, "left_over") == [
        (4200, "north wall"),
        (0, "left end of the wall"),
        (450, "A1"),
        (900, "A2"),
        (300, "A3"),
    ]


def test_a_closing_piece_brings_what_it_may_be() -> None:
    text = """
runs: {long: {against: north, order: {A1: base 4130, F1: {is: filler, rest: yes, least: 30, most: 90}}}}
"""
    row = run(text, "long")
    assert (row.has_closing, row.left_over, row.closing_least, row.closing_most) == (True, 70, 30, 90)


def test_the_tightest_and_the_widest_reading_of_a_wall_both_count() -> None:
    room = ROOM.replace("north: {length: 4200}", "north: {length: [4206, 4198, 4201]}")
    text = "runs: {long: {against: north, order: {A1: base 4150}}}"
    assert ends(run(text, "long", room), "left_over") == (48, 56)


def test_a_broken_run_has_a_row_for_each_stretch() -> None:
    text = """
runs:
  long: {against: north, order: {A1: base 900, A2: base 900}}
  upper: {against: north, underside: 1400 from bare floor, order: {W1: wall 600 over A1, W2: wall 600 over A2}}
"""
    first, second = run(text, "upper, W1"), run(text, "upper, W2")
    assert (first.left_over, first.ends_at_wall) == (300, False)
    assert (second.left_over, second.ends_at_wall) == (4200 - 900 - 600, True)


def test_neighbours_that_hang_on_one_reading_do_not_clash_by_it() -> None:
    """Both stand over units whose place moves with the wall; between them is exactly nothing, whatever it reads."""
    room = ROOM.replace("north: {length: 4200}", "north: {length: [4206, 4198, 4201]}")
    text = """
runs:
  long: {against: north, order: {F1: filler rest, A1: base 600, A2: base 600}}
  upper: {against: north, underside: 1400 from bare floor, order: {W1: wall 600 over A1, W2: wall 600 over A2}}
"""
    assert ends(run(text, "upper, W1", room), "left_over") == (0, 0)


def test_a_corner_unit_and_its_neighbour_are_measured_against_each_other() -> None:
    text = """
runs:
  long: {against: north, order: {A1: base 900}}
  upper:
    against: north
    underside: 1400 from bare floor
    order: {W1: wall 600 over A1, W2: corner wall 650 in north-east}
"""
    assert run(text, "upper, W1").left_over == 4200 - 650 - 600
    assert run(text, "upper, W2").left_over == 4200 - 600 - 650


@pytest.mark.parametrize(
    ("text", "name", "pointers"),
    [
        ("runs: {long: {against: north, order: {A1: base, A2: base 900}}}", "A2", {"/runs/long/order/A1/width"}),
        (
            "runs: {long: {against: north, order: {A1: base to find out by joiner, A2: base 900}}}",
            "A2",
            {"/runs/long/order/A1/width"},
        ),
        (
            "runs: {long: {against: north, order: {F1: filler rest, A2: base 900}}}",
            "A2",
            {"/walls/north/length"},
        ),
        (
            """
runs:
  long: {against: north, order: {A1: {is: bare, width: 600, depth: 500}}}
  short: {against: east, from: fronts of long, order: {A2: bare 500}}
""",
            "A2",
            {"/runs/long/order/A1/void behind", "/runs/long/order/A1/front"},
        ),
    ],
)
def test_a_place_that_cannot_be_worked_out_names_what_it_lacks(text: str, name: str, pointers: set[str]) -> None:
    room = ROOM.replace("north: {length: 4200}", "north: {made of: block}").replace("post: {}", "post: {}\n  bare: {}")
    assert to_find(unit(text, name, room), "left") == pointers


def test_a_thing_over_another_on_another_wall_has_no_place() -> None:
    text = """
runs:
  long: {against: north, order: {A1: base 900}}
  upper: {against: south, underside: 1400 from bare floor, order: {W1: wall 600 over A1}}
"""
    (gap,) = gaps(unit(text, "W1"), "left")
    assert gap.detail == "A1 stands at the north wall, not at the south wall"


def test_runs_that_do_not_meet_give_no_start() -> None:
    text = """
runs:
  long: {against: north, order: {A1: base 900}}
  other: {against: south, from: fronts of long, order: {B1: base 600}}
"""
    (gap,) = gaps(unit(text, "B1"), "left")
    assert gap.detail == "the fronts of long and the south wall do not meet"


def test_a_chain_too_long_to_follow_is_not_known_and_not_a_crash() -> None:
    things = ", ".join(
        f"run {n}: {{against: north, underside: 1400 from bare floor, order: {{W{n}: wall 300 right of W{n + 1}}}}}"
        for n in range(300)
    )
    last = "run 300: {against: north, underside: 1400 from bare floor, order: {W300: wall 300}}"
    found = rows(f"{ROOM}\nruns: {{{things}, {last}}}", UNIT)
    assert next(row for row in found if row.subject.name == "W299").left == 300
    assert "placed one by another" in gaps(found[0], "left")[0].detail


def test_things_that_stand_the_other_way_round_than_they_are_listed_leave_the_room_for_them_open() -> None:
    low = "low: {against: north, order: {A1: base 600, A2: base 600, A3: base 600}}"
    text = f"runs: {{{low}, high: {{against: north, order: {{W1: wall 600 over A2, W2: wall 600 over A1}}}}}}"
    (gap,) = gaps(run(text, "high, W1"), "left_over")
    assert gap.detail == "W2 stands left of W1, which the order names before it"


def test_a_plan_without_runs_leaves_them_open() -> None:
    assert left_out(ROOM, UNIT) == ["/runs"]
    assert left_out(ROOM, RUN) == ["/runs"]
    assert rows(ROOM + "runs: none", UNIT) == []


def test_american_plans_are_set_out_in_inches() -> None:
    """36 + 24 + 1-1/2 = 61-1/2 in."""
    text = """
walls: {north: {length: 12'-0"}, east: {length: 10'-0"}, south: {length: 12'-0"}, west: {length: 10'-0"}}
runs: {long: {against: north, order: {A1: base 36, A2: base 24, F1: filler 1-1/2}}}
kinds: {base: {depth: 24}}
"""
    project = "project: {title: Fern Street, country: US-OR, lengths in: in}"
    found = rows(text, UNIT, project)
    assert found[-1].right == pytest.approx(61.5 * 25.4)


def _wide(runs: int, units: int) -> str:
    lines = [ROOM, "runs:"]
    for number in range(runs):
        lines += [f"  run {number}:", "    against: north", "    order:", "      F1: filler rest"]
        lines += [f"      A{number} {unit}: base 600" for unit in range(units)]
    return "\n".join(lines)


def _calls(work: Callable[[], object]) -> int:
    """How many calls of Python functions a piece of work takes: a measure of cost that no clock disturbs."""
    counted = 0

    def count(frame: object, event: str, argument: object) -> None:
        nonlocal counted
        counted += event == "call"

    before = sys.getprofile()
    sys.setprofile(count)
    try:
        work()
    finally:
        sys.setprofile(before)
    return counted


def _cost(runs: int, units: int) -> int:
    plan = site(_wide(runs, units))
    return _calls(lambda: [derived(row, "middle") for row in plan.rows(UNIT).rows])


def test_cost_grows_with_the_number_of_things_and_no_faster() -> None:
    """50 runs of 60 cost no more than 6 times 10 runs of 60, and a run of 600 no more than 12 times a run of 60."""
    assert _cost(50, 60) < 6 * _cost(10, 60)
    assert _cost(1, 600) < 12 * _cost(1, 60)


def test_a_place_far_along_a_long_run_is_exact() -> None:
    found = {row.subject.name: row.left for row in rows(_wide(1, 180), UNIT)}
    rest = 4200 - 180 * 600
    assert found["A0 179"] == rest + 179 * 600
