"""Reading a folder of rules: what it holds, and every mistake with its place and the nearest name."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from validator.measures.catalogue import MEASURES
from validator.measures.site import row_class
from validator.plan.problems import Problem, Unreadable
from validator.reference.folder import rules_folder
from validator.reference.library import read_library

RulesOf = Callable[[dict[str, str]], Path]


def _mistakes(folder: Path) -> list[Problem]:
    with pytest.raises(Unreadable) as unreadable:
        read_library(folder)
    return unreadable.value.problems


def _table(columns: str, rows: str, source: str = "common practice") -> str:
    head = f"depth:\n  title: Depth\n  covers: everywhere\n  {columns}\n  gives: {{depth: length}}\n"
    return f"{head}  rows: {rows}\n  source: {source}\n"


def _order(*tasks: str) -> str:
    return "title: T\nsource: common practice\ntasks:\n" + "".join(f"  {task}\n" for task in tasks)


BY_BASE = "keys: {base: term}"
BY_PLUG = "keys: {plug: {is: length, match: from}}"

MISTAKES = [
    # one file, what is wrong with it, the line, and the nearest valid name
    ("sources.yaml", "a: {title: A, standing: law}", "the document `a` has no `seen`: it is needed", 1, ""),
    (
        "sources.yaml",
        "a: {titel: A, title: B, standing: law, seen: primary}",
        "the document `a` has no `titel`",
        1,
        "title",
    ),
    ("sources.yaml", "a:\n  title: A\n  standing: lore\n  seen: primary", "standing cannot be `lore`", 3, ""),
    (
        "sources.yaml",
        "a: {title: A, standing: standrad, seen: primary}",
        "standing cannot be `standrad`",
        1,
        "standard",
    ),
    ("sources.yaml", "a: {title: A, standing: law, seen: primry}", "seen cannot be `primry`", 1, "primary"),
    ("sources.yaml", "a: [A, law]", "the document `a` is a list of `key: value` lines", 1, ""),
    ("groups.yaml", "Solid bases: [brick]", "a group cannot be called `Solid bases`", 1, ""),
    ("groups.yaml", "solid_bases: [brick, Brick]", "`Brick` is in `solid_bases` twice", 1, ""),
    ("groups.yaml", "solid_bases: brick", "solid_bases: a list is expected here", 1, ""),
    ("stages.yaml", "ordering: [order]", "ordering is a text", 1, ""),
    ("words.yaml", "Texas:\n  worktop: countertop", "`Texas` is no country", 2, ""),
    (
        "order.yaml",
        _order("paint: {after: [plastr], trade: decorator}", "plaster: {after: [], trade: plasterer}"),
        "`paint` follows `plastr`, which is no task here",
        4,
        "plaster",
    ),
    (
        "order.yaml",
        _order("paint: {after: [tile], trade: decorator}", "tile: {after: [paint], trade: tiler}"),
        "`tile` follows itself, by way of what it follows",
        5,
        "",
    ),
    ("tables/a.yaml", _table(BY_BASE, "[[brick, 50]]"), "`50` has no unit", 6, ""),
    (
        "tables/a.yaml",
        _table(BY_BASE, "[[brick, 5 A]]"),
        "5 A is a current; a length is expected (mm, m, in, ft)",
        6,
        "",
    ),
    ("tables/a.yaml", _table(BY_BASE, "[[brick]]"), "the row has 1 cells, the table 2 columns", 6, ""),
    ("tables/a.yaml", _table(BY_BASE, "[[brik, 50 mm]]"), "`brik` is in no group of terms", 6, "brick"),
    ("tables/a.yaml", _table(BY_BASE, "[{base: brick}]"), "the row has no depth", 6, ""),
    (
        "tables/a.yaml",
        _table(BY_BASE, "[{base: brick, deepth: 5 mm, depth: 5 mm}]"),
        "the table has no column `deepth`",
        6,
        "depth",
    ),
    (
        "tables/a.yaml",
        _table(BY_BASE, "[[brick, 50 mm], [Brick, 60 mm]]"),
        "two rows serve the same keys: Brick",
        6,
        "",
    ),
    (
        "tables/a.yaml",
        _table(BY_PLUG, "[[14 mm, 70 mm], [8 mm, 50 mm]]"),
        "the rows are not in order of `plug`, which is matched by `from`",
        6,
        "",
    ),
    (
        "tables/a.yaml",
        _table("keys: {plug: lenght}", "[[8 mm, 50 mm]]"),
        "the column `plug` cannot be `lenght`",
        4,
        "length",
    ),
    (
        "tables/a.yaml",
        _table("keys: {plug: {is: length, match: form}}", "[[8 mm, 50 mm]]"),
        "match cannot be `form`",
        4,
        "from",
    ),
    (
        "tables/a.yaml",
        _table("keys: {base: {is: text, match: from}}", "[[brick, 50 mm]]"),
        "the column `base` holds words: they can only be matched exactly",
        4,
        "",
    ),
    (
        "tables/a.yaml",
        _table(BY_BASE, "[[brick, 50 mm]]", "{document: tables-book}"),
        "no document `tables-book` is registered in sources.yaml",
        7,
        "table-book",
    ),
    (
        "tables/a.yaml",
        _table(BY_BASE, "[[brick, 50 mm]]", "{document: table-book, seen: primary}"),
        "`table-book` is registered as seen secondary: what it says cannot have been seen primary",
        7,
        "",
    ),
    ("tables/a.yaml", _table(BY_BASE, "[[brick, 50 mm]]", "hearsay"), "a source cannot be `hearsay`", 7, ""),
    (
        "tables/a.yaml",
        _table(BY_BASE, "[[brick, 50 mm]]", "{document: table-book, standing: law}"),
        "the standing of a source is its document's",
        7,
        "",
    ),
    ("tables/a.yaml", _table(BY_BASE, "[]"), "the table `depth` has no rows", 6, ""),
    (
        "tables/a.yaml",
        _table(BY_BASE, "[[brick, 40 to 50 mm]]"),
        "`40 to 50 mm` is not one figure: a book says what it knows, and leaves out the rest",
        6,
        "",
    ),
]


@pytest.mark.parametrize(("file", "text", "message", "line", "nearest"), MISTAKES)
def test_every_mistake_is_named_with_its_line_and_the_nearest_name(
    rules_of: RulesOf, file: str, text: str, message: str, line: int, nearest: str
) -> None:
    found = [
        (problem.message, problem.place.line, problem.nearest)
        for problem in _mistakes(rules_of({file: text}))
        if problem.place.file == f"rules/{file}"
    ]
    assert (message, line, nearest) in found


def test_mistakes_of_all_files_are_shown_at_once(rules_of: RulesOf) -> None:
    broken = {"stages.yaml": "ordering: [x]", "words.yaml": "Texas: {a: b}", "tables/a.yaml": "depth: {title: D}"}
    assert {problem.place.file for problem in _mistakes(rules_of(broken))} == {f"rules/{name}" for name in broken}


def test_a_file_that_is_not_there_is_no_empty_one(rules_of: RulesOf) -> None:
    folder = rules_of({})
    (folder / "stages.yaml").unlink()
    assert [problem.place.file for problem in _mistakes(folder)] == ["rules/stages.yaml"]


def test_two_rows_are_told_apart_by_the_groups_that_serve_one_term_twice(rules_of: RulesOf) -> None:
    groups = "solid_bases: [brick, dense block]\nmasonry_bases: [brick, light block]\n"
    table = _table(BY_BASE, "[[solid_bases, 50 mm], [masonry_bases, 60 mm]]")
    messages = [problem.message for problem in _mistakes(rules_of({"groups.yaml": groups, "tables/a.yaml": table}))]
    assert messages == ["two rows serve the same keys: masonry_bases"]


def test_a_second_table_for_the_same_country_shows_both_places(rules_of: RulesOf) -> None:
    one = _table(BY_BASE, "[[brick, 50 mm]]")
    (problem,) = _mistakes(rules_of({"tables/a.yaml": one, "tables/b.yaml": one}))
    assert problem.message == "there is already a table `depth` for everywhere"
    assert [problem.place.file, *(place.file for place in problem.also)] == [
        "rules/tables/b.yaml",
        "rules/tables/a.yaml",
    ]


def test_a_table_has_the_same_columns_in_every_country(rules_of: RulesOf) -> None:
    one = _table(BY_BASE, "[[brick, 50 mm]]")
    other = _table("keys: {wall: term}", "[[brick, 50 mm]]").replace("everywhere", "GB")
    (problem,) = _mistakes(rules_of({"tables/a.yaml": one, "tables/b.yaml": other}))
    assert (problem.message, problem.expected) == (
        "the table `depth` has other columns here than for everywhere",
        "base, depth",
    )


def test_the_small_lists_are_read_as_they_stand(rules_of: RulesOf) -> None:
    library = read_library(rules_of({}))
    assert library.groups["solid_bases"] == {"brick", "dense block"}
    assert library.stages == {"ordering": "order everything?", "hand-over": "call it finished?"}
    assert library.words == {"US": {"worktop": "countertop"}}
    assert library.order is not None
    assert library.order.tasks["paint"].after == ("plaster",)


def test_our_own_rules_are_read_without_a_mistake() -> None:
    library = read_library(rules_folder())
    assert library.tables
    assert library.documents


def test_every_question_of_ours_asks_for_a_field_there_is() -> None:
    fields = {f"{kind}.{field}" for kind in MEASURES for field in row_class(kind).fields}
    asked = set(read_library(rules_folder()).questions)
    assert asked - fields == set()
