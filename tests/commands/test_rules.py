"""`dryfit rules`: what the books say, one rule a line, or everything about one of them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.commands.conftest import Here, Write
from tests.commands.running import REPOSITORY, dryfit, own_rule

NAME = re.compile(r"^  (stop|put right|improve|note) +([a-z0-9-]+)( |$)")


def names(text: str) -> list[str]:
    return [found[2] for line in text.splitlines() if (found := NAME.match(line))]


def written_in_the_books() -> set[str]:
    """The names of all rules, read from the books as plain text."""
    found = set()
    for book in (REPOSITORY / "rules").rglob("*.yaml"):
        text = book.read_text("utf-8")
        if text.startswith("book:"):
            found |= set(re.findall(r"^  ([a-z0-9-]+):$", text.split("\nrules:\n", 1)[1], re.MULTILINE))
    return found


def test_every_rule_of_every_book_is_listed(here: Here) -> None:
    ran = here("rules")
    assert (ran.status, ran.err) == (0, "")
    assert set(names(ran.out)) == written_in_the_books()


def test_the_last_line_counts_them(here: Here) -> None:
    out = here("rules").out
    assert out.splitlines()[-1].startswith(f"{len(names(out))} rules.")


def test_no_line_is_longer_than_a_terminal_is_wide(here: Here) -> None:
    assert [line for line in here("rules").out.splitlines() if len(line) > 80] == []


def test_only_those_of_a_country_are_listed_if_one_is_asked_for(here: Here) -> None:
    england, oregon, nowhere = (set(names(here("rules", "--country", code).out)) for code in ("GB-ENG", "US-OR", "ZZ"))
    assert "waste-fall" in england
    assert nowhere < england
    assert nowhere < oregon
    assert "gas-work-registered" in england - oregon


def test_a_rule_is_printed_with_limit_source_reason_and_place(here: Here) -> None:
    ran = here("rules", "waste-fall", "--country", "GB-ENG")
    assert ran.status == 0
    for said in ("waste-fall: Fall of a waste", "18 mm/m", "90 mm/m", "Approved Document H", "put right", "first fix"):
        assert said in ran.out
    place = re.search(r"stands in +(\S+), line (\d+)", ran.out)
    assert place is not None
    assert "waste-fall:" in (REPOSITORY / place[1]).read_text("utf-8").splitlines()[int(place[2]) - 1]


def test_a_rule_of_each_sort_can_be_printed_on_its_own(here: Here) -> None:
    for name in sorted(written_in_the_books())[::25]:
        ran = here("rules", name)
        assert (name, ran.status, ran.err) == (name, 0, "")
        assert ran.out.startswith(f"{name}: ")
        assert "rests on" in ran.out
        assert [line for line in ran.out.splitlines() if len(line) > 80] == []


def test_a_rule_that_differs_between_countries_is_printed_in_each_form(here: Here) -> None:
    out = here("rules", "waste-fall").out
    assert out.count("waste-fall: ") > 1


@pytest.mark.parametrize("spelt", ["waste fall", "Waste-Fall", "waste_fall"])
def test_names_are_found_however_they_are_spelt(here: Here, spelt: str) -> None:
    assert here("rules", spelt).status == 0


def test_a_rule_there_is_not_leaves_with_1_and_the_nearest(here: Here) -> None:
    ran = here("rules", "waste-fal")
    assert (ran.status, ran.out) == (1, "")
    assert "There is no rule `waste-fal`. Perhaps `waste-fall` was meant." in ran.err


def test_rules_of_a_book_given_are_listed_too(here: Here, write: Write) -> None:
    book = write("own.yaml", own_rule())
    assert "steeper-waste" in names(here("rules", "--rules", book).out)
    assert "own.yaml, line 3" in here("rules", "steeper-waste", "--rules", book).out
    assert "steeper-waste" not in names(here("rules").out)


def test_a_book_that_cannot_be_read_leaves_with_2(here: Here, write: Write) -> None:
    ran = here("rules", "--rules", write("own.yaml", own_rule("sotp")))
    assert (ran.status, ran.out) == (2, "")
    assert "own.yaml, line 8" in ran.err
    assert "Perhaps «stop» was meant." in ran.err


def test_a_book_that_is_not_there_leaves_with_2(here: Here) -> None:
    ran = here("rules", "--rules", "nowhere.yaml")
    assert (ran.status, ran.out) == (2, "")
    assert "nowhere.yaml" in ran.err


def test_as_a_process_the_list_goes_to_standard_output(folder: Path) -> None:
    ran = dryfit("rules", "waste-fall", folder=folder)
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.startswith("waste-fall: ")
