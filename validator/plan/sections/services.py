"""Electrical points and the circuits that feed them."""

from typing import Annotated, ClassVar, Literal

from validator.plan.choices import NameOfWall, NamesOf, OneOf, YesOrNo
from validator.plan.elements import Element
from validator.plan.fields import Along, Area, Count, Current, Height, Length, Power, Size, Term
from validator.plan.order import POINT_LINE
from validator.plan.values import ToFind
from validator.plan.written import Written


class Point(Element):
    """A socket, switch or connection unit: `double socket over B3`, `low socket in B2`, `connection unit right of S4`.

    `over`, `behind` and `in` set its middle to the middle of that thing; `left of` and `right of` put its plate against
    the other plate, `gap` apart.
    """

    called: ClassVar[str] = "a point"
    line: ClassVar[Written | None] = POINT_LINE

    is_: str
    over: str | None = None
    in_: str | None = None
    behind: str | None = None
    above: str | None = None
    left_of: str | None = None
    right_of: str | None = None
    wall: Annotated[str | None, NameOfWall()] = None
    along: Along | None = None
    up: Height | None = None
    plate: Size | None = None
    gap: Length | None = None
    cable: (
        Annotated[
            Literal["straight up", "straight down", "from left", "from right", "on the surface"] | ToFind, OneOf()
        ]
        | None
    ) = None
    deep: Length | None = None
    rating: Current | None = None
    fuse: Current | None = None
    rcd: Annotated[bool | ToFind, YesOrNo()] | None = None


class Circuit(Element):
    """A circuit. `serves` lists points, appliances or `all sockets`; `laid` is how its cable lies at its worst."""

    called: ClassVar[str] = "a circuit"

    is_: Annotated[Literal["ring", "radial"] | ToFind, OneOf()] | None = None
    device: Current | None = None
    rcd: Current | None = None
    cable: Area | None = None
    conductor: Term | None = None
    length: Length | None = None
    laid: (
        Annotated[
            Literal[
                "clipped direct or in plaster",
                "in insulated wall, touching the board",
                "in insulated wall, not touching",
                "over ceiling, insulation up to 100 mm",
                "over ceiling, insulation over 100 mm",
                "in conduit in insulated wall",
            ]
            | ToFind,
            OneOf(),
        ]
        | None
    ) = None
    ways: Count | None = None  # ways it takes in the consumer unit; 0 where the circuit is there already
    in_insulation: Length | None = None  # the stretch that insulation surrounds; 0 where there is none
    load: Power | None = None  # what else hangs on it, besides the appliances of the plan
    serves: Annotated[tuple[str, ...], NamesOf(("points", "appliances"), ("all sockets",))] | None = None
