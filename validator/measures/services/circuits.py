"""Circuits: design current, device, and what the cable carries as it lies."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import least, total
from validator.measures.looking_up import looked_up
from validator.measures.rows import YES_NO, Given, Known, LeftOut, Missing, Row, Rows, Subject, Why, figure, given
from validator.measures.tracing import derived
from validator.plan.dimensions import AREA, CURRENT, LENGTH, NUMBER, POWER, VOLTAGE
from validator.plan.names import fold
from validator.plan.values import Quantity

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.plan import Plan
    from validator.plan.sections.appliances import Appliance
    from validator.plan.sections.services import Circuit as CircuitWritten
    from validator.plan.sections.services import Point

COOKING = frozenset({"induction hob", "ceramic hob", "solid plate hob", "electric cooker", "oven"})
"""Electric appliances that households never run at full load for long."""

WITHOUT_MAINS = frozenset({"sink", "tap", "gas hob", "gas cooker"})
"""What draws nothing worth counting: the power of a gas appliance is gas."""

ALL_SOCKETS = "all sockets"
SOCKETS = frozenset({"socket", "sockets", "receptacle", "receptacles", "duplex", "gfci", "gpo"})
OUTLETS = frozenset({"outlet", "outlets"})
WIRED_IN = frozenset({"flex", "cable", "cooker", "plate"})

COPPER = "copper"
"""What the cable of a house is made of where a plan says nothing else, and what the tables are for."""


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
    copper: bool = given(YES_NO, "whether its conductors are copper")
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


def cooking_demands(site: Site) -> Rows:
    """A row for each electric hob, oven and cooker."""
    plan = site.plan
    if plan.appliances.left_out:
        return Rows(left_out=[LeftOut(CookingDemand.kind, Missing("/appliances", "appliances"))])
    cooking = ((name, appliance) for name, appliance in plan.appliances.items() if _kind(name, appliance) in COOKING)
    return Rows([_demand(site, name, appliance) for name, appliance in cooking])


def circuits(site: Site) -> Rows:
    """A row for each circuit, with everything of the plan that hangs on it.

    An appliance of which nobody knows what feeds it may hang on any circuit: no design current is known without it.
    """
    plan = site.plan
    if plan.circuits.left_out:
        return Rows(left_out=[LeftOut(Circuit.kind, Missing("/circuits", "circuits"))])
    served = {name: frozenset(names_served(plan, circuit)) for name, circuit in plan.circuits.items()}
    loads = _loads(site, served)
    found = Rows([_circuit(site, name, circuit, loads[name]) for name, circuit in plan.circuits.items()])
    if plan.circuits and all(circuit.serves is not None for circuit in plan.circuits.values()):
        found.left_out += _unwritten(plan, frozenset().union(*served.values()))
    return found


def _unwritten(plan: Plan, served: frozenset[str]) -> list[LeftOut]:
    """The circuits that nobody wrote down: a socket that none of those in the plan serves hangs on one of them."""
    return [
        LeftOut(Circuit.kind, Missing(plan.circuits.pointer, f"circuit that feeds {name}"))
        for name, point in plan.points.items()
        if is_socket(point) and fold(name) not in served
    ]


class _Load:
    """What hangs on one circuit: powers, currents of cooking appliances, and what is not known of either."""

    def __init__(self) -> None:
        self.powers: list[Given] = []
        self.demands: list[Given] = []


def _loads(site: Site, served: Mapping[str, frozenset[str]]) -> dict[str, _Load]:
    plan = site.plan
    loads = {name: _Load() for name in served}
    if plan.appliances.left_out:
        for load in loads.values():
            load.powers.append(Missing("/appliances", "appliances"))
        return loads
    feeding: dict[str, list[str]] = {}
    for circuit, names in served.items():
        for name in names | {fold(circuit)}:
            feeding.setdefault(name, []).append(circuit)
    for name, appliance in plan.appliances.items():
        kind = _kind(name, appliance)
        if kind in WITHOUT_MAINS:
            continue
        by = feeding.get(fold(name), []) + (feeding.get(fold(appliance.supply), []) if appliance.supply else [])
        unknown = appliance.supply is None and not by
        for circuit in list(loads) if unknown else dict.fromkeys(by):
            load = loads[circuit]
            if unknown:
                question = f"which point or circuit feeds the {name}?"
                load.powers.append(Missing(appliance.pointer_to("supply"), f"what feeds the {name}", detail=question))
            elif kind in COOKING:
                load.demands.append(derived(_demand(site, name, appliance), "demand", name))
            else:
                load.powers.append(reading.read(appliance, "power", name))
    return loads


def names_served(plan: Plan, circuit: CircuitWritten) -> Iterator[str]:
    """What a circuit serves, by folded name."""
    for name in circuit.serves or ():
        if fold(name) == ALL_SOCKETS:
            yield from (fold(point) for point in plan.points if is_socket(plan.points[point]))
        else:
            yield fold(name)


def is_socket(point: Point) -> bool:
    """Whether what it is called says that it is a socket; an outlet plate that a flex is wired into is none."""
    words = set(fold(point.is_).split())
    return bool(words & SOCKETS) or (bool(words & OUTLETS) and not words & WIRED_IN)


def _kind(name: str, appliance: Appliance) -> str:
    return fold(appliance.is_ or name)


def _demand(site: Site, name: str, appliance: Appliance) -> Row:
    return CookingDemand(
        Subject(name, appliance.pointer),
        power=reading.read(appliance, "power", "power"),
        voltage=looked_up(site, "supply-voltage", "voltage", {"feeds": "cooking"}, appliance.pointer, "supply"),
        in_full=looked_up(site, "cooking-diversity", "in_full", {}, appliance.pointer, "reckoned in full"),
        share=looked_up(site, "cooking-diversity", "share", {}, appliance.pointer, "share of the rest"),
    )


def _circuit(site: Site, name: str, circuit: CircuitWritten, load: _Load) -> Row:
    powers, demands, feeds_sockets = load.powers, load.demands, _feeds_sockets(site.plan, circuit)
    if demands and isinstance(feeds_sockets, Known) and feeds_sockets.value:
        on_switch = looked_up(site, "cooking-diversity", "socket", {}, circuit.pointer, "socket on its switch")
        demands = [*demands, on_switch]
    if circuit.load is not None:
        powers = [*powers, reading.read(circuit, "load", "other loads")]
    if circuit.serves is None:
        unsaid = Missing(circuit.pointer_to("serves"), f"what {name} serves")
        powers, demands = [*powers, unsaid], [*demands, unsaid]
    elif any(fold(served) == ALL_SOCKETS for served in circuit.serves) and site.plan.points.left_out:
        powers = [*powers, Missing("/points", "sockets")]
    return Circuit(
        Subject(name, circuit.pointer),
        ring=is_ring(circuit),
        powers=reading.parts(powers),
        demands=reading.parts(demands),
        voltage=looked_up(site, "supply-voltage", "voltage", {"feeds": "other"}, circuit.pointer, "supply"),
        rating=reading.read(circuit, "device", "device"),
        cable=reading.read(circuit, "cable", "cable"),
        copper=_is_copper(circuit),
        length=reading.read(circuit, "length", "length"),
        tabulated=_tabulated(site, circuit),
        insulation_factor=_insulation_factor(site, circuit),
        residual=reading.read(circuit, "rcd", "residual current device"),
        feeds_sockets=feeds_sockets,
    )


def _feeds_sockets(plan: Plan, circuit: CircuitWritten) -> Given:
    pointer = circuit.pointer_to("serves")
    label = "whether it feeds sockets"
    if circuit.serves is None:
        return Missing(pointer, label)
    sockets = any(
        fold(name) == ALL_SOCKETS or (name in plan.points and is_socket(plan.points[name])) for name in circuit.serves
    )
    return reading.exactly(sockets, pointer, label)


def _tabulated(site: Site, circuit: CircuitWritten) -> Given:
    label = "cable, from the table"
    cable = reading.read(circuit, "cable", "cable")
    laid = reading.word(circuit.laid, circuit.pointer_to("laid"), "how the cable lies")
    conductor = _conductor(circuit)
    missing = [value for value in (cable, laid, conductor) if isinstance(value, Missing)]
    if isinstance(conductor, Known) and fold(conductor.value) != COPPER:
        detail = f"the tables are for {COPPER}"
        missing.append(Missing(conductor.pointer, conductor.label, Why.NO_TABLE_ROW, detail=detail))
    if missing or not isinstance(cable, Known) or not isinstance(laid, Known):
        return tuple(missing)
    ends = [
        looked_up(
            site,
            "twin-and-earth-capacity",
            "capacity",
            {"cable": end, "laid": laid.value},
            circuit.pointer_to("cable"),
            label,
        )
        for end in (cable.low, cable.high)
        if end is not None
    ]
    return _between(ends, cable)


def _conductor(circuit: CircuitWritten) -> Given:
    return reading.word(circuit.conductor or COPPER, circuit.pointer_to("conductor"), "conductor of the cable")


def _is_copper(circuit: CircuitWritten) -> Given:
    conductor = _conductor(circuit)
    if not isinstance(conductor, Known):
        return conductor
    return reading.exactly(fold(conductor.value) == COPPER, conductor.pointer, "whether its conductors are copper")


def is_ring(circuit: CircuitWritten) -> Given:
    pointer, label = circuit.pointer_to("is"), "whether it is a ring"
    if isinstance(circuit.is_, str):
        return reading.exactly(circuit.is_ == "ring", pointer, label)
    return reading.word(circuit.is_, pointer, label)


def _insulation_factor(site: Site, circuit: CircuitWritten) -> Given:
    """The factor for the stretch that insulation surrounds; ways of lying that already allow for it have none."""
    label = "factor for insulation around it"
    pointer = circuit.pointer_to("in_insulation")
    if isinstance(circuit.laid, str) and fold(circuit.laid) in site.library.groups.get("ways_in_insulation", ()):
        note = "the figure of the table already allows for insulation"
        return reading.exactly(1, circuit.pointer_to("laid"), label, note)
    stretch = circuit.in_insulation
    if not isinstance(stretch, Quantity):
        return reading.read(circuit, "in_insulation", "stretch of cable in insulation")
    if stretch.high == 0:
        return reading.exactly(1, pointer, label, "no insulation around it")
    known = reading.read(circuit, "in_insulation", label)
    ends = [
        looked_up(site, "insulation-factor", "factor", {"surrounded": end}, pointer, label)
        for end in (stretch.low, stretch.high)
    ]
    return _between(ends, known)


def _between(ends: list[Given], read: Given) -> Given:
    """The value between those looked up at both ends of what was read, with its doubts."""
    known = [end for end in ends if isinstance(end, Known)]
    if len(known) < len(ends) or not isinstance(read, Known):
        return next(end for end in ends if not isinstance(end, Known))
    values = [end.value for end in known]
    return Known(
        known[0].value,
        read.pointer,
        known[0].text,
        known[0].label,
        low=min(values),
        high=max(values),
        assumed=read.assumed,
        note=known[0].note,
    )
