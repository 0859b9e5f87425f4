"""Studs and noggins as found: what a hung unit can be screwed to."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.looking_up import looked_up
from validator.measures.room.walls import apart, half_of, length_of
from validator.measures.rows import Given, Known, Missing, Row, Rows, Subject, Why, figure, gaps_of, given
from validator.plan.dimensions import LENGTH, NUMBER
from validator.plan.names import fold
from validator.plan.sections.drilling import DrillHole

if TYPE_CHECKING:
    from validator.measures.drilling.holes import Hole
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.sections.room import Noggin, Studs
    from validator.plan.sections.work import Fixing


class UnitOnStuds(Row, kind="hung unit on studs"):
    """A hung unit on a stud wall, with the studs whose middle lies behind its back, clear of its sides."""

    studs_behind: float = given(NUMBER, "studs behind it")
    width: float = given(LENGTH, "width")


class HangerInNoggin(Row, kind="hanger in a noggin"):
    """A hanger's hole on a wall with noggins, and the noggin nearest to its height."""

    aside: float = given(LENGTH, "hole from the middle of the noggin")
    half: float = given(LENGTH, "half the noggin")

    @figure(LENGTH, "inside the noggin", start="edge of the noggin", end="middle of the hole")
    def inside(self) -> float:
        return self.half - self.aside


def units_on_studs(site: Site) -> Rows:
    """A row for each hung unit on a wall whose studs the plan gives.

    Where noggins are let in, those carry it, unless its fixing is said to go into the studs.
    """
    rows = Rows()
    for thing in site.setting_out.things():
        wall = site.plan.walls.get(thing.wall)
        if wall is None or thing.item.family != "unit":
            continue
        if site.records.noggins(thing.wall, wall.noggins) and not _held_by_studs(site, thing):
            continue
        studs = site.records.studs(thing.wall, wall.studs)
        if studs is not None and site.levels.is_hung(thing):
            rows.rows.append(_on_studs(site, thing, studs))
    return rows


def _held_by_studs(site: Site, thing: Standing) -> bool:
    names = {row.subject.name for row in site.fixings.of.get(thing.item.pointer, ())}
    return any(_into_studs(site.plan.fixings[name]) for name in names)


def _into_studs(fixing: Fixing) -> bool:
    return isinstance(fixing.into, str) and fold(fixing.into).removesuffix("s").endswith("stud")


def _on_studs(site: Site, thing: Standing, studs: Studs) -> Row:
    return UnitOnStuds(
        thing.subject,
        studs_behind=_behind(site, thing, studs),
        width=reading.read(thing.item, "width", f"width of {thing.name}"),
    )


def _behind(site: Site, thing: Standing, studs: Studs) -> Given:
    """How many studs a unit surely catches, wherever it comes to stand between its ranges."""
    places = stud_places(site, thing.wall, studs)
    if not isinstance(places, list):
        return places
    label = "side of a cabinet"
    side = looked_up(site, "usual-sizes", "size", {"thing": label}, thing.item.pointer, label)
    gaps = gaps_of(thing.left, thing.right, side)
    if gaps:
        return gaps
    assert isinstance(thing.left, Known)
    assert isinstance(thing.right, Known)
    assert isinstance(side, Known)
    left, right = float(thing.left.high or 0.0) + side.value, float(thing.right.low or 0.0) - side.value
    if studs.found is not None and right > _found_up_to(studs, places):
        detail = "they have been looked for only up to the last one found"
        return Missing(studs.pointer_to("found"), f"studs of the {thing.wall} wall", Why.UNCLEAR, detail=detail)
    count = float(sum(left <= (place.low or 0.0) and (place.high or 0.0) <= right for place in places))
    assumed = thing.left.assumed or thing.right.assumed or any(place.assumed for place in places)
    return Known(count, studs.pointer, "", "studs behind it", low=count, high=count, assumed=assumed)


def _found_up_to(studs: Studs, places: list[Known]) -> float:
    """How far the studs were looked for: up to where the next after the last would be."""
    every = reading.read(studs, "every", "distance between the studs")
    last = max((float(place.low or 0.0) for place in places), default=0.0)
    return last + (float(every.low or 0.0) if isinstance(every, Known) else 0.0)


def stud_places(site: Site, wall: str, studs: Studs) -> list[Known] | tuple[Missing, ...]:
    """The middles of the studs from the left end of the wall with their ranges, or what has to be found out."""
    label = f"studs of the {wall} wall"
    if studs.found is not None:
        read = [reading.quantity(place, studs.pointer_to("found"), label) for place in studs.found]
        return gaps_of(*read) or [place for place in read if isinstance(place, Known)]
    first = reading.read(studs, "first", f"first of the {label}")
    every = reading.read(studs, "every", f"distance between the {label}")
    length = length_of(site.plan, wall)
    gaps = gaps_of(first, every, length)
    if isinstance(every, Known) and every.value <= 0:
        gaps += (Missing(studs.pointer_to("every"), label, Why.UNCLEAR, detail="studs cannot be 0 apart"),)
    if gaps or not (isinstance(first, Known) and isinstance(every, Known) and isinstance(length, Known)):
        return gaps
    count = max(0, math.floor((float(length.value) - float(first.value)) / float(every.value)) + 1)
    return [_stud(first, every, number, studs) for number in range(min(count, 1000))]


def _stud(first: Known, every: Known, number: int, studs: Studs) -> Known:
    """The middle of a stud so many steps from the first, where those are and may be."""
    value, low, high = (
        float(start or 0.0) + number * float(step or 0.0)
        for start, step in ((first.value, every.value), (first.low, every.low), (first.high, every.high))
    )
    assumed = first.assumed or every.assumed
    return Known(value, studs.pointer, "", "stud", low=low, high=high, assumed=assumed)


def hangers_in_noggins(site: Site) -> Rows:
    """A row for each hole of a fixing on a wall that has noggins, where it does not go into the studs between them."""
    rows = Rows()
    for hole in site.holes.all:
        wall = site.plan.walls.get(hole.wall)
        noggins = site.records.noggins(hole.wall, wall.noggins) if wall is not None else None
        if noggins and _may_meet_noggins(hole):
            found = [_in_noggin(site, hole.subject, hole.up, noggin) for noggin in noggins]
            rows.rows.append(min(found, key=_aside))
    return rows


def _may_meet_noggins(hole: Hole) -> bool:
    """Whether a hole is for what hangs, and nobody said that it goes into a stud; a hole given outright is for else."""
    if isinstance(hole.made_for, DrillHole):
        return False
    return hole.made_for is None or not _into_studs(hole.made_for)


def _aside(row: HangerInNoggin) -> float:
    return float(row.known["aside"].value) if "aside" in row.known else 0.0


def _in_noggin(site: Site, subject: Subject, up: Given, noggin: Noggin) -> HangerInNoggin:
    pointer = noggin.pointer_to("up")
    middle = site.levels.at(subject.wall).above_bare_floor(noggin.up, pointer, "noggin", None)
    face = reading.quantity(noggin.size.w if noggin.size else None, noggin.pointer_to("size"), "face of the noggin")
    return HangerInNoggin(
        subject,
        aside=apart(up, middle, subject, "from the middle of the noggin to the hole"),
        half=half_of(face, subject, "half the noggin"),
    )
