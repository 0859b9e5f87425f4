"""The report as a page: HTML that stands by itself, with the drawings of the plan and the numbers of its points."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

from validator.judging.apply import Judgement
from validator.judging.rules import Severity
from validator.plan.problems import Unreadable
from validator.reporting.printing import Printer
from validator.reporting.sentences import mistake
from validator.reporting.sheets.drawn import Drawings, drawings_of
from validator.reporting.sheets.pages import render
from validator.reporting.sheets.whole_plan import WholePlan, whole_plan


class Part(NamedTuple):
    """What one plan puts on the page: its report with the drawings, or why it cannot be read."""

    plan: WholePlan | None
    drawings: Drawings
    mistakes: tuple[tuple[str, int, str], ...] = ()


def of_plan(judgement: Judgement, on: date, fail_on: Severity = "put right") -> tuple[Part, Printer]:
    """The report of one plan."""
    return Part(whole_plan(judgement, on, fail_on), drawings_of(judgement)), Printer(judgement.site)


def of_unreadable(unreadable: Unreadable) -> tuple[Part, None]:
    """What has to be mended before the plan can be judged."""
    said = tuple((each.place.file, each.place.line, mistake(each)) for each in unreadable.problems)
    return Part(None, Drawings(), said), None


def whole(parts: Sequence[tuple[Part, Printer | None]]) -> str:
    """The page about all plans, in their order."""
    printer = next((printer for _, printer in parts if printer is not None), None)
    return render("report.html.j2", printer, parts=[part for part, _ in parts])
