"""The ends of a worktop's pieces as they are cut: past the units where they are free, short of a wall by its gap."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple

from validator.measures import reading
from validator.measures.arithmetic import total
from validator.measures.plane.clear_ways import sides_called
from validator.measures.room.walls import length_of, worked
from validator.measures.rows import Given, Known, Missing, Row, figure, given
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.measures.worktops.pieces import Piece

HAIR = 0.5
"""How near to a wall an end counts as standing at it."""


Side = Literal["left", "right"]
SIDES: tuple[Side, Side] = ("left", "right")


class FinishedEnd(Row, kind="finished end of a worktop"):
    """Where an end of a piece comes along its wall, from the end of the units under it."""

    units: float = given(LENGTH, "end of the units")
    past: tuple[float, ...] = given(LENGTH, "past the units", many=True)
    free: tuple[float, ...] = given(LENGTH, "gap at the wall", many=True)

    @figure(LENGTH, "left end", start="left end of the wall", end="left end of the worktop")
    def left(self) -> float:
        return self.units - total(self.past) + total(self.free)

    @figure(LENGTH, "right end", start="left end of the wall", end="right end of the worktop")
    def right(self) -> float:
        return self.units + total(self.past) - total(self.free)


class End(NamedTuple):
    """What a piece adds and leaves free at one end."""

    past: tuple[Given, ...] = ()
    free: tuple[Given, ...] = ()


def finished_ends(site: Site, piece: Piece) -> tuple[Given, Given]:
    """Where a piece starts and ends along its wall as it is cut."""
    left, right = (finished_end(piece, side, end_of(site, piece, side)) for side in SIDES)
    return left, right


def finished_end(piece: Piece, side: Side, end: End) -> Given:
    """Where one end of a piece comes along its wall, with what it passes and leaves free there."""
    units = piece.start if side == "left" else piece.end
    row = FinishedEnd(
        piece.subject, units=units, past=reading.parts(list(end.past)), free=reading.parts(list(end.free))
    )
    return worked(row, side, f"{side} end of {piece.name}")


def end_of(site: Site, piece: Piece, side: Side) -> End:
    """What happens at an end of a piece: at a wall a gap, beside something nothing, in the open what it passes."""
    top = piece.top
    if _at_wall(site, piece, side):
        return End() if top.gap_at_wall is None else End(free=(reading.read(top, "gap_at_wall", "gap at the wall"),))
    if _beside(site, piece, side):
        return End()
    said = [written for written in top.past or {} if side in sides_called(site, top, written)]
    if top.past is not None and said:
        one_side = min(said, key=lambda written: len(sides_called(site, top, written)))
        pointer = f"{top.pointer_to('past')}/{one_side}"
        return End(past=(reading.quantity(top.past[one_side], pointer, f"past the {side} end"),))
    if top.past_end is not None:
        return End(past=(reading.read(top, "past_end", f"past the {side} end"),))
    label = f"how far {piece.name} passes its {side} end"
    return End(past=(Missing(top.pointer_to("past_end"), label),))


def _at_wall(site: Site, piece: Piece, side: Side) -> bool:
    run = site.plan.runs[piece.top.on]
    place = piece.start if side == "left" else piece.end
    if run.faces is not None or not isinstance(place, Known):
        return False
    if side == "left":
        return float(place.low or 0.0) <= HAIR
    wall = length_of(site.plan, run.against)
    return isinstance(wall, Known) and float(place.high or 0.0) >= float(wall.low or 0.0) - HAIR


def _beside(site: Site, piece: Piece, side: Side) -> bool:
    """Whether a piece ends at something that stands there: a tall unit, a cooker, or the run round the corner."""
    run = site.plan.runs[piece.top.on]
    corner = "right" if site.setting_out.ends[site.plan.runs.written(piece.top.on)].from_right else "left"
    things = [thing for thing in site.setting_out.in_run(piece.top.on) if not site.levels.is_hung(thing)]
    names = [thing.name for thing in things]
    at = names.index(piece.below[0 if side == "left" else -1].name) + (-1 if side == "left" else 1)
    if 0 <= at < len(things):
        return things[at].item.family != "gap"
    return side == corner and run.from_ is not None and bool(run.from_.fronts_of)
