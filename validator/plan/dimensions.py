"""Dimensions: what a number is a number of.

A quantity is a plain float in one coherent base unit per dimension: mm, kg, s, A, K and one unit of money; everything
else (area, power, force, voltage, rates) is their product, so that arithmetic on floats needs no factors.
"""

from __future__ import annotations

from typing import NamedTuple

Powers = tuple[int, int, int, int, int, int]
"""Exponents of length, mass, time, current, temperature, money."""

NO_POWERS: Powers = (0, 0, 0, 0, 0, 0)

DAY = 86400.0
"""A day in base units; a date is the seconds since the day before year 1."""


class Dimension(NamedTuple):
    """A dimension: exponents of the base units, and a kind where the exponents do not tell two things apart.

    A kind keeps ratios from being mixed (water added, humidity, slope) and points from their differences (a date is not
    a duration). `point` marks kinds of which only the difference may be taken.
    """

    name: str
    powers: Powers = NO_POWERS
    kind: str = ""
    point: bool = False

    def same_as(self, other: Dimension) -> bool:
        """Whether values of the two may be added or compared."""
        return self.powers == other.powers and self.kind == other.kind and self.point == other.point


LENGTH = Dimension("length", (1, 0, 0, 0, 0, 0))
AREA = Dimension("area", (2, 0, 0, 0, 0, 0))
VOLUME = Dimension("volume", (3, 0, 0, 0, 0, 0))
MASS = Dimension("mass", (0, 1, 0, 0, 0, 0))
DURATION = Dimension("duration", (0, 0, 1, 0, 0, 0))
CURRENT = Dimension("current", (0, 0, 0, 1, 0, 0))
POWER = Dimension("power", (2, 1, -3, 0, 0, 0))
VOLTAGE = Dimension("voltage", (2, 1, -3, -1, 0, 0))
FORCE = Dimension("force", (1, 1, -2, 0, 0, 0))
PRESSURE = Dimension("pressure", (-1, 1, -2, 0, 0, 0))
FLOW = Dimension("flow", (3, 0, -1, 0, 0, 0))
LINE_LOAD = Dimension("mass per length", (-1, 1, 0, 0, 0, 0))
AREA_LOAD = Dimension("mass per area", (-2, 1, 0, 0, 0, 0))
DENSITY = Dimension("density", (-3, 1, 0, 0, 0, 0))
ACCELERATION = Dimension("acceleration", (1, 0, -2, 0, 0, 0))
TEMPERATURE_DIFFERENCE = Dimension("temperature difference", (0, 0, 0, 0, 1, 0))
MONEY = Dimension("money", (0, 0, 0, 0, 0, 1))

NUMBER = Dimension("number")
SLOPE = Dimension("slope", kind="slope")
WATER_ADDED = Dimension("water added", kind="water added")
HUMIDITY = Dimension("relative humidity", kind="humidity")
MOISTURE = Dimension("moisture reading", kind="moisture")
SHARE = Dimension("share", kind="share")
ANGLE = Dimension("angle", kind="angle")

DATE = Dimension("date", (0, 0, 1, 0, 0, 0), kind="date", point=True)
TEMPERATURE = Dimension("temperature", (0, 0, 0, 0, 1, 0), kind="temperature", point=True)

ALL = (
    LENGTH,
    AREA,
    VOLUME,
    MASS,
    DURATION,
    CURRENT,
    POWER,
    VOLTAGE,
    FORCE,
    PRESSURE,
    FLOW,
    LINE_LOAD,
    AREA_LOAD,
    DENSITY,
    ACCELERATION,
    TEMPERATURE_DIFFERENCE,
    MONEY,
    NUMBER,
    SLOPE,
    WATER_ADDED,
    HUMIDITY,
    MOISTURE,
    SHARE,
    ANGLE,
    DATE,
    TEMPERATURE,
)

BY_NAME = {dimension.name: dimension for dimension in ALL}


class WrongDimension(ValueError):
    """Two things that cannot be added, compared or multiplied; the message says which, in words."""


def added(left: Dimension, right: Dimension) -> Dimension:
    """The dimension of left + right. A point plus a difference is a point; two points cannot be added."""
    if left.point and right.point:
        raise WrongDimension(f"a {left.name} cannot be added to a {right.name}")
    if left.powers != right.powers:
        raise WrongDimension(f"a {right.name} cannot be added to a {left.name}")
    if left.point or right.point:
        point, difference = (left, right) if left.point else (right, left)
        if difference.kind:
            raise WrongDimension(f"a {difference.name} cannot be added to a {point.name}")
        return point
    if left.kind != right.kind:
        raise WrongDimension(f"a {right.name} cannot be added to a {left.name}")
    return left


def subtracted(left: Dimension, right: Dimension) -> Dimension:
    """The dimension of left − right. The difference of two points is no point."""
    if left.point and right.point and left.kind == right.kind:
        return named(left.powers)
    if right.point:
        raise WrongDimension(f"a {right.name} cannot be taken from a {left.name}")
    return added(left, right)


def multiplied(left: Dimension, right: Dimension) -> Dimension:
    """The dimension of left × right; kinds of ratio are spent by multiplying, a point cannot be multiplied."""
    _no_points(left, right)
    a, b = left.powers, right.powers
    powers = (a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3], a[4] + b[4], a[5] + b[5])
    if left.same_as(NUMBER):
        return right
    if right.same_as(NUMBER):
        return left
    return named(powers)


def divided(left: Dimension, right: Dimension) -> Dimension:
    """The dimension of left ÷ right."""
    _no_points(left, right)
    a, b = left.powers, right.powers
    powers = (a[0] - b[0], a[1] - b[1], a[2] - b[2], a[3] - b[3], a[4] - b[4], a[5] - b[5])
    if right.same_as(NUMBER):
        return left
    return named(powers)


def named(powers: Powers) -> Dimension:
    """The dimension without kind that has these powers; one nobody named is called by its powers."""
    for dimension in ALL:
        if dimension.powers == powers and not dimension.kind and not dimension.point:
            return dimension
    letters = zip(("length", "mass", "time", "current", "temperature", "money"), powers, strict=True)
    return Dimension(" × ".join(f"{name}^{power}" for name, power in letters if power), powers)


def _no_points(*dimensions: Dimension) -> None:
    for dimension in dimensions:
        if dimension.point:
            raise WrongDimension(f"a {dimension.name} cannot be multiplied or divided")
