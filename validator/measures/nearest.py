"""What lies nearest to a place along one axis, found without looking at all there is."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable
from math import inf
from typing import Generic, NamedTuple, TypeVar

T = TypeVar("T")


class Stretch(NamedTuple, Generic[T]):
    """A thing with the stretch of the axis that it may take, doubts and half its width included."""

    low: float
    high: float
    thing: T


class Nearest(Generic[T]):
    """Stretches in the order of their middles; a search goes outward from a place and ends where none can be nearer."""

    def __init__(self, stretches: Iterable[Stretch[T]]) -> None:
        self._stretches = sorted(stretches, key=lambda each: each.low + each.high)
        self._middles = [(each.low + each.high) / 2 for each in self._stretches]
        self._reach = max(((each.high - each.low) / 2 for each in self._stretches), default=0.0)

    def search(
        self, low: float, high: float, away: Callable[[T, float], float], best: float = inf
    ) -> tuple[float, T | None]:
        """The least that a thing is away from a place between two ends, and the thing; `best` and None for no better.

        `away` works out how far one is, given the best so far; it is asked only of those that may be nearer.
        """
        stretches, middles = self._stretches, self._middles
        middle, reach = (low + high) / 2, self._reach + (high - low) / 2
        right = bisect_left(middles, middle)
        left, end = right - 1, len(middles)
        found: T | None = None
        to_left = middle - middles[left] - reach if left >= 0 else inf
        to_right = middles[right] - middle - reach if right < end else inf
        while True:
            if to_left <= to_right:
                if to_left >= best:
                    return best, found
                each = stretches[left]
                left -= 1
                to_left = middle - middles[left] - reach if left >= 0 else inf
            else:
                if to_right >= best:
                    return best, found
                each = stretches[right]
                right += 1
                to_right = middles[right] - middle - reach if right < end else inf
            if max(each.low - high, low - each.high) < best:
                value = away(each.thing, best)
                if value < best:
                    best, found = value, each.thing
