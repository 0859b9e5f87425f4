"""`dryfit rules`: the rules that apply, or everything about one of them."""

from __future__ import annotations

import argparse
import sys

from validator.commands.inspecting import library, say_unreadable
from validator.judging.books import countries_with_books, read_rulebooks
from validator.plan.problems import Unreadable
from validator.reference.folder import rules_folder
from validator.reporting.rule_texts import one_rule, rule_list

FOUND, NOT_FOUND, UNREADABLE = 0, 1, 2


def run(chosen: argparse.Namespace) -> int:
    """Print the rules of every country, or of one; 1 where there is none of the name."""
    try:
        shelf = library()
        countries = [chosen.country] if chosen.country else countries_with_books(rules_folder(), chosen.rules)
        books = [read_rulebooks(rules_folder(), shelf, country, chosen.rules) for country in countries]
    except Unreadable as unreadable:
        say_unreadable(unreadable, "rulebook")
        return UNREADABLE
    if chosen.name is None:
        sys.stdout.write(rule_list(books))
        return FOUND
    text, found = one_rule(chosen.name, books, shelf)
    (sys.stdout if found else sys.stderr).write(text)
    return FOUND if found else NOT_FOUND
