"""What a change of a plan brought, cured and moved: two judgements compared by rule and thing, never by line."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome, Result
from validator.judging.ready import blocks
from validator.judging.rules import SEVERITIES, Severity
from validator.plan.names import fold
from validator.plan.pointers import folded
from validator.reporting.findings import failed_or_first
from validator.reporting.points import Errand, put_together


@dataclass(frozen=True, slots=True)
class Pair:
    """One rule at one thing, before and now; None where that side has nothing of the kind."""

    before: Outcome | None
    now: Outcome | None


@dataclass(frozen=True, slots=True)
class Changes:
    """What became of each point and each thing to find out.

    `brought` are not met now and were not before, or are graver than before; `cured` were not met and are met, agreed,
    no longer known or no longer there; `moved` are not met on both sides with other figures. `asked` are things to
    find out that nobody had to before, or that hold up a *stop* only now; `answered` are those that are not asked any
    more. `country_lost` says that the plan no longer names a country, which takes all national rules away.
    """

    brought: tuple[Pair, ...]
    cured: tuple[Pair, ...]
    moved: tuple[Pair, ...]
    asked: tuple[Errand, ...]
    answered: tuple[Errand, ...]
    unchanged_points: int
    unchanged_errands: int
    country_lost: bool = False

    @property
    def nothing(self) -> bool:
        return not (self.brought or self.cured or self.moved or self.asked or self.answered or self.country_lost)

    def blocks(self, fail_on: Severity = "put right") -> bool:
        """Whether anything brought stands in the way of the work."""
        points = any(pair.now is not None and blocks(pair.now, fail_on) for pair in self.brought)
        return points or self.country_lost or any(errand.stops for errand in self.asked)


def compare(before: Judgement | None, now: Judgement) -> Changes:
    """The change from one judgement to the next; with nothing before, everything is brought."""
    pairs = _outcomes(before, now, now.outcomes)
    wrong = [pair for pair in pairs if _not_met(pair.now)]
    brought = [pair for pair in wrong if not _not_met(pair.before) or _graver(pair)]
    as_before = [pair for pair in wrong if _not_met(pair.before) and not _graver(pair)]
    moved = [pair for pair in as_before if figures(pair.before) != figures(pair.now)]
    asked_before = () if before is None else put_together(before).errands
    asked_now = put_together(now).errands
    same, answered = _matched(asked_before, asked_now, _KEYS_OF_AN_ERRAND)
    asked = [errand for errand in asked_now if not _asked_before(errand, same.get(id(errand)))]
    return Changes(
        tuple(brought),
        tuple(pair for pair in pairs if _not_met(pair.before) and not _not_met(pair.now)),
        tuple(moved),
        tuple(asked),
        tuple(answered),
        len(as_before) - len(moved),
        len(asked_now) - len(asked),
        now.books.country_missing and (before is None or not before.books.country_missing),
    )


def new_stops(before: Judgement | None, now: Judgement) -> list[Outcome]:
    """Each *stop* that is not met now and was met, not known or not there before.

    Of what was before, only what the rules say counts by which a stop is not met now.
    """
    rules = {outcome.rule.name for outcome in now.outcomes if _stops(outcome)}
    pairs = _outcomes(before, now, [outcome for outcome in now.outcomes if outcome.rule.name in rules])
    return [pair.now for pair in pairs if pair.now is not None and _stops(pair.now) and not _stops(pair.before)]


def figures(outcome: Outcome | None) -> tuple[object, ...]:
    """What an outcome has and needs, as far as a difference would be seen."""
    check = None if outcome is None else failed_or_first(outcome)
    return () if check is None else (_seen(check.have), _seen(check.need))


def _outcomes(before: Judgement | None, now: Judgement, outcomes: Sequence[Outcome]) -> list[Pair]:
    """Each of these outcomes of now with its forerunner, then those before that have no successor among them."""
    earlier = () if before is None else before.outcomes
    former = {outcome.rule.name: now.books.resolve(outcome.rule.name) or outcome.rule.name for outcome in earlier}

    def rule(outcome: Outcome) -> str:
        return former.get(outcome.rule.name, outcome.rule.name)

    same, gone = _matched(
        earlier,
        outcomes,
        (
            lambda outcome: (rule(outcome), folded(outcome.subject.pointer), fold(outcome.subject.name)),
            lambda outcome: (rule(outcome), fold(outcome.subject.name)),
        ),
    )
    return [*(Pair(same.get(id(each)), each) for each in outcomes), *(Pair(each, None) for each in gone)]


T = TypeVar("T")

_KEYS_OF_AN_ERRAND: Sequence[Callable[[Errand], Hashable]] = (
    lambda errand: (folded(errand.at), fold(errand.missing.label)),
    lambda errand: folded(errand.at),
)


def _matched(
    before: Sequence[T], now: Sequence[T], keys: Sequence[Callable[[T], Hashable]]
) -> tuple[dict[int, T], list[T]]:
    """The forerunner of each of now by its `id`, and what of before has no successor.

    By the first key like goes with like in their order; by each further key, which knows less of a thing, only where
    there is one of the kind left over on both sides: a thing that was moved to another run or section.
    """
    found: dict[int, T] = {}
    old, new = list(before), list(now)
    for key in keys:
        waiting: dict[Hashable, list[T]] = {}
        for each in old:
            waiting.setdefault(key(each), []).append(each)
        many = Counter(map(key, new))
        matched: set[int] = set()
        for each in new:
            alike = waiting.get(key(each), [])
            if alike and (key is keys[0] or len(alike) == many[key(each)] == 1):
                found[id(each)] = alike.pop(0)
                matched.add(id(found[id(each)]))
        old = [each for each in old if id(each) not in matched]
        new = [each for each in new if id(each) not in found]
    return found, old


def _asked_before(errand: Errand, former: Errand | None) -> bool:
    return former is not None and (former.stops or not errand.stops)


def _not_met(outcome: Outcome | None) -> bool:
    return outcome is not None and outcome.result is Result.NOT_MET


def _stops(outcome: Outcome | None) -> bool:
    return outcome is not None and outcome.result is Result.NOT_MET and outcome.rule.severity == "stop"


def _graver(pair: Pair) -> bool:
    if pair.before is None or pair.now is None:
        return False
    return SEVERITIES.index(pair.now.rule.severity) < SEVERITIES.index(pair.before.rule.severity)


def _seen(value: float | str | bool) -> object:
    return round(value, 6) if isinstance(value, float) else value
