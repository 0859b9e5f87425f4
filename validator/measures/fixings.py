"""Fixings in walls: how deep they sit in what carries, layer by layer."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import least, total
from validator.measures.heights import STANDS_BESIDE
from validator.measures.rows import TERM, Given, LeftOut, Missing, Row, Rows, Subject, Why, Words, figure, given
from validator.plan.dimensions import LENGTH
from validator.plan.elements import Element
from validator.plan.names import fold
from validator.plan.pointers import join
from validator.plan.values import Quantity, ToFind

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.measures.ways_through_walls import MakeUp, WayThroughWall
    from validator.plan.plan import Plan
    from validator.plan.sections.furniture import Item, Run
    from validator.plan.sections.work import Fixing


class FixingInWall(Row, kind="fixing in a wall"):
    """A plug or screw through a fixture and the layers that carry nothing, into the layer that does. One row a wall."""

    kind_of: str = given(Words(("frame fixing", "plug and screw", "wood screw")), "kind of fixing")
    length: float = given(LENGTH, "long")
    through: float = given(LENGTH, "rail")
    coverings: tuple[float, ...] = given(LENGTH, "layers that carry nothing", many=True)
    base: str = given(TERM, "what carries it")
    base_thickness: float = given(LENGTH, "thickness of what carries it")
    screw_type: str = given(TERM, "kind of screw")
    plug_length: float = given(LENGTH, "plug")
    plug_diameter: float = given(LENGTH, "diameter of the plug")
    hole_depth: float = given(LENGTH, "depth of the hole")
    maker_embedment: float = given(LENGTH, "embedment its maker asks for")
    carries: str = given(Words(("wall units", "tall units", "other")), "what hangs on it")

    @figure(LENGTH, "embedment", start="face of what carries it", end="tip of the fixing")
    def embedment(self) -> float:
        return self.length - self.through - total(self.coverings)

    @figure(LENGTH, "hole past the tip", start="tip of the fixing", end="end of the hole")
    def hole_past_tip(self) -> float:
        return self.hole_depth + self.through - self.length

    @figure(LENGTH, "left behind the hole", start="end of the hole", end="far face of what carries it")
    def left_behind(self) -> float:
        return total(self.coverings) + self.base_thickness - self.hole_depth


class PlugAndScrewInWall(FixingInWall, kind="fixing in a wall"):
    """A plug set wholly in what carries, with a screw of its own: a screw holds only as far as the plug goes."""

    @figure(LENGTH, "embedment", start="face of what carries it", end="tip of the fixing")
    def embedment(self) -> float:
        return least(self.length - self.through - total(self.coverings), self.plug_length)


@dataclass(slots=True)
class _Held:
    """What one fixing holds on walls of one make-up."""

    made: MakeUp
    carries: str
    walls: list[str] = field(default_factory=list)


def fixings_in_walls(site: Site) -> Rows:
    """A row for each fixing and each make-up of wall it goes into, and one for each run with hung units none is for."""
    plan = site.plan
    if plan.fixings.left_out:
        return Rows(left_out=[LeftOut(FixingInWall.kind, Missing("/fixings", "fixings"))])
    found = Rows()
    all_held: set[int] = set()
    standing = {id(thing.item): thing for thing in site.setting_out.things()} if site.make_ups.any_parts else {}
    for name, fixing in plan.fixings.items():
        groups: dict[tuple[str, str], _Held] = {}
        for wanted in fixing.for_:
            things = list(held_by(plan, wanted))
            if not things:
                missing = Missing(fixing.pointer_to("for"), wanted, Why.UNCLEAR, detail=f"which wall is {wanted} on?")
                found.rows.append(_row(site, name, fixing, missing, "other"))
            for item, wall, carries in things:
                all_held.add(id(item))
                thing = standing.get(id(item))
                left, right = (None, None) if thing is None else (thing.left, thing.right)
                for made in site.make_ups.at(wall, left, right):
                    held = groups.setdefault((made.name, carries), _Held(made, carries))
                    if wall not in held.walls:
                        held.walls.append(wall)
        for held in groups.values():
            way = held.made.way_to(site.library, into) if isinstance(into := _into(fixing), str) else into
            found.rows.append(_row(site, name, fixing, way, held.carries, held.walls, held.made.part))
    found.rows.extend(_nothing_holds(plan, all_held))
    return found


def _walls(names: Sequence[str]) -> str:
    if len(names) == 1:
        return f"{names[0]} wall"
    return f"{', '.join(names[:-1])} and {names[-1]} walls"


def _nothing_holds(plan: Plan, held: set[int]) -> Iterator[Row]:
    """A row for each run of which hung units are left that no fixing is for; `held` are the items that one is for."""
    for name, run in plan.runs.items():
        loose = [unit for unit, item in run.order.items() if _hung(run, item) and id(item) not in held]
        if loose:
            missing = Missing(plan.fixings.pointer, f"what holds {', '.join(loose)}", Why.LEFT_OUT)
            subject = Subject(name, run.pointer, f"{run.against} wall", run.against)
            fields = [field for field in FixingInWall.fields if field != "carries"]
            carries = reading.exactly("wall units", run.pointer, "what hangs on it")
            yield FixingInWall(subject, carries=carries, **dict.fromkeys(fields, missing))


def held_by(plan: Plan, wanted: str) -> Iterator[tuple[Item, str, str]]:
    """All that a name of `for` means, a run, a thing in one, an appliance, a kind: item, wall and what hangs there."""
    name = fold(wanted)
    for run_name, run in plan.runs.items():
        if fold(run_name) == name:
            lowest = _lowest(run)
            for item in run.order.values():
                if item.family == "unit":
                    yield item, run.against, _carries(run, item, wanted, lowest)
            return
    place = _place(plan, wanted)
    if place is not None:
        run_name, item = place
        run = plan.runs[run_name]
        yield item, run.against, _carries(run, item, wanted, _lowest(run)) if item.family == "unit" else "other"
        return
    kind = name.removesuffix(" units").removesuffix(" unit")
    for run in plan.runs.values():
        lowest = _lowest(run)
        for item in run.order.values():
            of_kind = fold(item.is_) in (name, kind) or fold(item.is_) == name.removesuffix("s")
            hung = kind == "wall" and name != kind and _hung(run, item)
            if item.family == "unit" and (of_kind or hung):
                yield item, run.against, _carries(run, item, wanted, lowest)


def _place(plan: Plan, name: str, seen: frozenset[str] = frozenset()) -> tuple[str, Item] | None:
    """The run and the item that a name stands for: its own, or for an appliance the one it sits in or hangs over."""
    found = plan.unit(name)
    if found is not None:
        run_name, written = found
        return run_name, plan.runs[run_name].order[written]
    if name not in plan.appliances or fold(name) in seen:
        return None
    appliance = plan.appliances[name]
    host = appliance.in_ or appliance.over
    return _place(plan, host, seen | {fold(name)}) if host else None


def _hung(run: Run, item: Item) -> bool:
    if item.family != "unit":
        return False
    return any(given is not None for given in (run.tops, run.underside, item.underside, item.hangers, item.over))


def _carries(run: Run, item: Item, wanted: str, lowest: float) -> str:
    if _hung(run, item):
        return "wall units"
    named = "tall" in fold(item.is_).split() or "tall" in fold(wanted).split()
    return "tall units" if named or _height(item) >= STANDS_BESIDE * lowest else "other"


def _lowest(run: Run) -> float:
    """The height of the lowest unit of a run: one half as tall again is a tall unit."""
    return min((_height(item) for item in run.order.values() if isinstance(item.height, Quantity)), default=math.inf)


def _height(item: Item) -> float:
    return item.height.low if isinstance(item.height, Quantity) else 0.0


def _row(
    site: Site,
    name: str,
    fixing: Fixing,
    way: WayThroughWall | Missing,
    carries: str,
    walls: Sequence[str] = (),
    part: str = "",
) -> Row:
    context = ", ".join(filter(None, (_walls(walls) if walls else "", part)))
    subject = Subject(name, fixing.pointer, context, walls[0] if len(walls) == 1 else "")
    kind_of = _kind(fixing)
    values: dict[str, Given] = {
        "kind_of": reading.exactly(kind_of, fixing.pointer, "kind") if isinstance(kind_of, str) else kind_of,
        "length": _part(fixing, "plug" if kind_of == "frame fixing" else "screw", "length", "long"),
        "through": reading.read(fixing, "through", "rail" if fixing.at == "hangers" else "fixture"),
        "screw_type": _screw_type(fixing),
        "plug_length": _part(fixing, "plug", "length", "plug"),
        "plug_diameter": _part(fixing, "plug", "diameter", "diameter of the plug"),
        "hole_depth": _part(fixing, "hole", "depth", "hole"),
        "maker_embedment": _maker_embedment(site.plan, name, fixing),
        "carries": reading.exactly(carries, fixing.pointer_to("for"), "what hangs on it"),
    }
    values |= _met_on(way)
    row = PlugAndScrewInWall if kind_of == "plug and screw" else FixingInWall
    return row(subject, **values)


def _met_on(way: WayThroughWall | Missing) -> dict[str, Given]:
    """What a fixing meets on its way through a wall."""
    if isinstance(way, Missing):
        return dict.fromkeys(("coverings", "base", "base_thickness"), way)
    return {
        "coverings": way.coverings,
        "base": reading.exactly(way.base.material, way.base.pointer, "what carries it"),
        "base_thickness": way.base.thickness,
    }


def _kind(fixing: Fixing) -> str | Missing:
    if fixing.plug is None:
        return "wood screw" if fixing.screw is not None else Missing(fixing.pointer, "plug or screw")
    if "frame" in fold(fixing.plug.type or "").split():
        return "frame fixing"
    if fixing.screw is not None or fixing.plug.type is not None:
        return "plug and screw"
    return Missing(fixing.pointer_to("plug"), "type of the plug")


def _part(fixing: Fixing, part: str, field: str, label: str) -> Given:
    """A figure of the plug, the screw or the hole, or that the fixing says nothing of it."""
    element: Element | None = getattr(fixing, part)
    if element is None:
        return Missing(fixing.pointer_to(part), part)
    return reading.read(element, field, label)


def _screw_type(fixing: Fixing) -> Given:
    if fixing.screw is None:
        return Missing(fixing.pointer_to("screw"), "screw")
    return reading.word(fixing.screw.type, fixing.screw.pointer_to("type"), "kind of screw")


def _maker_embedment(plan: Plan, name: str, fixing: Fixing) -> Given:
    from validator.plan.sections.appliances import PlugPapers

    label = "embedment its maker asks for"
    names = [name, *([fixing.plug.type] if fixing.plug is not None and fixing.plug.type else [])]
    for stated_as in names:
        papers = plan.stated.get(stated_as)
        if isinstance(papers, PlugPapers):
            pointer = papers.pointer_to("embedment")
            return reading.quantity(papers.embedment, pointer, label, absent=Why.UNREAD)
    return Missing(join(plan.stated.pointer, name), label, Why.UNREAD)


def _into(fixing: Fixing) -> str | Missing:
    """The layer a fixing is meant for, '' for the first that carries. A screw alone needs wood, and must say which."""
    label = "what it goes into"
    if isinstance(fixing.into, ToFind):
        return Missing(fixing.pointer_to("into"), label, Why.TO_FIND, fixing.into.by)
    if fixing.into is None and fixing.plug is None and fixing.screw is not None:
        return Missing(fixing.pointer_to("into"), label, Why.LEFT_OUT, detail="studs, noggins or board?")
    return fold(fixing.into or "")
