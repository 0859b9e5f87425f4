"""Dates of the tasks: a forward pass through the order of work, by working days and by waits.

A task starts the day after those it follows have ended, or once they have dried; work counts in working days, waits in
days of the calendar. A wait starts in the evening of the last day, so that 24 hours are not over the next morning. What
depends on a count that nobody can make is not known.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.arithmetic import most
from validator.measures.rows import Given, Known, Missing, Row, Subject, Why, figure, gaps_of, given
from validator.plan.dimensions import DATE, DAY, DURATION
from validator.plan.names import fold
from validator.plan.values import Quantity

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.work import Task, Work
    from validator.reference.library import UsualOrder

MORNING_TO_EVENING = 12 * 3600.0
"""How long a day's work lasts at most: what is finished on a day may be finished that long after its morning."""
WORKING_HOURS = 8
DAYS_A_WEEK = {"every day": 7, "monday to friday": 5}

_WEEKS = re.compile(r"\d\s*(?:weeks?|wks?|w)\b", re.IGNORECASE)
_HOURS = re.compile(r"\d\s*(?:hours?|hrs?|h)\b", re.IGNORECASE)


class TaskDates(Row, kind="dates of a task"):
    """First and last day of a task, and the day from which what follows it may start."""

    allowed: tuple[float, ...] = given(DATE, "what it waits for", many=True)
    to_working_day: float = given(DURATION, "to the next working day")
    work: float = given(DURATION, "from its first day to its last")
    pause: float = given(DURATION, "until the next may start")

    @figure(DATE, "first day")
    def start(self) -> float:
        return most(self.allowed) + self.to_working_day

    @figure(DATE, "last day")
    def end(self) -> float:
        return self.start + self.work

    @figure(DATE, "next may start")
    def free(self) -> float:
        return self.end + self.pause


@dataclass(slots=True)
class Scheduled:
    """A task in its place: what it follows, its dates, and what it starts that has to dry (None: nothing).

    `unplaced` is what has to be found out where nobody can tell what it follows.
    """

    name: str
    task: Task
    follows: tuple[str, ...] = ()
    start: Given = ()
    end: Given = ()
    free: Given = ()
    wait: Given | None = None
    dates: TaskDates | None = None
    in_a_circle: bool = field(default=False)
    unplaced: Missing | None = None


def schedule(site: Site) -> dict[str, Scheduled]:
    """Every task of the plan with its dates, by folded name, each after all it follows. Empty without `work`.

    Tasks that follow themselves in the end come last; their dates are not known.
    """
    work = site.plan.work
    if work is None:
        return {}
    tasks = {fold(name): Scheduled(name, task) for name, task in work.tasks.items()}
    unplaced = _set_order(work, tasks, site.library.order)
    done: dict[str, Scheduled] = {}
    for name in _each_after_what_it_follows(tasks):
        scheduled = tasks[name]
        scheduled.wait = _wait(site, scheduled)
        scheduled.unplaced = unplaced.get(name)
        _set_dates(site, work, scheduled, done)
        done[name] = scheduled
    return done


def tightest(later: Given, earlier: Sequence[Given]) -> tuple[Given, list[Given]]:
    """A date and those before it in that course of the work, shortest or longest, which leaves least between them.

    Never a mix of both courses: what takes longer puts off what follows it. As they are where one is not known.
    """
    dates = [date for date in (later, *earlier) if isinstance(date, Known)]
    if len(dates) <= len(earlier):
        return later, list(earlier)
    shortest = [date.low if date.low is not None else float(date.value) for date in dates]
    longest = [date.high if date.high is not None else float(date.value) for date in dates]
    course = min((shortest, longest), key=lambda days: days[0] - max(days[1:], default=0.0))
    first, *before = [_on_day(date, day) for date, day in zip(dates, course, strict=True)]
    return first, list(before)


def _on_day(date: Known, day: float) -> Known:
    """A date at one end of its range; its working belongs to the shortest course only."""
    origin = date.origin if day == date.low else None
    return Known(day, date.pointer, date.text, date.label, low=day, high=day, assumed=date.assumed, origin=origin)


def _set_order(work: Work, tasks: Mapping[str, Scheduled], usual: UsualOrder | None) -> dict[str, Missing]:
    """Set what each task follows; return, for tasks whose place in the order nobody can tell, what to find out."""
    unplaced: dict[str, Missing] = {}
    before = ""
    skipped: dict[str, frozenset[str]] = {}
    for name, scheduled in tasks.items():
        task = scheduled.task
        follows = [fold(other) for other in task.after or ()]
        unknown = [other for other in follows if other not in tasks and not (usual and other in usual.tasks)]
        if unknown:
            detail = f"the plan has no task {', '.join(unknown)}"
            unplaced[name] = Missing(task.pointer_to("after"), "what it follows", Why.UNCLEAR, detail=detail)
        if work.order == "as written":
            follows += [before] if before else []
        elif work.order is None:
            unplaced[name] = Missing(work.pointer_to("order"), "order of work")
        elif usual is not None and name in usual.tasks:
            follows += [fold(other) for other in usual.tasks[name].after]
        elif not follows:
            detail = f"the usual order has no task {scheduled.name}: which task does it come after?"
            unplaced[name] = Missing(task.pointer_to("after"), "what it follows", Why.UNCLEAR, detail=detail)
        present = [there for other in follows for there in sorted(_present(other, tasks, usual, skipped))]
        scheduled.follows = tuple(dict.fromkeys(present))
        before = name
    return unplaced


