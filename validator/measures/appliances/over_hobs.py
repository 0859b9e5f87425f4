"""Hobs and the units that hang over them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import subject_of, width_of
from validator.measures.appliances.hung_at_hobs import (
    HAIR,
    HungAtHob,
    hung_at_hobs,
    lowest_first,
    that_count,
    values_at,
)
from validator.measures.arithmetic import least
from validator.measures.room.walls import difference, worked
from validator.measures.rows import Given, Known, Row, Rows, Subject, figure, given
from validator.measures.worktops.tops import cut_of
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.measures.worktops.tops import Cut


class Overlap(Row, kind="stretch that two things share"):
    """How much of a wall two things both take; less than 0 where they stand apart.

    Both may hang on the same reading of the wall, so that their distances count, not their places.
    """

    widths: tuple[float, ...] = given(LENGTH, "widths", many=True)
    reaches: tuple[float, ...] = given(LENGTH, "from the left side of one to the right side of the other", many=True)

    @figure(LENGTH, "overlap", start="left side of one", end="right side of the other")
    def overlap(self) -> float:
        return least(least(self.widths), least(self.reaches))


class UnitOverHob(HungAtHob, kind="unit over a hob"):
    """A hob and a hung unit over it. The maker's figure is the one for units; a hood may be of metal."""

    overlap: float = given(LENGTH, "how much of the hob's width the unit hangs over")


def units_over_hobs(site: Site) -> Rows:
    """A row for each hob with a hung unit over it, or one on its wall that may be; of several the lowest counts.

    Where the lowest is protected, the lowest of those that are not has a row too.
    """
    rows, hobs = hung_at_hobs(site, UnitOverHob.kind)
    for place, units in hobs:
        cut = cut_of(place, "hob")
        overlaps = {id(unit): _overlap(place, cut, unit) for unit in units}
        over = lowest_first(site, [unit for unit in units if not _apart(overlaps[id(unit)])])
        for unit in that_count(site, over):
            values = values_at(site, place, unit, "unit_above", "unit over it")
            rows.rows.append(UnitOverHob(subject_of(site, place), overlap=overlaps[id(unit)], **values))
    return rows


def _overlap(place: ApplianceAt, cut: Cut, unit: Standing) -> Given:
    name = place.name
    subject = Subject(name, place.appliance.pointer)
    reaches = [
        difference(unit.right, cut.left, subject, f"from {name} to the right side of {unit.name}"),
        difference(cut.right, unit.left, subject, f"from {unit.name} to the right side of {name}"),
    ]
    widths = [width_of(place), difference(unit.right, unit.left, subject, f"width of {unit.name}")]
    row = Overlap(subject, widths=reading.parts(widths), reaches=reading.parts(reaches))
    return worked(row, "overlap", f"how far {unit.name} hangs over {name}")


def _apart(overlap: Given) -> bool:
    return isinstance(overlap, Known) and overlap.high is not None and overlap.high <= HAIR
