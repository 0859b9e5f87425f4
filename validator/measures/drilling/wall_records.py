"""The record of what is behind the walls, against the drawing, and how far each part of it can be relied on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import most, total
from validator.measures.fixings.studs import stud_places
from validator.measures.fixings.ways_through_walls import MakeUp, WayThroughWall
from validator.measures.job.schedule import Scheduled, schedule
from validator.measures.room.walls import apart
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
from validator.plan.dimensions import DATE, DAY, DURATION, LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from collections.abc import Sequence

    from validator.measures.drilling.records import Found
    from validator.measures.site import Site
    from validator.plan.sections.record import Built
    from validator.plan.sections.room import Noggin

HOW = ("photo", "opened up", "trial hole", "pilot holes", "detector", "tapping", "drawing", "guess")
WHAT = ("layers", "studs", "noggins", "detector", "failed hole", "other")
CABLES_LAID = ("first fix electrics", "first fix")
"""The tasks of the usual order in which cables are laid in walls."""


class TrialHole(Row, kind="trial hole in a wall"):
    """A hole somebody looked into, and what is drawn there: the layers before what carries, and their materials."""

    same: bool = given(YES_NO, "whether it met the materials drawn, in their order")
    met: str = given(NAME, "layers it met")
    base: str = given(NAME, "what carries")
    found: tuple[float, ...] = given(LENGTH, "layers before what carries, as found", many=True)
    drawn_least: tuple[float, ...] = given(LENGTH, "layers before what carries, at the least drawn", many=True)
    drawn_most: tuple[float, ...] = given(LENGTH, "layers before what carries, at the most drawn", many=True)

    @figure(LENGTH, "off the drawing", start="what is drawn before what carries", end="what was found")
    def off(self) -> float:
        return most(total(self.found) - total(self.drawn_most), total(self.drawn_least) - total(self.found))


class RecordOfWall(Row, kind="record of a wall"):
    """What was found in a wall, and how: whoever drills there again has nothing else to go by.

    `carries` is whether hung or tall units are on that wall.
    """

    what: str = given(Words(WHAT), "what was found")
    known_by: str = given(Words(HOW), "how it is known")
    seen: float = given(DATE, "day it was seen")
    today: float = given(DATE, "day of this check")
    has_photo: bool = given(YES_NO, "whether a photo shows it")
    carries: bool = given(YES_NO, "whether units hang on the wall")

    @figure(DURATION, "age", start="day it was seen", end="day of this check")
    def age(self) -> float:
        return self.today - self.seen


class SweepOfWall(Row, kind="sweep with a detector"):
    """A sweep with a detector over a wall, and the last day on which cables are laid in the walls."""

    shows: str = given(Words(("nothing", "live cable", "metal", "timber", "plastic pipe")), "what it showed")
    swept: str = given(Words(("both ways", "one way")), "how it was swept")
    seen: float = given(DATE, "day of the sweep")
    has_first_fix: bool = given(YES_NO, "whether the plan says when cables are laid")
    cables_laid: float = given(DATE, "last day on which cables are laid")

    @figure(DURATION, "after the cables", start="last day on which cables are laid", end="day of the sweep")
    def after_cables(self) -> float:
        return self.seen - self.cables_laid


class FoundAndDrawn(Row, kind="stud or noggin found"):
    """Of the studs of a wall, or of its noggins, the one found furthest from the nearest drawn."""

    what: str = given(Words(("studs", "noggins")), "what was found")
    found: float = given(LENGTH, "found")
    drawn: float = given(LENGTH, "drawn")
    apart: float = given(LENGTH, "from where it is drawn to where it was found")


def trial_holes(site: Site) -> Rows:
    """A row for each trial hole in a wall whose layers are drawn."""
    rows = Rows()
    for record in site.records.all():
        hole = record.built
        wall = site.plan.walls.get(record.wall)
        if hole.layers and wall is not None and wall.made_of is not None:
            rows.rows.append(_trial_hole(site, record))
    return rows


def _trial_hole(site: Site, record: Found) -> Row:
    layers = record.built.layers or ()
    subject = _subject(record)
    drawn = site.make_ups.drawn_at(record.wall, record.along)
    found = MakeUp(record.name, record.built.pointer_to("layers"), layers).way_to(site.library, "")
    as_drawn = drawn.way_to(site.library, "")
    values: dict[str, Given] = {
        "met": reading.exactly(", ".join(str(layer.material) for layer in layers), found_at(record), "layers it met"),
        "found": found if isinstance(found, Missing) else found.coverings,
        "base": _base(found),
    }
    if isinstance(as_drawn, Missing):
        return TrialHole(subject, **values, **dict.fromkeys(("same", "drawn_least", "drawn_most"), as_drawn))
    terms = [layer.term for layer in as_drawn.layers]
    same = [fold(str(layer.material)) for layer in layers] == terms[: len(layers)]
    return TrialHole(
        subject,
        **values,
        same=reading.exactly(same, found_at(record), "whether it met what is drawn"),
        drawn_least=reading.parts([_end(layer.thickness, 0) for layer in as_drawn.before]),
        drawn_most=reading.parts([_end(layer.thickness, 1) for layer in as_drawn.before]),
    )


def found_at(record: Found) -> str:
    """Where a record of layers stands."""
    return record.built.pointer_to("layers")


def _base(found: WayThroughWall | Missing) -> Given:
    if isinstance(found, Missing):
        return found
    return reading.exactly(found.base.material, found.base.pointer, "what carries")


def _end(thickness: Given, which: int) -> Given:
    """A thickness at its least (0) or its most (1)."""
    if not isinstance(thickness, Known):
        return thickness
    end = (thickness.low, thickness.high)[which]
    return thickness._replace(value=end, low=end, high=end)


def _subject(record: Found) -> Subject:
    along = record.along
    at = None if not isinstance(along, Known) else (float(along.low or 0.0), float(along.high or 0.0))
    return Subject(record.name, record.built.pointer, f"{record.wall} wall", record.wall, at)


def records_of_walls(site: Site) -> Rows:
    """A row for each record of a wall."""
    records = site.records.all()
    if not records:
        return Rows()
    loaded = {fold(thing.wall) for thing in site.setting_out.things() if site.levels.is_hung(thing)}
    today = reading.exactly(float(site.on.toordinal() * DAY), "", "day of this check")
    return Rows([_record(record, fold(record.wall) in loaded, today) for record in records])


def _photo(record: Found) -> Given:
    photo, pointer = record.built.photo, record.built.pointer_to("photo")
    if photo is None:
        return Missing(pointer, f"photo of {record.name}")
    return reading.exactly(fold(photo) != "none", pointer, "whether a photo shows it")


def _record(record: Found, carries: bool, today: Given) -> Row:
    built = record.built
    return RecordOfWall(
        _subject(record),
        what=reading.exactly(_what(built), built.pointer, "what was found"),
        known_by=reading.word(built.known_by, built.pointer_to("known_by"), f"how {record.name} is known"),
        seen=reading.read(built, "seen", f"day of {record.name}"),
        today=today,
        has_photo=_photo(record),
        carries=reading.exactly(carries, built.pointer, "whether units hang on the wall"),
    )


def _what(built: Built) -> str:
    said = (built.noggins, built.studs, built.layers, built.detector, built.failed)
    names = ("noggins", "studs", "layers", "detector", "failed hole")
    return next((name for name, found in zip(names, said, strict=True) if found is not None), "other")


def sweeps_of_walls(site: Site) -> Rows:
    """A row for each sweep with a detector over a wall."""
    sweeps = [record for record in site.records.all() if record.built.detector is not None]
    if not sweeps:
        return Rows()
    tasks = schedule(site)
    laid = next((tasks[name] for name in CABLES_LAID if name in tasks), None)
    return Rows([_sweep(record, laid) for record in sweeps])


def _sweep(record: Found, laid: Scheduled | None) -> Row:
    built, sweep = record.built, record.built.detector
    assert sweep is not None
    return SweepOfWall(
        _subject(record),
        shows=reading.word(sweep.shows, sweep.pointer_to("shows"), f"what {record.name} showed"),
        swept=reading.word(sweep.swept, sweep.pointer_to("swept"), f"how {record.name} was swept"),
        seen=reading.read(built, "seen", f"day of {record.name}"),
        has_first_fix=reading.exactly(laid is not None, built.pointer, "whether the plan says when cables are laid"),
        cables_laid=laid.end if laid is not None else (),
    )


def found_and_drawn(site: Site) -> Rows:
    """A row for the studs of each wall that are both drawn and found, and one for its noggins."""
    rows = Rows()
    walls = site.plan.walls
    for name in dict.fromkeys(record.wall for record in site.records.all() if record.wall in walls):
        wall = walls[name]
        studs, noggins = site.records.studs(name, wall.studs), site.records.noggins(name, wall.noggins)
        if wall.studs is not None and studs is not None and studs is not wall.studs:
            found, drawn = stud_places(site, name, studs), stud_places(site, name, wall.studs)
            if isinstance(found, list) and isinstance(drawn, list):
                rows.rows += _furthest(name, "studs", found, drawn)
        if wall.noggins and noggins is not None and noggins is not wall.noggins:
            rows.rows += _furthest(name, "noggins", _ups(site, name, noggins), _ups(site, name, wall.noggins))
    return rows


def _ups(site: Site, wall: str, noggins: Sequence[Noggin]) -> list[Given]:
    """The middles of noggins above the bare floor."""
    levels = site.levels.at(wall)
    return [levels.above_bare_floor(each.up, each.pointer_to("up"), "middle of a noggin", None) for each in noggins]


def _furthest(wall: str, what: str, found: Sequence[Given], drawn: Sequence[Given]) -> list[Row]:
    """The one found that lies furthest from the nearest drawn, as a row; none where nothing is found or drawn."""
    rows = [_nearest(wall, what, place, drawn) for place in found if isinstance(place, Known) and drawn]
    return [max(rows, key=_distance)] if rows else []


def _nearest(wall: str, what: str, place: Known, drawn: Sequence[Given]) -> Row:
    subject = Subject(f"{what} found", place.pointer, f"{wall} wall", wall)
    known = [other for other in drawn if isinstance(other, Known)]
    nearest = min(known, key=lambda other: abs(other.value - place.value)) if len(known) == len(drawn) else drawn[0]
    return FoundAndDrawn(
        subject,
        what=reading.exactly(what, place.pointer, "what was found"),
        found=place,
        drawn=nearest,
        apart=apart(place, nearest, subject, "from where it is drawn to where it was found"),
    )


def _distance(row: Row) -> float:
    return float(row.known["apart"].value) if "apart" in row.known else 0.0
