"""What a change of a plan brought, cured and moved, as text."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from validator.judging.apply import Judgement
from validator.judging.rules import Severity
from validator.reporting.change_words import ANSWERED, ASKED, BROUGHT, CURED, MOVED, ChangeWords, Since
from validator.reporting.changes import Changes
from validator.reporting.lines import INDENT, WIDTH, apart, day, labelled, wrapped
from validator.reporting.point_texts import PointTexts
from validator.reporting.points import put_together
from validator.reporting.printing import Printer
from validator.reporting.style import Style
from validator.reporting.summary import NO_COUNTRY, STANDING_SENTENCE

Further = Sequence[tuple[str, Sequence[tuple[str, Sequence[str]]]]]
"""Sections that stand behind the others: a title, and things with lines about them."""


def text(
    changes: Changes,
    now: Judgement,
    since: Since,
    on: date,
    style: Style,
    fail_on: Severity,
    further: Further = (),
) -> str:
    """The report of a change, ending in a line break."""
    return style.tamed("\n".join(_ChangeReport(changes, now, since, style, fail_on).lines(on, further)) + "\n")


class _ChangeReport:
    def __init__(self, changes: Changes, now: Judgement, since: Since, style: Style, fail_on: Severity) -> None:
        self._changes = changes
        self._now = now
        self._since = since
        self._style = style
        printer, points = Printer(now.site), put_together(now)
        self._words = ChangeWords(changes, now, points, printer, since, fail_on)
        self._texts = PointTexts(points, now.site.library.questions, printer, style)

    def lines(self, on: date, further: Further) -> Iterator[str]:
        yield from apart("WHAT CHANGED IN THE PLAN", self._now.site.plan.project.title or "")
        commit = f", commit {self._since.commit[:9]}" if self._since.commit else ""
        yield from apart(day(on), f"since {self._since.revision}{commit}")
        yield "_" * WIDTH
        yield ""
        yield self._style.strong(f"{self._words.verdict}.".upper())
        yield from wrapped(self._words.in_numbers)
        yield from wrapped(self._words.unreadable_then)
        if self._changes.country_lost:
            yield from wrapped(NO_COUNTRY)
        yield ""
        yield from self._section(BROUGHT, self._brought())
        yield from self._section(ASKED, self._asked())
        yield from self._section(MOVED, self._moved())
        yield from self._section(CURED, self._cured())
        yield from self._section(ANSWERED, self._answered())
        for title, things in further:
            yield from self._section(title, self._further(things))
        yield "_" * WIDTH
        yield ""
        yield from wrapped(self._words.as_before)
        yield from wrapped(f"{self._words.whole_plan} {STANDING_SENTENCE}")

    def _further(self, things: Sequence[tuple[str, Sequence[str]]]) -> Iterator[str]:
        for thing, said in things:
            yield from wrapped(thing, INDENT)
            for line in said:
                yield from wrapped(line, INDENT + 4)
        if things:
            yield ""

    def _section(self, title: str, lines: Iterator[str]) -> Iterator[str]:
        found = list(lines)
        if found:
            yield self._style.strong(title.upper())
            yield ""
            yield from found

    def _brought(self) -> Iterator[str]:
        for point, was in self._words.brought():
            yield from self._texts.point(point)
            yield from labelled("was", was)
            yield ""

    def _asked(self) -> Iterator[str]:
        for errand in self._changes.asked:
            yield from self._texts.errand(errand)
            yield ""

    def _moved(self) -> Iterator[str]:
        for moved in self._words.moved():
            yield from labelled("STOP" if moved.severity == "stop" else moved.severity, moved.about, moved.line)
            yield from labelled("have", moved.have)
            yield from labelled("need", moved.need)
            yield from labelled(moved.out, moved.short)
            yield ""

    def _cured(self) -> Iterator[str]:
        for word, said in self._words.cured():
            yield from labelled(word, said)
        if self._changes.cured:
            yield ""

    def _answered(self) -> Iterator[str]:
        for said in self._words.answered():
            yield from labelled("", said)
        if self._changes.answered:
            yield ""
