"""Chains and running dimensions: every figure finds a seat, and none lies on another."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from validator.reporting.drawings.canvas import Canvas
from validator.reporting.drawings.dimensions import Axis, Mark, Span, chain, running, spread, upright

BELOW = Axis((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))
ABOVE = Axis((0.0, 0.0), (1.0, 0.0), (0.0, -1.0))
AT_LEFT = Axis((0.0, 0.0), (0.0, -1.0), (-1.0, 0.0))
AT_RIGHT = Axis((0.0, 0.0), (0.0, -1.0), (1.0, 0.0))


def lettered(axis: Axis, *widths: float) -> Canvas:
    canvas, at = Canvas(20), 0.0
    spans = []
    for width in widths:
        spans.append(Span(at, at + width, f"{width * 20:g}"))
        at += width
    chain(canvas, axis, spans, 1.0)
    return canvas


def overlaps(canvas: Canvas) -> int:
    boxes = [each.box for each in canvas.letterings]
    return sum(one.meets(other, -0.01) for number, one in enumerate(boxes) for other in boxes[:number])


def test_a_figure_stands_above_its_piece_of_the_line() -> None:
    (figure,) = lettered(BELOW, 30.0).letterings
    line = max(y for stroke in lettered(BELOW, 30.0).strokes for _, y in stroke.points[:1] if len(stroke.points) == 2)
    assert figure.x == 15.0
    assert figure.y < line + 1


def test_a_figure_wider_than_its_piece_stands_further_out_on_a_leader() -> None:
    wide, narrow, _ = lettered(ABOVE, 30.0, 2.0, 30.0).letterings
    assert narrow.y < wide.y
    assert overlaps(lettered(ABOVE, 30.0, 2.0, 30.0)) == 0


@pytest.mark.parametrize("axis", [BELOW, ABOVE, AT_LEFT, AT_RIGHT])
@given(widths=some.lists(some.floats(0.5, 40), min_size=1, max_size=12))
@settings(max_examples=60, deadline=None)
def test_no_two_figures_of_a_chain_overlap(axis: Axis, widths: list[float]) -> None:
    canvas = lettered(axis, *widths)
    assert overlaps(canvas) == 0
    assert len(canvas.letterings) == len(widths)


def test_figures_of_many_narrow_pieces_stand_across_the_line() -> None:
    canvas = lettered(BELOW, *([4.0] * 30), *([0.2] * 30))
    assert overlaps(canvas) == 0
    assert {each.text for each in canvas.letterings} == {"80", "4"}
    assert {each.angle for each in canvas.letterings} == {-90.0}
    assert len(canvas.letterings) == 60


@given(places=some.lists(some.floats(0, 200), min_size=1, max_size=30))
def test_running_figures_are_spread_apart_in_their_order(places: list[float]) -> None:
    moved = spread(sorted(places), 3.5)
    assert all(after - before >= 3.5 - 1e-6 for before, after in pairwise(moved))


def test_places_far_apart_stay_where_they_are() -> None:
    assert spread([0.0, 10.0, 20.0], 3.5) == [0.0, 10.0, 20.0]
    assert spread([9.0, 10.0], 4.0) == [7.5, 11.5]


def test_what_shares_a_place_shares_a_figure() -> None:
    canvas = Canvas(20)
    running(canvas, AT_LEFT, [Mark(50.0, "1060", "S2"), Mark(50.0, "1060", "S1"), Mark(20.0, "400", "S3")], 1.0)
    assert [each.text for each in canvas.letterings] == ["S3 400", "S1 S2 1060"]
    assert overlaps(canvas) == 0


def test_texts_are_read_from_below_or_from_the_right() -> None:
    assert [upright(angle) for angle in (0.0, 180.0, 90.0, -90.0, 88.0, 45.0, 135.0)] == [0, 0, -90, -90, -92, 45, -45]
