"""Hobs and the hoods over them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures.appliances.appliance_places import (
    FUEL,
    HOBS,
    HOODS,
    none_yet,
    of_kinds,
    place_of,
    subject_of,
    width_of,
)
from validator.measures.appliances.hob_heights import heights_at, stated_figure
from validator.measures.rows import Given, Missing, Row, Rows, figure, given
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.site import Site


class HobUnderHood(Row, kind="hob under hood"):
    """A hob and the hood over it; heights from the finished floor.

    Makers measure from different places: `hob_from` and `hood_from` say how far below the pan supports each starts.
    """

    fuel: str = given(FUEL, "fuel of the hob")
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
    hoods = of_kinds(plan, HOODS)
    anywhere = next((name for name in hoods if plan.appliances[name].over is None), None)
    over: dict[str, int] = {}  # of several hoods over one thing the first counts
    for number, name in enumerate(hoods):
        over.setdefault(fold(plan.appliances[name].over or ""), number)
    rows = none_yet(plan, HobUnderHood.kind)
    for hob in of_kinds(plan, HOBS):
        inside = plan.appliances[hob].in_
        above = [over[fold(name)] for name in (hob, inside) if name and fold(name) in over]
        hood = hoods[min(above)] if above else anywhere
        if hood is not None:
            rows.rows.append(_row(site, hob, hood))
    return rows


def _row(site: Site, hob_name: str, hood_name: str) -> Row:
    place = place_of(site, hob_name)
    heights = heights_at(site, place, "hood_above")
    hood_stated, hood_from = stated_figure(
        site, hood_name, "hob_below", "hood maker's figure", heights["surface"], heights["supports"]
    )
    return HobUnderHood(
        subject_of(site, place),
        underside=_underside(site, hood_name, place),
        hood_stated=hood_stated,
        hood_from=hood_from,
        hood_width=width_of(place_of(site, hood_name)),
        hob_width=width_of(place),
        **heights,
    )


def _underside(site: Site, hood_name: str, place: ApplianceAt) -> Given:
    hood = site.plan.appliances[hood_name]
    if hood.over is None:
        return Missing(hood.pointer_to("over"), f"what {hood_name} hangs over")
    worktop = site.levels.worktop_by(place.on, place.standing)
    built = site.plan.built.get(hood_name)
    said_by = built if built is not None and built.up is not None else hood
    return site.levels.at(place.on).above_finished_floor(said_by.up, said_by.pointer_to("up"), hood_name, worktop)
