"""Quantities as people write them. The judge of every unit is pint, a general library of units."""

from __future__ import annotations

import math
from fractions import Fraction

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from validator.plan import dimensions as dim
from validator.plan.dimensions import Dimension
from validator.plan.quantities import (
    BadQuantity,
    literal_pattern,
    parse_any,
    parse_literal,
    parse_quantity,
    parse_readings,
    parse_to_find,
)
from validator.plan.units import PERCENT, UNITS, fits
from validator.plan.values import NothingStated, Quantity, ToFind

DAY = 86400.0


def value(text: str, dimension: Dimension = dim.LENGTH, lengths_in: str | None = "mm") -> float:
    found = parse_quantity(text, dimension, lengths_in)
    assert isinstance(found, Quantity)
    assert found.exact
    return found.low


def ends(text: str, dimension: Dimension = dim.LENGTH, lengths_in: str | None = "mm") -> tuple[float, float]:
    found = parse_quantity(text, dimension, lengths_in)
    assert isinstance(found, Quantity)
    return found.low, found.high


# Forms ----------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "lengths_in", "millimetres"),
    [
        ("600", "mm", 600.0),
        ("600", "cm", 6000.0),
        ("0.6", "m", 600.0),
        ("12.5 mm", None, 12.5),
        ("12.5mm", None, 12.5),
        ("34-1/2", "in", 876.3),
        ("34 1/2 in", None, 876.3),
        ('34-1/2"', None, 876.3),
        ("1/2", "in", 12.7),
        ("5'-6\"", None, 1676.4),
        ("5' 6\"", None, 1676.4),
        ("5'6\"", None, 1676.4),
        ("5'-6 1/2\"", None, 1689.1),
        ("5'-0\"", None, 1524.0),
        ("2 ft 6 in", None, 762.0),
        ("2 ft 6-1/2 in", None, 774.7),
        ("2'", None, 609.6),
        ("2-1/2", "ft", 762.0),
        ("18 deep", "mm", 18.0),
        ("0", "mm", 0.0),
    ],
)
def test_lengths_are_read_as_the_trade_writes_them(text: str, lengths_in: str | None, millimetres: float) -> None:
    assert value(text, dim.LENGTH, lengths_in) == millimetres


@pytest.mark.parametrize(
    ("printed", "typed"),
    [
        ("5′-6½″", "5'-6-1/2\""),
        ("5’-6”", "5'-6\""),
        ("34½ in", "34-1/2 in"),
        ("34-½ in", "34-1/2 in"),
        ("34 ½ in", "34-1/2 in"),
        ("¾ in", "3/4 in"),
        ("12.5\u00a0mm", "12.5 mm"),
        ("1⁄2 in", "1/2 in"),
    ],
)
def test_typographic_signs_are_read_as_their_keyboard_forms(printed: str, typed: str) -> None:
    assert value(printed) == value(typed)


def test_a_superscript_counts_behind_a_unit() -> None:
    assert value("6 mm²", dim.AREA) == value("6 mm2", dim.AREA) == 6.0
    assert value("450 m³/h", dim.FLOW) == value("450 m3/h", dim.FLOW)


@pytest.mark.parametrize(
    ("text", "dimension", "in_base"),
    [
        ("32 A", dim.CURRENT, 32.0),
        ("30 mA", dim.CURRENT, 0.03),
        ("4 h", dim.DURATION, 14400.0),
        ("30 min", dim.DURATION, 1800.0),
        ("1 day", dim.DURATION, DAY),
        ("0.5 days", dim.DURATION, DAY / 2),
        ("3 weeks", dim.DURATION, 21 * DAY),
        ("38 kg/m", dim.LINE_LOAD, 0.038),
        ("7.9 kW", dim.POWER, 7.9e9),
        ("230 V", dim.VOLTAGE, 2.3e8),
        ("45 L", dim.VOLUME, 4.5e7),
        ("450 m3/h", dim.FLOW, 1.25e8),
        ("18 mm/m", dim.SLOPE, 0.018),
        ("1/4 in/ft", dim.SLOPE, 1 / 48),
        ("1:40", dim.SLOPE, 0.025),
        ("1 in 40", dim.SLOPE, 0.025),
        ("2 %", dim.SLOPE, 0.02),
        ("71 %", dim.MOISTURE, 0.71),
        ("71 %", dim.HUMIDITY, 0.71),
        ("100 %", dim.HUMIDITY, 1.0),
        ("10 %", dim.SHARE, 0.1),
        ("18 C", dim.TEMPERATURE, 291.15),
        ("-5 °C", dim.TEMPERATURE, 268.15),
        ("5 K", dim.TEMPERATURE_DIFFERENCE, 5.0),
        ("1450", dim.MONEY, 1450.0),
        ("3", dim.NUMBER, 3.0),
        ("1 N/mm2", dim.PRESSURE, 1000.0),
    ],
)
def test_other_dimensions_come_out_in_coherent_base_units(text: str, dimension: Dimension, in_base: float) -> None:
    assert value(text, dimension) == in_base


