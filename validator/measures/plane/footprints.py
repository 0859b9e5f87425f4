"""Footprints: what stands and hangs in a room, drawn in its plane, in mm.

Everything is drawn where it is most likely; `slack` is how far it may be from there, so that a distance between two
footprints is sure within the sum of theirs.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.heights.heights import STANDS_BESIDE, machine_in
from validator.measures.plane.shapes import Index, Point, Shape
from validator.measures.plane.wall_lines import THICK, Drawn, WallLine, wall_lines
from validator.measures.room.walls import place_along, tiles_on, which_end
from validator.measures.rows import Given, Known, Missing, Subject, Why, assumed_among
from validator.plan.names import fold
from validator.plan.values import Quantity

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.measures.worktops.pieces import Piece
    from validator.plan.plan import Plan

LOW, EDGE, HIGH = 1, 2, 4
"""Below the worktop, at its edge, and above it: what stands in none of the others' layers passes over or under it."""
TALL = LOW | EDGE | HIGH

AT_MOST = 150.0
"""No handle, front, overhang or gap for hoses that a plan is silent about makes a thing stand out further than this."""


class Sum:
    """Figures of a plan added up: where they most likely come to, how far that may be off, and what is missing."""

    def __init__(self) -> None:
        self.value = 0.0
        self.slack = 0.0
        self.assumed: tuple[Known, ...] = ()
        self.missing: tuple[Missing, ...] = ()

    def add(self, given: Given, sign: int = 1) -> Sum:
        if isinstance(given, Known):
            low, high = given.low or 0.0, given.high or 0.0
            self.value += sign * (low + high) / 2
            self.slack += (high - low) / 2
            self.assumed += assumed_among(given)
        else:
            self.missing += (given,) if isinstance(given, Missing) else given
        return self


def drawn(value: float, slack: float, pointer: str, label: str, assumed: tuple[Known, ...] = ()) -> Known:
    """A distance of the drawing in mm, with how far it may be off and the assumed figures that it rests on."""
    low, high = value - slack, value + slack
    return Known(low, pointer, "", label, low, high, bool(assumed), rests_on=tuple(dict.fromkeys(assumed)))


class Footprint(NamedTuple):
    """A thing from above: from `left` to `right` along its wall, from `back` to `face` out from it.

    An island's face is nearer to the wall it faces than its back, and its own left is the wall's right. `handle` is how
    far its handle stands out from the face; `no_handle` and `no_face` are what is missing for it, and for how far out
    the face is; `assumed` are the figures behind its place and size that nobody has verified.
    """

    subject: Subject
    run: str
    line: WallLine
    left: float
    right: float
    back: float
    face: float
    layers: int
    handle: float
    no_handle: tuple[Missing, ...]
    no_face: tuple[Missing, ...]
    slack: float
    assumed: tuple[Known, ...]
    standing: Standing | None = None

    @property
    def name(self) -> str:
        return self.subject.name

    @property
    def outward(self) -> int:
        """1 where it faces the room from its wall, −1 for an island that faces the wall."""
        return 1 if self.face >= self.back else -1

    @property
    def side(self) -> tuple[str, int]:
        """Its wall and which way it faces: what has both in common stands side by side."""
        return self.line.name, self.outward

    def from_left(self, along: float) -> float:
        """How far a place along the wall is from its left side, as one faces it."""
        return along - self.left if self.outward > 0 else self.right - along

    def place_from_left(self, far: float) -> float:
        """The place along the wall that is so far from its left side, as one faces it."""
        return self.left + far if self.outward > 0 else self.right - far

    @property
    def shape(self) -> Shape:
        """The shut thing with its handle."""
        out = self.face + self.outward * self.handle
        return self.line.part(self.left, self.right, self.back, out)

    def front(self, left: float, right: float, run_out: float) -> Shape:
        """What lies before a part of its face, so far out."""
        return self.line.part(left, right, self.face, self.face + self.outward * run_out)


class Unplaced(NamedTuple):
    """A thing that stands somewhere along a wall of a room, and what is missing for its footprint."""

    run: str
    room: str
    side: tuple[str, int]
    layers: int
    missing: tuple[Missing, ...]


