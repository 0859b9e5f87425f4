"""Electrical points beside sinks and hobs."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

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
from validator.plan.dimensions import LENGTH, VOLUME
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.services.point_places import PlacedPoint
    from validator.measures.site import Site


class Bowl(Row, kind="bowl of a sink"):
    """What a bowl holds, full to the brim."""

    width: float = given(LENGTH, "wide")
    depth: float = given(LENGTH, "from front to back")
    height: float = given(LENGTH, "deep")

    @figure(VOLUME, "what the bowl holds")
    def volume(self) -> float:
        return self.width * self.depth * self.height


class PointNearSink(Row, kind="point near a sink"):
    """A point above the worktop on the wall of a sink; level distances, along the wall."""

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
    """A point above the worktop on the wall of a hob; level distances, along the wall."""

    apart: float = given(LENGTH, "apart, middle to middle")
    half_plate: float = given(LENGTH, "half the plate")
    half_hob: float = given(LENGTH, "half the hob")
    above_worktop: float = given(LENGTH, "height above the worktop")
    fuel: str = given(FUEL, "fuel of the hob")

    @figure(LENGTH, "distance", start="edge of the hob", end="edge of the plate")
    def distance(self) -> float:
        return self.apart - self.half_plate - self.half_hob


def points_near_sinks(site: Site) -> Rows:
    """A row for each point above the worktop on the wall of a sink, with the nearest sink."""
    rows = _left_out(site, PointNearSink.kind)
    sinks = [place_of(site, name) for name in of_kinds(site.plan, SINKS)]
    for placed, sink, apart_ in _nearest(site, sinks):
        pointer = sink.appliance.pointer_to("cut_out")
        rows.rows.append(
            PointNearSink(
                _subject(placed),
                apart=apart_,
                half_plate=site.points.half_plate(placed.name, "w"),
                half_sink=half_of(width_of(sink), Subject(sink.name, pointer), f"half of {sink.name}"),
                above_worktop=_above_worktop(site, placed),
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
    """A row for each point above the worktop on the wall of a hob, with the nearest hob."""
    rows = _left_out(site, PointNearHob.kind)
    hobs = [place_of(site, name) for name in of_kinds(site.plan, HOBS)]
    for placed, hob, apart_ in _nearest(site, hobs):
        rows.rows.append(
            PointNearHob(
                _subject(placed),
                apart=apart_,
                half_plate=site.points.half_plate(placed.name, "w"),
                half_hob=half_of(
                    width_of(hob), Subject(hob.name, hob.appliance.pointer_to("width")), f"half of {hob.name}"
                ),
                above_worktop=_above_worktop(site, placed),
                fuel=fuel_of(hob.name, hob.appliance),
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


def _nearest(site: Site, things: list[ApplianceAt]) -> Iterable[tuple[PlacedPoint, ApplianceAt, Given]]:
    """For each point above the worktop the nearest thing on its wall, and how far apart their middles are.

    A thing or a point of which nobody knows the wall may be near any other: how far apart they are is not known.
    """
    by_wall: dict[str, list[int]] = {}
    for number, thing in enumerate(things):
        by_wall.setdefault(fold(thing.on), []).append(number)
    for placed in site.points.all():
        numbers = sorted({*by_wall.get(fold(placed.on), ()), *by_wall.get("", ())})
        near = [things[number] for number in numbers] if placed.on else things
        if not near or _below_worktop(site, placed):
            continue
        distances = [(thing, _apart(placed, thing)) for thing in near]
        unknown = [entry for entry in distances if not isinstance(entry[1], Known)]
        thing, found = unknown[0] if unknown else min(distances, key=_least_distance)
        yield placed, thing, found


def _apart(placed: PlacedPoint, thing: ApplianceAt) -> Given:
    if not placed.on:
        return placed.wall
    if not thing.on:
        return thing.wall
    subject = Subject(placed.name, placed.point.pointer)
    return apart(placed.along, thing.middle, subject, f"from {thing.name} to {placed.name}")


def _least_distance(entry: tuple[ApplianceAt, Given]) -> float:
    distance = entry[1]
    return float(distance.low or 0.0) if isinstance(distance, Known) else 0.0


def _below_worktop(site: Site, placed: PlacedPoint) -> bool:
    """Whether a point is certainly not above the worktop."""
    above = _above_worktop(site, placed)
    return isinstance(above, Known) and above.high is not None and above.high <= 0


def _above_worktop(site: Site, placed: PlacedPoint) -> Given:
    """The middle of the plate above the worktop."""
    subject = Subject(placed.name, placed.point.pointer)
    up, worktop = site.points.height(placed.name), site.points.worktop(placed.name)
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
