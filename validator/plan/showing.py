"""Showing values to people, in the units of their plan and rounded as the trade rounds."""

from __future__ import annotations

import math
from collections.abc import Callable
from datetime import date
from functools import cache
from typing import NamedTuple

from validator.plan import dimensions as dim
from validator.plan.dimensions import DAY, Dimension
from validator.plan.units import PERCENT, UNITS, Unit

NOT_KNOWN = "…"
MINUS = "−"
FINEST = 40  # decimals at most; values that differ by more than what floats leave over differ long before
SMALLEST = 1e-6  # of the unit shown; what is nearer to nothing is what floats leave over
MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


class Units(NamedTuple):
    """The units of one plan: `lengths_in` is mm, cm, m, in or ft; `currency` a code of ISO 4217, or None."""

    lengths_in: str = "mm"
    currency: str | None = None

    @property
    def inches(self) -> bool:
        """Whether lengths are in inches or feet, and everything else in the units that go with them."""
        return self.lengths_in in ("in", "ft")


class _Scale(NamedTuple):
    """A unit to show in: its symbol, how many decimals are worth showing, and from which base value on it is used."""

    unit: Unit
    symbol: str
    decimals: int
    least: float = 0.0

    def amount(self, value: float) -> float:
        amount = value * self.unit.over / self.unit.times
        return amount if self.unit.zero is None else amount - float(self.unit.zero)

    def text(self, value: float, decimals: int, *, symbol: bool = True) -> str:
        number = _number(self.amount(value), decimals)
        if self.unit.dimension is dim.MONEY and number[-2:-1] == ".":
            number += "0"
        if not symbol or not self.symbol:
            return number
        return f"{number} {self.symbol.removesuffix('s') if number == '1' else self.symbol}"


def show(value: float, dimension: Dimension, units: Units, *, unit: bool = False) -> str:
    """A value in base units as text: `653.2`, `34-1/2`, `5'-6 1/2"`, `32 A`, `18 mm/m`, `30 %`, `1 June 2026`.

    A length is in the plan's own unit, which is written only if `unit` (feet and inches always have their marks); what
    is of another dimension always has its unit. Inches go to the nearest sixteenth. Not a number shows as `…`.
    """
    if not math.isfinite(value):
        return NOT_KNOWN
    if dimension.same_as(dim.DATE):
        return _day(value)
    if _in_fractions(dimension, units):
        return _inches(value, dimension, units, unit)
    scale = _scale(abs(value), dimension, units)
    return scale.text(value, scale.decimals, symbol=unit or not dimension.same_as(dim.LENGTH))


def show_pair(have: float, need: float, dimension: Dimension, units: Units, *, unit: bool = False) -> tuple[str, str]:
    """Two values side by side, with as many decimals as it takes until two that differ no longer look the same.

    Both are in one unit unless one is more than a hundred times the other; inches become decimal where sixteenths
    cannot tell them apart, and two moments of one day show their time.
    """
    texts = show(have, dimension, units, unit=unit), show(need, dimension, units, unit=unit)
    if not math.isfinite(have - need) or math.isclose(have, need, rel_tol=1e-12, abs_tol=1e-12):
        return texts
    if dimension.same_as(dim.DATE):
        return texts if texts[0] != texts[1] else (_moment(have), _moment(need))
    if _in_fractions(dimension, units):
        if texts[0] != texts[1]:
            return texts
        return _told_apart(lambda value, places: _decimal_inches(value, places, dimension, units, unit), have, need, 2)
    scale = _common_scale(have, need, dimension, units)
    if scale is None:
        return texts
    symbol = unit or not dimension.same_as(dim.LENGTH)
    return _told_apart(lambda value, places: scale.text(value, places, symbol=symbol), have, need, scale.decimals)


def _told_apart(text: Callable[[float, int], str], have: float, need: float, decimals: int) -> tuple[str, str]:
    texts = text(have, decimals), text(need, decimals)
    while texts[0] == texts[1] and decimals < FINEST:
        decimals += 1
        texts = text(have, decimals), text(need, decimals)
    return texts


def _number(amount: float, decimals: int) -> str:
    """The number with at most so many decimals, and more only where it would show as nothing."""
    if abs(amount) < min(SMALLEST, 0.5 * 10**-decimals):
        return "0"
    while float(f"{amount:.{decimals}f}") == 0.0:
        decimals += 1
    text = f"{abs(amount):.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return (MINUS if amount < 0 else "") + text


def _scale(magnitude: float, dimension: Dimension, units: Units) -> _Scale:
    """The scale in which a value of this magnitude is said."""
    scales = _scales(dimension, units)
    whole_days = dimension is dim.DURATION and magnitude % DAY == 0
    if magnitude == 0 or whole_days:
        return scales[-1]
    return next((scale for scale in reversed(scales) if magnitude >= scale.least), scales[0])


def _common_scale(have: float, need: float, dimension: Dimension, units: Units) -> _Scale | None:
    """The scale for two values: the greater one's where the smaller is at least 1 in it, else the smaller one's."""
    low, high = sorted((abs(have), abs(need)))
    greater = _scale(high, dimension, units)
    if low == 0:
        return greater
    smaller = _scale(low, dimension, units)
    if smaller == greater or abs(greater.amount(low)) >= 1:
        return greater
    return smaller if high <= 100 * low else None


