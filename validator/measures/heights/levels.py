"""Heights on one footing: whatever a height is given from, it is counted from the bare floor at its high spot.

Nothing above depends on a floor that does not exist yet: the finished floor follows from the layers to be laid.
"""

from __future__ import annotations

from functools import cached_property

from validator.measures import reading
from validator.measures.heights.heights import STANDS_BESIDE, WorktopOnRun, hangs
from validator.measures.heights.room_levels import Above, Below, RoomLevels, no_room
from validator.measures.room.walls import called_wall, named_gap, wall_of, worked
from validator.measures.rows import Given, Known, Missing, Row, Subject, Why, figure, gaps_of, given
from validator.measures.runs.run_places import SettingOut, Standing
from validator.plan.dimensions import LENGTH
from validator.plan.fields import Height
from validator.plan.names import fold
from validator.plan.plan import Plan
from validator.plan.rooms import Room
from validator.plan.values import NothingStated


class TopOfUnit(Row, kind="top of a standing unit"):
    """A standing unit from the bare floor up."""

    laid_before: float = given(LENGTH, "floor under the units")
    setting: float = given(LENGTH, "legs")
    unit: float = given(LENGTH, "unit")

    @figure(LENGTH, "top", start="bare floor at the high spot", end="top of the unit")
    def top(self) -> float:
        return self.laid_before + self.setting + self.unit


