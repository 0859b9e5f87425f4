"""Doors bored for hinges, and backs that cabinets are screwed through."""

from __future__ import annotations

import pytest

from tests.measures.plans import rows, to_find
from validator.plan.problems import Unreadable

RUN = """
walls: {{north: {{length: 4000}}}}
kinds: {{base: {{height: 720, {base}}}, wall: {{height: 720, underside: 1400 from bare floor, {wall}}}}}
runs: {{a: {{against: north, order: {{B1: base 600, B2: base 500}}}}, b: {{against: north, order: {{W1: wall 600}}}}}}
"""


def found(kind: str, base: str, wall: str = "depth: 300") -> list[object]:
    return list(rows(RUN.format(base=base, wall=wall), kind))


def test_what_is_left_of_a_door_before_its_cup() -> None:
    (door,) = found("door bored for hinges", "opens: door, front: 16, cup: 13")
    assert (door.door, door.left_before) == (16, 3)  # type: ignore[attr-defined]


def test_drawers_and_what_does_not_open_have_no_hinges() -> None:
    assert found("door bored for hinges", "opens: drawers, front: 16") == []


def test_the_thickness_of_doors_is_asked_once_of_their_kind() -> None:
    (door,) = found("door bored for hinges", "opens: door")
    assert to_find(door, "door") == {"/kinds/base/front"}  # type: ignore[arg-type]


def test_strips_are_written_in_one_line() -> None:
    (back,) = found("back of a unit", "depth: 560", "back: 6, strips: 2 of 13 x 64")
    assert (back.strips, back.strip_thickness, back.strip_width) == (2, 13, 64)  # type: ignore[attr-defined]


def test_no_strips_are_none_and_silence_is_asked_of_the_kind() -> None:
    (none,) = found("back of a unit", "depth: 560", "back: 6, strips: none")
    assert (none.strips, none.strip_thickness) == (0, 0)  # type: ignore[attr-defined]
    (silent,) = found("back of a unit", "depth: 560", "back: 6")
    assert to_find(silent, "strips") == {"/kinds/wall/strips"}  # type: ignore[arg-type]


def test_base_units_are_not_screwed_through_their_backs() -> None:
    assert [each.subject.name for each in found("back of a unit", "back: 6")] == ["wall"]  # type: ignore[attr-defined]


def test_strips_that_cannot_be_read_say_how_they_are_written() -> None:
    with pytest.raises(Unreadable, match="strips are written as"):
        found("back of a unit", "depth: 560", "strips: two")
