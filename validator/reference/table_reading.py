"""Reading the tables of `rules/tables/*.yaml`, every cell of the dimension its column says."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Literal, get_args

from validator.plan import dimensions as dim
from validator.plan.dimensions import Dimension
from validator.plan.names import fold, nearest
from validator.plan.problems import Place
from validator.reference.countries import read_covers
from validator.reference.documents import Document, read_citation
from validator.reference.entries import Entry
from validator.reference.figures import read_figure
from validator.reference.tables import Cell, Column, Match, Table

MATCHES: tuple[Match, ...] = get_args(Match)
KEYS = ("title", "covers", "keys", "gives", "rows", "source", "note")


class TableReader:
    """Reads tables against the registered documents and the groups of terms; tables of one name are kept side by
    side.
    """

    def __init__(self, documents: Mapping[str, Document], groups: Mapping[str, frozenset[str]]) -> None:
        self.documents = documents
        self.groups = groups
        self.terms = frozenset(term for terms in groups.values() for term in terms)
        self.tables: dict[str, tuple[Table, ...]] = {}

    def read_file(self, entry: Entry) -> None:
        for name, written in entry.items("tables"):
            table = self.read(name, written)
            if table is not None:
                self._add(table, written)

    def read(self, name: str, entry: Entry) -> Table | None:
        """One table, or None after a mistake that leaves nothing to read."""
        needed = ("title", "keys", "gives", "rows", "source")
        fields = entry.fields(f"the table `{name}`", KEYS, needed)
        if fields is None:
            return None
        title = fields["title"].text("title") if "title" in fields else None
        covers = read_covers(fields["covers"]) if "covers" in fields else "everywhere"
        keys = _columns(fields["keys"], keys=True) if "keys" in fields else None
        gives = _columns(fields["gives"], keys=False) if "gives" in fields else None
        source = read_citation(fields["source"], self.documents) if "source" in fields else None
        if title is None or covers is None or keys is None or gives is None or "rows" not in fields:
            return None
        rows = [(row, read) for row in fields["rows"].members("rows") if (read := _row(row, keys, gives)) is not None]
        if not rows and fields["rows"].is_list and not fields["rows"].value:
            fields["rows"].mistake(f"the table `{name}` has no rows")
        read_rows = [read for _, read in rows]
        cells = tuple({column: value for column, (value, _) in read.items()} for read in read_rows)
        texts = tuple({column: text for column, (_, text) in read.items()} for read in read_rows)
        places = [row for row, _ in rows]
        serves = self._terms(keys, cells, places)
        _unlike_rows(keys, cells, places, serves)
        _in_order(keys, cells, places)
        if source is None:
            return None
        return Table(name, title, covers, keys, gives, cells, texts, source, entry.place, serves)

    def _add(self, table: Table, entry: Entry) -> None:
        others = self.tables.get(table.name, ())
        for other in others:
            if other.covers == table.covers:
                entry.mistake(
                    f"there is already a table `{table.name}` for {table.covers}", also=(other.place,), at="key"
                )
                return
            if (other.keys, other.gives) != (table.keys, table.gives):
                entry.mistake(
                    f"the table `{table.name}` has other columns here than for {other.covers}",
                    expected=", ".join(column.name for column in (*other.keys, *other.gives)),
                    also=(other.place,),
                    at="key",
                )
        self.tables[table.name] = (*others, table)

    def _terms(
        self, keys: Iterable[Column], rows: tuple[Mapping[str, Cell], ...], places: list[Entry]
    ) -> dict[str, frozenset[str]]:
        """The groups that stand in the text keys; a mistake for each cell of a `term` column that is in no group."""
        serves: dict[str, frozenset[str]] = {}
        for column in keys:
            if isinstance(column.type, Dimension):
                continue
            for row, place in zip(rows, places, strict=True):
                name = str(row[column.name])
                if name in self.groups:
                    serves[name] = self.groups[name]
                elif column.type == "term" and fold(name) not in self.terms:
                    place.mistake(
                        f"`{row[column.name]}` is in no group of terms",
                        expected="a term of groups.yaml, or the name of a group",
                        near=nearest(name, [*self.terms, *self.groups]),
                    )
        return serves


def _columns(entry: Entry, *, keys: bool) -> tuple[Column, ...] | None:
    columns: list[Column] = []
    for name, written in entry.items("keys" if keys else "gives"):
        kind: Entry | None = written
        match: Match | None = "exact"
        if keys and written.is_mapping:
            fields = written.fields(f"the column `{name}`", ("is", "match"), ("is",)) or {}
            kind = fields.get("is")
            match = fields["match"].choice("match", MATCHES) if "match" in fields else "exact"
        if kind is None or match is None:
            return None
        word = kind.choice(f"the column `{name}`", ("text", "term", *dim.BY_NAME))
        if word is None:
            return None
        type: Dimension | Literal["text", "term"] = "term" if word == "term" else dim.BY_NAME.get(word, "text")
        if not isinstance(type, Dimension) and match != "exact":
            written.mistake(
                f"the column `{name}` holds words: they can only be matched exactly", expected="match: exact"
            )
            return None
        columns.append(Column(_identifier(name), type, match))
    if not columns and not keys:
        entry.mistake("a table gives at least one column", expected="gives: {embedment: length}")
        return None
    return tuple(columns)


def _row(entry: Entry, keys: tuple[Column, ...], gives: tuple[Column, ...]) -> dict[str, tuple[Cell, str]] | None:
    """The cells of a row, each with its text; `none` leaves a given cell out."""
    columns = (*keys, *gives)
    named = ", ".join(column.name for column in columns)
    if entry.is_mapping:
        written = {_identifier(key): cell for key, cell in entry.items("a row")}
        for key in written.keys() - {column.name for column in columns}:
            written[key].mistake(
                f"the table has no column `{key}`",
                expected=named,
                near=nearest(key, [column.name for column in columns]),
                at="key",
            )
        missing = [column.name for column in columns if column.name not in written]
        if missing:
            entry.mistake(f"the row has no {', '.join(missing)}", expected=named)
            return None
        cells = [written[column.name] for column in columns]
    else:
        cells = entry.members("a row")
        if len(cells) != len(columns):
            entry.mistake(f"the row has {len(cells)} cells, the table {len(columns)} columns", expected=named)
            return None
    row: dict[str, tuple[Cell, str]] = {}
    for column, cell in zip(columns, cells, strict=True):
        text = cell.text(column.name)
        if text is None:
            return None
        if column in gives and fold(text) == "none":
            continue
        value = read_figure(cell, column.type) if isinstance(column.type, Dimension) else text
        if value is None:
            return None
        row[column.name] = (value, text)
    return row


def _unlike_rows(
    keys: tuple[Column, ...],
    rows: tuple[Mapping[str, Cell], ...],
    places: list[Entry],
    serves: Mapping[str, frozenset[str]],
) -> None:
    """A mistake for each row that the one before it already says, by the same words or by groups that share a term."""
    seen: dict[tuple[object, ...], Place] = {}
    for row, place in zip(rows, places, strict=True):
        combinations: list[tuple[object, ...]] = [()]
        for column in keys:
            cell = row[column.name]
            # A term itself and a term by way of its group are unlike: the first goes before the second.
            choices: list[object]
            if isinstance(cell, str) and cell in serves:
                choices = [(term, "by group") for term in sorted(serves[cell])]
            else:
                choices = [fold(cell) if isinstance(cell, str) else cell]
            combinations = [(*start, choice) for start in combinations for choice in choices]
        first = next((seen[keys_of_row] for keys_of_row in combinations if keys_of_row in seen), None)
        if first is not None:
            said = ", ".join(str(row[column.name]) for column in keys if not isinstance(column.type, Dimension))
            place.mistake(f"two rows serve the same keys{': ' + said if said else ''}", also=(first,))
        for combination in combinations:
            seen.setdefault(combination, place.place)


def _in_order(keys: tuple[Column, ...], rows: tuple[Mapping[str, Cell], ...], places: list[Entry]) -> None:
    """A mistake for each row whose number goes back, where a key is matched by `up to` or `from`."""
    exact = [column for column in keys if column.match == "exact"]
    ranged = [column for column in keys if column.match != "exact"]
    for number, column in enumerate(ranged):
        fixed = [*exact, *ranged[:number]]
        last: dict[tuple[Cell, ...], float] = {}
        for row, place in zip(rows, places, strict=True):
            group = tuple(row[other.name] for other in fixed)
            value = float(row[column.name])
            if value < last.get(group, value):
                place.mistake(
                    f"the rows are not in order of `{column.name}`, which is matched by `{column.match}`",
                    expected="the smallest first",
                )
            last[group] = value


def _identifier(name: str) -> str:
    return fold(name).replace(" ", "_")
