"""Corners held to the geometry of triangles and to the offsets of a standard.

The law of cosines and the tangent of the angle that is over a right one: a worked example done by hand, figures kept in
the trade's rounding. Offsets by length: DIN 18202, table 2, as reported by the extended table of the German building
trades confederation; the standard itself was not seen.
"""

from __future__ import annotations

import math

import pytest

from tests.measures.plans import row
from tests.standards.by_hand import cell

TAPED = """
walls: {back: {length: 3000}, side: {length: 600}}
corners: {back-side: 1422 across 1000 and 1000}
"""


def test_a_tape_of_1422_across_two_metres_is_an_open_corner_of_90_63_degrees() -> None:
    found = row(TAPED, "corner of a room")
    assert (found.way, round(found.angle, 2)) == ("open", 90.63)


def test_it_is_out_by_6_6_at_a_depth_of_600_and_by_33_1_over_a_run_of_3000() -> None:
    found = row(TAPED, "corner of a room")
    assert (round(found.slant * 600, 1), round(found.at_far_end, 1)) == (6.6, 33.1)


@pytest.mark.parametrize("across", [1380, 1400, 1414, 1414.2136, 1420, 1450])
def test_the_slant_is_the_tangent_of_what_the_corner_has_over_a_right_one(across: float) -> None:
    found = row(TAPED.replace("1422", str(across)), "corner of a room")
    degrees = math.degrees(math.acos((2e6 - across**2) / 2e6))
    assert found.angle == pytest.approx(degrees)
    assert found.slant == pytest.approx(abs(math.tan(math.radians(degrees - 90))), abs=1e-12)


@pytest.mark.parametrize(
    ("over", "offset"),
    [(500, 3), (501, 6), (1000, 6), (1001, 8), (3000, 8), (3001, 12), (6000, 12), (6001, 16), (15000, 16)],
)
def test_offsets_allowed_by_length(over: float, offset: float) -> None:
    assert cell("GB-ENG", "corner-offset", "offset", over=over) == offset
