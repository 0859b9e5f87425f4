"""Names that refer to something: each has to name one thing of the plan, and no place may depend on itself."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from validator.plan.circles import Circles
from validator.plan.elements import Element, entry
from validator.plan.fields import Along
from validator.plan.names import fold, nearest
from validator.plan.plan import Plan
from validator.plan.pointers import join
from validator.plan.reader import Reader
from validator.plan.rooms import Room, RoomNames, corner_of
from validator.plan.values import Quantity

if TYPE_CHECKING:
    from validator.plan.sections.drilling import Chase, DrillHole, Route
    from validator.plan.sections.furniture import Run, Worktop
    from validator.plan.sections.room import Part, Wall

_CALLED = {
    "walls": "wall",
    "layers": "layers",
    "runs": "run",
    "worktops": "worktop",
    "items": "thing in a run",
    "appliances": "appliance",
    "points": "point",
    "circuits": "circuit",
    "people": "person",
    "tasks": "task",
}
"""What a message calls one of each section."""


class Names:
    """The names a plan gives, by section, taken from what is written, so that a mistake in a thing keeps its name.

    `items` are the things in the runs, alone and with their run (`sink run / B3`); `tasks` those of the work.
    """

    def __init__(self, sections: Mapping[str, Any]) -> None:
        self.known: dict[str, dict[str, str]] = {}
        self.rooms = RoomNames(sections)
        if self.rooms.known or self.rooms.rooms or _readable(sections.get("walls")):
            self.known["walls"] = self.rooms.known
        for section in ("layers", "runs", "worktops", "appliances", "points", "circuits", "people"):
            if section in sections and _readable(sections[section]):
                self.known[section] = _by_fold(sections[section])
        self.runs_with: dict[str, list[str]] = {}
        if "runs" in self.known:
            self.known["items"] = self._items(sections["runs"])
        if "work" in sections:
            self.known["tasks"] = {
                key: name for key, name in _by_fold(sections["work"]).items() if key not in ("order", "days", "note")
            }

    def _items(self, runs: object) -> dict[str, str]:
        found: dict[str, str] = {}
        for run, written in runs.items() if isinstance(runs, dict) else ():
            for name in _by_fold(entry(written, "order")).values():
                full = f"{run} / {name}"
                found.setdefault(fold(name), name)
                found[fold(full)] = full
                self.runs_with.setdefault(fold(name), []).append(run)
        return found

    def left_out(self, sections: Iterable[str]) -> bool:
        """Whether the plan has none of the sections, so that nobody knows what they would hold."""
        return not any(section in self.known for section in sections)


def _readable(written: object) -> bool:
    """Whether a section is one by name, or is said to be empty; what else stands there is a mistake noted elsewhere."""
    return isinstance(written, dict) or (isinstance(written, str) and fold(written) == "none")


def _by_fold(written: object) -> dict[str, str]:
    return {fold(name): name for name in written} if isinstance(written, dict) else {}


class References:
    """Checks the names in a plan against each other; what names nothing is noted with the nearest name."""

    def __init__(self, plan: Plan, names: Names, reader: Reader) -> None:
        self._plan = plan
        self._names = names
        self._reader = reader
        self._beside: dict[str, dict[str, list[str]]] = {}

    def check(self) -> None:
        plan = self._plan
        for wall in plan.walls.values():
            self._layers(wall, wall.made_of)
            for part in wall.parts or ():
                self._layers(part, part.made_of)
                self._ends(part, wall)
        self._found()
        self._runs()
        for worktop in plan.worktops.values():
            self._name(worktop.pointer_to("on"), worktop.on, "runs")
            if worktop.between is not None:
                self._between(worktop.pointer_to("between"), worktop.between, worktop.on)
            self._joints(worktop)
        for appliance in plan.appliances.values():
            self._field(appliance, "in_", "items")
            self._field(appliance, "over", "appliances", "items")
            self._field(appliance, "supply", "points", "circuits")
            self._field(appliance, "feed", "items")
            self._field(appliance, "behind", "appliances")
            self._field(appliance, "for_", "tasks")
            self._along(appliance, appliance.along)
        for point in plan.points.values():
            for relation in ("over", "behind", "in_", "above"):
                self._field(point, relation, "items", "appliances")
            for relation in ("left_of", "right_of"):
                self._field(point, relation, "points")
            self._field(point, "wall", "walls")
            self._along(point, point.along, point.wall)
        for circuit in plan.circuits.values():
            self._each(circuit, "serves", ("all sockets",), "points", "appliances")
        by_kind = self._units_by_kind() if plan.fixings else ()
        for fixing in plan.fixings.values():
            self._each(fixing, "for_", by_kind, "runs", "items", "appliances")
        self._drilling()
        if plan.screws:
            from validator.plan.sections.joinery import JOINED
        for screws in plan.screws.values():
            self._each(screws, "for_", JOINED, "runs", "worktops")
        for coating in plan.coatings.values():
            self._each(coating, "walls", ("all",), "walls")
        if plan.work is not None:
            for task in plan.work.tasks.values():
                self._each(task, "after", (), "tasks")
                self._each(task, "by", ("householder",), "people")
        for delivery in plan.deliveries.values():
            self._field(delivery, "for_", "tasks")
        for paper in plan.papers.values():
            if paper.by is not None and fold(paper.by) != "householder":
                self._field(paper, "by", "people")
        if plan.gas is not None:
            self._each(plan.gas, "to", (), "appliances")
            self._field(plan.gas, "valve", "items")
        self._record()
        for agreed in plan.agreed:
            self._one_of_its_name(agreed.pointer_to("at"), agreed.at)
            if fold(agreed.by) != "householder":
                self._name(agreed.pointer_to("by"), agreed.by, "people")
        Circles(plan, self._reader).check()

    def _drilling(self) -> None:
        """What is drilled and cut into walls, what runs in them, and what lies beyond them."""
        plan = self._plan
        for name, wall in plan.walls.items():
            for point in (wall.beyond or {}).values():
                self._along(point, point.along, name)
            if wall.other_face is not None:
                self._field(wall.other_face, "wall", "walls")
                self._along(wall.other_face, wall.other_face.starts, name, field="starts")
        in_walls: list[DrillHole | Route | Chase] = [*plan.drill.values(), *plan.routes.values(), *plan.chases.values()]
        for element in in_walls:
            if element.wall is None:
                self._reader.problem(
                    element.pointer, f"{element.called} without a wall", "`wall: …`, the wall it is in"
                )
            else:
                self._name(element.pointer_to("wall"), element.wall, "walls")
        for hole in plan.drill.values():
            self._along(hole, hole.along, hole.wall)
        for route in plan.routes.values():
            self._field(route, "circuit", "circuits")
            for spot in (route.from_, *(route.via or ()), route.to):
                if spot is not None:
                    self._along(spot, spot.along, route.wall)

    def _record(self) -> None:
        """What is as built goes by the name of a thing of the plan; what was found in a wall names the wall."""
        for name, built in self._plan.built.items():
            if built.wall is not None:
                self._field(built, "wall", "walls")
            elif any(
                found is not None for found in (built.layers, built.studs, built.noggins, built.detector, built.failed)
            ):
                message = f"{name} was found in a wall, and the plan does not say in which"
                self._reader.problem(built.pointer, message, "`wall: …`, the wall it was found in")
            else:
                self._name(built.pointer, name, "items", "points", "appliances")
            self._along(built, built.along, built.wall)

    def _found(self) -> None:
        """What the survey names: openings in walls, and room by room corners, slopes over walls, and floors."""
        plan = self._plan
        once: set[str] = set()  # what stands at the top may be that of several rooms
        for room in plan.rooms.values():
            for opening in room.openings.values():
                inside = room if room.pointer and opening.pointer.startswith(room.pointer) else None
                if opening.wall is not None:
                    self._wall_of(inside, opening.pointer_to("wall"), opening.wall)
                self._along(opening, opening.along, opening.wall)
            for boxing in room.boxings.values():
                if boxing.wall is not None:
                    self._wall_of(room, boxing.pointer_to("wall"), boxing.wall)
                self._along(boxing, boxing.along, boxing.wall)
            for corner in room.corners:
                self._corner(join(room.corners.pointer, corner), corner, room)
            for diagonal, said in room.diagonals.items():
                if room.walls and room.between(diagonal) is None:
                    corners = "two corners of the room, `north-west to south-east`"
                    self._reader.problem(said.pointer, f"`{diagonal}` does not run from corner to corner", corners)
            if room.ceiling is not None:
                for wall, slope in (room.ceiling.slopes or {}).items():
                    self._wall_of(room, slope.pointer, wall)
            if room.floor is not None and room.floor.pointer not in once:
                once.add(room.floor.pointer)
                self._layers(room.floor, room.floor.made_of)
            for covering in room.floors.values():
                if covering.runs is not None and covering.pointer not in once:
                    once.add(covering.pointer)
                    self._boards(covering.pointer_to("runs"), covering.runs, room)

    def _ends(self, part: Part, wall: Wall) -> None:
        """A part of a wall ends behind where it begins, and begins before the wall ends."""
        start, end, length = part.from_, part.to, wall.length
        if isinstance(start, Quantity) and isinstance(end, Quantity) and end.high <= start.low:
            message = f"a part from {start.text} to {end.text} ends before it begins"
            self._reader.problem(part.pointer, message, "its ends counted from the left end of the wall")
        elif isinstance(start, Quantity) and isinstance(length, Quantity) and start.low >= length.high:
            message = f"a part from {start.text} begins where the wall has ended"
            self._reader.problem(part.pointer, message, f"less than {length.text}")

    def _between(self, pointer: str, between: str, on: str) -> None:
        """`P2 and range`, `T2 and east wall`: two things of runs, or the walls at their ends."""
        run = self._plan.runs.get(on)
        room = self._plan.room_of(run.against or run.faces or "") if run is not None else None
        ends = re.split(r"\s+and\s+", between)
        if len(ends) != 2:
            self._reader.problem(pointer, f"`{between}` does not say from what to what", "`T2 and east wall`")
        for end in ends if len(ends) == 2 else ():
            if end.endswith(" wall"):
                self._wall_of(room, pointer, end.removesuffix(" wall"))
            else:
                self._name(pointer, end, "items", "appliances")

    def _joints(self, worktop: Worktop) -> None:
        """A joint lies along the wall of its run; at a corner it names the worktop that it meets there."""
        run = self._plan.runs.get(worktop.on)
        for joint in (worktop.joint, *(worktop.joints or {}).values(), worktop.corner):
            if joint is not None:
                self._along(joint, joint.at, run.against if run is not None else None, field="at")
                self._field(joint, "with_", "worktops")
        if worktop.seats is not None and fold(worktop.seats.on) not in ("front", "back", "left", "right", "ends"):
            self._field(worktop.seats, "on", "walls")

    def _runs(self) -> None:
        for name, run in self._plan.runs.items():
            if run.faces is None and not run.against:
                self._reader.problem(run.pointer, f"{name} stands nowhere", "`against: north`, or `faces: north`")
            elif run.faces is None:
                self._name(run.pointer_to("against"), run.against, "walls")
            else:
                self._island(run)
            self._along(run, run.from_, run.against, field="from_")
            if isinstance(run.tops, str):
                self._name(run.pointer_to("tops"), run.tops, "items")
            for thing, item in run.order.items():
                if item.family not in ("filler", "gap") and isinstance(item.width, Quantity) and item.width.low <= 0:
                    pointer = item.pointer_to("width")
                    self._reader.problem(pointer, f"{thing} has no width", "a width, or the line left out")
                for relation in ("over", "left_of", "right_of"):
                    self._field(item, relation, "items", *(("appliances",) if relation == "over" else ()))
                if item.corner is not None:
                    self._corner(item.pointer_to("corner"), item.corner, self._plan.room_of(name))
            rests = [item for item in run.order.values() if item.rest]
            for item in rests[1:]:
                self._reader.problem(
                    item.pointer,
                    f"two things in {name} take the rest, so that neither has a width",
                    "`rest` once in a run",
                    also=[rests[0].pointer],
                )
        self._openings()

    def _island(self, run: Run) -> None:
        """An island faces a wall, and stands against none."""
        if run.against:
            self._reader.problem(run.pointer_to("against"), "an island faces a wall, and stands against none", "faces")
        self._field(run, "faces", "walls")
        self._along(run, run.along, run.faces)
        if run.aisle is not None:
            self._field(run.aisle, "to", "runs", "walls")

    def _units_by_kind(self) -> tuple[str, ...]:
        """`wall units`, `tall units`: how a fixing may name all units of a kind at once."""
        items = (item for run in self._plan.runs.values() for item in run.order.values())
        return ("wall units", *sorted({f"{fold(item.is_)} units" for item in items if item.family == "unit"}))

    def _openings(self) -> None:
        """An opening has the name of its appliance; a name close to that of one without a place is a slip."""
        placed = set(self._names.known.get("items", {}))
        homeless = [
            name
            for name, appliance in self._plan.appliances.items()
            if appliance.in_ is None and appliance.over is None and fold(name) not in placed
        ]
        for run in self._plan.runs.values():
            for name, item in run.order.items():
                meant = nearest(name, homeless) if item.family == "opening" and homeless else None
                if meant is not None and name not in self._plan.appliances:
                    self._reader.problem(
                        item.pointer, f"`{name}` is an opening, and no appliance has that name", "an appliance", meant
                    )

    def _layers(self, element: Element, made_of: object) -> None:
        if isinstance(made_of, str):
            self._name(element.pointer_to("made_of"), made_of, "layers")

    def _field(self, element: Element, field: str, *sections: str) -> None:
        name = getattr(element, field)
        if name is not None:
            self._name(element.pointer_to(field), name, *sections)

    def _each(self, element: Element, field: str, words: tuple[str, ...], *sections: str) -> None:
        for name in getattr(element, field) or ():
            if fold(name) not in words:
                self._name(element.pointer_to(field), name, *sections, words=words)

    def _along(self, element: Element, along: Along | None, wall: str | None = None, field: str = "along") -> None:
        """A place along a wall counts from a neighbour of that wall, or from the fronts of a run."""
        if along is None:
            return
        pointer = element.pointer_to(field)
        if along.fronts_of:
            self._name(pointer, along.fronts_of, "runs")
        elif along.from_:
            room = self._plan.room_of(wall) if wall is not None else None
            if self._wall_of(room, pointer, along.from_) and room is not None and wall and wall in room.walls:
                self._meets(pointer, room, room.walls.written(wall), room.walls.written(along.from_))

    def _meets(self, pointer: str, room: Room, wall: str, other: str) -> None:
        """Notes a wall that does not meet the one along which something stands."""
        near = self._neighbours(room).get(wall, ())
        if near and other not in near:
            self._reader.problem(
                pointer,
                f"the {other} wall does not meet the {wall} wall",
                " or ".join(f"`from {n}`" for n in near),
            )

    def _neighbours(self, room: Room) -> dict[str, list[str]]:
        """The walls that meet each wall of a room, in the order of the walls."""
        if room.name not in self._beside:
            walls = list(room.walls)
            found = self._beside[room.name] = {}
            for at, wall in enumerate(walls):
                beside = {at - 1 if at else len(walls) - 1, (at + 1) % len(walls)} - {at}
                found[wall] = [walls[other] for other in sorted(beside)]
        return self._beside[room.name]

    def _wall_of(self, room: Room | None, pointer: str, name: str) -> bool:
        """Whether a wall is one of a room, inside which its own name will do; of any room where none is given."""
        if room is None or not room.walls:
            return self._name(pointer, name, "walls")
        if name in room.walls:
            return True
        walls = [wall.removeprefix(f"{room.name} / ") for wall in room.walls]
        where = f"the {room.called}" if room.called else "this plan"
        self._reader.problem(
            pointer, f"no wall of {where} is called `{name}`", _some(walls), nearest(name, walls) or ""
        )
        return False

    def _corner(self, pointer: str, corner: str, room: Room | None) -> None:
        walls = room.walls if room is not None else self._plan.walls
        if walls and corner_of(walls, corner) is None:
            own = [wall.rpartition(" / ")[2] for wall in walls]
            corners = [f"{left}-{right}" for left, right in zip(own, own[1:] + own[:1], strict=True)]
            self._reader.problem(
                pointer, f"`{corner}` is no corner of the room", _some(corners), nearest(corner, corners) or ""
            )

    def _boards(self, pointer: str, runs: str, room: Room) -> None:
        ends = re.split(r"\s+to\s+", runs)
        if len(ends) == 2:
            for end in ends:
                self._wall_of(room, pointer, end)
        else:
            self._reader.problem(pointer, f"`{runs}` does not say which way the boards run", "`north to south`")

    def _name(self, pointer: str, name: str, *sections: str, words: tuple[str, ...] = ()) -> bool:
        """Whether a name can be taken as it is; notes it where it names nothing, or several things in runs."""
        names = self._names
        if names.left_out(sections):
            return True
        found = [section for section in sections if fold(name) in names.known.get(section, {})]
        if found:
            return found != ["items"] or self._one_of_its_name(pointer, name)
        if "walls" in sections and fold(name) in names.rooms.rooms_with:
            rooms = names.rooms.rooms_with[fold(name)]
            self._reader.problem(
                pointer, f"several rooms have a {name} wall", " or ".join(f"`{room} / {name}`" for room in rooms)
            )
            return False
        choices = [*words, *(choice for section in sections for choice in names.known.get(section, {}).values())]
        *others, last = (_CALLED[section] for section in sections)
        called = f"{', '.join(others)} or {last}" if others else last
        walls = names.known.get("walls", {}).values() if "walls" in sections else ()
        shown = [choice for choice in dict.fromkeys(choices) if " / " not in choice or "/" in name or choice in walls]
        self._reader.problem(
            pointer, f"no {called} of this plan is called `{name}`", _some(shown), nearest(name, shown) or ""
        )
        return False

    def _one_of_its_name(self, pointer: str, name: str) -> bool:
        """Whether at most one run has a thing of this name; notes it where several have."""
        runs = self._names.runs_with.get(fold(name), [])
        if len(runs) < 2:
            return True
        full = " or ".join(f"`{run} / {name}`" for run in runs)
        places = [join("/runs", run, "order", name) for run in runs]
        self._reader.problem(pointer, f"`{name}` stands in several runs", full, also=places)
        return False


def _some(choices: list[str]) -> str:
    """Some of the names that would do; all of them where they are few."""
    return ", ".join(choices[:8]) + (", …" if len(choices) > 8 else "")
