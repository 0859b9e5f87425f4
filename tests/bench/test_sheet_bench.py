"""What a sheet costs once its plan is judged, beside a check: reading, judging and reporting of the same plan."""

from __future__ import annotations

from datetime import date

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.commands.running import DEMO
from validator.commands.inspecting import Inspector
from validator.judging.apply import Judgement
from validator.plan.files import read_plan
from validator.reference.folder import rules_folder
from validator.reference.jobsheets import read_jobsheets
from validator.reporting.printing import Printer
from validator.reporting.sheets.content import content
from validator.reporting.sheets.drawn import drawings_for
from validator.reporting.sheets.pages import jobsheet
from validator.reporting.style import Style
from validator.reporting.text import report

DAY = date(2027, 3, 1)
INSPECTOR = Inspector((), DAY)


def judged(plan: str) -> Judgement:
    return INSPECTOR.inspect(read_plan([str(DEMO / plan)], bytes))


def check(plan: str) -> str:
    return report(judged(plan), DAY, Style(plain=True))


def sheet(judgement: Judgement, trade: str) -> str:
    """A whole sheet with its drawings."""
    sheets = read_jobsheets(rules_folder(), judgement.site.library.documents)
    made = content(judgement, sheets.trades[trade], sheets, DAY)
    return jobsheet(made, drawings_for(judgement, made), Printer(judgement.site), issue="A")


@pytest.mark.parametrize("plan", ["weavers-row", "cedar-street", "plover-mews"])
@pytest.mark.parametrize("what", ["check", "electrician", "joiner"])
def test_a_sheet_beside_a_check(what: str, plan: str, benchmark: BenchmarkFixture) -> None:
    benchmark.group = plan
    if what == "check":
        assert benchmark.pedantic(check, args=(plan,), rounds=5, warmup_rounds=1)  # type: ignore[no-untyped-call]
        return

    def fresh() -> tuple[tuple[Judgement, str], dict[str, object]]:
        """A plan judged and not yet asked for anything else."""
        return (judged(plan), what), {}

    assert benchmark.pedantic(sheet, setup=fresh, rounds=5)  # type: ignore[no-untyped-call]
