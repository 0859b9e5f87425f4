"""The demo plans: one is ready; the faulty one has exactly the faults that its README lists, place by place."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

from validator.commands.inspecting import inspect
from validator.judging.apply import Judgement
from validator.judging.outcomes import Result
from validator.judging.ready import ready
from validator.reporting.style import Style
from validator.reporting.text import report

DEMOS = Path(__file__).parent.parent / "plans_demo"
DAY = date(2027, 1, 15)
TABLE_ROW = re.compile(r"^\| *\d* *\| `(?P<rule>[^`]+)` \| (?P<things>[^|]+) \|")


def _judged(plan: str) -> Judgement:
    return inspect(str(DEMOS / plan), (), DAY)


def _listed() -> set[tuple[str, str]]:
    found = set()
    for line in (DEMOS / "weavers-row" / "README.md").read_text("utf-8").splitlines():
        row = TABLE_ROW.match(line)
        if row is not None:
            found |= {(row["rule"], thing.strip()) for thing in row["things"].split(";")}
    return found


def _not_met(judged: Judgement) -> set[tuple[str, str]]:
    return {(o.rule.name, o.subject.name) for o in judged.outcomes if o.result is Result.NOT_MET}


def test_the_faulty_plan_has_exactly_the_faults_its_readme_lists() -> None:
    assert _not_met(_judged("weavers-row")) == _listed()


def test_fifteen_faults_are_listed_and_nothing_is_unknown() -> None:
    assert len({rule for rule, _ in _listed()} - {"departure-not-from-law", "floor-level-enough"}) == 15
    assert not [o for o in _judged("weavers-row").outcomes if o.result is Result.NOT_KNOWN]


def test_the_faulty_plan_is_not_ready() -> None:
    assert not ready(_judged("weavers-row"))


def test_the_ready_plan_is_ready_with_nothing_wrong_or_unknown() -> None:
    judged = _judged("tern-cottage")
    assert ready(judged)
    assert {o.result for o in judged.outcomes} <= {Result.MET, Result.AGREED}


@pytest.mark.parametrize("thickness", [4, 14, 22])
def test_one_line_about_the_floor_moves_every_height_that_rests_on_it(tmp_path: Path, thickness: int) -> None:
    plan = (DEMOS / "weavers-row" / "plan.yaml").read_text("utf-8")
    changed = tmp_path / "plan.yaml"
    changed.write_text(plan.replace("laminate: {thickness: 12,", f"laminate: {{thickness: {thickness},"), "utf-8")
    by = 12 - thickness
    assert _heights(inspect(str(changed), (), DAY)) == {
        name: height + by for name, height in _heights(_judged("weavers-row")).items()
    }


def _heights(judged: Judgement) -> dict[str, float]:
    """Worktops, points and machines above the finished floor, and the hood above its hob turned round."""
    site = judged.site
    heights = {row.subject.name: row.height for row in site.rows("worktop on a run").rows}  # type: ignore[attr-defined]
    heights |= {f"{row.subject.name} point": row.above_floor for row in site.rows("point on a wall").rows}  # type: ignore[attr-defined]
    heights |= {f"{row.subject.name} opening": row.opening_after for row in site.rows("appliance under a worktop").rows}  # type: ignore[attr-defined]
    heights |= {f"{row.subject.name} hood": -row.clearance for row in site.rows("hob under hood").rows}  # type: ignore[attr-defined]
    return heights


def test_the_readme_shows_a_point_of_the_faulty_plan_as_it_is_printed() -> None:
    readme = (DEMOS.parent / "README.md").read_text("utf-8")
    shown = readme.split("```text\n")[1].split("```")[0]
    assert shown in report(_judged("weavers-row"), DAY, Style())
