"""`dryfit jobsheet`: files, issues, and whether a sheet still belongs to its plan."""

from __future__ import annotations

import importlib
import shutil
import sys
from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.commands.conftest import Here
from tests.commands.repositories import GOOD, make
from tests.commands.running import DEMO, ON
from tests.reporting.sheets.pages import Page
from validator.reporting.sheets.kept import next_issue, read_back

TERN = DEMO / "tern-cottage"


@pytest.fixture
def plan(folder: Path) -> Path:
    return Path(shutil.copytree(TERN, folder / "kitchen"))


def moved(plan: Path) -> None:
    layout = plan / "layout.yaml"
    layout.write_text(layout.read_text("utf-8").replace("S4: low socket in T1", "S4: low socket in B1"), "utf-8")


def test_a_sheet_goes_to_standard_output_or_into_a_file(here: Here, plan: Path, folder: Path) -> None:
    written = here("jobsheet", plan, "--for", "electrician", "--on", ON, "--out", "e.html")
    assert (written.status, written.out, written.err) == (0, "", "")
    assert (folder / "e.html").read_text("utf-8").startswith("<!DOCTYPE html>")


def test_all_sheets_go_into_a_folder(here: Here, plan: Path, folder: Path) -> None:
    assert (
        here("jobsheet", plan, "--for", "all", "--on", ON).err
        == "Several sheets go into a folder: say which with --out.\n"
    )
    assert here("jobsheet", plan, "--for", "all", "--on", ON, "--out", "sheets").status == 0
    assert "gas-engineer.html" in {path.name for path in (folder / "sheets").iterdir()}


def test_a_name_of_the_plan_stands_for_a_trade(here: Here, folder: Path) -> None:
    assert (
        here("jobsheet", DEMO / "cedar-street", "--for", "countertop shop", "--on", ON, "--out", "c.html").status == 0
    )
    assert read_back((folder / "c.html").read_text("utf-8")).trade == "worktop maker"


def test_a_trade_nobody_knows_is_refused_with_the_nearest(here: Here, plan: Path) -> None:
    ran = here("jobsheet", plan, "--for", "electrican", "--on", ON)
    assert ran.status == 2
    assert "Perhaps «electrician» was meant." in ran.err


def test_a_sheet_belongs_to_its_plan_until_something_on_it_moves(here: Here, plan: Path) -> None:
    here("jobsheet", plan, "--for", "electrician", "--on", ON, "--out", "e.html")
    here("jobsheet", plan, "--for", "decorator", "--on", ON, "--out", "d.html")
    assert here("jobsheet", "--verify", "e.html", plan).out.startswith(
        "YES: it still belongs to the plan; plan and rules"
    )
    moved(plan)
    ran = here("jobsheet", "--verify", "e.html", plan)
    assert ran.status == 1
    assert ran.out.startswith("NO: it no longer says what the plan says.")
    assert "S4, middle, from west, at your left: 340 → 908" in ran.out
    ran = here("jobsheet", "--verify", "d.html", plan)
    assert (ran.status, "have changed, but nothing on this sheet" in ran.out) == (0, True)


def test_an_altered_sheet_is_found_out(here: Here, plan: Path, folder: Path) -> None:
    here("jobsheet", plan, "--for", "electrician", "--on", ON, "--out", "e.html")
    page = (folder / "e.html").read_text("utf-8")
    (folder / "e.html").write_text(page.replace('"340"', '"350"'), "utf-8")
    ran = here("jobsheet", "--verify", "e.html", plan)
    assert (ran.status, "the sheet was altered" in ran.out) == (1, True)


@pytest.mark.parametrize("content", ["", "<html>", "<template id=dryfit-jobsheet>{</template>", "\x00" * 90])
def test_a_file_that_is_no_sheet_is_refused(here: Here, plan: Path, folder: Path, content: str) -> None:
    (folder / "x.html").write_text(content, "utf-8")
    ran = here("jobsheet", "--verify", "x.html", plan)
    assert (ran.status, ran.out) == (2, "")
    assert ran.err.startswith("`x.html` is no jobsheet of dryfit")


