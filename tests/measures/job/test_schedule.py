"""Dates of the work, against walking through the days of Python's calendar and against longest paths by networkx."""

from __future__ import annotations

from datetime import date, timedelta

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.measures.plans import site
from validator.measures.job.schedule import Scheduled, schedule
from validator.measures.rows import Known, Missing
from validator.plan.dimensions import DAY

STARTS = "project: {{title: Heron Wharf, country: GB-ENG, lengths in: mm, starts: {}}}"


def scheduled(work: str, starts: str = "2027-03-01") -> dict[str, Scheduled]:
    """The tasks of a plan that has nothing but its order of work."""
    return schedule(site(f"work: {work}\n", STARTS.format(starts)))


def day(value: object) -> str:
    """A date that is certain, as people write it."""
    assert isinstance(value, Known)
    assert value.low == value.high
    return date.fromordinal(round(value.value / DAY)).isoformat()


def missing(value: object) -> set[str]:
    """The pointers of what has to be found out before there is a date."""
    gaps = value if isinstance(value, tuple) else (value,)
    assert all(isinstance(gap, Missing) for gap in gaps)
    return {gap.pointer for gap in gaps if isinstance(gap, Missing)}


def test_tasks_follow_one_another_on_working_days() -> None:
    """1 March 2027 is a Monday (ISO 8601, by Python's calendar)."""
    assert date(2027, 3, 1).isoweekday() == 1
    tasks = scheduled("{order: as written, days: monday to friday, strip out: {takes: 4 days}, board: {takes: 3 days}}")
    assert (day(tasks["strip out"].start), day(tasks["strip out"].end)) == ("2027-03-01", "2027-03-04")
    assert (day(tasks["board"].start), day(tasks["board"].end)) == ("2027-03-05", "2027-03-09")


def test_work_on_every_day_goes_on_at_weekends() -> None:
    tasks = scheduled("{order: as written, days: every day, strip out: {takes: 4 days}, board: {takes: 3 days}}")
    assert day(tasks["board"].end) == "2027-03-07"


def test_a_wait_counts_in_days_of_the_calendar_and_the_next_task_waits_for_a_working_day() -> None:
    tasks = scheduled(
        "{order: usual, days: monday to friday, plaster: {takes: 2 days, dries: 10 days}, paint: {takes: 1 day}}"
    )
    assert day(tasks["plaster"].end) == "2027-03-02"
    assert day(tasks["plaster"].free) == "2027-03-13"  # a Saturday
    assert day(tasks["paint"].start) == "2027-03-15"


def test_a_february_of_a_leap_year_has_its_day() -> None:
    """2028 is a leap year (Gregorian calendar)."""
    work = "{order: usual, days: every day, plaster: {takes: 1 day, dries: 9 days}, paint: {}}"
    assert day(scheduled(work, "2028-02-25")["paint"].start) == "2028-03-06"
    assert day(scheduled(work, "2027-02-25")["paint"].start) == "2027-03-07"


def test_a_fixed_date_holds_and_what_follows_counts_from_it() -> None:
    tasks = scheduled("{order: as written, days: every day, board: {takes: 2 days, on: 2027-04-10}, set out: {}}")
    assert (day(tasks["board"].start), day(tasks["set out"].start)) == ("2027-04-10", "2027-04-12")


def test_in_the_usual_order_a_task_follows_what_a_task_that_is_not_there_would_follow() -> None:
    tasks = scheduled("{order: usual, days: every day, strip out: {takes: 1 day}, plaster: {takes: 1 day}}")
    assert tasks["plaster"].follows == ("strip out",)


def test_what_is_written_first_need_not_come_first() -> None:
    tasks = scheduled("{order: usual, days: every day, paint: {takes: 1 day}, strip out: {takes: 2 days}}")
    assert list(tasks) == ["strip out", "paint"]
    assert day(tasks["paint"].start) == "2027-03-03"


def test_after_adds_to_the_usual_order() -> None:
    tasks = scheduled(
        "{order: usual, days: every day, strip out: {takes: 1 day}, survey damp: {takes: 6 days, after: [strip out]},"
        " board: {takes: 1 day, after: [survey damp]}}"
    )
    assert day(tasks["board"].start) == "2027-03-08"


def test_the_table_gives_the_wait_that_the_plan_does_not() -> None:
    """A week for plaster is common practice for a skim."""
    tasks = scheduled("{order: usual, days: every day, plaster: {takes: 1 day}, paint: {}}")
    assert day(tasks["paint"].start) == "2027-03-09"


@pytest.mark.parametrize(
    ("dries", "next_start"),
    [
        ("4 h", "2027-03-02"),
        ("12 h", "2027-03-02"),
        ("24 h", "2027-03-03"),
        ("1 day", "2027-03-03"),
        ("36 h", "2027-03-03"),
    ],
)
def test_a_wait_runs_from_the_evening_of_the_last_day_to_a_morning(dries: str, next_start: str) -> None:
    tasks = scheduled(f"{{order: usual, days: every day, paint: {{takes: 1 day, dries: {dries}}}, set out: {{}}}}")
    assert day(tasks["set out"].start) == next_start


def test_times_that_are_not_certain_give_an_earliest_and_a_latest_date() -> None:
    tasks = scheduled("{order: as written, days: every day, strip out: {takes: 2 to 5 days}, board: {}}")
    start = tasks["board"].start
    assert isinstance(start, Known)
    assert start.low is not None
    assert start.high is not None
    assert [date.fromordinal(round(end / DAY)).day for end in (start.low, start.high)] == [3, 6]


