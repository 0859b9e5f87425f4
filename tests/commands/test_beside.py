"""Work in a second process: its result, or the work done here where there is none."""

from __future__ import annotations

import os

import pytest

from validator.commands.beside import beside


def test_the_text_comes_from_another_process() -> None:
    other = beside(lambda: f"{os.getpid()}, ½ and\nlines\n")()
    assert other != f"{os.getpid()}, ½ and\nlines\n"
    assert other.endswith(", ½ and\nlines\n")


def test_a_text_larger_than_a_pipe_holds_comes_whole() -> None:
    assert beside(lambda: "x" * 1_000_000)() == "x" * 1_000_000


def test_where_the_other_process_comes_to_grief_the_work_is_done_here() -> None:
    here = os.getpid()

    def work() -> str:
        if os.getpid() != here:
            raise MemoryError
        return "done here"

    assert beside(work)() == "done here"


def test_an_error_of_the_work_is_raised_here() -> None:
    def work() -> str:
        raise ValueError("the plan has gone")

    with pytest.raises(ValueError, match="the plan has gone"):
        beside(work)()


def test_where_there_can_be_no_other_process_the_work_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delattr(os, "fork")
    here = os.getpid()
    assert beside(lambda: str(os.getpid()))() == str(here)
