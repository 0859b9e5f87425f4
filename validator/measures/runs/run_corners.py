"""Internal corners in which two runs meet: whether they leave each other room, and the posts that keep fronts apart.

At each corner of the room the things nearest to it count, one of the wall at its left and one of the wall at its right;
standing things meet standing ones, hung things hung ones.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.arithmetic import most, total
from validator.measures.room.walls import at_right, called_wall, difference, length_of, worked
from validator.measures.rows import NAME, YES_NO, Given, Known, LeftOut, Missing, Row, Rows, Subject, Why, figure, given
from validator.measures.runs.hinges import End, handle_on, hinged_at, machines_of, opens_of, own_front
from validator.measures.runs.of_kinds import of_kind
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.sections.appliances import Appliance
    from validator.plan.sections.furniture import Item

FAR = 600.0
"""Fronts further than this from the corner of the fronts pass nothing across it: no drawer runs out so far."""


class CornerOfRuns(Row, kind="corner of two runs"):
    """The things of two runs that come nearest to a corner. They are clear of each other where either ends before the
    other begins.
    """

    place: float = given(LENGTH, "from the corner to the one at the right")
    reach: tuple[float, ...] = given(LENGTH, "what the other takes there", many=True)
    other_place: float = given(LENGTH, "from the corner to the one at the left")
    other_reach: tuple[float, ...] = given(LENGTH, "what the first takes there", many=True)
    left: str = given(NAME, "the one at the left")
    right: str = given(NAME, "the one at the right")

    @figure(LENGTH, "clear", start="carcass of one", end="carcass of the other")
    def clear(self) -> float:
        return most(self.place - total(self.reach), self.other_place - total(self.other_reach))


class FrontAtCorner(Row, kind="front beside a corner"):
    """The first front of a run from a corner, and what stands out furthest across it: a front with its handle.

    `faces` are how far the fronts across the corner are from their wall, and an appliance that stands there.
    """

    place: float = given(LENGTH, "from the corner to this front")
    carcass: tuple[float, ...] = given(LENGTH, "carcass across the corner", many=True)
    front: float = given(LENGTH, "front across the corner")
    faces: tuple[float, ...] = given(LENGTH, "fronts across the corner", many=True)
    handle: float = given(LENGTH, "handle across the corner")
    across: str = given(NAME, "what stands across the corner")
    is_appliance: bool = given(YES_NO, "whether it is an appliance")
    meets_appliance: bool = given(YES_NO, "whether an appliance stands across the corner")
    drawers: bool = given(YES_NO, "whether drawers run out beside the corner")
    hinged_here: bool = given(YES_NO, "whether this front is hinged beside the corner")
    own_handle: float = given(LENGTH, "handle of this front")

    @figure(LENGTH, "post", start="carcass front across the corner", end="this front")
    def post(self) -> float:
        return self.place - total(self.carcass)

    @figure(LENGTH, "from the corner of the fronts", start="face of the fronts across the corner", end="this front")
    def from_fronts(self) -> float:
        return self.place - total(self.carcass) - self.front

    @figure(LENGTH, "reach across the corner", start="wall across the corner", end="what stands out furthest from it")
    def reach(self) -> float:
        return most(self.faces) + self.handle

    @figure(LENGTH, "clear", start="handles across the corner", end="this front")
    def clear(self) -> float:
        return self.place - self.reach


class _At(NamedTuple):
    """A thing that comes up to a corner, and how far from it its side is. `unit` gives the depths it has or shares."""

    thing: Standing
    side: Given
    unit: Item | None


class _Corner(NamedTuple):
    """A corner of the room by the wall at its left and the wall at its right, in the way the walls are listed."""

    left: str
    right: str

    @property
    def name(self) -> str:
        return f"{self.left}-{self.right} corner"


def _corners(site: Site) -> Iterator[_Corner]:
    for wall in site.plan.walls:
        beside = at_right(site.plan, wall)
        if beside is not None:
            yield _Corner(wall, beside)


def corners_of_runs(site: Site) -> Rows:
    """A row for each corner to which things come from both walls, standing ones and hung ones apart."""
    if site.plan.runs.left_out:
        return Rows(left_out=[LeftOut(CornerOfRuns.kind, Missing("/runs", "runs of units"))])
    by_wall = _by_wall(site)
    rows = Rows()
    for corner in _corners(site):
        for hung in (False, True):
            lefts, rights = (by_wall.get((fold(wall), hung), []) for wall in corner)
            left, right = _nearest("left", lefts), _nearest("right", rights)
            if left is not None and right is not None:
                both = _at(site, corner, "left", left, lefts), _at(site, corner, "right", right, rights)
                rows.rows.append(_meeting(corner, *both, hung=hung))
    return rows


def _by_wall(site: Site) -> dict[tuple[str, bool], list[Standing]]:
    """Units and appliances by their wall and whether they hang, with the units of each run in its order."""
    found: dict[tuple[str, bool], list[Standing]] = {}
    for thing in site.setting_out.things():
        if thing.item.family in ("unit", "opening"):
            found.setdefault((fold(thing.wall), site.levels.is_hung(thing)), []).append(thing)
    return found


def _nearest(at: str, things: list[Standing]) -> Standing | None:
    """The thing nearest to a corner that has its wall at the left or at the right; one without a place comes first."""

    def distance(thing: Standing) -> float:
        side = thing.right if at == "left" else thing.left
        if not isinstance(side, Known):
            return float("-inf")
        return -float(side.value) if at == "left" else float(side.value)

    return min(things, key=distance, default=None)


def _at(site: Site, corner: _Corner, at: str, thing: Standing, things: list[Standing]) -> _At:
    """A thing of the wall at the left or at the right of a corner, and how far its side is from the corner."""
    side: Given = thing.left
    if at == "left":
        label = f"from the {corner.right} wall to {thing.name}"
        side = difference(length_of(site.plan, corner.left), thing.right, thing.subject, label)
    own = thing.item if thing.item.family == "unit" else None
    if own is None:
        place = things.index(thing)
        units = [n for n, each in enumerate(things) if each.item.family == "unit" and each.run == thing.run]
        own = things[min(units, key=lambda number: abs(number - place))].item if units else None
    return _At(thing, side, own)


def _meeting(corner: _Corner, left: _At, right: _At, *, hung: bool) -> Row:
    subject = Subject(f"{corner.name}, wall units" if hung else corner.name, right.thing.item.pointer)
    return CornerOfRuns(
        subject._replace(wall=right.thing.wall, along=right.thing.subject.along),
        place=right.side,
        reach=_taken(left, hung=hung),
        other_place=left.side,
        other_reach=_taken(right, hung=hung),
        left=reading.exactly(left.thing.name, left.thing.item.pointer, "the one at the left"),
        right=reading.exactly(right.thing.name, right.thing.item.pointer, "the one at the right"),
    )


def _taken(at: _At, *, hung: bool) -> Given:
    """What a thing takes of the other wall of its corner: its other leg, or void and depth of its carcass."""
    item = at.thing.item
    if item.other_side is not None:
        return reading.parts([reading.read(item, "other_side", f"other side of {at.thing.name}")])
    return _carcass(at, hung=hung)


def _carcass(at: _At, *, hung: bool = False) -> Given:
    if at.unit is None:
        detail = f"no unit stands in {at.thing.run}"
        return Missing(at.thing.item.pointer, f"depth of {at.thing.run}", Why.UNCLEAR, detail=detail)
    fields = [("depth", "depth")] if hung else [("void_behind", "void behind"), ("depth", "depth")]
    return reading.parts([of_kind(at.unit, field, f"{label} of {at.thing.run}") for field, label in fields])


def fronts_at_corners(site: Site) -> Rows:
    """Two rows for each corner in which fronts of two standing runs meet: each front, with what stands across from it.

    A corner unit of two legs turns the corner itself and needs no posts.
    """
    if site.plan.runs.left_out:
        return Rows(left_out=[LeftOut(FrontAtCorner.kind, Missing("/runs", "runs of units"))])
    by_wall, machines = _by_wall(site), machines_of(site)
    rows = Rows()
    for corner in _corners(site):
        left = _first_front(site, corner, "left", by_wall.get((fold(corner.left), False), []), machines)
        right = _first_front(site, corner, "right", by_wall.get((fold(corner.right), False), []), machines)
        if left is None or right is None or left.at.thing.item.other_side or right.at.thing.item.other_side:
            continue
        pair = [_front(site, corner, left, right, "right"), _front(site, corner, right, left, "left")]
        if all(_is_near(row) for row in pair):
            rows.rows += pair
    return rows


class _Front(NamedTuple):
    """A thing with a front that opens, and the appliance whose front it is, if it is one's."""

    at: _At
    machine: str
    appliance: Appliance | None


