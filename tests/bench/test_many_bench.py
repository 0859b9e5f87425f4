"""Many plans against reading them alone, and one value set in a long plan.

Run with --benchmark-only.
"""

from __future__ import annotations

import os
import subprocess
import sys
from concurrent.futures import ProcessPoolExecutor
from datetime import date
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.bench.plans import plan
from validator import check
from validator.plan.files import read_plan

ROOT = Path(__file__).parent.parent.parent
DEMO = ROOT / "plans_demo" / "tern-cottage"
DRYFIT = "from validator.commands.main import run; run()"


def _python(program: str, *words: str, cache: Path) -> None:
    environment = {**os.environ, "XDG_CACHE_HOME": str(cache), "PYTHONPATH": str(ROOT)}
    subprocess.run([sys.executable, "-c", program, *words], cwd=ROOT, env=environment, capture_output=True, check=False)


@pytest.fixture
def long_plan(tmp_path: Path) -> Path:
    file = tmp_path / "plan.yaml"
    file.write_text(plan(5_000), "utf-8")
    return file


def test_setting_a_value_of_5000_lines(benchmark: BenchmarkFixture, tmp_path: Path, long_plan: Path) -> None:
    words = ("set", str(long_plan), "/ceiling", "[2424, 2420, 2422]", "--only-show")
    benchmark.pedantic(_python, (DRYFIT, *words), {"cache": tmp_path}, rounds=3, warmup_rounds=1)  # type: ignore[no-untyped-call]


MANY = [str(DEMO)] * 1_000


def test_reading_1000_plans_alone(benchmark: BenchmarkFixture) -> None:
    benchmark.pedantic(lambda: [read_plan([path], bytes) for path in MANY], rounds=1)  # type: ignore[no-untyped-call]


def test_judging_1000_plans_in_two_processes(benchmark: BenchmarkFixture) -> None:
    def judge_all() -> None:
        with ProcessPoolExecutor(2) as processes:
            assert {one.status for one in check(MANY, on=date(2026, 11, 25), executor=processes)} == {0}

    benchmark.pedantic(judge_all, rounds=1)  # type: ignore[no-untyped-call]
