"""Cables and pipes recorded in the walls: where each runs, and the one of each kind that is nearest to every hole."""

from __future__ import annotations

import math
from functools import cached_property
from math import inf
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import root, total
from validator.measures.drilling.placed_routes import Leg, PlacedRoute, Spot
from validator.measures.drilling.routes_behind import routes_behind
from validator.measures.drilling.strips import ends_of
from validator.measures.nearest import Nearest, Stretch
from validator.measures.room.slopes import ceiling_at
from validator.measures.room.walls import difference, length_of, named_gap, place_along
from validator.measures.rows import (
    NAME,
    TERM,
    YES_NO,
    Given,
    Known,
    LeftOut,
    Missing,
    Row,
    Rows,
    Subject,
    Words,
    figure,
    gaps_of,
    given,
)
from validator.plan.dimensions import CURRENT, DAY, DURATION, LENGTH
from validator.plan.names import fold
from validator.plan.values import NothingStated

if TYPE_CHECKING:
    from validator.measures.drilling.holes import Hole
    from validator.measures.site import Site
    from validator.plan.sections.drilling import Route

WHAT = ("cable", "gas pipe", "water pipe", "heating pipe", "waste pipe", "pipe")
KNOWN_BY = ("photo", "opened up", "drawing", "detector", "guess")
PIECE = 400.0
"""In mm: how far along the wall one piece of a route goes at most, in the order in which holes look for them."""


class HoleNearRoute(Row, kind="hole near a route"):
    """One hole with the recorded cable or pipe of one kind that is nearest to it on its wall.

    `aside` lies in the plane of the wall. `ends_before` is how far the hole ends before the route, 0 where it reaches
    as deep or nobody knows. `settled` is whether somebody has seen the route; of one that nobody has seen, both rest on
    an assumption.
    """

    what: str = given(Words(WHAT), "what runs there")
    route: str = given(NAME, "route")
    settled: bool = given(YES_NO, "whether somebody has seen it")
    known_by: str = given(Words(KNOWN_BY), "how it is known")
    aside: float = given(LENGTH, "hole from the route, along the wall's face")
    ends_before: float = given(LENGTH, "end of the hole before the route")

    @figure(LENGTH, "clear of the route", start="route", end="nearest place of the hole")
    def clear_of_route(self) -> float:
        return root(self.aside * self.aside + self.ends_before * self.ends_before)


class RecordedRoute(Row, kind="route in a wall"):
    """A recorded cable or pipe: how straight it runs, how deep it lies, and how well that is known."""

    what: str = given(Words(WHAT), "what runs there")
    known_by: str = given(Words(KNOWN_BY), "how it is known")
    settled: bool = given(YES_NO, "whether somebody has seen it")
    age: float = given(DURATION, "since it was seen")
    deep: float = given(LENGTH, "below the face of the wall")
    aslant: float = given(LENGTH, "off upright and off level, at most")
    length: float = given(LENGTH, "from its first corner to its last")
    inside_wall: float = given(LENGTH, "nearest edge of the wall")
    protected: bool = given(YES_NO, "whether earthed metal covers it")
    residual: float = given(CURRENT, "residual current device of its circuit")


class RouteInStud(Row, kind="route in a stud"):
    """A recorded cable or pipe in a wall of studs, with how far it is set back from their face."""

    what: str = given(Words(WHAT), "what runs there")
    base: str = given(TERM, "what carries it")
    deep: float = given(LENGTH, "below the face of the wall")
    coverings: tuple[float, ...] = given(LENGTH, "layers on the studs", many=True)
    plate: float = given(LENGTH, "steel over it")
    has_plate: bool = given(YES_NO, "whether steel covers it")
    protected: bool = given(YES_NO, "whether earthed metal covers it")
    residual: float = given(CURRENT, "residual current device of its circuit")

    @figure(LENGTH, "set back in the stud", start="face of the stud", end="route")
    def set_back(self) -> float:
        return self.deep - total(self.coverings)


