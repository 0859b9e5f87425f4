"""What opens in a room, and what it sweeps: doors, drawers, doors of machines, doors of the room, windows.

A leaf turns a quarter round its hinge. Its handle sits in from its edge, so that it comes no further round than the
edge does.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Literal, NamedTuple

from validator.measures import reading
from validator.measures.appliances.appliance_places import kind_of, standing_of
from validator.measures.heights.heights import COOKERS
from validator.measures.plane.footprints import HIGH, TALL, Footprint, Plane, Sum
from validator.measures.plane.shapes import Shape, quarter_turn
from validator.measures.plane.wall_lines import WallLine
from validator.measures.room.openings import sort_of
from validator.measures.room.walls import named_gap, place_along, which_end
from validator.measures.rows import Known, Missing, Subject, Why
from validator.plan.values import ToFind

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.appliances import Appliance
    from validator.plan.sections.openings import Opening

Sort = Literal["door", "drawers", "appliance door", "room door", "window"]

DROPPING = frozenset({"dishwasher", *COOKERS})
"""Machines whose doors drop down, whoever made them."""

MAY_DROP = frozenset({*DROPPING, "oven", "microwave"})
"""Machines whose doors drop down or hang at a side; those of all others hang."""

WITH_DOORS = frozenset(
    {"oven", "microwave", "fridge", "freezer", "fridge freezer", "dishwasher", "washing machine", "tumble dryer"}
)


class Leaf(NamedTuple):
    """A leaf: where its hinge is along the wall, and at which side of it, counted along the wall."""

    hinge: float
    width: float
    side: Literal["left", "right"]

    @property
    def free(self) -> float:
        """Where its free end is, shut."""
        return self.hinge + self.width if self.side == "left" else self.hinge - self.width


class Way(NamedTuple):
    """One way in which a thing may open: all that it sweeps, and its leaves where it has any."""

    shapes: tuple[Shape, ...]
    leaves: tuple[Leaf, ...] = ()


class Sweep(NamedTuple):
    """A thing that opens. Where it is not known how, `ways` holds every way there is, and `asks` what would tell.

    `line` is its wall; `missing` is what its place lacks, and where there is any nothing else holds.
    """

    sort: Sort
    subject: Subject
    side: tuple[str, int]
    layers: int
    ways: tuple[Way, ...]
    asks: tuple[Missing, ...] = ()
    missing: tuple[Missing, ...] = ()
    slack: float = 0.0
    assumed: tuple[Known, ...] = ()
    footprint: Footprint | None = None
    line: WallLine | None = None


def sweeps_of(site: Site) -> list[Sweep]:
    """Everything that opens in a room, in the plan's order."""
    plane = site.plane
    return [*_of_units(site, plane), *_of_appliances(site, plane), *_of_openings(site, plane)]


def _of_units(site: Site, plane: Plane) -> Iterator[Sweep]:
    for thing in site.setting_out.things():
        opens = thing.item.opens
        if thing.item.family != "unit" or opens == "nothing":
            continue
        sort: Sort = "drawers" if opens in ("drawers", "pull-out") else "door"
        footprint = plane.of.get(thing.item.pointer)
        if footprint is None:
            yield Sweep(sort, thing.subject, ("", 0), 0, (), missing=plane.lacking.get(thing.run, ()))
            continue
        ways, asks, missing = _unit_ways(footprint)
        yield _sweep(sort, footprint.subject, footprint, ways, asks, missing)


def _sweep(
    sort: Sort,
    subject: Subject,
    footprint: Footprint,
    ways: tuple[Way, ...],
    asks: tuple[Missing, ...],
    missing: tuple[Missing, ...] = (),
) -> Sweep:
    slack, assumed = footprint.slack, footprint.assumed
    return Sweep(
        sort, subject, footprint.side, footprint.layers, ways, asks, missing, slack, assumed, footprint, footprint.line
    )


