"""What a change of a plan brought, cured and moved, as text and as data for machines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome, Result
from validator.judging.ready import ready
from validator.judging.rules import SEVERITIES, Severity
from validator.plan.pointers import split
from validator.reporting.changes import Changes, Pair
from validator.reporting.findings import failed_or_first, finding
from validator.reporting.json_form import errand_data, outcome_data
from validator.reporting.lines import WIDTH, apart, at_column, counted, day, labelled, sentence, some, wrapped
from validator.reporting.point_texts import FIGURE_WIDTH, PointTexts
from validator.reporting.points import Point, put_together
from validator.reporting.printing import Printer
from validator.reporting.style import Style
from validator.reporting.summary import NO_COUNTRY, STANDING_SENTENCE, about

FORM = 1
NOT_THERE = "not there"


@dataclass(frozen=True, slots=True)
class Since:
    """What a plan is compared with: the revision as asked for, its commit, and how the plan came out then.

    `judgement` is None where the plan could not be read then; `mistakes` says why.
    """

    revision: str
    commit: str
    judgement: Judgement | None
    mistakes: tuple[str, ...] = ()


def text(changes: Changes, now: Judgement, since: Since, on: date, style: Style, fail_on: Severity) -> str:
    """The report of a change, ending in a line break."""
    return style.tamed("\n".join(_ChangeReport(changes, now, since, style, fail_on).lines(on)) + "\n")


def data(changes: Changes, now: Judgement, since: Since, on: date, fail_on: Severity) -> dict[str, Any]:
    """The same as plain data; outcomes and errands as the report of a plan has them."""
    printer, plan = Printer(now.site), now.site.plan
    before = since.judgement
    printer_before = printer if before is None else Printer(before.site)

    def outcome(found: Outcome | None, by: Printer) -> dict[str, Any] | None:
        return None if found is None else outcome_data(found, by)

    def both(pairs: Sequence[Pair]) -> list[dict[str, Any]]:
        return [{"before": outcome(pair.before, printer_before), "now": outcome(pair.now, printer)} for pair in pairs]

    return {
        "dryfit changes": FORM,
        "on": on.isoformat(),
        "plan": {
            "title": plan.project.title,
            "country": plan.project.country,
            "files": list(plan.files),
            "digest": plan.digest,
        },
        "since": {
            "revision": since.revision,
            "commit": since.commit,
            "could be read": before is not None,
            "mistakes": list(since.mistakes),
            "ready": None if before is None else ready(before, fail_on),
        },
        "ready": ready(now, fail_on),
        "brings what blocks": changes.blocks(fail_on),
        "country lost": changes.country_lost,
        "brought": both(changes.brought),
        "cured": both(changes.cured),
        "moved": both(changes.moved),
        "asked": [errand_data(errand, now, printer) for errand in changes.asked],
        "answered": [errand_data(errand, before, printer_before) for errand in changes.answered if before is not None],
        "as before": {"points": changes.unchanged_points, "errands": changes.unchanged_errands},
    }


class _ChangeReport:
    def __init__(self, changes: Changes, now: Judgement, since: Since, style: Style, fail_on: Severity) -> None:
        self._changes = changes
        self._now = now
        self._since = since
        self._style = style
        self._fail_on = fail_on
        self._printer = Printer(now.site)
        self._before = self._printer if since.judgement is None else Printer(since.judgement.site)
        self._points = put_together(now)
        self._texts = PointTexts(self._points, now.site.library.questions, self._printer, style)

    def lines(self, on: date) -> Iterator[str]:
        yield from apart("WHAT CHANGED IN THE PLAN", self._now.site.plan.project.title or "")
        yield from apart(day(on), f"since {self._since.revision}, commit {self._since.commit[:9]}")
        yield "_" * WIDTH
        yield ""
        yield self._verdict()
        yield from wrapped(self._in_numbers())
        if self._since.judgement is None:
            yield from self._unreadable_before()
        if self._changes.country_lost:
            yield from wrapped(NO_COUNTRY)
        yield ""
        yield from self._section("BROUGHT", self._brought())
        yield from self._section("NOT KNOWN, AND NOT ASKED BEFORE", self._asked())
        yield from self._section("MOVED", self._moved())
        yield from self._section("CURED", self._cured())
        yield from self._section("NO LONGER ASKED", self._answered())
        yield "_" * WIDTH
        yield ""
        yield from wrapped(self._as_before())
        yield from wrapped(f"{self._whole()} {STANDING_SENTENCE}")

    def _verdict(self) -> str:
        if self._changes.blocks(self._fail_on):
            return self._style.strong("THIS CHANGE BRINGS WHAT BLOCKS.")
        if self._changes.nothing:
            return self._style.strong("NOTHING HAS CHANGED IN WHAT THE RULES SAY.")
        return self._style.strong("THIS CHANGE BRINGS NOTHING THAT BLOCKS.")

    def _in_numbers(self) -> str:
        changes = self._changes
        counts = [
            (changes.brought, "point is brought", "points are brought"),
            (changes.asked, "more thing is not known", "more things are not known"),
            (changes.moved, "point has moved", "points have moved"),
            (changes.cured, "point is cured or gone", "points are cured or gone"),
            (changes.answered, "thing is no longer asked", "things are no longer asked"),
        ]
        return " ".join(sentence(counted(len(found), one, many)) for found, one, many in counts if found)

    def _unreadable_before(self) -> Iterator[str]:
        mistakes = counted(len(self._since.mistakes), "thing", "things")
        yield from wrapped(
            f"The plan could not be read at {self._since.revision} ({mistakes} to be mended there), so that everything "
            "counts as brought. The first:"
        )
        for mistake in self._since.mistakes[:1]:
            yield from wrapped(mistake, 4)

    def _section(self, title: str, lines: Iterator[str]) -> Iterator[str]:
        found = list(lines)
        if found:
            yield self._style.strong(title)
            yield ""
            yield from found

    def _brought(self) -> Iterator[str]:
        before = {id(pair.now): pair.before for pair in self._changes.brought}
        for point in self._points.points:
            outcomes = tuple(outcome for outcome in point.outcomes if id(outcome) in before)
            if outcomes:
                yield from self._texts.point(Point(point.number, point.rule, outcomes))
                was: dict[str, list[str]] = {}
                for outcome in outcomes:
                    was.setdefault(self._was(before[id(outcome)]), []).append(outcome.subject.name)
                said = [f"{how}: {some(names)}" if len(was) > 1 else how for how, names in was.items()]
                yield from labelled("was", "; ".join(said))
                yield ""

    def _was(self, before: Outcome | None) -> str:
        if before is None:
            return NOT_THERE
        said = finding(before, self._before)
        if before.result is Result.NOT_MET:
            return f"{before.rule.severity}, not met"
        have = f", {said.have}" if said is not None and before.result is not Result.NOT_KNOWN else ""
        return f"{before.result.value}{have}"

    def _asked(self) -> Iterator[str]:
        for errand in self._changes.asked:
            yield from self._texts.errand(errand)
            yield ""

    def _moved(self) -> Iterator[str]:
        for pair in sorted(self._changes.moved, key=_gravity):
            before, now = pair.before, pair.now
            if before is None or now is None:
                continue
            was, is_now = finding(before, self._before), finding(now, self._printer)
            word = "STOP" if now.rule.severity == "stop" else now.rule.severity
            yield from labelled(word, about(now, self._printer), self._printer.lines([now.subject.pointer]))
            if was is None or is_now is None:
                continue
            yield from labelled("have", _from_to(was.have, is_now.have))
            bound = f"{is_now.bound}" if is_now.bound else ""
            yield from labelled("need", at_column(_from_to(was.need, is_now.need), bound, FIGURE_WIDTH))
            if is_now.short:
                yield from labelled(is_now.out, f"{_from_to(was.short, is_now.short)}{_better_or_worse(before, now)}")
            yield ""

    def _cured(self) -> Iterator[str]:
        for pair in sorted(self._changes.cured, key=_gravity):
            if pair.before is None:
                continue
            label = "gone" if pair.now is None else "cured" if pair.now.result is Result.MET else pair.now.result.value
            thing = about(pair.before, self._before)
            yield from labelled(label, f"{thing}: {self._from_to(pair.before, pair.now)}")
        if self._changes.cured:
            yield ""

    def _from_to(self, before: Outcome, now: Outcome | None) -> str:
        was = finding(before, self._before)
        have = was.have if was is not None else before.result.value
        if now is None:
            return f"had {have}; no longer in what is judged"
        if now.result is Result.NOT_KNOWN:
            return f"had {have}; not known now"
        is_now = finding(now, self._printer)
        return have if is_now is None else _from_to(have, is_now.have)

    def _answered(self) -> Iterator[str]:
        for errand in self._changes.answered:
            things = " / ".join(split(errand.at))
            yield from labelled("", f"{self._before.text(errand.missing.label)} ({things})")
        if self._changes.answered:
            yield ""

    def _as_before(self) -> str:
        points, errands = self._changes.unchanged_points, self._changes.unchanged_errands
        said = []
        if points:
            said.append(counted(points, "place where a rule is not met", "places where a rule is not met"))
        if errands:
            said.append(counted(errands, "thing not known", "things not known"))
        numbers = " The numbers are those of the whole report." if self._changes.brought or self._changes.asked else ""
        return f"As before: {' and '.join(said) or 'nothing that is wrong or not known'}.{numbers}"

    def _whole(self) -> str:
        now = "READY" if ready(self._now, self._fail_on) else "NOT READY"
        if self._since.judgement is None:
            return f"The plan as a whole is {now}."
        before = "READY" if ready(self._since.judgement, self._fail_on) else "NOT READY"
        return f"The plan as a whole is {now}, as before." if now == before else f"The plan is {now}; it was {before}."


def _gravity(pair: Pair) -> int:
    outcome = pair.now or pair.before
    return SEVERITIES.index(outcome.rule.severity) if outcome is not None else len(SEVERITIES)


def _from_to(before: str, now: str) -> str:
    return now if before == now else f"{before} → {now}"


def _better_or_worse(before: Outcome, now: Outcome) -> str:
    was, is_now = failed_or_first(before), failed_or_first(now)
    if was is None or is_now is None or was.bound != is_now.bound or was.short == is_now.short:
        return ""
    return ": better" if is_now.short < was.short else ": worse"
