"""Reads a plan or part of one from JSON; where everything stands is looked up only when something is reported."""

from __future__ import annotations

import json
import unicodedata
from collections.abc import Callable, Iterator, Mapping
from functools import cached_property
from typing import Any

from validator.plan.documents import (
    INVISIBLE,
    MOST_PROBLEMS,
    USUAL_LIMITS,
    Document,
    Limits,
    Offsets,
    SourceText,
)
from validator.plan.json_places import JsonPlaces
from validator.plan.names import fold
from validator.plan.problems import Unreadable


def read_json(text: str, file: str, limits: Limits = USUAL_LIMITS) -> Document:
    """Read one file whose top is an object; numbers and yes/no words are kept as text.

    Raises Unreadable with everything that is wrong, by the rules that hold for YAML.
    """
    source = SourceText.of(text, file)
    problems = source.all_invisible()
    if problems:
        raise Unreadable(problems[:MOST_PROBLEMS])
    fault = ""
    offset = 0
    try:
        data = _Plain(limits).of(_parsed(source.text))
        return Document(file, source.text, data, _Places(source, limits), source.line_starts)
    except json.JSONDecodeError as error:
        fault, offset = error.msg, error.pos
    except (_Refused, RecursionError) as error:
        fault = str(error)
    found = JsonPlaces(source, limits).problems
    raise Unreadable(found[:MOST_PROBLEMS] or [source.problem(offset, f"this is no JSON: {fault}", "JSON")])


class _Refused(ValueError):
    """Something that JSON can say and a plan cannot; the places are looked up by whoever catches this."""


def _parsed(text: str) -> Any:
    return json.loads(text, object_pairs_hook=_group, parse_int=str, parse_float=str, parse_constant=_refuse_constant)


def _group(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = {unicodedata.normalize("NFC", name): value for name, value in pairs}
    if len({fold(name) for name in found}) < len(pairs):
        raise _Refused("a name twice")
    return found


def _refuse_constant(word: str) -> str:
    raise _Refused(word)


class _Plain:
    """Turns what JSON gives into texts, lists and groups of them, and counts."""

    def __init__(self, limits: Limits) -> None:
        self._limits = limits
        self._nodes = 0

    def of(self, top: Any) -> dict[str, Any]:
        plain = self._value(top, 0)
        if not isinstance(plain, dict):
            raise _Refused("no group of names at the top")
        return plain

    def _value(self, value: Any, level: int) -> Any:
        self._nodes += 1
        if self._nodes > self._limits.nodes:
            raise _Refused("too many values")
        if isinstance(value, str):
            return self._text(value)
        if isinstance(value, bool):
            return "true" if value else "false"
        if value is None:
            raise _Refused("null")
        if level >= self._limits.depth:
            raise _Refused("too deep")
        if isinstance(value, dict):
            self._nodes += len(value)
            return {self._text(name): self._value(inner, level + 1) for name, inner in value.items()}
        return [self._value(inner, level + 1) for inner in value]

    def _text(self, text: str) -> str:
        if not (text.isascii() and text.isprintable()) and INVISIBLE.search(text):
            raise _Refused("an invisible character")
        return text


class _Places(Mapping[str, Offsets]):
    """The places of a file by folded pointer, found when the first is asked for."""

    def __init__(self, source: SourceText, limits: Limits) -> None:
        self._find: Callable[[], JsonPlaces] = lambda: JsonPlaces(source, limits)

    @cached_property
    def _found(self) -> Mapping[str, Offsets]:
        return self._find().offsets

    def __getitem__(self, pointer: str) -> Offsets:
        return self._found[pointer]

    def __iter__(self) -> Iterator[str]:
        return iter(self._found)

    def __len__(self) -> int:
        return len(self._found)
