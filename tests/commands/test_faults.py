"""A fault of the program is loud: status 2, words on standard error, and nothing that could be taken for a report."""

from __future__ import annotations

import itertools
from collections.abc import Callable

import pytest

from tests.commands.conftest import Here, Write
from tests.commands.running import ON, PUMP_HOUSE
from validator.measures.services import wastes
from validator.measures.services.wastes import Drop

FORMS = ["text", "json", "sarif", "junit", "markdown"]
FAULTS = [
    ValueError("math domain error"),
    KeyError("bore"),
    AttributeError("'NoneType' object has no attribute 'low'"),
    AssertionError(),
    RecursionError("maximum recursion depth exceeded"),
    MemoryError(),
    RuntimeError("two\nlines"),
    OverflowError("int too large"),
    UnicodeError("\x1b[31m"),
]


def fail_with(fault: Exception, monkeypatch: pytest.MonkeyPatch) -> None:
    """The measure of wastes raises this."""

    def measure(site: object) -> None:
        raise fault

    monkeypatch.setattr(wastes, "wastes", measure)


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: type(fault).__name__)
@pytest.mark.parametrize("form", ["text", "json"])
def test_a_measure_that_fails_is_no_report(
    here: Here, write: Write, monkeypatch: pytest.MonkeyPatch, fault: Exception, form: str
) -> None:
    write("plan.yaml", PUMP_HOUSE)
    fail_with(fault, monkeypatch)
    ran = here("check", "plan.yaml", "--on", ON, "--form", form)
    assert (ran.status, ran.out) == (2, "")
    assert ran.err.startswith(f"Dryfit itself has failed, so nothing was judged: {type(fault).__name__}")
    assert "test_faults.py, line" in ran.err
    assert "Traceback" not in ran.err
    assert "\x1b" not in ran.err


@pytest.mark.parametrize("form", FORMS)
def test_the_same_plan_is_ready_where_nothing_fails(here: Here, write: Write, form: str) -> None:
    ran = here("check", write("plan.yaml", PUMP_HOUSE), "--on", ON, "--form", form)
    assert ran.status == 0
    assert ran.out


@pytest.mark.parametrize("form", FORMS)
def test_no_form_has_a_report_without_it(here: Here, write: Write, monkeypatch: pytest.MonkeyPatch, form: str) -> None:
    write("plan.yaml", PUMP_HOUSE)
    fail_with(ValueError("no"), monkeypatch)
    ran = here("check", "plan.yaml", "plan.yaml", "--on", ON, "--form", form)
    assert (ran.status, ran.out) == (2, "")


@pytest.mark.parametrize("words", [("show", "dishwasher"), ("ready", "drilling"), ("measure",)])
def test_other_commands_are_as_loud(
    here: Here, write: Write, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...]
) -> None:
    write("plan.yaml", PUMP_HOUSE)
    fail_with(ZeroDivisionError("float division by zero"), monkeypatch)
    ran = here(*words, "plan.yaml", "--on", ON)
    assert (ran.status, ran.out) == (2, "")
    assert "Dryfit itself has failed" in ran.err


DROP = PUMP_HOUSE.replace("40 mm to stack 1500 at 25 mm/m", "{pipe: 40 mm, to: stack, length: 1500, drop: 15}")
"""The fall of the waste is worked out from its drop: 10 mm/m, which is too little."""


def replace_fall(fall: Callable[[object], float], monkeypatch: pytest.MonkeyPatch) -> None:
    """Works the fall out in another way."""
    monkeypatch.setattr(Drop.figures["fall"], "function", fall)


def test_a_figure_that_fails_is_as_loud_as_a_measure(here: Here, write: Write, monkeypatch: pytest.MonkeyPatch) -> None:
    def fall(row: object) -> float:
        raise IndexError("tuple index out of range")

    write("plan.yaml", DROP)
    replace_fall(fall, monkeypatch)
    ran = here("check", "plan.yaml", "--on", ON)
    assert (ran.status, ran.out) == (2, "")
    assert "IndexError" in ran.err


def test_a_working_that_comes_to_another_figure_than_was_judged_is_a_fault(
    here: Here, write: Write, monkeypatch: pytest.MonkeyPatch
) -> None:
    write("plan.yaml", DROP)
    assert here("check", "plan.yaml", "--on", ON).status == 1
    figures = itertools.count(1)
    replace_fall(lambda row: next(figures) / 1000, monkeypatch)
    ran = here("check", "plan.yaml", "--on", ON)
    assert (ran.status, ran.out) == (2, "")
    assert "MeasureFault" in ran.err
