"""The survey: what was found in the room before anything was moved, and what still has to be tested."""

import re
from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import BeforeValidator

from validator.plan.choices import OneOf, YesOrNo
from validator.plan.elements import Element, Unfit
from validator.plan.fields import Count, Current, Date, Length, Term
from validator.plan.names import fold
from validator.plan.values import ToFind
from validator.plan.written import Written

Found = Literal["none", "present", "assumed", "left covered", "removed", "lead-safe work"]
Flue = Literal["none", "boiler", "water heater", "gas fire", "oil boiler", "stove", "open fire"]
"""What takes its air from the room and sends its fumes up a flue."""

_TESTED = re.compile(r"(?P<result>.+?)(?:\s+by\s+(?P<by>.+?))?(?:\s+on\s+(?P<tested>\d{4}-\d\d-\d\d))?\s*", re.S)


class Suspect(Element):
    """What is known of a suspect material: `none by laboratory on 2026-02-03`, `present`, `left covered`, `removed`."""

    called: ClassVar[str] = "a suspect material"
    asks: ClassVar[tuple[str, ...]] = ("result",)
    line: ClassVar[Written | None] = Written(
        "<result>( by <name>)?( on <tested>)?", ("none by laboratory on 2026-02-03", "present")
    )

    result: Annotated[Found | ToFind, OneOf()] | None = None
    by: str | None = None
    tested: Date | None = None  # recorded only: a test does not go out of date

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        found = _TESTED.fullmatch(written) if isinstance(written, str) else None
        if found is None:
            raise Unfit("a suspect material is written with what its test found", "`none by laboratory on 2026-02-03`")
        return {key: value for key, value in found.groupdict().items() if value}


def _suspects(written: object) -> object:
    """`none`: nothing suspect is there; one finding alone is about all of it."""
    if isinstance(written, str):
        return {} if fold(written) == "none" else {"all of it": written}
    return written


Suspects = Annotated[dict[str, Suspect], BeforeValidator(_suspects), Written("<=none>|<suspect>", ("none",))]
"""Suspect materials by where they are; empty where there are none."""


class ConsumerUnit(Element):
    """The consumer unit: where it is, and how many of its ways are free for new circuits."""

    called: ClassVar[str] = "the consumer unit"
    asks: ClassVar[tuple[str, ...]] = ("ways_free",)
    line: ClassVar[Written | None] = Written("<name>", ("under the stairs",))

    in_: str | None = None
    rating: Current | None = None
    ways_free: Count | None = None
    clear_in_front: Length | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        if not isinstance(written, str):
            raise Unfit("the consumer unit is written with where it is and its free ways", "`{in: hall, ways free: 2}`")
        return {"in": written}


class Stopcock(Element):
    """The stop valve of the home: where it is, whether it turns and shuts, and whether it stays within reach."""

    called: ClassVar[str] = "the stopcock"
    asks: ClassVar[tuple[str, ...]] = ("in_", "turns")
    line: ClassVar[Written | None] = Written("<words>", ("under the stairs",))

    in_: Term | None = None
    turns: Annotated[bool | ToFind, YesOrNo()] | None = None
    within_reach: Annotated[bool | ToFind, YesOrNo()] | None = None  # once the units are in

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        if not isinstance(written, str):
            raise Unfit("the stopcock is written with where it is", "`{in: under the stairs, turns: yes}`")
        return {"in": written}


class GasMeter(Element):
    """The gas as found: where its meter is, and the pipe to the kitchen."""

    called: ClassVar[str] = "the gas as found"

    meter: str | None = None
    pipe: str | None = None
    length: Length | None = None


class Survey(Element):
    """What was found; signed with the day it was taken, and then left alone."""

    called: ClassVar[str] = "the survey"

    taken: Date | None = None
    opened_up: tuple[str, ...] | None = None  # recorded only; what was found there stands under `built`
    asbestos: Suspects | None = None
    lead_paint: Suspects | None = None
    stopcock: Stopcock | None = None
    gas: GasMeter | None = None
    consumer_unit: ConsumerUnit | None = None
    open_flue: Annotated[Flue | ToFind, OneOf()] | None = None
    spillage_test: Annotated[Literal["passed", "failed", "not yet"] | ToFind, OneOf()] | None = None
