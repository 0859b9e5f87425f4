"""The gas pipe to the kitchen, and the lights."""

from typing import Annotated, ClassVar

from validator.plan.choices import NamesOf
from validator.plan.elements import Element
from validator.plan.fields import Count, Length, Power, Term


class GasPipe(Element):
    """The pipe from the meter to a gas appliance; `valve` is the unit in which its isolating valve can be reached."""

    called: ClassVar[str] = "the gas pipe"

    from_: str | None = None
    to: Annotated[tuple[str, ...], NamesOf(("appliances",))] | None = None
    route: Term | None = None
    pipe: Length | None = None
    length: Length | None = None
    valve: str | None = None


class Light(Element):
    """Lights of one sort: how many, where, and the power of all of them."""

    called: ClassVar[str] = "a light"

    number: Count | None = None
    under: str | None = None
    power: Power | None = None
    supply: str | None = None
