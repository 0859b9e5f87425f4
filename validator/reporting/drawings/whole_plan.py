"""All drawings of a plan that was judged, with the numbers of its report at the things they are about."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from validator.reporting.drawings.canvas import Drawing
from validator.reporting.drawings.corner_details import corner_details
from validator.reporting.drawings.elevations import elevations
from validator.reporting.drawings.floor_plans import floor_plans
from validator.reporting.points import Points, put_together

if TYPE_CHECKING:
    from validator.judging.apply import Judgement


def drawings_of(judged: Judgement) -> list[Drawing]:
    """Floor plans, elevations and details, in this order; each has a name of its own."""
    findings = numbers_by_thing(put_together(judged))
    found = floor_plans(judged.site, findings=findings)
    found += elevations(judged.site, findings=findings)
    found += corner_details(judged.site)
    return named_apart(found)


def numbers_by_thing(points: Points) -> dict[str, Sequence[int]]:
    """The numbers of points that are not met, by the name of each thing they are about.

    What is not known has no number on a drawing: it is dashed there, and named below.
    """
    found: dict[str, list[int]] = {}
    for point in points.points:
        for outcome in point.outcomes:
            numbers = found.setdefault(outcome.subject.name, [])
            if point.number not in numbers:
                numbers.append(point.number)
    return dict(found)


def named_apart(drawings: Sequence[Drawing]) -> list[Drawing]:
    """The drawings with a number behind names that would otherwise be those of others."""
    count: dict[str, int] = {}
    found = []
    for drawing in drawings:
        count[drawing.name] = count.get(drawing.name, 0) + 1
        found.append(drawing if count[drawing.name] == 1 else drawing.called(f"{drawing.name}-{count[drawing.name]}"))
    return found
