"""Worktops as they are cut: finished lengths with what they pass and leave free at their ends, and their cut-outs."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.arithmetic import total
from validator.measures.room.walls import worked
from validator.measures.rows import Given, Known, Row, figure, given
from validator.measures.worktops.ends import End, end_of, finished_end
from validator.measures.worktops.joints import joints_of, place_of_joint
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from collections.abc import Iterator

    from validator.measures.site import Site
    from validator.measures.worktops.cut_outs import Placed
    from validator.measures.worktops.pieces import Piece


class FinishedLength(Row, kind="finished length of a worktop"):
    """A piece of a worktop over its units, with what it passes them and what stays free at its ends."""

    start: float = given(LENGTH, "where the units start")
    end: float = given(LENGTH, "where the units end")
    past: tuple[float, ...] = given(LENGTH, "past the units", many=True)
    free: tuple[float, ...] = given(LENGTH, "gap at the wall", many=True)

    @figure(LENGTH, "finished length", start="left end", end="right end")
    def length(self) -> float:
        return self.end - self.start + total(self.past) - total(self.free)


class FromLeftEnd(Row, kind="place on a worktop"):
    """Where the middle of a cut-out, or a joint, comes on its piece."""

    along: float = given(LENGTH, "along the wall")
    start: float = given(LENGTH, "where the units start")
    past: tuple[float, ...] = given(LENGTH, "past the units", many=True)
    free: tuple[float, ...] = given(LENGTH, "gap at the wall", many=True)

    @figure(LENGTH, "from the left end", start="left end of the worktop", end="middle of the cut-out, or the joint")
    def place(self) -> float:
        return self.along - self.start + total(self.past) - total(self.free)


class CutOut(NamedTuple):
    """An opening in a worktop: its size, where its middle comes from the left end, and how far from the front."""

    name: str
    across: Given
    front_to_back: Given
    from_left: Given
    from_front: Given | None


class JointAt(NamedTuple):
    """A joint within a piece: how it is joined, and how far from the left end."""

    form: str
    from_left: Given


class CutTop(NamedTuple):
    """A piece of a worktop as it is cut.

    `left` and `right` are its ends along the wall. `corner` is whether it meets another worktop there, where its joint
    is fitted before it is cut to length; `upstand` is the height of its upstand, where it has one.
    """

    piece: Piece
    left: Given
    right: Given
    length: Given
    joints: tuple[JointAt, ...]
    corner: bool
    cut_outs: tuple[CutOut, ...]
    upstand: Given | None


def cut_tops(site: Site) -> list[CutTop]:
    """Every piece of every worktop, in the plan's order."""
    every = (piece for of_one in site.worktop_pieces.values() for piece in of_one)
    pieces = [piece for piece in every if piece.lies_on_something]
    return [_cut_top(site, piece) for piece in pieces]


def _cut_top(site: Site, piece: Piece) -> CutTop:
    left, right = end_of(site, piece, "left"), end_of(site, piece, "right")
    placed = site.cut_outs.get(piece.name, [])
    return CutTop(
        piece,
        finished_end(piece, "left", left),
        finished_end(piece, "right", right),
        _length(piece, left, right),
        tuple(_joints(site, piece, left)),
        _round_a_corner(site, piece),
        tuple(_cut_out(each, left) for each in placed),
        _upstand(site, piece),
    )


def _length(piece: Piece, left: End, right: End) -> Given:
    row = FinishedLength(
        piece.subject,
        start=piece.start,
        end=piece.end,
        past=reading.parts([*left.past, *right.past]),
        free=reading.parts([*left.free, *right.free]),
    )
    return worked(row, "length", f"length of {piece.name}")


def _from_left(piece: Piece, along: Given, left: End, label: str) -> Given:
    row = FromLeftEnd(
        piece.subject,
        along=along,
        start=piece.start,
        past=reading.parts(list(left.past)),
        free=reading.parts(list(left.free)),
    )
    return worked(row, "place", label)


def _cut_out(placed: Placed, left: End) -> CutOut:
    name, appliance = placed.at.name, placed.at.appliance
    pointer, size = appliance.pointer_to("cut_out"), appliance.cut_out
    behind = (size.d or size.h) if size is not None else None
    return CutOut(
        name,
        reading.quantity(size.w if size is not None else None, pointer, f"cut-out of {name}"),
        reading.quantity(behind, pointer, f"cut-out of {name}"),
        _from_left(placed.piece, placed.at.middle, left, f"middle of {name}"),
        None if appliance.from_front is None else reading.read(appliance, "from_front", "from the front"),
    )


def _joints(site: Site, piece: Piece, left: End) -> Iterator[JointAt]:
    """The joints of a worktop that lie within this piece of it; one without a place may lie in any."""
    for called, joint in joints_of(piece.worktop, piece.top):
        along = place_of_joint(site, piece.top, joint, called)
        if _within(along, piece):
            form = joint.is_ if isinstance(joint.is_, str) else "joint"
            yield JointAt(form, _from_left(piece, along, left, f"place of the {called}"))


def _within(along: Given, piece: Piece) -> bool:
    if not isinstance(along, Known) or not isinstance(piece.start, Known) or not isinstance(piece.end, Known):
        return True
    return float(piece.start.value) < float(along.value) < float(piece.end.value)


def _round_a_corner(site: Site, piece: Piece) -> bool:
    """Whether a piece starts at the fronts of another run, or is said to be joined in a corner."""
    run = site.plan.runs[piece.top.on]
    return piece.top.corner is not None or (run.from_ is not None and bool(run.from_.fronts_of))


def _upstand(site: Site, piece: Piece) -> Given | None:
    """The height of an upstand, where there is one and a wall for it."""
    if site.plan.runs[piece.top.on].faces is not None:
        return None
    height = reading.read(piece.top, "upstand", f"upstand of {piece.worktop}")
    return height if isinstance(height, Known) else None
