"""What is glued."""

from __future__ import annotations

from tests.measures.plans import row, rows, to_find
from validator.plan.dimensions import DAY


def glued(said: str, more: str = "") -> object:
    return row(f"adhesives: {{grab: {{{said}}}}}\n{more}", "glued thing")


def test_each_thing_that_is_glued_is_judged_by_itself() -> None:
    found = rows("adhesives: {grab: {for: upstand and splashback, on: plaster}}", "glued thing")
    assert [each.thing for each in found] == ["upstand", "splashback"]


def test_time_in_the_cold_is_worth_half() -> None:
    assert glued("for: upstand, left: 4 days").worth_in_the_warm == 2 * DAY  # type: ignore[attr-defined]


def test_what_is_not_said_is_asked_with_the_adhesive() -> None:
    assert to_find(glued("for: upstand"), "on") == {"/adhesives/grab/on"}  # type: ignore[arg-type]


def test_the_wait_of_a_task_with_the_name_of_what_is_glued_counts() -> None:
    work = "work: {order: usual, splashback: {dries: 2 days}}"
    assert glued("for: splashback", work).left_to_cure == 2 * DAY  # type: ignore[attr-defined]
    assert glued("for: splashback, left: 3 days", work).left_to_cure == 3 * DAY  # type: ignore[attr-defined]


def test_a_plan_without_adhesives_has_nothing_glued() -> None:
    assert rows("", "glued thing") == []
