"""Every rule of every book of the folder, and every trial of them."""

from __future__ import annotations

from validator.judging.books import countries_with_books
from validator.judging.rules import Rule
from validator.judging.trials import Trials, Tried, trials_of
from validator.reference.folder import rules_folder
from validator.reference.library import Library

TRIALS = Trials(rules_folder())


def all_rules() -> dict[tuple[str, str], Rule]:
    """Every rule of every book, by what its book covers and its name."""
    countries = countries_with_books(rules_folder())
    return {(rule.covers, rule.name): rule for country in countries for rule in TRIALS.books(country).rules}


def all_trials() -> list[Tried]:
    return list(trials_of(list(all_rules().values())))


def library() -> Library:
    return TRIALS.library
