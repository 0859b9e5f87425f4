"""Rows: one thing at risk with what is known of it, and the figures that follow.

A measure makes rows from a plan; rules read them. A row keeps only what is known: reading anything else raises NotKnown
with the pointer of what to find out, so that nothing missing is ever taken for a value. Figures are pure functions of a
row, made of + − × ÷ and the functions of `arithmetic`; a second run on traced values (`tracing`) gives their working.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from enum import Enum
from functools import cached_property
from typing import TYPE_CHECKING, Any, ClassVar, NamedTuple, Self, overload

from validator.plan.dimensions import Dimension

FEW = 3
"""Rows of so many ranges keep their corners, since every rule about them asks again."""

MOST_FREE = 10
"""So many ranges of a row are all taken to their ends in every combination."""


class Why(Enum):
    """Why a value is not there; the text is what a report says of it."""

    LEFT_OUT = "not in the plan"
    TO_FIND = "to find out"
    UNREAD = "the maker's paper has not been read"
    NOTHING_STATED = "the maker's paper gives no figure"
    NO_TABLE_ROW = "no table has it"
    UNCLEAR = "cannot be worked out"
    ASSUMED = "only assumed"


@dataclass(frozen=True, slots=True)
class Missing:
    """A value nobody knows yet: where it would stand, why it is missing, who can say, and which question asks for it.

    `asks` is `kind of row.field`, set by the first row that misses it.
    """

    pointer: str
    label: str
    why: Why = Why.LEFT_OUT
    by: str | None = None
    detail: str = ""
    asks: str = ""


class NotKnown(Exception):
    """Something was read that is not known. Only this exception may be caught on the way to an outcome."""

    def __init__(self, *missing: Missing) -> None:
        self.missing = missing

    def __str__(self) -> str:
        return "; ".join(f"{m.label} ({m.pointer}): {m.why.value}" for m in self.missing)


class Known(NamedTuple):
    """A value with where it comes from.

    `low` and `high` are the ends of a range; `parts` are the members of a list field; `origin` is the row and figure
    that worked the value out, for the working; `note` is said behind the value («from the table …»). `rests_on` are the
    assumed values behind one that is drawn; where there are none an `assumed` value is itself what is assumed.
    """

    value: Any
    pointer: str = ""
    text: str = ""
    label: str = ""
    low: float | None = None
    high: float | None = None
    assumed: bool = False
    origin: tuple[Row, str] | None = None
    parts: tuple[Known, ...] = ()
    note: str = ""
    swings: tuple[tuple[Known, float], ...] = ()
    rests_on: tuple[Known, ...] = ()

    @property
    def doubtful(self) -> bool:
        """Whether this stands for more than one number."""
        return self.low != self.high or (self.parts != () and any(part.doubtful for part in self.parts))

    @property
    def ends(self) -> tuple[float, float]:
        """Both ends of a number; twice the number itself where it has no range."""
        low, high = (self.value if end is None else end for end in (self.low, self.high))
        return float(low), float(high)

    def at_end(self, end: float | None) -> Known:
        """The same value at one end of its range."""
        told, behind = (self.pointer, self.text, self.label), (self.assumed, self.origin)
        return Known(end, *told, end, end, *behind, self.parts, self.note, self.swings, self.rests_on)

    @property
    def rests_on_assumption(self) -> bool:
        return self.assumed or (self.parts != () and any(part.rests_on_assumption for part in self.parts))


Given = Known | Missing | tuple[Missing, ...]
"""What a measure hands to a field of a row: a value, or all that has to be found out before there is one."""


def gaps_of(*values: Given) -> tuple[Missing, ...]:
    """All that has to be found out before each of some values is known, once each; nothing where they are known."""
    gaps: dict[Missing, None] = {}
    for value in values:
        if not isinstance(value, Known):
            gaps.update(dict.fromkeys((value,) if isinstance(value, Missing) else value))
    return tuple(gaps)


def assumed_among(*values: Given) -> tuple[Known, ...]:
    """Those of some values that nobody has verified, or that rest on such a one; a list counts by its parts."""
    found: list[Known] = []
    for value in values:
        if isinstance(value, Known):
            found.extend(part for part in value.parts or (value,) if part.rests_on_assumption)
    return tuple(found)


class Words(NamedTuple):
    """The words a field may hold."""

    words: tuple[str, ...]


class GroupWords:
    """A field that holds terms of the trade, told apart by the groups of `rules/groups.yaml`."""


class YesNo:
    """A field that is true or false."""


class Name:
    """A field that holds a name of the plan's own; rules may print it, not compare it."""