class RoutesOfWall:
    """The routes of one group on one wall, in order along it.

    What runs along the wall is cut into pieces for the search, as many cables run level at one height.
    """

    def __init__(self, routes: list[PlacedRoute]) -> None:
        self.first = routes[0]
        legs = [leg for route in routes for leg in route.legs()]
        self._along = Nearest([piece for leg in legs for piece in _pieces(leg)])

    def nearest(self, x: float, y: float, depth: float = inf) -> tuple[float, Leg | None]:
        """The piece nearest to a hole so deep, and how far it is away where it is off as far as it may be."""

        def away(leg: Leg, best: float) -> float:
            above, also_above, near = leg.start.y - y, leg.end.y - y, best + leg.off
            if (above > near and also_above > near) or (above < -near and also_above < -near):
                return best
            before = leg.of.least_deep - depth
            aside = max(0.0, leg.away(x, y) - leg.off)
            return math.hypot(aside, before) if before > 0 else aside

        return self._along.search(x, x, away)


def _pieces(leg: Leg) -> list[Stretch[Leg]]:
    """The stretch of the wall that a leg takes, in pieces no longer than `PIECE`."""
    low, high = min(leg.start.x, leg.end.x) - leg.off, max(leg.start.x, leg.end.x) + leg.off
    count = max(1, math.ceil((high - low) / PIECE))
    each = (high - low) / count
    return [Stretch(low + number * each, low + (number + 1) * each, leg) for number in range(count)]


class Routes:
    """The recorded routes of a plan, wall by wall; each is placed once."""

    def __init__(self, site: Site) -> None:
        self._site = site

    @cached_property
    def all(self) -> list[PlacedRoute]:
        return [self._placed(name, route) for name, route in self._site.plan.routes.items()]

    @cached_property
    def by_wall(self) -> dict[str, list[RoutesOfWall]]:
        """The groups of routes of each wall, by its folded name."""
        groups: dict[str, dict[tuple[str, bool, bool], list[PlacedRoute]]] = {}
        for placed in (*self.all, *routes_behind(self._site, self.all)):
            groups.setdefault(fold(placed.wall), {}).setdefault(placed.group, []).append(placed)
        return {wall: [RoutesOfWall(routes) for routes in found.values()] for wall, found in groups.items()}

    def _placed(self, name: str, route: Route) -> PlacedRoute:
        walls = self._site.plan.walls
        wall = walls.written(route.wall) if route.wall is not None and route.wall in walls else route.wall or ""
        spots: list[Spot] = []
        gaps: list[Missing] = []
        for at, spot in (("from_", route.from_), *(("via", via) for via in route.via or ()), ("to", route.to)):
            if spot is None:
                gaps.append(Missing(route.pointer_to(at.rstrip("_")), f"where {name} runs"))
                continue
            along: Given = Missing(spot.pointer_to("along"), f"where {name} runs")
            if spot.along is not None:
                along = place_along(self._site.plan, wall, spot.along, spot.pointer_to("along"), name)
            worktop = self._site.levels.worktop_by(wall, None)
            up = self._site.levels.at(wall).above_bare_floor(spot.up, spot.pointer_to("up"), name, worktop)
            here, high = ends_of(along), ends_of(up)
            if here is None or high is None:
                gaps += gaps_of(along, up)
            else:
                off = math.hypot((here[1] - here[0]) / 2, (high[1] - high[0]) / 2)
                spots.append(Spot((here[0] + here[1]) / 2, (high[0] + high[1]) / 2, off))
        deep = reading.read(route, "deep", f"depth of {name}")
        return PlacedRoute(name, route, wall, tuple(spots), tuple(dict.fromkeys(gaps)), deep)


def holes_near_routes(site: Site) -> Rows:
    """A row for each hole and each sort of route that is recorded on its wall: the nearest of that sort."""
    if not site.holes.all:
        return Rows()
    routes = site.plan.routes
    if routes.left_out:
        return Rows(left_out=[LeftOut(HoleNearRoute.kind, Missing(routes.pointer, "cables and pipes in the walls"))])
    near = NearRoutes(site)
    by_wall = site.routes.by_wall
    return Rows([near.row(hole, group) for hole in site.holes.all for group in by_wall.get(fold(hole.wall), ())])


