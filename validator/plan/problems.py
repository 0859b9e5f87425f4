"""What makes a plan or a rulebook unreadable: collected, with places, and shown all at once."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple


class Place(NamedTuple):
    """Where something stands in a file: line and column count from 1; 0 means the whole file."""

    file: str
    line: int = 0
    column: int = 0


class Problem(NamedTuple):
    """One thing that cannot be read.

    `message` says what is wrong, `expected` what could stand there, `nearest` the valid name that was probably meant,
    `also` other places that belong to it (the first of two duplicate keys).
    """

    message: str
    place: Place
    expected: str = ""
    nearest: str = ""
    pointer: str = ""
    also: tuple[Place, ...] = ()


class Unreadable(Exception):
    """A plan, a rulebook or a request that cannot be read; carries every problem found."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = sorted(set(problems), key=lambda problem: (problem.place, problem.message))
        super().__init__("; ".join(problem.message for problem in self.problems))
