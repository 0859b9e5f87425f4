"""Outlines for the saw: real mm, named layers, the same bytes each time. The file is read back by the library that
writes it, the one reader of DXF there is in the registry of Python packages that is well kept.
"""

from __future__ import annotations

import io
import os
import subprocess
import sys
from typing import Any

import pytest

from tests.measures.plans import site

ezdxf = pytest.importorskip("ezdxf")

TOPS = """
heights from: bare floor
walls: {north: {length: 4000}, east: {length: 3000}, south: {length: 4000}, west: {length: 3000}}
floors: none
kinds:
  base: {height: 720, depth: 560, front: 19}
  worktop: {thickness: 38, depth: 600, gap at wall: 0, past end: 20}
  panel: {height: 870, depth: 600}
runs:
  galley: {against: north, legs: 150 at high spot, order: {B1: base 600, B2: base 800, P1: panel 18}}
worktops: {NAME: {on: galley, joint: butt at 700 from west}}
appliances: {sink: {in: B2, cut-out: 700 x 480, from front: 60, corners: 10}}
"""


def files(text: str, name: str = "top") -> tuple[dict[str, bytes], list[str]]:
    from validator.reporting.drawings.outlines import outlines_of

    return outlines_of(site(text.replace("NAME", name)))


def read(content: bytes) -> Any:
    document = ezdxf.read(io.StringIO(content.decode()))
    assert not document.audit().errors
    return document


def corners(line: Any) -> list[tuple[float, ...]]:
    return [tuple(map(float, point)) for point in line.get_points("xy")]


def test_a_worktop_has_its_outline_cut_out_and_joint_in_mm() -> None:
    found, missing = files(TOPS)
    space = read(found["worktop-top.dxf"]).modelspace()
    (outline,) = space.query('LWPOLYLINE[layer=="OUTLINE"]')
    assert [tuple(map(float, point)) for point in outline.get_points("xy")] == [
        (0, 0),
        (1438, 0),
        (1438, 600),
        (0, 600),
    ]
    (cut,) = space.query('LWPOLYLINE[layer=="CUT_OUT"]')
    points = corners(cut)
    assert (min(x for x, _ in points), max(x for x, _ in points)) == (650, 1350)
    assert (min(y for _, y in points), max(y for _, y in points)) == (60, 540)
    assert len(points) == 8  # four corners, each a quarter turn of radius 10
    (joint,) = space.query('LINE[layer=="JOINT"]')
    assert (joint.dxf.start.x, joint.dxf.end.y) == (700, 600)
    assert missing == []


def test_a_panel_has_its_outline() -> None:
    space = read(files(TOPS)[0]["panel-galley-p1.dxf"]).modelspace()
    (outline,) = space.query('LWPOLYLINE[layer=="OUTLINE"]')
    assert corners(outline) == [(0, 0), (600, 0), (600, 870), (0, 870)]


def test_units_are_millimetres() -> None:
    assert read(files(TOPS)[0]["worktop-top.dxf"]).units == 4


def test_what_lacks_a_figure_is_named_and_not_drawn() -> None:
    found, missing = files(TOPS.replace("depth: 600, gap", "gap"))
    assert list(found) == ["panel-galley-p1.dxf"]
    assert missing == ["depth of top"]


@pytest.mark.parametrize("name", ["'<script>%%c^J'", "'x x x'", "'\U0001f9c1 \u05e9'", f"'{'y' * 200}'"])
def test_names_stay_text(name: str) -> None:
    found, _ = files(TOPS, name)
    (stem, *_) = found
    assert stem.isascii()
    assert "/" not in stem
    first = next(iter(read(found[stem]).modelspace().query("TEXT")))
    assert "%%" not in first.dxf.text
    assert "\n" not in first.dxf.text


def test_the_bytes_hang_on_no_clock_and_no_chance() -> None:
    program = (
        "import hashlib; from tests.reporting.drawings.test_outlines import TOPS, files; "
        "print(hashlib.sha256(b''.join(files(TOPS)[0].values())).hexdigest())"
    )
    digests = {
        subprocess.run(
            [sys.executable, "-c", program],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(digests) == 1
