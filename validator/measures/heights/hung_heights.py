"""Tops and undersides: units under the ceiling, flat or sloping, and hung units over a worktop."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import least
from validator.measures.heights.tall_units import standing_tall
from validator.measures.room.slopes import ceiling_at, ceiling_before
from validator.measures.room.walls import difference, worked
from validator.measures.rows import YES_NO, Given, Known, LeftOut, Missing, Row, Rows, figure, given
from validator.measures.worktops.upstands import below, worktops_by_wall
from validator.plan.dimensions import LENGTH
from validator.plan.values import NothingStated

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site


class UnitUnderCeiling(Row, kind="unit under the ceiling"):
    """A hung or a tall unit and the ceiling over it, where that is lowest: over its left, its right and its front."""

    top: float = given(LENGTH, "top of the unit")
    ceilings: tuple[float, ...] = given(LENGTH, "ceiling", many=True)
    has_cornice: bool = given(YES_NO, "whether the plan says what stands on its top")
    cornice: float = given(LENGTH, "cornice")

    @figure(LENGTH, "lowest ceiling over it", start="bare floor at the high spot", end="ceiling")
    def ceiling(self) -> float:
        return least(self.ceilings)

    @figure(LENGTH, "room above the unit", start="top of the unit", end="ceiling")
    def above(self) -> float:
        return self.ceiling - self.top


class HungOverWorktop(Row, kind="hung unit over a worktop"):
    """A hung unit and the worktop under it; heights from the finished floor."""

    underside: float = given(LENGTH, "underside of the unit")
    worktop: float = given(LENGTH, "worktop")

    @figure(LENGTH, "room between worktop and unit", start="worktop", end="underside of the unit")
    def clear(self) -> float:
        return self.underside - self.worktop


def units_under_ceiling(site: Site) -> Rows:
    """A row for each hung unit and each tall one."""
    if site.plan.runs.left_out:
        return Rows(left_out=[LeftOut(UnitUnderCeiling.kind, Missing("/runs", "runs of units"))])
    tall = {id(thing) for thing in standing_tall(site)}
    rows = Rows()
    for thing in site.setting_out.things():
        if thing.item.family == "unit" and (id(thing) in tall or site.levels.is_hung(thing)):
            rows.rows.append(_under_ceiling(site, thing))
    return rows


def _under_ceiling(site: Site, thing: Standing) -> Row:
    item = thing.item
    said = item.cornice is not None and not isinstance(item.cornice, NothingStated)
    return UnitUnderCeiling(
        thing.subject,
        top=site.levels.top_of(thing),
        ceilings=_ceilings(site, thing),
        has_cornice=reading.exactly(said, item.pointer_to("cornice"), "whether something stands on its top"),
        cornice=reading.read(item, "cornice", "cornice"),
    )


def _ceilings(site: Site, thing: Standing) -> Given:
    """The ceiling over both ends of a unit and over its front; the flat ceiling once, where nothing slopes."""
    room = site.levels.at(thing.wall)
    if room.room.ceiling is None or not room.room.ceiling.slopes:
        return reading.parts([room.ceiling])
    over = [ceiling_at(site, thing.wall, thing.left), ceiling_at(site, thing.wall, thing.right)]
    over += ceiling_before(site, thing)
    return reading.parts(list({id(height): height for height in over}.values()))


def hung_over_worktops(site: Site) -> Rows:
    """A row for each hung unit with a worktop under it; what carries a worktop itself hangs over none."""
    if site.plan.runs.left_out:
        return Rows(left_out=[LeftOut(HungOverWorktop.kind, Missing("/runs", "runs of units"))])
    if site.plan.worktops.left_out:
        return Rows(left_out=[LeftOut(HungOverWorktop.kind, Missing("/worktops", "worktops"))])
    tops = worktops_by_wall(site)
    rows = Rows()
    for thing in site.setting_out.things():
        if thing.item.family != "unit" or not site.levels.is_hung(thing) or site.levels.worktop_on(thing.run):
            continue
        worktop = below(tops, thing.wall, thing.middle)
        if worktop is not None:
            surface = worked(worktop, "height", "worktop")
            underside = site.levels.underside_of(thing)
            if isinstance(underside, Known) and isinstance(surface, Known) and underside.doubtful and surface.doubtful:
                # Both may hang on the same figure of the plan: only their difference is sure.
                underside = difference(underside, surface, thing.subject, "room over the worktop")
                surface = reading.exactly(0, worktop.subject.pointer, "worktop")
            rows.rows.append(HungOverWorktop(thing.subject, underside=underside, worktop=surface))
    return rows
