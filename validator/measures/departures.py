"""Departures that the plan agrees to, as things to judge: their rows are made once everything else is judged."""

from __future__ import annotations

from validator.measures.rows import NAME, YES_NO, Row, Words, given
from validator.plan.dimensions import DATE


class Departure(Row, kind="departure"):
    """One agreed departure: does it cover anything, until when, is it from law, and has the figure got worse."""

    matched: bool = given(YES_NO, "whether something departs from the rule there")
    until: float = given(DATE, "until when it is agreed")
    today: float = given(DATE, "today")
    covered: str = given(Words(("law", "other")), "what it departs from")
    worsened: bool = given(YES_NO, "whether the figure is worse than the one agreed")
    rule: str = given(NAME, "rule")
