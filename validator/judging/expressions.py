"""The language of conditions and limits in rules. (contract)

A small part of Python's expressions, read with `ast` after masking the quantity literals, typed and dimension-checked
against one kind of row, kept as plain JSON trees and built into closures on first use. No eval, exec, compile, marshal.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from validator.measures.rows import FieldType, Row
from validator.plan.dimensions import Dimension

Value = float | str | bool
Names = Mapping[str, Value]


@dataclass(frozen=True, slots=True)
class Scope:
    """What the names of an expression mean: `names` maps each to its type (fields, figures, need/have/short in remedies,
    own values); `groups` maps each group to its terms; `what` is said in errors («a row of 'hob under hood'»)."""

    names: Mapping[str, FieldType]
    groups: Mapping[str, frozenset[str]]
    what: str


class BadExpression(ValueError):
    """An expression that does not check: message, position in the text, nearest valid name."""

    def __init__(self, message: str, offset: int = 0, nearest: str = "") -> None:
        super().__init__(message)
        self.message, self.offset, self.nearest = message, offset, nearest


@dataclass(frozen=True, slots=True)
class Expression:
    """A checked expression: its text, its type, its tree as plain JSON, and the names it reads."""

    text: str
    type: FieldType
    tree: Any
    reads: frozenset[str]

    def evaluate(self, row: Row, extra: Names = {}) -> Value:
        """The value for a row; `extra` gives names that are not of the row. Raises NotKnown by Kleene's rules: an `and`
        with a false side is false, an `or` with a true side true, whatever the other side is."""
        raise NotImplementedError


@dataclass(frozen=True, slots=True)
class Template:
    """A text with `{expressions}`: the pieces of text, and between them the expressions with their types."""

    text: str
    pieces: tuple[str | Expression, ...]

    def fill(self, row: Row, extra: Names, show: Callable[[Value, FieldType], str]) -> str:
        """The text with every expression worked out and shown; what is not known shows as `…`."""
        raise NotImplementedError


def read_expression(text: str, scope: Scope, wanted: FieldType | None = None) -> Expression:
    """Read and check; `wanted` is the type it must have (YES_NO for conditions, a Dimension for limits)."""
    raise NotImplementedError


def read_template(text: str, scope: Scope) -> Template:
    raise NotImplementedError


def is_dimension(type: FieldType) -> bool:
    return isinstance(type, Dimension)
