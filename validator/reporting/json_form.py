"""The report for machines: JSON with stable names, the same bytes for the same input and day."""

from __future__ import annotations

import json
from datetime import date
from typing import Any

from validator.judging.apply import Judgement
from validator.judging.cautions import cautions
from validator.judging.outcomes import Check, Outcome, Result
from validator.judging.ready import ready, stage_verdicts
from validator.judging.rules import Severity
from validator.measures.rows import Missing
from validator.plan.dimensions import subtracted
from validator.reporting.columns import OBEYED
from validator.reporting.findings import makers, remedy, work_out_outcome
from validator.reporting.lines import day_of
from validator.reporting.points import Errand, put_together
from validator.reporting.printing import Printer
from validator.reporting.summary import caution_said

FORM = 1


def as_data(judgement: Judgement, on: date, fail_on: Severity = "put right") -> dict[str, Any]:
    """The report of one plan as plain data: plan, books, verdicts by stage, tally, outcomes, rules left idle."""
    printer = Printer(judgement.site)
    plan, books = judgement.site.plan, judgement.books
    points = put_together(judgement)
    return {
        "dryfit report": FORM,
        "on": on.isoformat(),
        "plan": {
            "title": plan.project.title,
            "country": plan.project.country,
            "files": list(plan.files),
            "digest": plan.digest,
        },
        "rules": {
            "applied": books.applied,
            "digest": books.digest,
            "withdrawn": dict(books.withdrawn),
            "national rules left out for want of a country": books.country_missing,
        },
        "ready": ready(judgement, fail_on),
        "stages": [
            {
                "stage": verdict.stage,
                "ready": verdict.ready,
                "points": points.numbers(verdict.blocking),
                "find out": points.numbers(verdict.open),
                "after": list(verdict.earlier),
            }
            for verdict in stage_verdicts(judgement, fail_on)
        ],
        "tally": {result.value: points.tally[result] for result in Result},
        "points": [
            {"number": point.number, "rule": point.rule.name, "at": [o.subject.name for o in point.outcomes]}
            for point in points.points
        ],
        "errands": [errand_data(errand, judgement, printer) for errand in points.errands],
        "outcomes": [outcome_data(outcome, printer) for outcome in judgement.outcomes],
        "rules that found nothing to judge": [rule.name for rule in judgement.idle],
        "cautions": [
            {"signal": caution.signal, "says": caution_said(caution, judgement.site, printer)}
            for caution in cautions(judgement.site)
        ],
    }


def as_text(reports: object) -> str:
    """Reports as a JSON text ending in a line break; what a terminal would obey is written as an escape."""
    text = json.dumps(reports, ensure_ascii=False, allow_nan=False, indent=2)
    return OBEYED.sub(lambda found: f"\\u{ord(found.group()):04x}", text) + "\n"


def outcome_data(outcome: Outcome, printer: Printer) -> dict[str, Any]:
    """One rule at one thing: how it came out, and by which figures."""
    rule = outcome.rule
    place = printer.place(outcome.subject.pointer)
    data: dict[str, Any] = {
        "rule": rule.name,
        "title": printer.text(rule.title),
        "severity": rule.severity,
        "before": rule.before,
        "thing": outcome.subject.name,
        "at": outcome.subject.pointer,
        "file": place.file,
        "line": place.line,
        "column": place.column,
        "result": outcome.result.value,
        "checks": [_check(check, outcome, printer) for check in outcome.checks],
        "rests on": {
            "source": str(rule.source),
            "standing": rule.source.standing,
            "seen": rule.source.seen or None,
        },
    }
    if outcome.subject.wall:
        data["wall"] = outcome.subject.wall
    if outcome.result is not Result.MET:
        working = work_out_outcome(outcome, printer)
        if working is not None:
            data["working"] = [
                {"figure": line.label, "sum": line.sum, "result": line.result} for _, line in working.flat()
            ]
        data["makers"] = makers(outcome, printer)
        data["do this"] = remedy(outcome, printer) if outcome.result is Result.NOT_MET else ""
    if outcome.missing:
        data["find out"] = [_missing(missing, printer) for missing in outcome.missing]
    if outcome.supposing:
        data["supposing"] = [_missing(missing, printer) for missing in outcome.supposing]
    if outcome.departure is not None:
        until = outcome.departure.until
        data["agreed"] = {
            "at": outcome.departure.pointer,
            "reason": outcome.departure.reason,
            "by": outcome.departure.by,
            "until": None if until is None else day_of(until).isoformat(),
        }
    return data


def errand_data(errand: Errand, judgement: Judgement, printer: Printer) -> dict[str, Any]:
    """One thing to find out, and where the answer is written."""
    return {
        "number": errand.number,
        **_missing(errand.missing, printer),
        "answer at": errand.at,
        "question": printer.text(errand.how or judgement.site.library.questions.get(errand.missing.asks, "")),
        "severity": errand.severity,
    }


def _check(check: Check, outcome: Outcome, printer: Printer) -> dict[str, Any]:
    """A check in base units (mm, kg, s, A, K and their products) and, in `shown`, as the plan would write it."""
    dimension = outcome.rule.dimension
    shown: dict[str, str] = {}
    if dimension is not None and not isinstance(check.have, str) and not isinstance(check.need, str):
        have, need = printer.pair(check.have, check.need, dimension)
        shown = {"have": have, "need": need, "short": printer.value(check.short, subtracted(dimension, dimension))}
    return {
        "bound": check.bound,
        "have": check.have,
        "need": check.need,
        "ok": check.ok,
        "short": check.short,
        "limit of": check.need_from,
        **({"shown": shown} if shown else {}),
    }


def _missing(missing: Missing, printer: Printer) -> dict[str, Any]:
    place = printer.place(missing.pointer)
    return {
        "what": printer.text(missing.label),
        "at": missing.pointer,
        "file": place.file,
        "line": place.line,
        "why": missing.why.value,
        "who": missing.by,
        **({"detail": missing.detail} if missing.detail else {}),
    }
