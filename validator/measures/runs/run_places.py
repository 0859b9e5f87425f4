"""The places of everything in the runs, found from what stands beside it, over it, in a corner or as built.

A run is read in stretches. A thing that only follows the one before it belongs to the same stretch; one that says where
it stands (`over B1`, `in north-east`, `right of W3`, or its place once built) pins a stretch of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cached_property
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import total
from validator.measures.room.walls import called_wall, difference, length_of, named_gap, place_along, worked
from validator.measures.rows import Given, Known, Missing, Row, Subject, Why, figure, given
from validator.measures.runs.of_kinds import of_kind
from validator.measures.runs.run_ends import ends_of
from validator.measures.runs.setting_out import RunAgainstWall, UnitPlace
from validator.measures.runs.stretches import Stretch, corner_end, stretches_of
from validator.measures.tracing import derived
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold
from validator.plan.plan import Plan

if TYPE_CHECKING:
    from validator.plan.sections.furniture import Item

LINKS = 60
"""How many things may be placed one by another in a chain before the plan is asked to say a place."""

WORKED_FROM = 50
"""After so many things a place is worked out from the last of them, so that a thing of a long run costs no more."""

RING = "it is placed by things that are placed by it"
CHAIN = "too many things are placed one by another"


class BeforePin(Row, kind="start of a stretch before its pin"):
    """Where a stretch starts whose place is given by a thing inside it."""

    pin: float = given(LENGTH, "place it is set out from")
    widths: tuple[float, ...] = given(LENGTH, "what stands before it", many=True)

    @figure(LENGTH, "start", start="left end of the wall", end="start")
    def start(self) -> float:
        return self.pin - total(self.widths)


class Standing:
    """A thing of a run with its places along the wall, worked out when they are asked for."""

    def __init__(self, name: str, item: Item, run: str, wall: str, row: UnitPlace) -> None:
        self.name = name
        self.item = item
        self.run = run
        self.wall = wall
        self.row = row

    @cached_property
    def subject(self) -> Subject:
        """The thing with the stretch of wall that it takes."""
        left, right = self.left, self.right
        if not isinstance(left, Known) or not isinstance(right, Known):
            return self.row.subject
        return self.row.subject._replace(along=(float(left.value), float(right.value)))

    @cached_property
    def left(self) -> Given:
        return derived(self.row, "left", f"left side of {self.name}")

    @cached_property
    def right(self) -> Given:
        return derived(self.row, "right", f"right side of {self.name}")

    @cached_property
    def middle(self) -> Given:
        return derived(self.row, "middle", f"middle of {self.name}")


class SettingOut:
    """Where everything in the runs of a plan stands. Cost grows with the number of things, not with their pairs."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.ends = {name: ends_of(plan, name) for name in plan.runs}
        self._stretches = {
            name: stretches_of(plan, name, run, from_right=self.ends[name].from_right)
            for name, run in plan.runs.items()
        }
        self._of = {
            (stretch.run, name): stretch
            for stretches in self._stretches.values()
            for stretch in stretches
            for name, _ in stretch.things
        }
        self._places: dict[tuple[str, Stretch], Given] = {}
        self._asked: list[tuple[str, Stretch]] = []
        self._fits: dict[Stretch, Row] = {}
        self._standing: dict[tuple[str, str], Standing] = {}

    def things(self) -> Iterator[Standing]:
        """Everything in the runs, in the plan's order."""
        for run in self.plan.runs:
            yield from self.in_run(run)

    def in_run(self, run: str) -> list[Standing]:
        """The things of one run from the left; KeyError for a run the plan does not have."""
        return [self.standing(self.plan.runs.written(run), name) for name in self.plan.runs[run].order]

    def find(self, name: str) -> Standing | None:
        """The thing of this name (`B3`, or `sink run / B3`) in any run."""
        found = self.plan.unit(name)
        return self.standing(*found) if found is not None else None

    def standing(self, run: str, name: str) -> Standing:
        """A thing by its run and its name, as the plan writes both."""
        if (run, name) not in self._standing:
            self._set_out(self._of[run, name])
        return self._standing[run, name]

    def stretch_of(self, thing: Standing) -> Stretch:
        """The stretch of its run that a thing stands in."""
        return self._of[thing.run, thing.name]

    def stretches(self) -> Iterator[Row]:
        """How every run, or every stretch of a broken run, fits what there is for it."""
        for run, stretches in self._stretches.items():
            for stretch in stretches if self.plan.runs[run].faces is None else ():
                yield self._fit(stretch)

    def _set_out(self, stretch: Stretch) -> None:
        """Make the rows of a stretch."""
        start, widths = self._start(stretch), self._widths(stretch, 0, len(stretch.things))
        since = 0
        for number, (name, item) in enumerate(stretch.things):
            if number - since >= WORKED_FROM:
                start, since = self._standing[stretch.run, stretch.things[number - 1][0]].right, number
            row = UnitPlace(
                Subject(name, item.pointer, called_wall(self.plan, stretch.wall), stretch.wall),
                start=start,
                before=reading.parts(widths[since:number]),
                width=widths[number],
                run=reading.exactly(stretch.run, item.pointer, "run"),
            )
            self._standing[stretch.run, name] = Standing(name, item, stretch.run, stretch.wall, row)

    def _start(self, stretch: Stretch) -> Given:
        """The left side of a stretch."""
        return self._once("start", stretch, self._find_start)

    def _once(self, what: str, stretch: Stretch, find: Callable[[Stretch], Given]) -> Given:
        """Work a place out once, unless it is being worked out already, or too long a chain of things hangs on it."""
        asked = (what, stretch)
        if asked in self._places:
            return self._places[asked]
        if asked in self._asked or len(self._asked) >= LINKS:
            name, item = stretch.things[0]
            detail = RING if asked in self._asked else CHAIN
            return Missing(item.pointer, f"place of {name}", Why.UNCLEAR, detail=detail)
        self._asked.append(asked)
        try:
            self._places[asked] = find(stretch)
        finally:
            self._asked.pop()
        return self._places[asked]

    def _find_start(self, stretch: Stretch) -> Given:
        edge = stretch.pin.edge
        if edge == 0:
            return self._pin(stretch)
        name, item = stretch.things[0]
        subject = Subject(name, item.pointer, called_wall(self.plan, stretch.wall), stretch.wall)
        widths = reading.parts(self._widths(stretch, 0, edge))
        return worked(BeforePin(subject, pin=self._pin(stretch), widths=widths), "start", f"left side of {name}")

    def _pin(self, stretch: Stretch) -> Given:
        return self._once("pin", stretch, self._find_pin)

    def _find_pin(self, stretch: Stretch) -> Given:
        """The place of the edge by which a stretch is fixed."""
        pin = stretch.pin
        if pin.how == "start":
            return self.ends[stretch.run].left
        if pin.how == "end":
            return self._after(stretch)
        name, item = stretch.pinned_thing
        if pin.how == "built":
            built = self.plan.built[pin.by]
            pointer = built.pointer_to("along")
            if built.along is None:
                return Missing(pointer, f"measured place of {name}")
            return place_along(self.plan, stretch.wall, built.along, pointer, name)
        pointer = item.pointer_to(pin.how)
        if pin.how != "corner":
            return self._side_of_another(stretch, pointer, name)
        match corner_end(self.plan, stretch.wall, pin.by):
            case "left":
                return reading.exactly(0, pointer, "left end of the wall")
            case "right":
                return length_of(self.plan, stretch.wall)
            case _:
                detail = f"{pin.by} is no corner of the {stretch.wall} wall"
                return Missing(pointer, f"place of {name}", Why.UNCLEAR, detail=detail)

    def _side_of_another(self, stretch: Stretch, pointer: str, name: str) -> Given:
        """The side of another thing by which a stretch is pinned; an appliance stands for the thing that it sits in."""
        label, by = f"place of {name}", stretch.pin.by
        found = self.plan.unit(by)
        if found is None and by in self.plan.appliances:
            inside = self.plan.appliances[by].in_
            found = self.plan.unit(inside) if inside is not None else None
        if found is None:
            return Missing(pointer, label, Why.UNCLEAR, detail=f"{by} does not stand in a run")
        other = self._of[found]
        if fold(other.wall) != fold(stretch.wall):
            detail = f"{by} stands at the {other.wall} wall, not at the {stretch.wall} wall"
            return Missing(pointer, label, Why.UNCLEAR, detail=detail)
        if found not in self._standing and any(stretch_asked is other for _, stretch_asked in self._asked):
            return Missing(pointer, label, Why.UNCLEAR, detail=RING)
        standing = self.standing(*found)
        return standing.right if stretch.pin.how == "right_of" else standing.left

    def _widths(self, stretch: Stretch, first: int, end: int) -> list[Given]:
        return [self._width(stretch, number) for number in range(first, end)]

    def _width(self, stretch: Stretch, number: int) -> Given:
        name, item = stretch.things[number]
        if not item.rest:
            return named_gap(reading.read(item, "width", name), f"width of {name}")
        return self._once("rest", stretch, lambda stretch: self._rest(stretch, name))

    def _rest(self, stretch: Stretch, name: str) -> Given:
        """The width of the piece that takes what is left."""
        fit = self._fit(stretch)
        gaps = [gap for field in ("wall", "start", "widths") for gap in fit.missing.get(field, ())]
        return tuple(dict.fromkeys(gaps)) or derived(fit, "left_over", name)

    def _after(self, stretch: Stretch) -> Given:
        """Where the room for a stretch ends at its right; not known where the next stands left of it after all."""
        if stretch.next is None:
            return self.ends[stretch.run].right
        start, after = self._start(stretch), self._start(stretch.next)
        if isinstance(start, Known) and isinstance(after, Known) and (after.high or 0.0) < (start.low or 0.0):
            name, item = stretch.next.things[0]
            detail = f"{name} stands left of {stretch.things[0][0]}, which the order names before it"
            return Missing(item.pointer, f"order of {stretch.run}", Why.UNCLEAR, detail=detail)
        return after

    def _before(self, stretch: Stretch) -> Given:
        """Where the room for a stretch begins at its left."""
        if stretch.previous is None:
            return self.ends[stretch.run].left
        return self.standing(stretch.run, stretch.previous.things[-1][0]).right

    def _fit(self, stretch: Stretch) -> Row:
        """The row that tells whether a stretch fits between what stands beside it."""
        if stretch not in self._fits:
            self._fits[stretch] = self._find_fit(stretch)
        return self._fits[stretch]

    def _find_fit(self, stretch: Stretch) -> Row:
        edge, count = stretch.pin.edge, len(stretch.things)
        closing = stretch.taking_rest
        at_wall = stretch.next is None
        if edge == count if closing is None else closing < edge:
            begin, end, numbers = self._before(stretch), self._pin(stretch), range(edge)
            at_wall = stretch.previous is None
        elif closing is None:
            begin, end, numbers = self._start(stretch), self._after(stretch), range(count)
        else:
            begin, end, numbers = self._pin(stretch), self._after(stretch), range(edge, count)
        widths = [self._width(stretch, number) for number in numbers if number != closing]
        subject = self._subject(stretch)
        if isinstance(begin, Known) and isinstance(end, Known) and begin.doubtful and end.doubtful:
            # Both ends may hang on the same reading of the wall: only their difference is sure.
            end = difference(end, begin, subject, "room there is")
            begin = reading.exactly(0, subject.pointer, "left side of the stretch")
        ends_at_wall = reading.exactly(at_wall, subject.pointer, "whether what is left over lies at a wall")
        values = {"wall": end, "start": begin, "widths": reading.parts(widths), "ends_at_wall": ends_at_wall}
        values |= _tolerances([stretch.things[number][1] for number in numbers if number != closing], subject)
        values |= _middle(end)
        return _fit_row(stretch, closing, subject, **values)

    def _subject(self, stretch: Stretch) -> Subject:
        """A run is called by its name; a stretch of it by its things."""
        place = called_wall(self.plan, stretch.wall)
        if stretch.previous is None and stretch.next is None:
            return Subject(stretch.run, self.plan.runs[stretch.run].pointer, place, stretch.wall)
        first, last = stretch.things[0][0], stretch.things[-1][0]
        called = f"{stretch.run}, {first}" if first == last else f"{stretch.run}, {first} to {last}"
        return Subject(called, stretch.things[0][1].pointer, place, stretch.wall)