class Plane:
    """The rooms from above: their walls and the footprints in them, with an index of what is near.

    `of` finds the footprint of a thing of a run by its pointer, `undrawn` says what is missing for the room of a wall.
    """

    def __init__(self, drawn: Drawn, footprints: list[Footprint], unplaced: list[Unplaced]) -> None:
        self.lines = drawn.lines
        self.undrawn = drawn.undrawn
        self.footprints = footprints
        self.unplaced = unplaced
        self.of = {footprint.subject.pointer: footprint for footprint in footprints if footprint.standing is not None}
        self.shapes = [footprint.shape for footprint in footprints]
        self.index = Index(shape.box for shape in self.shapes)

    @cached_property
    def without_handles(self) -> list[tuple[Point, Point, Point, Point]]:
        """The corners of each footprint without its handle, in their order."""
        return [
            (
                thing.line.at(thing.left, thing.back),
                thing.line.at(thing.right, thing.back),
                thing.line.at(thing.right, thing.face),
                thing.line.at(thing.left, thing.face),
            )
            for thing in self.footprints
        ]

    @cached_property
    def of_run(self) -> dict[str, list[Footprint]]:
        """The footprints of each run, its worktops among them, by its folded name."""
        found: dict[str, list[Footprint]] = {}
        for footprint in self.footprints:
            found.setdefault(fold(footprint.run), []).append(footprint)
        return found

    @cached_property
    def lacking(self) -> dict[str, tuple[Missing, ...]]:
        """What is missing for the things of each run that could not be placed."""
        found: dict[str, tuple[Missing, ...]] = {}
        for thing in self.unplaced:
            found[thing.run] = tuple(dict.fromkeys(found.get(thing.run, ()) + thing.missing))
        return found


def two_drawn(site: Site, one: Standing, other: Standing, label: str) -> list[Footprint] | Given:
    """The footprints of two things of runs, or what is missing for the first of them that is not drawn."""
    if not isinstance(site.plane, Plane):
        return site.plane
    found = []
    for thing in (one, other):
        footprint = site.plane.of.get(thing.item.pointer)
        if footprint is None:
            detail = f"the plan does not say where {thing.name} stands in the room"
            unplaced = Missing(thing.item.pointer, label, Why.UNCLEAR, detail=detail)
            return site.plane.lacking.get(thing.run) or unplaced
        found.append(footprint)
    return found


def plane_of(site: Site) -> Plane:
    """The rooms of a plan from above."""
    drawn = wall_lines(site.plan)
    found = [_wall(site.plan, line) for line in drawn.lines.values()]
    unplaced: list[Unplaced] = []
    pieces: dict[str, list[Piece]] = {}
    for name, parts in site.worktop_pieces.items():
        pieces.setdefault(fold(site.plan.worktops[name].on), []).extend(parts)
    for run in site.plan.runs:
        stand = _stand(site, run, drawn)
        if isinstance(stand, _Stand):
            found.extend(_worktop(site, run, stand, pieces.get(fold(run), [])))
        for placed in _things(site, run, stand):
            if isinstance(placed, Unplaced):
                unplaced.append(placed)
            else:
                found.append(placed)
    return Plane(drawn, found, unplaced)


def _wall(plan: Plan, line: WallLine) -> Footprint:
    """A wall as far out as it comes once it is tiled."""
    tiles = Sum().add(tiles_on(plan, line.name))
    subject = Subject(f"{line.name} wall", f"/walls/{line.name}", "", line.name)
    assumed = line.assumed + tiles.assumed
    return Footprint(
        subject, "", line, 0, line.length, -THICK, tiles.value, TALL, 0, (), tiles.missing, tiles.slack, assumed
    )


class _Stand(NamedTuple):
    """Where a run's things stand: the wall they are measured along, from where, and how far out an island's face is.

    An island's things come back along the wall from its right end, which lies `length` from `start`.
    """

    line: WallLine
    start: Sum
    face: Sum | None
    length: Sum

    @property
    def side(self) -> tuple[str, int]:
        return self.line.name, 1 if self.face is None else -1

    def along(self, left: Sum, right: Sum) -> tuple[float, float, float]:
        """From where to where along the wall a part of the run lies, and how far that may be off."""
        start, length = self.start, self.length
        if self.face is None:
            return start.value + left.value, start.value + right.value, start.slack + max(left.slack, right.slack)
        # What comes before a part shares its doubt with the whole, so that only the rest of it counts.
        slack = start.slack + max(abs(length.slack - left.slack), abs(length.slack - right.slack))
        end = start.value + length.value
        return end - right.value, end - left.value, slack


