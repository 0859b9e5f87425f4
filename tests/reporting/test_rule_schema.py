"""The schema of a rulebook: sound itself, and of one mind with the reader of rules about the form of a book.

Checked against the meta-schema of JSON Schema, draft 2020-12 (json-schema.org, primary, as the library jsonschema has
it), by that library.
"""

from __future__ import annotations

import copy
import functools
import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from tests.reporting.plan_forms import Way, books, data_of, places, value_at
from validator.commands.inspecting import library
from validator.judging.book_reading import read_book
from validator.judging.limits import BOUNDS
from validator.judging.rule_reading import OF_A_BOOK, RuleReader
from validator.judging.rules import SEVERITIES
from validator.measures.catalogue import MEASURES
from validator.plan.problems import Place, Problem
from validator.plan.yaml_reader import read_yaml
from validator.reference.entries import Entry, Page
from validator.reporting.rule_schema import book_schema

BOOKS = books()


@functools.cache
def schema() -> dict[str, Any]:
    return book_schema(library())


@functools.cache
def _checker() -> Draft202012Validator:
    return Draft202012Validator(schema())


def refused_by_schema(data: object) -> list[str]:
    return [f"{'/'.join(map(str, error.absolute_path))}: {error.message}" for error in _checker().iter_errors(data)]


def refused_by_reader(data: object) -> list[Problem]:
    """Every mistake in a book that is given on the command line."""
    problems: list[Problem] = []
    page = Page(lambda _: Place("book.yaml"), lambda _: Place("book.yaml"), problems)
    book = read_book(Entry(data, "", page), given=True)
    if book is not None:
        list(book.withdrawals())
        list(book.rules(RuleReader(library())))
    return problems


def test_the_schema_is_sound_by_its_meta_schema() -> None:
    Draft202012Validator.check_schema(schema())


def test_no_address_but_that_of_the_meta_schema_is_in_it() -> None:
    assert re.findall(r"\w+://[^'\"]*", str(schema())) == [schema()["$schema"]]


@pytest.mark.parametrize("file", BOOKS.values(), ids=BOOKS)
def test_every_book_of_the_repository_is_valid(file: Path) -> None:
    assert refused_by_schema(data_of(file)) == []


def test_every_key_of_a_rule_is_offered_as_books_write_it() -> None:
    assert list(schema()["$defs"]["rule"]["properties"]) == [key.replace(" ", "_") for key in OF_A_BOOK]


def test_the_words_a_rule_chooses_from_are_those_of_its_reader() -> None:
    offered = schema()["$defs"]["rule"]["properties"]
    words = {key: offered[key]["anyOf"][0]["enum"] for key in ("each", "severity", "before")}
    assert words == {"each": list(MEASURES), "severity": list(SEVERITIES), "before": list(library().stages)}


SOUND = """\
book: {title: Cooking, covers: everywhere}
rules:
  hood-over-a-hob:
    title: Room above a gas hob
    each: hob under hood
    when: fuel == 'gas'
    figure: clearance
    at_least: 700 mm
    stated: [hob_says, hood_says]
    severity: stop
    before: drilling
    because: Hot fat reaches what hangs above.
    remedy: Hang the hood {short} higher.
    source: common practice
    tolerance: 0.5 mm
    also_called: [room-over-hob]
    tried: {plan: fragments/hob, vary: /appliances/hood/up, met: 1600, not_met: 1599}
"""


def said(line: int, text: str) -> dict[str, Any]:
    """The sound book with one of its lines written anew."""
    lines = SOUND.splitlines()
    lines[line - 1] = text
    return read_yaml("\n".join(lines) + "\n", "book.yaml").data


def test_a_figure_of_another_kind_of_row_is_refused_where_it_stands() -> None:
    (error,) = refused_by_schema(said(7, "    figure: embedment"))
    assert error.startswith("rules/hood-over-a-hob/figure: 'embedment' ")


BROKEN = {
    "a head without a title": (1, "book: {covers: GB}"),
    "a country that is none": (1, "book: {title: Cooking, covers: England}"),
    "an unknown part of a book": (1, "books: {title: Cooking, covers: GB}"),
    "a rule called by a code": (3, "  HC-01:"),
    "a rule with a space in its name": (3, "  hood over a hob:"),
    "an unknown kind of row": (5, "    each: hob under hod"),
    "an unknown key": (6, "    wenn: fuel == 'gas'"),
    "a figure that is not of the row": (7, "    figure: clearence"),
    "a figure without a limit": (8, "    note: none yet"),
    "one end of two": (8, "    within: [700 mm]"),
    "two ends that are no list": (8, "    within: 700 mm"),
    "a condition besides a figure": (8, "    holds: fuel == 'gas'"),
    "a table's row without what it gives": (8, "    at_least: {table: nominal-embedment, by: {}}"),
    "a maker's figure that is not of the row": (9, "    stated: [hob_sais]"),
    "a maker's figure that is a word": (9, "    stated: [fuel]"),
    "an unknown severity": (10, "    severity: danger"),
    "an unknown stage": (11, "    before: sanding"),
    "a reason with a figure in it": (12, "    because: It is {short} too low."),
    "no reason": (12, "    note: nothing"),
    "a source in one's own words": (14, "    source: the old book"),
    "a source with a standing": (14, "    source: {document: bs-6172, standing: law}"),
    "a source without a document": (14, "    source: {clause: 8.1}"),
    "a source seen in a dream": (14, "    source: {document: bs-6172, seen: dreamt}"),
    "a rule that tightens and replaces": (15, "    tightens: a\n    replaces: b"),
    "a trial with one side": (17, "    tried: {plan: fragments/hob, vary: /appliances/hood/up, met: 1600}"),
    "a trial of no place": (17, "    tried: {plan: fragments/hob, vary: hood, met: 1600, not_met: 1599}"),
    "a rule that is withdrawn and asks all the same": (17, "    withdraws: nobody needs it"),
}


