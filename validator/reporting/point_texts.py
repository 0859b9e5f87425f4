"""Points and errands as text: what is wrong or not known, by how much, how it was worked out, and what to do."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from validator.judging.outcomes import Outcome
from validator.judging.rules import Severity
from validator.plan.pointers import as_key
from validator.reporting.columns import columns, filled, one_line, wrap
from validator.reporting.connections import Connections
from validator.reporting.findings import asked, finding, makers, remedies, rests_on, where
from validator.reporting.lines import INDENT, WIDTH, at_column, labelled, some, wrapped, wrapped_right
from validator.reporting.points import Errand, Point, Points
from validator.reporting.printing import Printer
from validator.reporting.style import Style

FIGURE_WIDTH = 9


class PointTexts:
    """Writes points and errands of one report."""

    def __init__(self, points: Points, questions: Mapping[str, str], printer: Printer, style: Style) -> None:
        self._connections = Connections(points)
        self._questions = questions
        self._printer = printer
        self._style = style

    def point(self, point: Point) -> Iterator[str]:
        """A rule that is not met, at one place or several."""
        worst = max(point.outcomes, key=lambda outcome: outcome.short)
        subject = worst.subject
        single = len(point.outcomes) == 1
        place = ", ".join(part for part in (subject.name, subject.context) if part)
        title = self._printer.text(point.rule.title)
        yield from self._heading(point.number, point.rule.severity, title, place if single else self._places(point))
        yield from wrapped(self._printer.text(point.rule.because), INDENT)
        yield from self._figures(worst) if single else self._table(point)
        yield from labelled("papers", "; ".join(makers(worst, self._printer)))
        for number, do_this in enumerate(remedies(point.outcomes, self._printer)):
            yield from labelled("" if number else "do this", do_this)
        for moves in self._connections.together(point):
            others = ", ".join(map(str, moves.numbers))
            which = "point" if len(moves.numbers) == 1 else "points"
            line = self._printer.lines(moves.pointers)
            yield from labelled("moves", f"{which} {others} too, {moves.condition}", line)
        yield from labelled("rests on", rests_on(point.rule.source), aside=where(worst, self._printer))

    def errand(self, errand: Errand) -> Iterator[str]:
        """Something to find out, with who can say, and for which rules it is wanted."""
        missing = errand.missing
        yield from self._heading(errand.number, errand.severity, self._printer.text(errand.called), missing.by or "")
        yield from wrapped(asked(missing, errand.how, self._questions, self._printer), INDENT)
        titles = list(dict.fromkeys(self._printer.text(outcome.rule.title) for outcome in errand.outcomes))
        yield from labelled("for", some(titles))
        yield from labelled("answer at", as_key(errand.at), self._printer.lines([errand.at]))

    def errand_in_short(self, errand: Errand) -> Iterator[str]:
        """Something to find out in a line or two: what, who can say, and where the answer goes."""
        by = errand.missing.by or ""
        yield from self._heading(errand.number, errand.severity, self._printer.text(errand.called), by)
        yield from labelled("answer at", as_key(errand.at), self._printer.lines([errand.at]))

    def _places(self, point: Point) -> str:
        contexts = list(dict.fromkeys(o.subject.context for o in point.outcomes if o.subject.context))
        return f"{len(point.outcomes)} places" + (f", {contexts[0]}" if len(contexts) == 1 else "")

    def _heading(self, number: int, severity: Severity, title: str, place: str) -> Iterator[str]:
        word = "STOP" if severity == "stop" else severity
        before = f"{number:>2} [ ] "
        styled = self._style.severity(word)
        first, *others = wrap(f"{word}  {one_line(title)}", WIDTH - len(before))
        first, place = before + first, one_line(place)
        if place and not others and columns(first) + columns(place) + 2 <= WIDTH:
            first, place = filled(first, WIDTH - columns(place)) + place, ""
        yield first.replace(word, styled, 1)
        for line in others:
            yield " " * len(before) + line
        yield from wrapped_right(place)

    def _figures(self, outcome: Outcome) -> Iterator[str]:
        said = finding(outcome, self._printer)
        if said is None:
            return
        if not said.short:
            yield from labelled("have", said.have)
            yield from labelled("need", said.need)
            return
        yield from labelled("have", at_column(said.have, said.working, FIGURE_WIDTH))
        yield from labelled("need", at_column(said.need, said.bounds, FIGURE_WIDTH))
        yield from labelled(said.out, said.short)

    def _table(self, point: Point) -> Iterator[str]:
        alike = len({outcome.subject.name for outcome in point.outcomes}) < len(point.outcomes)
        said = [(_name(outcome, alike), finding(outcome, self._printer)) for outcome in point.outcomes]
        if any(found is None or not found.short for _, found in said):
            for name, found in said:
                yield from labelled(name, found.have if found else "")
            return
        rows = [(one_line(name), f.have, f"{f.bound} {f.need}", f.short) for name, f in said if f is not None]
        outs = {f.out for _, f in said if f is not None}
        heads = ("where", "have", "need", outs.pop() if len(outs) == 1 else "out by")
        widths = [max(columns(row[column]) for row in (heads, *rows)) for column in range(1, len(heads))]
        room = min(max(columns(row[0]) for row in (heads, *rows)), WIDTH - INDENT - sum(width + 3 for width in widths))
        for name, *figures in (heads, *rows):
            first, *others = wrap(name, room)
            cells = [filled(first, room), *(filled(cell, width) for cell, width in zip(figures, widths, strict=True))]
            yield " " * INDENT + "   ".join(cells).rstrip()
            for line in others:
                yield " " * INDENT + line


def _name(outcome: Outcome, alike: bool) -> str:
    """What a place is called in a table: with its wall where two things have one name."""
    subject = outcome.subject
    return f"{subject.name}, {subject.context}" if alike and subject.context else subject.name