def _first_front(
    site: Site, corner: _Corner, at: str, things: list[Standing], machines: dict[tuple[str, str], str]
) -> _Front | None:
    """The front of a wall that is nearest to a corner."""
    having = [thing for thing in things if thing.item.opens != "nothing" or (thing.run, thing.name) in machines]
    thing = _nearest(at, having)
    if thing is None:
        return None
    name = own_front(thing, machines)
    appliance = site.plan.appliances.get(name) if name else None
    return _Front(_at(site, corner, at, thing, things), name, appliance)


def _is_near(row: Row) -> bool:
    """Whether a front comes up to the corner, as far as anybody knows."""
    place, carcass = row.known.get("place"), row.known.get("carcass")
    return place is None or carcass is None or float(place.value) - sum(carcass.value) < FAR


def _front(site: Site, corner: _Corner, own: _Front, other: _Front, side: End) -> Row:
    """The row of one front; `side` is its end at the corner, as one faces it."""
    thing = own.at.thing
    carcass = _carcass(other.at)
    unit = other.at.unit
    no_unit = Missing(other.at.thing.item.pointer, f"front of {other.at.thing.run}", Why.UNCLEAR)
    front = no_unit if unit is None else of_kind(unit, "front", "front")
    faces = [worked(_Face(thing.subject, carcass=carcass, front=front), "face", f"fronts of {other.at.thing.run}")]
    if other.machine and other.at.thing.item.family == "opening":
        size = other.appliance.body if other.appliance is not None else None
        pointer = f"{site.plan.appliances.pointer}/{other.machine}/body"
        faces.append(reading.quantity(size.d if size else None, pointer, f"depth of the {other.machine}"))
    across = other.machine or other.at.thing.name
    return FrontAtCorner(
        thing.subject._replace(context=f"{called_wall(site.plan, thing.wall)}, {corner.name}"),
        place=_place(own.at, carcass),
        carcass=carcass,
        front=front,
        faces=reading.parts(faces),
        handle=handle_on(site, other.at.thing.item, other.machine),
        across=reading.exactly(across, other.at.thing.item.pointer, "what stands across the corner"),
        is_appliance=reading.exactly(bool(own.machine), thing.item.pointer, "whether it is an appliance"),
        meets_appliance=reading.exactly(bool(other.machine), thing.item.pointer, "whether an appliance stands across"),
        drawers=_drawers(own, other),
        hinged_here=hinged_at(site, thing, own.machine, side),
        own_handle=handle_on(site, thing.item, own.machine),
    )


