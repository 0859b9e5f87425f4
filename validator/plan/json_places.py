"""Where everything stands in a JSON file, and in plain words every slip in one that cannot be read.

One pass over the marks of the text with a stack of its own. It goes on behind a slip wherever what follows still makes
sense, so that one look shows them all.
"""

from __future__ import annotations

import contextlib
import json
import re
import unicodedata
from typing import NamedTuple

from validator.plan.documents import INVISIBLE, Limits, Offsets, SourceText
from validator.plan.names import fold
from validator.plan.pointers import escape
from validator.plan.problems import Place, Problem

_NEXT = re.compile(
    r"""[ \t\n]*(?:
    (?P<text>"(?:[^"\\\n]|\\[^\n])*")
  | (?P<sign>[{}\[\]:,])
  | (?P<remark>//[^\n]*|\#[^\n]*|/\*.*?(?:\*/|\Z))
  | (?P<single>'(?:[^'\\\n]|\\[^\n])*')
  | (?P<open>["'][^\n]*)
  | (?P<word>[^\s{}\[\]:,"'](?:(?![ \t]*(?://|/\*|\#))[^{}\[\]:,"'\n])*)
  | (?P<other>[^ \t\n])
  )""",
    re.VERBOSE | re.DOTALL,
)
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?")
_LIKE_A_NUMBER = re.compile(r"[+-]?(?:[0-9][0-9_]*\.?[0-9_]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?|0[xob][0-9A-Fa-f]+")
_BAD_ESCAPE = re.compile(r'(?:[^\\]|\\(?:["\\/bfnrt]|u[0-9A-Fa-f]{4}))*?(\\(?!["\\/bfnrt]|u[0-9A-Fa-f]{4}).)')
_NOT_NUMBERS = ("NaN", "Infinity", "-Infinity")
_CLOSES = {"{": "}", "[": "]"}
_TOP = 'braces with `"name": value` in them'


class _Level(NamedTuple):
    """A group of names (`{`) or a list (`[`) that is open: its pointer, where it starts, and where its name stands."""

    sign: str
    pointer: str
    start: int
    key_start: int
    key_end: int


class _Ended(Exception):
    """Nothing behind here makes sense any more."""


