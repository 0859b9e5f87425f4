"""An interpreter of the rules' language written from its description alone, to hold the real one to.

It reads the text itself, by recursive descent, and types and values are worked out together on every run. Dimensions
and units are those of the general-purpose units library pint (0.25), exact by fractions. Slow and plain on purpose: it
shares nothing with the package but the names of a row's fields.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Any

import pint

_UNITS: Any = pint.UnitRegistry(non_int_type=Fraction)
_UNITS.define("item = 1")
_BASE = {"[length]": "mm", "[mass]": "kg", "[time]": "s", "[current]": "A", "[temperature]": "K"}
_TOKEN = re.compile(
    r"\s*(?:(?P<date>\d{4}-\d\d-\d\d)"
    r"|(?P<quantity>\d+(?:\.\d+)? ?(?:mm/m|mm2|mm|cm|m|in|kg|days|h|%)(?!\w))"
    r"|(?P<number>\d+(?:\.\d+)?)"
    r"|(?P<text>'[^']*')|(?P<name>[a-z_][a-z_.]*)|(?P<sign>[=!<>]=|[-+*/<>(),\[\]]))"
)


class Refused(Exception):
    """The text is not of the language, or its types do not fit."""


@dataclass(frozen=True)
class Unknown:
    """A value that cannot be told, with the names of all that would have to be found out."""

    names: frozenset[str]


@dataclass(frozen=True)
class Kind:
    """The type of a value: `what` is number, words, term, condition, name, text or texts.

    Numbers have a unit of pint, and a `sort` where the unit does not tell (slope, humidity, share, %, date).
    """

    what: str
    unit: str = ""
    sort: str = ""
    words: tuple[str, ...] = ()

    @functools.cached_property
    def dimension(self) -> Any:
        return _dimension(self.unit)

    @property
    def plain(self) -> bool:
        return self.dimension == _dimension("") and not self.sort

    @property
    def ratio(self) -> bool:
        return bool(self.dimension == _dimension(""))


CONDITION = Kind("condition")
POINTS = ("date",)


@dataclass(frozen=True)
class Part:
    """A part of a text: its type, its value (or Unknown), and the number it is when it is written as one."""

    kind: Kind
    value: Any
    written: bool = False


@functools.cache
def _dimension(unit: str) -> Any:
    return _UNITS.Unit(unit or "item").dimensionality


@functools.cache
def _in_base(number: str, unit: str) -> float:
    unit = {"%": "percent", "mm2": "mm**2", "mm/m": "mm/m", "days": "day"}.get(unit, unit)
    quantity = _UNITS.Quantity(Fraction(number), unit)
    base = _UNITS.Unit("item")
    for dimension, power in quantity.dimensionality.items():
        base *= _UNITS.Unit(_BASE[dimension]) ** power
    return float(quantity.to(base).magnitude)


@dataclass
class Interpreter:
    """Works a text out for one row: `kinds` gives the type of every name, `read` its value or Unknown."""

    kinds: Mapping[str, Kind]
    groups: Mapping[str, frozenset[str]]
    read: Callable[[str], Any]

    def run(self, text: str) -> Part:
        self.left = self._cut(text)
        part = self._or()
        if self.left or part.kind.what in ("text", "texts"):
            raise Refused
        return part

    def _cut(self, text: str) -> list[tuple[str, str]]:
        found, at = [], 0
        while text[at:].strip():
            match = _TOKEN.match(text, at)
            if match is None or match.lastgroup is None:
                raise Refused
            found.append((match.lastgroup, match[match.lastgroup]))
            at = match.end()
        return found

    def _next_is(self, *signs: str) -> bool:
        return bool(self.left) and self.left[0][0] in ("sign", "name") and self.left[0][1] in signs

    def _take(self) -> tuple[str, str]:
        if not self.left:
            raise Refused
        return self.left.pop(0)

    def _or(self) -> Part:
        part = self._and()
        while self._next_is("or"):
            self._take()
            part = _joined(part, self._and(), settles=True)
        return part

    def _and(self) -> Part:
        part = self._not()
        while self._next_is("and"):
            self._take()
            part = _joined(part, self._not(), settles=False)
        return part

    def _not(self) -> Part:
        if not self._next_is("not"):
            return self._comparison()
        self._take()
        return _denied(self._not())

    def _comparison(self) -> Part:
        part = self._sum()
        if self._next_is("==", "!=", "<", "<=", ">", ">="):
            part = _compared(self._take()[1], part, self._sum(), self.groups)
        elif self._next_is("in", "not"):
            denied = self._take()[1] == "not"
            if denied and self._take()[1] != "in":
                raise Refused
            part = self._among(part)
            part = _denied(part) if denied else part
        if self._next_is("==", "!=", "<", "<=", ">", ">=", "in", "not"):
            raise Refused
        return part

    def _among(self, part: Part) -> Part:
        if self.left and self.left[0][1] in self.groups:
            chosen = self.groups[self._take()[1]]
            if part.kind.what == "words" and not chosen & set(part.kind.words):
                raise Refused
            return _one_of(part, chosen, self.groups)
        right = self._sum() if not self._next_is("[", "(") else self._texts()
        if right.kind.what != "texts" and right.kind.what != "text":
            raise Refused
        texts = right.value if right.kind.what == "texts" else [right.value]
        return _one_of(part, [_a_word_of(part, text, self.groups) for text in texts], self.groups)

    def _texts(self) -> Part:
        close = {"(": ")", "[": "]"}[self._take()[1]]
        texts = []
        while not self._next_is(close):
            what, text = self._take()
            if what != "text":
                raise Refused
            texts.append(text[1:-1])
            if not self._next_is(close) and self._take() != ("sign", ","):
                raise Refused
        self._take()
        if not texts:
            raise Refused
        return Part(Kind("texts"), texts)

    def _sum(self) -> Part:
        part = self._product()
        while self._next_is("+", "-"):
            part = _added(self._take()[1], part, self._product())
        return part

    def _product(self) -> Part:
        part = self._negative()
        while self._next_is("*", "/"):
            part = _multiplied(self._take()[1], part, self._negative())
        return part

    def _negative(self) -> Part:
        if not self._next_is("-"):
            return self._atom()
        self._take()
        part = self._negative()
        _hold(part.kind.what == "number" and part.kind.sort not in POINTS)
        return Part(part.kind, _worked(lambda value: -value, part.value), part.written)

    def _atom(self) -> Part:
        what, text = self._take()
        if what == "number":
            return Part(Kind("number"), float(text), written=True)
        if what == "date":
            return Part(Kind("number", "s", "date"), date.fromisoformat(text).toordinal() * 86400.0, written=True)
        if what == "quantity":
            number, unit = re.fullmatch(r"([\d.]+) ?(.*)", text).groups()  # type: ignore[union-attr]
            sort = {"%": "%", "mm/m": "slope"}.get(unit, "")
            written = {"%": "", "mm/m": "", "mm2": "mm**2", "days": "day"}.get(unit, unit)
            return Part(Kind("number", written, sort), _in_base(number, unit), written=True)
        if what == "text":
            return Part(Kind("text"), text[1:-1])
        if text == "(":
            part = self._or()
            _hold(self._take() == ("sign", ")"))
            return part
        _hold(what == "name" and text in self.kinds)
        return Part(self.kinds[text], self.read(text))


def _hold(fits: bool) -> None:
    if not fits:
        raise Refused


def _worked(work: Callable[..., Any], *values: Any) -> Any:
    """The work done on values that are all known, or all that is unknown among them."""
    unknown = [value.names for value in values if isinstance(value, Unknown)]
    return Unknown(frozenset().union(*unknown)) if unknown else work(*values)


def _joined(left: Part, right: Part, *, settles: bool) -> Part:
    """`or` (settled by a true side) and `and` (settled by a false one), after Kleene's strong tables."""
    _hold(left.kind == right.kind == CONDITION)
    if left.value is settles or right.value is settles:
        return Part(CONDITION, settles)
    return Part(CONDITION, _worked(lambda *_: not settles, left.value, right.value))