FieldType = Dimension | Words | GroupWords | YesNo | Name
TERM = GroupWords()
YES_NO = YesNo()
NAME = Name()


class Field(NamedTuple):
    """The declaration of one field: its type, what a reader calls it, and whether it holds a list of parts."""

    type: FieldType
    label: str
    many: bool = False


def given(type: FieldType, label: str, *, many: bool = False) -> Any:
    """Declare a field of a row that a measure fills in. Many: a tuple of parts, for `total`, `least`, `most`."""
    return Field(type, label, many)


class Figure:
    """A figure of a row: a pure function of the row, with its dimension and from where to where it is measured."""

    __slots__ = ("dimension", "end", "function", "label", "name", "start")

    def __init__(
        self, function: Callable[[Any], float], dimension: Dimension, label: str, start: str, end: str
    ) -> None:
        self.function = function
        self.name = function.__name__
        self.dimension = dimension
        self.label = label
        self.start = start
        self.end = end

    @overload
    def __get__(self, row: None, owner: type[Row]) -> Figure: ...
    @overload
    def __get__(self, row: Row, owner: type[Row]) -> float: ...
    def __get__(self, row: Row | None, owner: type[Row]) -> float | Figure:
        if row is None:
            return self
        try:
            value = self.function(row)
        except ZeroDivisionError:
            raise NotKnown(Missing(row.subject.pointer, self.label, Why.UNCLEAR, detail="it divides by zero")) from None
        row.__dict__[self.name] = value
        return value


def figure(
    dimension: Dimension, label: str, *, start: str = "", end: str = ""
) -> Callable[[Callable[[Any], float]], Figure]:
    """Declare a figure. `start` and `end` say from where to where it is measured, in a reader's words."""

    def declare(function: Callable[[Any], float]) -> Figure:
        return Figure(function, dimension, label, start, end)

    return declare


class Subject(NamedTuple):
    """What a row is about: the name a reader knows, its pointer, and for things on a wall which wall and where.

    `context` is a few words that tell where it is («east wall»); `along` is the stretch it takes, from the wall's left.
    """

    name: str
    pointer: str
    context: str = ""
    wall: str = ""
    along: tuple[float, float] | None = None


class LeftOut(NamedTuple):
    """In place of rows: a collection the plan does not have: nobody knows whether there is anything to judge."""

    kind: str
    missing: Missing


