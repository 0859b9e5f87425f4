"""Sloping ceilings: how high the ceiling is at a place, and whether a person can stand at the sink and at the hob."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import HOBS, kind_of, place_of
from validator.measures.arithmetic import least, root, total
from validator.measures.looking_up import looked_up
from validator.measures.room.walls import FromRightEnd, at_left, length_of, which_end, worked
from validator.measures.rows import Given, Known, Missing, Row, Rows, Subject, Why, figure, gaps_of, given
from validator.measures.tracing import derived
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from collections.abc import Mapping

    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.rooms import Room
    from validator.plan.sections.room import Slope


class PlaceToStand(Row, kind="place to stand"):
    """Where a person stands at a sink or a hob, under a ceiling that rises from a wall."""

    from_wall: float = given(LENGTH, "from the wall")
    low: float = given(LENGTH, "ceiling at that wall")
    flat: float = given(LENGTH, "flat ceiling")
    sloping_length: float = given(LENGTH, "along the slope")
    finished_floor: float = given(LENGTH, "floor")

    @figure(LENGTH, "how far the slope reaches into the room", start="wall", end="flat ceiling")
    def reach(self) -> float:
        rise = self.flat - self.low
        return root(self.sloping_length * self.sloping_length - rise * rise)

    @figure(LENGTH, "ceiling there", start="bare floor", end="ceiling")
    def ceiling(self) -> float:
        return least(self.flat, self.low + (self.flat - self.low) * (self.from_wall / self.reach))

    @figure(LENGTH, "headroom", start="finished floor", end="ceiling")
    def headroom(self) -> float:
        return self.ceiling - self.finished_floor


class CeilingAt(Row, kind="ceiling over a place on a wall"):
    """The ceiling over a place on a wall that meets the low wall of a slope."""

    from_wall: float = given(LENGTH, "from the low wall")
    low: float = given(LENGTH, "ceiling at that wall")
    flat: float = given(LENGTH, "flat ceiling")
    reach: float = given(LENGTH, "how far the slope reaches into the room")

    @figure(LENGTH, "ceiling", start="bare floor", end="ceiling")
    def ceiling(self) -> float:
        return least(self.flat, self.low + (self.flat - self.low) * (self.from_wall / self.reach))


def ceiling_at(site: Site, wall: str, along: Given) -> Given:
    """The ceiling above the bare floor at a place of a wall: flat, or under the slope that comes down nearest to it."""
    levels = site.levels.at(wall)
    flat = levels.ceiling
    found = [flat, *(_under(site, wall, along, low, slope, flat) for low, slope in _slopes(levels.room).items())]
    known = [height for height in found if isinstance(height, Known)]
    if len(known) < len(found):
        return next(height for height in found if not isinstance(height, Known))
    return min(known, key=lambda height: height.low or 0.0)


def _slopes(room: Room) -> Mapping[str, Slope]:
    """The slopes of a room's ceiling, by the wall from which each rises, as the plan calls it."""
    slopes = room.ceiling.slopes if room.ceiling is not None else None
    return {room.walls.written(wall) if wall in room.walls else wall: slope for wall, slope in (slopes or {}).items()}


def _under(site: Site, wall: str, along: Given, low_wall: str, slope: Slope, flat: Given) -> Given:
    """The ceiling at a place of a wall under one slope; the flat ceiling where the slope does not reach that wall."""
    pointer = slope.pointer_to("from")
    if fold(wall) == fold(low_wall):
        return site.levels.at(wall).above_bare_floor(slope.from_, pointer, f"ceiling at the {low_wall} wall", None)
    end = which_end(site.plan, wall, low_wall)
    if not end:
        return flat
    subject = Subject(f"{wall} wall", pointer, f"{wall} wall", wall)
    from_wall = along
    if end == "right":
        row = FromRightEnd(subject, wall=length_of(site.plan, wall), amount=along)
        from_wall = worked(row, "place", "from the low wall")
    return _sloping(site, subject, from_wall, low_wall, slope, flat)


def _sloping(site: Site, subject: Subject, from_wall: Given, low_wall: str, slope: Slope, flat: Given) -> Given:
    """The ceiling so far from the low wall of a slope; a flat one, where the slope has ended before."""
    room, pointer = site.levels.at(low_wall), slope.pointer_to("from")
    low = room.above_bare_floor(slope.from_, pointer, f"ceiling at the {low_wall} wall", None)
    tape = PlaceToStand(subject, low=low, flat=flat, sloping_length=_along(slope, low, flat))
    reach = gaps_of(*tape.missing.values()) or derived(tape, "reach")
    return worked(CeilingAt(subject, from_wall=from_wall, low=low, flat=flat, reach=reach), "ceiling", "ceiling")


