"""A plan with one of its figures moved across the limit of a rule: the last value that is met, and the next one."""

from __future__ import annotations

import copy
import functools
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from datetime import date
from functools import cached_property
from pathlib import Path
from re import fullmatch
from typing import Any, NamedTuple

from validator.commands.inspecting import Inspector
from validator.judging.apply import Judgement, apply
from validator.judging.cures import Key, key, number_in
from validator.judging.outcomes import Outcome, Result
from validator.measures.departures import Departure
from validator.measures.rows import Known, Row
from validator.measures.tracing import Step, trace
from validator.plan.files import read_documents
from validator.plan.merging import Merged, merge
from validator.plan.names import fold
from validator.plan.pointers import folded, join, parent, split
from validator.plan.problems import Unreadable

NUMBER = re.compile(r"(?<![A-Z])\d+(?:\.\d+)?")
PROBES = (1, -1, 40, -40)
HARDLY = 1e-6
FURTHEST = 2**13
DOUBLINGS = 3
SETS_A_PLACE = (
    r"/kinds/[^/]+/(handle|depth|front|runner)",
    r"/runs/[^/]+/(aisle|along)",
    r"/runs/[^/]+/order/[^/]+",
    r"/appliances/[^/]+/(open|handle|width)",
    r"/openings/[^/]+/(along|size)",
    r"/walls/[^/]+/length(/0)?",
    r"/ceiling(/0)?",
    r"/corners/[^/]+",
)


class Crossing(NamedTuple):
    """One value of a plan (`pointer`) with its last text that is met and its first that is not, and what then turns."""

    pointer: str
    met: str
    not_met: str
    turned: frozenset[str]


class Moved:
    """A plan of which single values are moved; `judge` takes the place and its new text."""

    def __init__(self, plan: Path, on: date) -> None:
        self._inspector = Inspector((), on)
        self._documents = read_documents([str(plan)], bytes)
        self.before = self._inspector.inspect(merge(self._documents))

    def limits(self) -> list[Outcome]:
        """One met outcome for each rule that holds a figure to a number: that with the least to spare."""
        tight: dict[str, Outcome] = {}
        for outcome in self.before.outcomes:
            of_the_plan = outcome.row is not None and outcome.rule.each != Departure.kind
            if outcome.result is Result.MET and of_the_plan and _is_a_number(outcome):
                held = tight.get(outcome.rule.name)
                if held is None or outcome.short > held.short:
                    tight[outcome.rule.name] = outcome
        return list(tight.values())

    def crossings(self, outcome: Outcome) -> Iterator[Crossing]:
        """Each value that the outcome rests on, moved by whole steps until it turns.

        A figure of the drawing rests on no one value: for it, those are tried that set where things stand.
        """
        assert outcome.row is not None
        seen = set()
        found = [place for known in _leaves(outcome.row, outcome.rule.figure or "") if (place := self._place(known))]
        for place in found or self._drawn:
            if place not in seen:
                seen.add(place)
                crossing = self._crossing(*place, outcome)
                if crossing is not None:
                    yield crossing

    @cached_property
    def _drawn(self) -> list[tuple[int, str, str]]:
        """The values that set where things stand in the room, and how far they come out or open."""
        return [
            (number, pointer, part[0])
            for number, document in enumerate(self._documents)
            for pointer, text in _texts(document.data)
            if any(fullmatch(pattern, pointer) for pattern in SETS_A_PLACE)
            if (part := NUMBER.search(text)) is not None
        ]

    def _crossing(self, number: int, pointer: str, part: str, outcome: Outcome) -> Crossing | None:
        text = _at(self._documents[number].data, split(pointer))
        found = number_in(text, part)
        if found is None:
            return None

        @functools.cache
        def plan(steps: int) -> tuple[str, Merged | None]:
            value = found.value + steps * found.step
            written = text[: found.start] + found.write(value) + text[found.end :]
            return written, None if value < 0 else self._with(number, pointer, written)

        @functools.cache
        def says(steps: int) -> Outcome | None:
            return self._says(plan(steps)[1], outcome)

        steps = next((at for probe in PROBES if (at := _turning_point(says, probe, outcome.short)) is not None), None)
        if steps is None:
            return None
        (met_text, before), (not_met_text, after) = plan(steps - (1 if steps > 0 else -1)), plan(steps)
        assert before is not None
        assert after is not None
        turned = _turned(self._inspector.inspect(before), self._inspector.inspect(after))
        return Crossing(pointer, met_text, not_met_text, turned)

    def _with(self, number: int, pointer: str, text: str) -> Merged:
        document = self._documents[number]
        data = copy.deepcopy(document.data)
        *way, last = split(pointer)
        holder = _at(data, way)
        holder[_spelt(holder, last)] = text
        return merge(
            [replace(document, data=data) if at == number else each for at, each in enumerate(self._documents)]
        )

    def _says(self, files: Merged | None, outcome: Outcome) -> Outcome | None:
        """What the same rule says of the same thing; None where it has nothing to say, or the plan cannot be read."""
        if files is None:
            return None
        try:
            site = self._inspector.site(files)
        except Unreadable:
            return None
        applied = (apply(outcome.rule, row, site) for row in site.rows(outcome.rule.each).rows)
        return next((each for each in applied if each is not None and key(each) == key(outcome)), None)

    def _place(self, known: Known) -> tuple[int, str, str] | None:
        """The file, the place and the text that hold a value; None for one that no file holds as one number."""
        pointer = self.before.site.plan.places.written(known.pointer)
        while pointer and known.text and not known.doubtful:
            for number, document in enumerate(self._documents):
                if folded(pointer) in document.offsets:
                    text = _at(document.data, split(pointer))
                    return (number, pointer, known.text) if isinstance(text, str) else None
            pointer = parent(pointer)
        return None


