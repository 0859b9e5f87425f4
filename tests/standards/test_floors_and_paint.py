"""Gaps, moisture and paint against published figures."""

from __future__ import annotations

import itertools

import pytest

from tests.standards.by_hand import SILENT, applied, cell, met, need, row
from validator.judging.outcomes import Result
from validator.measures.job.coats import Coat, SurfaceToPaint
from validator.measures.room.floors import BaseUnderFloor, FloorEdge, FloorField
from validator.plan import dimensions as dim
from validator.plan.quantities import parse_quantity
from validator.plan.values import Quantity


def edge(covering: str, gap: float, run: float) -> FloorEdge:
    return row(FloorEdge, covering=covering, gap=gap, run=run, at="north", maker_gap=SILENT)


@pytest.mark.parametrize(("metres", "gap"), [(3, 8), (5, 8), (6, 9), (8, 12), (10, 15)])
def test_laminate_gap_by_the_length_of_the_floor(metres: float, gap: float) -> None:
    """Several manufacturers' instructions: 1.5 mm in a metre on each side, at least 8 mm; the case of 5 m is printed
    in one of them. Secondary.
    """
    assert need("GB", "laminate-gap", edge("laminate", 0, metres * 1000)) == pytest.approx(gap)


@pytest.mark.parametrize(("covering", "gap"), [("rigid vinyl", 2), ("click vinyl", 6), ("engineered wood", 10)])
def test_gap_by_product(covering: str, gap: float) -> None:
    """Contract Flooring Journal, inspector's column (web page): rigid about 2 mm, click vinyl about 6, wood 10 to 15.
    Primary.
    """
    assert met("GB", "floating-floor-gap", edge(covering, gap, 4000))
    assert not met("GB", "floating-floor-gap", edge(covering, gap - 1, 4000))


@pytest.mark.parametrize(("along", "across", "holds"), [(10, 8, (True, True)), (10.01, 8.01, (False, False))])
def test_longest_laminate_in_one_piece(along: float, across: float, holds: tuple[bool, bool]) -> None:
    """Several manufacturers' instructions, the cautious row: 8 m across the boards, 10 m along them. Secondary."""
    field = row(
        FloorField,
        covering="laminate",
        length_along=along * 1000,
        length_across=across * 1000,
        maker_longest=SILENT,
    )
    found = (met("GB", "laminate-longest-along", field), met("GB", "laminate-longest-across", field))
    assert found == holds


def base(
    covering: str, reading: float, meter: str, under: str = "cement screed", heated: bool = False
) -> BaseUnderFloor:
    return row(BaseUnderFloor, covering=covering, base=under, reading=reading, meter=meter, heated=heated)


@pytest.mark.parametrize(("covering", "most"), [("laminate", 0.75), ("sheet vinyl", 0.75), ("carpet", 0.75)])
def test_humidity_under_resilient_textile_and_laminate_floors(covering: str, most: float) -> None:
    """BS 8203:2017 and BS 5325 as reported by flooring trade articles: 75 % relative humidity. Secondary."""
    rule = "base-dry-under-carpet" if covering == "carpet" else "base-dry-by-hygrometer"
    assert met("GB", rule, base(covering, most, "hygrometer"))
    assert not met("GB", rule, base(covering, most + 0.005, "hygrometer"))


def test_humidity_under_wood() -> None:
    """BS 8201:2011 as reported: 65 % for wood flooring, where the edition of 1987 had 75 %. Secondary."""
    assert met("GB", "base-dry-under-wood", base("engineered oak", 0.65, "hygrometer"))
    assert not met("GB", "base-dry-under-wood", base("engineered oak", 0.70, "hygrometer"))
    assert applied("GB", "base-dry-by-hygrometer", base("engineered oak", 0.70, "hygrometer")) is None


def test_american_limit_by_probe() -> None:
    """ASTM F710 with F2170 as summarised: 75 % unless the floor's maker states otherwise. Secondary."""
    assert met("US", "base-dry-by-hygrometer", base("sheet vinyl", 0.75, "hygrometer", "concrete"))
    assert not met("US", "base-dry-by-hygrometer", base("sheet vinyl", 0.76, "hygrometer", "concrete"))


CARBIDE = [
    ("cement screed", False, 0.02),
    ("cement screed", True, 0.018),
    ("anhydrite screed", False, 0.005),
    ("anhydrite screed", True, 0.003),
]


@pytest.mark.parametrize(("under", "heated", "most"), CARBIDE)
def test_carbide_limits(under: str, heated: bool, most: float) -> None:
    """German screed and flooring practice: 2.0 % and heated 1.8 % for cement, 0.5 % and 0.3 % for calcium sulfate.
    Secondary, common practice.
    """
    rule = "heated-base-dry-by-carbide" if heated else "base-dry-by-carbide"
    assert met("GB", rule, base("laminate", most, "carbide", under, heated))
    assert not met("GB", rule, base("laminate", most * 1.01, "carbide", under, heated))


