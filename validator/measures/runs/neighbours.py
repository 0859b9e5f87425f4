"""What stands beside each thing that is placed by itself: how much is clear, and whether two things take one place.

Things that follow one another in a stretch of a run touch and cannot overlap; only where one stretch ends and another
begins, of the same run or of another on the same wall, may two things take one place.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.arithmetic import least
from validator.measures.room.walls import difference
from validator.measures.rows import NAME, Given, Known, LeftOut, Missing, Row, Rows, figure, gaps_of, given
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.runs.stretches import Stretch
    from validator.measures.site import Site


class BesideNeighbours(Row, kind="thing beside its neighbours"):
    """A thing of a run and the nearest things at its height on the same wall; less than 0 where they overlap."""

    gaps: tuple[float, ...] = given(LENGTH, "between it and what stands beside it", many=True)
    nearest: str = given(NAME, "what stands nearest")

    @figure(LENGTH, "clear", start="its side", end="side of what stands nearest")
    def clear(self) -> float:
        return least(self.gaps)


class _Layer(NamedTuple):
    """Whether things hang, and the heights between which they take room; None where those are not known."""

    hung: bool
    between: tuple[float, float] | None

    def meets(self, other: _Layer) -> bool:
        """Whether things of both may be at one height. Hung things of unknown height may be anywhere on the wall."""
        if not self.hung and not other.hung:
            return True
        if self.between is None or other.between is None:
            return self.hung and other.hung
        return self.between[0] < other.between[1] and other.between[0] < self.between[1]


class _Placed(NamedTuple):
    """A thing with its sides along the wall, its stretch, and the layer it is in; `unclear` are its open heights."""

    thing: Standing
    stretch: Stretch
    left: float
    right: float
    layer: _Layer
    unclear: tuple[Missing, ...]


class _Beside(NamedTuple):
    """A thing beside another: how much is clear, by the values of the plan and as a value for a row."""

    clear: float
    gap: Given
    other: _Placed


def beside_neighbours(site: Site) -> Rows:
    """A row for each thing that has one of another stretch beside it, at its height on its wall.

    A thing of which nobody knows the place has none: its width or its wall is asked for by its run.
    """
    if site.plan.runs.left_out:
        return Rows(left_out=[LeftOut(BesideNeighbours.kind, Missing("/runs", "runs of units"))])
    rows = Rows()
    for things in _by_wall(site).values():
        rows.rows += _rows(things)
    return rows


def _by_wall(site: Site) -> dict[str, list[_Placed]]:
    """Everything that takes room along each wall, from the left; nothing on a wall with a single stretch."""
    found: dict[str, list[Standing]] = {}
    stretches: dict[str, set[int]] = {}
    for thing in site.setting_out.things():
        wall = fold(thing.wall)
        found.setdefault(wall, []).append(thing)
        stretches.setdefault(wall, set()).add(id(site.setting_out.stretch_of(thing)))
    placed = {}
    for wall, things in found.items():
        if len(stretches[wall]) > 1:
            all_placed = [_placed(site, thing) for thing in things if thing.item.family != "gap"]
            placed[wall] = sorted((each for each in all_placed if each is not None), key=lambda each: each.left)
    return placed


def _placed(site: Site, thing: Standing) -> _Placed | None:
    left, right = thing.left, thing.right
    if not isinstance(left, Known) or not isinstance(right, Known):
        return None
    layer, unclear = _layer(site, thing)
    return _Placed(thing, site.setting_out.stretch_of(thing), float(left.value), float(right.value), layer, unclear)


def _layer(site: Site, thing: Standing) -> tuple[_Layer, tuple[Missing, ...]]:
    hung = site.levels.is_hung(thing)
    if not hung and thing.item.family != "unit":
        return _Layer(hung, None), ()
    top = site.levels.top_of(thing)
    bottom: Given = reading.exactly(0, thing.item.pointer, "floor")
    if hung:
        height = reading.read(thing.item, "height", f"height of {thing.name}")
        bottom = difference(top, height, thing.subject, f"underside of {thing.name}")
    if not isinstance(top, Known) or not isinstance(bottom, Known):
        return _Layer(hung, None), gaps_of(bottom, top)
    return _Layer(hung, (float(bottom.value), float(top.value))), ()


def _rows(things: list[_Placed]) -> list[Row]:
    """The rows of one wall. Of every layer only the thing that reaches furthest can be the nearest on the left."""
    furthest: dict[_Layer, _Placed] = {}
    beside: dict[int, list[_Beside]] = {}
    for placed in things:
        there = [other for layer, other in furthest.items() if placed.layer.meets(layer)]
        reach = max((other.right for other in there), default=0.0)
        for other in there:
            near = other.right == reach or other.right > placed.left
            if near and other.stretch is not placed.stretch:
                gap = _gap(other, placed)
                beside.setdefault(id(placed), []).append(gap)
                if gap.clear < 0 or id(other) not in beside:
                    beside.setdefault(id(other), []).append(gap._replace(other=placed))
        own = furthest.get(placed.layer)
        if own is None or placed.right >= own.right:
            furthest[placed.layer] = placed
    return [_row(placed, beside[id(placed)]) for placed in things if id(placed) in beside]


def _gap(left: _Placed, right: _Placed) -> _Beside:
    clear = right.left - left.right
    label = f"from {left.thing.name} to {right.thing.name}"
    gap = difference(right.thing.left, left.thing.right, right.thing.subject, label)
    unclear = left.unclear + right.unclear
    if clear < 0 and unclear and left.layer.hung:
        gap = unclear  # hung things overlap only if they are at one height
    return _Beside(clear, gap, left)


def _row(placed: _Placed, beside: list[_Beside]) -> Row:
    nearest = min(beside, key=lambda found: found.clear)
    return BesideNeighbours(
        placed.thing.subject,
        gaps=reading.parts([found.gap for found in beside]),
        nearest=reading.exactly(nearest.other.thing.name, nearest.other.thing.item.pointer, "what stands nearest"),
    )
