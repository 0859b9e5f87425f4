"""The joists under a floor or over a ceiling, and what is cut into them."""

import re
from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from validator.plan.choices import OneOf
from validator.plan.elements import Element, Unfit
from validator.plan.fields import Length, Size
from validator.plan.values import ToFind
from validator.plan.written import Written

_JOIST_HOLE = re.compile(
    r"(?P<diameter>.+?) at (?P<from_support>[^,]+?)(?:\s*,\s*(?P<below_top>.+?) down)?", re.IGNORECASE
)
_NOTCH = re.compile(r"(?P<depth>.+?) deep at (?P<from_support>.+)", re.IGNORECASE)


class JoistHole(Element):
    """A hole through a joist: how wide, how far from the nearer support, and its middle down from the top edge."""

    called: ClassVar[str] = "a hole in a joist"
    line: ClassVar[Written | None] = Written(
        "<diameter> <=at> <from_support>(, ?<below_top> <=down>)?", ("25 at 1200, 97.5 down",)
    )

    diameter: Length | None = None
    from_support: Length | None = None
    below_top: Length | None = None
    for_: Annotated[Literal["cable", "pipe"] | ToFind, OneOf()] | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        found = _JOIST_HOLE.fullmatch(written.strip()) if isinstance(written, str) else None
        if found is None:
            raise Unfit("a hole in a joist is written as how wide it is and where", "`25 at 1200, 97.5 down`")
        return {key: value for key, value in found.groupdict().items() if value}


class Notch(Element):
    """A notch in an edge of a joist: how deep, and how far from the nearer support."""

    called: ClassVar[str] = "a notch in a joist"
    line: ClassVar[Written | None] = Written("<depth> <=deep at> <from_support>", ("20 deep at 500",))

    depth: Length | None = None
    from_support: Length | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        found = _NOTCH.fullmatch(written.strip()) if isinstance(written, str) else None
        if found is None:
            raise Unfit("a notch is written as how deep it is and where", "`20 deep at 500`")
        return found.groupdict()


class Joists(Element):
    """The joists under a floor, or over a ceiling, with the holes and notches that are cut in them."""

    called: ClassVar[str] = "the joists"

    span: Length | None = None
    every: Length | None = None
    size: Size | None = None
    run: str | None = None  # "east to west"
    holes: dict[str, JoistHole] | None = None
    notches: dict[str, Notch] | None = None
