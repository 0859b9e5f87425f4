"""The lengths in which a worktop is needed, joint to joint, against the lengths in which it is sold."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.rows import YES_NO, Given, Known, Missing, Row, Rows, Subject, Why, figure, given
from validator.measures.worktops.ends import finished_ends
from validator.measures.worktops.joints import joints_of, place_of_joint
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.measures.worktops.pieces import Piece
    from validator.plan.sections.furniture import Worktop


class WorktopLength(Row, kind="length of a worktop"):
    """A worktop that is sold in lengths: how long it is from joint to joint as it is cut, and the longest there is."""

    start: float = given(LENGTH, "left end")
    end: float = given(LENGTH, "right end")
    stock: float = given(LENGTH, "longest there is")
    has_joint: bool = given(YES_NO, "whether it is joined where nobody says")

    @figure(LENGTH, "length", start="left end", end="right end")
    def length(self) -> float:
        return self.end - self.start


def lengths_of_worktops(site: Site) -> Rows:
    """A row for each length, joint to joint, of a worktop of which the plan says in what lengths it is sold."""
    found = Rows()
    for name, top in site.plan.worktops.items():
        if top.stock is None:
            continue
        for piece in site.worktop_pieces[name]:
            joined = len(_places(site, piece)) < len(list(joints_of(name, top)))
            found.rows += [_row(top, *length, joined=joined) for length in joint_to_joint(site, piece)]
        if not site.worktop_pieces[name]:
            missing = Missing(top.pointer_to("on"), "run it lies on", Why.UNCLEAR)
            found.rows.append(_row(top, Subject(name, top.pointer, top.on), missing, missing, joined=bool(top.joint)))
    return found


def joint_to_joint(site: Site, piece: Piece) -> Iterator[tuple[Subject, Given, Given]]:
    """The lengths of a piece as it is cut, joint to joint from the left: what each is called, and both its ends."""
    inside = [place for place in _places(site, piece) if _lies_in(place, piece)]
    left, right = finished_ends(site, piece)
    for number, (start, end) in enumerate(pairwise([left, *inside, right]), 1):
        subject = piece.subject
        if inside:
            subject = subject._replace(name=f"{piece.name}, length {number} from the left")
        yield subject, start, end


def _places(site: Site, piece: Piece) -> list[Known]:
    """Where the joints of a worktop are, as far as that is known, from the left."""
    joints = joints_of(piece.worktop, piece.top)
    places = [place_of_joint(site, piece.top, joint, called) for called, joint in joints]
    return sorted((place for place in places if isinstance(place, Known)), key=lambda place: float(place.value))


def _lies_in(place: Known, piece: Piece) -> bool:
    start, end = piece.start, piece.end
    return isinstance(start, Known) and isinstance(end, Known) and start.value < place.value < end.value


def _row(top: Worktop, subject: Subject, start: Given, end: Given, *, joined: bool) -> Row:
    stock = reading.read(top, "stock", "longest there is")
    if isinstance(stock, Known):
        stock = stock.at_end(stock.high)
    has_joint = reading.exactly(joined, top.pointer_to("joint"), "whether it is joined")
    return WorktopLength(subject, start=start, end=end, stock=stock, has_joint=has_joint)
