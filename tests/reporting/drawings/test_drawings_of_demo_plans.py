"""Every drawing of every demo plan: whole, legible and the same each time."""

from __future__ import annotations

import functools
from datetime import date
from pathlib import Path

import pytest

from tests.reporting.drawings.svg import overlapping, read
from validator.commands.inspecting import inspect
from validator.reporting.drawings.canvas import Drawing, fits
from validator.reporting.drawings.elevations import FRAMES
from validator.reporting.drawings.whole_plan import drawings_of

DEMOS = sorted(path.name for path in (Path(__file__).parents[3] / "plans_demo").iterdir() if path.is_dir())


@functools.cache
def drawings(demo: str) -> tuple[Drawing, ...]:
    path = Path(__file__).parents[3] / "plans_demo" / demo
    return tuple(drawings_of(inspect(str(path), [], date(2027, 3, 1))))


@pytest.mark.parametrize("demo", DEMOS)
def test_no_two_texts_of_a_drawing_overlap(demo: str) -> None:
    found = {drawing.name: pairs for drawing in drawings(demo) if (pairs := list(overlapping(drawing)))}
    assert found == {}


@pytest.mark.parametrize("demo", DEMOS)
def test_every_drawing_fits_on_a4_and_on_letter_and_cuts_nothing(demo: str) -> None:
    for drawing in drawings(demo):
        assert drawing.scale in (10, 20, 25, 50)
        assert fits(drawing, FRAMES)
        for lettering in drawing.letterings:
            left, top, right, bottom = lettering.box
            assert min(left, top) >= 0, lettering.text
            assert right <= drawing.width, lettering.text
            assert bottom <= drawing.height, lettering.text


@pytest.mark.parametrize("demo", DEMOS)
def test_every_figure_of_a_chain_is_lettered(demo: str) -> None:
    assert [gap for drawing in drawings(demo) for gap in drawing.unknown if gap.startswith("no room")] == []


@pytest.mark.parametrize("demo", DEMOS)
def test_drawings_are_xml_with_a_title_and_names_of_their_own(demo: str) -> None:
    for drawing in drawings(demo):
        root = read(drawing)
        assert [child.tag.rpartition("}")[2] for child in root][:2] == ["title", "desc"]
        assert root.attrib["width"] == f"{drawing.width:g}mm" or float(root.attrib["width"][:-2]) == drawing.width
    names = [drawing.name for drawing in drawings(demo)]
    assert len(set(names)) == len(names)


def test_the_same_plan_makes_the_same_bytes() -> None:
    first = [drawing.svg() for drawing in drawings("weavers-row")]
    drawings.cache_clear()
    assert [drawing.svg() for drawing in drawings("weavers-row")] == first


def test_a_sheet_of_drawings_is_small() -> None:
    for demo in DEMOS:
        assert sum(len(drawing.svg().encode()) for drawing in drawings(demo)) < 200_000