@pytest.mark.parametrize(("line", "text"), BROKEN.values(), ids=BROKEN)
def test_what_the_reader_refuses_the_schema_refuses_too(line: int, text: str) -> None:
    data = said(line, text)
    assert refused_by_reader(data)
    assert refused_by_schema(data)


SPELLINGS = {
    "keys with spaces and in capitals": (8, "    At Least: 700 mm"),
    "several limits": (8, "    at_least: [700 mm, 28 in]"),
    "a trial among others": (17, "    tried: [{plan: a, vary: /b, met: 1, not met: 2, thing: hob, on: 2026-01-01}]"),
    "a document": (14, '    source: {document: bs-6172, clause: "8.1", edition: "2010", note: as far as read}'),
    "a word in capitals": (10, "    severity: Put Right"),
}


@pytest.mark.parametrize(("line", "text"), SPELLINGS.values(), ids=SPELLINGS)
def test_every_spelling_the_reader_takes_is_valid(line: int, text: str) -> None:
    data = said(line, text)
    assert refused_by_reader(data) == []
    assert refused_by_schema(data) == []


def test_a_rule_may_be_withdrawn_with_nothing_but_why() -> None:
    data = read_yaml("book: {title: Ours, covers: GB}\nrules: {a-rule: {withdraws: we know better}}\n", "a").data
    assert refused_by_reader(data) == []
    assert refused_by_schema(data) == []


DIFFER = {
    "what a condition reads is an expression": (6, "    when: fule == 'gas'"),
    "what a limit comes to is an expression": (8, "    at_least: 7 kg"),
    "a number in an expression is no length": (8, "    at_least: 700"),
    "which bounds a figure takes depends on what it is": (8, "    one_of: [gas]"),
    "which tables there are is said elsewhere": (8, "    at_least: {table: depht, by: {}, gives: depth}"),
    "what a remedy reads is an expression": (13, "    remedy: Hang the hood {shrot} higher."),
    "which documents there are is said elsewhere": (14, "    source: {document: hearsay}"),
    "what a tolerance is of is the figure's": (15, "    tolerance: 0.5 A"),
}
"""What only the reader refuses, since it is no matter of form."""


@pytest.mark.parametrize(("line", "text"), DIFFER.values(), ids=DIFFER)
def test_the_two_differ_where_it_is_said_that_they_do(line: int, text: str) -> None:
    data = said(line, text)
    assert refused_by_reader(data)
    assert refused_by_schema(data) == []


OF_FORM = re.compile(
    r"^(a|the) (rulebook|head of a book|rule `[^`]+`.*|source|trial|table's row) has no `|is a text$|"
    r"a list is expected|neither a figure|which is withdrawn|^(each|severity|before|seen) cannot be|is a list of `key|"
    r"of which figure|asks for nothing|the figure has no limit|stands in place of a figure|has two ends|not both$|"
    r"no braces$|is no place in a plan|cannot be called|^a source cannot be|is no country"
)
"""What the reader says of the form of a book."""

TEXTS = sorted(
    {
        value
        for file in BOOKS.values()
        for at in places(data_of(file))
        if isinstance(value := value_at(data_of(file), at), str)
    }
)
ODD: list[Any] = [
    {},
    [],
    "",
    "{short}",
    ["700 mm"],
    ["700 mm", "800 mm"],
    {"x": "y"},
    [[]],
    [{}],
    {"table": "a"},
    "HC-1",
]
KEYS = [
    *(bound.replace(" ", "_") for bound in BOUNDS),
    "holds",
    "withdraws",
    "tightens",
    "replaces",
    "note",
    "standing",
]


@st.composite
def changed_books(draw: st.DrawFn) -> dict[str, Any]:
    """A book of the repository with one rule in it, of which one value or key is changed."""
    book = data_of(draw(st.sampled_from(list(BOOKS.values()))))
    name = draw(st.sampled_from(list(book["rules"])))
    data = copy.deepcopy({**book, "rules": {name: book["rules"][name]}})
    at: Way = draw(st.sampled_from(list(places(data))))
    holder, key = value_at(data, at[:-1]), at[-1]
    how = draw(st.sampled_from(["text", "odd", "leave out", "spell", "rename"]))
    if how in ("text", "odd"):
        holder[key] = draw(st.sampled_from(TEXTS if how == "text" else ODD))
    elif how == "leave out" or isinstance(key, int):
        del holder[key]
    else:
        spellings = [key.upper(), key.replace("_", " "), key.replace("_", "-"), key.title()]
        new = draw(st.sampled_from(spellings if how == "spell" else [*KEYS, key + "s", key[:-1]]))
        value = holder.pop(key)
        holder.setdefault(new, value)
    return data


@settings(max_examples=300, deadline=None)
@given(changed_books())
def test_whatever_is_changed_in_a_book_reader_and_schema_are_of_one_mind(data: dict[str, Any]) -> None:
    by_reader, by_schema = refused_by_reader(data), refused_by_schema(data)
    if any(OF_FORM.search(problem.message) for problem in by_reader):
        assert by_schema, by_reader
    if by_schema:
        assert by_reader, by_schema
