"""Doors and drawers open in an aisle, and what they leave to stand in or pass by; doors that swing before a hob."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.appliances.appliance_places import HOBS, kind_of, standing_of
from validator.measures.plane.clear_to_open import NOTHING, SAME
from validator.measures.plane.footprints import AT_MOST, HIGH, Footprint, drawn
from validator.measures.plane.ways_ahead import Edge, edge_of, met_ahead, slack_between, unplaced_ahead, without_returns
from validator.measures.rows import NAME, Given, Known, Missing, Row, Rows, Subject, Words, figure, given
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.plane.shapes import Point, Shape
    from validator.measures.plane.sweeps import Sweep
    from validator.measures.site import Site

REACH = 700.0
"""How far before an open door, and before a hob, anything is looked for; what is further off is no nearer than this."""

STEPS = 24
"""In so many steps the arc of a door is drawn."""


class OpenInAisle(Row, kind="open door in an aisle"):
    """The door of a machine, or drawers, fully open, and what lies across from the front it belongs to."""

    sort: str = given(Words(("machine", "drawers")), "what is open")
    drawn: float = given(LENGTH, "by the drawing")
    out: float = given(LENGTH, "open")
    to: str = given(NAME, "what lies across")

    @figure(LENGTH, "left before it", start="edge of the open door or drawer", end="what lies across")
    def left(self) -> float:
        return self.drawn - self.out


class PlaceBeforeHob(Row, kind="place before a hob"):
    """The place where one stands at a hob, and the door of the room that sweeps nearest to the hob's front there."""

    drawn: float = given(LENGTH, "by the drawing")
    door: str = given(NAME, "door that sweeps there")

    @figure(LENGTH, "clear before the hob", start="front of the hob", end="what the door sweeps")
    def clear(self) -> float:
        return self.drawn


class _Ahead(NamedTuple):
    """What is nearest before an edge: how far off, how far that may be off, and what is missing to be sure."""

    gap: float
    slack: float
    to: str
    missing: tuple[Missing, ...]
    assumed: tuple[Known, ...] = ()


def open_in_aisles(site: Site) -> Rows:
    """A row for each machine with a door of its own, and for each unit with drawers, that stands in a run."""
    rows = Rows()
    for sweep in site.opening.of("appliance door", "drawers"):
        if sweep.layers == HIGH:
            continue
        sort = "drawers" if sweep.sort == "drawers" else "machine"
        values: dict[str, Given] = {"sort": reading.exactly(sort, sweep.subject.pointer, "what is open")}
        rows.rows.append(OpenInAisle(sweep.subject, **values, **_left(site, sweep)))
    return rows


def _left(site: Site, sweep: Sweep) -> dict[str, Given]:
    footprint, subject = sweep.footprint, sweep.subject
    if sweep.missing or footprint is None or not any(way.shapes for way in sweep.ways):
        return dict.fromkeys(("drawn", "out", "to"), sweep.missing or sweep.asks)
    edge = edge_of(footprint, "front")
    outs = [max((_out(edge, shape) for shape in way.shapes), default=0.0) for way in sweep.ways]
    out = max(outs)
    ahead = _ahead(site, edge, out + REACH)
    missing = ahead.missing
    if ahead.gap < out + REACH:
        missing += sweep.asks if out - min(outs) > SAME else ()
        missing += footprint.no_face + (footprint.no_handle if sweep.sort == "drawers" else ())
    if missing:
        return dict.fromkeys(("drawn", "out", "to"), tuple(dict.fromkeys(missing)))
    label = f"to {ahead.to}, by the drawing" if ahead.to != NOTHING else "or more, by the drawing"
    return {
        "drawn": drawn(ahead.gap, ahead.slack, subject.pointer, label, footprint.assumed + ahead.assumed),
        "out": reading.exactly(out, subject.pointer, "door, open" if sweep.sort != "drawers" else "run out"),
        "to": reading.exactly(ahead.to, subject.pointer, "what lies across"),
    }


