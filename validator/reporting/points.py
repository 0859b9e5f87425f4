"""The points of a report: outcomes put together so that one cause is one point, in the order of the work."""

from __future__ import annotations

import functools
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome, Result
from validator.judging.rules import SEVERITIES, Rule, Severity
from validator.measures.rows import Missing, Why
from validator.plan.dimensions import LENGTH
from validator.plan.elements import Section
from validator.plan.names import fold
from validator.plan.pointers import split
from validator.reporting.lines import some

if TYPE_CHECKING:
    from validator.plan.plan import Plan

TIGHT_SHARE = 0.1
MOST_TIGHT = 4


class Point(NamedTuple):
    """One rule that is not met, at one place or several."""

    number: int
    rule: Rule
    outcomes: tuple[Outcome, ...]


class Errand(NamedTuple):
    """One thing to find out, and all that waits for it; `severity` is the gravest rule among them.

    `at` is the pointer where the answer is written, as the plan spells it: in a kind where the kind leaves it open.
    `how` says how it is found out, where the place of the answer tells.
    """

    number: int
    at: str
    missing: Missing
    outcomes: tuple[Outcome, ...]
    severity: Severity
    how: str = ""

    @property
    def called(self) -> str:
        """What is to be found out, and of what: of each of a kind where the kind answers for all."""
        segments = split(self.at)
        if fold(segments[0]) == "kinds" and len(segments) > 2:
            return of_each(segments)
        things = list(dict.fromkeys(outcome.subject.name for outcome in self.outcomes if outcome.row is not None))
        label = self.missing.label
        return label + (f": {some(things, 2)}" if things and things != [label] else "")

    @property
    def stops(self) -> bool:
        return self.severity == "stop"


class Points(NamedTuple):
    """What a report says, in its order: points by stage, errands, departures, tight fits, and the tally of rules."""

    points: tuple[Point, ...]
    errands: tuple[Errand, ...]
    agreed: tuple[Outcome, ...]
    supposing: tuple[Outcome, ...]
    tight: tuple[Outcome, ...]
    tally: dict[Result, int]

    @property
    def numbered(self) -> tuple[Point | Errand, ...]:
        return (*self.points, *self.errands)

    def of_stage(self, stage: str) -> list[Point]:
        return [point for point in self.points if point.rule.before == stage]

    def numbers(self, outcomes: Sequence[Outcome]) -> list[int]:
        """The numbers of the points and errands that these outcomes belong to."""
        wanted = {id(outcome) for outcome in outcomes}
        return [entry.number for entry in self.numbered if any(id(outcome) in wanted for outcome in entry.outcomes)]


def put_together(judgement: Judgement) -> Points:
    """Number what is wrong by stage and severity, then what is not known by severity."""
    stages = list(judgement.site.library.stages)
    points = _points(judgement.outcomes, stages)
    errands = _errands(judgement, len(points))
    met = [outcome for outcome in judgement.outcomes if outcome.result is Result.MET]
    return Points(
        tuple(points),
        tuple(errands),
        tuple(outcome for outcome in judgement.outcomes if outcome.result is Result.AGREED),
        tuple(outcome for outcome in met if outcome.supposing),
        tuple(_tight(met)),
        _tally(judgement.outcomes),
    )


def _points(outcomes: Sequence[Outcome], stages: list[str]) -> list[Point]:
    by_rule: dict[str, list[Outcome]] = {}
    for outcome in outcomes:
        if outcome.result is Result.NOT_MET:
            by_rule.setdefault(outcome.rule.name, []).append(outcome)
    groups = sorted(
        by_rule.values(),
        key=lambda group: (stages.index(group[0].rule.before), SEVERITIES.index(group[0].rule.severity)),
    )
    return [Point(number, group[0].rule, tuple(group)) for number, group in enumerate(groups, 1)]


