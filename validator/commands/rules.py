"""`dryfit rules`: the rules that apply, everything about one of them, and what their authors need."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from validator.commands.inspecting import caches, say_unreadable
from validator.judging.books import Books, countries_with_books
from validator.judging.trials import Trials
from validator.plan.problems import Unreadable
from validator.reference.folder import rules_folder
from validator.reporting.kind_texts import kind_list, one_kind
from validator.reporting.rule_index import rule_index
from validator.reporting.rule_texts import one_rule, rule_list
from validator.reporting.trial_texts import trials_text

FOUND, NOT_FOUND, UNREADABLE = 0, 1, 2


def run(chosen: argparse.Namespace) -> int:
    """Print what was asked for; 1 where there is none of the name, or a trial does not do what it claims."""
    if chosen.kinds is not None:
        return _said(one_kind(" ".join(chosen.kinds)) if chosen.kinds else (kind_list(), True))
    try:
        text, good = _of_books(chosen)
    except Unreadable as unreadable:
        say_unreadable(unreadable, "rulebook")
        return UNREADABLE
    if chosen.try_book is not None:
        sys.stdout.write(text)
        return FOUND if good else NOT_FOUND
    return _said((text, good))


def _of_books(chosen: argparse.Namespace) -> tuple[str, bool]:
    """What is asked of the books, and whether it is there, or does as it claims. Raises Unreadable."""
    if chosen.try_book is not None:
        trials = Trials(rules_folder(), _with(chosen.rules, chosen.try_book), caches())
        return trials_text(trials.rules_in(chosen.try_book), trials)
    trials = Trials(rules_folder(), chosen.rules, caches())
    books = _books(trials, chosen.country)
    if chosen.index:
        return rule_index(books), True
    if chosen.name is None:
        return rule_list(books), True
    return one_rule(chosen.name, books, trials)


def _books(trials: Trials, country: str | None) -> Sequence[Books]:
    """The rules of one country, or of every country."""
    return [
        trials.books(code) for code in ([country] if country else countries_with_books(trials.folder, trials.given))
    ]


def _with(given: list[str], book: str) -> list[str]:
    """The books given and the one to try, unless it is one of them or of the folder of rules."""
    path = Path(book).resolve()
    known = path.is_relative_to(rules_folder().resolve()) or path in [Path(one).resolve() for one in given]
    return given if known else [*given, book]


def _said(answer: tuple[str, bool]) -> int:
    text, found = answer
    (sys.stdout if found else sys.stderr).write(text)
    return FOUND if found else NOT_FOUND
