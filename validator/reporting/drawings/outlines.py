"""Outlines of worktops and panels as DXF, for the shop that cuts them: real mm, seen from above, the front edge below.

One file a piece. Layers: OUTLINE, CUT_OUT, JOINT, TEXT. A piece that lacks a figure is not drawn, and is named. The
file holds no clock, no chance and no user, so that the same plan gives the same bytes.
"""

from __future__ import annotations

import io
import math
from typing import TYPE_CHECKING

import ezdxf
from ezdxf import colors, units
from ezdxf.filemanagement import new

from validator.measures import reading
from validator.measures.rows import Given
from validator.measures.worktops.cuts import cut_tops
from validator.plan.values import Quantity
from validator.reporting.drawings.elevations import file_name
from validator.reporting.drawings.lettering import clean
from validator.reporting.drawings.wall_things import gaps_of, value

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.measures.worktops.cuts import CutOut, CutTop

OUTLINE, CUT_OUT, JOINT, TEXT = "OUTLINE", "CUT_OUT", "JOINT", "TEXT"
LAYERS = {OUTLINE: colors.WHITE, CUT_OUT: colors.RED, JOINT: colors.BLUE, TEXT: colors.GREEN}
LETTERS = 25.0
"""How high letters are, in mm of the piece."""

UNORDERED = ("ACDBPLACEHOLDER", "LAYOUT")
"""Classes that the library would otherwise write in an order that changes from run to run."""

QUARTER = math.tan(math.pi / 8)
"""The bulge of a quarter turn in a polyline."""


def outlines_of(site: Site) -> tuple[dict[str, bytes], list[str]]:
    """The files by their names, and what is missing for the pieces that are not drawn."""
    files: dict[str, bytes] = {}
    missing: list[str] = []
    for top in cut_tops(site):
        drawn = _worktop(site, top, missing)
        if drawn is not None:
            files[_free_name(files, f"worktop-{top.piece.name}")] = drawn
    for thing in site.setting_out.things():
        if thing.item.family == "panel":
            panel = _panel(thing, missing)
            if panel is not None:
                files[_free_name(files, f"panel-{thing.run}-{thing.name}")] = panel
    return files, missing


def safe(text: str) -> str:
    """A name as DXF takes it: one line, and none of the signs that stand for something else in it."""
    return clean(text).replace("^", "^ ").replace("%%", "% %")


def _free_name(files: dict[str, bytes], wanted: str) -> str:
    stem = file_name(wanted).removeprefix("elevation-")
    name, number = f"{stem}.dxf", 2
    while name in files:
        name, number = f"{stem}-{number}.dxf", number + 1
    return name


def _worktop(site: Site, top: CutTop, missing: list[str]) -> bytes | None:
    piece, length, depth = top.piece, value(top.length), value(top.piece.depth)
    gaps = [*gaps_of(top.length), *gaps_of(piece.depth)]
    if length is None or depth is None or length <= 0 or depth <= 0:
        missing += gaps or [f"size of {piece.name}"]
        return None
    document, space = _sheet()
    _box(space, OUTLINE, 0.0, 0.0, length, depth)
    notes = [piece.name, f"{_number(length)} x {_number(depth)}" + _thick(piece.thickness) + ", front edge below"]
    if top.corner:
        notes.append("meets another worktop in a corner: cut to length once that joint is fitted")
    if _doubtful(top.length):
        notes.append("its length rests on readings that differ: measure before it is cut")
    for joint in top.joints:
        at = value(joint.from_left)
        if at is None:
            missing += gaps_of(joint.from_left)
        else:
            space.add_line((at, 0.0), (at, depth), dxfattribs={"layer": JOINT})
            notes.append(f"{joint.form} at {_number(at)} from the left end")
    for cut in top.cut_outs:
        notes += _cut_out(site, space, cut, missing)
    _letter(space, notes)
    return _bytes(document)


