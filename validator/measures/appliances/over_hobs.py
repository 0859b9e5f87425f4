"""Hobs and the units that hang over them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import HOBS, fuel_of, of_kinds, of_no_kind, place_of, width_of
from validator.measures.appliances.hoods import span_of, stated_figure, supports_of, surface_of
from validator.measures.arithmetic import least
from validator.measures.heights.room_levels import Above
from validator.measures.room.walls import called_wall, difference, half_of, worked
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
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site

HAIR = 0.01
"""Sides in inches do not land on whole millimetres: what overlaps by no more than this stands side by side."""


class Overlap(Row, kind="stretch that two things share"):
    """How much of a wall two things both take; less than 0 where they stand apart.

    Both may hang on the same reading of the wall, so that their distances count, not their places.
    """

    widths: tuple[float, ...] = given(LENGTH, "widths", many=True)
    reaches: tuple[float, ...] = given(LENGTH, "from the left side of one to the right side of the other", many=True)

    @figure(LENGTH, "overlap", start="left side of one", end="right side of the other")
    def overlap(self) -> float:
        return least(least(self.widths), least(self.reaches))


class UnitOverHob(Row, kind="unit over a hob"):
    """A hob and the lowest of the hung units over it; heights from the finished floor.

    The maker's figure is the one for units, never the one for a hood, which may be of metal. `hob_from` says how far
    below the pan supports it starts.
    """

    unit: str = given(NAME, "unit over it")
    overlap: float = given(LENGTH, "how much of the hob's width the unit hangs over")
    fuel: str = given(Words(("gas", "induction", "ceramic", "solid plate")), "fuel of the hob")
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


def units_over_hobs(site: Site) -> Rows:
    """A row for each hob with a hung unit over it, or one on its wall that may be; of several the lowest counts.

    Without hung units in the plan nothing can hang over a hob.
    """
    plan = site.plan
    hobs = of_kinds(plan, HOBS)
    if plan.runs.left_out:
        return Rows(left_out=[LeftOut(UnitOverHob.kind, Missing("/runs", "runs of units"))] if hobs else [])
    hung: dict[str, list[Standing]] = {}
    for thing in site.setting_out.things():
        if thing.item.family == "unit" and site.levels.is_hung(thing):
            hung.setdefault(fold(thing.wall), []).append(thing)
    if not hung:
        return Rows()
    if plan.appliances.left_out:
        return Rows(left_out=[LeftOut(UnitOverHob.kind, Missing("/appliances", "appliances"))])
    rows = Rows(left_out=of_no_kind(plan, UnitOverHob.kind))
    for name in hobs:
        place = place_of(site, name)
        units = hung.get(fold(place.on), []) if place.on else []
        row = _row(site, place, units)
        if row is not None:
            rows.rows.append(row)
    return rows


def _row(site: Site, place: ApplianceAt, units: list[Standing]) -> Row | None:
    """The row of a hob and the lowest unit that is not certainly beside it, if there is one."""
    over = [
        (unit, overlap, site.levels.underside_of(unit))
        for unit in units
        if not _apart(overlap := _overlap(place, unit))
    ]
    if not over:
        return None
    unit, overlap, underside = min(over, key=lambda entry: _least(entry[2]))
    name, hob = place.name, place.appliance
    fuel, surface = fuel_of(name, hob), surface_of(site, place)
    supports = supports_of(site, name, place, fuel)
    hob_stated, hob_from = stated_figure(site, name, "unit_above", "hob maker's figure", surface, supports)
    return UnitOverHob(
        Subject(name, hob.pointer, called_wall(site.plan, place.on), place.on, span_of(place)),
        unit=reading.exactly(unit.name, unit.item.pointer, "unit over it"),
        overlap=overlap,
        fuel=fuel,
        underside=underside,
        surface=surface,
        supports=supports,
        hob_stated=hob_stated,
        hob_from=hob_from,
        protected=protection_of(unit),
    )


def protection_of(unit: Standing) -> Given:
    """Whether a unit says that it is protected against the heat of a hob."""
    label = f"whether {unit.name} is protected against heat"
    return reading.word(unit.item.protected, unit.item.pointer_to("protected"), label)


def _overlap(place: ApplianceAt, unit: Standing) -> Given:
    name, width = place.name, width_of(place)
    subject = Subject(name, place.appliance.pointer)
    half = half_of(width, subject, f"half of {name}")
    left = difference(place.middle, half, subject, f"left side of {name}")
    right = worked(Above(subject, base=place.middle, amount=half), "height", f"right side of {name}")
    reaches = [
        difference(unit.right, left, subject, f"from {name} to the right side of {unit.name}"),
        difference(right, unit.left, subject, f"from {unit.name} to the right side of {name}"),
    ]
    widths = [width, difference(unit.right, unit.left, subject, f"width of {unit.name}")]
    row = Overlap(subject, widths=reading.parts(widths), reaches=reading.parts(reaches))
    return worked(row, "overlap", f"how far {unit.name} hangs over {name}")


def _apart(overlap: Given) -> bool:
    return isinstance(overlap, Known) and overlap.high is not None and overlap.high <= HAIR


def _least(underside: Given) -> float:
    """What a unit may come down to; one of unknown height may be the lowest."""
    return float(underside.low or 0.0) if isinstance(underside, Known) else 0.0
