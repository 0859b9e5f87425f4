"""How an open value of a plan is found out, by its place: `rules/measuring.yaml`.

Read only where somebody asks for the list of what to measure; judging a plan does without.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Literal, get_args

from validator.plan.american import KEYS
from validator.plan.names import fold
from validator.plan.pointers import split
from validator.plan.problems import Problem, Unreadable
from validator.reference.entries import Entry, read_file
from validator.reference.folder import shown

FILE = "measuring.yaml"
ANY = "*"
MOST_READINGS = 5

At = Literal["wall", "room", "papers", "choice"]


@dataclass(frozen=True, slots=True)
class Way:
    """Where the answer is found, or which trade can say (`ask`); how; and how many readings to take."""

    at: At | None = None
    ask: str = ""
    how: str = ""
    readings: int = 1


@dataclass(frozen=True, slots=True)
class Ways:
    """The ways by place: the folded segments of a pointer from its start, `*` for any one of them."""

    by_place: dict[tuple[str, ...], Way]

    def of(self, pointer: str) -> Way:
        """The way of the most exact place that stands for the pointer; in papers where there is none."""
        segments = our_words(pointer)
        fitting = [place for place in self.by_place if _stands_for(place, segments)]
        if not fitting:
            return Way("papers")
        return self.by_place[max(fitting, key=lambda place: (len(place), -place.count(ANY)))]


def read_ways(folder: Path) -> Ways:
    """The ways in a folder of rules. Raises Unreadable with every mistake of the file."""
    problems: list[Problem] = []
    page = read_file(folder / FILE, shown(folder, folder / FILE), problems)
    found: dict[tuple[str, ...], Way] = {}
    for place, written in page.items("places of a plan") if page else ():
        way = _way(place, written)
        if way is not None:
            found[tuple(fold(segment) for segment in place.split(" / "))] = way
    if problems:
        raise Unreadable(problems)
    return Ways(found)


def our_words(pointer: str) -> tuple[str, ...]:
    """The segments of a pointer, folded, with our word for what an American plan calls otherwise.

    What is written of a room under `rooms` is found out as what stands at the top of a plan.
    """
    found = tuple(KEYS.get(fold(segment), fold(segment)) for segment in split(pointer))
    return found[2:] if found[:1] == ("rooms",) and len(found) > 2 else found


def _stands_for(place: tuple[str, ...], segments: tuple[str, ...]) -> bool:
    return len(place) <= len(segments) and all(
        wanted in (ANY, segment) for wanted, segment in zip(place, segments, strict=False)
    )


def _way(place: str, written: Entry) -> Way | None:
    fields = written.fields(f"the way to find out `{place}`", ("at", "ask", "how", "readings"), ())
    if fields is None:
        return None
    if ("at" in fields) == ("ask" in fields):
        written.mistake(f"`{place}` says where to look, or whom to ask", expected="either `at` or `ask`")
        return None
    at = fields["at"].choice("at", get_args(At)) if "at" in fields else None
    ask = fields["ask"].text("ask") if "ask" in fields else ""
    how = fields["how"].text("how") if "how" in fields else ""
    counts = [str(count) for count in range(1, MOST_READINGS + 1)]
    readings = fields["readings"].choice("readings", counts) if "readings" in fields else "1"
    return Way(at, ask or "", how or "", int(readings or 1))
