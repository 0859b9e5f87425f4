"""The project itself, what the household has agreed to, and values of its own."""

import re
from typing import Annotated, ClassVar, Literal

from pydantic import AfterValidator, Field

from validator.plan.choices import OneOf
from validator.plan.elements import Element, Unfit
from validator.plan.fields import AnyQuantity, Date
from validator.plan.names import fold
from validator.plan.values import ToFind
from validator.plan.written import Written

_COUNTRY = Written(r"[A-Z]{2}(-[A-Z0-9]{1,3})?", ("GB", "GB-ENG", "US-OR"))
_COUNTRIES = {
    "uk": "GB",
    "great britain": "GB",
    "united kingdom": "GB",
    "england": "GB-ENG",
    "scotland": "GB-SCT",
    "wales": "GB-WLS",
    "usa": "US",
    "united states": "US",
    "canada": "CA",
    "australia": "AU",
    "germany": "DE",
}
"""What people write in place of a code. `UK` has the form of one, and no rule would apply to it."""

_CURRENCY = Written(r"[A-Z]{3}", ("GBP", "USD"))


def _country(code: str) -> str:
    called = _COUNTRIES.get(fold(code))
    if called is None and re.fullmatch(_COUNTRY.pattern, code):
        return code
    meant = called or code.upper().replace("_", "-")
    better = meant if re.fullmatch(_COUNTRY.pattern, meant) else ""
    raise Unfit(f"`{code}` is no country code", "a code of ISO 3166, such as GB, GB-ENG or US-OR", better)


def _currency(code: str) -> str:
    if re.fullmatch(_CURRENCY.pattern, code):
        return code
    better = code.upper() if re.fullmatch(r"[A-Za-z]{3}", code) else ""
    raise Unfit(f"`{code}` is no currency code", "a code of ISO 4217, such as GBP or USD", better)


class Project(Element):
    """Country is an ISO 3166 code (`GB-ENG`, `US-OR`); without one no national rulebook applies."""

    called: ClassVar[str] = "the project"

    title: str | None = None
    country: Annotated[str, AfterValidator(_country), _COUNTRY] | None = None
    currency: Annotated[str, AfterValidator(_currency), _CURRENCY] | None = None
    lengths_in: Annotated[Literal["mm", "cm", "m", "in", "ft"], OneOf()] | None = None
    built: Annotated[int, Field(ge=1000, le=2200), Written("1[0-9]{3}|2[01][0-9]{2}|2200", ("1968",))] | None = None
    starts: Date | None = None
    accessible: Annotated[Literal["no", "yes", "category 2", "category 3"] | ToFind, OneOf()] | None = (
        None  # where the kitchen is to be fit for somebody in a wheelchair: the category of the code, or yes
    )
    room: str | None = None  # what the room at the top of the plan is called beside those of `rooms`


class Agreed(Element):
    """A departure from one rule at one thing: why, by whom, until when, and the figure it may not get worse than."""

    called: ClassVar[str] = "a departure"
    worked_out: ClassVar[frozenset[str]] = frozenset({"rule"})

    rule: str
    at: str
    reason: str
    by: str
    until: Date | None = None
    no_worse_than: AnyQuantity | None = None
