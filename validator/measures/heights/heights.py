"""Heights: floor layers, legs at the high and the low spot, worktops, and what has to go under them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import total
from validator.measures.heights.floor_stretches import floor_under
from validator.measures.rows import YES_NO, Given, Known, LeftOut, Missing, Row, Rows, Why, Words, figure, given
from validator.measures.tracing import derived
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold
from validator.plan.values import NothingStated

if TYPE_CHECKING:
    from validator.measures.heights.floor_stretches import Stretch
    from validator.measures.heights.room_levels import RoomLevels
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.sections.furniture import Item, Run


class FloorBuildUp(Row, kind="floor build-up"):
    """The layers of a floor to be laid."""

    layers: tuple[float, ...] = given(LENGTH, "floor layers", many=True)

    @figure(LENGTH, "floor", start="bare floor at the high spot", end="finished floor")
    def thickness(self) -> float:
        return total(self.layers)


class UnitOnLegs(Row, kind="unit on legs"):
    """A unit standing on legs on a floor that is not level. All from the bare floor, or from the floor laid before.

    The legs are set at the high spot of the floor; where the plan names the spots of the floor by the walls, the run
    has a high spot and a low spot of its own.
    """

    setting: float = given(LENGTH, "legs at the high spot")
    rise: float = given(LENGTH, "high spot of the run below the high spot")
    fall: float = given(LENGTH, "low spot below the high spot")
    leg_least: float = given(LENGTH, "shortest its legs can be")
    leg_most: float = given(LENGTH, "longest its legs can be")

    @figure(LENGTH, "legs where its run is highest", start="floor there", end="underside of the carcass")
    def at_high_spot(self) -> float:
        return self.setting + self.rise

    @figure(LENGTH, "legs at the low spot", start="floor at the low spot", end="underside of the carcass")
    def at_low_spot(self) -> float:
        return self.setting + self.fall


class WorktopOnRun(Row, kind="worktop on a run"):
    """A worktop on its run; heights at the high spot."""

    laid_before: float = given(LENGTH, "floor under the units")  # 0 where the floor comes after the units
    setting: float = given(LENGTH, "legs")
    carcass: float = given(LENGTH, "unit")
    thickness: float = given(LENGTH, "worktop")
    finished_floor: float = given(LENGTH, "floor")

    @figure(LENGTH, "underside of the worktop", start="bare floor at the high spot", end="underside of the worktop")
    def underside(self) -> float:
        return self.laid_before + self.setting + self.carcass

    @figure(LENGTH, "worktop above the bare floor", start="bare floor at the high spot", end="surface of the worktop")
    def above_bare_floor(self) -> float:
        return self.underside + self.thickness

    @figure(LENGTH, "worktop", start="finished floor", end="surface of the worktop")
    def height(self) -> float:
        return self.above_bare_floor - self.finished_floor


class ApplianceUnderWorktop(Row, kind="appliance under a worktop"):
    """A machine that slides under a worktop: the opening before the last floor is laid, and after.

    A body with a range (`820 to 870 h`) has feet: wound in it goes in, wound out it has to reach the worktop from the
    floor it stands on, which at the low spot is the furthest.
    """

    underside: float = given(LENGTH, "underside of the worktop")
    floor_before: float = given(LENGTH, "floor there when the units are set")
    floor_after: float = given(LENGTH, "floor")
    floor_under: float = given(LENGTH, "floor it stands on")
    fall: float = given(LENGTH, "low spot below the high spot")
    body: float = given(LENGTH, "the machine, feet wound in")
    has_feet: bool = given(YES_NO, "whether the plan says how far its feet wind out")
    body_most: float = given(LENGTH, "the machine, feet wound out")
    laid: str = given(Words(("before units", "after units", "never")), "when the floor is laid")
    maker_opening: float = given(LENGTH, "opening the maker asks for")

    @figure(LENGTH, "opening before the floor is laid", start="floor", end="underside of the worktop")
    def opening_before(self) -> float:
        return self.underside - self.floor_before

    @figure(LENGTH, "opening", start="finished floor", end="underside of the worktop")
    def opening_after(self) -> float:
        return self.underside - self.floor_after

    @figure(LENGTH, "opening at the low spot", start="floor it stands on", end="underside of the worktop")
    def deepest(self) -> float:
        return self.underside - self.floor_under + self.fall


STANDS_BESIDE = 1.5
"""A unit or machine half as tall again as what the worktop lies on stands beside the worktop, not under it."""

COOKERS = frozenset({"gas cooker", "electric cooker"})
"""Machines that stand between worktops, not under one."""


def floor_build_ups(site: Site) -> Rows:
    """A row for each floor to be laid."""
    found = Rows()
    for levels in site.levels.rooms:
        floors = levels.room.floors
        if floors.left_out:
            found.left_out.append(LeftOut(FloorBuildUp.kind, Missing(floors.pointer, "floors to be laid")))
        # A floor at the top of the plan may be that of several rooms.
        said = {row.subject.pointer for row in found.rows}
        found.rows += [row for row in levels.build_ups.values() if row.subject.pointer not in said]
    return found


def worktops_on_runs(site: Site) -> Rows:
    """A row for each worktop."""
    if site.plan.worktops.left_out:
        return Rows(left_out=[LeftOut(WorktopOnRun.kind, Missing("/worktops", "worktops"))])
    return Rows(list(site.levels.worktops.values()))


def units_on_legs(site: Site) -> Rows:
    """A row for each standing unit, unless the plan says that it has no legs."""
    if site.plan.runs.left_out:
        return Rows(left_out=[LeftOut(UnitOnLegs.kind, Missing("/runs", "runs of units"))])
    units = (thing for thing in site.setting_out.things() if thing.item.family == "unit")
    standing = (thing for thing in units if not site.levels.is_hung(thing))
    floors = {run: floor_under(site, run) for run in site.plan.runs}
    return Rows([_on_legs(site, thing, floors[thing.run]) for thing in standing if has_legs(site, thing)])


def has_legs(site: Site, thing: Standing) -> bool:
    """Whether a standing unit has legs, as far as the plan says."""
    run = site.plan.runs[thing.run]
    none_in_run = run.legs is not None and isinstance(run.legs.setting, NothingStated) and thing.item.legs is None
    return not none_in_run and not isinstance(thing.item.legs, NothingStated)


def _on_legs(site: Site, thing: Standing, floor: Stretch) -> Row:
    legs = reading.read(thing.item, "legs", "legs")
    ends: dict[str, Given] = {"leg_least": legs, "leg_most": legs}
    if isinstance(legs, Known):
        ends["leg_least"] = Known(legs.low, legs.pointer, legs.text, "shortest legs", legs.low, legs.low, legs.assumed)
        ends["leg_most"] = Known(legs.high, legs.pointer, legs.text, "longest legs", legs.high, legs.high, legs.assumed)
    return UnitOnLegs(thing.subject, setting=site.levels.setting_of(thing), rise=floor.high, fall=floor.low, **ends)


def appliances_under_worktops(site: Site) -> Rows:
    """A row for each opening of a run under a worktop, with the machine that is to stand there.

    The floor is taken to run on under the machine unless the plan says that it stops in front of it. What is half as
    tall again as the worktop stands beside it.
    """
    if site.plan.runs.left_out:
        return Rows(left_out=[LeftOut(ApplianceUnderWorktop.kind, Missing("/runs", "runs of units"))])
    found = Rows()
    for thing in site.setting_out.things():
        worktop = site.levels.worktop_on(thing.run) if thing.item.family == "opening" else None
        if worktop is not None:
            row = _under(site, thing, worktop)
            if row is not None:
                found.rows.append(row)
    return found


def _under(site: Site, thing: Standing, worktop: WorktopOnRun) -> Row | None:
    plan, levels = site.plan, site.levels.at(thing.wall)
    name = machine_in(site, thing)
    appliance = plan.appliances.get(name)
    if appliance is not None and fold(appliance.is_ or name) in COOKERS:
        return None
    underside = derived(worktop, "underside", "underside of the worktop")
    pointer = f"{plan.appliances.pointer}/{name}/body" if appliance is None else appliance.pointer_to("body")
    body = appliance.body.h if appliance is not None and appliance.body is not None else None
    height = reading.quantity(body, pointer, name)
    if isinstance(height, Known) and isinstance(underside, Known) and height.value > STANDS_BESIDE * underside.value:
        return None
    return ApplianceUnderWorktop(
        thing.subject._replace(name=name, pointer=thing.item.pointer if appliance is None else appliance.pointer),
        underside=underside,
        floor_before=levels.laid_before,
        floor_after=levels.finished_floor,
        floor_under=_floor_under_machines(levels),
        fall=floor_under(site, thing.run).low,
        **_feet(height),
        laid=levels.laid,
        maker_opening=_maker_opening(site, name),
    )


def _floor_under_machines(levels: RoomLevels) -> Given:
    covering = levels.covering
    if covering is None or isinstance(covering, Missing) or covering.under_machines is None:
        return levels.finished_floor
    runs_on = reading.word(covering.under_machines, covering.pointer_to("under_machines"), "whether it runs on")
    if not isinstance(runs_on, Known):
        return runs_on
    return levels.finished_floor if runs_on.value else levels.laid_before


def _feet(height: Given) -> dict[str, Given]:
    """A machine with its feet wound in and out; one height alone says nothing of its feet."""
    if not isinstance(height, Known):
        return {"body": height, "has_feet": height, "body_most": height}
    wound_out = f"{height.label}, feet wound out"
    return {
        "body": height.at_end(height.low),
        "has_feet": reading.exactly(height.low != height.high, height.pointer, "whether its feet are given"),
        "body_most": height.at_end(height.high)._replace(value=height.high, label=wound_out),
    }


def machine_in(site: Site, thing: Standing) -> str:
    """The machine that stands in an opening: the one of its name, else the one that says so."""
    plan = site.plan
    if thing.name not in plan.appliances:
        for name, appliance in plan.appliances.items():
            if appliance.in_ is not None and plan.unit(appliance.in_) == (thing.run, thing.name):
                return name
    return thing.name


def _maker_opening(site: Site, name: str) -> Given:
    from validator.plan.sections.appliances import AppliancePapers

    label = "opening the maker asks for"
    papers = site.plan.stated.get(name)
    if isinstance(papers, AppliancePapers):
        return reading.stated(papers.opening_height, papers.pointer_to("opening_height"), label)
    return Missing(f"{site.plan.stated.pointer}/{name}/opening height", label, Why.UNREAD)


def hangs(run: Run, item: Item) -> bool:
    """Whether a thing of a run hangs: by the height of its run or its own, its hangers, or what it is over."""
    return any(said is not None for said in (run.tops, run.underside, item.underside, item.hangers, item.over))
