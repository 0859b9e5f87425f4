"""The line that says what stands in a run, or on a wall."""

from __future__ import annotations

import pytest

from validator.plan.elements import Unfit
from validator.plan.order import item_line, point_line

KINDS = {"door", "wall", "corner wall", "wall unit", "sink base", "filler", "panel", "opening", "double socket"}


@pytest.mark.parametrize(
    ("line", "long"),
    [
        ("door 450 left", {"is_": "door", "width": "450", "hand": "left"}),
        ("filler rest", {"is_": "filler", "rest": True}),
        ("panel", {"is_": "panel"}),
        ("600", {"is_": "opening", "width": "600"}),
        ("to find out by joiner", {"is_": "opening", "width": "to find out by joiner"}),
        ("wall 600 over B1", {"is_": "wall", "width": "600", "over": "B1"}),
        ("wall 500 right over B1", {"is_": "wall", "width": "500", "hand": "right", "over": "B1"}),
        ("wall 300 left of W3", {"is_": "wall", "width": "300", "left_of": "W3"}),
        ("wall 300 left left of W3", {"is_": "wall", "width": "300", "hand": "left", "left_of": "W3"}),
        ("wall 300 right of the tall one", {"is_": "wall", "width": "300", "right_of": "the tall one"}),
        ("corner wall 600 in north-east", {"is_": "corner wall", "width": "600", "corner": "north-east"}),
        ("sink base 34-1/2 left", {"is_": "sink base", "width": "34-1/2", "hand": "left"}),
        ("door 580 to 600", {"is_": "door", "width": "580 to 600"}),
        ("door to find out left", {"is_": "door", "width": "to find out", "hand": "left"}),
    ],
)
def test_a_line_is_taken_apart(line: str, long: dict[str, object]) -> None:
    assert item_line(line, KINDS) == long


@pytest.mark.parametrize(
    ("line", "long"),
    [
        ("wall 24 in", {"is_": "wall", "width": "24 in"}),
        ("wall 24 in left", {"is_": "wall", "width": "24 in", "hand": "left"}),
        ("wall 24 in over B1", {"is_": "wall", "width": "24 in", "over": "B1"}),
        ("wall 2 ft 6 in left of W2", {"is_": "wall", "width": "2 ft 6 in", "left_of": "W2"}),
        ("corner wall 24 in in north-east", {"is_": "corner wall", "width": "24 in", "corner": "north-east"}),
    ],
)
def test_in_behind_a_number_is_the_inch_unless_a_corner_follows(line: str, long: dict[str, object]) -> None:
    assert item_line(line, KINDS) == long


def test_the_longest_name_of_a_kind_is_taken() -> None:
    assert item_line("wall unit 600", KINDS)["is_"] == "wall unit"
    assert item_line("wall 600", KINDS)["is_"] == "wall"


def test_kinds_are_compared_as_names_are() -> None:
    assert item_line("Corner-Wall 600", KINDS) == {"is_": "Corner-Wall", "width": "600"}


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ("dorr 300 left", "`dorr` is no kind of this plan"),
        ("sink 800", "`sink` is no kind of this plan"),
        ("", "`` is no kind of this plan"),
        ("door 300 over", "`door 300 over` does not say what it is over"),
        ("door 300 left of", "`door 300 left of` does not say what it is left of"),
        ("door 300 rest", "`door 300 rest` gives a width and says `rest`"),
        ("door 300 left right", "`right` in `door 300 left right` cannot be read"),
    ],
)
def test_a_line_that_cannot_be_read_says_why(line: str, message: str) -> None:
    with pytest.raises(Unfit) as refused:
        item_line(line, KINDS)
    assert str(refused.value) == message


def test_the_kind_that_was_meant_is_named() -> None:
    with pytest.raises(Unfit) as refused:
        item_line("corner wal 600 in north-east", KINDS)
    assert refused.value.nearest == "corner wall"


@pytest.mark.parametrize(
    ("line", "long"),
    [
        ("double socket over B1", {"is_": "double socket", "over": "B1"}),
        ("double socket in B2", {"is_": "double socket", "in_": "B2"}),
        ("double socket behind fridge", {"is_": "double socket", "behind": "fridge"}),
        ("double socket above hood", {"is_": "double socket", "above": "hood"}),
        ("double socket right of S4", {"is_": "double socket", "right_of": "S4"}),
        ("double socket", {"is_": "double socket"}),
    ],
)
def test_a_point_says_its_kind_and_where_it_sits(line: str, long: dict[str, object]) -> None:
    assert point_line(line, KINDS) == long


def test_a_point_has_no_width() -> None:
    with pytest.raises(Unfit, match="`300` in `double socket 300` cannot be read"):
        point_line("double socket 300", KINDS)
