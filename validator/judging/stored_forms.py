"""The forms in which checked books are kept as plain JSON, and how what is read back is looked at.

A form is a pair of functions: one writes a value as plain data, the other reads it and refuses every other shape. A
record is a list of its fields in their order, so that a field without a form is noticed at once.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from validator.judging.books import Books
from validator.judging.expression_trees import type_as_json, type_from_json
from validator.judging.expressions import Expression, Template
from validator.judging.rules import SEVERITIES, Book, Change, Citation, Limit, Rule, TableRow, Trial
from validator.plan.dimensions import Dimension
from validator.plan.problems import Place
from validator.reference.cautions import SIGNALS, Caution
from validator.reference.documents import SEEN, STANDINGS, Document
from validator.reference.library import Library
from validator.reference.lists import UsualOrder, UsualTask
from validator.reference.tables import Column, Table

LARGEST_TRIAL = 30


class Damaged(ValueError):
    """Stored data that was not written by this program."""


class Form(NamedTuple):
    """How a value is written as plain data and read back; `read` raises Damaged, or BadExpression for a tree."""

    write: Callable[[Any], Any]
    read: Callable[[Any], Any]


def _as_it_is(value: Any) -> Any:
    return value


def _exactly(*types: type) -> Form:
    """Plain data of these types; True is no number here."""

    def read(data: Any) -> Any:
        if type(data) not in types:
            raise Damaged(f"{data!r:.80}")
        return data

    return Form(_as_it_is, read)


def _one_of(*words: str) -> Form:
    known = {word: word for word in words}

    def read(data: Any) -> str:
        found = known.get(data) if type(data) is str else None
        if found is None:
            raise Damaged(f"{data!r:.80}")
        return found

    return Form(_as_it_is, read)


def _finite(data: Any) -> float:
    if type(data) is not float or not math.isfinite(data):
        raise Damaged(f"{data!r:.80}")
    return data


def _cell(data: Any) -> float | str:
    return data if type(data) is str else _finite(data)


def _or_none(form: Form) -> Form:
    return Form(
        lambda value: None if value is None else form.write(value),
        lambda data: None if data is None else form.read(data),
    )


def _tuple_of(form: Form) -> Form:
    def read(data: Any) -> tuple[Any, ...]:
        if type(data) is not list:
            raise Damaged(f"{data!r:.80}")
        return tuple(map(form.read, data))

    return Form(lambda value: [form.write(each) for each in value], read)


def _by_name(form: Form) -> Form:
    def read(data: Any) -> dict[str, Any]:
        if type(data) is not dict:
            raise Damaged(f"{data!r:.80}")
        return {name: form.read(value) for name, value in data.items()}

    return Form(lambda value: {name: form.write(each) for name, each in value.items()}, read)


def _terms(data: Any) -> frozenset[str]:
    return frozenset(_tuple_of(TEXT).read(data))


def _written(data: Any, depth: int = LARGEST_TRIAL) -> Any:
    """Plain data as a plan is written: text, lists and mappings."""
    if type(data) is str:
        return data
    if depth and type(data) is list:
        return [_written(each, depth - 1) for each in data]
    if depth and type(data) is dict:
        return {name: _written(value, depth - 1) for name, value in data.items()}
    raise Damaged(f"{data!r:.80}")


def _column_type(data: Any) -> Any:
    return data if data in ("text", "term") else _dimension(data)


def _dimension(data: Any) -> Dimension:
    type_ = type_from_json(data)
    if not isinstance(type_, Dimension):
        raise Damaged(f"{data!r:.80}")
    return type_


def _nothing_own(value: Mapping[str, Any]) -> None:
    """Only the household's rules have values of its own, and those are never kept."""
    if value:
        raise Damaged("own values")


def _record(made: Callable[..., Any], **forms: Form) -> Form:
    """A dataclass or named tuple as the list of its fields; the forms are given for all of them in their order."""
    assert tuple(forms) == tuple(made.__annotations__), made
    readers = [form.read for form in forms.values()]
    writers = [(name, form.write) for name, form in forms.items()]

    def read(data: Any) -> Any:
        if type(data) is not list or len(data) != len(readers):
            raise Damaged(f"{data!r:.80}")
        return made(*[read(part) for read, part in zip(readers, data, strict=True)])

    return Form(lambda value: [write(getattr(value, name)) for name, write in writers], read)


