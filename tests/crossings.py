"""A plan with one of its figures moved across the limit of a rule: the last value that is met, and the next one."""

from __future__ import annotations

import copy
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any, NamedTuple

from validator.commands.inspecting import Inspector
from validator.judging.apply import Judgement, apply
from validator.judging.cures import Key, key, number_in
from validator.judging.outcomes import Outcome, Result
from validator.measures.rows import Known, Row
from validator.measures.tracing import Step, trace
from validator.plan.files import read_documents
from validator.plan.merging import Merged, merge
from validator.plan.names import fold
from validator.plan.pointers import folded, parent, split
from validator.plan.problems import Unreadable


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
            if outcome.result is Result.MET and outcome.row is not None and _is_a_number(outcome):
                held = tight.get(outcome.rule.name)
                if held is None or outcome.short > held.short:
                    tight[outcome.rule.name] = outcome
        return list(tight.values())

    def crossings(self, outcome: Outcome) -> Iterator[Crossing]:
        """Each value that the outcome rests on, moved by whole steps until it turns; found by halving."""
        assert outcome.row is not None
        seen = set()
        for known in _leaves(outcome.row, outcome.rule.figure or ""):
            place = self._place(known)
            if place is None or place in seen:
                continue
            seen.add(place)
            found = self._crossing(*place, known, outcome)
            if found is not None:
                yield found

    def _crossing(self, number: int, pointer: str, known: Known, outcome: Outcome) -> Crossing | None:
        text = _at(self._documents[number].data, split(pointer))
        found = number_in(text, known.text)
        if found is None:
            return None

        def plan(steps: int) -> tuple[str, Merged | None]:
            value = found.value + steps * found.step
            written = text[: found.start] + found.write(value) + text[found.end :]
            return written, None if value < 0 else self._with(number, pointer, written)

        for way in (1, -1):
            far = 1
            while far < 2**13 and self._says(plan(way * far)[1], outcome) is Result.MET:
                far *= 2
            near = far // 2
            while far - near > 1:
                middle = (near + far) // 2
                met = self._says(plan(way * middle)[1], outcome) is Result.MET
                near, far = (middle, far) if met else (near, middle)
            (met_text, before), (not_met_text, after) = plan(way * near), plan(way * far)
            if self._says(after, outcome) is not Result.NOT_MET:
                continue
            assert before is not None
            assert after is not None
            turned = _turned(self._inspector.inspect(before), self._inspector.inspect(after))
            return Crossing(pointer, met_text, not_met_text, turned)
        return None

    def _with(self, number: int, pointer: str, text: str) -> Merged:
        document = self._documents[number]
        data = copy.deepcopy(document.data)
        *way, last = split(pointer)
        holder = _at(data, way)
        holder[_spelt(holder, last)] = text
        return merge(
            [replace(document, data=data) if at == number else each for at, each in enumerate(self._documents)]
        )

    def _says(self, files: Merged | None, outcome: Outcome) -> Result | None:
        """What the same rule says of the same thing; None where it has nothing to say, or the plan cannot be read."""
        if files is None:
            return None
        try:
            site = self._inspector.site(files)
        except Unreadable:
            return None
        applied = (apply(outcome.rule, row, site) for row in site.rows(outcome.rule.each).rows)
        return next((each.result for each in applied if each is not None and key(each) == key(outcome)), None)

    def _place(self, known: Known) -> tuple[int, str] | None:
        """The file and the text that hold a value; None for one that no file holds as one number."""
        pointer = self.before.site.plan.places.written(known.pointer)
        while pointer and known.text and not known.doubtful:
            for number, document in enumerate(self._documents):
                if folded(pointer) in document.offsets:
                    return (number, pointer) if isinstance(_at(document.data, split(pointer)), str) else None
            pointer = parent(pointer)
        return None


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
