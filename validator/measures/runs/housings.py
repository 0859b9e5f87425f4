"""Appliances in housings and machines in openings of a run: clear space against what they are and their makers ask."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import COLD, kind_of, standing_of
from validator.measures.arithmetic import total
from validator.measures.heights.heights import machine_in
from validator.measures.room.walls import called_wall, named_gap, worked
from validator.measures.rows import YES_NO, Given, LeftOut, Missing, Row, Rows, Subject, Why, figure, given
from validator.measures.runs.of_kinds import asked_at, of_kind
from validator.plan.dimensions import LENGTH
from validator.plan.sections.appliances import AppliancePapers

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.fields import Size
    from validator.plan.sections.appliances import Appliance
    from validator.plan.sections.furniture import Item

BUILT_IN = COLD | {"oven", "microwave", "dishwasher", "washing machine", "tumble dryer"}
"""Appliances that a unit may house."""

FREE_STANDING = COLD | {"dishwasher", "washing machine", "tumble dryer"}
"""Machines that stand in an opening of a run as deep as they are; a cooker is made to stand out."""


class BetweenSides(Row, kind="clear width between the sides of a unit"):
    """What the sides of a carcass leave of its width."""

    width: float = given(LENGTH, "unit")
    sides: float = given(LENGTH, "each side")

    @figure(LENGTH, "clear width", start="inner face of one side", end="inner face of the other")
    def clear(self) -> float:
        return self.width - 2 * self.sides


class InHousing(Row, kind="appliance in a housing"):
    """An appliance built into a unit: the clear space there is, and the niche its maker asks for.

    The outer sizes of units are standardised, niches are not: those follow the appliance. A niche that does not give a
    height or a depth asks for none.
    """

    inside_width: float = given(LENGTH, "clear width of the housing")
    inside_height: float = given(LENGTH, "clear height of the housing")
    inside_depth: float = given(LENGTH, "clear depth of the housing")
    niche_width: float = given(LENGTH, "width the maker asks for")
    niche_height: float = given(LENGTH, "height the maker asks for")
    niche_depth: float = given(LENGTH, "depth the maker asks for")
    asks_height: bool = given(YES_NO, "whether the maker asks for a height")
    asks_depth: bool = given(YES_NO, "whether the maker asks for a depth")
    cold: bool = given(YES_NO, "whether it is a fridge or freezer")
    air: float = given(LENGTH, "void behind the housing")
    maker_air: float = given(LENGTH, "air the maker asks for behind it")


class InOpening(Row, kind="machine in an opening"):
    """A machine that stands between the things of a run, and how deep the run is there."""

    width: float = given(LENGTH, "opening")
    body: float = given(LENGTH, "width of the machine")
    maker_width: float = given(LENGTH, "width of opening the maker asks for")
    free_standing: bool = given(YES_NO, "whether it is to stand flush with units")
    body_depth: float = given(LENGTH, "depth of the machine")
    run_depths: tuple[float, ...] = given(LENGTH, "depth of the run", many=True)

    @figure(LENGTH, "play", start="side of the machine", end="side of the opening, both sides together")
    def play(self) -> float:
        return self.width - self.body

    @figure(LENGTH, "room behind the machine", start="wall", end="back of the machine, its front flush with the fronts")
    def room_behind(self) -> float:
        return total(self.run_depths) - self.body_depth


def in_housings(site: Site) -> Rows:
    """A row for each appliance that sits in a unit and is made to be built in."""
    plan = site.plan
    if plan.appliances.left_out:
        return Rows(left_out=[LeftOut(InHousing.kind, Missing("/appliances", "appliances"))])
    rows = Rows()
    for name, appliance in plan.appliances.items():
        if appliance.in_ is None or kind_of(name, appliance) not in BUILT_IN:
            continue
        housing = standing_of(site, name)
        if housing is not None and housing.item.family == "unit":
            rows.rows.append(_housed(site, name, appliance, housing))
    return rows


def _housed(site: Site, name: str, appliance: Appliance, housing: Standing) -> Row:
    item, inside = housing.item, housing.item.inside
    niche, pointer = _niche(site, name, appliance)
    ways = {"width": "w", "height": "h", "depth": "d"}
    asked = {
        f"niche_{way}": reading.quantity(getattr(niche, letter, None), pointer, f"{way} of the niche of the {name}")
        for way, letter in ways.items()
    }
    clear = {
        f"inside_{way}": reading.quantity(getattr(inside, letter, None), asked_at(item, "inside"), f"inside {way}")
        for way, letter in ways.items()
    }
    if inside is None or inside.w is None:
        between = BetweenSides(housing.subject, width=_width(housing), sides=of_kind(item, "sides", "side"))
        clear["inside_width"] = worked(between, "clear", f"clear width of {housing.name}")
    if inside is None or inside.d is None:
        clear["inside_depth"] = of_kind(item, "depth", "depth")
    return InHousing(
        Subject(name, appliance.pointer, f"in {housing.name}", housing.wall, housing.subject.along),
        **asked,
        **clear,
        asks_height=_asks(niche, "h", pointer, f"niche of the {name}"),
        asks_depth=_asks(niche, "d", pointer, f"niche of the {name}"),
        cold=reading.exactly(kind_of(name, appliance) in COLD, appliance.pointer, "whether it is a fridge or freezer"),
        air=of_kind(item, "void_behind", "void behind"),
        maker_air=_stated(site, name, "air_behind", "air the maker asks for behind it"),
    )


def _niche(site: Site, name: str, appliance: Appliance) -> tuple[Size | None, str]:
    """The niche an appliance asks for, by its maker's paper or else by its own entry, and where it stands."""
    papers = site.plan.stated.get(name)
    if isinstance(papers, AppliancePapers) and papers.niche is not None:
        return papers.niche, papers.pointer_to("niche")
    return appliance.niche, appliance.pointer_to("niche")