def _errands(judgement: Judgement, after: int) -> list[Errand]:
    """What is not known, once for each value that somebody has to write."""
    open_at = functools.cache(judgement.site.plan.places.open_at)
    asked_at = functools.cache(judgement.site.plan.places.asked_at)
    waiting: dict[str, tuple[Missing, list[Outcome]]] = {}
    for outcome in judgement.outcomes:
        if outcome.result is Result.NOT_KNOWN:
            for missing in outcome.missing:
                pointer = missing.pointer
                key = question_of(missing, judgement.site.plan, open_at(pointer), asked_at(pointer))
                held_up = waiting.setdefault(key, (missing, []))[1]
                if not held_up or held_up[-1] is not outcome:
                    held_up.append(outcome)
    errands = [
        (min((outcome.rule.severity for outcome in found), key=SEVERITIES.index), missing, tuple(found))
        for missing, found in waiting.values()
    ]
    errands.sort(key=lambda errand: SEVERITIES.index(errand[0]))
    numbered = []
    for number, (severity, missing, found) in enumerate(errands, after + 1):
        at = where_to_answer(missing, judgement)
        ways = judgement.site.ways
        numbered.append(Errand(number, at, missing, found, severity, ways.of(at).how if ways is not None else ""))
    return numbered


def question_of(missing: Missing, plan: Plan, written: str | None, asked: str) -> str:
    """What tells one question from another; `written` and `asked` are where the plan leaves the value open, and where
    it would stand.

    A value that is not there is asked for once, whatever part of it each rule misses; of a thing as a whole each rule
    may miss something else.
    """
    one_value = missing.why is not Why.UNCLEAR and len(split(asked)) > 2
    return section_left_out(missing, plan) or written or (asked if one_value else f"{asked}: {missing.label}")


def where_to_answer(missing: Missing, judgement: Judgement) -> str:
    """The pointer at which a missing value is to be written, as the plan spells it."""
    places = judgement.site.plan.places
    return places.open_at(missing.pointer) or places.written(places.asked_at(missing.pointer))


def of_each(segments: Sequence[str]) -> str:
    """What a kind leaves open, by the pointer's segments: `height of each base`, `in of the hangers of each wall`."""
    _, kind, *keys = segments
    return " of the ".join(reversed(keys)) + f" of each {kind}"


def section_left_out(missing: Missing, plan: Plan) -> str:
    """The name of the section where a whole section of the plan or of a room is missing, else ''.

    What is only not among the things of a section, as the fixing that holds a hood, is not a section left out.
    """
    segments = split(missing.pointer)
    whole = len(segments) == (3 if segments[:1] == ["rooms"] else 1)
    if missing.why is not Why.LEFT_OUT or not whole or _is_there(missing.pointer, segments[-1], plan):
        return ""
    return " / ".join(segments)


def _is_there(pointer: str, name: str, plan: Plan) -> bool:
    """Whether the plan, or a room of it, has the section at a pointer, or says that there is none of it."""
    sections = [getattr(holder, name.replace(" ", "_"), None) for holder in (plan, *plan.rooms.values())]
    return any(isinstance(one, Section) and one.pointer == pointer and not one.left_out for one in sections)


def _tight(met: Sequence[Outcome]) -> list[Outcome]:
    """The met fits with the least to spare for what they need, one a rule, tightest first.

    Only lengths that are worked out: a device of exactly the rating asked for is not a tight fit.
    """
    tightest: dict[str, tuple[float, Outcome]] = {}
    for outcome in met:
        if outcome.rule.dimension != LENGTH or outcome.row is None or outcome.rule.figure not in outcome.row.figures:
            continue
        for check in outcome.checks:
            if check.bound in ("at least", "at most") and isinstance(check.need, float) and check.need:
                share = -check.short / abs(check.need)
                if share <= TIGHT_SHARE and share < tightest.get(outcome.rule.name, (TIGHT_SHARE + 1, outcome))[0]:
                    tightest[outcome.rule.name] = (share, outcome)
    ranked = sorted(tightest.values(), key=lambda found: found[0])
    return [outcome for _, outcome in ranked[:MOST_TIGHT]]


def _tally(outcomes: Sequence[Outcome]) -> dict[Result, int]:
    """How many rules came out how; a rule counts by the worst of its outcomes."""
    gravity = [Result.NOT_MET, Result.NOT_KNOWN, Result.AGREED, Result.MET]
    worst: dict[str, Result] = {}
    for outcome in outcomes:
        known = worst.get(outcome.rule.name, Result.MET)
        worst[outcome.rule.name] = min(known, outcome.result, key=gravity.index)
    return {result: sum(1 for found in worst.values() if found is result) for result in gravity}
