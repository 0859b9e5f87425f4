"""Depths from the wall outwards: void, carcass and front under a worktop, and how far wall units stand out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.heights.heights import STANDS_BESIDE
from validator.measures.room.walls import named_gap
from validator.measures.rows import Known, LeftOut, Missing, Row, Rows, figure, given
from validator.measures.runs.of_kinds import of_kind
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site


class WorktopDepth(Row, kind="depth of a worktop"):
    """A worktop along a wall and the deepest of the units it lies on, from the wall outwards."""

    depth: float = given(LENGTH, "worktop")
    void: float = given(LENGTH, "void behind the units")
    carcass: float = given(LENGTH, "carcass")
    front: float = given(LENGTH, "front")

    @figure(LENGTH, "overhang past the fronts", start="face of the fronts", end="front edge of the worktop")
    def past_fronts(self) -> float:
        return self.depth - self.void - self.carcass - self.front


class HungDepth(Row, kind="depth of a hung unit"):
    """How far a hung unit stands out from its wall, without its front."""

    depth: float = given(LENGTH, "depth")


def worktop_depths(site: Site) -> Rows:
    """A row for each worktop on a run along a wall; on an island nothing says where its depth starts."""
    plan = site.plan
    if plan.worktops.left_out:
        return Rows(left_out=[LeftOut(WorktopDepth.kind, Missing("/worktops", "worktops"))])
    rows = Rows()
    for name, top in plan.worktops.items():
        unit = _deepest(site, top.on) if top.on in plan.runs and plan.runs[top.on].faces is None else None
        if unit is not None:
            row = WorktopDepth(
                site.levels.worktops[name].subject,
                depth=named_gap(reading.read(top, "depth", name), f"depth of {name}"),
                void=of_kind(unit.item, "void_behind", "void behind"),
                carcass=of_kind(unit.item, "depth", "depth"),
                front=of_kind(unit.item, "front", "front"),
            )
            rows.rows.append(row)
    return rows


def _deepest(site: Site, run: str) -> Standing | None:
    """The unit under a worktop that reaches furthest out, as far as is known; one that lacks a depth comes first."""
    units = [thing for thing in site.setting_out.in_run(run) if thing.item.family == "unit"]
    heights = {unit.name: _number(reading.read(unit.item, "height", "height"), 0.0) for unit in units}
    lowest = min(heights.values(), default=0.0)
    low = [unit for unit in units if heights[unit.name] < STANDS_BESIDE * lowest or not lowest]
    return max(low, key=_reach, default=None)


def _reach(unit: Standing) -> float:
    fields = ("void_behind", "depth", "front")
    return sum(_number(of_kind(unit.item, field, field), float("inf")) for field in fields)


def _number(value: object, otherwise: float) -> float:
    return float(value.value) if isinstance(value, Known) else otherwise


def hung_depths(site: Site) -> Rows:
    """A row for each hung unit."""
    if site.plan.runs.left_out:
        return Rows(left_out=[LeftOut(HungDepth.kind, Missing("/runs", "runs of units"))])
    units = (thing for thing in site.setting_out.things() if thing.item.family == "unit" and site.levels.is_hung(thing))
    return Rows([HungDepth(unit.subject, depth=of_kind(unit.item, "depth", "depth")) for unit in units])
