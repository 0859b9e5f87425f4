"""Deliveries against the dates of the work, and the papers that permit the work or certify it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.job.programme import end_of, what_dries
from validator.measures.job.schedule import Scheduled, schedule
from validator.measures.room.walls import worked
from validator.measures.rows import NAME, Given, Known, Missing, Row, Rows, Subject, Why, Words, figure, gaps_of, given
from validator.plan.dimensions import DATE, DURATION
from validator.plan.names import fold
from validator.plan.values import ToFind

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.appliances import Appliance
    from validator.plan.sections.money import Delivery as DeliveryWritten
    from validator.plan.sections.money import Paper as PaperWritten

PERMITS = frozenset(
    {
        *("permit", "permits", "permission", "permissions", "approval", "approvals", "consent", "consents"),
        *(
            "warrant",
            "warrants",
            "notice",
            "notices",
            "licence",
            "licences",
            "license",
            "licenses",
            "agreement",
            "award",
        ),
    }
)
"""Words in the names of papers that have to be there before the work; all others come after it."""

CERTIFICATES = frozenset({"certificate", "certificates", "completion", "inspection", "report"})
"""Words of papers that come after the work, also where they name the permit that they belong to."""

_WORDS = re.compile(r"[^\W\d_]+")


class Delivery(Row, kind="delivery"):
    """Something that is delivered: the day it is due, the first day it is needed, and the day the room is dry."""

    due: float = given(DATE, "due")
    needed: float = given(DATE, "needed")
    dry: float = given(DATE, "room dry")
    task: str = given(NAME, "task that needs it")

    @figure(DURATION, "days in hand", start="day it is due", end="first day it is needed")
    def in_hand(self) -> float:
        return self.needed - self.due

    @figure(DURATION, "days in a dry room", start="day the room is dry", end="day it is due")
    def after_dry(self) -> float:
        return self.due - self.dry


class PlasterDry(Row, kind="plaster of the room"):
    """The day from which plaster is dry, wherever the plan says when it was done."""

    ended: float = given(DATE, "last day of plastering")
    pause: float = given(DURATION, "until it is dry")

    @figure(DATE, "plaster dry")
    def dry(self) -> float:
        return self.ended + self.pause


class Paper(Row, kind="paper"):
    """A permit that is needed before the work, or a certificate that comes with it."""

    sort: str = given(Words(("permit", "certificate")), "whether it comes before the work")
    standing: str = given(Words(("held", "asked for", "not needed", "promised")), "whether it is there")


def deliveries(site: Site) -> Rows:
    """A row for each delivery, and one for each appliance with a day it is due."""
    plan = site.plan
    tasks = schedule(site)
    dry = _dry(tasks, site)
    things: list[tuple[str, DeliveryWritten | Appliance]] = list(plan.deliveries.items())
    things += [(name, appliance) for name, appliance in plan.appliances.items() if appliance.due is not None]
    return Rows([_delivery(site, name, thing, tasks, dry) for name, thing in things])


def _delivery(
    site: Site, name: str, thing: DeliveryWritten | Appliance, tasks: dict[str, Scheduled], dry: Given
) -> Row:
    pointer = thing.pointer_to("for")
    task = tasks.get(fold(thing.for_)) if thing.for_ is not None else _task_of(name, tasks)
    if task is None:
        question = f"which task needs {name} on site?"
        needed: Given = Missing(pointer, f"task that needs {name}", Why.LEFT_OUT, detail=question)
        called = needed
    else:
        needed, called = task.start, reading.exactly(task.name, pointer, "task that needs it")
    return Delivery(
        Subject(name, thing.pointer),
        due=reading.read(thing, "due", f"day {name} is due"),
        needed=needed,
        dry=dry,
        task=called,
    )


def _task_of(name: str, tasks: dict[str, Scheduled]) -> Scheduled | None:
    """The first task, by date, whose name ends in that of the delivery: `fit units` needs the units.

    One of which nobody knows the date may be the first, unless it comes after that one.
    """
    found = {called: task for called, task in tasks.items() if called.endswith(f" {fold(name)}")}
    dated = [called for called, task in found.items() if isinstance(task.start, Known)]
    if not dated:
        return next(iter(found.values()), None)
    first = min(dated, key=lambda called: _day(found[called].start))
    open_ = (task for called, task in found.items() if called not in dated and not _comes_after(called, first, tasks))
    return next(open_, found[first])


def _comes_after(name: str, other: str, tasks: dict[str, Scheduled]) -> bool:
    """Whether a task follows another, by way of any between them."""
    reached, waiting = {name}, [name]
    for each in waiting:
        new = [before for before in tasks[each].follows if before not in reached]
        reached.update(new)
        waiting.extend(new)
    return other in reached


def _day(start: Given) -> float:
    return float(start.value) if isinstance(start, Known) else 0.0


def _dry(tasks: dict[str, Scheduled], site: Site) -> Given:
    """The day from which the room is dry: when its plaster is; the start of the work where nothing is plastered.

    What dries under a name of the plan's own may be plaster.
    """
    drying = [(task, what_dries(site, task)) for task in tasks.values() if task.wait is not None]
    unclear = gaps_of(*(what for _, what in drying))
    if unclear:
        return unclear
    for task, what in drying:
        if isinstance(what, Known) and what.value == "plaster" and task.dates is not None:
            pause = task.dates.known.get("pause") or task.dates.why_not_known("pause")
            row = PlasterDry(task.dates.subject, ended=end_of(site, task), pause=pause)
            return worked(row, "dry", f"{task.name} dry")
    project = site.plan.project
    return reading.quantity(project.starts, project.pointer_to("starts"), "start of the work")


def papers(site: Site) -> Rows:
    """A row for each paper that the plan lists."""
    return Rows([_paper(name, paper) for name, paper in site.plan.papers.items()])


def _paper(name: str, paper: PaperWritten) -> Row:
    words = frozenset(_WORDS.findall(fold(name)))
    sort = "permit" if words & PERMITS and not words & CERTIFICATES else "certificate"
    pointer = paper.pointer_to("standing")
    standing: Given = reading.word(paper.standing, pointer, f"whether the {name} is there")
    if paper.standing is None and paper.by is not None:
        standing = reading.exactly("promised", paper.pointer_to("by"), f"by {paper.by}")
    if isinstance(paper.standing, ToFind):
        standing = Missing(pointer, name, Why.TO_FIND, paper.standing.by)
    return Paper(Subject(name, paper.pointer), sort=reading.exactly(sort, paper.pointer, "sort"), standing=standing)
