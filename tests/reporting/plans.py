"""Plans for tests of the report's forms: the demo plans, and one whose names are as awkward as names can be."""

from __future__ import annotations

import functools
import os
import subprocess
import sys
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

from validator.commands.inspecting import inspect
from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome
from validator.plan.problems import Unreadable
from validator.reporting.json_form import as_data

REPOSITORY = Path(__file__).parents[2]
DATA = Path(__file__).parent / "data"
AWKWARD = DATA / "awkward.yaml"
DAY = date(2027, 3, 1)
PLANS = {
    "weavers-row": REPOSITORY / "plans_demo" / "weavers-row",
    "tern-cottage": REPOSITORY / "plans_demo" / "tern-cottage",
    "awkward": AWKWARD,
}

WASTE = """\
dryfit: 1
heights from: bare floor
project: {title: Pump room, country: GB-ENG, lengths in: mm}
walls: none
runs: none
worktops: none
appliances:
  sink: {waste: 40 mm to stack 2600 at 12 mm/m}
points: none
circuits: none
fixings: none
coatings: none
floors: none
work: {order: usual, days: every day}
"""
"""A small plan with one thing wrong, in line 8: the fall of the waste. It needs 18 mm/m, and says 12."""


@functools.cache
def judged(plan: str) -> Judgement:
    """One of the plans, judged."""
    return inspect(str(PLANS[plan]), (), DAY)


def report_data(plan: str) -> dict[str, Any]:
    """The JSON form, which the other forms are held against."""
    return as_data(judged(plan), DAY)


def unreadable(plan: str | Path) -> Unreadable:
    """Why the plan at a path cannot be read."""
    try:
        inspect(str(plan), (), DAY)
    except Unreadable as found:
        return found
    raise AssertionError(f"{plan} can be read")


def many_times(judgement: Judgement, times: int) -> Judgement:
    """The judgement with every outcome so many times, each time of a rule with another name."""
    return judgement._replace(outcomes=tuple(_renamed(judgement.outcomes, times)))


def printed(form: str, plan: str, seed: int) -> bytes:
    """What a process of its own prints, with sets and dictionaries hashed by a seed."""
    words = ("check", str(PLANS[plan]), "--on", DAY.isoformat(), "--form", form)
    start = f"from validator.commands.main import run; import sys; sys.argv[1:] = {words!r}; run()"
    environment = {**os.environ, "PYTHONHASHSEED": str(seed)}
    run = subprocess.run([sys.executable, "-c", start], cwd=REPOSITORY, env=environment, capture_output=True)
    return run.stdout


def _renamed(outcomes: tuple[Outcome, ...], times: int) -> Iterator[Outcome]:
    for number in range(times):
        for outcome in outcomes:
            yield outcome._replace(rule=outcome.rule._replace(name=f"{outcome.rule.name}-{number}"))
