"""Worktops over openings: how far they reach from one thing that holds them to the next, and how far they sag."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.room.walls import worked
from validator.measures.rows import NAME, TERM, YES_NO, Given, Known, LeftOut, Missing, Row, Rows, figure, given
from validator.measures.worktops.beams import at_middle_of_span, spread_on_span
from validator.measures.worktops.materials import (
    GRAVITY,
    NOTHING,
    held_by,
    load,
    makers,
    makers_or_table,
    of_material,
    stiffness,
)
from validator.measures.worktops.pieces import Unheld, unheld
from validator.plan.dimensions import ACCELERATION, AREA_LOAD, DENSITY, FORCE, LENGTH, NUMBER, PRESSURE

if TYPE_CHECKING:
    from validator.measures.site import Site


class Span(Row, kind="span of a worktop"):
    """From one thing that holds a worktop to the next."""

    left: float = given(LENGTH, "support at the left")
    right: float = given(LENGTH, "support at the right")

    @figure(LENGTH, "span", start="support at the left", end="support at the right")
    def span(self) -> float:
        return self.right - self.left


class WorktopOverOpening(Row, kind="worktop over an opening"):
    """A stretch of a worktop with no unit below it, as a beam from support to support; nothing is counted in its favour
    that the top goes on beyond them.

    `held_at_both` is whether a unit or a panel stands at each end; `support` is what else holds it.
    """

    span: float = given(LENGTH, "span from support to support")
    over: str = given(NAME, "what it lies over")
    machines: float = given(NUMBER, "machines without a panel between them")
    held_at_both: bool = given(YES_NO, "whether a unit or a panel holds it at both ends")
    support: str = given(TERM, "what else holds it")
    material: str = given(TERM, "material")
    thickness: float = given(LENGTH, "thickness")
    depth: float = given(LENGTH, "depth")
    density: float = given(DENSITY, "weight of the material")
    stiffness: float = given(PRESSURE, "stiffness along the top")
    creep: float = given(NUMBER, "creep")
    in_use: float = given(AREA_LOAD, "what stands on it")
    person: float = given(FORCE, "force of a person")
    gravity: float = given(ACCELERATION, "pull of gravity")
    usual_span: float = given(LENGTH, "usual span")
    longest_span: float = given(LENGTH, "longest span")
    has_makers_span: bool = given(YES_NO, "whether its maker gives a span")

    @figure(AREA_LOAD, "own weight and use")
    def spread(self) -> float:
        return self.density * self.thickness + self.in_use

    @figure(
        LENGTH, "sag at first", start="straight between its supports", end="middle of the span under what stands on it"
    )
    def sag_at_first(self) -> float:
        return spread_on_span(self.spread * self.gravity, self.span, self.stiffness, self.thickness)

    @figure(
        LENGTH, "sag in time", start="straight between its supports", end="middle of the span under a load left on it"
    )
    def sag_in_time(self) -> float:
        return self.sag_at_first * (1 + self.creep)

    @figure(
        LENGTH, "sag under a person", start="straight between its supports", end="middle of the span, a person on it"
    )
    def sag_under_a_person(self) -> float:
        return at_middle_of_span(self.person, self.span, self.stiffness, self.depth, self.thickness)


def worktops_over_openings(site: Site) -> Rows:
    """A row for each stretch of each worktop that lies over an opening or a gap."""
    if site.plan.worktops.left_out:
        return Rows(left_out=[LeftOut(WorktopOverOpening.kind, Missing("/worktops", "worktops"))])
    found = Rows()
    for pieces in site.worktop_pieces.values():
        for piece in pieces:
            found.rows += [_row(site, stretch) for stretch in unheld(piece)]
    return found


def _row(site: Site, stretch: Unheld) -> Row:
    piece = stretch.piece
    names = [thing.name for thing in stretch.things]
    open_things = [thing for thing in stretch.things if thing.item.family in ("opening", "gap")]
    machines = [thing for thing in open_things if thing.item.family == "opening"]
    at_both = stretch.held_left is not None and stretch.held_right is not None
    over = " and ".join(thing.name for thing in machines or open_things)
    pointer = open_things[0].item.pointer
    longest = makers_or_table(site, piece, "span", "span-between-supports", "longest")
    usual = of_material(site, piece, "span-between-supports", "usual", "usual span", by_thickness=True)
    subject = open_things[0].subject._replace(name=f"{piece.worktop} over {over}")
    return WorktopOverOpening(
        subject,
        span=worked(Span(subject, left=stretch.left, right=stretch.right), "span", "span"),
        over=reading.exactly(over, pointer, "what it lies over"),
        machines=reading.exactly(len(machines), pointer, "machines without a panel between them"),
        held_at_both=reading.exactly(at_both, pointer, "whether a unit or a panel holds it at both ends"),
        support=_support(stretch, names, at_both),
        material=piece.material,
        thickness=piece.thickness,
        depth=piece.depth,
        density=of_material(site, piece, "top-density", "density", "weight"),
        stiffness=stiffness(site, piece, "along"),
        creep=of_material(site, piece, "creep-factor", "creep", "creep"),
        in_use=load(site, piece, "in use", "spread", "what stands on it"),
        person=load(site, piece, "person", "at_one_place", "force of a person"),
        gravity=GRAVITY,
        usual_span=usual,
        longest_span=longest,
        has_makers_span=_has(site, stretch),
    )


def _support(stretch: Unheld, names: list[str], at_both: bool) -> Given:
    """What else holds a stretch; a rail or a frame between two units is not there unless the plan has it."""
    found = held_by(stretch.piece, names)
    if at_both and isinstance(found, Missing) and stretch.piece.top.supports is None:
        return reading.exactly(NOTHING, found.pointer, "what else holds it", "the plan has nothing there")
    return found


def _has(site: Site, stretch: Unheld) -> Known:
    stated = isinstance(makers(site, stretch.piece, "span"), Known)
    return reading.exactly(stated, stretch.piece.top.pointer, "whether its maker gives a span")