def _unit_ways(footprint: Footprint) -> tuple[tuple[Way, ...], tuple[Missing, ...], tuple[Missing, ...]]:
    """The ways a unit may open, what would tell which, and what is missing for all of them."""
    assert footprint.standing is not None
    item = footprint.standing.item
    left, right = _opening_part(footprint)
    match item.opens:
        case "drawers" | "pull-out":
            drawers, missing = _drawers(footprint, left, right)
            return (drawers,), (), missing
        case "door":
            asks = (
                () if item.hand is not None else (Missing(item.pointer_to("hand"), f"hinge side of {footprint.name}"),)
            )
            return _doors(footprint, left, right, item.hand), asks, ()
        case "two doors" | "doors":
            return (_pair(footprint, left, right),), (), ()
        case "lift-up":
            height = Sum().add(reading.read(item, "height", f"height of {footprint.name}"))
            return (Way((footprint.front(left, right, height.value),)),), (), height.missing
    by = item.opens.by if isinstance(item.opens, ToFind) else None
    why = Why.TO_FIND if isinstance(item.opens, ToFind) else Why.LEFT_OUT
    asks = (Missing(item.pointer_to("opens"), f"how {footprint.name} opens", why, by),)
    drawers, missing = _drawers(footprint, left, right)
    return (*_doors(footprint, left, right, None), _pair(footprint, left, right), drawers), asks, missing


def _drawers(footprint: Footprint, left: float, right: float) -> tuple[Way, tuple[Missing, ...]]:
    """Drawers run out as far as their runners let them, else as far as the unit is deep; the handle is before them."""
    assert footprint.standing is not None
    item = footprint.standing.item
    field = "runner" if item.runner is not None else "depth"
    out = Sum().add(reading.read(item, field, f"{field} of {footprint.name}"))
    return Way((footprint.front(left, right, out.value + footprint.handle),)), out.missing


def _opening_part(footprint: Footprint) -> tuple[float, float]:
    """The part of a unit's front that opens: a corner unit is blind towards its corner."""
    assert footprint.standing is not None
    item = footprint.standing.item
    blind = Sum().add(reading.read(item, "blind", "")).value if item.blind is not None else 0.0
    if not blind:
        return footprint.left, footprint.right
    if footprint.left < footprint.line.length - footprint.right:
        return footprint.left + blind, footprint.right
    return footprint.left, footprint.right - blind


def _doors(footprint: Footprint, left: float, right: float, hand: str | None) -> tuple[Way, ...]:
    """One door with its hinge at the side named, as one faces it; both where the side is not known."""
    hands: tuple[str, ...] = ("left", "right") if hand is None else (hand,)
    if footprint.outward < 0:
        hands = tuple("right" if hand == "left" else "left" for hand in hands)
    return tuple(_leaf_way(footprint, left, right, right - left, hand) for hand in hands)


def _leaf_way(footprint: Footprint, left: float, right: float, width: float, hand: str) -> Way:
    turn, leaf = _leaf(footprint.line, left, right, width, hand, footprint.face, footprint.outward)
    return Way((turn,), (leaf,))


def _pair(footprint: Footprint, left: float, right: float) -> Way:
    half = (right - left) / 2
    at_left, one = _leaf(footprint.line, left, right, half, "left", footprint.face, footprint.outward)
    at_right, other = _leaf(footprint.line, left, right, half, "right", footprint.face, footprint.outward)
    return Way((at_left, at_right), (one, other))


def _leaf(
    line: WallLine, left: float, right: float, width: float, hand: str, face: float, outward: int
) -> tuple[Shape, Leaf]:
    """What a leaf sweeps. `hand` is the end of the wall to which its hinge is nearer."""
    hinge, free = (left, left + width) if hand == "left" else (right, right - width)
    turn = quarter_turn(line.at(hinge, face), line.at(free, face), line.at(hinge, face + outward * width))
    return turn, Leaf(hinge, width, "left" if hand == "left" else "right")


def _of_appliances(site: Site, plane: Plane) -> Iterator[Sweep]:
    """The doors of machines. Where a plan says that it has no runs, there is nothing they could open against."""
    for name, appliance in site.plan.appliances.items() if site.plan.runs or site.plan.runs.left_out else ():
        kind = kind_of(name, appliance)
        if kind not in WITH_DOORS | DROPPING or appliance.door == "none":
            continue
        standing = standing_of(site, name)
        subject = Subject(name, appliance.pointer)
        if standing is None:
            gap = Missing(appliance.pointer_to("in"), f"unit that {name} sits in")
            yield Sweep("appliance door", subject, ("", 0), 0, (), missing=(gap,))
            continue
        if _behind_a_door(standing.item.opens) and appliance.door is None:
            continue  # its door is the unit's own, or behind it
        subject = standing.subject._replace(name=name, pointer=appliance.pointer)
        footprint = plane.of.get(standing.item.pointer)
        if footprint is None:
            missing = plane.lacking.get(standing.run, ())
            yield Sweep("appliance door", subject, ("", 0), 0, (), missing=missing)
            continue
        ways, asks, missing = _appliance_ways(name, appliance, kind, footprint)
        yield _sweep("appliance door", subject, footprint, ways, asks, missing)


