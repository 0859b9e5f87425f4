"""The two ends of an island: how deep its units and its worktop are, and how high."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from validator.plan.dimensions import LENGTH
from validator.plan.names import fold
from validator.reporting.drawings.canvas import Canvas, Drawing, Kind, to_scale
from validator.reporting.drawings.dimensions import Axis, Mark, Span, chain, running
from validator.reporting.drawings.lettering import shown
from validator.reporting.drawings.wall_things import Part, surface_of, value
from validator.reporting.printing import Printer

if TYPE_CHECKING:
    from validator.measures.plane.footprints import Footprint
    from validator.measures.site import Site


def end_of_island(
    site: Site, run: str, side: str, parts: Sequence[Part], frames: Sequence[tuple[float, float]]
) -> Drawing | None:
    """One end, with the fronts at the right of the left end and at the left of the right one; None without a place."""
    footprints = site.plane.of_run.get(fold(run), [])
    units = [each for each in footprints if each.standing is not None]
    tops = [each for each in footprints if each.standing is None]
    highs = [part for part in parts if part.high is not None and part.family == "unit"]
    if not units or not highs:
        return None
    outer = units[0] if side == "left end" else units[-1]
    part = next((part for part in highs if part.name == outer.name), highs[0])

    def drawn(scale: int) -> Drawing:
        return _drawn(site, run, side, outer, tops, part, scale)

    return to_scale(drawn, (abs(outer.face - outer.back), part.high or 0.0), frames)


def _drawn(
    site: Site, run: str, side: str, outer: Footprint, tops: Sequence[Footprint], part: Part, scale: int
) -> Drawing:
    printer = Printer(site)
    canvas = Canvas(scale, printer.text)
    far = max(outer.back, outer.face, *(edge for top in tops for edge in (top.back, top.face)))
    near = min(outer.back, outer.face, *(edge for top in tops for edge in (top.back, top.face)))

    def across(out: float) -> float:
        return far - out if side == "left end" else out - near

    left, right = sorted((across(outer.back), across(outer.face)))
    canvas.line(Kind.EDGE, (0, 0), (far - near, 0), of="bare floor")
    canvas.rectangle(Kind.EDGE, left, part.carcass or 0.0, right, part.high or 0.0, outer.name)
    levels = {0.0: "bare floor", part.high or 0.0: printer.text("carcass")}
    finished = value(site.levels.at(run).finished_floor)
    if finished:
        canvas.line(Kind.LIGHT, (0, finished), (far - near, finished), of="finished floor")
        levels[finished] = "finished floor"
    row = site.levels.worktop_on(run)
    surface = value(surface_of(row)) if row is not None else None
    thick = value(row.known.get("thickness")) if row is not None else None
    spans = []
    if surface is not None and thick is not None and tops:
        start, end = sorted((across(tops[0].back), across(tops[0].face)))
        canvas.rectangle(Kind.EDGE, start, surface - thick, end, surface, tops[0].name)
        levels[surface] = printer.text("worktop")
        spans.append(Span(start / scale, end / scale, printer.value(end - start, LENGTH)))
    wide = (far - near) / scale
    below = Axis((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))
    carcass = [Span(left / scale, right / scale, printer.value(right - left, LENGTH))]
    chain(canvas, below, spans, chain(canvas, below, carcass, 1.0) + 1.0)
    marks = [Mark(height / scale, printer.value(height, LENGTH), what) for height, what in levels.items()]
    running(canvas, Axis((wide, 0.0), (0.0, -1.0), (1.0, 0.0)), marks, 3.0)
    title = f"{run}, {side}"
    from validator.reporting.drawings.elevations import file_name

    notes = ["Heights from the bare floor at its high spot. Depths with the fronts."]
    return canvas.finished(file_name(run, side), shown(title[:1].upper() + title[1:]), notes)