def test_power_is_voltage_times_current_without_any_factor() -> None:
    assert value("230 V", dim.VOLTAGE) * value("10 A", dim.CURRENT) == value("2.3 kW", dim.POWER)


def test_force_over_area_is_pressure_without_any_factor() -> None:
    assert value("50 N", dim.FORCE) / value("25 mm2", dim.AREA) == value("2 N/mm2", dim.PRESSURE)


@pytest.mark.parametrize(
    ("text", "added"),
    [
        ("30 %", 0.3),
        ("30 % water", 0.3),
        ("25 % of mix", 1 / 3),
        ("neat", 0.0),
        ("undiluted", 0.0),
        ("3 to 1", 1 / 3),
        ("3:1", 1 / 3),
        ("1 to 1", 1.0),
        ("1 water to 4 paint", 0.25),
        ("4 paint to 1 water", 0.25),
        ("1 part water to 4 parts paint", 0.25),
        ("1 part of water to 4 parts of paint", 0.25),
    ],
)
def test_thinning_is_water_over_paint_however_it_is_said(text: str, added: float) -> None:
    assert value(text, dim.WATER_ADDED) == pytest.approx(added, rel=1e-15)


def test_a_share_of_the_mix_holds_as_much_water_as_it_says() -> None:
    added = value("25 % of mix", dim.WATER_ADDED)
    assert added / (1 + added) == pytest.approx(0.25)


def test_a_range_has_two_ends() -> None:
    assert ends("10 to 25") == (10.0, 25.0)
    assert ends("10 mm to 25 mm", lengths_in=None) == (10.0, 25.0)
    assert ends("10 to 10") == (10.0, 10.0)
    assert ends("10 to 20 % water", dim.WATER_ADDED) == (0.1, 0.2)


def test_a_unit_at_the_end_of_a_range_counts_for_both_ends() -> None:
    assert ends("1/2 to 3/4 in", lengths_in="mm") == (12.7, 19.05)


def test_a_date_is_seconds_so_that_days_can_be_added() -> None:
    assert value("2026-06-15", dim.DATE) - value("2026-06-01", dim.DATE) == value("14 days", dim.DURATION)


def test_an_assumed_figure_says_so_and_keeps_its_text() -> None:
    found = parse_quantity(" 38 ft assumed ", dim.LENGTH, None)
    assert found == Quantity(11582.4, 11582.4, dim.LENGTH, "38 ft assumed", assumed=True)


def test_what_is_to_find_out_names_who_can_say() -> None:
    assert parse_quantity("to find out", dim.LENGTH, "mm") == ToFind(None, "to find out")
    assert parse_quantity("To find out by electrician", dim.CURRENT, None) == ToFind(
        "electrician", "To find out by electrician"
    )
    assert parse_to_find("to find out by the county").by == "the county"


def test_none_is_told_from_to_find_out() -> None:
    assert parse_quantity("none", dim.LENGTH, "mm") == NothingStated("none")


def test_readings_may_differ_by_less_than_tenfold() -> None:
    assert parse_readings(["361", "3605"], dim.LENGTH, "mm").low == 361.0


