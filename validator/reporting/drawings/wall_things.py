"""What an elevation shows of a wall, taken from the places and heights that are judged, as plain figures in mm.

A figure is None where it is not known; nothing is worked out here that a measure has not.
"""

from __future__ import annotations

from functools import cached_property, lru_cache
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.appliances.appliance_places import place_of
from validator.measures.heights.heights import machine_in
from validator.measures.room.boxings import boxes_by_wall
from validator.measures.room.openings import holes_by_wall, units_on_walls
from validator.measures.room.slopes import ceiling_at
from validator.measures.room.walls import length_of, wall_of, worked
from validator.measures.rows import Given, Known, Missing
from validator.measures.worktops.cuts import cut_tops
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.drilling.holes import Hole as DrillHole
    from validator.measures.drilling.placed_routes import PlacedRoute
    from validator.measures.heights.heights import WorktopOnRun
    from validator.measures.room.boxings import Box
    from validator.measures.room.openings import Hole, Thing
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.measures.worktops.cuts import CutTop
    from validator.reporting.printing import Printer


class Part(NamedTuple):
    """A thing of a run on its wall: its sides along it, its lower and upper edge, and where its carcass begins."""

    name: str
    standing: Standing
    left: float | None
    right: float | None
    low: float | None
    high: float | None
    carcass: float | None
    hung: bool

    @property
    def family(self) -> str:
        return self.standing.item.family

    @property
    def is_placed(self) -> bool:
        return self.left is not None and self.right is not None


def value(given: Given | None) -> float | None:
    """The figure that was judged, else None."""
    return float(given.value) if isinstance(given, Known) else None


def text_of(printer: Printer, given: Given) -> str:
    """A length as a drawing letters it: `600`, `39.5 to 42`, `600?` if only assumed, `?` where nobody knows."""
    doubt = "?" if isinstance(given, Known) and given.rests_on_assumption else ""
    return printer.given(given, "?") + doubt


def rest_of(printer: Printer, whole: Given, at: float) -> str:
    """What is free at the right end of a wall, as far as its readings agree."""
    if not isinstance(whole, Known):
        return "?"
    low, high = whole.ends
    return text_of(printer, whole._replace(value=whole.value - at, low=low - at, high=high - at))


def is_nothing(whole: Given, at: float) -> bool:
    """Whether a place may be the end of a wall by one of its readings, so that nothing is surely left behind it."""
    return isinstance(whole, Known) and whole.ends[0] <= at <= whole.ends[1]


def gaps_of(given: Given) -> list[str]:
    """What is missing of a value, in a reader's words."""
    if isinstance(given, Known):
        return []
    gaps = (given,) if isinstance(given, Missing) else given
    return list(dict.fromkeys(gap.label for gap in gaps))


class OnWalls:
    """What is on every wall of a site, each found once; walls go by their folded names, islands by those of runs."""

    def __init__(self, site: Site) -> None:
        self.site = site

    @cached_property
    def openings(self) -> dict[str, list[Hole]]:
        return holes_by_wall(self.site)

    @cached_property
    def tops(self) -> dict[str, list[CutTop]]:
        """The pieces of worktop as they are cut."""
        found: dict[str, list[CutTop]] = {}
        for top in cut_tops(self.site):
            found.setdefault(fold(wall_of(self.site.plan, top.piece.top.on)), []).append(top)
        return found

    @cached_property
    def parts(self) -> dict[str, list[Part]]:
        """The things of all runs."""
        site = self.site
        heights = {thing.subject.pointer: thing for thing in units_on_walls(site)}
        under: dict[str, Given] = {}
        for pieces in site.worktop_pieces.values():
            for piece in pieces:
                top = worked(site.levels.worktops[piece.worktop], "underside", "underside of the worktop")
                under.update((thing.item.pointer, top) for thing in piece.below)
        found: dict[str, list[Part]] = {}
        for thing in site.setting_out.things():
            found.setdefault(fold(thing.wall), []).append(_part(site, thing, heights, under))
        return found

    @cached_property
    def boxes(self) -> dict[str, list[Box]]:
        return boxes_by_wall(self.site)

    @cached_property
    def holes(self) -> dict[str, list[DrillHole]]:
        """The holes to drill."""
        found: dict[str, list[DrillHole]] = {}
        for hole in self.site.holes.all:
            found.setdefault(fold(hole.wall), []).append(hole)
        return found

    @cached_property
    def routes(self) -> dict[str, list[PlacedRoute]]:
        found: dict[str, list[PlacedRoute]] = {}
        for route in self.site.routes.all:
            found.setdefault(fold(route.wall), []).append(route)
        return found

    @cached_property
    def machines(self) -> dict[str, list[ApplianceAt]]:
        """The appliances that have a place."""
        found: dict[str, list[ApplianceAt]] = {}
        for name in self.site.plan.appliances:
            at = place_of(self.site, name)
            found.setdefault(fold(at.on), []).append(at)
        return found


