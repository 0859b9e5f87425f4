"""Holes to be drilled, what is known to run in the walls, and the chases cut into them."""

import re
from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from validator.plan.choices import NameOfWall, OneOf, YesOrNo
from validator.plan.elements import Element, Unfit
from validator.plan.fields import Along, Count, Date, Height, Length, MakersLength, Term
from validator.plan.sections.work import Hole
from validator.plan.values import ToFind
from validator.plan.written import Written

_SPOT = re.compile(r"(?P<along>.+? from [^,]+?)\s*,\s*(?P<up>.+)", re.IGNORECASE | re.DOTALL)


class Spot(Element):
    """A place on a wall: `1200 from west, 300 from bare floor`."""

    called: ClassVar[str] = "a place on a wall"
    asks: ClassVar[tuple[str, ...]] = ("along", "up")
    line: ClassVar[Written | None] = Written(
        "<length> <=from> <name>, ?<height>", ("1200 from west, 300 from bare floor",)
    )

    along: Along | None = None
    up: Height | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        found = _SPOT.fullmatch(written.strip()) if isinstance(written, str) else None
        if found is None:
            raise Unfit("a place on a wall is written along it and up it", "`1200 from west, 300 from bare floor`")
        return found.groupdict()


class DrillHole(Element):
    """A hole, or a row of them to the right, that no unit and no fixing leads to.

    `every` and `number` make a row; `for` is what a reader is told it is for.
    """

    called: ClassVar[str] = "a hole to drill"

    wall: Annotated[str | None, NameOfWall()] = None
    along: Along | None = None
    up: Height | None = None
    for_: str | None = None
    hole: Hole | None = None
    into: Term | None = None
    every: Length | None = None
    number: Count | None = None


class Route(Element):
    """A cable or a pipe that runs in a wall, from one place over others to the last, and how that is known.

    `deep` is from the face of the wall to the near side of it; `plate` is the steel that covers it where it crosses a
    stud, `protected` an earthed metal covering or steel along all of it.
    """

    called: ClassVar[str] = "a route in a wall"

    is_: (
        Annotated[Literal["cable", "gas pipe", "water pipe", "heating pipe", "waste pipe", "pipe"] | ToFind, OneOf()]
        | None
    ) = None
    wall: Annotated[str | None, NameOfWall()] = None
    from_: Spot | None = None
    via: tuple[Spot, ...] | None = None
    to: Spot | None = None
    deep: Length | None = None
    known_by: Annotated[Literal["photo", "opened up", "drawing", "detector", "guess"] | ToFind, OneOf()] | None = None
    seen: Date | None = None
    circuit: str | None = None  # of a cable
    protected: Annotated[bool | ToFind, YesOrNo()] | None = None
    plate: MakersLength | None = None  # none: nothing covers it


class Chase(Element):
    """A chase in a wall: which way it runs, how deep and how long it is.

    `opposite` is how far the nearest chase in the other face lies aside; none: there is none.
    """

    called: ClassVar[str] = "a chase"

    wall: Annotated[str | None, NameOfWall()] = None
    runs: Annotated[Literal["upright", "level"] | ToFind, OneOf()] | None = None
    deep: Length | None = None
    length: Length | None = None
    opposite: MakersLength | None = None