def test_readings_keep_every_figure_and_the_least_and_greatest() -> None:
    found = parse_readings(["4522", "4518", "4516"], dim.LENGTH, "mm")
    assert (found.low, found.high, found.readings) == (4516.0, 4522.0, (4522.0, 4518.0, 4516.0))
    assert found.text == "4522, 4518, 4516"


def test_one_assumed_reading_makes_all_of_them_assumed() -> None:
    assert parse_readings(["4522", "4518 assumed"], dim.LENGTH, "mm").assumed


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("9 low", 9.0, 9.0),
        ("4 high", -4.0, -4.0),
        ("0", 0.0, 0.0),
        ("6 to 9 low", 6.0, 9.0),
        ("4 to 6 high", -6.0, -4.0),
    ],
)
def test_a_level_lies_below_the_high_spot(text: str, low: float, high: float) -> None:
    found = parse_quantity(text, dim.LENGTH, "mm", level=True)
    assert isinstance(found, Quantity)
    assert (found.low, found.high) == (low, high)


# Judges from outside --------------------------------------------------------------------------------------------------

_PINT_NAMES = {
    '"': "inch",
    "'": "foot",
    "sq in": "inch**2",
    "sq ft": "foot**2",
    "cu ft": "foot**3",
    "US gal": "gallon",
    "imp gal": "imperial_gallon",
    "Btu/h": "Btu_it / hour",
    "BTU/h": "Btu_it / hour",
    "cfm": "foot**3 / minute",
    "C": "degC",
    "°C": "degC",
    "F": "degF",
    "°F": "degF",
    "%": "percent",
    "L": "liter",
    "l": "liter",
    "m3/h": "m**3/hour",
    "m3/s": "m**3/s",
    "ft3/min": "foot**3/minute",
    "N/mm2": "newton/mm**2",
    "lb/in": "pound/inch",
    "in/ft": "inch/foot",
}
_BASE = {
    dim.LENGTH: "mm",
    dim.AREA: "mm**2",
    dim.VOLUME: "mm**3",
    dim.MASS: "kg",
    dim.DURATION: "s",
    dim.CURRENT: "A",
    dim.POWER: "kg*mm**2/s**3",
    dim.VOLTAGE: "kg*mm**2/s**3/A",
    dim.FORCE: "kg*mm/s**2",
    dim.PRESSURE: "kg/mm/s**2",
    dim.FLOW: "mm**3/s",
    dim.LINE_LOAD: "kg/mm",
    dim.AREA_LOAD: "kg/mm**2",
    dim.DENSITY: "kg/mm**3",
    dim.ACCELERATION: "mm/s**2",
    dim.TEMPERATURE_DIFFERENCE: "kelvin",
    dim.TEMPERATURE: "kelvin",
    dim.SLOPE: "",
    dim.ANGLE: "degree",
    PERCENT: "",
}
_REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry(cache_folder=None)


def _by_pint(figure: float, symbol: str, dimension: Dimension) -> float:
    name = _PINT_NAMES.get(symbol, symbol.translate({ord("2"): "**2", ord("3"): "**3"}))
    return float(_REGISTRY.Quantity(figure, name).to(_BASE[dimension]).magnitude)


_FIGURES = st.decimals(min_value=0, max_value=99999, places=3, allow_nan=False, allow_infinity=False)


@pytest.mark.parametrize("symbol", sorted(UNITS))
@settings(max_examples=20, deadline=None)
@given(figure=_FIGURES)
def test_every_unit_is_worth_what_pint_says(symbol: str, figure: object) -> None:
    found = parse_any(f"{figure} {symbol}")
    assert isinstance(found, Quantity)
    assert found.low == pytest.approx(_by_pint(float(str(figure)), symbol, found.dimension), rel=1e-9)


@given(
    whole=st.integers(0, 999),
    part=st.integers(1, 63),
    of=st.sampled_from([2, 3, 4, 8, 16, 32, 64]),
    joint=st.sampled_from("- "),
)
def test_a_mixed_number_comes_out_as_the_nearest_float_to_its_exact_value(
    whole: int, part: int, of: int, joint: str
) -> None:
    part %= of
    exact = (Fraction(whole) + Fraction(part, of)) * Fraction("25.4")
    assert value(f"{whole}{joint}{part}/{of} in") == float(exact)


