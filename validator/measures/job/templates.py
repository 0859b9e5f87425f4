"""The template of a worktop: what has to be done and on site before it, and the days from it to the fitting."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import HOBS, kind_of, of_kinds
from validator.measures.arithmetic import most
from validator.measures.job.schedule import Scheduled, schedule, tightest
from validator.measures.rows import NAME, Given, Missing, Row, Rows, Subject, figure, given
from validator.plan.dimensions import DATE, DURATION
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.site import Site

TEMPLATE = "template"
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
    """A row for a task `template`, where the plan has one."""
    found = _template(site)
    if found is None:
        return Rows()
    tasks, task = found
    fitting = tasks.get(FITTING) or next((each for each in tasks.values() if TEMPLATE in each.follows), None)
    before: list[Given] = [tasks[name].end for name in task.follows]
    if not before:
        before = [Missing(task.task.pointer_to("after"), "task that fixes the units")]
    starts, before = tightest(task.start, before)
    fitted, (ends,) = tightest(_fitted(task, fitting), [task.end])
    row = Template(
        Subject(task.name, task.task.pointer), starts=starts, ended=reading.parts(before), ends=ends, fitted=fitted
    )
    return Rows([row])


def things_needed_at_templates(site: Site) -> Rows:
    """A row for each sink, hob and tap, where the plan has a task `template`; cookers stand between worktops."""
    found = _template(site)
    if found is None:
        return Rows()
    rows = Rows()
    for name in of_kinds(site.plan, CUT_IN):
        appliance = site.plan.appliances[name]
        label = f"day the {name} is due"
        delivery = site.plan.deliveries.get(name)
        source = delivery if appliance.due is None and delivery is not None else appliance
        rows.rows.append(
            NeededAtTemplate(
                Subject(name, appliance.pointer),
                due=reading.read(source, "due", label),
                template=found[1].start,
                sort=reading.exactly(kind_of(name, appliance), appliance.pointer_to("is"), "what it is"),
            )
        )
    return rows


def _template(site: Site) -> tuple[dict[str, Scheduled], Scheduled] | None:
    """The tasks by their folded names, and the template among them."""
    work = site.plan.work
    if work is None or TEMPLATE not in map(fold, work.tasks):
        return None
    tasks = schedule(site)
    return tasks, tasks[TEMPLATE]


def _fitted(template: Scheduled, fitting: Scheduled | None) -> Given:
    """The day of the fitting, as agreed with its maker: a date, or the days that the template waits for it."""
    label = "day the worktop is fitted"
    if fitting is None:
        return Missing("/work", label)
    if fitting.task.on is None and template.task.dries is None:
        return Missing(fitting.task.pointer_to("on"), label)
    return fitting.start