class NearRoutes:
    """Makes the rows of holes near routes; what rows share is made once a route."""

    def __init__(self, site: Site) -> None:
        self._said: dict[str, dict[str, Given]] = {}

    def row(self, hole: Hole, group: RoutesOfWall) -> HoleNearRoute:
        here, high = ends_of(hole.along), ends_of(hole.up)
        placed = group.first
        aside: Given = _unplaced(hole, placed)
        if not placed.gaps and here is not None and high is not None:
            x, y = (here[0] + here[1]) / 2, (high[0] + high[1]) / 2
            depth = hole.reach.high if isinstance(hole.reach, Known) else None
            _, leg = group.nearest(x, y, inf if depth is None else depth)
            if leg is not None:
                placed, off = leg.of, leg.off + math.hypot((here[1] - here[0]) / 2, (high[1] - high[0]) / 2)
                aside = _leaf(placed, leg.away(x, y), off)
        if placed.name not in self._said:
            self._said[placed.name] = _told(placed)
        return HoleNearRoute(
            hole.subject, aside=aside, ends_before=_ends_before(hole, placed), **self._said[placed.name]
        )


def _leaf(placed: PlacedRoute, value: float, off: float) -> Known:
    """A distance on the wall, worked out on the drawing of it; of a route nobody has seen it is only assumed."""
    pointer, label = placed.route.pointer, f"from {placed.name} to the hole"
    low, high = max(0.0, value - off), value + off
    return Known(value, pointer, "", label, low=low, high=high, assumed=not placed.settled)


def _unplaced(hole: Hole, placed: PlacedRoute) -> tuple[Missing, ...]:
    gaps = [*placed.gaps, *gaps_of(hole.along, hole.up)]
    return tuple(dict.fromkeys(gaps)) or (Missing(placed.route.pointer_to("from"), f"where {placed.name} runs"),)


def _ends_before(hole: Hole, placed: PlacedRoute) -> Given:
    """How far a hole ends before a route that somebody has seen; nothing where that is not known."""
    route = placed.route
    none = reading.exactly(0, route.pointer, "ends before it", "it counts as deep enough to meet it")
    deep = placed.deep
    if not placed.settled or not isinstance(deep, Known) or not isinstance(hole.reach, Known):
        return none
    if (deep.high or 0.0) <= (hole.reach.low or 0.0):
        return none
    found = difference(deep, hole.reach, hole.subject, "hole ends before it")
    if not isinstance(found, Known) or (found.low or 0.0) >= 0:
        return found
    return Known(found.value, found.pointer, "", found.label, low=0.0, high=found.high, assumed=found.assumed)


def _told(placed: PlacedRoute) -> dict[str, Given]:
    route = placed.route
    known_by = reading.word(route.known_by, route.pointer_to("known_by"), f"how it is known where {placed.name} runs")
    settled: Given = known_by
    if isinstance(known_by, Known):
        settled = reading.exactly(placed.settled, known_by.pointer, "whether somebody has seen it")
    return {
        "what": reading.word(route.is_, route.pointer_to("is"), f"what {placed.name} is"),
        "route": reading.exactly(placed.name, route.pointer, "route"),
        "known_by": known_by,
        "settled": settled,
    }


def routes_in_walls(site: Site) -> Rows:
    """A row for each recorded route."""
    return Rows([_recorded(site, placed) for placed in site.routes.all])


