"""Where appliances, sinks and hoods stand along the walls, and what kind each is."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.room.walls import called_wall, named_gap, place_along
from validator.measures.rows import Given, Known, LeftOut, Missing, Rows, Subject, Words
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.plan import Plan
    from validator.plan.sections.appliances import Appliance

FUELS = {
    "gas hob": "gas",
    "gas cooker": "gas",
    "induction hob": "induction",
    "ceramic hob": "ceramic",
    "solid plate hob": "solid plate",
}
HOBS = frozenset({*FUELS, "electric cooker"})
HOODS = frozenset({"hood", "chimney hood", "canopy hood"})
SINKS = frozenset({"sink"})
COLD = frozenset({"fridge", "freezer", "fridge freezer"})
FLAT_GLASS = frozenset({"induction", "ceramic"})
FUEL = Words(("gas", "induction", "ceramic", "solid plate"))


class ApplianceAt(NamedTuple):
    """An appliance with its wall, the unit or opening it sits in, and its middle along the wall."""

    name: str
    appliance: Appliance
    wall: Given
    middle: Given
    standing: Standing | None = None

    @property
    def on(self) -> str:
        """The name of its wall, or ''."""
        return str(self.wall.value) if isinstance(self.wall, Known) else ""


def kind_of(name: str, appliance: Appliance) -> str:
    """What an appliance is; its name tells where nothing else does."""
    return fold(appliance.is_ or name)


def of_kinds(plan: Plan, kinds: frozenset[str]) -> list[str]:
    """The names of the appliances of some kinds, in the plan's order."""
    return [name for name, appliance in plan.appliances.items() if kind_of(name, appliance) in kinds]


def of_no_kind(plan: Plan, kind: str) -> list[LeftOut]:
    """The appliances of which nobody knows what they are, in place of rows of a kind that might be about them."""
    unsaid = ((name, appliance) for name, appliance in plan.appliances.items() if appliance.is_ is None)
    return [LeftOut(kind, Missing(appliance.pointer_to("is"), f"what {name} is")) for name, appliance in unsaid]


def none_yet(plan: Plan, kind: str) -> Rows:
    """No rows of a kind yet, and what the plan leaves out of the appliances that they might be about."""
    if plan.appliances.left_out:
        return Rows(left_out=[LeftOut(kind, Missing("/appliances", "appliances"))])
    return Rows(left_out=of_no_kind(plan, kind))


def fuel_of(name: str, appliance: Appliance) -> Given:
    """What a hob cooks with. An electric cooker may have a hob of any kind."""
    fuel = FUELS.get(kind_of(name, appliance))
    if fuel is None and appliance.hob is not None:
        return reading.exactly(appliance.hob, appliance.pointer_to("hob"), "fuel")
    pointer = appliance.pointer_to("hob") if appliance.is_ is not None else appliance.pointer
    return Missing(pointer, f"kind of hob of {name}") if fuel is None else reading.exactly(fuel, pointer, "fuel")


def standing_of(site: Site, name: str) -> Standing | None:
    """The unit or opening an appliance sits in: the one it names, one of its own name, or that of what it is over."""
    appliance = site.plan.appliances[name]
    if appliance.in_ is not None:
        return site.setting_out.find(appliance.in_)
    found = site.setting_out.find(name)
    if found is None and appliance.over is not None and fold(appliance.over) != fold(name):
        found = site.setting_out.find(appliance.over)
        if found is None and appliance.over in site.plan.appliances:
            below = site.plan.appliances[appliance.over]
            found = site.setting_out.find(below.in_ if below.in_ is not None else appliance.over)
    return found


def place_of(site: Site, name: str) -> ApplianceAt:
    """Where an appliance is. KeyError for one that the plan does not have."""
    name = site.plan.appliances.written(name)
    appliance = site.plan.appliances[name]
    standing = standing_of(site, name)
    if standing is None:
        missing = Missing(appliance.pointer_to("in"), f"unit that {name} sits in")
        return ApplianceAt(name, appliance, missing, missing)
    wall = reading.exactly(standing.wall, standing.item.pointer, "wall")
    built = site.plan.built.get(name)
    middle = standing.middle
    for said_by in (built, appliance):
        if said_by is not None and said_by.along is not None:
            pointer = said_by.pointer_to("along")
            middle = place_along(site.plan, standing.wall, said_by.along, pointer, f"middle of {name}")
            break
    return ApplianceAt(name, appliance, wall, middle, standing)


def width_of(place: ApplianceAt) -> Given:
    """The width of a hob, a hood or a cooker, of its body where it says no other; of a sink, that of its cut-out."""
    appliance, label = place.appliance, f"width of {place.name}"
    field = "cut_out" if kind_of(place.name, appliance) == "sink" else "body"
    size = appliance.cut_out if field == "cut_out" else appliance.body
    if appliance.width is None and (size is not None or field == "cut_out"):
        width = size.w if size is not None else None
        return named_gap(reading.quantity(width, appliance.pointer_to(field), place.name), label)
    return named_gap(reading.read(appliance, "width", place.name), label)


def subject_of(site: Site, place: ApplianceAt, called: str = "") -> Subject:
    """An appliance or a part of it, with its wall and the stretch it takes there; without a width that of its unit."""
    width, middle, standing = width_of(place), place.middle, place.standing
    along = standing.subject.along if standing is not None else None
    if isinstance(width, Known) and isinstance(middle, Known):
        half = float(width.value) / 2
        along = float(middle.value) - half, float(middle.value) + half
    wall = called_wall(site.plan, place.on) if place.on else ""
    return Subject(called or place.name, place.appliance.pointer, wall, place.on, along)
