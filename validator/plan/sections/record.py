"""The record: things as they were made, and what was found in the walls while they could be looked into."""

import re
from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from validator.plan.choices import NameOfWall, OneOf, YesOrNo
from validator.plan.elements import Element, Unfit
from validator.plan.fields import Along, Date, Height, Length
from validator.plan.sections.room import Layer, Noggin, Studs
from validator.plan.values import ToFind
from validator.plan.written import Written

_SWEEP = re.compile(r"(?P<shows>.+?)(?:\s+(?P<swept>both ways|one way))?", re.IGNORECASE)
_FAILED = re.compile(r"(?P<deep>.+?) deep(?:\s*,\s*(?P<filled>filled))?", re.IGNORECASE)


class Sweep(Element):
    """What a detector showed where it was led over the wall, upright and level (`both ways`) or only one of them."""

    called: ClassVar[str] = "what a detector showed"
    asks: ClassVar[tuple[str, ...]] = ("shows",)
    line: ClassVar[Written | None] = Written("<shows>( <swept>)?", ("nothing both ways", "live cable one way"))

    shows: Annotated[Literal["nothing", "live cable", "metal", "timber", "plastic pipe"] | ToFind, OneOf()] | None = (
        None
    )
    swept: Annotated[Literal["both ways", "one way"] | ToFind, OneOf()] | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        found = _SWEEP.fullmatch(" ".join(written.split())) if isinstance(written, str) else None
        if found is None:
            raise Unfit("what a detector showed is written with how it was swept", "`nothing both ways`")
        return {key: value for key, value in found.groupdict().items() if value}


class FailedHole(Element):
    """A hole that was given up, by its depth from the face of the wall: `70 deep`, or `70 deep, filled` with mortar."""

    called: ClassVar[str] = "a hole that failed"
    asks: ClassVar[tuple[str, ...]] = ("deep",)
    line: ClassVar[Written | None] = Written("<deep> <=deep>(, ?<=filled>)?", ("70 deep", "70 deep, filled"))

    deep: Length | None = None
    filled: Annotated[bool, YesOrNo()] = False

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        found = _FAILED.fullmatch(" ".join(written.split())) if isinstance(written, str) else None
        if found is None:
            raise Unfit("a hole that failed is written with its depth", "`70 deep`, or `70 deep, filled`")
        return {"deep": found["deep"], **({"filled": "yes"} if found["filled"] else {})}


class Built(Element):
    """A thing as made: its measured place holds, and the layout no longer moves it.

    With a `wall`, under a name of its own, it is what was found in that wall: the layers that a trial hole met, studs
    and noggins, what a detector showed, a hole that failed. Those found while looking into it win over what is drawn.
    """

    called: ClassVar[str] = "a thing as built"

    wall: Annotated[str | None, NameOfWall()] = None
    along: Along | None = None
    up: Height | None = None
    cable: Length | None = None  # how deep its cable lies: `18 deep`
    legs: Length | None = None
    layers: tuple[Layer, ...] | None = None  # as the hole met them, room side first
    studs: Studs | None = None
    noggins: tuple[Noggin, ...] | None = None
    detector: Sweep | None = None
    failed: FailedHole | None = None
    known_by: (
        Annotated[
            Literal["photo", "opened up", "trial hole", "pilot holes", "detector", "tapping", "drawing", "guess"]
            | ToFind,
            OneOf(),
        ]
        | None
    ) = None
    seen: Date | None = None
    photo: str | None = None
