"""Fixings, coatings, the order of work and the people who do it."""

from __future__ import annotations

from typing import Literal

from validator.plan.elements import Element
from validator.plan.fields import Date, Duration, Length, Term, WaterAdded
from validator.plan.sections.room import MoistureReading


class Plug(Element):
    """`nylon frame 8 x 80`: type, diameter and length."""

    type: str | None = None
    diameter: Length | None = None
    length: Length | None = None


class Screw(Element):
    """`5 x 80`, `no. 10 x 3`: diameter or gauge, and length."""

    diameter: Length | None = None
    gauge: str | None = None
    length: Length | None = None


class Hole(Element):
    """`8 x 90`: bit and depth."""

    diameter: Length | None = None
    depth: Length | None = None


class Fixing(Element):
    """What holds a thing to a wall. `for` names a run, units, or an appliance; `through` is what it passes before the wall."""

    for_: tuple[str, ...]
    at: Literal["hangers"] | None = None
    into: Term | None = None
    through: Length | None = None
    plug: Plug | None = None
    screw: Screw | None = None
    hole: Hole | None = None


class Coat(Element):
    """One coat: `30 % water` (added to the paint), `25 % of mix`, `3 to 1`, `neat`; `undercoat`, `matt 10 % water`."""

    water: WaterAdded | None = None
    product: str | None = None


class Coating(Element):
    """A paint system on some walls, its coats from the first to the last. Walls: names, or `all`."""

    on: Term | None = None
    walls: tuple[str, ...] | None = None
    plastered: Date | None = None
    moisture: MoistureReading | None = None
    coats: tuple[Coat, ...] | None = None
    between: Duration | None = None


class Task(Element):
    """A task of the work. `after` adds to what the usual order asks; `dries` is the wait that it starts."""

    by: tuple[str, ...] | None = None
    takes: Duration | None = None
    on: Date | None = None
    after: tuple[str, ...] | None = None
    dries: Duration | None = None


class Work(Element):
    """The order of work: `usual` (the rulebook's), or `as written` (each task after the one above it)."""

    order: Literal["usual", "as written"] | None = None
    days: Literal["every day", "monday to friday"] | None = None
    tasks: dict[str, Task]


class Person(Element):
    """Somebody who does a part: registration or licence, and when it was looked up."""

    trade: str | None = None
    register: Term | None = None
    looked_up: Date | None = None
