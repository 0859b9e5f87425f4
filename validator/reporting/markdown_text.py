"""Texts of a plan inside Markdown: whatever is written there stays text, wherever it is shown."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator

from validator.reporting.columns import one_line, tamed

MOST = 1000
"""The most characters of one text; what is longer is cut, so that no name fills a comment."""

_JOINER = "\u2060"  # shows nothing, breaks no word, and keeps two characters from being read as one sign
_ISOLATE, _END = "\u2068", "\u2069"
_SIGNS = re.compile(r"[\\`*_\[\]<>|~$&#]")
_AT_THE_START = re.compile(r"^(?:[-+=]|\d+(?=[.)](?:\s|$)))")
_CALLS = re.compile(r"(?<=[@#!~$%&^])(?=\w)|(?<=GH-)(?=\d)|(?<=:)(?=[\w+-]+:)|(?<=:)(?=//)|(?<=www)(?=\.)", re.I)
"""Where hosts of repositories read a person, a number, a picture or an address into plain text."""


def plain(text: str) -> str:
    """The text on one line, for a paragraph, a list or a cell of a table; nothing in it is a sign of the form."""
    text = tamed(one_line(text))
    if len(text) > MOST:
        text = text[: MOST - 1] + "…"
    text = _CALLS.sub(_JOINER, text)
    text = _SIGNS.sub(r"\\\g<0>", text)
    start = _AT_THE_START.match(text)
    if start is not None:
        text = f"{start.group()}\\{text[start.end() :]}" if start.group()[0].isdigit() else f"\\{text}"
    return f"{_ISOLATE}{text}{_END}" if _turns(text) else text


def table(heads: Iterable[str], rows: Iterable[Iterable[str]]) -> Iterator[str]:
    """A table of cells that are Markdown already."""
    heads = list(heads)
    yield f"| {' | '.join(heads)} |"
    yield f"|{' :-- |' * len(heads)}"
    for row in rows:
        yield f"| {' | '.join(row)} |"


def _turns(text: str) -> bool:
    """Whether the text has letters that are written from right to left: what follows it is kept out of their way."""
    return not text.isascii() and any(unicodedata.bidirectional(character) in ("R", "AL") for character in text)
