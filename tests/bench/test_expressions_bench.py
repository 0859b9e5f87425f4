"""What the language of rules costs: a condition evaluated, a stored one read back and built, a text read."""

from __future__ import annotations

from typing import Any

from pytest_benchmark.fixture import BenchmarkFixture

from tests.judging.language_rows import row, scope
from validator.judging.expressions import Expression, read_expression
from validator.measures.rows import YES_NO, Row

TEXT = "board in ('oak', 'ash') and length - depth >= 650 mm and not painted"
VALUES: dict[str, Any] = {"board": "oak", "length": "900 mm", "depth": "250 mm", "painted": False}


def test_evaluating_a_typical_condition(benchmark: BenchmarkFixture) -> None:
    expression, shelf = read_expression(TEXT, scope("shelf"), YES_NO), row("shelf", VALUES)
    assert benchmark(expression.evaluate, shelf) is True


def test_evaluating_a_condition_that_is_not_known_on_one_side(benchmark: BenchmarkFixture) -> None:
    expression, shelf = read_expression("load < 20 kg or board == 'oak'", scope("shelf")), row("shelf", VALUES)
    assert benchmark(expression.evaluate, shelf) is True


def test_reading_a_stored_condition(benchmark: BenchmarkFixture) -> None:
    stored = read_expression(TEXT, scope("shelf"), YES_NO).as_json()
    assert benchmark(Expression.from_json, stored).text == TEXT


def test_reading_a_stored_condition_and_evaluating_it_once(benchmark: BenchmarkFixture) -> None:
    stored, shelf = read_expression(TEXT, scope("shelf"), YES_NO).as_json(), row("shelf", VALUES)

    def first_use(shelf: Row) -> Any:
        return Expression.from_json(stored).evaluate(shelf)

    assert benchmark(first_use, shelf) is True


def test_reading_and_checking_a_text(benchmark: BenchmarkFixture) -> None:
    assert benchmark(read_expression, TEXT, scope("shelf"), YES_NO).type == YES_NO
