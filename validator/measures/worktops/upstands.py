"""What stands on the worktop at the wall: upstands below sills and plates, and splashbacks below hoods."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.appliances.appliance_places import HOBS, of_kinds
from validator.measures.room.walls import difference
from validator.measures.rows import TERM, YES_NO, Given, Known, Missing, Row, Rows, Subject, figure, given
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold
from validator.plan.values import NothingStated

if TYPE_CHECKING:
    from validator.measures.heights.heights import WorktopOnRun
    from validator.measures.site import Site
    from validator.measures.worktops.pieces import Piece


class PointOverUpstand(Row, kind="point over an upstand"):
    """The plate of a point over a worktop that has an upstand."""

    above: float = given(LENGTH, "middle of the plate above the worktop")
    half_plate: float = given(LENGTH, "half of its plate")
    upstand: float = given(LENGTH, "upstand")

    @figure(LENGTH, "lower edge of the plate", start="worktop", end="lower edge of the plate")
    def lower_edge(self) -> float:
        return self.above - self.half_plate


class SplashbackAtHob(Row, kind="splashback at a hob"):
    """The panel behind a hob, between the worktop and what hangs over the hob."""

    material: str = given(TERM, "material of the splashback")
    height: float = given(LENGTH, "splashback")
    below: float = given(LENGTH, "gap below it")
    has_above: bool = given(YES_NO, "whether something hangs over the hob")
    room: float = given(LENGTH, "room over the worktop")

    @figure(LENGTH, "gap under the panel", start="worktop", end="lower edge of the splashback")
    def gap(self) -> float:
        return self.below

    @figure(LENGTH, "left above it", start="upper edge of the splashback", end="underside of what hangs over the hob")
    def left_above(self) -> float:
        return self.room - self.below - self.height


class _Span(NamedTuple):
    """A worktop, from where to where its run stands, and its own pieces."""

    worktop: WorktopOnRun
    left: Given
    right: Given
    pieces: list[Piece]


WorktopsByWall = dict[str, list[_Span]]


def worktops_by_wall(site: Site) -> WorktopsByWall:
    """The worktops at each wall by its folded name, and from where to where their runs stand."""
    found: WorktopsByWall = {}
    for name, top in site.plan.worktops.items():
        things = site.setting_out.in_run(top.on) if top.on in site.plan.runs else []
        if things:
            span = _Span(site.levels.worktops[name], things[0].left, things[-1].right, site.worktop_pieces[name])
            found.setdefault(fold(things[0].wall), []).append(span)
    return found


def below(worktops: WorktopsByWall, wall: str, along: Given) -> WorktopOnRun | None:
    """The worktop below a place of a wall, as far as anybody knows where both are; of several on a run the one that
    lies there itself, before one that is parted there.
    """
    spans = [span for span in worktops.get(fold(wall), ()) if _reaches(span.left, along, span.right)]
    there = (span for span in spans if any(_reaches(piece.start, along, piece.end) for piece in span.pieces))
    found = next(there, None) or next(iter(spans), None)
    return found.worktop if found is not None else None


def _reaches(left: Given, along: Given, right: Given) -> bool:
    places = [place for place in (left, along, right) if isinstance(place, Known)]
    return len(places) < 3 or places[0].value <= places[1].value <= places[2].value


def upstand_of(site: Site, worktop: WorktopOnRun) -> dict[str, Given]:
    """Whether a worktop has an upstand, and how high it is; one that the plan does not name is not there."""
    said = site.plan.worktops[worktop.subject.name]
    there = said.upstand is not None and not isinstance(said.upstand, NothingStated)
    return {
        "has_upstand": reading.exactly(there, said.pointer_to("upstand"), "whether it has an upstand"),
        "upstand": reading.read(said, "upstand", "upstand"),
    }


def points_over_upstands(site: Site) -> Rows:
    """A row for each point over a worktop with an upstand."""
    worktops, rows = worktops_by_wall(site), Rows()
    for placed, point in zip(site.points.all(), site.rows("point on a wall").rows, strict=True):
        over = point.known.get("over_worktop")
        worktop = below(worktops, placed.on, placed.along) if over is not None and over.value else None
        upstand = upstand_of(site, worktop) if worktop is not None else {}
        has = upstand.pop("has_upstand", None)
        if isinstance(has, Known) and has.value:
            above = difference(
                site.points.height(placed.name), site.points.worktop(placed.name), point.subject, "middle of the plate"
            )
            half = site.points.half_plate(placed.name, "h")
            rows.rows.append(PointOverUpstand(point.subject, above=above, half_plate=half, **upstand))
    return rows


def splashbacks_at_hobs(site: Site) -> Rows:
    """A row for each hob whose splashback has a height or a gap; what hangs lowest over the hob ends its room."""
    rows = Rows()
    for name in of_kinds(site.plan, HOBS):
        splashback = site.plan.appliances[name].splashback
        if splashback is None or (splashback.height is None and splashback.gap is None):
            continue
        subject = Subject(name, splashback.pointer)
        rooms = [_room_below(row) for row in _over(site, name)]
        known = [room for room in rooms if isinstance(room, Known)]
        room = min(known, key=lambda room: room.low or 0.0) if len(known) == len(rooms) > 0 else next(iter(rooms), None)
        rows.rows.append(
            SplashbackAtHob(
                subject,
                material=reading.word(splashback.is_, splashback.pointer_to("is"), "material of the splashback"),
                height=reading.read(splashback, "height", "splashback"),
                below=reading.read(splashback, "gap", "gap below it"),
                has_above=reading.exactly(bool(rooms), splashback.pointer, "whether something hangs over the hob"),
                room=room if room is not None else Missing(splashback.pointer, "what hangs over the hob"),
            )
        )
    return rows


def _over(site: Site, hob: str) -> list[Row]:
    """The hood and the unit over a hob, as rows with an underside and a surface."""
    kinds = ("hob under hood", "unit over a hob")
    return [row for kind in kinds for row in site.rows(kind).rows if row.subject.name == hob]


def _room_below(row: Row) -> Given:
    ends = [row.known[name] if name in row.known else row.why_not_known(name) for name in ("underside", "surface")]
    return difference(ends[0], ends[1], row.subject, "room over the worktop")
