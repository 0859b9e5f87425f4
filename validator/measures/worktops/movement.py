"""Worktops that move: what solid timber swells and shrinks across its grain, the gap at the wall, and its sealant.

Timber moves by its width across the grain, times a coefficient of its species, times the change of its moisture; along
the grain it hardly moves. A worktop's grain is taken to run along it, so that its depth moves.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import least, most
from validator.measures.looking_up import looked_up
from validator.measures.room.walls import named_gap
from validator.measures.rows import TERM, YES_NO, Given, Known, LeftOut, Missing, Row, Rows, Subject, Why, figure, given
from validator.measures.tracing import derived
from validator.plan.dimensions import LENGTH, MOISTURE, NUMBER
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.furniture import Worktop

PER_CENT = 100
"""Coefficients are printed for a change of one per cent."""


class WorktopAtWall(Row, kind="worktop at its wall"):
    """The back edge of a worktop: its gap to the wall, what covers it, and how far a timber top closes or opens it.

    Timber that is fitted damper or drier than it settles moves from there: that is part of its `movement`.
    """

    material: str = given(TERM, "material of the worktop")
    depth: float = given(LENGTH, "worktop across its grain")
    coefficient: float = given(NUMBER, "movement of its timber for one per cent of moisture")
    fitted_at: float = given(MOISTURE, "moisture as it is fitted")
    driest: float = given(MOISTURE, "least moisture in use")
    wettest: float = given(MOISTURE, "most moisture in use")
    gap: float = given(LENGTH, "gap at the wall")
    has_cover: bool = given(YES_NO, "whether something covers the gap")
    cover: float = given(LENGTH, "cover")
    held_by: str = given(TERM, "what holds it down")
    slots: float = given(LENGTH, "slots of its brackets")

    @figure(LENGTH, "swelling", start="as fitted", end="in the dampest season")
    def swelling(self) -> float:
        return self.depth * self.coefficient * PER_CENT * (self.wettest - self.fitted_at)

    @figure(LENGTH, "shrinking", start="as fitted", end="in the driest season")
    def shrinking(self) -> float:
        return self.depth * self.coefficient * PER_CENT * (self.fitted_at - self.driest)

    @figure(LENGTH, "movement", start="at its driest", end="at its dampest")
    def movement(self) -> float:
        dampest, driest = most(self.wettest, self.fitted_at), least(self.driest, self.fitted_at)
        return self.depth * self.coefficient * PER_CENT * (dampest - driest)

    @figure(LENGTH, "travel left in the slots", start="end of the movement", end="end of the slots")
    def travel_left(self) -> float:
        return self.slots - self.movement

    @figure(LENGTH, "gap in the dampest season", start="wall", end="back edge of the worktop")
    def least_gap(self) -> float:
        return self.gap - self.swelling

    @figure(LENGTH, "gap in the driest season", start="wall", end="back edge of the worktop")
    def widest_gap(self) -> float:
        return self.gap + self.shrinking

    @figure(LENGTH, "overlap of the cover", start="back edge of the worktop", end="face of the cover")
    def overlap(self) -> float:
        return self.cover - self.gap

    @figure(
        LENGTH, "overlap of the cover in the driest season", start="back edge of the worktop", end="face of the cover"
    )
    def least_overlap(self) -> float:
        return self.cover - self.widest_gap


class SealantJoint(Row, kind="sealant joint of a worktop"):
    """A joint of sealant along a worktop: its width against what it has to take."""

    material: str = given(TERM, "material of the worktop")
    sealant: str = given(TERM, "sealant")
    width: float = given(LENGTH, "width of the joint")
    moves: float = given(LENGTH, "movement of the joint")
    sealant_class: float = given(NUMBER, "class of the sealant")

    @figure(LENGTH, "movement it can take", start="closed", end="open")
    def can_take(self) -> float:
        return self.width * self.sealant_class / PER_CENT

    @figure(LENGTH, "width that the movement asks for", start="one side of the joint", end="the other")
    def width_needed(self) -> float:
        return self.moves * PER_CENT / self.sealant_class


def worktops_at_walls(site: Site) -> Rows:
    """A row for each worktop of a run that stands against a wall."""
    if site.plan.worktops.left_out:
        return Rows(left_out=[LeftOut(WorktopAtWall.kind, Missing("/worktops", "worktops"))])
    tops = site.plan.worktops.items()
    return Rows([_at_wall(site, name, top) for name, top in tops if _against_a_wall(site, top)])


def sealant_joints(site: Site) -> Rows:
    """A row for each worktop of which the plan gives the sealant; one of timber moves its joint as far as itself."""
    rows = Rows()
    for name, top in site.plan.worktops.items():
        if top.seal is None:
            continue
        moves = reading.read(top.seal, "moves", "movement of the joint")
        if top.seal.moves is None and isinstance(_coefficient(site, name, top), Known):
            moves = derived(_at_wall(site, name, top), "movement", "movement of the worktop")
        rows.rows.append(
            SealantJoint(
                Subject(name, top.seal.pointer, top.on),
                material=reading.word(top.material, top.pointer_to("material"), f"material of {name}"),
                sealant=reading.word(top.seal.is_, top.seal.pointer_to("is"), "sealant"),
                width=reading.read(top.seal, "width", "joint"),
                moves=moves,
                sealant_class=reading.read(top.seal, "class_", "class of the sealant"),
            )
        )
    return rows


def _against_a_wall(site: Site, top: Worktop) -> bool:
    run = site.plan.runs.get(top.on)
    return run is not None and bool(run.against)


def _at_wall(site: Site, name: str, top: Worktop) -> WorktopAtWall:
    in_use = reading.read(top, "settles_at", f"moisture of {name} in use")
    driest, wettest = (in_use, in_use)
    if isinstance(in_use, Known):
        driest, wettest = in_use.at_end(in_use.low), in_use.at_end(in_use.high)
    cover = reading.read(top, "cover_at_wall", "cover")
    says_none = isinstance(cover, Missing) and cover.why is Why.NOTHING_STATED
    has_cover: Given = cover if isinstance(cover, Missing) and not says_none else _yes_or_no(top, not says_none)
    values = {"driest": driest, "wettest": wettest, "cover": cover, "has_cover": has_cover}
    return WorktopAtWall(
        Subject(name, top.pointer, top.on),
        material=reading.word(top.material, top.pointer_to("material"), f"material of {name}"),
        depth=named_gap(reading.read(top, "depth", "depth"), f"depth of {name}"),
        coefficient=_coefficient(site, name, top) or Missing(top.pointer_to("material"), f"timber of {name}"),
        fitted_at=_fitted_at(name, top),
        gap=reading.read(top, "gap_at_wall", "gap"),
        held_by=reading.word(top.held_by, top.pointer_to("held_by"), f"what holds {name} down"),
        slots=reading.read(top, "slots", "slots"),
        **values,
    )


def _yes_or_no(top: Worktop, answer: bool) -> Known:
    return reading.exactly(answer, top.pointer_to("cover_at_wall"), "whether something covers the gap")


def _coefficient(site: Site, name: str, top: Worktop) -> Given | None:
    """What the table of species gives; None where the material is not known."""
    if not isinstance(top.material, str):
        return None
    pointer, label = top.pointer_to("material"), f"movement of the timber of {name}"
    return looked_up(site, "wood-movement", "tangential", {"timber": fold(top.material)}, pointer, label)


def _fitted_at(name: str, top: Worktop) -> Given:
    if top.moisture is None:
        return Missing(top.pointer_to("moisture"), f"moisture of {name} as it is fitted")
    return reading.read(top.moisture, "reading", f"moisture of {name} as it is fitted")
