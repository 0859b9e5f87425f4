"""Reads a plan or part of one from TOML: Python's own reader says what it means, `toml_places` where it stands."""

from __future__ import annotations

import tomllib
import unicodedata
from collections.abc import Iterator, Mapping
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
from validator.plan.names import fold
from validator.plan.pointers import escape
from validator.plan.problems import Place, Problem, Unreadable
from validator.plan.toml_places import TomlPlaces


def read_toml(text: str, file: str, limits: Limits = USUAL_LIMITS) -> Document:
    """Read one file; numbers, days and yes/no words are kept as the text that was written.

    Raises Unreadable with everything that is wrong, by the rules that hold for YAML.
    """
    source = SourceText.of(text, file)
    problems = source.all_invisible()
    if problems:
        raise Unreadable(problems[:MOST_PROBLEMS])
    places = TomlPlaces(source, limits)
    problems = places.problems
    if places.full:
        raise Unreadable(problems[:MOST_PROBLEMS])
    try:
        parsed = tomllib.loads(source.text, parse_float=str)
    except (ValueError, RecursionError):
        from validator.plan.toml_slips import slips

        said = {problem.place.line for problem in problems}
        problems += [slip for slip in slips(source) if slip.place.line not in said]
    if problems:
        raise Unreadable(problems[:MOST_PROBLEMS])
    if places.lost:
        raise Unreadable([Problem("this file cannot be followed", Place(file), "simpler TOML, or YAML")])
    if not parsed:
        raise Unreadable([Problem("the file is empty", Place(file), "lines of `name = value`")])
    plain = _Plain(source, places.offsets)
    data = dict(plain.group(parsed, ""))
    if plain.problems:
        raise Unreadable(plain.problems[:MOST_PROBLEMS])
    return Document(file, source.text, data, plain.offsets, source.line_starts)


class _Plain:
    """Turns what TOML means into texts, lists and groups of them; what is no text is taken as it is written."""

    def __init__(self, source: SourceText, offsets: Mapping[str, Offsets]) -> None:
        self.problems: list[Problem] = []
        self.offsets = offsets
        self._source = source

    def group(self, entries: Mapping[str, Any], pointer: str) -> Iterator[tuple[str, Any]]:
        for written, value in entries.items():
            name = unicodedata.normalize("NFC", written)
            below = pointer + "/" + escape(fold(name))
            self._look_at(name, self.offsets[below][0])
            yield name, self._value(value, below)

    def _value(self, value: Any, pointer: str) -> Any:
        if isinstance(value, dict):
            return dict(self.group(value, pointer))
        if isinstance(value, list):
            return [self._value(entry, f"{pointer}/{number}") for number, entry in enumerate(value)]
        _, _, start, end = self.offsets[pointer]
        if not isinstance(value, str):
            return self._source.text[start:end]
        if self._source.text[start] in "\"'":
            self._look_at(value, start)
        return value

    def _look_at(self, text: str, start: int) -> None:
        if not text.isascii() or not text.isprintable():
            hidden = INVISIBLE.search(text)
            if hidden:
                self.problems.append(self._source.invisible(start, hidden[0]))
