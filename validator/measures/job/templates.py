"""The template of a worktop: what has to be done and on site before it, and the days from it to the fitting."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import HOBS, kind_of, of_kinds
from validator.measures.arithmetic import most
from validator.measures.job.schedule import Scheduled, schedule, tightest
from validator.measures.rows import NAME, Given, Known, Missing, Row, Rows, Subject, figure, given
from validator.plan.dimensions import DATE, DURATION
from validator.plan.names import fold

if TYPE_CHECKING:
    from collections.abc import Mapping

    from validator.measures.site import Site

TEMPLATE = "template"
"""A word in the name of a task that takes the template of a worktop."""

FITTING = "fit worktops"
CUT_IN = HOBS - {"electric cooker", "gas cooker"} | {"sink", "tap"}
"""What a worktop is cut out for, and what a template is therefore taken from."""


class Template(Row, kind="template of a worktop"):
    """The day a worktop's template is taken: after what it follows, and long enough before the fitting.

    Both in the course of the work, shortest or longest, that leaves less.
    """

    starts: float = given(DATE, "template")
    ended: tuple[float, ...] = given(DATE, "end of what it follows", many=True)
    ends: float = given(DATE, "end of the template")
    fitted: float = given(DATE, "fitting")

    @figure(DURATION, "time after what it follows", start="last day of what it follows", end="day of the template")
    def after_units(self) -> float:
        return self.starts - most(self.ended)

    @figure(DURATION, "time to make the worktop", start="day of the template", end="day of the fitting")
    def to_fitting(self) -> float:
        return self.fitted - self.ends


class NeededAtTemplate(Row, kind="thing needed at a template"):
    """A sink, hob or tap that is cut into a worktop, and the day the worktop's template is taken."""

    due: float = given(DATE, "due")
    template: float = given(DATE, "template")
    sort: str = given(NAME, "what it is")

    @figure(DURATION, "days in hand", start="day it is due", end="day of the template")
    def in_hand(self) -> float:
        return self.template - self.due


def templates(site: Site) -> Rows:
    """A row for each task that takes a template, where the plan has one."""
    tasks, taken = _templates(site)
    return Rows([_row(tasks, task) for task in taken])


def _row(tasks: Mapping[str, Scheduled], task: Scheduled) -> Row:
    fitting = tasks.get(FITTING) or next((each for each in tasks.values() if fold(task.name) in each.follows), None)
    before: list[Given] = [tasks[name].end for name in task.follows]
    if not before:
        before = [Missing(task.task.pointer_to("after"), "task that fixes the units")]
    starts, before = tightest(task.start, before)
    fitted, (ends,) = tightest(_fitted(task, fitting), [task.end])
    return Template(
        Subject(task.name, task.task.pointer), starts=starts, ended=reading.parts(before), ends=ends, fitted=fitted
    )


def things_needed_at_templates(site: Site) -> Rows:
    """A row for each sink, hob and tap, where a task takes a template; cookers stand between worktops."""
    _, taken = _templates(site)
    if not taken:
        return Rows()
    first, rows = min(taken, key=_first), Rows()
    for name in of_kinds(site.plan, CUT_IN):
        appliance = site.plan.appliances[name]
        label = f"day the {name} is due"
        delivery = site.plan.deliveries.get(name)
        source = delivery if appliance.due is None and delivery is not None else appliance
        rows.rows.append(
            NeededAtTemplate(
                Subject(name, appliance.pointer),
                due=reading.read(source, "due", label),
                template=first.start,
                sort=reading.exactly(kind_of(name, appliance), appliance.pointer_to("is"), "what it is"),
            )
        )
    return rows


def takes_template(name: str) -> bool:
    """Whether a task takes a template, by its name: `template`, `template worktops`."""
    return TEMPLATE in fold(name).split()


def _templates(site: Site) -> tuple[Mapping[str, Scheduled], list[Scheduled]]:
    """The tasks by their folded names, and those among them that take a template."""
    work = site.plan.work
    if work is None or not any(map(takes_template, work.tasks)):
        return {}, []
    tasks = schedule(site)
    return tasks, [task for name, task in tasks.items() if takes_template(name)]


def _first(template: Scheduled) -> float:
    """The day of a template; one of which nobody knows it may be the first."""
    start = template.start
    return float(start.value) if isinstance(start, Known) else 0.0


def _fitted(template: Scheduled, fitting: Scheduled | None) -> Given:
    """The day of the fitting, as agreed with its maker: a date, or the days that the template waits for it."""
    label = "day the worktop is fitted"
    if fitting is None:
        return Missing("/work", label)
    if fitting.task.on is None and template.task.dries is None:
        return Missing(fitting.task.pointer_to("on"), label)
    return fitting.start