def ceiling_before(site: Site, thing: Standing) -> list[Given]:
    """The ceiling over the front of a unit, under each slope that comes down on the far side of the room.

    Such a slope meets no end of the unit's wall, and lies the lower the further the unit reaches into the room.
    """
    plan, room = site.plan, site.levels.at(thing.wall)
    found = []
    for low_wall, slope in _slopes(room.room).items():
        across = at_left(plan, thing.wall)
        meets = across is not None and fold(at_left(plan, across) or "") == fold(low_wall)
        if across is None or not meets or fold(low_wall) == fold(thing.wall):
            continue
        subject, item = thing.subject, thing.item
        there = ["depth", *(field for field in ("front", "void_behind") if getattr(item, field) is not None)]
        out = [reading.read(item, field, field.replace("_", " ")) for field in there]
        reach = worked(InFrontOf(subject, parts=reading.parts(out)), "middle", f"{thing.name} into the room")
        row = FromRightEnd(subject, wall=length_of(plan, across), amount=reach)
        found.append(_sloping(site, subject, worked(row, "place", "from the low wall"), low_wall, slope, room.ceiling))
    return found


def _along(slope: Slope, low: Given, flat: Given) -> Given:
    """The tape along the slope; not known where it is shorter than the slope rises."""
    along = reading.read(slope, "sloping_length", "along the slope")
    if _rise(low, flat) > _most(along):
        detail = "a slope is longer than it rises"
        return Missing(slope.pointer_to("sloping_length"), "along the slope", Why.UNCLEAR, detail=detail)
    return along


def places_to_stand(site: Site) -> Rows:
    """A row for each sink and hob, and each slope of the ceiling on its own wall or on one that meets it."""
    plan = site.plan
    rows = Rows()
    if not any(_slopes(room) for room in plan.rooms.values()):
        return rows
    for name, appliance in plan.appliances.items():
        if kind_of(name, appliance) in (*HOBS, "sink"):
            its_own = plan.room_of(place_of(site, name).on)
            for room in [its_own] if its_own is not None else plan.rooms.values():
                rows.rows += [row for wall, slope in _slopes(room).items() if (row := _place(site, name, wall, slope))]
    return rows


def _place(site: Site, name: str, wall: str, slope: Slope) -> Row | None:
    at = place_of(site, name)
    levels = site.levels.at(at.on)
    if at.on and fold(at.on) != fold(wall) and not which_end(site.plan, at.on, wall):
        return None
    low = levels.above_bare_floor(slope.from_, slope.pointer_to("from"), f"ceiling at the {wall} wall", None)
    flat = levels.ceiling
    return PlaceToStand(
        Subject(name, at.appliance.pointer, f"under the slope over the {wall} wall", at.on),
        from_wall=_from_wall(site, name, wall),
        low=low,
        flat=flat,
        sloping_length=_along(slope, low, flat),
        finished_floor=levels.finished_floor,
    )


def _rise(low: Given, flat: Given) -> float:
    """How far a slope rises at most; 0 where nobody knows."""
    if not isinstance(low, Known) or not isinstance(flat, Known):
        return 0.0
    return float(flat.high or 0.0) - float(low.low or 0.0)


def _most(along: Given) -> float:
    return float(along.low or 0.0) if isinstance(along, Known) else float("inf")


def _from_wall(site: Site, name: str, wall: str) -> Given:
    """How far somebody who stands at the appliance is from the wall under the slope."""
    at = place_of(site, name)
    if not isinstance(at.middle, Known) or not at.on:
        return at.middle
    if fold(at.on) == fold(wall):
        detail = "how far the fronts stand out from that wall"
        item = at.standing.item if at.standing is not None else None
        if item is None:
            return Missing(at.appliance.pointer, detail, Why.UNCLEAR)
        out = [reading.read(item, field, field.replace("_", " ")) for field in ("void_behind", "depth", "front")]
        standing = {"thing": "fronts to the middle of somebody at them"}
        out.append(looked_up(site, "usual-sizes", "size", standing, item.pointer, "half a person"))
        row = InFrontOf(Subject(name, item.pointer), parts=reading.parts(out))
        return worked(row, "middle", "from the wall")
    if which_end(site.plan, at.on, wall) == "left":
        return at.middle
    subject = Subject(name, at.appliance.pointer, at.on)
    return worked(FromRightEnd(subject, wall=length_of(site.plan, at.on), amount=at.middle), "place", "from the wall")


class InFrontOf(Row, kind="somebody who stands at a run"):
    """The middle of somebody who stands before the fronts of a run."""

    parts: tuple[float, ...] = given(LENGTH, "units", many=True)

    @figure(LENGTH, "middle of a person", start="wall", end="middle of a person")
    def middle(self) -> float:
        return total(self.parts)
