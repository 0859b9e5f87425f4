"""The report as text: an inspection of the plan, verdict first and last, points in the order of the work."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from datetime import date

from validator.judging.apply import Judgement
from validator.judging.cautions import cautions
from validator.judging.outcomes import Outcome, Result
from validator.judging.ready import StageVerdict, ready, stage_verdicts
from validator.judging.rules import Severity
from validator.measures.rows import Missing, Why
from validator.reporting.findings import finding, makers, remedy, rests_on, where
from validator.reporting.points import Errand, Point, Points, put_together
from validator.reporting.printing import Printer
from validator.reporting.style import Style
from validator.reporting.walls import strips

WIDTH = 80
LABEL = 11
INDENT = 7
STANDING_SENTENCE = "The plan was looked at, not the work; this is nobody's approval."


def report(judgement: Judgement, on: date, style: Style, fail_on: Severity = "put right") -> str:
    """The whole report of one plan, ending in a line break."""
    return "\n".join(TextReport(judgement, on, style, fail_on).lines()) + "\n"


class TextReport:
    """Writes the report of one judged plan."""

    def __init__(self, judgement: Judgement, on: date, style: Style, fail_on: Severity) -> None:
        self._judgement = judgement
        self._on = on
        self._style = style
        self._printer = Printer(judgement.site)
        self._points: Points = put_together(judgement)
        self._verdicts = stage_verdicts(judgement, fail_on)
        self._ready = ready(judgement, fail_on)

    def lines(self) -> Iterator[str]:
        yield from self._head()
        yield from self._stages()
        yield from self._walls()
        for verdict in self._verdicts:
            yield from self._stage_points(verdict)
        yield from self._errands()
        yield from self._agreed_and_tight()
        yield from self._cautions()
        yield from self._foot()

    def _head(self) -> Iterator[str]:
        plan, books = self._judgement.site.plan, self._judgement.books
        yield _apart("INSPECTION OF THE PLAN", plan.project.title or "")
        edition = f"rules: {books.applied}"
        yield _apart(f"{_day(self._on)}, before any work", f"plan {plan.digest[:9]}   {edition}")
        yield "_" * WIDTH
        yield ""
        yield self._verdict()
        yield from _wrapped(self._count_sentence(), 0)
        if books.country_missing:
            yield from _wrapped(
                "The plan names no country, so no national rules were applied: write `country: GB-ENG`, "
                "`US-OR` or another under `project`.",
                0,
            )
        yield ""

    def _verdict(self) -> str:
        return self._style.strong("READY." if self._ready else "NOT READY.")

    def _count_sentence(self) -> str:
        points, errands = self._points.points, self._points.errands
        stops = sum(point.rule.severity == "stop" for point in points)
        said = []
        if points:
            grave = f", {_number(stops)} of which could hurt someone or {_is(stops)} unlawful" if stops else ""
            said.append(f"{_number(len(points)).capitalize()} {_points(len(points))} wrong{grave}.")
        if errands:
            said.append(f"{_number(len(errands)).capitalize()} {_things(len(errands))} not known.")
        if self._points.agreed:
            count = len(self._points.agreed)
            said.append(f"{_number(count).capitalize()} {'departure is' if count == 1 else 'departures are'} agreed.")
        return " ".join(said) or "Nothing is wrong, and nothing that matters is unknown."

    def _stages(self) -> Iterator[str]:
        yield _columns("   May I now", "What stands in the way", 46)
        for verdict in self._verdicts:
            question = f"   {verdict.question}"
            blocking = self._points.numbers(verdict.blocking)
            if blocking:
                answer, rest = "not yet", "  ".join(map(str, blocking))
            elif verdict.earlier:
                answer, rest = "not yet", f"what comes before: {', '.join(verdict.earlier)}"
            else:
                answer, rest = "yes", ""
            find = [number for number in self._points.numbers(verdict.open) if number not in blocking]
            if find:
                rest += ("   " if rest else "") + f"(find out: {' '.join(map(str, find))})"
            yield _columns(_columns(question, answer, 32), rest, 46)
        yield ""

    def _walls(self) -> Iterator[str]:
        found = strips(self._judgement.site, self._points)
        if not found:
            return
        yield "   Where to look, each wall as you face it"
        last = ""
        for strip in found:
            name = "" if strip.wall == last else strip.wall[:10]
            last = strip.wall
            yield f"   {name:<11}{strip.things}"
            if strip.numbers:
                yield f"   {'':<11}{strip.numbers}"
        yield ""

    def _stage_points(self, verdict: StageVerdict) -> Iterator[str]:
        points = self._points.of_stage(verdict.stage)
        if not points:
            return
        yield self._style.strong(f"BEFORE {verdict.stage.upper()}")
        yield ""
        for point in points:
            yield from self._point(point)
            yield ""

    def _point(self, point: Point) -> Iterator[str]:
        first = max(point.outcomes, key=lambda outcome: outcome.short)
        severity = self._severity(point.rule.severity)
        if len(point.outcomes) == 1:
            place = ", ".join(part for part in (first.subject.name, first.subject.context) if part)
        else:
            place = f"{len(point.outcomes)} places"
        title = self._printer.text(point.rule.title)
        yield from self._heading(point.number, severity, title, place)
        yield from _wrapped(self._printer.text(point.rule.because), INDENT)
        if len(point.outcomes) == 1:
            yield from self._figures(first)
        else:
            yield from self._table(point)
        for line in makers(first, self._printer):
            yield from self._field("papers", line)
        for gap in first.supposing:
            yield from self._field("supposing", self._gap(gap))
        yield from self._field("do this", remedy(first, self._printer))
        lines = where(first, self._printer)
        yield from self._field("rests on", rests_on(point.rule.source), aside=lines)

    def _heading(self, number: int, severity: str, title: str, place: str) -> Iterator[str]:
        head = f"{number:>2} [ ] {self._style.severity(severity)}  {title}"
        visible = len(f"{number:>2} [ ] {severity}  {title}")
        if visible + len(place) + 2 <= WIDTH:
            yield head + " " * (WIDTH - visible - len(place)) + place
        else:
            yield head
            yield place.rjust(WIDTH)

    def _figures(self, outcome: Outcome) -> Iterator[str]:
        said = finding(outcome, self._printer)
        if said is None:
            return
        if not said.short:
            yield from self._field("have", said.have)
            if said.need:
                yield from self._field("need", said.need)
            return
        yield from self._field("have", _two(said.have, said.working))
        need_from = f", {said.need_from}" if said.need_from else ""
        yield from self._field("need", _two(said.need, f"{said.bound} {said.datum}".strip() + need_from))
        yield from self._field(said.out, said.short)

    def _table(self, point: Point) -> Iterator[str]:
        rows = []
        for outcome in point.outcomes:
            said = finding(outcome, self._printer)
            if said is not None:
                rows.append((outcome.subject.name, said.have, f"{said.bound} {said.need}".strip(), said.short))
        heads = ("where", "have", "need", "out by")
        widths = [max(len(row[column]) for row in [heads, *rows]) for column in range(4)]
        for row in [heads, *rows]:
            cells = "   ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True))
            yield " " * INDENT + cells.rstrip()

    def _field(self, label: str, text: str, aside: str = "") -> Iterator[str]:
        if not text and not aside:
            return
        body = textwrap.wrap(text, WIDTH - INDENT - LABEL) or [""]
        lines = [" " * INDENT + (label if not number else "").ljust(LABEL) + line for number, line in enumerate(body)]
        if aside:
            if len(lines[-1]) + 2 + len(aside) <= WIDTH:
                lines[-1] = lines[-1].ljust(WIDTH - len(aside)) + aside
            else:
                lines.append(aside.rjust(WIDTH))
        yield from lines

    def _severity(self, severity: Severity) -> str:
        return "STOP" if severity == "stop" else severity

    def _errands(self) -> Iterator[str]:
        if not self._points.errands:
            return
        yield self._style.strong("NOT KNOWN: FIND THESE OUT")
        yield ""
        for errand in self._points.errands:
            yield from self._errand(errand)
        yield ""

    def _errand(self, errand: Errand) -> Iterator[str]:
        missing = errand.missing
        severity = self._severity(errand.severity)
        lines = self._printer.lines([missing.pointer])
        who = missing.by or ""
        name = _named(errand)
        head = f"{errand.number:>2} [ ] {severity}  {self._printer.text(missing.label)}{name}"
        yield _apart(head, "   ".join(part for part in (who, lines) if part)).replace(
            f"[ ] {severity}", f"[ ] {self._style.severity(severity)}", 1
        )
        question = self._judgement.site.library.questions.get(missing.asks, "")
        yield from _wrapped(self._printer.text(question) or self._gap(missing), INDENT + 2)
        titles = list(dict.fromkeys(self._printer.text(outcome.rule.title) for outcome in errand.outcomes))
        shown = "; ".join(titles[:3]) + (f"; {len(titles) - 3} more" if len(titles) > 3 else "")
        yield from _wrapped(f"for: {shown}", INDENT + 2)

    def _gap(self, missing: Missing) -> str:
        detail = f" ({missing.detail})" if missing.detail else ""
        if missing.why is Why.ASSUMED:
            return f"{self._printer.text(missing.label)} is {missing.detail or 'assumed'}"
        return f"{self._printer.text(missing.label)}: {missing.why.value}{detail}"

    def _agreed_and_tight(self) -> Iterator[str]:
        points = self._points
        if not (points.agreed or points.tight or points.supposing):
            return
        yield self._style.strong("AGREED, SUPPOSED, AND TIGHT BUT MET")
        yield ""
        for outcome in points.agreed:
            departure = outcome.departure
            if departure is not None:
                until = f", until {_day(date.fromordinal(round(departure.until / 86400)))}" if departure.until else ""
                said = f"{outcome.rule.name}, {outcome.subject.name}: «{departure.reason}»; {departure.by}{until}"
                yield from self._field("agreed", said)
        for outcome in points.supposing:
            supposed = "; ".join(self._gap(gap) for gap in outcome.supposing)
            yield from self._field("met, if", f"{supposed}: {outcome.rule.title}, {outcome.subject.name}")
        for outcome in points.tight:
            spare = finding(outcome, self._printer)
            if spare is not None:
                title = self._printer.text(outcome.rule.title)
                yield from self._field("tight", f"{spare.short} to spare: {title}, {outcome.subject.name}")
        yield ""

    def _cautions(self) -> Iterator[str]:
        found = cautions(self._judgement.site)
        if not found:
            return
        yield self._style.strong("WHATEVER THE PLAN SAYS")
        yield ""
        for caution in found:
            yield from self._field(caution.signal, self._printer.text(caution.says))
        yield ""

    def _foot(self) -> Iterator[str]:
        yield "_" * WIDTH
        yield ""
        tally = self._points.tally
        applied = sum(tally.values())
        counts = "   ".join(f"{tally[result]} {result.value}" for result in _TALLY_ORDER)
        yield f"{applied} {'rule applies' if applied == 1 else 'rules apply'}:   {counts}"
        withdrawn = self._judgement.books.withdrawn
        for name, why in withdrawn.items():
            yield from _wrapped(f"Withdrawn by a book given on the command line: {name} ({why}).", 0)
        yield f"{self._verdict()}  {STANDING_SENTENCE}"


_TALLY_ORDER = (Result.MET, Result.NOT_MET, Result.NOT_KNOWN, Result.AGREED)


def _named(errand: Errand) -> str:
    names = list(dict.fromkeys(outcome.subject.name for outcome in errand.outcomes if outcome.row is not None))
    if not names:
        return ""
    shown = ", ".join(names[:3]) + (f" and {len(names) - 3} more" if len(names) > 3 else "")
    return f": {shown}"


def _two(value: str, working: str) -> str:
    return f"{value:<9} {working}".rstrip()


def _apart(left: str, right: str) -> str:
    if len(left) + len(right) + 2 > WIDTH:
        return f"{left}\n{right.rjust(WIDTH)}"
    return left + " " * (WIDTH - len(left) - len(right)) + right


def _columns(left: str, right: str, start: int) -> str:
    return f"{left:<{start}}{right}".rstrip() if len(left) < start else f"{left} {right}".rstrip()


def _wrapped(text: str, indent: int) -> Iterator[str]:
    yield from textwrap.wrap(text, WIDTH, initial_indent=" " * indent, subsequent_indent=" " * indent)


def _day(day: date) -> str:
    return f"{day.day} {day:%B} {day.year}"


def _number(count: int) -> str:
    words = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
    return words[count] if count < len(words) else str(count)


def _points(count: int) -> str:
    return "point is" if count == 1 else "points are"


def _things(count: int) -> str:
    return "is" if count == 1 else "are"


def _is(count: int) -> str:
    return "is" if count == 1 else "are"
