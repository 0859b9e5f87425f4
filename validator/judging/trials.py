"""The trials of rules: the plan a rule names, with one value set to each side of the limit, judged for real."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Any

from validator.judging.apply import judge
from validator.judging.book_cache import read_or_recall
from validator.judging.book_reading import Shelf, read_shelf
from validator.judging.books import Books, books_for
from validator.judging.outcomes import Outcome, Result
from validator.judging.rules import Rule, Trial
from validator.measures.departures import Departure
from validator.measures.site import Site
from validator.plan.files import SUFFIXES, documents_of, read_documents
from validator.plan.load import load
from validator.plan.merging import merge
from validator.plan.names import fold, nearest
from validator.plan.pointers import join, split
from validator.plan.problems import Problem, Unreadable
from validator.reference.countries import EVERYWHERE
from validator.reference.folder import files_of, shown
from validator.reference.library import Library, read_library

DAY = date(2026, 5, 1)
"""The day on which a trial is judged that names none, so that it comes out the same every day."""

MOST_THINGS = 4


@dataclass(frozen=True, slots=True)
class Tried:
    """One trial of one rule."""

    rule: Rule
    trial: Trial

    def __str__(self) -> str:
        return f"{self.rule.covers} {self.rule.name} {self.trial.met}"


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a trial: the value set, what it should come to, and the outcomes that there were.

    `problems` say why there are none; `site` is the plan with the value.
    """

    value: object
    claimed: Result
    outcomes: tuple[Outcome, ...] = ()
    site: Site | None = None
    problems: tuple[Problem, ...] = ()

    @property
    def worst(self) -> Outcome | None:
        """The outcome that decides: one that is not met or not known before the others, then the one with least to
        spare.
        """
        order = (Result.MET, Result.AGREED, Result.NOT_KNOWN, Result.NOT_MET)
        return max(self.outcomes, key=lambda outcome: (order.index(outcome.result), outcome.short), default=None)

    @property
    def as_claimed(self) -> bool:
        """Met: everything is met. Not met: something is not met, and nothing is not known."""
        found = {outcome.result for outcome in self.outcomes}
        if self.claimed is Result.MET:
            return found == {Result.MET}
        return Result.NOT_MET in found and Result.NOT_KNOWN not in found


@dataclass(frozen=True)
class Trials:
    """Tries the rules of a folder of rules, and of books laid over them (files or folders).

    `caches` is the folder in which books that were read are kept; None for none.
    """

    folder: Path
    given: Sequence[str | Path] = ()
    caches: Path | None = None
    _books: dict[str, Books] = field(default_factory=dict, init=False, compare=False)
    _fragments: dict[Path, dict[str, Any]] = field(default_factory=dict, init=False, compare=False)

    @cached_property
    def library(self) -> Library:
        return read_library(self.folder)

    @cached_property
    def shelf(self) -> Shelf:
        problems: list[Problem] = []
        shelf = read_shelf(self.folder, self.given, problems)
        if problems:
            raise Unreadable(problems)
        return shelf

    def books(self, country: str) -> Books:
        """The rules that apply in a country; raises Unreadable with every mistake of the books."""
        if country not in self._books:
            _, self._books[country] = read_or_recall(self.folder, country, self.given, self.caches)
        return self._books[country]

    def rules_in(self, path: str | Path) -> list[Rule]:
        """Every rule that stands in a book (a file or a folder), be it one of the folder's or one given."""
        files = {file.resolve() for file in files_of(path)}
        home = self.folder.resolve()
        ours = {shown(home, file) for file in files if file.is_relative_to(home)}
        books = [book.book for book in self.shelf.books]
        names = {
            book.place.file
            for book in books
            if (Path(book.place.file).resolve() in files if book.given else book.place.file in ours)
        }
        covers = dict.fromkeys(book.covers for book in books if book.place.file in names)
        countries = ["" if code == EVERYWHERE else code for code in covers]
        found = {
            rule.place: rule for country in countries for rule in self.books(country).rules if rule.place.file in names
        }
        return sorted(found.values(), key=lambda rule: rule.place)

    def sides(self, tried: Tried) -> tuple[Side, Side]:
        """Both sides of a trial, the one that should be met first."""
        return self.side(tried, Result.MET), self.side(tried, Result.NOT_MET)

    def side(self, tried: Tried, claimed: Result) -> Side:
        """One side of a trial; what keeps it from being tried stands in its problems."""
        value = tried.trial.met if claimed is Result.MET else tried.trial.not_met
        try:
            site, outcomes = self.judged(tried, self.with_value(tried, value))
            if not outcomes:
                raise Unreadable([self._nothing_judged(tried, site)])
        except Unreadable as unreadable:
            return Side(value, claimed, problems=tuple(unreadable.problems))
        return Side(value, claimed, tuple(outcomes), site)

    def judged(self, tried: Tried, data: dict[str, Any]) -> tuple[Site, list[Outcome]]:
        """What the rule says of the thing of its trial, in a plan with this content. Raises Unreadable."""
        name = Path(tried.trial.plan).stem
        plan = load(merge(documents_of([(f"{name}.json", json.dumps(data).encode())])))
        books = books_for(plan, self.library, self.books(plan.project.country or ""))
        rules = tuple(rule for rule in books.rules if rule.place == tried.rule.place)
        if not rules:
            raise Unreadable([_not_applied(tried, plan.project.country or "")])
        if tried.rule.each != Departure.kind:  # departures are found among what all the rules say
            books = replace(books, rules=rules)
        found = judge(plan, self.library, books, _day(tried))
        outcomes = [outcome for outcome in found.outcomes if outcome.rule.place == tried.rule.place]
        return found.site, [outcome for outcome in outcomes if _about(tried, outcome.subject.name)]

    def fragment(self, tried: Tried) -> dict[str, Any]:
        """The content of the plan of a trial as it stands, every value a text. Raises Unreadable."""
        file = self._file(tried)
        if file not in self._fragments:
            (document,) = read_documents([str(file)], bytes)
            self._fragments[file] = document.data
        return copy.deepcopy(self._fragments[file])

    def with_value(self, tried: Tried, value: object) -> dict[str, Any]:
        """The plan of a trial with the varied place set to a value. Raises Unreadable."""
        data = self.fragment(tried)
        holder, key = _holder(data, tried)
        holder[key] = value
        return data

    def without(self, tried: Tried) -> dict[str, Any]:
        """The plan of a trial with the varied place left out. Raises Unreadable."""
        data = self.fragment(tried)
        holder, key = _holder(data, tried)
        del holder[key]
        return data

    def _file(self, tried: Tried) -> Path:
        """The plan of a trial: beside the book it stands in, else among those of the folder of rules."""
        name = tried.trial.plan
        beside = Path(tried.rule.place.file).parent
        names = [name] if name.endswith(SUFFIXES) else [name + suffix for suffix in SUFFIXES]
        for file in (home / spelt for home in (beside, self.folder) for spelt in names):
            if file.is_file():
                return file
        there = [
            file.relative_to(home).with_suffix("").as_posix()
            for home in (beside, self.folder)
            if not Path(name).is_absolute()
            for file in sorted((home / name).parent.glob("*"))
            if file.suffix in SUFFIXES
        ]
        raise Unreadable(
            [
                Problem(
                    f"there is no plan `{name}` to try the rule in",
                    tried.rule.place,
                    f"{name}.yaml beside the book, or a plan in rules/fragments",
                    nearest(name, there) or "",
                )
            ]
        )

    def _nothing_judged(self, tried: Tried, site: Site) -> Problem:
        rows = site.rows(tried.rule.each).rows if tried.rule.each != Departure.kind else []
        names = [row.subject.name for row in rows]
        thing = tried.trial.thing
        if thing and not any(_about(tried, name) for name in names):
            expected = ", ".join(dict.fromkeys(names[:MOST_THINGS]))
            message = f"the plan has no {tried.rule.each} called `{thing}`"
            return Problem(message, tried.rule.place, expected, nearest(thing, names) or "")
        if not names:
            return Problem(f"the plan has no {tried.rule.each}: there is nothing to judge", tried.rule.place)
        return Problem("`when` never holds in this plan: the rule judges nothing", tried.rule.place)


