"""Plinths, tall units and wall units against worked examples, in millimetres."""

from __future__ import annotations

import pytest

from tests.standards.by_hand import met, row
from validator.measures.heights.hung_heights import HungOverWorktop, UnitUnderCeiling
from validator.measures.heights.plinths import PlinthOfRun
from validator.measures.heights.tall_units import HungBesideTall, TallUnit

INCH = 25.4


def test_the_plinth_in_sight_above_a_floating_floor() -> None:
    """Legs of 153, a floor of 11 laid up to the plinth and a fall of 12 leave 142 in sight at the high spot and 154 at
    the low one. Arithmetic on trade practice, inputs chosen for the check: memory.
    """
    plinth = row(PlinthOfRun, laid_before=0, settings=(153,), rise=0, fall=12, finished_floor=11, board=150)
    assert (plinth.at_high_spot, plinth.at_low_spot) == (142, 154)
    assert not met("GB", "plinth-closes-the-gap", plinth)


@pytest.mark.parametrize(("height", "enough"), [(100, True), (99, False)])
def test_the_least_plinth_of_the_european_standard(height: float, enough: bool) -> None:
    """EN 1116: plinth height at least 100. Secondary, a Swiss site note; edition not stated."""
    plinth = row(PlinthOfRun, laid_before=0, settings=(height,), rise=0, fall=0, finished_floor=0, board=150)
    assert met("GB", "plinth-not-too-low", plinth) is enough


@pytest.mark.parametrize(
    ("height", "depth", "diagonal", "goes"),
    [(2150, 560, 2221.7, True), (2350, 600, 2425.4, False), (2323.5, 560, 2390.0, True), (2324.5, 560, 2391.0, False)],
)
def test_a_tall_unit_comes_up_when_its_diagonal_does(height: float, depth: float, diagonal: float, goes: bool) -> None:
    """√(h² + d²) + 10 has to stay below the lowest ceiling, here 2400. Geometry; the same check stands in woodworking
    advice and furniture measuring guides: secondary. Inputs chosen for the check.
    """
    unit = row(TallUnit, height=height, depth=depth, ceiling=2400, floor=0, stood_up="as it comes")
    assert unit.diagonal == pytest.approx(diagonal, abs=0.05)
    assert met("GB", "tall-unit-tips-up", unit) is goes


def test_wall_units_line_through_with_the_tall_unit() -> None:
    """A tall unit up to 2120 sets units of 720 at 1400, 500 above a worktop of 900; under a ceiling of 2390 a cornice
    of 60 fits in the 270 above. Fitting advice (the housing's top draws the line): secondary; inputs chosen.
    """
    assert met("GB", "tops-lined-through", row(HungBesideTall, above=0, below=0))
    assert met("GB", "room-over-the-worktop", row(HungOverWorktop, underside=2120 - 720, worktop=900))
    top = row(UnitUnderCeiling, top=2120, ceilings=(2390,), has_cornice=True, cornice=60)
    assert top.above == 270
    assert met("GB", "cornice-under-the-ceiling", top)


@pytest.mark.parametrize(("country", "least"), [("GB", 450.0), ("AU", 450.0), ("US", 15 * INCH)])
def test_room_between_worktop_and_wall_units(country: str, least: float) -> None:
    """AS/NZS 4386:2018 gives 450; American planning guidelines 15 in; 450 is the usual rule elsewhere: secondary."""
    assert met(country, "room-over-the-worktop", row(HungOverWorktop, underside=900 + least, worktop=900))
    assert not met(country, "room-over-the-worktop", row(HungOverWorktop, underside=900 + least - 1, worktop=900))


def test_the_american_line_at_fifty_four_inches_keeps_its_eighteen() -> None:
    """Trade references on North American cabinets: counter at 36 in, wall cabinets from 54 in. Secondary."""
    assert met("US", "room-over-the-worktop", row(HungOverWorktop, underside=54 * INCH, worktop=36 * INCH))
