"""A whole check in a fresh process, beside a process that only loads the libraries it cannot do without.

The aim: the median of the check is less than 2.5 times that of the libraries.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.bench.cold import BASELINE, COMMAND, WORDS, run

ROUNDS = 20


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A home in which the command was run before: its modules are compiled, its books kept."""
    found = tmp_path_factory.mktemp("home")
    assert run(BASELINE, found).returncode == 0
    assert run(COMMAND, found, *WORDS).returncode < 2
    return found


@pytest.mark.parametrize("what", ["libraries", "check", "check without kept books"])
def test_a_cold_start(what: str, home: Path, benchmark: BenchmarkFixture) -> None:
    benchmark.group = "cold start"

    def forget() -> None:
        for file in (home / "caches").rglob("books-*"):
            if what == "check without kept books":
                file.unlink()

    def start() -> int:
        ran = run(BASELINE, home) if what == "libraries" else run(COMMAND, home, *WORDS)
        return ran.returncode

    status = benchmark.pedantic(start, setup=forget, rounds=ROUNDS)  # type: ignore[no-untyped-call]
    assert status < 2
