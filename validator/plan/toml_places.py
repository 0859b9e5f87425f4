"""Where everything stands in a TOML file: names, values, tables, each by its folded pointer.

It follows the marks of a text that TOML's own reader accepts; it does not judge whether one is TOML, and gives up with
`lost` where it cannot follow.
"""

from __future__ import annotations

import itertools
import re
import tomllib
import unicodedata

from validator.plan.documents import Limits, Offsets, SourceText
from validator.plan.names import fold
from validator.plan.pointers import escape
from validator.plan.problems import Problem

_SPACE = re.compile(r"[ \t]*")
_GAP = re.compile(r"(?:[ \t\n]+|#[^\n]*)*")
_NAME = re.compile(r"""[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|'[^'\n]*'""")
_TEXT = re.compile(r'''"""(?:[^\\]|\\.)*?"{3,5}(?!")|\'\'\'.*?'{3,5}(?!')|"(?:[^"\\\n]|\\.)*"|'[^'\n]*\'''', re.DOTALL)
_MOMENT = re.compile(r"\d{4}-\d\d-\d\d[Tt ]\d\d:[^\s,\]}#]+")
_WORD = re.compile(r"[^\s,\]}#]+")


class _Name:
    """One part of a key: the text it stands for, and from where to where it is written."""

    __slots__ = ("end", "start", "text")

    def __init__(self, text: str, start: int, end: int) -> None:
        self.text, self.start, self.end = text, start, end


class _Lost(Exception):
    """Here stands something that is not TOML."""


class _Full(Exception):
    """A limit is reached; the problem is noted."""