def _present(
    name: str, tasks: Mapping[str, Scheduled], usual: UsualOrder | None, skipped: dict[str, frozenset[str]]
) -> frozenset[str]:
    """The task of this name, or what it would follow where the plan does not have it."""
    if name in tasks:
        return frozenset({name})
    if name not in skipped:
        skipped[name] = frozenset()
        if usual is not None and name in usual.tasks:
            found = (_present(fold(other), tasks, usual, skipped) for other in usual.tasks[name].after)
            skipped[name] = frozenset().union(*found)
    return skipped[name]


def _each_after_what_it_follows(tasks: Mapping[str, Scheduled]) -> Iterator[str]:
    """The names in an order that can be worked through; those that follow themselves in the end come last."""
    waiting = {name: len(scheduled.follows) for name, scheduled in tasks.items()}
    followers: dict[str, list[str]] = {}
    for name, scheduled in tasks.items():
        for other in scheduled.follows:
            followers.setdefault(other, []).append(name)
    ready = [name for name, number in waiting.items() if number == 0]
    for name in ready:
        yield name
        for follower in followers.get(name, ()):
            waiting[follower] -= 1
            if waiting[follower] == 0:
                ready.append(follower)
    for name, number in waiting.items():
        if number > 0:
            tasks[name].in_a_circle = True
            yield name


def _wait(site: Site, scheduled: Scheduled) -> Given | None:
    """How long what the task leaves has to dry: as the plan says, else by the table; None where nothing dries."""
    task, name = scheduled.task, fold(scheduled.name)
    if task.dries is not None:
        return reading.read(task, "dries", "wait")
    usual = site.library.order.tasks.get(name) if site.library.order is not None else None
    if usual is None or not usual.dries:
        return None
    table = site.library.table("drying-wait", site.country)
    cell = table.find("wait", {"task": name}) if table is not None else None
    pointer = task.pointer_to("dries")
    if cell is None:
        return Missing(pointer, "wait", Why.NO_TABLE_ROW)
    days = float(cell.value)
    return Known(days, pointer, cell.text, "wait", low=days, high=days, note=f"from {cell.table}, {cell.source}")


def _set_dates(site: Site, work: Work, scheduled: Scheduled, done: Mapping[str, Scheduled]) -> None:
    task = scheduled.task
    allowed, shift = _start(site, work, scheduled, done)
    first = _together(allowed, shift)
    work_lasts = _last(work, task, first) if isinstance(first, _Days) else first
    last = first.moved(work_lasts) if isinstance(first, _Days) and isinstance(work_lasts, Known) else work_lasts
    pause = _pause(scheduled)
    row = TaskDates(
        Subject(scheduled.name, task.pointer), allowed=allowed, to_working_day=shift, work=work_lasts, pause=pause
    )
    scheduled.dates = row
    scheduled.start = _dated(first, row, "start", f"{scheduled.name} starts")
    scheduled.end = _dated(last, row, "end", f"{scheduled.name} ends")
    next_day = last.moved(pause) if isinstance(last, _Days) and isinstance(pause, Known) else last
    if isinstance(last, _Days) and not isinstance(pause, Known):
        next_day = gaps_of(pause)
    said = f"{scheduled.name} dry" if scheduled.wait is not None else f"day after {scheduled.name}"
    scheduled.free = _dated(next_day, row, "free", said)


class _Days(NamedTuple):
    """A day, by number, in the shortest and in the longest course of the work."""

    low: int
    high: int
    assumed: bool = False

    def moved(self, by: Known) -> _Days | Missing:
        low, high = (round((end if end is not None else by.value) / DAY) for end in (by.low, by.high))
        if self.high + high > date.max.toordinal():
            return Missing(by.pointer, by.label, Why.UNCLEAR, detail="this ends after the year 9999")
        return _Days(self.low + low, self.high + high, self.assumed or by.assumed)


