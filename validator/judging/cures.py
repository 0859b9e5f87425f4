"""Which one value of a plan, changed by how much, would cure what is not met.

Nothing is solved on paper: each value that the failing figure rests on is changed, the plan is read and measured again,
and the answer of the figure says how far it has to go. What cures is judged once more as a whole, to see what else it
brings.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Any, NamedTuple

from validator.judging.apply import Judgement, apply
from validator.judging.outcomes import Check, Outcome, Result
from validator.judging.ready import blocks
from validator.measures.rows import Known, NotKnown, Row
from validator.measures.site import Site
from validator.measures.tracing import Step, trace
from validator.plan.dimensions import Dimension
from validator.plan.documents import Document
from validator.plan.editing import Change, change
from validator.plan.elements import Unfit
from validator.plan.merging import Merged, merge
from validator.plan.names import fold
from validator.plan.places import Places
from validator.plan.pointers import folded, parent, split
from validator.plan.problems import Unreadable

DECIDED = tuple(
    tuple(pattern.split(" / "))
    for pattern in (
        "appliances / * / along",
        "appliances / * / up",
        "appliances / * / waste / fall",
        "appliances / * / waste / drop",
        "points / * / along",
        "points / * / up",
        "runs / * / from",
        "runs / * / legs",
        "runs / * / tops",
        "runs / * / underside",
        "runs / * / order / * / width",
        "runs / * / order / * / underside",
        "fixings / * / plug / length",
        "fixings / * / screw / length",
        "fixings / * / hole / depth",
        "floors / * / gap",
        "coatings / * / coats / * / water",
        "coatings / * / between",
        "work / * / on",
        "kinds / * / up",
    )
)
"""The values that somebody decides: where a thing goes, how wide, how long a fixing, when.

