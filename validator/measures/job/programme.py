"""The programme: the waits between tasks, and gas work and who does it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.job.schedule import MORNING_TO_EVENING, Scheduled, schedule, tightest
from validator.measures.rows import (
    NAME,
    YES_NO,
    Given,
    Known,
    LeftOut,
    Missing,
    Row,
    Rows,
    Subject,
    Why,
    Words,
    figure,
    given,
)
from validator.plan.dimensions import DATE, DURATION
from validator.plan.names import fold
from validator.plan.pointers import join
from validator.plan.values import ToFind

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.plan import Plan
    from validator.plan.sections.work import Task


class TaskAfterWait(Row, kind="task after a wait"):
    """A task that follows one that has to dry or cure: the pair that leaves least time, from evening to morning."""

    starts: float = given(DATE, "start")
    ended: float = given(DATE, "end of the task before")
    task_before: str = given(NAME, "task before")
    last_day: float = given(DURATION, "work on its last day")
    wait: float = given(DURATION, "wait")
    maker_wait: float = given(DURATION, "wait the maker asks for")
    dries: str = given(Words(("plaster", "paint", "other")), "what has to dry")

    @figure(DURATION, "time between", start="evening of the last day before", end="morning of the first day")
    def waited(self) -> float:
        return self.starts - self.ended - self.last_day


class GasWork(Row, kind="gas work"):
    """A task on gas pipes or gas appliances and whoever does it."""

    registered: bool = given(YES_NO, "whether whoever does it is registered for gas")
    looked_up: float = given(DATE, "when the registration was looked up")
    by: str = given(NAME, "who does it")


def tasks_after_waits(site: Site) -> Rows:
    """A row for each task after plaster, paint or something else that has to dry: of each with what leaves least time.

    What dries and nobody can tell the place of is left out: some task may come too soon after it.

    A task that starts no earlier than one before it waits as long as that one does, and has no row of its own. Dates
    are those of one course of the work, shortest or longest, whichever leaves less; never a mix of both.
    """
    if site.plan.work is None:
        return Rows(left_out=[LeftOut(TaskAfterWait.kind, Missing("/work", "order of work"))])
    tasks = schedule(site)
    found = Rows(left_out=_unplaced(tasks))
    drying: dict[str, list[str]] = {}
    for name, scheduled in tasks.items():
        before: dict[str, None] = {}
        waited_for: set[str] = {name}
        for other in scheduled.follows:
            carried = drying.get(other, [])
            before.update(dict.fromkeys(carried))
            if _starts_no_earlier(scheduled, tasks[other]):
                waited_for.update(carried)
            if tasks[other].wait is not None:
                before[other] = None
        drying[name] = []
        for alike in _apart(site, tasks, before):
            pairs = [_pair(site, scheduled, tasks[other]) for other in alike if other not in waited_for]
            if pairs:
                found.rows.append(_after_wait(site, scheduled, min(pairs, key=lambda pair: pair.order)))
            drying[name] += _dry_last(alike, tasks)
    return found


def _unplaced(tasks: Mapping[str, Scheduled]) -> list[LeftOut]:
    """What to find out of tasks that leave something to dry and whose place in the order nobody can tell, each once."""
    asked = {
        task.unplaced.pointer: task.unplaced
        for task in tasks.values()
        if task.unplaced is not None and task.wait is not None
    }
    return [LeftOut(TaskAfterWait.kind, missing) for missing in asked.values()]


class _Pair(NamedTuple):
    """A task and one before it that dries: what is to spare, and the dates of the course that leaves less."""

    before: Scheduled
    starts: Given
    ended: Given
    spare: float | None

    @property
    def order(self) -> tuple[int, float]:
        """A pair that is too short for certain first, then one not known, then those with least to spare."""
        if self.spare is None:
            return (1, 0.0)
        return (0 if self.spare < 0 else 2, self.spare)


def _starts_no_earlier(scheduled: Scheduled, before: Scheduled) -> bool:
    """Whether a task surely starts on the day of one it follows, or later; only one of fixed date may not."""
    if scheduled.task.on is None:
        return True
    start, earliest = scheduled.start, before.start
    if not (isinstance(start, Known) and isinstance(earliest, Known)):
        return False
    return (start.low or 0.0) >= (earliest.low or 0.0) and (start.high or 0.0) >= (earliest.high or 0.0)


def _apart(site: Site, tasks: Mapping[str, Scheduled], names: Iterable[str]) -> list[list[str]]:
    """Tasks that leave something to dry: those that leave plaster, paint and the rest apart."""
    apart: dict[str, list[str]] = {}
    for name in names:
        what = what_dries(site, tasks[name])
        apart.setdefault(what.value if isinstance(what, Known) else "", []).append(name)
    return list(apart.values())


def _dry_last(before: list[str], tasks: Mapping[str, Scheduled]) -> list[str]:
    """The one that is dry last, in either course of the work, and the first of which nobody knows when."""
    kept: dict[str, None] = {}
    known = {name: free for name in before if isinstance(free := tasks[name].free, Known)}
    if known:
        kept[max(known, key=lambda name: known[name].low or 0.0)] = None
        kept[max(known, key=lambda name: known[name].high or 0.0)] = None
    kept.update(dict.fromkeys([name for name in before if name not in known][:1]))
    return list(kept)


def _pair(site: Site, scheduled: Scheduled, before: Scheduled) -> _Pair:
    starts, ended, wait = scheduled.start, end_of(site, before), before.wait
    if not (isinstance(starts, Known) and isinstance(ended, Known) and isinstance(wait, Known)):
        return _Pair(before, starts, ended, None)
    longest = wait.high if wait.high is not None else float(wait.value)
    starts, (ended,) = tightest(starts, [ended])
    return _Pair(before, starts, ended, _day(starts) - _day(ended) - MORNING_TO_EVENING - longest)


def end_of(site: Site, before: Scheduled) -> Given:
    """When a task ended; plaster not before the last day that a coating says its wall was plastered."""
    ended, what = before.end, what_dries(site, before)
    if not (isinstance(ended, Known) and isinstance(what, Known) and what.value == "plaster"):
        return ended
    given_days = [
        reading.read(coating, "plastered", f"{name} plastered")
        for name, coating in site.plan.coatings.items()
        if coating.plastered is not None
    ]
    later = [day for day in given_days if isinstance(day, Known) and _day(day) > _day(ended)]
    return max(later, key=_day) if later else ended


def _day(date: Given) -> float:
    if not isinstance(date, Known):
        return 0.0
    return date.high if date.high is not None else float(date.value)


def _after_wait(site: Site, scheduled: Scheduled, pair: _Pair) -> Row:
    before = pair.before
    return TaskAfterWait(
        Subject(scheduled.name, scheduled.task.pointer, f"after {before.name}"),
        starts=pair.starts,
        ended=pair.ended,
        task_before=reading.exactly(before.name, before.task.pointer, "task before"),
        last_day=reading.exactly(MORNING_TO_EVENING, before.task.pointer, "work on its last day"),
        wait=before.wait or Missing(before.task.pointer_to("dries"), "wait"),
        maker_wait=_maker_wait(site, before),
        dries=what_dries(site, before),
    )


def what_dries(site: Site, before: Scheduled) -> Given:
    """What a task leaves to dry, as the usual order has it: plaster, paint or other; a question for any other task."""
    pointer = before.task.pointer_to("dries")
    usual = site.library.order.tasks.get(fold(before.name)) if site.library.order is not None else None
    if usual is None or not usual.dries:
        question = f"what has to dry after {before.name}: plaster, paint or something else?"
        return Missing(pointer, "what has to dry", Why.UNCLEAR, detail=question)
    return reading.exactly(usual.dries, pointer, "what has to dry")


def _maker_wait(site: Site, before: Scheduled) -> Given:
    """The longest that any paint's maker wants plaster to dry before the first coat; nobody else is asked."""
    from validator.plan.sections.appliances import PaintPapers

    label = "wait the maker asks for"
    dries = what_dries(site, before)
    if isinstance(dries, Known) and dries.value != "plaster":
        return Missing(before.task.pointer_to("dries"), label, Why.NOTHING_STATED)
    papers = [papers for papers in site.plan.stated.values() if isinstance(papers, PaintPapers)]
    if not papers:
        return Missing(site.plan.stated.pointer, label, Why.UNREAD)
    asked = [
        reading.quantity(each.dry_before, each.pointer_to("dry_before"), label, absent=Why.UNREAD) for each in papers
    ]
    known = [value for value in asked if isinstance(value, Known)]
    unread = [value for value in asked if isinstance(value, Missing) and value.why is not Why.NOTHING_STATED]
    if unread:
        return tuple(unread)
    return max(known, key=lambda value: value.high or 0.0) if known else asked[0]


