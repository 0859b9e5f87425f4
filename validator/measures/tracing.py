"""The working of a figure: the same pure function, run once more on values that remember where they come from.

It runs only for what a report explains, and gives the steps, everything that is missing at once, and a check that both
runs agree.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Any, NamedTuple

from validator.measures.rows import Figure, Known, Missing, NotKnown, Row, Why
from validator.plan import dimensions as dim
from validator.plan.dimensions import Dimension


class MeasureFault(Exception):
    """A measure contradicts itself (two runs differ, a wrong dimension): a fault of the program, never of a plan."""


class Step(NamedTuple):
    """One value of a working: a leaf read from a row, or a sign with its operands.

    `sign` is '' for a leaf; `label` is what a reader calls it; `source` is the known value behind a leaf, whose own
    working stands in `source.origin`.
    """

    value: float
    dimension: Dimension
    label: str = ""
    sign: str = ""
    operands: tuple[Step, ...] = ()
    source: Known | None = None

    @staticmethod
    def number(value: float) -> Step:
        return Step(float(value), dim.NUMBER)

    @staticmethod
    def of(sign: str, operands: tuple[Step, ...], value: float, dimension: Dimension) -> Step:
        return Step(value, dimension, "", sign, operands)

    @staticmethod
    def alike(steps: Iterable[Step]) -> Dimension:
        """The one dimension of several steps that are compared or added."""
        found: Dimension | None = None
        for step in steps:
            if found is not None and not found.same_as(step.dimension):
                raise dim.WrongDimension(f"a {step.dimension.name} among values of {found.name}")
            found = found or step.dimension
        return found or dim.NUMBER

    def rooted(self) -> Dimension:
        a, b, c, d, e, f = self.dimension.powers
        return dim.named((a // 2, b // 2, c // 2, d // 2, e // 2, f // 2))

    def __add__(self, other: Any) -> Step:
        right = _step(other)
        return Step.of("+", (self, right), self.value + right.value, dim.added(self.dimension, right.dimension))

    def __radd__(self, other: Any) -> Step:
        return _step(other) + self

    def __sub__(self, other: Any) -> Step:
        right = _step(other)
        return Step.of("−", (self, right), self.value - right.value, dim.subtracted(self.dimension, right.dimension))

    def __rsub__(self, other: Any) -> Step:
        return _step(other) - self

    def __mul__(self, other: Any) -> Step:
        right = _step(other)
        return Step.of("×", (self, right), self.value * right.value, dim.multiplied(self.dimension, right.dimension))

    def __rmul__(self, other: Any) -> Step:
        return _step(other) * self

    def __truediv__(self, other: Any) -> Step:
        right = _step(other)
        value = self.value / right.value if right.value else math.nan
        return Step.of("÷", (self, right), value, dim.divided(self.dimension, right.dimension))

    def __rtruediv__(self, other: Any) -> Step:
        return _step(other) / self

    def leaves(self) -> Iterable[Step]:
        """The values read from the row, in the order of reading."""
        if not self.operands and self.source is not None:
            yield self
        for operand in self.operands:
            yield from operand.leaves()


def _step(value: Any) -> Step:
    return value if isinstance(value, Step) else Step.number(value)


class Traced:
    """A row seen through its working: a field reads as a Step; a missing one is noted and counts as not a number."""

    def __init__(self, row: Row) -> None:
        self.row = row
        self.missing: list[Missing] = []
        self.read: dict[str, Known] = {}
        self._done: dict[str, Any] = {}

    def __getattr__(self, name: str) -> Any:
        if name not in self._done:
            figure = self.row.figures.get(name)
            self._done[name] = self._field(name) if figure is None else self._figure(figure)
        return self._done[name]

    def _figure(self, figure: Figure) -> Step:
        step: Any = figure.function(self)
        if isinstance(step, Step) and math.isnan(step.value) and not self.missing:
            nothing = Missing(self.row.subject.pointer, figure.label, Why.UNCLEAR, detail="it divides by zero")
            self.missing.append(nothing)
        if not isinstance(step, Step):
            step = Step.number(step)
        if not step.dimension.same_as(figure.dimension) and not (
            step.dimension.powers == figure.dimension.powers and not step.dimension.kind
        ):
            raise MeasureFault(
                f"{self.row.kind}: {figure.name} is declared a {figure.dimension.name} "
                f"and comes out as a {step.dimension.name}"
            )
        return Step(step.value, figure.dimension, figure.label, step.sign, step.operands, step.source)

    def _field(self, name: str) -> Any:
        declared = self.row.fields.get(name)
        if declared is None:
            raise AttributeError(name)
        known = self.row.known.get(name)
        if known is None:
            self.missing.extend(m for m in self.row.why_not_known(name) if m not in self.missing)
            dimension = declared.type if isinstance(declared.type, Dimension) else dim.NUMBER
            hole = Step(math.nan, dimension, declared.label)
            return (hole,) if declared.many else hole
        self.read[name] = known
        if not isinstance(declared.type, Dimension):
            return known.value
        if declared.many:
            parts = tuple(leaf(part, declared.type, declared.label) for part in known.parts)
            return parts or (Step(0.0, declared.type, declared.label),)
        return leaf(known, declared.type, declared.label)


def leaf(known: Known, dimension: Dimension, label: str) -> Step:
    return Step(float(known.value), dimension, known.label or label, "", (), known)


def trace(row: Row, name: str) -> tuple[Step, Traced]:
    """The working of a figure or field of a row, and what was read for it.

    Raises MeasureFault where the traced run and the plain one differ.
    """
    seen = Traced(row)
    step = getattr(seen, name)
    if not seen.missing:
        try:
            plain = getattr(row, name)
        except NotKnown as unknown:  # `least` and `most` of traced values may pass over one that is not a number
            seen.missing.extend(unknown.missing)
            return step, seen
        if isinstance(step, Step) and isinstance(plain, float | int) and not _agree(float(plain), step.value):
            raise MeasureFault(
                f"{row.kind}: {name} of {row.subject.name} is {plain} when judged and {step.value} when traced"
            )
    return step, seen


def _agree(plain: float, traced: float) -> bool:
    return math.isclose(plain, traced, rel_tol=1e-9, abs_tol=1e-9) or (math.isnan(plain) and math.isnan(traced))


def all_missing(row: Row, name: str) -> tuple[Missing, ...]:
    """Everything that has to be found out before a figure of the row is known."""
    return tuple(trace(row, name)[1].missing)


def derived(row: Row, name: str, label: str = "") -> Known | tuple[Missing, ...]:
    """A figure of one row as a value for another, with its range, its doubts and its working.

    A doubt that comes in twice counts once: a place and a width that hang on the same reading do not widen each other.
    """
    figure = row.figures[name]
    try:
        value = getattr(row, name)
    except NotKnown:
        return all_missing(row, name)
    doubtful = bool(row.doubts())
    found = Known(value, row.subject.pointer, "", label or figure.label, low=value, high=value, origin=(row, name))
    if not doubtful and not row.rests_on_assumption:
        return found
    step, seen = trace(row, name)
    assumed = any(known.rests_on_assumption for known in seen.read.values())
    if not doubtful:
        return found._replace(assumed=assumed)
    shares = _shares(step)
    if shares is None:
        try:
            values = [getattr(corner, name) for corner in row.corners()]
        except NotKnown as unknown:
            return unknown.missing
        return found._replace(low=min(values), high=max(values), assumed=assumed)
    swings = _swings(shares)
    ends = [sorted((share * (leaf.low - leaf.value), share * (leaf.high - leaf.value))) for leaf, share in swings]
    low, high = value + math.fsum(end[0] for end in ends), value + math.fsum(end[1] for end in ends)
    return found._replace(low=low, high=high, assumed=assumed, swings=swings)


Shares = dict[int, tuple[Known, float]]


def _shares(step: Step) -> Shares | None:
    """How much a step moves with each doubtful value that it reads; None where it does not move evenly."""
    if not step.operands:
        return {id(step.source): (step.source, 1.0)} if step.source is not None and step.source.doubtful else {}
    parts = [_shares(operand) for operand in step.operands]
    moving = [(place, part) for place, part in enumerate(parts) if part is None or part]
    if not moving:
        return {}
    if any(part is None for part in parts):
        return None
    match step.sign:
        case "+":
            factors = [1.0] * len(parts)
        case "−":
            factors = [1.0, -1.0]
        case "×" if len(moving) == 1:
            factors = [step.operands[1].value, step.operands[0].value]
        case "÷" if moving[-1][0] == 0:
            factors = [1 / step.operands[1].value, 0.0]
        case _:
            return None
    found: Shares = {}
    for part, factor in zip(parts, factors, strict=True):
        for key, (known, share) in (part or {}).items():
            found[key] = (known, found.get(key, (known, 0.0))[1] + factor * share)
    return found


def _swings(shares: Shares) -> tuple[tuple[Known, float], ...]:
    """The shares of the figures as the plan gives them, behind values that were worked out from them."""
    found: dict[object, tuple[Known, float]] = {}
    for known, share in shares.values():
        for leaf, behind in known.swings or ((known, 1.0),):
            key = id(leaf) if leaf.origin is not None else leaf.pointer
            found[key] = (leaf, found.get(key, (leaf, 0.0))[1] + share * behind)
    return tuple((leaf, share) for leaf, share in found.values() if abs(share) > 1e-12)


def at_this_end(known: Known) -> tuple[Row, str] | None:
    """The row and figure behind a value, at that end of its ranges which gives the value; for showing the working."""
    if known.origin is None:
        return None
    row, name = known.origin
    if not row.doubts() or _agree(float(getattr(row, name)), float(known.value)):
        return known.origin
    for corner in row.corners():
        if _agree(float(getattr(corner, name)), float(known.value)):
            return corner, name
    return known.origin
