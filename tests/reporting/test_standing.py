"""How a plan stands, handed on as a text."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from validator.commands.inspecting import inspect
from validator.reporting.standing import packed, standing, unpacked

WEAVERS_ROW = Path(__file__).parents[2] / "plans_demo" / "weavers-row"


def test_what_is_packed_comes_out_as_it_went_in() -> None:
    found = standing(inspect(str(WEAVERS_ROW), [], date(2027, 3, 1)))
    assert not found.ready
    assert len({wrong.rule for wrong in found.wrong.values()}) == found.points
    assert unpacked(packed(found)) == found
    assert unpacked(packed(None)) is None
