"""Holes and notches in joists, and chases, against published limits. Sizes in millimetres."""

from __future__ import annotations

import pytest

from tests.standards.by_hand import met, row
from validator.measures.drilling.joists import ChaseInWall, HoleInJoist, NotchInJoist


@pytest.mark.parametrize(("diameter", "place", "well"), [(48.75, 900, True), (50, 900, False), (25, 1500, False)])
def test_a_joist_of_195_over_3600(diameter: float, place: float, well: bool) -> None:
    """NHBC Standards 2020, 6.4.18 (primary): a quarter of the depth, between 0.25 and 0.40 of the span."""
    hole = row(HoleInJoist, diameter=diameter, depth=195, span=3600, from_support=place, below_top=97.5)
    assert (met("GB", "joist-hole-not-too-wide", hole) and met("GB", "joist-hole-in-its-place", hole)) is well


def test_a_notch_in_the_same_joist() -> None:
    """NHBC Standards 2020, 6.4.18 (primary): 0.15 of the depth, 29.25, between 360 and 720 from the support."""
    notch = row(NotchInJoist, notch=29.25, depth=195, span=3600, from_support=720)
    assert met("GB", "joist-notch-not-too-deep", notch)
    assert met("GB", "joist-notch-in-its-place", notch)


def test_a_joist_of_100_has_no_room_for_a_cable() -> None:
    """BS 7671, cable 50 below the edge of a joist (secondary): a 20 hole in the middle of 100 leaves 40."""
    hole = row(HoleInJoist, diameter=20, depth=100, below_top=50, carries="cable")
    assert hole.cover == 40
    assert not met("GB", "cable-hole-deep-in-its-joist", hole)


def test_chases_in_a_leaf_of_100() -> None:
    """Approved Document A as a trade page reports it (secondary): a third upright, 33; a sixth level, 16."""
    for runs, deep, well in (("upright", 33, True), ("upright", 34, False), ("level", 16, True), ("level", 17, False)):
        chase = row(ChaseInWall, runs=runs, deep=deep, leaf=100, base="dense block")
        assert met("GB", f"{runs}-chase-not-too-deep", chase) is well
