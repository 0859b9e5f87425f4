"""Hobs and the hoods over them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import (
    FLAT_GLASS,
    HOBS,
    HOODS,
    fuel_of,
    kind_of,
    of_kinds,
    of_no_kind,
    place_of,
    width_of,
)
from validator.measures.room.walls import named_gap, worked
from validator.measures.rows import Given, Known, LeftOut, Missing, Row, Rows, Subject, Why, Words, figure, given
from validator.plan.dimensions import LENGTH
from validator.plan.fields import StatedFigure
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.site import Site

SAME_AS_SUPPORTS = frozenset({"pan support", "pan supports"})
SAME_AS_SURFACE = frozenset({"hob", "hob surface", "surface", "worktop", "glass"})


class BelowSupports(Row, kind="depth below the pan supports"):
    """How far a place that a maker measures from lies below the pan supports."""

    surface: float = given(LENGTH, "worktop")
    supports: float = given(LENGTH, "pan supports")

    @figure(LENGTH, "below the pan supports", start="pan supports", end="finished floor")
    def down_to_floor(self) -> float:
        return self.surface + self.supports


class HobUnderHood(Row, kind="hob under hood"):
    """A hob and the hood over it; heights from the finished floor.

    Makers measure from different places: `hob_from` and `hood_from` say how far below the pan supports each starts.
    """

    fuel: str = given(Words(("gas", "induction", "ceramic", "solid plate")), "fuel of the hob")
    underside: float = given(LENGTH, "hood")
    surface: float = given(LENGTH, "worktop")
    supports: float = given(LENGTH, "pan supports")
    hob_stated: float = given(LENGTH, "hob maker's figure")
    hob_from: float = given(LENGTH, "where it starts, below the pan supports")
    hood_stated: float = given(LENGTH, "hood maker's figure")
    hood_from: float = given(LENGTH, "where it starts, below the pan supports")
    hood_width: float = given(LENGTH, "width of the hood")
    hob_width: float = given(LENGTH, "width of the hob")

    @figure(LENGTH, "wider than the hob", start="width of the hob", end="width of the hood")
    def wider(self) -> float:
        return self.hood_width - self.hob_width

    @figure(LENGTH, "clearance", start="pan supports", end="lowest edge of the hood")
    def clearance(self) -> float:
        return self.underside - self.surface - self.supports

    @figure(LENGTH, "what the hob's maker asks", start="pan supports", end="lowest edge of the hood")
    def hob_says(self) -> float:
        return self.hob_stated - self.hob_from

    @figure(LENGTH, "what the hood's maker asks", start="pan supports", end="lowest edge of the hood")
    def hood_says(self) -> float:
        return self.hood_stated - self.hood_from


def hobs_under_hoods(site: Site) -> Rows:
    """A row for each hob with a hood over it. While a hood does not say what it hangs over, it may be any hob's."""
    plan = site.plan
    if plan.appliances.left_out:
        return Rows(left_out=[LeftOut(HobUnderHood.kind, Missing("/appliances", "appliances"))])
    hoods = of_kinds(plan, HOODS)
    anywhere = next((name for name in hoods if plan.appliances[name].over is None), None)
    over: dict[str, int] = {}  # of several hoods over one thing the first counts
    for number, name in enumerate(hoods):
        over.setdefault(fold(plan.appliances[name].over or ""), number)
    rows = Rows(left_out=of_no_kind(plan, HobUnderHood.kind))
    for hob in of_kinds(plan, HOBS):
        inside = plan.appliances[hob].in_
        above = [over[fold(name)] for name in (hob, inside) if name and fold(name) in over]
        hood = hoods[min(above)] if above else anywhere
        if hood is not None:
            rows.rows.append(_row(site, hob, hood))
    return rows


def _row(site: Site, hob_name: str, hood_name: str) -> Row:
    place = place_of(site, hob_name)
    hob = place.appliance
    fuel, surface = fuel_of(hob_name, hob), surface_of(site, place)
    supports = supports_of(site, hob_name, place, fuel)
    hob_stated, hob_from = stated_figure(site, hob_name, "hood_above", "hob maker's figure", surface, supports)
    hood_stated, hood_from = stated_figure(site, hood_name, "hob_below", "hood maker's figure", surface, supports)
    return HobUnderHood(
        Subject(hob_name, hob.pointer, f"{place.on} wall" if place.on else "", place.on, span_of(place)),
        fuel=fuel,
        underside=_underside(site, hood_name, place),
        surface=surface,
        supports=supports,
        hob_stated=hob_stated,
        hob_from=hob_from,
        hood_stated=hood_stated,
        hood_from=hood_from,
        hood_width=width_of(place_of(site, hood_name)),
        hob_width=width_of(place),
    )


