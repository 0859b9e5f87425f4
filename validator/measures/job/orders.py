"""What is ordered: whether there is time enough from the order, or from the day of the check, to the day it is due."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.rows import Given, Missing, Row, Rows, Subject, figure, given
from validator.plan.dimensions import DATE, DAY, DURATION

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.appliances import Appliance
    from validator.plan.sections.money import Delivery


class ThingOrdered(Row, kind="thing ordered"):
    """A delivery, or an appliance with a day it is due; what nobody says is ordered is ordered today at the earliest.

    A supplier who has the order and names no lead time has promised the day: the order only has to come before it.
    """

    due: float = given(DATE, "due")
    ordered: float = given(DATE, "order")
    lead_time: float = given(DURATION, "lead time")

    @figure(DURATION, "days to make and bring it", start="order, or the day of this check", end="day it is due")
    def time(self) -> float:
        return self.due - self.ordered


def things_ordered(site: Site) -> Rows:
    """A row for each delivery, and one for each appliance with a day it is due."""
    plan = site.plan
    things: list[tuple[str, Delivery | Appliance]] = list(plan.deliveries.items())
    things += [(name, appliance) for name, appliance in plan.appliances.items() if appliance.due is not None]
    return Rows([_row(site, name, thing) for name, thing in things])


def _row(site: Site, name: str, thing: Delivery | Appliance) -> Row:
    ordered = reading.read(thing, "ordered", f"day {name} is ordered")
    lead_time = reading.read(thing, "lead_time", f"lead time of {name}")
    if thing.ordered is None:
        ordered = reading.exactly(float(site.on.toordinal() * DAY), "", "day of this check", "not ordered yet")
    elif thing.lead_time is None:
        lead_time = reading.exactly(0, thing.pointer_to("lead_time"), "lead time", "the supplier has promised the day")
    return ThingOrdered(
        Subject(name, thing.pointer),
        due=reading.read(thing, "due", f"day {name} is due"),
        ordered=ordered,
        lead_time=lead_time if thing.lead_time is not None or thing.ordered is not None else _unsaid(name, thing),
    )


def _unsaid(name: str, thing: Delivery | Appliance) -> Given:
    question = f"is {name} ordered, or how long does it take from the order?"
    return Missing(thing.pointer_to("lead_time"), f"lead time of {name}", detail=question)