def gas_works(site: Site) -> Rows:
    """A row for each task on gas, or for each gas appliance where no task is on gas: nobody knows who connects it."""
    plan = site.plan
    found = Rows()
    if plan.work is not None:
        for name, task in plan.work.tasks.items():
            if _on_gas(site, name, task):
                found.rows.append(_gas_work(plan, name, task))
    if found.rows:
        return found
    for name, appliance in plan.appliances.items():
        if fold(appliance.is_ or name) in ("gas hob", "gas cooker"):
            missing = Missing("/work", f"who connects the {name}")
            subject = Subject(name, appliance.pointer)
            found.rows.append(GasWork(subject, registered=missing, looked_up=missing, by=missing))
    if not found.rows and plan.work is None:
        found.left_out.append(LeftOut(GasWork.kind, Missing("/work", "order of work")))
    return found


def _on_gas(site: Site, name: str, task: Task) -> bool:
    usual = site.library.order.tasks.get(fold(name)) if site.library.order is not None else None
    if usual is not None and _is_gas(usual.trade):
        return True
    return any(_is_gas(_trade(site.plan, doer)) for doer in task.by or ())


def _is_gas(trade: str) -> bool:
    return "gas" in fold(trade).split()


def _trade(plan: Plan, doer: str) -> str:
    trade = plan.people[doer].trade if doer in plan.people else None
    return doer if trade is None else trade


