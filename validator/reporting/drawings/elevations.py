"""Elevations: each wall as one faces it, with all that stands, hangs and runs there, dimensioned to set out by.

Places count from the left end of the wall and heights from the bare floor at its high spot, as everything is judged. An
island is drawn from its fronts, from its back and from both ends.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from validator.measures.room.walls import called_wall
from validator.measures.rows import Given, Known
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold
from validator.reporting.drawings.canvas import ACROSS, UPRIGHT, Canvas, Drawing, Kind, to_scale
from validator.reporting.drawings.dimensions import Axis, Mark, Span, chain, running
from validator.reporting.drawings.fittings import draw_fittings
from validator.reporting.drawings.lettering import Lettering, fitted, shown, width_of
from validator.reporting.drawings.wall_things import (
    OnWalls,
    Part,
    ceiling_line,
    gaps_of,
    is_nothing,
    on_walls,
    rest_of,
    surface_of,
    text_of,
    value,
    wall_length,
)
from validator.reporting.printing import Printer

if TYPE_CHECKING:
    from validator.measures.site import Site

FRAMES = (UPRIGHT, ACROSS)
NOTHING: Mapping[str, Sequence[int]] = {}
NEAR = 0.05
"""Edges that differ by less are one."""

ABOVE_ALL = 200.0
"""So far above the highest thing the wall is drawn where nobody knows the ceiling."""

SUFFICES = 12
"""A name shorter than this is never cut."""


class Asked(NamedTuple):
    """What a reader wants of drawings: the things to be strong (all where none is named), and findings by thing."""

    strong: frozenset[str] = frozenset()
    findings: Mapping[str, Sequence[int]] = NOTHING

    def edge(self, name: str) -> Kind:
        """The line of a visible edge of a thing."""
        return Kind.EDGE if not self.strong or fold(name) in self.strong else Kind.LIGHT

    def is_strong(self, name: str) -> bool:
        return fold(name) in self.strong


def asked_for(strong: Collection[str], findings: Mapping[str, Sequence[int]]) -> Asked:
    return Asked(frozenset(map(fold, strong)), {fold(name): numbers for name, numbers in findings.items()})


def walls_to_draw(site: Site) -> list[str]:
    """The walls with something on them, in the plan's order, then the islands."""
    on = on_walls(site)
    taken = {*on.parts, *on.openings, *on.boxes, *on.holes, *on.routes}
    taken |= {wall for wall, points in site.points.by_wall.items() if points}
    walls = [wall for wall in site.plan.walls if fold(wall) in taken]
    return walls + [run for run in site.plan.runs if site.plan.runs[run].faces is not None]


def elevations(
    site: Site,
    walls: Collection[str] | None = None,
    strong: Collection[str] = (),
    findings: Mapping[str, Sequence[int]] = NOTHING,
    frames: Sequence[tuple[float, float]] = FRAMES,
) -> list[Drawing]:
    """A drawing of each wall with something on it (of those named, where some are), and four of each island.

    `strong` names the things to stand out, `findings` the numbers of a report by the name of the thing they are about.
    """
    asked = asked_for(strong, findings)
    wanted = None if walls is None else {fold(wall) for wall in walls}
    found, on = [], on_walls(site)
    for wall in walls_to_draw(site):
        if wanted is None or fold(wall) in wanted:
            sides = ISLAND_SIDES if wall not in site.plan.walls else ("",)
            found += [drawing for side in sides if (drawing := _of(on, wall, side, asked, frames)) is not None]
    return found


ISLAND_SIDES = ("fronts", "back", "left end", "right end")


def _of(on: OnWalls, wall: str, side: str, asked: Asked, frames: Sequence[tuple[float, float]]) -> Drawing | None:
    facts = _facts(on, wall, side)
    if facts is None:
        return None
    if side.endswith("end"):
        from validator.reporting.drawings.island_ends import end_of_island

        return end_of_island(on.site, wall, side, facts.parts, frames)
    return to_scale(lambda scale: _Elevation(facts, asked, scale).drawn(), (facts.length, facts.high), frames)


class Facts(NamedTuple):
    """A wall with what is on it, before it is drawn. `mirrored`: places run to the left as it is seen."""

    on: OnWalls
    wall: str
    side: str
    parts: list[Part]
    length: float
    length_given: Given
    ceiling: list[tuple[float, float]] | None
    high: float
    mirrored: bool

    def ceiling_over(self, place: float) -> float:
        """How high the wall is drawn at a place along it."""
        line = self.ceiling or [(0.0, self.high), (self.length, self.high)]
        for (left, low), (right, high) in pairwise(line):
            if left <= place <= right and right > left:
                return low + (high - low) * (place - left) / (right - left)
        return self.high


