"""Applying rules to rows: one outcome for each rule and each thing it is about.

A row is judged at every end of its ranges, and of the household's own, and the worst counts. Nothing missing counts as
met; a *stop* is settled neither by an assumed figure nor while a maker's paper is unread.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Sequence
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

from validator.judging.books import Books
from validator.judging.comparing import Comparison, compare
from validator.judging.departures import covered, departure_rows
from validator.judging.outcomes import Outcome, Result
from validator.judging.rules import Rule
from validator.measures.departures import Departure
from validator.measures.rows import Known, LeftOut, Missing, NotKnown, Row, Subject, Why
from validator.measures.site import Site
from validator.measures.tracing import trace
from validator.plan.plan import Plan
from validator.reference.library import Library

if TYPE_CHECKING:
    from validator.reference.measuring import Ways


class Judgement(NamedTuple):
    """All outcomes in the order of books and rows, with the rules that found nothing to judge.

    `site` answers what the report still wants to know of the plan (working, places).
    """

    site: Site
    books: Books
    outcomes: tuple[Outcome, ...]
    idle: tuple[Rule, ...] = ()


def judge(plan: Plan, library: Library, books: Books, on: date, ways: Callable[[], Ways] | None = None) -> Judgement:
    """Judge a plan by the books that apply to it, on a day."""
    return judge_site(Site(plan, library, on, ways), books)


def judge_site(site: Site, books: Books) -> Judgement:
    """As `judge`; rows that the site has worked out already are taken as they are."""
    plan, on = site.plan, site.on
    outcomes: list[Outcome] = []
    idle: list[Rule] = []
    for rule in books.rules:
        if rule.each == Departure.kind:
            continue
        rows = site.rows(rule.each)
        found = [outcome for row in rows.rows if (outcome := apply(rule, row, site)) is not None]
        found += [_nobody_knows(rule, left_out) for left_out in rows.left_out]
        outcomes += found
        if not found:
            idle.append(rule)
    outcomes = covered(outcomes, plan.agreed, books, on)
    of_departures = departure_rows(outcomes, plan, books, on)
    for rule in books.rules:
        if rule.each == Departure.kind:
            found = [outcome for row in of_departures if (outcome := apply(rule, row, site)) is not None]
            outcomes += found
            if not found:
                idle.append(rule)
    return Judgement(site, books, tuple(outcomes), tuple(idle))


def apply(rule: Rule, row: Row, site: Site) -> Outcome | None:
    """The outcome of one rule for one row; None where its `when` says that it does not apply.

    That a *stop* does not apply is not settled by an assumed figure either.
    """
    worst: Comparison | None = None
    worst_rule, worst_row = rule, row
    fails = False  # at an end at which the rule applies for certain
    not_known: list[Missing] = []
    perhaps_not: list[Missing] = []
    for settled, corner in itertools.product(rule.at_ends(), row.corners()):
        applies = True
        try:
            if settled.when is not None and not settled.when.evaluate(corner, settled.names):
                continue
        except NotKnown as unknown:
            applies = False
            perhaps_not += unknown.missing
        comparison = compare(settled, corner, site)
        not_known += comparison.missing
        certain = applies and comparison.failed
        if worst is None or certain > fails or (certain == fails and comparison.worse_than(worst)):
            worst, worst_rule, worst_row = comparison, settled, corner
        fails = fails or certain
    if worst is None:
        supposing = _once(_assumed(rule, row)) if rule.severity == "stop" and _hangs_on_assumption(rule, row) else ()
        return Outcome(rule, row.subject, Result.NOT_KNOWN, row, missing=supposing) if supposing else None
    result = Result.MET
    missing: tuple[Missing, ...] = ()
    supposing = ()
    if fails:
        result, supposing = Result.NOT_MET, _once(worst.unread)
    elif not_known or worst.failed:
        result, missing = Result.NOT_KNOWN, _once(not_known + perhaps_not)
    else:
        supposing = _once([*worst.unread, *_assumed(rule, row)])
        if supposing and rule.severity == "stop":
            result, missing, supposing = Result.NOT_KNOWN, supposing, ()
    return Outcome(worst_rule, row.subject, result, worst_row, worst.checks, missing, supposing)


def _hangs_on_assumption(rule: Rule, row: Row) -> bool:
    """Whether nobody could tell that the rule does not apply, if what is only assumed were not known."""
    own_assumed = any(isinstance(value, Known) and value.assumed for value in rule.own.values())
    if rule.when is None or not (row.rests_on_assumption or own_assumed):
        return False
    names = dict(rule.names)
    for name, value in rule.own.items():
        if isinstance(value, Known) and value.assumed:
            names[name] = Missing(value.pointer, value.label, Why.ASSUMED)
    for corner in row.without_assumptions().corners():
        try:
            rule.when.evaluate(corner, names)
        except NotKnown:
            return True
    return False


def _assumed(rule: Rule, row: Row) -> list[Missing]:
    """The figures nobody has verified on which the outcome rests, down to where the plan says `assumed`."""
    own = [
        Missing(value.pointer, value.label, Why.ASSUMED, detail=value.text)
        for value in rule.own.values()
        if isinstance(value, Known) and value.assumed
    ]
    if not row.rests_on_assumption:
        return own
    names = {rule.figure} if rule.figure else set()
    for expression in (rule.when, rule.holds, *(limit.expression for limit in rule.limits)):
        if expression is not None:
            names |= expression.reads
    for limit in rule.limits:
        if limit.row is not None:
            names |= set(limit.row.by.values())
    names |= set(rule.stated)
    found: dict[tuple[str, str], Missing] = {}
    for each in (*own, *assumptions(row, names)):
        found.setdefault((each.pointer, each.label), each)  # once, by whichever field asks for it first
    return list(found.values())


def assumptions(row: Row, names: Iterable[str]) -> Iterable[Missing]:
    """Every assumed value that the named fields and figures of a row rest on, followed to where it was written."""
    for name in sorted(names):
        if name not in row.fields and name not in row.figures:
            continue
        for field, known in trace(row, name)[1].read.items():
            for value in known.parts or (known,):
                if not value.rests_on_assumption:
                    continue
                yield from _behind(value, f"{row.kind}.{field}")


def _behind(value: Known, asks: str) -> Iterable[Missing]:
    if value.rests_on:
        for each in value.rests_on:
            yield from _behind(each, asks)
    elif value.origin is not None:
        yield from assumptions(value.origin[0], (value.origin[1],))
    else:
        yield Missing(value.pointer, value.label, Why.ASSUMED, detail=value.text, asks=asks)


def _nobody_knows(rule: Rule, left_out: LeftOut) -> Outcome:
    missing = left_out.missing
    return Outcome(rule, Subject(missing.label, missing.pointer), Result.NOT_KNOWN, missing=(missing,))


def _once(missing: Sequence[Missing]) -> tuple[Missing, ...]:
    return tuple(dict.fromkeys(missing)) if missing else ()