class TomlPlaces:
    """`offsets` by folded pointer as a Document has them, and `problems`: names that stand twice, too many of them.

    `full` is set where a limit ended the reading, `lost` where something that is not TOML did. A table that has a
    header stands from its header to the end of its last entry.
    """

    def __init__(self, source: SourceText, limits: Limits) -> None:
        self.problems: list[Problem] = []
        self.lost = self.full = False
        self._source = source
        self._text = source.text
        self._limits = limits
        self._nodes = 0
        self._starts: dict[str, tuple[int, int, int]] = {"": (0, 0, 0)}
        self._ends: dict[str, int] = {"": 0}
        self._spelt: dict[str, str] = {}
        self._lists: dict[str, int] = {}
        self._declared: set[str] = set()
        try:
            self._read()
        except _Lost:
            self.lost = True
        except _Full:
            self.full = True

    @property
    def offsets(self) -> dict[str, Offsets]:
        return {pointer: (*starts, self._ends[pointer]) for pointer, starts in self._starts.items()}

    def _read(self) -> None:
        at, around = 0, [""]
        while (at := self._skip(_GAP, at)) < len(self._text):
            if self._text[at] == "[":
                at, around = self._header(at)
                continue
            names, at = self._key(at)
            at = self._skip(_SPACE, self._sign("=", at))
            at = self._entry(names, at, around[-1], len(around))
            for pointer in around:
                self._ends[pointer] = at

    def _header(self, at: int) -> tuple[int, list[str]]:
        """The place behind a header, and the pointers of the table it opens and of all around that."""
        several = self._text.startswith("[[", at)
        opened = at
        names, at = self._key(self._skip(_SPACE, at + 1 + several))
        at = self._sign("]]" if several else "]", at)
        around = [""]
        for number, name in enumerate(names):
            pointer = self._below(around[-1], name)
            last = number == len(names) - 1
            if last and several:
                count = self._lists[pointer] = self._lists.get(pointer, -1) + 1
                if pointer not in self._starts:
                    self._stand(pointer, name.start, name.end, opened)
                around.append(pointer)
                pointer = f"{pointer}/{count}"
                self._stand(pointer, opened, opened, opened)
            elif pointer not in self._starts:
                self._stand(pointer, name.start, name.end, opened)
            elif pointer in self._lists:
                around.append(pointer)
                pointer = f"{pointer}/{self._lists[pointer]}"
            if last and not several:
                if pointer in self._declared:
                    self.problems.append(self._source.second(name.text, name.start, self._starts[pointer][0]))
                self._declared.add(pointer)
            around.append(pointer)
            self._check_depth(len(around), name.start)
        for pointer in around:
            self._ends[pointer] = at
        return at, around

    def _entry(self, names: list[_Name], at: int, pointer: str, level: int) -> int:
        """Note a key and the value behind it, which starts at `at`; gives where the value ends."""
        dotted = []
        for name, following in itertools.pairwise(names):
            pointer = self._below(pointer, name)
            if pointer not in self._starts:
                self._stand(pointer, name.start, name.end, following.start)
            dotted.append(pointer)
            level += 1
            self._check_depth(level, name.start)
        name = names[-1]
        here = self._below(pointer, name)
        if here in self._starts:
            self.problems.append(self._source.second(name.text, name.start, self._starts[here][0]))
            here = f"{here} {self._nodes}"
        self._stand(here, name.start, name.end, at)
        end = self._value(at, here, level)
        for pointer in (*dotted, here):
            self._ends[pointer] = end
        return end

    def _value(self, at: int, pointer: str, level: int) -> int:
        """Note what is inside the value at this place; gives where it ends."""
        self._count(at)
        opening = self._text[at : at + 1]
        if opening == "[":
            return self._list(at, pointer, level)
        if opening == "{":
            return self._braces(at, pointer, level)
        found = _TEXT.match(self._text, at) if opening in ("'", '"') else _MOMENT.match(self._text, at)
        found = found or _WORD.match(self._text, at)
        if found is None:
            raise _Lost
        return found.end()

    def _list(self, at: int, pointer: str, level: int) -> int:
        self._check_depth(level + 1, at)
        at = self._skip(_GAP, at + 1)
        count = 0
        while not self._text.startswith("]", at):
            here = f"{pointer}/{count}"
            self._stand(here, at, at, at)
            at = self._ends[here] = self._value(at, here, level + 1)
            at = self._skip(_GAP, at)
            if self._text.startswith(",", at):
                at = self._skip(_GAP, at + 1)
            elif not self._text.startswith("]", at):
                raise _Lost
            count += 1
        return at + 1

    def _braces(self, at: int, pointer: str, level: int) -> int:
        self._check_depth(level + 1, at)
        at = self._skip(_SPACE, at + 1)
        while not self._text.startswith("}", at):
            names, at = self._key(at)
            at = self._skip(_SPACE, self._sign("=", at))
            at = self._skip(_SPACE, self._entry(names, at, pointer, level + 1))
            if self._text.startswith(",", at):
                at = self._skip(_SPACE, at + 1)
            elif not self._text.startswith("}", at):
                raise _Lost
        return at + 1

    def _key(self, at: int) -> tuple[list[_Name], int]:
        """The parts of a key, and the place behind it."""
        names: list[_Name] = []
        while True:
            found = _NAME.match(self._text, at)
            if found is None:
                raise _Lost
            names.append(_Name(_meaning(found[0]), at, found.end()))
            if len(names) > self._limits.depth:
                self._check_depth(len(names), at)
            at = self._skip(_SPACE, found.end())
            if not self._text.startswith(".", at):
                return names, at
            at = self._skip(_SPACE, at + 1)

    def _below(self, pointer: str, name: _Name) -> str:
        """The pointer of a name in the group at `pointer`; a name that stands there in another spelling is noted."""
        self._count(name.start)
        below = pointer + "/" + escape(fold(name.text))
        spelt = self._spelt.setdefault(below, name.text)
        if spelt != name.text:
            self.problems.append(self._source.second(name.text, name.start, self._starts[below][0]))
            return f"{below} {self._nodes}"
        return below

    def _stand(self, pointer: str, key_start: int, key_end: int, start: int) -> None:
        self._starts[pointer] = key_start, key_end, start
        self._ends[pointer] = start

    def _skip(self, gap: re.Pattern[str], at: int) -> int:
        found = gap.match(self._text, at)
        return at if found is None else found.end()

    def _sign(self, sign: str, at: int) -> int:
        if not self._text.startswith(sign, at):
            raise _Lost
        return at + len(sign)

    def _check_depth(self, level: int, at: int) -> None:
        if level > self._limits.depth:
            self.problems.append(self._source.too_deep(at, self._limits))
            raise _Full

    def _count(self, at: int) -> None:
        self._nodes += 1
        if self._nodes > self._limits.nodes:
            self.problems.append(self._source.too_many(at, self._limits))
            raise _Full


def _meaning(written: str) -> str:
    """The name that a part of a key stands for."""
    if written[0] not in "\"'":
        return written
    if "\\" not in written:
        return unicodedata.normalize("NFC", written[1:-1])
    try:
        text: str = tomllib.loads(f"name = {written}")["name"]
    except tomllib.TOMLDecodeError:
        raise _Lost from None
    return unicodedata.normalize("NFC", text)
