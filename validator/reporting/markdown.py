"""The report as Markdown, to stand as a comment on a change: verdict first, and whatever a plan says stays text."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from validator.judging.apply import Judgement
from validator.judging.cautions import cautions
from validator.judging.outcomes import Outcome, Result
from validator.judging.ready import StageVerdict, ready, stage_verdicts
from validator.judging.rules import Severity
from validator.plan.pointers import as_key
from validator.plan.problems import Problem, Unreadable
from validator.reporting.connections import Connections
from validator.reporting.findings import Finding, asked, finding, makers, remedies, rests_on, where
from validator.reporting.lines import day, sentence, some
from validator.reporting.markdown_room import Block, Part, under, whole
from validator.reporting.markdown_text import plain, table
from validator.reporting.points import Errand, Point, put_together
from validator.reporting.printing import Printer
from validator.reporting.sentences import mistake, place
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

__all__ = ["of_plan", "of_unreadable", "whole"]

MOST_NUMBERS, MOST_PLACES = 40, 40
TALLY_ORDER = (Result.MET, Result.NOT_MET, Result.NOT_KNOWN, Result.AGREED)
UNREADABLE = "CANNOT BE READ"


def of_plan(judgement: Judgement, on: date, fail_on: Severity = "put right") -> Part:
    """The report of one plan."""
    return PlanReport(judgement, on, fail_on).part()


def of_unreadable(unreadable: Unreadable) -> Part:
    """What has to be mended before the plan can be judged."""
    problems = unreadable.problems
    title = plain(problems[0].place.file)
    things = "one thing has" if len(problems) == 1 else f"{len(problems)} things have"
    said = sentence(f"{things} to be mended first. Nothing was judged")
    blocks = tuple(Block("mistake", _mistake(problem)) for problem in problems)
    return Part(title, False, UNREADABLE, said, f"## {UNREADABLE}: {title}\n\n{said}", blocks, f"**{UNREADABLE}.**")


def _mistake(problem: Problem) -> str:
    line = f", line {problem.place.line}" if problem.place.line else ""
    return f"- {plain(problem.place.file)}{line}: {plain(mistake(problem))}"


class PlanReport:
    """Writes the report of one judged plan."""

    def __init__(self, judgement: Judgement, on: date, fail_on: Severity) -> None:
        self._judgement = judgement
        self._on = on
        self._printer = Printer(judgement.site)
        self._points = put_together(judgement)
        self._connections = Connections(self._points)
        self._verdicts = stage_verdicts(judgement, fail_on)
        self._ready = ready(judgement, fail_on)

    def part(self) -> Part:
        plan = self._judgement.site.plan
        title = plain(plan.project.title or plan.files[0])
        verdict = "READY" if self._ready else "NOT READY"
        head = "\n".join(self._head(title, verdict))
        return Part(title, self._ready, verdict, in_numbers(self._points), head, tuple(self._blocks()), self._foot())

    def _blocks(self) -> Iterator[Block]:
        for verdict in self._verdicts:
            points = self._points.of_stage(verdict.stage)
            yield from under(
                f"Before {plain(self._printer.text(verdict.stage))}",
                [Block("point", self.point(point)) for point in points],
            )
        errands = [Block("errand", self.errand(errand)) for errand in self._points.errands]
        yield from under("Not known: find these out", errands)
        notes = [Block("note", note) for note in (*self._agreed(), *self._supposed(), *self._tight())]
        yield from under("Agreed, supposed, and tight but met", notes)
        yield from self._cautions()

    def _head(self, title: str, verdict: str) -> Iterator[str]:
        plan, books = self._judgement.site.plan, self._judgement.books
        yield f"## {verdict}: {title}"
        yield ""
        yield in_numbers(self._points)
        yield ""
        if books.country_missing:
            yield NO_COUNTRY
            yield ""
        yield f"{day(self._on)}. Rules: {plain(books.applied)} `{books.digest[:7]}`. Plan: `{plan.digest[:9]}`."
        yield ""
        rows = [
            (plain(self._printer.text(v.question)), "yes" if v.ready else "not yet", self._in_the_way(v))
            for v in self._verdicts
        ]
        yield from table(("May I now", "", "What stands in the way"), rows)

    def _in_the_way(self, verdict: StageVerdict) -> str:
        blocking, to_find_out = in_the_way(verdict, self._points)
        reasons = []
        if blocking:
            reasons.append(some(list(map(str, blocking)), MOST_NUMBERS))
        elif verdict.earlier:
            reasons.append("what stands above")
        if to_find_out:
            reasons.append("find out " + some(list(map(str, to_find_out)), MOST_NUMBERS))
        return "; ".join(reasons)

    def point(self, point: Point) -> str:
        """A rule that is not met: what and where, the figures, what to do, and what that rests on."""
        worst = max(point.outcomes, key=lambda outcome: outcome.short)
        rule, single = point.rule, len(point.outcomes) == 1
        where_to = place(worst) if single else f"{len(point.outcomes)} places"
        lines = [
            f"#### {point.number}. {word(rule.severity)}: {plain(self._printer.text(rule.title))} ({plain(where_to)})",
            "",
            plain(self._printer.text(rule.because)),
            "",
            *self._figures(point.outcomes),
        ]
        lines += items("papers", "; ".join(makers(worst, self._printer)))
        for do_this in remedies(point.outcomes, self._printer):
            lines += items("do this", do_this)
        for moves in self._connections.together(point):
            which = "point" if len(moves.numbers) == 1 else "points"
            others = some(list(map(str, moves.numbers)), MOST_NUMBERS)
            line = self._printer.lines(moves.pointers)
            lines += items("moves", f"{which} {others} too, {moves.condition} ({line})")
        lines += items("rests on", rests_on(rule.source))
        lines += items("in the plan", where(worst, self._printer))
        return "\n".join(lines)

    def _figures(self, outcomes: Sequence[Outcome]) -> Iterator[str]:
        """A table of what is and what is needed, with the place where there are several."""
        found = [(outcome, said) for outcome in outcomes if (said := finding(outcome, self._printer, unit=True))]
        single = len(outcomes) == 1
        heads = [*([] if single else ["where"]), "have", "need", _out(said for _, said in found)]
        if not any(said.need for _, said in found):
            heads = heads[:-2]
        rows = []
        for outcome, said in found[:MOST_PLACES]:
            working = f" ({said.working})" if single and said.working else ""
            cells = [*([] if single else [place(outcome)]), said.have + working, _need(said), said.short]
            rows.append([plain(cell) for cell in cells[: len(heads)]])
        if rows:
            yield from table(heads, rows)
            yield ""
        if len(found) > MOST_PLACES:
            yield f"... and {len(found) - MOST_PLACES} places more."
            yield ""
        measured = {said.datum for _, said in found}
        if len(measured) == 1:
            yield from items("measured", measured.pop())

    def errand(self, errand: Errand) -> str:
        """One thing to find out, to be ticked: who can say, what it is for, and where the answer goes."""
        missing, printer = errand.missing, self._printer
        titles = list(dict.fromkeys(printer.text(outcome.rule.title) for outcome in errand.outcomes))
        line = printer.lines([errand.at])
        lines = [
            f"- [ ] **{errand.number}. {word(errand.severity)}: {plain(printer.text(errand.called))}**",
            plain(asked(missing, errand.how, self._judgement.site.library.questions, printer)),
            *items("who can say", missing.by or ""),
            *items("for", some(titles)),
            *items("answer at", as_key(errand.at) + (f" ({line})" if line else "")),
        ]
        return "\n  ".join(lines)

    def _agreed(self) -> Iterator[str]:
        for outcome in self._points.agreed:
            if outcome.departure is not None:
                line = self._printer.lines([outcome.departure.pointer])
                yield from items("agreed", f"{about(outcome, self._printer)}: {agreed_on(outcome.departure)} ({line})")

    def _supposed(self) -> Iterator[str]:
        for said in suppositions(self._points, self._printer):
            yield from items("met, if", said)

    def _tight(self) -> Iterator[str]:
        for outcome in self._points.tight:
            said = finding(outcome, self._printer, unit=True)
            if said is not None:
                yield from items("tight", f"{said.short} to spare: {about(outcome, self._printer)}")

    def _cautions(self) -> Iterator[Block]:
        """The standing cautions, folded up: they are the same at every change."""
        found = cautions(self._judgement.site)
        if found:
            said = [
                f"- **{caution.signal}:** {plain(caution_said(caution, self._judgement.site, self._printer))}"
                for caution in found
            ]
            folded = "\n".join(("<details><summary>Whatever the plan says</summary>", "", *said, "", "</details>"))
            yield Block("note", folded)

    def _foot(self) -> str:
        tally = self._points.tally
        applied = sum(tally.values())
        counts = ", ".join(f"{tally[result]} {result.value}" for result in TALLY_ORDER)
        lines = [f"{applied} {'rule applies' if applied == 1 else 'rules apply'}: {counts}."]
        for name, why in self._judgement.books.withdrawn.items():
            lines.append(f"Withdrawn by a book given on the command line: {plain(name)} ({plain(why)}).")
        lines.append(f"**{'READY' if self._ready else 'NOT READY'}.** {STANDING_SENTENCE}")
        return "\n\n".join(lines)


def items(label: str, text: str) -> Iterator[str]:
    """An item of a list behind its label; nothing where there is no text."""
    if text:
        yield f"- **{label}:** {plain(text)}"


def word(severity: Severity) -> str:
    return "STOP" if severity == "stop" else severity


def _need(said: Finding) -> str:
    whose = f" ({said.need_from})" if said.need_from else ""
    return f"{said.bound} {said.need}{whose}".strip()


def _out(said: Iterator[Finding]) -> str:
    words = {found.out for found in said}
    return words.pop() if len(words) == 1 else "out by"
