"""The duct of a hood or a fan."""

import re
from collections.abc import Mapping
from typing import Annotated, ClassVar

from validator.plan.choices import YesOrNo
from validator.plan.elements import Element, Unfit, is_to_find
from validator.plan.fields import Count, Length, Term
from validator.plan.names import fold
from validator.plan.values import ToFind
from validator.plan.written import Written

RECIRCULATING = "recirculating"
_LINE = re.compile(r"(?P<bore>[\d½¼¾].*?)?(?:\s+round)?(?:(?:^|\s+)(?:to|through)\s+(?:the\s+)?(?P<to>.+))?\s*", re.S)


class Duct(Element):
    """A duct: `125 mm through the wall`, or `recirculating` where the air goes back into the room.

    `length` is straight pipe, `bends` counts right angles, `flexible` is the part that is flexible pipe.
    """

    called: ClassVar[str] = "a duct"
    asks: ClassVar[tuple[str, ...]] = ("outside",)
    line: ClassVar[Written | None] = Written(
        "<=recirculating>|(?!$)(<bore>( round)?( |$))?((to|through) (the )?<words>)?",
        ("150 mm through the wall", "recirculating"),
    )

    outside: Annotated[bool | ToFind, YesOrNo()] | None = None
    bore: Length | None = None
    length: Length | None = None
    bends: Count | None = None
    flexible: Length | None = None
    to: Term | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        if isinstance(written, str) and is_to_find(written):
            return {"outside": written}
        if isinstance(written, str) and fold(written) == RECIRCULATING:
            return {"outside": "no"}
        found = _LINE.fullmatch(written) if isinstance(written, str) and written.strip() else None
        if found is None:
            raise Unfit(
                "a duct is written as its bore and where it ends", "`150 mm through the wall`, or `recirculating`"
            )
        return {key: value for key, value in found.groupdict().items() if value}
