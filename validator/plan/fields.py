"""The types of a plan's fields: pydantic reads them from the text a person wrote.

A text that cannot be read raises a PydanticCustomError of type "plan" whose context has `message`, `expected` and
`nearest`. The validation context gives `lengths in`, the unit of numbers that name none (or None).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, ClassVar, Literal, NamedTuple

from pydantic import GetCoreSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from validator.plan import dimensions as dim
from validator.plan.american import WORDS
from validator.plan.dimensions import Dimension
from validator.plan.names import fold, nearest
from validator.plan.quantities import (
    BadQuantity,
    parse_any,
    parse_quantity,
    parse_readings,
    plain,
    read_to_find,
    said,
    without_assumed,
)
from validator.plan.units import wanted
from validator.plan.values import NothingStated, Quantity, ToFind
from validator.plan.written import Written


def _read_by(read: Callable[[object, str | None], object]) -> CoreSchema:
    """The schema of a field whose text `read` turns into its value, given the plan's `lengths in`."""

    def validate(written: object, info: core_schema.ValidationInfo) -> object:
        try:
            return read(written, (info.context or {}).get("lengths in"))
        except BadQuantity as bad:
            context = {"message": bad.message, "expected": bad.expected, "nearest": bad.nearest}
            raise PydanticCustomError("plan", "{message}", context) from None

    return core_schema.with_info_plain_validator_function(validate)


def _text(written: object, expected: str) -> str:
    """What stands in one place as text; numbers are as good as their text, a group of keys or a list is not."""
    if isinstance(written, str):
        return written
    if isinstance(written, int | float) and not isinstance(written, bool):
        return str(written)
    what = (
        "a list"
        if isinstance(written, list | tuple)
        else "a group of keys"
        if isinstance(written, dict)
        else said(str(written))
    )
    raise BadQuantity(f"{what} cannot stand here", expected)


class QuantityOf(NamedTuple):
    """Marks a field that holds a quantity of one dimension, its readings in a list, or `to find out`.

    `none` marks makers' figures, where `none` means read and nothing given; `level` marks spots of a floor (`9 low`);
    `named` marks what may be read at several places, by their names (`{floor: 4522, worktop: 4518}`).
    """

    dimension: Dimension
    none: bool = False
    level: bool = False
    named: bool = False

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        return _read_by(self.read)

    def read(self, written: object, lengths_in: str | None) -> Quantity | ToFind | NothingStated:
        """The value of what is written. Raises BadQuantity."""
        if isinstance(written, Quantity | ToFind | NothingStated):
            return written
        if self.named and isinstance(written, dict) and written:
            written = list(written.values())
        if isinstance(written, list):
            texts = [_text(reading, wanted(self.dimension)) for reading in written]
            return parse_readings(texts, self.dimension, lengths_in, level=self.level)
        text = _text(written, wanted(self.dimension))
        found = parse_quantity(text, self.dimension, lengths_in, level=self.level)
        if isinstance(found, NothingStated) and not self.none:
            raise BadQuantity("`none` cannot stand here", wanted(self.dimension))
        return found


class OfAnyDimension:
    """Marks a field that holds one quantity whose unit tells its dimension; a number alone is a length."""

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        return _read_by(self.read)

    def read(self, written: object, lengths_in: str | None) -> Quantity:
        if isinstance(written, Quantity):
            return written
        found = parse_any(_text(written, _ANY), lengths_in)
        if isinstance(found, ToFind):
            raise BadQuantity(f"`{found.text}`: a figure has to stand here", _ANY)
        return found


_ANY = "a number and its unit, such as `250 mm`"


class TermOf:
    """Marks a field that holds a word of the trade or `to find out`."""

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        return _read_by(self.read)

    def read(self, written: object, lengths_in: str | None) -> str | ToFind:
        if isinstance(written, ToFind):
            return written
        text = " ".join(_text(written, _A_TERM).split())
        if not text:
            raise BadQuantity("nothing is written here", _A_TERM)
        return read_to_find(text) or text


_A_TERM = "a word of the trade, or `to find out`"

