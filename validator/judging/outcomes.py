"""The seam between judging and everything that shows or ships it."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING, Literal, NamedTuple

from validator.measures.rows import Missing, Row, Subject

if TYPE_CHECKING:
    from validator.judging.rules import Rule

Bound = Literal["at least", "at most", "equals", "one of", "holds"]


class Result(Enum):
    MET = "met"
    NOT_MET = "not met"
    NOT_KNOWN = "not known"
    AGREED = "agreed"


class Check(NamedTuple):
    """One comparison, in base units. `short` is by how much it fails; negative: what is to spare.

    `need_from` says whose limit counted: 'rule', or the field that holds a maker's figure. For words, `have` and `need`
    are text and `short` is 0.
    """

    bound: Bound
    have: float | str | bool
    need: float | str | bool
    ok: bool
    short: float = 0.0
    need_from: str = "rule"


class Departure(NamedTuple):
    """A departure agreed in the plan that covers an outcome."""

    pointer: str
    reason: str
    by: str
    until: float | None


class Outcome(NamedTuple):
    """What one rule says of one thing.

    `row` and `rule` are those at the end of their ranges that was worst (`row` is None where a collection was left
    out); `missing` is what to find out; `supposing` are values only assumed, or papers not read, without which *met*
    would not be certain.
    """

    rule: Rule
    subject: Subject
    result: Result
    row: Row | None = None
    checks: tuple[Check, ...] = ()
    missing: tuple[Missing, ...] = ()
    supposing: tuple[Missing, ...] = ()
    departure: Departure | None = None

    @property
    def short(self) -> float:
        """By how much the worst check fails; negative: the least that is to spare."""
        return max((check.short for check in self.checks), default=0.0)
