"""Hobs and the units that hang on their walls: what those over a hob and those beside it have in common."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import FUEL, HOBS, none_yet, of_kinds, place_of
from validator.measures.appliances.hob_heights import heights_at
from validator.measures.rows import NAME, YES_NO, Given, Known, LeftOut, Missing, Row, Rows, figure, given
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from collections.abc import Iterable

    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site

HAIR = 0.01
"""Sides in inches do not land on whole millimetres: what overlaps by no more than this stands side by side."""


class HungAtHob(Row, kind="unit hung at a hob"):
    """A hob and a hung unit over it or beside it; heights from the finished floor.

    `hob_from` says how far below the pan supports the maker's figure starts.
    """

    unit: str = given(NAME, "unit")
    fuel: str = given(FUEL, "fuel of the hob")
    underside: float = given(LENGTH, "underside of the unit")
    surface: float = given(LENGTH, "worktop")
    supports: float = given(LENGTH, "pan supports")
    hob_stated: float = given(LENGTH, "hob maker's figure")
    hob_from: float = given(LENGTH, "where it starts, below the pan supports")
    protected: bool = given(YES_NO, "whether the unit is protected against heat")

    @figure(LENGTH, "clearance", start="pan supports", end="underside of the unit")
    def clearance(self) -> float:
        return self.underside - self.surface - self.supports

    @figure(LENGTH, "what the hob's maker asks", start="pan supports", end="underside of the unit")
    def hob_says(self) -> float:
        return self.hob_stated - self.hob_from


def hung_at_hobs(site: Site, kind: str) -> tuple[Rows, list[tuple[ApplianceAt, list[Standing]]]]:
    """No rows yet, with what is left out of them; and each hob with the units that hang on its wall.

    Without hung units nothing can hang at a hob; with them a hob of unknown place may have any of them there.
    """
    plan = site.plan
    hobs = of_kinds(plan, HOBS)
    if plan.runs.left_out:
        return Rows(left_out=[LeftOut(kind, Missing("/runs", "runs of units"))] if hobs else []), []
    hung: dict[str, list[Standing]] = {}
    for thing in site.setting_out.things():
        if thing.item.family == "unit" and site.levels.is_hung(thing):
            hung.setdefault(fold(thing.wall), []).append(thing)
    if not hung:
        return Rows(), []
    rows = none_yet(plan, kind)
    places = [place_of(site, name) for name in hobs]
    rows.left_out += [LeftOut(kind, place.wall) for place in places if isinstance(place.wall, Missing)]
    return rows, [(place, hung.get(fold(place.on), [])) for place in places if place.on]


def that_count(site: Site, units: Iterable[Standing]) -> list[Standing]:
    """Of units in the order in which the heat of a hob reaches them, those that no earlier one stands for.

    One stands for a later one that hangs as high or higher, unless it is protected and the later one is not. A unit of
    unknown height may hang the lowest, and one that does not say so is not protected.
    """
    found: list[tuple[Standing, float, bool]] = []
    for unit in units:
        low, bare = _least(site.levels.underside_of(unit)), unit.item.protected is not True
        if all(low < other or (bare and not exposed) for _, other, exposed in found):
            found.append((unit, low, bare))
    return [unit for unit, _, _ in found]


def lowest_first(site: Site, units: Iterable[Standing]) -> list[Standing]:
    """Units by how far they may come down."""
    return sorted(units, key=lambda unit: _least(site.levels.underside_of(unit)))


def values_at(site: Site, place: ApplianceAt, unit: Standing, asks: str, called: str) -> dict[str, Given]:
    """The fields that every row of a hung unit at a hob has; `asks` is the figure of the hob's paper for it."""
    item, label = unit.item, f"whether {unit.name} is protected against heat"
    return {
        "unit": reading.exactly(unit.name, item.pointer, called),
        "underside": site.levels.underside_of(unit),
        "protected": reading.word(item.protected, item.pointer_to("protected"), label),
        **heights_at(site, place, asks),
    }


def _least(underside: Given) -> float:
    return float(underside.low or 0.0) if isinstance(underside, Known) else 0.0