class Row:
    """One thing at risk. A subclass declares its kind (the words rules use) with fields and figures.

    Raises NotKnown when something is read that is not known; TypeError when a measure gives a field nobody declared.
    """

    kind: ClassVar[str] = ""
    fields: ClassVar[Mapping[str, Field]] = {}
    figures: ClassVar[Mapping[str, Figure]] = {}
    subject: Subject
    known: dict[str, Known]
    missing: dict[str, tuple[Missing, ...]]

    def __init_subclass__(cls, *, kind: str) -> None:
        cls.kind = kind
        fields = dict(cls.fields)
        figures = dict(cls.figures)
        for name, value in list(vars(cls).items()):
            if isinstance(value, Field):
                fields[name] = value
                delattr(cls, name)
            elif isinstance(value, Figure):
                figures[name] = value
        cls.fields = fields
        cls.figures = figures

    def __init__(self, subject: Subject, **values: Given) -> None:
        state = self.__dict__
        known: dict[str, Known] = {}
        missing: dict[str, tuple[Missing, ...]] = {}
        for name, value in values.items():
            if name not in self.fields:
                raise TypeError(f"a row of {self.kind!r} has no field {name!r}")
            if isinstance(value, Known):
                known[name] = value
                state[name] = value.value
            else:
                missing[name] = (value,) if isinstance(value, Missing) else value
        state["subject"] = subject
        state["known"] = known
        state["missing"] = missing

    if not TYPE_CHECKING:

        def __getattr__(self, name: str) -> Any:
            if name in self.fields:
                raise NotKnown(*self.why_not_known(name))
            raise AttributeError(f"a row of {self.kind!r} has no field or figure {name!r}")

    def why_not_known(self, name: str) -> tuple[Missing, ...]:
        """What has to be found out before the field is known."""
        asked: dict[str, tuple[Missing, ...]] = self.__dict__.setdefault("_asked", {})
        if name not in asked:
            found = self.missing.get(name) or (Missing(self.subject.pointer, self.fields[name].label, Why.LEFT_OUT),)
            asks = f"{self.kind}.{name}"
            asked[name] = tuple(
                gap if gap.asks else Missing(gap.pointer, gap.label, gap.why, gap.by, gap.detail, asks) for gap in found
            )
        return asked[name]

    @cached_property
    def rests_on_assumption(self) -> bool:
        return any(known.rests_on_assumption for known in self.known.values())

    def without_assumptions(self) -> Self:
        """The row as if nobody knew the values that are only assumed."""
        values: dict[str, Given] = {**self.missing}
        for name, value in self.known.items():
            gap = Missing(value.pointer, self.fields[name].label, Why.ASSUMED)
            values[name] = gap if value.rests_on_assumption else value
        return type(self)(self.subject, **values)

    def doubts(self) -> list[tuple[str, int, Known]]:
        """The values that stand for a range: field, number of the part (−1 for the field itself), value."""
        found: list[tuple[str, int, Known]] = []
        for name, value in self.known.items():
            if value.parts:
                found.extend((name, number, part) for number, part in enumerate(value.parts) if part.doubtful)
            elif value.doubtful:
                found.append((name, -1, value))
        return found

    def corners(self) -> Iterable[Self]:
        """The row with every range at one of its ends, in all combinations; the row itself where there is no range.

        Beyond ten ranges the number of combinations is cut: the last parts of each list move together, and only after
        them fields that hold one value, since such a field may stand against all parts of a list.
        """
        corners: Iterable[Self] | None = self.__dict__.get("_corners")
        if corners is None:
            doubts = self.doubts()
            corners = self._combinations(doubts) if doubts else (self,)
            if len(doubts) <= FEW:
                corners = self.__dict__["_corners"] = tuple(corners)
        return corners

    def _combinations(self, doubts: list[tuple[str, int, Known]]) -> Iterator[Self]:
        axes = [[doubt] for doubt in doubts]
        if len(doubts) > MOST_FREE:
            lists = {name for name, number, _ in doubts if number >= 0}
            alone_first = sorted(doubts, key=lambda doubt: doubt[1] >= 0)
            free, rest = alone_first[: MOST_FREE - len(lists)], alone_first[MOST_FREE - len(lists) :]
            together = itertools.groupby(rest, lambda doubt: doubt[0] if doubt[1] >= 0 else "")
            axes = [*([doubt] for doubt in free), *(list(group) for _, group in together)]
        for ends in itertools.product((0, 1), repeat=len(axes)):
            chosen = {
                (name, number): (value.low, value.high)[end]
                for end, axis in zip(ends, axes, strict=True)
                for name, number, value in axis
            }
            yield self._at(chosen)

    def _at(self, chosen: Mapping[tuple[str, int], float | None]) -> Self:
        known = dict(self.known)
        for (name, number), end in chosen.items():
            old = known[name]
            if number < 0:
                known[name] = old.at_end(end)
            else:
                parts = list(old.parts)
                parts[number] = parts[number].at_end(end)
                known[name] = old._replace(parts=tuple(parts), value=tuple(part.value for part in parts))
        return type(self)(self.subject, **known, **self.missing)


@dataclass(slots=True)
class Rows:
    """What a measure found: rows, and the collections that were left out."""

    rows: list[Row] = field(default_factory=list)
    left_out: list[LeftOut] = field(default_factory=list)
