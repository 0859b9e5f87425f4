"""Two kinds of row on which the language of rules is tried: a shelf on brackets, and the lead to a lamp over it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from validator.judging.expressions import Scope, scope_of
from validator.measures.arithmetic import total
from validator.measures.rows import NAME, TERM, YES_NO, Given, Known, Missing, Row, Subject, Words, figure, given
from validator.plan import dimensions as dim
from validator.plan.dimensions import Dimension
from validator.plan.quantities import parse_literal

GROUPS = {
    "solid_bases": frozenset({"brick", "dense block"}),
    "hollow_bases": frozenset({"plasterboard", "lath and plaster"}),
    "hardwoods": frozenset({"oak", "ash"}),
}


class Shelf(Row, kind="shelf on brackets"):
    """A shelf: every type of field a rule can meet, and two figures."""

    board: str = given(Words(("oak", "ash", "plywood", "glass")), "board")
    base: str = given(TERM, "what carries the brackets")
    length: float = given(dim.LENGTH, "length")
    depth: float = given(dim.LENGTH, "depth")
    thickness: float = given(dim.LENGTH, "thickness")
    load: float = given(dim.MASS, "load")
    tilt: float = given(dim.SLOPE, "tilt")
    damp: float = given(dim.HUMIDITY, "damp of the wall")
    waste: float = given(dim.SHARE, "waste in cutting")
    brackets: float = given(dim.NUMBER, "brackets")
    painted: bool = given(YES_NO, "painted")
    oiled: bool = given(YES_NO, "oiled")
    owner: str = given(NAME, "whose it is")
    put_up: float = given(dim.DATE, "day it is put up")
    loaded: float = given(dim.DATE, "day it is loaded")
    cure: float = given(dim.DURATION, "curing of the glue")
    spans: tuple[float, ...] = given(dim.LENGTH, "spans", many=True)

    @figure(dim.LENGTH, "all spans", start="first bracket", end="last bracket")
    def spanned(self) -> float:
        return total(self.spans)

    @figure(dim.AREA, "board to buy")
    def area(self) -> float:
        return self.length * self.depth


class Lead(Row, kind="lead to a lamp"):
    """The lead to a lamp."""

    current: float = given(dim.CURRENT, "current")
    lamp: float = given(dim.POWER, "lamp")
    supply: float = given(dim.VOLTAGE, "supply")
    core: float = given(dim.AREA, "core")
    run: float = given(dim.LENGTH, "length of the lead")
    room: float = given(dim.TEMPERATURE, "room")
    earthed: bool = given(YES_NO, "earthed")


KINDS: dict[str, type[Row]] = {"shelf": Shelf, "lead": Lead}
EXTRA: dict[str, Dimension] = {"have": dim.LENGTH, "need": dim.LENGTH, "short": dim.LENGTH, "own.reach": dim.LENGTH}


def scope(kind: str) -> Scope:
    return scope_of(KINDS[kind], GROUPS, EXTRA)


def row(kind: str, values: Mapping[str, Any]) -> Row:
    """A row from values as a data file has them (`900 mm`, `oak`, true); what has none is missing, at `/its name`."""
    found: dict[str, Given] = {}
    for name, field in KINDS[kind].fields.items():
        if name not in values:
            found[name] = Missing(f"/{name}", field.label)
        elif field.many:
            parts = tuple(Known(plain(part)) for part in values[name])
            found[name] = Known(tuple(part.value for part in parts), f"/{name}", parts=parts)
        else:
            value = plain(values[name]) if isinstance(field.type, Dimension) else values[name]
            found[name] = Known(value, f"/{name}")
    return KINDS[kind](Subject(kind, "/"), **found)


def plain(value: Any) -> float:
    """A figure of a data file in base units: `900 mm`, or a number alone."""
    return parse_literal(value)[0] if isinstance(value, str) else float(value)
