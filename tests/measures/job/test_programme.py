"""Waits between tasks, and who works on gas.

A wait counts from the evening of the last day before, twelve hours after its morning, to the morning of the next task.
"""

from __future__ import annotations

from datetime import date, timedelta

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.measures.plans import gaps, known, left_out, row, rows, to_find, working
from validator.measures.rows import Why
from validator.plan.dimensions import DAY

WAIT = "task after a wait"
GAS = "gas work"

PROJECT = "project: {title: Heron Wharf, country: GB-ENG, lengths in: mm, starts: 2027-03-01}"
USUAL = "work:\n  order: usual\n  days: every day\n"


def test_a_task_fixed_before_plaster_is_dry_has_waited_too_short_a_time() -> None:
    work = USUAL + "  plaster: {takes: 2 days, dries: 12 days}\n  paint: {takes: 1 day, on: 2027-03-09}\n"
    paint = row(work, WAIT, PROJECT)
    assert (paint.subject.name, paint.task_before, paint.dries) == ("paint", "plaster", "plaster")
    assert (paint.waited, paint.wait) == (6.5 * DAY, 12 * DAY)


@pytest.mark.parametrize(("plastered", "days"), [("2027-03-05", 9.5), ("2027-03-02", 12.5), ("2027-03-01", 12.5)])
def test_plaster_counts_from_the_day_a_coating_names_if_that_is_later(plastered: str, days: float) -> None:
    """The calendar: the order of work has the plaster done on 2 March and paint on 15 March."""
    work = USUAL + "  plaster: {takes: 2 days, dries: 12 days}\n  paint: {takes: 1 day}\n"
    coating = f"coatings: {{new walls: {{on: new gypsum plaster, walls: all, plastered: {plastered}}}}}\n"
    assert row(work + coating, WAIT, PROJECT).waited == days * DAY


def test_a_task_that_the_programme_places_itself_has_always_waited_long_enough() -> None:
    work = USUAL + "  plaster: {takes: 2 days, dries: 12 days}\n  paint: {takes: 1 day}\n"
    paint = row(work, WAIT, PROJECT)
    assert (paint.waited, paint.wait) == (12.5 * DAY, 12 * DAY)


def test_plaster_is_waited_for_however_many_tasks_stand_between() -> None:
    work = """
work:
  order: as written
  days: every day
  plaster: {takes: 1 day, dries: 10 days}
  set out: {takes: 1 day}
  paint: {takes: 1 day, on: 2027-03-03}
"""
    found = rows(work, WAIT, PROJECT)
    assert [(entry.subject.name, entry.waited / DAY) for entry in found] == [("set out", 10.5), ("paint", 1.5)]


def test_a_task_that_starts_no_earlier_than_one_that_waited_needs_no_row_of_its_own() -> None:
    work = """
work:
  order: as written
  days: every day
  plaster: {takes: 1 day, dries: 10 days}
  set out: {takes: 1 day, on: 2027-03-05}
  hang doors: {takes: 1 day, on: 2027-03-05}
"""
    assert [entry.subject.name for entry in rows(work, WAIT, PROJECT)] == ["set out"]


def test_of_several_things_that_dry_the_pair_that_leaves_least_counts() -> None:
    work = USUAL + "\n".join(
        (
            "  tile: {takes: 1 day, dries: 2 days, on: 2027-03-10}",
            "  splashback: {takes: 1 day, dries: 4 days, on: 2027-03-09}",
            "  seal: {takes: 1 day, on: 2027-03-13}\n",
        )
    )
    seal = row(work, WAIT, PROJECT)
    assert (seal.task_before, seal.waited, seal.wait) == ("splashback", 3.5 * DAY, 4 * DAY)


def test_plaster_and_paint_are_judged_apart() -> None:
    work = USUAL + "\n".join(
        (
            "  plaster: {takes: 1 day, dries: 9 days}",
            "  paint: {takes: 1 day, on: 2027-03-04}",
            "  fit units: {takes: 1 day, on: 2027-03-04}\n",
        )
    )
    found = [(entry.subject.name, entry.dries, entry.waited / DAY) for entry in rows(work, WAIT, PROJECT)]
    assert found == [("paint", "plaster", 2.5), ("fit units", "paint", -0.5)]


