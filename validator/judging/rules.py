"""A rule as read from a book and checked: what the judge applies and a report prints."""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Literal, NamedTuple

from validator.judging.expressions import NO_NAMES, Expression, Names, Template
from validator.measures.rows import Known, Missing
from validator.plan.dimensions import Dimension
from validator.plan.problems import Place
from validator.reference.documents import Citation, Standing

__all__ = ["SEVERITIES", "Book", "Change", "Citation", "Limit", "Rule", "Severity", "Standing", "TableRow", "Trial"]

MOST_FREE = 8
"""So many ranges among a household's own values are taken to their ends in every combination."""

Severity = Literal["stop", "put right", "improve", "note"]
SEVERITIES: tuple[Severity, ...] = ("stop", "put right", "improve", "note")


class Book(NamedTuple):
    """A book as its header says: what it is called, which country it covers, which edition, and where it stands.

    `given` marks a book named on the command line, which alone may withdraw rules.
    """

    title: str
    covers: str
    edition: str
    place: Place
    given: bool = False


class Change(NamedTuple):
    """That a more special book changed a rule: how, why, and which book said what it changed."""

    rule: str
    how: str
    why: str
    book: str
    before: str


class TableRow(NamedTuple):
    """A limit that is a table's row: `{table: nominal-embedment, by: {base: base, plug: plug_diameter}, gives:
    embedment}`.

    `by` maps the table's key columns to fields or figures of the row.
    """

    table: str
    gives: str
    by: Mapping[str, str]


class Limit(NamedTuple):
    """One bound of a rule: an expression, or a table's row."""

    bound: Literal["at least", "at most", "equals", "one of"]
    expression: Expression | None = None
    row: TableRow | None = None
    words: tuple[str, ...] = ()


class Trial(NamedTuple):
    """The fragment in which a rule is tried on both sides of its limit: the place varied, the value (plain data, as a
    plan is written) that meets it, the value that does not. `on` is the date for rules that know one; `thing` narrows
    it to one subject.
    """

    plan: str
    vary: str
    met: object
    not_met: object
    thing: str = ""
    on: str = ""


class Rule(NamedTuple):
    """A checked rule. The unit it is printed in follows `dimension`, which is the figure's; None where the figure is
    a word or there is none. `measured` says from where to where, `changes` which of 'tightens' and 'replaces' it
    does, and why; `own` holds the household's own values that it reads.
    """

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
    changes: Mapping[str, str] = MappingProxyType({})
    own: Mapping[str, Known | Missing] = MappingProxyType({})

    @property
    def names(self) -> Names:
        """The household's own values that the rule reads, for its expressions."""
        if not self.own:
            return NO_NAMES
        return {name: own if isinstance(own, Missing) else own.value for name, own in self.own.items()}

    def at_ends(self) -> Sequence[Rule]:
        """The rule with each range among those values at one of its ends, in all combinations; itself without any.

        Beyond eight ranges those from the ninth on move together.
        """
        doubtful = [(name, own) for name, own in self.own.items() if isinstance(own, Known) and own.doubtful]
        if not doubtful:
            return (self,)
        alone, together = doubtful[:MOST_FREE], doubtful[MOST_FREE:]
        axes = [[one] for one in alone] + ([together] if together else [])
        return [
            self._replace(
                own={
                    **self.own,
                    **{
                        name: own.at_end((own.low, own.high)[end])
                        for end, axis in zip(ends, axes, strict=True)
                        for name, own in axis
                    },
                }
            )
            for ends in itertools.product((0, 1), repeat=len(axes))
        ]

    @property
    def of_law(self) -> bool:
        return self.source.standing == "law"
