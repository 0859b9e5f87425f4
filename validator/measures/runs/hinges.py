"""The front of a thing in a run: whose it is, at which side it is hinged, and how far its handle stands out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from validator.measures import reading
from validator.measures.appliances.appliance_places import COLD, kind_of
from validator.measures.heights.heights import COOKERS
from validator.measures.plane.sweeps import DROPPING
from validator.measures.rows import Given, Missing
from validator.measures.runs.of_kinds import asked_at, of_kind
from validator.plan.values import NothingStated

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.sections.furniture import Item

End = Literal["left", "right"]

MACHINES = COLD | COOKERS | {"oven", "microwave", "dishwasher", "washing machine", "tumble dryer"}
"""Appliances with a front of their own that opens."""

NO_LEAF = ("drawers", "pull-out", "lift-up", "nothing")
PAIR = ("two doors", "doors")


def machines_of(site: Site) -> dict[tuple[str, str], str]:
    """Appliances with a front of their own, by the unit or opening that they sit in."""
    found = {}
    for name, appliance in site.plan.appliances.items():
        if kind_of(name, appliance) in MACHINES:
            inside = site.plan.unit(appliance.in_ or name)
            if inside is not None:
                found[inside] = name
    return found


def own_front(thing: Standing, machines: dict[tuple[str, str], str]) -> str:
    """The appliance whose own front a thing shows; '' where it is the unit's, whose door hides what is behind it."""
    name = machines.get((thing.run, thing.name), "")
    if thing.item.family == "opening":
        return name or thing.name
    return name if thing.item.opens in (None, "nothing") else ""


def hinged_at(site: Site, thing: Standing, machine: str, end: End) -> Given:
    """Whether a front has a hinge at one end, as one faces it; of a pair of doors one hangs at each.

    `machine` is the appliance whose own front it is, or ''.
    """
    label = f"side at which the door of {machine or thing.name} is hinged"
    if machine:
        return _of_machine(site, machine, end, label)
    item = thing.item
    if item.opens in NO_LEAF or item.opens in PAIR:
        return reading.exactly(item.opens in PAIR, item.pointer_to("opens"), label)
    if item.hand is None:
        return Missing(item.pointer_to("hand"), label)
    return reading.exactly(item.hand == end, item.pointer_to("hand"), label)


def _of_machine(site: Site, name: str, end: End, label: str) -> Given:
    appliance = site.plan.appliances.get(name)
    if appliance is None:
        return Missing(f"{site.plan.appliances.pointer}/{name}/door", label)
    how = appliance.door
    if how is None and kind_of(name, appliance) in DROPPING:
        how = "drops"
    if not isinstance(how, str):
        return Missing(appliance.pointer_to("door"), label)
    return reading.exactly(how == end, appliance.pointer_to("door"), label)


def handle_on(site: Site, item: Item, machine: str) -> Given:
    """How far the handle of a unit, or of the machine whose own front it is, stands out; 0 where there is none."""
    if not machine:
        return of_kind(item, "handle", "handle")
    appliance, label = site.plan.appliances.get(machine), f"handle of the {machine}"
    if appliance is None:
        return Missing(f"{site.plan.appliances.pointer}/{machine}/handle", label)
    if isinstance(appliance.handle, NothingStated):
        return reading.exactly(0, appliance.pointer_to("handle"), label, "there is none")
    return reading.quantity(appliance.handle, appliance.pointer_to("handle"), label)


def opens_of(item: Item) -> Given:
    """What opens of a unit, asked of its kind where nobody says."""
    return reading.word(item.opens, asked_at(item, "opens"), f"what opens of {item.is_}")
