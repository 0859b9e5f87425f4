"""Fits and tolerances against published gap problems, and against drawn samples."""

from __future__ import annotations

import math
import random
import statistics

import pytest

from tests.measures.plans import row as planned
from tests.standards.by_hand import met, row
from validator.measures.runs.run_corners import FrontAtCorner
from validator.measures.runs.setting_out import RunAgainstWall

INCH = 25.4

UNITS = 5 * (600.0,) + (500.0,)
PANELS = 2 * (18.0,)
JOINTS = 7 * (0.2,)


def _stack(wall: float, wall_doubt: float, parts: tuple[float, ...], off: tuple[float, ...]) -> RunAgainstWall:
    return row(
        RunAgainstWall,
        wall=wall - wall_doubt,
        start=0.0,
        widths=parts,
        tolerances=off,
        wall_middle=wall,
        wall_doubt=wall_doubt,
        says_tolerances=True,
        has_closing=True,
        closing_least=40.0,
        closing_most=200.0,
    )


def test_a_wall_to_wall_run_with_two_fillers() -> None:
    """Five units of 600 and one of 500 (each ±0.5), two panels of 18 (±0.3) and seven joints of 0.2 (±0.2) in 3700 ±6:
    162.6 left over, ±11.0 at worst and ±6.16 by the root of squares. Inputs chosen for the check; the law of the root
    of squares is that of NIST TN 1297, section 5: primary.
    """
    run = _stack(3700, 6, UNITS + PANELS + JOINTS, 6 * (0.5,) + 2 * (0.3,) + 7 * (0.2,))
    assert run.middle_left_over == pytest.approx(162.6)
    assert run.worst_doubt == pytest.approx(11.0)
    assert run.likely_doubt == pytest.approx(6.16, abs=0.005)
    assert (run.least_left_over, run.most_left_over) == pytest.approx((151.6, 173.6))
    assert run.likely_least_left_over == pytest.approx(156.4, abs=0.05)
    assert met("GB", "closing-piece-left-at-its-tolerances", run)


def test_the_same_run_planned_to_the_wall_does_not_fit() -> None:
    """3540 ±6 leaves 2.6: −8.4 at worst, −3.6 by the root of squares. Arithmetic, inputs chosen: memory."""
    run = _stack(3540, 6, UNITS + PANELS + JOINTS, 6 * (0.5,) + 2 * (0.3,) + 7 * (0.2,))
    assert run.least_left_over == pytest.approx(-8.4)
    assert run.likely_least_left_over == pytest.approx(-3.6, abs=0.05)


def test_a_gap_of_four_parts() -> None:
    """Bore 40.00 ±0.10, spacer 25.00 ±0.05, ring 2.00 ±0.03, shoulder 10.00 ±0.05: gap 3.00, ±0.23 at worst, ±0.126 by
    the root of squares. Inputs and gap from a published tolerance stack-up tutorial: secondary.
    """
    gap = _stack(40.0, 0.10, (25.0, 2.0, 10.0), (0.05, 0.03, 0.05))
    assert gap.middle_left_over == pytest.approx(3.0)
    assert gap.worst_doubt == pytest.approx(0.23)
    assert gap.likely_doubt == pytest.approx(0.126, abs=0.0005)
    assert (gap.least_left_over, gap.most_left_over) == pytest.approx((2.77, 3.23))


def test_three_parts_in_a_housing() -> None:
    """2.000 ±0.005, 1.500 ±0.003 and 0.500 ±0.002 in 4.020 ±0.005: gap 0.020, ±0.015 at worst, ±0.00794 by the root of
    squares, 0.012 at least. A tolerance stack-up tutorial, published with its results: secondary.
    """
    gap = _stack(4.020, 0.005, (2.0, 1.5, 0.5), (0.005, 0.003, 0.002))
    assert gap.middle_left_over == pytest.approx(0.020)
    assert gap.worst_doubt == pytest.approx(0.015)
    assert gap.likely_doubt == pytest.approx(0.00794, abs=0.000005)
    assert gap.likely_least_left_over == pytest.approx(0.012, abs=0.0005)
    assert (gap.least_left_over, gap.most_left_over) == pytest.approx((0.005, 0.035))