class Levels:
    """How high everything of a plan comes; each height is worked out when it is asked for."""

    def __init__(self, plan: Plan, setting_out: SettingOut) -> None:
        self.plan = plan
        self.setting_out = setting_out
        self._nowhere = no_room()
        self._rooms: dict[str, RoomLevels] = {}

    def at(self, wall: str) -> RoomLevels:
        """The heights of the room of a wall, or of an island by the name of its run."""
        return self.of(self.plan.room_of(wall) or self._nowhere)

    def of(self, room: Room) -> RoomLevels:
        """The heights of a room."""
        if room.name not in self._rooms:
            self._rooms[room.name] = RoomLevels(self.plan, room)
        return self._rooms[room.name]

    @cached_property
    def rooms(self) -> list[RoomLevels]:
        """The heights of every room, in the order of the plan."""
        return [self.of(room) for room in self.plan.rooms.values()]

    @cached_property
    def worktops(self) -> dict[str, WorktopOnRun]:
        """Each worktop on its run, by the worktop's name."""
        return {name: self._worktop(name) for name in self.plan.worktops}

    def worktop_on(self, run: str) -> WorktopOnRun | None:
        """The worktop on a run, if it has one."""
        name = self._worktops_by_run.get(fold(run))
        return self.worktops[name] if name is not None else None

    def worktops_at(self, wall: str) -> list[WorktopOnRun]:
        """The worktops on the runs against a wall."""
        return [self.worktops[name] for name in self._worktops_by_wall.get(fold(wall), ())]

    @cached_property
    def _worktops_by_run(self) -> dict[str, str]:
        found: dict[str, str] = {}
        for name, worktop in self.plan.worktops.items():
            found.setdefault(fold(worktop.on), name)
        return found

    @cached_property
    def _worktops_by_wall(self) -> dict[str, list[str]]:
        found: dict[str, list[str]] = {}
        for name, worktop in self.plan.worktops.items():
            if worktop.on in self.plan.runs:
                found.setdefault(fold(wall_of(self.plan, worktop.on)), []).append(name)
        return found

    def worktop_by(self, wall: str, near: Standing | None) -> Given:
        """The surface of the worktop that heights at a place are counted from: the one on the run there, else the only
        one on the wall."""
        row = self.worktop_on(near.run) if near is not None else None
        at_wall = self.worktops_at(wall) if row is None else [row]
        if len(at_wall) == 1:
            return worked(at_wall[0], "above_bare_floor", "worktop")
        pointer = self.plan.worktops.pointer
        if self.plan.worktops.left_out:
            return Missing(pointer, "worktops")
        if not at_wall:
            return Missing(pointer, "worktop", Why.UNCLEAR, detail=f"there is no worktop on the {wall} wall")
        names = ", ".join(row.subject.name for row in at_wall)
        return Missing(pointer, "worktop", Why.UNCLEAR, detail=f"from which worktop is it counted: {names}?")

    def top_of(self, standing: Standing) -> Given:
        """The top of a unit, hung or standing, above the bare floor."""
        item = standing.item
        room = self.at(standing.wall)
        height = named_gap(reading.read(item, "height", standing.name), f"height of {standing.name}")
        if not self.is_hung(standing):
            return worked(
                TopOfUnit(
                    Subject(standing.name, item.pointer),
                    laid_before=room.laid_before,
                    setting=self.setting_of(standing),
                    unit=height,
                ),
                "top",
                f"top of {standing.name}",
            )
        run = self.plan.runs[standing.run]
        label = f"top of {standing.name}"
        if isinstance(run.tops, str) and item.underside is None:
            return self._level_with(run.tops, run.pointer_to("tops"), label)
        worktop = self._worktop_under(standing)
        if isinstance(run.tops, Height) and item.underside is None:
            return room.above_bare_floor(run.tops, run.pointer_to("tops"), label, worktop)
        said_by = item if item.underside is not None or run.underside is None else run
        called = f"underside of {standing.name}"
        underside = room.above_bare_floor(said_by.underside, said_by.pointer_to("underside"), called, worktop)
        return worked(Above(Subject(label, item.pointer), base=underside, amount=height), "height", label)

    def underside_of(self, standing: Standing) -> Given:
        """The underside of a hung unit above the finished floor; its height counts only where its top is given."""
        run, item, name = self.plan.runs[standing.run], standing.item, standing.name
        label, worktop, room = f"underside of {name}", self._worktop_under(standing), self.at(standing.wall)
        if run.tops is None or item.underside is not None:
            said_by = item if item.underside is not None or run.underside is None else run
            return room.above_finished_floor(said_by.underside, said_by.pointer_to("underside"), label, worktop)
        subject = Subject(name, item.pointer)
        if isinstance(run.tops, Height):
            top = room.above_finished_floor(run.tops, run.pointer_to("tops"), f"top of {name}", worktop)
        else:
            above_bare = self.top_of(standing)
            top = worked(Below(subject, base=above_bare, amount=room.finished_floor), "height", f"top of {name}")
        height = named_gap(reading.read(item, "height", name), f"height of {name}")
        return worked(Below(subject, base=top, amount=height), "height", label)

    def is_hung(self, standing: Standing) -> bool:
        """Whether a unit hangs on the wall."""
        return hangs(self.plan.runs[standing.run], standing.item)

    def setting_of(self, standing: Standing) -> Given:
        """How far the legs of a standing unit stand out at the high spot, as built or as the run says."""
        for name in (standing.name, f"{standing.run} / {standing.name}"):
            if name in self.plan.built and self.plan.built[name].legs is not None:
                return reading.read(self.plan.built[name], "legs", "legs")
        if isinstance(standing.item.legs, NothingStated):
            return reading.exactly(0, standing.item.pointer_to("legs"), "legs", "it has none")
        return self.setting_of_run(standing.run)

    def setting_of_run(self, name: str) -> Given:
        """How far the legs of a run stand out at the high spot."""
        run = self.plan.runs[name]
        pointer, label = run.pointer_to("legs"), f"legs of {name} at the high spot"
        if run.legs is None:
            return Missing(pointer, label)
        if isinstance(run.legs.setting, NothingStated):
            return reading.exactly(0, pointer, "legs", "they have none")
        return named_gap(reading.quantity(run.legs.setting, pointer, "legs"), label)

    def _level_with(self, name: str, pointer: str, label: str) -> Given:
        other = self.setting_out.find(name)
        if other is None or self.is_hung(other):
            detail = f"{name} is no standing unit of a run"
            return Missing(pointer, label, Why.UNCLEAR, detail=detail)
        return self.top_of(other)

    def _worktop_under(self, standing: Standing) -> Given:
        """The worktop that a hung unit is counted from: of the run it hangs over, else the only one on its wall."""
        over = self.setting_out.find(standing.item.over) if standing.item.over else None
        return self.worktop_by(standing.wall, over)

    def _worktop(self, name: str) -> WorktopOnRun:
        worktop = self.plan.worktops[name]
        run = worktop.on
        subject = Subject(name, worktop.pointer, run)
        thickness = named_gap(reading.read(worktop, "thickness", name), f"thickness of {name}")
        if run not in self.plan.runs:
            return WorktopOnRun(subject, thickness=thickness)
        run = self.plan.runs.written(run)
        wall = wall_of(self.plan, run)
        room = self.at(wall)
        values = {"thickness": thickness, "laid_before": room.laid_before, "finished_floor": room.finished_floor}
        setting, carcass = self._carrier(run)
        where = called_wall(self.plan, wall)
        return WorktopOnRun(Subject(name, worktop.pointer, where, wall), setting=setting, carcass=carcass, **values)

    def _carrier(self, run: str) -> tuple[Given, Given]:
        """Legs and height of the unit that carries the worktop of a run: of those that are not tall, the highest."""
        units = [thing for thing in self.setting_out.in_run(run) if thing.item.family == "unit"]
        if not units:
            detail = f"no unit stands in {run}, on which the worktop could lie"
            missing = Missing(self.plan.runs[run].pointer, "height of the units", Why.UNCLEAR, detail=detail)
            return self.setting_of_run(run), missing
        settings = [self.setting_of(unit) for unit in units]
        heights = [named_gap(reading.read(unit.item, "height", "unit"), f"height of {unit.name}") for unit in units]
        both = [(s, h) for s, h in zip(settings, heights, strict=True) if isinstance(s, Known) and isinstance(h, Known)]
        if len(both) < len(units):
            return _one_for_all(settings), _one_for_all(heights)
        lowest = min(height.value for _, height in both)
        low = [(setting, height) for setting, height in both if height.value <= STANDS_BESIDE * lowest]
        return max(low, key=lambda unit: unit[0].value + unit[1].value)


def _one_for_all(values: list[Given]) -> Given:
    """What is missing of several values; the first of them, where nothing is."""
    return gaps_of(*values) or values[0]
