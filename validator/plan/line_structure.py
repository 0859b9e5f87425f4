"""A YAML text seen as lines: which stand in which column, which open others, which brackets were left open.

Independent of any parser, so that it can also look at a text that a parser refuses.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

_NAMED_IN_FIRST_COLUMN = re.compile(r"^[^\s#\-{}\[\],|>@%&*!?:][^\n]*?:(?=[ \n]|\Z)", re.MULTILINE)
_LINE_START = re.compile(
    r"""(?P<indent>\ *)
    (?P<dashes>(?:-(?:\ +|$))*)
    (?P<named>(?P<name>"(?:\\.|[^"\\])*"|'(?:''|[^'])*'|(?![&*!|>%@`"'{}\[\],?#])(?:[^\s:]|:(?=\S)|\s+(?![#\s]))+?)
        \s*:(?=\s|$))?\s*""",
    re.VERBOSE,
)
_QUOTED = {'"': re.compile(r'"(?:\\.|[^"\\])*"', re.DOTALL), "'": re.compile(r"'(?:''|[^'])*'", re.DOTALL)}
_REMARK = re.compile(r"(?:^|\s)#.*")
_LONG_TEXT = re.compile(r"[|>][-+0-9]{0,2}$")
_CONTENT_BELOW = re.compile(r"(?:[ \t]*(?:#[^\n]*)?\n)+(?P<indent>[ \t]*)(?=[^\s#])")
_INNER_NAME = re.compile(r"[{,\[]([^{}\[\],:]+):\s")
_OPENED_BY = {"}": "{", "]": "["}

FaultKind = Literal["unclosed", "closes nothing", "left over", "second colon", "run together"]


@dataclass(frozen=True, slots=True)
class Line:
    """A line of block structure; lines inside brackets, quotes and long texts belong to the line that opened them.

    Columns count from 0; `inner` is the column behind the dashes of a list. `opens`: nothing stands behind the name or
    the dash; `named`: it has a name; `runs_on`: its text may go on in the next line. `shape` is what its value is like.
    """

    number: int
    indent: int
    inner: int
    name: str
    named: bool
    dash: bool
    opens: bool
    runs_on: bool
    shape: frozenset[str]


@dataclass(frozen=True, slots=True)
class Fault:
    """A mark out of place, at `offset`; `until` is where that shows.

    `unclosed` bracket or quote · `closes nothing` · `left over` behind a bracket or quote that is closed ·
    `second colon` in a line · `run together`: two entries inside brackets without a comma between them.
    """

    kind: FaultKind
    offset: int
    until: int


def next_section(text: str, offset: int) -> int | None:
    """The start of the next line, after the one that holds `offset`, with a name in the first column."""
    end = text.find("\n", offset)
    found = _NAMED_IN_FIRST_COLUMN.search(text, end + 1) if end >= 0 else None
    return found.start() if found else None


def section_before(text: str, offset: int, least: int, sections: int) -> int:
    """The start of the section `sections` before the one that holds `offset`, or `least`."""
    at = text.rfind("\n", least, offset) + 1
    while at > least:
        if _NAMED_IN_FIRST_COLUMN.match(text, at):
            if not sections:
                return at
            sections -= 1
        at = text.rfind("\n", least, at - 1) + 1
    return least


def scan(text: str, start: int, end: int) -> tuple[list[Line], list[Fault]]:
    """The lines of block structure that start in text[start:end], and the faults in them."""
    lines: list[Line] = []
    faults: list[Fault] = []
    number = text.count("\n", 0, start) + 1
    while start < end:
        stop = _end_of_line(text, start)
        content = text[start:stop].strip()
        if content and content[0] != "#" and content not in ("---", "..."):
            stop = _read_line(text, start, number, lines, faults)
        number += text.count("\n", start, stop + 1)
        start = stop + 1
    return lines, faults


def _read_line(text: str, start: int, number: int, lines: list[Line], faults: list[Fault]) -> int:
    """Adds the line at `start` to the lines; returns where it ends, with all that belongs to it."""
    end = _end_of_line(text, start)
    head = _LINE_START.match(text, start, end)
    assert head is not None  # every part of the pattern may be empty
    indent, at = len(head["indent"]), head.end()
    value = _REMARK.sub("", text[at:end]).rstrip()
    stop, runs_on = end, not value
    if value[:1] in ("{", "["):
        stop = _brackets(text, at, indent, faults)
    elif value[:1] in ('"', "'"):
        stop = _quoted(text, at, indent, faults)
    elif _LONG_TEXT.match(value):
        while (below := _CONTENT_BELOW.match(text, stop)) and len(below["indent"]) > indent:
            stop = _end_of_line(text, below.end())
    else:
        runs_on = True
        if head["named"] and value:
            _plain(text, at, value, faults)
    named = head["named"] is not None
    dash = bool(head["dashes"])
    name = head["name"] if named else value
    inner = indent + len(head["dashes"])
    lines.append(Line(number, indent, inner, name, named, dash, not value, runs_on, _shape(text[at:stop], value)))
    return stop


def _end_of_line(text: str, position: int) -> int:
    end = text.find("\n", position)
    return len(text) if end < 0 else end


def _plain(text: str, at: int, value: str, faults: list[Fault]) -> None:
    """Faults of a text without quotes behind `name:`."""
    colon = re.search(r":(?=\s|$)", value)
    if value[0] in _OPENED_BY:
        faults.append(Fault("closes nothing", at, _end_of_line(text, at)))
        return
    if colon and value[-1] in _OPENED_BY and _OPENED_BY[value[-1]] not in value:
        faults.append(Fault("closes nothing", at + len(value) - 1, _end_of_line(text, at)))
    elif colon:
        faults.append(Fault("second colon", at + colon.start(), _end_of_line(text, at)))


def _goes_on_at(text: str, end: int, indent: int) -> int | None:
    """Where the next line with content starts; None if it stands no further in than `indent` and closes no bracket."""
    below = _CONTENT_BELOW.match(text, end)
    if below is None or (len(below["indent"]) <= indent and text[below.end()] not in _OPENED_BY):
        return None
    return below.end()


def _quote_end(text: str, at: int, indent: int) -> int | None:
    """Where the quoted text at `at` ends, or None if the lines below step out before it does."""
    found = _QUOTED[text[at]].match(text, at)
    if found is None:
        return None
    line_end = text.find("\n", at, found.end())
    while line_end >= 0:
        next_line = _goes_on_at(text, line_end, indent)
        if next_line is None:
            return None
        line_end = text.find("\n", next_line, found.end())
    return found.end()


def _quoted(text: str, at: int, indent: int, faults: list[Fault]) -> int:
    end = _quote_end(text, at, indent)
    if end is None:
        stop = _end_of_line(text, at)
        faults.append(Fault("unclosed", at, stop))
        return stop
    return _behind(text, end, faults)


def _behind(text: str, closed: int, faults: list[Fault]) -> int:
    """The end of the line in which a bracket or quote was closed; nothing but a remark may stand behind it."""
    end = _end_of_line(text, closed)
    rest = _REMARK.sub("", text[closed:end]).strip()
    if rest:
        at = text.index(rest[0], closed)
        faults.append(Fault("closes nothing" if rest[0] in _OPENED_BY else "left over", at, end))
    return end


def _brackets(text: str, at: int, indent: int, faults: list[Fault]) -> int:
    """Walks through brackets from the one at `at`; returns the end of the line in which they close or are given up."""
    opened: list[int] = []
    entry: int | None = at  # where the present entry starts; None behind a comma until something stands there
    colons = 0
    while at < len(text):
        mark = text[at]
        if mark == "\n":
            next_line = _goes_on_at(text, at, indent)
            if next_line is None:
                faults.append(Fault("unclosed", opened[-1], at))
                return at
            at = next_line - 1
        elif mark in "{[":
            opened.append(at)
            entry, colons = None, 0
        elif mark in "}]":
            if text[opened[-1]] != _OPENED_BY[mark]:
                faults.append(Fault("unclosed", opened.pop(), at))
            if opened:
                opened.pop()
            if not opened:
                return _behind(text, at + 1, faults)
            entry, colons = at, 1
        elif mark == ",":
            entry, colons = None, 0
        elif mark == "#" and text[at - 1].isspace():
            at = _end_of_line(text, at) - 1
        elif mark == ":" and (text[at + 1 : at + 2].isspace() or text[at - 1] in "\"'"):
            colons += 1
            if colons > 1:
                faults.append(Fault("run together", at if entry is None else entry, at))
                colons = 1
            entry = None
        elif entry is None and not mark.isspace():
            entry = at
            if mark in _QUOTED:
                end = _quote_end(text, at, indent)
                if end is None:
                    faults.append(Fault("unclosed", at, _end_of_line(text, at)))
                    return _end_of_line(text, at)
                at = end - 1
        at += 1
    faults.append(Fault("unclosed", opened[-1], at))
    return at


def _shape(written: str, value: str) -> frozenset[str]:
    """What a value is like, to tell which lines are of a kind: its inner names, or its sort of text."""
    if written[:1] in ("{", "["):
        return frozenset(name.strip() for name in _INNER_NAME.findall(written)) | {written[0]}
    words = value.split()
    return frozenset("number" if word[0].isdigit() else word for word in words) if words else frozenset({"lines below"})
