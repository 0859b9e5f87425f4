"""Tables of published documents and of practice: key columns, the columns they give, and rows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Literal, NamedTuple

from validator.plan.dimensions import Dimension
from validator.plan.names import fold
from validator.plan.problems import Place
from validator.reference.documents import Citation

Cell = float | str
Match = Literal["exact", "up to", "from"]
SAME = 1e-9


class Column(NamedTuple):
    """A column: a key matched exactly (`exact`), by the first row at or above (`up to`) or the last at or below
    (`from`).

    A `term` is a text of which every cell is a term of the trade or a group of `groups.yaml`.
    """

    name: str
    type: Dimension | Literal["text", "term"]
    match: Match = "exact"


class Found(NamedTuple):
    """A cell of a table with where it comes from: the text as the table has it, and how the table's source was seen."""

    value: Cell
    text: str
    table: str
    source: str
    seen: str


class Table(NamedTuple):
    """A table of a published document or of practice. `covers` is the country it is for ('everywhere', 'GB', …).

    `serves` holds the groups that stand in key columns with their folded terms: a row with `base: solid_bases` serves
    every term of that group. A cell given as `none` is left out of its row.
    """

    name: str
    title: str
    covers: str
    keys: tuple[Column, ...]
    gives: tuple[Column, ...]
    rows: tuple[Mapping[str, Cell], ...]
    texts: tuple[Mapping[str, str], ...]
    source: Citation
    place: Place
    serves: Mapping[str, frozenset[str]] = MappingProxyType({})

    def column(self, name: str) -> Column | None:
        """The column of this name, key or given."""
        for column in (*self.keys, *self.gives):
            if column.name == name:
                return column
        return None

    def find(self, gives: str, by: Mapping[str, Cell]) -> Found | None:
        """The cell of the row that matches, or None where the table has none (which is *not known*, never a guess).

        Words compare as names do; a row that names a term itself goes before one that names its group. Numbers are in
        base units. KeyError where a column is not of the table or a key is not given.
        """
        if all(column.name != gives for column in self.gives):
            raise KeyError(f"the table {self.name} does not give {gives!r}")
        rows: list[int] = list(range(len(self.rows)))
        for column in sorted(self.keys, key=lambda column: column.match != "exact"):
            rows = self._matching(rows, column, by[column.name])
        if not rows or gives not in self.rows[rows[0]]:
            return None
        row, texts = self.rows[rows[0]], self.texts[rows[0]]
        return Found(row[gives], texts[gives], self.name, str(self.source), self.source.seen)

    def _matching(self, rows: list[int], column: Column, wanted: Cell) -> list[int]:
        if isinstance(wanted, str):
            return self._serving(rows, column.name, fold(wanted))
        cells = [(float(self.rows[row][column.name]), row) for row in rows]
        chosen: float | None = wanted
        if column.match == "up to":
            chosen = min((cell for cell, _ in cells if cell >= wanted or _same(cell, wanted)), default=None)
        elif column.match == "from":
            chosen = max((cell for cell, _ in cells if cell <= wanted or _same(cell, wanted)), default=None)
        return [] if chosen is None else [row for cell, row in cells if _same(cell, chosen)]

    def _serving(self, rows: list[int], column: str, term: str) -> list[int]:
        cells = [(str(self.rows[row][column]), row) for row in rows]
        itself = [row for cell, row in cells if cell not in self.serves and fold(cell) == term]
        return itself or [row for cell, row in cells if term in self.serves.get(cell, ())]

    def words(self, column: str) -> Iterator[str]:
        """The words, folded, that a text key of the table can be asked for: its cells, and the terms of its groups."""
        for row in self.rows:
            cell = str(row[column])
            yield from self.serves.get(cell, (fold(cell),))


def _same(left: float, right: float) -> bool:
    return abs(left - right) <= SAME * max(1.0, abs(left), abs(right))
