"""The report of a whole plan as values of its page: the same points, figures and drawings as every other form."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from validator.judging.apply import Judgement
from validator.judging.cautions import cautions
from validator.judging.outcomes import Result
from validator.judging.ready import ready, stage_verdicts
from validator.judging.rules import Severity
from validator.plan.pointers import as_key
from validator.reporting.connections import Connections
from validator.reporting.findings import asked, finding
from validator.reporting.points import put_together
from validator.reporting.printing import Printer
from validator.reporting.sheets.asking import Question
from validator.reporting.sheets.content import OpenPoint, open_point
from validator.reporting.summary import (
    NO_COUNTRY,
    about,
    agreed_on,
    caution_said,
    in_numbers,
    in_the_way,
    suppositions,
)

TALLY_ORDER = (Result.MET, Result.NOT_MET, Result.NOT_KNOWN, Result.AGREED)


class MayI(NamedTuple):
    """A stage as a question, with the numbers of what stands in its way and of what is to find out besides."""

    question: str
    ready: bool
    blocking: tuple[int, ...]
    to_find_out: tuple[int, ...]
    waits: bool


class Told(NamedTuple):
    """A point with the line of the plan, and what moves with its cure."""

    point: OpenPoint
    line: str
    moves: tuple[str, ...]


class WholePlan(NamedTuple):
    """Everything the report of a plan says."""

    title: str
    american: bool
    on: date
    ready: bool
    in_numbers: str
    no_country: str
    digest: str
    books: str
    books_digest: str
    stages: tuple[MayI, ...]
    points: tuple[tuple[str, tuple[Told, ...]], ...]
    errands: tuple[Question, ...]
    agreed: tuple[str, ...]
    supposed: tuple[str, ...]
    tight: tuple[str, ...]
    cautions: tuple[tuple[str, str], ...]
    tally: str
    withdrawn: tuple[tuple[str, str], ...]


def whole_plan(judgement: Judgement, on: date, fail_on: Severity) -> WholePlan:
    """The report of one plan."""
    site, books = judgement.site, judgement.books
    printer, points = Printer(site), put_together(judgement)
    verdicts = stage_verdicts(judgement, fail_on)
    by_stage = []
    for verdict in verdicts:
        told = tuple(_told(judgement, verdict.stage, printer))
        if told:
            by_stage.append((printer.text(verdict.stage), told))
    agreed = [outcome for outcome in points.agreed if outcome.departure is not None]
    return WholePlan(
        site.plan.project.title or site.plan.files[0],
        site.country.startswith("US"),
        on,
        ready(judgement, fail_on),
        in_numbers(points),
        NO_COUNTRY if books.country_missing else "",
        site.plan.digest,
        books.applied,
        books.digest,
        tuple(
            MayI(printer.text(each.question), each.ready, tuple(blocking), tuple(to_find_out), bool(each.earlier))
            for each in verdicts
            for blocking, to_find_out in [in_the_way(each, points)]
        ),
        tuple(by_stage),
        tuple(_errands(judgement, printer)),
        tuple(f"{about(o, printer)}: {agreed_on(o.departure)}" for o in agreed if o.departure is not None),
        tuple(suppositions(points, printer)),
        tuple(
            f"{said.short} to spare: {about(outcome, printer)}"
            for outcome in points.tight
            if (said := finding(outcome, printer, unit=True)) is not None
        ),
        tuple((caution.signal, caution_said(caution, site, printer)) for caution in cautions(site)),
        ", ".join(f"{points.tally[result]} {result.value}" for result in TALLY_ORDER),
        tuple(books.withdrawn.items()),
    )


def _told(judgement: Judgement, stage: str, printer: Printer) -> Iterator[Told]:
    points = put_together(judgement)
    connections = Connections(points)
    for point in points.of_stage(stage):
        worst = max(point.outcomes, key=lambda outcome: outcome.short)
        moves = tuple(
            f"{', '.join(map(str, moved.numbers))} too, {moved.condition} ({printer.lines(moved.pointers)})"
            for moved in connections.together(point)
        )
        yield Told(open_point(point, printer), printer.lines([worst.subject.pointer]), moves)


def _errands(judgement: Judgement, printer: Printer) -> Iterator[Question]:
    questions = judgement.site.library.questions
    for errand in put_together(judgement).errands:
        yield Question(
            printer.text(errand.called),
            asked(errand.missing, errand.how, questions, printer),
            as_key(errand.at),
            errand.number,
            errand.stops,
            errand.missing.by or "",
        )
