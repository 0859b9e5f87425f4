"""The drawings of a page: the floor from above, and each wall that concerns its reader, its own things strong."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace

from markupsafe import Markup

from validator.judging.apply import Judgement
from validator.measures.appliances.appliance_places import kind_of, place_of
from validator.measures.room.walls import wall_of
from validator.measures.site import Site
from validator.plan.names import fold
from validator.reference.jobsheets import ALL, Trade
from validator.reporting.drawings.canvas import UPRIGHT, Drawing
from validator.reporting.drawings.elevations import elevations, walls_to_draw
from validator.reporting.drawings.floor_plans import floor_plans
from validator.reporting.points import Points, put_together
from validator.reporting.sheets.content import Sheet

FRAMES = (UPRIGHT,)
"""A page is printed upright, and a drawing to its scale is never turned or made smaller to fit."""

FLOOR = ((UPRIGHT[0], 165.0),)
"""What the floor takes at most: it shows where things are, and the walls show how they are set out."""

ISLAND = ((91.0, 90.0),)
"""What each side of an island takes at most: two stand side by side."""


@dataclass(frozen=True)
class Drawings:
    """SVG to stand in a page: floors in the order of the rooms, and walls and islands by name, each from every side."""

    floors: tuple[Markup, ...] = ()
    walls: Mapping[str, tuple[Markup, ...]] = field(default_factory=dict)


def drawings_for(judgement: Judgement, sheet: Sheet) -> Drawings:
    """The drawings that go with the sheet of a trade, with the numbers of its open points."""
    site, trade = judgement.site, sheet.trade
    named = dict(_strong(site, trade))
    walls = {fold(wall) for wall in named.values() if wall} | {fold(table.wall) for table in sheet.tables if table.wall}
    if "walls" in trade.strong:
        walls |= {fold(wall) for wall in walls_to_draw(site)}
    numbers = _numbers(put_together(judgement), trade)
    return _drawn(site, walls, named, numbers)


def drawings_of(judgement: Judgement) -> Drawings:
    """The drawings of the whole plan, with the numbers of its report."""
    site = judgement.site
    return _drawn(site, {fold(wall) for wall in walls_to_draw(site)}, (), _numbers(put_together(judgement), None))


def _drawn(site: Site, walls: Collection[str], strong: Collection[str], numbers: Mapping[str, list[int]]) -> Drawings:
    taken: set[str] = set()
    floors = [_svg(drawing, taken) for drawing in floor_plans(site, strong, numbers, FLOOR)]
    found: dict[str, tuple[Markup, ...]] = {}
    for wall in walls_to_draw(site):
        if fold(wall) in walls:
            drawn = elevations(site, [wall], strong, numbers, FRAMES if wall in site.plan.walls else ISLAND)
            if drawn:
                found[wall] = tuple(_svg(drawing, taken) for drawing in drawn)
    return Drawings(tuple(floors), found)


def _svg(drawing: Drawing, taken: set[str]) -> Markup:
    """The SVG of a drawing, under a name that no other of the page has."""
    name, number = drawing.name, 1
    while name in taken:
        number += 1
        name = f"{drawing.name}-{number}"
    taken.add(name)
    return Markup(replace(drawing, name=name).svg())


def _strong(site: Site, trade: Trade) -> Iterable[tuple[str, str]]:
    """The things that a trade sets out, each with its wall."""
    if "points" in trade.strong:
        yield from ((placed.name, placed.on) for placed in site.points.all())
    if "units" in trade.strong:
        yield from ((thing.name, thing.wall) for thing in site.setting_out.things() if thing.item.family != "gap")
    if "appliances" in trade.strong:
        for name, appliance in site.plan.appliances.items():
            if ALL in trade.appliances or kind_of(name, appliance) in trade.appliances:
                place = place_of(site, name)
                yield name, place.on
                if place.standing is not None:
                    yield place.standing.name, place.on
    if "worktops" in trade.strong:
        for name, worktop in site.plan.worktops.items():
            yield name, wall_of(site.plan, worktop.on) if worktop.on in site.plan.runs else ""
    if "routes" in trade.strong:
        yield from ((name, route.wall or "") for name, route in site.plan.routes.items())
    if "holes" in trade.strong:
        yield from ((hole.subject.name, hole.wall) for hole in site.holes.all)


def _numbers(points: Points, trade: Trade | None) -> dict[str, list[int]]:
    """The numbers of the points about each thing: those of a trade, or all."""
    found: dict[str, list[int]] = {}
    for point in points.points:
        if trade is None or trade.concerns(point.rule.each):
            for outcome in point.outcomes:
                numbers = found.setdefault(outcome.subject.name, [])
                if point.number not in numbers:
                    numbers.append(point.number)
    return found
