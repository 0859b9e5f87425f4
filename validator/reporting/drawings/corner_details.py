"""Details of the corners of a room in which the things of two runs meet."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from validator.measures.plane.footprints import HIGH
from validator.measures.room.walls import at_right
from validator.plan.dimensions import LENGTH
from validator.reporting.drawings.canvas import Drawing, to_scale
from validator.reporting.drawings.dimensions import chain
from validator.reporting.drawings.elevations import FRAMES, Asked, file_name
from validator.reporting.drawings.lettering import fitted, shown

if TYPE_CHECKING:
    from validator.measures.plane.wall_lines import WallLine
    from validator.measures.site import Site
    from validator.plan.rooms import Room

from validator.reporting.drawings.plane_view import NEAR, NEARLY_SQUARE, THICK, PlaneView, Stop, Window

ROUND = 1200.0
"""How much of both walls the detail of a corner shows, in mm."""

ROUND_IT = 50.0
"""How much the detail of a corner shows beyond that, behind the walls as well."""


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
        return _Detail(site, room, lines, Asked(), scale, corner, window).detail(left, right)

    return to_scale(drawn, (window.east - window.west, window.north - window.south), frames)


class _Detail(PlaneView):
    """A corner between two walls."""

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
