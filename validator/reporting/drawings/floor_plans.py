"""Floor plans: each room from above, with what stands and hangs in it, what it sweeps as it opens, and its corners.

The walls, footprints and sweeps are those by which clashes are judged; nothing is placed here.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from validator.measures.footprints import HIGH, Footprint
from validator.measures.openings import holes_by_wall
from validator.measures.rows import Given, Known
from validator.measures.shapes import Shape
from validator.measures.walls import at_right, length_of
from validator.measures.worktop_cuts import cut_tops
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold
from validator.reporting.drawings.canvas import Canvas, Drawing, Kind, Point, to_scale
from validator.reporting.drawings.dimensions import Axis, Span, chain, upright
from validator.reporting.drawings.elevations import FRAMES, NOTHING, Asked, asked_for, file_name
from validator.reporting.drawings.lettering import DEEP, SIZE, Lettering, fitted, shown
from validator.reporting.drawings.wall_things import gaps_of, text_of, value
from validator.reporting.printing import Printer

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.measures.sweeps import Sweep
    from validator.measures.wall_lines import WallLine
    from validator.plan.rooms import Room

THICK = 3.0
"""How thick a wall is hatched behind its face, in mm of paper: the plan does not say where its other face lies."""

ROUND = 1200.0
"""How much of both walls the detail of a corner shows, in mm."""

ROUND_IT = 50.0
"""How much the detail of a corner shows beyond that, behind the walls as well."""


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


def floor_plans(
    site: Site,
    strong: Collection[str] = (),
    findings: Mapping[str, Sequence[int]] = NOTHING,
    frames: Sequence[tuple[float, float]] = FRAMES,
) -> list[Drawing]:
    """A floor plan of each room whose walls can be drawn, in the order of the plan."""
    plans = (floor_plan(site, room, strong, findings, frames) for room in site.plan.rooms.values())
    return [plan for plan in plans if plan is not None]


def floor_plan(
    site: Site,
    room: Room,
    strong: Collection[str] = (),
    findings: Mapping[str, Sequence[int]] = NOTHING,
    frames: Sequence[tuple[float, float]] = FRAMES,
) -> Drawing | None:
    """A room from above; None where too little is known of its walls to draw them."""
    lines = [line for line in site.plane.lines.values() if line.room == room.name]
    if not lines:
        return None
    asked = asked_for(strong, findings)
    ends = [point for line in lines for point in (line.at(0, 0), line.at(line.length, 0))]
    west, east = min(x for x, _ in ends), max(x for x, _ in ends)
    south, north = min(y for _, y in ends), max(y for _, y in ends)

    def drawn(scale: int) -> Drawing:
        return _Plan(site, room, lines, asked, scale, (west, south), None).whole()

    return to_scale(drawn, (east - west, north - south), frames)


def corner_details(site: Site, frames: Sequence[tuple[float, float]] = FRAMES) -> list[Drawing]:
    """A detail of each corner into the room in which the things of two runs meet."""
    met = {row.subject.name for row in site.rows("corner of two runs").rows}
    found = []
    for room in site.plan.rooms.values():
        lines = {line.name: line for line in site.plane.lines.values() if line.room == room.name}
        for wall, line in lines.items():
            beside = at_right(site.plan, wall)
            if beside is None or beside not in lines or not any(f"{wall}-{beside}" in name for name in met):
                continue
            said = room.corner_at(wall, beside)
            if said is None or not said.outside:
                found.append(_detail(site, room, line, lines[beside], list(lines.values()), frames))
    return found


def _detail(
    site: Site,
    room: Room,
    left: WallLine,
    right: WallLine,
    lines: list[WallLine],
    frames: Sequence[tuple[float, float]],
) -> Drawing:
    corner = right.at(0, 0)
    ends = [corner, left.at(max(left.length - ROUND, 0.0), 0), right.at(min(ROUND, right.length), 0)]
    ends.append((ends[1][0] + ends[2][0] - corner[0], ends[1][1] + ends[2][1] - corner[1]))
    window = Window(
        min(x for x, _ in ends) - ROUND_IT,
        min(y for _, y in ends) - ROUND_IT,
        max(x for x, _ in ends) + ROUND_IT,
        max(y for _, y in ends) + ROUND_IT,
    )

    def drawn(scale: int) -> Drawing:
        return _Plan(site, room, lines, Asked(), scale, corner, window).detail(left, right)

    return to_scale(drawn, (window.east - window.west, window.north - window.south), frames)


class _Plan:
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
        self.canvas, self.printer = Canvas(scale), Printer(site)
        self.zero, self.window = zero, window
        self.later: list[list[Lettering]] = []
        self.named: set[str] = set()
        self.tops = cut_tops(site)
        names = {line.name for line in lines}
        self.footprints = [each for each in site.plane.footprints if each.line.name in names]

    def whole(self) -> Drawing:
        self._walls()
        self._footprints()
        self._cut_outs()
        self._sweeps()
        self._names()
        for line in self.lines:
            self._beside(line)
        self._findings()
        self._unplaced()
        title = f"{self.room.called or 'Room'} from above"
        return self.canvas.finished(
            file_name(self.room.name).replace("elevation", "floor-plan", 1),
            shown(title[:1].upper() + title[1:]),
            [
                "Lengths in "
                + self._unit()
                + ". Walls are hatched behind their face only; how thick they are is not drawn."
            ],
        )

    def detail(self, left: WallLine, right: WallLine) -> Drawing:
        self._walls()
        self._footprints()
        self._cut_outs()
        self._sweeps()
        self._names()
        for line, across, from_right in ((left, right, True), (right, left, False)):
            far = self._from_corner(line, from_right=from_right)
            self._depth_of_other(line, across, far, from_right=from_right)
        title = f"Corner {left.name}-{right.name} from above"
        return self.canvas.finished(
            file_name(f"{left.name} {right.name}").replace("elevation", "corner", 1),
            shown(title),
            ["Lengths in " + self._unit() + ", from the corner of the walls."],
        )

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
        """The cut-outs of worktops where they are cut, as far as that is known."""
        edges = {thing.subject.name: thing for thing in self.footprints if thing.standing is None and thing.run}
        for top in self.tops:
            edge, start = edges.get(top.piece.name), value(top.left)
            if edge is None or start is None:
                continue
            shift = edge.left - (value(top.piece.start) or 0.0)
            for cut in top.cut_outs:
                figures = [value(each) for each in (cut.from_left, cut.across, cut.front_to_back, cut.from_front)]
                if None in figures:
                    continue
                middle, across, deep, front = (figure or 0.0 for figure in figures)
                left, right = start + shift + middle - across / 2, start + shift + middle + across / 2
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
        points = [line.at(*place) for place in places]
        inside = [point for point in points if self.window is None or self.window.holds(point)]
        self.later.append([Lettering(*self._paper(point), text, "middle", _angle(line)) for point in inside])

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
            self.canvas.letter_first(map(_centred, choices))

    def _name(self, thing: Footprint) -> None:
        name, bold = shown(thing.name), self.asked.is_strong(thing.name)
        scale = self.canvas.scale
        wide, deep = (thing.right - thing.left) / scale, abs(thing.face - thing.back) / scale
        choices: list[Lettering] = []
        angle = _angle(thing.line)
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
        if self.canvas.letter_first(map(_centred, good)):
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

    def _beside(self, line: WallLine) -> None:
        """Chains outside a wall: its openings, and its length as it was read."""
        axis = self._axis(line)
        far = THICK + 1.0
        stops: list[Stop] = []
        at = 0.0
        whole = length_of(self.site.plan, line.name)
        for hole in sorted(holes_by_wall(self.site).get(fold(line.name), []), key=lambda hole: value(hole.left) or 0.0):
            left, right = value(hole.left), value(hole.right)
            if left is None or right is None or left < at:
                continue
            stops.append((at, left, self.printer.value(left - at, LENGTH)))
            name = fitted(shown(hole.name), 40)
            stops.append((left, right, f"{name} {self.printer.value(right - left, LENGTH)}"))
            at = right
        if stops:
            stops.append((at, line.length, _rest(self.printer, whole, at)))
        for each in (self._standing_at(line, whole), self._islands_at(line, whole), self._islands_across(line), stops):
            far = chain(self.canvas, axis, self._spans(line, axis, each), far) + (1.0 if each else 0.0)
        text = f"{fitted(shown(line.name), 40)} wall {text_of(self.printer, whole)}"
        chain(self.canvas, axis, self._spans(line, axis, [(0.0, line.length, text)]), far)

    def _standing_at(self, line: WallLine, whole: Given) -> list[Stop]:
        """A chain of the things that stand at a wall and of what is free between them."""
        things = [thing for thing in self.footprints if thing.line.name == line.name and thing.outward > 0]
        return self._row_of(
            [thing for thing in things if thing.layers != HIGH and thing.standing is not None], line, whole
        )

    def _islands_at(self, line: WallLine, whole: Given) -> list[Stop]:
        """A chain from the left end of the wall that an island faces along its units."""
        things = [thing for thing in self.footprints if thing.line.name == line.name and thing.outward < 0]
        return self._row_of([thing for thing in things if thing.standing is not None], line, whole)

    def _row_of(self, things: Sequence[Footprint], line: WallLine, whole: Given) -> list[Stop]:
        stops: list[Stop] = []
        at = 0.0
        for thing in sorted(things, key=lambda thing: thing.left):
            if thing.left < at - NEAR:
                continue
            if thing.left - at > NEAR:
                stops.append((at, thing.left, self.printer.value(thing.left - at, LENGTH)))
            text = self._width(thing)
            if thing.name not in self.named:
                text = f"{fitted(shown(thing.name), 30)} {text}"
            stops.append((thing.left, thing.right, text))
            at = thing.right
        if stops and line.length - at > NEAR:
            stops.append((at, line.length, _rest(self.printer, whole, at)))
        return stops

    def _islands_across(self, line: WallLine) -> list[Stop]:
        """A chain along a wall from the wall that an island faces: what stands there, the aisle, the island."""
        for other in self.lines:
            square = abs(other.along[0] * line.along[0] + other.along[1] * line.along[1]) < NEARLY_SQUARE
            if other.following != line.name or not square:
                continue
            things = [thing for thing in self.footprints if thing.line.name == other.name]
            islands = [thing for thing in things if thing.outward < 0]
            if not islands:
                continue
            face, back = min(thing.face for thing in islands), max(thing.back for thing in islands)
            before = [thing.face for thing in things if thing.outward > 0 and thing.layers != HIGH and thing.run]
            edges = sorted({0.0, max((each for each in before if each < face), default=0.0), face, back})
            return [(a, b, self.printer.value(b - a, LENGTH)) for a, b in pairwise(edges) if b - a > NEAR]
        return []

    def _spans(self, line: WallLine, axis: Axis, stops: Sequence[Stop]) -> list[Span]:
        spans = []
        for start, end, text in stops:
            first, last = sorted((self._place(line, axis, start), self._place(line, axis, end)))
            spans.append(Span(first, last, text))
        return sorted(spans)

    def _depth_of_other(self, line: WallLine, across: WallLine, far: float, *, from_right: bool) -> None:
        """How far the things at the other wall of a corner reach along this one, the nearest that stands there."""
        if abs(across.along[0] * line.along[0] + across.along[1] * line.along[1]) > NEARLY_SQUARE:
            return
        there = [
            thing
            for thing in self.footprints
            if thing.line.name == across.name and thing.standing is not None and thing.layers != HIGH
        ]
        nearest = min(there, key=lambda thing: thing.left if from_right else across.length - thing.right, default=None)
        if nearest is not None and not nearest.no_face:
            ends = (line.length - nearest.face, line.length) if from_right else (0.0, nearest.face)
            text = f"{fitted(shown(nearest.name), 30)} {self.printer.value(nearest.face, LENGTH)} deep"
            chain(self.canvas, self._axis(line), self._spans(line, self._axis(line), [(*ends, text)]), far)

    def _from_corner(self, line: WallLine, *, from_right: bool) -> float:
        """Chains from the corner along a wall, over what stands and what hangs there as far as the detail goes."""
        axis = self._axis(line)
        shown_ = min(ROUND, line.length)
        far = THICK + 1.0
        for hung in (False, True):
            stops: list[Stop] = []
            things = [
                thing
                for thing in self.footprints
                if thing.line.name == line.name and thing.standing is not None and (thing.layers == HIGH) is hung
            ]
            at = line.length if from_right else 0.0
            for thing in sorted(things, key=lambda thing: -thing.right if from_right else thing.left):
                near, end = (thing.right, thing.left) if from_right else (thing.left, thing.right)
                if abs(near - (line.length if from_right else 0.0)) >= shown_:
                    break
                if (at - near if from_right else near - at) > NEAR:
                    stops.append((min(at, near), max(at, near), self.printer.value(abs(near - at), LENGTH)))
                text = f"{fitted(shown(thing.name), 30)} {self._width(thing)}"
                stops.append((min(near, end), max(near, end), text))
                at = end
            inside = [stop for stop in stops if self._is_inside(line, stop[0]) and self._is_inside(line, stop[1])]
            if inside:
                far = chain(self.canvas, axis, self._spans(line, axis, inside), far) + 1.0
        return far

    def _is_inside(self, line: WallLine, along: float) -> bool:
        if self.window is None:
            return True
        x, y = line.at(along, 0)
        window = self.window
        return window.west - 1 <= x <= window.east + 1 and window.south - 1 <= y <= window.north + 1

    def _width(self, thing: Footprint) -> str:
        assert thing.standing is not None
        width = thing.standing.row.known.get("width")
        return text_of(self.printer, width) if width is not None else "?"

    def _findings(self) -> None:
        for thing in self.footprints:
            for number in self.asked.findings.get(fold(thing.name), ()) if thing.standing is not None else ():
                places = [
                    self._paper(
                        thing.line.at(
                            thing.left + (thing.right - thing.left) * along,
                            thing.back + (thing.face - thing.back) * out,
                        )
                    )
                    for out in (0.8, 0.2, 0.5, 1.2, 1.5)
                    for along in (0.5, 0.25, 0.75)
                ]
                self.canvas.tag(number, places, thing.name)

    def _unplaced(self) -> None:
        for thing in self.site.plane.unplaced:
            if thing.room in ("", self.room.name):
                for gap in gaps_of(thing.missing):
                    self.canvas.not_known(gap)


def _rest(printer: Printer, whole: Given, at: float) -> str:
    if not isinstance(whole, Known):
        return "?"
    ends = ((whole.low or 0.0) - at, (whole.high or 0.0) - at)
    return text_of(printer, whole._replace(value=whole.value - at, low=ends[0], high=ends[1]))


def _angle(line: WallLine) -> float:
    return upright(math.degrees(math.atan2(-line.along[1], line.along[0])))


def _centred(lettering: Lettering) -> Lettering:
    """The text with the middle of its letters at its point."""
    turn, down = math.radians(lettering.angle), lettering.size * (0.72 - DEEP) / 2
    return lettering.moved(-down * math.sin(turn), down * math.cos(turn))
