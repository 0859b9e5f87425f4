"""Dimensions after ISO 129: chains along a line, and running dimensions from one end; texts never overlap.

Both lie along an axis on paper and outside what they measure. A figure that is wider than its piece of a chain stands
in a row of its own further out, on a leader; running figures are spread apart, each on a leader to its place.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right, insort
from collections.abc import Mapping, Sequence
from itertools import zip_longest
from typing import NamedTuple

from validator.reporting.drawings.canvas import Canvas, Kind, Point
from validator.reporting.drawings.lettering import DEEP, HIGH, SIZE, Lettering, width_of

ROW = SIZE * (HIGH + DEEP) + 0.5
"""The height of a row of figures."""

OVER = 0.6
"""From a dimension line to the figure above it."""

GAP = 1.0
"""Between what is measured and an extension line."""

PAST = 1.0
"""How far an extension line passes the dimension line."""

TICK = 0.9

NEIGHBOURS = 25.0
"""Figures nearer to each other than this may get in each other's way."""

MOST_NAMES = 5
"""More names at one height or place are cut short; each thing is lettered where it is drawn."""

MOST_STEPS = 12
"""So often a chain moves out in search of a place where nothing is lettered."""

MOST_ROWS = 8
"""Figures that find no room in so many rows stand across the line."""

PITCH = ROW
BEND = 3.0


class Axis(NamedTuple):
    """A line on paper with the way out from what is measured: both directions have length 1."""

    start: Point
    along: Point
    out: Point

    def at(self, s: float, t: float) -> Point:
        (x, y), (ax, ay), (ox, oy) = self.start, self.along, self.out
        return x + s * ax + t * ox, y + s * ay + t * oy

    @property
    def angle(self) -> float:
        """How a text along it lies, read from below or from the right."""
        return upright(math.degrees(math.atan2(self.along[1], self.along[0])))

    @property
    def is_above(self) -> bool:
        """Whether outwards is where the letters' tops are."""
        turn = math.radians(self.angle)
        return self.out[0] * math.sin(turn) - self.out[1] * math.cos(turn) > 0


class Span(NamedTuple):
    """A piece of a chain in mm of paper along the axis, with its figure."""

    start: float
    end: float
    text: str
    bold: bool = False


class Mark(NamedTuple):
    """A place along an axis with its figure, and what is there."""

    place: float
    figure: str
    name: str = ""
    bold: bool = False


def upright(angle: float) -> float:
    """The angle turned by a half where a text would stand on its head; what is steep is read from the right."""
    turned = (angle + 100) % 180 - 100
    return round(turned, 3)


def chain(canvas: Canvas, axis: Axis, spans: Sequence[Span], nearest: float, passing: Sequence[float] = ()) -> float:
    """A chain of dimensions, no nearer than `nearest` to what it measures; returns how far out it reaches.

    `passing` are the places along the axis of lines that go through the chain, which its figures keep clear of. It
    moves out as far as it takes to be clear of what is lettered already, as in a corner that sticks into the room.
    """
    spans = [span for span in spans if span.end - span.start > 1e-6]
    if not spans:
        return nearest
    seats = _seats(spans, passing)
    for step in range(MOST_STEPS):
        line = nearest + step * ROW + (1.5 if axis.is_above else OVER + ROW)
        letterings = _lettered(axis, spans, seats, line)
        if all(canvas.free(lettering.box, 0.0) for lettering in letterings):
            break
    _line(canvas, axis, sorted({span.start for span in spans} | {span.end for span in spans}), line)
    for lettering in letterings:
        canvas.letter(lettering)
    far = _edge(axis, line)
    for span, seat in zip(spans, seats, strict=True):
        if seat is not None and seat.row:
            middle = (span.start + span.end) / 2
            canvas.ink(Kind.DIMENSION, axis.at(middle, line), axis.at(middle, far + (seat.row - 1) * ROW + 0.2))
    if None not in seats:
        return far + max((seat.row for seat in seats if seat is not None), default=0) * ROW
    narrow = [span for span, seat in zip(spans, seats, strict=True) if seat is None]
    marks = [Mark((span.start + span.end) / 2, span.text, "", span.bold) for span in narrow]
    return running(canvas, axis, marks, far + 0.5, line)


