"""Joints of worktops: what lies below each, the nearest cut-out, and how two tops meet in a corner."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import least, most
from validator.measures.room.corners import RIGHT, corner_found
from validator.measures.room.walls import place_along, which_end
from validator.measures.rows import (
    NAME,
    TERM,
    YES_NO,
    Given,
    Known,
    LeftOut,
    Missing,
    Row,
    Rows,
    Subject,
    Why,
    Words,
    figure,
    given,
)
from validator.measures.worktops.pieces import OPEN
from validator.plan.dimensions import ANGLE, LENGTH, NUMBER
from validator.plan.names import fold
from validator.plan.pointers import join

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.measures.worktops.pieces import Piece
    from validator.plan.sections.furniture import Joint, Worktop

NO_STRETCH = "there is none along this worktop"


class WorktopJoint(Row, kind="joint of a worktop"):
    """A joint in a worktop, or of two worktops in a corner; along the wall of the top that butts onto the other."""

    form: str = given(Words(("butt", "mitre", "masons mitre")), "how it is joined")
    at_corner: bool = given(YES_NO, "whether it is in a corner")
    material: str = given(TERM, "material of the worktop")
    depth: float = given(LENGTH, "worktop, front to back")
    at: float = given(LENGTH, "joint")
    start: float = given(LENGTH, "left end of the worktop")
    end: float = given(LENGTH, "right end of the worktop")
    has_opening: bool = given(YES_NO, "whether the worktop lies over an opening")
    opening: str = given(NAME, "opening")
    opening_left: float = given(LENGTH, "left side of the opening")
    opening_right: float = given(LENGTH, "right side of the opening")
    has_cut_out: bool = given(YES_NO, "whether the worktop has a cut-out")
    cut_out: str = given(NAME, "cut-out")
    cut_left: float = given(LENGTH, "left edge of the cut-out")
    cut_right: float = given(LENGTH, "right edge of the cut-out")
    corner_angle: float = given(ANGLE, "corner")
    bolts: float = given(NUMBER, "bolts")
    filled_with: str = given(TERM, "what the joint is filled with")
    width: float = given(LENGTH, "width of the joint")
    step: float = given(LENGTH, "step in the joint")

    @figure(LENGTH, "worktop beside the joint", start="joint", end="nearer end of the worktop")
    def from_end(self) -> float:
        return least(self.at - self.start, self.end - self.at)

    @figure(LENGTH, "clear of the opening", start="side of the opening", end="joint")
    def clear_of_opening(self) -> float:
        return most(self.opening_left - self.at, self.at - self.opening_right)

    @figure(LENGTH, "clear of the cut-out", start="edge of the cut-out", end="joint")
    def clear_of_cut_out(self) -> float:
        return most(self.cut_left - self.at, self.at - self.cut_right)


def worktop_joints(site: Site) -> Rows:
    """A row for each joint that a worktop says, and one for each corner in which the tops of two runs meet."""
    if site.plan.worktops.left_out:
        return Rows(left_out=[LeftOut(WorktopJoint.kind, Missing("/worktops", "worktops"))])
    rows = Rows()
    for name, top in site.plan.worktops.items():
        for called, joint in joints_of(name, top):
            rows.rows.append(_in_a_top(site, called, joint, name, top))
    for run in site.plan.runs:
        rows.rows += _corner(site, run)
    return rows


def joints_of(name: str, top: Worktop) -> Iterator[tuple[str, Joint]]:
    """The joints along a worktop, each with what a reader calls it."""
    if top.joint is not None:
        yield f"joint of {name}", top.joint
    for called, joint in (top.joints or {}).items():
        yield f"joint {called} of {name}", joint


def _in_a_top(site: Site, called: str, joint: Joint, name: str, top: Worktop) -> Row:
    at = place_of_joint(site, top, joint, called)
    pieces = site.worktop_pieces[name]
    piece = next((piece for piece in pieces if _lies_in(at, piece)), pieces[0] if pieces else None)
    return _row(site, called, joint, top, piece, at)


def place_of_joint(site: Site, top: Worktop, joint: Joint, called: str) -> Given:
    """Where a joint lies along the wall of its worktop."""
    pointer = joint.pointer_to("at")
    run = site.plan.runs.get(top.on)
    if joint.at is None or run is None:
        return Missing(pointer, f"where the {called} lies")
    return place_along(site.plan, run.against, joint.at, pointer, "joint")


def _lies_in(at: Given, piece: Piece) -> bool:
    ends = (piece.start, at, piece.end)
    if not all(isinstance(end, Known) for end in ends):
        return False
    start, place, end = (float(end.value) for end in ends if isinstance(end, Known))
    return start <= place <= end


def _corner(site: Site, name: str) -> list[Row]:
    """The joint in the corner where a run starts at the fronts of another: of the worktops that reach it."""
    plan, run = site.plan, site.plan.runs[name]
    other = run.from_.fronts_of if run.from_ is not None else ""
    if not other or other not in plan.runs:
        return []
    from_right = site.setting_out.ends[plan.runs.written(name)].from_right
    piece = _last_piece(site, name, "right" if from_right else "left")
    met = _last_piece(site, other, which_end(plan, plan.runs[other].against, run.against))
    if piece is None or met is None:
        return []
    at = piece.end if from_right else piece.start
    called = f"corner of {piece.worktop} and {met.worktop}"
    return [_row(site, called, _corner_joint(piece, met), piece.top, piece, at, other=met.top)]


def _last_piece(site: Site, run: str, side: str) -> Piece | None:
    """The piece of worktop that lies over the last thing at one end of a run; none where that stands through it.

    A gap there is a corner that the worktop closes.
    """
    standing = [thing for thing in site.setting_out.in_run(run) if not site.levels.is_hung(thing)]
    things = [thing for thing in standing if thing.item.family != "gap"]
    if not things:
        return None
    last = things[-1 if side == "right" else 0].name
    pieces = [
        piece
        for name, top in site.plan.worktops.items()
        if fold(top.on) == fold(run)
        for piece in site.worktop_pieces[name]
    ]
    return next((piece for piece in pieces if any(thing.name == last for thing in piece.below)), None)


def _corner_joint(piece: Piece, met: Piece) -> Joint | None:
    """What either top says of the joint in their corner; one that names a third top speaks of another corner."""
    for one, other in ((piece, met), (met, piece)):
        joint = one.top.corner
        if joint is not None and fold(joint.with_ or other.worktop) == fold(other.worktop):
            return joint
    return None


def _row(
    site: Site,
    called: str,
    joint: Joint | None,
    top: Worktop,
    piece: Piece | None,
    at: Given,
    *,
    other: Worktop | None = None,
) -> Row:
    """`other` is the top that it meets in a corner."""
    pointer = joint.pointer if joint is not None else top.pointer_to("corner")
    wall = site.plan.runs[top.on].against if top.on in site.plan.runs else ""
    along = (float(at.value), float(at.value)) if isinstance(at, Known) else None
    nowhere = Missing(top.pointer_to("on"), "run the worktop lies on", Why.UNCLEAR)
    opening, opening_left, opening_right = _nearest(at, _openings(piece), pointer)
    cut_out, cut_left, cut_right = _nearest(at, _cut_outs(site, piece), pointer)
    return WorktopJoint(
        Subject(called, pointer, f"{wall} wall" if wall else "", wall, along),
        at_corner=reading.exactly(other is not None, pointer, "whether it is in a corner"),
        material=reading.word(top.material, top.pointer_to("material"), "material of the worktop"),
        depth=reading.read(top, "depth", "depth of the worktop"),
        at=at,
        start=piece.start if piece is not None else nowhere,
        end=piece.end if piece is not None else nowhere,
        has_opening=reading.exactly(bool(opening), pointer, "whether it lies over an opening"),
        opening=reading.exactly(opening, pointer, "opening"),
        opening_left=opening_left,
        opening_right=opening_right,
        has_cut_out=reading.exactly(bool(cut_out), pointer, "whether it has a cut-out"),
        cut_out=reading.exactly(cut_out, pointer, "cut-out"),
        cut_left=cut_left,
        cut_right=cut_right,
        corner_angle=_corner_angle(site, top, other),
        **_said(joint, top, pointer),
    )


def _corner_angle(site: Site, top: Worktop, other: Worktop | None) -> Given:
    """The corner of two tops. A plan that lists corners means that all others are square."""
    label = "corner"
    if other is None:
        return Missing(top.pointer, label, Why.UNCLEAR, detail="the joint is not in a corner")
    wall, beside = (site.plan.runs[each.on].against for each in (top, other))
    room = site.plan.room_of(wall)
    if room is None or room.corners.left_out:
        return Missing(room.corners.pointer if room is not None else "/corners", label)
    found = corner_found(room, wall, beside)
    if found is None:
        return reading.exactly(RIGHT, room.corners.pointer, label, "not among the corners out of square")
    return found.angle


def _said(joint: Joint | None, top: Worktop, pointer: str) -> dict[str, Given]:
    """What a plan says of the joint itself; its bolts may stand with the worktop."""
    bolts = reading.quantity(top.bolts, top.pointer_to("bolts"), "bolts")
    if joint is None:
        gaps: dict[str, Given] = {
            field: Missing(join(pointer, key), label)
            for field, key, label in (
                ("form", "is", "how the worktops are joined in the corner"),
                ("filled_with", "filled with", "what the joint is filled with"),
                ("width", "width", "width of the joint"),
                ("step", "step", "step in the joint"),
            )
        }
        return {**gaps, "bolts": bolts}
    if joint.bolts is not None:
        bolts = reading.read(joint, "bolts", "bolts")
    return {
        "form": reading.word(joint.is_, joint.pointer_to("is"), "how it is joined"),
        "bolts": bolts,
        "filled_with": reading.word(joint.filled_with, joint.pointer_to("filled_with"), "filling of the joint"),
        "width": reading.read(joint, "width", "width of the joint"),
        "step": reading.read(joint, "step", "step in the joint"),
    }


Stretch = tuple[str, Given, Given]


def _openings(piece: Piece | None) -> list[Stretch]:
    below = piece.below if piece is not None else ()
    return [(thing.name, thing.left, thing.right) for thing in below if thing.item.family in OPEN]


def _cut_outs(site: Site, piece: Piece | None) -> list[Stretch]:
    placed = site.cut_outs.get(piece.name, []) if piece is not None else []
    return [(each.at.name, each.left, each.right) for each in placed]


def _nearest(at: Given, stretches: list[Stretch], pointer: str) -> Stretch:
    """The stretch nearest to a joint; one of which nobody knows the place may be the nearest."""
    if not stretches:
        nothing = Missing(pointer, "stretch", Why.UNCLEAR, detail=NO_STRETCH)
        return "", nothing, nothing
    return min(stretches, key=lambda stretch: _clear(at, stretch))


def _clear(at: Given, stretch: Stretch) -> float:
    _, left, right = stretch
    if not (isinstance(at, Known) and isinstance(left, Known) and isinstance(right, Known)):
        return float("-inf")
    return max(float(left.value) - float(at.value), float(at.value) - float(right.value))