def _place(at: _At, across: Given) -> Given:
    """How far from the corner a front starts: past the blind part and the post of its own that a corner unit has."""
    item, name = at.thing.item, at.thing.name
    reach = sum(across.value) if isinstance(across, Known) else 0.0
    behind = isinstance(at.side, Known) and float(at.side.value) < reach
    parts = [at.side]
    if behind or item.blind is not None:
        parts.append(of_kind(item, "blind", f"blind part of {name}" if item.blind is not None else "blind part"))
    if item.post is not None:
        parts.append(of_kind(item, "post", f"post of {name}"))
    if len(parts) == 1:
        return at.side
    return worked(_FrontOfUnit(at.thing.subject, parts=reading.parts(parts)), "start", f"front of {name}")


class _Face(Row, kind="fronts across a corner"):
    """How far fronts stand out from their wall."""

    carcass: tuple[float, ...] = given(LENGTH, "void and carcass", many=True)
    front: float = given(LENGTH, "front")

    @figure(LENGTH, "fronts", start="wall", end="face of the fronts")
    def face(self) -> float:
        return total(self.carcass) + self.front


class _FrontOfUnit(Row, kind="front of a corner unit"):
    """Where the front of a corner unit starts, from the corner."""

    parts: tuple[float, ...] = given(LENGTH, "what lies before it", many=True)

    @figure(LENGTH, "start of its front", start="corner", end="front")
    def start(self) -> float:
        return total(self.parts)


def _drawers(own: _Front, other: _Front) -> Given:
    pointer = own.at.thing.item.pointer
    items = [front.at.thing.item for front in (own, other) if not front.machine]
    for item in items:
        opens = opens_of(item)
        if not isinstance(opens, Known):
            return opens
    return reading.exactly(any(item.opens in ("drawers", "pull-out") for item in items), pointer, "drawers")
