"""Which rules apply: books laid over each other by country, what may change what, and what a given book may take away.

The limits in the books here are made up.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from validator.judging.books import Books, read_rulebooks
from validator.judging.rules import Rule
from validator.measures.catalogue import MEASURES
from validator.measures.rows import Row, Subject
from validator.measures.site import row_class
from validator.plan.problems import Problem, Unreadable
from validator.reference.folder import NOT_BOOKS, rules_folder
from validator.reference.library import read_library

RulesOf = Callable[[dict[str, str]], Path]


def _book(covers: str, *rules: str, title: str = "Cooking") -> str:
    return f"book: {{title: {title}, covers: {covers}}}\nrules:\n" + "".join(rules)


def _rule(limit: str = "at_least: 700 mm", name: str = "hood-height", **lines: str) -> str:
    said = {
        "title": "Height of a hood",
        "each": "hob under hood",
        "figure": "clearance",
        "severity": "put right",
        "before": "drilling",
        "because": "Heads meet it.",
        "remedy": "Hang it higher.",
        "source": "common practice",
        "tried": "{plan: fragments/hob, vary: /appliances/hood/up, met: 1600, not_met: 1599}",
        **lines,
    }
    return f"  {name}:\n    {limit}\n" + "".join(f"    {key}: {text}\n" for key, text in said.items())


def _read(folder: Path, country: str = "GB-ENG", *given: Path) -> Books:
    return read_rulebooks(folder, read_library(folder), country, given)


def _mistakes(folder: Path, country: str = "GB-ENG", *given: Path) -> list[Problem]:
    with pytest.raises(Unreadable) as unreadable:
        _read(folder, country, *given)
    return unreadable.value.problems


def _given(folder: Path, text: str, name: str = "given.yaml") -> Path:
    file = folder.parent / name
    file.write_text(text, "utf-8")
    return file


def _least(rule: Rule) -> float:
    (limit,) = rule.limits
    assert limit.expression is not None
    return float(limit.expression.evaluate(Row(Subject("", ""))))


THREE = {
    "everywhere/a.yaml": _book("everywhere", _rule(name="hood-height")),
    "GB/b.yaml": _book("GB", _rule(name="pipe-height")),
    "GB-ENG/c.yaml": _book("GB-ENG", _rule(name="shelf-height")),
    "US/d.yaml": _book("US", _rule(name="range-height")),
}


@pytest.mark.parametrize(
    ("country", "names"),
    [
        ("GB-ENG", ["hood-height", "pipe-height", "shelf-height"]),
        ("GB-SCT", ["hood-height", "pipe-height"]),
        ("GB", ["hood-height", "pipe-height"]),
        ("US-CA", ["hood-height", "range-height"]),
        ("FR", ["hood-height"]),
        ("", ["hood-height"]),
    ],
)
def test_the_books_that_cover_the_country_apply_the_general_first(
    rules_of: RulesOf, country: str, names: list[str]
) -> None:
    assert [rule.name for rule in _read(rules_of(THREE), country).rules] == names


def test_what_a_book_covers_is_what_it_says_not_the_folder_it_lies_in(rules_of: RulesOf) -> None:
    books = {"GB/a.yaml": _book("everywhere", _rule())}
    assert [rule.name for rule in _read(rules_of(books), "FR").rules] == ["hood-height"]


@pytest.mark.parametrize(("country", "missing"), [("", True), ("FR", False)])
def test_a_plan_without_a_country_is_told_apart_from_one_without_books(
    rules_of: RulesOf, country: str, missing: bool
) -> None:
    assert _read(rules_of(THREE), country).country_missing is missing


def test_a_more_special_book_replaces_a_rule_and_says_why(rules_of: RulesOf) -> None:
    special = _rule("at_least: 600 mm", replaces="the standard here asks for less")
    books = _read(rules_of({**THREE, "GB-ENG/c.yaml": _book("GB-ENG", special, title="English cooking")}))
    rule = next(rule for rule in books.rules if rule.name == "hood-height")
    assert (rule.book, _least(rule)) == ("English cooking", 600.0)
    (change,) = books.changed
    assert (change.how, change.why, change.before) == ("replaces", "the standard here asks for less", "Cooking")


def test_the_same_rule_again_without_saying_why_shows_both_places(rules_of: RulesOf) -> None:
    (problem,) = _mistakes(rules_of({**THREE, "GB/b.yaml": _book("GB", _rule())}))
    assert problem.message == "there is already a rule `hood-height` in Cooking"
    assert [problem.place.file, *(place.file for place in problem.also)] == [
        "rules/GB/b.yaml",
        "rules/everywhere/a.yaml",
    ]


def test_a_book_may_not_change_one_that_is_as_special(rules_of: RulesOf) -> None:
    again = _rule("at_least: 800 mm", name="pipe-height", tightens="it is wiser")
    (problem,) = _mistakes(rules_of({**THREE, "GB/c.yaml": _book("GB", again)}))
    assert problem.message == "only a more special book than Cooking (GB) may change its rule"


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        (_rule("at_least: 700 mm"), {"limit": "at_least: 699 mm"}, "asks for at least 699 mm where 700 mm stood"),
        (_rule("at_most: 700 mm"), {"limit": "at_most: 701 mm"}, "asks for at most 701 mm where 700 mm stood"),
        (_rule("equals: 700 mm"), {"limit": "equals: 701 mm"}, "asks for equals 701 mm where 700 mm stood"),
        (_rule("within: [600 mm, 700 mm]"), {"limit": "at_most: 650 mm"}, "has no `at least`"),
        (
            _rule("at_least: [600 mm, 700 mm]"),
            {"limit": "at_least: 650 mm"},
            "asks for at least 650 mm where 700 mm stood",
        ),
        (_rule(), {"severity": "note"}, "is milder: note, not put right"),
        (_rule(), {"when": "fuel == 'gas'"}, "applies under another condition"),
        (_rule(), {"figure": "surface"}, "judges surface of hob under hood, not clearance of hob under hood"),
        (
            _rule("one_of: [gas]", figure="fuel"),
            {"limit": "one_of: [gas, ceramic]", "figure": "fuel"},
            "allows `ceramic`",
        ),
    ],
)
def test_what_says_it_tightens_may_not_loosen(rules_of: RulesOf, before: str, after: dict[str, str], said: str) -> None:
    tightened = _rule(**{**after, "tightens": "it is safer"})
    books = {"everywhere/a.yaml": _book("everywhere", before), "GB/b.yaml": _book("GB", tightened)}
    (problem,) = _mistakes(rules_of(books))
    assert problem.message == f"`hood-height` says that it tightens, and {said}"
    assert problem.place.file == "rules/GB/b.yaml"


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (
            _rule("at_least: 700 mm"),
            _rule("at_least: 700 mm", tightens="as strict, by law", source="{document: building-act}"),
        ),
        (_rule("at_least: 700 mm"), _rule("at_least: [650 mm, 750 mm]", tightens="safer")),
        (_rule("at_most: 700 mm"), _rule("at_most: 27 in", tightens="safer")),
        (_rule("at_least: 700 mm", when="fuel == 'gas'"), _rule("at_least: 700 mm", tightens="for all hobs")),
        (_rule("at_least: supports + 1 mm"), _rule("at_least: 2 mm", tightens="nobody can tell which is stricter")),
    ],
)
def test_what_tightens_is_laid_over_the_rule(rules_of: RulesOf, before: str, after: str) -> None:
    books = {"everywhere/a.yaml": _book("everywhere", before), "GB/b.yaml": _book("GB", after)}
    (rule,) = _read(rules_of(books)).rules
    assert rule.covers == "GB"


@pytest.mark.parametrize("how", ["tightens", "replaces"])
def test_what_changes_a_rule_there_is_not_is_told_the_nearest(rules_of: RulesOf, how: str) -> None:
    books = {**THREE, "GB/e.yaml": _book("GB", _rule(name="hod-height", **{how: "it is wiser"}))}
    (problem,) = _mistakes(rules_of(books))
    assert (problem.message, problem.nearest) == (
        f"there is no rule `hod-height` before this one that it {how}",
        "hood-height",
    )


def test_a_book_of_ours_may_not_withdraw(rules_of: RulesOf) -> None:
    books = {**THREE, "GB/e.yaml": _book("GB", "  hood-height: {withdraws: nobody needs it}\n")}
    (problem,) = _mistakes(rules_of(books))
    assert problem.message == "only a book given on the command line may withdraw a rule"


def test_a_given_book_withdraws_a_rule_and_the_reason_is_kept(rules_of: RulesOf) -> None:
    folder = rules_of(THREE)
    given = _given(folder, _book("GB", "  hood-height: {withdraws: there is no hood}\n"))
    books = _read(folder, "GB-ENG", given)
    assert [rule.name for rule in books.rules] == ["pipe-height", "shelf-height"]
    assert books.withdrawn == {"hood-height": "there is no hood"}
    assert books.knows("hood-height")


def test_withdrawing_a_rule_there_is_not_is_told_the_nearest(rules_of: RulesOf) -> None:
    folder = rules_of(THREE)
    given = _given(folder, _book("GB", "  hood-hight: {withdraws: there is no hood}\n"))
    (problem,) = _mistakes(folder, "GB-ENG", given)
    assert (problem.message, problem.nearest) == ("there is no rule `hood-hight` to withdraw", "hood-height")
    assert (problem.place.file, problem.place.line) == (str(given), 3)


def test_withdrawing_says_why_and_nothing_else(rules_of: RulesOf) -> None:
    folder = rules_of(THREE)
    given = _given(folder, _book("GB", "  hood-height: {withdraws: no hood, severity: note}\n"))
    (problem,) = _mistakes(folder, "GB-ENG", given)
    assert problem.message == "the rule `hood-height`, which is withdrawn, has no `severity`"


def test_a_given_book_adds_rules_that_need_no_trial_and_goes_last(rules_of: RulesOf) -> None:
    folder = rules_of(THREE)
    rule = "\n".join(line for line in _rule(name="own-height").splitlines() if "tried" not in line) + "\n"
    books = _read(folder, "GB-ENG", _given(folder, _book("everywhere", rule, title="Ours")))
    assert (books.rules[-1].name, books.rules[-1].book) == ("own-height", "Ours")


def test_a_folder_of_given_books_is_read_whole(rules_of: RulesOf) -> None:
    folder = rules_of(THREE)
    (folder.parent / "ours").mkdir()
    for name in ("one", "two"):
        _given(folder, _book("everywhere", _rule(name=f"{name}-height")), f"ours/{name}.yaml")
    books = _read(folder, "GB-ENG", folder.parent / "ours")
    assert [rule.name for rule in books.rules[-2:]] == ["one-height", "two-height"]


@pytest.mark.parametrize(
    ("name", "message"), [("not-there.yaml", "there is no file `not-there.yaml`"), ("", "holds no rulebook")]
)
def test_a_given_book_that_is_not_there_is_a_mistake(rules_of: RulesOf, name: str, message: str) -> None:
    folder = rules_of(THREE)
    (folder.parent / "empty").mkdir()
    (problem,) = _mistakes(folder, "GB", folder.parent / "empty" / name)
    assert problem.message == message


def test_a_given_book_for_another_country_is_left_aside_and_named(rules_of: RulesOf) -> None:
    folder = rules_of(THREE)
    given = _given(folder, _book("US", _rule(name="own-height"), title="Ours"))
    books = _read(folder, "GB-ENG", given)
    assert [book.title for book in books.left_aside] == ["Ours"]
    assert books.resolve("own-height") is None


def test_a_rule_is_found_under_its_old_name(rules_of: RulesOf) -> None:
    books = _read(rules_of({"everywhere/a.yaml": _book("everywhere", _rule(also_called="[height of hood]"))}))
    assert books.resolve("Height-of-hood") == "hood-height"


def test_an_old_name_leads_to_one_rule_only(rules_of: RulesOf) -> None:
    rules = [_rule(name="hood-height", also_called="[pipe-height]"), _rule(name="pipe-height")]
    (problem,) = _mistakes(rules_of({"everywhere/a.yaml": _book("everywhere", *rules)}))
    assert problem.message == "`pipe-height` also leads to the rule `pipe-height`"


def test_a_rule_for_another_country_is_known_and_does_not_apply(rules_of: RulesOf) -> None:
    books = _read(rules_of(THREE), "GB-ENG")
    assert (books.resolve("range-height"), books.knows("range-height")) == (None, True)
    assert books.elsewhere == {"range-height": "US"}
    assert (books.knows("rang-height"), books.nearest("rang-height")) == (False, "range-height")


def test_mistakes_in_books_for_other_countries_do_not_keep_a_plan_from_being_read(rules_of: RulesOf) -> None:
    folder = rules_of({**THREE, "US/d.yaml": _book("US", _rule(severity="bad"))})
    assert len(_read(folder, "GB-ENG").rules) == 3
    assert [problem.place.file for problem in _mistakes(folder, "US-OR")] == ["rules/US/d.yaml"]


def test_the_report_is_told_which_books_applied(rules_of: RulesOf) -> None:
    dated = THREE["GB/b.yaml"].replace("covers: GB", "covers: GB, edition: 2026.1")
    folder = rules_of({**THREE, "GB/b.yaml": dated})
    given = _given(folder, _book("everywhere", _rule(name="own-height"), title="Ours"))
    assert _read(folder, "GB-ENG", given).applied == "GB-ENG 2026.1, Ours"
    assert _read(folder, "").applied == "everywhere"


def test_the_digest_changes_with_every_file_that_is_read(rules_of: RulesOf) -> None:
    folder = rules_of(THREE)
    before = _read(folder).digest
    assert _read(rules_of({**THREE, "fragments/hob.yaml": "dryfit: 1\n"})).digest == before
    changed = [
        _read(rules_of({**THREE, "US/d.yaml": _book("US", _rule(name="range-height", title="Range"))})).digest,
        _read(rules_of({**THREE, "stages.yaml": "drilling: drill?\nhand-over: finished?\n"})).digest,
        _read(folder, "GB-ENG", _given(folder, _book("everywhere", _rule(name="own-height")))).digest,
    ]
    assert len({before, *changed}) == 4


def test_where_a_figure_is_measured_comes_from_the_figure(rules_of: RulesOf) -> None:
    (rule,) = _read(rules_of({"everywhere/a.yaml": _book("everywhere", _rule())})).rules
    assert rule.measured == "from pan supports to lowest edge of the hood"


@pytest.mark.parametrize(
    ("source", "said"),
    [
        ("common practice", "common practice"),
        ("{document: gas-standard, clause: clause 8.1}", "Gas standard, 2010, clause 8.1"),
        ("{document: gas-standard, edition: 2012, seen: memory}", "Gas standard, 2012"),
    ],
)
def test_a_source_is_cited_by_title_edition_and_clause(rules_of: RulesOf, source: str, said: str) -> None:
    (rule,) = _read(rules_of({"everywhere/a.yaml": _book("everywhere", _rule(source=source))})).rules
    assert str(rule.source) == said


def test_only_law_is_law(rules_of: RulesOf) -> None:
    rules = [_rule(name="a-height", source="{document: building-act}"), _rule(name="b-height")]
    books = _read(rules_of({"everywhere/a.yaml": _book("everywhere", *rules)}))
    assert [rule.of_law for rule in books.rules] == [True, False]


@pytest.mark.parametrize("country", ["", "GB-ENG", "GB-SCT", "GB-WLS", "GB-NIR", "US-OR", "AU-WA", "IE", "FR"])
def test_our_own_books_are_read_without_a_mistake(country: str) -> None:
    folder = rules_folder()
    books = read_rulebooks(folder, read_library(folder), country)
    assert all(rule.tried for rule in books.rules)


def test_every_book_of_ours_is_read_for_some_country() -> None:
    folder = rules_folder()
    covered = {file.parent.name for file in folder.glob("*/*.yaml")} - NOT_BOOKS
    library = read_library(folder)
    applied = {book.covers for covers in covered for book in read_rulebooks(folder, library, covers).books}
    assert applied == covered


def test_no_row_has_a_name_that_remedies_give_another_meaning() -> None:
    names = {name for kind in MEASURES for name in (*row_class(kind).fields, *row_class(kind).figures)}
    assert names & {"have", "need", "short"} == set()