def _tolerances(items: list[Item], subject: Subject) -> dict[str, Given]:
    """How far the widths of units and panels may be off: each has to say so once one of them does."""
    items = [item for item in items if item.family in ("unit", "panel")]
    says = any(item.tolerance is not None for item in items)
    label = "whether anything says how far it may be off"
    given: dict[str, Given] = {"says_tolerances": reading.exactly(says, subject.pointer, label)}
    if says:
        given["tolerances"] = reading.parts([of_kind(item, "tolerance", "tolerance") for item in items])
    return given


def _middle(end: Given) -> dict[str, Given]:
    """The readings of a wall as their middle and what they differ from it by."""
    if not isinstance(end, Known):
        return {"wall_middle": end, "wall_doubt": end}
    low = float(end.value if end.low is None else end.low)
    high = float(end.value if end.high is None else end.high)
    middle, doubt = (low + high) / 2, (high - low) / 2
    return {
        "wall_middle": Known(middle, end.pointer, "", f"{end.label}, middle", middle, middle, end.assumed),
        "wall_doubt": Known(doubt, end.pointer, "", f"{end.label}, either way", doubt, doubt, end.assumed),
    }


def _fit_row(stretch: Stretch, closing: int | None, subject: Subject, **values: Given) -> Row:
    closes = closing is not None and stretch.things[closing][1].family != "gap"
    values["has_closing"] = reading.exactly(closes, subject.pointer, "whether a piece takes the rest")
    if closing is not None and closes:
        name, item = stretch.things[closing]
        values["closing_least"] = reading.read(item, "least", f"least that {name} may be")
        values["closing_most"] = reading.read(item, "most", f"most that {name} may be")
    return RunAgainstWall(subject, **values)


def set_out(plan: Plan) -> SettingOut:
    """The places of every thing in every run of a plan."""
    return SettingOut(plan)
