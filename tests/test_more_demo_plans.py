"""The other demo plans come out as their READMEs say: in inches, under a slope, with a firm's own rulebook, in TOML."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

from validator.commands.inspecting import inspect
from validator.judging.apply import Judgement
from validator.judging.outcomes import Result
from validator.judging.ready import ready

DEMOS = Path(__file__).parent.parent / "plans_demo"


def _judged(plan: str, on: str, *books: str) -> Judgement:
    return inspect(str(DEMOS / plan), books, date.fromisoformat(on))


def _wrong(judged: Judgement) -> set[tuple[str, str]]:
    """What is not met and counts against the plan, by rule and thing."""
    serious = [o for o in judged.outcomes if o.rule.severity in ("stop", "put right")]
    return {(o.rule.name, o.subject.name) for o in serious if o.result is Result.NOT_MET}


def _unknown(judged: Judgement) -> set[tuple[str, str]]:
    return {(o.rule.name, o.subject.name) for o in judged.outcomes if o.result is Result.NOT_KNOWN}


def test_the_plan_in_inches_has_its_three_open_points_and_no_more() -> None:
    judged = _judged("cedar-street", "2027-02-20")
    assert _wrong(judged) == {("deposit-small", "cabinet maker")}
    assert _unknown(judged) == {("asbestos-known", "old flooring"), ("ways-for-new-circuits", "new circuits")}
    assert not ready(judged)


def test_under_the_slope_nobody_can_stand_at_the_sink() -> None:
    judged = _judged("rowan-garret/plan.yaml", "2027-08-10")
    assert (_wrong(judged), _unknown(judged)) == ({("headroom-where-one-stands", "sink")}, set())


def test_further_from_the_low_wall_the_plan_is_ready(tmp_path: Path) -> None:
    plan = (DEMOS / "rowan-garret" / "plan.yaml").read_text("utf-8")
    assert "F1: {is: gap, width: 400}" in plan
    moved = tmp_path / "plan.yaml"
    moved.write_text(plan.replace("F1: {is: gap, width: 400}", "F1: {is: gap, width: 1000}"), "utf-8")
    assert ready(inspect(str(moved), (), date(2027, 8, 10)))


def test_a_folder_is_read_without_the_rulebook_in_it() -> None:
    judged = _judged("tallow-lane", "2027-04-20")
    assert (_wrong(judged), _unknown(judged)) == (set(), set())
    assert ready(judged)


def test_the_rules_of_the_firm_count_where_they_are_named() -> None:
    judged = _judged("tallow-lane", "2027-04-20", str(DEMOS / "tallow-lane" / "rules"))
    assert _wrong(judged) == {("there-before-it-is-needed", "units"), ("wall-units-held-deep", "rail")}
    assert not ready(judged)


def test_the_plan_in_toml_is_ready() -> None:
    judged = _judged("heron-steps", "2027-04-01")
    assert ready(judged)
    assert (_wrong(judged), _unknown(judged)) == (set(), set())


def test_the_flat_with_three_kinds_of_wall_is_ready() -> None:
    judged = _judged("osier-stair", "2027-03-15")
    assert ready(judged)
    assert (_wrong(judged), _unknown(judged)) == (set(), set())


def test_units_of_that_flat_hang_by_what_was_found_in_its_walls() -> None:
    """The plan draws up to 25 of dabs, and 24 of lime plaster; the holes met 18 of dabs, and up to 27 of plaster."""
    rows = _judged("osier-stair", "2027-03-15").site.rows("fixing in a wall").rows
    found = {row.subject.name: [part.high for part in row.known["coverings"].parts] for row in rows}
    assert (found["block rail"], found["brick rail"]) == ([3, 12.5, 18], [27])


def test_the_plan_whose_units_would_fall_has_exactly_the_faults_its_readme_lists() -> None:
    wrong, unknown = (DEMOS / "lapwing-yard" / "README.md").read_text("utf-8").split("*not known*")
    judged = _judged("lapwing-yard", "2027-04-20")
    assert {(o.rule.name, o.subject.name) for o in judged.outcomes if o.result is Result.NOT_MET} == _listed(wrong)
    assert _unknown(judged) == _listed(unknown)
    assert not ready(judged)


def test_the_galley_whose_doors_clash_has_exactly_the_faults_its_readme_lists() -> None:
    judged = _judged("finch-court", "2027-06-15")
    listed = _listed((DEMOS / "finch-court" / "README.md").read_text("utf-8"))
    assert {(o.rule.name, o.subject.name) for o in judged.outcomes if o.result is Result.NOT_MET} == listed
    assert _unknown(judged) == set()


def _listed(table: str) -> set[tuple[str, str]]:
    found = set()
    for line in table.splitlines():
        row = re.match(r"^\| *\d* *\| `(?P<rule>[^`]+)` \| (?P<things>[^|]+) \|", line)
        if row is not None:
            found |= {(row["rule"], thing.strip()) for thing in row["things"].split(";")}
    return found