def _cut_out(site: Site, space: Modelspace, cut: CutOut, missing: list[str]) -> list[str]:
    """A cut-out, with round inside corners where the plan says how round; the notes about it."""
    given = [cut.from_left, cut.across, cut.front_to_back]
    figures = [value(each) for each in given] + [value(cut.from_front)]
    if None in figures:
        gaps = [gap for each in given for gap in gaps_of(each)]
        missing += gaps or [f"how far {cut.name} is from the front"]
        return [f"cut-out of {cut.name}: not drawn, since it is not all known"]
    middle, across, deep, front = (figure or 0.0 for figure in figures)
    radius = _radius(site, cut.name)
    left, right = middle - across / 2, middle + across / 2
    _box(space, CUT_OUT, left, front, right, front + deep, min(radius or 0.0, across / 2, deep / 2))
    told = f"cut-out of {cut.name}: {_number(across)} x {_number(deep)}"
    return [
        told + (f", corners {_number(radius)} round" if radius is not None else ", radius of its corners not known")
    ]


def _radius(site: Site, name: str) -> float | None:
    appliance = site.plan.appliances.get(name)
    if appliance is None or not isinstance(appliance.corners, Quantity):
        return None
    return value(reading.read(appliance, "corners", "corners"))


def _panel(thing: Standing, missing: list[str]) -> bytes | None:
    height, depth = (reading.read(thing.item, field, f"{field} of {thing.name}") for field in ("height", "depth"))
    tall, deep = value(height), value(depth)
    if tall is None or deep is None or tall <= 0 or deep <= 0:
        missing += [*gaps_of(height), *gaps_of(depth)]
        return None
    document, space = _sheet()
    _box(space, OUTLINE, 0.0, 0.0, deep, tall)
    width = thing.row.known.get("width")
    _letter(space, [thing.name, f"{_number(tall)} x {_number(deep)}" + (_thick(width) if width is not None else "")])
    return _bytes(document)


def _sheet() -> tuple[Drawing, Modelspace]:
    document = new("R2010", setup=False, units=units.MM)
    for name, color in LAYERS.items():
        document.layers.add(name, color=color)
    return document, document.modelspace()


def _box(
    space: Modelspace, layer: str, left: float, low: float, right: float, high: float, radius: float = 0.0
) -> None:
    """A closed rectangle, anticlockwise, its corners rounded by quarter turns where there is a radius."""
    corners: list[tuple[float, float, float]] = []
    for (x, y), (ax, ay), (bx, by) in (
        ((left, low), (0, 1), (1, 0)),
        ((right, low), (-1, 0), (0, 1)),
        ((right, high), (0, -1), (-1, 0)),
        ((left, high), (1, 0), (0, -1)),
    ):
        if radius > 0:
            corners.append((x + ax * radius, y + ay * radius, QUARTER))
            corners.append((x + bx * radius, y + by * radius, 0.0))
        else:
            corners.append((x, y, 0.0))
    space.add_lwpolyline(corners, format="xyb", close=True, dxfattribs={"layer": layer})


def _letter(space: Modelspace, notes: list[str]) -> None:
    """The notes below the piece, a line each."""
    for number, note in enumerate(notes):
        place = (0.0, -LETTERS * (2.0 + 1.6 * number))
        space.add_text(safe(note), height=LETTERS, dxfattribs={"layer": TEXT}).set_placement(place)


def _thick(thickness: Given) -> str:
    thick = value(thickness)
    return f" x {_number(thick)}" if thick is not None else ", thickness not known"


def _doubtful(given: Given) -> bool:
    return getattr(given, "low", None) != getattr(given, "high", None)


def _number(figure: float) -> str:
    return f"{figure:.1f}".removesuffix(".0")


def _bytes(document: Drawing) -> bytes:
    """The file, without what the library would write of the clock and of itself."""
    options = ezdxf.options  # type: ignore[attr-defined]
    kept = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    document.ezdxf_metadata()["CREATED_BY_EZDXF"] = "Dryfit"
    for name in UNORDERED:
        document.classes.add_class(name)
    try:
        stream = io.StringIO()
        document.write(stream)
    finally:
        options.write_fixed_meta_data_for_testing = kept
    return stream.getvalue().encode(document.output_encoding, errors="replace")
