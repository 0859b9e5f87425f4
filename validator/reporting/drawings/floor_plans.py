"""Floor plans: each room from above, dimensioned along its walls, with its islands set out from two of them."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from validator.measures.plane.footprints import HIGH, Footprint
from validator.measures.room.openings import holes_by_wall
from validator.measures.room.walls import length_of
from validator.measures.rows import Given
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold
from validator.reporting.drawings.canvas import Drawing, Kind, to_scale
from validator.reporting.drawings.dimensions import chain
from validator.reporting.drawings.elevations import FRAMES, NOTHING, asked_for, file_name
from validator.reporting.drawings.lettering import Box, fitted, shown
from validator.reporting.drawings.wall_things import gaps_of, is_nothing, rest_of, text_of, value

if TYPE_CHECKING:
    from validator.measures.plane.wall_lines import WallLine
    from validator.measures.site import Site
    from validator.plan.rooms import Room

from validator.reporting.drawings.plane_view import NEAR, NEARLY_SQUARE, THICK, PlaneView, Stop


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
        return _Whole(site, room, lines, asked, scale, (west, south), None).whole()

    return to_scale(drawn, (east - west, north - south), frames)


class _Whole(PlaneView):
    """A whole room."""

    def whole(self) -> Drawing:
        self._walls()
        self._footprints()
        self._cut_outs()
        self._sweeps()
        marked = self._points()
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
                f"Lengths in {self._unit()}. Walls are hatched behind their face only; how thick they are is not drawn."
                + (" Triangles at the walls are points." if marked else "")
            ],
        )

    def _points(self) -> bool:
        """A triangle at the wall for each place with points, and their names beside it; whether there are any."""
        scale, found = self.canvas.scale, False
        for line in self.lines:
            at: dict[float, list[str]] = {}
            for placed in self.site.points.by_wall.get(fold(line.name), ()):
                along = value(placed.along)
                if along is not None:
                    at.setdefault(round(along, 1), []).append(placed.name)
            for along, names in at.items():
                strong = any(map(self.asked.is_strong, names))
                half, out = 1.2 * scale, 2.0 * scale
                corners = [line.at(along - half, 0), line.at(along + half, 0), line.at(along, out)]
                self._line(Kind.EDGE if strong else Kind.LIGHT, corners, closed=True, of=" ".join(names))
                xs, ys = zip(*map(self._paper, corners), strict=True)
                self.canvas.take(Box(min(xs), min(ys), max(xs), max(ys)))
                places = [(along + aside * scale, far * scale) for far in (4.0, 6.5, 9.0) for aside in (0.0, 2.5, -2.5)]
                text = fitted(" ".join(map(shown, names)), 20, bold=strong)
                choices = self._choices(text, line, places, bold=strong)
                if strong:
                    self.canvas.letter_first(choices)
                else:
                    self.later.append(choices)
                found = True
        return found

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
            stops.append((at, line.length, rest_of(self.printer, whole, at)))
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
        if stops and line.length - at > NEAR and not is_nothing(whole, at):
            stops.append((at, line.length, rest_of(self.printer, whole, at)))
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
