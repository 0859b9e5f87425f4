"""What is on and in a wall besides the units: openings, machines, points, strips, routes and holes to drill."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from validator.measures.appliances.appliance_places import kind_of, width_of
from validator.measures.fixings.studs import stud_places
from validator.measures.rows import Given, Known, Missing
from validator.plan.names import fold
from validator.plan.values import Quantity
from validator.reporting.drawings.canvas import Kind
from validator.reporting.drawings.dimensions import Mark
from validator.reporting.drawings.lettering import SIZE, SMALL, Lettering, fitted, shown
from validator.reporting.drawings.wall_things import gaps_of, text_of, value

if TYPE_CHECKING:
    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.services.point_places import PlacedPoint
    from validator.reporting.drawings.elevations import _Elevation

CROSS = 1.4
"""Half a drill point, in mm of paper."""

ARM = 2.0
"""How far the centre lines of a plate pass it, in mm of paper."""


def draw_fittings(view: _Elevation) -> None:
    """Everything of the wall that is no unit and no worktop."""
    if not view.facts.side:
        _openings(view)
        _boxings(view)
        _studs(view)
        _strips(view)
        _routes(view)
    _hinges(view)
    if view.facts.side != "back":
        _machines(view)
    _points(view)
    if not view.facts.side:
        _holes(view)


def _openings(view: _Elevation) -> None:
    for hole in view.facts.on.openings.get(fold(view.wall), []):
        edges = [value(each) for each in (hole.left, hole.sill, hole.right, hole.head)]
        if None in edges:
            for given in (hole.left, hole.right, hole.sill, hole.head):
                for gap in gaps_of(given):
                    view.canvas.not_known(gap)
            continue
        left, low, right, high = (edge or 0.0 for edge in edges)
        view.canvas.rectangle(view.asked.edge(hole.name), left, low, right, high, hole.name)
        inset = min(50.0, (right - left) / 8)
        view.canvas.rectangle(Kind.LIGHT, left + inset, low + (inset if low > 0 else 0.0), right - inset, high - inset)
        if low > 0:
            view.level(low, "sill")
        view.level(high, "head")
        name = fitted(shown(hole.name), (right - left) / view.canvas.scale - 1)
        view.canvas.letter_first(
            Lettering(*view.canvas.at((left + right) / 2, low + (high - low) * share), name)
            for share in (0.85, 0.7, 0.5, 0.3)
        )
        for number in view.asked.findings.get(fold(hole.name), ()):
            view.tag(number, left, low, right, high, hole.name)


def _boxings(view: _Elevation) -> None:
    for box in view.facts.on.boxes.get(fold(view.wall), []):
        edges = [value(each) for each in (box.left, box.low, box.right, box.high)]
        for given in (box.left, box.low, box.right, box.high):
            for gap in gaps_of(given):
                view.canvas.not_known(gap)
        if None not in edges:
            left, low, right, high = (edge or 0.0 for edge in edges)
            view.canvas.rectangle(view.asked.edge(box.name), left, low, right, high, box.name)
            view.along += [Mark(place / view.canvas.scale, view.value(place)) for place in (left, right)]
            _label(view, box.name, (left + right) / 2, high - 2 * SIZE * view.canvas.scale, right - left)


def _studs(view: _Elevation) -> None:
    """The middle of each stud and noggin that is known, over the whole wall."""
    wall = view.site.plan.walls.get(view.wall)
    if wall is None:
        return
    studs = view.site.records.studs(view.wall, wall.studs)
    places = stud_places(view.site, view.wall, studs) if studs is not None else []
    for place in places:
        if isinstance(place, Missing):
            view.canvas.not_known(place.label)
        else:
            along = float(place.value)
            view.canvas.line(Kind.STUD, (along, 0.0), (along, view.facts.ceiling_over(along)))
    for noggin in view.site.records.noggins(view.wall, wall.noggins) or ():
        levels = view.site.levels.at(view.wall)
        up = value(levels.above_bare_floor(noggin.up, noggin.pointer_to("up"), "noggin", None))
        if up is not None:
            view.canvas.line(Kind.STUD, (0.0, up), (view.facts.length, up))
            view.up.append(Mark(up / view.canvas.scale, view.value(up), view.say("noggin")))


def _hinges(view: _Elevation) -> None:
    """Lines that meet at the hinge of each door of which the side is known."""
    if view.facts.side == "back":
        return
    parts = {part.standing.item.pointer: part for part in view.facts.parts}
    for sweep in view.site.opening.of("door"):
        part = parts.get(sweep.subject.pointer)
        if part is None or part.left is None or part.high is None or sweep.footprint is None or len(sweep.ways) != 1:
            continue
        low = part.carcass if part.carcass is not None else part.low
        if low is None:
            continue
        for leaf in sweep.ways[0].leaves:
            hinge, free = (view.x(part.left + sweep.footprint.from_left(at)) for at in (leaf.hinge, leaf.free))
            view.canvas.line(Kind.HINGE, (free, low), (hinge, (low + part.high) / 2), (free, part.high))


def _machines(view: _Elevation) -> None:
    """Hoods with their underside, hobs and sinks with their middle on the worktop."""
    site = view.site
    for at in view.facts.on.machines.get(fold(view.wall), []):
        name, appliance = at.name, at.appliance
        if not isinstance(at.middle, Known):
            continue
        middle, wide = float(at.middle.value), value(width_of(at))
        if appliance.over is not None and appliance.up is not None:
            _hood(view, at, middle, wide)
        elif kind_of(name, appliance).endswith("hob") or kind_of(name, appliance) == "sink":
            surface = value(site.levels.worktop_by(view.wall, at.standing))
            if surface is None:
                continue
            x = view.x(middle)
            view.canvas.line(Kind.CENTRE, (x, surface - 4 * view.canvas.scale), (x, surface + 4 * view.canvas.scale))
            if wide is not None:
                lift = 0.5 * view.canvas.scale
                half = wide / 2
                view.canvas.rectangle(view.asked.edge(name), x - half, surface, x + half, surface + lift, name)
            _label(view, name, x, surface + 1.2 * view.canvas.scale, wide)


def _hood(view: _Elevation, at: ApplianceAt, middle: float, wide: float | None) -> None:
    site, name, appliance = view.site, at.name, at.appliance
    worktop = site.levels.worktop_by(view.wall, at.standing)
    underside = site.levels.at(view.wall).above_bare_floor(
        appliance.up, appliance.pointer_to("up"), f"underside of {name}", worktop
    )
    low, x = value(underside), view.x(middle)
    if low is None or wide is None:
        for given in (underside, width_of(at)):
            for gap in gaps_of(given):
                view.canvas.not_known(gap)
        return
    half, body = wide / 2, appliance.body.h if appliance.body is not None else None
    high = low + body.low if isinstance(body, Quantity) else None
    top = high if high is not None else low + 8.0 * view.canvas.scale
    view.canvas.line(view.asked.edge(name), (x - half, top), (x - half, low), (x + half, low), (x + half, top), of=name)
    view.canvas.line(view.asked.edge(name) if high is not None else Kind.UNKNOWN, (x - half, top), (x + half, top))
    if high is None:
        view.canvas.not_known(f"height of {shown(name)}")
    view.canvas.line(Kind.CENTRE, (x, low - 3 * view.canvas.scale), (x, low + 8 * view.canvas.scale))
    view.level(low, fitted(shown(name), 24))
    _label(view, name, x, low + 1.5 * view.canvas.scale, wide)
    for number in view.asked.findings.get(fold(name), ()):
        view.tag(number, middle - half, low, middle + half, low + 6 * view.canvas.scale, name)


def _label(view: _Elevation, name: str, x: float, height: float, wide: float | None) -> None:
    room = max((wide or 0.0) / view.canvas.scale, 14.0)
    text = fitted(shown(name), room)
    step = SIZE * 1.1 * view.canvas.scale
    view.canvas.letter_first(
        Lettering(*view.canvas.at(x + aside, height + number * step), text, bold=view.asked.is_strong(name))
        for number in range(4)
        for aside in (0.0, -5.0 * view.canvas.scale, 5.0 * view.canvas.scale)
    )


def _points(view: _Elevation) -> None:
    for placed in view.site.points.by_wall.get(fold(view.wall), []):
        if view.facts.side == "back":
            continue
        up = view.site.points.height(placed.name)
        if not isinstance(placed.along, Known) or not isinstance(up, Known):
            for given in (placed.along, up):
                for gap in gaps_of(given):
                    view.canvas.not_known(gap)
            continue
        _point(view, placed, float(placed.along.value), float(up.value))


def _point(view: _Elevation, placed: PlacedPoint, along: float, up: float) -> None:
    canvas, name, x = view.canvas, placed.name, view.x(along)
    halves = [view.site.points.half_plate(name, side) for side in ("w", "h")]
    half, tall = (value(each) for each in halves)
    strong = view.asked.is_strong(name)
    hidden = placed.point.in_ is not None or placed.point.behind is not None
    kind = view.asked.edge(name)
    if hidden and not strong:
        kind = Kind.HIDDEN
    if half is None or tall is None:
        half = tall = 1.5 * canvas.scale
        kind = Kind.UNKNOWN
        for given in halves:
            for gap in gaps_of(given):
                canvas.not_known(gap)
    canvas.rectangle(kind, x - half, up - tall, x + half, up + tall, name)
    arm = ARM * canvas.scale
    canvas.line(Kind.CENTRE, (x - half - arm, up), (x + half + arm, up))
    canvas.line(Kind.CENTRE, (x, up - tall - arm), (x, up + tall + arm))
    text = fitted(shown(name), 24, bold=True)
    step = canvas.scale * SIZE
    canvas.letter_first(
        Lettering(*canvas.at(x + aside * step, up + over), text, bold=True)
        for over in (tall + 0.25 * step, -tall - 1.1 * step, tall + 1.3 * step, -tall - 2.2 * step)
        for aside in (0.0, 1.0, -1.0, 2.0, -2.0)
    )
    view.along.append(Mark(x / canvas.scale, _figure(view, placed.along), text, strong))
    view.up.append(Mark(up / canvas.scale, _figure(view, view.site.points.height(name)), text, strong))
    for number in view.asked.findings.get(fold(name), ()):
        view.tag(number, along - half - 3 * canvas.scale, up - tall, along + half + 3 * canvas.scale, up + tall, name)


def _figure(view: _Elevation, given: Given) -> str:
    return text_of(view.printer, given)


def _strips(view: _Elevation) -> None:
    """The strips in which a cable may run, from the edge of each plate to the edge of the wall."""
    for strip in view.site.strips.on(view.wall).placed:
        across, half, start = value(strip.across), value(strip.half), value(strip.start)
        if across is None or half is None or start is None:
            continue
        if strip.source.cable is None or not isinstance(strip.source.cable, str):
            view.canvas.not_known(f"which way the cable of {shown(strip.source.name)} goes: its strips are not drawn")
            continue
        end = view.facts.high if strip.runs == "upright" else view.facts.length
        for goes, near, far in ((strip.onward, start + strip.plate, end), (strip.back, 0.0, start - strip.plate)):
            if goes and far > near:
                box = (across - half, near, across + half, far)
                if strip.runs == "level":
                    box = (near, across - half, far, across + half)
                view.canvas.rectangle(Kind.STRIP, *box)


def _routes(view: _Elevation) -> None:
    for placed in view.facts.on.routes.get(fold(view.wall), []):
        for gap in placed.gaps:
            view.canvas.not_known(gap.label)
        if placed.gaps or len(placed.spots) < 2:
            continue
        spots = [(spot.x, spot.y) for spot in placed.spots]
        view.canvas.line(Kind.ROUTE, *spots, of=placed.name)
        name = fitted(shown(placed.name), 40) + ("" if placed.settled else " ?")
        (ax, ay), (bx, by) = max(
            pairwise(spots),
            key=lambda leg: abs(leg[0][0] - leg[1][0]) + abs(leg[0][1] - leg[1][1]),
        )
        upright = abs(ax - bx) < abs(ay - by)
        aside = 1.2 * view.canvas.scale
        view.canvas.letter_first(
            Lettering(
                *view.canvas.at(
                    ax + (bx - ax) * share - (aside if upright else 0.0),
                    ay + (by - ay) * share + (0.0 if upright else aside),
                ),
                name,
                "middle",
                -90.0 if upright else 0.0,
                SMALL,
            )
            for share in (0.5, 0.35, 0.65, 0.2, 0.8)
        )
        if not placed.settled:
            view.canvas.not_known(f"{placed.name}: drawn where it is thought to run; nobody has seen it")
        view.along += [Mark(view.x(x) / view.canvas.scale, view.value(x)) for x, _ in spots]
        view.up += [Mark(y / view.canvas.scale, view.value(y)) for _, y in spots]


def _holes(view: _Elevation) -> None:
    """A cross at each hole to drill, with its place and its height as running dimensions."""
    scale = view.canvas.scale
    for hole in view.facts.on.holes.get(fold(view.wall), []):
        along, up = value(hole.along), value(hole.up)
        if along is None or up is None:
            for given in (hole.along, hole.up):
                for gap in gaps_of(given):
                    view.canvas.not_known(gap)
            continue
        x, arm = view.x(along), CROSS * scale
        name = hole.subject.name
        view.canvas.line(view.asked.edge(name), (x - arm, up), (x + arm, up), of=name)
        view.canvas.line(view.asked.edge(name), (x, up - arm), (x, up + arm), of=name)
        strong = view.asked.is_strong(name)
        view.along.append(Mark(x / scale, _figure(view, hole.along), "+", strong))
        view.up.append(Mark(up / scale, _figure(view, hole.up), "+", strong))
        for number in view.asked.findings.get(fold(name), ()):
            view.tag(number, along - 4 * scale, up - 4 * scale, along + 4 * scale, up + 4 * scale, name)