def _behind_a_door(opens: object) -> bool:
    return opens in ("door", "two doors", "doors")


def _appliance_ways(
    name: str, appliance: Appliance, kind: str, footprint: Footprint
) -> tuple[tuple[Way, ...], tuple[Missing, ...], tuple[Missing, ...]]:
    left, right = footprint.left, footprint.right
    how = appliance.door if isinstance(appliance.door, str) else "drops" if kind in DROPPING else None
    tall = Sum().add(reading.quantity(appliance.body.h if appliance.body is not None else None, "", ""))
    said = Sum().add(reading.read(appliance, "open", f"how far the door of {name} comes open"))
    asks: tuple[Missing, ...] = ()
    ways: list[Way] = []
    if how == "drops" or (how is None and kind in MAY_DROP):
        if said.missing:
            asks = said.missing
            if tall.missing:
                return (), (), said.missing
            ways.append(Way(()))  # a door comes open by no more than the body is high, and perhaps by less
        ways.append(Way((footprint.front(left, right, said.value if not said.missing else tall.value),)))
    if how != "drops":
        hands = _doors(footprint, left, right, how)
        if said.missing:
            ways.extend(hands)
        else:
            ways.extend(_leaf_way(footprint, left, right, said.value, way.leaves[0].side) for way in hands)
        if how is None:
            asks = (Missing(appliance.pointer_to("door"), f"how the door of {name} opens"),)
    return tuple(ways), asks, ()


def _of_openings(site: Site, plane: Plane) -> Iterator[Sweep]:
    for name, opening in site.plan.openings.items():
        sort = sort_of(name, opening)
        swings = opening.swings if sort == "door" else "in" if opening.opens in ("in", "tilt and turn") else "none"
        if opening.wall is None or sort not in ("door", "window") or swings in ("out", "sliding", "none"):
            continue
        subject = Subject(name, opening.pointer, f"{opening.wall} wall", opening.wall)
        yield _of_opening(site, plane, name, opening, "room door" if sort == "door" else "window", subject)


def _of_opening(
    site: Site,
    plane: Plane,
    name: str,
    opening: Opening,
    sort: Sort,
    subject: Subject,
) -> Sweep:
    wall = opening.wall or ""
    wall = site.plan.walls.written(wall) if wall in site.plan.walls else wall
    line = plane.lines.get(wall)
    if line is None:
        detail = f"{wall} is no wall of a room"
        gap = Missing(opening.pointer_to("wall"), f"wall of the {name}", Why.UNCLEAR, detail=detail)
        return Sweep(sort, subject, ("", 0), 0, (), missing=plane.undrawn.get(wall, (gap,)))
    near, width = Sum(), Sum()
    if opening.along is None:
        near.add(Missing(opening.pointer_to("along"), f"place of the {name}"))
    else:
        near.add(place_along(site.plan, line.name, opening.along, opening.pointer_to("along"), name))
    size = opening.size.w if opening.size is not None else None
    width.add(named_gap(reading.quantity(size, opening.pointer_to("size"), name), f"width of the {name}"))
    from_right = opening.along is not None and which_end(site.plan, line.name, opening.along.from_) == "right"
    left = near.value - width.value if from_right else near.value
    hands = (opening.hinge,) if isinstance(opening.hinge, str) else ("left", "right")
    leaves = [_leaf(line, left, left + width.value, width.value, hand, 0.0, 1) for hand in hands]
    asks: tuple[Missing, ...] = ()
    ways = tuple(Way((turn,), (leaf,)) for turn, leaf in leaves)
    if len(ways) > 1:
        asks = (Missing(opening.pointer_to("hinge"), f"hinge side of the {name}"),)
    if sort == "room door" and not isinstance(opening.swings, str):
        asks = (Missing(opening.pointer_to("swings"), f"which way the {name} swings"), *asks)
        ways = (*ways, Way(()))
    layers = TALL if sort == "room door" else HIGH
    slack = near.slack + width.slack
    assumed = line.assumed + near.assumed + width.assumed
    missing = near.missing + width.missing
    return Sweep(sort, subject, (line.name, 0), layers, ways, asks, missing, slack, assumed, line=line)