TEXT = _exactly(str)
TEXTS = _tuple_of(TEXT)
YES = _exactly(bool)
COUNT = _exactly(int)
NUMBER = Form(float, _finite)
TRIED = Form(_as_it_is, _written)
EXPRESSION = Form(Expression.as_json, Expression.from_json)
TEMPLATE = Form(Template.as_json, Template.from_json)
DIMENSION = Form(type_as_json, _dimension)

PLACE = _record(Place, file=TEXT, line=COUNT, column=COUNT)
BOOK = _record(Book, title=TEXT, covers=TEXT, edition=TEXT, place=PLACE, given=YES)
CITATION = _record(
    Citation,
    document=TEXT,
    title=TEXT,
    edition=TEXT,
    clause=TEXT,
    standing=_one_of(*STANDINGS),
    seen=_one_of(*SEEN, ""),
    note=TEXT,
)
TABLE_ROW = _record(TableRow, table=TEXT, gives=TEXT, by=_by_name(TEXT))
LIMIT = _record(
    Limit,
    bound=_one_of("at least", "at most", "equals", "one of"),
    expression=_or_none(EXPRESSION),
    row=_or_none(TABLE_ROW),
    words=TEXTS,
)
TRIAL = _record(Trial, plan=TEXT, vary=TEXT, met=TRIED, not_met=TRIED, thing=TEXT, on=TEXT)
RULE = _record(
    Rule,
    name=TEXT,
    title=TEXT,
    book=TEXT,
    covers=TEXT,
    each=TEXT,
    severity=_one_of(*SEVERITIES),
    before=TEXT,
    because=TEXT,
    remedy=TEMPLATE,
    source=CITATION,
    place=PLACE,
    when=_or_none(EXPRESSION),
    figure=TEXT,
    dimension=_or_none(DIMENSION),
    limits=_tuple_of(LIMIT),
    holds=_or_none(EXPRESSION),
    stated=TEXTS,
    tolerance=_or_none(NUMBER),
    measured=TEXT,
    aliases=TEXTS,
    tried=_tuple_of(TRIAL),
    changes=_by_name(TEXT),
    own=Form(_nothing_own, lambda data: {}),
)
BOOKS = _record(
    Books,
    rules=_tuple_of(RULE),
    country_missing=YES,
    applied=TEXT,
    books=_tuple_of(BOOK),
    withdrawn=_by_name(TEXT),
    changed=_tuple_of(_record(Change, rule=TEXT, how=TEXT, why=TEXT, book=TEXT, before=TEXT)),
    elsewhere=_by_name(TEXT),
    digest=TEXT,
    left_aside=_tuple_of(BOOK),
)

COLUMN = _record(
    Column,
    name=TEXT,
    type=Form(lambda type_: type_ if isinstance(type_, str) else type_as_json(type_), _column_type),
    match=_one_of("exact", "up to", "from"),
)
TERMS = _by_name(Form(sorted, _terms))
TABLE = _record(
    Table,
    name=TEXT,
    title=TEXT,
    covers=TEXT,
    keys=_tuple_of(COLUMN),
    gives=_tuple_of(COLUMN),
    rows=_tuple_of(_by_name(Form(_as_it_is, _cell))),
    texts=_tuple_of(_by_name(TEXT)),
    source=CITATION,
    place=PLACE,
    serves=TERMS,
)
LIBRARY = _record(
    Library,
    documents=_by_name(
        _record(
            Document,
            name=TEXT,
            title=TEXT,
            edition=TEXT,
            standing=_one_of(*STANDINGS),
            seen=_one_of(*SEEN),
            place=PLACE,
        )
    ),
    tables=_by_name(_tuple_of(TABLE)),
    groups=TERMS,
    stages=_by_name(TEXT),
    words=_by_name(_by_name(TEXT)),
    questions=_by_name(TEXT),
    order=_or_none(
        _record(
            UsualOrder,
            title=TEXT,
            tasks=_by_name(_record(UsualTask, name=TEXT, after=TEXTS, trade=TEXT, dries=TEXT)),
            source=CITATION,
        )
    ),
    texts=_by_name(TEXT),
    cautions=_tuple_of(
        _record(
            Caution,
            name=TEXT,
            signal=_one_of(*SIGNALS),
            says=TEXT,
            kinds=TEXTS,
            built_before=_or_none(COUNT),
            covers=TEXT,
            heaviest=TEXTS,
            source=CITATION,
        )
    ),
)
