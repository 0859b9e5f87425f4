"""Money, deliveries, and the papers that permit the work and certify it."""

import re
from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import BeforeValidator

from validator.plan.choices import OneOf
from validator.plan.elements import Element, Unfit
from validator.plan.fields import Date, Duration, Money, Share
from validator.plan.names import fold
from validator.plan.values import ToFind
from validator.plan.written import Written


def _rate(written: object) -> object:
    """`included` in every price, and `none` where no tax is due, both add nothing."""
    return "0 %" if isinstance(written, str) and fold(written) in ("included", "none") else written


_RATE = Written("<share>|<=included|none>", ("20 %", "included"))


class Budget(Element):
    """What the work may cost, and what is added to the prices that stand with people, deliveries and appliances."""

    called: ClassVar[str] = "the money"

    limit: Money | None = None
    sundries: Money | None = None
    tool_hire: Money | None = None
    waste_removal: Money | None = None
    making_good: Money | None = None
    fees: Money | None = None
    other: Money | None = None
    contingency: Share | None = None
    vat: Annotated[Share, BeforeValidator(_rate), _RATE] | None = None  # what is still to be added; included: nothing
    left_out: tuple[str, ...] | None = None  # recorded only: what the sum does not hold


class Delivery(Element):
    """Something ordered: its price, and when it is due. `for` is the task that needs it."""

    called: ClassVar[str] = "a delivery"

    price: Money | None = None
    deposit: Money | None = None  # recorded only: no rule reads it
    ordered: Date | None = None
    lead_time: Duration | None = None  # from its order to its delivery, as the supplier says
    due: Date | None = None
    for_: str | None = None
    stored: str | None = None


_PAPER = re.compile(r"(?P<standing>held|asked for|not needed)?(?:(?:\s+|^)from\s+(?P<by>.+?))?"
                    r"(?:(?:\s+|^)on\s+(?P<dated>\d{4}-\d\d-\d\d))?\s*", re.S)  # fmt: skip


class Paper(Element):
    """A permit or a certificate: `held on 2026-03-02`, `asked for`, `not needed`, `from electrician`."""

    called: ClassVar[str] = "a paper"
    asks: ClassVar[tuple[str, ...]] = ("standing",)
    line: ClassVar[Written | None] = Written(
        "(held|asked for|not needed)( from <name>)?( on <dated>)?|from <name>( on <dated>)?|on <dated>",
        ("held on 2026-03-02", "asked for", "not needed", "from electrician"),
    )

    standing: Annotated[Literal["held", "asked for", "not needed"] | ToFind, OneOf()] | None = None
    by: str | None = None
    dated: Date | None = None  # recorded only

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        found = _PAPER.fullmatch(" ".join(written.split())) if isinstance(written, str) else None
        if found is None or not any(found.groupdict().values()):
            raise Unfit(
                "a paper is written with whether it is there, or who gives it",
                "`held on 2026-03-02`, `asked for`, `not needed`, `from electrician` or `to find out`",
            )
        return {key: value for key, value in found.groupdict().items() if value}