def _recorded(site: Site, placed: PlacedRoute) -> RecordedRoute:
    route = placed.route
    told = _told(placed)
    del told["route"]
    seen = reading.read(route, "seen", f"day on which {placed.name} was seen")
    age: Given = seen
    if isinstance(seen, Known):
        days = site.on.toordinal() * DAY
        age = seen._replace(value=days - seen.value, low=days - (seen.high or 0.0), high=days - (seen.low or 0.0))
    legs = placed.legs()
    off = max((leg.off for leg in legs), default=0.0)
    slant: Given = placed.gaps or _leaf(placed, max((leg.aslant for leg in legs), default=0.0), 2 * off)
    along = [spot.x for spot in placed.spots]
    span = (min(along), max(along)) if along else None
    return RecordedRoute(
        Subject(placed.name, route.pointer, f"{placed.wall} wall", placed.wall, span),
        **told,
        age=age,
        deep=reading.read(route, "deep", f"depth of {placed.name}"),
        aslant=slant,
        length=placed.gaps or _whole(placed, legs),
        **_kept_safe(site, placed),
        inside_wall=_inside(site, placed),
    )


def _whole(placed: PlacedRoute, legs: list[Leg]) -> Known:
    """How long a route is; 0 where its corners are all one place, however well that is measured."""
    long = math.fsum(math.hypot(leg.end.x - leg.start.x, leg.end.y - leg.start.y) for leg in legs)
    return Known(long, placed.route.pointer, "", f"length of {placed.name}", low=long, high=long)


def _kept_safe(site: Site, placed: PlacedRoute) -> dict[str, Given]:
    """What guards a cable that a drill may meet: metal around it, and the residual current device of its circuit."""
    route = placed.route
    protected = reading.word(
        route.protected, route.pointer_to("protected"), f"whether earthed metal covers {placed.name}"
    )
    at, circuits = route.pointer_to("circuit"), site.plan.circuits
    label = f"residual current device of the circuit of {placed.name}"
    residual: Given = Missing(at, f"circuit of {placed.name}")
    if route.circuit is not None and route.circuit in circuits:
        residual = named_gap(reading.read(circuits[route.circuit], "rcd", label), label)
    return {"protected": protected, "residual": residual}


def _inside(site: Site, placed: PlacedRoute) -> Given:
    """From the nearest edge of its wall to a corner of a route; less than 0 where one is off the wall."""
    if placed.gaps:
        return placed.gaps
    whole = length_of(site.plan, placed.wall)
    if not isinstance(whole, Known):
        return whole
    least_: list[float] = []
    for spot in placed.spots:
        pointer = placed.route.pointer
        place = Known(spot.x, pointer, low=spot.x, high=spot.x)
        ceiling = ceiling_at(site, placed.wall, place)
        if not isinstance(ceiling, Known):
            return ceiling
        least_.append(
            min(spot.x, float(whole.high or 0.0) - spot.x, spot.y, float(ceiling.high or 0.0) - spot.y) + spot.off
        )
    found = min(least_)
    return Known(found, placed.route.pointer, "", "inside the wall", low=found, high=found)


def routes_in_studs(site: Site) -> Rows:
    """A row for each recorded route in a wall whose layers include studs."""
    rows = Rows()
    for placed in site.routes.all:
        for made in site.make_ups.at(placed.wall):
            way = made.way_to(site.library, "stud")
            if isinstance(way, Missing):
                continue
            route = placed.route
            plate: dict[str, Given] = {"plate": reading.quantity(route.plate, route.pointer_to("plate"), "plate")}
            label = f"whether steel covers {placed.name} at the studs"
            plate["has_plate"] = Missing(route.pointer_to("plate"), label)
            if route.protected is True:
                plate["has_plate"] = reading.exactly(True, route.pointer_to("protected"), label)
            elif route.plate is not None:
                covered = not isinstance(route.plate, NothingStated)
                plate["has_plate"] = reading.exactly(covered, route.pointer_to("plate"), label)
            told = _told(placed)
            rows.rows.append(
                RouteInStud(
                    Subject(placed.name, route.pointer, f"{placed.wall} wall", placed.wall),
                    what=told["what"],
                    base=reading.exactly(way.base.material, way.base.pointer, "what carries it"),
                    deep=reading.read(route, "deep", f"depth of {placed.name}"),
                    coverings=way.coverings,
                    **plate,
                    **_kept_safe(site, placed),
                )
            )
    return rows
