"""The rules that apply to a plan: from the books that cover its country, those given with it, and the household's
own.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from validator.judging.rules import Book, Change, Rule
from validator.plan.names import fold, nearest
from validator.plan.plan import Plan
from validator.plan.problems import Problem, Unreadable
from validator.reference.countries import EVERYWHERE, depth
from validator.reference.library import Library

if TYPE_CHECKING:
    from validator.judging.book_reading import ReadBook


@dataclass(frozen=True)
class Books:
    """The rules that apply, in the order of the books, with what the later books did to the earlier ones.

    `applied` says in a few words which books; `withdrawn` gives each rule taken away its reason; `elsewhere` names
    the rules only books for other countries have. Without a country only `everywhere` applies: `country_missing`.
    `left_aside` are books given that are for another country.
    """

    rules: tuple[Rule, ...]
    country_missing: bool = False
    applied: str = ""
    books: tuple[Book, ...] = ()
    withdrawn: Mapping[str, str] = field(default_factory=dict)
    changed: tuple[Change, ...] = ()
    elsewhere: Mapping[str, str] = field(default_factory=dict)
    digest: str = ""
    left_aside: tuple[Book, ...] = ()

    @cached_property
    def _names(self) -> dict[str, str]:
        """The rule's name for every name and old name, folded."""
        old = {fold(alias): rule.name for rule in self.rules for alias in rule.aliases}
        return old | {fold(rule.name): rule.name for rule in self.rules}

    def resolve(self, name: str) -> str | None:
        """The name of the rule that applies under this name or old name, or None."""
        return self._names.get(fold(name))

    def knows(self, name: str) -> bool:
        """Whether there is such a rule at all, be it one withdrawn or for another country."""
        known = {fold(other) for other in (*self.withdrawn, *self.elsewhere)}
        return self.resolve(name) is not None or fold(name) in known

    def nearest(self, name: str) -> str | None:
        """The rule somebody probably meant by a name there is not."""
        names = [*(rule.name for rule in self.rules), *(alias for rule in self.rules for alias in rule.aliases)]
        return nearest(name, [*names, *self.withdrawn, *self.elsewhere])


def read_books(folder: Path, library: Library, plan: Plan, given: Sequence[str | Path] = ()) -> Books:
    """Everything that judges this plan: the books, those given with it (files or folders) and its own requirements.

    Raises Unreadable with every mistake, also for a departure from a rule that is in no book.
    """
    return books_for(plan, library, read_rulebooks(folder, library, plan.project.country or "", given))


def books_for(plan: Plan, library: Library, books: Books) -> Books:
    """The books of the plan's country together with its own requirements.

    Raises Unreadable with every mistake, also for a departure from a rule that is in no book.
    """
    if plan.requirements:
        from validator.judging.requirements import read_requirements

        books = replace(books, rules=(*books.rules, *read_requirements(plan, library, books.rules)))
    problems = unknown_departures(plan, books)
    if problems:
        raise Unreadable(problems)
    return books


def read_rulebooks(folder: Path, library: Library, country: str, given: Sequence[str | Path] = ()) -> Books:
    """The books that cover a country ('' if nobody knows which), the general first, then those given, laid over them.

    Raises Unreadable with every mistake in any book that applies.
    """
    from validator.judging.book_layers import Layers
    from validator.judging.book_reading import read_shelf
    from validator.judging.rule_reading import RuleReader

    problems: list[Problem] = []
    shelf = read_shelf(folder, given, problems)
    ours = RuleReader(library, tried=True)
    others = RuleReader(library)
    chosen = sorted(shelf.for_country(country), key=_order)
    layers = Layers(problems, shelf.elsewhere(country))
    for book in chosen:
        layers.lay(book, list(book.rules(others if book.book.given else ours)))
    layers.check_aliases()
    if problems:
        raise Unreadable(problems)
    return Books(
        tuple(layers.rules.values()),
        not country,
        _applied([book.book for book in chosen]),
        tuple(book.book for book in chosen),
        layers.withdrawn,
        tuple(layers.changed),
        layers.elsewhere,
        shelf.digest,
        tuple(shelf.left_aside(country)),
    )


def countries_with_books(folder: Path, given: Sequence[str | Path] = ()) -> list[str]:
    """The countries and parts of countries that have books, the general before the special; '' for everywhere."""
    from validator.judging.book_reading import read_shelf

    problems: list[Problem] = []
    shelf = read_shelf(folder, given, problems)
    if problems:
        raise Unreadable(problems)
    covers = sorted({book.book.covers for book in shelf.books} - {EVERYWHERE}, key=lambda code: (depth(code), code))
    return ["", *covers]


def unknown_departures(plan: Plan, books: Books) -> list[Problem]:
    """A problem for each departure of the plan from a rule that no book has."""
    return [
        Problem(
            f"there is no rule `{departure.rule}` to depart from",
            plan.place(departure.pointer),
            expected="the name of a rule; `dryfit rules` lists them",
            nearest=books.nearest(departure.rule) or "",
            pointer=departure.pointer,
        )
        for departure in plan.agreed
        if not books.knows(departure.rule)
    ]


def _order(book: ReadBook) -> tuple[bool, int]:
    return book.book.given, depth(book.book.covers)


def _applied(books: Sequence[Book]) -> str:
    """`GB-ENG 2026.1`: the most special country with the editions of its books; given ones by their titles."""
    own = [book for book in books if not book.given]
    covers = max((book.covers for book in own), key=depth, default=EVERYWHERE)
    editions = dict.fromkeys(book.edition for book in own if book.edition)
    titles = [book.title for book in books if book.given]
    return ", ".join([" ".join([covers, *editions]), *titles])
