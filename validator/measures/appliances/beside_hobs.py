"""Hobs and the units that hang beside them: how far aside, and how high above the pan supports."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures.appliances.appliance_places import subject_of
from validator.measures.appliances.hung_at_hobs import HAIR, HungAtHob, hung_at_hobs, that_count, values_at
from validator.measures.rows import Known, Rows, figure, given
from validator.measures.worktops.tops import LEFT, SIDES, cut_of
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.measures.worktops.tops import Cut


class UnitBesideHob(HungAtHob, kind="unit beside a hob"):
    """A hob and a hung unit on one side of it, along the wall."""

    further: float = given(LENGTH, "further side of the room between them")
    nearer: float = given(LENGTH, "nearer side of the room between them")

    @figure(LENGTH, "aside", start="edge of the hob", end="side of the unit")
    def aside(self) -> float:
        return self.further - self.nearer


def units_beside_hobs(site: Site) -> Rows:
    """A row for each side of a hob on which a unit hangs along its wall and not over it; the nearest counts.

    A unit further away has a row too where it hangs lower, or where those nearer are protected and it is not.
    """
    rows, hobs = hung_at_hobs(site, UnitBesideHob.kind)
    for place, units in hobs:
        cut = cut_of(place, "hob")
        for side in SIDES:
            subject = subject_of(site, place, f"{place.name}, {side} side")
            for unit in that_count(site, _nearest_first(units, cut, side)):
                further, nearer = (cut.left, unit.right) if side == LEFT else (unit.left, cut.right)
                values = values_at(site, place, unit, "unit_beside", "unit beside it")
                rows.rows.append(UnitBesideHob(subject, further=further, nearer=nearer, **values))
    return rows


def _nearest_first(units: list[Standing], cut: Cut, side: str) -> list[Standing]:
    """The hung units on one side of a hob, from it outwards; one of which nobody knows the place may be the nearest."""
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
    return [unit for _, unit in sorted(found, key=lambda entry: entry[0])]
