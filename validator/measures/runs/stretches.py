"""The stretches of a run: things that follow one another, and what fixes each stretch to the wall."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal, NamedTuple

from validator.measures.room.walls import wall_of, which_end
from validator.plan.names import fold
from validator.plan.plan import Plan

if TYPE_CHECKING:
    from validator.plan.sections.furniture import Item, Run

How = Literal["start", "end", "built", "corner", "over", "left_of", "right_of"]


class Pin(NamedTuple):
    """What fixes a stretch: `how`, by which thing, and at which edge (0 is its left side, 1 the right side of its first
    thing, and so on); `right_side` where the thing left of the edge is the one that says so."""

    how: How
    by: str
    edge: int
    right_side: bool = False


@dataclass(slots=True, eq=False)
class Stretch:
    """Things of a run that stand side by side, with their pin; `previous` and `next` are its neighbours in the run."""

    run: str
    wall: str
    pin: Pin
    things: list[tuple[str, Item]] = field(default_factory=list)
    previous: Stretch | None = None
    next: Stretch | None = None

    @property
    def taking_rest(self) -> int | None:
        """The number of the thing that takes what is left. A plan with two of them in one run is not read."""
        return next((number for number, (_, item) in enumerate(self.things) if item.rest), None)

    @property
    def pinned_thing(self) -> tuple[str, Item]:
        """The thing that says where it stands: the one right of the edge, or left of it."""
        at = self.pin.edge
        return self.things[at - 1 if self.pin.right_side else at]


def stretches_of(plan: Plan, name: str, run: Run, *, from_right: bool) -> list[Stretch]:
    """The stretches of a run in order. A run that is set out from its right end is pinned there."""
    things = list(run.order.items())
    wall = wall_of(plan, name)
    pins = [_own_pin(plan, name, wall, things, number) for number in range(len(things))]
    leads = _leads(things, pins)
    found: list[Stretch] = []
    for number, thing in enumerate(things):
        pinned = pins[number] is not None or leads[number]
        if not found or (pinned and not leads[number - 1]):
            found.append(Stretch(name, wall, Pin("start", "", 0), previous=found[-1] if found else None))
            if len(found) > 1:
                found[-2].next = found[-1]
        stretch = found[-1]
        own = pins[number]
        if own is not None:
            stretch.pin = Pin(own.how, own.by, own.edge + len(stretch.things), own.right_side)
        stretch.things.append(thing)
    if found and found[0].pin.how == "start" and from_right:
        found[0].pin = Pin("end", "", len(found[0].things))
    return found


def _own_pin(plan: Plan, run: str, wall: str, things: list[tuple[str, Item]], number: int) -> Pin | None:
    """What a thing itself says of its place, where that is more than standing beside its neighbour in the order."""
    name, item = things[number]
    for written in (name, f"{run} / {name}"):
        along = plan.built[written].along if written in plan.built else None
        if along is not None and plan.unit(written) == (run, name):
            # A place is measured to the near edge: from the wall at the right, that is the right side.
            from_right = which_end(plan, wall, along.from_) == "right"
            return Pin("built", written, int(from_right), from_right)
    if item.corner is not None:
        at_right_end = corner_end(plan, wall, item.corner) == "right"
        return Pin("corner", item.corner, int(at_right_end), at_right_end)
    if item.over is not None:
        return Pin("over", item.over, 0)
    if item.right_of is not None and (number == 0 or not _same(item.right_of, run, things[number - 1][0])):
        return Pin("right_of", item.right_of, 0)
    after = things[number + 1][0] if number + 1 < len(things) else ""
    if item.left_of is not None and not _same(item.left_of, run, after):
        return Pin("left_of", item.left_of, 1, right_side=True)
    return None


def _leads(things: list[tuple[str, Item]], pins: list[Pin | None]) -> list[bool]:
    """For each thing whether it stands left of the next one, and is placed by it."""
    leads = [False] * len(things)
    for number in range(len(things) - 2, -1, -1):
        item = things[number][1]
        if pins[number] is None and item.left_of is not None:
            leads[number] = pins[number + 1] is not None or leads[number + 1]
    return leads


def corner_end(plan: Plan, wall: str, corner: str) -> str:
    """`left` or `right`: the end of a wall at which a corner lies, named by its two walls; '' where neither does."""
    room = plan.room_of(wall)
    walls = room.corner(corner) if room is not None else None
    if room is None or walls is None or wall not in room.walls:
        return ""
    return {walls[1]: "left", walls[0]: "right"}.get(room.walls.written(wall), "")


def _same(written: str, run: str, name: str) -> bool:
    return fold(written) in (fold(name), fold(f"{run} / {name}"))
