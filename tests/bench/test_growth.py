"""Ten times the lines may not cost much more than ten times the work, in any part of a check.

Work is counted in calls of functions, which is the same on every machine and on every run; a wait for another program
does not count.
"""

from __future__ import annotations

import cProfile

import pytest

from tests.bench.phases import PHASES, Phases
from tests.bench.plans import plan

FEW, MANY = 1_000, 10_000
MOST = 1.6
"""How much worse than in step with the lines the work may grow."""


@pytest.fixture(scope="module")
def sizes(tmp_path_factory: pytest.TempPathFactory) -> tuple[Phases, Phases]:
    folder = tmp_path_factory.mktemp("plans")
    return Phases(FEW, folder), Phases(MANY, folder)


def _calls(phases: Phases, phase: str) -> int:
    part = phases.prepared(phase)
    profile = cProfile.Profile()
    profile.runcall(part)
    return sum(entry.callcount for entry in profile.getstats())


def test_the_plans_have_the_lines_they_are_said_to_have() -> None:
    for lines in (150, FEW, MANY, 50_000):
        text = plan(lines)
        assert lines <= text.count("\n") < lines + 110
        assert len(text) < 5_000_000


@pytest.mark.parametrize("phase", PHASES)
def test_work_grows_in_step_with_the_lines(phase: str, sizes: tuple[Phases, Phases]) -> None:
    few, many = (_calls(phases, phase) for phases in sizes)
    longer = plan(MANY).count("\n") / plan(FEW).count("\n")
    assert few > 1_000
    assert many / few < MOST * longer
