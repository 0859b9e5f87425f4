"""Which things of a run touch, so that they are joined to each other."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from validator.measures.rows import Known

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site

HAIR = 0.5
"""How near two sides count as one place."""


def touching(site: Site, run: str) -> Iterator[tuple[Standing, Standing]]:
    """The neighbours in the order of a run that touch, from the left.

    One that follows another touches it; one with a place of its own does where their sides come together.
    """
    for left, right in pairwise(site.setting_out.in_run(run)):
        placed = right.item.over is not None or right.item.corner is not None
        if not placed or _meet(site, left, right):
            yield left, right


def _meet(site: Site, left: Standing, right: Standing) -> bool:
    if site.levels.is_hung(left) != site.levels.is_hung(right):
        return False
    end, start = left.right, right.left
    return isinstance(end, Known) and isinstance(start, Known) and abs(float(end.value) - float(start.value)) <= HAIR
