"""The language of conditions and limits in rules.

A small part of Python's expressions, typed and dimension-checked against one kind of row, kept as plain JSON and built
into functions on first use. Reading one needs modules that a check with stored rules never loads.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from validator.judging.expression_closures import Names, Value, built
from validator.judging.expression_trees import (
    DAMAGED,
    BadExpression,
    Tree,
    inspect,
    sort_of,
    type_as_json,
    type_from_json,
)
from validator.measures.rows import FieldType, NotKnown, Row

__all__ = [
    "BadExpression",
    "Expression",
    "Names",
    "Scope",
    "Template",
    "Value",
    "read_expression",
    "read_template",
    "scope_of",
]

LONGEST_TEMPLATE = 2000
UNKNOWN = "…"
NO_NAMES: Names = {}
Evaluate = Callable[[Row, Names], Value]
RowClass = type[Row]


class Scope(NamedTuple):
    """What the names of an expression mean.

    `names` maps each to its type (fields, figures, need, have, short, own values); `groups` maps each group to
    its folded terms; `what` is said in errors («a row of 'hob under hood'»); `lists` are fields only figures may use.
    """

    names: Mapping[str, FieldType]
    groups: Mapping[str, frozenset[str]]
    what: str
    lists: frozenset[str] = frozenset()


def scope_of(
    kind: type[Row], groups: Mapping[str, frozenset[str]], extra: Mapping[str, FieldType] | None = None
) -> Scope:
    """The scope of rules about one kind of row; `extra` are names given at evaluation (need, have, short, own values).

    Raises BadExpression where one of them would hide a field or figure.
    """
    extra = extra or {}
    names = {name: field.type for name, field in kind.fields.items() if not field.many}
    names |= {name: figure.dimension for name, figure in kind.figures.items()}
    lists = frozenset(kind.fields.keys() - names.keys())
    for name in extra:
        if name in names or name in lists:
            raise BadExpression(f"`{name}` is already a name in a row of {kind.kind!r}")
    return Scope({**names, **extra}, groups, f"a row of {kind.kind!r}", lists)


@dataclass(frozen=True, slots=True)
class Expression:
    """A checked expression: its text, its type, its tree as plain JSON, and the names it reads."""

    text: str
    type: FieldType
    tree: Tree = field(hash=False)
    reads: frozenset[str]
    _built: dict[RowClass, Evaluate] = field(default_factory=dict, init=False, compare=False, repr=False)

    def evaluate(self, row: Row, extra: Names = NO_NAMES) -> Value:
        """The value for a row; `extra` gives names that are not of the row. Raises NotKnown by Kleene's rules: an `and`
        with a false side is false, an `or` with a true side true, whatever the other side is."""
        run = self._built.get(type(row)) or self.built_for(type(row))
        return run(row, extra)

    def built_for(self, kind: RowClass) -> Evaluate:
        """The function that evaluates it for rows of one class, made on first use.

        Raises BadExpression where a name is a list of the row, or is of another sort than the expression takes it for.
        """
        run = self._built.get(kind)
        if run is None:
            run = self._built[kind] = built(self.tree, self.text, self.reads, kind)
        return run

    def as_json(self) -> list[Any]:
        """The expression as plain JSON, for `from_json`."""
        return [self.text, type_as_json(self.type), self.tree]

    @staticmethod
    def from_json(data: object) -> Expression:
        """The expression written by `as_json`. Raises BadExpression for anything else."""
        match data:
            case [str(text), written, list(tree)]:
                type = type_from_json(written)
                names: set[str] = set()
                if inspect(tree, names) == sort_of(type):
                    return Expression(text, type, tree, frozenset(names))
        raise BadExpression(DAMAGED)


class Template(NamedTuple):
    """A text with `{expressions}`: the pieces of text, and between them the expressions with their types."""

    text: str
    pieces: tuple[str | Expression, ...]

    def fill(self, row: Row, extra: Names, show: Callable[[Value, FieldType], str]) -> str:
        """The text with every expression worked out and shown; what is not known shows as `…`."""
        return "".join(piece if isinstance(piece, str) else _shown(piece, row, extra, show) for piece in self.pieces)

    def as_json(self) -> list[Any]:
        """The template as plain JSON, for `from_json`."""
        return [self.text, *(piece if isinstance(piece, str) else piece.as_json() for piece in self.pieces)]

    @staticmethod
    def from_json(data: object) -> Template:
        """The template written by `as_json`. Raises BadExpression for anything else."""
        match data:
            case [str(text), *pieces]:
                read = (piece if isinstance(piece, str) else Expression.from_json(piece) for piece in pieces)
                return Template(text, tuple(read))
        raise BadExpression(DAMAGED)


def _shown(expression: Expression, row: Row, extra: Names, show: Callable[[Value, FieldType], str]) -> str:
    try:
        return show(expression.evaluate(row, extra), expression.type)
    except NotKnown:
        return UNKNOWN


def read_expression(text: str, scope: Scope, wanted: FieldType | None = None) -> Expression:
    """Read and check; `wanted` is the type it must have (YES_NO for conditions, a Dimension for limits)."""
    from validator.judging.expression_reading import read_tree

    tree, type = read_tree(text, scope, wanted)
    names: set[str] = set()
    inspect(tree, names)
    return Expression(text, type, tree, frozenset(names))


def read_template(text: str, scope: Scope) -> Template:
    """Read a text with `{expressions}`; `{{` and `}}` stand for braces. Offsets count in the whole text."""
    if len(text) > LONGEST_TEMPLATE:
        raise BadExpression(
            f"a text may have {LONGEST_TEMPLATE} characters, and this has {len(text)}", LONGEST_TEMPLATE
        )
    return Template(text, tuple(_pieces(text, scope)))


def _pieces(text: str, scope: Scope) -> Iterable[str | Expression]:
    plain = ""
    at = 0
    while at < len(text):
        letter = text[at]
        if text[at : at + 2] in ("{{", "}}"):
            plain += letter
            at += 2
        elif letter == "{":
            end = text.find("}", at)
            if end < 0:
                raise BadExpression("this brace is never closed; {{ stands for a brace itself", at)
            if plain:
                yield plain
                plain = ""
            yield _placed(text[at + 1 : end], at + 1, scope)
            at = end + 1
        elif letter == "}":
            raise BadExpression("no brace is open before this one; }} stands for a brace itself", at)
        else:
            plain += letter
            at += 1
    if plain:
        yield plain


def _placed(text: str, start: int, scope: Scope) -> Expression:
    try:
        return read_expression(text, scope)
    except BadExpression as problem:
        raise BadExpression(problem.message, start + problem.offset, problem.nearest) from None
