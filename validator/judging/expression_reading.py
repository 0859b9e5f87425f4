"""Reading an expression: its types and dimensions checked against what its names mean, as a tree of plain JSON.

Python's own parser settles what binds tighter; it only ever sees operators, brackets and `_`, because every name, word
and quantity was replaced by `_` beforehand. Nothing is compiled or evaluated.
"""

from __future__ import annotations

import ast
import math
import threading
from collections.abc import Iterable, Mapping
from functools import cached_property
from typing import NamedTuple, Protocol

from validator.judging.expression_tokens import Token, tokens
from validator.judging.expression_trees import BadExpression, Tree, sort_of
from validator.measures.rows import TERM, YES_NO, FieldType, GroupWords, Name, Words, YesNo
from validator.plan.dimensions import (
    BY_NAME,
    MONEY,
    NO_POWERS,
    NUMBER,
    Dimension,
    WrongDimension,
    added,
    divided,
    multiplied,
    subtracted,
)
from validator.plan.names import fold, nearest
from validator.plan.quantities import parse_literal
from validator.plan.units import PERCENT, called, units_of

ARITHMETIC: dict[type[ast.operator], str] = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/"}
COMPARISONS: dict[type[ast.cmpop], str] = {
    ast.Eq: "==",
    ast.NotEq: "!=",
    ast.Lt: "<",
    ast.LtE: "<=",
    ast.Gt: ">",
    ast.GtE: ">=",
}


_ONE_AT_A_TIME = threading.Lock()
"""Python 3.11 counts how deep a tree is for all threads together, and gives up when two of them parse at once."""


class Meanings(Protocol):
    """What the names of an expression mean (a Scope)."""

    @property
    def names(self) -> Mapping[str, FieldType]: ...
    @property
    def groups(self) -> Mapping[str, frozenset[str]]: ...
    @property
    def what(self) -> str: ...
    @property
    def lists(self) -> frozenset[str]: ...


class Part(NamedTuple):
    """A checked part: its tree, its type, where it starts; `bare` when it is made of numbers without a unit."""

    tree: Tree
    type: FieldType
    offset: int
    bare: bool = False


def read_tree(text: str, scope: Meanings, wanted: FieldType | None) -> tuple[Tree, FieldType]:
    """The tree and the type of a text. Raises BadExpression."""
    for name in sorted(scope.names.keys() & scope.groups.keys()):
        raise BadExpression(f"`{name}` is both a group and a name in {scope.what}: one of them needs another name")
    found = tokens(text)
    pieces: list[str] = []
    at: dict[int, Token] = {}
    width = 0
    for token in found:
        at[width] = token
        pieces.append("_" if token.is_operand else token.text)
        width += len(pieces[-1]) + 1
    with _ONE_AT_A_TIME:
        parsed = ast.parse(" ".join(pieces), mode="eval")
    part = _Reader(scope, at).part(parsed.body)
    return part.tree, _wanted(part, wanted)


def _wanted(part: Part, wanted: FieldType | None) -> FieldType:
    """The type of the whole, held to the one that is wanted."""
    found = part.type
    if wanted is None:
        return NUMBER if found == PERCENT else found
    if isinstance(found, Dimension) and isinstance(wanted, Dimension):
        found = _fitted(found, wanted)
        if found.same_as(wanted):
            return wanted
        if part.bare:
            raise _no_unit(part, wanted)
    if found != wanted:
        raise BadExpression(f"this is {in_words(found)}, where {in_words(wanted)} is wanted", part.offset)
    return found


def in_words(type: FieldType) -> str:
    """A type as said in a message: «a length», «a condition»."""
    if isinstance(type, Dimension):
        return called(type)
    if isinstance(type, Words):
        return "one of the words " + ", ".join(type.words)
    if isinstance(type, YesNo):
        return "a condition"
    return "a name" if isinstance(type, Name) else "a term of the trade"


def _is_ratio(dimension: Dimension) -> bool:
    return dimension.powers == NO_POWERS and not dimension.point


def _fitted(dimension: Dimension, other: Dimension) -> Dimension:
    """A written percentage is a percentage of whatever ratio stands on the other side."""
    return other if dimension == PERCENT and _is_ratio(other) else dimension


def _no_unit(part: Part, wanted: Dimension) -> BadExpression:
    hint = ""
    if part.tree[0] == "number" and wanted.name in BY_NAME and not wanted.point and wanted != MONEY:
        hint = f"; write {part.tree[1]:.15g} {units_of(wanted).split(',')[0]}"
    return BadExpression(f"a number without a unit is never {in_words(wanted)}{hint}", part.offset)


