"""Loads and capacities of fixings against published values and worked examples."""

from __future__ import annotations

import pytest

from tests.measures.plans import library, row
from validator.measures.fixings.fixing_capacity import FromCharacteristic, FromMeanFailure
from validator.measures.fixings.hung_on_fixings import HungOnFixingsApart
from validator.measures.fixings.timber_screws import (
    INCH,
    PSI,
    WithdrawalByDensity,
    WithdrawalByGravity,
    lag_strength,
    screws_that_count,
    withdrawal_strength,
)
from validator.measures.fixings.unit_loads import Hung, load_on_fixings
from validator.measures.rows import Known, Subject

HERE = Subject("fixing", "")
POUND = 0.45359237 * 9806.65


def known(value: float) -> Known:
    return Known(value, low=value, high=value)


def test_the_usual_weight_of_a_unit_is_that_of_its_boards() -> None:
    """Boards of 800 x 720 x 300 mm with two shelves 280 deep: 18 mm at 670 kg/m3, a 3 mm back, 18 mm doors, 2 kg."""
    boards = (2 * 0.72 * 0.3 + 2 * 0.764 * 0.3 + 2 * 0.764 * 0.28) * 0.018 * 670
    whole = boards + 0.576 * 0.003 * 850 + 0.568 * 0.018 * 750 + 2
    assert (boards, whole) == pytest.approx((15.9, 27.0), abs=0.06)
    table = library().table("unit-weights", "GB-ENG")
    assert table is not None
    found = table.find("weight", {"height": 720.0})
    assert found is not None
    assert whole <= float(found.value) * 800 <= 1.1 * whole


def test_a_loaded_unit_on_two_fixings() -> None:
    """27 kg and three levels of 0.764 x 0.28 m under 718 Pa, 150 mm from the wall, 660 below its fixings: statics."""
    stored = 3 * 0.764 * 0.28 * 718 / 9.80665
    hung = Hung(known(27), known(stored), Known((), parts=()), known(300), known(720))
    found = load_on_fixings(hung, known(660), HERE)
    values = {name: float(value.value) / 1000 for name, value in found.items() if isinstance(value, Known)}
    assert values["down"] == pytest.approx(725.7, rel=1e-3)
    assert values["pull"] == pytest.approx(164.9, rel=1e-3)
    assert values["together"] / 2 == pytest.approx(372.1, rel=1e-3)


def test_the_american_test_load_on_two_fixings() -> None:
    """600 lb on the front edge, 320 mm from the wall: 1294 N of pull in all, 1334 N of shear on each of two."""
    row = HungOnFixingsApart(HERE, test=known(600 * POUND), depth=known(320), drop=known(660))
    assert row.pull_tested / 1000 == pytest.approx(1294, abs=0.5)
    assert row.test / 2 / 1000 == pytest.approx(1334.5, abs=0.5)


def test_a_characteristic_resistance_in_brick() -> None:
    """0.60 kN ÷ 2.5 ÷ 1.4 is 0.171 kN, and 0.086 kN where joints cannot be seen (ETAG 020, annex C)."""
    seen = FromCharacteristic(HERE, characteristic=known(600), material=known(2.5), load=known(1.4), joints=known(1))
    hidden = FromCharacteristic(
        HERE, characteristic=known(600), material=known(2.5), load=known(1.4), joints=known(0.5)
    )
    assert (seen.allowable, hidden.allowable) == pytest.approx((171, 86), abs=0.5)


@pytest.mark.parametrize(("factor", "working"), [(5, 420), (7, 300)])
def test_a_mean_failure_load_under_one_factor(factor: float, working: float) -> None:
    found = FromMeanFailure(HERE, mean=known(2100), whole=known(factor), joints=known(1))
    assert found.allowable == pytest.approx(working)


@pytest.mark.parametrize(
    ("base", "load", "recommended"), [("concrete", 2500, 990), ("brick", 2000, 570), ("aerated block", 900, 320)]
)
def test_recommended_loads_of_assessed_anchors_come_from_their_characteristic_ones(
    base: str, load: float, recommended: float
) -> None:
    """Load tables of assessed 10 and 14 mm frame fixings: 2.5, 2.0 and 0.9 kN are 0.99, 0.57 and 0.32 kN."""
    table = library().table("anchor-factors", "GB-ENG")
    assert table is not None
    material, factor = (table.find(gives, {"base": base}) for gives in ("material", "load"))
    assert material is not None
    assert factor is not None
    assert load / float(material.value) / float(factor.value) == pytest.approx(recommended, abs=5)


@pytest.mark.parametrize(("shear", "linear", "curved"), [(600, 0.880, 0.614), (500, 1.0005, 0.762)])
def test_shares_added_and_raised_to_a_power(shear: float, linear: float, curved: float) -> None:
    """82.46 N of pull and 362.83 N of shear against 300 N and two shears (interaction as in ETAG 001, annex C)."""
    row = HungOnFixingsApart(
        HERE, pull=known(82.46), down=known(362.83), pull_may=known(300), shear_may=known(shear), counted=known(1)
    )
    assert row.shares == pytest.approx(linear, abs=0.0006)
    assert row.shares_curved == pytest.approx(curved, abs=0.0006)
    assert (row.reserve >= 1) is (linear <= 1)


