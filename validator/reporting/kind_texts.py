"""The kinds of row in words: what a rule can be about, and the names, units and words that it can use there."""

from __future__ import annotations

import inspect
from collections.abc import Iterator

from validator.measures.catalogue import MEASURES
from validator.measures.rows import Field, FieldType, Figure, GroupWords, Row, Words, YesNo
from validator.measures.site import row_class
from validator.plan.dimensions import Dimension
from validator.plan.names import fold, nearest
from validator.plan.units import units_of
from validator.reporting.columns import columns, tamed, wrap
from validator.reporting.lines import WIDTH

NAME_COLUMN = 22


def kind_list() -> str:
    """Every kind of row with what it stands for and the figures it has."""
    lines: list[str] = []
    for kind in MEASURES:
        row = row_class(kind)
        lines.append(kind)
        lines += _indented(_says(row)[0], 2)
        if row.figures:
            lines += _indented(f"figures: {', '.join(row.figures)}", 2)
        lines.append("")
    lines += wrap(f"{len(MEASURES)} kinds. `dryfit rules --kinds KIND` prints one with its fields and units.", WIDTH)
    return tamed("\n".join(lines) + "\n")


def one_kind(name: str) -> tuple[str, bool]:
    """All that a rule can use of a kind, and whether there is such a kind; else the nearest."""
    kind = next((kind for kind in MEASURES if fold(kind) == fold(name)), None)
    if kind is None:
        near = nearest(name, MEASURES)
        hint = f" Perhaps «{near}» was meant." if near else ""
        return tamed(f"There is no kind of row «{name}».{hint} `dryfit rules --kinds` lists them all.\n"), False
    return tamed("\n".join(_kind(kind)) + "\n"), True


def _kind(kind: str) -> Iterator[str]:
    row = row_class(kind)
    yield f"each: {kind}"
    for part in _says(row):
        yield from _indented(part, 2)
    yield ""
    yield "figures, which a rule can limit:"
    for figure in row.figures.values():
        yield from _entry(figure.name, _figure(figure))
    yield from () if row.figures else _indented("none: use `holds`, or a field", 2)
    yield ""
    yield "fields, for conditions, limits and remedies:"
    for name, field in row.fields.items():
        yield from _entry(name, _field(field))


def _figure(figure: Figure) -> str:
    datum = f", from {figure.start} to {figure.end}" if figure.start and figure.end else ""
    return f"{figure.label}{datum}. {_sort(figure.dimension)}"


def _field(field: Field) -> str:
    if field.many:
        return f"{field.label}. Several, which only figures sum up; a rule cannot name it"
    return f"{field.label}. {_sort(field.type)}"


def _sort(type: FieldType) -> str:
    """What values of a type are, with their units or words."""
    if isinstance(type, Dimension):
        return f"{type.name.capitalize()} ({units_of(type)})"
    if isinstance(type, Words):
        return "One of " + ", ".join(f"'{word}'" for word in type.words)
    if isinstance(type, GroupWords):
        return "A term of rules/groups.yaml, for `in` a group"
    return "Yes or no, which stands alone or behind `not`" if isinstance(type, YesNo) else "A name, to be printed only"


def _says(row: type[Row]) -> list[str]:
    """What the kind stands for, a paragraph each."""
    return [" ".join(part.split()) for part in (inspect.getdoc(row) or "").split("\n\n")]


def _entry(name: str, text: str) -> Iterator[str]:
    room = WIDTH - NAME_COLUMN
    for number, line in enumerate(wrap(text, room)):
        start = f"  {name} " if number == 0 else ""
        if columns(start) > NAME_COLUMN:
            yield start.rstrip()
            start = ""
        yield f"{start:<{NAME_COLUMN}}{line}"


def _indented(text: str, indent: int) -> Iterator[str]:
    for line in wrap(text, WIDTH - indent):
        yield " " * indent + line