@given(feet=st.integers(0, 99), inches=st.integers(0, 11), part=st.integers(0, 15))
def test_feet_and_inches_add_up(feet: int, inches: int, part: int) -> None:
    exact = (Fraction(feet * 12 + inches) + Fraction(part, 16)) * Fraction("25.4")
    assert value(f"{feet}'-{inches} {part}/16\"") == value(f"{feet} ft {inches}-{part}/16 in") == float(exact)


@pytest.mark.parametrize(
    ("text", "dimension", "published", "unit"),
    [
        # NIST Special Publication 811 (2008), appendix B.8, from memory; bold there means exact
        ("1 in", dim.LENGTH, 25.4, 1.0),
        ("1 ft", dim.LENGTH, 304.8, 1.0),
        ("1 lb", dim.MASS, 0.45359237, 1.0),
        ("1 lbf", dim.FORCE, 4.448222, 1e3),  # N
        ("1 psi", dim.PRESSURE, 6.894757, 1.0),  # kPa
        ("1 hp", dim.POWER, 745.6999, 1e6),  # W; the horsepower of 550 ft·lbf/s, not the metric or electric one
        ("1 Btu/h", dim.POWER, 0.2930711, 1e6),  # W; the international table's
        ("1 cfm", dim.FLOW, 4.719474e-4, 1e9),  # m3/s
        ("1 US gal", dim.VOLUME, 3.785412, 1e6),  # L
        ("1 imp gal", dim.VOLUME, 4.54609, 1e6),  # L
        ("1 lb/in", dim.LINE_LOAD, 17.85797, 1e-3),  # kg/m
        ("1 lb/ft", dim.LINE_LOAD, 1.488164, 1e-3),  # kg/m
        ("1 sq ft", dim.AREA, 0.09290304, 1e6),  # m2
    ],
)
def test_units_agree_with_published_factors(text: str, dimension: Dimension, published: float, unit: float) -> None:
    assert value(text, dimension) == pytest.approx(published * unit, rel=2e-7)


@pytest.mark.parametrize(
    ("gauge", "mils", "square_millimetres"),
    [
        # ASTM B258, table of nominal diameters of solid round wires, in mils; areas as in NFPA 70, chapter 9, table 8.
        # Both from memory.
        ("14 AWG", 64.1, 2.08),
        ("12 AWG", 80.8, 3.31),
        ("10 AWG", 101.9, 5.261),
        ("8 AWG", 128.5, 8.367),
        ("6 AWG", 162.0, 13.30),
        ("4 AWG", 204.3, 21.15),
        ("2 AWG", 257.6, 33.62),
        ("1/0 AWG", 324.9, 53.49),
        ("2/0 AWG", 364.8, 67.43),
        ("4/0 AWG", 460.0, 107.2),
    ],
)
def test_wire_gauges_agree_with_the_published_table(gauge: str, mils: float, square_millimetres: float) -> None:
    area = value(gauge, dim.AREA)
    assert math.sqrt(4 * area / math.pi) / 0.0254 == pytest.approx(mils, abs=0.051)
    assert area == pytest.approx(square_millimetres, rel=1.5e-3)