def test_a_task_after_one_that_may_take_longer_is_judged_at_the_longest() -> None:
    work = USUAL + "  plaster: {takes: 1 to 4 days, dries: 7 days}\n  paint: {takes: 1 day, on: 2027-03-10}\n"
    assert row(work, WAIT, PROJECT).waited == 5.5 * DAY


def test_the_working_is_start_less_end_and_each_date_has_its_own() -> None:
    work = USUAL + "  plaster: {takes: 2 days, dries: 12 days}\n  paint: {takes: 1 day}\n"
    paint = row(work, WAIT, PROJECT)
    assert [label for _, label in working(paint, "waited")] == ["paint starts", "plaster ends", "work on its last day"]
    origin = known(paint, "ended").origin
    assert origin is not None
    assert [label for _, label in working(*origin)] == [
        "work starts",
        "to the next working day",
        "from its first day to its last",
    ]


def test_the_paints_maker_may_ask_for_a_longer_wait() -> None:
    work = USUAL + "  plaster: {takes: 2 days}\n  paint: {takes: 1 day}\n"
    stated = "stated: {wall paint: {read: tin, dry before: 4 weeks}}\ncoatings: {wall paint: {coats: [neat]}}\n"
    assert row(work + stated, WAIT, PROJECT).maker_wait == 28 * DAY
    assert [gap.why for gap in gaps(row(work, WAIT, PROJECT), "maker_wait")] == [Why.UNREAD]


def test_a_wait_that_is_to_find_out_is_no_wait_of_nothing() -> None:
    work = USUAL + "  plaster: {takes: 2 days, dries: to find out by plasterer}\n  paint: {on: 2027-04-01}\n"
    paint = row(work, WAIT, PROJECT)
    assert to_find(paint, "wait") == {"/work/plaster/dries"}
    assert paint.waited == 29.5 * DAY


def test_what_dries_under_a_name_of_ones_own_is_a_question() -> None:
    work = USUAL + "  strip out: {takes: 1 day}\n  lime wash: {takes: 1 day, dries: 3 days, after: strip out}\n"
    hang = row(work + "  shelves: {after: lime wash}\n", WAIT, PROJECT)
    (gap,) = gaps(hang, "dries")
    assert (gap.pointer, gap.why) == ("/work/lime wash/dries", Why.UNCLEAR)


def test_a_date_nobody_can_work_out_leaves_the_wait_open() -> None:
    work = USUAL + "  plaster: {dries: 12 days}\n  paint: {takes: 1 day, on: 2027-03-09}\n"
    assert to_find(row(work, WAIT, PROJECT), "waited") == {"/work/plaster/takes"}


def test_nothing_waits_where_nothing_dries() -> None:
    work = USUAL + "  strip out: {takes: 1 day}\n  board: {takes: 1 day}\n"
    assert rows(work, WAIT, PROJECT) == []


def test_plaster_and_paint_on_fixed_days_without_an_order_of_work_ask_for_it() -> None:
    work = "work: {days: every day, plaster: {on: 2027-03-01, takes: 3 days}, paint: {on: 2027-03-04, takes: 1 day}}\n"
    assert left_out(work, WAIT, PROJECT) == ["/work/order"]


def test_what_dries_under_a_name_of_ones_own_on_a_fixed_day_asks_what_it_follows() -> None:
    work = USUAL + "  skim: {on: 2027-03-01, takes: 1 day, dries: 14 days}\n  paint: {on: 2027-03-03, takes: 1 day}\n"
    assert left_out(work, WAIT, PROJECT) == ["/work/skim/after"]


def test_work_left_out_is_not_known() -> None:
    assert left_out("", WAIT, PROJECT) == ["/work"]
    assert left_out("", GAS, PROJECT) == ["/work"]


Tasks = list[tuple[int, int, int]]
"""For each task: the day it starts on, the days it takes, and the days it dries (0: nothing dries)."""


