"""The units a plan or a rule may write, each as an exact multiple of its dimension's base unit.

Base units are mm, kg, s, A, K, degrees of angle and their products: 1 N is 1000 kg·mm/s², 1 W is 10⁶ kg·mm²/s³ and
1 V is 10⁶ kg·mm²/(s³·A).
The inch, the pound and the standard pull of gravity are exact by definition (NIST SP 811, appendix B).
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import NamedTuple

from validator.plan import dimensions as dim
from validator.plan.dimensions import Dimension

PERCENT = Dimension("percentage", kind="percentage")
"""What `30 %` is where nothing around it says of what: it fits every kind of ratio (see `fits`)."""

_RATIOS = frozenset({dim.SLOPE.kind, dim.WATER_ADDED.kind, dim.HUMIDITY.kind, dim.MOISTURE.kind, dim.SHARE.kind})


def fits(given: Dimension, wanted: Dimension) -> bool:
    """Whether a value of one dimension may stand where another is wanted: the same, or a percentage for a ratio."""
    return given.same_as(wanted) or (given.same_as(PERCENT) and wanted.kind in _RATIOS)


class Unit(NamedTuple):
    """One unit: a figure n/d in it is (n/d + `zero`) × `times` / `over` in base units.

    `zero` is not 0 only for degrees, which do not count from absolute zero.
    """

    dimension: Dimension
    times: int
    over: int = 1
    zero: Fraction | None = None

    def in_base(self, numerator: int, denominator: int) -> float:
        """The float nearest to the exact value in base units; a division of whole numbers, so rounded once."""
        if self.zero is not None:
            exact = (Fraction(numerator, denominator) + self.zero) * self.times / self.over
            return exact.numerator / exact.denominator
        return numerator * self.times / (denominator * self.over)


_INCH = Fraction("25.4")
_FOOT = 12 * _INCH
_POUND = Fraction("0.45359237")
_POUND_FORCE = _POUND * Fraction("9806.65")
_LITRE = Fraction(10**6)
_WATT = Fraction(10**6)
_HORSEPOWER = 550 * _FOOT * _POUND_FORCE  # the mechanical one, 550 ft·lbf/s, 745.7 W
_BTU = Fraction("1055.05585262")  # the international table's, in joules
_US_GALLON = 231 * _INCH**3
_IMPERIAL_GALLON = Fraction("4.54609") * _LITRE

_TABLE: tuple[tuple[Dimension, Fraction | int, str], ...] = (
    (dim.LENGTH, 1, "mm"),
    (dim.LENGTH, 10, "cm"),
    (dim.LENGTH, 1000, "m"),
    (dim.LENGTH, _INCH, 'in|inch|inches|"'),
    (dim.LENGTH, _FOOT, "ft|foot|feet|'"),
    (dim.AREA, 1, "mm2"),
    (dim.AREA, 100, "cm2"),
    (dim.AREA, 10**6, "m2"),
    (dim.AREA, _INCH**2, "in2|sq in"),
    (dim.AREA, _FOOT**2, "ft2|sq ft"),
    (dim.VOLUME, 1, "mm3"),
    (dim.VOLUME, 1000, "cm3|ml|mL"),
    (dim.VOLUME, _LITRE, "L|l|litre|litres|liter|liters"),
    (dim.VOLUME, 10**9, "m3"),
    (dim.VOLUME, _FOOT**3, "ft3|cu ft"),
    (dim.VOLUME, _US_GALLON, "US gal"),
    (dim.VOLUME, _IMPERIAL_GALLON, "imp gal"),
    (dim.MASS, 1, "kg"),
    (dim.MASS, Fraction(1, 1000), "g"),
    (dim.MASS, _POUND, "lb|lbs"),
    (dim.MASS, _POUND / 16, "oz"),
    (dim.DURATION, 1, "s"),
    (dim.DURATION, 60, "min|minute|minutes"),
    (dim.DURATION, 3600, "h|hour|hours"),
    (dim.DURATION, int(dim.DAY), "day|days"),
    (dim.DURATION, 604800, "week|weeks"),
    (dim.CURRENT, 1, "A"),
    (dim.CURRENT, Fraction(1, 1000), "mA"),
    (dim.POWER, _WATT, "W"),
    (dim.POWER, 1000 * _WATT, "kW"),
    (dim.POWER, _HORSEPOWER, "hp"),
    (dim.POWER, _BTU * _WATT / 3600, "Btu/h|BTU/h"),
    (dim.VOLTAGE, 10**6, "V"),
    (dim.VOLTAGE, 10**9, "kV"),
    (dim.FORCE, 1000, "N"),
    (dim.FORCE, 10**6, "kN"),
    (dim.FORCE, _POUND_FORCE, "lbf"),
    (dim.PRESSURE, Fraction(1, 1000), "Pa"),
    (dim.PRESSURE, 1, "kPa"),
    (dim.PRESSURE, Fraction(1, 10), "mbar"),
    (dim.PRESSURE, 100, "bar"),
    (dim.PRESSURE, 1000, "N/mm2"),
    (dim.PRESSURE, _POUND_FORCE / _INCH**2, "psi"),
    (dim.FLOW, Fraction(10**9, 3600), "m3/h"),
    (dim.FLOW, 10**9, "m3/s"),
    (dim.FLOW, _LITRE, "L/s|l/s"),
    (dim.FLOW, _LITRE / 60, "L/min|l/min"),
    (dim.FLOW, _FOOT**3 / 60, "cfm|ft3/min"),
    (dim.LINE_LOAD, Fraction(1, 1000), "kg/m"),
    (dim.LINE_LOAD, _POUND / _INCH, "lb/in"),
    (dim.LINE_LOAD, _POUND / _FOOT, "lb/ft"),
    (dim.AREA_LOAD, Fraction(1, 10**6), "kg/m2"),
    (dim.AREA_LOAD, _POUND / _FOOT**2, "lb/ft2"),
    (dim.DENSITY, Fraction(1, 10**9), "kg/m3"),
    (dim.DENSITY, _POUND / _FOOT**3, "lb/ft3"),
    (dim.ACCELERATION, 1000, "m/s2"),
    (dim.TEMPERATURE_DIFFERENCE, 1, "K"),
    (dim.SLOPE, Fraction(1, 1000), "mm/m"),
    (dim.SLOPE, Fraction(1, 100), "cm/m"),
    (dim.SLOPE, Fraction(1, 12), "in/ft"),
    (dim.ANGLE, 1, "deg|degree|degrees|°"),
    (PERCENT, Fraction(1, 100), "%"),
)


def _units() -> dict[str, Unit]:
    found: dict[str, Unit] = {}
    for dimension, multiple, symbols in _TABLE:
        exact = Fraction(multiple)
        for symbol in symbols.split("|"):
            found[symbol] = Unit(dimension, exact.numerator, exact.denominator)
    for symbol in ("C", "°C"):
        found[symbol] = Unit(dim.TEMPERATURE, 1, 1, Fraction("273.15"))
    for symbol in ("F", "°F"):
        found[symbol] = Unit(dim.TEMPERATURE, 5, 9, Fraction("459.67"))
    return found


UNITS = _units()

_WRITTEN: dict[str, tuple[str, str]] = {
    dim.LENGTH.name: ("mm, m, in, ft", "`600 mm` or `34-1/2 in`"),
    dim.AREA.name: ("mm2, m2, AWG, ft2", "`2.5 mm2` or `12 AWG`"),
    dim.VOLUME.name: ("L, m3, US gal, imp gal", "`45 L`"),
    dim.MASS.name: ("kg, g, lb, oz", "`38 kg`"),
    dim.DURATION.name: ("min, h, days, weeks", "`4 h` or `2 days`"),
    dim.CURRENT.name: ("A, mA", "`32 A`"),
    dim.POWER.name: ("W, kW, hp, Btu/h", "`7.9 kW`"),
    dim.VOLTAGE.name: ("V, kV", "`230 V`"),
    dim.FORCE.name: ("N, kN, lbf", "`750 N`"),
    dim.PRESSURE.name: ("Pa, kPa, mbar, bar, psi", "`3 bar`"),
    dim.FLOW.name: ("m3/h, L/s, L/min, cfm", "`450 m3/h`"),
    dim.LINE_LOAD.name: ("kg/m, lb/in, lb/ft", "`38 kg/m`"),
    dim.AREA_LOAD.name: ("kg/m2, lb/ft2", "`50 kg/m2`"),
    dim.DENSITY.name: ("kg/m3, lb/ft3", "`650 kg/m3`"),
    dim.ACCELERATION.name: ("m/s2", "`9.8 m/s2`"),
    dim.TEMPERATURE_DIFFERENCE.name: ("K", "`5 K`"),
    dim.MONEY.name: ("no unit", "`1450`"),
    dim.NUMBER.name: ("no unit", "`3`"),
    dim.SLOPE.name: ("mm/m, in/ft, %, 1:40", "`18 mm/m` or `1:40`"),
    dim.WATER_ADDED.name: ("%, % of mix, 3 to 1, neat", "`30 % water`, `25 % of mix`, `3 to 1` or `neat`"),
    dim.HUMIDITY.name: ("%", "`71 %`"),
    dim.MOISTURE.name: ("%", "`71 %`"),
    dim.SHARE.name: ("%", "`10 %`"),
    dim.ANGLE.name: ("deg", "`135 deg`"),
    PERCENT.name: ("%", "`30 %`"),
    dim.DATE.name: ("year-month-day", "`2026-06-01`"),
    dim.TEMPERATURE.name: ("C, F", "`18 C`"),
}

EXPLAINED: dict[str, str] = {
    "gal": "a gallon is not the same everywhere: write `US gal` or `imp gal`",
    "AWG": "a wire gauge stands alone and is a whole number: `12 AWG`, `2/0 AWG`",
} | dict.fromkeys(
    ("month", "months", "year", "years"), "months and years are of different lengths: write days or weeks"
)
"""Units that people write and that cannot be read, with the reason."""

MEANT: dict[str, str] = {
    spelling: symbol
    for symbol, spellings in {
        "mm": "millimetre millimetres millimeter millimeters mil mils",
        "cm": "centimetre centimetres centimeter centimeters",
        "m": "metre metres meter meters mtr",
        "in": "ins in.",
        "ft": "ft.",
        "mm2": "sqmm mm^2 sq.mm",
        "m2": "sqm m^2 sq.m",
        "kg": "kilo kilos kgs",
        "lb": "pound pounds",
        "h": "hr hrs",
        "min": "mins",
        "days": "d",
        "A": "amp amps ampere amperes",
        "W": "watt watts",
        "kW": "kilowatt kilowatts",
        "V": "volt volts",
        "%": "percent pct",
        "C": "celsius",
    }.items()
    for spelling in spellings.split()
}
"""The symbols behind spellings that are not read."""


def called(dimension: Dimension) -> str:
    """The dimension with its article: `a length`, `an area`."""
    return ("an " if dimension.name[0] in "aeio" else "a ") + dimension.name


def units_of(dimension: Dimension) -> str:
    """The usual units in which the dimension is written: `mm, m, in, ft`."""
    return _WRITTEN[dimension.name][0]


def wanted(dimension: Dimension) -> str:
    """What could stand where the dimension is wanted: «a length, such as `600 mm`»."""
    return f"{called(dimension)}, such as {_WRITTEN[dimension.name][1]}"


def conductor_area(gauge: int) -> float:
    """The area in mm² of a solid wire of an American wire gauge; 0, −1, −2 and −3 stand for 1/0 to 4/0.

    ASTM B258, clause on the formula of nominal diameters: 0.005 in at gauge 36, times the 39th root of 92 a gauge.
    """
    diameter = 0.127 * math.pow(92, (36 - gauge) / 39)
    return math.pi / 4 * diameter * diameter


def screw_diameter(gauge: int) -> float:
    """The diameter in mm of a wood screw of a number: 0.060 in, and 0.013 in more for each number.

    ASME B18.6.1; numbers 8 and 10 (0.164 and 0.190 in) as handbooks print them.
    """
    return 25.4 * (0.060 + 0.013 * gauge)
