"""Hobs and cookers beside doorways and under windows, and the windows that air their room."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import (
    FUEL,
    HOBS,
    fuel_of,
    none_yet,
    of_kinds,
    place_of,
    subject_of,
)
from validator.measures.room.openings import WAYS, holes_by_wall, sort_of
from validator.measures.rows import (
    NAME,
    YES_NO,
    Given,
    Known,
    LeftOut,
    Missing,
    Row,
    Rows,
    Subject,
    Words,
    figure,
    gaps_of,
    given,
)
from validator.measures.worktops.tops import cut_of
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.room.openings import Hole
    from validator.measures.site import Site
    from validator.measures.worktops.tops import Cut
    from validator.plan.rooms import Room

UNKNOWN = float("-inf")
DOORWAYS, WINDOWS = ("door", "opening"), ("window",)
AIRING = ("window", "rooflight")


class HobByDoorway(Row, kind="hob by a doorway"):
    """A hob or a cooker and the nearest door or open passage of its wall; less than 0 where one is across the other."""

    doorway: str = given(NAME, "doorway")
    fuel: str = given(FUEL, "fuel of the hob")
    further: float = given(LENGTH, "further side of the room between them")
    nearer: float = given(LENGTH, "nearer side of the room between them")

    @figure(LENGTH, "clear of the doorway", start="edge of the hob", end="edge of the doorway")
    def clear(self) -> float:
        return self.further - self.nearer


class HobByWindow(Row, kind="hob by a window"):
    """A hob or a cooker and the nearest window of its wall; less than 0 where the hob is under the window."""

    window: str = given(NAME, "window")
    opens: str = given(Words(WAYS), "how it opens")
    fuel: str = given(FUEL, "fuel of the hob")
    further: float = given(LENGTH, "further side of the room between them")
    nearer: float = given(LENGTH, "nearer side of the room between them")

    @figure(LENGTH, "clear of the window", start="edge of the hob", end="edge of the window")
    def clear(self) -> float:
        return self.further - self.nearer


class RoomOfHob(Row, kind="room of a hob"):
    """A hob or a cooker, and whether a window or a rooflight of its room can be opened."""

    fuel: str = given(FUEL, "fuel of the hob")
    aired: bool = given(YES_NO, "whether a window of its room opens")


def rooms_of_hobs(site: Site) -> Rows:
    """A row for each hob and cooker."""
    plan = site.plan
    rows = none_yet(plan, RoomOfHob.kind)
    for name in of_kinds(plan, HOBS):
        place = place_of(site, name)
        room = plan.room_of(place.on)
        aired = place.wall if room is None else _aired(room)
        rows.rows.append(RoomOfHob(subject_of(site, place), fuel=fuel_of(name, place.appliance), aired=aired))
    return rows


def _aired(room: Room) -> Given:
    """Whether a window opens; not known while one does not say how, nor what of an opening that may be one."""
    if room.openings.left_out:
        return Missing(room.openings.pointer, "doors and windows")
    label = "whether a window of its room opens"
    gaps: list[Missing] = []
    for name, opening in room.openings.items():
        sort = sort_of(name, opening)
        if sort in AIRING:
            opens = reading.word(opening.opens, opening.pointer_to("opens"), f"how the {name} opens")
            if isinstance(opens, Known) and opens.value != "fixed":
                return reading.exactly(True, opening.pointer, label)
            gaps += gaps_of(opens) if not isinstance(opens, Known) else ()
        elif not sort:
            gaps.append(Missing(opening.pointer_to("is"), f"what {name} is"))
    return tuple(gaps) or reading.exactly(False, room.openings.pointer, label)


def hobs_by_doorways(site: Site) -> Rows:
    """A row for each hob on a wall with a door or an open passage."""
    rows = _left_out(site, HobByDoorway.kind, DOORWAYS)
    for subject, fuel, hole, (further, nearer) in _beside(site, DOORWAYS):
        doorway = reading.exactly(hole.name, hole.opening.pointer, "doorway")
        rows.rows.append(HobByDoorway(subject, doorway=doorway, fuel=fuel, further=further, nearer=nearer))
    return rows


def hobs_by_windows(site: Site) -> Rows:
    """A row for each hob on a wall with a window."""
    rows = _left_out(site, HobByWindow.kind, WINDOWS)
    for subject, fuel, hole, (further, nearer) in _beside(site, WINDOWS):
        opens = reading.word(hole.opening.opens, hole.opening.pointer_to("opens"), f"how the {hole.name} opens")
        window = reading.exactly(hole.name, hole.opening.pointer, "window")
        rows.rows.append(HobByWindow(subject, window=window, opens=opens, fuel=fuel, further=further, nearer=nearer))
    return rows


def _left_out(site: Site, kind: str, sorts: tuple[str, ...]) -> Rows:
    """No rows yet, and what the plan has left out of what they are made from."""
    plan = site.plan
    rows = none_yet(plan, kind)
    places = [place_of(site, name) for name in of_kinds(plan, HOBS)]
    if any(sort_of(name, opening) in sorts for name, opening in plan.openings.items()):
        rows.left_out += [LeftOut(kind, place.wall) for place in places if isinstance(place.wall, Missing)]
    rooms = [plan.room_of(place.on) for place in places]
    unsaid = [room.openings.pointer for room in rooms if room is not None and room.openings.left_out]
    rows.left_out += [LeftOut(kind, Missing(pointer, "doors and windows")) for pointer in dict.fromkeys(unsaid)]
    return rows


def _beside(site: Site, sorts: tuple[str, ...]) -> Iterator[tuple[Subject, Given, Hole, tuple[Given, Given]]]:
    """Each hob with the nearest opening of these sorts on its wall, and the places between which the room lies.

    A window that never opens stands for none that does.
    """
    holes = holes_by_wall(site)
    for name in of_kinds(site.plan, HOBS):
        place = place_of(site, name)
        there = [hole for hole in holes.get(fold(place.on), ()) if sort_of(hole.name, hole.opening) in sorts]
        if place.on and there:
            hob, cut = place.appliance, cut_of(place, "hob")
            hole = min(there, key=lambda hole: (hole.opening.opens == "fixed", _room(_between(cut, hole))))
            yield subject_of(site, place), fuel_of(name, hob), hole, _between(cut, hole)


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