@given(
    st.lists(st.tuples(st.integers(0, 12), st.integers(1, 2), st.integers(0, 4)), min_size=3, max_size=8),
    st.data(),
)
@settings(max_examples=200, deadline=None)
def test_a_row_says_so_of_each_task_that_starts_before_what_it_follows_is_dry_or_of_an_earlier_one(
    tasks: Tasks, data: st.DataObject
) -> None:
    """Every pair of the network is tried here, by networkx's ancestors; the measure looks at each task once."""
    graph = networkx.DiGraph()
    lines = ["  strip out: {on: 2027-01-04, takes: 1 day}"]
    for number, (day, takes, dries) in enumerate(tasks):
        graph.add_node(number)
        earlier = data.draw(st.lists(st.integers(0, number - 1), min_size=1, max_size=2, unique=True)) if number else []
        graph.add_edges_from((other, number) for other in earlier)
        after = [f"part {other}" for other in earlier] or ["strip out"]
        on = date(2027, 3, 1) + timedelta(days=day)
        wait = f", dries: {dries} days" if dries else ""
        lines.append(f"  part {number}: {{on: {on}, takes: {takes} days, after: {after}{wait}}}")
    too_early = {
        late
        for late in graph
        for early in networkx.ancestors(graph, late)
        if tasks[early][2] and tasks[late][0] - (tasks[early][0] + tasks[early][1] - 1) - 0.5 < tasks[early][2]
    }
    found = rows(USUAL + "\n".join(lines) + "\n", WAIT, PROJECT)
    said = {int(entry.subject.name.split()[1]) for entry in found if entry.waited < entry.wait}
    assert said <= too_early
    for late in too_early:
        assert any(tasks[other][0] <= tasks[late][0] for other in said & {late, *networkx.ancestors(graph, late)})


def gas(task: str, people: str) -> str:
    return USUAL + f"  first fix gas: {task}\n" + (f"people: {people}\n" if people else "")


def test_gas_work_by_somebody_whose_registration_is_given() -> None:
    work = row(gas("{by: Ines}", "{Ines: {trade: gas engineer, register: '000000', looked up: 2027-02-20}}"), GAS)
    assert (work.registered, work.by) == (True, "Ines")
    assert work.looked_up > 0


def test_gas_work_by_the_householder_is_not_registered() -> None:
    assert row(gas("{by: householder}", ""), GAS).registered is False


@pytest.mark.parametrize(
    ("task", "people", "field", "pointer"),
    [
        ("{}", "", "registered", "/work/first fix gas/by"),
        ("{by: Ines}", "{Ines: {trade: gas engineer}}", "registered", "/people/Ines/register"),
        ("{by: Ines}", "{Ines: {trade: gas engineer, register: to find out}}", "registered", "/people/Ines/register"),
        ("{by: Ines}", "{Ines: {register: '000000'}}", "looked_up", "/people/Ines/looked up"),
    ],
)
def test_a_registration_that_is_not_given_is_to_find_out(task: str, people: str, field: str, pointer: str) -> None:
    assert to_find(row(gas(task, people), GAS), field) == {pointer}


def test_of_several_who_do_a_task_the_one_for_gas_counts() -> None:
    people = "{Ines: {trade: gas engineer, register: '000000'}, Pat: {trade: joiner}}"
    work = row(gas("{by: [Pat, Ines]}", people), GAS)
    assert (work.registered, work.by) == (True, "Ines")


def test_any_task_of_a_gas_engineer_is_gas_work() -> None:
    people = "people: {Ines: {trade: gas engineer, register: none}}\n"
    assert row(USUAL + "  move the meter: {by: Ines, on: 2027-03-04}\n" + people, GAS).registered is False


def test_a_gas_hob_that_no_task_connects_is_not_passed_over() -> None:
    plan = USUAL + "  paint: {takes: 1 day}\nappliances: {hob: {is: gas hob}}\n"
    assert to_find(row(plan, GAS), "registered") == {"/work"}


def test_a_kitchen_without_gas_has_no_gas_work() -> None:
    plan = USUAL + "  paint: {takes: 1 day}\nappliances: {hob: {is: induction hob}}\n"
    assert rows(plan, GAS) == []
    assert left_out(plan, GAS) == []
