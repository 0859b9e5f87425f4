"""Regular expressions for what a plan may say in one text: quantities, words that compare as names do, whole lines.

They keep to what Python and ECMA-262 read alike, and are written from the same tables of units and words as the
readers' own.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Iterable

from validator.plan import dimensions as dim
from validator.plan.american import WORDS
from validator.plan.dimensions import Dimension
from validator.plan.lines import GOES_ON, NUMBERED
from validator.plan.names import fold
from validator.plan.order import WORDS_OF_A_LINE
from validator.plan.units import UNITS, fits

_SPECIAL = re.compile(r"[\\^$.*+?()\[\]{}|/]")
_GAP = r"[\s_-]+"
_DASH = "[-−–—]"
_VULGAR = "[¼½¾⅓⅔⅛⅜⅝⅞]"
_SIGNS = {"'": "['′’‘]", '"': '["″”“]', "2": "[2²]", "3": "[3³]", "°": "[°º]", "/": "[/⁄]", " ": r"\s+"}
"""What a unit's signs may look like where a text was set by a printer."""

_TAIL_OF_NUMBER = rf"\.[0-9]+|(?:(?:{_DASH}|\s+)[0-9]+)?[/⁄][0-9]+|(?:{_DASH}|\s)?{_VULGAR}"
_NUMBER = rf"(?:[0-9]+(?:{_TAIL_OF_NUMBER})?|{_VULGAR})"
_INCHES = rf"(?:(?:[0-9]|1[01])(?:{_TAIL_OF_NUMBER})?|[0-9]+[/⁄][0-9]+|{_VULGAR})"
_YEAR = r"(?!0000)[0-9]{4}"
_DAY = (
    rf"{_YEAR}{_DASH}(?:(?:0[13578]|1[02]){_DASH}(?:0[1-9]|[12][0-9]|3[01])"
    rf"|(?:0[469]|11){_DASH}(?:0[1-9]|[12][0-9]|30)|02{_DASH}(?:0[1-9]|[12][0-9]))"
)
NAME = r"\S(?:.*\S)?"
_TO = r"\s+to\s+"
STARTS_A_FIGURE = rf"(?:[~-]+\S*[0-9]|[0-9]|{_VULGAR})\S*"


def whole(*alternatives: str) -> str:
    """The pattern of a text that is one of these and nothing else."""
    return rf"^\s*(?:{'|'.join(alternatives)})\s*$"


def exactly(text: str) -> str:
    return _SPECIAL.sub(r"\\\g<0>", text)


def in_any_case(text: str) -> str:
    return "".join(
        f"[{letter.upper()}{letter.lower()}]" if letter.upper() != letter.lower() else exactly(letter)
        for letter in text
    )


def as_names(*texts: str, american: bool = True) -> str:
    """Texts that compare as names do, American words for them included."""
    folded = list(dict.fromkeys(map(fold, texts)))
    if american:
        folded += [theirs for theirs, ours in WORDS.items() if ours in folded]
    found = [_GAP.join(map(in_any_case, text.split())) for text in folded]
    return found[0] if len(found) == 1 else f"(?:{'|'.join(found)})"


def key(name: str, others: Iterable[str] = ()) -> str:
    """A key in every spelling, other names for it included."""
    return rf"^[\s_-]*(?:{as_names(name, *others, american=False)})[\s_-]*$"


TO_FIND_OUT = rf"{as_names('to find out')}(?:\s+{in_any_case('by')}\s+\S.{{0,39}})?"
LEFT_OPEN = rf"(?:to|To|TO){_GAP}{as_names('find out')}.*"
"""`to find out` where nothing of it is kept, so that nothing behind it is looked at."""

ASSUMED = rf"(?:\s+{in_any_case('assumed')})?"
NONE = in_any_case("none")


@functools.cache
def reading(dimension: Dimension, *, level: bool = False) -> str:
    """One figure of the dimension, as it may stand among readings."""
    return _behind(f"(?:{'|'.join([*_bare(dimension), *_united(dimension)])})", dimension, level=level)


