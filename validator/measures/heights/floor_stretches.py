"""The stretch of floor on which a run stands: how far its own high spot and low spot lie below the room's high spot."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.arithmetic import least, most
from validator.measures.room.walls import at_left, at_right, wall_of, worked
from validator.measures.rows import Given, Known, Row, Subject, figure, given
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from collections.abc import Iterable

    from validator.measures.site import Site


class StretchOfFloor(Row, kind="stretch of floor"):
    """The spots of a floor along one run, each as far as it lies below the high spot of the room."""

    levels: tuple[float, ...] = given(LENGTH, "spots", many=True)

    @figure(LENGTH, "high spot of the run", start="high spot of the floor", end="high spot of the run")
    def high(self) -> float:
        return least(self.levels)

    @figure(LENGTH, "low spot of the run", start="high spot of the floor", end="low spot of the run")
    def low(self) -> float:
        return most(self.levels)


class Stretch(NamedTuple):
    """How far the highest and the lowest spot under a run lie below the high spot of the room."""

    high: Given
    low: Given


def floor_under(site: Site, run: str) -> Stretch:
    """The floor under a run: between the spots in both corners of its wall where the plan names them by the walls.

    A spot whose name says no wall may be anywhere, and counts for every run. Where a corner of the wall has no spot
    of its own, the run stands on the whole floor: from its high spot to its low spot.
    """
    against = site.plan.runs[run].against
    levels = site.levels.at(wall_of(site.plan, run))
    whole, room = levels.fall, levels.room
    pointer = room.floor.pointer_to("levels") if room.floor is not None else f"{room.pointer_to('floor')}/levels"
    everywhere = Stretch(reading.exactly(0, pointer, "high spot of the floor"), whole)
    if not isinstance(whole, Known) or whole.origin is None or against not in room.walls:
        return everywhere
    spots = whole.origin[0].known["levels"].parts
    own = room.walls.written(against)
    corners = [(own, beside) for beside in (at_left(site.plan, own), at_right(site.plan, own)) if beside]
    if len(corners) < 2 or not all(any(all(_names(spot, wall) for wall in pair) for spot in spots) for pair in corners):
        return everywhere
    here: list[Given] = [spot for spot in spots if _names(spot, own) or not _names_any(spot, room.walls)]
    row = StretchOfFloor(Subject(run, pointer), levels=reading.parts(here))
    return Stretch(worked(row, "high", "high spot of the run"), worked(row, "low", "low spot of the run"))


def _names(spot: Known, wall: str) -> bool:
    """Whether the name of a spot has that of a wall in it, as `north-west corner` has north."""
    return f" {fold(wall.rpartition(' / ')[2])} " in f" {fold(spot.label)} "


def _names_any(spot: Known, walls: Iterable[str]) -> bool:
    return any(_names(spot, wall) for wall in walls)
