"""What lies on the other face of a wall: a wall of another room of the plan, or points in a room that is not in it."""

import re
from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import BeforeValidator

from validator.plan.choices import NameOfWall, OneOf
from validator.plan.elements import Element, Unfit
from validator.plan.fields import Along, Height, Level, Size
from validator.plan.names import fold
from validator.plan.values import ToFind
from validator.plan.written import Written

_FACE = re.compile(r"(?P<wall>.+?)(?:\s+starts\s+(?P<starts>.+ from .+))?", re.IGNORECASE | re.DOTALL)


class OtherFace(Element):
    """The wall of another room that is the other face of this one, and where its right end lies along this one.

    Its right end is the left one for somebody on this side. `floor` is how far the floor there lies below this one.
    """

    called: ClassVar[str] = "the other face of a wall"
    line: ClassVar[Written | None] = Written(
        "<name>( <=starts> <length> <=from> <name>)?", ("utility / south", "utility / south starts 350 from west")
    )

    wall: Annotated[str, NameOfWall()]
    starts: Along | None = None
    floor: Level | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        found = _FACE.fullmatch(written.strip()) if isinstance(written, str) else None
        if found is None:
            raise Unfit("the other face is written as the wall it is", "`utility / south starts 350 from west`")
        return {key: value for key, value in found.groupdict().items() if value}


class Beyond(Element):
    """A point on the other face of a wall, placed as it is seen through the wall: `along` from walls of this room."""

    called: ClassVar[str] = "a point on the other face"

    along: Along | None = None
    up: Height | None = None
    plate: Size | None = None
    cable: (
        Annotated[
            Literal["straight up", "straight down", "from left", "from right", "on the surface"] | ToFind, OneOf()
        ]
        | None
    ) = None


def _no_points(written: object) -> object:
    return {} if isinstance(written, str) and fold(written) == "none" else written


PointsBeyond = Annotated[dict[str, Beyond], BeforeValidator(_no_points), Written("<=none>", ("none",))]
"""The points on the other face of a wall, by name; empty where somebody has looked and there is none."""
