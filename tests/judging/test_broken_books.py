"""Every kind of mistake in a rulebook: what is said of it, in which line, and the name that was probably meant.

Each case writes one line of a sound book anew. The clearance in it is made up.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from validator.judging.books import read_rulebooks
from validator.plan.problems import Problem, Unreadable
from validator.reference.library import read_library

RulesOf = Callable[[dict[str, str]], Path]

SOUND = """\
book: {title: Cooking, covers: everywhere}
rules:
  hob-clearance-above:
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
    source: {document: gas-standard, clause: "8.1", seen: secondary}
    tolerance: 0.5 mm
    also_called: [room-over-hob]
    tried: {plan: fragments/hob, vary: /appliances/hood/up, met: 1600, not_met: 1599}
"""

MISTAKES = [
    # the line written anew, where the mistake is shown, what is said of it, and the nearest name
    (1, "book: {title: Cooking, covers: England}", 1, "`England` is no country", ""),
    (1, "book: {covers: GB}", 1, "the head of a book has no `title`: it is needed", ""),
    (1, "books: {title: Cooking, covers: GB}", 1, "a rulebook has no `books`", "book"),
    (3, "  HC-01:", 3, "a rule cannot be called `HC-01`", ""),
    (3, "  E001:", 3, "a rule cannot be called `E001`", ""),
    (3, "  hob clearance above:", 3, "a rule cannot be called `hob clearance above`", ""),
    (5, "    each: hob under hod", 5, "each cannot be `hob under hod`", "hob under hood"),
    (6, "    wenn: fuel == 'gas'", 6, "the rule `hob-clearance-above` has no `wenn`", "when"),
    (6, "    when: fule == 'gas'", 6, "there is no `fule` in a row of 'hob under hood'", "fuel"),
    (
        6,
        "    when: fuel == 'gaz'",
        6,
        "'gaz' is none of the words that can stand there: 'gas', 'induction', 'ceramic', 'solid plate'",
        "gas",
    ),
    (6, "    when: clearance", 6, "this is a length, where a condition is wanted", ""),
    (
        7,
        "    figure: clearence",
        7,
        "`clearence` is neither a figure nor a field of a row of 'hob under hood'",
        "clearance",
    ),
    (8, "    at_least: 700", 8, "a number without a unit is never a length; write 700 mm", ""),
    (8, "    at_least: 7 kg", 8, "this is a mass, where a length is wanted", ""),
    (8, "    within: [700 mm]", 8, "within has two ends", ""),
    (8, "    within: 700 mm", 8, "within: a list is expected here", ""),
    (8, "    one_of: [gas]", 8, "a length is not one of several words", ""),
    (8, "    at_leest: 700 mm", 8, "the rule `hob-clearance-above` has no `at_leest`", "at least"),
    (8, "    holds: fuel == 'gas'", 7, "`holds` stands in place of a figure and its limits", ""),
    (8, "    at_least: {table: depht, by: {}, gives: depth}", 8, "there is no table `depht`", "depth"),
    (9, "    stated: [hob_sais]", 9, "a row of 'hob under hood' has no `hob_sais`", "hob_says"),
    (9, "    stated: [fuel]", 9, "`fuel` cannot be compared with the figure", ""),
    (10, "    severity: stopp", 10, "severity cannot be `stopp`", "stop"),
    (10, "    severity: danger", 10, "severity cannot be `danger`", ""),
    (11, "    before: driling", 11, "before cannot be `driling`", "drilling"),
    (12, "    because: It is {short} too low.", 12, "because is the same for every plan: no braces", ""),
    (12, "    note: nothing", 3, "the rule `hob-clearance-above` has no `because`: it is needed", ""),
    (13, "    remedy: Hang the hood {shrot} higher.", 13, "there is no `shrot` in a row of 'hob under hood'", "short"),
    (
        13,
        "    remedy: Hang the hood {short higher.",
        13,
        "this brace is never closed; {{ stands for a brace itself",
        "",
    ),
    (
        14,
        "    source: {document: gas-standart}",
        14,
        "no document `gas-standart` is registered in sources.yaml",
        "gas-standard",
    ),
    (
        14,
        "    source: {document: gas-standard, seen: primary}",
        14,
        "`gas-standard` is registered as seen secondary: what it says cannot have been seen primary",
        "",
    ),
    (14, "    source: gas-standard", 14, "a source cannot be `gas-standard`", ""),
    (15, "    tolerance: 0.5 A", 15, "0.5 A is a current; a length is expected (mm, m, in, ft)", ""),
    (15, "    tightens: a\n    replaces: b", 16, "a rule tightens another or replaces it, not both", ""),
    (15, "    withdraws: nobody needs it", 3, "only a book given on the command line may withdraw a rule", ""),
    (17, "    note: untried", 3, "the rule `hob-clearance-above` has no `tried`: it is needed in a book of ours", ""),
    (
        17,
        "    tried: {plan: fragments/hob, vary: /appliances/hood/up, met: 1600}",
        17,
        "a trial has no `not met`: it is needed",
        "",
    ),
    (
        17,
        "    tried: {plan: fragments/hob, vary: hood, met: 1600, not_met: 1599}",
        17,
        "`hood` is no place in a plan",
        "",
    ),
]


def _mistakes(folder: Path) -> list[Problem]:
    with pytest.raises(Unreadable) as unreadable:
        read_rulebooks(folder, read_library(folder), "GB-ENG")
    return unreadable.value.problems


def _broken(line: int, text: str) -> str:
    lines = SOUND.splitlines()
    lines[line - 1] = text
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize(("line", "text", "where", "message", "nearest"), MISTAKES)
def test_a_mistake_is_named_with_its_line_and_the_nearest_name(
    rules_of: RulesOf, line: int, text: str, where: int, message: str, nearest: str
) -> None:
    problems = _mistakes(rules_of({"everywhere/cooking.yaml": _broken(line, text)}))
    found = [(problem.place.file, problem.place.line, problem.message, problem.nearest) for problem in problems]
    assert ("rules/everywhere/cooking.yaml", where, message, nearest) in found


def test_the_book_the_mistakes_are_made_in_is_sound(rules_of: RulesOf) -> None:
    folder = rules_of({"everywhere/cooking.yaml": SOUND})
    (rule,) = read_rulebooks(folder, read_library(folder), "GB-ENG").rules
    assert rule.name == "hob-clearance-above"


def test_a_mistake_inside_an_expression_is_shown_at_its_column(rules_of: RulesOf) -> None:
    (problem,) = _mistakes(
        rules_of({"everywhere/cooking.yaml": _broken(6, "    when: surface > 1 m and fule == 'gas'")})
    )
    assert (problem.place.line, problem.place.column) == (6, 29)


def test_all_mistakes_of_all_books_are_shown_at_once(rules_of: RulesOf) -> None:
    books = {"everywhere/a.yaml": _broken(6, "    when: fule == 'gas'"), "GB/b.yaml": _broken(10, "    severity: bad")}
    assert {problem.place.file for problem in _mistakes(rules_of(books))} == {
        "rules/everywhere/a.yaml",
        "rules/GB/b.yaml",
    }


FIXING = """\
book: {title: Fixings, covers: everywhere}
rules:
  fixing-depth:
    title: Depth of a fixing
    each: fixing in a wall
    figure: FIGURE
    DEMAND
    severity: SEVERITY
    before: drilling
    because: Plaster carries nothing.
    remedy: Use longer ones.
    source: SOURCE
    tried: {plan: fragments/wall, vary: /fixings/rail/plug, met: 8 x 100, not_met: 8 x 99}