def _stand(site: Site, run: str, drawn: Drawn) -> _Stand | Unplaced:
    plan = site.plan
    written = plan.runs[run]
    pointer = written.pointer_to("against" if written.faces is None else "faces")
    wall = written.against if written.faces is None else written.faces
    wall = plan.walls.written(wall) if wall in plan.walls else wall
    line = drawn.lines.get(wall)
    if line is None:
        gap = Missing(pointer, f"wall of {run}", Why.UNCLEAR, detail=f"{wall} is no wall of a room")
        return Unplaced(run, "", ("", 0), TALL, drawn.undrawn.get(wall, (gap,)))
    if written.faces is None:
        return _Stand(line, Sum(), None, Sum())
    start, length, pointer = Sum(), Sum(), written.pointer_to("along")
    if written.along is None:
        start.add(Missing(pointer, f"place of {run}"))
    else:
        start.add(place_along(plan, line.name, written.along, pointer, run))
        if which_end(plan, line.name, written.along.from_) == "left":
            length = _length(site, run)
    face = _island_face(site, run, line)
    missing = start.missing + length.missing + face.missing
    if missing:
        return Unplaced(run, line.room, (line.name, -1), TALL, tuple(dict.fromkeys(missing)))
    return _Stand(line, start, face, length)


def _length(site: Site, run: str) -> Sum:
    """How far the last thing of a run reaches from its left end."""
    ends = [Sum().add(thing.right) for thing in site.setting_out.in_run(run)]
    for end in ends:
        if end.missing:
            return end
    return max(ends, key=lambda end: end.value, default=Sum())


def _island_face(site: Site, run: str, line: WallLine) -> Sum:
    """How far the fronts of an island are from the wall it faces: what stands there, and the aisle."""
    written = site.plan.runs[run]
    aisle = written.aisle
    label = f"aisle before the {run}"
    if aisle is None:
        return Sum().add(Missing(written.pointer_to("aisle"), label))
    out = Sum()
    if aisle.to is not None and aisle.to in site.plan.runs:
        other = site.plan.runs.written(aisle.to)
        if fold(site.plan.runs[other].against) != fold(line.name):
            detail = f"{other} does not stand against the {line.name} wall"
            return out.add(Missing(written.pointer_to("aisle"), label, Why.UNCLEAR, detail=detail))
        out = edge_of_run(site, other)
    return out.add(reading.read(aisle, "width", label))


def edge_of_run(site: Site, run: str) -> Sum:
    """How far the worktop of a run reaches out from its wall; without a depth of its own, as far as the fronts."""
    worktop = next((top for top in site.plan.worktops.values() if fold(top.on) == fold(run)), None)
    if worktop is not None and worktop.depth is not None:
        return Sum().add(reading.read(worktop, "depth", f"depth of the worktop on {run}"))
    return _fronts(site.setting_out.in_run(run))


def _fronts(things: list[Standing]) -> Sum:
    """How far the deepest unit of a run reaches out from its wall, as far as that is known."""
    units = [thing for thing in things if thing.item.family == "unit"]
    return _depth(max(units, key=lambda thing: _low(thing.item.depth))) if units else Sum()


def _depth(thing: Standing) -> Sum:
    """Void, unit and front of a unit."""
    return (
        Sum()
        .add(reading.read(thing.item, "void_behind", f"void behind {thing.name}"))
        .add(reading.read(thing.item, "depth", f"depth of {thing.name}"))
        .add(reading.read(thing.item, "front", f"thickness of the front of {thing.name}"))
    )


def _things(site: Site, run: str, stand: _Stand | Unplaced) -> Iterator[Footprint | Unplaced]:
    if isinstance(stand, Unplaced):
        yield stand
        return
    things = [thing for thing in site.setting_out.in_run(run) if thing.item.family != "gap"]
    units = [thing for thing in things if thing.item.family == "unit"]
    lowest = min((_low(thing.item.height) for thing in units if not site.levels.is_hung(thing)), default=0.0)
    beside = _fronts(units)
    for thing in things:
        layers = _layers(site, thing, lowest, bool(units) and all(site.levels.is_hung(unit) for unit in units))
        yield _footprint(site, thing, stand, layers, beside)


def _low(written: reading.Written) -> float:
    """A length of the plan at its lower end; 0 where it gives none."""
    return written.low if isinstance(written, Quantity) else 0.0


def _layers(site: Site, thing: Standing, lowest: float, hung: bool) -> int:
    """The layers a thing stands in: what is half as tall again as the lowest unit of its run stands in all."""
    if hung if thing.item.family != "unit" else site.levels.is_hung(thing):
        return HIGH
    height = _low(thing.item.height)
    if thing.item.family == "opening":
        appliance = site.plan.appliances.get(machine_in(site, thing))
        height = _low(appliance.body.h) if appliance is not None and appliance.body is not None else 0.0
    return TALL if lowest and height >= STANDS_BESIDE * lowest else LOW


