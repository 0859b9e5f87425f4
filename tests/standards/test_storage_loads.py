"""Loads of hung units against published classes of load."""

from __future__ import annotations

import pytest

from tests.measures.plans import row

METRIC = "project: {title: Gull Row, country: GB-ENG, lengths in: mm}"
AMERICAN = "project: {title: Gull Row, country: US-VT, lengths in: mm}"
UNIT = """
walls: {north: {length: 3000}}
kinds: {wall: {height: 720, depth: 300, underside: 1400 from bare floor, shelves: 2, weight: 25 kg/m}}
runs: {units: {against: north, order: {W1: wall 800}}}
"""


@pytest.mark.parametrize(
    ("project", "stored", "full", "on_a_hanger"),
    [(METRIC, 34.4, 54.4, 27.2), (AMERICAN, 50.4, 70.4, 35.2)],
)
def test_an_800_mm_wall_unit_of_20_kg_with_two_shelves(
    project: str, stored: float, full: float, on_a_hanger: float
) -> None:
    """DIN 68930, class L50, 50 kg on a square metre; ANSI/KCMA A161.1, 15 lb on a square foot; both as reported.

    The inside is 800 less two sides of 18; the bottom counts as a shelf: 3 x 0.764 m x 0.300 m = 0.688 m2.
    """
    found = row(UNIT, "load of a hung unit", project)
    assert found.surface == pytest.approx(0.688e6, rel=1e-3)
    assert found.stored == pytest.approx(stored, abs=0.05)
    assert found.full == pytest.approx(full, abs=0.05)
    assert found.on_a_hanger == pytest.approx(on_a_hanger, abs=0.05)


def test_a_pound_on_a_square_foot_in_kilograms_on_a_square_metre() -> None:
    """NIST SP 811, appendix B.8: a pound per square foot is 4.882 428 kg/m2."""
    found = row(UNIT, "load of a hung unit", AMERICAN)
    assert found.class_load * 1e6 / 15 == pytest.approx(4.882428, rel=1e-7)
