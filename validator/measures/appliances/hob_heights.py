"""Heights at a hob: the surface it lies in, its pan supports, and figures of makers brought down to them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import FLAT_GLASS, fuel_of, kind_of
from validator.measures.room.walls import named_gap, worked
from validator.measures.rows import Given, Known, Missing, Row, Subject, Why, figure, given
from validator.measures.worktops.pieces import worktop_over
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


def heights_at(site: Site, place: ApplianceAt, asks: str) -> dict[str, Given]:
    """What every row about the room over a hob takes from it; `asks` is the figure of its paper that counts there."""
    fuel, surface = fuel_of(place.name, place.appliance), surface_of(site, place)
    supports = supports_of(site, place, fuel)
    hob_stated, hob_from = stated_figure(site, place.name, asks, "hob maker's figure", surface, supports)
    return {"fuel": fuel, "surface": surface, "supports": supports, "hob_stated": hob_stated, "hob_from": hob_from}


def surface_of(site: Site, place: ApplianceAt) -> Given:
    """The surface a hob lies in: the worktop on the run of its unit. A cooker brings its own."""
    name, appliance = place.name, place.appliance
    if kind_of(name, appliance).endswith("cooker"):
        height = appliance.body.h if appliance.body is not None else None
        return named_gap(reading.quantity(height, appliance.pointer_to("body"), name), f"height of {name}")
    if place.standing is None:
        return place.wall
    worktop = worktop_over(site, place.standing)
    if worktop is None:
        pointer = site.plan.worktops.pointer
        if site.plan.worktops.left_out:
            return Missing(pointer, "worktops")
        detail = f"no worktop lies on {place.standing.run}, where {name} is"
        return Missing(pointer, f"worktop at {name}", Why.UNCLEAR, detail=detail)
    return worked(worktop, "height", "worktop")


def supports_of(site: Site, place: ApplianceAt, fuel: Given) -> Given:
    """How far the pan supports stand above the surface; flat glass has none."""
    from validator.plan.sections.appliances import HobPapers

    name, hob = place.name, place.appliance
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
