"""The drawings of a sheet: the floor from above, and each wall that concerns a trade, its own things strong."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from markupsafe import Markup

from validator.judging.apply import Judgement
from validator.reporting.sheets.content import Sheet


@dataclass(frozen=True)
class Drawings:
    """SVG to stand in a page: floors by room, and walls by name."""

    floors: Mapping[str, Markup] = field(default_factory=dict)
    walls: Mapping[str, Markup] = field(default_factory=dict)


def drawings_for(judgement: Judgement, sheet: Sheet) -> Drawings:
    """The drawings that go with a sheet."""
    return Drawings()
