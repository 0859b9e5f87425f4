"""The project itself, what the household has agreed to, and values of its own."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from validator.plan.elements import Element
from validator.plan.fields import Date
from validator.plan.values import Quantity


class Project(Element):
    """Country is an ISO 3166 code (`GB-ENG`, `US-OR`); without one no national rulebook applies."""

    title: str | None = None
    country: Annotated[str, Field(pattern=r"^[A-Z]{2}(-[A-Z0-9]{1,3})?$")] | None = None
    currency: Annotated[str, Field(pattern=r"^[A-Z]{3}$")] | None = None
    lengths_in: Literal["mm", "cm", "m", "in", "ft"] | None = None
    built: Annotated[int, Field(ge=1000, le=2200)] | None = None
    starts: Date | None = None


class Agreed(Element):
    """A departure from one rule at one thing: why, by whom, until when, and the figure it may not get worse than."""

    rule: str
    at: str
    reason: str
    by: str
    until: Date | None = None
    no_worse_than: Quantity | None = None
