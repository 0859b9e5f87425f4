"""How far a point on one wall is from a sink or a hob on another, or on an island, seen from above."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from validator.measures.appliances.appliance_places import width_of
from validator.measures.plane.footprints import AT_MOST, Sum, drawn
from validator.measures.plane.shapes import apart
from validator.measures.room.walls import difference, half_of
from validator.measures.rows import Given, Known, Missing, Subject, Why

if TYPE_CHECKING:
    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.plane.shapes import Shape
    from validator.measures.plane.wall_lines import WallLine
    from validator.measures.runs.run_places import Standing
    from validator.measures.services.point_places import PlacedPoint
    from validator.measures.site import Site


class _Seen(NamedTuple):
    """A plate, a sink or a hob from above, how far it may be off, and the figures of its place nobody has verified."""

    shape: Shape
    line: WallLine
    slack: float
    assumed: tuple[Known, ...]


def on_the_plan(site: Site, placed: PlacedPoint, thing: ApplianceAt) -> Given | None:
    """The shortest way from the plate of a point to a sink or hob, edge to edge; None where another room has it.

    A sink or a hob is taken as deep as the unit it sits in, so that none is further away than it is measured.
    """
    label = f"from {thing.name} to {placed.name} on the plan"
    gaps = Sum()
    here, there = _plate(site, placed, label, gaps), _thing(site, thing, label, gaps)
    if here is None or there is None:
        return tuple(dict.fromkeys(gaps.missing))
    if here.line.room != there.line.room:
        return None
    way = apart(here.shape, there.shape)
    slack = here.slack + there.slack
    slack += max(here.line.slack_to(there.line), there.line.slack_to(here.line))
    found = drawn(way, slack, placed.point.pointer, label, here.assumed + there.assumed)
    return found._replace(value=max(way, 0.0), low=max(way - slack, 0.0), high=max(way + slack, 0.0))


def _plate(site: Site, placed: PlacedPoint, label: str, gaps: Sum) -> _Seen | None:
    """The plate on the face of its wall; on an island as deep as what it is on."""
    half = site.points.half_plate(placed.name, "w")
    line = site.plane.lines.get(placed.on)
    if line is None and placed.near is not None and placed.on not in site.plane.undrawn:
        return _in_unit(site, placed.near, placed.along, half, label, gaps)
    middle, beside = Sum().add(placed.along), Sum().add(half)
    gaps.missing += middle.missing + beside.missing
    if line is None:
        no_wall = Missing(placed.point.pointer, label, Why.UNCLEAR, detail=f"{placed.on} is no wall of a room")
        gaps.missing += site.plane.undrawn.get(placed.on, (no_wall,))
    if line is None or gaps.missing:
        return None
    left, right = middle.value - beside.value, middle.value + beside.value
    assumed = middle.assumed + beside.assumed + line.assumed
    return _Seen(line.part(left, right, 0, 0), line, middle.slack + beside.slack, assumed)


def _thing(site: Site, thing: ApplianceAt, label: str, gaps: Sum) -> _Seen | None:
    """A sink or a hob, as wide as it is and as deep as its unit."""
    if thing.standing is None:
        gaps.add(thing.wall)
        return None
    half = half_of(width_of(thing), Subject(thing.name, thing.appliance.pointer), f"half of {thing.name}")
    return _in_unit(site, thing.standing, thing.middle, half, label, gaps)


def _in_unit(site: Site, unit: Standing, middle: Given, half: Given, label: str, gaps: Sum) -> _Seen | None:
    """What sits in a unit, between its back and its face, so far to both sides of its middle."""
    inside = Sum().add(difference(middle, unit.left, unit.subject, f"from the left side of {unit.name}"))
    beside = Sum().add(half)
    gaps.missing += inside.missing + beside.missing
    drawn_at = site.plane.of.get(unit.item.pointer)
    if drawn_at is None:
        nowhere = Missing(
            unit.item.pointer, label, Why.UNCLEAR, detail=f"the plan does not say where {unit.name} stands in the room"
        )
        gaps.missing += site.plane.lacking.get(unit.run, (nowhere,))
    if drawn_at is None or gaps.missing:
        return None
    ends = [drawn_at.place_from_left(inside.value + way * beside.value) for way in (-1, 1)]
    shape = drawn_at.line.part(min(ends), max(ends), drawn_at.back, drawn_at.face)
    slack = inside.slack + beside.slack + drawn_at.slack + (AT_MOST if drawn_at.no_face else 0.0)
    assumed = inside.assumed + beside.assumed + drawn_at.assumed + drawn_at.line.assumed
    return _Seen(shape, drawn_at.line, slack, assumed)
