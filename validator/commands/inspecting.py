"""What the commands share: reading a plan with its books, the terminal, and saying why something cannot be read."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from validator.judging.apply import Judgement, judge
from validator.judging.book_cache import read_or_recall
from validator.judging.books import Books, books_for
from validator.judging.rules import Rule
from validator.measures.site import Site
from validator.plan.files import LARGEST, decoded, read_plan
from validator.plan.load import load
from validator.plan.merging import Merged
from validator.plan.plan import Plan
from validator.plan.problems import Place, Unreadable
from validator.reference.folder import rules_folder
from validator.reference.library import Library, read_library
from validator.reporting.problems import explain
from validator.reporting.style import Style

if TYPE_CHECKING:
    from validator.reference.measuring import Ways


def library() -> Library:
    return read_library(rules_folder())


def _ways() -> Ways:
    from validator.reference.measuring import read_ways

    return read_ways(rules_folder())


class UnreadableBooks(Unreadable):
    """It is not the plan that cannot be read but a rulebook that was to judge it."""


class Inspector:
    """Judges plans one after the other on a day (today if none is given), by books that are read once a country.

    `passing` books lie where nobody looks for them again; what is read of them is not kept for the next run.
    """

    def __init__(self, books: Sequence[str], on: date | None, *, passing: bool = False) -> None:
        self.on = on or date.today()
        self._given = books
        self._caches = None if passing else caches()
        self._shelves: dict[str, tuple[Library, Books]] = {}

    def site(self, files: Merged) -> Site:
        """A plan before it is judged; raises Unreadable."""
        plan = load(files)
        return Site(plan, self._shelf(plan)[0], self.on, _ways)

    def inspect(self, files: Merged, only: Callable[[Rule], bool] | None = None) -> Judgement:
        """Judge the plan that these files make, by all rules or `only` by some; raises Unreadable."""
        return self.judge(load(files), only)

    def judge(self, plan: Plan, only: Callable[[Rule], bool] | None = None) -> Judgement:
        """Judge a plan that is read, by all rules or `only` by some; raises Unreadable.

        Where the plan departs from rules, all of them count: whether it may is seen from what they say.
        """
        shelf, applied = self._shelf(plan)
        books = books_for(plan, shelf, applied)
        if only is not None and not plan.agreed:
            books = replace(books, rules=tuple(filter(only, books.rules)))
        return judge(plan, shelf, books, self.on, _ways)

    def _shelf(self, plan: Plan) -> tuple[Library, Books]:
        country = plan.project.country or ""
        if country not in self._shelves:
            try:
                self._shelves[country] = read_or_recall(rules_folder(), country, self._given, self._caches)
            except Unreadable as unreadable:
                raise UnreadableBooks(unreadable.problems) from None
        return self._shelves[country]


def inspect(path: str, books: Sequence[str], on: date | None) -> Judgement:
    """Read a plan and judge it on a day (today if none is given); raises Unreadable."""
    return Inspector(books, on).inspect(read_plan([path], _standard_input))


def unjudged(path: str, on: date | None) -> Site:
    """Read a plan for what is worked out of it, without judging any of it; raises Unreadable."""
    return Inspector((), on).site(read_plan([path], _standard_input))


def site(path: str, books: Sequence[str], on: date | None) -> tuple[Site, Books]:
    judged = inspect(path, books, on)
    return judged.site, judged.books


def caches() -> Path | None:
    """The folder for what may be thrown away: `$XDG_CACHE_HOME/dryfit`, else `~/.cache/dryfit`; None without a home."""
    wanted = os.environ.get("XDG_CACHE_HOME", "")
    if os.path.isabs(wanted):
        return Path(wanted, "dryfit")
    home = os.path.expanduser("~")
    return Path(home, ".cache", "dryfit") if os.path.isabs(home) else None


def style() -> Style:
    """Colour only on a terminal that wants it."""
    wanted = sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    return Style(plain=not wanted)


def explained(unreadable: Unreadable, what: str = "plan") -> str:
    """All that has to be mended, in words, with the lines as they stand in the files."""
    texts: dict[str, list[str]] = {}

    def line_of(place: Place) -> str | None:
        lines = texts.setdefault(place.file, _lines(place.file)) if place.line else []
        return lines[place.line - 1] if 0 < place.line <= len(lines) else None

    return explain(unreadable, line_of, "rulebook" if isinstance(unreadable, UnreadableBooks) else what)


def say_unreadable(unreadable: Unreadable, what: str = "plan") -> None:
    """Print to standard error all that has to be mended."""
    sys.stderr.write(explained(unreadable, what))


def _standard_input() -> bytes:
    return sys.stdin.buffer.read()


def _lines(file: str) -> list[str]:
    """The lines of a file as they stand there; none for standard input, and where they cannot be had."""
    if not os.path.isfile(file):
        return []
    try:
        with open(file, "rb") as opened:
            content = opened.read(LARGEST)
    except OSError:
        return []
    return decoded(content).replace("\r\n", "\n").replace("\r", "\n").split("\n")
