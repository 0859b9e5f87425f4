"""Heights: floor layers, legs at the high and the low spot, worktops, and what has to go under them."""

from __future__ import annotations

from validator.measures.arithmetic import total
from validator.measures.rows import Row, Words, figure, given
from validator.plan.dimensions import LENGTH


class FloorBuildUp(Row, kind="floor build-up"):
    """The layers of a floor to be laid."""

    layers: tuple[float, ...] = given(LENGTH, "floor layers", many=True)

    @figure(LENGTH, "floor", start="bare floor at the high spot", end="finished floor")
    def thickness(self) -> float:
        return total(self.layers)


class UnitOnLegs(Row, kind="unit on legs"):
    """A unit standing on legs on a floor that is not level. All from the bare floor, or from the floor laid before."""

    setting: float = given(LENGTH, "legs at the high spot")
    fall: float = given(LENGTH, "low spot below the high spot")
    leg_least: float = given(LENGTH, "shortest its legs can be")
    leg_most: float = given(LENGTH, "longest its legs can be")

    @figure(LENGTH, "legs at the low spot", start="floor at the low spot", end="underside of the carcass")
    def at_low_spot(self) -> float:
        return self.setting + self.fall


class WorktopOnRun(Row, kind="worktop on a run"):
    """A worktop on its run; heights at the high spot."""

    laid_before: float = given(LENGTH, "floor under the units")  # 0 where the floor comes after the units
    setting: float = given(LENGTH, "legs")
    carcass: float = given(LENGTH, "unit")
    thickness: float = given(LENGTH, "worktop")
    finished_floor: float = given(LENGTH, "floor")

    @figure(LENGTH, "underside of the worktop", start="bare floor at the high spot", end="underside of the worktop")
    def underside(self) -> float:
        return self.laid_before + self.setting + self.carcass

    @figure(LENGTH, "worktop above the bare floor", start="bare floor at the high spot", end="surface of the worktop")
    def above_bare_floor(self) -> float:
        return self.underside + self.thickness

    @figure(LENGTH, "worktop", start="finished floor", end="surface of the worktop")
    def height(self) -> float:
        return self.above_bare_floor - self.finished_floor


class ApplianceUnderWorktop(Row, kind="appliance under a worktop"):
    """A machine that slides under a worktop: the opening before the last floor is laid, and after."""

    underside: float = given(LENGTH, "underside of the worktop")
    floor_before: float = given(LENGTH, "floor there when the units are set")
    floor_after: float = given(LENGTH, "floor")
    body: float = given(LENGTH, "the machine, feet wound in")
    laid: str = given(Words(("before units", "after units", "never")), "when the floor is laid")
    maker_opening: float = given(LENGTH, "opening the maker asks for")

    @figure(LENGTH, "opening before the floor is laid", start="floor", end="underside of the worktop")
    def opening_before(self) -> float:
        return self.underside - self.floor_before

    @figure(LENGTH, "opening", start="finished floor", end="underside of the worktop")
    def opening_after(self) -> float:
        return self.underside - self.floor_after
