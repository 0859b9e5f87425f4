"""Setting out: where every unit, opening and point comes to stand along its wall, from the order of the runs.

Places count from the left end of the wall, standing in the room and facing it; the walls are listed clockwise.
"""

from __future__ import annotations

from validator.measures.arithmetic import total
from validator.measures.rows import NAME, YES_NO, Row, figure, given
from validator.plan.dimensions import LENGTH


class UnitPlace(Row, kind="unit in a run"):
    """A unit, filler, panel, gap or opening of a run, along its wall."""

    start: float = given(LENGTH, "start of the run")
    before: tuple[float, ...] = given(LENGTH, "what stands before it", many=True)
    width: float = given(LENGTH, "width")
    run: str = given(NAME, "run")

    @figure(LENGTH, "left side", start="left end of the wall", end="left side")
    def left(self) -> float:
        return self.start + total(self.before)

    @figure(LENGTH, "right side", start="left end of the wall", end="right side")
    def right(self) -> float:
        return self.left + self.width

    @figure(LENGTH, "middle", start="left end of the wall", end="middle")
    def middle(self) -> float:
        return self.left + self.width / 2


class RunAgainstWall(Row, kind="run against its wall"):
    """A run and the wall it has to fit, at the tightest reading; `closing` is the piece that takes the rest."""

    wall: float = given(LENGTH, "wall")
    start: float = given(LENGTH, "start of the run")
    widths: tuple[float, ...] = given(LENGTH, "units", many=True)
    has_closing: bool = given(YES_NO, "whether a piece takes the rest")
    closing_least: float = given(LENGTH, "least the closing piece may be")
    closing_most: float = given(LENGTH, "most the closing piece may be")

    @figure(LENGTH, "taken up", start="left end of the wall", end="end of the last unit of fixed width")
    def taken(self) -> float:
        return self.start + total(self.widths)

    @figure(LENGTH, "left over", start="end of the units", end="right end of the wall")
    def left_over(self) -> float:
        return self.wall - self.start - total(self.widths)


class PointPlace(Row, kind="point on a wall"):
    """An electrical point: the middle of its plate along the wall and up from the bare floor and from the worktop."""

    along: float = given(LENGTH, "middle along the wall")
    up: float = given(LENGTH, "middle above the bare floor")
    plate_width: float = given(LENGTH, "width of the plate")
    plate_height: float = given(LENGTH, "height of the plate")
    worktop: float = given(LENGTH, "worktop above the bare floor")
    finished_floor: float = given(LENGTH, "finished floor above the bare floor")
    wall: str = given(NAME, "wall")

    @figure(LENGTH, "height above the worktop", start="worktop", end="middle of the plate")
    def above_worktop(self) -> float:
        return self.up - self.worktop

    @figure(LENGTH, "height above the finished floor", start="finished floor", end="middle of the plate")
    def above_floor(self) -> float:
        return self.up - self.finished_floor
