"""What is glued: whether glue alone may hold it, on what, and how long it is left before it is loaded."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.rows import TERM, YES_NO, Given, Row, Rows, Subject, Why, Words, figure, given
from validator.plan.dimensions import AREA, DURATION
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.plan import Plan
    from validator.plan.sections.joinery import Glue

COLD_SLOWS = 2
"""Near 10 °C adhesives take about twice the time that they take near 21 °C, as several makers say."""


class GluedThing(Row, kind="glued thing"):
    """A thing that an adhesive holds. `cold` is a room near 10 °C, in which an adhesive takes twice its time."""

    thing: str = given(TERM, "what is glued")
    of: str = given(TERM, "what it is made of")
    on: str = given(TERM, "what it is glued to")
    surface: str = given(Words(("sound and dry", "loose", "damp", "dusty", "greasy")), "surface")
    also: str = given(TERM, "what else holds it")
    supported: bool = given(YES_NO, "whether it is supported while it cures")
    area: float = given(AREA, "piece")
    left: float = given(DURATION, "left to cure")
    maker_cure: float = given(DURATION, "time its maker asks for")
    cold: bool = given(YES_NO, "whether the room is cold")

    @figure(AREA, "area of the piece")
    def largest(self) -> float:
        return self.area

    @figure(DURATION, "left to cure", start="glued", end="loaded or covered")
    def left_to_cure(self) -> float:
        return self.left

    @figure(DURATION, "worth in a warm room", start="glued", end="loaded or covered")
    def worth_in_the_warm(self) -> float:
        return self.left / COLD_SLOWS


def glued_things(site: Site) -> Rows:
    """A row for each thing that the plan says is glued."""
    plan = site.plan
    return Rows([_row(plan, name, glue, thing) for name, glue in plan.adhesives.items() for thing in glue.for_])


def _row(plan: Plan, name: str, glue: Glue, thing: str) -> Row:
    return GluedThing(
        Subject(thing, glue.pointer, f"with {name}"),
        thing=reading.exactly(fold(thing), glue.pointer_to("for_"), "what is glued"),
        of=reading.word(glue.of, glue.pointer_to("of"), f"what {thing} is made of"),
        on=reading.word(glue.on, glue.pointer_to("on"), f"what {thing} is glued to"),
        surface=reading.word(glue.surface, glue.pointer_to("surface"), "surface it is glued to"),
        also=reading.word(glue.also, glue.pointer_to("also"), f"what else holds {thing}"),
        supported=reading.word(glue.supported, glue.pointer_to("supported"), f"whether {thing} is supported"),
        area=reading.read(glue, "area", f"area of {thing}"),
        left=_left(plan, glue, thing),
        maker_cure=_maker_cure(glue, name),
        cold=reading.word(glue.cold, glue.pointer_to("cold"), "whether the room is cold"),
    )


def _left(plan: Plan, glue: Glue, thing: str) -> Given:
    """How long it is left, as said with the adhesive or with the task that has the name of what is glued."""
    label = f"how long {thing} is left to cure"
    task = (
        next((task for name, task in plan.work.tasks.items() if fold(name) == fold(thing)), None) if plan.work else None
    )
    if glue.left is None and task is not None and task.dries is not None:
        return reading.read(task, "dries", label)
    return reading.read(glue, "left", label)


def _maker_cure(glue: Glue, name: str) -> Given:
    label = f"time the maker of {name} asks for"
    return reading.quantity(glue.cures, glue.pointer_to("cures"), label, absent=Why.UNREAD)