"""
DEPTH = "at_least: {table: depth, by: {base: base, plug: plug_diameter}, gives: depth}"
REMEMBERED = "at_least: {table: remembered, by: {base: base}, gives: depth}"
FIXING_MISTAKES = [
    # figure, what is asked, severity, source, line, what is said, nearest
    (
        "embedment",
        DEPTH.replace("gives: depth", "gives: dept"),
        "stop",
        "common practice",
        7,
        "the table `depth` does not give `dept`",
        "depth",
    ),
    (
        "embedment",
        DEPTH.replace("gives: depth", "gives: load"),
        "stop",
        "common practice",
        7,
        "`load` is a mass, the figure a length",
        "",
    ),
    (
        "embedment",
        DEPTH.replace("base: base, ", ""),
        "stop",
        "common practice",
        7,
        "the table `depth` is also looked up by `base`",
        "",
    ),
    (
        "embedment",
        DEPTH.replace("base: base,", "base: base, wall: base,"),
        "stop",
        "common practice",
        7,
        "the table `depth` has no key `wall`",
        "",
    ),
    (
        "embedment",
        DEPTH.replace("base: base", "base: bass"),
        "stop",
        "common practice",
        7,
        "a row of 'fixing in a wall' has no `bass`",
        "base",
    ),
    (
        "embedment",
        DEPTH.replace("plug_diameter", "base"),
        "stop",
        "common practice",
        7,
        "the key `plug` is a length, `base` a term of the trade",
        "",
    ),
    (
        "embedment",
        DEPTH.replace("base: base", "base: kind_of"),
        "stop",
        "common practice",
        7,
        "the key `base` is a term of the trade, `kind_of` a word",
        "",
    ),
    (
        "embedment",
        "at_least: {table: kinds, by: {kind: kind_of}, gives: depth}",
        "stop",
        "common practice",
        7,
        "the table `kinds` for everywhere has `anchor`, which `kind_of` never is",
        "",
    ),
    (
        "embedment",
        DEPTH,
        "stop",
        "{document: hearsay}",
        8,
        "a `stop` may not rest on memory, and nobody has seen `hearsay`",
        "",
    ),
    (
        "embedment",
        REMEMBERED,
        "stop",
        "common practice",
        8,
        "a `stop` may not rest on memory, as the table `remembered` for everywhere does",
        "",
    ),
    ("embedment", "stated: [length]", "stop", "common practice", 6, "the figure has no limit", ""),
    (
        "coverings",
        "at_least: 3 mm",
        "stop",
        "common practice",
        6,
        "`coverings` of a row of 'fixing in a wall' is a list: a figure has to make one value of it",
        "",
    ),
    (
        "kind_of",
        "at_least: 3 mm",
        "stop",
        "common practice",
        7,
        "the figure is a word: it has no least and no most",
        "",
    ),
    (
        "kind_of",
        "one_of: [frame fixing, wood scrw]",
        "stop",
        "common practice",
        7,
        "the figure cannot be `wood scrw`",
        "wood screw",
    ),
    ("base", "one_of: [brik]", "stop", "common practice", 7, "`brik` is in no group of terms", "brick"),
]


@pytest.mark.parametrize(("figure", "demand", "severity", "source", "line", "message", "nearest"), FIXING_MISTAKES)
def test_what_a_rule_asks_is_checked_against_row_and_tables(
    rules_of: RulesOf, figure: str, demand: str, severity: str, source: str, line: int, message: str, nearest: str
) -> None:
    book = FIXING.replace("FIGURE", figure).replace("DEMAND", demand)
    book = book.replace("SEVERITY", severity).replace("SOURCE", source)
    found = [
        (problem.place.line, problem.message, problem.nearest)
        for problem in _mistakes(rules_of({"everywhere/fixings.yaml": book}))
    ]
    assert found == [(line, message, nearest)]


@pytest.mark.parametrize(("demand", "source"), [(REMEMBERED, "common practice"), (DEPTH, "{document: hearsay}")])
def test_a_milder_rule_may_rest_on_memory_and_says_so(rules_of: RulesOf, demand: str, source: str) -> None:
    book = FIXING.replace("FIGURE", "embedment").replace("DEMAND", demand)
    folder = rules_of({"everywhere/a.yaml": book.replace("SEVERITY", "improve").replace("SOURCE", source)})
    library = read_library(folder)
    (rule,) = read_rulebooks(folder, library, "").rules
    tables = [table.source.seen for limit in rule.limits if limit.row for table in library.tables[limit.row.table]]
    assert "memory" in (rule.source.seen, *tables)
