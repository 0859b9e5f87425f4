"""Circuits: design current, device, and what the cable carries as it lies."""

from __future__ import annotations

from validator.measures.arithmetic import least, total
from validator.measures.rows import YES_NO, Row, figure, given
from validator.plan.dimensions import AREA, CURRENT, LENGTH, NUMBER, POWER, VOLTAGE


class CookingDemand(Row, kind="cooking appliance's demand"):
    """What a cooking appliance is reckoned to draw: the first amperes in full, and a share of the rest."""

    power: float = given(POWER, "power")
    voltage: float = given(VOLTAGE, "supply")
    in_full: float = given(CURRENT, "reckoned in full")
    share: float = given(NUMBER, "share of the rest")

    @figure(CURRENT, "full current")
    def current(self) -> float:
        return self.power / self.voltage

    @figure(CURRENT, "demand")
    def demand(self) -> float:
        return least(self.current, self.in_full) + self.share * (self.current - least(self.current, self.in_full))


class Circuit(Row, kind="circuit"):
    """A final circuit. Design current, rating of its device, capacity of its cable as installed."""

    ring: bool = given(YES_NO, "whether it is a ring")
    powers: tuple[float, ...] = given(POWER, "appliances", many=True)
    demands: tuple[float, ...] = given(CURRENT, "cooking appliances", many=True)
    voltage: float = given(VOLTAGE, "supply")
    rating: float = given(CURRENT, "device")
    cable: float = given(AREA, "cable")
    length: float = given(LENGTH, "length")
    tabulated: float = given(CURRENT, "cable, from the table")
    insulation_factor: float = given(NUMBER, "factor for insulation around it")
    residual: float = given(CURRENT, "residual current device")
    feeds_sockets: bool = given(YES_NO, "whether it feeds sockets")

    @figure(CURRENT, "design current")
    def design_current(self) -> float:
        return total(self.powers) / self.voltage + total(self.demands)

    @figure(CURRENT, "what the cable carries")
    def capacity(self) -> float:
        return self.tabulated * self.insulation_factor

    @figure(CURRENT, "rating of the device")
    def device(self) -> float:
        return self.rating
