"""The places of electrical points: along the wall by what they stand over or beside, up by any datum, or as built."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliance_places import place_of
from validator.measures.arithmetic import total
from validator.measures.rows import Given, Known, LeftOut, Missing, Row, Rows, Subject, Why, figure, given
from validator.measures.setting_out import PointPlace
from validator.measures.walls import half_of, named_gap, place_along, worked
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold
from validator.plan.sections.services import Point

if TYPE_CHECKING:
    from validator.measures.run_places import Standing
    from validator.measures.site import Site

LINKS = 40
"""How many points may be placed one by another in a chain before the plan is asked to say a place."""


class BesidePlate(Row, kind="point beside something"):
    """The middle of a plate that is put against another plate, or against the side of a unit."""

    edge: float = given(LENGTH, "middle or side of what it is beside")
    between: tuple[float, ...] = given(LENGTH, "half plates and gap", many=True)

    @figure(LENGTH, "middle", start="left end of the wall", end="middle of the plate")
    def to_the_right(self) -> float:
        return self.edge + total(self.between)

    @figure(LENGTH, "middle", start="left end of the wall", end="middle of the plate")
    def to_the_left(self) -> float:
        return self.edge - total(self.between)


@dataclass(frozen=True, slots=True)
class PlacedPoint:
    """A point with its wall, the run it belongs to, and the middle of its plate along the wall."""

    name: str
    point: Point
    wall: Given
    along: Given
    near: Standing | None = None

    @property
    def on(self) -> str:
        """The name of its wall, or ''."""
        return str(self.wall.value) if isinstance(self.wall, Known) else ""


class PointPlaces:
    """Where every point of a plan is along its wall; each is worked out when it is asked for."""

    def __init__(self, site: Site) -> None:
        self.site = site
        self.plan = site.plan
        self._placed: dict[str, PlacedPoint] = {}
        self._asked: list[str] = []
        self._heights: dict[str, Given] = {}
        self._halves: dict[tuple[str, str], Given] = {}

    def all(self) -> list[PlacedPoint]:
        return [self.placed(name) for name in self.plan.points]

    @cached_property
    def by_wall(self) -> dict[str, list[PlacedPoint]]:
        """The points of each wall (folded name); '' for points of which nobody knows the wall."""
        found: dict[str, list[PlacedPoint]] = {}
        for placed in self.all():
            found.setdefault(fold(placed.on), []).append(placed)
        return found

    def placed(self, name: str) -> PlacedPoint:
        """The place of a point along its wall; KeyError for a point the plan does not have."""
        name = self.plan.points.written(name)
        if name in self._placed:
            return self._placed[name]
        point = self.plan.points[name]
        if name in self._asked or len(self._asked) >= LINKS:
            detail = "it is placed by points that are placed by it, or by too long a chain of them"
            unclear = Missing(point.pointer, f"place of {name}", Why.UNCLEAR, detail=detail)
            return PlacedPoint(name, point, unclear, unclear)
        self._asked.append(name)
        try:
            placed = self._laid_out(name, point)
        finally:
            self._asked.pop()
        built = self.plan.built.get(name)
        if built is not None and built.along is not None and placed.on:
            along = place_along(self.plan, placed.on, built.along, built.pointer_to("along"), f"middle of {name}")
            placed = replace(placed, along=along)
        self._placed[name] = placed
        return placed

    def worktop(self, name: str) -> Given:
        """The worktop that the height of a point is counted from, above the bare floor."""
        placed = self.placed(name)
        return self.site.levels.worktop_by(placed.on, placed.near)

    def height(self, name: str) -> Given:
        """The middle of a point above the bare floor, as built or as planned."""
        if name not in self._heights:
            point, built = self.plan.points[name], self.plan.built.get(name)
            said_by = built if built is not None and built.up is not None else point
            self._heights[name] = self.site.levels.above_bare_floor(
                said_by.up, said_by.pointer_to("up"), name, self.worktop(name)
            )
        return self._heights[name]

    def half_plate(self, name: str, side: str) -> Given:
        """Half the width (`w`) or the height (`h`) of a point's plate."""
        if (name, side) not in self._halves:
            self._halves[name, side] = half_plate(name, self.plan.points[name], side)
        return self._halves[name, side]

    def _laid_out(self, name: str, point: Point) -> PlacedPoint:
        """The place as the layout gives it."""
        for field in ("over", "in_", "behind", "above"):
            by = getattr(point, field)
            if by is not None:
                return self._at_middle_of(name, point, by, point.pointer_to(field))
        for field, side in (("left_of", "left"), ("right_of", "right")):
            by = getattr(point, field)
            if by is not None:
                return self._beside(name, point, by, point.pointer_to(field), side)
        wall = reading.word(point.wall, point.pointer_to("wall"), f"wall of {name}")
        if point.wall is not None and point.wall in self.plan.walls:
            written = self.plan.walls.written(point.wall)
            wall = reading.exactly(written, point.pointer_to("wall"), "wall")
        pointer = point.pointer_to("along")
        if point.along is None:
            return PlacedPoint(name, point, wall, Missing(pointer, f"place of {name} along its wall"))
        if not isinstance(wall, Known):
            return PlacedPoint(name, point, wall, wall)
        along = place_along(self.plan, str(wall.value), point.along, pointer, f"middle of {name}")
        return PlacedPoint(name, point, wall, along)

    def _at_middle_of(self, name: str, point: Point, by: str, pointer: str) -> PlacedPoint:
        thing = self.site.setting_out.find(by)
        if thing is not None:
            wall = reading.exactly(thing.wall, pointer, "wall")
            along = thing.middle if point.along is None else self._own_along(name, point, thing.wall)
            return PlacedPoint(name, point, wall, along, thing)
        if by in self.plan.appliances:
            place = place_of(self.site, by)
            known = isinstance(place.wall, Known)
            along = self._own_along(name, point, place.on) if known and point.along is not None else place.middle
            return PlacedPoint(name, point, place.wall, along, place.standing)
        if by in self.plan.points:
            other = self.placed(by)
            return PlacedPoint(name, point, other.wall, other.along, other.near)
        unclear = Missing(pointer, f"place of {name}", Why.UNCLEAR, detail=f"the plan does not say where {by} stands")
        return PlacedPoint(name, point, unclear, unclear)

    def _own_along(self, name: str, point: Point, wall: str) -> Given:
        pointer = point.pointer_to("along")
        if point.along is None:
            return Missing(pointer, f"place of {name}")
        return place_along(self.plan, wall, point.along, pointer, f"middle of {name}")

    def _beside(self, name: str, point: Point, by: str, pointer: str, side: str) -> PlacedPoint:
        gap = reading.exactly(0, point.pointer, "gap") if point.gap is None else reading.read(point, "gap", "gap")
        half = self.half_plate(name, "w")
        if by in self.plan.points:
            other = self.placed(by)
            edge, near, wall = other.along, other.near, other.wall
            between = [self.half_plate(other.name, "w"), named_gap(gap, f"gap beside {name}"), half]
        else:
            thing = self.site.setting_out.find(by)
            if thing is None:
                detail = f"the plan does not say where {by} stands"
                unclear = Missing(pointer, f"place of {name}", Why.UNCLEAR, detail=detail)
                return PlacedPoint(name, point, unclear, unclear)
            edge, near = thing.left if side == "left" else thing.right, thing
            wall = reading.exactly(thing.wall, pointer, "wall")
            between = [named_gap(gap, f"gap beside {name}"), half]
        row = BesidePlate(Subject(name, point.pointer), edge=edge, between=reading.parts(between))
        return PlacedPoint(name, point, wall, worked(row, f"to_the_{side}", f"middle of {name}"), near)


