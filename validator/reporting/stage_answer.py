"""Whether one stage of the work may start: yes or no, with what is in the way and what the answer rests on."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome, Result
from validator.judging.ready import StageVerdict, stage_verdicts
from validator.plan.pointers import as_key
from validator.reference.measuring import Ways
from validator.reporting.columns import filled, one_line
from validator.reporting.findings import remedies, supposition
from validator.reporting.lines import INDENT, LABEL, apart, counted, day, day_of, labelled, sentence, some, wrapped
from validator.reporting.measuring_list import to_measure
from validator.reporting.points import Errand, Point, put_together
from validator.reporting.printing import Printer
from validator.reporting.style import Style
from validator.reporting.summary import NO_COUNTRY, STANDING_SENTENCE


def may_start(judgement: Judgement, stage: str) -> bool:
    """Whether nothing stands in the way of a stage; without a country nothing may start, for want of its rules."""
    return not judgement.books.country_missing and _verdicts(judgement, stage)[-1].ready


def answer(judgement: Judgement, stage: str, ways: Ways, on: date, style: Style) -> str:
    """The answer as text, ending in a line break. KeyError for a stage that there is not."""
    return style.tamed("\n".join(_Answer(judgement, stage, ways, style).lines(on)) + "\n")


def _verdicts(judgement: Judgement, stage: str) -> list[StageVerdict]:
    """The verdicts up to and with that of the stage."""
    stages = list(judgement.site.library.stages)
    return stage_verdicts(judgement)[: stages.index(stage) + 1]


class _Answer:
    def __init__(self, judgement: Judgement, stage: str, ways: Ways, style: Style) -> None:
        self._judgement = judgement
        self._stage = stage
        self._style = style
        self._printer = Printer(judgement.site)
        self._points = put_together(judgement)
        self._up_to = _verdicts(judgement, stage)
        parts = to_measure(judgement, ways)
        self._asked = {entry.number: (entry, part.ask) for part in parts for entry in part.entries}

    def lines(self, on: date) -> Iterator[str]:
        plan = self._judgement.site.plan
        yes = may_start(self._judgement, self._stage)
        question = f"May I now {self._printer.text(self._up_to[-1].question)}"
        yield from apart(question, plan.project.title or "")
        yield from apart(self._style.strong("YES." if yes else "NOT YET."), day(on))
        yield ""
        if self._judgement.books.country_missing:
            yield from wrapped(NO_COUNTRY)
            yield ""
        for verdict in self._up_to:
            yield from self._in_the_way(verdict)
        yield from self._rests_on()
        yield from self._not_in_the_way()
        yield from wrapped(STANDING_SENTENCE)

    def _in_the_way(self, verdict: StageVerdict) -> Iterator[str]:
        numbers = set(self._points.numbers(verdict.blocking))
        if not numbers:
            return
        yield self._style.strong(f"BEFORE {self._printer.text(verdict.stage).upper()}")
        for entry in self._points.numbered:
            if entry.number in numbers:
                yield from self._point(entry) if isinstance(entry, Point) else self._errand(entry)
        yield ""

    def _point(self, point: Point) -> Iterator[str]:
        worst = max(point.outcomes, key=lambda outcome: outcome.short)
        names = some(list(dict.fromkeys(outcome.subject.name for outcome in point.outcomes)))
        context = f", {worst.subject.context}" if len(point.outcomes) == 1 and worst.subject.context else ""
        yield from self._heading(point.number, point.rule.severity, self._printer.text(point.rule.title))
        yield from labelled("where", names + context, self._printer.lines([worst.subject.pointer]))
        for number, do_this in enumerate(remedies(point.outcomes, self._printer)):
            yield from labelled("" if number else "do this", do_this)

    def _errand(self, errand: Errand) -> Iterator[str]:
        entry, ask = self._asked[errand.number]
        yield from self._heading(errand.number, errand.severity, f"not known: {entry.what}")
        who = f"{ask}; " if ask else ""
        yield from labelled("where", who + as_key(errand.at), self._printer.lines([errand.at]))
        yield from labelled("do this", entry.how)

    def _heading(self, number: int, severity: str, title: str) -> Iterator[str]:
        word = "STOP" if severity == "stop" else severity
        first, *others = list(wrapped(filled(word, LABEL) + one_line(title), INDENT))
        yield f"{number:>2}     {first.strip()}".replace(word, self._style.severity(word), 1)
        yield from (" " * LABEL + line for line in others)

    def _rests_on(self) -> Iterator[str]:
        """What is agreed or supposed at this stage and those before it."""
        stages = {verdict.stage for verdict in self._up_to}
        lines: list[str] = []
        for outcome in self._judgement.outcomes:
            if outcome.rule.before not in stages:
                continue
            if outcome.result is Result.AGREED and outcome.departure is not None:
                departure = outcome.departure
                until = f", until {day(day_of(departure.until))}" if departure.until is not None else ""
                lines += labelled("agreed", f"{self._about(outcome)}: «{departure.reason}»; {departure.by}{until}")
        supposed: dict[str, list[str]] = {}
        for outcome in self._points.supposing:
            if outcome.rule.before in stages:
                said = "; ".join(supposition(gap, self._printer) for gap in outcome.supposing)
                supposed.setdefault(said, []).append(self._about(outcome))
        for said, about in supposed.items():
            lines += labelled("met, if", f"{said}: {some(about)}")
        if lines:
            yield self._style.strong("AGREED AND SUPPOSED")
            yield from lines
            yield ""

    def _about(self, outcome: Outcome) -> str:
        return f"{self._printer.text(outcome.rule.title)}, {outcome.subject.name}"

    def _not_in_the_way(self) -> Iterator[str]:
        """What could be better, or is not known without being in the way: only how much of it there is."""
        stages = {verdict.stage for verdict in self._up_to}
        blocking = {number for verdict in self._up_to for number in self._points.numbers(verdict.blocking)}
        better = [p.number for p in self._points.points if p.rule.before in stages and p.number not in blocking]
        open_numbers = {number for verdict in self._up_to for number in self._points.numbers(verdict.open)} - blocking
        said = []
        if better:
            said.append(sentence(counted(len(better), "point could be better", "points could be better")))
        if open_numbers:
            count = counted(len(open_numbers), "thing is", "things are")
            said.append(sentence(f"{count} not known that would not stop it; `dryfit measure` lists them"))
        if said:
            yield from wrapped(" ".join(said))
            yield ""
