"""A drawing to a true scale: lines of the kinds of ISO 128, texts that never lie on one another, and its SVG.

What is drawn is given in mm of the room; what is lettered stands in mm of the paper. The SVG is as wide and high as the
paper it takes, and its coordinates are mm of paper, so that a coordinate times the scale is the figure that was judged.
Ink is `currentColor`, paper the variable `--drawing-paper`, so that a page sets both for light and dark.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from enum import Enum
from html import escape
from typing import NamedTuple

from validator.reporting.drawings.lettering import (
    DEEP,
    HIGH,
    LINE,
    SIZE,
    SMALL,
    Box,
    Lettering,
    fitted,
    shown,
    width_of,
)

Point = tuple[float, float]

SCALES = (10, 20, 25, 50)
"""Scales of ISO 5455 with 1:25, which the trade uses beside them. What fits on no paper at the last of them is drawn
at it all the same, on larger paper: a figure that cannot be read is of no use.
"""

UPRIGHT, ACROSS = (190.0, 259.0), (259.0, 190.0)
"""What fits both on A4 and on Letter, with margins: width and height in mm."""

CELL = 12.0
"""The side of a cell of paper, by which texts are found that lie near one another."""

MARGIN = 2.0
NARROWEST = 86.0
"""What a drawing has for its key at least, in mm: two stand side by side on a page."""

WIDE, NARROW = 0.5, 0.25
"""The two widths of ISO 128, as 2 to 1."""


class Kind(Enum):
    """A kind of line: its width, its dashes, and what the key says of it ('' where nobody asks)."""

    EDGE = ("edge", WIDE, "", "")
    LIGHT = ("light", NARROW, "", "")
    DIMENSION = ("dimension", NARROW, "", "")
    HIDDEN = ("hidden", NARROW, "3 0.75", "hidden, or behind")
    ABOVE = ("above", NARROW, "3 0.75", "above: hung on the wall")
    HINGE = ("hinge", NARROW, "1.5 0.75", "door: the lines meet at its hinge")
    CENTRE = ("centre", NARROW, "6 0.75 0.25 0.75", "centre line")
    MOVED = ("moved", NARROW, "6 0.75 0.25 0.75 0.25 0.75", "what a door or drawer sweeps")
    STRIP = ("strip", NARROW, "6 0.75 0.25 0.75 0.25 0.75", "strip in which a cable may run")
    STUD = ("stud", NARROW, "6 0.75 0.25 0.75", "middle of a stud or noggin")
    ROUTE = ("route", WIDE, "3 0.75", "cable or pipe in the wall")
    UNKNOWN = ("unknown", WIDE, "1.5 1.5", "?  not known; see below")

    @property
    def called(self) -> str:
        return self.value[0]

    @property
    def thick(self) -> float:
        return self.value[1]

    @property
    def dashes(self) -> str:
        return self.value[2]

    @property
    def means(self) -> str:
        return self.value[3]


class Stroke(NamedTuple):
    """Points joined by lines, in mm of paper; `of` is the thing that is drawn. With `arc` the last two points lie on a
    quarter turn of that radius."""

    kind: Kind
    points: tuple[Point, ...]
    closed: bool = False
    of: str = ""
    arc: float = 0.0

    def moved(self, x: float, y: float) -> Stroke:
        return self._replace(points=tuple((px + x, py + y) for px, py in self.points))


@dataclass(frozen=True, slots=True)
class Drawing:
    """A finished drawing: `name` is fit for a file, `title` for people; width and height are mm of paper.

    `origin` is where the zero of the room's coordinates lies on the paper; `unknown` names what is not known.
    """

    name: str
    title: str
    scale: int
    width: float
    height: float
    origin: Point
    strokes: tuple[Stroke, ...]
    letterings: tuple[Lettering, ...]
    unknown: tuple[str, ...]

    def called(self, name: str) -> Drawing:
        return replace(self, name=name)

    def svg(self) -> str:
        """The drawing as SVG, ready for a file or for a page."""
        wide, high, stem = _mm(self.width), _mm(self.height), escape(self.name)
        desc = f"Scale 1 to {self.scale}. " + "; ".join(self._told())
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}" '
            f'role="img" aria-labelledby="{stem}-title {stem}-desc" data-scale="{self.scale}" '
            f'data-origin="{_mm(self.origin[0])} {_mm(self.origin[1])}" '
            f'font-family="Arial, Helvetica, Liberation Sans, DejaVu Sans, sans-serif">'
        )
        parts = [
            head,
            f'<title id="{stem}-title">{escape(self.title)}</title>',
            f'<desc id="{stem}-desc">{escape(desc)}</desc>',
        ]
        for kind in Kind:
            parts += _strokes(kind, [stroke for stroke in self.strokes if stroke.kind is kind])
        parts += _backs(self.letterings)
        parts.append('<g fill="currentColor" stroke="none">')
        parts += map(_text, self.letterings)
        parts += ["</g>", "</svg>", ""]
        return "\n".join(parts)

    def _told(self) -> Iterable[str]:
        """What a reader who cannot see it is told: what is drawn, and what is not known."""
        names = list(dict.fromkeys(stroke.of for stroke in self.strokes if stroke.of))
        yield "Drawn: " + ", ".join(names) if names else "Nothing is drawn"
        yield from (f"not known: {gap}" for gap in self.unknown)


@dataclass
class Canvas:
    """A drawing in the making; paper coordinates start where the room's do, and are shifted once it is finished.

    `say` puts a text of ours into the words of the plan's country.
    """

    scale: int
    say: Callable[[str], str] = str
    strokes: list[Stroke] = field(default_factory=list)
    letterings: list[Lettering] = field(default_factory=list)
    unknown: list[str] = field(default_factory=list)
    aside: dict[int, list[str]] = field(default_factory=dict)
    _cells: dict[tuple[int, int], list[Box]] = field(default_factory=dict)

    def at(self, x: float, y: float) -> Point:
        """A point of the room (y upwards) on paper."""
        return x / self.scale, -y / self.scale

    def line(self, kind: Kind, *points: Point, closed: bool = False, of: str = "") -> None:
        """A line through points of the room."""
        self.ink(kind, *(self.at(*point) for point in points), closed=closed, of=of)

    def rectangle(self, kind: Kind, left: float, low: float, right: float, high: float, of: str = "") -> None:
        self.line(kind, (left, low), (right, low), (right, high), (left, high), closed=True, of=of)

    def ink(self, kind: Kind, *points: Point, closed: bool = False, of: str = "", arc: float = 0.0) -> None:
        """A line through points of the paper."""
        self.strokes.append(Stroke(kind, points, closed, shown(of), arc))

    def letter(self, lettering: Lettering) -> None:
        """A text where nothing else is."""
        self.letterings.append(lettering)
        self.take(lettering.box)

    def free(self, box: Box, gap: float = 0.3) -> bool:
        """Whether no text lies in a rectangle."""
        return not any(box.meets(other, gap) for cell in _cells(box, gap) for other in self._cells.get(cell, ()))

    def letter_first(self, choices: Iterable[Lettering]) -> bool:
        """The first of several places for a text that is free; whether there was one."""
        for choice in choices:
            if choice.text and self.free(choice.box):
                self.letter(choice)
                return True
        return False

    def tag(self, number: int, places: Iterable[Point], of: str) -> None:
        """The number of a finding in a frame, at the first of several points of the paper that is free; else below the
        drawing, with the name of what it is about."""
        for x, y in places:
            lettering = Lettering(x, y + SMALL * (HIGH - DEEP) / 2, str(number), "middle", 0, SMALL, True)
            box = lettering.box
            frame = Box(box.left - 0.7, box.top - 0.4, box.right + 0.7, box.bottom + 0.4)
            if self.free(frame):
                self.letter(lettering)
                self.take(frame)
                left, top, right, bottom = frame
                self.ink(Kind.EDGE, (left, top), (right, top), (right, bottom), (left, bottom), closed=True)
                return
        self.aside.setdefault(number, []).append(shown(of))

    def take(self, box: Box) -> None:
        """Keep a rectangle free of texts."""
        for cell in _cells(box):
            self._cells.setdefault(cell, []).append(box)

    def not_known(self, what: str) -> None:
        if what not in self.unknown:
            self.unknown.append(what)

    @property
    def extent(self) -> Box:
        """The rectangle round all that is drawn, on paper."""
        found = Box(0, 0, 0, 0)
        for stroke in self.strokes:
            for x, y in stroke.points:
                found = found.round(Box(x, y, x, y))
        for lettering in self.letterings:
            found = found.round(lettering.box)
        return found

    def finished(self, name: str, title: str, notes: Sequence[str]) -> Drawing:
        """The drawing with its title above it and below it the scale, the key and what is not known."""
        around = self.extent
        room = max(around.right - around.left, NARROWEST)
        size, scale = SIZE * 1.2, f"   1:{self.scale}"
        head = fitted(title, room - width_of(scale, size, bold=True), size, bold=True) + scale
        self.letter(Lettering(around.left, around.top - 4.0, head, "start", 0, size, True))
        y = self._scale_bar(around.left, around.bottom + 5.0, room)
        y = self._key(around.left, y, room)
        marked = [f"?  {'; '.join(map(shown, self.unknown))}."] if self.unknown else []
        if self.aside:
            marked.append("; ".join(f"[{number}] {', '.join(names)}" for number, names in sorted(self.aside.items())))
        for text in [*map(self.say, notes), *marked]:
            for line in _broken(text, room):
                y += SMALL * LINE
                self.letter(Lettering(around.left, y, line, "start", size=SMALL))
        around = self.extent
        x, y = MARGIN - around.left, MARGIN - around.top
        return Drawing(
            name,
            title,
            self.scale,
            round(around.right - around.left + 2 * MARGIN, 3),
            round(around.bottom - around.top + 2 * MARGIN, 3),
            (x, y),
            tuple(stroke.moved(x, y) for stroke in self.strokes),
            tuple(lettering.moved(x, y) for lettering in self.letterings),
            tuple(self.unknown),
        )

    def _scale_bar(self, left: float, top: float, room: float) -> float:
        """A bar that shows whether the paper was printed true; returns its lower edge."""
        long, beside = 50.0, 53.0
        self.ink(Kind.EDGE, (left, top), (left + long, top))
        for share in (0.0, 0.5, 1.0):
            self.ink(Kind.EDGE, (left + share * long, top - 1.0), (left + share * long, top + 1.0))
        y = top + 1.0 - SMALL * LINE
        for line in _broken("this bar is 50 mm long where the paper was printed at 100\u00a0%", room - beside):
            y += SMALL * LINE
            self.letter(Lettering(left + beside, y, line, "start", size=SMALL))
        return y + 1.5

    def _key(self, left: float, top: float, room: float) -> float:
        """A sample of each kind of line that needs a word; returns the lower edge."""
        used = [kind for kind in Kind if kind.means and any(stroke.kind is kind for stroke in self.strokes)]
        x, y = left, top + SMALL * LINE
        for kind in used:
            text = Lettering(0, 0, self.say(kind.means), "start", size=SMALL)
            wide = 14.0 + text.box.right + 4.0
            if x > left and x + wide > left + room:
                x, y = left, y + SMALL * LINE
            middle = y - SMALL * HIGH / 2
            self.ink(kind, (x, middle), (x + 12.0, middle))
            self.letter(text.moved(x + 14.0, y))
            x += wide
        return y if used else top


def to_scale(
    build: Callable[[int], Drawing], real: tuple[float, float], frames: Sequence[tuple[float, float]]
) -> Drawing:
    """The drawing at the largest scale at which it fits in one of the frames, else at the smallest there is.

    `real` is the least that it takes, in mm of the room.
    """
    for scale in SCALES[:-1]:
        wide, high = real[0] / scale, real[1] / scale
        if any(wide <= width and high <= height for width, height in frames):
            drawing = build(scale)
            if fits(drawing, frames):
                return drawing
    return build(SCALES[-1])


def fits(drawing: Drawing, frames: Iterable[tuple[float, float]]) -> bool:
    """Whether a drawing fits in one of some frames."""
    return any(drawing.width <= width and drawing.height <= height for width, height in frames)


def _cells(box: Box, more: float = 0.0) -> Iterator[tuple[int, int]]:
    """The cells of paper that a rectangle touches."""
    for column in range(math.floor((box.left - more) / CELL), math.floor((box.right + more) / CELL) + 1):
        for row in range(math.floor((box.top - more) / CELL), math.floor((box.bottom + more) / CELL) + 1):
            yield column, row


def _broken(text: str, room: float) -> list[str]:
    """A text over lines that fit in a room."""
    lines = [""]
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}".strip() if lines[-1] else word
        if lines[-1] and not _goes(longer, room):
            lines.append(word)
        else:
            lines[-1] = longer
    return [fitted(line, room, SMALL) for line in lines]


def _goes(text: str, room: float) -> bool:
    return Lettering(0, 0, text, "start", size=SMALL).box.right <= room


def _strokes(kind: Kind, strokes: Sequence[Stroke]) -> list[str]:
    if not strokes:
        return []
    dashes = f' stroke-dasharray="{kind.dashes}"' if kind.dashes else ""
    head = (
        f'<g fill="none" stroke="currentColor" stroke-width="{kind.thick}" stroke-linejoin="round"{dashes} '
        f'data-kind="{kind.called}">'
    )
    found, nameless = [head], []
    for stroke in strokes:
        if stroke.of:
            found.append(f'<path data-of="{escape(stroke.of)}" d="{_path(stroke)}"/>')
        else:
            nameless.append(_path(stroke))
    if nameless:
        found.append(f'<path d="{"".join(nameless)}"/>')
    return [*found, "</g>"]


def _path(stroke: Stroke) -> str:
    (x, y), *rest = stroke.points
    text = f"M{_mm(x)} {_mm(y)}"
    for number, (px, py) in enumerate(rest, 1):
        if stroke.arc and number == len(rest):
            ax, ay = stroke.points[-2]
            hx, hy = stroke.points[0]
            turn = (ax - hx) * (py - hy) - (ay - hy) * (px - hx)
            radius = _mm(stroke.arc)
            text += f"A{radius} {radius} 0 0 {1 if turn > 0 else 0} {_mm(px)} {_mm(py)}"
        else:
            text += f"L{_mm(px)} {_mm(py)}"
    return text + ("Z" if stroke.closed else "")


def _backs(letterings: Sequence[Lettering]) -> list[str]:
    """Paper below the texts, so that no line runs through a figure."""
    found = []
    for lettering in letterings:
        if lettering.backed:
            box = lettering.box
            found.append(
                f'<rect x="{_mm(box.left)}" y="{_mm(box.top)}" width="{_mm(box.right - box.left)}" '
                f'height="{_mm(box.bottom - box.top)}"/>'
            )
    return (
        ['<g style="fill:var(--drawing-paper,#fff)" fill-opacity="0.85" stroke="none">', *found, "</g>"]
        if found
        else []
    )


def _text(lettering: Lettering) -> str:
    turned = (
        f' transform="rotate({_mm(lettering.angle)} {_mm(lettering.x)} {_mm(lettering.y)})"' if lettering.angle else ""
    )
    bold = ' font-weight="bold"' if lettering.bold else ""
    anchor = "" if lettering.anchor == "start" else f' text-anchor="{lettering.anchor}"'
    return (
        f'<text x="{_mm(lettering.x)}" y="{_mm(lettering.y)}" font-size="{_mm(lettering.size)}"{anchor}{bold}{turned}>'
        f"{escape(lettering.text)}</text>"
    )


def _mm(value: float) -> str:
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
