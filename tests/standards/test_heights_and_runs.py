"""Heights, legs and runs against worked examples, in millimetres."""

from __future__ import annotations

import pytest

from tests.standards.by_hand import SILENT, between, judged, met, parts, row
from validator.judging.outcomes import Result
from validator.measures.heights.heights import ApplianceUnderWorktop, FloorBuildUp, UnitOnLegs, WorktopOnRun
from validator.measures.rows import Known
from validator.measures.runs.setting_out import RunAgainstWall
from validator.measures.tracing import derived

INCH = 25.4


def test_height_stack_with_a_floating_floor() -> None:
    """900 above a floor of 3 + 8 laid after the units asks for legs of 153 at the high spot and 165 where the floor
    falls by 12: within 130 to 180. Arithmetic on trade practice, inputs chosen for the check: memory.
    """
    assert row(FloorBuildUp, layers=(3, 8)).thickness == 11
    top = row(WorktopOnRun, laid_before=0, setting=153, carcass=720, thickness=38, finished_floor=11)
    assert top.height == 900
    unit = row(UnitOnLegs, setting=153, rise=0, fall=12, leg_least=130, leg_most=180)
    assert unit.at_low_spot == 165
    assert met("GB", "legs-reach-the-low-spot", unit)
    assert met("GB", "legs-short-enough-at-the-high-spot", unit)


def test_worktop_set_above_the_bare_floor_ends_too_low() -> None:
    """The usual mistake: 900 above the bare screed becomes 889 above a floor of 11. Arithmetic: memory."""
    top = row(WorktopOnRun, laid_before=0, setting=142, carcass=720, thickness=38, finished_floor=11)
    assert top.above_bare_floor == 900
    assert top.height == 889


def test_the_opening_before_and_after_the_floor() -> None:
    """142 + 720 is 862 on the screed and 851 on the floor of 11 that follows. Arithmetic: memory."""
    machine = _machine(underside=862, body=840)
    assert (machine.opening_before, machine.opening_after) == (862, 851)


@pytest.mark.parametrize(("body", "goes"), [(820, True), (857, True), (858, False)])
def test_a_machine_needs_its_height_the_floor_and_five_to_slide(body: float, goes: bool) -> None:
    """Clear height at least machine + floor step + 5, from appliance installation articles: secondary. 873 on the
    screed with a floor of 11 takes a machine of 857 and no higher; the inputs are chosen for the check.
    """
    machine = _machine(underside=873, body=body)
    assert met("GB", "appliance-goes-in-and-out", machine) is goes
    assert (machine.opening_before >= body + 11 + 5) is goes


def test_the_makers_opening_goes_before_the_five_to_slide() -> None:
    """Several manufacturers' installation instructions give the opening itself: secondary."""
    machine = _machine(underside=873, body=820, maker_opening=870.0)
    assert not met("GB", "appliance-goes-in-and-out", machine)


def _machine(underside: float, body: float, maker_opening: float | None = None) -> ApplianceUnderWorktop:
    return row(
        ApplianceUnderWorktop,
        underside=underside,
        floor_before=0,
        floor_after=11,
        body=body,
        laid="after units",
        maker_opening=SILENT if maker_opening is None else maker_opening,
    )


@pytest.mark.parametrize(("floor_under", "pack_up"), [(0, 15), (11, 4)])
def test_a_dishwasher_in_the_deep_end_is_packed_up(floor_under: float, pack_up: float) -> None:
    """A niche of 873 on the screed that falls by 12 is 885 deep at its low end; a machine wound out to 870 misses the
    worktop by 15, and by 4 where a floor of 11 is carried in. Arithmetic: memory; inputs chosen for the check.
    """
    machine = row(ApplianceUnderWorktop, underside=873, floor_under=floor_under, fall=12, has_feet=True, body_most=870)
    outcome = judged("GB", "machine-reaches-the-worktop", machine)
    assert (outcome.result, outcome.short) == (Result.NOT_MET, pack_up)


@pytest.mark.parametrize(("legs", "height"), [(100, 820), (150, 870), (200, 920)])
def test_coordinating_heights_of_european_base_units(legs: float, height: float) -> None:
    """EN 1116, co-ordinating sizes, floor to underside of worktop 820, 870 or 920: secondary (a Swiss site note,
    edition not stated). A carcass of 720 reaches each on whole legs.
    """
    assert row(WorktopOnRun, laid_before=0, setting=legs, carcass=720).underside == height


