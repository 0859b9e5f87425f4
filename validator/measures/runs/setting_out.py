"""Setting out: where every unit, opening and point comes to stand along its wall, from the order of the runs.

Places count from the left end of the wall, standing in the room and facing it; the walls are listed clockwise.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures.arithmetic import least, root, total
from validator.measures.rows import NAME, YES_NO, LeftOut, Missing, Row, Rows, figure, given
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.site import Site


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
    """A run and the wall it has to fit, at the tightest reading; `closing` is the piece that takes the rest.

    A run whose order is broken by things that stand by themselves (over a unit, in a corner, as built) gives a row a
    stretch, up to the next thing of the run; `ends_at_wall` is whether what is left over lies at a wall.
    Where the plan says how far widths may be off, the doubts add up in the worst case; independent ones, which seldom
    all go one way, combine as the root of the sum of their squares (NIST TN 1297, section 5).
    """

    wall: float = given(LENGTH, "wall")
    start: float = given(LENGTH, "start of the run")
    widths: tuple[float, ...] = given(LENGTH, "units", many=True)
    has_closing: bool = given(YES_NO, "whether a piece takes the rest")
    ends_at_wall: bool = given(YES_NO, "whether what is left over lies at a wall")
    closing_least: float = given(LENGTH, "least the closing piece may be")
    closing_most: float = given(LENGTH, "most the closing piece may be")
    says_tolerances: bool = given(YES_NO, "whether anything in it says how far its width may be off")
    tolerances: tuple[float, ...] = given(LENGTH, "how far the widths may be off", many=True)
    wall_middle: float = given(LENGTH, "middle of the wall's readings")
    wall_doubt: float = given(LENGTH, "readings of the wall, either way")

    @figure(LENGTH, "taken up", start="left end of the wall", end="end of the last unit of fixed width")
    def taken(self) -> float:
        return self.start + total(self.widths)

    @figure(LENGTH, "left over", start="end of the units", end="right end of the wall")
    def left_over(self) -> float:
        return self.wall - self.start - total(self.widths)

    @figure(LENGTH, "left over in the middle", start="end of the units", end="right end of the wall")
    def middle_left_over(self) -> float:
        return self.wall_middle - self.start - total(self.widths)

    @figure(LENGTH, "doubt at worst", start="middle", end="either end")
    def worst_doubt(self) -> float:
        return self.wall_doubt + total(self.tolerances)

    @figure(LENGTH, "likely doubt", start="middle", end="either end")
    def likely_doubt(self) -> float:
        return root(self.wall_doubt * self.wall_doubt + total([off * off for off in self.tolerances]))

    @figure(LENGTH, "least left over", start="end of the units", end="right end of the wall")
    def least_left_over(self) -> float:
        return self.middle_left_over - self.worst_doubt

    @figure(LENGTH, "most left over", start="end of the units", end="right end of the wall")
    def most_left_over(self) -> float:
        return self.middle_left_over + self.worst_doubt

    @figure(LENGTH, "least left over as is likely", start="end of the units", end="right end of the wall")
    def likely_least_left_over(self) -> float:
        return self.middle_left_over - self.likely_doubt


class PointPlace(Row, kind="point on a wall"):
    """An electrical point: the middle of its plate along the wall and up from the bare floor and from the worktop.

    `over_worktop` is whether a worktop lies below it at all: false for a point in or behind a unit, and on a wall
    without a worktop. Rules about the height above the worktop ask for it in their `when`.
    """

    along: float = given(LENGTH, "middle along the wall")
    up: float = given(LENGTH, "middle above the bare floor")
    plate_width: float = given(LENGTH, "width of the plate")
    plate_height: float = given(LENGTH, "height of the plate")
    worktop: float = given(LENGTH, "worktop above the bare floor")
    over_worktop: bool = given(YES_NO, "whether a worktop lies below it")
    finished_floor: float = given(LENGTH, "finished floor above the bare floor")
    wall: str = given(NAME, "wall")
    is_measured: bool = given(YES_NO, "whether its place is measured along the wall")
    wall_length: float = given(LENGTH, "length of the wall")
    ceiling: float = given(LENGTH, "ceiling above the bare floor")
    socket: bool = given(YES_NO, "whether it is a socket")
    protected: bool = given(YES_NO, "whether a device of 30 mA or less (a GFCI of 5 mA) protects it")

    @figure(LENGTH, "inside its wall", start="nearest edge of the wall", end="edge of the plate")
    def inside_wall(self) -> float:
        half_wide, half_high = self.plate_width / 2, self.plate_height / 2
        return least(
            self.along - half_wide,
            self.wall_length - self.along - half_wide,
            self.up - half_high,
            self.ceiling - self.up - half_high,
        )

    @figure(LENGTH, "height above the worktop", start="worktop", end="middle of the plate")
    def above_worktop(self) -> float:
        return self.up - self.worktop

    @figure(LENGTH, "height above the finished floor", start="finished floor", end="middle of the plate")
    def above_floor(self) -> float:
        return self.up - self.finished_floor


def unit_places(site: Site) -> Rows:
    """A row for each thing of each run, in the plan's order."""
    if site.plan.runs.left_out:
        return Rows(left_out=[LeftOut(UnitPlace.kind, Missing("/runs", "runs of units"))])
    rows = Rows()
    for standing in site.setting_out.things():
        standing.row.subject = standing.subject
        rows.rows.append(standing.row)
    return rows


def runs_against_walls(site: Site) -> Rows:
    """A row for each run, or for each stretch of a run that is broken by things which stand by themselves."""
    if site.plan.runs.left_out:
        return Rows(left_out=[LeftOut(RunAgainstWall.kind, Missing("/runs", "runs of units"))])
    return Rows(list(site.setting_out.stretches()))
