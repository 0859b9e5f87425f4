"""Hobs and cookers beside doorways and under windows: distances along the wall."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import HOBS, fuel_of, of_kinds, of_no_kind, place_of
from validator.measures.appliances.hoods import span_of
from validator.measures.room.openings import WAYS, holes_by_wall, sort_of
from validator.measures.room.walls import called_wall
from validator.measures.rows import NAME, Given, Known, LeftOut, Missing, Row, Rows, Subject, Words, figure, given
from validator.measures.worktops.tops import cut_of
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.room.openings import Hole
    from validator.measures.site import Site
    from validator.measures.worktops.tops import Cut

UNKNOWN = float("-inf")

FUELS = Words(("gas", "induction", "ceramic", "solid plate"))


class HobByDoorway(Row, kind="hob by a doorway"):
    """A hob or a cooker and the nearest door or open passage of its wall; less than 0 where one is across the other."""

    doorway: str = given(NAME, "doorway")
    fuel: str = given(FUELS, "fuel of the hob")
    further: float = given(LENGTH, "further side of the room between them")
    nearer: float = given(LENGTH, "nearer side of the room between them")

    @figure(LENGTH, "clear of the doorway", start="edge of the hob", end="edge of the doorway")
    def clear(self) -> float:
        return self.further - self.nearer


class HobByWindow(Row, kind="hob by a window"):
    """A hob or a cooker and the nearest window of its wall; less than 0 where the hob is under the window."""

    window: str = given(NAME, "window")
    opens: str = given(Words(WAYS), "how it opens")
    fuel: str = given(FUELS, "fuel of the hob")
    further: float = given(LENGTH, "further side of the room between them")
    nearer: float = given(LENGTH, "nearer side of the room between them")

    @figure(LENGTH, "clear of the window", start="edge of the hob", end="edge of the window")
    def clear(self) -> float:
        return self.further - self.nearer


def hobs_by_doorways(site: Site) -> Rows:
    """A row for each hob on a wall with a door or an open passage."""
    rows = _left_out(site, HobByDoorway.kind)
    for subject, fuel, hole, (further, nearer) in _beside(site, ("door", "opening")):
        doorway = reading.exactly(hole.name, hole.opening.pointer, "doorway")
        rows.rows.append(HobByDoorway(subject, doorway=doorway, fuel=fuel, further=further, nearer=nearer))
    return rows


def hobs_by_windows(site: Site) -> Rows:
    """A row for each hob on a wall with a window."""
    rows = _left_out(site, HobByWindow.kind)
    for subject, fuel, hole, (further, nearer) in _beside(site, ("window",)):
        opens = reading.word(hole.opening.opens, hole.opening.pointer_to("opens"), f"how the {hole.name} opens")
        window = reading.exactly(hole.name, hole.opening.pointer, "window")
        rows.rows.append(HobByWindow(subject, window=window, opens=opens, fuel=fuel, further=further, nearer=nearer))
    return rows


def _left_out(site: Site, kind: str) -> Rows:
    """No rows yet, and what the plan has left out of what they are made from."""
    plan = site.plan
    if plan.appliances.left_out:
        return Rows(left_out=[LeftOut(kind, Missing("/appliances", "appliances"))])
    rows = Rows(left_out=of_no_kind(plan, kind))
    rooms = [plan.room_of(place_of(site, name).on) for name in of_kinds(plan, HOBS)]
    unsaid = [room.openings.pointer for room in rooms if room is not None and room.openings.left_out]
    rows.left_out += [LeftOut(kind, Missing(pointer, "doors and windows")) for pointer in dict.fromkeys(unsaid)]
    return rows


def _beside(site: Site, sorts: tuple[str, ...]) -> Iterator[tuple[Subject, Given, Hole, tuple[Given, Given]]]:
    """Each hob with the nearest opening of these sorts on its wall, and the places between which the room lies."""
    holes = holes_by_wall(site)
    for name in of_kinds(site.plan, HOBS):
        place = place_of(site, name)
        there = [hole for hole in holes.get(fold(place.on), ()) if sort_of(hole.name, hole.opening) in sorts]
        if place.on and there:
            hob, cut = place.appliance, cut_of(place, "hob")
            hole = min(there, key=lambda hole: _room(_between(cut, hole)))
            subject = Subject(name, hob.pointer, called_wall(site.plan, place.on), place.on, span_of(place))
            yield subject, fuel_of(name, hob), hole, _between(cut, hole)


def _between(cut: Cut, hole: Hole) -> tuple[Given, Given]:
    """The further and the nearer place of the room between a hob and an opening, on the side where there is more.

    While one side is not known the other only counts where it shows that the two stand clear of each other.
    """
    less, more = sorted([(hole.left, cut.right), (cut.left, hole.right)], key=_room)
    return less if _room(less) == UNKNOWN and _room(more) < 0 else more


def _room(between: tuple[Given, Given]) -> float:
    """The room between two places; where one is not known, they may be the nearest."""
    further, nearer = between
    if not isinstance(further, Known) or not isinstance(nearer, Known):
        return UNKNOWN
    return float(further.value) - float(nearer.value)
