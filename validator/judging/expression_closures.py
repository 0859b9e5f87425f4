"""From a checked tree to functions that call each other: what an expression does when a row is judged.

Names are looked up once, when the functions are made for a kind of row; after that a read is a plain attribute. Nothing
missing ever becomes a value: what cannot be told raises NotKnown with all that has to be found out.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from validator.judging.expression_trees import BadExpression, Sort, Tree, sort_of
from validator.measures.rows import Missing, NotKnown, Row, Why
from validator.plan.names import fold

Value = float | str | bool
Names = Mapping[str, Value | Missing]
"""Values that are not of the row, by name; one that is not known stands as what has to be found out."""

Read = Callable[[Any], Any]
"""A function of a row; in an expression with names that are not of the row, of (row, names)."""

ARITHMETIC: dict[str, Callable[[Any, Any], float]] = {"+": operator.add, "-": operator.sub, "*": operator.mul}
COMPARISONS: dict[str, Callable[[Any, Any], bool]] = {
    "==": operator.eq,
    "!=": operator.ne,
    "<": operator.lt,
    "<=": operator.le,
    ">": operator.gt,
    ">=": operator.ge,
}
PYTHON_TYPES: dict[Sort, tuple[type, ...]] = {
    "number": (float, int),
    "yes or no": (bool,),
    "word": (str,),
    "term": (str,),
    "name": (str,),
}


def built(tree: Tree, text: str, reads: Iterable[str], kind: type[Row]) -> Callable[[Row, Names], Value]:
    """The function that evaluates an inspected tree for rows of one class.

    Raises BadExpression where a name is a list of the row, or is of another sort than the tree says.
    """
    if all(name in kind.fields or name in kind.figures for name in reads):
        run = _Builder(text, kind, operator.attrgetter, lambda row: row).build(tree)
        return lambda row, extra: run(row)
    run = _Builder(text, kind, _from_row, lambda at: at[0]).build(tree)
    return lambda row, extra: run((row, extra))


def _from_row(name: str) -> Read:
    return lambda at: getattr(at[0], name)


class _Builder:
    def __init__(self, text: str, kind: type[Row], of_row: Callable[[str], Read], row: Callable[[Any], Row]) -> None:
        self.text, self.kind, self.of_row, self.row = text, kind, of_row, row

    def build(self, tree: Tree) -> Read:
        head = tree[0]
        if head == "number":
            value = tree[1]
            return lambda at: value
        if head == "read":
            return self.read(tree[1], tree[2])
        if head == "in":
            return self.one_of(tree)
        parts = [self.build(part) for part in tree[1:]]
        if head == "not":
            return _not(*parts)
        if head == "and":
            return _all(parts)
        if head == "or":
            return _any(parts)
        if head == "negative":
            return _negative(*parts)
        if head == "/":
            return self.quotient(*parts)
        return _both(COMPARISONS.get(head) or ARITHMETIC[head], *parts)

    def read(self, sort: Sort, name: str) -> Read:
        field, figure = self.kind.fields.get(name), self.kind.figures.get(name)
        if field is None and figure is None:
            return self.from_names(sort, name)
        found = sort_of(field.type) if field is not None else "number"
        if found != sort or (field is not None and field.many):
            raise BadExpression(f"`{name}` of a row of {self.kind.kind!r} is not a {sort}")
        return self.of_row(name)

    def from_names(self, sort: Sort, name: str) -> Read:
        types = PYTHON_TYPES[sort]

        def read(at: Any) -> Any:
            value = at[1].get(name)
            if value is None:
                raise NotKnown(Missing(self.row(at).subject.pointer, name))
            if isinstance(value, Missing):
                raise NotKnown(value)
            if not isinstance(value, types) or (sort == "number" and isinstance(value, bool)):
                raise BadExpression(f"`{name}` was given as {value!r}, which is not a {sort}")
            return value

        return read

    def one_of(self, tree: Tree) -> Read:
        read, words = self.build(tree[1]), frozenset(tree[2])
        if tree[1][1] == "term":
            return self.term_of(read, tree[1][2], words, frozenset(tree[3]))
        if len(words) == 1:
            (word,) = words
            return lambda at: bool(read(at) == word)
        return lambda at: read(at) in words

    def term_of(self, read: Read, name: str, words: frozenset[str], others: frozenset[str]) -> Read:
        label = self.kind.fields[name].label if name in self.kind.fields else name

        def run(at: Any) -> bool:
            written = read(at)
            term = fold(written)
            if term in words:
                return True
            if term in others:
                return False
            known = self.row(at).known.get(name)
            pointer = known.pointer if known else self.row(at).subject.pointer
            raise NotKnown(Missing(pointer, label, Why.UNCLEAR, detail=f"no group of terms has {written!r}"))

        return run

    def quotient(self, left: Read, right: Read) -> Read:
        operands = _both(lambda above, below: (above, below), left, right)

        def run(at: Any) -> float:
            above, below = operands(at)
            if below == 0:
                raise NotKnown(Missing(self.row(at).subject.pointer, self.text, Why.UNCLEAR, detail="it divides by 0"))
            return float(above / below)

        return run


def _both(work: Callable[[Any, Any], Any], left: Read, right: Read) -> Read:
    def run(at: Any) -> Any:
        try:
            first = left(at)
        except NotKnown as unknown:
            try:
                right(at)
            except NotKnown as other:
                raise _gathered([unknown, other]) from None
            raise
        return work(first, right(at))

    return run


def _gathered(unknown: list[NotKnown]) -> NotKnown:
    return NotKnown(*dict.fromkeys(missing for one in unknown for missing in one.missing))


def _negative(part: Read) -> Read:
    return lambda at: -part(at)


def _not(part: Read) -> Read:
    return lambda at: not part(at)


def _all(parts: list[Read]) -> Read:
    """False as soon as one part is false; true only when all are known to be."""

    def run(at: Any) -> bool:
        unknown: list[NotKnown] | None = None
        for part in parts:
            try:
                if not part(at):
                    return False
            except NotKnown as one:
                unknown = [*(unknown or ()), one]
        if unknown is not None:
            raise _gathered(unknown)
        return True

    return run


def _any(parts: list[Read]) -> Read:
    """True as soon as one part is true; false only when all are known to be."""

    def run(at: Any) -> bool:
        unknown: list[NotKnown] | None = None
        for part in parts:
            try:
                if part(at):
                    return True
            except NotKnown as one:
                unknown = [*(unknown or ()), one]
        if unknown is not None:
            raise _gathered(unknown)
        return False

    return run