def _gas_work(plan: Plan, name: str, task: Task) -> Row:
    label = "who does it"
    subject = Subject(name, task.pointer)
    if not task.by:
        missing = Missing(task.pointer_to("by"), label)
        return GasWork(subject, registered=missing, looked_up=missing, by=missing)
    doers = [doer for doer in task.by if _is_gas(_trade(plan, doer))] or list(task.by)
    registered = [_registered(plan, doer, task) for doer in doers]
    return GasWork(
        subject,
        registered=_all(registered),
        looked_up=_looked_up(plan, doers[0]),
        by=reading.exactly(", ".join(doers), task.pointer_to("by"), label),
    )


def _registered(plan: Plan, doer: str, task: Task) -> Given:
    """True once a registration is given; the householder has none unless the plan gives one."""
    label = f"gas registration of {doer}"
    person = plan.people.get(doer)
    if person is None or person.register_ is None:
        if fold(doer) == "householder":
            return reading.exactly(False, task.pointer_to("by"), label)
        pointer = person.pointer_to("register_") if person is not None else join(plan.people.pointer, doer)
        return Missing(pointer, label)
    pointer = person.pointer_to("register_")
    if isinstance(person.register_, ToFind):
        return Missing(pointer, label, Why.TO_FIND, person.register_.by)
    return reading.exactly(fold(person.register_) not in ("none", "no"), pointer, label)


def _all(answers: list[Given]) -> Given:
    """No if one is no, not known if one is not known, else yes."""
    for answer in answers:
        if isinstance(answer, Known) and answer.value is False:
            return answer
    return next((answer for answer in answers if not isinstance(answer, Known)), answers[0])


def _looked_up(plan: Plan, doer: str) -> Given:
    label = "when the registration was looked up"
    if doer not in plan.people:
        return Missing(join(plan.people.pointer, doer), label)
    return reading.read(plan.people[doer], "looked_up", label)
