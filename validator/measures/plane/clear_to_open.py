"""Opening without clashing: how clear of everything shut, and of what is open beside it, each door and drawer opens.

The distances are those of the drawing of the room: each is a value whose working is the drawing, at both ends of what
the places in it may be off.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.plane.footprints import AT_MOST, Footprint, Plane, drawn, handle_of
from validator.measures.plane.shapes import Index, apart
from validator.measures.plane.sweeps import Leaf, Sort, Sweep, Way
from validator.measures.plane.wall_lines import WallLine
from validator.measures.rows import (
    NAME,
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
from validator.measures.runs.run_corners import FrontAtCorner
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.site import Site

REACH = 300.0
"""How far round what opens anything is looked for; what is further off is no nearer than this."""

SAME = 0.05
"""Distances that differ by no more are the same: whoever opens a door on either side comes as near."""

NOTHING = "anything"
"""What is nearest where nothing is near."""


class Door(Row, kind="door"):
    """What a door sweeps and the nearest thing that is shut, or wall."""

    drawn: float = given(LENGTH, "by the drawing")
    nearest: str = given(NAME, "what is nearest")

    @figure(LENGTH, "clear to open", start="what the door sweeps", end="nearest shut thing or wall")
    def clear(self) -> float:
        return self.drawn


class DoorOfUnit(Door, kind="door of a unit"):
    """A door, or the pair of doors, of a unit."""


class Drawers(Row, kind="drawers of a unit"):
    """The drawers or the pull-out of a unit, run out with their handle, and the nearest thing that is shut, or wall.

    `machine` is the nearest one besides that which the front beside the corner has straight across.
    """

    drawn: float = given(LENGTH, "by the drawing")
    nearest: str = given(NAME, "what is nearest")
    machine_drawn: float = given(LENGTH, "by the drawing")
    machine: str = given(NAME, "nearest machine")

    @figure(LENGTH, "clear to run out", start="drawers that are run out", end="nearest shut thing or wall")
    def clear(self) -> float:
        return self.drawn

    @figure(LENGTH, "clear of machines", start="drawers that are run out", end="nearest machine")
    def clear_of_machine(self) -> float:
        return self.machine_drawn


class DoorAmongOthers(Door, kind="door among others"):
    """A door that may strike what else is open; `open_drawn` is to that, on another side of the room."""

    open_drawn: float = given(LENGTH, "by the drawing")
    other: str = given(NAME, "what else is open")

    @figure(LENGTH, "clear of what is open", start="what the door sweeps", end="what the nearest other one sweeps")
    def clear_of_open(self) -> float:
        return self.open_drawn


class DoorOfMachine(DoorAmongOthers, kind="door of a machine"):
    """The door of an oven, a fridge or a machine."""


class DoorOfRoom(DoorAmongOthers, kind="door of the room"):
    """A door that swings into the room."""


class InwardWindow(Row, kind="window that opens inwards"):
    """A window that opens into the room above the worktop, and the nearest thing that hangs or stands tall."""

    drawn: float = given(LENGTH, "by the drawing")
    nearest: str = given(NAME, "what is nearest")

    @figure(LENGTH, "clear to open", start="what the window sweeps", end="nearest thing or wall")
    def clear(self) -> float:
        return self.drawn


class HingeSide(Row, kind="hinge side of a door"):
    """The door of a unit or a machine, open at a right angle, and what stands beside its hinge; with its handle."""

    drawn: float = given(LENGTH, "by the drawing")
    nearest: str = given(NAME, "what stands there")
    in_its_row: bool = given(YES_NO, "whether that stands in the same row, and deeper")
    handle: float = given(LENGTH, "handle")

    @figure(LENGTH, "beside the hinge", start="hinge side of the door", end="what stands beside it")
    def beside(self) -> float:
        return self.drawn


class Found(NamedTuple):
    """A distance of the drawing, to what, how far it may be off; `missing` where it hangs on what is not known."""

    value: float
    to: Subject | None
    slack: float = 0.0
    assumed: tuple[Known, ...] = ()
    missing: tuple[Missing, ...] = ()
    in_its_row: bool = False


class Opening:
    """Everything that opens in a room with what is near it. Cost grows with the number of things."""

    def __init__(self, site: Site) -> None:
        from validator.measures.plane.sweeps import sweeps_of

        self.plane = site.plane
        self.sweeps = sweeps_of(site)
        swept = [
            (sweep, shape) for sweep in self.sweeps if not sweep.missing for way in sweep.ways for shape in way.shapes
        ]
        self._swept = swept
        self._in_the_way: dict[tuple[str, int, tuple[str, int]], tuple[Missing, ...]] = {}
        self._index = Index(shape.box for _, shape in swept)

    def of(self, *sorts: Sort) -> list[Sweep]:
        return [sweep for sweep in self.sweeps if sweep.sort in sorts]

    def clear(self, sweep: Sweep, among: frozenset[str] | None = None) -> Found:
        """How clear of what is shut a thing opens: of all of it, or of what is named `among` it by pointer."""
        if sweep.missing or sweep.line is None:
            return Found(0, None, missing=sweep.missing)
        found = [self._nearest(self.plane, sweep, way, among) for way in sweep.ways]
        return settled(found, sweep, self._unplaced(sweep.line.room, sweep.layers, sweep.side))

    def _unplaced(self, room: str, layers: int, side: tuple[str, int]) -> tuple[Missing, ...]:
        """What is missing for things of a room that stand nobody knows where, and might stand in the way."""
        asked = (room, layers, side)
        if asked not in self._in_the_way:
            things = [thing for thing in self.plane.unplaced if thing.room == room and thing.side != side]
            gaps = [gap for thing in things if thing.layers & layers for gap in thing.missing]
            self._in_the_way[asked] = tuple(dict.fromkeys(gaps))
        return self._in_the_way[asked]

    def _nearest(self, plane: Plane, sweep: Sweep, way: Way, among: frozenset[str] | None) -> Found:
        best = Found(REACH, None)
        unknown: tuple[Missing, ...] = ()
        for shape in way.shapes:
            for bound, number in plane.index.near(shape.box, REACH):
                if bound >= max(best.value, AT_MOST):
                    break
                thing = plane.footprints[number]
                if not thing.layers & sweep.layers or thing.side == sweep.side or _in_this_wall(thing, sweep):
                    continue
                if among is not None and thing.subject.pointer not in among:
                    continue
                value = apart(shape, plane.shapes[number])
                if value < AT_MOST:
                    unknown += thing.no_face + thing.no_handle
                if value < best.value:
                    slack = thing.slack + _slack(sweep, thing.line, wall_itself=not thing.run)
                    best = Found(value, thing.subject, slack, thing.assumed + sweep.assumed)
        return best._replace(missing=tuple(dict.fromkeys(unknown)))

    def clear_of_open(self, sweep: Sweep) -> Found:
        """How clear a thing opens of the nearest other that is open; what opens side by side is not looked at."""
        if sweep.missing:
            return Found(0, None, missing=sweep.missing)
        found = [self._nearest_open(sweep, way) for way in sweep.ways]
        return settled(found, sweep, ())

    def _nearest_open(self, sweep: Sweep, way: Way) -> Found:
        best = Found(REACH, None)
        unknown: tuple[Missing, ...] = ()
        for shape in way.shapes:
            for bound, number in self._index.near(shape.box, REACH):
                if bound >= best.value:
                    break
                other, swept = self._swept[number]
                if other is sweep or not other.layers & sweep.layers or other.side == sweep.side:
                    continue
                value = apart(shape, swept)
                if value < AT_MOST:
                    unknown += other.asks
                if value < best.value:
                    slack = other.slack + _slack(sweep, other.line)
                    best = Found(value, other.subject, slack, other.assumed + sweep.assumed)
        return best._replace(missing=tuple(dict.fromkeys(unknown)))

    def beside(self, sweep: Sweep) -> Found:
        """How far what stands beside the hinge of a door is from the outer half of its leaf, open at a right angle."""
        if sweep.missing or sweep.footprint is None:
            return Found(0, None, missing=sweep.missing)
        plane, footprint = self.plane, sweep.footprint
        found = []
        for way in sweep.ways:
            each = [self._beside_leaf(plane, footprint, leaf) for leaf in way.leaves]
            if each:
                found.append(min(each, key=lambda one: one.value))
        return settled(found, sweep, ()) if found else Found(AT_MOST, None)

    def _beside_leaf(self, plane: Plane, own: Footprint, leaf: Leaf) -> Found:
        near, far = own.face + own.outward * leaf.width / 2, own.face + own.outward * leaf.width
        open_leaf = own.line.part(leaf.hinge, leaf.hinge, near, far)
        best = Found(AT_MOST, None)
        unknown: tuple[Missing, ...] = ()
        for bound, number in plane.index.near(open_leaf.box, AT_MOST):
            thing = plane.footprints[number]
            if bound >= best.value:
                break
            if thing is own or not thing.layers & own.layers or not _stands_beside(thing, own, leaf):
                continue
            value = apart(open_leaf, plane.shapes[number])
            if value < AT_MOST:
                unknown += thing.no_face
            if value < best.value:
                slack = thing.slack + own.slack + own.line.slack_to(thing.line, wall_itself=not thing.run)
                assumed, in_its_row = thing.assumed + own.assumed, thing.side == own.side
                best = Found(value, thing.subject, slack, assumed, in_its_row=in_its_row)
        return best._replace(missing=tuple(dict.fromkeys(unknown)))


def _slack(sweep: Sweep, line: WallLine | None, *, wall_itself: bool = False) -> float:
    """How far the place of what opens may be off, as seen from another wall."""
    if line is None or sweep.line is None:
        return sweep.slack
    return sweep.slack + sweep.line.slack_to(line, wall_itself=wall_itself)


def _in_this_wall(thing: Footprint, sweep: Sweep) -> bool:
    """Whether a thing is the wall that a door of the room is in."""
    return not thing.run and thing.line.name == sweep.side[0] and sweep.side[1] == 0


def _stands_beside(thing: Footprint, own: Footprint, leaf: Leaf) -> bool:
    """Whether a thing stands at the hinge side of a leaf: across the corner, or in the same row and much deeper."""
    if thing.side == own.side:
        if (thing.face - own.face) * own.outward <= leaf.width / 2:
            return False
    elif abs(_dot(thing.line.along, own.line.along)) > 0.7:
        return False
    corners = thing.shape.corners
    middle = sum(_along(own.line, corner) for corner in corners) / len(corners)
    return middle < leaf.hinge if leaf.side == "left" else middle > leaf.hinge


def _along(line: WallLine, point: tuple[float, float]) -> float:
    return _dot((point[0] - line.start[0], point[1] - line.start[1]), line.along)


def _dot(one: tuple[float, float], other: tuple[float, float]) -> float:
    return one[0] * other[0] + one[1] * other[1]


def settled(found: list[Found], sweep: Sweep, unplaced: tuple[Missing, ...]) -> Found:
    """The least of the distances of all the ways in which a thing may open.

    Where nobody knows which way, it is asked for unless every way comes as near, or nowhere near anything.
    """
    if not found:
        return Found(0, None, missing=sweep.asks)
    least = min(found, key=lambda one: one.value)
    missing = least.missing + unplaced
    if least.value < AT_MOST:
        if len(found) > 1 and max(one.value for one in found) - least.value > SAME:
            missing += sweep.asks
        if sweep.footprint is not None:
            missing += sweep.footprint.no_face
            missing += sweep.footprint.no_handle if sweep.sort == "drawers" else ()
    return least._replace(missing=tuple(dict.fromkeys(missing)))


def values_of(found: Found, subject: Subject, field: str, to: str) -> dict[str, Given]:
    """A distance and what it is to, as the fields of a row."""
    if found.missing:
        return {field: found.missing, to: found.missing}
    name = found.to.name if found.to is not None else NOTHING
    label = f"to {name}, by the drawing" if found.to is not None else "or more, by the drawing"
    distance = drawn(found.value, found.slack, subject.pointer, label, found.assumed)
    return {field: distance, to: reading.exactly(name, subject.pointer, to)}


def doors_of_units(site: Site) -> Rows:
    """A row for each unit with a door, or of which nobody knows how it opens."""
    return _shut_rows(site, DoorOfUnit, "door")


def drawers_of_units(site: Site) -> Rows:
    """A row for each unit with drawers or a pull-out."""
    opening = site.opening
    rows = Rows()
    things = [thing for thing in site.setting_out.things() if thing.item.family == "opening"]
    machines = frozenset(thing.item.pointer for thing in things)
    at_corners: dict[str, set[str]] = {}
    for front in site.rows(FrontAtCorner.kind).rows:
        at_corners.setdefault(front.subject.pointer, set()).add(front.known["across"].pointer)
    for sweep in opening.of("drawers"):
        values = values_of(opening.clear(sweep), sweep.subject, "drawn", "nearest")
        others = machines - at_corners.get(sweep.subject.pointer, set())
        values |= values_of(opening.clear(sweep, others), sweep.subject, "machine_drawn", "machine")
        rows.rows.append(Drawers(sweep.subject, **values))
    return rows


def inward_windows(site: Site) -> Rows:
    """A row for each window that opens into the room."""
    return _shut_rows(site, InwardWindow, "window")


def _shut_rows(site: Site, row: type[Row], sort: Sort) -> Rows:
    opening = site.opening
    return Rows(
        [
            row(sweep.subject, **values_of(opening.clear(sweep), sweep.subject, "drawn", "nearest"))
            for sweep in opening.of(sort)
        ]
    )


def doors_of_machines(site: Site) -> Rows:
    """A row for each machine with a door of its own."""
    return _both_rows(site, DoorOfMachine, "appliance door")


def doors_of_room(site: Site) -> Rows:
    """A row for each door that swings into the room, or may."""
    found = _both_rows(site, DoorOfRoom, "room door")
    for room in site.plan.rooms.values():
        if room.openings.left_out:
            found.left_out.append(LeftOut(DoorOfRoom.kind, Missing(room.pointer_to("openings"), "doors and windows")))
    return found


def _both_rows(site: Site, row: type[Row], sort: Sort) -> Rows:
    opening = site.opening
    rows = Rows()
    for sweep in opening.of(sort):
        values = values_of(opening.clear(sweep), sweep.subject, "drawn", "nearest")
        values |= values_of(opening.clear_of_open(sweep), sweep.subject, "open_drawn", "other")
        rows.rows.append(row(sweep.subject, **values))
    return rows


def hinge_sides(site: Site) -> Rows:
    """A row for each door of a unit or a machine that hangs on hinges, or may."""
    opening = site.opening
    rows = Rows()
    for sweep in opening.of("door", "appliance door"):
        if not sweep.missing and not any(way.leaves for way in sweep.ways):
            continue
        found, subject = opening.beside(sweep), sweep.subject
        values = values_of(found, subject, "drawn", "nearest")
        label = "whether what stands beside its hinge stands in the same row"
        in_its_row: Given = found.missing or reading.exactly(found.in_its_row, subject.pointer, label)
        rows.rows.append(HingeSide(subject, **values, in_its_row=in_its_row, handle=_own_handle(site, sweep)))
    return rows


def _own_handle(site: Site, sweep: Sweep) -> Given:
    appliance = site.plan.appliances.get(sweep.subject.name) if sweep.sort == "appliance door" else None
    if appliance is not None:
        return handle_of(appliance.handle, appliance.pointer_to("handle"), sweep.subject.name)
    standing = site.setting_out.find(sweep.subject.name)
    pointer = f"{sweep.subject.pointer}/handle"
    return handle_of(standing.item.handle if standing is not None else None, pointer, sweep.subject.name)
