"""`dryfit rules`: what the books say, one rule a line, or everything about one of them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.commands.conftest import Here, Write
from tests.commands.running import PUMP_HOUSE, REPOSITORY, dryfit, own_rule
from validator.measures.catalogue import MEASURES
from validator.measures.site import row_class

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
    assert "ring-conductors" in england - oregon


def test_a_rule_is_printed_with_limit_source_reason_and_place(here: Here) -> None:
    ran = here("rules", "waste-fall", "--country", "GB-ENG")
    assert ran.status == 0
    for said in ("waste-fall: Fall of a waste", "18 mm/m", "90 mm/m", "Approved Document H", "put right", "first fix"):
        assert said in ran.out
    place = re.search(r"stands in +(\S+), line (\d+)", ran.out)
    assert place is not None
    assert "waste-fall:" in (REPOSITORY / place[1]).read_text("utf-8").splitlines()[int(place[2]) - 1]


def test_a_rule_of_each_sort_can_be_printed_on_its_own(here: Here) -> None:
    for name in sorted(written_in_the_books())[::40]:
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


def tried_rule(limit: str = "30 mm/m") -> str:
    """The book of one rule with a trial of it at a fall of 30 mm in a metre."""
    trial = "{plan: pump-house, vary: /appliances/dishwasher/waste/fall, met: 30 mm/m, not_met: 29 mm/m}"
    return own_rule(limit=limit) + f"    tried: {trial}\n"


def pump_house() -> str:
    return PUMP_HOUSE.replace("40 mm to stack 1500 at 25 mm/m", "{pipe: 40 mm, to: stack, length: 1500, fall: 25 mm/m}")


def test_a_book_is_tried_on_both_sides(here: Here, write: Write) -> None:
    write("pump-house.yaml", pump_house())
    ran = here("rules", "--try", write("own.yaml", tried_rule()))
    assert (ran.status, ran.err) == (0, "")
    assert "dishwasher: met: fall 30 mm/m, needed 30 mm/m at least" in ran.out
    assert "dishwasher: not met: fall 29 mm/m, needed 30 mm/m at least" in ran.out
    assert ran.out.endswith("One trial does as claimed.\n")


def test_a_trial_that_does_not_do_what_it_claims_leaves_with_1(here: Here, write: Write) -> None:
    write("pump-house.yaml", pump_house())
    ran = here("rules", "--try", write("own.yaml", tried_rule("32 mm/m")))
    assert ran.status == 1
    assert "NOT AS IT CLAIMS: this value should be met, and it is not met." in " ".join(ran.out.split())
    assert ran.out.endswith("1 of 1 trials does not do as claimed.\n")


def test_a_trial_without_its_plan_leaves_with_1(here: Here, write: Write) -> None:
    ran = here("rules", "--try", write("own.yaml", tried_rule()))
    assert ran.status == 1
    assert "NOT TRIED: there is no plan `pump-house` to try the rule in." in " ".join(ran.out.split())


def test_a_book_without_a_trial_is_not_taken_for_tried(here: Here, write: Write) -> None:
    ran = here("rules", "--try", write("own.yaml", own_rule()))
    assert ran.status == 1
    assert "Nothing was tried" in ran.out


def test_a_book_may_be_named_as_given_and_as_tried(here: Here, write: Write) -> None:
    write("pump-house.yaml", pump_house())
    book = write("own.yaml", tried_rule())
    assert here("rules", "--try", book, "--rules", book).status == 0
    assert here("rules", "--try", "own.yaml", "--rules", book).status == 0


def test_a_book_to_try_that_is_not_there_leaves_with_2(here: Here) -> None:
    ran = here("rules", "--try", "nowhere.yaml")
    assert (ran.status, ran.out) == (2, "")
    assert "nowhere.yaml" in ran.err


def test_a_rule_is_shown_with_what_its_trial_comes_to_at_the_limit(here: Here) -> None:
    out = " ".join(here("rules", "hood-over-gas-hob", "--country", "GB").out.split())
    assert "hob: 1710 hood − 910 worktop − 40 pan supports = 760, needed 760 at least" in out


def test_every_kind_of_row_is_listed(here: Here) -> None:
    ran = here("rules", "--kinds")
    assert (ran.status, ran.err) == (0, "")
    assert set(MEASURES) <= set(ran.out.splitlines())


@pytest.mark.parametrize("kind", MEASURES)
def test_a_kind_is_printed_with_every_name_a_rule_can_use(here: Here, kind: str) -> None:
    ran = here("rules", "--kinds", *kind.split())
    row = row_class(kind)
    assert ran.status == 0
    named = set(re.findall(r"^  (\w+)(?: |$)", ran.out.split("\n\n", 1)[1], re.MULTILINE))
    assert named >= row.fields.keys() | row.figures.keys()
    assert [line for line in ran.out.splitlines() if len(line) > 80] == []


def test_a_figure_is_printed_with_label_ends_and_units(here: Here) -> None:
    out = " ".join(here("rules", "--kinds", "hob under hood").out.split())
    assert "clearance, from pan supports to lowest edge of the hood. Length (mm, m, in, ft)" in out
    assert "fuel of the hob. One of 'gas', 'induction', 'ceramic', 'solid plate'" in out


def test_a_kind_there_is_not_leaves_with_1_and_the_nearest(here: Here) -> None:
    ran = here("rules", "--kinds", "hob", "under", "hod")
    assert (ran.status, ran.out) == (1, "")
    assert "Perhaps «hob under hood» was meant." in ran.err


def test_the_index_has_every_rule_once_for_each_country(here: Here) -> None:
    rows = re.findall(r"^\| [a-z ]+ \| `([a-z-]+)` \| .*? \| (\S+) \|", here("rules", "--index").out, re.MULTILINE)
    assert len(rows) == len(set(rows))
    assert {name for name, _ in rows} == written_in_the_books()