def _ahead(site: Site, edge: Edge, reach: float) -> _Ahead:
    """The nearest front, worktop or wall before an edge; runs that return from the corner are not across."""
    met = without_returns(met_ahead(site.plane, edge, reach))
    best = min(met, key=lambda one: one.gap, default=None)
    missing = unplaced_ahead(site.plane, edge.of.line, edge.of.side)
    gap = min(best.gap, reach) if best is not None else reach
    for one in met:
        if one.thing.no_face and one.gap - AT_MOST < gap:
            missing += one.thing.no_face
    if best is None:
        return _Ahead(gap, 0, NOTHING, missing)
    return _Ahead(gap, best.slack, best.thing.name, missing, best.thing.assumed)


def _out(edge: Edge, shape: Shape) -> float:
    """How far something open reaches out from an edge."""
    corners = _round(shape)
    return max(x * edge.ahead[0] + y * edge.ahead[1] - edge.at for x, y in corners)


def _round(shape: Shape) -> list[Point]:
    """The corners of a shape; of what a door sweeps, points along its arc, too."""
    corners = list(shape.corners)
    if not shape.radius:
        return corners
    (hx, hy), (ax, ay), (bx, by) = shape.corners
    start, end = math.atan2(ay - hy, ax - hx), math.atan2(by - hy, bx - hx)
    turn = math.remainder(end - start, 2 * math.pi)
    angles = [start + turn * step / STEPS for step in range(STEPS + 1)]
    return [(hx, hy), *((hx + shape.radius * math.cos(each), hy + shape.radius * math.sin(each)) for each in angles)]


def places_before_hobs(site: Site) -> Rows:
    """A row for each hob and cooker that stands in a run of a room whose doors are known."""
    rows = Rows()
    doors: dict[str, list[Sweep]] = {}
    for door in site.opening.of("room door"):
        doors.setdefault(door.line.room if door.line is not None else "", []).append(door)
    for name, appliance in site.plan.appliances.items():
        standing = standing_of(site, name) if kind_of(name, appliance) in HOBS else None
        footprint = site.plane.of.get(standing.item.pointer) if standing is not None else None
        if footprint is None or site.plan.rooms[footprint.line.room].openings.left_out:
            continue  # «hob by a door of the room» asks where it stands, and what doors there are
        subject = footprint.subject._replace(name=name, pointer=appliance.pointer)
        there = doors.get(footprint.line.room, []) + doors.get("", [])
        rows.rows.append(PlaceBeforeHob(subject, **_place(site, footprint, subject, there)))
    return rows


def _place(site: Site, footprint: Footprint, subject: Subject, doors: list[Sweep]) -> dict[str, Given]:
    edge = edge_of(footprint, "front")
    nearest, slack, name = REACH, 0.0, NOTHING
    missing: tuple[Missing, ...] = ()
    assumed: tuple[Known, ...] = ()
    for door in doors:
        missing += door.missing
        if door.missing or door.line is None:
            continue
        found = [min((_before(edge, shape) for shape in way.shapes), default=math.inf) for way in door.ways]
        off = door.slack + footprint.slack + slack_between(site.plane, door.line, footprint.line)
        if min(found) - off < REACH and max(found) - min(found) > SAME:
            missing += door.asks
        if min(found) - off < nearest - slack:
            nearest, slack, name, assumed = min(found), off, door.subject.name, door.assumed
    if missing:
        return dict.fromkeys(("drawn", "door"), tuple(dict.fromkeys(missing)))
    label = f"to what the {name} sweeps, by the drawing" if name != NOTHING else "or more, by the drawing"
    return {
        "drawn": drawn(nearest, slack, subject.pointer, label, footprint.assumed + assumed),
        "door": reading.exactly(name, subject.pointer, "door that sweeps there"),
    }


def _before(edge: Edge, shape: Shape) -> float:
    """How far before an edge what a door sweeps begins; without end where it lies beside it."""
    found = edge.to(_round(shape))
    if found is None or found[1] <= 0:
        return math.inf
    return max(0.0, found[0])
