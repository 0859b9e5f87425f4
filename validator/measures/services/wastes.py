"""Wastes: bore, length and fall."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.rows import YES_NO, Given, LeftOut, Missing, Row, Rows, Subject, Words, figure, given
from validator.measures.tracing import derived
from validator.plan.dimensions import LENGTH, SLOPE
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.appliances import Appliance
    from validator.plan.sections.appliances import Waste as WasteWritten

DRAINED = ("sink", "dishwasher", "washing machine")
"""What cannot be without a waste: one that the plan does not give is to find out."""


class Drop(Row, kind="drop of a waste"):
    """How a waste falls, from the heights of its ends."""

    drop: float = given(LENGTH, "drop")
    length: float = given(LENGTH, "long")

    @figure(SLOPE, "fall", start="trap", end="stack")
    def fall(self) -> float:
        return self.drop / self.length


class Waste(Row, kind="waste"):
    """A branch from one appliance to the stack or gully; without a word of a vent it has none of its own."""

    appliance: str = given(Words((*DRAINED, "other")), "what it drains")
    pipe: float = given(LENGTH, "bore")
    length: float = given(LENGTH, "length")
    slope: float = given(SLOPE, "fall")
    vented: bool = given(YES_NO, "whether it has a vent of its own")

    @figure(LENGTH, "what it falls in all", start="trap", end="stack, or vent")
    def falls(self) -> float:
        return self.slope * self.length


def drops(site: Site) -> Rows:
    """A row for each waste whose fall follows from how far it drops."""
    plan = site.plan
    if plan.appliances.left_out:
        return Rows(left_out=[LeftOut(Drop.kind, Missing("/appliances", "appliances and sinks"))])
    return Rows(
        [
            _drop(name, appliance.waste)
            for name, appliance in plan.appliances.items()
            if appliance.waste is not None and appliance.waste.drop is not None
        ]
    )


def wastes(site: Site) -> Rows:
    """A row for each waste, and one for each sink, dishwasher and washing machine that the plan gives none."""
    plan = site.plan
    if plan.appliances.left_out:
        return Rows(left_out=[LeftOut(Waste.kind, Missing("/appliances", "appliances and sinks"))])
    found = Rows()
    for name, appliance in plan.appliances.items():
        drains = _drains(name, appliance)
        if appliance.waste is None and drains == "other":
            continue
        found.rows.append(_waste(name, appliance, drains))
    return found


def _drains(name: str, appliance: Appliance) -> str:
    kind = fold(appliance.is_ or name)
    return kind if kind in DRAINED else "other"


def _waste(name: str, appliance: Appliance, drains: str) -> Row:
    waste = appliance.waste
    what, vented = reading.exactly(drains, appliance.pointer, "what it drains"), _vented(name, appliance)
    if waste is None:
        gap = Missing(appliance.pointer_to("waste"), f"waste of {name}")
        return Waste(Subject(name, appliance.pointer), appliance=what, pipe=gap, length=gap, slope=gap, vented=vented)
    return Waste(
        Subject(name, waste.pointer, f"to {waste.to}" if waste.to else ""),
        appliance=what,
        pipe=reading.read(waste, "pipe", "bore"),
        length=reading.read(waste, "length", "length"),
        slope=_slope(name, waste),
        vented=vented,
    )


def _vented(name: str, appliance: Appliance) -> Given:
    """A vent that nobody wrote down is none: the limits of a branch without one are the stricter."""
    pointer, label = appliance.pointer_to("vent"), f"vent of the waste of {name}"
    if appliance.vent is None or isinstance(appliance.vent, str):
        return reading.exactly(fold(appliance.vent or "none") != "none", pointer, label)
    return reading.word(appliance.vent, pointer, label)


def _slope(name: str, waste: WasteWritten) -> Given:
    if waste.fall is None and waste.drop is not None:
        return derived(_drop(name, waste), "fall", "fall")
    return reading.read(waste, "fall", "fall")


def _drop(name: str, waste: WasteWritten) -> Row:
    return Drop(
        Subject(name, waste.pointer, f"to {waste.to}" if waste.to else ""),
        drop=reading.read(waste, "drop", "drop"),
        length=reading.read(waste, "length", "long"),
    )
