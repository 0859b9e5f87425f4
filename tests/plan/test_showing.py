"""Values as a reader sees them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from validator.plan import dimensions as dim
from validator.plan.dimensions import Dimension
from validator.plan.quantities import parse_quantity
from validator.plan.showing import Units, show, show_pair
from validator.plan.units import PERCENT
from validator.plan.values import Quantity

MM, CM, M, INCHES, FEET = (Units(unit) for unit in ("mm", "cm", "m", "in", "ft"))


def base(text: str, dimension: Dimension, lengths_in: str = "mm") -> float:
    found = parse_quantity(text, dimension, lengths_in)
    assert isinstance(found, Quantity)
    return found.low


@pytest.mark.parametrize(
    ("value", "units", "text"),
    [
        (653.2, MM, "653.2"),
        (700.0, MM, "700"),
        (653.24, MM, "653.2"),
        (0.0, MM, "0"),
        (-0.0, MM, "0"),
        (-9.0, MM, "−9"),
        (0.03, MM, "0.03"),
        (653.2, CM, "65.32"),
        (4522.0, M, "4.522"),
        (700.0, M, "0.7"),
        (876.3, INCHES, "34-1/2"),
        (12.7, INCHES, "1/2"),
        (609.6, INCHES, "24"),
        (-9.525, INCHES, "−3/8"),
        (0.5, INCHES, "0.02"),
        (1689.1, FEET, "5'-6 1/2\""),
        (1524.0, FEET, "5'-0\""),
        (12.7, FEET, '1/2"'),
        (-1689.1, FEET, "−5'-6 1/2\""),
    ],
)
def test_a_length_is_shown_as_the_plan_writes_lengths(value: float, units: Units, text: str) -> None:
    assert show(value, dim.LENGTH, units) == text


def test_inches_that_round_up_carry_into_feet() -> None:
    assert show(12 * 25.4 - 0.1, dim.LENGTH, FEET) == "1'-0\""
    assert show(35 * 25.4 - 0.1, dim.LENGTH, INCHES) == "35"


@pytest.mark.parametrize(("units", "text"), [(MM, "876.3 mm"), (M, "0.876 m"), (INCHES, "34-1/2 in")])
def test_the_unit_of_a_length_is_written_on_request(units: Units, text: str) -> None:
    assert show(876.3, dim.LENGTH, units, unit=True) == text


@pytest.mark.parametrize(
    ("written", "dimension", "text"),
    [
        ("32 A", dim.CURRENT, "32 A"),
        ("30 mA", dim.CURRENT, "30 mA"),
        ("0 A", dim.CURRENT, "0 A"),
        ("920 W", dim.POWER, "920 W"),
        ("7.9 kW", dim.POWER, "7.9 kW"),
        ("230 V", dim.VOLTAGE, "230 V"),
        ("30 min", dim.DURATION, "30 min"),
        ("4 h", dim.DURATION, "4 h"),
        ("36 h", dim.DURATION, "36 h"),
        ("1 day", dim.DURATION, "1 day"),
        ("2 weeks", dim.DURATION, "14 days"),
        ("2026-06-01", dim.DATE, "1 June 2026"),
        ("2027-12-31", dim.DATE, "31 December 2027"),
        ("18 mm/m", dim.SLOPE, "18 mm/m"),
        ("30 %", dim.WATER_ADDED, "30 %"),
        ("3 to 1", dim.WATER_ADDED, "33.3 %"),
        ("71 %", dim.MOISTURE, "71 %"),
        ("90.63 deg", dim.ANGLE, "90.63 °"),
        ("2.5 mm2", dim.AREA, "2.5 mm²"),
        ("12 AWG", dim.AREA, "3.31 mm²"),
        ("6.25 m2", dim.AREA, "6.25 m²"),
        ("45 L", dim.VOLUME, "45 L"),
        ("36 kg", dim.MASS, "36 kg"),
        ("36 kg/m", dim.LINE_LOAD, "36 kg/m"),
        ("50 kg/m2", dim.AREA_LOAD, "50 kg/m²"),
        ("450 m3/h", dim.FLOW, "450 m³/h"),
        ("800 N", dim.FORCE, "800 N"),
        ("1.2 kN", dim.FORCE, "1.2 kN"),
        ("3 bar", dim.PRESSURE, "300 kPa"),
        ("18 C", dim.TEMPERATURE, "18 °C"),
        ("-5 C", dim.TEMPERATURE, "−5 °C"),
        ("5 K", dim.TEMPERATURE_DIFFERENCE, "5 K"),
        ("3", dim.NUMBER, "3"),
        ("1450", dim.MONEY, "1450 GBP"),
        ("99.5", dim.MONEY, "99.50 GBP"),
    ],
)
def test_other_values_come_with_their_unit(written: str, dimension: Dimension, text: str) -> None:
    assert show(base(written, dimension), dimension, Units("mm", "GBP")) == text


@pytest.mark.parametrize(
    ("written", "dimension", "text"),
    [
        ("1/4 in/ft", dim.SLOPE, "1/4 in/ft"),
        ("2 lb/in", dim.LINE_LOAD, "2 lb/in"),
        ("15 lb/ft2", dim.AREA_LOAD, "15 lb/ft²"),
        ("390 cfm", dim.FLOW, "390 cfm"),
        ("68 F", dim.TEMPERATURE, "68 °F"),
        ("120 sq ft", dim.AREA, "120 sq ft"),
        ("80 lb", dim.MASS, "80 lb"),
        ("60 psi", dim.PRESSURE, "60 psi"),
    ],
)
def test_a_plan_in_inches_gets_what_goes_with_inches(written: str, dimension: Dimension, text: str) -> None:
    assert show(base(written, dimension), dimension, INCHES) == text


def test_a_percentage_of_nothing_in_particular_is_a_percentage() -> None:
    assert show(0.125, PERCENT, MM) == "12.5 %"


def test_a_value_that_is_not_there_shows_as_a_gap() -> None:
    assert show(math.nan, dim.LENGTH, MM) == "…"
    assert show(math.inf, dim.POWER, MM) == "…"


# Pairs ----------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("have", "need", "dimension", "units", "texts"),
    [
        (653.2, 700.0, dim.LENGTH, MM, ("653.2", "700")),
        (699.96, 700.0, dim.LENGTH, MM, ("699.96", "700")),
        (699.9996, 700.0, dim.LENGTH, MM, ("699.9996", "700")),
        (700.0, 700.0, dim.LENGTH, MM, ("700", "700")),
        (761.4, 762.0, dim.LENGTH, INCHES, ("29.98", "30")),
        (758.825, 762.0, dim.LENGTH, INCHES, ("29-7/8", "30")),
        (1676.0, 1676.4, dim.LENGTH, FEET, ("5'-5.98\"", "5'-6\"")),
        (0.01799, 0.018, dim.SLOPE, MM, ("17.99 mm/m", "18 mm/m")),
        (0.0207, 1 / 48, dim.SLOPE, INCHES, ("0.248 in/ft", "0.25 in/ft")),
        (9.5e8, 1e9, dim.POWER, MM, ("950 W", "1000 W")),
        (9.9996e8, 1e9, dim.POWER, MM, ("999.96 W", "1000 W")),
        (0.03, 32.0, dim.CURRENT, MM, ("30 mA", "32 A")),
        (0.0, 3600.0, dim.DURATION, MM, ("0 h", "1 h")),
        (72000.0, 86400.0, dim.DURATION, MM, ("20 h", "24 h")),
        (129600.0, 1209600.0, dim.DURATION, MM, ("1.5 days", "14 days")),
        (0.2996, 0.3, dim.WATER_ADDED, MM, ("29.96 %", "30 %")),
    ],
)
def test_two_values_that_differ_look_different(
    have: float, need: float, dimension: Dimension, units: Units, texts: tuple[str, str]
) -> None:
    assert show_pair(have, need, dimension, units) == texts


def test_two_moments_of_one_day_show_their_time() -> None:
    day = base("2026-06-03", dim.DATE)
    assert show_pair(day, day + 12 * 3600, dim.DATE, MM) == ("3 June 2026, 00:00", "3 June 2026, 12:00")
    assert show_pair(day, day + 86400, dim.DATE, MM) == ("3 June 2026", "4 June 2026")


def test_what_floats_leave_over_is_no_difference() -> None:
    assert show_pair(0.1 + 0.2, 0.3, dim.LENGTH, MM) == ("0.3", "0.3")


_LENGTHS = st.floats(0, 20000)
_UNITS = st.sampled_from([MM, CM, M, INCHES, FEET])


@given(value=_LENGTHS, units=_UNITS, unit=st.booleans())
def test_a_length_as_shown_reads_back_to_what_it_was_rounded_from(value: float, units: Units, unit: bool) -> None:
    half_a_step = 25.4 / 32 if units.inches else {"mm": 0.05, "cm": 0.05, "m": 0.5}[units.lengths_in]
    assert (
        abs(base(show(value, dim.LENGTH, units, unit=unit), dim.LENGTH, units.lengths_in) - value)
        <= half_a_step * 1.001
    )


@given(have=_LENGTHS, short_by=st.floats(1e-6, 10), units=_UNITS)
def test_a_length_that_is_too_short_reads_back_as_shorter(have: float, short_by: float, units: Units) -> None:
    shown = show_pair(have, have + short_by, dim.LENGTH, units)
    read_back = [base(text, dim.LENGTH, units.lengths_in) for text in shown]
    assert read_back[0] < read_back[1]


_SHOWN = [dimension for dimension in dim.ALL if not dimension.point]


@given(
    dimension=st.sampled_from(_SHOWN),
    have=st.floats(1e-3, 1e12),
    ratio=st.floats(1.0001, 1e6),
    units=st.sampled_from([MM, INCHES]),
)
def test_two_values_of_any_dimension_that_differ_look_different(
    dimension: Dimension, have: float, ratio: float, units: Units
) -> None:
    less, more = show_pair(have, have * ratio, dimension, units)
    assert less != more
