"""Checked expressions as plain JSON: the shapes a tree may have, and how a type is written beside it.

A tree is a list: a word that says what it is, then its parts. Whatever is read back from a file is checked here before
it is used, so that a damaged file is refused and can reach nothing but values of a row, by name.

    ["number", 650.0]   ["read", "number", "clearance"]   ["negative", tree]   ["+", tree, tree]   ["<", tree, tree]
    ["in", ["read", "word", "fuel"], ["gas", "induction"]]   ["not", tree]   ["and", tree, tree, …]
    ["in", ["read", "term", "base"], ["brick", "stone"], [every other term there is]]
"""

from __future__ import annotations

import math
from typing import Any, Literal

from validator.measures.rows import NAME, TERM, YES_NO, FieldType, Name, Words, YesNo
from validator.plan.dimensions import Dimension

Tree = list[Any]
Sort = Literal["number", "word", "term", "name", "yes or no"]
"""What a value is when it is evaluated: a float, one of the field's words, a term of the trade, a name, a bool."""

SORTS: tuple[Sort, ...] = ("number", "word", "term", "name", "yes or no")
ARITHMETIC = frozenset("+-*/")
COMPARISONS = frozenset(("==", "!=", "<", "<=", ">", ">="))

DEEPEST = 125
"""How deep a tree may go: a little more than the number of words and signs a text may have."""


class BadExpression(ValueError):
    """An expression that does not check: message, position in the text, nearest valid name."""

    def __init__(self, message: str, offset: int = 0, nearest: str = "") -> None:
        super().__init__(message)
        self.message, self.offset, self.nearest = message, offset, nearest


DAMAGED = "this was not written by reading an expression"


def sort_of(type: FieldType) -> Sort:
    """What a value of this type is when it is evaluated."""
    if isinstance(type, Dimension):
        return "number"
    if isinstance(type, Words):
        return "word"
    if isinstance(type, YesNo):
        return "yes or no"
    return "name" if isinstance(type, Name) else "term"


def inspect(tree: object, names: set[str], depth: int = DEEPEST) -> Sort:
    """The sort of a tree, whose names are added to `names`. Raises BadExpression for any shape but the ones above."""
    if not isinstance(tree, list) or len(tree) < 2 or not isinstance(tree[0], str) or not depth:
        raise BadExpression(DAMAGED)
    head, *parts = tree
    if head == "number":
        return _number(parts)
    if head == "read":
        return _read(parts, names)
    if head == "in":
        return _in(parts, names)
    sorts = [inspect(part, names, depth - 1) for part in parts]
    if head in ARITHMETIC and sorts == ["number", "number"]:
        return "number"
    if head == "negative" and sorts == ["number"]:
        return "number"
    if head in COMPARISONS and sorts == ["number", "number"]:
        return "yes or no"
    if head == "not" and sorts == ["yes or no"]:
        return "yes or no"
    if head in ("and", "or") and len(sorts) > 1 and set(sorts) == {"yes or no"}:
        return "yes or no"
    raise BadExpression(DAMAGED)


def _number(parts: Tree) -> Sort:
    if len(parts) == 1 and isinstance(parts[0], float) and math.isfinite(parts[0]):
        return "number"
    raise BadExpression(DAMAGED)


def _read(parts: Tree, names: set[str]) -> Sort:
    if len(parts) == 2 and isinstance(parts[1], str):
        for sort in SORTS:
            if parts[0] == sort:
                names.add(parts[1])
                return sort
    raise BadExpression(DAMAGED)


def _in(parts: Tree, names: set[str]) -> Sort:
    match parts:
        case [["read", *read], [*words]]:
            wanted, lists = "word", [words]
        case [["read", *read], [*words], [*others]]:
            wanted, lists = "term", [words, others]
        case _:
            raise BadExpression(DAMAGED)
    if not words or _read(read, names) != wanted or any(set(map(type, one)) - {str} for one in lists):
        raise BadExpression(DAMAGED)
    return "yes or no"


def type_as_json(type: FieldType) -> list[Any]:
    """A type as plain JSON, for `type_from_json`."""
    if isinstance(type, Dimension):
        return ["number", type.name, list(type.powers), type.kind, type.point]
    if isinstance(type, Words):
        return ["word", *type.words]
    return [sort_of(type)]


def type_from_json(data: object) -> FieldType:
    """The type written by `type_as_json`. Raises BadExpression for anything else."""
    match data:
        case ["number", str(name), list(powers), str(kind), bool(point)]:
            if len(powers) == 6 and set(map(type, powers)) == {int}:
                a, b, c, d, e, f = powers
                return Dimension(name, (a, b, c, d, e, f), kind, point)
        case ["word", *words] if words:
            known = tuple(word for word in words if isinstance(word, str))
            if len(known) == len(words):
                return Words(known)
        case ["term"]:
            return TERM
        case ["yes or no"]:
            return YES_NO
        case ["name"]:
            return NAME
    raise BadExpression(DAMAGED)
