"""Fused connection units: the fuse in each against what hangs on it."""

from __future__ import annotations

from collections.abc import Iterator
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
    fused = {name: point for name, point in plan.points.items() if is_fused(point)}
    return Rows(list(_rows(site, fused))) if fused else Rows()


def is_fused(point: Point) -> bool:
    """Whether a point holds a fuse: one is given, or it is called a connection unit and not an unfused one."""
    called = fold(point.is_)
    return point.fuse is not None or ("connection unit" in called and not UNFUSED & set(called.split()))


def _rows(site: Site, fused: dict[str, Point]) -> Iterator[Row]:
    plan = site.plan
    served = {fold(each) for circuit in plan.circuits.values() for each in circuit.serves or ()}
    hanging: dict[str, list[tuple[str, Given | None]]] = {}
    unsaid: list[Given] = [Missing("/appliances", "appliances")] if plan.appliances.left_out else []
    for name, appliance in plan.appliances.items():
        kind = kind_of(name, appliance)
        if appliance.supply is not None:
            power = None if kind in WITHOUT_MAINS else reading.read(appliance, "power", name)
            hanging.setdefault(fold(appliance.supply), []).append((kind, power))
        elif kind not in WITHOUT_MAINS and fold(name) not in served:
            unsaid.append(Missing(appliance.pointer_to("supply"), f"what feeds the {name}"))
    for name, light in plan.lights.items():
        if light.supply is not None:
            hanging.setdefault(fold(light.supply), []).append(("light", reading.read(light, "power", name)))
    for name, point in fused.items():
        yield _row(site, name, point, hanging.get(fold(name), []), unsaid)


def _row(site: Site, name: str, point: Point, hanging: list[tuple[str, Given | None]], unsaid: list[Given]) -> Row:
    kinds = {kind for kind, _ in hanging}
    powers = [*(power for _, power in hanging if power is not None), *unsaid]
    if not kinds and not powers:
        powers.append(Missing(point.pointer, f"what hangs on {name}"))
    return FusedPoint(
        Subject(name, point.pointer),
        fuse=reading.read(point, "fuse", f"fuse in {name}"),
        powers=reading.parts(powers),
        voltage=looked_up(site, "supply-voltage", "voltage", {"feeds": "other"}, point.pointer, "supply"),
        hood_alone=reading.exactly(bool(kinds) and kinds <= HOODS, point.pointer, "whether it feeds a hood alone"),
    )
