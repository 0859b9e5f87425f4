"""Fixings beside edges of their wall, and beside each other: where a wall breaks out, and two count as one.

Edges are the sides, sills and heads of openings, and the corners at which a wall ends in the room.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import most
from validator.measures.room.openings import clear_between, holes_by_wall
from validator.measures.room.walls import apart, at_left, at_right, difference, length_of
from validator.measures.rows import NAME, TERM, Given, Known, LeftOut, Missing, Row, Rows, Subject, figure, given
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.room.openings import Hole
    from validator.measures.site import Site


class FixingAtEdge(Row, kind="fixing near an edge"):
    """One hole of a fixing on a wall with edges, and the edge nearest to it.

    `aside` and `upward` are what is clear of an opening along the wall and up it; less than 0 where the hole is in line
    with the opening.
    """

    aside: float = given(LENGTH, "beside the edge")
    upward: float = given(LENGTH, "above or below it")
    edge: str = given(NAME, "edge")
    base: str = given(TERM, "what carries it")
    diameter: float = given(LENGTH, "diameter of the plug or screw")
    maker_edge: float = given(LENGTH, "distance from an edge that its maker asks for")

    @figure(LENGTH, "to the edge", start="edge of the wall", end="middle of the hole")
    def to_edge(self) -> float:
        return most(self.aside, self.upward)


class FixingBesideEdge(FixingAtEdge, kind="fixing near an edge"):
    """A hole beside an opening, or at an end of the wall: how high it is makes no difference."""

    @figure(LENGTH, "to the edge", start="edge of the wall", end="middle of the hole")
    def to_edge(self) -> float:
        return self.aside


class FixingsSideBySide(Row, kind="fixings side by side"):
    """The two holes of a fixing in one run that are closest to each other."""

    between: float = given(LENGTH, "between two holes")
    base: str = given(TERM, "what carries it")


def fixings_near_edges(site: Site) -> Rows:
    """A row for each hole of a fixing on a wall that has an opening, or an end in the room."""
    rows = Rows()
    holes = list(_held(site))
    if not holes:
        return rows
    for room in site.plan.rooms.values():
        if room.openings.left_out:
            missing = Missing(room.openings.pointer, "doors and windows")
            rows.left_out.append(LeftOut(FixingAtEdge.kind, missing))
    openings = holes_by_wall(site)
    ends = {wall: list(_ends_in_the_room(site, wall)) for wall in {hole.subject.wall for hole, _ in holes}}
    for hole, fixing in holes:
        wall = hole.subject.wall
        found = [_at_opening(hole, opening, fixing) for opening in openings.get(fold(wall), ())]
        found += [_at_end(site, hole, end, fixing) for end in ends[wall]]
        if found:
            rows.rows.append(min(found, key=_order))
    return rows


def fixings_side_by_side(site: Site) -> Rows:
    """A row for each fixing and each run of hung units that it holds, of the two holes closest to each other."""
    groups: dict[tuple[int, str, str], tuple[Row, list[Row]]] = {}
    for hole, fixing in _held(site):
        run = hole.subject.pointer.rpartition("/order/")[0]
        groups.setdefault((id(fixing), hole.subject.wall, run), (fixing, []))[1].append(hole)
    rows = Rows()
    for fixing, holes in groups.values():
        pairs = [_pair(one, other, fixing) for one, other in pairwise(sorted(holes, key=_place))]
        if pairs:
            rows.rows.append(min(pairs, key=_closeness))
    return rows


def _held(site: Site) -> Iterator[tuple[Row, Row]]:
    """The holes in walls with the fixings that they are for, found by the thing held or by the fixing itself."""
    of: Mapping[str, Iterable[Row]] = site.fixings.of
    for hole in site.rows("drill point").rows:
        for fixing in of.get(hole.subject.pointer, ()):
            if fixing.subject.wall in ("", hole.subject.wall):
                yield hole, fixing


def _value(row: Row, field: str) -> Given:
    return row.known.get(field) or row.why_not_known(field)


def _at_opening(hole: Row, opening: Hole, fixing: Row) -> Row:
    subject = hole.subject
    along, up = _value(hole, "along"), _value(hole, "up")
    aside = clear_between(along, along, opening.left, opening.right, subject, f"beside the {opening.name}")
    edge = reading.exactly(opening.name, opening.opening.pointer, "edge")
    if isinstance(aside, Known) and (aside.low or 0.0) >= 0:
        return FixingBesideEdge(subject, aside=aside, edge=edge, **_of_fixing(fixing))
    upward = clear_between(up, up, opening.sill, opening.head, subject, f"above or below the {opening.name}")
    return FixingAtEdge(subject, aside=aside, upward=upward, edge=edge, **_of_fixing(fixing))


def _of_fixing(fixing: Row) -> dict[str, Given]:
    """What a fixing says of itself that decides how near an edge it may sit."""
    screwed = fixing.known.get("kind_of", Known("")).value == "wood screw"
    return {
        "base": _value(fixing, "base"),
        "diameter": _value(fixing, "screw_diameter" if screwed else "plug_diameter"),
        "maker_edge": _value(fixing, "maker_edge"),
    }


def _ends_in_the_room(site: Site, wall: str) -> Iterator[str]:
    """The ends, left and right, at which a wall sticks out into the room."""
    room = site.plan.room_of(wall)
    for end, beside in (("left", at_left(site.plan, wall)), ("right", at_right(site.plan, wall))):
        corner = room.corner_at(wall, beside) if room is not None and beside is not None else None
        if corner is not None and corner.outside:
            yield end


def _at_end(site: Site, hole: Row, end: str, fixing: Row) -> Row:
    along, label = _value(hole, "along"), f"{end} end of the {hole.subject.wall} wall"
    clear = along if end == "left" else difference(length_of(site.plan, hole.subject.wall), along, hole.subject, label)
    edge = reading.exactly(f"{end} end of the wall", hole.subject.pointer, "edge")
    return FixingBesideEdge(hole.subject, aside=clear, edge=edge, **_of_fixing(fixing))


def _order(row: Row) -> float:
    """The edge that may be nearest comes first; one of which nobody knows where it is, before all."""
    clear = [known for field in ("aside", "upward") if (known := row.known.get(field)) is not None]
    if row.missing.keys() & {"aside", "upward"}:
        return float("-inf")
    return max(float(known.low or 0.0) for known in clear)


def _pair(one: Row, other: Row, fixing: Row) -> Row:
    names = f"{one.subject.name} and {other.subject.name}"
    subject = Subject(fixing.subject.name, fixing.subject.pointer, names, one.subject.wall)
    return FixingsSideBySide(
        subject,
        between=apart(_value(one, "along"), _value(other, "along"), subject, "between two holes"),
        base=_value(fixing, "base"),
    )


def _place(hole: Row) -> float:
    along = hole.known.get("along")
    return float(along.value) if along is not None else 0.0


def _closeness(pair: Row) -> float:
    between = pair.known.get("between")
    return float(between.low or 0.0) if between is not None else float("-inf")
