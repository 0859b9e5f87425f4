"""Reading, validating, measuring, judging and reporting apart, on plans of four lengths. Run with --benchmark-only."""

from __future__ import annotations

from datetime import date

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.bench.plans import plan
from validator.judging.apply import Judgement, apply, judge
from validator.judging.books import Books, read_books
from validator.measures.catalogue import MEASURES
from validator.measures.site import Site
from validator.plan.files import read_plan
from validator.plan.load import load
from validator.plan.plan import Plan
from validator.reference.folder import rules_folder
from validator.reference.library import Library, read_library
from validator.reporting.style import Style
from validator.reporting.text import report

LENGTHS = (150, 1_000, 5_000, 50_000)
DAY = date(2026, 6, 1)


@pytest.fixture(params=LENGTHS, ids=lambda lines: f"{lines} lines")
def text(request: pytest.FixtureRequest) -> bytes:
    return plan(request.param).encode()


@pytest.fixture
def loaded(text: bytes) -> Plan:
    return load(read_plan(["-"], lambda: text))


@pytest.fixture
def library() -> Library:
    return read_library(rules_folder())


@pytest.fixture
def books(loaded: Plan, library: Library) -> Books:
    return read_books(rules_folder(), library, loaded)


@pytest.fixture
def judged(loaded: Plan, library: Library, books: Books) -> Judgement:
    return judge(loaded, library, books, DAY)


def test_reading(benchmark: BenchmarkFixture, text: bytes) -> None:
    benchmark(read_plan, ["-"], lambda: text)


def test_validating(benchmark: BenchmarkFixture, text: bytes) -> None:
    merged = read_plan(["-"], lambda: text)
    benchmark(load, merged)


def test_measuring(benchmark: BenchmarkFixture, loaded: Plan, library: Library) -> None:
    def measure() -> int:
        site = Site(loaded, library, DAY)
        return sum(len(site.rows(kind).rows) for kind, measure in MEASURES.items() if measure.measure)

    assert benchmark(measure) > 0


def test_judging_what_is_measured(benchmark: BenchmarkFixture, judged: Judgement) -> None:
    site = judged.site
    rows = [
        (rule, row) for rule in judged.books.rules if MEASURES[rule.each].measure for row in site.rows(rule.each).rows
    ]
    benchmark(lambda: [apply(rule, row, site) for rule, row in rows])


def test_reporting(benchmark: BenchmarkFixture, judged: Judgement) -> None:
    benchmark(report, judged, DAY, Style())
