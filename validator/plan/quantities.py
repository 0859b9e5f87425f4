"""Reading quantities as the trade writes them: `600`, `34-1/2 in`, `5'-6"`, `10 to 25`, `38 ft assumed`, `to find out`.

Figures are kept as whole numbers over whole numbers until one division gives the float in base units. Nothing is
guessed: what could be read in two ways is refused, and the message says how to write it.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Sequence
from datetime import date
from typing import NamedTuple, NoReturn

from validator.plan import dimensions as dim
from validator.plan.dimensions import DAY, Dimension
from validator.plan.units import (
    EXPLAINED,
    MEANT,
    UNITS,
    called,
    conductor_area,
    fits,
    units_of,
    wanted,
)
from validator.plan.values import NothingStated, Quantity, ToFind

LONGEST_FIGURE = 40
LONGEST_TEXT = 100
MOST_READINGS = 200
LONG_READING, MOST_APART = 1000.0, 10
"""Readings of one length do not differ tenfold where one of them is a metre: `3,610` is a 3 and a 610."""
LONGEST_LENGTH = 10_000_000.0
"""In mm: ten kilometres. More is a slip, and a room so long would be drawn in cells without end."""


class BadQuantity(ValueError):
    """A text that is no quantity: what is wrong, what could stand there, and the unit that was probably meant."""

    def __init__(self, message: str, expected: str = "", nearest: str = "") -> None:
        super().__init__(message)
        self.message, self.expected, self.nearest = message, expected, nearest


class _Figure(NamedTuple):
    """A figure as written: numerator over denominator of a unit (None where no unit is written)."""

    numerator: int
    denominator: int
    unit: str | None
    text: str


_NUMBER = r"([0-9]+)(?:\.([0-9]+)|(?:[- ]([0-9]+))?/([0-9]+))?"
_FIGURE = re.compile(_NUMBER + r"(?: ?([A-Za-z%°\"'].*))?")
# What few plans need is compiled by `re` when it is first met.
_FEET_AND_INCHES = r"([0-9]+) ?(?:'|ft|foot|feet)(?: ?- ?| )?" + _NUMBER + ' ?(?:"|in|inch|inches)'
_WIRE = re.compile(r"(?:([0-9]{1,2})|([1-4])/0) ?AWG")
_DAY = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
_FALL = _NUMBER + r"(?: ?: ?| in )" + _NUMBER  # `1:40`, `1 in 40`
_PAINT_TO_WATER = _NUMBER + r"(?: ?: ?| to )" + _NUMBER
_SAID_RATIO = _NUMBER + r" (?:parts? )?(?:of )?(paint|water) to " + _NUMBER + r" (?:parts? )?(?:of )?(paint|water)"
_TO_FIND = re.compile(r"to[ _-]find[ _-]out(?: by (.+))?", re.IGNORECASE)
_EXTREMES = {"low": 1, "high": -1}

_BESIDE_ASCII = r"(?<=[A-Za-z])([²³])|(?<=[0-9])[ -]?([¼½¾⅓⅔⅛⅜⅝⅞])|([¼½¾⅓⅔⅛⅜⅝⅞])"
_VULGAR = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip
_TYPOGRAPHIC = str.maketrans("′’‘″”“×−–—⁄º", "'''\"\"\"x---/°")


def plain(text: str) -> str:
    """The text with typographic signs as a keyboard has them (′ ″ × ½ ² − become ' " x 1/2 2 -) and single spaces.

    A superscript counts only behind a letter, so that 6² is not taken for 62.
    """
    if not text.isascii():
        text = re.sub(_BESIDE_ASCII, _as_typed, text).translate(_TYPOGRAPHIC)
    return " ".join(text.split())


def _as_typed(match: re.Match[str]) -> str:
    power, joined, alone = match.groups()
    if power:
        return "2" if power == "²" else "3"
    return "-" + _VULGAR[joined] if joined else _VULGAR[alone]


def parse_quantity(
    text: str, dimension: Dimension, lengths_in: str | None, *, level: bool = False
) -> Quantity | ToFind | NothingStated:
    """What a text says where a quantity of the dimension is wanted, in base units.

    A number without a unit is a length in `lengths_in` (mm, cm, m, in or ft). `level` is for spots of a floor, which
    lie `9 low` or `4 high` (negative). `none` gives NothingStated; whether that may stand is up to the field.
    Raises BadQuantity.
    """
    written = text.strip()
    typed = plain(text)
    lowered = typed.lower()
    if lowered[:1] in ("t", "n"):
        if lowered == "none":
            return NothingStated(written)
        found = read_to_find(typed)
        if found is not None:
            return found
    typed, assumed = without_assumed(typed)
    if len(typed) > LONGEST_TEXT:
        raise BadQuantity(f"a quantity takes at most {LONGEST_FIGURE} characters", wanted(dimension))
    if dimension is dim.WATER_ADDED:
        low, high = _water_added(typed)
    elif level:
        low, high = _level(typed, lengths_in)
    else:
        if dimension is dim.LENGTH:
            typed = typed.removesuffix(" deep")
        low, high = _between(typed, dimension, lengths_in)
    if dimension is dim.LENGTH and high > LONGEST_LENGTH:
        raise BadQuantity(f"`{said(typed)}` is longer than any house", wanted(dimension))
    return Quantity(low, high, dimension, written, assumed)


def parse_readings(
    texts: Sequence[str], dimension: Dimension, lengths_in: str | None, *, level: bool = False
) -> Quantity:
    """Several readings of one thing: low and high are the least and the greatest. Raises BadQuantity."""
    if not texts:
        raise BadQuantity("the list of readings is empty", wanted(dimension))
    if len(texts) > MOST_READINGS:
        raise BadQuantity(f"a list takes at most {MOST_READINGS} readings", wanted(dimension))
    readings: list[float] = []
    assumed = False
    for text in texts:
        reading = parse_quantity(text, dimension, lengths_in, level=level)
        if not isinstance(reading, Quantity) or not reading.exact:
            raise BadQuantity(
                f"`{said(text)}` is not one reading: a list holds one figure a reading", wanted(dimension)
            )
        readings.append(reading.low)
        assumed = assumed or reading.assumed
    low, high = min(readings), max(readings)
    if dimension is dim.LENGTH and not level and high >= LONG_READING and high >= MOST_APART * low:
        least, greatest = (texts[readings.index(end)].strip() for end in (low, high))
        raise BadQuantity(
            f"`{said(least)}` and `{said(greatest)}` are no readings of one length",
            "readings of the same length; a comma parts two of them, so a thousand is written without one: `3610`",
        )
    written = ", ".join(text.strip() for text in texts)
    return Quantity(low, high, dimension, written, assumed, tuple(readings))


def parse_any(text: str, lengths_in: str | None = None) -> Quantity | ToFind:
    """A quantity whose unit tells its dimension: `940 mm`, `10 A`, `2026-06-01`; `30 %` is of dimension PERCENT.

    A number without a unit is a length in `lengths_in`. Raises BadQuantity.
    """
    written = text.strip()
    typed = plain(text)
    found = read_to_find(typed)
    if found is not None:
        return found
    typed, assumed = without_assumed(typed)
    if len(typed) > LONGEST_TEXT:
        raise BadQuantity(f"a quantity takes at most {LONGEST_FIGURE} characters", "a number and its unit")
    if _DAY.fullmatch(typed):
        dimension = dim.DATE
    elif _WIRE.fullmatch(typed):
        dimension = dim.AREA
    else:
        last = _read(typed.rpartition(" to ")[2], None)
        dimension = dim.LENGTH if last.unit is None else UNITS[last.unit].dimension
    low, high = _between(typed, dimension, lengths_in)
    return Quantity(low, high, dimension, written, assumed)


@functools.cache
def literal_pattern() -> re.Pattern[str]:
    """Finds a quantity in an expression: `650 mm`, `1-1/2 in`, `1.5 mm/m`, `30 %`, `5 days`, `12 AWG`, `2026-06-01`.

    Inch and foot marks are left out, since quotes belong to words there. It has no groups. Texts in quotes have to be
    set aside before it is used.
    """
    symbols = sorted((symbol for symbol in UNITS if symbol not in ("'", '"')), key=len, reverse=True)
    units = "|".join(re.escape(symbol) for symbol in symbols)
    inches = _NUMBER.replace("([", "(?:[")
    number = inches.replace("(?:[0-9]+)", "[0-9]+")
    return re.compile(
        r"(?<![A-Za-z0-9_.])(?:[0-9]{4}-[0-9]{2}-[0-9]{2}|[1-4]/0 ?AWG|[0-9]{1,2} ?AWG"
        rf"|[0-9]+ ?(?:ft|feet|foot) {number} ?(?:in|inches|inch)|{number} ?(?:{units}))(?![A-Za-z0-9_])"
    )


def parse_literal(text: str) -> tuple[float, Dimension]:
    """The value in base units and the dimension of a quantity in a rule. Raises BadQuantity.

    A percentage is of dimension `units.PERCENT`, which `units.fits` lets stand for every kind of ratio.
    """
    found = parse_any(text)
    if isinstance(found, ToFind) or found.assumed or not found.exact:
        raise BadQuantity(f"`{said(text)}` is not one figure", "a number and its unit")
    return found.low, found.dimension


def read_to_find(typed: str) -> ToFind | None:
    """`to find out` and `to find out by electrician`, or None where the text says something else."""
    if typed[:2].lower() != "to":
        return None
    match = _TO_FIND.fullmatch(typed)
    if match is None:
        return None
    by = match[1]
    if by is not None and (len(by) > LONGEST_FIGURE or not by.isprintable()):
        raise BadQuantity(
            f"say shortly who can find it out (at most {LONGEST_FIGURE} characters)", "`to find out by NAME`"
        )
    return ToFind(by, typed)


def parse_to_find(text: str) -> ToFind:
    """`to find out` or `to find out by electrician`. Raises BadQuantity where the text says something else."""
    found = read_to_find(plain(text))
    if found is None:
        raise BadQuantity(f"`{said(text)}` is not read", "`to find out`, or `to find out by NAME`")
    return found


def without_assumed(typed: str) -> tuple[str, bool]:
    """The text without `assumed` at its end, and whether it had it."""
    if typed[-8:].lower() == " assumed":
        return typed[:-8], True
    return typed, False


def said(text: str) -> str:
    """The text as a message may repeat it: short, and without signs that a terminal obeys."""
    clean = "".join(sign if sign.isprintable() else "·" for sign in " ".join(text.split()))
    return clean if len(clean) <= LONGEST_FIGURE else clean[: LONGEST_FIGURE - 1] + "…"


def _between(typed: str, dimension: Dimension, lengths_in: str | None) -> tuple[float, float]:
    """The ends of a range, or one figure twice. A unit at the end of a range counts for both its ends."""
    if " to " not in typed:
        value = _one(typed, dimension, lengths_in)
        return value, value
    first, _, second = typed.partition(" to ")
    if dimension.same_as(dim.DATE):
        low, high = _day(first), _day(second)
    else:
        start, end = _read(first, dimension), _read(second, dimension)
        if start.unit is None and end.unit is not None:
            if re.fullmatch(_FEET_AND_INCHES, second):
                raise BadQuantity(f"`{said(typed)}`: say the unit of {first} as well", wanted(dimension))
            start = start._replace(unit=end.unit)
        elif start.unit is not None and end.unit is None:
            raise BadQuantity(
                f"`{said(typed)}`: the unit stands at the end, for both, or behind each figure",
                wanted(dimension),
            )
        low, high = _in_base(start, dimension, lengths_in), _in_base(end, dimension, lengths_in)
    if low > high:
        raise BadQuantity(f"`{said(typed)}`: a range goes from the smaller to the greater", f"`{second} to {first}`")
    return low, high


def _one(typed: str, dimension: Dimension, lengths_in: str | None) -> float:
    if dimension is dim.DATE:
        return _day(typed)
    if dimension is dim.AREA:
        wire = _WIRE.fullmatch(typed)
        if wire:
            return conductor_area(int(wire[1]) if wire[1] else 1 - int(wire[2]))
    if dimension is dim.SLOPE:
        fall = re.fullmatch(_FALL, typed)
        if fall:
            return _ratio(fall, typed, dimension)
    if dimension is dim.TEMPERATURE and typed[:1] == "-":
        below = _read(typed[1:], dimension)
        return _in_base(below._replace(numerator=-below.numerator, text=typed), dimension, lengths_in)
    return _in_base(_read(typed, dimension), dimension, lengths_in)


def _read(typed: str, dimension: Dimension | None) -> _Figure:
    """The figure in a text, its unit not yet looked at (feet with inches come out in inches)."""
    match = _FIGURE.fullmatch(typed)
    if match is None or len(typed) > LONGEST_FIGURE:
        _refuse(typed, dimension)
    whole, decimals, part, of, unit = match.groups()
    if unit is not None and unit not in UNITS:
        joined = re.fullmatch(_FEET_AND_INCHES, typed)
        if joined:
            numerator, denominator = _exact(joined.groups()[1:], typed)
            if numerator >= 12 * denominator:
                raise BadQuantity(f"`{said(typed)}`: inches after feet stay under 12", "`5'-6\"` or `5 ft 6 in`")
            return _Figure(int(joined[1]) * 12 * denominator + numerator, denominator, "in", typed)
        _refuse_unit(typed, unit, dimension)
    return _Figure(*_exact((whole, decimals, part, of), typed), unit, typed)


def _exact(groups: Sequence[str | None], typed: str) -> tuple[int, int]:
    """The four groups of a number (whole, decimals, part, of) as numerator and denominator."""
    whole, decimals, part, of = groups
    assert whole is not None
    if decimals is not None:
        return int(whole + decimals), 10 ** len(decimals)
    if of is None:
        return int(whole), 1
    top, bottom = int(whole if part is None else part), int(of)
    if top >= bottom:
        raise BadQuantity(f"`{said(typed)}`: a fraction stays under one", "a fraction such as `3/4`, or `1-1/4`")
    return (top if part is None else int(whole) * bottom + top), bottom


def _in_base(figure: _Figure, dimension: Dimension, lengths_in: str | None) -> float:
    if figure.unit is None:
        return _without_unit(figure, dimension, lengths_in)
    unit = UNITS[figure.unit]
    if unit.dimension is not dimension and not fits(unit.dimension, dimension):
        raise BadQuantity(
            f"{said(figure.text)} is {called(unit.dimension)}; {called(dimension)} is expected ({units_of(dimension)})",
            wanted(dimension),
        )
    value = unit.in_base(figure.numerator, figure.denominator)
    if value < 0:
        raise BadQuantity(f"{said(figure.text)} is colder than anything can be", wanted(dimension))
    if value > 1 and (dimension is dim.HUMIDITY or dimension is dim.SHARE):
        raise BadQuantity(f"{said(figure.text)}: {called(dimension)} is at most 100 %", wanted(dimension))
    return value


def _without_unit(figure: _Figure, dimension: Dimension, lengths_in: str | None) -> float:
    if dimension is dim.LENGTH:
        if lengths_in is None:
            raise BadQuantity(
                f"{figure.text} has no unit: say the unit, or write `lengths in: mm` under project", wanted(dimension)
            )
        return UNITS[lengths_in].in_base(figure.numerator, figure.denominator)
    if dimension is dim.NUMBER or dimension is dim.MONEY:
        return figure.numerator / figure.denominator
    raise BadQuantity(
        f"{figure.text} has no unit; {called(dimension)} is expected ({units_of(dimension)})", wanted(dimension)
    )


def _day(typed: str) -> float:
    match = _DAY.fullmatch(typed)
    if match is None:
        raise BadQuantity(f"`{said(typed)}` is not a date: write year-month-day", wanted(dim.DATE))
    try:
        return float(date(int(match[1]), int(match[2]), int(match[3])).toordinal() * DAY)
    except ValueError:
        raise BadQuantity(f"{typed} is not in the calendar", wanted(dim.DATE)) from None


def _ratio(match: re.Match[str], typed: str, dimension: Dimension) -> float:
    """First to second (`1:40`): the first part over the second."""
    (a, b), (c, d) = _exact(match.groups()[:4], typed), _exact(match.groups()[4:], typed)
    if c == 0:
        raise BadQuantity(f"`{said(typed)}`: the second part is 0", wanted(dimension))
    return a * d / (b * c)


def _water_added(typed: str) -> tuple[float, float]:
    """Water over paint, in any of the ways in which thinning is said."""
    lowered = typed.lower()
    if lowered in ("neat", "undiluted"):
        return 0.0, 0.0
    ratio = re.fullmatch(_PAINT_TO_WATER, typed)
    if ratio:
        paint_over_water = _ratio(ratio, typed, dim.WATER_ADDED)
        if paint_over_water < 1:
            raise BadQuantity(
                f"`{said(typed)}` can be read in two ways: write which is the water",
                "`1 water to 4 paint`, or `10 % to 25 %`",
            )
        return 1 / paint_over_water, 1 / paint_over_water
    spoken = re.fullmatch(_SAID_RATIO, lowered)
    if spoken:
        *number, first = spoken.groups()[:5]
        *other, second = spoken.groups()[5:]
        if first == second:
            raise BadQuantity(f"`{said(typed)}`: one part is water and the other paint", wanted(dim.WATER_ADDED))
        (a, b), (c, d) = _exact(number, typed), _exact(other, typed)
        water, paint = (a * d, c * b) if first == "water" else (c * b, a * d)
        if paint == 0:
            raise BadQuantity(f"`{said(typed)}` has no paint in it", wanted(dim.WATER_ADDED))
        return water / paint, water / paint
    if lowered.endswith(" of mix"):
        low, high = _between(typed[:-7], dim.WATER_ADDED, None)
        if high >= 1:
            raise BadQuantity(f"`{said(typed)}` has no paint in it", wanted(dim.WATER_ADDED))
        return low / (1 - low), high / (1 - high)
    return _between(typed[:-6] if lowered.endswith(" water") else typed, dim.WATER_ADDED, None)


def _level(typed: str, lengths_in: str | None) -> tuple[float, float]:
    """How far a spot lies below the high spot of the floor; one that lies higher is negative."""
    figures, _, word = typed.rpartition(" ")
    sign = _EXTREMES.get(word.lower())
    low, high = _between(figures if sign else typed, dim.LENGTH, lengths_in)
    if sign is None and (low, high) != (0.0, 0.0):
        raise BadQuantity(f"`{said(typed)}`: say whether the spot is low or high", f"`{said(typed)} low`")
    return (low, high) if sign != -1 else (0.0 - high, 0.0 - low)


def _refuse_unit(typed: str, unit: str, dimension: Dimension | None) -> NoReturn:
    """Say what is wrong with a unit nobody knows, and which one was probably meant."""
    expected = wanted(dimension) if dimension else "a number and its unit"
    if unit in EXPLAINED:
        raise BadQuantity(f"`{said(typed)}`: {EXPLAINED[unit]}", expected)
    if re.fullmatch(r"[eE][-+]?[0-9]+.*", unit):
        raise BadQuantity(f"`{said(typed)}`: write the number out, without a power of ten", expected)
    words = unit.rsplit(" ", 1)
    if words[-1].lower() in _EXTREMES:
        raise BadQuantity(f"`{said(typed)}`: only levels of a floor are low or high", expected)
    if re.match(r"(?:'|ft) ?-? ?[0-9]", unit):
        raise BadQuantity(f"`{said(typed)}` is not feet and inches", "`5'-6\"` or `5 ft 6 in`")
    known = [symbol for symbol in UNITS if dimension is None or fits(UNITS[symbol].dimension, dimension)]
    by_letters = {symbol.lower(): symbol for symbol in (*UNITS, *known)}
    meant = by_letters.get(unit.lower())
    if meant:
        raise BadQuantity(
            f"`{said(typed)}`: capital and small letters differ in units: {meant}, not {said(unit)}", expected, meant
        )
    import difflib

    close = difflib.get_close_matches(unit, known, n=1, cutoff=0.6)
    nearest = MEANT.get(unit.lower()) or (close[0] if close else "")
    raise BadQuantity(f"`{said(typed)}`: {said(unit)} is not a unit that is read here", expected, nearest)


_UNKNOWN = frozenset({"?", "unknown", "not known", "tbc", "tbd", "n/a", "na", "tba", "-"})

_SLIPS: tuple[tuple[str, str], ...] = (
    (r"[£$€¥].*", "write the number alone; the currency stands under project"),
    (r"(?i)[-+]?(?:nan|inf|infinity)\b.*", "that is no number"),
    (r".*[0-9],[0-9].*", "write thousands without a comma (1000) and decimals with a point (12.5)"),
    (r".*[0-9] [0-9]{3}(?![0-9/]).*", "write the number without a space (1000)"),
    (r"[0-9.]+[eE].*", "write the number out, without a power of ten"),
    (r"\.[0-9]+.*", "write a 0 before the point (0.5)"),
    (r"[0-9]+\.(?![0-9]).*", "write a figure behind the point, or leave the point out"),
    (r"[0-9./]+ ?(?:-|\.\.+) ?[0-9./]+(?: ?[A-Za-z%].*)?", "write a range with `to` (10 to 25)"),
    (r"(?i)(?:about|approx|circa|ca|say)\b.*|~.*", "write `assumed` behind a figure not measured"),
    (r"[<>≤≥=].*", "write one figure; limits are for rules"),
    (r"[A-Za-z]+ ?[0-9].*", "the number comes first, then the unit"),
)


def _refuse(typed: str, dimension: Dimension | None) -> NoReturn:
    """Say what keeps a text from being a figure, in the order in which people slip."""
    expected = wanted(dimension) if dimension else "a number and its unit"
    if not typed:
        raise BadQuantity("nothing is written here", expected)
    if len(typed) > LONGEST_FIGURE:
        raise BadQuantity(f"a quantity takes at most {LONGEST_FIGURE} characters", expected)
    if typed.lower() in _UNKNOWN:
        raise BadQuantity(f"`{said(typed)}`: write `to find out` where nobody knows yet", expected, "to find out")
    if any(sign.isdigit() and not sign.isascii() for sign in typed):
        raise BadQuantity(f"`{said(typed)}`: write the figures 0 to 9", expected)
    for slip, advice in _SLIPS:
        if re.fullmatch(slip, typed):
            raise BadQuantity(f"`{said(typed)}`: {advice}", expected)
    if typed[0] in "-+" and typed[1:2].isdigit():
        thing = called(dimension) if dimension else "a quantity"
        raise BadQuantity(f"`{said(typed)}`: {thing} has no sign; a spot of a floor is `9 low` or `4 high`", expected)
    raise BadQuantity(f"`{said(typed)}` is not {called(dimension) if dimension else 'a quantity'}", expected)
