"""Holes in a wall seen from its other face: through a thin wall a cable of the next room may run in this one's way."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.arithmetic import total
from validator.measures.drilling.strips import FIELDS, RUNS, Source, StripsOfWall, strip_fields
from validator.measures.heights.room_levels import Above, Below
from validator.measures.room.walls import half_of, length_of, named_gap, place_along, worked
from validator.measures.rows import (
    NAME,
    YES_NO,
    Given,
    Known,
    Missing,
    Row,
    Rows,
    Subject,
    Words,
    figure,
    given,
)
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold
from validator.plan.sections.drilling import DrillHole

if TYPE_CHECKING:
    from collections.abc import Sequence

    from validator.measures.fixings.ways_through_walls import MakeUp
    from validator.measures.services.point_places import PlacedPoint
    from validator.measures.site import Site
    from validator.plan.sections.beyond import Beyond, OtherFace
    from validator.plan.sections.room import Layer, Wall

SIDES = {"from left": "from right", "from right": "from left"}
"""Which way a cable goes, for somebody on the other side of the wall."""


class HoleBeyond(Row, kind="hole seen from the other face"):
    """One hole with the strip nearest to it that starts from a point on the other face of its wall.

    The fields of the strip are as in a drill point; which walls are thin enough to ask is for rules to say. `is_given`
    is whether the plan gives the hole outright; how deep others go is judged of their fixings.
    """

    layers: tuple[float, ...] = given(LENGTH, "layers of the wall", many=True)
    has_strip: bool = given(YES_NO, "whether a cable of the next room may run near it")
    aside: float = given(LENGTH, "hole from the middle of the strip")
    half_strip: float = given(LENGTH, "half the plate")
    strip_of: str = given(NAME, "point on the other face whose cable may run there")
    runs: str = given(Words(RUNS), "how the strip runs")
    is_given: bool = given(YES_NO, "whether the plan gives the hole outright")
    depth: float = given(LENGTH, "hole")

    @figure(LENGTH, "wall left behind the hole", start="end of the hole", end="other face of the wall")
    def left_behind(self) -> float:
        return self.wall_thickness - self.depth

    @figure(LENGTH, "wall", start="one face of the wall", end="its other face")
    def wall_thickness(self) -> float:
        return total(self.layers)

    @figure(LENGTH, "clear of the strip", start="edge of the strip", end="middle of the hole")
    def clear_of_strip(self) -> float:
        return self.aside - self.half_strip


class SeenThrough(Row, kind="place seen through a wall"):
    """A place along the other face of a wall, counted along this one: what is right there is left here."""

    starts: float = given(LENGTH, "where the other wall begins, seen from here")
    wall: float = given(LENGTH, "length of the other wall")
    along: float = given(LENGTH, "place along it")

    @figure(LENGTH, "place along the wall", start="left end of the wall", end="place")
    def place(self) -> float:
        return self.starts + self.wall - self.along


def holes_beyond(site: Site) -> Rows:
    """A row for each hole in a wall."""
    faces: dict[str, StripsOfWall | tuple[Missing, ...]] = {}
    layers: dict[str, Given] = {}
    rows = Rows()
    for hole in site.holes.all:
        key = fold(hole.wall)
        if key not in faces:
            faces[key] = _strips_from_beyond(site, hole.wall)
        strips = faces[key]
        made = site.make_ups.at(hole.wall, hole.along, hole.along)
        names = ", ".join(each.name for each in made)
        if names not in layers:
            layers[names] = thinnest(site, made)
        values: dict[str, Given]
        if isinstance(strips, StripsOfWall):
            values = strip_fields(strips, hole, site.plan.walls[hole.wall].pointer_to("beyond"))
        else:
            values = dict.fromkeys(FIELDS, strips)
        given_outright = reading.exactly(
            isinstance(hole.made_for, DrillHole), hole.subject.pointer, "whether the plan gives the hole outright"
        )
        rows.rows.append(
            HoleBeyond(hole.subject, layers=layers[names], is_given=given_outright, depth=hole.depth, **values)
        )
    return rows


def _layers(site: Site, layers: Sequence[Layer | Missing]) -> Given:
    """The thicknesses of all layers of a make-up."""
    sheets = site.library.groups.get("sheets_of_no_thickness", frozenset())
    found: list[Given] = []
    for layer in layers:
        if isinstance(layer, Missing):
            return layer
        material = layer.material if isinstance(layer.material, str) else "layer of the wall"
        if layer.thickness is None and fold(material) in sheets:
            continue
        found.append(named_gap(reading.read(layer, "thickness", material), f"thickness of {material}"))
    return reading.parts(found)


def thinnest(site: Site, made: Sequence[MakeUp]) -> Given:
    """The layers of the thinner of several make-ups that may lie at a place, each with its thickness."""
    found = [_layers(site, each.layers) for each in made]
    known = [each for each in found if isinstance(each, Known)]
    if len(known) < len(found):
        return next(each for each in found if not isinstance(each, Known))
    return min(known, key=lambda each: sum(part.low or 0.0 for part in each.parts))


def _strips_from_beyond(site: Site, wall: str) -> StripsOfWall | tuple[Missing, ...]:
    """The strips that come through a wall, or what has to be found out about its other face."""
    found = site.plan.walls.get(wall)
    label = f"points on the other face of the {wall} wall"
    if found is None:
        return (Missing(f"{site.plan.walls.pointer}/{wall}", f"{wall} wall"),)
    sources = [_beyond(site, wall, found, name, point) for name, point in (found.beyond or {}).items()]
    faces = other_faces(site, wall)
    if faces and site.plan.points.left_out:
        return (Missing(site.plan.points.pointer, "sockets, switches and connection units"),)
    for face in faces:
        sources += [_seen_through(site, wall, face, point) for point in site.points.by_wall.get(fold(face.wall), [])]
    if not faces and found.beyond is None:
        return (Missing(found.pointer_to("beyond"), label),)
    return StripsOfWall(sources)


class Behind(NamedTuple):
    """A wall at the back of another: what says so, and whether that stands with the wall in front (`ours`)."""

    wall: str
    face: OtherFace
    ours: bool


def other_faces(site: Site, wall: str) -> list[Behind]:
    """The walls at the back of a wall, whichever of the two says so; a long wall may back onto several rooms."""
    walls = site.plan.walls
    own = walls[wall].other_face if wall in walls else None
    found = [] if own is None else [Behind(own.wall, own, True)]
    for name, other in walls.items():
        face = other.other_face
        said = own is not None and fold(own.wall) == fold(name)
        if face is not None and fold(face.wall) == fold(wall) and not said:
            found.append(Behind(name, face, False))
    return found


def seen_from(site: Site, wall: str, behind: Behind, subject: Subject, along: Given, up: Given) -> tuple[Given, Given]:
    """A place on the wall behind another, along and up as it is seen from that other one."""
    other, face, ours = behind
    starts: Given = Missing(face.pointer_to("starts"), f"where the {other} wall begins, seen from the {wall} wall")
    if face.starts is not None:
        on = wall if ours else other
        starts = place_along(site.plan, on, face.starts, face.pointer_to("starts"), f"start of the {other} wall")
    whole = length_of(site.plan, other if ours else wall)
    row = SeenThrough(subject, starts=starts, wall=whole, along=along)
    if face.floor is not None:
        said = reading.read(face, "floor", "floor there below this one")
        lower_row = Below(subject, base=up, amount=said) if ours else Above(subject, base=up, amount=said)
        up = worked(lower_row, "height", f"height of {subject.name}")
    return worked(row, "place", f"{subject.name}, seen through the wall"), up


def _seen_through(site: Site, wall: str, behind: Behind, placed: PlacedPoint) -> Source:
    """A point of the next room as it is seen through the wall."""
    name, pointer = placed.name, placed.point.pointer
    subject = Subject(name, pointer, f"{wall} wall", wall)
    along, up = seen_from(site, wall, behind, subject, placed.along, site.points.height(name))
    cable = placed.point.cable
    return Source(
        f"{name} in the next room",
        pointer,
        along,
        up,
        site.points.half_plate(name, "w"),
        site.points.half_plate(name, "h"),
        SIDES.get(cable, cable) if isinstance(cable, str) else cable,
    )


def _beyond(site: Site, wall: str, found: Wall, name: str, point: Beyond) -> Source:
    """A point beyond the wall that the plan gives as it is seen from this side."""
    subject = Subject(name, point.pointer, f"{wall} wall", wall)
    along: Given = Missing(point.pointer_to("along"), f"place of {name} on the other face")
    if point.along is not None:
        along = place_along(site.plan, wall, point.along, point.pointer_to("along"), f"middle of {name}")
    at = point.pointer_to("plate")
    wide, high = (getattr(point.plate, side) if point.plate is not None else None for side in ("w", "h"))
    return Source(
        f"{name} on the other face",
        point.pointer,
        along,
        site.levels.at(wall).above_bare_floor(point.up, point.pointer_to("up"), name, None),
        half_of(
            named_gap(reading.quantity(wide, at, "plate"), f"width of the plate of {name}"), subject, "half the plate"
        ),
        half_of(
            named_gap(reading.quantity(high, at, "plate"), f"height of the plate of {name}"), subject, "half the plate"
        ),
        point.cable,
    )
