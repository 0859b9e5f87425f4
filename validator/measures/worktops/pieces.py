"""Where a worktop lies: its pieces along the run, what stands below each, and the stretches that nothing holds.

A worktop is parted where something stands through it: a cooker, a tall unit, a tall machine. Places count from the
left end of the wall, of an island from its own left end.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.heights.heights import COOKERS, STANDS_BESIDE, machine_in
from validator.measures.room.walls import at_right, length_of
from validator.measures.rows import Given, Known, Missing, Subject, Why
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.heights.heights import WorktopOnRun
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.sections.furniture import Worktop

HOLDING = frozenset({"unit", "panel"})
"""What holds a worktop by its sides."""

OPEN = frozenset({"opening", "gap"})
"""What leaves a worktop without anything below it; fillers and posts are fixed to what stands beside them."""


class Piece(NamedTuple):
    """A piece of a worktop along its run, with the things below it from the left.

    `name` is the worktop's, with the things it reaches over where the worktop has several pieces.
    """

    name: str
    worktop: str
    top: Worktop
    start: Given
    end: Given
    below: tuple[Standing, ...]

    @property
    def subject(self) -> Subject:
        return Subject(self.name, self.top.pointer, self.top.on)

    @property
    def lies_on_something(self) -> bool:
        """Whether there is more below it than what closes a run at a wall."""
        return any(thing.item.family in ("unit", "opening") for thing in self.below)

    @property
    def thickness(self) -> Given:
        return reading.read(self.top, "thickness", f"thickness of {self.worktop}")

    @property
    def depth(self) -> Given:
        return reading.read(self.top, "depth", f"depth of {self.worktop}")

    @property
    def material(self) -> Given:
        return reading.word(self.top.material, self.top.pointer_to("material"), f"material of {self.worktop}")


class Unheld(NamedTuple):
    """A stretch of a piece over openings and gaps, from what holds it at the left to what does at the right.

    `held_left` and `held_right` are the unit or panel whose side holds it there; None where the piece ends first.
    """

    piece: Piece
    things: tuple[Standing, ...]
    left: Given
    right: Given
    held_left: Standing | None
    held_right: Standing | None


def pieces_of(site: Site) -> dict[str, list[Piece]]:
    """The pieces of each worktop, from the left; none for a worktop of which it is not known what it lies on."""
    return {name: _pieces(site, name, top) for name, top in site.plan.worktops.items()}


def worktop_over(site: Site, thing: Standing) -> WorktopOnRun | None:
    """The worktop over a thing of a run; of several on that run the one whose piece lies over it."""
    first = site.levels.worktop_on(thing.run)
    names = [name for name, top in site.plan.worktops.items() if fold(top.on) == fold(thing.run)]
    if len(names) < 2:
        return first
    for name in names:
        below = (each for piece in site.worktop_pieces[name] for each in piece.below)
        if any((each.run, each.name) == (thing.run, thing.name) for each in below):
            return site.levels.worktops[name]
    return first


def unheld(piece: Piece) -> Iterator[Unheld]:
    """The stretches of a piece that lie over an opening or a gap, from the left."""
    held: Standing | None = None
    for holds, group in groupby(piece.below, lambda thing: thing.item.family in HOLDING):
        things = tuple(group)
        if holds:
            held = things[-1]
        elif any(thing.item.family in OPEN for thing in things):
            at = piece.below.index(things[-1]) + 1
            after = piece.below[at] if at < len(piece.below) else None
            left = held.right if held is not None else piece.start
            yield Unheld(piece, things, left, after.left if after is not None else piece.end, held, after)


def _pieces(site: Site, name: str, top: Worktop) -> list[Piece]:
    things = _carrying(site, top)
    lowest = _lowest(things)
    low = [
        list(group)
        for through, group in groupby(things, lambda thing: _stands_through(site, thing, lowest))
        if not through
    ]
    if top.between is None:
        low = [stretch for stretch in (_without_gaps(stretch) for stretch in low) if stretch]
    found = [
        Piece(_called(name, below, len(low)), name, top, below[0].left, below[-1].right, below)
        for below in map(tuple, low)
    ]
    if found and top.between is not None:
        first, _, last = top.between.partition(" and ")
        if found[0].below[0] is things[0]:
            found[0] = found[0]._replace(start=_edge(site, top, first.strip(), "right"))
        if found[-1].below[-1] is things[-1]:
            found[-1] = found[-1]._replace(end=_edge(site, top, last.strip(), "left"))
    return found


def _carrying(site: Site, top: Worktop) -> list[Standing]:
    """The things of its run that a worktop can lie over: what stands, or what hangs where nothing stands."""
    if top.on not in site.plan.runs:
        return []
    things = site.setting_out.in_run(top.on)
    standing = [thing for thing in things if not site.levels.is_hung(thing)]
    things = standing if any(thing.item.family == "unit" for thing in standing) else things
    if top.between is None:
        return things
    first, _, last = top.between.partition(" and ")
    names = [fold(thing.name) for thing in things]
    begin = names.index(fold(first.strip())) + 1 if fold(first.strip()) in names else 0
    end = names.index(fold(last.strip())) if fold(last.strip()) in names else len(things)
    return things[begin:end]


def _without_gaps(things: Sequence[Standing]) -> list[Standing]:
    """The things without the gaps at either end, over which a worktop does not reach unless the plan says so."""
    solid = [number for number, thing in enumerate(things) if thing.item.family != "gap"]
    return list(things[solid[0] : solid[-1] + 1]) if solid else []


def _called(name: str, below: Sequence[Standing], count: int) -> str:
    if count == 1:
        return name
    return f"{name}, {below[0].name}" if len(below) == 1 else f"{name}, {below[0].name} to {below[-1].name}"


def _stands_through(site: Site, thing: Standing, lowest: float) -> bool:
    """Whether a thing stands beside a worktop, not under it."""
    if thing.item.family == "unit":
        return 0 < lowest * STANDS_BESIDE <= _height(thing)
    if thing.item.family != "opening":
        return False
    name = machine_in(site, thing)
    machine = site.plan.appliances.get(name)
    if machine is None:
        return fold(name) in COOKERS
    body = reading.quantity(machine.body.h if machine.body is not None else None, "", name)
    high = isinstance(body, Known) and 0 < lowest * STANDS_BESIDE <= float(body.value)
    return high or fold(machine.is_ or name) in COOKERS


def _lowest(things: Sequence[Standing]) -> float:
    """The least height of a unit; 0 where none is known."""
    heights = [_height(thing) for thing in things if thing.item.family == "unit"]
    return min((height for height in heights if height), default=0.0)


def _height(thing: Standing) -> float:
    height = reading.read(thing.item, "height", "height")
    return float(height.value) if isinstance(height, Known) else 0.0


def _edge(site: Site, top: Worktop, name: str, side: str) -> Given:
    """The side of a thing at which a worktop ends; of a wall, its face."""
    pointer = top.pointer_to("between")
    wall = site.plan.runs[top.on].against if top.on in site.plan.runs else ""
    if name.endswith(" wall"):
        beside = name.removesuffix(" wall")
        if fold(beside) == fold(at_right(site.plan, wall) or ""):
            return length_of(site.plan, wall)
        return reading.exactly(0, pointer, name)
    found = site.setting_out.find(name)
    if found is None:
        return Missing(pointer, f"place of {name}", Why.UNCLEAR, detail=f"{name} does not stand in a run")
    return found.right if side == "right" else found.left