def trials_of(rules: Sequence[Rule]) -> Iterator[Tried]:
    """Every trial of several rules."""
    for rule in rules:
        for trial in rule.tried:
            yield Tried(rule, trial)


def _holder(data: dict[str, Any], tried: Tried) -> tuple[Any, Any]:
    """The mapping or list that holds the varied place, and its key there as written. Raises Unreadable."""
    *way, last = split(tried.trial.vary)
    holder: Any = data
    pointer = ""
    for segment in way:
        holder = holder[_key(holder, segment, pointer, tried)]
        pointer = join(pointer, segment)
    return holder, _key(holder, last, pointer, tried)


def _key(holder: Any, segment: str, pointer: str, tried: Tried) -> str | int:
    where = f"`{pointer}` of {tried.trial.plan}" if pointer else tried.trial.plan
    if isinstance(holder, list):
        if segment.isdecimal() and int(segment) < len(holder):
            return int(segment)
        raise _no_place(tried, f"{where} is a list of {len(holder)}, which has no `{segment}`", "0 for the first of it")
    if not isinstance(holder, dict):
        raise _no_place(tried, f"{where} is written in one line: it has no `{segment}`", "{key: value} in the plan")
    for key in holder:
        if fold(str(key)) == fold(segment):
            return str(key)
    near = nearest(segment, map(str, holder)) or ""
    raise _no_place(tried, f"{where} has no `{segment}` to vary", ", ".join(map(str, holder)), near)


def _no_place(tried: Tried, message: str, expected: str, near: str = "") -> Unreadable:
    return Unreadable([Problem(message, tried.rule.place, expected, near)])


def _not_applied(tried: Tried, country: str) -> Problem:
    where = country or "no country"
    return Problem(
        f"the rule does not apply in {where}, which the plan {tried.trial.plan} is for",
        tried.rule.place,
        f"a plan for {tried.rule.covers}, where no other book changes or withdraws the rule",
    )


def _about(tried: Tried, name: str) -> bool:
    """Whether a thing is that of the trial: its name, or its name with more behind it."""
    thing, name = fold(tried.trial.thing), fold(name)
    return not thing or name == thing or name.startswith((f"{thing} ", f"{thing},"))


def _day(tried: Tried) -> date:
    try:
        return date.fromisoformat(tried.trial.on) if tried.trial.on else DAY
    except ValueError:
        message = f"`on: {tried.trial.on}` is no date"
        raise Unreadable([Problem(message, tried.rule.place, "on: 2026-06-01")]) from None
