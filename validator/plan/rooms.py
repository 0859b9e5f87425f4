"""The rooms of a plan: the one at its top, those under `rooms`, and the names by which their walls are called."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeVar

from validator.plan.elements import Section, entry
from validator.plan.names import fold
from validator.plan.pointers import join

if TYPE_CHECKING:
    from validator.plan.sections.openings import Opening
    from validator.plan.sections.room import Boxing, Ceiling, Corner, Covering, Diagonal, Floor, Wall

T = TypeVar("T")

_TO = re.compile(r"\s+to\s+", re.IGNORECASE)

PARTS = ("ceiling", "walls", "corners", "diagonals", "boxings", "openings", "floor", "floors")
"""What a plan says of a room, at its top or under the name of a room."""

AT_THE_TOP = "room"
"""What the room at the top of a plan is called where the project does not name it."""


@dataclass(frozen=True, eq=False)
class Room:
    """One room as found and as it is to be floored.

    `walls` are in walking order, by the names the whole plan calls them, and found by their own names, too. `called` is
    what a reader is told, '' where the plan has no other room. What a room does not say itself is that of the top
    where no walls stand there.
    """

    name: str
    pointer: str
    called: str
    walls: Section[Wall]
    corners: Section[Corner]
    diagonals: Section[Diagonal]
    boxings: Section[Boxing]
    openings: Section[Opening]
    ceiling: Ceiling | None
    floor: Floor | None
    floors: Section[Covering]

    def pointer_to(self, part: str) -> str:
        """Where a part of the room stands or would stand: `/ceiling`, `/rooms/utility/ceiling`."""
        return join(self.pointer, part)

    def corner(self, name: str) -> tuple[str, str] | None:
        """The two walls that meet in a corner of this room, in walking order; None for no corner."""
        return corner_of(self.walls, name)

    def between(self, name: str) -> tuple[int, int] | None:
        """The two corners of a diagonal (`north-west to south-east`), by the numbers of the walls they lie right of."""
        ends = [self.corner(end) for end in _TO.split(name)]
        if len(ends) != 2 or ends[0] is None or ends[1] is None:
            return None
        walls = list(self.walls)
        return walls.index(ends[0][0]), walls.index(ends[1][0])

    def corner_at(self, wall: str, beside: str) -> Corner | None:
        """What the plan says of the corner of two walls; None where it says nothing."""
        if wall not in self.walls or beside not in self.walls:
            return None
        wanted = {self.walls.written(wall), self.walls.written(beside)}
        return next((said for name, said in self.corners.items() if set(self.corner(name) or ()) == wanted), None)


def corner_of(walls: Section[Any], name: str) -> tuple[str, str] | None:
    """The neighbouring walls whose own names, in either order, make the name of a corner.

    A name with the room before it, `utility / north-east`, is as good.
    """
    wanted = fold(name.rpartition(" / ")[2])
    own = [(wall, wall.rpartition(" / ")[2]) for wall in walls]
    for (left, left_name), (right, right_name) in zip(own, own[1:] + own[:1], strict=True):
        if wanted in (fold(f"{left_name}-{right_name}"), fold(f"{right_name}-{left_name}")):
            return left, right
    return None


class RoomNames:
    """What the walls of all rooms are called: by their own name where no other room has it, else `utility / north`.

    Made from what is written, so that a mistake in a wall keeps its name.
    """

    def __init__(self, sections: Mapping[str, Any]) -> None:
        top = entry(sections.get("project"), "room")
        self.top = top if isinstance(top, str) else AT_THE_TOP
        self.rooms = _mapping(sections.get("rooms"))
        self.has_top = "walls" in sections or not self.rooms
        written = {self.top: _mapping(sections.get("walls"))} if self.has_top else {}
        for room, parts in self.rooms.items():
            written[room] = _mapping(entry(parts, "walls"))
        self.rooms_with: dict[str, list[str]] = {}
        for room, walls in written.items():
            for wall in walls:
                self.rooms_with.setdefault(fold(wall), []).append(room)
        self.of_room: dict[str, dict[str, str]] = {}
        self.known: dict[str, str] = {}
        for room, walls in written.items():
            ways = self.of_room[fold(room)] = self._ways(room, walls)
            self.known.update(ways)
        for wall, rooms in self.rooms_with.items():
            if len(rooms) > 1:
                del self.known[wall]

    def _ways(self, room: str, walls: Iterable[str]) -> dict[str, str]:
        """The walls of a room by every way to name them inside it, folded."""
        found: dict[str, str] = {}
        for wall in walls:
            alone = len(self.rooms_with[fold(wall)]) == 1
            found[fold(wall)] = found[fold(f"{room} / {wall}")] = wall if alone else f"{room} / {wall}"
        return found

    def beside(self, wall: str) -> dict[str, str] | None:
        """The walls of the room of a wall, by every way to name them inside it; None where no room has the wall."""
        called = self.known.get(fold(wall))
        return next((ways for ways in self.of_room.values() if called in ways.values()), None) if called else None


def together(pointer: str, rooms: Sequence[tuple[str, Section[T]]]) -> Section[T]:
    """A part of all rooms as one section; a name that several rooms have stands with its room, `utility / door`."""
    given = [(room, part) for room, part in rooms if not part.left_out]
    if len(given) == 1:
        return given[0][1]
    having: dict[str, int] = {}
    for _, part in given:
        for name in part:
            having[fold(name)] = having.get(fold(name), 0) + 1
    items: dict[str, T] = {}
    also: dict[str, str] = {}
    for room, part in given:
        for name, thing in part.items():
            full = name if " / " in name else f"{room} / {name}"
            called = name if having[fold(name)] == 1 else full
            items[called] = thing
            also[full] = called
    return Section(pointer, items, left_out=not given, also=also)


def _mapping(written: object) -> Mapping[str, Any]:
    return written if isinstance(written, dict) else {}
