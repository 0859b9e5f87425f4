"""What books say, read and typed: sources, tables, groups of terms, stages, the usual order of work, words and texts.

Read from the folder of rules: `sources.yaml`, `groups.yaml`, `tables/*.yaml`, `stages.yaml`, `order.yaml`,
`words.yaml`, `questions.yaml`, `texts.yaml`, `cautions.yaml`.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from validator.plan.problems import Problem, Unreadable
from validator.reference import lists
from validator.reference.cautions import Caution, read_cautions
from validator.reference.countries import applies, depth
from validator.reference.documents import Citation, Document, Seen, Standing, read_documents
from validator.reference.folder import shown, table_files
from validator.reference.lists import UsualOrder, UsualTask
from validator.reference.tables import Cell, Column, Found, Table

if TYPE_CHECKING:
    from validator.reference.entries import Entry

__all__ = [
    "Cell",
    "Citation",
    "Column",
    "Document",
    "Found",
    "Library",
    "Seen",
    "Standing",
    "Table",
    "UsualOrder",
    "UsualTask",
    "read_library",
]


class Library(NamedTuple):
    """Everything a measure or a rule may look up; read once."""

    documents: Mapping[str, Document]
    tables: Mapping[str, tuple[Table, ...]]  # by name; several where countries differ
    groups: Mapping[str, frozenset[str]]  # folded terms
    stages: Mapping[str, str]  # name → the question a report asks («drill, and hang units?»), in order
    words: Mapping[str, Mapping[str, str]]  # country prefix → our word → theirs, for printing
    questions: Mapping[str, str]  # «kind of row.field» or field pointer pattern → the question to ask
    order: UsualOrder | None = None
    texts: Mapping[str, str] = MappingProxyType({})
    cautions: tuple[Caution, ...] = ()

    def table(self, name: str, country: str) -> Table | None:
        """The table of this name for the country: the longest prefix that applies, else `everywhere`."""
        fitting = [table for table in self.tables.get(name, ()) if applies(table.covers, country)]
        return max(fitting, key=lambda table: depth(table.covers), default=None)


def read_library(folder: Path) -> Library:
    """Everything in a folder of rules that is no rulebook. Raises Unreadable with every mistake of every file."""
    from validator.reference.entries import read_file
    from validator.reference.table_reading import TableReader

    problems: list[Problem] = []

    def page(file: Path) -> Entry | None:
        return read_file(file, shown(folder, file), problems)

    sources, terms = page(folder / "sources.yaml"), page(folder / "groups.yaml")
    if sources is None or terms is None:
        raise Unreadable(problems)
    documents = read_documents(sources)
    groups = lists.read_groups(terms)
    reader = TableReader(documents, groups)
    for file in table_files(folder):
        if (tables := page(file)) is not None:
            reader.read_file(tables)
    stages, words, questions = (
        page(folder / "stages.yaml"),
        page(folder / "words.yaml"),
        page(folder / "questions.yaml"),
    )
    order, texts = page(folder / "order.yaml"), page(folder / "texts.yaml")
    warned = page(folder / "cautions.yaml")
    library = Library(
        documents,
        reader.tables,
        groups,
        lists.read_stages(stages) if stages else {},
        lists.read_words(words) if words else {},
        lists.read_questions(questions) if questions else {},
        lists.read_order(order, documents) if order else None,
        lists.read_texts(texts) if texts else {},
        read_cautions(warned, documents) if warned else (),
    )
    if problems:
        raise Unreadable(problems)
    return library
