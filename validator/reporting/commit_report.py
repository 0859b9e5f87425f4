"""How a plan stands, in a few lines: what a person reads who only wanted to commit."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome
from validator.judging.ready import blocks, ready
from validator.judging.rules import SEVERITIES, Severity
from validator.reporting.findings import remedy
from validator.reporting.lines import apart, labelled, some, wrapped
from validator.reporting.points import Point, put_together
from validator.reporting.printing import Printer
from validator.reporting.summary import NO_COUNTRY

MOST_OLD = 6
"""How many points and errands that are no news are listed."""


def commit_report(name: str, judgement: Judgement, new: Collection[Outcome] = (), remark: str = "") -> str:
    """The verdict, then what stands in the way: first what is new with its cure, then the rest, cut short."""
    return "\n".join(_lines(name, judgement, new, remark)) + "\n"


def _lines(name: str, judgement: Judgement, new: Collection[Outcome], remark: str) -> Iterator[str]:
    printer, points = Printer(judgement.site), put_together(judgement)
    yield from apart(name, "READY" if ready(judgement) else "NOT READY")
    yield from wrapped(remark, 7)
    if judgement.books.country_missing:
        yield from wrapped(NO_COUNTRY, 7)
    new_ids = {id(outcome) for outcome in new}
    old: list[tuple[Severity, list[str]]] = []
    for point in points.points:
        fresh = [outcome for outcome in point.outcomes if id(outcome) in new_ids]
        if fresh:
            yield from labelled("new STOP", _about(point, fresh, printer), printer.lines([fresh[0].subject.pointer]))
            yield from labelled("do this", remedy(max(fresh, key=lambda outcome: outcome.short), printer))
        others = [outcome for outcome in point.outcomes if id(outcome) not in new_ids and blocks(outcome)]
        if others:
            word = "STOP" if point.rule.severity == "stop" else point.rule.severity
            line = printer.lines([others[0].subject.pointer])
            old.append((point.rule.severity, list(labelled(word, _about(point, others, printer), line))))
    for errand in points.errands:
        if errand.stops:
            who = f", {errand.missing.by}" if errand.missing.by else ""
            asked = f"{printer.text(errand.missing.label)}{who}"
            old.append((errand.severity, list(labelled("find out", asked, printer.lines([errand.at])))))
    for _, lines in sorted(old, key=lambda entry: SEVERITIES.index(entry[0]))[:MOST_OLD]:
        yield from lines
    if len(old) > MOST_OLD:
        yield from labelled("", f"… and {len(old) - MOST_OLD} more; `dryfit check` lists them")


def _about(point: Point, outcomes: list[Outcome], printer: Printer) -> str:
    names = list(dict.fromkeys(outcome.subject.name for outcome in outcomes))
    return f"{printer.text(point.rule.title)}: {some(names)}"
