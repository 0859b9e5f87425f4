"""Floating floors: gaps at every edge, longest runs, and the base they are laid on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.rows import (
    NAME,
    TERM,
    YES_NO,
    Given,
    Known,
    LeftOut,
    Missing,
    Row,
    Rows,
    Subject,
    Why,
    Words,
    figure,
    given,
)
from validator.plan.dimensions import LENGTH, MOISTURE
from validator.plan.names import fold
from validator.plan.pointers import join
from validator.plan.values import Quantity, ToFind

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.plan import Plan
    from validator.plan.rooms import Room
    from validator.plan.sections.appliances import FloorPapers
    from validator.plan.sections.room import Covering, Floor


class FloorEdge(Row, kind="edge of a floating floor"):
    """One edge of a floating floor, at a wall or at a fixed thing; `run` is the longest floor that pushes on it."""

    covering: str = given(TERM, "floor")
    gap: float = given(LENGTH, "gap")
    run: float = given(LENGTH, "floor that pushes on it")
    at: str = given(NAME, "what it meets")
    maker_gap: float = given(LENGTH, "gap the maker asks for")


class FloorField(Row, kind="floating floor"):
    """A floating floor in one piece: its greatest length along its boards and across them."""

    covering: str = given(TERM, "floor")
    length_along: float = given(LENGTH, "room along the boards")
    length_across: float = given(LENGTH, "room across the boards")
    maker_longest: float = given(LENGTH, "longest run the maker allows")

    @figure(LENGTH, "length along the boards", start="wall", end="wall")
    def along(self) -> float:
        return self.length_along

    @figure(LENGTH, "length across the boards", start="wall", end="wall")
    def across(self) -> float:
        return self.length_across


class BaseUnderFloor(Row, kind="base under a floor"):
    """The base a floor is to be laid on, with its moisture by the meter that read it."""

    covering: str = given(TERM, "floor")
    base: str = given(TERM, "base")
    reading: float = given(MOISTURE, "moisture")
    meter: str = given(Words(("hygrometer", "carbide", "pin meter", "gypsum scale")), "meter")
    heated: bool = given(YES_NO, "whether the floor is heated")


def floor_edges(site: Site) -> Rows:
    """A row for each wall and each fixed thing that a floating floor meets; none for floors that do not float."""
    plan = site.plan
    found = Rows()
    for room, name, covering in _floating(site, FloorEdge.kind, found):
        values: dict[str, Given] = {"covering": _term(name, covering)}
        papers = _papers(plan, name, covering)
        values["maker_gap"] = _stated(plan, name, papers, "gap", "gap the maker asks for")
        if not room.walls:
            missing = Missing(room.walls.pointer, "walls of the room")
            found.left_out.append(LeftOut(FloorEdge.kind, missing))
        for wall in room.walls:
            subject = Subject(f"{name} at the {wall} wall", covering.pointer, f"{wall} wall", wall)
            at = reading.exactly(wall, room.walls[wall].pointer, "what it meets")
            gap = reading.read(covering, "gap", "gap")
            found.rows.append(FloorEdge(subject, gap=gap, run=_away_from(room, wall), at=at, **values))
        for thing, gap_there in (covering.fixed or {}).items():
            pointer = join(covering.pointer_to("fixed"), thing)
            subject = Subject(f"{name} at {thing}", pointer, room.called)
            found.rows.append(
                FloorEdge(
                    subject,
                    gap=reading.quantity(gap_there, pointer, "gap"),
                    run=_longest(room, list(room.walls)),
                    at=reading.exactly(thing, pointer, "what it meets"),
                    **values,
                )
            )
    return found


def floor_fields(site: Site) -> Rows:
    """A row for each floating floor, measured along and across its boards at the longest place of the room."""
    plan = site.plan
    found = Rows()
    for room, name, covering in _floating(site, FloorField.kind, found):
        along, across = _along_and_across(room, covering)
        papers = _papers(plan, name, covering)
        found.rows.append(
            FloorField(
                Subject(name, covering.pointer, room.called),
                covering=_term(name, covering),
                length_along=along,
                length_across=across,
                maker_longest=_stated(plan, name, papers, "longest_run", "longest run the maker allows"),
            )
        )
    return found


def bases_under_floors(site: Site) -> Rows:
    """A row for each floor to be laid in each room, floating or not."""
    found = Rows()
    for room, name, covering in _laid(site, BaseUnderFloor.kind, found):
        subject = Subject(name, covering.pointer, room.called)
        found.rows.append(BaseUnderFloor(subject, covering=_term(name, covering), **_base(site.plan, room)))
    return found


def _laid(site: Site, kind: str, found: Rows) -> Iterator[tuple[Room, str, Covering]]:
    """The floors to be laid, room by room. A room that says nothing of its floors is noted in place of rows."""
    for room in site.plan.rooms.values():
        if room.floors.left_out:
            found.left_out.append(LeftOut(kind, Missing(room.floors.pointer, "floors to be laid")))
        for name, covering in room.floors.items():
            yield room, name, covering


def _floating(site: Site, kind: str, found: Rows) -> Iterator[tuple[Room, str, Covering]]:
    """The floors that float. A floor of which nobody knows whether it does is noted in place of its rows."""
    groups = site.library.groups
    for room, name, covering in _laid(site, kind, found):
        term = _term(name, covering)
        if not isinstance(term, Known):
            found.left_out.extend(LeftOut(kind, missing) for missing in (term if isinstance(term, tuple) else (term,)))
        elif fold(term.value) in groups.get("floating_floors", frozenset()):
            yield room, name, covering
        elif fold(term.value) not in groups.get("fixed_floors", frozenset()):
            question = f"does {term.value} float, or is it fixed to its base?"
            found.left_out.append(LeftOut(kind, Missing(covering.pointer, name, Why.UNCLEAR, detail=question)))


def _term(name: str, covering: Covering) -> Given:
    if isinstance(covering.is_, ToFind):
        return Missing(covering.pointer_to("is"), "floor", Why.TO_FIND, covering.is_.by)
    return reading.exactly(covering.is_ or name, covering.pointer, "floor")


def _papers(plan: Plan, name: str, covering: Covering) -> FloorPapers | None:
    from validator.plan.sections.appliances import FloorPapers

    for stated_as in (name, covering.is_):
        papers = plan.stated.get(stated_as) if isinstance(stated_as, str) else None
        if isinstance(papers, FloorPapers):
            return papers
    return None


def _stated(plan: Plan, name: str, papers: FloorPapers | None, field: str, label: str) -> Given:
    if papers is None:
        return Missing(join(plan.stated.pointer, name), label, Why.UNREAD)
    return reading.quantity(getattr(papers, field), papers.pointer_to(field), label, absent=Why.UNREAD)


def _away_from(room: Room, wall: str) -> Given:
    """How far the room reaches from a wall at right angles: the walls beside it, at the longest reading."""
    names = list(room.walls)
    if len(names) != 4:
        question = f"how far does the floor reach from the {wall} wall, at right angles to it?"
        return Missing(room.walls.pointer, "floor that pushes on it", Why.UNCLEAR, detail=question)
    place = names.index(wall)
    return _longest(room, [names[place - 1], names[(place + 1) % 4]])


def _longest(room: Room, walls: Sequence[str]) -> Given:
    """The greatest length of several walls. Of several readings the greatest is meant, a range stays one."""
    if not walls:
        return Missing(room.walls.pointer, "walls of the room")
    missing: list[Missing] = []
    found: list[tuple[float, float, Quantity, str, str]] = []
    for name in walls:
        wall = room.walls[name]
        pointer = wall.pointer_to("length")
        match wall.length:
            case Quantity() as length:
                low = max(length.readings) if length.readings else length.low
                found.append((length.high, low, length, pointer, name))
            case ToFind() as unknown:
                missing.append(Missing(pointer, f"length of the {name} wall", Why.TO_FIND, unknown.by))
            case None:
                missing.append(Missing(pointer, f"length of the {name} wall"))
    if missing:
        return tuple(missing)
    high, _, longest, pointer, name = max(found, key=lambda entry: entry[:2])
    return Known(
        value=max(low for _, low, *_ in found),
        pointer=pointer,
        text=longest.text,
        label=f"{name} wall",
        low=max(low for _, low, *_ in found),
        high=high,
        assumed=any(length.assumed for _, _, length, *_ in found),
    )


def _along_and_across(room: Room, covering: Covering) -> tuple[Given, Given]:
    pointer = covering.pointer_to("runs")
    names = list(room.walls)
    if covering.runs is None:
        missing = Missing(pointer, "which way the boards run")
        return missing, missing
    if len(names) != 4:
        question = "how long is the floor at most, along its boards and across them?"
        unclear = Missing(room.walls.pointer, "longest floor", Why.UNCLEAR, detail=question)
        return unclear, unclear
    walls = room.walls
    ends = [names.index(walls.written(end)) for end in fold(covering.runs).split(" to ") if end in walls]
    if len(ends) != 2 or abs(ends[0] - ends[1]) != 2:
        question = f"`{covering.runs}`: from which wall to the one opposite do the boards run?"
        unclear = Missing(pointer, "which way the boards run", Why.UNCLEAR, detail=question)
        return unclear, unclear
    return _away_from(room, names[ends[0]]), _away_from(room, names[(ends[0] + 1) % 4])


def _base(plan: Plan, room: Room) -> dict[str, Given]:
    floor = room.floor
    if floor is None:
        missing = Missing(room.pointer_to("floor"), "floor as found")
        return {"base": missing, "reading": missing, "meter": missing, "heated": missing}
    moisture = floor.moisture
    at = floor.pointer_to("moisture")
    return {
        "base": _top_layer(plan, floor),
        "reading": reading.read(moisture, "reading", "moisture") if moisture else Missing(at, "moisture"),
        "meter": (
            reading.word(moisture.meter, moisture.pointer_to("meter"), "meter") if moisture else Missing(at, "meter")
        ),
        "heated": reading.word(floor.heated, floor.pointer_to("heated"), "whether the floor is heated"),
    }


def _top_layer(plan: Plan, floor: Floor) -> Given:
    made_of = floor.made_of
    pointer = floor.pointer_to("made_of")
    if isinstance(made_of, ToFind):
        return Missing(pointer, "base", Why.TO_FIND, made_of.by)
    if made_of is None:
        return Missing(pointer, "base")
    if made_of not in plan.layers or not plan.layers[made_of]:
        return Missing(join(plan.layers.pointer, made_of), "base")
    top = plan.layers[made_of][0]
    return reading.word(top.material, top.pointer_to("material"), "base")
