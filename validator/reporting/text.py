"""The report as text: an inspection of the plan, verdict first and last, points in the order of the work."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from validator.judging.apply import Judgement
from validator.judging.cautions import cautions
from validator.judging.outcomes import Result
from validator.judging.ready import StageVerdict, ready, stage_verdicts
from validator.judging.rules import Severity
from validator.reporting.columns import cut, filled, one_line
from validator.reporting.findings import finding
from validator.reporting.lines import WIDTH, apart, at_column, day, labelled, wrapped
from validator.reporting.point_texts import PointTexts
from validator.reporting.points import put_together
from validator.reporting.printing import Printer
from validator.reporting.style import Style
from validator.reporting.summary import (
    NO_COUNTRY,
    STANDING_SENTENCE,
    about,
    agreed_on,
    caution_said,
    in_numbers,
    in_the_way,
    suppositions,
)
from validator.reporting.walls import strips

MOST_IN_FULL = 15
"""More things to find out than this are said in a line or two each."""

MOST_NUMBERS = 8
ANSWER_COLUMN, REASON_COLUMN = 32, 43
TALLY_ORDER = (Result.MET, Result.NOT_MET, Result.NOT_KNOWN, Result.AGREED)


def report(judgement: Judgement, on: date, style: Style, fail_on: Severity = "put right") -> str:
    """The whole report of one plan, ending in a line break."""
    return style.tamed("\n".join(TextReport(judgement, on, style, fail_on).lines()) + "\n")


class TextReport:
    """Writes the report of one judged plan."""

    def __init__(self, judgement: Judgement, on: date, style: Style, fail_on: Severity) -> None:
        self._judgement = judgement
        self._on = on
        self._style = style
        self._printer = Printer(judgement.site)
        self._points = put_together(judgement)
        self._texts = PointTexts(self._points, judgement.site.library.questions, self._printer, style)
        self._verdicts = stage_verdicts(judgement, fail_on)
        self._ready = ready(judgement, fail_on)

    def lines(self) -> Iterator[str]:
        yield from self._head()
        yield from self._stages()
        yield from self._walls()
        for verdict in self._verdicts:
            yield from self._stage_points(verdict)
        yield from self._errands()
        yield from self._agreed_supposed_tight()
        yield from self._cautions()
        yield from self._foot()

    def _head(self) -> Iterator[str]:
        plan, books = self._judgement.site.plan, self._judgement.books
        yield from apart("INSPECTION OF THE PLAN", plan.project.title or "")
        yield from apart(day(self._on), f"plan {plan.digest[:9]}   rules {books.applied} {books.digest[:7]}")
        yield "_" * WIDTH
        yield ""
        yield self._verdict()
        yield from wrapped(in_numbers(self._points))
        if books.country_missing:
            yield from wrapped(NO_COUNTRY)
        yield ""

    def _verdict(self) -> str:
        return self._style.strong("READY." if self._ready else "NOT READY.")

    def _stages(self) -> Iterator[str]:
        yield at_column("   May I now", "What stands in the way", REASON_COLUMN)
        for verdict in self._verdicts:
            blocking, to_find_out = in_the_way(verdict, self._points)
            reasons = []
            if blocking:
                reasons.append(_listed(blocking))
            elif verdict.earlier:
                reasons.append("what stands above")
            elif verdict.country_missing:
                reasons.append("national rules not applied")
            if to_find_out:
                reasons.append("find out " + _listed(to_find_out))
            question = self._printer.text(verdict.question)
            answer = at_column(f"   {question}", "yes" if verdict.ready else "not yet", ANSWER_COLUMN)
            first, *others = list(wrapped("; ".join(reasons), REASON_COLUMN)) or [""]
            yield at_column(answer, first.strip(), REASON_COLUMN)
            yield from others
        yield ""

    def _walls(self) -> Iterator[str]:
        found = strips(self._judgement.site, self._points)
        if not found:
            return
        yield "   Where to look, each wall as you face it"
        last, last_room = "", ""
        for strip in found:
            room, _, own = strip.wall.rpartition(" / ")
            if room != last_room:
                yield f"   {cut(one_line(room), WIDTH - 3)}"
            wall = "" if strip.wall == last else cut(one_line(own), 10)
            yield f"   {filled(wall, 11)}{strip.things}"
            for numbers in strip.numbers:
                yield f"   {'':<11}{numbers}"
            last, last_room = strip.wall, room
        yield ""

    def _stage_points(self, verdict: StageVerdict) -> Iterator[str]:
        points = self._points.of_stage(verdict.stage)
        if points:
            yield from self._section(f"BEFORE {self._printer.text(verdict.stage).upper()}")
        for point in points:
            yield from self._texts.point(point)
            yield ""

    def _errands(self) -> Iterator[str]:
        if self._points.errands:
            yield from self._section("NOT KNOWN: FIND THESE OUT")
        in_full = len(self._points.errands) <= MOST_IN_FULL
        for errand in self._points.errands:
            if in_full:
                yield from self._texts.errand(errand)
                yield ""
            else:
                yield from self._texts.errand_in_short(errand)
        if not in_full:
            yield ""
            yield from wrapped("`dryfit measure` prints how each is found out, as a list to take round the room.")
            yield ""

    def _agreed_supposed_tight(self) -> Iterator[str]:
        lines = [*self._agreed(), *self._supposed(), *self._tight()]
        if lines:
            yield from self._section("AGREED, SUPPOSED, AND TIGHT BUT MET")
            yield from lines
            yield ""

    def _agreed(self) -> Iterator[str]:
        for outcome in self._points.agreed:
            departure = outcome.departure
            if departure is not None:
                said = f"{about(outcome, self._printer)}: {agreed_on(departure)}"
                yield from labelled("agreed", said, self._printer.lines([departure.pointer]))

    def _supposed(self) -> Iterator[str]:
        for said in suppositions(self._points, self._printer):
            yield from labelled("met, if", said)

    def _tight(self) -> Iterator[str]:
        for outcome in self._points.tight:
            said = finding(outcome, self._printer)
            if said is not None:
                yield from labelled("tight", at_column(f"{said.short} to spare", about(outcome, self._printer), 18))

    def _cautions(self) -> Iterator[str]:
        found = cautions(self._judgement.site)
        if found:
            yield from self._section("WHATEVER THE PLAN SAYS")
            for caution in found:
                yield from labelled(caution.signal, caution_said(caution, self._judgement.site, self._printer))
            yield ""

    def _section(self, title: str) -> Iterator[str]:
        yield self._style.strong(title)
        yield ""

    def _foot(self) -> Iterator[str]:
        yield "_" * WIDTH
        yield ""
        tally = self._points.tally
        applied = sum(tally.values())
        counts = "   ".join(f"{tally[result]} {result.value}" for result in TALLY_ORDER)
        yield f"{applied} {'rule applies' if applied == 1 else 'rules apply'}:   {counts}"
        for name, why in self._judgement.books.withdrawn.items():
            yield from wrapped(f"Withdrawn by a book given on the command line: {name} ({why}).")
        yield f"{self._verdict()}  {STANDING_SENTENCE}"


def _listed(numbers: list[int]) -> str:
    """The first few of several numbers: `1  2  3 and 4 more`."""
    more = len(numbers) - MOST_NUMBERS
    return "  ".join(map(str, numbers[:MOST_NUMBERS])) + (f" and {more} more" if more > 0 else "")
