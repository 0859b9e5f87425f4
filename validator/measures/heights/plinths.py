"""Plinths: the gap under the units that the board has to close, once the floor is laid, and the space for the toes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import least, most
from validator.measures.heights.floor_stretches import floor_under
from validator.measures.heights.heights import has_legs
from validator.measures.room.walls import called_wall, named_gap, wall_of
from validator.measures.rows import YES_NO, Given, Known, LeftOut, Missing, Row, Rows, Subject, figure, given
from validator.plan.dimensions import LENGTH
from validator.plan.values import NothingStated

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site


class PlinthOfRun(Row, kind="plinth of a run"):
    """The gap between the floor and the units of a run on legs, at both ends of its floor, and the board before it.

    A floor laid before the units runs on under them; one laid after them ends at the plinth and takes its thickness
    off the gap.
    """

    laid_before: float = given(LENGTH, "floor under the units")
    settings: tuple[float, ...] = given(LENGTH, "legs", many=True)
    rise: float = given(LENGTH, "high spot of the run below the high spot")
    fall: float = given(LENGTH, "low spot below the high spot")
    finished_floor: float = given(LENGTH, "floor")
    board: float = given(LENGTH, "plinth board")
    has_set_back: bool = given(YES_NO, "whether the plan says how far it is set back")
    set_back: float = given(LENGTH, "plinth behind the fronts")

    @figure(LENGTH, "plinth at the high spot", start="finished floor at the high spot", end="underside of the carcass")
    def at_high_spot(self) -> float:
        return self.laid_before + least(self.settings) + self.rise - self.finished_floor

    @figure(LENGTH, "plinth at the low spot", start="finished floor at the low spot", end="underside of the carcass")
    def at_low_spot(self) -> float:
        return self.laid_before + most(self.settings) + self.fall - self.finished_floor

    @figure(LENGTH, "room for the toes", start="face of the fronts", end="face of the plinth")
    def toe_space(self) -> float:
        return self.set_back

    @figure(LENGTH, "to cut off the board", start="finished floor at the high spot", end="lower edge of the board")
    def to_cut(self) -> float:
        return self.board - self.at_high_spot


def plinths_of_runs(site: Site) -> Rows:
    """A row for each run with units on legs that do not all show their legs."""
    plan = site.plan
    if plan.runs.left_out:
        return Rows(left_out=[LeftOut(PlinthOfRun.kind, Missing("/runs", "runs of units"))])
    rows = Rows()
    for run in plan.runs:
        units = [thing for thing in site.setting_out.in_run(run) if thing.item.family == "unit"]
        standing = [unit for unit in units if not site.levels.is_hung(unit) and has_legs(site, unit)]
        closed = [unit for unit in standing if not isinstance(unit.item.plinth, NothingStated)]
        if closed:
            rows.rows.append(_plinth(site, run, closed))
    return rows


def _plinth(site: Site, run: str, units: list[Standing]) -> Row:
    wall, floor = wall_of(site.plan, run), floor_under(site, run)
    room = site.levels.at(wall)
    settings = {_where(setting): setting for setting in map(site.levels.setting_of, units)}
    backs = [unit.item for unit in units if unit.item.set_back is not None]
    said = backs[0] if backs else units[0].item
    return PlinthOfRun(
        Subject(run, site.plan.runs[run].pointer, called_wall(site.plan, wall), wall),
        laid_before=room.laid_before,
        settings=reading.parts(list(settings.values())),
        rise=floor.high,
        fall=floor.low,
        finished_floor=room.finished_floor,
        board=_board(units),
        has_set_back=reading.exactly(bool(backs), said.pointer_to("set_back"), "whether it is set back"),
        set_back=reading.read(said, "set_back", "plinth behind the fronts"),
    )


def _board(units: list[Standing]) -> Given:
    """The board of a run: the lowest of those its units say; one of them is enough to say it for all."""
    boards = [
        named_gap(reading.read(unit.item, "plinth", "plinth board"), "height of the plinth board") for unit in units
    ]
    known = [board for board in boards if isinstance(board, Known)]
    return min(known, key=lambda board: float(board.value)) if known else boards[0]


def _where(setting: Given) -> object:
    """Where a setting is written, so that one that many units share is read once."""
    return setting.pointer if isinstance(setting, Known | Missing) else setting
