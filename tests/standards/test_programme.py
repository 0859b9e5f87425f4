"""Dates of tasks against published networks and against a library for graphs."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta

import networkx as nx
import pytest

from tests.standards.by_hand import DAY, library, met, plan, row
from validator.measures.job.programme import TaskAfterWait
from validator.measures.job.schedule import schedule
from validator.measures.rows import Known
from validator.measures.site import Site
from validator.plan.names import fold

SECONDS_A_DAY = 86400.0
START = date(2026, 6, 1)
Network = Mapping[str, tuple[int, str]]
"""Tasks with how long each takes and what it follows."""

SEVEN: Network = {
    "A": (1, ""),
    "B": (3, "A"),
    "C": (2, "A"),
    "D": (3, "B"),
    "E": (3, "C"),
    "F": (2, "D E"),
    "G": (2, "F"),
}
SEVEN_STARTS = {"A": 0, "B": 1, "C": 1, "D": 4, "E": 3, "F": 7, "G": 9}
"""Revision page on critical path analysis, 11 weeks, its links read off its dates: secondary."""

ELEVEN: Network = {
    "A": (4, ""),
    "B": (6, "A"),
    "C": (3, "A"),
    "D": (6, "B"),
    "E": (14, "D"),
    "F": (5, "C"),
    "G": (2, "E F"),
    "H": (2, "G"),
    "I": (3, "G"),
    "J": (4, "H I"),
    "K": (2, "J"),
}
ELEVEN_STARTS = {"A": 0, "B": 4, "C": 4, "D": 10, "E": 16, "F": 7, "G": 30, "H": 32, "I": 32, "J": 35, "K": 39}
"""Lecture slides with a textbook network, 41 weeks, all dates printed: secondary."""

PROTOTYPE: Network = {
    "A": (6, ""),
    "B": (2, "A"),
    "C": (2, "A"),
    "D": (3, "B"),
    "F": (2, "C"),
    "E": (4, "D F"),
    "G": (1, "E"),
}
PROTOTYPE_STARTS = {"A": 0, "B": 6, "C": 6, "D": 8, "F": 8, "E": 11, "G": 15}
"""Course handout, example 1, 16 units of time, all dates printed: primary."""

BUILDING: Network = {
    "A": (2, ""),
    "B": (4, "A"),
    "C": (10, "B"),
    "D": (6, "C"),
    "E": (4, "C"),
    "F": (5, "E"),
    "G": (7, "D"),
    "H": (9, "E G"),
    "I": (7, "C"),
    "J": (8, "F I"),
    "K": (4, "J"),
    "L": (5, "J"),
    "M": (2, "H"),
    "N": (6, "K L"),
}
BUILDING_STARTS = {
    "A": 0,
    "B": 2,
    "C": 6,
    "D": 16,
    "E": 16,
    "F": 20,
    "G": 22,
    "H": 29,
    "I": 16,
    "J": 25,
    "K": 33,
    "L": 33,
    "M": 38,
    "N": 38,
}
"""Hillier and Lieberman, Introduction to Operations Research, the building contractor's network, 44 weeks: memory."""

NETWORKS = {
    "seven tasks in 11 weeks": (SEVEN, SEVEN_STARTS, 11),
    "eleven tasks in 41 weeks": (ELEVEN, ELEVEN_STARTS, 41),
    "seven tasks in 16": (PROTOTYPE, PROTOTYPE_STARTS, 16),
    "a building in 44 weeks": (BUILDING, BUILDING_STARTS, 44),
}


def site(work: Mapping[str, object], starts: date = START) -> Site:
    said = {"dryfit": "1", "project": {"country": "GB", "starts": starts.isoformat()}, "work": work}
    return Site(plan(said), library(), DAY)


def first_days(of: Site) -> dict[str, date]:
    found = {}
    for scheduled in schedule(of).values():
        assert isinstance(scheduled.start, Known)
        found[scheduled.name] = date.fromordinal(round(scheduled.start.value / SECONDS_A_DAY))
    return found