def _start(site: Site, work: Work, scheduled: Scheduled, done: Mapping[str, Scheduled]) -> tuple[Given, Given]:
    """The days before which it cannot start, and the wait for a working day."""
    task = scheduled.task
    if task.on is not None:
        fixed = reading.read(task, "on", "fixed for")
        return reading.parts([fixed]), reading.exactly(0, task.pointer_to("on"), "to the next working day")
    if scheduled.in_a_circle:
        detail = "it follows itself, by way of what it follows"
        circle = Missing(task.pointer_to("after"), "what it follows", Why.UNCLEAR, detail=detail)
        return circle, circle
    if scheduled.unplaced is not None:
        return scheduled.unplaced, scheduled.unplaced
    if scheduled.follows:
        allowed = reading.parts([done[name].free for name in scheduled.follows])
    else:
        allowed = reading.parts([reading.read(site.plan.project, "starts", "work starts")])
    if not isinstance(allowed, Known):
        missing = gaps_of(allowed)
        return missing, missing
    return allowed, _to_working_day(work, _latest(allowed))


def _latest(allowed: Known) -> _Days:
    return _Days(
        max(_number(part.low, part) for part in allowed.parts),
        max(_number(part.high, part) for part in allowed.parts),
        any(part.assumed for part in allowed.parts),
    )


def _number(end: float | None, part: Known) -> int:
    return round((end if end is not None else float(part.value)) / DAY)


def _together(allowed: Given, shift: Given) -> _Days | Missing | tuple[Missing, ...]:
    if isinstance(allowed, Known) and isinstance(shift, Known):
        return _latest(allowed).moved(shift)
    return gaps_of(allowed, shift)


def _dated(days: _Days | Given, row: TaskDates, name: str, label: str) -> Given:
    if not isinstance(days, _Days):
        return days
    low, high = days.low * DAY, days.high * DAY
    return Known(low, row.subject.pointer, "", label, low=low, high=high, assumed=days.assumed, origin=(row, name))


def _to_working_day(work: Work, day: _Days) -> Given:
    """The wait for the next working day; known without the plan's `days` only if it comes out the same anyway."""
    label = "to the next working day"
    pointer = work.pointer_to("days")
    waits = {week: [_next_working(number, week) - number for number in (day.low, day.high)] for week in _weeks(work)}
    return _agreed(list(waits.values()), pointer, label)


def _last(work: Work, task: Task, first: _Days) -> Given:
    """From the first day of a task to its last, in days of the calendar."""
    takes = task.takes
    label = "from its first day to its last"
    if not isinstance(takes, Quantity):
        return reading.read(task, "takes", "how long it takes")
    counts = [
        [
            _last_day(number, _working_days(seconds, takes.text, week), week) - number
            for number, seconds in ((first.low, takes.low), (first.high, takes.high))
        ]
        for week in _weeks(work)
    ]
    pointer = task.pointer_to("takes") if work.days is not None else work.pointer_to("days")
    return _agreed(counts, pointer, label, takes.text, takes.assumed)


def _weeks(work: Work) -> Sequence[int]:
    return tuple(DAYS_A_WEEK.values()) if work.days is None else (DAYS_A_WEEK[work.days],)


def _agreed(counts: Sequence[Sequence[int]], pointer: str, label: str, text: str = "", assumed: bool = False) -> Given:
    """A count of days that comes out the same in every week that may be meant."""
    if any(count != counts[0] for count in counts):
        return Missing(pointer, "on which days work is done")
    low, high = (number * DAY for number in counts[0])
    return Known(low, pointer, text, label, low=min(low, high), high=max(low, high), assumed=assumed)


def _pause(scheduled: Scheduled) -> Given:
    """From the last day to the day the next may start: the day after, or the first morning when it is surely dry."""
    wait = scheduled.wait
    if wait is None:
        pointer = scheduled.task.pointer
        return Known(DAY, pointer, "", "the day after", low=DAY, high=DAY)
    if not isinstance(wait, Known):
        return wait
    longest = wait.high if wait.high is not None else float(wait.value)
    days = max(1, math.ceil((longest + MORNING_TO_EVENING) / DAY - 1e-9)) * DAY
    label = f"its last day, and {wait.text} to dry" if wait.text else "its last day, and drying"
    return Known(days, wait.pointer, "", label, low=days, high=days, assumed=wait.assumed, note=wait.note)


def _working_days(seconds: float, text: str, week: int) -> int:
    """Whole working days: a week has those that are worked, hours fill days of eight."""
    if _WEEKS.search(text):
        days = seconds / (7 * DAY) * week
    elif _HOURS.search(text):
        days = seconds / 3600 / WORKING_HOURS
    else:
        days = seconds / DAY
    return max(1, math.ceil(days - 1e-9))


def _next_working(day: int, week: int) -> int:
    """The day itself or the next that is worked. Day 1 was a Monday."""
    weekday = (day - 1) % 7
    return day if weekday < week else day + 7 - weekday


def _last_day(first: int, days: int, week: int) -> int:
    """The last of so many working days, the first of which is worked whatever day it is."""
    weekday = (first - 1) % 7
    if weekday >= week:
        if days == 1:
            return first
        first, days, weekday = _next_working(first, week), days - 1, 0
    weeks, place = divmod(weekday + days - 1, week)
    return first - weekday + 7 * weeks + place