Never what was found on site, what a thing measures or its maker states, and what comes in the sizes of a standard:
those are not bent to suit a rule.
"""

Key = tuple[str, str, str, str]
"""What an outcome is about: rule, pointer, name and context of the thing."""

MOST_VALUES = 40
CLEARLY = 2.0  # how many times smaller a change has to be than the next, to be the one that is meant
SIXTEENTH = Fraction(1, 16)


class File(NamedTuple):
    """One file of a plan, as read and as it is on the disk."""

    document: Document
    content: bytes


@dataclass(frozen=True, slots=True)
class Cure:
    """A change of one value that cures a point: `own` to the thing itself, `share` of the value that is changed.

    `brings` are the grave outcomes that it makes, or makes worse; `after` is the judgement of the changed plan.
    """

    change: Change
    label: str
    own: bool
    share: float
    brings: tuple[Outcome, ...]
    after: Judgement


class _Value(NamedTuple):
    """A value in a file that a figure rests on: where its text stands, the number in it and what one of it comes to."""

    file: File
    pointer: str
    known: Known
    text: str
    number: _Number
    per_number: float
    alike: bool  # whether it is of the dimension of the figure


class _Number(NamedTuple):
    """The one number of a text: from where to where it stands, and in which steps it is written."""

    start: int
    end: int
    value: Fraction
    step: Fraction
    write: Callable[[Fraction], str]

    def moved(self, by: Fraction) -> Fraction:
        """The number moved by so much at least, to a full step."""
        steps = (self.value + by) / self.step
        return self.step * (math.ceil(steps) if by > 0 else math.floor(steps))


class Cures:
    """Looks for the cures of one point: outcomes of one rule at one place or several."""

    def __init__(
        self,
        files: Sequence[File],
        judgement: Judgement,
        site_of: Callable[[Merged], Site],
        judge: Callable[[Merged], Judgement],
    ) -> None:
        self._files = files
        self._before = judgement
        self._site_of = site_of
        self._judge = judge

    def find(self, outcomes: Sequence[Outcome]) -> list[Cure]:
        """Every cure of these outcomes by one value, the least that brings trouble first, then the smallest change."""
        worst = max(outcomes, key=lambda outcome: outcome.short)
        check = _failing(worst)
        if check is None or worst.row is None:
            return []
        found = []
        for value in self._values(worst, worst.row):
            cure = self._cure(value, worst, outcomes)
            if cure is not None:
                found.append(cure)
        return sorted(found, key=lambda cure: (len(cure.brings), not cure.own, cure.share))

    def _values(self, outcome: Outcome, row: Row) -> Iterator[_Value]:
        """The values typed in the plan that the failing comparison rests on, each once."""
        names = [outcome.rule.figure]
        for limit in outcome.rule.limits:
            if limit.expression is not None:
                names += sorted(limit.expression.reads)
        places = self._before.site.plan.places
        seen: set[tuple[str, str]] = set()
        for known, dimension in _leaves(row, names):
            value = self._value(known, places, outcome.rule.dimension == dimension)
            if value is not None and (value.pointer, value.known.text) not in seen and len(seen) < MOST_VALUES:
                seen.add((value.pointer, value.known.text))
                yield value

    def _value(self, known: Known, places: Places, alike: bool) -> _Value | None:
        pointer = places.written(known.pointer)
        if known.doubtful or not known.text or not _is_decided(pointer):
            return None
        while pointer and not any(folded(pointer) in file.document.offsets for file in self._files):
            pointer = parent(pointer)
        file = next((file for file in self._files if folded(pointer) in file.document.offsets), None)
        text = None if file is None or not pointer else _at(file.document.data, split(pointer))
        if file is None or not isinstance(text, str):
            return None
        number = number_in(text, known.text)
        if number is None or not number.value or not known.value:
            return None
        return _Value(file, pointer, known, text, number, float(known.value) / float(number.value), alike)

    def _cure(self, value: _Value, worst: Outcome, outcomes: Sequence[Outcome]) -> Cure | None:
        number = value.number
        reach = worst.short / abs(value.per_number) if value.alike else abs(float(number.value)) / 10
        for way in (1, -1):
            tried = number.moved(way * Fraction(reach))
            answer = self._short(value, tried, outcomes)
            if answer is None or answer >= worst.short:
                continue
            share = (worst.short - answer) / float(tried - number.value)
            wanted = number.moved(Fraction(worst.short / share))
            for candidate in (wanted, wanted + way * number.step, tried):
                cure = self._cured(value, candidate, outcomes)
                if cure is not None:
                    return cure
        return None

    def _short(self, value: _Value, number: Fraction, outcomes: Sequence[Outcome]) -> float | None:
        """By how much the worst of the outcomes would still fail; None where the plan would say nothing of them."""
        found = self._outcomes(value, number, outcomes)
        return None if found is None else max(outcome.short for outcome in found)

    def _cured(self, value: _Value, number: Fraction, outcomes: Sequence[Outcome]) -> Cure | None:
        found = self._outcomes(value, number, outcomes)
        if found is None or any(outcome.result is not Result.MET for outcome in found):
            return None
        changed = self._changed(value, number)
        assert changed is not None
        try:
            after = self._judge(self._merged(changed))
        except Unreadable:
            return None
        own = any(_is_within(value.pointer, outcome.subject.pointer) for outcome in outcomes)
        share = abs(float((number - value.number.value) / value.number.value))
        brings = tuple(trouble(grave(self._before.outcomes), after.outcomes))
        return Cure(changed, value.known.label, own, share, brings, after)

    def _outcomes(self, value: _Value, number: Fraction, outcomes: Sequence[Outcome]) -> list[Outcome] | None:
        """The same outcomes of the plan with another number; None where it cannot be read, or has not all of them."""
        changed = self._changed(value, number)
        if changed is None:
            return None
        try:
            site = self._site_of(self._merged(changed))
        except Unreadable:
            return None
        rule = outcomes[0].rule
        wanted = {key(outcome) for outcome in outcomes}
        applied = (apply(rule, row, site) for row in site.rows(rule.each).rows)
        found = [outcome for outcome in applied if outcome is not None and key(outcome) in wanted]
        return found if len(found) == len(wanted) and all(outcome.checks for outcome in found) else None

    def _changed(self, value: _Value, number: Fraction) -> Change | None:
        if number < 0:
            return None
        text = value.text[: value.number.start] + value.number.write(number) + value.text[value.number.end :]
        try:
            return change(value.file.document, value.file.content, value.pointer, text)
        except (Unfit, Unreadable):
            return None

    def _merged(self, changed: Change) -> Merged:
        return merge(
            [changed.after if file.document.file == changed.after.file else file.document for file in self._files]
        )


def the_one(cures: Sequence[Cure]) -> Cure | None:
    """The cure that is meant: the only one that brings no trouble, or clearly the smallest on the thing itself."""
    clean = [cure for cure in cures if not cure.brings]
    own = [cure for cure in clean if cure.own]
    if len(clean) == 1:
        return clean[0]
    if len(own) == 1 or (len(own) > 1 and own[0].share * CLEARLY <= own[1].share):
        return own[0]
    return None


def grave(outcomes: Iterable[Outcome]) -> dict[Key, float]:
    """What stands in the way of the work, and by how much it is short."""
    return {key(outcome): outcome.short for outcome in outcomes if blocks(outcome)}


def trouble(before: Mapping[Key, float], after: Iterable[Outcome]) -> Iterator[Outcome]:
    """What stands in the way afterwards and did not before, or was less short."""
    for outcome in after:
        if blocks(outcome):
            short = before.get(key(outcome))
            if short is None or outcome.short > short + 1e-6 * max(1.0, abs(short)):
                yield outcome


def key(outcome: Outcome) -> Key:
    """What an outcome is about, the same before a change and after it."""
    subject = outcome.subject
    return outcome.rule.name, subject.pointer, subject.name, subject.context


def number_in(text: str, part: str) -> _Number | None:
    """The number of a part that stands in the text only once; None where the part is not one plain number."""
    places = [found.start() for found in re.finditer(rf"(?<![\w./'-]){re.escape(part)}(?![\w./'\"-])", text)]
    if len(places) != 1:
        return None
    day = re.fullmatch(r"\d{4}-\d\d-\d\d", part)
    if day:
        ordinal = Fraction(date.fromisoformat(part).toordinal())
        return _Number(places[0], places[0] + len(part), ordinal, Fraction(1), _as_day)
    numbers = list(re.finditer(r"(?:(\d+)[- ])?(\d+)/(\d+)|\d+(?:\.(\d+))?", part))
    if len(numbers) != 1 or (numbers[0][3] and not int(numbers[0][3])):
        return None
    found = numbers[0]
    start, end = places[0] + found.start(), places[0] + found.end()
    if found[3]:
        value = int(found[1] or 0) + Fraction(int(found[2]), int(found[3]))
        return _Number(start, end, value, SIXTEENTH, _as_inches)
    decimals = len(found[4] or "")
    return _Number(
        start, end, Fraction(found[0]), Fraction(1, 10**decimals), lambda number: _as_decimal(number, decimals)
    )


def _as_day(number: Fraction) -> str:
    return date.fromordinal(int(number)).isoformat()


def _as_inches(number: Fraction) -> str:
    whole, part = divmod(number, 1)
    if not part:
        return str(whole)
    return f"{whole}-{part}" if whole else str(part)


def _as_decimal(number: Fraction, decimals: int) -> str:
    return f"{float(number):.{decimals}f}"


def _failing(outcome: Outcome) -> Check | None:
    """The number that fails; None where words or a condition do."""
    if outcome.rule.dimension is None or outcome.rule.holds is not None:
        return None
    return next((check for check in outcome.checks if not check.ok and isinstance(check.have, float)), None)


def _leaves(row: Row, names: Iterable[str]) -> Iterator[tuple[Known, Dimension]]:
    """The values that figures and fields of a row rest on, down to where they were written."""
    for name in names:
        if name not in row.fields and name not in row.figures:
            continue
        try:
            step = trace(row, name)[0]
        except NotKnown:
            continue
        for leaf in step.leaves() if isinstance(step, Step) else ():
            known = leaf.source
            if known is None:
                continue
            if known.origin is None:
                yield known, leaf.dimension
            else:
                yield from _leaves(known.origin[0], (known.origin[1],))


def _is_decided(pointer: str) -> bool:
    segments = split(folded(pointer))
    return any(
        len(pattern) == len(segments) and all(map(lambda wanted, name: wanted in ("*", name), pattern, segments))
        for pattern in DECIDED
    )


def _at(data: Any, segments: Sequence[str]) -> Any:
    for segment in segments:
        if isinstance(data, list):
            data = data[int(segment)]
        else:
            data = next(value for name, value in data.items() if fold(name) == fold(segment))
    return data


def _is_within(pointer: str, around: str) -> bool:
    """Whether a value belongs to a thing: at its pointer or below it, or the line that says the thing."""
    inner, outer = folded(pointer), folded(around)
    return inner == outer or inner.startswith(outer + "/") or outer.startswith(inner + "/")
