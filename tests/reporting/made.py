"""Judgements made by hand, of a plan that says next to nothing: outcomes of rules with a severity and a stage."""

from __future__ import annotations

import functools
from collections.abc import Iterable

from tests.measures.plans import library, site
from validator.judging.apply import Judgement
from validator.judging.books import Books, read_rulebooks
from validator.judging.outcomes import Check, Outcome, Result
from validator.judging.rules import Rule, Severity
from validator.measures.rows import Missing, Row, Subject
from validator.reference.folder import rules_folder


@functools.cache
def _any_rule() -> Rule:
    return next(rule for rule in read_rulebooks(rules_folder(), library(), "GB-ENG").rules if rule.name == "waste-fall")


def rule(name: str, severity: Severity = "put right", before: str = "first fix") -> Rule:
    """A rule of this name, with everything else that a rule has."""
    return _any_rule()._replace(name=name, title=f"Title of {name}", severity=severity, before=before)


def outcome(of: Rule, thing: str, result: Result, *missing: Missing, row: Row | None = None) -> Outcome:
    """What a rule says of a thing; 12 where 18 is needed unless it is met or not known."""
    falls_short = Check("at least", 0.012, 0.018, False, 0.006)
    checks = {Result.NOT_KNOWN: (), Result.MET: (Check("at least", 0.02, 0.018, True, -0.002),)}
    return Outcome(of, Subject(thing, f"/appliances/{thing}"), result, row, checks.get(result, (falls_short,)), missing)


def not_met(of: Rule, thing: str) -> Outcome:
    return outcome(of, thing, Result.NOT_MET)


def not_known(of: Rule, thing: str, *missing: Missing) -> Outcome:
    return outcome(of, thing, Result.NOT_KNOWN, *missing)


def judgement(outcomes: Iterable[Outcome], *, country_missing: bool = False, plan: str = "") -> Judgement:
    return Judgement(site(plan), Books((), country_missing), tuple(outcomes))