def test_the_next_issue_says_what_changed_since_the_one_they_hold(here: Here, plan: Path, folder: Path) -> None:
    here("jobsheet", plan, "--for", "electrician", "--on", ON, "--out", "a.html")
    here("jobsheet", plan, "--for", "electrician", "--on", ON, "--since", "a.html", "--out", "same.html")
    moved(plan)
    here("jobsheet", plan, "--for", "electrician", "--on", ON, "--since", "a.html", "--out", "b.html")
    same, after = ((folder / name).read_text("utf-8") for name in ("same.html", "b.html"))
    assert (read_back(same).issue, "Nothing on this sheet." in same) == ("A", True)
    assert read_back(after).issue == "B"
    assert "Changed since issue A of 1 March 2027" in after
    assert "<li>S4, middle, from west, at your left: 340 → 908</li>" in after


def test_a_revision_of_git_stands_for_the_sheet_they_hold(
    here: Here, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    repository = make(folder, monkeypatch)
    repository.commit(plan=GOOD)
    repository.write("plan.yaml", GOOD.replace("1500 at", "1600 at"))
    ran = here("jobsheet", "plan.yaml", "--for", "plumber", "--on", ON, "--since", "HEAD", "--out", "p.html")
    assert (ran.status, ran.err) == (0, "")
    assert "<li>dishwasher, length: 1500 → 1600</li>" in (folder / "p.html").read_text("utf-8")
    ran = here("jobsheet", "plan.yaml", "--for", "plumber", "--on", ON, "--since", "nowhere")
    assert (ran.status, ran.out) == (2, "")
    assert "`nowhere` is no file of a sheet" in ran.err


def test_the_sheet_of_another_trade_is_no_former_issue(here: Here, plan: Path) -> None:
    here("jobsheet", plan, "--for", "plumber", "--on", ON, "--out", "p.html")
    ran = here("jobsheet", plan, "--for", "electrician", "--on", ON, "--since", "p.html")
    assert (ran.status, ran.err) == (2, "`p.html` is the sheet of the plumber, not of the electrician.\n")


def test_prices_are_printed_with_money(here: Here, folder: Path) -> None:
    here("jobsheet", DEMO / "cedar-street", "--for", "electrician", "--on", ON, "--money", "--out", "m.html")
    assert "quote 3400 USD" in (folder / "m.html").read_text("utf-8")


def test_a_folder_that_cannot_be_made_is_said_in_words(here: Here, plan: Path, folder: Path) -> None:
    (folder / "sheets").write_text("a file", "utf-8")
    ran = here("jobsheet", plan, "--for", "all", "--on", ON, "--out", "sheets")
    assert (ran.status, ran.err) == (2, "`sheets` cannot be written: File exists.\n")


def test_a_pdf_without_what_makes_it_is_refused_in_words(
    here: Here, plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    ran = here("jobsheet", plan, "--for", "plumber", "--on", ON, "--pdf", "--out", "p.pdf")
    assert ran.status == 2
    assert "pip install '.[pdf]'" in ran.err


def test_a_pdf_holds_each_row_of_each_table_of_the_page(here: Here, plan: Path, folder: Path) -> None:
    try:
        importlib.import_module("weasyprint")
    except (ImportError, OSError) as error:
        pytest.skip(f"WeasyPrint cannot be loaded: {error}")
    for more, name in (([], "p.html"), (["--pdf"], "p.pdf")):
        ran = here("jobsheet", plan, "--for", "plumber", "--on", ON, "--issue", "A", *more, "--out", name)
        assert (ran.status, ran.err) == (0, "")
    read = ["".join(page.extract_text().split()) for page in PdfReader(folder / "p.pdf").pages]
    rows = ["".join("".join(row).split()) for row in Page((folder / "p.html").read_text("utf-8")).rows()]
    assert len(rows) > 5
    assert [row for row in rows if not any(row in page for page in read)] == []


def test_letters_of_issues_follow_each_other() -> None:
    assert [next_issue(letter) for letter in ("", "A", "Z", "AZ", "ZZ")] == ["A", "B", "AA", "BA", "AAA"]