def half_plate(name: str, point: Point, side: str) -> Given:
    """Half the width (`w`) or height (`h`) of a point's plate."""
    return half_of(plate(name, point, side), Subject(f"plate of {name}", point.pointer_to("plate")), "half the plate")


def plate(name: str, point: Point, side: str) -> Given:
    size = getattr(point.plate, side) if point.plate is not None else None
    called = {"w": "width", "h": "height"}[side]
    return named_gap(reading.quantity(size, point.pointer_to("plate"), "plate"), f"{called} of the plate of {name}")


def point_places(site: Site) -> Rows:
    """A row for each point of the plan."""
    if site.plan.points.left_out:
        return Rows(left_out=[LeftOut(PointPlace.kind, Missing("/points", "sockets, switches and connection units"))])
    return Rows([_row(site, placed) for placed in site.points.all()])


def _row(site: Site, placed: PlacedPoint) -> PointPlace:
    name, point, along = placed.name, placed.point, placed.along
    half = site.points.half_plate(name, "w")
    span = None
    if isinstance(along, Known):
        beside = float(half.value) if isinstance(half, Known) else 0.0
        span = (float(along.value) - beside, float(along.value) + beside)
    context = f"{placed.on} wall" if placed.on else ""
    return PointPlace(
        Subject(name, point.pointer, context, placed.on, span),
        along=along,
        up=site.points.height(name),
        plate_width=plate(name, point, "w"),
        plate_height=plate(name, point, "h"),
        worktop=site.points.worktop(name),
        over_worktop=_over_worktop(site, placed),
        finished_floor=site.levels.finished_floor,
        wall=placed.wall,
    )


def _over_worktop(site: Site, placed: PlacedPoint) -> Given:
    """Whether a worktop lies below a point at all: not where it sits in or behind a thing, nor on a bare wall."""
    label = f"whether a worktop lies below {placed.name}"
    if placed.point.in_ is not None or placed.point.behind is not None:
        return reading.exactly(False, placed.point.pointer, label)
    if site.plan.worktops.left_out:
        return Missing(site.plan.worktops.pointer, "worktops")
    if not placed.on:
        return placed.wall
    if placed.near is not None:
        on_run = site.levels.worktop_on(placed.near.run) is not None
        return reading.exactly(on_run or _is_hung_over_one(site, placed), placed.point.pointer, label)
    return reading.exactly(bool(site.levels.worktops_at(placed.on)), placed.point.pointer, label)


def _is_hung_over_one(site: Site, placed: PlacedPoint) -> bool:
    near = placed.near
    return near is not None and site.levels.is_hung(near) and bool(site.levels.worktops_at(near.wall))
