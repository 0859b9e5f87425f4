"""Boxed-in pipes, bulkheads and knee walls: what of the room stands in the way of units against a wall."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.arithmetic import most
from validator.measures.heights.room_levels import Above
from validator.measures.room.openings import clear_between, units_on_walls
from validator.measures.room.walls import FromRightEnd, difference, place_along, which_end, worked
from validator.measures.rows import NAME, Given, Known, Missing, Row, Rows, Subject, figure, given
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.room.openings import Thing
    from validator.measures.site import Site
    from validator.plan.rooms import Room
    from validator.plan.sections.furniture import Item
    from validator.plan.sections.room import Boxing


class UnitAtBoxing(Row, kind="unit at a boxing"):
    """A unit and the boxing of its wall that is nearest to it along the wall.

    `aside` is less than 0 where they overlap along the wall, `upward` where they do in height; `behind` is what the
    void behind the unit leaves of the boxing's depth. What is clear one way is clear.
    """

    aside: float = given(LENGTH, "beside the boxing")
    upward: float = given(LENGTH, "above or below it")
    behind: float = given(LENGTH, "in front of it")
    boxing: str = given(NAME, "boxing")

    @figure(LENGTH, "clear of the boxing", start="boxing", end="carcass")
    def clear(self) -> float:
        return most(self.aside, self.upward, self.behind)


class UnitAtLowWall(Row, kind="unit at a low wall"):
    """A unit against a wall that ends below the ceiling, as a knee wall does."""

    top: float = given(LENGTH, "top of the unit")
    wall: float = given(LENGTH, "top of the wall")

    @figure(LENGTH, "wall above the unit", start="top of the unit", end="top of the wall")
    def above(self) -> float:
        return self.wall - self.top


class Box(NamedTuple):
    """A boxing on its wall: both edges along it, from where to where up, and how far it stands out."""

    name: str
    boxing: Boxing
    left: Given
    right: Given
    low: Given
    high: Given
    depth: Given


def units_at_boxings(site: Site) -> Rows:
    """A row for each unit on a wall with a boxing. Nobody is asked for boxings that a plan does not speak of."""
    boxes = boxes_by_wall(site)
    if not boxes:
        return Rows()
    items = {thing.item.pointer: thing.item for thing in site.setting_out.things()}
    rows = Rows()
    for unit in units_on_walls(site):
        there = boxes.get(fold(unit.subject.wall), [])
        if there:
            found = [_at(site, unit, items[unit.subject.pointer], box) for box in there]
            rows.rows.append(min(found, key=_aside))
    return rows


def boxes_by_wall(site: Site) -> dict[str, list[Box]]:
    """The boxings of each wall, by its folded name."""
    boxes: dict[str, list[Box]] = {}
    for room in site.plan.rooms.values():
        for name, boxing in room.boxings.items():
            if boxing.wall is not None:
                boxes.setdefault(fold(boxing.wall), []).append(_box(site, room, name, boxing, boxing.wall))
    return boxes


def _aside(row: Row) -> float:
    aside = row.known.get("aside")
    return float(aside.low or 0.0) if aside is not None else 0.0


def _at(site: Site, unit: Thing, item: Item, box: Box) -> Row:
    subject = unit.subject
    aside = clear_between(unit.left, unit.right, box.left, box.right, subject, f"beside the {box.name}")
    upward: Given = aside  # what stands beside a boxing is clear of it at any height and depth
    behind: Given = aside
    if not isinstance(aside, Known) or (aside.low or 0.0) < 0:
        upward = clear_between(unit.low, unit.high, box.low, box.high, subject, f"above or below the {box.name}")
        behind = difference(_void(site, subject, item), box.depth, subject, f"in front of the {box.name}")
    name = reading.exactly(box.name, box.boxing.pointer, "boxing")
    return UnitAtBoxing(subject, aside=aside, upward=upward, behind=behind, boxing=name)


def _void(site: Site, subject: Subject, item: Item) -> Given:
    """What is free behind a unit; a hung one stands at the wall unless it says otherwise."""
    standing = site.setting_out.find(subject.name)
    if item.void_behind is None and standing is not None and site.levels.is_hung(standing):
        return reading.exactly(0, item.pointer, "void behind", "it hangs at the wall")
    return reading.read(item, "void_behind", f"void behind {subject.name}")


def _box(site: Site, room: Room, name: str, boxing: Boxing, wall: str) -> Box:
    subject = Subject(name, boxing.pointer, f"{wall} wall", wall)
    size, at, levels = boxing.size, boxing.pointer_to("size"), site.levels.of(room)
    width = reading.quantity(size.w if size else None, at, f"width of the {name}")
    near: Given = Missing(boxing.pointer_to("along"), f"place of the {name}")
    if boxing.along is not None:
        near = place_along(site.plan, wall, boxing.along, boxing.pointer_to("along"), name)
    left, right = near, worked(Above(subject, base=near, amount=width), "height", f"far edge of the {name}")
    if boxing.along is not None and which_end(site.plan, wall, boxing.along.from_) == "right":
        left, right = worked(FromRightEnd(subject, wall=near, amount=width), "place", f"left edge of the {name}"), near
    low: Given = reading.exactly(0, boxing.pointer, "floor", "it starts at the floor")
    if boxing.up is not None:
        low = levels.above_bare_floor(boxing.up, boxing.pointer_to("up"), f"underside of the {name}", None)
    high = levels.ceiling
    if size is not None and size.h is not None:
        height = reading.quantity(size.h, at, f"height of the {name}")
        high = worked(Above(subject, base=low, amount=height), "height", f"top of the {name}")
    depth = reading.quantity(size.d if size else None, at, f"depth of the {name}")
    return Box(name, boxing, left, right, low, high, depth)


def units_at_low_walls(site: Site) -> Rows:
    """A row for each unit on a wall of which the plan says where it ends."""
    walls = site.plan.walls
    if all(wall.height is None for wall in walls.values()):
        return Rows()
    rows = Rows()
    for unit in units_on_walls(site):
        wall = walls.get(unit.subject.wall)
        if wall is not None and wall.height is not None:
            levels, pointer = site.levels.at(unit.subject.wall), wall.pointer_to("height")
            top = levels.above_bare_floor(wall.height, pointer, f"top of the {unit.subject.wall} wall", None)
            rows.rows.append(UnitAtLowWall(unit.subject, top=unit.high, wall=top))
    return rows
