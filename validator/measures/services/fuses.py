"""Fused connection units: the fuse in each against what hangs on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import HOODS, kind_of
from validator.measures.arithmetic import total
from validator.measures.looking_up import looked_up
from validator.measures.rows import YES_NO, Given, LeftOut, Missing, Row, Rows, Subject, figure, given
from validator.measures.services.circuits import WITHOUT_MAINS
from validator.plan.dimensions import CURRENT, POWER, VOLTAGE
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.plan import Plan
    from validator.plan.sections.services import Point

UNFUSED = frozenset({"unfused", "cooker"})


class FusedPoint(Row, kind="fused point"):
    """A fused connection unit, or another point with a fuse in it, and all that hangs on it."""

    fuse: float = given(CURRENT, "fuse")
    powers: tuple[float, ...] = given(POWER, "what hangs on it", many=True)
    voltage: float = given(VOLTAGE, "supply")
    hood_alone: bool = given(YES_NO, "whether a hood is all that hangs on it")

    @figure(CURRENT, "load")
    def load(self) -> float:
        return total(self.powers) / self.voltage


def fused_points(site: Site) -> Rows:
    """A row for each fused connection unit, and for each other point of which the plan gives a fuse.

    An appliance of which nobody knows what feeds it may hang on any of them: their loads are not known without it.
    """
    plan = site.plan
    if plan.points.left_out:
        return Rows(left_out=[LeftOut(FusedPoint.kind, Missing("/points", "sockets, switches and connection units"))])
    return Rows([_row(site, name, point) for name, point in plan.points.items() if is_fused(point)])


def is_fused(point: Point) -> bool:
    """Whether a point holds a fuse: one is given, or it is called a connection unit and not an unfused one."""
    called = fold(point.is_)
    return point.fuse is not None or ("connection unit" in called and not UNFUSED & set(called.split()))


def _row(site: Site, name: str, point: Point) -> Row:
    plan = site.plan
    powers: list[Given] = []
    kinds: list[str] = []
    if plan.appliances.left_out:
        powers.append(Missing("/appliances", "appliances"))
    for called, appliance in plan.appliances.items():
        kind = kind_of(called, appliance)
        if appliance.supply is not None and fold(appliance.supply) == fold(name):
            kinds.append(kind)
            if kind not in WITHOUT_MAINS:
                powers.append(reading.read(appliance, "power", called))
        elif appliance.supply is None and kind not in WITHOUT_MAINS and not _served(plan, called):
            powers.append(Missing(appliance.pointer_to("supply"), f"what feeds the {called}"))
    for called, light in plan.lights.items():
        if light.supply is not None and fold(light.supply) == fold(name):
            kinds.append("light")
            powers.append(reading.read(light, "power", called))
    if not kinds and not powers:
        powers.append(Missing(point.pointer, f"what hangs on {name}"))
    return FusedPoint(
        Subject(name, point.pointer),
        fuse=reading.read(point, "fuse", f"fuse in {name}"),
        powers=reading.parts(powers),
        voltage=looked_up(site, "supply-voltage", "voltage", {"feeds": "other"}, point.pointer, "supply"),
        hood_alone=reading.exactly(bool(kinds) and set(kinds) <= HOODS, point.pointer, "whether it feeds a hood alone"),
    )


def _served(plan: Plan, name: str) -> bool:
    """Whether a circuit names an appliance, which then hangs on no point."""
    return any(fold(name) == fold(each) for circuit in plan.circuits.values() for each in circuit.serves or ())
