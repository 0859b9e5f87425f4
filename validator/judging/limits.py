"""Reading what a rule asks of its figure: bounds that are expressions, rows of tables, or words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal, NamedTuple

from validator.judging.expressions import BadExpression, Expression, Scope, read_expression
from validator.judging.rules import Limit, TableRow
from validator.measures.rows import FieldType, GroupWords, Row, Words
from validator.plan.dimensions import Dimension
from validator.plan.names import fold, nearest
from validator.reference.entries import Entry
from validator.reference.library import Column, Library, Table

NumberBound = Literal["at least", "at most", "equals"]
OF_NUMBERS: tuple[NumberBound, ...] = ("at least", "at most", "equals")
OF_WORDS = ("one of", "equals")
BOUNDS = ("at least", "at most", "within", "equals", "one of")


def identifier(name: str) -> str:
    """The form of a name that expressions use: `plug diameter` is `plug_diameter`."""
    return fold(name).replace(" ", "_")


def expression(entry: Entry, scope: Scope, wanted: FieldType) -> Expression | None:
    """The expression written here, of the type wanted; None after a mistake."""
    text = entry.text("an expression")
    if text is None:
        return None
    try:
        return read_expression(text, scope, wanted)
    except BadExpression as bad:
        entry.mistake(bad.message, near=bad.nearest, offset=bad.offset)
        return None


class LimitReader(NamedTuple):
    """Reads the limits of one rule: `row` is the kind of row it judges, `type` the type of its figure."""

    library: Library
    scope: Scope
    row: type[Row]
    type: FieldType

    def read(self, fields: Mapping[str, Entry]) -> tuple[Limit, ...]:
        """Every bound the rule gives; those with a mistake are left out, and the mistake noted."""
        return tuple(limit for bound in BOUNDS if bound in fields for limit in self._bound(bound, fields[bound]))

    def _bound(self, bound: str, entry: Entry) -> Iterator[Limit]:
        if not isinstance(self.type, Dimension):
            yield from self._words(bound, entry)
        elif bound == "within":
            yield from self._within(entry)
        elif bound == "one of":
            entry.mistake(
                f"a {self.type.name} is not one of several words",
                expected="at_least, at_most, within or equals",
                at="key",
            )
        else:
            number_bound = next(word for word in OF_NUMBERS if word == bound)
            for member in entry.members(bound) if entry.is_list else [entry]:
                yield from self._number(number_bound, member)

    def _within(self, entry: Entry) -> Iterator[Limit]:
        ends = entry.members("within")
        if entry.is_list and len(ends) != 2:
            entry.mistake("within has two ends", expected="within: [the least, the most]")
            return
        for end, bound in zip(ends, OF_NUMBERS, strict=False):
            yield from self._number(bound, end)

    def _number(self, bound: NumberBound, entry: Entry) -> Iterator[Limit]:
        if entry.is_mapping:
            row = self._table_row(entry)
            if row is not None:
                yield Limit(bound, row=row)
            return
        found = expression(entry, self.scope, self.type)
        if found is not None:
            yield Limit(bound, found)

    def _words(self, bound: str, entry: Entry) -> Iterator[Limit]:
        if bound not in OF_WORDS:
            entry.mistake("the figure is a word: it has no least and no most", expected="one_of or equals", at="key")
            return
        members = entry.members("one of") if bound == "one of" else [entry]
        words = tuple(word for member in members if (word := self._word(member)) is not None)
        if words and len(words) == len(members):
            yield Limit("one of" if bound == "one of" else "equals", words=words)

    def _word(self, entry: Entry) -> str | None:
        if isinstance(self.type, Words):
            return entry.choice("the figure", self.type.words)
        text = entry.text("a word")
        if text is None:
            return None
        terms = {term for group in self.library.groups.values() for term in group}
        if fold(text) not in terms:
            entry.mistake(
                f"`{text}` is in no group of terms", expected="a term of groups.yaml", near=nearest(text, terms)
            )
            return None
        return fold(text)

    def _table_row(self, entry: Entry) -> TableRow | None:
        needed = ("table", "by", "gives")
        fields = entry.fields("a table's row", needed, needed)
        if fields is None or any(name not in fields for name in needed):
            return None
        name = fields["table"].text("table")
        tables = self.library.tables.get(name or "", ())
        if name is not None and not tables:
            fields["table"].mistake(f"there is no table `{name}`", near=nearest(name, self.library.tables))
        gives, by = fields["gives"].text("gives"), dict(fields["by"].items("by"))
        if not tables or name is None or gives is None:
            return None
        table = tables[0]  # tables of one name have the same columns
        self._gives(table, gives, fields["gives"])
        return TableRow(name, gives, self._by(tables, by, fields["by"]))

    def _gives(self, table: Table, gives: str, entry: Entry) -> None:
        column = next((column for column in table.gives if column.name == gives), None)
        if column is None:
            names = [column.name for column in table.gives]
            entry.mistake(
                f"the table `{table.name}` does not give `{gives}`",
                expected=", ".join(names),
                near=nearest(gives, names),
            )
        elif not _alike(column.type, self.type):
            entry.mistake(f"`{gives}` is a {_named(column.type)}, the figure a {_named(self.type)}")

    def _by(self, tables: tuple[Table, ...], by: Mapping[str, Entry], whole: Entry) -> dict[str, str]:
        table = tables[0]
        names = [column.name for column in table.keys]
        for key, entry in by.items():
            if identifier(key) not in names:
                expected = ", ".join(names) or "by: {}"
                entry.mistake(
                    f"the table `{table.name}` has no key `{key}`",
                    expected=expected,
                    near=nearest(key, names),
                    at="key",
                )
        found: dict[str, str] = {}
        given = {identifier(key): entry for key, entry in by.items()}
        for column in table.keys:
            if column.name not in given:
                whole.mistake(
                    f"the table `{table.name}` is also looked up by `{column.name}`", expected=", ".join(names)
                )
                continue
            field = self._key(tables, column, given[column.name])
            if field is not None:
                found[column.name] = field
        return found

    def _key(self, tables: tuple[Table, ...], column: Column, entry: Entry) -> str | None:
        text = entry.text(column.name)
        if text is None:
            return None
        name = identifier(text)
        types = types_of(self.row)
        if name not in types:
            entry.mistake(f"{self.scope.what} has no `{text}`", expected=", ".join(types), near=nearest(name, types))
            return None
        type = types[name]
        if not _alike(column.type, type):
            entry.mistake(f"the key `{column.name}` is a {_named(column.type)}, `{name}` a {_named(type)}")
            return None
        known = self._known_words(type)
        if known is not None:
            for table in tables:
                strange = sorted(set(table.words(column.name)) - known)
                if strange:
                    entry.mistake(
                        f"the table `{table.name}` for {table.covers} has `{strange[0]}`, which `{name}` never is",
                        expected=", ".join(sorted(known)) if isinstance(type, Words) else "terms of groups.yaml",
                        near=nearest(strange[0], known),
                        also=(table.place,),
                    )
        return name

    def _known_words(self, type: FieldType) -> set[str] | None:
        if isinstance(type, Words):
            return {fold(word) for word in type.words}
        if isinstance(type, GroupWords):
            return {term for group in self.library.groups.values() for term in group}
        return None


def types_of(row: type[Row]) -> dict[str, FieldType]:
    """The figures of a row and the fields of it that hold one value, with their types."""
    types: dict[str, FieldType] = {name: figure.dimension for name, figure in row.figures.items()}
    return types | {name: field.type for name, field in row.fields.items() if not field.many}


def _alike(column: Dimension | Literal["text", "term"], type: FieldType) -> bool:
    if isinstance(column, Dimension):
        return isinstance(type, Dimension) and column.same_as(type)
    return isinstance(type, GroupWords) if column == "term" else isinstance(type, Words | GroupWords)


def _named(type: FieldType | Literal["text", "term"]) -> str:
    if isinstance(type, Dimension):
        return type.name
    if type == "term" or isinstance(type, GroupWords):
        return "term of the trade"
    return "word" if isinstance(type, str | Words) else "name"
