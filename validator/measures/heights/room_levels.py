"""The heights of one room: its floor as found and as it is to be laid, its ceiling, and what is given from them."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, Any

from validator.measures import reading
from validator.measures.arithmetic import least, most
from validator.measures.heights.heights import FloorBuildUp
from validator.measures.room.walls import named_gap, worked
from validator.measures.rows import Given, Known, Missing, Row, Subject, Why, figure, given
from validator.plan.dimensions import LENGTH
from validator.plan.elements import Section
from validator.plan.fields import Height
from validator.plan.plan import Plan
from validator.plan.rooms import Room
from validator.plan.values import NothingStated

if TYPE_CHECKING:
    from validator.plan.sections.room import Covering


class Above(Row, kind="height above something"):
    """A height given from something that is itself above the bare floor."""

    base: float = given(LENGTH, "what it is given from")
    amount: float = given(LENGTH, "above it")

    @figure(LENGTH, "height", start="bare floor at the high spot", end="the thing")
    def height(self) -> float:
        return self.base + self.amount


class Below(Row, kind="height below something"):
    """A height given down from something; also the other way round, what is above something known."""

    base: float = given(LENGTH, "what it is given from")
    amount: float = given(LENGTH, "below it")

    @figure(LENGTH, "height", start="bare floor at the high spot", end="the thing")
    def height(self) -> float:
        return self.base - self.amount


class Fall(Row, kind="fall of a floor"):
    """How far the deepest spot of a floor lies below its highest."""

    levels: tuple[float, ...] = given(LENGTH, "spots", many=True)

    @figure(LENGTH, "fall", start="high spot", end="low spot")
    def fall(self) -> float:
        return most(self.levels) - least(self.levels)


class RoomLevels:
    """How high floor and ceiling of a room come; each is worked out when it is asked for."""

    def __init__(self, plan: Plan, room: Room) -> None:
        self.plan = plan
        self.room = room

    @cached_property
    def build_ups(self) -> dict[str, FloorBuildUp]:
        """The layers of each floor to be laid, by its name."""
        return {name: _build_up(name, covering, self.room) for name, covering in self.room.floors.items()}

    @cached_property
    def covering(self) -> Covering | Missing | None:
        """The one floor that is to be laid; None where there is none."""
        floors = self.room.floors
        if floors.left_out:
            return Missing(floors.pointer, "floors to be laid")
        if len(floors) > 1:
            detail = f"which of {', '.join(floors)} lies under the units and in front of them?"
            return Missing(floors.pointer, "floor", Why.UNCLEAR, detail=detail)
        return next(iter(floors.values()), None)

    @cached_property
    def finished_floor(self) -> Given:
        """The finished floor above the bare floor."""
        if isinstance(self.covering, Missing):
            return self.covering
        if self.covering is None:
            return reading.exactly(0, self.room.floors.pointer, "floor", "no floor is laid")
        (row,) = self.build_ups.values()
        return worked(row, "thickness", "floor")

    @property
    def laid(self) -> Given:
        """When the floor is laid: `before units`, `after units` or `never`."""
        if isinstance(self.covering, Missing):
            return self.covering
        if self.covering is None:
            return reading.exactly("never", self.room.floors.pointer, "when the floor is laid")
        return reading.word(self.covering.laid, self.covering.pointer_to("laid"), "when the floor is laid")

    @cached_property
    def laid_before(self) -> Given:
        """The floor that is there when the units are set, on which they then stand."""
        laid = self.laid
        if not isinstance(laid, Known):
            return laid
        if laid.value == "before units":
            return self.finished_floor
        note = "no floor is laid" if laid.value == "never" else "the floor is laid after the units"
        return reading.exactly(0, laid.pointer, "floor under the units", note)

    @cached_property
    def fall(self) -> Given:
        """How far the low spot of the bare floor lies below its high spot."""
        floor = self.room.floor
        if floor is None or floor.levels is None:
            return Missing(f"{self.room.pointer_to('floor')}/levels", "levels of the floor")
        pointer = floor.pointer_to("levels")
        spots = [
            named_gap(reading.quantity(level, f"{pointer}/{spot}", spot), f"level of the floor {spot}")
            for spot, level in floor.levels.items()
        ]
        if all(isinstance(spot, Known) and spot.value > 0 for spot in spots):
            # Levels are given from the high spot: where it is not itself in the list, it is still there.
            spots.append(reading.exactly(0, pointer, "high spot"))
        return worked(Fall(Subject("floor", pointer), levels=reading.parts(spots)), "fall", "fall of the floor")

    @cached_property
    def ceiling(self) -> Given:
        """The ceiling above the bare floor."""
        ceiling = self.room.ceiling
        if ceiling is None:
            return Missing(self.room.pointer_to("ceiling"), "height of the ceiling")
        return self.above_bare_floor(ceiling.height, ceiling.pointer_to("height"), "ceiling", None)

    def above_bare_floor(self, height: Height | None, pointer: str, label: str, worktop: Given | None) -> Given:
        """A height of the plan above the bare floor at the high spot; `worktop` is the one at that place."""
        if height is None:
            return Missing(pointer, f"height of {label}")
        amount = named_gap(reading.quantity(height.amount, pointer, label), f"height of {label}")
        datum = height.datum or self.plan.heights_from(pointer)
        if datum == "bare floor" or not isinstance(amount, Known):
            return amount
        base = self._datum(datum, pointer, label, worktop)
        subject = Subject(label, pointer)
        if height.relation == "below" or datum == "ceiling":
            return worked(Below(subject, base=base, amount=amount), "height", label)
        return worked(Above(subject, base=base, amount=amount), "height", label)

    def above_finished_floor(self, height: Height | None, pointer: str, label: str, worktop: Given | None) -> Given:
        """A height of the plan above the finished floor."""
        if height is not None and (height.datum or self.plan.heights_from(pointer)) == "finished floor":
            return named_gap(reading.quantity(height.amount, pointer, label), f"height of {label}")
        base = self.above_bare_floor(height, pointer, label, worktop)
        return worked(Below(Subject(label, pointer), base=base, amount=self.finished_floor), "height", label)

    def _datum(self, datum: str, pointer: str, label: str, worktop: Given | None) -> Given:
        match datum:
            case "finished floor":
                return self.finished_floor
            case "worktop" if worktop is not None:
                return worktop
            case "ceiling" if self.room.ceiling is None or self.room.ceiling.pointer_to("height") != pointer:
                return self.ceiling
            case "":
                detail = "from the bare floor or from the finished floor?"
                return Missing(pointer, f"height of {label}", Why.UNCLEAR, detail=detail)
            case _:
                return Missing(pointer, f"height of {label}", Why.UNCLEAR, detail=f"not measured from the {datum}")


def no_room() -> Room:
    """In place of the room of a thing of which nobody knows where it stands: nothing is known of it."""
    left_out: Section[Any] = Section("/rooms", left_out=True)
    return Room("", "/rooms", "", left_out, left_out, left_out, left_out, left_out, None, None, left_out)


def _build_up(name: str, covering: Covering, room: Room) -> FloorBuildUp:
    """A floor is only known when its underlay is (`none` where there is none); a sheet is there if the plan has it."""
    layers = [named_gap(reading.read(covering, "thickness", name), f"thickness of {name}")]
    if not isinstance(covering.underlay, NothingStated):
        layers.append(named_gap(reading.read(covering, "underlay", "underlay"), "thickness of the underlay"))
    if covering.sheet is not None:
        layers.append(named_gap(reading.read(covering, "sheet", "sheet"), "thickness of the sheet"))
    return FloorBuildUp(Subject(name, covering.pointer, room.called), layers=reading.parts(layers))
