"""How far the worktop goes on beside a thing along its wall, and what ends it: a wall, a tall unit, a sink, nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.appliances.appliance_places import COLD, HOBS, kind_of, place_of, standing_of, width_of
from validator.measures.heights.heights import COOKERS, STANDS_BESIDE
from validator.measures.heights.room_levels import Above
from validator.measures.room.walls import (
    at_left,
    at_right,
    difference,
    half_of,
    length_of,
    named_gap,
    which_end,
    worked,
)
from validator.measures.rows import Given, Known, Missing, Subject
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site

LEFT, RIGHT = "left", "right"
SIDES = (LEFT, RIGHT)
ENDS = ("wall", "tall unit", "sink", "hob", "corner", "open end")
"""What can end a worktop; at a corner it meets things that stand at right angles to it."""

BRIDGED = 50.0
"""A worktop is scribed over a slit no wider than this, between two runs or between a run and the wall."""


class End(NamedTuple):
    """What ends a worktop: the place of its near side along the wall, what it is, its name and its pointer."""

    place: Given
    by: Given
    name: str
    pointer: str
    thing: Standing | None = None


class Cut(NamedTuple):
    """A sink or a hob in a worktop, with its edges along the wall. A cooker takes the place of the worktop."""

    name: str
    by: str
    pointer: str
    left: Given
    middle: Given
    right: Given

    def edge(self, side: str) -> Given:
        return self.left if side == LEFT else self.right


class Tops:
    """The worktops of a plan, walked along from a thing to either side, up to the first thing that stops each."""

    def __init__(self, site: Site) -> None:
        self.site = site
        self.cuts: dict[tuple[str, str], list[Cut]] = {}
        self._machines: dict[tuple[str, str], str] = {}
        for name, appliance in site.plan.appliances.items():
            thing, kind = standing_of(site, name), kind_of(name, appliance)
            if thing is None or appliance.over is not None:
                continue
            if kind == "sink" or kind in HOBS:
                cut = cut_of(place_of(site, name), "sink" if kind == "sink" else "hob")
                self.cuts.setdefault((thing.run, thing.name), []).append(cut)
            if kind not in HOBS - COOKERS:
                self._machines.setdefault((thing.run, thing.name), name)
        self._walls = self._standing()
        self._numbers = {
            (thing.run, thing.name): number for things in self._walls.values() for number, thing in enumerate(things)
        }
        self._usual = self._usual_height()

    def stands(self, thing: Standing) -> bool:
        """Whether a thing stands on the floor, so that a worktop may lie beside it."""
        return (thing.run, thing.name) in self._numbers

    def end_beside(self, thing: Standing, side: str, own: Cut | None = None) -> End:
        """Where the worktop ends that begins at a side of a standing thing, or of a sink or hob (`own`) in it."""
        things = self._walls[fold(thing.wall)]
        step = -1 if side == LEFT else 1
        cut = self._next_cut(thing, side, own) if own is not None else None
        number, last = self._numbers[thing.run, thing.name] + step, thing
        while cut is None and 0 <= number < len(things):
            here = things[number]
            stop = self._stop(things, number, side)
            if _slit(last, here, side) > BRIDGED and (stop is not None or here.run != last.run):
                return _open(last, side)
            cut = self._next_cut(here, side, None)
            if cut is None and stop is not None:
                return stop
            number, last = number + step, here
        if cut is not None:
            opposite = RIGHT if side == LEFT else LEFT
            return End(cut.edge(opposite), _word(cut.by, cut.pointer), cut.name, cut.pointer)
        return self._end_of_wall(last, side)

    def upright_beside(self, thing: Standing, side: str) -> End | None:
        """The tall unit next beside a thing, though the worktop may end before it, else the wall; on an island none."""
        things = self._walls[fold(thing.wall)]
        step = -1 if side == LEFT else 1
        number, last = self._numbers[thing.run, thing.name] + step, thing
        while 0 <= number < len(things):
            stop = self._stop(things, number, side)
            if stop is not None:
                return stop
            number, last = number + step, things[number]
        end = self._end_of_wall(last, side)
        if isinstance(end.by, Known) and end.by.value not in ("wall", "tall unit"):
            return _wall_beside(self.site, thing, side)
        return end

    def _standing(self) -> dict[str, list[Standing]]:
        """What stands along each wall, from its left end; gaps are left out, unless a machine stands in them."""
        placed: dict[str, list[tuple[float, Standing]]] = {}
        for run in self.site.plan.runs:
            at = 0.0
            for thing in self.site.setting_out.in_run(run):
                empty = thing.item.family == "gap" and (thing.run, thing.name) not in self._machines
                if not empty and not self.site.levels.is_hung(thing):
                    at = float(thing.left.value) if isinstance(thing.left, Known) else at
                    placed.setdefault(fold(thing.wall), []).append((at, thing))
        return {
            wall: [thing for _, thing in sorted(found, key=lambda entry: entry[0])] for wall, found in placed.items()
        }

    def _next_cut(self, thing: Standing, side: str, own: Cut | None) -> Cut | None:
        """The sink or hob in a thing that one meets first; from one in the same thing, the next on that side of it."""
        cuts = self.cuts.get((thing.run, thing.name), [])
        if own is not None:
            sign = -1 if side == LEFT else 1
            cuts = [cut for cut in cuts if cut.name != own.name and sign * (_at(cut.middle) - _at(own.middle)) > 0]
        if not cuts:
            return None
        return (
            min(cuts, key=lambda cut: _at(cut.middle)) if side == RIGHT else max(cuts, key=lambda cut: _at(cut.middle))
        )

    def _stop(self, things: list[Standing], number: int, side: str) -> End | None:
        """The end that a thing makes of the worktop before it; None where the worktop lies on it.

        A panel that stands against a tall thing belongs to it, unless it says how high it is.
        """
        thing = things[number]
        beyond = number + (-1 if side == LEFT else 1)
        tall = self.tall(thing)
        if tall is False and thing.item.family == "panel" and thing.item.height is None and 0 <= beyond < len(things):
            tall = self.tall(things[beyond]) is True
        if tall is False:
            return None
        by: Given = _word("tall unit", thing.item.pointer) if tall is True else tall
        return End(thing.right if side == LEFT else thing.left, by, thing.name, thing.item.pointer, thing)

    def tall(self, thing: Standing) -> bool | Missing | tuple[Missing, ...]:
        """Whether a thing stands beside the worktop and not under it.

        A machine without a height stands under it, but for those that keep food cold, which do either.
        """
        height: Given = Missing(thing.item.pointer_to("height"), f"height of {thing.name}")
        if thing.item.family == "opening":
            name = self._machines.get((thing.run, thing.name), thing.name)
            appliance = self.site.plan.appliances.get(name)
            kind = kind_of(name, appliance) if appliance is not None else fold(name)
            body = appliance.body.h if appliance is not None and appliance.body is not None else None
            pointer = f"{self.site.plan.appliances.pointer}/{name}/body"
            height = named_gap(reading.quantity(body, pointer, name), f"height of {name}")
            if not isinstance(height, Known) and kind not in COLD:
                return False
        elif thing.item.family == "unit" or thing.item.height is not None:
            height = named_gap(reading.read(thing.item, "height", thing.name), f"height of {thing.name}")
        else:
            return False
        if not isinstance(height, Known):
            return height
        return 0 < STANDS_BESIDE * self._usual < float(height.value)

    def _usual_height(self) -> float:
        """How high units are that worktops lie on: the lowest with a sink or a hob, else the lowest of all; or 0."""
        things = [thing for things in self._walls.values() for thing in things if thing.item.family == "unit"]
        with_cuts = [thing for thing in things if (thing.run, thing.name) in self.cuts]
        for some in (with_cuts, things):
            heights = [reading.read(thing.item, "height", "height") for thing in some]
            known = [float(height.value) for height in heights if isinstance(height, Known)]
            if known:
                return min(known)
        return 0.0

    def _end_of_wall(self, last: Standing, side: str) -> End:
        """What ends the worktop behind the last thing on its wall."""
        plan, run = self.site.plan, self.site.plan.runs[last.run]
        wall = _wall_beside(self.site, last, side)
        if wall is None:
            return _open(last, side)
        other = run.from_.fronts_of if run.from_ is not None else ""
        if other and which_end(plan, run.against, plan.runs[other].against) == side:
            corner = self._at_corner(other, RIGHT if side == LEFT else LEFT)
            if corner is not None and self.tall(corner) is not False:
                by = self.tall(corner)
                place = last.left if side == LEFT else last.right
                known = _word("tall unit", corner.item.pointer) if isinstance(by, bool) else by
                return End(place, known, corner.name, corner.item.pointer, corner)
            return wall
        ahead, behind = (last.left, wall.place) if side == LEFT else (wall.place, last.right)
        beyond = difference(ahead, behind, last.subject, f"from {last.name} to the {wall.name}")
        if not isinstance(beyond, Known):
            return End(last.left if side == LEFT else last.right, beyond, wall.name, last.item.pointer)
        if float(beyond.value) <= BRIDGED:
            return wall
        at_angle = at_left(plan, last.wall) if side == LEFT else at_right(plan, last.wall)
        if at_angle is not None and self._at_end_of(at_angle, RIGHT if side == LEFT else LEFT):
            end = _open(last, side)
            return end._replace(by=_word("corner", last.item.pointer))
        return _open(last, side)

    def _at_corner(self, run: str, side: str) -> Standing | None:
        """The thing of a run that stands nearest to one end of its wall."""
        things = [thing for thing in self.site.setting_out.in_run(run) if self.stands(thing)]
        return (things[0] if side == LEFT else things[-1]) if things else None

    def _at_end_of(self, wall: str, side: str) -> bool:
        """Whether something stands along a wall into that end of it, as far as anybody knows."""
        things = self._walls.get(fold(wall), [])
        if not things:
            return False
        last = things[0] if side == LEFT else things[-1]
        if side == LEFT:
            return not isinstance(last.left, Known) or float(last.left.value) <= BRIDGED
        length = length_of(self.site.plan, last.wall)
        if not isinstance(length, Known) or not isinstance(last.right, Known):
            return True
        return float(length.value) - float(last.right.value) <= BRIDGED


def cut_of(place: ApplianceAt, by: str) -> Cut:
    """A sink or a hob with its edges: of its cut-out where nothing says how wide it is itself."""
    appliance, subject = place.appliance, Subject(place.name, place.appliance.pointer)
    half = half_of(width_of(place), subject, f"half of {place.name}")
    left = difference(place.middle, half, subject, f"left side of {place.name}")
    right = worked(Above(subject, base=place.middle, amount=half), "height", f"right side of {place.name}")
    return Cut(place.name, by, appliance.pointer, left, place.middle, right)


def _wall_beside(site: Site, thing: Standing, side: str) -> End | None:
    """The wall at one end of that on which a thing stands; None for an island, and where none meets it."""
    plan = site.plan
    run = plan.runs[thing.run]
    if run.faces is not None:
        return None
    beside = at_left(plan, thing.wall) if side == LEFT else at_right(plan, thing.wall)
    name = f"{beside} wall" if beside is not None else "end of the wall"
    pointer = run.pointer_to("against")
    place = reading.exactly(0, pointer, name) if side == LEFT else length_of(plan, thing.wall)
    return End(place, _word("wall", pointer), name, pointer)


def _open(last: Standing, side: str) -> End:
    place = last.left if side == LEFT else last.right
    return End(place, _word("open end", last.item.pointer), f"end at {last.name}", last.item.pointer)


def _slit(last: Standing, here: Standing, side: str) -> float:
    """What lies open between two neighbours; 0 where nobody knows."""
    near, far = (last.left, here.right) if side == LEFT else (here.left, last.right)
    if not isinstance(near, Known) or not isinstance(far, Known):
        return 0.0
    return float(near.value) - float(far.value)


def _word(word: str, pointer: str) -> Known:
    return reading.exactly(word, pointer, "what ends the worktop")


def _at(place: Given) -> float:
    return float(place.value) if isinstance(place, Known) else 0.0
