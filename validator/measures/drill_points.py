"""Drill points, derived from hangers, and the strips in which cables may run.

The strips are as wide as a plate, upright and level from every point whose cable may lie in the wall. For each hole the
strip counts that is most dangerous to it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.point_places import PlacedPoint
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
    Words,
    figure,
    given,
)
from validator.measures.slopes import ceiling_at
from validator.measures.walls import apart, difference, length_of, named_gap, worked
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.sections.work import Fixing

WAYS = {
    "straight up": ("up",),
    "straight down": ("down",),
    "from left": ("left",),
    "from right": ("right",),
    "on the surface": (),
}
ALL_THAT_HANGS = ("", "")
ALL_WAYS = ("up", "down", "left", "right")


class HangerPlace(Row, kind="hanger of a wall unit"):
    """Where a hanger sits on the wall, from the place of its unit."""

    side: float = given(LENGTH, "side of the unit")
    inward: float = given(LENGTH, "in from its side")
    top: float = given(LENGTH, "top of the unit")
    down: float = given(LENGTH, "down from its top")

    @figure(LENGTH, "hole along the wall", start="left end of the wall", end="middle of the hole")
    def right_of_side(self) -> float:
        return self.side + self.inward

    @figure(LENGTH, "hole along the wall", start="left end of the wall", end="middle of the hole")
    def left_of_side(self) -> float:
        return self.side - self.inward

    @figure(LENGTH, "hole above the bare floor", start="bare floor at the high spot", end="middle of the hole")
    def up(self) -> float:
        return self.top - self.down


class DrillPoint(Row, kind="drill point"):
    """One hole in a wall with the strip nearest to it that a cable may run in.

    The strip runs upright or level from a point, as wide as its plate; all four ways where the plan does not say which
    way the cable goes. `aside` is from the middle of the strip to the middle of the hole, across the strip. `has_strip`
    is whether any cable may run there at all: where none may, the fields of the strip are not there, so a rule about
    the strip asks for it in its `when`.
    """

    along: float = given(LENGTH, "hole along the wall")
    up: float = given(LENGTH, "hole above the bare floor")
    has_strip: bool = given(YES_NO, "whether a cable may run near it")
    aside: float = given(LENGTH, "hole from the middle of the strip")
    half_strip: float = given(LENGTH, "half the plate")
    strip_of: str = given(NAME, "point whose cable may run there")
    runs: str = given(Words(("upright", "level")), "how the strip runs")
    ceiling: float = given(LENGTH, "ceiling above the bare floor")
    to_corner: float = given(LENGTH, "nearer end of the wall")

    @figure(LENGTH, "clear of the strip", start="edge of the strip", end="middle of the hole")
    def clear_of_strip(self) -> float:
        return self.aside - self.half_strip

    @figure(LENGTH, "below the ceiling", start="top of the wall", end="middle of the hole")
    def below_ceiling(self) -> float:
        return self.ceiling - self.up


class Hole(NamedTuple):
    """A hole to be drilled: its middle along the wall and up from the bare floor."""

    subject: Subject
    wall: str
    along: Given
    up: Given


@dataclass(frozen=True)
class Strip:
    """A strip in which a cable may run, as one hole sees it: the places of both across it, and half its width.

    `gaps` is what leaves open whether the strip passes the hole at all.
    """

    of: str
    runs: str
    hole: Hole
    here: Given
    there: Given
    half: Given
    gaps: tuple[Missing, ...] = ()

    @cached_property
    def aside(self) -> Given:
        """From the middle of the strip to the middle of the hole."""
        return apart(self.here, self.there, self.hole.subject, f"from {self.of} to the hole")

    @property
    def at_least_clear(self) -> float:
        """A quick bound of what is clear: its ends taken apart from one another. Where nobody knows, 0."""
        here, there = _ends(self.here), _ends(self.there)
        if here is None or there is None or not isinstance(self.half, Known):
            return 0.0
        return max(here[0] - there[1], there[0] - here[1], 0.0) - float(self.half.high or 0.0)

    @property
    def clear(self) -> float:
        """What is clear at the worse end: less than 0 where the hole lies in the strip. Where nobody knows, 0."""
        if not isinstance(self.aside, Known) or not isinstance(self.half, Known):
            return 0.0
        return float(self.aside.low or 0.0) - float(self.half.high or 0.0)


def drill_points(site: Site) -> Rows:
    """Two rows for each hung unit that is fixed at its hangers, or of which the plan says no other way."""
    if site.plan.runs.left_out:
        return Rows(left_out=[LeftOut(DrillPoint.kind, Missing("/runs", "runs of units"))])
    rows = Rows()
    holding = _holding(site)
    for thing in site.setting_out.things():
        if thing.item.family == "unit" and site.levels.is_hung(thing) and _at_hangers(holding, thing):
            rows.rows += [_row(site, hole) for hole in _holes(site, thing)]
    return rows


def _holding(site: Site) -> dict[object, list[Fixing]]:
    """The fixings by what their `for` means: a run (its folded name), a unit (its run and name), or all that hangs."""
    found: dict[object, list[Fixing]] = {}
    for fixing in site.plan.fixings.values():
        for name in fixing.for_:
            unit = ALL_THAT_HANGS if fold(name) == "wall units" else site.plan.unit(name)
            found.setdefault(fold(name) if name in site.plan.runs else unit, []).append(fixing)
    return found


def _at_hangers(holding: Mapping[object, list[Fixing]], thing: Standing) -> bool:
    meant = (fold(thing.run), (thing.run, thing.name), ALL_THAT_HANGS)
    fixings = [fixing for each in meant for fixing in holding.get(each, ())]
    return not fixings or any(fixing.at == "hangers" for fixing in fixings)


def _holes(site: Site, thing: Standing) -> list[Hole]:
    item, hangers = thing.item, thing.item.hangers
    pointer = item.pointer_to("hangers")
    down, inward = f"how far down the hangers of {thing.name} sit", f"how far in the hangers of {thing.name} sit"
    values: dict[str, Given] = {"top": site.levels.top_of(thing), "down": Missing(f"{pointer}/down", down)}
    values["inward"] = Missing(f"{pointer}/in", inward)
    if hangers is not None:
        values["down"] = named_gap(reading.read(hangers, "down", "down from its top"), down)
        values["inward"] = named_gap(reading.read(hangers, "in_", "in from its side"), inward)
    found = []
    for side, place, figure_ in (("left", thing.left, "right_of_side"), ("right", thing.right, "left_of_side")):
        subject = Subject(f"{thing.name} {side} hanger", item.pointer, f"{thing.wall} wall", thing.wall)
        across = HangerPlace(subject, side=place, inward=values["inward"])
        upward = HangerPlace(subject, top=values["top"], down=values["down"])
        along = worked(across, figure_, "hole along the wall")
        span = (float(along.value), float(along.value)) if isinstance(along, Known) else None
        subject = Subject(subject.name, subject.pointer, subject.context, subject.wall, span)
        found.append(Hole(subject, thing.wall, along, worked(upward, "up", "hole above the bare floor")))
    return found


def _row(site: Site, hole: Hole) -> DrillPoint:
    return DrillPoint(
        hole.subject,
        along=hole.along,
        up=hole.up,
        ceiling=ceiling_at(site, hole.wall, hole.along),
        to_corner=_to_corner(site, hole),
        **_nearest_strip(site, hole),
    )


def _to_corner(site: Site, hole: Hole) -> Given:
    """From the hole to the nearer end of its wall."""
    wall = length_of(site.plan, hole.wall)
    to_right = difference(wall, hole.along, hole.subject, "to the right end of the wall")
    if not isinstance(hole.along, Known) or not isinstance(to_right, Known):
        return to_right
    return to_right if to_right.value < hole.along.value else hole.along


def _nearest_strip(site: Site, hole: Hole) -> dict[str, Given]:
    """The fields of the strip most dangerous to a hole; nobody knows of strips while the plan leaves out its points."""
    label = "whether a cable may run near it"
    points = site.plan.points
    if points.left_out:
        missing = Missing(points.pointer, "sockets, switches and connection units")
        fields = ("has_strip", "aside", "half_strip", "strip_of", "runs")
        return dict.fromkeys(fields, missing)
    placed = site.points.by_wall.get(fold(hole.wall), []) + site.points.by_wall.get("", [])
    strips = [strip for point in placed for strip in _strips(site, point, hole)]
    if not strips:
        return {"has_strip": reading.exactly(False, points.pointer, label)}
    nearest = _most_dangerous(strips)
    pointer = points[nearest.of].pointer
    return {
        "has_strip": nearest.gaps or reading.exactly(True, pointer, label),
        "aside": nearest.gaps or nearest.aside,
        "half_strip": nearest.half,
        "strip_of": reading.exactly(nearest.of, pointer, "point whose cable may run there"),
        "runs": reading.exactly(nearest.runs, pointer, "how the strip runs"),
    }


def _most_dangerous(strips: list[Strip]) -> Strip:
    """The strip that leaves least clear; those that cannot be nearer than one already found are not worked out."""
    bounds = sorted(((strip.at_least_clear, number) for number, strip in enumerate(strips)))
    nearest = strips[bounds[0][1]]
    for bound, number in bounds[1:]:
        if bound >= nearest.clear:
            break
        if strips[number].clear < nearest.clear:
            nearest = strips[number]
    return nearest


def _strips(site: Site, placed: PlacedPoint, hole: Hole) -> list[Strip]:
    """The strips of one point that reach the hole, or of which nobody knows whether they do."""
    cable = placed.point.cable
    ways = WAYS.get(cable, ALL_WAYS) if isinstance(cable, str) else ALL_WAYS
    if not ways:
        return []
    up = site.points.height(placed.name)
    half_width, half_height = site.points.half_plate(placed.name, "w"), site.points.half_plate(placed.name, "h")
    found: list[Strip] = []
    reach, gaps = _reaches(ways, ("up", "down"), hole.up, up, half_height)
    if reach:
        found.append(Strip(placed.name, "upright", hole, hole.along, placed.along, half_width, gaps))
    reach, gaps = _reaches(ways, ("right", "left"), hole.along, placed.along, half_width)
    if reach:
        found.append(Strip(placed.name, "level", hole, hole.up, up, half_height, gaps))
    return found


def _reaches(
    ways: tuple[str, ...], both: tuple[str, str], hole: Given, point: Given, half: Given
) -> tuple[bool, tuple[Missing, ...]]:
    """Whether a strip passes a hole, and what leaves that open. It starts at the edge of the plate; doubt counts as
    passing."""
    onward, back = (way in ways for way in both)
    if onward == back:
        return onward, ()
    at, start = _ends(hole), _ends(point)
    if at is None or start is None:
        return True, _gaps(hole) + _gaps(point)
    plate = float(half.high or 0.0) if isinstance(half, Known) else 0.0
    return (at[1] >= start[0] - plate if onward else at[0] <= start[1] + plate), ()


def _ends(value: Given) -> tuple[float, float] | None:
    if not isinstance(value, Known) or value.low is None or value.high is None:
        return None
    return value.low, value.high


def _gaps(value: Given) -> tuple[Missing, ...]:
    if isinstance(value, Known):
        return ()
    return (value,) if isinstance(value, Missing) else value