# Refusals -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "dimension", "message", "nearest"),
    [
        ("12 A", dim.LENGTH, "12 A is a current; a length is expected (mm, m, in, ft)", ""),
        ("600 mm", dim.CURRENT, "600 mm is a length; a current is expected (A, mA)", ""),
        ("6 mm", dim.AREA, "6 mm is a length; an area is expected (mm2, m2, AWG, ft2)", ""),
        ("30 %", dim.LENGTH, "30 % is a percentage; a length is expected (mm, m, in, ft)", ""),
        ("6 A", dim.NUMBER, "6 A is a current; a number is expected (no unit)", ""),
        ("18 C", dim.TEMPERATURE_DIFFERENCE, "18 C is a temperature; a temperature difference is expected (K)", ""),
        ("600", dim.LENGTH, "600 has no unit: say the unit, or write `lengths in: mm` under project", ""),
        ("32", dim.CURRENT, "32 has no unit; a current is expected (A, mA)", ""),
        ("4", dim.DURATION, "4 has no unit; a duration is expected (min, h, days, weeks)", ""),
        ("30", dim.WATER_ADDED, "30 has no unit; a water added is expected (%, % of mix, 3 to 1, neat)", ""),
        ("600 MM", dim.LENGTH, "`600 MM`: capital and small letters differ in units: mm, not MM", "mm"),
        ("2 KW", dim.POWER, "`2 KW`: capital and small letters differ in units: kW, not KW", "kW"),
        ("32 a", dim.CURRENT, "`32 a`: capital and small letters differ in units: A, not a", "A"),
        ("6 metres", dim.LENGTH, "`6 metres`: metres is not a unit that is read here", "m"),
        ("2 hrs", dim.DURATION, "`2 hrs`: hrs is not a unit that is read here", "h"),
        ("2 wekes", dim.DURATION, "`2 wekes`: wekes is not a unit that is read here", "weeks"),
        ("2 months", dim.DURATION, "`2 months`: months and years are of different lengths: write days or weeks", ""),
        ("5 gal", dim.VOLUME, "`5 gal`: a gallon is not the same everywhere: write `US gal` or `imp gal`", ""),
        ("1 000", dim.LENGTH, "`1 000`: write the number without a space (1000)", ""),
        ("1 000 mm", dim.LENGTH, "`1 000 mm`: write the number without a space (1000)", ""),
        (
            "1,000",
            dim.LENGTH,
            "`1,000`: write thousands without a comma (1000) and decimals with a point (12.5)",
            "",
        ),
        ("1e3 mm", dim.LENGTH, "`1e3 mm`: write the number out, without a power of ten", ""),
        ("1.5E+3", dim.LENGTH, "`1.5E+3`: write the number out, without a power of ten", ""),
        ("nan", dim.LENGTH, "`nan`: that is no number", ""),
        ("inf mm", dim.LENGTH, "`inf mm`: that is no number", ""),
        ("-9", dim.LENGTH, "`-9`: a length has no sign; a spot of a floor is `9 low` or `4 high`", ""),
        ("−½ in", dim.LENGTH, "`-1/2 in`: a length has no sign; a spot of a floor is `9 low` or `4 high`", ""),
        ("9 low", dim.LENGTH, "`9 low`: only levels of a floor are low or high", ""),
        (".5 mm", dim.LENGTH, "`.5 mm`: write a 0 before the point (0.5)", ""),
        ("5. mm", dim.LENGTH, "`5. mm`: write a figure behind the point, or leave the point out", ""),
        ("5/4 in", dim.LENGTH, "`5/4 in`: a fraction stays under one", ""),
        ("1-4/4 in", dim.LENGTH, "`1-4/4 in`: a fraction stays under one", ""),
        ("1/0 in", dim.LENGTH, "`1/0 in`: a fraction stays under one", ""),
        ("5'-12\"", dim.LENGTH, "`5'-12\"`: inches after feet stay under 12", ""),
        ("5'-6", dim.LENGTH, "`5'-6` is not feet and inches", ""),
        ("5.5 ft 6 in", dim.LENGTH, "`5.5 ft 6 in` is not feet and inches", ""),
        ("10-25 mm", dim.LENGTH, "`10-25 mm`: write a range with `to` (10 to 25)", ""),
        ("10–25", dim.LENGTH, "`10-25`: write a range with `to` (10 to 25)", ""),
        ("25 mm to 10 mm", dim.LENGTH, "`25 mm to 10 mm`: a range goes from the smaller to the greater", ""),
        (
            "10 mm to 25",
            dim.LENGTH,
            "`10 mm to 25`: the unit stands at the end, for both, or behind each figure",
            "",
        ),
        ("1 to 2 ft 6 in", dim.LENGTH, "`1 to 2 ft 6 in`: say the unit of 1 as well", ""),
        ("mm 600", dim.LENGTH, "`mm 600`: the number comes first, then the unit", ""),
        ("AWG 12", dim.AREA, "`AWG 12`: the number comes first, then the unit", ""),
        (
            "12.5 AWG",
            dim.AREA,
            "`12.5 AWG`: a wire gauge stands alone and is a whole number: `12 AWG`, `2/0 AWG`",
            "",
        ),
        ("about 600", dim.LENGTH, "`about 600`: write `assumed` behind a figure not measured", ""),
        ("> 50 mm", dim.LENGTH, "`> 50 mm`: write one figure; limits are for rules", ""),
        ("?", dim.LENGTH, "`?`: write `to find out` where nobody knows yet", "to find out"),
        ("£320", dim.MONEY, "`£320`: write the number alone; the currency stands under project", ""),
        ("٦٠٠ mm", dim.LENGTH, "`٦٠٠ mm`: write the figures 0 to 9", ""),
        ("6²", dim.LENGTH, "`6²`: write the figures 0 to 9", ""),
        ("", dim.LENGTH, "nothing is written here", ""),
        ("wide", dim.LENGTH, "`wide` is not a length", ""),
        ("9" * 41, dim.LENGTH, "a quantity takes at most 40 characters", ""),
        ("1 June 2026", dim.DATE, "`1 June 2026` is not a date: write year-month-day", ""),
        ("01/06/2026", dim.DATE, "`01/06/2026` is not a date: write year-month-day", ""),
        ("2026-02-30", dim.DATE, "2026-02-30 is not in the calendar", ""),
        ("710 %", dim.HUMIDITY, "710 %: a relative humidity is at most 100 %", ""),
        ("1:0", dim.SLOPE, "`1:0`: the second part is 0", ""),
        ("1 to 4", dim.WATER_ADDED, "`1 to 4` can be read in two ways: write which is the water", ""),
        ("100 % of mix", dim.WATER_ADDED, "`100 % of mix` has no paint in it", ""),
        ("1 water to 0 paint", dim.WATER_ADDED, "`1 water to 0 paint` has no paint in it", ""),
        ("1 paint to 4 paint", dim.WATER_ADDED, "`1 paint to 4 paint`: one part is water and the other paint", ""),
        ("10001 m", dim.LENGTH, "`10001 m` is longer than any house", ""),
        ("-300 C", dim.TEMPERATURE, "-300 C is colder than anything can be", ""),
    ],
)
def test_what_cannot_be_read_is_refused_in_plain_words(
    text: str, dimension: Dimension, message: str, nearest: str
) -> None:
    with pytest.raises(BadQuantity) as refused:
        parse_quantity(text, dimension, None)
    assert (refused.value.message, refused.value.nearest) == (message, nearest)
    assert refused.value.expected


