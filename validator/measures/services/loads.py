"""Appliances on their circuits: what each draws, whether it is plugged in, and what else hangs there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import kind_of, none_yet
from validator.measures.looking_up import looked_up
from validator.measures.rows import YES_NO, Given, Missing, Row, Rows, Subject, figure, given
from validator.measures.services.circuits import COOKING, WITHOUT_MAINS, is_ring, is_socket, names_served
from validator.plan.dimensions import CURRENT, POWER, VOLTAGE
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.plan import Plan
    from validator.plan.sections.appliances import Appliance
    from validator.plan.sections.services import Circuit


class OnCircuit(Row, kind="appliance on a circuit"):
    """An electric appliance with what feeds it: `plugged` into a socket, or wired; `alone` on its circuit or not."""

    power: float = given(POWER, "power")
    voltage: float = given(VOLTAGE, "supply")
    cooks: bool = given(YES_NO, "whether it is a hob, an oven or a cooker")
    plugged: bool = given(YES_NO, "whether it is plugged into a socket")
    ring: bool = given(YES_NO, "whether it hangs on a ring")
    alone: bool = given(YES_NO, "whether its circuit feeds nothing else")

    @figure(CURRENT, "full current")
    def current(self) -> float:
        return self.power / self.voltage


def appliances_on_circuits(site: Site) -> Rows:
    """A row for each appliance that draws from the mains, as far as the plan says what it is or what it draws.

    In a plan that has no circuits by its own word, only what names its supply has a row.
    """
    plan = site.plan
    rows = none_yet(plan, OnCircuit.kind)
    served = {name: frozenset(names_served(plan, circuit)) for name, circuit in plan.circuits.items()}
    feeders = {
        name: frozenset({fold(name), *([fold(appliance.supply)] if appliance.supply else [])})
        for name, appliance in plan.appliances.items()
    }
    no_circuits = not plan.circuits and not plan.circuits.left_out
    for name, appliance in plan.appliances.items():
        if no_circuits and appliance.supply is None:
            continue
        if kind_of(name, appliance) in WITHOUT_MAINS or (appliance.is_ is None and appliance.power is None):
            continue
        rows.rows.append(_row(site, name, served, feeders))
    return rows


def _row(site: Site, name: str, served: dict[str, frozenset[str]], feeders: dict[str, frozenset[str]]) -> Row:
    plan, appliance = site.plan, site.plan.appliances[name]
    kind = kind_of(name, appliance)
    circuits = [circuit for circuit, names in served.items() if feeders[name] & (names | {fold(circuit)})]
    cooks = reading.exactly(kind in COOKING, appliance.pointer, "whether it cooks")
    feeds = "cooking" if kind in COOKING else "other"
    return OnCircuit(
        Subject(name, appliance.pointer),
        power=reading.read(appliance, "power", "power"),
        voltage=looked_up(site, "supply-voltage", "voltage", {"feeds": feeds}, appliance.pointer, "supply"),
        cooks=cooks,
        plugged=_plugged(plan, name, appliance, bool(circuits)),
        ring=_ring(plan, name, appliance, circuits),
        alone=_alone(plan, name, circuits, served, feeders),
    )


def _plugged(plan: Plan, name: str, appliance: Appliance, fed: bool) -> Given:
    pointer, label = appliance.pointer_to("supply"), f"what feeds the {name}"
    if appliance.supply is None and not fed:
        return Missing(pointer, label)
    point = appliance.supply if appliance.supply is not None and appliance.supply in plan.points else None
    return reading.exactly(point is not None and is_socket(plan.points[point]), pointer, label)


def _ring(plan: Plan, name: str, appliance: Appliance, circuits: list[str]) -> Given:
    if not circuits:
        return _no_circuit(plan, name, appliance)
    return is_ring(plan.circuits[circuits[0]])


def _no_circuit(plan: Plan, name: str, appliance: Appliance) -> Missing:
    if appliance.supply is None:
        return Missing(appliance.pointer_to("supply"), f"what feeds the {name}")
    return Missing(plan.circuits.pointer, f"circuit that feeds {appliance.supply}")


def _alone(
    plan: Plan, name: str, circuits: list[str], served: dict[str, frozenset[str]], feeders: dict[str, frozenset[str]]
) -> Given:
    """Whether the circuit feeds nothing else; an appliance that does not say what feeds it may hang there too."""
    appliance = plan.appliances[name]
    if not circuits:
        return _no_circuit(plan, name, appliance)
    circuit: Circuit = plan.circuits[circuits[0]]
    pointer, label = circuit.pointer_to("serves"), f"whether {circuits[0]} feeds the {name} alone"
    on_it = served[circuits[0]] | {fold(circuits[0])}
    others = [other for other, by in feeders.items() if fold(other) != fold(name) and by & on_it]
    if served[circuits[0]] - feeders[name] or others:
        return reading.exactly(False, pointer, label)
    if circuit.serves is None and appliance.supply is None:
        return Missing(pointer, f"what {circuits[0]} serves")
    unsaid = [
        Missing(each.pointer_to("supply"), f"what feeds the {other}")
        for other, each in plan.appliances.items()
        if each.supply is None
        and fold(other) != fold(name)
        and kind_of(other, each) not in WITHOUT_MAINS
        and not any(fold(other) in names | {fold(written)} for written, names in served.items())
    ]
    return tuple(unsaid) or reading.exactly(True, pointer, label)