@functools.cache
def quantity(dimension: Dimension, *, none: bool = False, level: bool = False) -> str:
    """What may stand where a quantity of the dimension is wanted; `none` and `level` as its field has them."""
    if dimension is dim.WATER_ADDED:
        amounts = _united(dimension)
    elif level:
        amounts = [f"(?:{one}{_TO})?{one}" for one in (f"(?:{'|'.join(_united(dimension))})", *_bare(dimension))]
    else:
        unit = _units(dimension)
        first = [rf"(?:{_NUMBER}{_TO})?{_NUMBER}" + rf"(?:\s*{unit})?" * bool(unit)] if _bare(dimension) else []
        united = f"(?:{'|'.join(_united(dimension))})"
        start = f"(?:{_NUMBER}|{united})" if not first and dimension is not dim.DATE else united
        amounts = [*first, *([f"(?:{start}{_TO})?{united}"] if _united(dimension) else [])]
    found = [_behind(f"(?:{'|'.join(amounts)})", dimension, level=level), TO_FIND_OUT]
    return "|".join([*found, NONE] if none else found)


@functools.cache
def any_quantity() -> str:
    """One quantity or range with its unit, whichever it is; a number alone is a length."""
    one = rf"{_NUMBER}(?:\s*(?:{'|'.join(map(_unit, UNITS))}))?"
    wire = _united(dim.AREA)[-1]
    return rf"(?:(?:{one}{_TO})?{one}|{_feet()}|{_DAY}(?:{_TO}{_DAY})?|{wire}){ASSUMED}"


def _bare(dimension: Dimension) -> list[str]:
    return [_NUMBER] if dimension in (dim.LENGTH, dim.NUMBER, dim.MONEY) else []


def _united(dimension: Dimension) -> list[str]:
    """The ways of writing one figure that need no unit besides."""
    if dimension is dim.DATE:
        return [_DAY]
    if dimension is dim.WATER_ADDED:
        return [_water()]
    found = [rf"{_NUMBER}\s*{_units(dimension)}"] if _units(dimension) else []
    if dimension is dim.LENGTH:
        found.append(_feet())
    if dimension is dim.AREA:
        found.append(r"(?:[0-9]{1,2}|[1-4][/⁄]0)\s*AWG")
    if dimension is dim.SLOPE:
        found.append(rf"{_NUMBER}(?:\s*:\s*|\s+in\s+){_NUMBER}")
    return found


def _behind(amount: str, dimension: Dimension, *, level: bool) -> str:
    """An amount with the words that may stand behind it."""
    if level:
        low_or_high = f"(?:{in_any_case('low')}|{in_any_case('high')})"
        return rf"(?:{amount}\s+{low_or_high}|0(?:\s*{_units(dimension)})?){ASSUMED}"
    return amount + r"(?:\s+deep)?" * (dimension is dim.LENGTH) + ASSUMED


def _feet() -> str:
    feet, inches = rf"(?:{_unit(chr(39))}|ft|foot|feet)", rf"(?:{_unit(chr(34))}|in|inch|inches)"
    return rf"[0-9]+\s*{feet}(?:\s*{_DASH}\s*|\s)?{_INCHES}\s*{inches}"


def _water() -> str:
    water, paint, to = in_any_case("water"), in_any_case("paint"), in_any_case("to")
    of_mix = rf"{in_any_case('of')}\s+{in_any_case('mix')}"
    parts = rf"\s+(?:{in_any_case('part')}[sS]?\s+)?(?:{in_any_case('of')}\s+)?"
    spoken = "|".join(
        rf"{_NUMBER}{parts}{first}\s+{to}\s+{_NUMBER}{parts}{second}"
        for first, second in ((water, paint), (paint, water))
    )
    return (
        rf"{in_any_case('neat')}|{in_any_case('undiluted')}|{_NUMBER}(?:\s*:\s*|\s+to\s+){_NUMBER}|{spoken}"
        rf"|(?:{_NUMBER}(?:\s*%)?{_TO})?{_NUMBER}\s*%(?:\s+(?:{water}|{of_mix}))?"
    )


