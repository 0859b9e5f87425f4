"""What a worktop is made of: stiffness, weight, what its maker allows, and what holds it where no unit does."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal

from validator.measures import reading
from validator.measures.looking_up import looked_up
from validator.measures.rows import Given, Known, Missing, Why, gaps_of
from validator.plan.names import fold
from validator.plan.sections.appliances import WorktopPapers

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.measures.worktops.pieces import Piece
    from validator.plan.sections.furniture import Support

GRAVITY = reading.exactly(9806.65, "", "pull of gravity")

NOTHING = "nothing"
"""What holds a worktop where the plan says that nothing does."""


def of_material(site: Site, piece: Piece, table: str, gives: str, label: str, *, by_thickness: bool = False) -> Given:
    """A property of what a piece is made of, from a table by material and, if so, by thickness."""
    material = piece.material
    keys = {"material": material} | ({"thickness": piece.thickness} if by_thickness else {})
    missing = gaps_of(*keys.values())
    if missing:
        return missing
    by = {name: key.value for name, key in keys.items() if isinstance(key, Known)}
    assert isinstance(material, Known)
    return looked_up(site, table, gives, by, material.pointer, f"{label}, {material.value}")


def stiffness(site: Site, piece: Piece, way: Literal["along", "across"]) -> Given:
    """How stiff a piece is along its length or across it, a modulus of elasticity."""
    return of_material(site, piece, "top-stiffness", way, f"stiffness {way}", by_thickness=True)


def load(site: Site, piece: Piece, kind: str, gives: str, label: str) -> Given:
    """A load by which worktops are judged."""
    return looked_up(site, "load-on-worktop", gives, {"load": kind}, piece.top.pointer, label)


def makers(site: Site, piece: Piece, field: Literal["span", "overhang"]) -> Given:
    """How far the maker of a worktop lets it reach without support."""
    label = f"{field} that the maker of {piece.worktop} allows"
    papers = site.plan.stated.get(piece.worktop)
    if isinstance(papers, WorktopPapers):
        return reading.stated(getattr(papers, field), papers.pointer_to(field), label)
    return Missing(f"{site.plan.stated.pointer}/{piece.worktop}/{field}", label, Why.UNREAD)


def makers_or_table(site: Site, piece: Piece, field: Literal["span", "overhang"], table: str, gives: str) -> Given:
    """What the maker allows; else what a table has for the material; else the maker has to be asked."""
    stated = makers(site, piece, field)
    if isinstance(stated, Known):
        return stated
    found = of_material(site, piece, table, gives, f"longest {field}", by_thickness=True)
    no_row = isinstance(found, Missing) and found.why is Why.NO_TABLE_ROW
    return stated if no_row else found


def supports_at(piece: Piece, places: Sequence[str]) -> Support | Missing | None:
    """What the plan says holds a worktop at one of some places, or everywhere; None where it says that nothing does."""
    if piece.top.supports is None:
        return Missing(piece.top.pointer_to("supports"), f"what holds {piece.worktop} there")
    by_place = {fold(place): support for place, support in piece.top.supports.items()}
    return next((by_place[fold(place)] for place in (*places, "everywhere") if fold(place) in by_place), None)


def held_by(piece: Piece, places: Sequence[str]) -> Given:
    """The word for what holds a worktop at one of some places."""
    found = supports_at(piece, places)
    if isinstance(found, Missing):
        return found
    if found is None:
        return reading.exactly(NOTHING, piece.top.pointer_to("supports"), "what holds it")
    return reading.word(found.by, found.pointer, "what holds it")
