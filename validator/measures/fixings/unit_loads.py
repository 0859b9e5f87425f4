"""What hangs on a wall: what it weighs, what is stored in it, and where its weight pulls.

What the plan does not say is taken from a table by its height, which the working names.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.arithmetic import root, total
from validator.measures.looking_up import looked_up
from validator.measures.room.walls import named_gap, worked
from validator.measures.rows import Given, Known, Row, Subject, figure, given
from validator.measures.runs.of_kinds import of_kind
from validator.measures.worktops.materials import GRAVITY
from validator.plan.dimensions import ACCELERATION, AREA_LOAD, FORCE, LENGTH, LINE_LOAD, MASS, NUMBER

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.sections.appliances import Appliance
    from validator.plan.sections.furniture import Item


class ByWidth(Row, kind="weight by the width"):
    """A weight that is given for each length of a unit."""

    width: float = given(LENGTH, "width")
    by_width: float = given(LINE_LOAD, "weight by the width")

    @figure(MASS, "weight")
    def weight(self) -> float:
        return self.width * self.by_width


class Stored(Row, kind="what is stored in a unit"):
    """What the class of load puts on the bottom and on every shelf of a unit."""

    width: float = given(LENGTH, "width")
    sides: float = given(LENGTH, "side")
    depth: float = given(LENGTH, "depth")
    shelves: float = given(NUMBER, "shelves")
    class_load: float = given(AREA_LOAD, "load of its class")

    @figure(MASS, "what is stored in it")
    def weight(self) -> float:
        return (self.shelves + 1) * ((self.width - 2 * self.sides) * self.depth) * self.class_load


class WithFront(Row, kind="depth with the front"):
    """The depth of a unit with its door: the middle of it lies further from the wall than half the carcass."""

    depth: float = given(LENGTH, "depth")
    front: float = given(LENGTH, "front")

    @figure(LENGTH, "depth with its front", start="wall", end="face of the front")
    def whole(self) -> float:
        return self.depth + self.front


class FullWeight(Row, kind="full weight"):
    """What hangs on the wall in all."""

    weight: float = given(MASS, "weight")
    stored: float = given(MASS, "what is stored in it")
    inside: tuple[float, ...] = given(MASS, "machines in it", many=True)

    @figure(MASS, "full weight")
    def full(self) -> float:
        return self.weight + self.stored + total(self.inside)


class AsForce(Row, kind="weight as a force"):
    """A mass as the force with which it hangs."""

    full: float = given(MASS, "full weight")
    gravity: float = given(ACCELERATION, "pull of gravity")

    @figure(FORCE, "full weight as a force")
    def down(self) -> float:
        return self.full * self.gravity


class Pull(Row, kind="pull of what hangs"):
    """The pull at the top of a thing that turns about its lower back edge: W × e ÷ h, e half of its depth."""

    down: float = given(FORCE, "full weight as a force")
    depth: float = given(LENGTH, "depth with its front")
    drop: float = given(LENGTH, "from its fixings to its lower edge")

    @figure(FORCE, "pull away from the wall")
    def pull(self) -> float:
        return self.down * (self.depth / 2) / self.drop


class Together(Row, kind="pull and weight together"):
    """A pull away from the wall and a weight down it, as one force."""

    pull: float = given(FORCE, "pull away from the wall")
    down: float = given(FORCE, "full weight as a force")

    @figure(FORCE, "both together")
    def together(self) -> float:
        return root(self.pull * self.pull + self.down * self.down)


class Hung(NamedTuple):
    """A thing that hangs on a wall: its weights, how far it comes from the wall, and how high it is."""

    weight: Given
    stored: Given
    inside: Given
    depth: Given
    height: Given


def hung_unit(site: Site, thing: Standing, machines: Sequence[tuple[str, Appliance]]) -> Hung:
    """A wall unit: its own weight, what is stored in it by what the plan or its class says, and the machines in it."""
    item, name = thing.item, thing.name
    subject = Subject(name, item.pointer)
    width = named_gap(reading.read(item, "width", name), f"width of {name}") if not item.rest else _rest(thing)
    depth = of_kind(item, "depth", f"depth of {name}")
    front = _front(site, item)
    return Hung(
        weight=_weight(site, item, width, subject),
        stored=_stored(site, item, width, depth, subject),
        inside=reading.parts([_machine(machine, appliance) for machine, appliance in machines]),
        depth=worked(WithFront(subject, depth=depth, front=front), "whole", "depth with its front"),
        height=of_kind(item, "height", f"height of {name}"),
    )


def hung_appliance(name: str, appliance: Appliance) -> Hung:
    """A hood, or another machine that hangs on the wall by itself."""
    body, pointer = appliance.body, appliance.pointer_to("body")
    return Hung(
        weight=_machine(name, appliance),
        stored=reading.exactly(0, appliance.pointer, "what is stored in it"),
        inside=Known((), appliance.pointer),
        depth=reading.quantity(body.d if body else None, pointer, f"depth of {name}"),
        height=reading.quantity(body.h if body else None, pointer, f"height of {name}"),
    )


def load_on_fixings(hung: Hung, drop: Given, subject: Subject) -> dict[str, Given]:
    """What a hung thing puts on its fixings, `drop` above its lower back edge: `full`, `down`, `pull`, `together`."""
    weights = FullWeight(subject, weight=hung.weight, stored=hung.stored, inside=hung.inside)
    full = worked(weights, "full", "full weight")
    down = worked(AsForce(subject, full=full, gravity=GRAVITY), "down", "full weight as a force")
    pull = worked(Pull(subject, down=down, depth=hung.depth, drop=drop), "pull", "pull away from the wall")
    together = worked(Together(subject, pull=pull, down=down), "together", "both together")
    return {"full": full, "down": down, "pull": pull, "together": together}


def _rest(thing: Standing) -> Given:
    known = thing.row.known.get("width")
    return known if known is not None else thing.row.why_not_known("width")


def _front(site: Site, item: Item) -> Given:
    if item.front is not None:
        return of_kind(item, "front", "front")
    return looked_up(site, "usual-sizes", "size", {"thing": "front of a unit"}, item.pointer, "front")


def _weight(site: Site, item: Item, width: Given, subject: Subject) -> Given:
    if item.weight is not None:
        by_width = reading.read(item, "weight", "weight by the width")
    else:
        by_width = _by_height(site, item, "unit-weights", "weight", "usual weight by the width")
    return worked(ByWidth(subject, width=width, by_width=by_width), "weight", f"weight of {subject.name}")


def _stored(site: Site, item: Item, width: Given, depth: Given, subject: Subject) -> Given:
    label = f"what is stored in {subject.name}"
    if item.load is not None:
        load = reading.read(item, "load", "load by the width")
        return worked(ByWidth(subject, width=width, by_width=load), "weight", label)
    side, surface = "side of a cabinet", "shelf or bottom"
    usual = looked_up(site, "usual-sizes", "size", {"thing": side}, item.pointer, side)
    if item.shelves is not None:
        shelves = reading.read(item, "shelves", "shelves")
    else:
        shelves = _by_height(site, item, "unit-weights", "shelves", "usual shelves")
    row = Stored(
        subject,
        width=width,
        sides=usual if item.sides is None else reading.read(item, "sides", side),
        depth=depth,
        shelves=shelves,
        class_load=looked_up(site, "storage-load", "load", {"surface": surface}, item.pointer, "load of its class"),
    )
    return worked(row, "weight", label)


def _by_height(site: Site, item: Item, table: str, gives: str, label: str) -> Given:
    """A cell of a table by the height of a unit, the higher end of it where that is a range."""
    height = of_kind(item, "height", "height")
    if not isinstance(height, Known):
        return height
    return looked_up(site, table, gives, {"height": float(height.high or 0.0)}, item.pointer, label)


def _machine(name: str, appliance: Appliance) -> Given:
    return reading.read(appliance, "weight", f"weight of {name}")
