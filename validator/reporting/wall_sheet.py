"""Everything known of one wall on a sheet, for the day somebody drills into it again.

Places count from the left end of the wall, as one faces it, and up from the bare floor; where a floor is to be laid the
height above it stands beside.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from typing import NamedTuple

from validator.judging.apply import Judgement
from validator.measures.drilling.strips import ALL_WAYS, WAYS
from validator.measures.heights.room_levels import RoomLevels
from validator.measures.room.walls import difference, length_of, place_along
from validator.measures.rows import Given, Known, Missing, Row, Subject
from validator.measures.services.point_places import PlacedPoint
from validator.plan.dimensions import DATE, LENGTH
from validator.plan.elements import Element
from validator.plan.fields import Along, Height
from validator.plan.names import fold
from validator.plan.pointers import split
from validator.plan.values import NothingStated, Quantity, ToFind
from validator.reporting.columns import columns, filled, one_line
from validator.reporting.lines import WIDTH, apart, day, wrapped
from validator.reporting.points import Errand, put_together
from validator.reporting.printing import Printer
from validator.reporting.style import Style
from validator.reporting.walls import strips

OPEN = "not known"
NAMES, COLUMN = 28, 17
INDENT = "   "


class Place(NamedTuple):
    """Where a thing is on its wall, as far as anybody knows."""

    along: Given | None = None
    up: Given | None = None


class Entry(NamedTuple):
    """One thing in, on or behind the wall: its place, what there is to say of it, and where the plan says so."""

    name: str
    place: Place
    says: tuple[str, ...]
    pointer: str


def wall_named(judgement: Judgement, name: str) -> str:
    """The wall that `wall north` or `north wall` means, as the plan writes it; '' for any other name."""
    walls = judgement.site.plan.walls
    folded = fold(name)
    for meant in (folded.removeprefix("wall "), folded.removesuffix(" wall")):
        if meant != folded and meant in walls:
            return walls.written(meant)
    return ""


def as_lines(judgement: Judgement, wall: str, on: date, style: Style) -> str:
    """The sheet as text for A4 at 80 columns; ends in a line break."""
    return style.tamed("\n".join(_Sheet(judgement, wall, style).lines(on)) + "\n")


class _Sheet:
    """The lines about one wall."""

    def __init__(self, judgement: Judgement, wall: str, style: Style) -> None:
        self.judgement, self.site, self.wall, self.style = judgement, judgement.site, wall, style
        self.plan = self.site.plan
        self.printer = Printer(self.site)
        self.levels: RoomLevels = self.site.levels.at(wall)

    def lines(self, on: date) -> Iterator[str]:
        yield from apart(f"BEHIND THE {self.wall} WALL".upper(), self.plan.project.title or "")
        yield from apart(day(on), f"plan {self.plan.digest[:9]}")
        yield "_" * WIDTH
        yield ""
        length = length_of(self.plan, self.wall)
        yield from wrapped(
            f"As one faces it: along from its left end, up from the bare floor. It is {self._shown(length)} long. "
            "What is drawn may be wrong: look for cables and pipes before every hole."
        )
        yield from self._strips()
        yield from self._layers()
        yield from self._table("Studs and noggins", self._timbers())
        yield from self._table("Sockets, switches and the strips of their cables", self._points())
        yield from self._table("Cables and pipes in the wall", self._routes())
        yield from self._table("Chases and boxings", self._boxings())
        yield from self._table("What hangs and stands here, and by what", self._units())
        yield from self._table("Holes to drill", self._holes())
        yield from self._table("On record", self._records())
        yield from self._table("The other face", self._beyond())
        yield from self._open()

    def _strips(self) -> Iterator[str]:
        for strip in strips(self.site, put_together(self.judgement)):
            if fold(strip.wall) == fold(self.wall):
                yield ""
                yield INDENT + strip.things

    def _layers(self) -> Iterator[str]:
        for made in self.site.make_ups.at(self.wall):
            heading = f"Made of, from the room in: {made.part}" if made.part else "Made of, from the room in"
            yield from self._heading(heading, ("thick", "starts at", ""))
            least = most = 0.0
            known = True
            for layer in made.layers:
                if isinstance(layer, Missing):
                    yield from wrapped(f"{self.printer.text(layer.label)}: {OPEN}", len(INDENT))
                    break
                thick = layer.thickness
                start = self._ends(least, most) if known else OPEN
                found = fold(split(layer.pointer)[0]) == "built"
                how = self._record_of(layer.pointer) if found else f"as drawn, {self.printer.lines([layer.pointer])}"
                yield from self._row(self._material(layer.material), (self._quantity(thick), start), (how,), "")
                known = known and isinstance(thick, Quantity)
                if isinstance(thick, Quantity):
                    least, most = least + thick.low, most + thick.high
        parts = self.plan.walls[self.wall].parts or ()
        for part in parts:
            start = self._quantity(part.from_) if part.from_ is not None else "its left end"
            end = self._quantity(part.to) if part.to is not None else "its right end"
            yield from wrapped(f"{self._material(part.made_of)}: from {start} to {end}", len(INDENT))

    def _timbers(self) -> Iterator[Entry]:
        wall, records = self.plan.walls[self.wall], self.site.records
        studs = records.studs(self.wall, wall.studs)
        if studs is not None:
            if studs.found is not None:
                says = "middles at " + ", ".join(self._quantity(place) for place in studs.found)
            else:
                says = f"the first at {self._quantity(studs.first)}, then every {self._quantity(studs.every)}"
            yield Entry("studs", Place(), (says, self._known(studs)), studs.pointer)
        for noggin in records.noggins(self.wall, wall.noggins) or ():
            up = self.levels.above_bare_floor(noggin.up, noggin.pointer_to("up"), "noggin", None)
            size = noggin.size
            says = f"face {self._quantity(size.w)}, {self._quantity(size.h)} deep" if size is not None else ""
            yield Entry("noggin, its middle", Place(up=up), (says, self._known(noggin)), noggin.pointer)

    def _points(self) -> Iterator[Entry]:
        for placed in self.site.points.by_wall.get(fold(self.wall), ()):
            up = self.site.points.height(placed.name)
            built = self.plan.built.get(placed.name)
            cable = built.cable if built is not None and built.cable is not None else placed.point.deep
            deep = f", {self._quantity(cable)} deep" if cable is not None else ""
            known = f"as built, {self._seen(built)}" if built is not None else ""
            says = (f"{self.printer.text(placed.point.is_)}; {self._cable(placed, up, deep)}", known)
            yield Entry(placed.name, Place(placed.along, up), says, placed.point.pointer)

    def _cable(self, placed: PlacedPoint, up: Given, deep: str) -> str:
        """Which way the cable of a point goes, and the strips to keep clear of."""
        cable = placed.point.cable
        ways: Sequence[str] = ALL_WAYS
        said = "nobody knows which way its cable goes"
        if isinstance(cable, str):
            said, ways = f"cable {cable}", WAYS.get(cable, ())
        strips = []
        if {"up", "down"} & set(ways):
            strips.append(f"from {self._spread(placed.along, placed.name, 'w')} along")
        if {"left", "right"} & set(ways):
            strips.append(f"from {self._spread(up, placed.name, 'h')} up")
        return f"{said}{deep}" + (f"; keep clear {' and '.join(strips)}" if strips else "")

    def _spread(self, middle: Given, name: str, side: str) -> str:
        half = self.site.points.half_plate(name, side)
        if not isinstance(middle, Known) or not isinstance(half, Known):
            return OPEN
        (low, high), widest = middle.ends, half.ends[1]
        return self._ends(low - widest, high + widest)

    def _routes(self) -> Iterator[Entry]:
        for name, route in self.plan.routes.items():
            if fold(str(route.wall)) == fold(self.wall):
                kind = self.printer.text(route.is_) if isinstance(route.is_, str) else "what it is nobody knows"
                deep = f", {self._quantity(route.deep)} deep" if route.deep is not None else f", how deep is {OPEN}"
                over = [("over", spot) for spot in route.via or ()]
                spots = [("from", route.from_), *over, ("to", route.to)]
                yield Entry(name, Place(), (kind + deep, self._seen(route)), route.pointer)
                for word, spot in spots:
                    if spot is not None:
                        place = self._place(spot.along, spot.pointer_to("along"), spot.up, spot.pointer_to("up"))
                        yield Entry(f"  {word}", place, (), "")

    def _boxings(self) -> Iterator[Entry]:
        for name, chase in self.plan.chases.items():
            if fold(str(chase.wall)) == fold(self.wall):
                runs = chase.runs if isinstance(chase.runs, str) else OPEN
                says = f"chase, {runs}, {self._quantity(chase.deep)} deep, {self._quantity(chase.length)} long"
                yield Entry(name, Place(), (says,), chase.pointer)
        room = self.plan.room_of(self.wall)
        for name, boxing in room.boxings.items() if room is not None else ():
            if fold(str(boxing.wall)) == fold(self.wall):
                place = self._place(boxing.along, boxing.pointer_to("along"), boxing.up, boxing.pointer_to("up"))
                size = boxing.size
                sides = (("wide", size.w), ("high", size.h), ("deep", size.d)) if size is not None else ()
                says = ", ".join(f"{self._quantity(side)} {word}" for word, side in sides if side is not None)
                yield Entry(name, place, (f"boxing, {says}",), boxing.pointer)

    def _units(self) -> Iterator[Entry]:
        for thing in self.site.setting_out.things():
            if fold(thing.wall) != fold(self.wall) or thing.item.family != "unit":
                continue
            held = self.site.fixings.of.get(thing.item.pointer, [])
            if held or self.site.levels.is_hung(thing):
                names = list(dict.fromkeys(row.subject.name for row in held))
                says = "; ".join(self._fixing(name) for name in names) or "nothing in the plan holds it"
                right = f"to {self._shown(thing.right)} along, up to its top"
                yield Entry(
                    thing.name, Place(thing.left, self.site.levels.top_of(thing)), (right, says), thing.item.pointer
                )

    def _fixing(self, name: str) -> str:
        fixing = self.plan.fixings[name]
        parts, screw = [], fixing.screw
        if fixing.plug is not None:
            parts.append(f"{fixing.plug.type or 'plug'} {self._size(fixing.plug.diameter, fixing.plug.length)}")
        if screw is not None:
            kind = self._material(screw.type) if screw.type is not None else "screw"
            gauge = f"{screw.gauge} x {self._quantity(screw.length)}"
            parts.append(f"{kind} {gauge if screw.gauge else self._size(screw.diameter, screw.length)}")
        if fixing.hole is not None:
            parts.append(f"in holes {self._size(fixing.hole.diameter, fixing.hole.depth)}")
        return f"{name}: {' '.join(parts)}"

    def _holes(self) -> Iterator[Entry]:
        for row in self.site.rows("drill point").rows:
            if fold(row.subject.wall) == fold(self.wall):
                yield Entry(row.subject.name, Place(_of(row, "along"), _of(row, "up")), (), "")

    def _records(self) -> Iterator[Entry]:
        for record in self.site.records.of(self.wall):
            built = record.built
            says = []
            if built.layers:
                says.append(
                    ", ".join(
                        f"{self._material(each.material)} {self._quantity(each.thickness)}" for each in built.layers
                    )
                )
            if built.studs is not None:
                says.append("studs")
            if built.noggins:
                says.append("noggins")
            if built.detector is not None:
                shows, swept = built.detector.shows, built.detector.swept
                says.append(f"detector: {shows if isinstance(shows, str) else OPEN}, swept {swept or OPEN}")
            if built.failed is not None:
                filled_up = ", filled" if built.failed.filled else ""
                says.append(f"failed hole, {self._quantity(built.failed.deep)} deep{filled_up}")
            place = self._place(built.along, built.pointer_to("along"), built.up, built.pointer_to("up"))
            yield Entry(record.name, place, (", ".join(says), self._seen(built)), built.pointer)

    def _beyond(self) -> Iterator[Entry]:
        wall = self.plan.walls[self.wall]
        if wall.other_face is not None:
            yield Entry(
                wall.other_face.wall, Place(), ("a wall of this plan: print its sheet too",), wall.other_face.pointer
            )
        elif wall.beyond is None:
            yield Entry("what is there", Place(), (OPEN,), wall.pointer)
        for name, point in (wall.beyond or {}).items():
            place = self._place(point.along, point.pointer_to("along"), point.up, point.pointer_to("up"))
            cable = point.cable if isinstance(point.cable, str) else "nobody knows which way its cable goes"
            yield Entry(name, place, (f"cable {cable}, seen through the wall",), point.pointer)

    def _open(self) -> Iterator[str]:
        """What is wrong and what is not known at this wall, by its number in the report."""
        told = [entry for entry in put_together(self.judgement).numbered if self._is_here(entry.outcomes)]
        if told:
            yield from self._heading("Open in the report", ())
        for entry in told:
            severity = entry.severity if isinstance(entry, Errand) else entry.rule.severity
            what = f"find out: {entry.missing.label}" if isinstance(entry, Errand) else entry.rule.title
            names = ", ".join(dict.fromkeys(o.subject.name for o in entry.outcomes if self._is_here([o])))
            shown = "STOP" if severity == "stop" else severity
            first, *others = wrapped(f"{entry.number:>2}  {shown}: {self.printer.text(what)} ({names})", len(INDENT))
            yield first
            yield from (f"    {line}" for line in others)

    def _is_here(self, outcomes: Iterable[object]) -> bool:
        return any(fold(outcome.subject.wall) == fold(self.wall) for outcome in outcomes)  # type: ignore[attr-defined]

    # How things are shown.

    def _table(self, heading: str, entries: Iterable[Entry]) -> Iterator[str]:
        found = list(entries)
        if not found:
            return
        placed = any(entry.place.along is not None or entry.place.up is not None for entry in found)
        floor = self.levels.finished_floor
        laid = isinstance(floor, Known) and bool(floor.value)
        yield from self._heading(heading, ("along", "up", "above the floor" if laid else "") if placed else ())
        for entry in found:
            cells = [self._shown(place) if place is not None else "" for place in entry.place]
            if laid and entry.place.up is not None:
                subject = Subject(entry.name, entry.pointer)
                cells.append(self._shown(difference(entry.place.up, floor, subject, "above the finished floor")))
            yield from self._row(entry.name, cells, entry.says, entry.pointer)

    def _heading(self, heading: str, over: Sequence[str]) -> Iterator[str]:
        yield ""
        heading = self.printer.text(heading)
        columns_ = "".join(filled(self.printer.text(word), COLUMN) for word in over)
        line = filled(heading, len(INDENT) + NAMES) + columns_ if columns(heading) < len(INDENT) + NAMES else heading
        yield self.style.strong(line.rstrip())
        if line == heading and columns_.strip():
            yield (" " * (len(INDENT) + NAMES) + columns_).rstrip()

    def _row(self, name: str, cells: Sequence[str], says: Sequence[str], pointer: str) -> Iterator[str]:
        name = name.rstrip() if name.startswith(" ") else one_line(name)
        line = INDENT + filled(name, NAMES) if columns(name) < NAMES else INDENT + name + "  "
        line += "".join(filled(cell, COLUMN) if columns(cell) < COLUMN else f"{cell}  " for cell in cells)
        yield from wrapped(line.rstrip()) if columns(line.rstrip()) > WIDTH else (line.rstrip(),)
        where = self.printer.lines([pointer]) if pointer else ""
        texts = [text for text in says if text]
        if where:
            texts = [*texts, where]
        yield from wrapped("; ".join(texts), 2 * len(INDENT)) if texts else ()

    def _place(self, along: Along | None, at: str, up: Height | None, up_at: str) -> Place:
        """A place of the plan as one of the wall; '' where the plan does not say."""
        across = None if along is None else place_along(self.plan, self.wall, along, at, "place")
        return Place(across, None if up is None else self.levels.above_bare_floor(up, up_at, "place", None))

    def _shown(self, value: Given) -> str:
        return self.printer.given(value, OPEN)

    def _ends(self, low: float, high: float) -> str:
        return self.printer.ends(low, high, LENGTH)

    def _quantity(self, value: Quantity | ToFind | NothingStated | None) -> str:
        if not isinstance(value, Quantity):
            return OPEN
        return self._ends(value.low, value.high) + (", assumed" if value.assumed else "")

    def _size(self, one: Quantity | ToFind | None, other: Quantity | ToFind | None) -> str:
        return f"{self._quantity(one)} x {self._quantity(other)}"

    def _material(self, material: str | ToFind | None) -> str:
        return self.printer.text(material) if isinstance(material, str) else OPEN

    def _known(self, element: Element) -> str:
        """How studs or a noggin are known: by their record, or as drawn."""
        found = fold(split(element.pointer)[0]) == "built"
        return self._record_of(element.pointer) if found else "as drawn"

    def _record_of(self, pointer: str) -> str:
        """The record that a pointer is in: its name, how it is known, when, and the photo."""
        name = split(pointer)[1]
        return f"as found, {name}: {self._seen(self.plan.built[name])}"

    def _seen(self, element: Element) -> str:
        how, seen, photo = (getattr(element, field, None) for field in ("known_by", "seen", "photo"))
        on = self.printer.value(seen.low, DATE) if isinstance(seen, Quantity) else ""
        said = [how if isinstance(how, str) else "", on, f"photo {photo}" if photo else ""]
        return ", ".join(text for text in said if text) or "how and when nobody says"


def _of(row: Row, field: str) -> Given:
    return row.known.get(field) or row.why_not_known(field)
