"""Aisles between runs, and valves within reach."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import total
from validator.measures.rows import NAME, Given, Known, Missing, Row, Rows, Subject, Words, figure, given
from validator.measures.walls import at_left, at_right, length_of
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.furniture import Item, Run


class Aisle(Row, kind="aisle"):
    """The passage between an island and what it faces, or between two runs that face each other."""

    across: float = given(LENGTH, "from wall to wall")
    taken: tuple[float, ...] = given(LENGTH, "units", many=True)
    to: str = given(NAME, "what lies across")

    @figure(LENGTH, "aisle", start="fronts", end="fronts across")
    def width(self) -> float:
        return self.across - total(self.taken)


class GasValve(Row, kind="gas pipe"):
    """The pipe to a gas appliance, and where its valve can be reached."""

    valve: str = given(Words(("in a unit", "behind an appliance", "elsewhere")), "where its valve is")


def aisles(site: Site) -> Rows:
    """A row for each island with its aisle, and for each two standing runs on opposite walls of a room of four."""
    plan = site.plan
    rows = Rows()
    for name, run in plan.runs.items():
        if run.faces is not None:
            rows.rows.append(_before_island(name, run))
    standing = [name for name, run in plan.runs.items() if run.faces is None and _stands(site, name)]
    for name, other in combinations(standing, 2):
        if _opposite(site, name, other):
            rows.rows.append(_between(site, name, other))
    return rows


def _before_island(name: str, run: Run) -> Row:
    pointer = run.pointer_to("aisle")
    to = run.aisle.to if run.aisle is not None and run.aisle.to is not None else run.faces
    width: Given = Missing(pointer, f"aisle before the {name}")
    if run.aisle is not None:
        width = reading.read(run.aisle, "width", f"aisle before the {name}")
    return Aisle(
        Subject(name, run.pointer),
        across=width,
        taken=Known((), parts=()),
        to=reading.exactly(to or "", pointer, "what lies across"),
    )


def _stands(site: Site, run: str) -> bool:
    things = site.setting_out.in_run(run)
    return any(thing.item.family == "unit" and not site.levels.is_hung(thing) for thing in things)


def _opposite(site: Site, name: str, other: str) -> bool:
    plan = site.plan
    here, there = plan.runs[name].against, plan.runs[other].against
    room = plan.room_of(here)
    if room is None or len(room.walls) != 4 or here not in room.walls or there not in room.walls:
        return False
    walls = list(room.walls)
    return abs(walls.index(room.walls.written(here)) - walls.index(room.walls.written(there))) == 2


def _between(site: Site, name: str, other: str) -> Row:
    plan = site.plan
    wall = plan.runs[name].against
    sides = [beside for beside in (at_left(plan, wall), at_right(plan, wall)) if beside is not None]
    lengths = [length_of(plan, side) for side in sides]
    known = [length for length in lengths if isinstance(length, Known)]
    across = min(known, key=lambda length: length.low or 0.0) if len(known) == len(lengths) else lengths[0]
    if not isinstance(across, Known) or len(known) < len(lengths):
        across = next(length for length in lengths if not isinstance(length, Known))
    parts = [part for run in (name, other) for part in _depths(site, run)]
    return Aisle(
        Subject(name, plan.runs[name].pointer, f"across from {other}"),
        across=across,
        taken=reading.parts(parts),
        to=reading.exactly(other, plan.runs[other].pointer, "what lies across"),
    )


def _depths(site: Site, run: str) -> list[Given]:
    """Void, unit and front of the deepest unit of a run."""
    units = [item for item in site.plan.runs[run].order.values() if item.family == "unit"]
    item = max(units, key=_depth)
    fields = (("void_behind", "void"), ("depth", "units"), ("front", "fronts"))
    return [reading.read(item, field, f"{label} of {run}") for field, label in fields]


def _depth(item: Item) -> float:
    depth = reading.read(item, "depth", "depth")
    return float(depth.value) if isinstance(depth, Known) else float("inf")


def gas_valves(site: Site) -> Rows:
    """One row where the plan has a gas pipe."""
    gas = site.plan.gas
    if gas is None:
        return Rows()
    pointer = gas.pointer_to("valve")
    where: Given = Missing(pointer, "unit in which the gas valve can be reached")
    if gas.valve is not None:
        found = site.setting_out.find(gas.valve)
        family = found.item.family if found is not None else ""
        words = {"unit": "in a unit", "opening": "behind an appliance"}
        where = reading.exactly(words.get(family, "elsewhere"), pointer, "where the gas valve is")
    return Rows([GasValve(Subject("gas pipe", gas.pointer), valve=where)])
