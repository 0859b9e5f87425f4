"""Tall units: whether they can be stood up in the room, and whether tops of wall units line through with theirs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import most, root
from validator.measures.heights.heights import STANDS_BESIDE, has_legs
from validator.measures.room.walls import difference, named_gap
from validator.measures.rows import NAME, Known, LeftOut, Missing, Row, Rows, Words, figure, given
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site

WAYS = ("as it comes", "put together lying", "put together upright", "in parts")


class TallUnit(Row, kind="tall unit"):
    """A tall unit that has to get upright between the floor and the ceiling, tipped over its lower back edge."""

    height: float = given(LENGTH, "unit")
    depth: float = given(LENGTH, "deep")
    legs: float = given(LENGTH, "legs")
    ceiling: float = given(LENGTH, "ceiling")
    floor: float = given(LENGTH, "floor under the units")
    stood_up: str = given(Words(WAYS), "how it is stood up")

    @figure(LENGTH, "room to stand it up", start="floor there when the units are set", end="ceiling")
    def room(self) -> float:
        return self.ceiling - self.floor

    @figure(LENGTH, "diagonal of the unit", start="lower back edge", end="upper front edge")
    def diagonal(self) -> float:
        return root(self.height * self.height + self.depth * self.depth)

    @figure(LENGTH, "diagonal on its legs", start="lower back edge of the legs", end="upper front edge")
    def diagonal_on_legs(self) -> float:
        whole = self.legs + self.height
        return root(whole * whole + self.depth * self.depth)

    @figure(LENGTH, "to spare when it is tipped up", start="upper front edge", end="ceiling")
    def to_spare(self) -> float:
        return self.room - self.diagonal

    @figure(LENGTH, "to spare when it is tipped up on its legs", start="upper front edge", end="ceiling")
    def to_spare_on_legs(self) -> float:
        return self.room - self.diagonal_on_legs


class HungBesideTall(Row, kind="hung unit beside a tall unit"):
    """A hung unit and the tall unit of its wall that is nearest to it."""

    above: float = given(LENGTH, "its top above that of the tall unit")
    below: float = given(LENGTH, "its top below that of the tall unit")
    tall_unit: str = given(NAME, "tall unit")

    @figure(LENGTH, "out of line", start="top of the tall unit", end="top of the unit")
    def out_of_line(self) -> float:
        return most(self.above, self.below)


def standing_tall(site: Site) -> list[Standing]:
    """The standing units that no worktop lies on: half as tall again as the lowest of all, or on a run without one.

    A unit of which nobody knows the height is taken for no tall one.
    """
    things = [thing for thing in site.setting_out.things() if thing.item.family == "unit"]
    standing = [thing for thing in things if not site.levels.is_hung(thing)]
    heights = [_height(thing) for thing in standing]
    if not any(heights):
        return []
    lowest = min(height for height in heights if height)
    carries = {run: site.plan.worktops.left_out or bool(site.levels.worktop_on(run)) for run in site.plan.runs}
    return [
        thing
        for thing, height in zip(standing, heights, strict=True)
        if height >= STANDS_BESIDE * lowest or (height and not carries[thing.run])
    ]


def _height(thing: Standing) -> float:
    height = reading.read(thing.item, "height", thing.name)
    return float(height.value) if isinstance(height, Known) else 0.0


def tall_units(site: Site) -> Rows:
    """A row for each tall unit."""
    if site.plan.runs.left_out:
        return Rows(left_out=[LeftOut(TallUnit.kind, Missing("/runs", "runs of units"))])
    rows = Rows()
    for thing in standing_tall(site):
        item, name = thing.item, thing.name
        none = reading.exactly(0, item.pointer_to("legs"), "legs", "it has none")
        room = site.levels.at(thing.wall)
        row = TallUnit(
            thing.subject,
            height=named_gap(reading.read(item, "height", name), f"height of {name}"),
            depth=named_gap(reading.read(item, "depth", "deep"), f"depth of {name}"),
            legs=site.levels.setting_of(thing) if has_legs(site, thing) else none,
            ceiling=room.ceiling,
            floor=room.laid_before,
            stood_up=reading.word(item.stood_up, item.pointer_to("stood_up"), "how it is stood up"),
        )
        rows.rows.append(row)
    return rows


def hung_beside_tall(site: Site) -> Rows:
    """A row for each hung unit of a wall with a tall unit; of several the one whose side is nearest counts."""
    if site.plan.runs.left_out:
        return Rows(left_out=[LeftOut(HungBesideTall.kind, Missing("/runs", "runs of units"))])
    tall: dict[str, list[Standing]] = {}
    for thing in standing_tall(site):
        tall.setdefault(fold(thing.wall), []).append(thing)
    rows = Rows()
    for thing in site.setting_out.things() if tall else ():
        there = tall.get(fold(thing.wall))
        if there and thing.item.family == "unit" and site.levels.is_hung(thing):
            other = min(there, key=lambda unit: _apart(thing, unit))
            top, tall_top = site.levels.top_of(thing), site.levels.top_of(other)
            row = HungBesideTall(
                thing.subject,
                above=difference(top, tall_top, thing.subject, f"above the top of {other.name}"),
                below=difference(tall_top, top, thing.subject, f"below the top of {other.name}"),
                tall_unit=reading.exactly(other.name, other.item.pointer, "tall unit"),
            )
            rows.rows.append(row)
    return rows


def _apart(thing: Standing, other: Standing) -> float:
    """How far two units of a wall stand apart; 0 where nobody knows."""
    here, there = thing.subject.along, other.subject.along
    return max(here[0] - there[1], there[0] - here[1]) if here and there else 0.0