class _Reader:
    def __init__(self, scope: Meanings, at: Mapping[int, Token]) -> None:
        self.scope, self.at = scope, at

    @cached_property
    def terms(self) -> frozenset[str]:
        return frozenset[str]().union(*self.scope.groups.values())

    def token(self, node: ast.expr) -> Token:
        return self.at[node.col_offset]

    def part(self, node: ast.expr) -> Part:
        match node:
            case ast.Name():
                return self.operand(self.token(node))
            case ast.BoolOp(op=sign, values=sides):
                head = "and" if isinstance(sign, ast.And) else "or"
                return Part([head, *map(self.condition, sides)], YES_NO, self.token(node).offset)
            case ast.UnaryOp(op=ast.Not(), operand=side):
                return Part(["not", self.condition(side)], YES_NO, self.token(node).offset)
            case ast.UnaryOp(operand=side):
                return self.negative(self.token(node).offset, self.part(side))
            case ast.BinOp(left=left, op=operator, right=right):
                return self.arithmetic(self.part(left), ARITHMETIC[type(operator)], self.part(right))
            case ast.Compare(ops=[_, _, *_], comparators=[_, third, *_]):
                raise BadExpression("one comparison at a time: join two with and", self.token(third).offset)
            case ast.Compare(left=left, ops=[(ast.In() | ast.NotIn()) as sign], comparators=[right]):
                part = self.membership(left, right)
                return Part(["not", part.tree], YES_NO, part.offset) if isinstance(sign, ast.NotIn) else part
            case ast.Compare(left=left, ops=[operator], comparators=[right]):
                return self.comparison(left, COMPARISONS[type(operator)], right)
        raise BadExpression("a list in brackets can only stand behind `in`", self.token(node).offset)

    def operand(self, token: Token) -> Part:
        match token.kind:
            case "number":
                return Part(["number", _finite(float(token.text), token)], NUMBER, token.offset, bare=True)
            case "quantity":
                return self.quantity(token)
            case "word":
                raise BadExpression("a word in quotes can only be compared, as in `fuel == 'gas'`", token.offset)
        return self.name(token)

    def quantity(self, token: Token) -> Part:
        try:
            value, dimension = parse_literal(token.text)
        except ValueError as problem:
            raise BadExpression(str(problem), token.offset) from None
        return Part(["number", _finite(value, token)], dimension, token.offset)

    def name(self, token: Token) -> Part:
        name = token.text
        type = self.scope.names.get(name)
        if type is not None:
            return Part(["read", sort_of(type), name], type, token.offset)
        if name in self.scope.groups:
            raise BadExpression(f"`{name}` is a group of terms: it can only stand behind `in`", token.offset)
        if name in self.scope.lists:
            raise BadExpression(f"`{name}` is a list: use a figure of {self.scope.what} that sums it up", token.offset)
        raise BadExpression(
            f"there is no `{name}` in {self.scope.what}",
            token.offset,
            nearest(name, [*self.scope.names, *self.scope.groups]) or "",
        )

    def condition(self, node: ast.expr) -> Tree:
        part = self.part(node)
        if part.type != YES_NO:
            raise BadExpression(f"this is {in_words(part.type)}, where a condition is wanted", part.offset)
        return part.tree

    def number(self, part: Part) -> Dimension:
        if isinstance(part.type, Dimension):
            return part.type
        raise BadExpression(f"this is {in_words(part.type)}: only figures can be reckoned with", part.offset)

    def negative(self, offset: int, part: Part) -> Part:
        dimension = self.number(part)
        if dimension.point:
            raise BadExpression(f"{in_words(dimension)} has no opposite", offset)
        if part.tree[0] == "number":
            return Part(["number", -part.tree[1]], dimension, offset, part.bare)
        return Part(["negative", part.tree], dimension, offset, part.bare)

    def arithmetic(self, left: Part, sign: str, right: Part) -> Part:
        a, b = self.number(left), self.number(right)
        if sign == "/" and right.tree == ["number", 0.0]:
            raise BadExpression("nothing can be divided by 0", right.offset)
        try:
            if sign in "+-":
                a, b = _fitted(a, b), _fitted(b, a)
                found = added(a, b) if sign == "+" else subtracted(a, b)
            else:
                a, b = _spent(a, b), _spent(b, a)
                found = multiplied(a, b) if sign == "*" else divided(a, b)
        except WrongDimension as problem:
            for part, other in ((left, b), (right, a)):
                if part.bare and sign in "+-":
                    raise _no_unit(part, other) from None
            raise BadExpression(str(problem), right.offset) from None
        return Part([sign, left.tree, right.tree], found, left.offset, left.bare and right.bare)

    def comparison(self, left: ast.expr, sign: str, right: ast.expr) -> Part:
        if self.is_word(left):
            left, right = right, left
        if self.is_word(right):
            part = self.part_for_words(left, right)
            if sign not in ("==", "!="):
                raise BadExpression(f"words have no order: `{sign}` compares figures", self.token(right).offset)
            tree = self.among(part, [self.word(part.type, self.token(right))]).tree
            return Part(["not", tree] if sign == "!=" else tree, YES_NO, part.offset)
        first, second = self.part(left), self.part(right)
        a, b = _comparable(first), _comparable(second)
        a, b = _fitted(a, b), _fitted(b, a)
        if not a.same_as(b):
            for part, other in ((first, b), (second, a)):
                if part.bare:
                    raise _no_unit(part, other)
            raise BadExpression(f"{in_words(b)} cannot be compared with {in_words(a)}", second.offset)
        return Part([sign, first.tree, second.tree], YES_NO, first.offset)

    def membership(self, left: ast.expr, right: ast.expr) -> Part:
        if self.is_word(left):
            raise BadExpression("a word in quotes stands behind `in`, in brackets", self.token(left).offset)
        part = self.part_for_words(left, right)
        if isinstance(right, ast.Tuple | ast.List):
            words = self.listed(part.type, right.elts)
        elif self.is_word(right):
            words = self.listed(part.type, [right])
        else:
            words = self.group(part.type, right)
        return self.among(part, words)

    def among(self, part: Part, words: Iterable[str]) -> Part:
        """Whether a field holds one of the words; for a term with all other terms there are, since one that is in no
        group is not known to be another."""
        chosen = frozenset(words)
        tree: Tree = ["in", part.tree, sorted(chosen)]
        if part.type == TERM:
            tree.append(sorted(self.terms - chosen))
        return Part(tree, YES_NO, part.offset)

    def listed(self, type: FieldType, nodes: list[ast.expr]) -> list[str]:
        for node in nodes:
            if not self.is_word(node):
                raise BadExpression("a list behind `in` holds words in quotes only", self.token(node).offset)
        return [self.word(type, self.token(node)) for node in nodes]

    def is_word(self, node: ast.expr) -> bool:
        return isinstance(node, ast.Name) and self.token(node).kind == "word"

    def part_for_words(self, node: ast.expr, words: ast.expr) -> Part:
        """The left side of a comparison with words, which has to be a field that holds words."""
        part = self.part(node)
        if isinstance(part.type, Words | GroupWords):
            return part
        if isinstance(part.type, Dimension):
            raise BadExpression(f"{in_words(part.type)} cannot be compared with words", self.token(words).offset)
        raise _not_comparable(part)

    def word(self, type: FieldType, token: Token) -> str:
        """The word of a field, or the folded term, that a text in quotes stands for."""
        if type == TERM:
            if fold(token.text) in self.terms:
                return fold(token.text)
            raise BadExpression(
                f"no group has the term '{token.text}'", token.offset, nearest(token.text, self.terms) or ""
            )
        words = type.words if isinstance(type, Words) else ()
        if token.text in words:
            return token.text
        raise BadExpression(
            f"'{token.text}' is none of the words that can stand there: {_listed(words)}",
            token.offset,
            nearest(token.text, words) or "",
        )

    def group(self, type: FieldType, node: ast.expr) -> list[str]:
        token = self.token(node)
        terms = self.scope.groups.get(token.text) if isinstance(node, ast.Name) else None
        if terms is None:
            raise BadExpression(
                "behind `in` stands a group of terms, or words in brackets",
                token.offset,
                nearest(token.text, self.scope.groups) or "",
            )
        found = [word for word in type.words if fold(word) in terms] if isinstance(type, Words) else list(terms)
        if not found:
            words = _listed(type.words) if isinstance(type, Words) else "nothing"
            raise BadExpression(
                f"the group `{token.text}` holds none of the words that can stand there: {words}", token.offset
            )
        return found


def _comparable(part: Part) -> Dimension:
    if isinstance(part.type, Dimension):
        return part.type
    raise _not_comparable(part)


def _not_comparable(part: Part) -> BadExpression:
    """Why a part that is no figure cannot be compared in this way."""
    match part.type:
        case Name():
            message = "a name can be printed, but not compared"
        case YesNo():
            message = "a condition is not compared: it stands alone, or behind not"
        case Words(words):
            message = f"compare this with one word in quotes: {_listed(words)}"
        case _:
            message = "compare this with a term in quotes, or use `in` with a group"
    return BadExpression(message, part.offset)


def _spent(dimension: Dimension, other: Dimension) -> Dimension:
    """In a product a percentage is a plain number, unless a plain number is all it is multiplied by."""
    return NUMBER if dimension == PERCENT and not other.same_as(NUMBER) else dimension


def _finite(value: float, token: Token) -> float:
    if math.isfinite(value):
        return value
    raise BadExpression("this number is too large", token.offset)


def _listed(words: tuple[str, ...]) -> str:
    return ", ".join(f"'{word}'" for word in words)
