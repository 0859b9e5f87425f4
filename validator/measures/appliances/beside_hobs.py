"""Hobs and the units that hang beside them: how far aside, and how high above the pan supports."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import HOBS, fuel_of, of_kinds, of_no_kind, place_of
from validator.measures.appliances.hoods import span_of, stated_figure, supports_of, surface_of
from validator.measures.appliances.over_hobs import HAIR, protection_of
from validator.measures.room.walls import called_wall
from validator.measures.rows import (
    NAME,
    YES_NO,
    Given,
    Known,
    LeftOut,
    Missing,
    Row,
    Rows,
    Subject,
    Words,
    figure,
    given,
)
from validator.measures.worktops.tops import LEFT, SIDES, cut_of
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.measures.worktops.tops import Cut


class UnitBesideHob(Row, kind="unit beside a hob"):
    """A hob and the nearest hung unit on one side of it, along the wall; heights from the finished floor.

    `hob_from` says how far below the pan supports the maker's figure for units beside the hob starts.
    """

    unit: str = given(NAME, "unit beside it")
    fuel: str = given(Words(("gas", "induction", "ceramic", "solid plate")), "fuel of the hob")
    further: float = given(LENGTH, "further side of the room between them")
    nearer: float = given(LENGTH, "nearer side of the room between them")
    underside: float = given(LENGTH, "underside of the unit")
    surface: float = given(LENGTH, "worktop")
    supports: float = given(LENGTH, "pan supports")
    hob_stated: float = given(LENGTH, "hob maker's figure")
    hob_from: float = given(LENGTH, "where it starts, below the pan supports")
    protected: bool = given(YES_NO, "whether the unit is protected against heat")

    @figure(LENGTH, "aside", start="edge of the hob", end="side of the unit")
    def aside(self) -> float:
        return self.further - self.nearer

    @figure(LENGTH, "clearance", start="pan supports", end="underside of the unit")
    def clearance(self) -> float:
        return self.underside - self.surface - self.supports

    @figure(LENGTH, "what the hob's maker asks", start="pan supports", end="underside of the unit")
    def hob_says(self) -> float:
        return self.hob_stated - self.hob_from


def units_beside_hobs(site: Site) -> Rows:
    """A row for each side of a hob on which a unit hangs along its wall and not over it; the nearest counts."""
    plan = site.plan
    if plan.runs.left_out:
        return Rows(
            left_out=[LeftOut(UnitBesideHob.kind, Missing("/runs", "runs of units"))] if of_kinds(plan, HOBS) else []
        )
    hung: dict[str, list[Standing]] = {}
    for thing in site.setting_out.things():
        if thing.item.family == "unit" and site.levels.is_hung(thing):
            hung.setdefault(fold(thing.wall), []).append(thing)
    if not hung:
        return Rows()
    if plan.appliances.left_out:
        return Rows(left_out=[LeftOut(UnitBesideHob.kind, Missing("/appliances", "appliances"))])
    rows = Rows(left_out=of_no_kind(plan, UnitBesideHob.kind))
    for name in of_kinds(plan, HOBS):
        place = place_of(site, name)
        cut, units = cut_of(place, "hob"), hung.get(fold(place.on), []) if place.on else []
        for side in SIDES:
            unit = _nearest(units, cut, side)
            if unit is not None:
                rows.rows.append(_row(site, place, cut, unit, side))
    return rows


def _nearest(units: list[Standing], cut: Cut, side: str) -> Standing | None:
    """The hung unit next to a hob on one side of it; one of which nobody knows the place may be the nearest."""
    found: list[tuple[float, Standing]] = []
    for unit in units:
        near, edge = (unit.right, cut.left) if side == LEFT else (unit.left, cut.right)
        if not isinstance(near, Known) or not isinstance(edge, Known):
            found.append((-1.0, unit))
            continue
        sign = -1 if side == LEFT else 1
        aside = sign * (float(near.value) - float(edge.value))
        if aside >= -HAIR:
            found.append((aside, unit))
    return min(found, key=lambda entry: entry[0])[1] if found else None


def _row(site: Site, place: ApplianceAt, cut: Cut, unit: Standing, side: str) -> Row:
    name, hob = place.name, place.appliance
    fuel, surface = fuel_of(name, hob), surface_of(site, place)
    supports = supports_of(site, name, place, fuel)
    hob_stated, hob_from = stated_figure(site, name, "unit_beside", "hob maker's figure", surface, supports)
    further: Given = cut.left if side == LEFT else unit.left
    nearer: Given = unit.right if side == LEFT else cut.right
    return UnitBesideHob(
        Subject(f"{name}, {side} side", hob.pointer, called_wall(site.plan, place.on), place.on, span_of(place)),
        unit=reading.exactly(unit.name, unit.item.pointer, "unit beside it"),
        fuel=fuel,
        further=further,
        nearer=nearer,
        underside=site.levels.underside_of(unit),
        surface=surface,
        supports=supports,
        hob_stated=hob_stated,
        hob_from=hob_from,
        protected=protection_of(unit),
    )