Length = Annotated[Quantity | ToFind, QuantityOf(dim.LENGTH)]
Readings = Annotated[Quantity | ToFind, QuantityOf(dim.LENGTH, named=True)]
Level = Annotated[Quantity | ToFind, QuantityOf(dim.LENGTH, level=True)]
Area = Annotated[Quantity | ToFind, QuantityOf(dim.AREA)]
Duration = Annotated[Quantity | ToFind, QuantityOf(dim.DURATION)]
Current = Annotated[Quantity | ToFind, QuantityOf(dim.CURRENT)]
Power = Annotated[Quantity | ToFind, QuantityOf(dim.POWER)]
Mass = Annotated[Quantity | ToFind, QuantityOf(dim.MASS)]
Density = Annotated[Quantity | ToFind, QuantityOf(dim.DENSITY)]
LineLoad = Annotated[Quantity | ToFind, QuantityOf(dim.LINE_LOAD)]
Slope = Annotated[Quantity | ToFind, QuantityOf(dim.SLOPE)]
WaterAdded = Annotated[Quantity | ToFind, QuantityOf(dim.WATER_ADDED)]
Count = Annotated[Quantity | ToFind, QuantityOf(dim.NUMBER)]
Angle = Annotated[Quantity | ToFind, QuantityOf(dim.ANGLE)]
Money = Annotated[Quantity | ToFind, QuantityOf(dim.MONEY)]
Share = Annotated[Quantity | ToFind, QuantityOf(dim.SHARE)]
Flow = Annotated[Quantity | ToFind, QuantityOf(dim.FLOW)]
Moisture = Annotated[Quantity | ToFind, QuantityOf(dim.MOISTURE)]
Date = Annotated[Quantity | ToFind, QuantityOf(dim.DATE)]
MakersLength = Annotated[Quantity | ToFind | NothingStated, QuantityOf(dim.LENGTH, none=True)]
MakersForce = Annotated[Quantity | ToFind | NothingStated, QuantityOf(dim.FORCE, none=True)]
MakersPressure = Annotated[Quantity | ToFind | NothingStated, QuantityOf(dim.PRESSURE, none=True)]
MakersWaterAdded = Annotated[Quantity | ToFind | NothingStated, QuantityOf(dim.WATER_ADDED, none=True)]
MakersDuration = Annotated[Quantity | ToFind | NothingStated, QuantityOf(dim.DURATION, none=True)]
AnyQuantity = Annotated[Quantity, OfAnyDimension()]

Term = Annotated[str | ToFind, TermOf()]
"""A word of the trade (`plasterboard`, `gas hob`) or `to find out`; compared by `fold`."""

_LENGTH = QuantityOf(dim.LENGTH)
_MAKERS_LENGTH = QuantityOf(dim.LENGTH, none=True)
_PLACED = re.compile(r"(.*?)\s*\b(from|above|below)\b\s*(.*)", re.IGNORECASE | re.DOTALL)
_FRONTS = re.compile(r"fronts of (.+)", re.IGNORECASE)
_OF_AN_AMOUNT = frozenset("-0123456789./½¼¾⅓⅔⅛⅜⅝⅞⁄")
_PART_OF_SIZE = re.compile(r"(.+?) ?([whd])", re.IGNORECASE)


def _length(written: object, lengths_in: str | None) -> Quantity | ToFind:
    found = _LENGTH.read(written, lengths_in)
    assert not isinstance(found, NothingStated)
    return found


def _placed(text: str) -> tuple[str, str, str]:
    """The amount, the word that relates it (`from`, `above`, `below` or '') and what it is measured from.

    `assumed` behind the whole belongs to the amount.
    """
    match = _PLACED.fullmatch(text.strip())
    if match is None:
        return text, "", ""
    amount, relation, datum = match.groups()
    datum, assumed = without_assumed(" ".join(datum.split()))
    if not datum:
        raise BadQuantity(f"`{said(text)}`: nothing stands behind `{relation.lower()}`", f"`{said(text)} …`")
    if not amount:
        raise BadQuantity(f"`{said(text)}` has no figure", f"`600 {said(text)}`")
    return amount + " assumed" * assumed, relation.lower(), datum


