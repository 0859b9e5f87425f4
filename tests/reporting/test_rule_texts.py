"""Rules in words: every rule of every book can be read within 80 columns, with its limit and what it rests on."""

from __future__ import annotations

import functools

import pytest

from tests.measures.plans import library
from validator.judging.books import Books, countries_with_books, read_rulebooks
from validator.judging.rules import Rule
from validator.judging.trials import Trials
from validator.reference.folder import rules_folder
from validator.reporting.columns import columns
from validator.reporting.rule_texts import one_rule, rule_list


@functools.cache
def trials() -> Trials:
    return Trials(rules_folder())


@functools.cache
def shelves() -> tuple[Books, ...]:
    folder = rules_folder()
    return tuple(read_rulebooks(folder, library(), country) for country in countries_with_books(folder))


@functools.cache
def rules() -> dict[str, list[Rule]]:
    """Every rule by its name, in each form that a country gives it."""
    found: dict[str, list[Rule]] = {}
    for books in shelves():
        for rule in books.rules:
            if rule not in found.setdefault(rule.name, []):
                found[rule.name].append(rule)
    return found


def text_of(name: str) -> str:
    text, found = one_rule(name, shelves(), trials())
    assert found
    return text


def flat(text: str) -> str:
    return " ".join(text.split())


def test_the_list_names_every_rule_within_80_columns() -> None:
    listed = rule_list(shelves())
    assert all(columns(line) <= 80 for line in listed.splitlines())
    assert [name for name in rules() if name not in listed] == []


@pytest.mark.parametrize("name", sorted(rules()))
def test_a_rule_says_all_that_its_book_says(name: str) -> None:
    text = text_of(name)
    assert all(columns(line) <= 80 for line in text.splitlines())
    for rule in rules()[name]:
        for said in (rule.title, rule.because, rule.source.standing, rule.severity, rule.before, rule.covers):
            assert flat(said) in flat(text)
        for limit in rule.limits:
            assert flat(limit.expression.text if limit.expression else limit.bound) in flat(text)
        if rule.source.title:
            assert flat(rule.source.title) in flat(text)


def test_a_name_there_is_not_has_the_nearest() -> None:
    name = next(iter(rules()))
    text, found = one_rule(name[:-1] + "q", shelves(), trials())
    assert not found
    assert f"`{name}`" in text
