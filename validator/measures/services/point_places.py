"""The places of electrical points: along the wall by what they stand over or beside, up by any datum, or as built."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.appliances.appliance_places import place_of
from validator.measures.arithmetic import total
from validator.measures.room.slopes import ceiling_at
from validator.measures.room.walls import half_of, length_of, named_gap, place_along, worked
from validator.measures.rows import Given, Known, LeftOut, Missing, Row, Rows, Subject, Why, figure, gaps_of, given
from validator.measures.runs.setting_out import PointPlace
from validator.measures.services.circuits import is_socket, names_served
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.sections.services import Circuit, Point

BESIDE = ("left_of", "right_of")
OVER = ("over", "in_", "behind", "above")


class BesidePlate(Row, kind="point beside another"):
    """The middle of a plate that is put against another plate, or a gap apart from it."""

    beside: float = given(LENGTH, "middle of the plate beside it")
    between: tuple[float, ...] = given(LENGTH, "half plates and gap", many=True)

    @figure(LENGTH, "middle", start="left end of the wall", end="middle of the plate")
    def to_the_right(self) -> float:
        return self.beside + total(self.between)

    @figure(LENGTH, "middle", start="left end of the wall", end="middle of the plate")
    def to_the_left(self) -> float:
        return self.beside - total(self.between)


class PlacedPoint(NamedTuple):
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

    @cached_property
    def circuits(self) -> dict[str, list[Circuit]]:
        """The circuits that serve each point, by its folded name."""
        found: dict[str, list[Circuit]] = {}
        for circuit in self.plan.circuits.values():
            for name in set(names_served(self.plan, circuit)):
                found.setdefault(name, []).append(circuit)
        return found

    def placed(self, name: str) -> PlacedPoint:
        """The place of a point along its wall; KeyError for a point the plan does not have."""
        row = [self.plan.points.written(name)]
        while row[-1] not in self._placed:
            # Points may stand in a row as long as they like: it is followed to its first, and placed from there.
            beside = next((by for field in BESIDE + OVER if (by := getattr(self.plan.points[row[-1]], field))), "")
            if beside not in self.plan.points or self.plan.points.written(beside) in row:
                break
            row.append(self.plan.points.written(beside))
        for each in reversed(row):
            if each not in self._placed:
                self._placed[each] = self._as_built(self._laid_out(each, self.plan.points[each]))
        return self._placed[row[0]]

    def _as_built(self, placed: PlacedPoint) -> PlacedPoint:
        built = self.plan.built.get(placed.name)
        if built is None or built.along is None or not placed.on:
            return placed
        pointer = built.pointer_to("along")
        along = place_along(self.plan, placed.on, built.along, pointer, f"middle of {placed.name}")
        return placed._replace(along=along)

    def worktop(self, name: str) -> Given:
        """The worktop that the height of a point is counted from, above the bare floor."""
        placed = self.placed(name)
        return self.site.levels.worktop_by(placed.on, placed.near)

    def height(self, name: str) -> Given:
        """The middle of a point above the bare floor, as built or as planned."""
        if name not in self._heights:
            point, built = self.plan.points[name], self.plan.built.get(name)
            said_by = built if built is not None and built.up is not None else point
            self._heights[name] = self.site.levels.at(self.placed(name).on).above_bare_floor(
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
        for field in OVER:
            by = getattr(point, field)
            if by is not None:
                return self._at_middle_of(name, point, by, point.pointer_to(field))
        for field in BESIDE:
            by = getattr(point, field)
            if by is not None:
                return self._beside(name, point, by, "to_the_left" if field == "left_of" else "to_the_right")
        wall = reading.word(point.wall, point.pointer_to("wall"), f"wall of {name}")
        if point.wall is not None and point.wall in self.plan.walls:
            written = self.plan.walls.written(point.wall)
            wall = reading.exactly(written, point.pointer_to("wall"), "wall")
        pointer = point.pointer_to("along")
        nowhere = Missing(pointer, f"place of {name} along its wall")
        if not isinstance(wall, Known):
            gaps = gaps_of(wall)
            return PlacedPoint(name, point, wall, gaps if point.along is not None else (*gaps, nowhere))
        if point.along is None:
            return PlacedPoint(name, point, wall, nowhere)
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

    def _beside(self, name: str, point: Point, by: str, figure_: str) -> PlacedPoint:
        other = self.placed(by)
        gap = reading.exactly(0, point.pointer, "gap") if point.gap is None else reading.read(point, "gap", "gap")
        between = [
            self.half_plate(other.name, "w"),
            named_gap(gap, f"gap beside {name}"),
            self.half_plate(name, "w"),
        ]
        row = BesidePlate(Subject(name, point.pointer), beside=other.along, between=reading.parts(between))
        return other._replace(name=name, point=point, along=worked(row, figure_, f"middle of {name}"))


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
        over_worktop=over_worktop(site, placed),
        finished_floor=site.levels.at(placed.on).finished_floor,
        wall=placed.wall,
        is_measured=reading.exactly(point.along is not None, point.pointer, "whether its place is measured"),
        wall_length=length_of(site.plan, placed.on) if placed.on else placed.wall,
        ceiling=ceiling_at(site, placed.on, along),
        socket=reading.exactly(is_socket(point), point.pointer_to("is_"), "whether it is a socket"),
        protected=protected(site, placed),
    )


def over_worktop(site: Site, placed: PlacedPoint) -> Given:
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


def protected(site: Site, placed: PlacedPoint) -> Given:
    """Whether a device that is quick enough for people protects a point: said of the point, or of every circuit that
    serves it, by the rating in the table of the country."""
    label = f"whether a residual current device protects {placed.name}"
    if placed.point.rcd is not None:
        return reading.word(placed.point.rcd, placed.point.pointer_to("rcd"), label)
    plan = site.plan
    if plan.circuits.left_out:
        return Missing(plan.circuits.pointer, "circuits")
    serving = site.points.circuits.get(fold(placed.name))
    if not serving:
        detail = f"no circuit says that it serves {placed.name}"
        return Missing(placed.point.pointer_to("rcd"), label, Why.UNCLEAR, detail=detail)
    residuals = []
    for circuit in serving:
        residual = named_gap(reading.read(circuit, "rcd", "residual current device"), label)
        if not isinstance(residual, Known):
            return residual
        residuals.append(residual)
    table = site.library.table("residual-device", site.country)
    cell = table.find("most", {}) if table is not None else None
    if cell is None:
        return Missing("/project/country", label, Why.NO_TABLE_ROW)
    slowest = max(residuals, key=lambda residual: residual.ends[1])
    return reading.exactly(
        slowest.ends[1] <= float(cell.value), slowest.pointer, label, f"from {cell.table}, {cell.source}"
    )
