"""How hard a screw is to pull out of timber, square to the grain, on plain numbers and on traced ones alike.

American formulas are a force for each length of thread (NDS, Wood Handbook); the European one has powers that no unit
follows, so its strength is worked out here once and stands in a row as a value.
"""

from __future__ import annotations

from validator.measures.arithmetic import least
from validator.measures.rows import Row, figure, given
from validator.plan.dimensions import FORCE, LENGTH, NUMBER, PRESSURE


class WithdrawalByGravity(Row, kind="pull of a screw by the weight of the wood"):
    """A constant × G² × D × L: 2850 psi allowable (NDS, 12.2-2), 15700 psi to failure (Wood Handbook, 8-10)."""

    constant: float = given(PRESSURE, "constant of the formula")
    gravity: float = given(NUMBER, "specific gravity of the wood")
    diameter: float = given(LENGTH, "diameter of the screw")
    thread: float = given(LENGTH, "thread in the wood")

    @figure(FORCE, "pull a screw may carry")
    def pull(self) -> float:
        return self.constant * self.gravity * self.gravity * self.diameter * self.thread


class WithdrawalByDensity(Row, kind="pull of a screw by its withdrawal strength"):
    """f × d × l × k_d for one screw (EN 1995-1-1, 8.7.2), × k_mod ÷ γM for the timber, ÷ γF for the load."""

    strength: float = given(PRESSURE, "withdrawal strength")
    diameter: float = given(LENGTH, "diameter of the screw")
    thread: float = given(LENGTH, "thread in the timber")
    thin: float = given(NUMBER, "factor for a thin screw")
    duration: float = given(NUMBER, "factor for a load that stays")
    material: float = given(NUMBER, "factor for the timber")
    load: float = given(NUMBER, "factor for the load")

    @figure(FORCE, "characteristic pull")
    def characteristic(self) -> float:
        return self.strength * self.diameter * self.thread * self.thin

    @figure(FORCE, "pull in design")
    def design(self) -> float:
        return self.characteristic * self.duration / self.material

    @figure(FORCE, "pull a screw may carry")
    def pull(self) -> float:
        return self.strength * self.diameter * self.thread * self.thin * self.duration / self.material / self.load


class WithdrawalOfLagScrew(Row, kind="pull of a lag screw"):
    """Its allowable withdrawal strength × D × L; the tapered tip does not count."""

    strength: float = given(PRESSURE, "withdrawal strength, allowable")
    diameter: float = given(LENGTH, "diameter of the screw")
    thread: float = given(LENGTH, "thread in the wood")

    @figure(FORCE, "pull a screw may carry")
    def pull(self) -> float:
        return self.strength * self.diameter * self.thread


class ThreadInTimber(Row, kind="thread of a screw in timber"):
    """The thread that sits in the timber: no more than is in it, and no more than the screw has."""

    embedment: float = given(LENGTH, "screw in the timber")
    thread: float = given(LENGTH, "thread of the screw")

    @figure(LENGTH, "thread in the timber", start="face of the timber", end="tip of the screw")
    def in_timber(self) -> float:
        return least(self.embedment, self.thread)


class ThreadOfScrew(Row, kind="thread of a screw"):
    """The thread of a screw whose maker does not say how long it is, as a part of its length."""

    length: float = given(LENGTH, "long")
    part: float = given(NUMBER, "part of it that is threaded")

    @figure(LENGTH, "thread of the screw")
    def thread(self) -> float:
        return self.length * self.part


KG_M3 = 1e-9
"""One kg/m³ in base units, which the European formula counts in."""

N_MM2 = 1000.0
"""One N/mm² in base units."""

INCH = 25.4
PSI = 0.45359237 * 9806.65 / INCH**2
"""A pound on a square inch in base units."""


def withdrawal_strength(diameter: float, thread: float, density: float) -> float:
    """The characteristic withdrawal strength of EN 1995-1-1, 8.7.2 (8.39): 0.52 d^−0.5 l^−0.1 ρ^0.8.

    Base units in and out. For screws of 6 to 12 mm in softwood.
    """
    return float(0.52 * diameter**-0.5 * thread**-0.1 * (density / KG_M3) ** 0.8 * N_MM2)


def scaled_strength(tested: float, density: float, tested_in: float) -> float:
    """A withdrawal strength that was tested in timber of one density, in timber of another (EN 1995-1-1, 8.40)."""
    return float(tested * (density / tested_in) ** 0.8)


def screws_that_count(number: float) -> float:
    """How many of several screws in one joint count for their pull: n^0.9 (EN 1995-1-1, 8.41)."""
    return float(number**0.9) if number > 1 else number


def lag_strength(gravity: float, diameter: float) -> float:
    """The allowable withdrawal of a lag screw for each length and diameter, 1800 G^1.5 D^−0.25 psi (NDS, 12.2-1)."""
    return float(1800 * gravity**1.5 * (diameter / INCH) ** -0.25 * PSI)
