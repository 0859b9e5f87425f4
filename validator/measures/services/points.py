"""Electrical points beside sinks and hobs."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.appliances.appliance_places import (
    FUEL,
    HOBS,
    SINKS,
    ApplianceAt,
    fuel_of,
    none_yet,
    of_kinds,
    place_of,
    width_of,
)
from validator.measures.plane.shapes import Box, Index
from validator.measures.room.walls import apart, difference, half_of, named_gap, worked
from validator.measures.rows import (
    YES_NO,
    Given,
    Known,
    LeftOut,
    Missing,
    Row,
    Rows,
    Subject,
    figure,
    given,
)
from validator.measures.services.circuits import is_socket
from validator.measures.services.point_places import over_worktop, protected
from validator.measures.services.points_on_the_plan import on_the_plan
from validator.plan.dimensions import LENGTH, VOLUME
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.services.point_places import PlacedPoint
    from validator.measures.site import Site


WITHIN = 5000.0
"""How far from a point the sinks and hobs of other walls are looked for, in mm: further than anything asks about."""


class Bowl(Row, kind="bowl of a sink"):
    """What a bowl holds, full to the brim."""

    width: float = given(LENGTH, "wide")
    depth: float = given(LENGTH, "from front to back")
    height: float = given(LENGTH, "deep")

    @figure(VOLUME, "what the bowl holds")
    def volume(self) -> float:
        return self.width * self.depth * self.height


class PointNearSink(Row, kind="point near a sink"):
    """A point above the worktop with the nearest sink, level along the wall or, to another wall, on the plan."""

    apart: float = given(LENGTH, "apart, middle to middle")
    half_plate: float = given(LENGTH, "half the plate")
    half_sink: float = given(LENGTH, "half the sink")
    above_worktop: float = given(LENGTH, "height above the worktop")
    volume: float = given(VOLUME, "what the bowl holds")
    socket: bool = given(YES_NO, "whether it is a socket")
    protected: bool = given(YES_NO, "whether a device of 30 mA or less (a GFCI of 5 mA) protects it")
    at_counter: bool = given(YES_NO, "whether a worktop lies below it")

    @figure(LENGTH, "distance", start="edge of the sink", end="edge of the plate")
    def distance(self) -> float:
        return self.apart - self.half_plate - self.half_sink


class PointNearHob(Row, kind="point near a hob"):
    """A point above the worktop with the nearest hob, level along the wall or, to another wall, on the plan."""

    apart: float = given(LENGTH, "apart, middle to middle")
    half_plate: float = given(LENGTH, "half the plate")
    half_hob: float = given(LENGTH, "half the hob")
    above_worktop: float = given(LENGTH, "height above the worktop")
    fuel: str = given(FUEL, "fuel of the hob")

    @figure(LENGTH, "distance", start="edge of the hob", end="edge of the plate")
    def distance(self) -> float:
        return self.apart - self.half_plate - self.half_hob


class _Near(NamedTuple):
    """A point with the sink or hob nearest to it, how far apart they are, and what of that their halves take."""

    placed: PlacedPoint
    thing: ApplianceAt
    apart: Given
    half_plate: Given
    half_thing: Given

    @property
    def least(self) -> float:
        """How near they may be; where it is not known, nearer than all that is."""
        if not isinstance(self.apart, Known):
            return -math.inf
        halves = (half.high or 0.0 for half in (self.half_plate, self.half_thing) if isinstance(half, Known))
        return float(self.apart.low or 0.0) - sum(halves)


def points_near_sinks(site: Site) -> Rows:
    """A row for each point above the worktop in the room of a sink, with the nearest sink."""
    rows = _left_out(site, PointNearSink.kind)
    for near in _nearest(site, SINKS, "cut_out"):
        placed, sink = near.placed, near.thing
        rows.rows.append(
            PointNearSink(
                _subject(placed),
                apart=near.apart,
                half_plate=near.half_plate,
                half_sink=near.half_thing,
                above_worktop=_above_worktop(site, placed, sink),
                volume=_volume(sink),
                socket=reading.exactly(
                    is_socket(placed.point), placed.point.pointer_to("is_"), "whether it is a socket"
                ),
                protected=protected(site, placed),
                at_counter=over_worktop(site, placed),
            )
        )
    return rows


def points_near_hobs(site: Site) -> Rows:
    """A row for each point above the worktop in the room of a hob, with the nearest hob."""
    rows = _left_out(site, PointNearHob.kind)
    for near in _nearest(site, HOBS, "width"):
        rows.rows.append(
            PointNearHob(
                _subject(near.placed),
                apart=near.apart,
                half_plate=near.half_plate,
                half_hob=near.half_thing,
                above_worktop=_above_worktop(site, near.placed, near.thing),
                fuel=fuel_of(near.thing.name, near.thing.appliance),
            )
        )
    return rows


def _left_out(site: Site, kind: str) -> Rows:
    """No rows yet, and what the plan has left out of what they are made from."""
    plan = site.plan
    found = none_yet(plan, kind)
    if plan.points.left_out:
        found.left_out.insert(0, LeftOut(kind, Missing("/points", "sockets, switches and connection units")))
    return found


def _nearest(site: Site, kinds: frozenset[str], width: str) -> Iterator[_Near]:
    """For each point above the worktop the nearest thing of some kinds, on its wall or on the plan.

    A thing or a point of which nobody knows the wall may be near any other: how far apart they are is not known.
    """
    things = [place_of(site, name) for name in of_kinds(site.plan, kinds)]
    by_wall: dict[str, list[int]] = {}
    first: dict[str, int] = {}  # of each room: where nothing shows how far any is, that of one says so
    undrawn: dict[str, int] = {}
    shapes: list[tuple[int, Box]] = []
    for number, thing in enumerate(things):
        room = _room(site, thing.on) if thing.on else ""
        by_wall.setdefault(fold(thing.on), []).append(number)
        first.setdefault(room, number)
        at = site.plane.of.get(thing.standing.item.pointer) if thing.standing is not None else None
        if at is not None:
            shapes.append((number, at.shape.box))
        else:
            undrawn.setdefault(room, number)
    index = Index(box for _, box in shapes)
    for placed in site.points.all():
        place, room = _spot(site, placed), _room(site, placed.on) if placed.on else ""
        beside = {*by_wall.get(fold(placed.on), ()), *by_wall.get("", ())} if placed.on else set(range(len(things)))
        beside |= {number for number in ((undrawn if place else first).get(room),) if number is not None}
        found = [near for number in sorted(beside) if (near := _near(site, placed, things[number], width)) is not None]
        nearest = min(found, key=lambda near: near.least, default=None)
        for away, shape in index.near(place, WITHIN) if place is not None else ():
            # Nothing lies nearer than the unit that it sits in, and these come the nearest unit first.
            if nearest is not None and nearest.least <= away:
                break
            number = shapes[shape][0]
            other = _near(site, placed, things[number], width) if number not in beside else None
            if other is not None and (nearest is None or other.least < nearest.least):
                nearest = other
        if nearest is not None:
            yield nearest


def _spot(site: Site, placed: PlacedPoint) -> Box | None:
    """Where the middle of a point is on the plan, on an island the unit it is at; None where that is not known."""
    line = site.plane.lines.get(placed.on)
    if line is not None and isinstance(placed.along, Known):
        x, y = line.at(float(placed.along.value), 0.0)
        return Box(x, y, x, y)
    at = site.plane.of.get(placed.near.item.pointer) if line is None and placed.near is not None else None
    return at.shape.box if at is not None else None


def _room(site: Site, wall: str) -> str:
    """The name of the room of a wall or an island; '' where no room has it."""
    room = site.plan.room_of(wall)
    return room.name if room is not None else ""


def _near(site: Site, placed: PlacedPoint, thing: ApplianceAt, width: str) -> _Near | None:
    """A point and a sink or hob; None where the point is not above the worktop, or the thing in another room."""
    if _below_worktop(site, placed, thing):
        return None
    subject, half_plate = (
        Subject(thing.name, thing.appliance.pointer_to(width)),
        site.points.half_plate(placed.name, "w"),
    )
    if not placed.on or not thing.on or fold(placed.on) == fold(thing.on):
        half = half_of(width_of(thing), subject, f"half of {thing.name}")
        return _Near(placed, thing, _apart(placed, thing), half_plate, half)
    way = on_the_plan(site, placed, thing)
    if way is None:
        return None
    counted = reading.exactly(0, placed.point.pointer, "already counted", "measured on the plan from edge to edge")
    return _Near(placed, thing, way, counted, counted)


def _apart(placed: PlacedPoint, thing: ApplianceAt) -> Given:
    if not placed.on:
        return placed.wall
    if not thing.on:
        return thing.wall
    subject = Subject(placed.name, placed.point.pointer)
    return apart(placed.along, thing.middle, subject, f"from {thing.name} to {placed.name}")


def _below_worktop(site: Site, placed: PlacedPoint, thing: ApplianceAt) -> bool:
    """Whether a point is certainly not above the worktop."""
    above = _above_worktop(site, placed, thing)
    return isinstance(above, Known) and above.high is not None and above.high <= 0


def _above_worktop(site: Site, placed: PlacedPoint, thing: ApplianceAt) -> Given:
    """The middle of the plate above its worktop; off the wall of the sink or hob, above the worktop of that."""
    subject = Subject(placed.name, placed.point.pointer)
    up, worktop = site.points.height(placed.name), site.points.worktop(placed.name)
    if placed.on and thing.on and fold(placed.on) != fold(thing.on):
        worktop = site.levels.worktop_by(thing.on, thing.standing)
    return difference(up, worktop, subject, "height above the worktop")


def _subject(placed: PlacedPoint) -> Subject:
    along = placed.along
    span = (float(along.value), float(along.value)) if isinstance(along, Known) else None
    return Subject(placed.name, placed.point.pointer, f"{placed.on} wall" if placed.on else "", placed.on, span)


def _volume(sink: ApplianceAt) -> Given:
    bowl, pointer = sink.appliance.bowl, sink.appliance.pointer_to("bowl")
    label = f"size of the bowl of {sink.name}"
    if bowl is None:
        return Missing(pointer, label)
    row = Bowl(
        Subject(sink.name, pointer),
        width=named_gap(reading.quantity(bowl.w, pointer, "wide"), label),
        depth=named_gap(reading.quantity(bowl.d, pointer, "from front to back"), label),
        height=named_gap(reading.quantity(bowl.h, pointer, "deep"), label),
    )
    return worked(row, "volume", "what the bowl holds")
