"""How much room a text takes on a terminal, and texts made to fit: wrapped, cut, filled up, and without what a terminal
would obey instead of showing it.
"""

from __future__ import annotations

import re
import unicodedata

OBEYED = re.compile("[\0-\x09\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff]")
"""Characters that steer a terminal or turn the direction of what follows; a line feed is none."""

_NOT_SHOWN = "\ufffd"
_WORDS_AND_GAPS = re.compile(r"\S+|\s+")


def columns(text: str) -> int:
    """How many columns a text takes: two for what Unicode Standard Annex 11 calls wide or full-width, else one."""
    if text.isascii():
        return len(text)
    return len(text) + sum(unicodedata.east_asian_width(character) in "WF" for character in text)


def tamed(text: str) -> str:
    """The text with a mark in place of everything that a terminal would obey."""
    return OBEYED.sub(_NOT_SHOWN, text)


def one_line(text: str) -> str:
    """The text with one space for every gap, line breaks included."""
    return " ".join(text.split())


def cut(text: str, room: int) -> str:
    """As much of the text as fits in the room."""
    if columns(text) <= room:
        return text
    taken = 0
    for place, character in enumerate(text):
        taken += columns(character)
        if taken > room:
            return text[:place]
    return text


def filled(text: str, room: int) -> str:
    """The text with spaces behind it up to the room."""
    return text + " " * (room - columns(text))


def at_right(text: str, room: int) -> str:
    """The text with spaces before it up to the room."""
    return " " * (room - columns(text)) + text


def wrap(text: str, room: int) -> list[str]:
    """The text over lines of the room at most, broken between words (never at a hyphen: `34-1/2` is one figure), and
    inside a word only where it is longer than a line. Gaps within a line are kept.
    """
    lines: list[str] = []
    line = ""
    for chunk in _WORDS_AND_GAPS.findall(text):
        if chunk.isspace():
            chunk = " " * len(chunk)
        if columns(line) + columns(chunk) <= room:
            line += chunk if line or not chunk.isspace() else ""
            continue
        if line.strip():
            lines.append(line.rstrip())
        line = "" if chunk.isspace() else chunk
        while columns(line) > room:
            part = cut(line, room)
            lines.append(part)
            line = line[len(part) :]
    return [*lines, line.rstrip()] if line.strip() else lines