def test_a_unit_is_hinted_at_only_where_its_kind_fits() -> None:
    with pytest.raises(BadQuantity) as refused:
        parse_quantity("30 ma", dim.CURRENT, None)
    assert refused.value.nearest == "mA"


def test_a_level_says_whether_it_is_low_or_high() -> None:
    with pytest.raises(BadQuantity, match="say whether the spot is low or high"):
        parse_quantity("6", dim.LENGTH, "mm", level=True)


@pytest.mark.parametrize(
    ("texts", "message"),
    [
        ([], "the list of readings is empty"),
        (["1 to 2"], "`1 to 2` is not one reading: a list holds one figure a reading"),
        (["to find out"], "`to find out` is not one reading: a list holds one figure a reading"),
        (["1"] * 201, "a list takes at most 200 readings"),
        (["3", "610", "3605"], "`3` and `3605` are no readings of one length"),
    ],
)
def test_a_list_holds_readings_only(texts: list[str], message: str) -> None:
    with pytest.raises(BadQuantity) as refused:
        parse_readings(texts, dim.LENGTH, "mm")
    assert refused.value.message == message


def test_a_message_does_not_repeat_what_a_terminal_obeys() -> None:
    with pytest.raises(BadQuantity) as refused:
        parse_quantity("\x1b[2J" + "x" * 20, dim.LENGTH, "mm")
    assert "\x1b" not in refused.value.message


