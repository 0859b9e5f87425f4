"""A room, or a part of it, from above: walls, footprints, cut-outs and what opens, by which clashes are judged."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from validator.measures.plane.footprints import HIGH, Footprint
from validator.measures.plane.shapes import Shape
from validator.measures.room.openings import holes_by_wall
from validator.measures.worktops.cuts import cut_tops
from validator.plan.names import fold
from validator.reporting.drawings.canvas import Canvas, Kind, Point
from validator.reporting.drawings.dimensions import Axis, Span, upright
from validator.reporting.drawings.elevations import Asked
from validator.reporting.drawings.lettering import DEEP, SIZE, Lettering, fitted, shown
from validator.reporting.drawings.wall_things import gaps_of, text_of, value
from validator.reporting.printing import Printer

if TYPE_CHECKING:
    from validator.measures.plane.sweeps import Sweep
    from validator.measures.plane.wall_lines import WallLine
    from validator.measures.site import Site
    from validator.plan.rooms import Room

THICK = 3.0
"""How thick a wall is hatched behind its face, in mm of paper: the plan does not say where its other face lies."""

NEARLY_SQUARE = 0.05
"""The cosine of a corner that is square but for a slip: what is true along one wall is along the other within 0.2 %."""

NEAR = 1.0
"""Edges that differ by less are one: walls are drawn closed, which moves their ends by what they were misread by."""

Stop = tuple[float, float, str]
"""A piece of a chain: from where to where along a wall, in mm, and its figure."""


class Window(NamedTuple):
    """The part of a room that is drawn, by its corners; a detail shows what lies in it."""

    west: float
    south: float
    east: float
    north: float

    def cut(self, start: Point, end: Point) -> tuple[Point, Point] | None:
        """The part of a line that lies inside, None where none does (Liang and Barsky's way)."""
        (ax, ay), (bx, by) = start, end
        dx, dy = bx - ax, by - ay
        first, last = 0.0, 1.0
        for way, room in ((-dx, ax - self.west), (dx, self.east - ax), (-dy, ay - self.south), (dy, self.north - ay)):
            if way == 0:
                if room < 0:
                    return None
                continue
            share = room / way
            if way < 0:
                first = max(first, share)
            else:
                last = min(last, share)
        if first > last:
            return None
        return (ax + first * dx, ay + first * dy), (ax + last * dx, ay + last * dy)

    def holds(self, point: Point) -> bool:
        return self.west <= point[0] <= self.east and self.south <= point[1] <= self.north


class PlaneView:
    """A room, or a part of it, from above at one scale; `zero` is the point of the plane at the drawing's origin."""

    def __init__(
        self,
        site: Site,
        room: Room,
        lines: Sequence[WallLine],
        asked: Asked,
        scale: int,
        zero: Point,
        window: Window | None,
    ) -> None:
        self.site, self.room, self.lines, self.asked = site, room, lines, asked
        self.printer = Printer(site)
        self.canvas = Canvas(scale, self.printer.text)
        self.zero, self.window = zero, window
        self.later: list[list[Lettering]] = []
        self.named: set[str] = set()
        self.tops = cut_tops(site)
        names = {line.name for line in lines}
        self.footprints = [each for each in site.plane.footprints if each.line.name in names]

    def _unit(self) -> str:
        names = {"in": "inches, to a sixteenth", "ft": "feet and inches, to a sixteenth"}
        return names.get(self.printer.units.lengths_in, self.printer.units.lengths_in)

    def _line(self, kind: Kind, points: Sequence[Point], *, closed: bool = False, of: str = "") -> None:
        """A line of the plane, as far as it lies in the window."""
        near = [(x - self.zero[0], y - self.zero[1]) for x, y in points]
        if self.window is None or all(self.window.holds(point) for point in points):
            self.canvas.line(kind, *near, closed=closed, of=of)
            return
        ends = [*points[1:], points[0]] if closed else points[1:]
        lines: list[list[Point]] = []
        for start, end in zip(points, ends, strict=False):
            piece = self.window.cut(start, end)
            if piece is None or piece[0] == piece[1]:
                continue
            if lines and lines[-1][-1] == piece[0]:
                lines[-1].append(piece[1])
            else:
                lines.append(list(piece))
        for line in lines:
            self.canvas.line(kind, *((x - self.zero[0], y - self.zero[1]) for x, y in line), of=of)

    def _paper(self, point: Point) -> Point:
        return self.canvas.at(point[0] - self.zero[0], point[1] - self.zero[1])

    def _walls(self) -> None:
        """The faces of the walls, open where a door is, with hatching behind them."""
        holes = holes_by_wall(self.site)
        for line in self.lines:
            gaps = []
            for hole in holes.get(fold(line.name), []):
                left, right, sill = value(hole.left), value(hole.right), value(hole.sill)
                if left is None or right is None:
                    for given in (hole.left, hole.right):
                        for gap in gaps_of(given):
                            self.canvas.not_known(gap)
                    continue
                gaps.append((max(left, 0.0), min(right, line.length), hole.name, sill is not None and sill > 0))
            at = 0.0
            for left, right, name, window in sorted(gaps):
                if left > at:
                    self._face(line, at, left)
                self._opening(line, left, right, name, window=window)
                at = max(at, right)
            if line.length > at:
                self._face(line, at, line.length)

    def _face(self, line: WallLine, left: float, right: float) -> None:
        """A piece of a wall's face, and the hatching behind it at 45 degrees (of paper, not of the room)."""
        self._line(Kind.EDGE, (line.at(left, 0), line.at(right, 0)), of=f"{line.name} wall")
        step, thick = 3.0 * self.canvas.scale, THICK * self.canvas.scale
        place = left
        while place + thick <= right:
            self._line(Kind.DIMENSION, (line.at(place, 0), line.at(place + thick, -thick)))
            place += step

    def _opening(self, line: WallLine, left: float, right: float, name: str, *, window: bool) -> None:
        thick = THICK * self.canvas.scale
        for place in (left, right):
            self._line(Kind.EDGE, (line.at(place, 0), line.at(place, -thick)))
        outs = (0.0, -thick / 2, -thick) if window else ()
        for out in outs:
            self._line(Kind.LIGHT, (line.at(left, out), line.at(right, out)), of=name if out == 0.0 else "")

    def _footprints(self) -> None:
        for thing in self.footprints:
            if not thing.run:
                continue
            corners = [
                thing.line.at(thing.left, thing.back),
                thing.line.at(thing.right, thing.back),
                thing.line.at(thing.right, thing.face),
                thing.line.at(thing.left, thing.face),
            ]
            if thing.standing is None:
                kind = Kind.LIGHT
            elif thing.layers == HIGH:
                kind = Kind.ABOVE
            else:
                kind = self.asked.edge(thing.name)
            if thing.no_face:
                kind = Kind.UNKNOWN
                for gap in gaps_of(thing.no_face) if self._shows(corners) else ():
                    self.canvas.not_known(gap)
            self._line(kind, corners, closed=True, of=thing.name)

    def _shows(self, corners: Sequence[Point]) -> bool:
        """Whether a shape is in the part that is drawn."""
        window = self.window
        return window is None or any(map(window.holds, corners))

    def _cut_outs(self) -> None:
        """The cut-outs and joints of worktops where they are cut, as far as that is known."""
        edges = {thing.subject.name: thing for thing in self.footprints if thing.standing is None and thing.run}
        for top in self.tops:
            edge, start = edges.get(top.piece.name), value(top.left)
            if edge is None or start is None:
                continue
            shift = start - (value(top.piece.start) or 0.0)
            for joint in top.joints:
                along = value(joint.from_left)
                if along is not None:
                    place = edge.place_from_left(shift + along)
                    ends = edge.line.at(place, edge.back), edge.line.at(place, edge.face)
                    self._line(Kind.EDGE, ends, of=f"{joint.form} of {top.piece.worktop}")
            for cut in top.cut_outs:
                figures = [value(each) for each in (cut.from_left, cut.across, cut.front_to_back, cut.from_front)]
                if None in figures:
                    continue
                middle, across, deep, front = (figure or 0.0 for figure in figures)
                left, right = (edge.place_from_left(shift + middle + half) for half in (-across / 2, across / 2))
                near = edge.face - edge.outward * front
                far = near - edge.outward * deep
                corners = [edge.line.at(*place) for place in ((left, near), (right, near), (right, far), (left, far))]
                self._line(Kind.LIGHT, corners, closed=True, of=f"cut-out of {cut.name}")
                places = [
                    ((left + right) / 2, near + (far - near) * share) for share in (0.2, 0.8, 0.35, 0.65, 0.1, 0.9, 0.5)
                ]
                self._later(fitted(shown(cut.name), 30), edge.line, places)

    def _later(self, text: str, line: WallLine, places: Sequence[Point]) -> None:
        """A text to letter once the things have their names, at the first free one of some places at a wall."""
        self.later.append(self._choices(text, line, places))

    def _choices(self, text: str, line: WallLine, places: Sequence[Point], *, bold: bool = False) -> list[Lettering]:
        """A text at each of some places at a wall, as it may be lettered."""
        points = [line.at(*place) for place in places]
        inside = [point for point in points if self.window is None or self.window.holds(point)]
        angle = angle_of(line)
        return [centred(Lettering(*self._paper(point), text, "middle", angle, SIZE, bold)) for point in inside]

    def _sweeps(self) -> None:
        """What opens, in the way that is known; where it is not known how, a question mark and no sweep."""
        names = {line.name for line in self.lines}
        for sweep in self.site.opening.sweeps:
            if sweep.line is None or sweep.missing:
                for gap in sweep.missing:
                    self._ask(gap.label, sweep)
                continue
            if sweep.line.name not in names or not self._is_near(sweep):
                continue
            if len(sweep.ways) != 1:
                for gap in sweep.asks:
                    self.canvas.not_known(gap.label)
                self._question(sweep)
                continue
            for shape in sweep.ways[0].shapes:
                self._swept(shape, sweep.subject.name)

    def _is_near(self, sweep: Sweep) -> bool:
        """Whether something that opens is in the part that is drawn."""
        return any(self._shows(shape.corners) for way in sweep.ways for shape in way.shapes)

    def _ask(self, label: str, sweep: Sweep) -> None:
        in_room = self.site.plan.room_of(sweep.subject.wall) if sweep.subject.wall else None
        if self.window is None and (in_room is None or in_room.name == self.room.name):
            self.canvas.not_known(label)

    def _question(self, sweep: Sweep) -> None:
        shapes = [shape for way in sweep.ways for shape in way.shapes]
        if not shapes or self.window is not None:
            return
        xs = [x for shape in shapes for x, _ in shape.corners]
        ys = [y for shape in shapes for _, y in shape.corners]
        x, y = self._paper((sum(xs) / len(xs), sum(ys) / len(ys)))
        self.canvas.letter_first(
            Lettering(x + aside, y + down, "?", bold=True) for down in (0.0, 4.0, -4.0) for aside in (0.0, 3.0, -3.0)
        )

    def _swept(self, shape: Shape, of: str) -> None:
        if not shape.radius:
            self._line(Kind.MOVED, shape.corners, closed=True)
            return
        hinge, shut, wide = shape.corners
        if self.window is None:
            points = [self._paper(point) for point in (hinge, wide)]
            self.canvas.ink(Kind.LIGHT, *points)
            arc = [self._paper(point) for point in (hinge, wide, shut)]
            self.canvas.ink(Kind.MOVED, arc[0], arc[1], arc[2], arc=shape.radius / self.canvas.scale)
            return
        turn = [math.atan2(point[1] - hinge[1], point[0] - hinge[0]) for point in (wide, shut)]
        delta = (turn[1] - turn[0] + math.pi) % (2 * math.pi) - math.pi
        steps = [turn[0] + delta * number / 12 for number in range(13)]
        arc = [(hinge[0] + shape.radius * math.cos(each), hinge[1] + shape.radius * math.sin(each)) for each in steps]
        self._line(Kind.LIGHT, (hinge, wide))
        self._line(Kind.MOVED, arc)

    def _names(self) -> None:
        """The names of the things in them, standing ones before hung ones, and of the walls inside the room."""
        standing = [thing for thing in self.footprints if thing.standing is not None and thing.layers != HIGH]
        hung = [thing for thing in self.footprints if thing.standing is not None and thing.layers == HIGH]
        for thing in [*standing, *hung]:
            self._name(thing)
        for choices in self.later:
            self.canvas.letter_first(choices)

    def _name(self, thing: Footprint) -> None:
        name, bold = shown(thing.name), self.asked.is_strong(thing.name)
        scale = self.canvas.scale
        wide, deep = (thing.right - thing.left) / scale, abs(thing.face - thing.back) / scale
        choices: list[Lettering] = []
        angle = angle_of(thing.line)
        for share in (0.5, 0.35, 0.65, 0.2, 0.8):
            point = thing.line.at((thing.left + thing.right) / 2, thing.back + (thing.face - thing.back) * share)
            if self.window is not None and not self.window.holds(point):
                continue
            x, y = self._paper(point)
            along, across = fitted(name, wide - 1.0, bold=bold), fitted(name, deep - 1.0, bold=bold)
            choices.append(Lettering(x, y, along, "middle", angle, SIZE, bold))
            if wide > SIZE + 0.6:
                choices.append(Lettering(x, y, across, "middle", upright(angle - 90), SIZE, bold))
        good = [choice for choice in choices if len(choice.text) >= min(len(name), 6)]
        if self.canvas.letter_first(map(centred, good)):
            self.named.add(thing.name)

    def _axis(self, line: WallLine) -> Axis:
        """The axis outside a wall along which it is dimensioned, in the direction in which it is read."""
        start, along, out = line.at(0, 0), line.along, (-line.inward[0], -line.inward[1])
        axis = Axis(self._paper(start), (along[0], -along[1]), (out[0], -out[1]))
        turned = math.degrees(math.atan2(axis.along[1], axis.along[0]))
        if abs(upright(turned) - turned) > 1e-3:
            axis = Axis(self._paper(line.at(line.length, 0)), (-axis.along[0], -axis.along[1]), axis.out)
        return axis

    def _place(self, line: WallLine, axis: Axis, along: float) -> float:
        """A place along a wall as mm of paper along its axis."""
        x, y = self._paper(line.at(along, 0))
        return (x - axis.start[0]) * axis.along[0] + (y - axis.start[1]) * axis.along[1]

    def _spans(self, line: WallLine, axis: Axis, stops: Sequence[Stop]) -> list[Span]:
        spans = []
        for start, end, text in stops:
            first, last = sorted((self._place(line, axis, start), self._place(line, axis, end)))
            spans.append(Span(first, last, text))
        return sorted(spans)

    def _width(self, thing: Footprint) -> str:
        assert thing.standing is not None
        width = thing.standing.row.known.get("width")
        return text_of(self.printer, width) if width is not None else "?"


def angle_of(line: WallLine) -> float:
    return upright(math.degrees(math.atan2(-line.along[1], line.along[0])))


def centred(lettering: Lettering) -> Lettering:
    """The text with the middle of its letters at its point."""
    turn, down = math.radians(lettering.angle), lettering.size * (0.72 - DEEP) / 2
    return lettering.moved(-down * math.sin(turn), down * math.cos(turn))
