"""A file of a plan or a rulebook as read, whatever syntax it is written in: plain data, and where everything stands."""

from __future__ import annotations

import bisect
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from validator.plan.pointers import folded
from validator.plan.problems import Place, Problem

INVISIBLE = re.compile("[\0-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]")
MOST_PROBLEMS = 100
"""How many problems of one file are shown at most."""


class Limits(NamedTuple):
    """What a file may hold at most: levels of depth, and names and values in all."""

    depth: int = 64
    nodes: int = 400_000


USUAL_LIMITS = Limits()


class Mark(NamedTuple):
    """A spot in a file; line and column count from 1, `offset` is the number of characters before it."""

    line: int
    column: int
    offset: int


class Span(NamedTuple):
    """From where to where a name and its value stand; an entry of a list has no name, its value stands for it."""

    key_start: Mark
    key_end: Mark
    value_start: Mark
    value_end: Mark


Offsets = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True)
class Document:
    """One file as read: plain data (dict, list, str) with names and values as written.

    `text` is the file with line feeds as its only line ends; `offsets` holds, by folded pointer, the four offsets in
    it that make a Span.
    """

    file: str
    text: str
    data: dict[str, Any]
    offsets: Mapping[str, Offsets] = field(repr=False)
    line_starts: list[int] = field(repr=False)

    def span(self, pointer: str) -> Span | None:
        """Where the thing at this pointer stands, or None; the names in a pointer compare as `fold` does."""
        offsets = self.offsets.get(folded(pointer))
        return None if offsets is None else Span(*(_mark(self.line_starts, offset) for offset in offsets))

    def written(self, pointer: str) -> str | None:
        """The value at this pointer exactly as it stands in the file, quotes and all, or None."""
        offsets = self.offsets.get(folded(pointer))
        return None if offsets is None else self.text[offsets[2] : offsets[3]]


def _mark(line_starts: list[int], offset: int) -> Mark:
    line = bisect.bisect_right(line_starts, offset)
    return Mark(line, offset - line_starts[line - 1] + 1, offset)


class SourceText(NamedTuple):
    """The text of a file while it is read, with line feeds as its only line ends."""

    file: str
    text: str
    line_starts: list[int]

    @classmethod
    def of(cls, text: str, file: str) -> SourceText:
        """A file's text as it was decoded, with or without a byte order mark and with any line ends."""
        text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
        return cls(file, text, [0, *(match.end() for match in re.finditer("\n", text))])

    def place(self, offset: int) -> Place:
        mark = _mark(self.line_starts, offset)
        return Place(self.file, mark.line, mark.column)

    def problem(self, offset: int, message: str, expected: str, *also: Place) -> Problem:
        return Problem(message, self.place(offset), expected, also=also)

    def all_invisible(self) -> list[Problem]:
        """A problem for each character that nobody can see and that does not belong in a text."""
        return [self.invisible(found.start(), found[0]) for found in INVISIBLE.finditer(self.text)]

    def invisible(self, offset: int, character: str) -> Problem:
        return self.problem(offset, f"an invisible character (U+{ord(character):04X})", "the text without it")

    def second(self, name: str, offset: int, first: int) -> Problem:
        """A name that stands in one group twice."""
        place = self.place(first)
        message = f"`{name}` is already in line {place.line}"
        expected = "each name once; space, - and _ are one, and so are capital and small letters"
        return self.problem(offset, message, expected, place)

    def too_deep(self, offset: int, limits: Limits) -> Problem:
        message = f"more than {limits.depth} levels, one inside the other"
        return self.problem(offset, message, "a plan has fewer than ten")

    def too_many(self, offset: int, limits: Limits) -> Problem:
        message = f"more than {limits.nodes:,} names and values in one file"
        return self.problem(offset, message, "a plan in several files")

    def line_above(self, line: int) -> int:
        """The number of the next line above this one that holds more than a remark; 0 for none."""
        for above in range(line - 1, 0, -1):
            content = self.text[self.line_starts[above - 1] : self.line_starts[above] - 1].strip()
            if content and not content.startswith("#"):
                return above
        return 0
