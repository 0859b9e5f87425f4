"""Looking tables up: rows exactly, at or above, at or below, and by groups of terms.

The tables here are made up to show the ways of looking up; published ones are held against their values elsewhere.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from validator.reference.library import Library, Table, read_library

RulesOf = Callable[[dict[str, str]], Path]

TABLES = """\
depth:
  title: Depth by base and diameter
  covers: everywhere
  keys: {base: term, plug: {is: length, match: from}}
  gives: {depth: length}
  source: {document: table-book, clause: Table 1}
  rows:
    - [solid_bases, 8 mm, 50 mm]
    - [solid_bases, 14 mm, 70 mm]
    - [dense block, 8 mm, 55 mm]
factor:
  title: Factor by length covered
  covers: everywhere
  keys: {length: {is: length, match: up to}}
  gives: {factor: number, remark: text}
  source: common practice
  rows:
    - {length: 50 mm, factor: 0.9, remark: short}
    - {length: 4 in, factor: 0.8, remark: none}
bore:
  title: Longest branch by bore
  covers: GB
  keys: {pipe: length}
  gives: {longest: length}
  source: {document: hearsay}
  rows: [[40 mm, 3 m], [1-1/2 in, 6 ft]]
"""


@pytest.fixture
def library(rules_of: RulesOf) -> Library:
    return read_library(rules_of({"tables/a.yaml": TABLES}))


@pytest.fixture
def depth(library: Library) -> Table:
    return library.tables["depth"][0]


@pytest.fixture
def factor(library: Library) -> Table:
    return library.tables["factor"][0]


@pytest.mark.parametrize(
    ("plug", "expected"), [(8.0, "50 mm"), (13.999, "50 mm"), (14.0, "70 mm"), (200.0, "70 mm"), (7.999, None)]
)
def test_from_takes_the_last_row_at_or_below(depth: Table, plug: float, expected: str | None) -> None:
    found = depth.find("depth", {"base": "brick", "plug": plug})
    assert (found.text if found else None) == expected


@pytest.mark.parametrize(
    ("length", "expected"), [(0.0, 0.9), (50.0, 0.9), (50.001, 0.8), (101.6, 0.8), (101.601, None)]
)
def test_up_to_takes_the_first_row_at_or_above(factor: Table, length: float, expected: float | None) -> None:
    found = factor.find("factor", {"length": length})
    assert (found.value if found else None) == expected


def test_a_number_that_is_worked_out_still_finds_its_row(library: Library) -> None:
    bore = library.tables["bore"][0]
    found = bore.find("longest", {"pipe": 0.1 * 381})  # 38.1 and a little, for 1-1/2 in
    assert found is not None
    assert found.text == "6 ft"


def test_exact_finds_nothing_between_two_rows(library: Library) -> None:
    assert library.tables["bore"][0].find("longest", {"pipe": 39.0}) is None


def test_words_are_found_as_names_are_compared(depth: Table) -> None:
    found = depth.find("depth", {"base": "Dense-Block", "plug": 8.0})
    assert found is not None
    assert found.text == "55 mm"


def test_a_row_for_the_term_itself_goes_before_the_one_for_its_group(depth: Table) -> None:
    own = depth.find("depth", {"base": "dense block", "plug": 14.0})
    by_group = depth.find("depth", {"base": "brick", "plug": 14.0})
    assert (own and own.text, by_group and by_group.text) == ("55 mm", "70 mm")


def test_a_term_outside_the_group_finds_nothing(depth: Table) -> None:
    assert depth.find("depth", {"base": "stud", "plug": 14.0}) is None


def test_a_term_that_is_called_like_a_group_is_not_taken_for_it(rules_of: RulesOf) -> None:
    groups = {"groups.yaml": "new_plaster: [new plaster, fresh skim]\n"}
    rows = TABLES.replace("solid_bases", "new plaster").replace("dense block", "new_plaster")
    table = read_library(rules_of({**groups, "tables/a.yaml": rows})).tables["depth"][0]
    term, by_group = (table.find("depth", {"base": base, "plug": 8.0}) for base in ("new plaster", "fresh skim"))
    assert (term and term.text, by_group and by_group.text) == ("50 mm", "55 mm")


def test_a_cell_that_is_none_is_not_known(factor: Table) -> None:
    assert factor.find("remark", {"length": 100.0}) is None


def test_what_is_found_says_where_it_comes_from_and_how_that_was_seen(depth: Table, library: Library) -> None:
    found = depth.find("depth", {"base": "brick", "plug": 8.0})
    assert found is not None
    assert (found.table, found.source, found.seen) == ("depth", "Book of tables, second, Table 1", "secondary")
    from_memory = library.tables["bore"][0].find("longest", {"pipe": 40.0})
    assert from_memory is not None
    assert from_memory.seen == "memory"


def test_a_column_the_table_does_not_give_is_a_fault_of_the_caller(depth: Table) -> None:
    with pytest.raises(KeyError, match="does not give 'length'"):
        depth.find("length", {"base": "brick", "plug": 8.0})


NATIONAL = """\
voltage:
  title: Supply
  covers: {covers}
  keys: {{}}
  gives: {{supply: voltage}}
  source: common practice
  rows: [[{volts} V]]
"""


@pytest.mark.parametrize(
    ("country", "expected"), [("GB-ENG", "240 V"), ("GB-SCT", "230 V"), ("GB", "230 V"), ("FR", "220 V"), ("", "220 V")]
)
def test_the_most_special_table_for_the_country_is_taken(rules_of: RulesOf, country: str, expected: str) -> None:
    national = {
        f"tables/{covers}.yaml": NATIONAL.format(covers=covers, volts=volts)
        for covers, volts in (("everywhere", 220), ("GB", 230), ("GB-ENG", 240))
    }
    table = read_library(rules_of(national)).table("voltage", country)
    found = table.find("supply", {}) if table else None
    assert (found.text if found else None) == expected


def test_a_table_for_another_country_is_not_taken(library: Library) -> None:
    assert library.table("bore", "US-OR") is None
    assert library.table("bore", "") is None