def span_of(place: ApplianceAt) -> tuple[float, float] | None:
    """The stretch of wall that a hob takes; None while nobody knows its middle."""
    width = reading.read(place.appliance, "width", "width")
    if not isinstance(place.middle, Known):
        return None
    half = float(width.value) / 2 if isinstance(width, Known) else 0.0
    return float(place.middle.value) - half, float(place.middle.value) + half


def _underside(site: Site, hood_name: str, place: ApplianceAt) -> Given:
    hood = site.plan.appliances[hood_name]
    if hood.over is None:
        return Missing(hood.pointer_to("over"), f"what {hood_name} hangs over")
    worktop = site.levels.worktop_by(place.on, place.standing)
    built = site.plan.built.get(hood_name)
    said_by = built if built is not None and built.up is not None else hood
    return site.levels.at(place.on).above_finished_floor(said_by.up, said_by.pointer_to("up"), hood_name, worktop)


def surface_of(site: Site, place: ApplianceAt) -> Given:
    """The surface a hob lies in: the worktop on the run of its unit. A cooker brings its own."""
    name, appliance = place.name, place.appliance
    if kind_of(name, appliance).endswith("cooker"):
        height = appliance.body.h if appliance.body is not None else None
        return named_gap(reading.quantity(height, appliance.pointer_to("body"), name), f"height of {name}")
    if place.standing is None:
        return place.wall
    worktop = site.levels.worktop_on(place.standing.run)
    if worktop is None:
        pointer = site.plan.worktops.pointer
        if site.plan.worktops.left_out:
            return Missing(pointer, "worktops")
        detail = f"no worktop lies on {place.standing.run}, where {name} is"
        return Missing(pointer, f"worktop at {name}", Why.UNCLEAR, detail=detail)
    return worked(worktop, "height", "worktop")


def supports_of(site: Site, name: str, place: ApplianceAt, fuel: Given) -> Given:
    """How far the pan supports stand above the surface; flat glass has none."""
    from validator.plan.sections.appliances import HobPapers

    hob = place.appliance
    if isinstance(fuel, Known) and fuel.value in FLAT_GLASS:
        return reading.exactly(0, fuel.pointer, "pan supports", "flat glass")
    label = f"height of the pan supports of {name}"
    papers = site.plan.stated.get(name)
    if hob.pan_support is None and isinstance(papers, HobPapers) and papers.pan_support is not None:
        return named_gap(reading.read(papers, "pan_support", "pan supports"), label)
    return named_gap(reading.read(hob, "pan_support", "pan supports"), label)


def stated_figure(
    site: Site, name: str, field: str, label: str, surface: Given, supports: Given
) -> tuple[Given, Given]:
    """A maker's figure, and how far below the pan supports the place lies that it is measured from."""
    stated = getattr(site.plan.stated.get(name), field, None)
    pointer = f"{site.plan.stated.pointer}/{name}/{field.replace('_', ' ')}"
    if not isinstance(stated, StatedFigure):
        unread = Missing(pointer, label, Why.UNREAD)
        return unread, unread
    amount = reading.stated(stated.amount, pointer, label)
    if not isinstance(amount, Known):
        return amount, amount
    from_ = fold(stated.from_).removeprefix("the ")
    if from_ in SAME_AS_SUPPORTS:
        return amount, reading.exactly(0, pointer, "pan supports themselves")
    if from_ in SAME_AS_SURFACE:
        return amount, supports
    if from_ == "finished floor":
        row = BelowSupports(Subject(name, pointer), surface=surface, supports=supports)
        return amount, worked(row, "down_to_floor", "finished floor below the pan supports")
    detail = f"nobody knows where `{stated.from_}` is" if stated.from_ else "it does not say from where it is measured"
    return amount, Missing(pointer, label, Why.UNCLEAR, detail=detail)