@lru_cache(maxsize=1)
def on_walls(site: Site) -> OnWalls:
    """What is on the walls of a site; of the last one it is kept, since a page asks wall by wall."""
    return OnWalls(site)


def _part(site: Site, thing: Standing, heights: dict[str, Thing], under: dict[str, Given]) -> Part:
    pointer, hung = thing.item.pointer, site.levels.is_hung(thing)
    left, right = value(thing.left), value(thing.right)
    carcass: float | None = None
    if pointer in heights:
        unit = heights[pointer]
        low, high = value(unit.low), value(unit.high)
        if not hung:
            height = value(reading.read(thing.item, "height", "height"))
            carcass = high - height if high is not None and height is not None else None
        return Part(thing.name, thing, left, right, low, high, carcass, hung)
    low, high = 0.0, value(under.get(pointer))
    if high is None and thing.item.family == "opening":
        high = _machine_top(site, thing)
    elif high is None and thing.item.family in ("panel", "filler", "post") and thing.item.height is not None:
        high = value(reading.read(thing.item, "height", "height"))
    return Part(thing.name, thing, left, right, low, high, None, hung)


def _machine_top(site: Site, thing: Standing) -> float | None:
    """The top of a machine that stands by itself on the floor that is there when it comes."""
    machine = site.plan.appliances.get(machine_in(site, thing))
    if machine is None or machine.body is None:
        return None
    body = value(reading.quantity(machine.body.h, "", ""))
    floor = value(site.levels.at(thing.wall).finished_floor)
    return body + floor if body is not None and floor is not None else None


def surface_of(row: WorktopOnRun) -> Given:
    """The surface of a worktop above the bare floor."""
    return worked(row, "above_bare_floor", "worktop")


def wall_length(site: Site, wall: str, parts: list[Part]) -> Given:
    """The length of a wall; of an island, from its left end to its right."""
    if wall in site.plan.walls:
        return length_of(site.plan, wall)
    ends = [part.standing.right for part in parts if part.right is not None]
    if not ends:
        return Missing(site.plan.runs.pointer, f"length of {wall}")
    return max(ends, key=lambda end: value(end) or 0.0)


def ceiling_line(site: Site, wall: str, length: float) -> list[tuple[float, float]] | None:
    """The ceiling along a wall, from the left, bent where a slope ends; None where its height is not known."""
    places = [0.0, length]
    for at in (0.0, length):
        over = ceiling_at(site, wall, reading.exactly(at, "", "place"))
        if isinstance(over, Known) and over.origin is not None and "reach" in over.origin[0].known:
            reach = float(over.origin[0].known["reach"].value)
            places.append(abs(at - reach))
    line = []
    for place in sorted(place for place in set(places) if 0 <= place <= length):
        height = value(ceiling_at(site, wall, reading.exactly(place, "", "place")))
        if height is None:
            return None
        line.append((place, height))
    return line