def _denied(part: Part) -> Part:
    _hold(part.kind == CONDITION)
    return Part(CONDITION, _worked(lambda value: not value, part.value))


def _fitted(kind: Kind, other: Kind) -> Kind:
    return other if kind.sort == "%" and other.ratio and other.sort not in POINTS else kind


def _added(sign: str, left: Part, right: Part) -> Part:
    _hold(left.kind.what == right.kind.what == "number")
    a, b = _fitted(left.kind, right.kind), _fitted(right.kind, left.kind)
    _hold(a.dimension == b.dimension)
    a_point, b_point = a.sort in POINTS, b.sort in POINTS
    if a_point and b_point:
        _hold(sign == "-" and a.sort == b.sort)
        kind = Kind("number", a.unit)
    elif a_point or b_point:
        _hold(a_point or sign == "+")
        _hold(not (b if a_point else a).sort)
        kind = a if a_point else b
    else:
        _hold(a.sort == b.sort)
        kind = a
    work = {"+": lambda x, y: x + y, "-": lambda x, y: x - y}[sign]
    return Part(kind, _worked(work, left.value, right.value))


def _multiplied(sign: str, left: Part, right: Part) -> Part:
    a, b = left.kind, right.kind
    _hold(a.what == b.what == "number" and a.sort not in POINTS and b.sort not in POINTS)
    a, b = _spent(a, b), _spent(b, a)
    if sign == "/":
        _hold(not (right.written and right.value == 0))
        kind = a if b.plain else Kind("number", f"({a.unit or 1})/({b.unit or 1})")
        return Part(kind, _worked(_quotient, left.value, right.value))
    kind = b if a.plain else a if b.plain else Kind("number", f"({a.unit or 1})*({b.unit or 1})")
    return Part(kind, _worked(lambda x, y: x * y, left.value, right.value))