def _edge(axis: Axis, line: float) -> float:
    """How far out a chain reaches with the figures on its line."""
    return line + (OVER + ROW if axis.is_above else PAST)


def _lettered(axis: Axis, spans: Sequence[Span], seats: Sequence[_Seat | None], line: float) -> list[Lettering]:
    """The figures of a chain that have a seat."""
    sign, far = 1.0 if axis.is_above else -1.0, _edge(axis, line)
    found = []
    for span, seat in zip(spans, seats, strict=True):
        if seat is not None:
            foot = line + sign * (OVER + SIZE * DEEP)
            if seat.row:
                foot = far + (seat.row - 1) * ROW + (SIZE * DEEP if axis.is_above else SIZE * HIGH) + 0.3
            x, y = axis.at(seat.middle, foot)
            found.append(Lettering(x, y, span.text, "middle", axis.angle, SIZE, span.bold))
    return found


class _Seat(NamedTuple):
    """Where a figure stands: 0 is the row on the line, others are further out, and its middle along the axis."""

    row: int
    middle: float


def _clear(span: Span, passing: Sequence[float]) -> float:
    """The middle of a figure within its piece, moved as little as it takes to be clear of the lines that pass."""
    middle = (span.start + span.end) / 2
    half = width_of(span.text, bold=span.bold) / 2 + 0.5
    slack = (span.end - span.start) / 2 - half
    shifts = [0.0] + [sign * step * 0.5 for step in range(1, int(max(slack, 0.0) / 0.5) + 1) for sign in (1, -1)]
    for shift in shifts:
        if not any(abs(place - middle - shift) < half for place in passing):
            return middle + shift
    return middle


def _seats(spans: Sequence[Span], passing: Sequence[float]) -> list[_Seat | None]:
    """The seat of each figure: on the line where it fits, else in the lowest row where it and its leader are free.

    A figure that stands further out may be shifted along its leader; it never covers the leader of one that stands
    further out still. Of neighbours the outer ones are seated first, so that they move apart.
    """
    found: list[_Seat | None] = [None] * len(spans)
    raised: dict[int, float] = {}
    for number, span in enumerate(spans):
        if width_of(span.text, bold=span.bold) + 0.8 <= span.end - span.start:
            found[number] = _Seat(0, _clear(span, passing))
        else:
            raised[number] = (span.start + span.end) / 2
    rows = _Rows(raised)
    for number in _outside_in(raised):
        found[number] = rows.seat(number, width_of(spans[number].text, bold=spans[number].bold) + 0.8)
    if any(found[number] is None for number in raised):  # too many narrow ones in a row: all stand across the line
        return [None if number in raised else seat for number, seat in enumerate(found)]
    return found


class _Rows:
    """The rows further out than the line: which pieces of each are taken, in order, and where the leaders are."""

    def __init__(self, raised: Mapping[int, float]) -> None:
        self.raised = raised
        self.leaders = sorted((place, number) for number, place in raised.items())
        self.row_of: dict[int, int] = {}
        self.taken: list[list[tuple[float, float]]] = [[] for _ in range(MOST_ROWS)]

    def seat(self, number: int, wide: float) -> _Seat | None:
        """Seat a figure in the lowest row where it covers nothing and nothing covers its leader."""
        place, slack = self.raised[number], wide / 2 - 0.3
        for row in range(1, MOST_ROWS):
            if row > 1 and not self._is_free(row - 1, place, place):
                return None
            for shift in (0.0, 0.5, -0.5, 1.0, -1.0):
                middle = place + shift * slack
                left, right = middle - wide / 2, middle + wide / 2
                if self._is_free(row, left, right) and not self._covers(number, row, left, right):
                    insort(self.taken[row], (left, right))
                    self.row_of[number] = row
                    return _Seat(row, middle)
        return None

    def _is_free(self, row: int, left: float, right: float) -> bool:
        taken = self.taken[row]
        at = bisect_left(taken, (left, right))
        return (at == 0 or taken[at - 1][1] <= left) and (at == len(taken) or right <= taken[at][0])

    def _covers(self, number: int, row: int, left: float, right: float) -> bool:
        """Whether a figure would cover the leader of one further out, or of one that has no seat yet."""
        at = bisect_right(self.leaders, (left, len(self.raised)))
        while at < len(self.leaders) and self.leaders[at][0] < right:
            other = self.leaders[at][1]
            if other != number and self.row_of.get(other, MOST_ROWS) > row:
                return True
            at += 1
        return False