def _turning_point(says: Callable[[int], Outcome | None], probe: int, short: float) -> int | None:
    """The first step in the direction of the probe at which an outcome that is met is met no more; None where the probe
    does not bring it nearer. How far it has to go is reckoned from how far the probe moves it, then halved.
    """
    way = 1 if probe > 0 else -1
    moved = says(probe)
    if moved is None or moved.result not in (Result.MET, Result.NOT_MET) or moved.short <= short + HARDLY * abs(short):
        return None
    guess = max(min(round(-short / (moved.short - short) * abs(probe)), FURTHEST), 1)
    met, far = 0, guess * 2**DOUBLINGS
    for steps in (guess, guess + 1, guess - 1, *(guess * 2**more for more in range(1, DOUBLINGS))):
        if met < steps < far:
            met, far = (steps, far) if _result(says(way * steps)) is Result.MET else (met, steps)
    while far - met > 1:
        middle = (met + far) // 2
        met, far = (middle, far) if _result(says(way * middle)) is Result.MET else (met, middle)
    return way * far if _result(says(way * far)) is Result.NOT_MET else None


def _result(outcome: Outcome | None) -> Result | None:
    return None if outcome is None else outcome.result


def _texts(data: Any, pointer: str = "") -> Iterator[tuple[str, str]]:
    """Every text of a plan with its pointer."""
    if isinstance(data, str):
        yield pointer, data
    elif isinstance(data, dict | list):
        for name, value in data.items() if isinstance(data, dict) else enumerate(data):
            yield from _texts(value, join(pointer, str(name)))


def _is_a_number(outcome: Outcome) -> bool:
    return outcome.rule.dimension is not None and all(isinstance(check.have, float) for check in outcome.checks)


def _turned(before: Judgement, after: Judgement) -> frozenset[str]:
    """The rules of which some outcome is another, or there is one more or less."""
    one, other = _results(before), _results(after)
    return frozenset(each[0] for each in one.keys() | other.keys() if one.get(each) != other.get(each))


def _results(judged: Judgement) -> dict[Key, Result]:
    return {key(outcome): outcome.result for outcome in judged.outcomes}


def _leaves(row: Row, name: str) -> Iterator[Known]:
    """The values of the plan that a figure or a field rests on."""
    step = trace(row, name)[0] if name in row.fields or name in row.figures else None
    for leaf in step.leaves() if isinstance(step, Step) else ():
        known = leaf.source
        if known is not None and known.origin is not None:
            yield from _leaves(known.origin[0], known.origin[1])
        elif known is not None:
            yield known


def _at(data: Any, segments: Sequence[str]) -> Any:
    for segment in segments:
        data = data[_spelt(data, segment)]
    return data


def _spelt(holder: Any, segment: str) -> Any:
    if isinstance(holder, list):
        return int(segment)
    return next(name for name in holder if fold(name) == fold(segment))
