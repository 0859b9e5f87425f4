"""A rule as read from a book and checked: what the judge applies and a report prints."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from validator.judging.expressions import Expression, Template
from validator.plan.dimensions import Dimension
from validator.plan.problems import Place

Severity = Literal["stop", "put right", "improve", "note"]
SEVERITIES: tuple[Severity, ...] = ("stop", "put right", "improve", "note")

Standing = Literal[
    "law",
    "official guidance",
    "standard",
    "trade guidance",
    "maker",
    "household",
    "common practice",
]


@dataclass(frozen=True, slots=True)
class Citation:
    """What a rule rests on. `document` is the name in sources.yaml ('' for common practice and the household's own)."""

    document: str
    title: str
    edition: str
    clause: str
    standing: Standing
    seen: Literal["primary", "secondary", "memory", ""]
    note: str = ""

    def __str__(self) -> str:
        """`BS 6172, 2010, clauses 8.1` or `common practice`."""
        if not self.title:
            return self.standing
        return ", ".join(part for part in (self.title, self.edition, self.clause) if part)


@dataclass(frozen=True, slots=True)
class TableRow:
    """A limit that is a table's row: `{table: nominal-embedment, by: {base: base, plug: plug_diameter}, gives: embedment}`.

    `by` maps the table's key columns to fields or figures of the row.
    """

    table: str
    gives: str
    by: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Limit:
    """One bound of a rule: an expression, or a table's row."""

    bound: Literal["at least", "at most", "equals", "one of"]
    expression: Expression | None = None
    row: TableRow | None = None
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Trial:
    """The fragment in which a rule is tried on both sides of its limit: what is varied, the value that meets it, the
    value that does not. `on` is the date for rules that know one; `thing` narrows it to one subject."""

    plan: str
    vary: str
    met: str
    not_met: str
    thing: str = ""
    on: str = ""


@dataclass(frozen=True, slots=True)
class Rule:
    """A checked rule. `unit` of printing follows the figure's dimension."""

    name: str
    title: str
    book: str
    covers: str
    each: str
    severity: Severity
    before: str
    because: str
    remedy: Template
    source: Citation
    place: Place
    when: Expression | None = None
    figure: str = ""
    dimension: Dimension | None = None
    limits: tuple[Limit, ...] = ()
    holds: Expression | None = None
    stated: tuple[str, ...] = ()
    tolerance: float | None = None
    measured: str = ""
    aliases: tuple[str, ...] = ()
    tried: tuple[Trial, ...] = ()
    changes: Mapping[str, str] = field(default_factory=dict)  # 'tightens' | 'replaces' → why

    @property
    def of_law(self) -> bool:
        return self.source.standing == "law"
