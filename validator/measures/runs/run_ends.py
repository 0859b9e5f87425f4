"""Where a run starts and how far it may reach: the ends of its wall, or the fronts of a run round the corner."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.room.walls import FromRightEnd, length_of, named_gap, which_end, worked
from validator.measures.rows import Given, Missing, Row, Subject, Why, figure, given
from validator.plan.dimensions import LENGTH
from validator.plan.fields import Along
from validator.plan.plan import Plan

if TYPE_CHECKING:
    from validator.plan.sections.furniture import Item, Run


class FrontsOfRun(Row, kind="fronts of a run"):
    """How far the fronts of a run stand out from its wall, which is where the run round the corner may start."""

    void: float = given(LENGTH, "void behind")
    depth: float = given(LENGTH, "unit")
    front: float = given(LENGTH, "front")

    @figure(LENGTH, "fronts", start="wall", end="face of the fronts")
    def out(self) -> float:
        return self.void + self.depth + self.front


class Ends(NamedTuple):
    """The ends of a run's room along its wall; `from_right` where the run is set out from the right end."""

    left: Given
    right: Given
    from_right: bool = False


def ends_of(plan: Plan, name: str) -> Ends:
    """The ends of a run. `from` moves the end that it is given from: a wall, or the fronts of a run beside it."""
    run = plan.runs[name]
    if run.faces is not None:
        detail = "an island has no wall at its right end"
        open_end = Missing(run.pointer_to("faces"), f"end of {name}", Why.UNCLEAR, detail=detail)
        return Ends(reading.exactly(0, run.pointer_to("faces"), "left end of the island"), open_end)
    left = reading.exactly(0, run.pointer_to("against"), "left end of the wall")
    right = length_of(plan, run.against)
    if run.from_ is None:
        return Ends(left, right)
    pointer = run.pointer_to("from")
    beside = _beside(plan, run.from_)
    end = which_end(plan, run.against, beside) if beside is not None else ""
    if not end:
        other = f"the fronts of {run.from_.fronts_of}" if run.from_.fronts_of else run.from_.from_
        detail = f"{other} and the {run.against} wall do not meet"
        return Ends(Missing(pointer, f"start of {name}", Why.UNCLEAR, detail=detail), right)
    amount = _amount(plan, run, run.from_, name, end)
    if end == "left":
        return Ends(amount, right)
    subject = Subject(name, pointer, f"{run.against} wall", run.against)
    end_of_run = worked(FromRightEnd(subject, wall=right, amount=amount), "place", f"end of {name}")
    return Ends(left, end_of_run, from_right=True)


def _beside(plan: Plan, start: Along) -> str | None:
    """The wall from which a run is set out."""
    if not start.fronts_of:
        return start.from_
    return plan.runs[start.fronts_of].against if start.fronts_of in plan.runs else None


def _amount(plan: Plan, run: Run, start: Along, name: str, end: str) -> Given:
    if not start.fronts_of:
        return named_gap(reading.quantity(start.amount, run.pointer_to("from"), f"start of {name}"), f"start of {name}")
    other = plan.runs.written(start.fronts_of)
    corner = _corner_unit(plan.runs[other], end)
    if corner is None:
        detail = f"{other} has no unit whose front could be counted from"
        return Missing(run.pointer_to("from"), f"fronts of {other}", Why.UNCLEAR, detail=detail)
    unit, item = corner
    fronts = FrontsOfRun(
        Subject(f"fronts of {other}", item.pointer),
        void=named_gap(reading.read(item, "void_behind", "void behind"), f"void behind {unit}"),
        depth=named_gap(reading.read(item, "depth", unit), f"depth of {unit}"),
        front=named_gap(reading.read(item, "front", "front"), f"thickness of the front of {unit}"),
    )
    return worked(fronts, "out", f"fronts of {other}")


def _corner_unit(run: Run, end: str) -> tuple[str, Item] | None:
    """The unit of the other run nearest to the corner: its last, where that run comes from the left."""
    units = [(name, item) for name, item in run.order.items() if item.family == "unit"]
    if not units:
        return None
    return units[-1] if end == "left" else units[0]
