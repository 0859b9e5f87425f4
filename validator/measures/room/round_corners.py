"""How long a thing may be to come round a right-angled corner between two ways, and how short tilting makes it.

A stiff rectangle slides with both ends of its outer side along the outer walls. At an angle it lies as far from the
inner corner as `a cos + b sin - l sin cos`, which may never be less than it is wide; for no width this is the ladder of
the textbooks, `(a^(2/3) + b^(2/3))^(3/2)`. What is no longer than one way is wide goes round without being turned.
"""

from __future__ import annotations

import math

STEPS = 60
"""Halvings of the golden section: far below a thousandth of a millimetre."""

GOLDEN = (math.sqrt(5) - 1) / 2


def longest_round(a: float, b: float, across: float) -> float:
    """The longest rectangle, so wide across, that comes round a corner between ways so wide; 0 where it fits in none.

    Lengths in mm; a thing of no width follows the ladder exactly.
    """
    if across > min(a, b):
        return 0.0
    low, high = 1e-6, math.pi / 2 - 1e-6
    for _ in range(STEPS):
        left, right = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
        if _at(left, a, b, across) < _at(right, a, b, across):
            high = right
        else:
            low = left
    return max(_at((low + high) / 2, a, b, across), a, b)


def _at(angle: float, a: float, b: float, across: float) -> float:
    return (a * math.cos(angle) + b * math.sin(angle) - across) / (math.sin(angle) * math.cos(angle))


def shortest_on_plan(length: float, deep: float, headroom: float) -> float:
    """How long on the plan a thing is that stands on its edge, so deep, and is tilted until it fills the headroom.

    At a tilt it takes `length cos + deep sin` of floor and `length sin + deep cos` of height.
    """
    reach, rise = math.hypot(length, deep), math.atan2(deep, length)
    if headroom >= reach:
        return min(length, deep)
    tilt = math.asin(headroom / reach) - rise
    if tilt <= 0:
        return length
    return min(length, length * math.cos(tilt) + deep * math.sin(tilt))
