"""Every hole that the plan leads to: at hangers, along rails and battens, in rows on things, and given outright."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.appliances.appliance_places import place_of, width_of
from validator.measures.fixings.fixings import held_by, is_appliance
from validator.measures.fixings.studs import stud_places
from validator.measures.heights.room_levels import Above, Below
from validator.measures.room.walls import difference, half_of, length_of, named_gap, place_along, worked
from validator.measures.rows import Given, Known, Missing, Row, Subject, Why, figure, given
from validator.plan.dimensions import LENGTH, NUMBER
from validator.plan.names import fold
from validator.plan.values import Quantity

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.sections.drilling import DrillHole
    from validator.plan.sections.work import Fixing
    from validator.plan.sections.work import Hole as BitAndDepth

MOST_IN_A_ROW = 5_000
"""More holes than any room has: a row of more is a slip, and is not drilled out."""


class HangerPlace(Row, kind="hanger of a wall unit"):
    """Where a hanger sits on the wall, from the place of its unit."""

    side: float = given(LENGTH, "side of the unit")
    inward: float = given(LENGTH, "in from its side")
    top: float = given(LENGTH, "top of the unit")
    down: float = given(LENGTH, "down from its top")

    @figure(LENGTH, "hole along the wall", start="left end of the wall", end="middle of the hole")
    def right_of_side(self) -> float:
        return self.side + self.inward

    @figure(LENGTH, "hole along the wall", start="left end of the wall", end="middle of the hole")
    def left_of_side(self) -> float:
        return self.side - self.inward

    @figure(LENGTH, "hole above the bare floor", start="bare floor at the high spot", end="middle of the hole")
    def up(self) -> float:
        return self.top - self.down


class InARow(Row, kind="hole in a row of holes"):
    """A hole of a row that keeps the same distance from both ends of a thing; `share` is its part of the way."""

    left: float = given(LENGTH, "left end")
    right: float = given(LENGTH, "right end")
    inward: float = given(LENGTH, "in from its ends")
    share: float = given(NUMBER, "share of the way to the last hole")

    @figure(LENGTH, "hole along the wall", start="left end of the wall", end="middle of the hole")
    def along(self) -> float:
        return self.left + self.inward + (self.right - self.left - self.inward - self.inward) * self.share


class OnFromFirst(Row, kind="hole so many steps from the first"):
    """A hole of a row that goes on from the first at even steps to the right."""

    first: float = given(LENGTH, "first hole")
    every: float = given(LENGTH, "from hole to hole")
    steps: float = given(NUMBER, "steps from the first")

    @figure(LENGTH, "hole along the wall", start="left end of the wall", end="middle of the hole")
    def along(self) -> float:
        return self.first + self.every * self.steps


class Hole(NamedTuple):
    """A hole to be drilled: its middle along the wall and up from the bare floor, how deep, and for which fixing.

    `reach` is how far in it or the tip of its fixing comes to lie, whichever is deeper.
    """

    subject: Subject
    wall: str
    along: Given
    up: Given
    depth: Given = ()
    made_for: Fixing | DrillHole | None = None
    called: str = ""
    reach: Given = ()


class Holes:
    """All holes of a plan, each found once."""

    def __init__(self, site: Site) -> None:
        self._site = site
        self._depths: dict[int, _Depth] = {}

    @cached_property
    def all(self) -> list[Hole]:
        """Holes at hangers first, then those of rows on things, then those given outright."""
        return [*self._at_hangers(), *self._in_rows(), *self._outright()]

    @cached_property
    def _holding(self) -> dict[str, list[Fixing]]:
        """The fixings that hold each thing in a run, by the pointer of that; those of an appliance hold no unit."""
        plan = self._site.plan
        found: dict[str, list[Fixing]] = {}
        for fixing in plan.fixings.values():
            for name in fixing.for_:
                for item, *_ in held_by(plan, name) if not is_appliance(plan, name) else ():
                    found.setdefault(item.pointer, []).append(fixing)
        return found

    def _at_hangers(self) -> Iterator[Hole]:
        """Two for each hung unit that is fixed at its hangers, or that no fixing is for."""
        called = {id(fixing): name for name, fixing in self._site.plan.fixings.items()}
        for thing in self._site.setting_out.things():
            if thing.item.family == "unit" and self._site.levels.is_hung(thing):
                fixings = self._holding.get(thing.item.pointer, ())
                there = next((fixing for fixing in fixings if fixing.at == "hangers"), None)
                if there is not None or not fixings:
                    yield from self._of_hangers(thing, called.get(id(there), ""), there)

    def _of_hangers(self, thing: Standing, called: str, fixing: Fixing | None) -> Iterator[Hole]:
        item, hangers = thing.item, thing.item.hangers
        pointer = item.pointer_to("hangers")
        down, inward = f"how far down the hangers of {thing.name} sit", f"how far in the hangers of {thing.name} sit"
        values: dict[str, Given] = {"top": self._site.levels.top_of(thing), "down": Missing(f"{pointer}/down", down)}
        values["inward"] = Missing(f"{pointer}/in", inward)
        if hangers is not None:
            values["down"] = named_gap(reading.read(hangers, "down", "down from its top"), down)
            values["inward"] = named_gap(reading.read(hangers, "in_", "in from its side"), inward)
        for side, place, figure_ in (("left", thing.left, "right_of_side"), ("right", thing.right, "left_of_side")):
            subject = Subject(f"{thing.name} {side} hanger", item.pointer, f"{thing.wall} wall", thing.wall)
            across = HangerPlace(subject, side=place, inward=values["inward"])
            upward = HangerPlace(subject, top=values["top"], down=values["down"])
            along = worked(across, figure_, "hole along the wall")
            up = worked(upward, "up", "hole above the bare floor")
            yield self._hole(subject, along, up, called, fixing)

    def _hole(self, subject: Subject, along: Given, up: Given, called: str, of: Fixing | DrillHole | None) -> Hole:
        if isinstance(along, Known):
            subject = subject._replace(along=(float(along.value), float(along.value)))
        depth = self._depth(of)
        return Hole(subject, subject.wall, along, up, depth.drilled, of, called, depth.reach)

    def _depth(self, of: Fixing | DrillHole | None) -> _Depth:
        """How deep the holes of a fixing are, worked out once for all of them."""
        if of is None:
            missing = Missing(self._site.plan.fixings.pointer, "fixings")
            return _Depth(missing, missing)
        if id(of) not in self._depths:
            self._depths[id(of)] = _depth_of(of)
        return self._depths[id(of)]

    def _in_rows(self) -> Iterator[Hole]:
        """Rows on things; a hole of unknown place for each thing of which nobody knows where its fixings sit."""
        for called, fixing in self._site.plan.fixings.items():
            passed: set[str] = set()
            for name in fixing.for_:
                things = list(_things(self._site, name))
                if fixing.at in ("top", "back"):
                    for thing in things:
                        yield from self._across(called, fixing, thing)
                    continue
                there = [thing for thing in things if fixing.at == "batten" or (thing.hung and fixing.at is not None)]
                passed.update(thing.pointer for thing in there)
                if not there or name not in self._site.plan.runs:  # of a run, a rail holds what hangs in it
                    for thing in things:
                        if thing not in there:
                            yield self._somewhere(called, fixing, thing)
            if fixing.at in ("rail", "batten"):
                yield from self._along_runs(called, fixing, passed)

    def _somewhere(self, called: str, fixing: Fixing, thing: _Thing) -> Hole:
        """The holes of a fixing at a thing, as one of unknown place: the plan does not say where on it they are."""
        label = f"where on {thing.name} the fixings sit"
        place = Missing(fixing.pointer_to("at"), label)
        if fixing.at is not None:
            detail = f"{thing.name} does not hang: its fixings sit at its top or back, not at {fixing.at}"
            place = Missing(fixing.pointer_to("at"), label, Why.UNCLEAR, detail=detail)
        subject = Subject(f"{thing.name} {called}", fixing.pointer, f"{thing.wall} wall", thing.wall)
        return self._hole(subject, place, place, called, fixing)

    def _across(self, called: str, fixing: Fixing, thing: _Thing) -> Iterator[Hole]:
        """A row across one thing, as many as each gets; where they go into studs, those behind it."""
        up = self._up(fixing, thing.wall, thing.top, f"holes of {called} at {thing.name}")
        subject = Subject(thing.name, thing.pointer, f"{thing.wall} wall", thing.wall)
        count = fixing.each.low if isinstance(fixing.each, Quantity) else 2
        yield from self._row(called, fixing, subject, thing.left, thing.right, up, int(count), f"{thing.name} {called}")

    def _along_runs(self, called: str, fixing: Fixing, passed: set[str]) -> Iterator[Hole]:
        """The holes of a rail behind each row of hung units, or of a batten along the worktop before them."""
        site = self._site
        first_of_run: dict[str, int] = {}
        for things in _side_by_side(site, fixing, passed):
            wall, first, name = things[0].wall, things[0], things[0].run
            if fixing.at == "rail":
                down = first.item.hangers.down if first.item.hangers is not None else None
                pointer = first.item.pointer_to("hangers") + "/down"
                sits = named_gap(reading.quantity(down, pointer, "hangers"), f"how far down the rail of {name} sits")
                subject = Subject(name, first.item.pointer)
                row = Below(subject, base=site.levels.top_of(first), amount=sits)
                at = worked(row, "height", "hole above the bare floor")
                up = self._up(fixing, wall, at, f"holes of {called}", from_top=site.levels.top_of(first))
            else:
                up = self._up(fixing, wall, _under_worktop(site, first.run), f"holes of {called}")
            subject = Subject(name, fixing.pointer, f"{wall} wall", wall)
            number = first_of_run[first.run] = first_of_run.get(first.run, 0) + 1
            stem = called if number == 1 and len(first_of_run) == 1 else f"{called} {first.run} {number}"
            count = _count(first.left, things[-1].right, fixing)
            yield from self._row(called, fixing, subject, first.left, things[-1].right, up, count, stem)

    def _up(self, fixing: Fixing, wall: str, top: Given, label: str, from_top: Given | None = None) -> Given:
        """How high the holes of a row are: as the fixing says, so far down from the top, or as `top` says of a rail."""
        if fixing.up is not None:
            worktop = self._site.levels.worktop_by(wall, None)
            return self._site.levels.at(wall).above_bare_floor(fixing.up, fixing.pointer_to("up"), label, worktop)
        if fixing.down is None and from_top is not None:
            return top
        down = named_gap(reading.read(fixing, "down", "down from the top"), f"how high the {label} are")
        row = Below(Subject(label, fixing.pointer), base=top if from_top is None else from_top, amount=down)
        return worked(row, "height", "hole above the bare floor")

    def _row(
        self, called: str, fixing: Fixing, of: Subject, left: Given, right: Given, up: Given, count: int, stem: str
    ) -> Iterator[Hole]:
        inward = named_gap(
            reading.read(fixing, "from_ends", "in from its ends"), f"how far in the holes of {called} sit"
        )
        studs = self._on_studs(fixing, of.wall, left, right)
        for number in range(len(studs) or min(count, MOST_IN_A_ROW)):
            subject = of._replace(name=f"{stem} {number + 1}", pointer=fixing.pointer)
            if studs:
                along = studs[number]
            else:
                share = 0.5 if count < 2 else number / (count - 1)
                row = InARow(
                    subject,
                    left=left,
                    right=right,
                    inward=inward,
                    share=reading.exactly(share, fixing.pointer, "share of the way"),
                )
                along = worked(row, "along", "hole along the wall")
            yield self._hole(subject, along, up, called, fixing)
        if not studs and fixing.at in ("rail", "batten") and not isinstance(fixing.centres, Quantity):
            between = named_gap(reading.read(fixing, "centres", "centres"), f"distance between the holes of {called}")
            subject = of._replace(name=f"{stem} between its ends", pointer=fixing.pointer)
            yield self._hole(subject, between, up, called, fixing)

    def _on_studs(self, fixing: Fixing, wall: str, left: Given, right: Given) -> list[Given]:
        """The middles of the studs behind a thing, as found else as drawn, where its screws go into them."""
        found = self._site.plan.walls.get(wall)
        into = fold(fixing.into) if isinstance(fixing.into, str) else ""
        studs = self._site.records.studs(wall, found.studs if found is not None else None)
        if studs is None or not into.removesuffix("s").endswith("stud"):
            return []
        places = stud_places(self._site, wall, studs)
        if not isinstance(places, list) or not isinstance(left, Known) or not isinstance(right, Known):
            return []
        start, end = float(left.high or 0.0), float(right.low or 0.0)
        behind = [place for place in places if start <= place.value <= end]
        if fixing.at in ("top", "back") and isinstance(fixing.each, Quantity):
            behind = behind[: int(fixing.each.low)]
        return list(behind)

    def _that_fit(self, wall: str, first: Given, every: Given) -> int:
        """How many holes of a row its wall has room for, and one more, which then is found beyond the end of it."""
        whole = length_of(self._site.plan, wall)
        if isinstance(whole, Known) and isinstance(first, Known) and isinstance(every, Known):
            room = float(whole.high or 0.0) - float(first.low or 0.0)
            return min(MOST_IN_A_ROW, max(1, math.floor(room / float(every.low or every.value)) + 2))
        return MOST_IN_A_ROW

    def _outright(self) -> Iterator[Hole]:
        site = self._site
        for name, hole in site.plan.drill.items():
            wall = hole.wall or ""
            wall = site.plan.walls.written(wall) if wall in site.plan.walls else wall
            first: Given = Missing(hole.pointer_to("along"), f"place of {name} along its wall")
            if hole.along is not None:
                first = place_along(site.plan, wall, hole.along, hole.pointer_to("along"), name)
            worktop = site.levels.worktop_by(wall, None)
            up = site.levels.at(wall).above_bare_floor(hole.up, hole.pointer_to("up"), name, worktop)
            context = f"{wall} wall"
            if hole.number is None and hole.every is None:
                yield self._hole(Subject(name, hole.pointer, context, wall), first, up, hole.for_ or "", hole)
                continue
            every = named_gap(reading.read(hole, "every", "from hole to hole"), f"distance between the holes of {name}")
            if isinstance(every, Known) and (every.high or 0.0) <= 0:
                detail = "holes of a row lie apart"
                every = Missing(
                    hole.pointer_to("every"), f"distance between the holes of {name}", Why.UNCLEAR, detail=detail
                )
            number = hole.number.low if isinstance(hole.number, Quantity) else 1
            for step in range(min(int(number), self._that_fit(wall, first, every))):
                subject = Subject(f"{name} {step + 1}", hole.pointer, context, wall)
                along = first
                if step or hole.number is None:
                    steps = reading.exactly(float(step), hole.pointer, "steps from the first")
                    along = worked(OnFromFirst(subject, first=first, every=every, steps=steps), "along", "hole")
                yield self._hole(subject, along, up, hole.for_ or "", hole)


class _Depth(NamedTuple):
    """How deep a hole is drilled from the face of the wall, and how far in the hole or its fixing comes to lie."""

    drilled: Given
    reach: Given


def _depth_of(of: Fixing | DrillHole) -> _Depth:
    """As the hole says, else as far as a screw without a plug goes in; a fixing may reach further than its hole."""
    made: BitAndDepth | None = of.hole
    hole: Given = Missing(of.pointer_to("hole"), "depth of the hole")
    if made is not None:
        hole = named_gap(reading.read(made, "depth", "hole"), "depth of the hole")
    screw, plug = getattr(of, "screw", None), getattr(of, "plug", None)
    long = screw if screw is not None else plug
    if long is None or (made is None and plug is not None):
        return _Depth(hole, hole)
    tip = difference(
        reading.read(long, "length", "screw" if screw is not None else "plug"),
        reading.read(of, "through", "fixture"),
        Subject("screw", of.pointer),
        "screw into the wall" if screw is not None else "plug into the wall",
    )
    if made is None:
        return _Depth(tip, tip)
    if not isinstance(tip, Known) or not isinstance(hole, Known):
        return _Depth(hole, hole)
    return _Depth(hole, max(hole, tip, key=lambda depth: float(depth.high or 0.0)))


class _Thing(NamedTuple):
    """What a row of holes lies across: both its ends along the wall, its top above the bare floor, if it is hung."""

    name: str
    pointer: str
    wall: str
    left: Given
    right: Given
    top: Given
    hung: bool


def _things(site: Site, name: str) -> Iterator[_Thing]:
    """The things that a name of `for` means; a hood is as wide as it is, and not as the unit that it hangs in."""
    if is_appliance(site.plan, name):
        place = place_of(site, name)
        appliance, subject = place.appliance, Subject(name, place.appliance.pointer, place.on, place.on)
        half = half_of(width_of(place), subject, f"half of {name}")
        left = worked(Below(subject, base=place.middle, amount=half), "height", f"left side of {name}")
        right = worked(Above(subject, base=place.middle, amount=half), "height", f"right side of {name}")
        under = site.levels.at(place.on).above_bare_floor(
            appliance.up, appliance.pointer_to("up"), f"underside of {name}", site.levels.worktop_by(place.on, None)
        )
        tall = appliance.body.h if appliance.body is not None else None
        high = reading.quantity(tall, appliance.pointer_to("body"), f"height of {name}")
        top = worked(Above(subject, base=under, amount=high), "height", f"top of {name}")
        yield _Thing(name, appliance.pointer, place.on, left, right, top, False)
        return
    standing = {id(thing.item): thing for thing in site.setting_out.things()}
    for item, wall, _ in held_by(site.plan, name):
        thing = standing.get(id(item))
        if thing is not None:
            hung = site.levels.is_hung(thing)
            top = site.levels.top_of(thing)
            yield _Thing(thing.name, item.pointer, thing.wall or wall, thing.left, thing.right, top, hung)


def _side_by_side(site: Site, fixing: Fixing, passed: set[str]) -> list[list[Standing]]:
    """The things that a rail or a batten passes without a break, run by run: gaps break a rail.

    `passed` are the pointers of those it is for; a batten along a run passes all that stands in it.
    """
    rows: list[list[Standing]] = []
    named = {fold(name) for name in fixing.for_}
    for run in site.plan.runs:
        rows.append([])
        for thing in site.setting_out.in_run(run):
            if fixing.at == "rail":
                along = thing.item.pointer in passed and site.levels.is_hung(thing)
            elif thing.item.family == "gap":
                continue
            else:
                along = fold(run) in named or thing.item.pointer in passed
            if along:
                rows[-1].append(thing)
            elif rows[-1]:
                rows.append([])
    return [row for row in rows if row]


def _under_worktop(site: Site, run: str) -> Given:
    """The underside of the worktop on a run, above the bare floor."""
    row = site.levels.worktop_on(run)
    pointer = site.plan.worktops.pointer
    if row is None:
        return Missing(pointer, f"worktop on {run}", Why.UNCLEAR, detail=f"no worktop lies on {run}")
    thick: Given = row.known.get("thickness") or row.why_not_known("thickness")
    top = worked(row, "above_bare_floor", "worktop")
    return worked(Below(row.subject, base=top, amount=thick), "height", "underside of the worktop")


def _count(left: Given, right: Given, fixing: Fixing) -> int:
    """How many holes it takes so that none are further apart than the centres allow; 2 where nobody knows."""
    ends, centres = fixing.from_ends, fixing.centres
    if not isinstance(left, Known) or not isinstance(right, Known):
        return 2
    if not isinstance(ends, Quantity) or not isinstance(centres, Quantity) or centres.low <= 0:
        return 2
    length = float(right.high or 0.0) - float(left.low or 0.0) - 2 * ends.low
    return max(2, math.ceil(length / centres.low - 1e-9) + 1)
