"""What a change of a plan brought, cured and moved, in words that every form of it uses."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome, Result
from validator.judging.ready import ready
from validator.judging.rules import SEVERITIES, Severity
from validator.plan.pointers import split
from validator.reporting.changes import Changes, Pair
from validator.reporting.findings import failed_or_first, finding
from validator.reporting.lines import counted, sentence, some
from validator.reporting.points import Point, Points
from validator.reporting.printing import Printer
from validator.reporting.summary import about

BROUGHT, ASKED = "Brought", "Not known, and not asked before"
MOVED, CURED, ANSWERED = "Moved", "Cured", "No longer asked"


@dataclass(frozen=True, slots=True)
class Since:
    """What a plan is compared with: the revision as asked for, its commit, and how the plan came out then.

    `judgement` is None where the plan could not be read then; `mistakes` says why.
    """

    revision: str
    commit: str
    judgement: Judgement | None
    mistakes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Moved:
    """A point whose figures changed: each as `before → now`, or as it is on both sides."""

    severity: Severity
    about: str
    line: str
    have: str
    need: str
    out: str
    short: str


class ChangeWords:
    """Says one change in words; `points` are those of the plan as it is now. Lengths carry no unit unless `unit`."""

    def __init__(
        self,
        changes: Changes,
        now: Judgement,
        points: Points,
        printer: Printer,
        since: Since,
        fail_on: Severity,
        *,
        unit: bool = False,
    ) -> None:
        self._unit = unit
        self._changes = changes
        self._now = now
        self._points = points
        self._printer = printer
        self._since = since
        self._fail_on = fail_on
        self._before = printer if since.judgement is None else Printer(since.judgement.site)

    @property
    def verdict(self) -> str:
        if self._changes.blocks(self._fail_on):
            return "This change brings what blocks"
        if self._changes.nothing:
            return "Nothing has changed in what the rules say"
        return "This change brings nothing that blocks"

    @property
    def in_numbers(self) -> str:
        """How much is brought, asked, moved, cured and no longer asked, in sentences; '' for nothing."""
        changes = self._changes
        counts: list[tuple[Sequence[object], str, str]] = [
            (changes.brought, "point is brought", "points are brought"),
            (changes.asked, "more thing is not known", "more things are not known"),
            (changes.moved, "point has moved", "points have moved"),
            (changes.cured, "point is cured or gone", "points are cured or gone"),
            (changes.answered, "thing is no longer asked", "things are no longer asked"),
        ]
        return " ".join(sentence(counted(len(found), one, many)) for found, one, many in counts if found)

    @property
    def unreadable_then(self) -> str:
        """That, and why, the plan could not be read then; '' where it could."""
        if self._since.judgement is not None:
            return ""
        mistakes = counted(len(self._since.mistakes), "thing", "things")
        first = f" The first: {self._since.mistakes[0]}" if self._since.mistakes else ""
        return (
            f"The plan could not be read at {self._since.revision} ({mistakes} to be mended there), so that everything "
            f"counts as brought.{first}"
        )

    def brought(self) -> Iterator[tuple[Point, str]]:
        """Each point with only what was brought of it, and how that came out before."""
        before = {id(pair.now): pair.before for pair in self._changes.brought}
        for point in self._points.points:
            outcomes = tuple(outcome for outcome in point.outcomes if id(outcome) in before)
            if outcomes:
                was: dict[str, list[str]] = {}
                for outcome in outcomes:
                    was.setdefault(self._was(before[id(outcome)]), []).append(outcome.subject.name)
                said = [f"{how}: {some(names)}" if len(was) > 1 else how for how, names in was.items()]
                yield Point(point.number, point.rule, outcomes), "; ".join(said)

    def moved(self) -> Iterator[Moved]:
        """The points with other figures than before, the gravest first."""
        for before, now in sorted(_both(self._changes.moved), key=lambda pair: _gravity(pair[1])):
            was, is_now = finding(before, self._before, unit=self._unit), finding(now, self._printer, unit=self._unit)
            if was is not None and is_now is not None:
                yield Moved(
                    now.rule.severity,
                    about(now, self._printer),
                    self._printer.lines([now.subject.pointer]),
                    _from_to(was.have, is_now.have),
                    f"{is_now.bound} {_from_to(was.need, is_now.need)}".strip(),
                    is_now.out,
                    _from_to(was.short, is_now.short) + _better_or_worse(before, now) if is_now.short else "",
                )

    def cured(self) -> Iterator[tuple[str, str]]:
        """What became of each point that is none any more, in a word, and what it was about with its figures."""
        former = [(pair.before, pair.now) for pair in self._changes.cured if pair.before is not None]
        for before, now in sorted(former, key=lambda pair: _gravity(pair[0])):
            word = "gone" if now is None else "cured" if now.result is Result.MET else now.result.value
            yield word, f"{about(before, self._before)}: {self._from_to(before, now)}"

    def answered(self) -> Iterator[str]:
        for errand in self._changes.answered:
            yield f"{self._before.text(errand.missing.label)} ({' / '.join(split(errand.at))})"

    @property
    def as_before(self) -> str:
        points, errands = self._changes.unchanged_points, self._changes.unchanged_errands
        said = []
        if points:
            said.append(counted(points, "place where a rule is not met", "places where a rule is not met"))
        if errands:
            said.append(counted(errands, "thing not known", "things not known"))
        numbers = " The numbers are those of the whole report." if self._changes.brought or self._changes.asked else ""
        return f"As before: {' and '.join(said) or 'nothing that is wrong or not known'}.{numbers}"

    @property
    def whole_plan(self) -> str:
        now = _standing(self._now, self._fail_on)
        if self._since.judgement is None:
            return f"The plan as a whole is {now}."
        before = _standing(self._since.judgement, self._fail_on)
        return f"The plan as a whole is {now}, as before." if now == before else f"The plan is {now}; it was {before}."

    def _was(self, before: Outcome | None) -> str:
        if before is None:
            return "not there"
        if before.result is Result.NOT_MET:
            return f"{before.rule.severity}, not met"
        said = finding(before, self._before, unit=self._unit)
        have = f", {said.have}" if said is not None and before.result is not Result.NOT_KNOWN else ""
        return f"{before.result.value}{have}"

    def _from_to(self, before: Outcome, now: Outcome | None) -> str:
        was = finding(before, self._before, unit=self._unit)
        have = was.have if was is not None else "not met"
        if now is None:
            return f"{have}; no longer there to be judged"
        is_now = finding(now, self._printer, unit=self._unit)
        if now.result is Result.NOT_KNOWN or is_now is None:
            return f"{have}; {now.result.value} now"
        return _from_to(have, is_now.have)


def _both(pairs: Sequence[Pair]) -> Iterator[tuple[Outcome, Outcome]]:
    for pair in pairs:
        if pair.before is not None and pair.now is not None:
            yield pair.before, pair.now


def _gravity(outcome: Outcome) -> int:
    return SEVERITIES.index(outcome.rule.severity)


def _standing(judgement: Judgement, fail_on: Severity) -> str:
    return "READY" if ready(judgement, fail_on) else "NOT READY"


def _from_to(before: str, now: str) -> str:
    return now if before == now else f"{before} → {now}"


def _better_or_worse(before: Outcome, now: Outcome) -> str:
    was, is_now = failed_or_first(before), failed_or_first(now)
    if was is None or is_now is None or was.bound != is_now.bound or was.short == is_now.short:
        return ""
    return ": better" if is_now.short < was.short else ": worse"