class JsonPlaces:
    """`offsets` by folded pointer as a Document has them, and the `problems` of the file."""

    def __init__(self, source: SourceText, limits: Limits) -> None:
        self.offsets: dict[str, Offsets] = {}
        self.problems: list[Problem] = []
        self._source = source
        self._limits = limits
        self._levels: list[_Level] = []
        self._counts: list[int] = []
        self._nodes = 0
        self._name = self._pointer = ""
        self._name_at = (0, 0)
        self._end = 0  # of the last value
        with contextlib.suppress(_Ended):
            self._read()

    def _read(self) -> None:
        text = self._source.text
        wanted = "value"  # or: name, colon, comma
        at = 0
        while (found := _NEXT.match(text, at)) is not None:
            sort = found.lastgroup or ""
            start, at = found.span(sort)
            token = found[sort].rstrip() if sort == "word" else found[sort]
            if sort == "remark":
                self._say(
                    start, f"`{_short(token)}` is a remark, and JSON has none", 'a name of its own: `"note": "…"`'
                )
                continue
            if wanted == "end":
                self._stop(start, "something stands behind the last brace", "nothing behind it")
            end = start + len(token)
            if sort in ("open", "other"):
                self._unclosed(start, token, sort)
            if token == ":" and sort == "sign":
                wanted = self._colon(start, wanted)
            elif token == "," and sort == "sign":
                wanted = self._comma(start, wanted)
            elif token in ("}", "]") and sort == "sign":
                wanted = self._close(start, token, wanted)
            else:
                if wanted == "comma":
                    self._say(self._end, "a comma is missing", "a comma between two entries")
                    wanted = "name" if self._levels[-1].sign == "{" else "value"
                if wanted == "colon":
                    self._say(start, f"no colon stands behind `{self._name}`", f'`"{self._name}": …`')
                    wanted = "value"
                wanted = self._take_name(start, end, token, sort) if wanted == "name" else self._take(start, end, token)
        if wanted != "end":
            self._unfinished()

    def _say(self, offset: int, message: str, expected: str, *also: Place) -> None:
        self.problems.append(self._source.problem(offset, message, expected, *also))

    def _stop(self, offset: int, message: str, expected: str, *also: Place) -> None:
        self._say(offset, message, expected, *also)
        raise _Ended

    def _unfinished(self) -> None:
        if not self._levels:
            self.problems.append(Problem("the file is empty", Place(self._source.file), _TOP))
            return
        opened = self._levels[-1]
        closes = _CLOSES[opened.sign]
        self._say(opened.start, f"the `{opened.sign}` here is not closed by the end of the file", f"a `{closes}`")

    def _unclosed(self, start: int, token: str, sort: str) -> None:
        if sort == "open":
            self._stop(start, "the quote that opens here is not closed in its line", f"a {token[0]} behind the text")
        self._stop(start, f"`{token}` cannot stand here", "a text in double quotes")

    def _colon(self, start: int, wanted: str) -> str:
        if wanted == "colon":
            return "value"
        if self._levels and self._levels[-1].sign == "[":
            self._stop(start, "a colon stands in a list", "braces round names with values")
        self._stop(start, "a colon without a name before it", '`"name": value`')
        return wanted

    def _comma(self, start: int, wanted: str) -> str:
        if not self._levels:
            self._stop(start, "a comma stands at the top of the file", _TOP)
        if wanted == "comma":
            return "name" if self._levels[-1].sign == "{" else "value"
        if self._levels[-1].sign == "{" and wanted in ("colon", "value"):
            self._no_value()
            return "name"
        self._say(start, "a comma without a value before it", "one comma between two entries")
        return wanted

    def _no_value(self) -> None:
        self._say(self._name_at[0], f"`{self._name}` has no value", f'`"{self._name}": value`')

    def _close(self, start: int, token: str, wanted: str) -> str:
        if not self._levels:
            self._stop(start, f"`{token}` closes nothing", _TOP)
        level = self._levels[-1]
        if _CLOSES[level.sign] != token:
            opened = self._source.place(level.start)
            message = f"`{token}` stands where the `{level.sign}` of line {opened.line} has to be closed first"
            self._stop(start, message, f"a `{_CLOSES[level.sign]}`", opened)
        if level.sign == "{" and wanted in ("colon", "value"):
            self._no_value()
        elif wanted != "comma" and self._counts[-1]:
            self._say(start, f"a comma stands before the `{token}`", "no comma behind the last entry")
        self._levels.pop()
        self._counts.pop()
        self._end = start + 1
        self.offsets[level.pointer] = level.key_start, level.key_end, level.start, self._end
        return "comma" if self._levels else "end"

    def _take_name(self, start: int, end: int, token: str, sort: str) -> str:
        if token in _CLOSES and sort == "sign":
            self._stop(start, "a bracket stands where a name should", '`"name": value`')
        name = self._text_of(start, token, "the name ")
        self._count(start)
        pointer = self._levels[-1].pointer + "/" + escape(fold(name))
        if pointer in self.offsets:
            self.problems.append(self._source.second(name, start, self.offsets[pointer][0]))
            pointer = f"{pointer} {self._nodes}"
        self._pointer = pointer
        self._name, self._name_at = name, (start, end)
        self._counts[-1] += 1
        return "colon"

    def _take(self, start: int, end: int, token: str) -> str:
        self._count(start)
        pointer, key_start, key_end = self._here(start, end)
        if token in _CLOSES:
            if len(self._levels) >= self._limits.depth:
                self.problems.append(self._source.too_deep(start, self._limits))
                raise _Ended
            if not self._levels and token == "[":
                self._stop(start, "a list stands at the top of the file", _TOP)
            self._levels.append(_Level(token, pointer, start, key_start, key_end))
            self._counts.append(0)
            self.offsets[pointer] = key_start, key_end, start, start + 1
            return "name" if token == "{" else "value"
        if not self._levels:
            self._stop(start, "a text without a name stands at the top of the file", _TOP)
        if token[0] in "\"'":
            self._text_of(start, token, "")
        else:
            self._look_at_word(start, token)
        self.offsets[pointer] = key_start, key_end, start, end
        self._end = end
        return "comma"

    def _here(self, start: int, end: int) -> tuple[str, int, int]:
        """The pointer of the value that comes, and where its name stands; in a list the value stands for it."""
        if not self._levels:
            return "", start, start
        level = self._levels[-1]
        if level.sign == "{":
            return self._pointer, *self._name_at
        pointer = f"{level.pointer}/{self._counts[-1]}"
        self._counts[-1] += 1
        return pointer, start, start

    def _count(self, start: int) -> None:
        self._nodes += 1
        if self._nodes > self._limits.nodes:
            self.problems.append(self._source.too_many(start, self._limits))
            raise _Ended

    def _text_of(self, start: int, token: str, what: str) -> str:
        """The text that a token stands for, with what is wrong with it noted."""
        if token[0] == "'":
            self._say(start, f"{what}{_short(token)} stands in single quotes", f'double quotes: `"{token[1:-1]}"`')
            return token[1:-1]
        if token[0] != '"':
            self._say(start, f"{what}`{_short(token)}` stands without quotes", f'double quotes: `"{token}"`')
            return token
        tab = token.find("\t")
        if tab >= 0:
            self._say(start + tab, "a tab stands inside quotes", r"a space, or `\t`")
            return token[1:-1]
        bad = _BAD_ESCAPE.match(token)
        if bad:
            expected = rf"`\{bad[1]}` for the sign itself, or `\n`, `\t`, `\u00e9`"
            self._say(start + bad.start(1), f"`{bad[1]}` means nothing in JSON", expected)
            return token[1:-1]
        text = unicodedata.normalize("NFC", json.loads(token))
        hidden = INVISIBLE.search(text)
        if hidden:
            self.problems.append(self._source.invisible(start, hidden[0]))
        return text

    def _look_at_word(self, start: int, word: str) -> None:
        if word in ("true", "false") or _NUMBER.fullmatch(word):
            return
        if word == "null":
            self._say(start, "`null` is no value", "a value, or the name left out")
        elif word in _NOT_NUMBERS:
            self._say(start, f"`{word}` is no number", "a number, or a text in double quotes")
        elif _LIKE_A_NUMBER.fullmatch(word):
            self._say(start, f"JSON does not write a number as `{_short(word)}`", f'`"{word}"`, in double quotes')
        else:
            self._text_of(start, word, "")


def _short(token: str) -> str:
    return token if len(token) <= 40 else token[:39] + "…"