def _spent(kind: Kind, other: Kind) -> Kind:
    return Kind("number") if kind.sort == "%" and not other.plain else kind


def _quotient(above: float, below: float) -> Any:
    return above / below if below else Unknown(frozenset({"division by zero"}))


def _compared(sign: str, left: Part, right: Part, groups: Mapping[str, frozenset[str]]) -> Part:
    if left.kind.what == "text":
        left, right = right, left
    if right.kind.what == "text":
        _hold(sign in ("==", "!="))
        part = _one_of(left, [_a_word_of(left, right.value, groups)], groups)
        return part if sign == "==" else _denied(part)
    _hold(left.kind.what == right.kind.what == "number")
    a, b = _fitted(left.kind, right.kind), _fitted(right.kind, left.kind)
    _hold(a.dimension == b.dimension and a.sort == b.sort)
    work: Callable[[float, float], bool] = {
        "==": lambda x, y: x == y,
        "!=": lambda x, y: x != y,
        "<": lambda x, y: x < y,
        "<=": lambda x, y: x <= y,
        ">": lambda x, y: x > y,
        ">=": lambda x, y: x >= y,
    }[sign]
    return Part(CONDITION, _worked(work, left.value, right.value))


def _alike(term: str) -> str:
    return re.sub(r"[\s_-]+", " ", term).strip().lower()


def _a_word_of(part: Part, text: str, groups: Mapping[str, frozenset[str]]) -> str:
    if part.kind.what == "words":
        _hold(text in part.kind.words)
        return text
    _hold(part.kind.what == "term" and any(_alike(text) in terms for terms in groups.values()))
    return _alike(text)


def _one_of(part: Part, chosen: Any, groups: Mapping[str, frozenset[str]]) -> Part:
    _hold(part.kind.what in ("words", "term"))
    if part.kind.what == "words":
        return Part(CONDITION, _worked(lambda value: value in chosen, part.value))

    def term(value: str) -> Any:
        if not any(_alike(value) in terms for terms in groups.values()):
            return Unknown(frozenset({"a term in no group"}))
        return _alike(value) in chosen

    return Part(CONDITION, _worked(term, part.value))
