"""How a plan stands, in so few words that it can be handed from one process to another and held against later."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import NamedTuple

from validator.judging.apply import Judgement
from validator.judging.cures import Key, grave, key
from validator.judging.outcomes import Result
from validator.judging.ready import ready
from validator.judging.rules import Severity
from validator.reporting.points import Points, put_together


class Wrong(NamedTuple):
    """One rule not met at one place."""

    rule: str
    title: str
    severity: Severity
    name: str


class Standing(NamedTuple):
    """What is wrong, what stands in the way and how short it is, what is asked, and how many points and errands.

    All by what they are about, which is the same before a change and after it; what is asked by pointer and label.
    """

    ready: bool
    wrong: Mapping[Key, Wrong]
    grave: Mapping[Key, float]
    asked: Mapping[tuple[str, str], str]
    points: int
    errands: int


def standing(judgement: Judgement, points: Points | None = None) -> Standing:
    """How a judged plan stands; `points` where they are put together already."""
    points = points or put_together(judgement)
    wrong = {
        key(outcome): Wrong(outcome.rule.name, outcome.rule.title, outcome.rule.severity, outcome.subject.name)
        for outcome in judgement.outcomes
        if outcome.result is Result.NOT_MET
    }
    asked = {(errand.missing.pointer, errand.missing.label): errand.missing.label for errand in points.errands}
    return Standing(ready(judgement), wrong, grave(judgement.outcomes), asked, len(points.points), len(points.errands))


def packed(found: Standing | None) -> str:
    """How a plan stands, or that nobody knows, as a text to be handed on."""
    if found is None:
        return json.dumps(None)
    pairs = (found.wrong, found.grave, found.asked)
    return json.dumps([found.ready, *(list(pair.items()) for pair in pairs), found.points, found.errands])


def unpacked(text: str) -> Standing | None:
    """What `packed` made a text of."""
    data = json.loads(text)
    if data is None:
        return None
    is_ready, wrong, in_the_way, asked, points, errands = data
    return Standing(
        is_ready,
        {_key(about): Wrong(*said) for about, said in wrong},
        {_key(about): short for about, short in in_the_way},
        {(pointer, label): said for (pointer, label), said in asked},
        points,
        errands,
    )


def _key(about: list[str]) -> Key:
    rule, pointer, name, context = about
    return rule, pointer, name, context
