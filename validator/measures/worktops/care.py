"""How a worktop is prepared and held: its cut edges, its finish, its fixings, and the machines below it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import kind_of
from validator.measures.rows import NAME, TERM, YES_NO, Given, Known, LeftOut, Missing, Row, Rows, Subject, given
from validator.plan.dimensions import MOISTURE
from validator.plan.names import fold

if TYPE_CHECKING:
    from collections.abc import Iterator

    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.measures.worktops.pieces import Piece
    from validator.plan.sections.furniture import Worktop

STEAM = frozenset({"dishwasher", "washing machine", "tumble dryer", "microwave"})
"""Machines whose steam or damp warm air rises against the underside of a worktop."""


class WorktopAsFitted(Row, kind="worktop as fitted"):
    """What is done to a worktop before it is fitted, and what holds it."""

    material: str = given(TERM, "material of the worktop")
    sealed: bool = given(YES_NO, "whether its cut edges are sealed")
    finish: str = given(TERM, "finish")
    held_by: str = given(TERM, "what holds it down")
    stored: str = given(TERM, "where it is stored")
    fitted_at: float = given(MOISTURE, "moisture as it is fitted")


class WorktopOverMachine(Row, kind="worktop over a machine"):
    """The stretch of a worktop over a machine that steams."""

    material: str = given(TERM, "material of the worktop")
    has_barrier: bool = given(YES_NO, "whether something keeps the steam off")
    machine: str = given(NAME, "machine")


def worktops_as_fitted(site: Site) -> Rows:
    """A row for each worktop."""
    if site.plan.worktops.left_out:
        return Rows(left_out=[LeftOut(WorktopAsFitted.kind, Missing("/worktops", "worktops"))])
    return Rows([_as_fitted(name, top) for name, top in site.plan.worktops.items()])


def _as_fitted(name: str, top: Worktop) -> Row:
    fitted_at: Given = Missing(top.pointer_to("moisture"), f"moisture of {name} as it is fitted")
    if top.moisture is not None:
        fitted_at = reading.read(top.moisture, "reading", f"moisture of {name} as it is fitted")
    return WorktopAsFitted(
        Subject(name, top.pointer, top.on),
        material=_material(name, top),
        sealed=reading.word(top.sealed, top.pointer_to("sealed"), f"whether the cut edges of {name} are sealed"),
        finish=reading.word(top.finish, top.pointer_to("finish"), f"finish of {name}"),
        held_by=reading.word(top.held_by, top.pointer_to("held_by"), f"what holds {name} down"),
        stored=reading.word(top.stored, top.pointer_to("stored"), f"where {name} is stored"),
        fitted_at=fitted_at,
    )


def worktops_over_machines(site: Site) -> Rows:
    """A row for each machine that steams and stands under a worktop, in an opening or in a unit."""
    found = Rows()
    for pieces in site.worktop_pieces.values():
        for piece in pieces:
            found.rows += _over_machines(site, piece)
    return found


def _over_machines(site: Site, piece: Piece) -> list[Row]:
    rows: list[Row] = []
    for thing in piece.below:
        for name, pointer in _steaming(site, thing):
            subject = thing.subject._replace(name=piece.name, pointer=piece.top.pointer, context=f"over the {name}")
            rows.append(
                WorktopOverMachine(
                    subject,
                    material=_material(piece.worktop, piece.top),
                    has_barrier=_has_barrier(piece),
                    machine=reading.exactly(name, pointer, "machine"),
                )
            )
    return rows


def _steaming(site: Site, thing: Standing) -> Iterator[tuple[str, str]]:
    """What steams in a unit or an opening, with its pointer; an opening may be called after a machine not listed."""
    appliances = site.plan.appliances
    for name, appliance in appliances.items():
        inside = appliance.in_ is not None and site.plan.unit(appliance.in_) == (thing.run, thing.name)
        if (inside or (appliance.in_ is None and fold(name) == fold(thing.name))) and kind_of(name, appliance) in STEAM:
            yield name, appliance.pointer
    if thing.item.family == "opening" and thing.name not in appliances and fold(thing.name) in STEAM:
        yield thing.name, thing.item.pointer


def _has_barrier(piece: Piece) -> Given:
    pointer = piece.top.pointer_to("barrier")
    said = reading.word(piece.top.barrier, pointer, f"barrier under {piece.worktop}")
    if not isinstance(said, Known):
        return said
    return reading.exactly(fold(str(said.value)) not in ("none", "no"), pointer, "barrier", str(said.value))


def _material(name: str, top: Worktop) -> Given:
    return reading.word(top.material, top.pointer_to("material"), f"material of {name}")
