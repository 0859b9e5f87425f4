"""Worktops to carry in: what each piece weighs, joint to joint, and how many carry it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.rows import YES_NO, Given, LeftOut, Missing, Row, Rows, Subject, figure, given
from validator.measures.worktops.lengths import joint_to_joint
from validator.measures.worktops.materials import of_material
from validator.plan.dimensions import DENSITY, LENGTH, MASS, NUMBER

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.measures.worktops.pieces import Piece


class WorktopToCarry(Row, kind="worktop to carry in"):
    """A length of a worktop as it comes in, without what is cut out of it; `by_hand` unless its supplier brings it."""

    start: float = given(LENGTH, "where it starts")
    end: float = given(LENGTH, "where it ends")
    depth: float = given(LENGTH, "depth")
    thickness: float = given(LENGTH, "thickness")
    density: float = given(DENSITY, "weight of the material")
    by_hand: bool = given(YES_NO, "whether it is carried by hand")
    persons: float = given(NUMBER, "how many carry it")

    @figure(MASS, "weight of the worktop")
    def mass(self) -> float:
        return (self.end - self.start) * self.depth * self.thickness * self.density


def worktops_to_carry(site: Site) -> Rows:
    """A row for each length of each worktop, from joint to joint."""
    if site.plan.worktops.left_out:
        return Rows(left_out=[LeftOut(WorktopToCarry.kind, Missing("/worktops", "worktops"))])
    found = Rows()
    for pieces in site.worktop_pieces.values():
        for piece in pieces:
            if not piece.lies_on_something:
                continue  # what closes a run at a wall beside a tall unit has no top to carry
            found.rows += [_row(site, piece, *length) for length in joint_to_joint(site, piece)]
    return found


def _row(site: Site, piece: Piece, subject: Subject, start: Given, end: Given) -> Row:
    carriers = piece.top.carried_by
    pointer = piece.top.pointer_to("carried_by")
    label = f"how many carry {piece.worktop}"
    persons: Given = Missing(pointer, label)
    if not isinstance(carriers, str):
        persons = reading.quantity(carriers, pointer, label)
    by_hand = reading.exactly(carriers != "supplier", pointer, "whether it is carried by hand")
    return WorktopToCarry(
        subject,
        start=start,
        end=end,
        depth=piece.depth,
        thickness=piece.thickness,
        density=of_material(site, piece, "top-density", "density", "weight"),
        by_hand=by_hand,
        persons=persons,
    )
