"""Lettering of drawings: how much room a text takes on paper, in mm, at the widest that a reader's font may be.

The widths are those of a wide sans serif (a digit 0.64 of the size), so that what does not overlap by them overlaps in
no usual font.
"""

from __future__ import annotations

import math
import unicodedata
from typing import NamedTuple

from validator.reporting.columns import one_line, tamed

SIZE = 2.9
"""The size of dimension figures and names, in mm: 8 points."""

SMALL = 2.5
LINE = 1.25
"""From line to line, in sizes."""

HIGH, DEEP = 0.8, 0.24
"""How far letters reach above and below the line they stand on, in sizes."""

BOLD = 1.12
LONGEST = 60
"""More letters of a name than this are no help on a drawing."""

_NARROW = frozenset("ijl.,:;'|!I`")
_SLIM = frozenset('ft()[]{}-/\\r"° ')
_WIDE = frozenset("mwMW@%&—…→")


class Box(NamedTuple):
    """A rectangle on paper, y downwards."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box, gap: float = 0.0) -> bool:
        """Whether two rectangles overlap, or come nearer than a gap."""
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.bottom + gap
            and other.top < self.bottom + gap
        )

    def round(self, other: Box) -> Box:
        """The rectangle round two."""
        return Box(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )


class Lettering(NamedTuple):
    """One line of text: where it stands, how it lies there (`start`, `middle`, `end`), turned by `angle` degrees.

    `backed` is whether paper covers the lines below it. `bold` is for what the reader has come for.
    """

    x: float
    y: float
    text: str
    anchor: str = "middle"
    angle: float = 0.0
    size: float = SIZE
    bold: bool = False
    backed: bool = True

    @property
    def box(self) -> Box:
        """The rectangle that it takes at most; of a slanting text the one round it."""
        wide = width_of(self.text, self.size, bold=self.bold)
        left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[self.anchor]
        corners = [(left + x, y) for x in (0.0, wide) for y in (-HIGH * self.size, DEEP * self.size)]
        turn = math.radians(self.angle)
        cos, sin = math.cos(turn), math.sin(turn)
        xs = [self.x + x * cos - y * sin for x, y in corners]
        ys = [self.y + x * sin + y * cos for x, y in corners]
        return Box(min(xs), min(ys), max(xs), max(ys))

    def moved(self, x: float, y: float) -> Lettering:
        return self._replace(x=self.x + x, y=self.y + y)


def width_of(text: str, size: float = SIZE, *, bold: bool = False) -> float:
    """How wide a text is at most, in mm."""
    return sum(map(_em, text)) * size * (BOLD if bold else 1.0)


def clean(text: str) -> str:
    """A text on one line, without signs that turn what follows or that XML refuses."""
    return "".join(sign if ord(sign) < 0xFFFE or ord(sign) > 0xFFFF else "\ufffd" for sign in one_line(tamed(text)))


def shown(name: str) -> str:
    """A name of a plan as a drawing shows it: on one line, without signs that turn what follows, and not endless."""
    text = clean(name)
    return text if len(text) <= LONGEST else text[: LONGEST - 1] + "…"


def fitted(text: str, room: float, size: float = SIZE, *, bold: bool = False) -> str:
    """As much of a text as fits in a room, with `…` for what is left out; '' where nothing does."""
    if width_of(text, size, bold=bold) <= room:
        return text
    while text and width_of(text + "…", size, bold=bold) > room:
        text = text[:-1]
    return text.rstrip() + "…" if len(text) > 1 else ""


def _em(sign: str) -> float:
    """The width of a sign, as a share of the size."""
    if sign.isascii():
        if sign in _NARROW:
            return 0.36
        if sign in _SLIM:
            return 0.46
        if sign in _WIDE:
            return 1.0
        return 0.64 if sign.isdigit() else 0.78 if sign.isupper() else 0.66
    if unicodedata.combining(sign):
        return 0.0
    if ord(sign) >= 0x1F000:
        return 1.45
    if unicodedata.east_asian_width(sign) in "WF" or sign in _WIDE:
        return 1.05
    return 0.86