def test_a_wait_that_is_not_certain_is_waited_for_to_its_end() -> None:
    tasks = scheduled("{order: usual, days: every day, plaster: {takes: 1 day, dries: 9 to 12 days}, paint: {}}")
    assert day(tasks["paint"].start) == "2027-03-14"


@pytest.mark.parametrize(
    ("takes", "last"),
    [
        ("1 week", "2027-03-05"),
        ("2 weeks", "2027-03-12"),
        ("0.5 days", "2027-03-01"),
        ("6 h", "2027-03-01"),
        ("12 h", "2027-03-02"),
    ],
)
def test_weeks_hold_their_working_days_and_hours_fill_days_of_eight(takes: str, last: str) -> None:
    tasks = scheduled(f"{{order: usual, days: monday to friday, strip out: {{takes: {takes}}}}}")
    assert day(tasks["strip out"].end) == last


def test_without_working_days_only_what_no_weekend_touches_is_known() -> None:
    tasks = scheduled("{order: as written, strip out: {takes: 3 days}, board: {takes: 2 days}, plaster: {}}")
    assert day(tasks["strip out"].end) == "2027-03-03"
    assert day(tasks["board"].end) == "2027-03-05"
    assert missing(tasks["plaster"].start) == {"/work/days"}


@pytest.mark.parametrize(
    ("work", "pointer"),
    [
        ("{days: every day, strip out: {takes: 1 day}}", "/work/order"),
        ("{order: usual, days: every day, survey damp: {takes: 1 day}}", "/work/survey damp/after"),
    ],
)
def test_a_task_without_a_place_in_the_order_has_no_date(work: str, pointer: str) -> None:
    (task,) = scheduled(work).values()
    assert missing(task.start) == {pointer}


def test_tasks_that_follow_one_another_in_a_circle_have_no_dates() -> None:
    tasks = scheduled(
        "{order: usual, days: every day, sand: {takes: 1 day, after: [oil]}, oil: {takes: 1 day, after: [sand]},"
        " strip out: {takes: 1 day}}"
    )
    assert missing(tasks["sand"].start) == {"/work/sand/after"}
    assert day(tasks["strip out"].end) == "2027-03-01"


def test_what_a_task_takes_is_to_find_out_for_all_that_follow() -> None:
    tasks = scheduled("{order: as written, days: every day, strip out: {}, board: {takes: 1 day}, plaster: {}}")
    assert missing(tasks["plaster"].start) == {"/work/strip out/takes"}


def test_without_a_start_nothing_has_a_date_but_what_is_fixed() -> None:
    work = "{order: as written, days: every day, strip out: {takes: 1 day}, board: {takes: 1 day, on: 2027-05-03}}"
    tasks = schedule(site(f"work: {work}\n"))
    assert missing(tasks["strip out"].start) == {"/project/starts"}
    assert day(tasks["board"].end) == "2027-05-03"


def test_a_task_past_the_end_of_the_calendar_has_no_date() -> None:
    tasks = scheduled("{order: as written, days: every day, strip out: {takes: 9000000 days}}")
    assert missing(tasks["strip out"].end) == {"/work/strip out/takes"}


@given(
    start=st.dates(min_value=date(2023, 12, 1), max_value=date(2028, 12, 31)),
    days=st.integers(min_value=1, max_value=40),
)
@settings(max_examples=60, deadline=None)
def test_working_days_count_as_the_calendar_does(start: date, days: int) -> None:
    tasks = scheduled(f"{{order: usual, days: monday to friday, strip out: {{takes: {days} days}}}}", start.isoformat())
    at = start
    while at.isoweekday() > 5:
        at += timedelta(days=1)
    assert day(tasks["strip out"].start) == at.isoformat()
    left = days - 1
    while left:
        at += timedelta(days=1)
        left -= at.isoweekday() <= 5
    assert day(tasks["strip out"].end) == at.isoformat()


Network = list[tuple[int, int, list[int]]]
"""For each task: days it takes, days it dries, and which of those before it in the list it follows."""


@st.composite
def networks(draw: st.DrawFn) -> Network:
    found: Network = []
    for number in range(draw(st.integers(min_value=1, max_value=9))):
        takes = draw(st.integers(min_value=1, max_value=6))
        dries = draw(st.integers(min_value=0, max_value=9))
        follows = draw(st.lists(st.integers(0, number - 1), min_size=1, max_size=3, unique=True)) if number else []
        found.append((takes, dries, follows))
    return found


@given(networks())
@settings(max_examples=60, deadline=None)
def test_dates_are_those_of_the_longest_path_through_the_network(network: Network) -> None:
    """The judge is networkx: with negative lengths, the shortest path by Bellman and Ford is the longest one."""
    lines = []
    graph = networkx.DiGraph()
    for number, (takes, dries, follows) in enumerate(network):
        name = f"part {number}" if number else "strip out"
        after = [f"part {other}" if other else "strip out" for other in follows]
        graph.add_node(name)
        for other, before in zip(follows, after, strict=True):
            graph.add_edge(before, name, days=-(network[other][0] + network[other][1]))
        written = [f"takes: {takes} days"] + [f"dries: {dries} days"] * (dries > 0) + [f"after: {after}"] * bool(after)
        lines.append(f"  {name}: {{{', '.join(written)}}}")
    tasks = scheduled("\n  order: usual\n  days: every day\n" + "\n".join(reversed(lines)), "2028-01-03")
    longest = networkx.single_source_bellman_ford_path_length(graph, "strip out", weight="days")
    for name, days in longest.items():
        assert day(tasks[name].start) == (date(2028, 1, 3) - timedelta(days=days)).isoformat()