_HOSTILE = st.one_of(
    st.text(max_size=60),
    st.text(alphabet="0123456789 -/.,:'\"%toinfmAx½²", max_size=45),
    st.from_regex(r"[0-9]{1,12}[-. /'][0-9]{0,8}[/ \"a-z%]{0,12}", fullmatch=True),
)


@settings(max_examples=500)
@given(text=_HOSTILE, dimension=st.sampled_from(dim.ALL), lengths_in=st.sampled_from(["mm", "in", None]))
def test_any_text_is_a_sound_quantity_or_refused(text: str, dimension: Dimension, lengths_in: str | None) -> None:
    try:
        found = parse_quantity(text, dimension, lengths_in)
    except BadQuantity:
        return
    if isinstance(found, Quantity):
        assert 0 <= found.low <= found.high < math.inf
        assert found.dimension is dimension


# Quantities whose unit tells the dimension ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "in_base", "dimension"),
    [
        ("940 mm", 940.0, dim.LENGTH),
        ("940", 940.0, dim.LENGTH),
        ("10 A", 10.0, dim.CURRENT),
        ("12 AWG", 3.3087728761, dim.AREA),
        ("4 h", 14400.0, dim.DURATION),
        ("30 %", 0.3, PERCENT),
        ("5'-6\"", 1676.4, dim.LENGTH),
    ],
)
def test_the_unit_tells_the_dimension(text: str, in_base: float, dimension: Dimension) -> None:
    found = parse_any(text, "mm")
    assert isinstance(found, Quantity)
    assert found.low == pytest.approx(in_base)
    assert found.dimension is dimension


def test_a_range_of_any_dimension_keeps_its_unit() -> None:
    found = parse_any("10 to 16 A")
    assert isinstance(found, Quantity)
    assert (found.low, found.high, found.dimension) == (10.0, 16.0, dim.CURRENT)


def test_a_date_is_known_by_its_form() -> None:
    found = parse_any("2026-06-01")
    assert isinstance(found, Quantity)
    assert found.dimension is dim.DATE


def test_a_literal_has_to_be_one_figure_with_a_unit() -> None:
    assert parse_literal("1.5 mm/m") == (0.0015, dim.SLOPE)
    for text in ("650", "10 to 25 mm", "650 mm assumed", "to find out"):
        with pytest.raises(BadQuantity):
            parse_literal(text)


def test_a_percentage_fits_every_ratio_and_nothing_else() -> None:
    fitting = [dimension for dimension in dim.ALL if fits(PERCENT, dimension)]
    assert fitting == [dim.SLOPE, dim.WATER_ADDED, dim.HUMIDITY, dim.MOISTURE, dim.SHARE]


@pytest.mark.parametrize(
    ("expression", "literals"),
    [
        ("clearance >= 650 mm", ["650 mm"]),
        ("1.5 mm/m * run + 10 mm", ["1.5 mm/m", "10 mm"]),
        ("a-1/2 in", ["1/2 in"]),
        ("depth - 1-1/2 in", ["1-1/2 in"]),
        ("650 mm/2", ["650 mm"]),
        ("100 mm/m_run", ["100 mm"]),
        ("load <= 2.5 kW and device == 32 A", ["2.5 kW", "32 A"]),
        ("water < 30 % or age > 5 days", ["30 %", "5 days"]),
        ("cable >= 12 AWG", ["12 AWG"]),
        ("height > 2 ft 6 in", ["2 ft 6 in"]),
        ("starts < 2026-06-01", ["2026-06-01"]),
        ("area > 4 m2", ["4 m2"]),
        ("count * 3 > x2 mm", []),
        ("base in solid_bases", []),
        ("5 mmx", []),
    ],
)
def test_literals_are_found_inside_expressions(expression: str, literals: list[str]) -> None:
    assert [match.group() for match in literal_pattern().finditer(expression)] == literals
    for literal in literals:
        parse_literal(literal)


@given(figure=st.integers(0, 9999), symbol=st.sampled_from(sorted(set(UNITS) - {"'", '"'})))
def test_every_unit_can_stand_in_an_expression(figure: int, symbol: str) -> None:
    match = literal_pattern().search(f"x < {figure} {symbol} and y")
    assert match is not None
    assert match.group() == f"{figure} {symbol}"