def _footprint(site: Site, thing: Standing, stand: _Stand, layers: int, beside: Sum) -> Footprint | Unplaced:
    left, right = Sum().add(thing.left), Sum().add(thing.right)
    depth, no_face, handle = _out(site, thing, beside)
    missing = left.missing + right.missing + depth.missing
    if missing:
        return Unplaced(thing.run, stand.line.room, stand.side, layers, tuple(dict.fromkeys(missing)))
    start, end, slack = stand.along(left, right)
    slack += depth.slack + handle.slack
    face = depth.value
    back = 0.0
    if stand.face is not None:
        back, face = stand.face.value + depth.value, stand.face.value
        slack += stand.face.slack
    sums = (left, right, depth, handle, stand.start, stand.length, stand.face or Sum())
    return Footprint(
        thing.subject,
        thing.run,
        stand.line,
        start,
        end,
        back,
        face,
        layers,
        handle.value,
        handle.missing,
        no_face,
        slack,
        stand.line.assumed + tuple(one for part in sums for one in part.assumed),
        thing,
    )


def _out(site: Site, thing: Standing, beside: Sum) -> tuple[Sum, tuple[Missing, ...], Sum]:
    """How far a thing reaches out shut, what is not known of that, and its handle."""
    item, handle = thing.item, Sum()
    if item.family == "unit":
        depth = Sum().add(reading.read(item, "depth", f"depth of {thing.name}"))
        rest = Sum()
        rest.add(reading.read(item, "void_behind", f"void behind {thing.name}"))
        rest.add(reading.read(item, "front", f"thickness of the front of {thing.name}"))
        handle.add(handle_of(item.handle, item.pointer_to("handle"), thing.name))
        depth.value += rest.value
        depth.slack += rest.slack
        depth.assumed += rest.assumed
        return depth, rest.missing, handle if item.opens != "nothing" else Sum()
    depth = Sum()
    depth.value, depth.slack, depth.assumed = beside.value, beside.slack, beside.assumed
    if item.family != "opening":
        return depth, (), handle
    name = machine_in(site, thing)
    appliance = site.plan.appliances.get(name)
    pointer = f"{site.plan.appliances.pointer}/{name}"
    body = appliance.body.d if appliance is not None and appliance.body is not None else None
    machine = Sum().add(reading.quantity(body, f"{pointer}/body", f"depth of {name}"))
    if item.void_behind is not None:
        machine.add(reading.read(item, "void_behind", f"void behind {name}"))
    if machine.missing and not depth.value:
        depth.missing = machine.missing  # beside no unit nobody knows even roughly how deep it is
    if machine.value > depth.value:
        depth.value, depth.slack, depth.assumed = machine.value, machine.slack, machine.assumed
    written = appliance.handle if appliance is not None else item.handle
    handle.add(handle_of(written, f"{pointer}/handle" if appliance is None else appliance.pointer_to("handle"), name))
    return depth, machine.missing, handle


def handle_of(written: reading.Written, pointer: str, name: str) -> Given:
    """How far a handle stands out; 0 where the plan says that there is none."""
    found = reading.quantity(written, pointer, f"how far the handle of {name} stands out")
    if isinstance(found, Missing) and found.why is Why.NOTHING_STATED:
        return reading.exactly(0, pointer, f"handle of {name}", "it has none")
    return found


def _worktop(site: Site, run: str, stand: _Stand, pieces: list[Piece]) -> Iterator[Footprint]:
    """The edge of each piece of the worktops on a run."""
    fronts = _fronts(site.setting_out.in_run(run)) if pieces else Sum()
    for piece in pieces:
        left, right, depth = Sum().add(piece.start), Sum().add(piece.end), Sum().add(piece.depth)
        if left.missing or right.missing:
            continue
        out = depth if not depth.missing else fronts
        back, face = 0.0, out.value
        if stand.face is not None:
            back, face = stand.face.value + out.value, stand.face.value
        start, end, slack = stand.along(left, right)
        sums = (stand.start, stand.length, left, right, out)
        yield Footprint(
            piece.subject,
            run,
            stand.line,
            start,
            end,
            back,
            face,
            EDGE,
            0,
            (),
            tuple(dict.fromkeys(depth.missing + out.missing)),
            slack + out.slack,
            stand.line.assumed + tuple(one for part in sums for one in part.assumed),
        )
