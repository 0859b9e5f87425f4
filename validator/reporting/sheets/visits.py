"""When a trade comes, what comes before, who everybody is, and what is handed over."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from validator.measures.job.schedule import Scheduled, schedule
from validator.measures.rows import Given
from validator.measures.site import Site
from validator.plan.dimensions import DATE
from validator.plan.names import fold
from validator.plan.sections.work import Person, Task
from validator.plan.values import ToFind
from validator.reference.countries import applies
from validator.reference.jobsheets import Jobsheets, Trade
from validator.reporting.findings import rests_on
from validator.reporting.printing import Printer
from validator.reporting.sheets.asking import key_of, value_at
from validator.reporting.sheets.values import NONE, OPEN, written


class Visit(NamedTuple):
    """One task of the trade: who does it, when, and what it follows."""

    task: str
    by: str
    when: str
    after: tuple[str, ...]


class Who(NamedTuple):
    """Somebody of the plan, as everybody on site should know them; prices only where they are asked for."""

    name: str
    trade: str
    register: str
    looked_up: str
    tasks: str
    price: str
    own: bool


class Isolation(NamedTuple):
    """A supply to cut off: where, or the key under which that is still to be written."""

    says: str
    where: str
    key: str


class Handed(NamedTuple):
    """Something left at the end, and what says so."""

    says: str
    rests: str


def trade_named(name: str, sheets: Jobsheets, site: Site) -> tuple[Trade, str] | None:
    """The trade that a word means, be it of ours or the plan's own name of somebody; with that name, or ''."""
    wanted = fold(name)
    people = site.plan.people
    for trade in sheets.trades.values():
        if wanted == fold(trade.name) or wanted in {fold(word) for word in trade.called}:
            return trade, people.written(name) if name in people else ""
    if name in people:
        trade_of = _trade_of(people.written(name), people[name], sheets, site)
        return (trade_of, people.written(name)) if trade_of is not None else None
    return None


def _trade_of(name: str, person: Person, sheets: Jobsheets, site: Site) -> Trade | None:
    """The trade of somebody: by the word of the plan, by the name, or by what they do."""
    for word in (fold(person.trade or ""), fold(name)):
        for trade in sheets.trades.values():
            if word and word in {fold(each) for each in (*trade.called, trade.name)}:
                return trade
    done = {fold(task) for task, each in _tasks(site) if name in (each.by or ())}
    for trade in sheets.trades.values():
        if done & {fold(task) for task in trade.tasks}:
            return trade
    return None


def has_work(trade: Trade, site: Site) -> bool:
    """Whether a plan has anything for a trade: somebody who does it, its tasks, or what it is needed for."""
    if trade.needed:
        return any(site.rows(kind).rows for kind in trade.needed)
    named = any(fold(word) in site.plan.people for word in (*trade.called, trade.name))
    tasks = {fold(task) for task, _ in _tasks(site)} & {fold(task) for task in trade.tasks}
    return named or bool(tasks) or any(each.each and site.rows(each.each).rows for each in trade.schedules)


def visits(trade: Trade, person: str, site: Site, printer: Printer) -> list[Visit]:
    """The tasks of a trade, or of one person of it, in the order of the work."""
    tasks = schedule(site)
    own = {fold(task) for task in trade.tasks}
    found = []
    for name, scheduled in tasks.items():
        by = scheduled.task.by or ()
        theirs = any(fold(who) in {fold(person), *map(fold, trade.called)} for who in by)
        if theirs or (name in own and not person):
            after = tuple(f"{tasks[each].name}: {_when(tasks[each], printer)}" for each in scheduled.follows)
            found.append(Visit(scheduled.name, ", ".join(by) or OPEN, _when(scheduled, printer), after))
    return found


def everybody(site: Site, trade: Trade, printer: Printer, *, money: bool) -> list[Who]:
    """All people of the plan, those of the trade first."""
    done: dict[str, list[str]] = {}
    for task, each in _tasks(site):
        for name in each.by or ():
            done.setdefault(fold(name), []).append(task)
    found = []
    for name, person in site.plan.people.items():
        words = {fold(word) for word in (*trade.called, trade.name)}
        prices = (("quote", person.quote), ("estimate", person.estimate), ("deposit", person.deposit))
        said = [f"{word} {written(value, printer)}" for word, value in prices if value is not None]
        own = fold(person.trade or "") in words or fold(name) in words
        found.append(
            Who(
                name,
                person.trade or NONE,
                _register(person),
                written(person.looked_up, printer),
                ", ".join(done.get(fold(name), [])) or NONE,
                ", ".join(said) if money else "",
                own,
            )
        )
    if "householder" in done:
        tasks = ", ".join(done["householder"])
        found.append(Who("householder", NONE, NONE, NONE, tasks, "", fold("householder") in map(fold, trade.called)))
    return sorted(found, key=lambda who: not who.own)


def isolations(trade: Trade, sheets: Jobsheets, site: Site, printer: Printer) -> Iterator[Isolation]:
    """Where each supply of the trade is cut off; a key to write it under where the plan does not say."""
    for name in trade.isolate:
        supply = sheets.supplies[name]
        value = value_at(site.plan, supply.at)
        known = isinstance(value, str)
        yield Isolation(
            printer.text(supply.says), written(value, printer) if known else "", key_of(site.plan, supply.at)
        )


def handed_over(trade: Trade, people: list[Who], site: Site, printer: Printer) -> list[Handed]:
    """What the trade leaves: by the country, and by the papers that the plan expects of its people."""
    names = {fold(who.name) for who in people if who.own}
    found = [
        Handed(printer.text(leave.says), rests_on(leave.source))
        for leave in trade.leaves
        if applies(leave.covers, site.country)
    ]
    for name, paper in site.plan.papers.items():
        if paper.by is not None and fold(paper.by) in names:
            standing = paper.standing if isinstance(paper.standing, str) else ""
            found.append(Handed(name + (f" ({standing})" if standing else ""), "the plan's own list of papers"))
    return found


def due(trade: Trade, own: list[Visit], site: Site, printer: Printer) -> list[str]:
    """What has to be delivered for the tasks of a trade, and when it is due."""
    tasks = {fold(visit.task) for visit in own}
    found = []
    for row in site.rows("delivery").rows:
        task = row.known.get("task")
        if task is not None and fold(str(task.value)) in tasks:
            day = row.known.get("due")
            when = printer.value(float(day.value), DATE) if day is not None else OPEN
            found.append(f"{row.subject.name}: due {when}, for {task.value}")
    return found


def _tasks(site: Site) -> list[tuple[str, Task]]:
    return list(site.plan.work.tasks.items()) if site.plan.work is not None else []


def _register(person: Person) -> str:
    if isinstance(person.register_, ToFind):
        return OPEN
    return person.register_ or NONE


def _when(scheduled: Scheduled, printer: Printer) -> str:
    """`5 October 2026 to 6 October 2026`, the later day where the course of the work leaves it open."""
    first, last = _day(scheduled.start, printer), _day(scheduled.end, printer)
    return first if first == last else f"{first} to {last}"


def _day(value: Given, printer: Printer) -> str:
    return printer.given(value, "day open", DATE).replace(" to ", " or ")
