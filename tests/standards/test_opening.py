"""Doors and drawers at a corner, held to a published way of reckoning the filler there."""

from __future__ import annotations

import pytest

from tests.measures.plans import row

INCH = 25.4
PROJECT = "project: {title: Corner machine, country: US-VT, lengths in: in}"


def test_the_filler_of_a_design_guide_leaves_the_inch_it_adds_between_drawers_and_a_dishwasher() -> None:
    """Filler = depth of the machine with its handle − depth of the cabinets + 1 in: 27-5/16 − 24 + 1 = 4-5/16 in.

    US articles on cabinet design; as reported, with their figures.
    """
    text = (
        "walls: {north: {length: 120}, east: {length: 100}}\n"
        "kinds: {base: {height: 30, depth: 24, front: 0, void behind: 0, opens: nothing},"
        " drawers: {like: base, opens: drawers, handle: none}}\n"
        "runs:\n"
        "  a: {against: north, order: {B0: base 66, dishwasher: 24, F1: filler 6}}\n"
        "  b: {against: east, from: fronts of a, order: {F2: filler 4-5/16, B1: drawers 24}}\n"
        "appliances: {dishwasher: {body: 24 w x 34 h x 25-13/16 d, handle: 1-1/2, open: 25}}\n"
    )
    drawers = row(text, "drawers of a unit", PROJECT)
    assert (drawers.clear, drawers.nearest) == (pytest.approx(INCH), "dishwasher")