@functools.cache
def _units(dimension: Dimension) -> str:
    found = [_unit(symbol) for symbol, unit in UNITS.items() if fits(unit.dimension, dimension)]
    return f"(?:{'|'.join(found)})" if found else ""


def _unit(symbol: str) -> str:
    return "".join(
        exactly(sign) if sign in "23" and not at else _SIGNS.get(sign, exactly(sign)) for at, sign in enumerate(symbol)
    )


@functools.cache
def size() -> str:
    """`598 w x 820 h x 550 d`, `146 x 86`: every figure with its unit, or none."""
    x = r"\s*[x×X]\s*"
    unit = rf"\s*{_units(dim.LENGTH)}"
    letter = r"\s*(?:[wW](?!.*[wW])|[dD](?!.*[^eE][dD])|[hH](?!.*[^cC][hH]))"
    found = []
    for figure in (
        rf"{_NUMBER}(?:{_TO}{_NUMBER})?",
        rf"(?:(?:{_NUMBER}(?:{unit})?{_TO})?{_NUMBER}{unit}|{_feet()})",
    ):
        found += [f"{figure}{letter}(?:{x}{figure}{letter}){{0,2}}", f"{figure}{x}{figure}"]
    return f"(?:{'|'.join(found)}){ASSUMED}"


@functools.cache
def _goes_on(besides: tuple[str, ...] = (), taken: tuple[str, ...] = ()) -> str:
    """Words that go on a quantity which has begun."""
    found = sorted(GOES_ON.union(besides).difference(taken))
    return "|".join(in_any_case(word) for word in found if " " not in word)


@functools.cache
def words(*, taken: tuple[str, ...] = ()) -> str:
    """Words that do not end like a quantity, which would be read as one; `taken` are words that may not be there."""
    goes_on = _goes_on(("rest",), taken) if taken else _goes_on()
    stop = "|".join(map(in_any_case, taken))
    any_word = rf"(?!(?:{stop})(?:\s|$))\S+" if taken else r"\S+"
    plain = rf"(?!(?:{STARTS_A_FIGURE}|{goes_on})(?:\s|$)){any_word}"
    return rf"(?:(?:{any_word}\s+)*{plain}|{goes_on})(?:\s+(?:{goes_on}))*"


def one_name() -> str:
    """Words without a figure among them, but for one that is part of a name: `type 2 board`."""
    numbered, goes_on = "|".join(map(in_any_case, sorted(NUMBERED))), _goes_on()
    end = rf"(?!(?:{STARTS_A_FIGURE}|{goes_on})(?:\s|$))\S+"
    name = rf"(?:{numbered})\s+{STARTS_A_FIGURE}(?:\s+(?:{goes_on}))*\s+{end}"
    word = rf"(?:{name}|(?!{STARTS_A_FIGURE})\S+)"
    return rf"{word}(?:\s+{word})*"


def kind() -> str:
    """The name of a kind, as it can stand in a line."""
    return rf"(?!{STARTS_A_FIGURE}){words(taken=WORDS_OF_A_LINE)}"


_PLACEHOLDER = re.compile(r"<(=?)([^<>]+)>")


def line(pattern: str, field: Callable[[str], str | None]) -> str:
    """The regular expression of a Written; `field` gives that of each of its fields, and None for other names."""
    found: list[str] = []
    at = 0
    for place in _PLACEHOLDER.finditer(pattern):
        found.append(_between(pattern[at : place.start()]))
        if place[1]:
            found.append(as_names(*place[2].split("|")))
        else:
            known = field(place[2])
            found.append(f"(?:{_any(place[2]) if known is None else known})")
        at = place.end()
    return "".join([*found, _between(pattern[at:])])


def _between(text: str) -> str:
    return re.sub(r"\((?!\?)", "(?:", text).replace(" ", r"\s+")


def _any(what: str) -> str:
    if what in dim.BY_NAME:
        return quantity(dim.BY_NAME[what])
    others: dict[str, Callable[[], str]] = {
        "name": lambda: NAME,
        "words": words,
        "one name": one_name,
        "kind": kind,
        "size": size,
        "x": lambda: r"\s*[x×]\s*",
        "to find out": lambda: TO_FIND_OUT,
    }
    return others[what]()