@pytest.mark.parametrize(("parts", "worst", "likely"), [(10, 1.0, 0.316), (5, 0.5, 0.224)])
def test_equal_parts_differ_by_the_root_of_their_number(parts: int, worst: float, likely: float) -> None:
    """Ten parts ±0.1: ±1.0 at worst, ±0.316 by the root of squares; five: ±0.5 and ±0.224. Tolerance analysis
    references: secondary.
    """
    gap = _stack(10.0 * parts, 0.0, parts * (9.0,), parts * (0.1,))
    assert gap.worst_doubt == pytest.approx(worst)
    assert gap.likely_doubt == pytest.approx(likely, abs=0.0005)
    assert gap.worst_doubt / gap.likely_doubt == pytest.approx(math.sqrt(parts))


def test_drawn_runs_keep_to_the_worst_case_and_nearly_all_to_the_likely_one() -> None:
    """Where each tolerance is three standard deviations of a normal width, 0.27 % of runs lie outside the root of
    squares (tolerance stack-up texts: secondary), and none outside the worst case of widths cut off at their tolerance.
    """
    drawn = random.Random(20260501)
    off = (6.0, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.3, 0.3)
    run = _stack(3700, off[0], UNITS + PANELS, off[1:])
    sums = [sum(drawn.gauss(0, each / 3) for each in off) for _ in range(40_000)]
    outside = sum(abs(found) > run.likely_doubt for found in sums) / len(sums)
    assert outside == pytest.approx(0.0027, abs=0.001)
    assert 3 * statistics.stdev(sums) == pytest.approx(run.likely_doubt, rel=0.02)
    even = [sum(drawn.uniform(-each, each) for each in off) for _ in range(10_000)]
    assert max(map(abs, even)) <= run.worst_doubt


def test_a_corner_by_its_diagonal_and_the_taper_it_gives() -> None:
    """Legs of 1000 with a diagonal of 1422 open the corner by 0.63°, and 600 deep by 6.6. Plain geometry, inputs chosen
    for the check: memory.
    """
    angle = math.degrees(math.acos((1000**2 + 1000**2 - 1422**2) / (2 * 1000 * 1000))) - 90
    out = 1000 * math.tan(math.radians(angle))
    assert angle == pytest.approx(0.63, abs=0.005)
    found = planned(
        f"""
walls: {{north: {{length: 3000}}, west: {{length: 2000}}}}
corners: {{west-north: {out:.3f} open in 1000}}
kinds: {{base: {{depth: 560, front: 20, void behind: 20}}}}
runs: {{long: {{against: north, order: {{F1: filler 40, B1: base 600}}}}}}
""",
        "end of a run at a wall",
    )
    assert found.taper == pytest.approx(6.6, abs=0.05)


@pytest.mark.parametrize(("filler", "enough"), [(4 + 5 / 16, True), (4 + 1 / 4, False)])
def test_the_filler_beside_a_dishwasher_at_a_corner(filler: float, enough: bool) -> None:
    """27 5/16 in deep with its handle, cabinets of 24 in and 1 in to spare: a filler of 4 5/16 in. Method and depth
    from an American article on cabinet design, the result computed: secondary.
    """
    drawers = row(
        FrontAtCorner,
        place=(24 + filler) * INCH,
        carcass=(24 * INCH,),
        front=0.75 * INCH,
        faces=(24.75 * INCH, 25.3125 * INCH),
        handle=2 * INCH,
        is_appliance=False,
        meets_appliance=True,
        drawers=True,
        hinged_here=False,
        own_handle=0,
    )
    assert drawers.reach == pytest.approx(27.3125 * INCH)
    assert drawers.post == pytest.approx(filler * INCH)
    assert met("US-VT", "corner-post-beside-an-appliance", drawers) is enough
