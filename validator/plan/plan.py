"""A plan as read: its sections, typed, and where everything in it stands. (contract)"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from validator.plan.elements import Section
from validator.plan.problems import Place
from validator.plan.values import Quantity, ToFind

if TYPE_CHECKING:
    from validator.plan.sections.appliances import Appliance, Built, Papers
    from validator.plan.sections.furniture import Run, Worktop
    from validator.plan.sections.project import Agreed, Project
    from validator.plan.sections.room import Ceiling, Covering, Floor, Layer, Wall
    from validator.plan.sections.services import Circuit, Point
    from validator.plan.sections.work import Coating, Fixing, Person, Work


class Plan:
    """A plan, read and typed.

    A section that is a collection is a Section (`left_out`, `none`, or items); a single thing is None when left out.
    `digest` changes when any file of the plan does.
    """

    digest: str
    files: tuple[str, ...]
    project: Project
    layers: Section[tuple[Layer, ...]]
    ceiling: Ceiling | None
    walls: Section[Wall]
    floor: Floor | None
    floors: Section[Covering]
    runs: Section[Run]
    worktops: Section[Worktop]
    appliances: Section[Appliance]
    stated: Section[Papers]
    points: Section[Point]
    circuits: Section[Circuit]
    fixings: Section[Fixing]
    coatings: Section[Coating]
    work: Work | None
    people: Section[Person]
    built: Section[Built]
    agreed: tuple[Agreed, ...]
    own: Mapping[str, Quantity | ToFind]
    requirements: Mapping[str, object]  # plain data in the form of a rulebook; read by judging

    def place(self, pointer: str) -> Place:
        """Where a pointer stands: its value if it has a place, else the key, else the nearest thing around it.

        A value that came from a kind stands where the kind says it.
        """
        raise NotImplementedError

    def heights_from(self, pointer: str) -> str:
        """What heights are measured from in the file that holds the pointer ('bare floor', 'finished floor' or '')."""
        raise NotImplementedError

    def unit(self, name: str) -> tuple[str, str] | None:
        """The run that holds the thing of this name and the name as written; `sink run / B3` also finds it."""
        raise NotImplementedError
