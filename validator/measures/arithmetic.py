"""The functions a figure may use besides + − × ÷, on plain numbers and on traced ones alike."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from validator.measures.tracing import Step


def total(values: Sequence[float]) -> float:
    """The sum of a list field; an empty list is 0."""
    found: float = _fold("+", values, math.fsum)
    return found


def least(*values: Any) -> float:
    """The least of several values, or of a list field."""
    found: float = _fold("least of", _members(values), min)
    return found


def most(*values: Any) -> float:
    """The greatest of several values, or of a list field."""
    found: float = _fold("most of", _members(values), max)
    return found


def whole_up(value: float) -> float:
    """The next whole number at or above a plain number."""
    if isinstance(value, Step):
        return Step.of("whole, up", (value,), _up(value.value), value.dimension)
    return _up(value)


def root(value: float) -> float:
    """The square root of a product of two like things."""
    if isinstance(value, Step):
        return Step.of("root", (value,), math.sqrt(value.value), value.rooted())
    return math.sqrt(value)


def _up(value: float) -> float:
    return float(math.ceil(value - 1e-9)) if math.isfinite(value) else value


def _members(values: tuple[Any, ...]) -> Sequence[Any]:
    if len(values) == 1 and isinstance(values[0], Sequence):
        return values[0]
    return values


def _fold(sign: str, values: Sequence[Any], function: Any) -> Any:
    steps = [value for value in values if isinstance(value, Step)]
    if not steps:
        return float(function(values))
    every = tuple(value if isinstance(value, Step) else Step.number(value) for value in values)
    return Step.of(sign, every, float(function([step.value for step in every])), Step.alike(every))
