"""One value of a file changed, and everything else in it left as it is, to the byte.

The new text is put in at the places where the old one stands; then the file is read again and compared with what it
said before, so that a change is either exactly the one that was asked for or none.
"""

from __future__ import annotations

import bisect
import codecs
import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from validator.plan.documents import Document
from validator.plan.elements import Unfit
from validator.plan.files import read_document, suffix_of
from validator.plan.names import fold
from validator.plan.pointers import folded, join, parent, split
from validator.plan.problems import Problem, Unreadable
from validator.plan.quoting import Json, Syntax, Toml, Value, Yaml

_SYNTAXES: dict[str, Syntax] = {".toml": Toml(), ".json": Json()}
_YAML = Yaml()
_WIDE = {codecs.BOM_UTF16_LE: "utf-16-le", codecs.BOM_UTF16_BE: "utf-16-be"}


class WouldNotRead(Unreadable):
    """A change after which the file could not be read; `text` is what it would hold."""

    def __init__(self, problems: Iterable[Problem], text: str) -> None:
        super().__init__(problems)
        self.text = text


class Splice(NamedTuple):
    """A text to put in place of what stands from `start` to `end` of a document's text."""

    start: int
    end: int
    text: str


@dataclass(frozen=True, slots=True)
class Change:
    """A change to one file: the pointer as it is spelt there, its value before (None: there was none) and now.

    `content` is the whole new file; `after` is how it reads, `line` where the value stands in it.
    """

    pointer: str
    old: Value | None
    new: Value
    line: int
    content: bytes
    after: Document


def change(document: Document, content: bytes, pointer: str, value: Value) -> Change:
    """The change that makes `value` stand at a pointer of a file, which was read from `content`.

    Raises Unfit where it cannot be made by putting in one value, WouldNotRead where the file would not be read with it.
    """
    segments = split(pointer)
    holder = _node(document.data, segments[:-1])
    name = _spelt(holder, segments[-1])
    old = None if name is None else holder[int(name) if isinstance(holder, list) else name]
    spelt = join(_spelt_pointer(document.data, segments[:-1]), segments[-1] if name is None else name)
    _check(spelt, old, value)
    splices = _added(document, spelt, value) if old is None else [_replaced(document, spelt, old, value)]
    new_content = spliced(content, splices)
    text = as_text(new_content)
    try:
        after = read_document(text, document.file)
    except Unreadable as unreadable:
        raise WouldNotRead(unreadable.problems, text) from None
    if _with(document.data, split(spelt), value) != after.data:
        raise Unfit(f"`{spelt}` cannot be changed without changing what stands around it", "an editor, for this one")
    span = after.span(spelt)
    return Change(spelt, old, value, span.value_start.line if span else 0, new_content, after)


def _check(pointer: str, old: Value | None, value: Value) -> None:
    if isinstance(old, dict):
        raise Unfit(f"`{pointer}` holds several values, not one", some(join(pointer, name) for name in old))
    if isinstance(value, dict) and isinstance(old, list):
        raise Unfit(f"`{pointer}` is a list", "one value, or a list in brackets")


def some(names: Iterable[str], most: int = 8) -> str:
    """The first few of several names, for a message."""
    shown = [f"`{name}`" for name in itertools.islice(names, most + 1)]
    return ", ".join(shown[:most]) + (", …" if len(shown) > most else "")


def _replaced(document: Document, pointer: str, old: Value, value: Value) -> Splice:
    _, _, start, end = document.offsets[folded(pointer)]
    written = document.text[start:end]
    if isinstance(old, list) and not written.startswith("["):
        entries = f"`{join(pointer, 0)}` to `{join(pointer, len(old) - 1)}`"
        raise Unfit(f"`{pointer}` is a list in lines of its own", f"one entry at a time: {entries}")
    text = _syntax(document).value(value, inside=_is_in_brackets(document, pointer), instead_of=written)
    return Splice(start, end, text)


def _is_in_brackets(document: Document, pointer: str) -> bool:
    """Whether a value stands in brackets or braces, where more signs have a meaning."""
    while pointer:
        pointer = parent(pointer)
        start = document.offsets[folded(pointer)][2]
        if document.text[start : start + 1] in ("{", "["):
            return True
    return False


def _added(document: Document, pointer: str, value: Value) -> list[Splice]:
    """A name that is not there yet, put behind those it belongs to in the way they are written."""
    segments = split(pointer)
    around, name = join("", *segments[:-1]), segments[-1]
    holder = _node(document.data, segments[:-1])
    if isinstance(holder, list):
        last = f"`{join(around, len(holder) - 1)}`" if holder else ""
        raise Unfit(f"the list `{around}` has no entry {name}; it ends with {last}", "the whole list, in brackets")
    _, _, start, end = document.offsets[folded(around)]
    if document.text[start : start + 1] == "{":
        return _added_in_braces(document, around, start, end, name, value)
    if suffix_of(document.file) == ".toml":
        return [_added_in_table(document, around, name, value)]
    return [_added_below(document, around, name, value)]


def _added_in_braces(document: Document, around: str, start: int, end: int, name: str, value: Value) -> list[Splice]:
    syntax = _syntax(document)
    entry = syntax.entry(name, value)
    last = _last_child(document, around)
    if last is None:
        return [Splice(start + 1, end - 1, entry)]
    key_start, _, _, behind = last
    text = document.text
    line = text.rfind("\n", 0, key_start) + 1
    indent = text[line:key_start]
    if indent.strip() or not line or line <= start:
        return [Splice(behind, behind, f", {entry}")]
    rest = text[behind : _line_end(text, behind)]
    if rest.lstrip().startswith((",", "#")):
        comma = behind if "," not in rest.partition("#")[0] else None
        line_end = _line_end(text, behind)
        there = [] if comma is None else [Splice(comma, comma, ",")]
        return [*there, Splice(line_end, line_end, f"\n{indent}{entry}{',' if comma is None else ''}")]
    return [Splice(behind, behind, f",\n{indent}{entry}")]


