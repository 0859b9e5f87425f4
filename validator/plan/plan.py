"""A plan as read: its sections, typed, and where everything in it stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from validator.plan.elements import Section
from validator.plan.names import fold
from validator.plan.places import Places
from validator.plan.problems import Place
from validator.plan.rooms import Room
from validator.plan.values import Quantity, ToFind

if TYPE_CHECKING:
    from validator.plan.sections.appliances import Appliance, Papers
    from validator.plan.sections.drilling import Chase, DrillHole, Route
    from validator.plan.sections.furniture import Boards, Run, Worktop
    from validator.plan.sections.household import Member
    from validator.plan.sections.joinery import Glue, Screws
    from validator.plan.sections.money import Budget, Delivery, Paper
    from validator.plan.sections.openings import Opening, Passage
    from validator.plan.sections.project import Agreed, Project
    from validator.plan.sections.record import Built
    from validator.plan.sections.room import Layer, Wall
    from validator.plan.sections.services import Circuit, Point
    from validator.plan.sections.supplies import GasPipe, Light
    from validator.plan.sections.survey import Survey
    from validator.plan.sections.work import Coating, Fixing, Person, Work


@dataclass(frozen=True, eq=False)
class Plan:
    """A plan, read and typed.

    A section that is a collection is a Section (`left_out`, `none`, or items); a single thing is None when left out.
    There is at least one room; `walls` and `openings` are those of all rooms, `utility / north` where several have one.
    `digest` changes when any file of the plan does.
    """

    digest: str
    files: tuple[str, ...]
    places: Places
    project: Project
    survey: Survey | None
    layers: Section[tuple[Layer, ...]]
    rooms: Mapping[str, Room]
    walls: Section[Wall]
    openings: Section[Opening]
    way_in: Section[Passage]
    runs: Section[Run]
    worktops: Section[Worktop]
    boards: Boards | None
    appliances: Section[Appliance]
    stated: Section[Papers]
    points: Section[Point]
    circuits: Section[Circuit]
    gas: GasPipe | None
    lights: Section[Light]
    household: Section[Member]
    fixings: Section[Fixing]
    drill: Section[DrillHole]
    routes: Section[Route]
    chases: Section[Chase]
    screws: Section[Screws]
    adhesives: Section[Glue]
    coatings: Section[Coating]
    work: Work | None
    people: Section[Person]
    deliveries: Section[Delivery]
    money: Budget | None
    papers: Section[Paper]
    built: Section[Built]
    agreed: tuple[Agreed, ...]
    own: Mapping[str, Quantity | ToFind]
    requirements: Mapping[str, object]  # plain data in the form of a rulebook; read by judging

    def place(self, pointer: str) -> Place:
        """Where a pointer stands: its value if it has a place, else the key, else the nearest thing around it.

        A value that came from a kind stands where the kind says it.
        """
        return self.places.place(pointer)

    def heights_from(self, pointer: str) -> str:
        """What heights are measured from in the file that holds the pointer ('bare floor', 'finished floor' or '')."""
        return self.places.heights_from(pointer)

    def unit(self, name: str) -> tuple[str, str] | None:
        """The run that holds the thing of this name and the name as written; `sink run / B3` also finds it.

        None where no run has it, and where several have it and the name does not say which.
        """
        found = self._units.get(fold(name), [])
        return found[0] if len(found) == 1 else None

    def room_of(self, wall: str) -> Room | None:
        """The room of a wall, or of an island by the name of its run, which belongs to the wall it faces.

        None where no room has the wall, unless there is only one.
        """
        if len(self.rooms) == 1:
            return next(iter(self.rooms.values()))
        if wall not in self.walls and wall in self.runs:
            wall = self.runs[wall].faces or self.runs[wall].against
        return self._room_by_wall.get(fold(self.walls.written(wall))) if wall in self.walls else None

    @cached_property
    def _room_by_wall(self) -> dict[str, Room]:
        return {fold(wall): room for room in self.rooms.values() for wall in room.walls}

    @cached_property
    def _units(self) -> dict[str, list[tuple[str, str]]]:
        units: dict[str, list[tuple[str, str]]] = {}
        for run, thing in self.runs.items():
            for name in thing.order:
                units.setdefault(fold(name), []).append((run, name))
                units[fold(f"{run} / {name}")] = [(run, name)]
        return units
