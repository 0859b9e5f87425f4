"""Doors, windows and open passages in the walls, and the way by which everything has to come in."""

from typing import Annotated, ClassVar, Literal

from validator.plan.choices import NameOfWall, OneOf
from validator.plan.elements import Element
from validator.plan.fields import Along, Height, Length, Size
from validator.plan.values import ToFind

Sort = Literal["door", "window", "rooflight", "opening"]


class Opening(Element):
    """A door, a window or an open passage: its near edge along the wall, its size, and the height of its sill.

    What it is follows from the last word of its name (`sink window`) where `is` does not say it. A rooflight is `in`
    the slope over a wall.
    """

    called: ClassVar[str] = "an opening"

    is_: Annotated[Sort, OneOf()] | None = None
    wall: Annotated[str | None, NameOfWall()] = None
    in_: Annotated[str | None, NameOfWall()] = None
    along: Along | None = None
    size: Size | None = None
    up: Height | None = None
    opens: (
        Annotated[Literal["in", "out", "top hung", "side hung", "tilt and turn", "sliding", "fixed"] | ToFind, OneOf()]
        | None
    ) = None
    swings: Annotated[Literal["in", "out", "both ways", "sliding", "none"] | ToFind, OneOf()] | None = None
    hinge: Annotated[Literal["left", "right"] | ToFind, OneOf()] | None = None


class Passage(Element):
    """A narrow place on the way in: a door, a stair, a landing; `turn: 860 x 880` where two ways so wide meet."""

    called: ClassVar[str] = "a place on the way in"

    width: Length | None = None
    headroom: Length | None = None  # under the head of a door, under a beam, on a stair square to its pitch
    turn: Size | None = None