def _added_below(document: Document, around: str, name: str, value: Value) -> Splice:
    """A line of YAML below the last entry of a group that is written in lines."""
    last = _last_child(document, around)
    if last is None:
        raise Unfit(f"nothing stands at `{around}` that a line could be added to", "an editor, for this one")
    text = document.text
    first = min(_children(document, around))[0]
    indent = text[text.rfind("\n", 0, first) + 1 : first].replace("-", " ")
    at = _line_end(text, last[3])
    return Splice(at, at, f"\n{indent}{_YAML.entry(name, value, inside=False)}")


def _added_in_table(document: Document, around: str, name: str, value: Value) -> Splice:
    """A line of TOML below the last entry of a table, or below its header where it has none."""
    text = document.text
    own = [
        offsets
        for offsets in _children(document, around)
        if not text[text.rfind("\n", 0, offsets[0]) + 1 : offsets[0]].lstrip().startswith("[")
    ]
    entry = _SYNTAXES[".toml"].entry(name, value)
    if own:
        key_start, _, _, behind = max(own, key=lambda offsets: offsets[3])
        at = _line_end(text, behind)
        return Splice(at, at, f"\n{text[text.rfind(chr(10), 0, key_start) + 1 : key_start]}{entry}")
    if not around:
        return Splice(0, 0, f"{entry}\n")
    _, key_end, start, _ = document.offsets[folded(around)]
    if not text[start:].startswith("[") or not (key_end <= start or text[key_end:].lstrip(" \t").startswith("]")):
        raise Unfit(f"`{around}` has no lines of its own in this file, only tables below it", "an editor, for this one")
    at = _line_end(text, start)
    return Splice(at, at, f"\n{entry}")


def _children(document: Document, around: str) -> list[tuple[int, int, int, int]]:
    holder = _node(document.data, split(around))
    names = holder if isinstance(holder, dict) else range(len(holder))
    return [document.offsets[folded(join(around, name))] for name in names]


def _last_child(document: Document, around: str) -> tuple[int, int, int, int] | None:
    return max(_children(document, around), key=lambda offsets: offsets[3], default=None)


def _line_end(text: str, at: int) -> int:
    found = text.find("\n", at)
    return len(text) if found < 0 else found


def _syntax(document: Document) -> Syntax:
    return _SYNTAXES.get(suffix_of(document.file), _YAML)


def _node(data: Any, segments: Sequence[str]) -> Any:
    """What stands at a path of a file's data; Unfit where nothing does, or one value that holds nothing."""
    for at, segment in enumerate(segments):
        name = _spelt(data, segment)
        if name is None:
            raise Unfit(f"nothing stands at `{join('', *segments[: at + 1])}`")
        data = data[int(name) if isinstance(data, list) else name]
    if isinstance(data, str):
        raise Unfit(f"`{join('', *segments)}` is one value: `{data}`")
    return data


def _spelt(holder: Any, segment: str) -> str | None:
    """A name as the file spells it; None where the group or list has none of the kind."""
    if isinstance(holder, list):
        return segment if segment.isdecimal() and int(segment) < len(holder) else None
    return next((name for name in holder if fold(name) == fold(segment)), None)


def _spelt_pointer(data: Any, segments: Sequence[str]) -> str:
    pointer = ""
    for segment in segments:
        name = _spelt(data, segment) or segment
        pointer = join(pointer, name)
        data = data[int(name) if isinstance(data, list) else name]
    return pointer


def _with(data: Any, segments: Sequence[str], value: Value) -> Any:
    """The data with another value at a path."""
    if not segments:
        return value
    if isinstance(data, list):
        at = int(segments[0])
        return [*data[:at], _with(data[at], segments[1:], value), *data[at + 1 :]]
    return {**data, segments[0]: _with(data.get(segments[0]), segments[1:], value)}


def as_text(content: bytes) -> str:
    """The bytes of a file of a plan, which were read before, as text."""
    return content.decode("utf-16" if content[:2] in _WIDE else "utf-8-sig")


def spliced(content: bytes, splices: Sequence[Splice]) -> bytes:
    """The bytes of a file with texts put in; its mark of byte order, encoding and line ends stay as they are."""
    codec = _WIDE.get(content[:2], "utf-8")
    mark = content[:2] if codec != "utf-8" else codecs.BOM_UTF8 if content.startswith(codecs.BOM_UTF8) else b""
    raw = content[len(mark) :].decode(codec)
    doubled = _places_of_carriage_returns(raw)
    shift = 1 if raw.startswith("\ufeff") else 0
    line_end = "\r\n" if doubled else "\r" if "\r" in raw and "\n" not in raw else "\n"
    for splice in sorted(splices, reverse=True):
        start, end = (shift + at + bisect.bisect_left(doubled, at) for at in (splice.start, splice.end))
        raw = raw[:start] + splice.text.replace("\n", line_end) + raw[end:]
    return mark + raw.encode(codec)


def _places_of_carriage_returns(raw: str) -> list[int]:
    """Where in the text with line feeds alone stand the line ends that are two characters in the file."""
    found: list[int] = []
    at = raw.find("\r\n")
    while at >= 0:
        found.append(at - len(found) - raw.startswith("\ufeff"))
        at = raw.find("\r\n", at + 2)
    return found
