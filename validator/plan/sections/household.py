"""Who uses the kitchen: how tall they stand, how far up they reach, and who works sitting down."""

from typing import Annotated, ClassVar

from validator.plan.choices import YesOrNo
from validator.plan.elements import Element
from validator.plan.fields import Length
from validator.plan.values import ToFind


class Member(Element):
    """Somebody of the household: `{height: 1720, elbow: 1080, reach: 1950}`, all from the floor, in house shoes.

    `elbow` is that of an arm bent at a right angle. `cooks` is yes where it is not said.
    """

    called: ClassVar[str] = "somebody of the household"

    height: Length | None = None
    elbow: Length | None = None
    reach: Length | None = None  # how high a flat hand comes onto a shelf
    seated: Annotated[bool | ToFind, YesOrNo()] | None = None
    cooks: Annotated[bool | ToFind, YesOrNo()] | None = None