WRITTEN = [
    # added to the paint, the same as a share of the mix, the same as a ratio of paint to water
    ("10 %", 0.1, 0.0909, "10:1"),
    ("20 %", 0.2, 0.1667, "5:1"),
    ("25 %", 0.25, 0.2, "4:1"),
    ("30 %", 0.3, 0.2308, "10:3"),
    ("42.857 %", 0.4286, 0.3, "7:3"),
    ("33.333 %", 0.3333, 0.25, "3:1"),
    ("100 %", 1.0, 0.5, "1:1"),
]


@pytest.mark.parametrize(("percent", "added", "of_mix", "ratio"), WRITTEN)
def test_three_ways_to_write_a_thinning(percent: str, added: float, of_mix: float, ratio: str) -> None:
    """Arithmetic of volumes: share of the mix f = a / (1 + a), paint to water p:w gives a = w / p. Memory."""
    share = added / (1 + added)
    assert share == pytest.approx(of_mix, abs=5e-5)
    for text in (percent, f"{share * 100:.6f} % of mix", ratio):
        found = parse_quantity(text, dim.WATER_ADDED, "mm")
        assert isinstance(found, Quantity)
        assert found.low == pytest.approx(added, abs=5e-5)


PLANS = [
    ((0.3, 0.1, 0.0), True),
    ((0.0, 0.3), False),
    ((0.5, 0.0, 0.0), True),
    ((0.1, 0.2, 0.0), False),
    ((0.0, 0.0), False),
]


@pytest.mark.parametrize(("coats", "holds"), PLANS)
def test_paint_systems_on_bare_new_plaster(coats: tuple[float, ...], holds: bool) -> None:
    """Decorators' practice: a thinned first coat, then never more water than in the coat below (secondary); the five
    systems are chosen for the check.
    """
    rules = ("first-coat-on-new-plaster", "coat-never-thinner-than-the-one-below")
    found = [applied("GB", rule, coat) for coat in _system(coats) for rule in rules]
    assert all(outcome.result is Result.MET for outcome in found if outcome is not None) is holds


def _system(coats: tuple[float, ...]) -> list[Coat]:
    first = row(Coat, number=1, first=True, water=coats[0], on="new plaster", maker_water=SILENT)
    return [
        first,
        *[
            row(Coat, number=number, first=False, water=water, water_below=below, on="new plaster", maker_water=SILENT)
            for number, (below, water) in enumerate(itertools.pairwise(coats), 2)
        ],
    ]


@pytest.mark.parametrize("water", [0.1, 0.2, 0.25, 0.3, 0.333, 0.429, 0.5])
def test_every_usual_strength_of_a_first_coat_is_accepted(water: float) -> None:
    """Decorators' and paint makers' pages compared: from 10 % to 50 % added. Secondary."""
    assert met("GB", "first-coat-on-new-plaster", _system((water,))[0])


def test_the_traditional_half_and_half_is_too_weak() -> None:
    """The same pages: 1:1 is now often called too weak; 100 % added is above the band. Secondary."""
    assert not met("GB", "first-coat-on-new-plaster", _system((1.0,))[0])


MPI = [
    ("new plaster", "pin meter", 0.12),
    ("fair-faced concrete", "pin meter", 0.12),
    ("masonry", "pin meter", 0.12),
    ("wood trim", "pin meter", 0.12),
    ("new drywall", "gypsum scale", 0.01),
]


@pytest.mark.parametrize(("surface", "meter", "most"), MPI)
def test_american_moisture_before_painting(surface: str, meter: str, most: float) -> None:
    """Master Painters Institute, Architectural Painting Specification Manual, as reported: 12 %, gypsum board 1 %.
    Secondary.
    """
    assert cell("US", "paint-moisture-limit", "most", surface=surface, meter=meter) == pytest.approx(most)
    wet = row(SurfaceToPaint, on=surface, reading=most * 1.01, meter=meter)
    assert not met("US", "surface-dry-before-paint", wet)


@pytest.mark.parametrize(("reading", "dry", "for_any"), [(0.75, True, True), (0.80, True, False), (0.91, False, None)])
def test_british_bands_before_painting(reading: float, dry: bool, for_any: bool | None) -> None:
    """BS 6150:2006+A1, moisture content of surfaces: up to 75 % any paint, to 90 % a matt that breathes. Memory. Above
    90 % only the graver of the two rules speaks.
    """
    wall = row(SurfaceToPaint, on="new plaster", reading=reading, meter="hygrometer")
    assert met("GB", "surface-dry-before-paint", wall) is dry
    if for_any is None:
        assert applied("GB", "surface-dry-for-any-paint", wall) is None
    else:
        assert met("GB", "surface-dry-for-any-paint", wall) is for_any


def test_two_coats_at_least_on_new_plaster() -> None:
    """NHBC Standards 2020, 9.5.7: a thinned coat or sealer and at least two coats. Primary."""
    assert [met("GB", "new-plaster-two-coats", row(SurfaceToPaint, on="new plaster", coats=n)) for n in (1, 2)] == [
        False,
        True,
    ]
