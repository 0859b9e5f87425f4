"""Fixings in walls: how deep they sit in what carries, layer by layer."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import HOODS
from validator.measures.arithmetic import least, total
from validator.measures.fixings.fixing_parts import (
    in_front,
    into,
    kind_of,
    maker_says,
    part,
    screw_diameter,
    screw_type,
    through_metal,
)
from validator.measures.fixings.met_on_the_way import met_on
from validator.measures.heights.heights import STANDS_BESIDE, hangs
from validator.measures.rows import (
    TERM,
    YES_NO,
    Given,
    LeftOut,
    Missing,
    Row,
    Rows,
    Subject,
    Why,
    Words,
    figure,
    given,
)
from validator.plan.dimensions import LENGTH, NUMBER, SHARE
from validator.plan.names import fold
from validator.plan.values import Quantity

if TYPE_CHECKING:
    from validator.measures.fixings.ways_through_walls import MakeUp, WayThroughWall
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.plan import Plan
    from validator.plan.sections.furniture import Item, Run
    from validator.plan.sections.work import Fixing


class FixingInWall(Row, kind="fixing in a wall"):
    """A plug or screw through a fixture and the layers that carry nothing, into the layer that does. One row a wall."""

    kind_of: str = given(Words(("frame fixing", "plug and screw", "wood screw")), "kind of fixing")
    length: float = given(LENGTH, "long")
    through: float = given(LENGTH, "rail")
    through_metal: bool = given(YES_NO, "whether that is of metal")
    coverings: tuple[float, ...] = given(LENGTH, "layers that carry nothing", many=True)
    base: str = given(TERM, "what carries it")
    base_thickness: float = given(LENGTH, "thickness of what carries it")
    screw_type: str = given(TERM, "kind of screw")
    screw_diameter: float = given(LENGTH, "diameter of the screw")
    plug_length: float = given(LENGTH, "plug")
    plug_diameter: float = given(LENGTH, "diameter of the plug")
    hole_depth: float = given(LENGTH, "depth of the hole")
    hole_diameter: float = given(LENGTH, "bit")
    maker_embedment: float = given(LENGTH, "embedment its maker asks for")
    maker_thickness: float = given(LENGTH, "thickness of wall its maker asks for")
    maker_edge: float = given(LENGTH, "distance from an edge that its maker asks for")
    carries: str = given(Words(("wall units", "tall units", "hoods", "other")), "what hangs on it")
    has_void: bool = given(YES_NO, "whether there is a void before what carries it")
    spacers: str = given(TERM, "what bridges the void")
    into_joints: bool = given(YES_NO, "whether it goes into the joints of the brick")
    has_tile: bool = given(YES_NO, "whether it goes through a tile")
    tile_edge: float = given(LENGTH, "nearest edge of the tile")
    has_membrane: bool = given(YES_NO, "whether there is a membrane in the wall")
    up_to_membrane: tuple[float, ...] = given(LENGTH, "layers before the membrane", many=True)
    sealed: bool = given(YES_NO, "whether it is sealed where it goes through")
    has_flue: bool = given(YES_NO, "whether a flue runs in the wall")
    up_to_flue: tuple[float, ...] = given(LENGTH, "layers before the flue", many=True)
    separating: bool = given(YES_NO, "whether the wall separates two homes")
    boards: float = given(NUMBER, "layers of gypsum board")
    stud_faces: tuple[float, ...] = given(LENGTH, "face of a stud", many=True)

    @figure(LENGTH, "embedment", start="face of what carries it", end="tip of the fixing")
    def embedment(self) -> float:
        return self.length - self.through - total(self.coverings)

    @figure(LENGTH, "hole past the tip", start="tip of the fixing", end="end of the hole")
    def hole_past_tip(self) -> float:
        return self.hole_depth + self.through - self.length

    @figure(LENGTH, "left behind the hole", start="end of the hole", end="far face of what carries it")
    def left_behind(self) -> float:
        return total(self.coverings) + self.base_thickness - self.hole_depth

    @figure(LENGTH, "hole past the plug", start="end of the plug", end="end of the hole")
    def hole_past_plug(self) -> float:
        return self.hole_depth - total(self.coverings) - self.plug_length

    @figure(LENGTH, "screw past the plug", start="end of the plug", end="tip of the screw")
    def screw_past_plug(self) -> float:
        return self.length - self.through - total(self.coverings) - self.plug_length

    @figure(LENGTH, "clear of the membrane", start="tip of the fixing", end="membrane")
    def clear_of_membrane(self) -> float:
        return self.through + total(self.up_to_membrane) - self.length

    @figure(LENGTH, "clear of the flue", start="tip of the fixing", end="flue")
    def clear_of_flue(self) -> float:
        return self.through + total(self.up_to_flue) - self.length

    @figure(LENGTH, "wall before the flue", start="face of the wall", end="flue")
    def before_flue(self) -> float:
        return total(self.up_to_flue)

    @figure(SHARE, "share in what carries it", start="face of what carries it", end="tip of the fixing")
    def share_in_base(self) -> float:
        return self.embedment / self.length

    @figure(LENGTH, "edge distance in the stud", start="middle of the screw", end="edge of the stud")
    def stud_edge(self) -> float:
        return least(self.stud_faces) / 2


class PlugAndScrewInWall(FixingInWall, kind="fixing in a wall"):
    """A plug set wholly in what carries, with a screw of its own: a screw holds only as far as the plug goes."""

    @figure(LENGTH, "embedment", start="face of what carries it", end="tip of the fixing")
    def embedment(self) -> float:
        return least(self.length - self.through - total(self.coverings), self.plug_length)


@dataclass(slots=True)
class _Held:
    """What one fixing holds on walls of one make-up: the walls, and the pointers of the things."""

    made: MakeUp
    carries: str
    walls: list[str] = field(default_factory=list)
    things: list[str] = field(default_factory=list)


class FixingsFound:
    """The fixings of a plan in their walls, and which rows are of a thing or of a fixing, by its pointer."""

    def __init__(self, site: Site) -> None:
        self.rows: list[Row] = []
        self.of: dict[str, list[Row]] = {}
        self._standing = {thing.item.pointer: thing for thing in _placed(site)}
        for name, fixing in site.plan.fixings.items():
            self._add(site, name, fixing)
        self.rows.extend(_nothing_holds(site.plan, self.of))

    def _add(self, site: Site, name: str, fixing: Fixing) -> None:
        groups: dict[tuple[str, str], _Held] = {}
        for wanted in fixing.for_:
            things = list(held_by(site.plan, wanted))
            if not things:
                missing = Missing(fixing.pointer_to("for"), wanted, Why.UNCLEAR, detail=f"which wall is {wanted} on?")
                self.rows.append(_row(site, name, fixing, missing, "other"))
            for item, wall, carries in things:
                thing = self._standing.get(item.pointer)
                left, right = (None, None) if thing is None else (thing.left, thing.right)
                for made in site.make_ups.at(wall, left, right):
                    held = groups.setdefault((made.name, carries), _Held(made, carries))
                    held.things.append(item.pointer)
                    if wall not in held.walls:
                        held.walls.append(wall)
        for held in groups.values():
            meant = into(fixing)
            way = held.made.way_to(site.library, meant) if isinstance(meant, str) else meant
            row = _row(site, name, fixing, way, held.carries, held.walls, held.made.part)
            self.rows.append(row)
            for pointer in (fixing.pointer, *dict.fromkeys(held.things)):
                self.of.setdefault(pointer, []).append(row)


def fixings_in_walls(site: Site) -> Rows:
    """A row for each fixing and each make-up of wall it goes into, and one for each run with hung units none is for."""
    if site.plan.fixings.left_out:
        return Rows(left_out=[LeftOut(FixingInWall.kind, Missing("/fixings", "fixings"))])
    return Rows(list(site.fixings.rows))


def _placed(site: Site) -> Iterable[Standing]:
    """The things in the runs with their places, where those tell on which part of a wall they are."""
    return site.setting_out.things() if site.make_ups.any_parts else ()


def _walls(names: Sequence[str]) -> str:
    if len(names) == 1:
        return f"{names[0]} wall"
    return f"{', '.join(names[:-1])} and {names[-1]} walls"


def _nothing_holds(plan: Plan, held: Mapping[str, object]) -> Iterator[Row]:
    """A row for each run with hung units that no fixing is for; `held` has the pointers of those that one is for."""
    for name, run in plan.runs.items():
        loose = [unit for unit, item in run.order.items() if _hung(run, item) and item.pointer not in held]
        if loose:
            asks = "hung unit on its fixings.held_by"
            missing = Missing(plan.fixings.pointer, f"what holds {', '.join(loose)}", asks=asks)
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
        own = plan.appliances[wanted] if is_appliance(plan, wanted) else None
        if own is not None and own.is_ in HOODS and own.in_ is None:
            yield item, run.against, "hoods"
            return
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


def is_appliance(plan: Plan, name: str) -> bool:
    """Whether a name of `for` means an appliance, and not a run or a thing in one."""
    return name in plan.appliances and name not in plan.runs and plan.unit(name) is None


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
    return item.family == "unit" and hangs(run, item)


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
    of_part: str = "",
) -> Row:
    context = ", ".join(filter(None, (_walls(walls) if walls else "", of_part)))
    subject = Subject(name, fixing.pointer, context, walls[0] if len(walls) == 1 else "")
    kind = kind_of(fixing)
    sealed = reading.word(fixing.sealed, fixing.pointer_to("sealed"), "whether it is sealed where it goes through")
    values: dict[str, Given] = {
        "kind_of": reading.exactly(kind, fixing.pointer, "kind") if isinstance(kind, str) else kind,
        "length": part(fixing, "plug" if kind == "frame fixing" else "screw", "length", "long"),
        "through": in_front(fixing, subject),
        "through_metal": through_metal(site.library, fixing),
        "screw_type": screw_type(fixing),
        "screw_diameter": screw_diameter(fixing, subject),
        "plug_length": part(fixing, "plug", "length", "plug"),
        "plug_diameter": part(fixing, "plug", "diameter", "diameter of the plug"),
        "hole_depth": part(fixing, "hole", "depth", "hole"),
        "hole_diameter": part(fixing, "hole", "diameter", "bit"),
        "maker_embedment": maker_says(site.plan, name, fixing, "embedment", "embedment its maker asks for"),
        "maker_thickness": maker_says(site.plan, name, fixing, "wall_thickness", "wall its maker asks for"),
        "maker_edge": maker_says(site.plan, name, fixing, "edge", "distance from an edge its maker asks for"),
        "spacers": reading.word(fixing.spacers, fixing.pointer_to("spacers"), "what bridges the void"),
        "into_joints": reading.word(fixing.in_joints, fixing.pointer_to("in_joints"), "whether it goes into joints"),
        "tile_edge": reading.read(fixing, "tile_edge", "nearest edge of the tile"),
        "sealed": sealed,
        "carries": reading.exactly(carries, fixing.pointer_to("for"), "what hangs on it"),
    }
    row = PlugAndScrewInWall if kind == "plug and screw" else FixingInWall
    return row(subject, **values, **met_on(site, way, walls))
