"""Whether a room closes as it was measured, and what its diagonals say to that."""

from __future__ import annotations

import pytest

from tests.measures.plans import known, row, rows, to_find, working

SQUARE = "walls: {n: {length: 4000}, e: {length: 3000}, s: {length: 4000}, w: {length: 3000}}\n"


def test_the_gap_of_a_room_is_what_its_walls_miss_each_other_by() -> None:
    found = row(SQUARE.replace("s: {length: 4000}, w: {length: 3000}", "s: {length: 3970}, w: {length: 3040}"), "room")
    assert (found.gap, found.around, found.crossings, found.corners_off) == (pytest.approx(50), 14010, 0, 0)


def test_of_several_readings_the_middle_one_is_walked() -> None:
    found = row(SQUARE.replace("s: {length: 4000}", "s: {length: [3990, 4002, 4010]}"), "room")
    assert found.gap == pytest.approx(0)


def test_a_room_whose_corners_nobody_measured_closes_only_as_long_as_they_are_right() -> None:
    assert row(SQUARE, "room").rests_on_assumption
    corners = "corners: {n-e: square, e-s: square, s-w: square, w-n: square}\n"
    assert not row(SQUARE + corners, "room").rests_on_assumption


def test_the_working_of_the_gap_speaks_of_misses_and_what_it_supposes_of_corners() -> None:
    found = row(SQUARE.replace("s: {length: 4000}", "s: {length: 3970}"), "room")
    misses = {(round(value), label) for value, label in working(found, "gap")}
    assert misses == {(30, "miss along the first wall"), (0, "miss at right angles to it")}
    supposed = known(found, "along").rests_on
    assert [(value.pointer, value.label) for value in supposed] == [("/corners", "squareness of the corners")]


def test_a_room_with_a_wall_nobody_measured_is_not_known_to_close() -> None:
    found = row(SQUARE.replace("e: {length: 3000}", "e: {}"), "room")
    assert to_find(found, "gap") == {"/walls/e/length"}


def test_corners_that_enclose_no_room_say_by_how_much_and_leave_the_gap_open() -> None:
    found = row("walls: {a: {length: 9}, b: {length: 9}, c: {length: 9}, d: {length: 9}, e: {length: 9}}\n", "room")
    assert found.corners_off == pytest.approx(90)
    assert to_find(found, "gap") == {"/corners"}


def test_each_room_is_walked_by_itself_and_one_of_two_walls_is_none() -> None:
    text = SQUARE + "rooms: {den: {walls: {p: {length: 5}, q: {length: 5}, r: {length: 5}}}, hall: {walls: {t: {}}}}\n"
    assert [found.subject.name for found in rows(text, "room")] == ["room", "den"]


def test_a_diagonal_is_held_against_the_walls_and_corners_between_its_ends() -> None:
    found = row(SQUARE + "diagonals: {w-n to e-s: 5008}\n", "diagonal of a room")
    assert (found.taped, found.drawn, found.difference) == (5008, 5000, 8)


def test_a_diagonal_of_a_room_that_cannot_be_walked_waits_for_its_walls() -> None:
    found = row(SQUARE.replace("e: {length: 3000}", "e: {}") + "diagonals: {w-n to e-s: 5008}\n", "diagonal of a room")
    assert to_find(found, "difference") == {"/walls/e/length"}


def test_a_diagonal_still_to_be_taped_is_asked_for() -> None:
    found = row(SQUARE + "diagonals: {w-n to e-s: to find out}\n", "diagonal of a room")
    assert to_find(found, "difference") == {"/diagonals/w-n to e-s/length"}
