"""Money: what everything comes to with its reserve, and the prices that trades have given."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import total
from validator.measures.rows import Given, Missing, Row, Rows, Subject, Why, Words, figure, given
from validator.plan.dimensions import MONEY, NUMBER, SHARE
from validator.plan.names import fold
from validator.plan.values import ToFind

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.plan import Plan
    from validator.plan.sections.work import Person

HOUSEHOLDER = "householder"
"""Who works for nothing, unless the plan gives a price."""

APPLIANCES = "appliances"
"""A delivery of this name brings all appliances; its price, or theirs, is what they cost."""

LINES = ("sundries", "tool_hire", "waste_removal", "making_good", "fees", "other")


class Budget(Row, kind="budget"):
    """All prices of the plan, with the reserve kept for what nobody foresees and the tax still to be added."""

    prices: tuple[float, ...] = given(MONEY, "prices", many=True)
    contingency: float = given(SHARE, "reserve")
    tax: float = given(SHARE, "tax to be added")
    limit: float = given(MONEY, "most it may cost")
    built: float = given(NUMBER, "year the house was built")

    @figure(MONEY, "works")
    def works(self) -> float:
        return total(self.prices)

    @figure(MONEY, "reserve")
    def reserve(self) -> float:
        return self.contingency * self.works

    @figure(MONEY, "tax")
    def tax_added(self) -> float:
        return self.tax * (self.works + self.reserve)

    @figure(MONEY, "total")
    def total(self) -> float:
        return self.works + self.reserve + self.tax_added


class Price(Row, kind="price of a trade"):
    """What somebody has offered to do a part for: a fixed quote or an estimate, and what is to be paid beforehand."""

    basis: str = given(Words(("quote", "estimate")), "whether the price is fixed")
    price: float = given(MONEY, "price")
    deposit: float = given(MONEY, "deposit")

    @figure(NUMBER, "share paid beforehand")
    def share(self) -> float:
        return self.deposit / self.price


def budgets(site: Site) -> Rows:
    """One row where the plan has `money`; a plan without it is not judged on what it costs."""
    plan = site.plan
    money = plan.money
    if money is None:
        return Rows()
    built = plan.project.built
    year: Given = Missing("/project/built", "year the house was built")
    if built is not None:
        year = reading.exactly(built, "/project/built", "built")
    tax = reading.read(money, "vat", "tax to be added")
    return Rows(
        [
            Budget(
                Subject("budget", money.pointer),
                prices=reading.parts(list(_prices(plan))),
                contingency=reading.read(money, "contingency", "reserve"),
                tax=tax,
                limit=reading.read(money, "limit", "most it may cost"),
                built=year,
            )
        ]
    )


def _prices(plan: Plan) -> Iterator[Given]:
    """Every price of the plan, and what leaves their sum not known: a section left out, a task that nobody is said to
    do, a trade that does a part or an appliance without a price.
    """
    for section, label in ((plan.people, "people"), (plan.deliveries, "deliveries"), (plan.appliances, "appliances")):
        if section.left_out:
            yield Missing(section.pointer, label)
    for name, task in plan.work.tasks.items() if plan.work is not None else ():
        if not task.by:
            yield Missing(task.pointer_to("by"), f"who does {name}")
    for name, person in plan.people.items():
        if person.quote is not None or person.estimate is not None:
            yield reading.read(person, "quote" if person.quote is not None else "estimate", name)
        elif fold(name) != HOUSEHOLDER and _works(plan, name):
            yield Missing(person.pointer_to("quote"), f"price of {name}")
    delivered = {fold(name): delivery for name, delivery in plan.deliveries.items()}
    for name, delivery in plan.deliveries.items():
        brings_appliances = fold(name) == APPLIANCES or name in plan.appliances
        if brings_appliances and _said_twice(plan, name):
            detail = f"the price of {name} stands with its delivery and under `appliances`: say it in one place"
            yield Missing(delivery.pointer_to("price"), f"price of {name}", Why.UNCLEAR, detail=detail)
        elif delivery.price is not None or not brings_appliances:
            yield reading.read(delivery, "price", f"price of {name}")
    for name, appliance in plan.appliances.items():
        with_others = any(fold(each) in delivered and delivered[fold(each)].price for each in (name, APPLIANCES))
        if appliance.price is not None or not with_others:
            yield reading.read(appliance, "price", f"price of {name}")
    if plan.money is not None:
        for line in LINES:
            if getattr(plan.money, line) is not None:
                yield reading.read(plan.money, line, line.replace("_", " "))


def _said_twice(plan: Plan, name: str) -> bool:
    """Whether a delivery has a price though everything that it brings has one of its own; one of 0 costs nothing."""
    brings = list(plan.appliances.values()) if name not in plan.appliances else [plan.appliances[name]]
    prices = [plan.deliveries[name].price, *(each.price for each in brings)]
    return bool(brings) and all(
        price is not None and (isinstance(price, ToFind) or price.high != 0) for price in prices
    )


def _works(plan: Plan, name: str) -> bool:
    tasks = plan.work.tasks.values() if plan.work is not None else ()
    return any(name in (task.by or ()) for task in tasks)


def prices(site: Site) -> Rows:
    """A row for each person of whom the plan gives a price, or a deposit, which is a share of one."""
    return Rows(
        [
            _price(name, person)
            for name, person in site.plan.people.items()
            if (person.quote, person.estimate, person.deposit) != (None, None, None)
        ]
    )


def _price(name: str, person: Person) -> Row:
    field = "estimate" if person.quote is None and person.estimate is not None else "quote"
    pointer = person.pointer_to(field)
    basis: Given = Missing(pointer, f"price of {name}")
    if getattr(person, field) is not None:
        basis = reading.exactly(field, pointer, "whether the price is fixed")
    return Price(
        Subject(name, person.pointer),
        basis=basis,
        price=reading.read(person, field, "price"),
        deposit=reading.read(person, "deposit", f"deposit of {name}"),
    )