def as_work(network: Network) -> dict[str, object]:
    """The network as work of a plan: its first task is the strip-out, which is where the usual order begins."""
    work: dict[str, object] = {"order": "usual", "days": "every day"}
    for name, (weeks, after) in network.items():
        follows = {"after": [_called(other) for other in after.split()]} if after else {}
        work[_called(name)] = {"takes": f"{weeks} weeks", **follows}
    return work


def _called(name: str) -> str:
    return "strip out" if name == "A" else f"task {name}"


@pytest.mark.parametrize("name", NETWORKS)
def test_first_days_agree_with_the_printed_ones(name: str) -> None:
    """Each network as cited beside it; one of its units is a week of seven days here."""
    network, starts, _ = NETWORKS[name]
    expected = {_called(task): START + timedelta(weeks=weeks) for task, weeks in starts.items()}
    assert first_days(site(as_work(network))) == expected


@pytest.mark.parametrize("name", NETWORKS)
def test_first_days_agree_with_the_longest_paths_of_a_graph(name: str) -> None:
    """networkx, dag_longest_path_length, on the same tasks: a library that knows nothing of kitchens."""
    network, _, total = NETWORKS[name]
    found = first_days(site(as_work(network)))
    for task in network:
        assert found[_called(task)] == START + timedelta(weeks=_longest_before(network, task))
    assert _longest_before(network, "") == total


def _longest_before(network: Network, task: str) -> int:
    """The longest way, in units of time, from the start of the work to a task (to the end of all for '')."""
    graph = nx.DiGraph()
    for name, (_, after) in network.items():
        graph.add_node(name)
        graph.add_weighted_edges_from((other, name, network[other][0]) for other in after.split())
    graph.add_weighted_edges_from((name, "", takes) for name, (takes, _) in network.items())
    wanted = nx.ancestors(graph, task) | {task}
    return int(nx.dag_longest_path_length(graph.subgraph(wanted)))


def test_the_usual_order_has_no_circle_and_reaches_the_hand_over_from_everywhere() -> None:
    """networkx on the order that comes with the rules: nothing follows itself, and everything leads to the end."""
    order = library().order
    assert order is not None
    graph = nx.DiGraph((fold(after), name) for name, task in order.tasks.items() for after in task.after)
    assert nx.is_directed_acyclic_graph(graph)
    assert nx.ancestors(graph, "hand over") == set(order.tasks) - {"hand over"}


AFTER_PLASTER = [("every day", date(2025, 6, 14)), ("monday to friday", date(2025, 6, 16))]


@pytest.mark.parametrize(("days", "paint"), AFTER_PLASTER)
def test_drying_goes_on_over_the_weekend(days: str, paint: date) -> None:
    """Plaster finished on Friday 6 June 2025 and drying for 7 days: painting on Saturday the 14th, or on Monday the
    16th where nobody works at weekends. Waits run on calendar days: scheduling practice, memory.
    """
    work = {
        "order": "usual",
        "days": days,
        "plaster": {"takes": "1 day", "on": "2025-06-06", "dries": "7 days"},
        "paint": {"takes": "2 days"},
    }
    assert first_days(site(work))["paint"] == paint


@pytest.mark.parametrize(("paint", "dry"), [(date(2025, 6, 13), False), (date(2025, 6, 14), True)])
def test_the_wait_is_judged_as_it_is_planned(paint: date, dry: bool) -> None:
    """The same week judged by the rule: seven days are over on the morning of the 14th. Memory."""
    task = row(
        TaskAfterWait,
        starts=paint.toordinal() * SECONDS_A_DAY,
        ended=date(2025, 6, 6).toordinal() * SECONDS_A_DAY,
        last_day=SECONDS_A_DAY,
        wait=7 * SECONDS_A_DAY,
        dries="plaster",
        task_before="plaster",
    )
    assert met("GB", "plaster-dry-before-the-next-task", task) is dry
