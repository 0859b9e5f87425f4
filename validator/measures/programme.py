"""The programme: dates from the order of work, and the waits between tasks; gas work and who does it."""

from __future__ import annotations

from validator.measures.rows import NAME, YES_NO, Row, Words, figure, given
from validator.plan.dimensions import DATE, DURATION


class TaskAfterWait(Row, kind="task after a wait"):
    """A task that follows one that has to dry or cure: the pair that leaves least time."""

    starts: float = given(DATE, "start")
    ended: float = given(DATE, "end of the task before")
    task_before: str = given(NAME, "task before")
    wait: float = given(DURATION, "wait")
    maker_wait: float = given(DURATION, "wait the maker asks for")
    dries: str = given(Words(("plaster", "paint", "other")), "what has to dry")

    @figure(DURATION, "time between", start="end of the task before", end="start of the task")
    def waited(self) -> float:
        return self.starts - self.ended


class GasWork(Row, kind="gas work"):
    """A task on gas pipes or gas appliances and whoever does it."""

    registered: bool = given(YES_NO, "whether whoever does it is registered for gas")
    looked_up: float = given(DATE, "when the registration was looked up")
    by: str = given(NAME, "who does it")