@cache
def _scales(dimension: Dimension, units: Units) -> tuple[_Scale, ...]:
    """The scales of a dimension in a plan, from the finest to the coarsest."""

    def scale(symbol: str, decimals: int, least: float = 0.0, shown: str = "") -> _Scale:
        return _Scale(UNITS[symbol], shown or symbol, decimals, least)

    inches = units.inches
    match dimension.name:
        case dim.LENGTH.name:
            return (scale(units.lengths_in, {"mm": 1, "cm": 2, "m": 3}[units.lengths_in]),)
        case dim.AREA.name:
            large = scale("sq ft", 1, 1e4) if inches else scale("m2", 2, 1e4, "m²")
            return scale("mm2", 2, 0, "mm²"), large
        case dim.VOLUME.name:
            return (scale("L", 1),)
        case dim.MASS.name:
            return (scale("lb" if inches else "kg", 1),)
        case dim.DURATION.name:
            return scale("s", 0), scale("min", 0, 60), scale("h", 1, 3600), scale("days", 1, 2 * DAY)
        case dim.CURRENT.name:
            return scale("mA", 0), scale("A", 2, 1)
        case dim.POWER.name:
            return scale("W", 0), scale("kW", 2, 1e9)
        case dim.VOLTAGE.name:
            return (scale("V", 1),)
        case dim.FORCE.name:
            return (scale("lbf", 1),) if inches else (scale("N", 0), scale("kN", 2, 1e6))
        case dim.PRESSURE.name:
            return (
                (scale("psi", 1),) if inches else (scale("Pa", 0), scale("kPa", 1, 1), scale("N/mm2", 0, 1e3, "N/mm²"))
            )
        case dim.FLOW.name:
            return (scale("cfm", 1) if inches else scale("m3/h", 1, 0, "m³/h"),)
        case dim.LINE_LOAD.name:
            return (scale({"in": "lb/in", "ft": "lb/ft"}.get(units.lengths_in, "kg/m"), 2),)
        case dim.AREA_LOAD.name:
            return (scale("lb/ft2", 1, 0, "lb/ft²") if inches else scale("kg/m2", 1, 0, "kg/m²"),)
        case dim.DENSITY.name:
            return (scale("lb/ft3", 0, 0, "lb/ft³") if inches else scale("kg/m3", 0, 0, "kg/m³"),)
        case dim.ACCELERATION.name:
            return (scale("m/s2", 2, 0, "m/s²"),)
        case dim.TEMPERATURE_DIFFERENCE.name:
            return (scale("K", 1),)
        case dim.TEMPERATURE.name:
            return (scale("°F" if inches else "°C", 1),)
        case dim.SLOPE.name:
            return (scale("mm/m", 1),)
        case dim.WATER_ADDED.name | dim.HUMIDITY.name | dim.MOISTURE.name | dim.SHARE.name | PERCENT.name:
            return (scale("%", 1),)
        case dim.ANGLE.name:
            return (scale("deg", 2, 0, "°"),)
        case dim.MONEY.name:
            return (_Scale(Unit(dim.MONEY, 1), units.currency or "", 2),)
    return (_Scale(Unit(dimension, 1), "", 2),)


def _in_fractions(dimension: Dimension, units: Units) -> bool:
    return units.inches and (dimension.same_as(dim.LENGTH) or dimension.same_as(dim.SLOPE))


def _inches(value: float, dimension: Dimension, units: Units, unit: bool) -> str:
    """Inches (or inches in a foot, of a slope) to the nearest sixteenth."""
    amount = value * 12 if dimension.same_as(dim.SLOPE) else value / 25.4
    sixteenths = round(abs(amount) * 16)
    if not sixteenths and abs(amount) >= SMALLEST:
        return _decimal_inches(value, 2, dimension, units, unit)
    feet, left = divmod(sixteenths, 16 * 12) if _in_feet(dimension, units) else (0, sixteenths)
    whole, part = divmod(left, 16)
    shared = math.gcd(part, 16)
    fraction = f"{part // shared}/{16 // shared}" if part else ""
    joint = " " if _in_feet(dimension, units) else "-"
    number = f"{whole}{joint}{fraction}" if whole and fraction else fraction or str(whole)
    return (MINUS if amount < 0 and sixteenths else "") + _marked(feet, number, dimension, units, unit)


def _decimal_inches(value: float, decimals: int, dimension: Dimension, units: Units, unit: bool) -> str:
    if dimension.same_as(dim.SLOPE):
        return _marked(0, _number(value * 12, decimals), dimension, units, unit)
    amount = abs(value) / 25.4
    feet = int(round(amount, decimals) // 12) if _in_feet(dimension, units) else 0
    number = _number(max(amount - 12 * feet, 0.0), decimals)
    return (MINUS if value < 0 else "") + _marked(feet, number, dimension, units, unit)


def _marked(feet: int, inches: str, dimension: Dimension, units: Units, unit: bool) -> str:
    if dimension.same_as(dim.SLOPE):
        return f"{inches} in/ft"
    if _in_feet(dimension, units):
        return f"{feet}'-{inches}\"" if feet else f'{inches}"'
    return f"{inches} in" if unit else inches


def _in_feet(dimension: Dimension, units: Units) -> bool:
    return units.lengths_in == "ft" and dimension.same_as(dim.LENGTH)


def _day(value: float) -> str:
    day = date.fromordinal(int(value // DAY))
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def _moment(value: float) -> str:
    minutes = int(value % DAY // 60)
    return f"{_day(value)}, {minutes // 60:02d}:{minutes % 60:02d}"
