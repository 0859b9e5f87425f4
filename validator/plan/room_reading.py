"""Reads the rooms of a plan: the one at its top, and those under `rooms`."""

from __future__ import annotations

import importlib
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from validator.plan.american import KEYS
from validator.plan.elements import Section
from validator.plan.names import fold, nearest
from validator.plan.pointers import join
from validator.plan.reader import Reader
from validator.plan.rooms import PARTS, Room, RoomNames

_BY_NAME = {
    "walls": "Wall",
    "corners": "Corner",
    "diagonals": "Diagonal",
    "boxings": "Boxing",
    "openings": "Opening",
    "floors": "Covering",
}
_SINGLE = {"ceiling": "Ceiling", "floor": "Floor"}
_KEYS = (*PARTS, "note")

Read = Callable[[type[Any], object, str], Any]
ReadAll = Callable[[object, str, str, Callable[[str, Any, str], Any]], Section[Any]]


class RoomReading:
    """The rooms while they are read. `read` reads an element, `read_all` a collection of them by name."""

    def __init__(
        self, sections: Mapping[str, Any], names: RoomNames, reader: Reader, read: Read, read_all: ReadAll
    ) -> None:
        self._sections = sections
        self._names = names
        self._reader = reader
        self._read = read
        self._read_all = read_all

    def rooms(self) -> list[Room]:
        """Every room, that at the top first. Where no walls stand at the top, what else stands there is that of every
        room which does not say its own."""
        names = self._names
        parts = {part: self._sections[part] for part in PARTS if part in self._sections}
        written = self._written()
        top = self._room(names.top, "", names.top if written else "", parts)
        if not written:
            return [top]
        others = [
            self._room(name, join("/rooms", name), name, self._parts_of(each, join("/rooms", name)))
            for name, each in written.items()
        ]
        if not names.has_top:
            others = [_filled_up(room, top) for room in others]
        elif fold(names.top) in map(fold, written):
            expected = "another name, or another `room` of the project"
            self._reader.problem(join("/rooms", names.top), f"`{names.top}` is the room at the top", expected)
        rooms = [top, *others] if names.has_top else others
        return [_with_openings(room, top, rooms) for room in rooms]

    def _written(self) -> Mapping[str, Any]:
        if "rooms" not in self._sections:
            return {}
        return self._reader.mapping(self._sections["rooms"], "/rooms", "`rooms`") or {}

    def _parts_of(self, written: object, pointer: str) -> dict[str, Any]:
        """What is written of a room, by the names of its parts; what is no part of a room is noted."""
        found: dict[str, Any] = {}
        spelt: dict[str, str] = {}
        for key, value in (self._reader.mapping(written, pointer, "a room") or {}).items():
            part = KEYS.get(fold(key), fold(key))
            if part in found:
                self._reader.problem(join(pointer, key), f"`{key}` and `{spelt[part]}` are one", "one of the two")
            elif part in PARTS:
                found[part], spelt[part] = value, key
            elif part != "note":
                meant = nearest(key, _KEYS) or ""
                self._reader.problem(join(pointer, key), f"a room has no `{key}`", ", ".join(_KEYS), meant)
        return found

    def _room(self, name: str, pointer: str, called: str, parts: Mapping[str, Any]) -> Room:
        """A room from its parts; inside it, a wall may be named without the room."""
        ways = self._names.of_room.get(fold(name), {})
        before = self._reader.context["names"]
        if ways:
            self._reader.context["names"] = {**before, "walls": {**before.get("walls", {}), **ways}}
        found = {part: self._all(pointer, part, parts) for part in _BY_NAME}
        ceiling, floor = (self._single(pointer, part, parts) for part in _SINGLE)
        self._reader.context["names"] = before
        walls = found.pop("walls")
        called_by_plan = {ways.get(fold(wall), wall): value for wall, value in walls.items()}
        walls = Section(walls.pointer, called_by_plan, left_out=walls.left_out, also=ways)
        return Room(name, pointer, called, walls, **found, ceiling=ceiling, floor=floor)

    def _all(self, pointer: str, part: str, parts: Mapping[str, Any]) -> Section[Any]:
        at = join(pointer, part)
        if part not in parts:
            return Section(at, left_out=True)
        model = _model(part, _BY_NAME[part])
        return self._read_all(parts[part], at, part, lambda name, written, here: self._read(model, written, here))

    def _single(self, pointer: str, part: str, parts: Mapping[str, Any]) -> Any:
        if part not in parts:
            return None
        return self._read(_model(part, _SINGLE[part]), parts[part], join(pointer, part))


def _filled_up(room: Room, top: Room) -> Room:
    """A room with what stands at the top in place of what it does not say."""
    return replace(
        room,
        ceiling=room.ceiling or top.ceiling,
        floor=room.floor or top.floor,
        floors=top.floors if room.floors.left_out else room.floors,
    )


def _with_openings(room: Room, top: Room, rooms: list[Room]) -> Room:
    """A room with those openings, too, that stand at the top and in its walls; the first takes what is in none."""
    own = {} if room is top else dict(room.openings.items())
    there = {
        name: opening
        for name, opening in top.openings.items()
        if next((each for each in rooms if (opening.wall or opening.in_) in list(each.walls)), rooms[0]) is room
    }
    left_out = room.openings.left_out and not there
    return replace(room, openings=Section(room.openings.pointer, {**own, **there}, left_out=left_out))


def _model(part: str, name: str) -> Any:
    module = "openings" if part == "openings" else "room"
    return getattr(importlib.import_module(f"validator.plan.sections.{module}"), name)
