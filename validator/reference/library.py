"""What books say, read and typed: sources, tables, groups of terms, stages, the usual order of work. (contract)

Read from rules/ (`sources.yaml`, `tables/*.yaml`, `groups.yaml`, `stages.yaml`, `words.yaml`, `questions.yaml`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from validator.plan.dimensions import Dimension
from validator.plan.problems import Place

Cell = float | str


@dataclass(frozen=True, slots=True)
class Document:
    """A registered document: its title, who publishes it, edition, standing, and how it was seen."""

    name: str
    title: str
    edition: str
    standing: str
    seen: Literal["primary", "secondary", "memory"]
    place: Place


@dataclass(frozen=True, slots=True)
class Column:
    """A column: a key matched exactly (`exact`), by the first row at or above (`up to`) or the last at or below (`from`)."""

    name: str
    type: Dimension | Literal["text"]
    match: Literal["exact", "up to", "from"] = "exact"


@dataclass(frozen=True, slots=True)
class Found:
    """A cell of a table with where it comes from."""

    value: Cell
    text: str
    table: str
    source: str
    seen: str


@dataclass(frozen=True, slots=True)
class Table:
    """A table of a published document or of practice. `covers` is the country it is for ('everywhere', 'GB', …)."""

    name: str
    title: str
    covers: str
    keys: tuple[Column, ...]
    gives: tuple[Column, ...]
    rows: tuple[Mapping[str, Cell], ...]
    texts: tuple[Mapping[str, str], ...]
    source: Mapping[str, str]
    place: Place

    def find(self, gives: str, by: Mapping[str, Cell]) -> Found | None:
        """The cell of the row that matches, or None where the table has none (which is *not known*, never a guess)."""
        raise NotImplementedError


@dataclass(frozen=True, slots=True)
class Library:
    """Everything a measure or a rule may look up; read once."""

    documents: Mapping[str, Document]
    tables: Mapping[str, tuple[Table, ...]]  # by name; several where countries differ
    groups: Mapping[str, frozenset[str]]  # folded terms
    stages: Mapping[str, str]  # name → the question a report asks («drill, and hang units?»), in order
    words: Mapping[str, Mapping[str, str]]  # country prefix → our word → theirs, for printing
    questions: Mapping[str, str]  # «kind of row.field» or field pointer pattern → the question to ask

    def table(self, name: str, country: str) -> Table | None:
        """The table of this name for the country: the longest prefix that applies, else `everywhere`."""
        raise NotImplementedError