def test_shares_of_five_and_seven_tenths() -> None:
    """Within a sum of 1.2 to the dot, 0.939 by the power of 1.5, and too much by the straight line."""
    row = HungOnFixingsApart(
        HERE, pull=known(0.5), down=known(0.7), pull_may=known(1), shear_may=known(1), counted=known(1)
    )
    assert row.shares_three_lines == pytest.approx(1)
    assert row.shares_curved == pytest.approx(0.939, abs=0.0005)
    assert row.shares == pytest.approx(1.2)
    assert row.shares_squared == pytest.approx(0.74)


def by_gravity(constant: float, gravity: float, inches: float, thread: float = 1.0) -> float:
    """Pounds that a screw may carry or fails at."""
    row = WithdrawalByGravity(
        HERE,
        constant=known(constant * PSI),
        gravity=known(gravity),
        diameter=known(inches * INCH),
        thread=known(thread * INCH),
    )
    return row.pull / POUND


def test_a_number_ten_screw_in_spruce() -> None:
    """NDS 12.2-2: 109 pounds for each inch of thread, as a published page prints it."""
    assert by_gravity(2850, 0.45, 0.190) == pytest.approx(109.65, abs=0.01)


def test_a_number_eight_screw_in_red_oak() -> None:
    """Wood Handbook, 8-10: an inch of thread fails at 1262 pounds."""
    assert by_gravity(15700, 0.70, 0.164) == pytest.approx(1262, abs=0.5)


def test_a_number_ten_screw_in_spruce_in_newtons() -> None:
    """38 mm of thread fail at 4020 N; a fifth of it is a working load."""
    assert by_gravity(15700, 0.45, 4.83 / INCH, 38 / INCH) * POUND / 1000 == pytest.approx(4023, rel=0.002)


@pytest.mark.parametrize(
    ("gravity", "inches", "pounds"), [(0.42, 0.25, 173), (0.5, 0.25, 225), (0.55, 0.5, 437), (0.43, 0.375, 243)]
)
def test_lag_screws_as_the_published_table_has_them(gravity: float, inches: float, pounds: float) -> None:
    """NDS, table of lag screw withdrawal: pounds for each inch of thread."""
    assert lag_strength(gravity, inches * INCH) / PSI * inches == pytest.approx(pounds, abs=0.5)


@pytest.mark.parametrize(
    ("diameter", "thread", "strength", "characteristic", "permanent"),
    [(6.0, 50.0, 15.57, 3503, 1617), (8.0, 60.0, 13.24, 6355, 2933)],
)
def test_screws_in_c24_by_the_european_formula(
    diameter: float, thread: float, strength: float, characteristic: float, permanent: float
) -> None:
    """EN 1995-1-1, 8.7.2, one screw square to the grain of timber of 350 kg/m3, for a load that stays."""
    found = withdrawal_strength(diameter, thread, 350e-9)
    assert found / 1000 == pytest.approx(strength, abs=0.005)
    row = WithdrawalByDensity(
        HERE,
        strength=known(found),
        diameter=known(diameter),
        thread=known(thread),
        thin=known(min(diameter / 8, 1)),
        duration=known(0.6),
        material=known(1.3),
        load=known(1.5),
    )
    assert row.characteristic / 1000 == pytest.approx(characteristic, abs=1)
    assert row.design / 1000 == pytest.approx(permanent, abs=1)


def test_a_duct_on_two_screws_in_laminated_veneer() -> None:
    """LVL handbook, duct hung from two screws of 5 mm with 50 mm of thread, 10 N/mm2: 1.6875 kN on 2.153 kN."""
    one = WithdrawalByDensity(
        HERE,
        strength=known(10 * 1000),
        diameter=known(5),
        thread=known(50),
        thin=known(1),
        duration=known(0.6),
        material=known(1.3),
        load=known(1),
    )
    both = screws_that_count(2) * one.design / 1e6
    assert both == pytest.approx(2.153, abs=0.001)
    assert 2.5 * 1.35 * 0.5 / both == pytest.approx(0.78, abs=0.005)


def test_a_cabinet_screw_in_a_stud_of_hem_fir() -> None:
    """NDS 12.2-2 through the plan: a no. 10 screw, 1-3/4 in of it in hem-fir (0.43): 175 pounds."""
    text = """
heights from: bare floor
layers: {partition: [drywall 1/2, stud 3-1/2, drywall 1/2]}
walls: {north: {made of: partition, length: 120}}
kinds: {wall: {height: 30, depth: 12, front: 3/4}}
stated: {screws: {read: report, shear: 90 lbf, as: recommended, in: wood studs}}
runs: {cabinets: {against: north, underside: 54, order: {W1: wall 36}}}
fixings:
  screws:
    {for: cabinets, at: top, each: 4, down: 1-1/2, into: studs, through: 3/4, screw: no. 10 x 3, timber: hem-fir}
"""
    found = row(text, "hung unit on its fixings", "project: {title: Gull Row, country: US-VT, lengths in: in}")
    assert found.pull_may / POUND == pytest.approx(2850 * 0.43**2 * 0.19 * 1.75, rel=1e-6)
