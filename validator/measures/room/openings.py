"""Doors and windows: what stands or hangs across them, and sills over worktops."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.appliances.appliance_places import kind_of, place_of
from validator.measures.arithmetic import most
from validator.measures.heights.room_levels import Above
from validator.measures.room.walls import FromRightEnd, called_wall, difference, place_along, which_end, worked
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
from validator.measures.worktops.upstands import upstand_of
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.openings import Opening

WAYS = ("in", "out", "top hung", "side hung", "tilt and turn", "sliding", "fixed")


class ThingAtOpening(Row, kind="thing at an opening"):
    """A unit or a point and the door or window of its wall that is nearest to it along the wall.

    `aside` is less than 0 where one stands across the other; `upward` is what is clear above or below it there, and the
    same as `aside` where it stands beside it.
    """

    aside: float = given(LENGTH, "beside the opening")
    upward: float = given(LENGTH, "above or below it")
    opening: str = given(NAME, "opening")

    @figure(LENGTH, "clear of the opening", start="edge of the opening", end="edge of the thing")
    def clear(self) -> float:
        return most(self.aside, self.upward)


class WindowOverWorktop(Row, kind="window over a worktop"):
    """A window over a worktop: its sill, and the tap in front of it."""

    sill: float = given(LENGTH, "sill")
    worktop: float = given(LENGTH, "worktop")
    opens: str = given(Words(WAYS), "how it opens")
    has_tap: bool = given(YES_NO, "whether a tap stands in front of it")
    tap: float = given(LENGTH, "tap above the worktop")
    has_upstand: bool = given(YES_NO, "whether the worktop has an upstand")
    upstand: float = given(LENGTH, "upstand")

    @figure(LENGTH, "sill above the worktop", start="worktop", end="sill")
    def sill_above(self) -> float:
        return self.sill - self.worktop


class Hole(NamedTuple):
    """An opening on its wall: both edges along it, sill and head above the bare floor."""

    name: str
    opening: Opening
    left: Given
    right: Given
    sill: Given
    head: Given


class Thing(NamedTuple):
    """A unit or a point on a wall: its sides along it, and its lower and upper edge above the bare floor."""

    subject: Subject
    left: Given
    right: Given
    low: Given
    high: Given


def things_at_openings(site: Site) -> Rows:
    """A row for each unit and each point on a wall with openings. Without `openings` nobody knows of any."""
    holes = holes_by_wall(site)
    rows = Rows()
    for room in site.plan.rooms.values():
        if room.openings.left_out:
            missing = Missing(room.openings.pointer, "doors and windows")
            rows.left_out.append(LeftOut(ThingAtOpening.kind, missing))
    for thing in [*units_on_walls(site), *_points(site)]:
        there = holes.get(fold(thing.subject.wall), [])
        if there:
            rows.rows.append(min((_at(thing, hole) for hole in there), key=_order))
    return rows


def _order(row: ThingAtOpening) -> float:
    aside = row.known.get("aside")
    return float(aside.low or 0.0) if aside is not None else 0.0


def _at(thing: Thing, hole: Hole) -> ThingAtOpening:
    subject = thing.subject
    label = f"beside the {hole.name}"
    aside = clear_between(thing.left, thing.right, hole.left, hole.right, subject, label)
    if isinstance(aside, Known) and (aside.low or 0.0) >= 0:
        upward: Given = aside  # what stands beside an opening is clear of it at any height
    else:
        upward = clear_between(thing.low, thing.high, hole.sill, hole.head, subject, f"above or below the {hole.name}")
    return ThingAtOpening(
        subject,
        aside=aside,
        upward=upward,
        opening=reading.exactly(hole.name, hole.opening.pointer, "opening"),
    )


def clear_between(
    start: Given, end: Given, other_start: Given, other_end: Given, subject: Subject, label: str
) -> Given:
    """What is clear between two stretches, on the side where more is; less than 0 where they overlap."""
    before = difference(other_start, end, subject, label)
    behind = difference(start, other_end, subject, label)
    if not isinstance(before, Known):
        return before
    if not isinstance(behind, Known):
        return behind
    return before if before.value >= behind.value else behind


def holes_by_wall(site: Site) -> dict[str, list[Hole]]:
    """The openings of each wall, by its folded name; '' for those of which nobody knows the wall."""
    found: dict[str, list[Hole]] = {}
    for name, opening in site.plan.openings.items():
        if opening.wall is not None:
            found.setdefault(fold(opening.wall), []).append(_hole(site, name, opening, opening.wall))
    return found


def _hole(site: Site, name: str, opening: Opening, wall: str) -> Hole:
    plan = site.plan
    subject = Subject(name, opening.pointer, f"{wall} wall", wall)
    size = opening.size
    width = reading.quantity(size.w if size else None, opening.pointer_to("size"), f"width of the {name}")
    height = reading.quantity(size.h if size else None, opening.pointer_to("size"), f"height of the {name}")
    near: Given = Missing(opening.pointer_to("along"), f"place of the {name}")
    if opening.along is not None:
        near = place_along(plan, wall, opening.along, opening.pointer_to("along"), name)
    far = worked(Above(subject, base=near, amount=width), "height", f"far edge of the {name}")
    left, right = near, far
    if opening.along is not None and which_end(plan, wall, opening.along.from_) == "right":
        row = FromRightEnd(subject, wall=near, amount=width)
        left, right = worked(row, "place", f"left edge of the {name}"), near
    sill = _sill(site, name, opening)
    head = worked(Above(subject, base=sill, amount=height), "height", f"head of the {name}")
    return Hole(name, opening, left, right, sill, head)


def _sill(site: Site, name: str, opening: Opening) -> Given:
    if opening.up is None and sort_of(name, opening) in ("door", "opening"):
        return reading.exactly(0, opening.pointer, "floor", "it starts at the floor")
    levels = site.levels.at(opening.wall or opening.in_ or "")
    return levels.above_bare_floor(opening.up, opening.pointer_to("up"), f"sill of the {name}", None)


def sort_of(name: str, opening: Opening) -> str:
    """What an opening is: as it says, else the last word of its name; '' where neither tells."""
    if opening.is_ is not None:
        return opening.is_
    last = fold(name).split()[-1] if name.split() else ""
    return last if last in ("door", "window", "rooflight", "opening") else ""


def units_on_walls(site: Site) -> list[Thing]:
    """Every unit with the place it takes on its wall; a standing one reaches down to the floor."""
    found = []
    for thing in site.setting_out.things():
        if thing.item.family != "unit":
            continue
        top = site.levels.top_of(thing)
        low: Given = reading.exactly(0, thing.item.pointer, "floor")
        if site.levels.is_hung(thing):
            height = reading.read(thing.item, "height", f"height of {thing.name}")
            low = difference(top, height, thing.subject, f"underside of {thing.name}")
        found.append(Thing(thing.subject, thing.left, thing.right, low, top))
    return found


def _points(site: Site) -> list[Thing]:
    found = []
    for placed in site.points.all():
        name = placed.name
        subject = Subject(name, placed.point.pointer, called_wall(site.plan, placed.on), placed.on)
        half, tall = site.points.half_plate(name, "w"), site.points.half_plate(name, "h")
        up = site.points.height(name)
        found.append(
            Thing(
                subject,
                difference(placed.along, half, subject, f"left side of {name}"),
                worked(Above(subject, base=placed.along, amount=half), "height", f"right side of {name}"),
                difference(up, tall, subject, f"lower edge of {name}"),
                worked(Above(subject, base=up, amount=tall), "height", f"upper edge of {name}"),
            )
        )
    return found


def windows_over_worktops(site: Site) -> Rows:
    """A row for each window of a wall with a worktop that passes under it."""
    plan = site.plan
    rows = Rows()
    for name, opening in plan.openings.items():
        if opening.wall is None or sort_of(name, opening) != "window":
            continue
        hole = _hole(site, name, opening, opening.wall)
        runs = [run for run in plan.runs if site.levels.worktop_on(run) and _passes(site, run, opening.wall, hole)]
        if runs:
            rows.rows.append(_window(site, hole, runs[0]))
    return rows


def _passes(site: Site, run: str, wall: str, hole: Hole) -> bool:
    """Whether a run stands under an opening, as far as anybody knows."""
    things = [thing for thing in site.setting_out.in_run(run) if thing.item.family in ("unit", "opening")]
    if not things or fold(things[0].wall) != fold(wall):
        return False
    start, end = things[0].left, things[-1].right
    if not all(isinstance(place, Known) for place in (start, end, hole.left, hole.right)):
        return True
    return _value(start) < _value(hole.right) and _value(end) > _value(hole.left)


def _value(place: Given) -> float:
    return float(place.value) if isinstance(place, Known) else 0.0


def _window(site: Site, hole: Hole, run: str) -> Row:
    opening = hole.opening
    worktop = site.levels.worktop_on(run)
    assert worktop is not None
    subject = Subject(hole.name, opening.pointer, f"{opening.wall} wall", opening.wall or "", _span(hole))
    has_tap, tap = _tap(site, hole)
    return WindowOverWorktop(
        subject,
        sill=hole.sill,
        worktop=worked(worktop, "above_bare_floor", "worktop"),
        opens=reading.word(opening.opens, opening.pointer_to("opens"), f"how the {hole.name} opens"),
        has_tap=has_tap,
        tap=tap,
        **upstand_of(site, worktop),
    )


def _span(hole: Hole) -> tuple[float, float] | None:
    if not isinstance(hole.left, Known) or not isinstance(hole.right, Known):
        return None
    return float(hole.left.value), float(hole.right.value)


def _tap(site: Site, hole: Hole) -> tuple[Given, Given]:
    """Whether a tap stands in front of a window, and how high it is above the worktop."""
    plan = site.plan
    pointer = plan.appliances.pointer
    if plan.appliances.left_out:
        missing = Missing(pointer, "sinks and taps")
        return missing, missing
    for name, tap in plan.appliances.items():
        sink = tap.behind
        if kind_of(name, tap) not in ("tap", "boiling tap") or sink is None or sink not in plan.appliances:
            continue
        at = place_of(site, sink)
        span, middle = _span(hole), at.middle
        if fold(at.on) != fold(hole.opening.wall or ""):
            continue
        if not isinstance(middle, Known) or span is None or span[0] <= float(middle.value) <= span[1]:
            return reading.exactly(True, tap.pointer, "tap"), reading.read(tap, "height", f"height of the {name}")
    return reading.exactly(False, pointer, "tap"), Missing(pointer, "tap")