def test_american_base_cabinet_and_top_make_thirty_six_inches() -> None:
    """Trade references on North American cabinet sizes: box 34.5 in, finished counter 36 in. Secondary."""
    top = row(WorktopOnRun, laid_before=0, setting=0, carcass=34.5 * INCH, thickness=1.5 * INCH, finished_floor=0)
    assert top.height == pytest.approx(36 * INCH)
    assert met("US", "worktop-at-a-usual-height", top)


@pytest.mark.parametrize(("most", "reaches"), [(160, True), (159, True), (158, False)])
def test_legs_take_the_fall_of_a_new_floor(most: float, reaches: bool) -> None:
    """NHBC Standards 2020, 9.1.5: a new floor may be out of level by 3 mm in a metre: primary. A run of 3 m then
    falls by 9, and legs of 150 at the high spot stand 159 at the low one.
    """
    unit = row(UnitOnLegs, setting=150, rise=0, fall=3 * 3, leg_least=130, leg_most=most)
    assert met("GB", "legs-reach-the-low-spot", unit) is reaches


UNITS = [*(between(599.5, 600.5) for _ in range(5)), between(499.5, 500.5)]
PANELS = [between(17.7, 18.3) for _ in range(2)]
JOINTS = [between(0.0, 0.4) for _ in range(7)]


def ends(of: RunAgainstWall) -> tuple[float, float]:
    found = derived(of, "left_over")
    assert isinstance(found, Known)
    assert found.low is not None
    assert found.high is not None
    return found.low, found.high


def test_a_run_between_two_walls_leaves_room_for_its_fillers() -> None:
    """A wall of 3700 ± 6, five units of 600 and one of 500 ± 0.5, two panels of 18 ± 0.3 and seven joints of 0.2 ±
    0.2 leave 162.6, and 151.6 to 173.6 at worst. Arithmetic, inputs chosen for the check; the worst case is the sum
    of all.
    """
    exact = row(RunAgainstWall, wall=3700, start=0, widths=(*[600] * 5, 500, 18, 18, *[0.2] * 7))
    assert exact.left_over == pytest.approx(162.6)
    run = row(
        RunAgainstWall,
        wall=between(3694, 3706),
        start=0,
        widths=parts(*UNITS, *PANELS, *JOINTS),
        has_closing=True,
        closing_least=40,
        closing_most=200,
    )
    assert ends(run) == pytest.approx((151.6, 173.6))
    assert met("GB", "run-fits-with-its-closing-piece", run)


def test_a_run_planned_to_the_length_of_its_wall_does_not_fit() -> None:
    """The same run on a wall of 3540 ± 6: −8.4 to 13.6 is left, and that is not a run that fits. Arithmetic: memory."""
    run = row(
        RunAgainstWall, wall=between(3534, 3546), start=0, widths=parts(*UNITS, *PANELS, *JOINTS), has_closing=False
    )
    assert ends(run) == pytest.approx((-8.4, 13.6))
    outcome = judged("GB", "run-not-longer-than-its-wall", run)
    assert outcome.result is Result.NOT_MET
    assert outcome.short == pytest.approx(8.4)


def test_three_parts_in_a_housing() -> None:
    """A published tolerance problem with its results: 4.020 less 2.000, 1.500 and 0.500 leaves 0.020, and 0.005 to
    0.035 at worst. Tolerance tutorial: secondary.
    """
    three = row(
        RunAgainstWall,
        wall=between(4.015, 4.025),
        start=0,
        widths=parts(between(1.995, 2.005), between(1.497, 1.503), between(0.498, 0.502)),
    )
    assert ends(three) == pytest.approx((0.005, 0.035))


def test_four_parts_in_a_bore() -> None:
    """A published gap problem: 40.00 ± 0.10 less 25.00 ± 0.05, 2.00 ± 0.03 and 10.00 ± 0.05 leaves 3.00 (tolerance
    tutorial, secondary); the ends 2.77 and 3.23 are worked from it.
    """
    four = row(
        RunAgainstWall,
        wall=between(39.9, 40.1),
        start=0,
        widths=parts(between(24.95, 25.05), between(1.97, 2.03), between(9.95, 10.05)),
    )
    assert ends(four) == pytest.approx((2.77, 3.23))
