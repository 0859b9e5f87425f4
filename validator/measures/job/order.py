"""Tasks that a plan fixes to a day, against the end of what they follow."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.job.schedule import Scheduled, schedule, tightest
from validator.measures.job.templates import takes_template
from validator.measures.rows import NAME, Known, LeftOut, Missing, Row, Rows, Subject, figure, given
from validator.plan.dimensions import DATE, DURATION

if TYPE_CHECKING:
    from validator.measures.site import Site


class TaskOnItsDay(Row, kind="task of a fixed day"):
    """A task with a day of its own, and that of those it follows which leaves it least time."""

    starts: float = given(DATE, "start")
    ended: float = given(DATE, "end of the task before")
    task_before: str = given(NAME, "task before")

    @figure(DURATION, "days after the task before", start="last day of the task before", end="first day")
    def after_it(self) -> float:
        return self.starts - self.ended


def tasks_on_their_days(site: Site) -> Rows:
    """A row for each task with a day of its own that follows another; the programme puts all others after theirs.

    What has to dry and the template of a worktop have rows of their own.
    """
    if site.plan.work is None:
        return Rows(left_out=[LeftOut(TaskOnItsDay.kind, Missing("/work", "order of work"))])
    tasks, rows = schedule(site), Rows()
    asked: dict[str, Missing] = {}
    for name, scheduled in tasks.items():
        if scheduled.task.on is None or takes_template(name):
            continue
        if scheduled.unplaced is not None and not scheduled.follows:
            asked[scheduled.unplaced.pointer] = scheduled.unplaced
        before = [tasks[other] for other in scheduled.follows if tasks[other].wait is None]
        if before:
            rows.rows.append(min((_row(scheduled, other) for other in before), key=_order))
    rows.left_out = [LeftOut(TaskOnItsDay.kind, missing) for missing in asked.values()]
    return rows


def _row(scheduled: Scheduled, before: Scheduled) -> Row:
    starts, (ended,) = tightest(scheduled.start, [before.end])
    return TaskOnItsDay(
        Subject(scheduled.name, scheduled.task.pointer, f"after {before.name}"),
        starts=starts,
        ended=ended,
        task_before=reading.exactly(before.name, before.task.pointer, "task before"),
    )


def _order(row: Row) -> tuple[int, float]:
    """What is too early for certain first, then what is not known, then what has least to spare."""
    starts, ended = (row.known.get(name) for name in ("starts", "ended"))
    if not (isinstance(starts, Known) and isinstance(ended, Known)):
        return (1, 0.0)
    after = float(starts.value) - float(ended.value)
    return (0 if after <= 0 else 2, after)