def _asks(niche: Size | None, letter: str, pointer: str, label: str) -> Given:
    if niche is None:
        return Missing(pointer, label)
    return reading.exactly(getattr(niche, letter) is not None, pointer, label)


def _stated(site: Site, name: str, field: str, label: str) -> Given:
    papers = site.plan.stated.get(name)
    if papers is not None and field in type(papers).model_fields:
        return reading.stated(getattr(papers, field), papers.pointer_to(field), label)
    return Missing(f"{site.plan.stated.pointer}/{name}/{field.replace('_', ' ')}", label, Why.UNREAD)


def _width(thing: Standing) -> Given:
    return named_gap(reading.read(thing.item, "width", thing.name), f"width of {thing.name}")


def in_openings(site: Site) -> Rows:
    """A row for each opening of a run, with the machine that is to stand there."""
    if site.plan.runs.left_out:
        return Rows(left_out=[LeftOut(InOpening.kind, Missing("/runs", "runs of units"))])
    rows = Rows()
    for run in site.plan.runs:
        things = site.setting_out.in_run(run)
        rows.rows += [_in_opening(site, things, at) for at, each in enumerate(things) if each.item.family == "opening"]
    return rows


def _in_opening(site: Site, things: list[Standing], at: int) -> Row:
    plan, opening = site.plan, things[at]
    name = machine_in(site, opening)
    appliance = plan.appliances.get(name)
    body = appliance.body if appliance is not None else None
    own = appliance.pointer if appliance is not None else f"{plan.appliances.pointer}/{name}"
    kind = kind_of(name, appliance) if appliance is not None else name
    place, unit = called_wall(plan, opening.wall), _beside(things, at)
    flush = kind in FREE_STANDING and unit is not None
    return InOpening(
        opening.subject._replace(
            name=name, pointer=own if appliance is not None else opening.item.pointer, context=place
        ),
        width=named_gap(reading.read(opening.item, "width", "opening"), f"width of the opening of the {name}"),
        body=reading.quantity(body.w if body else None, f"{own}/body", f"width of the {name}"),
        maker_width=_stated(site, name, "opening_width", "width of opening the maker asks for"),
        free_standing=reading.exactly(flush, own, "whether it is to stand flush with units"),
        body_depth=reading.quantity(body.d if body else None, f"{own}/body", f"depth of the {name}"),
        run_depths=_run_depths(unit, opening),
    )


def _beside(things: list[Standing], at: int) -> Item | None:
    """The unit of the run that stands nearest to an opening."""
    units = [number for number, thing in enumerate(things) if thing.item.family == "unit"]
    return things[min(units, key=lambda number: abs(number - at))].item if units else None


def _run_depths(unit: Item | None, opening: Standing) -> Given:
    if unit is None:
        detail = f"no unit stands in {opening.run} beside it"
        return Missing(opening.item.pointer, f"depth of {opening.run}", Why.UNCLEAR, detail=detail)
    fields = (("void_behind", "void behind"), ("depth", "depth"), ("front", "front"))
    return reading.parts([of_kind(unit, field, label) for field, label in fields])