@dataclass(frozen=True, slots=True)
class Along:
    """A place along a wall: `1950 from west` (a named neighbouring wall), or `fronts of sink run` (amount 0)."""

    takes_to_find: ClassVar[bool] = True
    line: ClassVar[Written] = Written(
        "<length> <=from> (?!<=fronts> <=of> )<name>|<=fronts> <=of> <name>|<to find out>",
        ("1950 from west", "fronts of sink run"),
    )

    amount: Quantity | ToFind
    from_: str
    fronts_of: str = ""

    @classmethod
    def __get_pydantic_core_schema__(cls, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        return _read_by(cls.read)

    @classmethod
    def read(cls, written: object, lengths_in: str | None) -> Along:
        """Raises BadQuantity. A bare `to find out` leaves open from which wall, too."""
        if isinstance(written, Along):
            return written
        expected = "`1950 from west` with the name of a wall, or `fronts of sink run` with the name of a run"
        text = " ".join(_text(written, expected).split())
        fronts = _FRONTS.fullmatch(text)
        if fronts:
            return cls(Quantity(0.0, 0.0, dim.LENGTH, text), "", fronts[1])
        amount, relation, wall = _placed(text)
        if relation in ("above", "below"):
            raise BadQuantity(f"`{said(text)}`: a place along a wall is measured from a wall", expected)
        found = _length(amount, lengths_in)
        if not relation and isinstance(found, Quantity):
            raise BadQuantity(f"`{said(text)}`: say from which wall", expected)
        if _FRONTS.fullmatch(wall):
            raise BadQuantity(f"`{said(text)}`: `{wall}` stands alone, without a figure", f"`{wall}`")
        return cls(found, wall)


_Relation = Literal["from", "above", "below"]
_Datum = Literal["bare floor", "finished floor", "worktop", "ceiling"]
_DATUMS: dict[tuple[str, str], tuple[_Relation, _Datum]] = {
    ("from", "bare floor"): ("from", "bare floor"),
    ("above", "bare floor"): ("from", "bare floor"),
    ("from", "finished floor"): ("from", "finished floor"),
    ("above", "finished floor"): ("from", "finished floor"),
    ("above", "worktop"): ("above", "worktop"),
    ("below", "ceiling"): ("below", "ceiling"),
}
_HEIGHTS = "`from bare floor`, `from finished floor`, `above worktop` or `below ceiling`"


@dataclass(frozen=True, slots=True)
class Height:
    """A height: `1060 from bare floor`, `150 above worktop`, `340 below ceiling`.

    Datum '' is the file's `heights from`, also where readings stand in a list. `above bare floor` and
    `above finished floor` come out as `from`.
    """

    takes_to_find: ClassVar[bool] = True
    line: ClassVar[Written] = Written(
        f"<length>( ({'|'.join(f'<={word}> (<=the> )?<={thing}>' for word, thing in _DATUMS)})( <=assumed>)?)?",
        ("1060", "1060 from bare floor", "150 above worktop", "340 below ceiling"),
    )

    amount: Quantity | ToFind
    relation: Literal["from", "above", "below"] = "from"
    datum: Literal["", "bare floor", "finished floor", "worktop", "ceiling"] = ""

    @classmethod
    def __get_pydantic_core_schema__(cls, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        return _read_by(cls.read)

    @classmethod
    def read(cls, written: object, lengths_in: str | None) -> Height:
        """Raises BadQuantity."""
        if isinstance(written, Height):
            return written
        if isinstance(written, list):
            return cls(_length(written, lengths_in))
        text = _text(written, f"a height, such as `1060`, with {_HEIGHTS} behind it")
        amount, relation, datum = _placed(text)
        if not relation:
            return cls(_length(amount, lengths_in))
        name = fold(datum).removeprefix("the ")
        name = WORDS.get(name, name)
        known = _DATUMS.get((relation, name))
        if known is None:
            likely = nearest(f"{relation} {name}", (f"{word} {thing}" for word, thing in _DATUMS)) or ""
            right = [f"{word} {thing}" for word, thing in _DATUMS if thing == name]
            raise BadQuantity(
                f"`{said(relation + ' ' + datum)}` is no way to say a height", _HEIGHTS, right[0] if right else likely
            )
        return cls(_length(amount, lengths_in), *known)


@dataclass(frozen=True, slots=True)
class Size:
    """`598 w x 820 h x 550 d` in any order, or some of the three.

    Two figures without letters, `146 x 86`, are width and then height: of a plate so, of a flat thing (a cut-out, a
    floor board) the second is what lies across the first. `820 to 870 h` has a range. `to find out` leaves all open.
    """

    takes_to_find: ClassVar[bool] = True
    line: ClassVar[Written] = Written("<size>|<to find out>", ("598 w x 820 h x 550 d", "146 x 86"))

    w: Quantity | ToFind | None = None
    h: Quantity | ToFind | None = None
    d: Quantity | ToFind | None = None

    @classmethod
    def __get_pydantic_core_schema__(cls, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        return _read_by(cls.read)

    @classmethod
    def read(cls, written: object, lengths_in: str | None) -> Size:
        """Raises BadQuantity."""
        if isinstance(written, Size):
            return written
        expected = "`598 w x 820 h x 550 d` in any order, or `146 x 86` for width by height"
        text = _text(written, expected)
        unknown = read_to_find(plain(text))
        if unknown:
            return cls(unknown, unknown, unknown)
        whole, assumed = without_assumed(" ".join(text.split()))
        parts = re.split(r" ?[x×X] ?", whole)
        lettered = [_PART_OF_SIZE.fullmatch(part) for part in parts]
        figures: dict[str, str] = {}
        if all(lettered):
            for match in lettered:
                assert match is not None
                if match[2].lower() in figures:
                    raise BadQuantity(f"`{said(text)}`: {match[2].lower()} stands there twice", expected)
                figures[match[2].lower()] = match[1]
        elif any(lettered):
            raise BadQuantity(f"`{said(text)}`: give every figure its letter (w, h, d)", expected)
        elif len(parts) == 3:
            raise BadQuantity(
                f"`{said(text)}`: say which is which (w, h, d), because makers' papers differ in the order", expected
            )
        elif len(parts) != 2:
            raise BadQuantity(f"`{said(text)}` is not a size", expected)
        else:
            figures = {"w": parts[0], "h": parts[1]}
        plain_amounts = ["".join(figure.replace(" to ", " ").split()) for figure in figures.values()]
        units = [not set(amount) <= _OF_AN_AMOUNT for amount in plain_amounts]
        if any(units) and not all(units):
            raise BadQuantity(f"`{said(text)}`: say the unit of every figure, or of none", expected)
        return cls(**{letter: _length(figure + " assumed" * assumed, lengths_in) for letter, figure in figures.items()})


@dataclass(frozen=True, slots=True)
class StatedFigure:
    """A maker's figure with where it is measured from: `700 from pan support`; `none`; to find out is unread."""

    takes_to_find: ClassVar[bool] = True
    line: ClassVar[Written] = Written("<length>( <=from> <name>)?|<=none>", ("650 from pan supports", "none"))

    amount: Quantity | ToFind | NothingStated
    from_: str = ""

    @classmethod
    def __get_pydantic_core_schema__(cls, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        return _read_by(cls.read)

    @classmethod
    def read(cls, written: object, lengths_in: str | None) -> StatedFigure:
        """Raises BadQuantity."""
        if isinstance(written, StatedFigure):
            return written
        expected = "`650 from pan supports` as the maker's paper says it, or `none`"
        text = _text(written, expected)
        amount, relation, datum = _placed(text)
        if relation and relation != "from":
            raise BadQuantity(f"`{said(text)}`: write `from` and what the maker measures from", expected)
        found = _MAKERS_LENGTH.read(amount, lengths_in)
        if datum and isinstance(found, NothingStated):
            raise BadQuantity(f"`{said(text)}`: `none` stands alone", "`none`")
        return cls(found, datum)