def _facts(on: OnWalls, wall: str, side: str) -> Facts | None:
    """None where nothing has a place, so that there is nothing to draw."""
    site, parts = on.site, on.parts.get(fold(wall), [])
    given = wall_length(site, wall, parts)
    rights = [part.right for part in parts if part.right is not None]
    holes = on.openings.get(fold(wall), [])
    rights += [right for hole in holes if (right := value(hole.right)) is not None]
    length = value(given) or max(rights, default=0.0)
    if length <= 0:
        return None
    ceiling = ceiling_line(site, wall, length) if not side else None
    highs = [part.high for part in parts if part.high is not None]
    highs += [head for hole in holes if (head := value(hole.head)) is not None]
    tops = [above for row in site.levels.worktops_at(wall) if (above := value(surface_of(row))) is not None]
    high = max([*highs, *tops, 900.0]) + (0.0 if side else ABOVE_ALL)
    if ceiling is not None:
        high = max(height for _, height in ceiling)
    return Facts(on, wall, side, parts, length, given, ceiling, high, side == "back")


class _Elevation:
    """One wall drawn at one scale."""

    def __init__(self, facts: Facts, asked: Asked, scale: int) -> None:
        self.facts, self.asked = facts, asked
        self.site, self.wall = facts.on.site, facts.wall
        self.printer = Printer(facts.on.site)
        self.canvas = Canvas(scale, self.printer.text)
        self.levels: dict[float, list[str]] = {}
        self.along: list[Mark] = []
        self.up: list[Mark] = []

    def x(self, along: float) -> float:
        """A place along the wall as it is seen."""
        return self.facts.length - along if self.facts.mirrored else along

    def drawn(self) -> Drawing:
        facts, canvas = self.facts, self.canvas
        if not facts.side:
            self._room()
        self._floor()
        for part in facts.parts:
            self._part(part)
        self._worktops()
        draw_fittings(self)
        self._names()
        self._dimensions()
        self._findings()
        called = called_wall(self.site.plan, self.wall)
        title = f"{called[:1].upper()}{called[1:]}" + (f", {facts.side}" if facts.side else ", as one faces it")
        return canvas.finished(file_name(self.wall, facts.side), shown(title), self._notes())

    def say(self, text: str) -> str:
        """A text of ours in the words of the plan's country."""
        return self.printer.text(text)

    def level(self, height: float | None, what: str) -> None:
        """A height to letter at the right."""
        if height is not None:
            told = self.levels.setdefault(round(height, 2), [])
            if what not in told:
                told.append(what)

    def value(self, figure: float) -> str:
        return self.printer.value(figure, LENGTH)

    def _room(self) -> None:
        """The wall with its ceiling."""
        facts, canvas = self.facts, self.canvas
        line = facts.ceiling
        known_length = isinstance(facts.length_given, Known)
        right = Kind.EDGE if known_length else Kind.UNKNOWN
        top = line or [(0.0, facts.high), (facts.length, facts.high)]
        named = f"{self.wall} wall"
        if line is not None and known_length:
            canvas.line(Kind.EDGE, (0, 0), *top, (facts.length, 0), closed=True, of=named)
        else:
            canvas.line(Kind.EDGE, (0, 0), top[0], of=named)
            canvas.line(right, top[-1], (facts.length, 0))
            canvas.line(Kind.EDGE if line is not None else Kind.UNKNOWN, *top)
        if line is None:
            canvas.not_known(f"height of the ceiling at the {self.wall} wall")
        else:
            for _, height in (line[0], line[-1]):
                self.level(height, "ceiling")
        if not known_length:
            canvas.not_known("; ".join(gaps_of(facts.length_given)))

    def _floor(self) -> None:
        """The bare floor and the finished one."""
        canvas, length = self.canvas, self.facts.length
        canvas.line(Kind.EDGE, (0, 0), (length, 0), of="bare floor")
        self.level(0.0, "bare floor")
        finished = self.site.levels.at(self.wall).finished_floor
        height = value(finished)
        if height is None:
            for gap in gaps_of(finished):
                canvas.not_known(gap)
        elif height > 0:
            canvas.line(Kind.LIGHT, (0, height), (length, height), of="finished floor")
            self.level(height, "finished floor")

    def _part(self, part: Part) -> None:
        """A thing of a run; what is not known of it is dashed."""
        canvas, name = self.canvas, part.name
        if part.left is None or part.right is None:
            for given in (part.standing.left, part.standing.right):
                for gap in gaps_of(given):
                    canvas.not_known(gap)
            return
        if part.family == "gap":
            return
        left, right = sorted((self.x(part.left), self.x(part.right)))
        kind = Kind.HIDDEN if self.facts.side == "back" else self.asked.edge(name)
        if part.low is None or part.high is None:
            self._open_part(part, left, right)
            return
        if part.family == "opening":
            canvas.rectangle(Kind.LIGHT if kind is Kind.EDGE else kind, left, part.low, right, part.high, name)
            return
        low = part.carcass if part.carcass is not None else part.low
        canvas.rectangle(kind, left, low, right, part.high, name)
        if part.carcass is not None and part.carcass - part.low > NEAR:
            for side in (left, right):
                canvas.line(Kind.LIGHT, (side, part.low), (side, part.carcass))
        if part.family == "unit":
            self.level(
                part.high,
                "tops" if part.hung else f"top of {shown(name)}" if self._is_tall(part) else self.say("carcass"),
            )
        if part.hung:
            self.level(part.low, "underside")

    def _is_tall(self, part: Part) -> bool:
        worktops = [value(surface_of(row)) for row in self.site.levels.worktops_at(self.wall)]
        return part.high is not None and all(top is None or part.high > top for top in worktops)

    def _open_part(self, part: Part, left: float, right: float) -> None:
        """A thing whose height nobody knows: its sides, dashed, as far as the lowest thing beside it reaches."""
        heights = [
            other.high - (other.low or 0.0)
            for other in self.facts.parts
            if other.high is not None and other.hung == part.hung
        ]
        low = part.low or 0.0
        high = low + min(heights, default=720.0)
        self.canvas.rectangle(Kind.UNKNOWN, left, low, right, high, part.name)
        self.canvas.letter_first(
            [Lettering(*self.canvas.at((left + right) / 2, high - drop), "?", bold=True) for drop in (80, 160, 240)]
        )
        gaps = gaps_of(part.standing.left)
        if part.family == "unit":
            top = self.site.levels.top_of(part.standing)
            gaps = gaps_of(top)
        for gap in gaps or [f"height of {part.name}"]:
            self.canvas.not_known(gap)

    def _worktops(self) -> None:
        """The pieces of the worktops as they are cut, with their joints, and their cut-outs hidden behind the edge."""
        for top in self.facts.on.tops.get(fold(self.wall), []):
            name, piece = top.piece.worktop, top.piece
            row = self.site.levels.worktops[name]
            surface, thickness = value(surface_of(row)), value(row.known.get("thickness"))
            ends = value(top.left), value(top.right)
            for given in (surface_of(row), top.left, top.right):
                for gap in gaps_of(given):
                    self.canvas.not_known(gap)
            if surface is None or thickness is None:
                continue
            start, end = (
                value(units) if at is None else at for at, units in zip(ends, (piece.start, piece.end), strict=True)
            )
            if start is None or end is None:
                continue
            left, right = sorted((self.x(start), self.x(end)))
            kind = self.asked.edge(name) if None not in ends else Kind.UNKNOWN
            self.canvas.rectangle(kind, left, surface - thickness, right, surface, piece.name)
            self.level(surface, self.say("worktop"))
            for joint in top.joints:
                at = value(joint.from_left)
                if at is not None:
                    x = self.x(start + at)
                    self.canvas.line(Kind.EDGE, (x, surface - thickness), (x, surface), of=f"{joint.form} of {name}")
            for cut in top.cut_outs:
                middle, wide = value(cut.from_left), value(cut.across)
                if middle is not None and wide is not None:
                    for x in (self.x(start + middle - wide / 2), self.x(start + middle + wide / 2)):
                        self.canvas.line(Kind.HIDDEN, (x, surface - thickness), (x, surface))

    def _names(self) -> None:
        """The name of each thing in it where it has room; else it goes to the figure of its width."""
        self.named: set[str] = set()
        for part in self.facts.parts:
            if part.family == "gap" or part.left is None or part.right is None or part.high is None:
                continue
            low = part.carcass if part.carcass is not None else part.low or 0.0
            room = (part.right - part.left) / self.canvas.scale - 1.0
            name, bold = shown(part.name), self.asked.is_strong(part.name)
            if width_of(name, bold=bold) > room:
                name = fitted(name, room, bold=bold) if len(name) > SUFFICES else ""
            middle = self.x((part.left + part.right) / 2)
            heights = [low + (part.high - low) * share for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)]
            if self.canvas.letter_first(
                Lettering(*self.canvas.at(middle, height), name, bold=bold) for height in heights
            ):
                self.named.add(part.name)

    def _dimensions(self) -> None:
        canvas, facts = self.canvas, self.facts
        length, high = facts.length / canvas.scale, facts.high / canvas.scale
        below = Axis((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))
        above = Axis((0.0, -high), (1.0, 0.0), (0.0, -1.0))
        left = Axis((0.0, 0.0), (0.0, -1.0), (-1.0, 0.0))
        right = Axis((length, 0.0), (0.0, -1.0), (1.0, 0.0))
        far = 1.0
        for spans in self._lanes(hung=False):
            far = chain(canvas, below, spans, far) + 1.0
        whole = text_of(self.printer, facts.length_given)
        chain(canvas, below, [Span(0.0, length, whole)], far)
        far = 1.0
        passing = [mark.place for mark in self.along]
        for spans in [*self._lanes(hung=True), self._opening_spans()]:
            far = chain(canvas, above, spans, far, passing) + 1.0
        if self.along:
            self.along.append(Mark(0.0, "0"))
        running(canvas, above, self.along, far)
        running(canvas, left, self.up, 3.0)
        levels = [
            Mark(height / canvas.scale, self.value(height), ", ".join(told)) for height, told in self.levels.items()
        ]
        running(canvas, right, levels, 3.0)

    def _lanes(self, *, hung: bool) -> list[list[Span]]:
        """Chains of the standing or the hung things: those that stand over one another get chains of their own."""
        lanes: list[list[Part]] = []
        placed = [part for part in self.facts.parts if part.hung is hung and part.is_placed]
        for part in sorted(placed, key=lambda part: part.left or 0.0):
            for lane in lanes:
                if (part.left or 0.0) >= (lane[-1].right or 0.0) - NEAR:
                    lane.append(part)
                    break
            else:
                lanes.append([part])
        return [self._lane(lane) for lane in lanes]

    def _lane(self, parts: Sequence[Part]) -> list[Span]:
        pieces: list[tuple[float, float, str]] = []
        at = 0.0
        for part in parts:
            assert part.left is not None
            assert part.right is not None
            if part.left - at > NEAR:
                pieces.append((at, part.left, self.value(part.left - at)))
            width = part.standing.row.known.get("width")
            text = text_of(self.printer, width) if width is not None else "?"
            if part.name not in self.named and part.family != "gap":
                text = f"{fitted(shown(part.name), 30)} {text}"
            pieces.append((part.left, part.right, text))
            at = part.right
        if self.facts.length - at > NEAR and not is_nothing(self.facts.length_given, at):
            pieces.append((at, self.facts.length, rest_of(self.printer, self.facts.length_given, at)))
        return [self._span(*piece) for piece in pieces]

    def _span(self, start: float, end: float, text: str) -> Span:
        left, right = sorted((self.x(start), self.x(end)))
        return Span(left / self.canvas.scale, right / self.canvas.scale, text)

    def _opening_spans(self) -> list[Span]:
        """A chain through the openings of the wall."""
        if self.facts.side:
            return []
        ends: list[tuple[float, float, str]] = []
        for hole in self.facts.on.openings.get(fold(self.wall), []):
            left, right = value(hole.left), value(hole.right)
            if left is not None and right is not None:
                ends.append((left, right, self.value(right - left)))
        found, at = [], 0.0
        for left, right, text in sorted(ends):
            if left < at - NEAR:
                continue
            if left - at > NEAR:
                found.append(self._span(at, left, self.value(left - at)))
            found.append(self._span(left, right, text))
            at = right
        if found and self.facts.length - at > NEAR:
            found.append(self._span(at, self.facts.length, rest_of(self.printer, self.facts.length_given, at)))
        return found

    def _findings(self) -> None:
        """The numbers of the report at what they are about."""
        for part in self.facts.parts:
            for number in self.asked.findings.get(fold(part.name), ()):
                if part.left is not None and part.right is not None:
                    low, high = part.low or 0.0, part.high if part.high is not None else 400.0
                    self.tag(number, part.left, low, part.right, high, part.name)

    def tag(self, number: int, left: float, low: float, right: float, high: float, of: str) -> None:
        """The number of a finding in or beside a rectangle of the wall."""
        self.canvas.tag(
            number,
            (
                self.canvas.at(self.x(left + (right - left) * across), low + (high - low) * upward)
                for upward in (0.25, 0.75, 0.5, 0.1, 0.9, 1.1, -0.1, 1.3, -0.3)
                for across in (0.5, 0.25, 0.75, 0.1, 0.9, 1.3, -0.3)
            ),
            of,
        )

    def _notes(self) -> list[str]:
        unit = {"in": "inches, to a sixteenth", "ft": "feet and inches, to a sixteenth"}.get(
            self.printer.units.lengths_in
        )
        unit = unit or self.printer.units.lengths_in
        where = "left end of the wall" if not self.facts.side else "left end as seen"
        where += ". Running figures (upright) count from there too" if self.along else ""
        return [f"Lengths in {unit}. Heights from the bare floor at its high spot; places from the {where}."]


def file_name(wall: str, side: str = "") -> str:
    """A name fit for any file system: letters, digits and hyphens."""
    text = fold(f"{wall} {side}".strip())
    clean = "".join(sign if sign.isascii() and sign.isalnum() else "-" for sign in text)
    return "elevation-" + ("-".join(part for part in clean.split("-") if part)[:60] or "wall")
