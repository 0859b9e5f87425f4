"""Worktops that reach past their units: how far, what holds them there, and how far their edge gives way."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.arithmetic import least
from validator.measures.plane.clear_ways import sides_called
from validator.measures.room.walls import difference
from validator.measures.rows import NAME, TERM, YES_NO, Given, Known, LeftOut, Missing, Row, Rows, Why, figure, given
from validator.measures.worktops.beams import at_edge_of_overhang
from validator.measures.worktops.materials import (
    held_by,
    load,
    makers,
    makers_or_table,
    stiffness,
    supports_at,
)
from validator.plan.dimensions import FORCE, LENGTH, NUMBER, PRESSURE

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.measures.worktops.pieces import Piece


class Overhang(Row, kind="overhang of a worktop"):
    """A side of a worktop that reaches past its units.

    `width` is that of the whole top in the same direction, `edge` the length of the free edge. Timber bends across its
    grain at the front and the back, along it at the ends.
    """

    side: str = given(NAME, "side")
    overhang: float = given(LENGTH, "overhang")
    width: float = given(LENGTH, "width of the top in that direction")
    edge: float = given(LENGTH, "length of the free edge")
    material: str = given(TERM, "material")
    thickness: float = given(LENGTH, "thickness")
    stiffness: float = given(PRESSURE, "stiffness")
    at_edge: float = given(FORCE, "force of a person who leans on it")
    strip: float = given(LENGTH, "length of edge that a person bends")
    longest: float = given(LENGTH, "longest overhang without support")
    has_makers_overhang: bool = given(YES_NO, "whether its maker gives an overhang")
    support: str = given(TERM, "what holds it")
    brackets: float = given(NUMBER, "how many hold it")

    @figure(LENGTH, "space for each bracket", start="middle between two brackets", end="middle between the next two")
    def spacing(self) -> float:
        return self.edge / self.brackets

    @figure(LENGTH, "edge gives way", start="edge at rest", end="edge under a person who leans on it")
    def sag(self) -> float:
        strip = least(self.strip, self.edge)
        return at_edge_of_overhang(self.at_edge, self.overhang, self.stiffness, strip, self.thickness)


class Side(NamedTuple):
    """A side of a worktop as the plan names it, and how far the top passes the units there.

    `ends` are the ends of its run that this means, `left`, `right` or both; none for its front and its back.
    """

    name: str
    past: Given
    ends: tuple[str, ...] = ()


def overhangs(site: Site) -> Rows:
    """A row for each side at which a worktop passes its units; one for an island that does not say where it does."""
    if site.plan.worktops.left_out:
        return Rows(left_out=[LeftOut(Overhang.kind, Missing("/worktops", "worktops"))])
    found = Rows()
    for pieces in site.worktop_pieces.values():
        for number, piece in enumerate(pieces):
            for side in _sides(site, piece):
                at_ends = ("left", number == 0), ("right", number == len(pieces) - 1)
                if not side.ends or any(end in side.ends for end, there in at_ends if there):
                    found.rows.append(_row(site, piece, side))
    return found


def _sides(site: Site, piece: Piece) -> Iterator[Side]:
    top = piece.top
    if top.past_end is not None:
        yield Side("end", reading.read(top, "past_end", "overhang"), ("left", "right"))
    for name, past in (top.past or {}).items():
        pointer = f"{top.pointer_to('past')}/{name}"
        ends = tuple(side for side in sides_called(site, top, name) if side in ("left", "right"))
        yield Side(name, reading.quantity(past, pointer, "overhang"), ends)
    run = site.plan.runs.get(top.on)
    if top.past is None and run is not None and run.faces is not None:
        yield Side("back", Missing(top.pointer_to("past"), "overhang"))


def _row(site: Site, piece: Piece, side: Side) -> Row:
    length = difference(piece.end, piece.start, piece.subject, f"length of {piece.worktop}")
    width, edge = (length, piece.depth) if side.ends else (piece.depth, length)
    places = ("ends", "end", side.name) if side.ends else (side.name,)
    return Overhang(
        piece.subject._replace(name=f"{piece.name} past its units, {side.name}"),
        side=reading.exactly(side.name, piece.top.pointer_to("past"), "side"),
        overhang=side.past,
        width=width,
        edge=edge,
        material=piece.material,
        thickness=piece.thickness,
        stiffness=stiffness(site, piece, "along" if side.ends else "across"),
        at_edge=load(site, piece, "edge", "at_one_place", "force of a person who leans on it"),
        strip=load(site, piece, "edge", "over", "length of edge that a person bends"),
        longest=makers_or_table(site, piece, "overhang", "free-overhang", "overhang"),
        has_makers_overhang=reading.exactly(
            isinstance(makers(site, piece, "overhang"), Known), piece.top.pointer, "whether its maker gives an overhang"
        ),
        support=held_by(piece, places),
        brackets=_brackets(piece, places),
    )


def _brackets(piece: Piece, places: tuple[str, ...]) -> Given:
    found = supports_at(piece, places)
    if isinstance(found, Missing):
        return found
    label = "how many hold it"
    if found is None:
        return Missing(piece.top.pointer_to("supports"), label, Why.LEFT_OUT)
    return reading.read(found, "how_many", label)
