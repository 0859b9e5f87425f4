"""Aisles: the clear way before every standing run and round every island, and seats at a worktop."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import total
from validator.measures.plane.clear_ways import sides_called
from validator.measures.plane.ways_ahead import SIDES, Side
from validator.measures.room.walls import at_left, at_right
from validator.measures.rows import NAME, YES_NO, Given, Row, Rows, Subject, Words, figure, given
from validator.plan.dimensions import LENGTH, NUMBER
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.plane.clear_ways import Way
    from validator.measures.site import Site
    from validator.plan.sections.furniture import Run

ASKED = ("no", "yes", "category 2", "category 3")
"""How accessible a plan may ask a kitchen to be."""

CALLED: dict[Side, str] = {"front": "front", "back": "back", "left": "left end", "right": "right end"}
"""What a reader calls the sides of an island."""


class Aisle(Row, kind="aisle"):
    """The clear way before the fronts of a standing run, and before each other side of an island that has one.

    `drawn` is from the fronts or the edge of the worktop to what comes nearest of all that lies across: fronts, a
    worktop, a wall. `enclosed` is whether runs stand on three sides of it, `cooks` how many of the household cook.
    """

    side: str = given(Words(("front", "back", "end")), "which side of it")
    drawn: float = given(LENGTH, "by the drawing")
    handles: tuple[float, ...] = given(LENGTH, "handles", many=True)
    to: str = given(NAME, "what lies across")
    accessible: str = given(Words(ASKED), "how accessible it is to be")
    enclosed: bool = given(YES_NO, "whether runs stand on three sides of it")
    cooks: float = given(NUMBER, "cooks")

    @figure(LENGTH, "aisle", start="handles and worktop", end="what lies across")
    def width(self) -> float:
        return self.drawn - total(self.handles)


class SeatsAtWorktop(Row, kind="seats at a worktop"):
    """Seats along a side of a worktop, and what is behind whoever sits there."""

    drawn: float = given(LENGTH, "by the drawing")
    handles: tuple[float, ...] = given(LENGTH, "handles", many=True)
    to: str = given(NAME, "what is behind them")
    passage: bool = given(YES_NO, "whether there is a way past behind them")

    @figure(LENGTH, "behind the seats", start="edge of the worktop", end="what is behind them")
    def behind(self) -> float:
        return self.drawn - total(self.handles)


def aisles(site: Site) -> Rows:
    """A row for each standing run, and one for each other side of an island that does not stand against something."""
    plan = site.plan
    rows = Rows()
    asked = plan.project.accessible
    accessible: Given = reading.exactly("no", plan.project.pointer, "how accessible it is to be", "nobody asks for it")
    if asked is not None:
        accessible = reading.word(asked, plan.project.pointer_to("accessible"), "how accessible it is to be")
    cooks = _cooks(site)
    standing = {name: run for name, run in plan.runs.items() if _stands(site, name)}
    walls = frozenset(fold(run.against) for run in standing.values() if run.faces is None)
    for name, run in standing.items():
        sides: tuple[Side, ...] = ("front",) if run.faces is None else SIDES
        for side in sides:
            way = site.clear_ways.before(name, side)
            if way.closed and side != "front":
                continue
            context = "" if side == "front" and run.faces is None else CALLED[side]
            row = Aisle(
                Subject(name, run.pointer, context),
                side=reading.exactly(side if side in ("front", "back") else "end", run.pointer, "which side of it"),
                drawn=way.drawn,
                handles=way.handles,
                to=way.to,
                accessible=accessible,
                enclosed=_enclosed(site, run, way, side, walls),
                cooks=cooks,
            )
            rows.rows.append(row)
    return rows


def _stands(site: Site, run: str) -> bool:
    things = site.setting_out.in_run(run)
    return any(thing.item.family == "unit" and not site.levels.is_hung(thing) for thing in things)


def _cooks(site: Site) -> Given:
    """How many of the household cook; one where the plan names nobody."""
    household = site.plan.household
    members = [(name, member) for name, member in household.items() if member.cooks is not False]
    for name, member in members:
        if member.cooks is not None and member.cooks is not True:
            return reading.word(member.cooks, member.pointer_to("cooks"), f"whether {name} cooks")
    return reading.exactly(max(len(members), 1), household.pointer, "cooks")


def _enclosed(site: Site, run: Run, way: Way, side: Side, walls: frozenset[str]) -> Given:
    """Whether a run, the one across from it and one between them stand on three sides of an aisle."""
    across = site.plan.runs.get(way.run)
    between = [at_left(site.plan, run.against), at_right(site.plan, run.against)] if run.faces is None else []
    shut = any(wall is not None and fold(wall) in walls for wall in between)
    enclosed = side == "front" and shut and across is not None and across.faces is None
    return reading.exactly(enclosed, run.pointer, "whether runs stand on three sides of it")


def seats_at_worktops(site: Site) -> Rows:
    """A row for each side of a worktop at which somebody sits."""
    rows = Rows()
    for name, top in site.plan.worktops.items():
        if top.seats is None or top.on not in site.plan.runs:
            continue
        for side in sides_called(site, top, top.seats.on):
            way = site.clear_ways.before(site.plan.runs.written(top.on), side, seats=True)
            row = SeatsAtWorktop(
                Subject(f"seats at {name}", top.seats.pointer, top.seats.on),
                drawn=way.drawn,
                handles=way.handles,
                to=way.to,
                passage=reading.word(top.seats.passage, top.seats.pointer_to("passage"), "whether there is a way past"),
            )
            rows.rows.append(row)
    return rows
