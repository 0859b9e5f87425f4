"""How far the way before a side of a run is clear: what comes nearest of all that lies across, less the handles."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.plane.footprints import AT_MOST, HIGH, Footprint, drawn
from validator.measures.plane.ways_ahead import (
    SIDES,
    Met,
    Side,
    edge_of,
    joined,
    met_ahead,
    unplaced_ahead,
    without_returns,
)
from validator.measures.room.walls import at_left, at_right
from validator.measures.rows import Given, Missing
from validator.plan.names import fold
from validator.plan.values import Quantity

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.furniture import Run, Worktop

REACH = 1850.0
"""How far ahead the way is looked at; what lies further off is no nearer than this."""

NOTHING = "anything"
"""What is nearest where nothing is near."""


class Way(NamedTuple):
    """The clear way before a side of a run: `drawn`, the handles in it and what lies across, as fields of a row."""

    drawn: Given
    handles: Given
    to: Given
    closed: bool = False
    run: str = ""


class ClearWays:
    """The ways before all sides of all runs. Cost grows with the number of things."""

    def __init__(self, site: Site) -> None:
        self._site = site
        self._tops = {top.pointer: top for top in site.plan.worktops.values()}

    def before(self, name: str, side: Side, *, seats: bool = False) -> Way:
        """The clear way before a side of a run; behind seats the handles of the run itself do not count."""
        plane, run = self._site.plane, self._site.plan.runs[name]
        own_handles = side == "front" and not seats
        things = [thing for thing in plane.of_run.get(fold(name), ()) if thing.layers != HIGH]
        if not any(thing.standing is not None for thing in things):
            missing = plane.lacking.get(name) or (Missing(run.pointer_to("order"), f"what stands in the {name}"),)
            return _as_said(run, name, side) or Way(missing, missing, missing)
        looked_at = _outermost(things, side)
        met = [
            one
            for thing in joined(looked_at)
            for one in met_ahead(plane, edge_of(thing, side, self._past(thing, side)), REACH + AT_MOST)
        ]
        if side == "front":
            met = without_returns(met)
        clears = [(one.gap - _handles(one, own=own_handles), number) for number, one in enumerate(met)]
        width, number = min(clears, default=(REACH, -1))
        missing = tuple(dict.fromkeys(_in_doubt(met, min(width, REACH), own=own_handles)))
        missing += unplaced_ahead(plane, things[0].line, things[0].side) if side in ("front", "back") else ()
        if missing:
            return Way(missing, missing, missing)
        if number < 0 or width >= REACH:
            pointer = run.pointer
            far = drawn(REACH, 0, pointer, "or more, by the drawing")
            return Way(far, reading.parts([]), reading.exactly(NOTHING, pointer, "what lies across"))
        one = met[number]
        pointer, to = run.pointer, one.thing.run or one.thing.name
        label = f"to {one.thing.name}, by the drawing"
        distance = drawn(one.gap, one.slack, pointer, label, one.thing.assumed + one.edge.of.assumed)
        own = [one.edge.of] if own_handles and one.edge.of.handle else []
        other = [one.thing] if one.handle else []
        handles = [
            reading.exactly(thing.handle, thing.subject.pointer, f"handle of {thing.name}") for thing in own + other
        ]
        closed = one.gap < AT_MOST
        return Way(distance, reading.parts(handles), reading.exactly(to, pointer, "what lies across"), closed, to)

    def _past(self, thing: Footprint, side: Side) -> float:
        """How far a worktop passes the units at its end; at front and back its depth says so."""
        top = self._tops.get(thing.subject.pointer)
        if top is None or side in ("front", "back"):
            return 0.0
        for said, length in (top.past or {}).items():
            if isinstance(length, Quantity) and side in sides_called(self._site, top, said):
                return length.high
        return 0.0


def _outermost(things: list[Footprint], side: Side) -> list[Footprint]:
    """The things of a run that make a side of it: all of them for its front and back, those at an end for that end."""
    if side in ("front", "back"):
        return things
    ends = [_end_of(thing, side) for thing in things]
    last = max(ends)
    return [thing for thing, end in zip(things, ends, strict=True) if last - end < AT_MOST]


def _end_of(thing: Footprint, side: Side) -> float:
    """How far a thing reaches towards an end of its run, as one faces its front."""
    return thing.right if (side == "right") == (thing.outward > 0) else -thing.left


def _handles(one: Met, *, own: bool) -> float:
    return (one.edge.of.handle if own else 0.0) + one.handle


def _handle_of(thing: Footprint) -> Given:
    return reading.exactly(thing.handle, thing.subject.pointer, f"handle of {thing.name}")


def _in_doubt(met: list[Met], width: float, *, own: bool) -> Iterator[Missing]:
    """What is missing of things that might come nearer than the nearest, were it known."""
    for one in met:
        gaps = one.no_handle + one.thing.no_face + one.edge.of.no_face + (one.edge.of.no_handle if own else ())
        if gaps and one.gap - _handles(one, own=own) - AT_MOST * len(gaps) < width:
            yield from gaps


def sides_called(site: Site, top: Worktop, said: str) -> tuple[Side, ...]:
    """The sides of a worktop that a plan calls `south`, `back`, `left`, `left end` or `ends`.

    Left and right are as one faces the fronts; of an island these have the wall that it faces behind one.
    """
    run = site.plan.runs[top.on]
    wall, word = run.faces or run.against, fold(said).removesuffix(" end")
    if word in ("ends", "end"):
        return ("left", "right")
    for side in SIDES:
        if word == side:
            return (side,)
    left, right = at_left(site.plan, wall), at_right(site.plan, wall)
    if run.faces is not None:
        left, right = right, left
    if word in (fold(left or ""), fold(right or "")):
        return ("left",) if word == fold(left or "") else ("right",)
    if run.faces is None:
        return ("front",)
    return ("front",) if word == fold(wall) else ("back",)


def _as_said(run: Run, name: str, side: Side) -> Way | None:
    """The aisle of an island nobody has placed, as the plan gives it."""
    if run.faces is None or side != "front":
        return None
    pointer, label = run.pointer_to("aisle"), f"aisle before the {name}"
    to = run.aisle.to if run.aisle is not None and run.aisle.to is not None else run.faces
    width: Given = reading.read(run.aisle, "width", label) if run.aisle is not None else Missing(pointer, label)
    return Way(width, reading.parts([]), reading.exactly(to, pointer, "what lies across"), False, to)
