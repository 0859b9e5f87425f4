"""What each part of a check costs on plans of 150 to 50,000 lines: reading, validating, measuring, judging, reporting.

The reference for judging is reading: a plan should not cost more to judge than to read and validate.
"""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from functools import cache

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.bench.phases import PHASES, Phases

ROUNDS = {150: 30, 1_000: 15, 5_000: 7, 50_000: 3}


@pytest.fixture(scope="module")
def phases_of(tmp_path_factory: pytest.TempPathFactory) -> Callable[[int], Phases]:
    folder = tmp_path_factory.mktemp("plans")
    return cache(lambda lines: Phases(lines, folder))


@pytest.fixture(autouse=True)
def _no_looking_for_garbage() -> Iterator[None]:
    """As in the command, which is over before there is garbage worth looking for."""
    gc.collect()
    gc.disable()
    yield
    gc.enable()


@pytest.mark.parametrize("phase", PHASES)
@pytest.mark.parametrize("lines", ROUNDS)
def test_a_part_of_a_check(
    lines: int, phase: str, phases_of: Callable[[int], Phases], benchmark: BenchmarkFixture
) -> None:
    phases = phases_of(lines)
    benchmark.group = f"{lines:,} lines"
    benchmark.extra_info["outcomes"] = phases.outcomes

    def run(part: Callable[[], object]) -> object:
        return part()

    rounds = ROUNDS[lines]
    found = benchmark.pedantic(run, setup=lambda: ((phases.prepared(phase),), {}), rounds=rounds)  # type: ignore[no-untyped-call]
    assert found
    assert phases.outcomes > lines // 2
