"""Departures agreed in the plan: which outcomes they cover, and what is wrong with the departures themselves.

A departure covers *not met* only, of one rule at one thing, never a rule of law, never longer than agreed and never a
figure worse than the one agreed.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from validator.judging.books import Books
from validator.judging.outcomes import Departure as Covering
from validator.judging.outcomes import Outcome, Result
from validator.measures.departures import Departure
from validator.measures.reading import exactly, quantity
from validator.measures.rows import Subject
from validator.plan.dimensions import DAY
from validator.plan.names import fold
from validator.plan.plan import Plan
from validator.plan.pointers import split
from validator.plan.sections.project import Agreed
from validator.plan.values import Quantity


def covered(outcomes: Sequence[Outcome], agreed: Sequence[Agreed], books: Books, on: date) -> list[Outcome]:
    """The outcomes, those *not met* that a departure covers turned into *agreed*."""
    result = list(outcomes)
    for departure in agreed:
        for number, outcome in enumerate(result):
            if (
                _about(departure, outcome, books)
                and outcome.result is Result.NOT_MET
                and not outcome.rule.of_law
                and not _run_out(departure, on)
                and not _worsened(departure, outcome)
            ):
                until = departure.until.high if isinstance(departure.until, Quantity) else None
                covering = Covering(departure.pointer, departure.reason, departure.by, until)
                result[number] = outcome._replace(result=Result.AGREED, departure=covering)
    return result


def departure_rows(outcomes: Sequence[Outcome], plan: Plan, books: Books, on: date) -> list[Departure]:
    """The departures of the plan as rows, once everything else is judged."""
    rows = []
    for departure in plan.agreed:
        about = [outcome for outcome in outcomes if _about(departure, outcome, books)]
        departs = [outcome for outcome in about if outcome.result in (Result.NOT_MET, Result.AGREED)]
        pointer = departure.pointer
        until = quantity(departure.until, departure.pointer_to("until"), "until when it is agreed")
        rows.append(
            Departure(
                Subject(f"{departure.rule} at {departure.at}", pointer),
                matched=exactly(bool(departs), pointer, "whether something departs from the rule there"),
                until=exactly(_date(date.max), pointer, "no end") if departure.until is None else until,
                today=exactly(_date(on), pointer, "today"),
                covered=exactly("law" if any(outcome.rule.of_law for outcome in about) else "other", pointer, ""),
                worsened=exactly(any(_worsened(departure, outcome) for outcome in departs), pointer, ""),
                rule=exactly(departure.rule, pointer, "rule"),
            )
        )
    return rows


def _about(departure: Agreed, outcome: Outcome, books: Books) -> bool:
    if books.resolve(departure.rule) != outcome.rule.name:
        return False
    wanted = fold(departure.at)
    names = {fold(outcome.subject.name)}
    match split(outcome.subject.pointer):
        case ["runs", run, "order", name]:
            names |= {fold(name), fold(f"{run} / {name}")}
        case [*_, name]:
            names.add(fold(name))
    return wanted in names


def _run_out(departure: Agreed, on: date) -> bool:
    """Whether its time is over, or nobody knows until when it is agreed."""
    until = departure.until
    return until is not None and (not isinstance(until, Quantity) or until.low < _date(on))


def _worsened(departure: Agreed, outcome: Outcome) -> bool:
    """Whether the figure is further out than the one agreed; a figure of another dimension agrees to nothing."""
    agreed = departure.no_worse_than
    if agreed is None:
        return False
    if outcome.rule.dimension is None or agreed.dimension.powers != outcome.rule.dimension.powers:
        return True
    for check in outcome.checks:
        if isinstance(check.have, str) or check.ok:
            continue
        if check.bound == "at least" and check.have < agreed.low - 1e-9:
            return True
        if check.bound == "at most" and check.have > agreed.high + 1e-9:
            return True
        if check.bound == "equals" and isinstance(check.need, float):
            allowed = max(abs(agreed.low - check.need), abs(agreed.high - check.need))
            if abs(check.have - check.need) > allowed + 1e-9:
                return True
    return False


def _date(day: date) -> float:
    return day.toordinal() * DAY