def _outside_in(raised: Mapping[int, float]) -> list[int]:
    """The numbers of raised figures, of each cluster of neighbours the outermost first."""
    clusters: list[list[int]] = []
    for number in sorted(raised, key=lambda number: raised[number]):
        if clusters and raised[number] - raised[clusters[-1][-1]] < NEIGHBOURS:
            clusters[-1].append(number)
        else:
            clusters.append([number])
    order = []
    for cluster in clusters:
        half = (len(cluster) + 1) // 2
        inwards = zip_longest(cluster[:half], reversed(cluster[half:]))
        order += [number for pair in inwards for number in pair if number is not None]
    return order


def _line(canvas: Canvas, axis: Axis, stops: Sequence[float], line: float) -> None:
    """The dimension line with its extension lines and the strokes across."""
    canvas.ink(Kind.DIMENSION, axis.at(stops[0], line), axis.at(stops[-1], line))
    for stop in stops:
        canvas.ink(Kind.DIMENSION, axis.at(stop, GAP), axis.at(stop, line + PAST))
        canvas.ink(Kind.DIMENSION, axis.at(stop - TICK, line - TICK), axis.at(stop + TICK, line + TICK))


def running(canvas: Canvas, axis: Axis, marks: Sequence[Mark], nearest: float, start: float = GAP) -> float:
    """Running dimensions from the start of the axis, each figure out from its place; returns how far out they reach.

    `start` is how far out the leaders begin.
    """
    together: dict[tuple[float, str], list[Mark]] = {}
    for mark in sorted(marks):
        together.setdefault((round(mark.place, 2), mark.figure), []).append(mark)
    if not together:
        return nearest
    places = [place for place, _ in together]
    far = nearest
    for ((place, figure), same), moved in zip(together.items(), spread(places, PITCH), strict=True):
        names = list(dict.fromkeys(mark.name for mark in same if mark.name))
        text = " ".join([*(names if len(names) <= MOST_NAMES else [*names[:MOST_NAMES], "…"]), figure])
        bold = any(mark.bold for mark in same)
        canvas.ink(
            Kind.DIMENSION,
            axis.at(place, start),
            axis.at(place, nearest),
            axis.at(moved, nearest + BEND),
            axis.at(moved, nearest + BEND + 1.5),
        )
        out = math.degrees(math.atan2(axis.out[1], axis.out[0]))
        angle = upright(out)
        outwards = abs(out - angle) < 1e-3
        turn = math.radians(angle)
        down = SIZE * (HIGH - DEEP) / 2
        x, y = axis.at(moved, nearest + BEND + 2.2)
        lettering = Lettering(
            x - down * math.sin(turn),
            y + down * math.cos(turn),
            text,
            "start" if outwards else "end",
            angle,
            SIZE,
            bold,
        )
        canvas.letter(lettering)
        far = max(far, nearest + BEND + 2.2 + width_of(text, bold=bold))
    return far


def spread(places: Sequence[float], pitch: float) -> list[float]:
    """Places in order moved as little as it takes until neighbours are a pitch apart: clusters stay centred."""
    clusters: list[tuple[float, int]] = []  # the sum of wanted starts, and how many
    for place in places:
        total, count = place, 1
        while clusters:
            before, many = clusters[-1]
            if before / many + many * pitch <= total / count + 1e-9:
                break
            clusters.pop()
            total, count = before + total - count * many * pitch, many + count
        clusters.append((total, count))
    found: list[float] = []
    for total, count in clusters:
        found += [total / count + place * pitch for place in range(count)]
    return found
