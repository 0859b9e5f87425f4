"""What is cut into joists, against their depth and span; and chases, against the leaf that they are cut in."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import least
from validator.measures.room.walls import named_gap
from validator.measures.rows import TERM, YES_NO, Given, Missing, Row, Rows, Subject, Words, figure, given
from validator.plan.dimensions import LENGTH, SHARE
from validator.plan.values import NothingStated

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.rooms import Room
    from validator.plan.sections.joists import Joists


class HoleInJoist(Row, kind="hole in a joist"):
    """A hole through a joist of solid timber; `below_top` is to its middle, `from_support` to the nearer support."""

    diameter: float = given(LENGTH, "hole")
    depth: float = given(LENGTH, "depth of the joist")
    span: float = given(LENGTH, "span")
    from_support: float = given(LENGTH, "from the support")
    below_top: float = given(LENGTH, "middle of the hole below the top edge")
    carries: str = given(Words(("cable", "pipe")), "what goes through it")

    @figure(SHARE, "hole in the depth of the joist")
    def of_depth(self) -> float:
        return self.diameter / self.depth

    @figure(SHARE, "place in the span", start="nearer support", end="middle of the hole")
    def of_span(self) -> float:
        return self.from_support / self.span

    @figure(LENGTH, "timber left above or below the hole", start="edge of the joist", end="edge of the hole")
    def cover(self) -> float:
        return least(self.below_top, self.depth - self.below_top) - self.diameter / 2


class NotchInJoist(Row, kind="notch in a joist"):
    """A notch in an edge of a joist of solid timber."""

    notch: float = given(LENGTH, "notch")
    depth: float = given(LENGTH, "depth of the joist")
    span: float = given(LENGTH, "span")
    from_support: float = given(LENGTH, "from the support")

    @figure(SHARE, "notch in the depth of the joist")
    def of_depth(self) -> float:
        return self.notch / self.depth

    @figure(SHARE, "place in the span", start="nearer support", end="notch")
    def of_span(self) -> float:
        return self.from_support / self.span


class ChaseInWall(Row, kind="chase in a wall"):
    """A chase with the leaf it is cut in; `opposite` is how far aside the nearest one in the other face lies."""

    runs: str = given(Words(("upright", "level")), "which way it runs")
    deep: float = given(LENGTH, "chase")
    length: float = given(LENGTH, "length of the chase")
    base: str = given(TERM, "what it is cut in")
    leaf: float = given(LENGTH, "thickness of the leaf")
    has_opposite: bool = given(YES_NO, "whether a chase lies in the other face")
    opposite: float = given(LENGTH, "nearest chase in the other face, aside")

    @figure(SHARE, "chase in the thickness of the leaf", start="face of the leaf", end="back of the chase")
    def of_leaf(self) -> float:
        return self.deep / self.leaf


def holes_in_joists(site: Site) -> Rows:
    """A row for each hole of the joists under the floors."""
    rows = Rows()
    for room, joists in _joists(site):
        for name, hole in (joists.holes or {}).items():
            rows.rows.append(
                HoleInJoist(
                    Subject(name, hole.pointer, room.called or "floor"),
                    diameter=reading.read(hole, "diameter", name),
                    below_top=reading.read(hole, "below_top", f"{name} below the top edge"),
                    from_support=reading.read(hole, "from_support", f"{name} from the support"),
                    carries=reading.word(hole.for_, hole.pointer_to("for"), f"what goes through {name}"),
                    **_joist(joists),
                )
            )
    return rows


def notches_in_joists(site: Site) -> Rows:
    """A row for each notch of the joists under the floors."""
    rows = Rows()
    for room, joists in _joists(site):
        for name, notch in (joists.notches or {}).items():
            rows.rows.append(
                NotchInJoist(
                    Subject(name, notch.pointer, room.called or "floor"),
                    notch=reading.read(notch, "depth", name),
                    from_support=reading.read(notch, "from_support", f"{name} from the support"),
                    **_joist(joists),
                )
            )
    return rows


def _joists(site: Site) -> Iterator[tuple[Room, Joists]]:
    once: set[str] = set()
    for room in site.plan.rooms.values():
        joists = room.floor.joists if room.floor is not None else None
        if joists is not None and joists.pointer not in once:
            once.add(joists.pointer)
            yield room, joists


def _joist(joists: Joists) -> dict[str, Given]:
    size = joists.size
    depth = reading.quantity(size.h if size is not None else None, joists.pointer_to("size"), "joist")
    return {
        "depth": named_gap(depth, "depth of the joists"),
        "span": named_gap(reading.read(joists, "span", "span"), "span of the joists"),
    }


def chases_in_walls(site: Site) -> Rows:
    """A row for each chase and each make-up of its wall."""
    rows = Rows()
    for name, chase in site.plan.chases.items():
        wall = chase.wall or ""
        label = f"whether a chase lies behind {name} in the other face"
        values: dict[str, Given] = {"has_opposite": Missing(chase.pointer_to("opposite"), label)}
        if chase.opposite is not None:
            there = not isinstance(chase.opposite, NothingStated)
            values["has_opposite"] = reading.exactly(there, chase.pointer_to("opposite"), label)
            values["opposite"] = reading.read(chase, "opposite", "nearest chase in the other face")
        for made in site.make_ups.at(wall):
            way = made.way_to(site.library, "")
            if isinstance(way, Missing):
                values |= dict.fromkeys(("base", "leaf"), way)
            else:
                values["base"] = reading.exactly(way.base.material, way.base.pointer, "what it is cut in")
                values["leaf"] = way.base.thickness
            rows.rows.append(
                ChaseInWall(
                    Subject(name, chase.pointer, f"{wall} wall", wall),
                    runs=reading.word(chase.runs, chase.pointer_to("runs"), f"which way {name} runs"),
                    deep=reading.read(chase, "deep", name),
                    length=reading.read(chase, "length", f"length of {name}"),
                    **values,
                )
            )
    return rows
