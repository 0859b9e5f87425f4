"""`dryfit check --against REVISION`: what a change brought, cured and moved, in real repositories."""

from __future__ import annotations

import itertools
import json
from pathlib import Path

import pytest
from markdown_it import MarkdownIt
from markdown_it.token import Token

from tests.commands.conftest import Here
from tests.commands.repositories import GOOD, STOPPED, Repository, make
from tests.commands.running import ON, Ran, own_rule

UNKNOWN = GOOD.replace("floors: none\n", "")
"""A section left out: something to find out, which is no STOP."""


@pytest.fixture
def repository(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Repository:
    return make(folder, monkeypatch)


@pytest.fixture
def compare(here: Here, repository: Repository) -> Here:
    """Checks plan.yaml, or others, against a revision."""

    def run(revision: str, *words: str) -> Ran:
        ran = here("check", "--against", revision, "--on", ON, *(words or ("plan.yaml",)))
        assert "Traceback" not in ran.out + ran.err
        return ran

    return run


class TestWhatIsTold:
    def test_a_point_brought_is_told_as_in_the_report_with_what_was_there_before(
        self, compare: Here, repository: Repository
    ) -> None:
        repository.commit(plan=GOOD)
        repository.write("plan.yaml", STOPPED)
        ran = compare("HEAD")
        assert (ran.status, ran.err) == (1, "")
        assert "THIS CHANGE BRINGS WHAT BLOCKS." in ran.out
        assert "STOP  Waste as steep as we want it" in ran.out
        assert "have       19 mm/m" in ran.out
        assert "was        met, 25 mm/m" in ran.out
        assert "The plan is NOT READY; it was READY." in ran.out

    def test_a_point_cured_is_told_with_both_figures(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=STOPPED)
        repository.write("plan.yaml", GOOD)
        ran = compare("HEAD")
        assert ran.status == 0
        assert "cured      Waste as steep as we want it, dishwasher: 19 mm/m → 25 mm/m" in ran.out

    def test_a_point_that_moved_is_told_from_and_to_and_does_not_block(
        self, compare: Here, repository: Repository
    ) -> None:
        repository.commit(plan=STOPPED)
        repository.write("plan.yaml", STOPPED.replace("19 mm/m", "18.5 mm/m"))
        ran = compare("HEAD")
        assert ran.status == 0
        assert "have       19 mm/m → 18.5 mm/m" in ran.out
        assert "short by   1 mm/m → 1.5 mm/m: worse" in ran.out

    def test_a_point_that_goes_with_its_thing_is_told_as_gone(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=STOPPED)
        before, appliances, rest = STOPPED.partition("appliances:")
        repository.write("plan.yaml", f"{before}{appliances} none\n{rest[rest.index('points:') :]}")
        ran = compare("HEAD")
        assert ran.status == 0
        assert "gone       Waste as steep as we want it, dishwasher" in ran.out

    def test_a_point_that_is_no_longer_known_is_not_called_cured(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=STOPPED)
        repository.write("plan.yaml", STOPPED.replace("at 19 mm/m", "at to find out"))
        ran = compare("HEAD")
        assert "cured  " not in ran.out
        assert ran.status in (1, 2)

    def test_something_more_to_find_out_is_told_with_where_the_answer_goes(
        self, compare: Here, repository: Repository
    ) -> None:
        repository.commit(plan=GOOD)
        repository.write("plan.yaml", UNKNOWN)
        ran = compare("HEAD")
        assert "NOT KNOWN, AND NOT ASKED BEFORE" in ran.out
        assert "The plan has no `floors`" in ran.out

    def test_something_answered_is_told(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=UNKNOWN)
        repository.write("plan.yaml", GOOD)
        ran = compare("HEAD")
        assert ran.status == 0
        assert "NO LONGER ASKED" in ran.out
        assert "floors" in ran.out

    def test_lines_that_move_change_nothing(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=STOPPED)
        repository.write("plan.yaml", "# a remark\n\n" + STOPPED.replace("Pump house", "Pump room"))
        ran = compare("HEAD")
        assert ran.status == 0
        assert "NOTHING HAS CHANGED IN WHAT THE RULES SAY." in ran.out
        assert "As before: one place where a rule is not met." in ran.out

    def test_a_country_taken_out_blocks_though_no_rule_is_broken(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD)
        repository.write("plan.yaml", GOOD.replace("country: GB-ENG, ", ""))
        ran = compare("HEAD")
        assert ran.status == 1
        assert "names no country" in ran.out

    def test_what_blocks_is_as_strict_as_asked_for(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD)
        repository.write("plan.yaml", GOOD.replace("25 mm/m", "19 mm/m").replace("severity: stop", "severity: improve"))
        assert compare("HEAD").status == 0
        assert compare("HEAD", "plan.yaml", "--fail-on", "improve").status == 1

    def test_both_sides_are_judged_by_the_same_books(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD)
        book = repository.write("house.yaml", own_rule("stop", "30 mm/m"))
        ran = compare("HEAD", "plan.yaml", "--rules", str(book))
        assert ran.status == 0
        assert "NOTHING HAS CHANGED" in ran.out

    def test_a_plan_that_could_not_be_read_then_counts_as_new_all_over(
        self, compare: Here, repository: Repository
    ) -> None:
        repository.commit(plan=GOOD.replace("25 mm/m", "25 kg"))
        repository.write("plan.yaml", STOPPED)
        ran = compare("HEAD")
        assert ran.status == 1
        assert "could not be read at HEAD (one thing to be mended there), so that everything counts as brought" in (
            " ".join(ran.out.split())
        )

    def test_no_line_is_wider_than_a_terminal(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=STOPPED)
        repository.write("plan.yaml", UNKNOWN.replace("dishwasher", "machine with a name of some length"))
        assert max(map(len, compare("HEAD").out.splitlines())) <= 80


class TestAsData:
    def test_every_change_has_both_sides(self, compare: Here, repository: Repository) -> None:
        commit = repository.commit(plan=GOOD)
        repository.write("plan.yaml", STOPPED)
        ran = compare("HEAD", "plan.yaml", "--form", "json")
        told = json.loads(ran.out)
        assert ran.status == 1
        assert told["since"] == {
            "revision": "HEAD",
            "commit": commit,
            "could be read": True,
            "mistakes": [],
            "ready": True,
        }
        assert [(pair["before"]["result"], pair["now"]["result"]) for pair in told["brought"]] == [("met", "not met")]
        assert told["brought"][0]["now"]["rule"] == "steep waste"
        assert (told["ready"], told["brings what blocks"]) == (False, True)
        assert (told["cured"], told["moved"], told["asked"], told["answered"]) == ([], [], [], [])

    def test_several_plans_are_a_list_and_the_worst_counts(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD, other=GOOD)
        repository.write("other.yaml", STOPPED)
        ran = compare("HEAD", "plan.yaml", "other.yaml", "--form", "json")
        assert [told["brings what blocks"] for told in json.loads(ran.out)] == [False, True]
        assert ran.status == 1

    @pytest.mark.parametrize("form", ["sarif", "junit"])
    def test_forms_for_whole_plans_are_refused(self, compare: Here, repository: Repository, form: str) -> None:
        repository.commit(plan=GOOD)
        ran = compare("HEAD", "plan.yaml", "--form", form)
        assert (ran.status, ran.out) == (2, "")
        assert "text, json, markdown" in ran.err


class TestAsMarkdown:
    def told(self, ran: Ran) -> list[Token]:
        """The tokens of what was printed, as a general reader of Markdown finds them."""
        return MarkdownIt("gfm-like").parse(ran.out)

    def headings(self, tokens: list[Token]) -> list[str]:
        pairs = itertools.pairwise(tokens)
        return [text.content for token, text in pairs if token.type == "heading_open"]

    def test_it_says_only_what_the_change_did(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD)
        repository.write("plan.yaml", STOPPED)
        ran = compare("HEAD", "plan.yaml", "--form", "markdown")
        assert (ran.status, ran.err) == (1, "")
        assert self.headings(self.told(ran)) == [
            "This change brings what blocks: Pump house",
            "Brought",
            "1. STOP: Waste as steep as we want it (dishwasher, to stack)",
        ]
        assert "- **was:** met, 25 mm/m" in ran.out

    def test_what_moved_is_a_table(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=STOPPED)
        repository.write("plan.yaml", STOPPED.replace("19 mm/m", "18.5 mm/m"))
        tokens = self.told(compare("HEAD", "plan.yaml", "--form", "markdown"))
        cells = [text.content for token, text in itertools.pairwise(tokens) if token.type == "td_open"]
        assert cells == [
            "STOP",
            "Waste as steep as we want it, dishwasher",
            "19 mm/m → 18.5 mm/m",
            "at least 20 mm/m",
            "short by 1 mm/m → 1.5 mm/m: worse",
        ]

    def test_several_plans_begin_with_a_table_of_all(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD, other=GOOD)
        repository.write("other.yaml", STOPPED)
        repository.write("bad.yaml", "dryfit: 1\nwals: none\n")
        ran = compare("HEAD", "plan.yaml", "other.yaml", "bad.yaml", "--form", "markdown")
        assert ran.status == 2
        assert ran.out.startswith("| plan | verdict |")
        assert "CANNOT BE READ: bad.yaml" in self.headings(self.told(ran))


class TestRevisions:
    @pytest.mark.parametrize("revision", ["HEAD~1", "main~1", "first", "v1", ":/a change"])
    def test_whatever_git_takes_for_a_revision_will_do(
        self, compare: Here, repository: Repository, revision: str
    ) -> None:
        commit = repository.commit(plan=STOPPED)
        repository.git("branch", "first")
        repository.git("tag", "-a", "v1", "-m", "x")
        repository.write("notes.md", "x")
        repository.git("add", "notes.md")
        repository.git("commit", "--quiet", "--no-verify", "-m", "notes")
        repository.write("plan.yaml", GOOD)
        ran = compare(revision)
        assert ran.status == 0
        assert f"commit {commit[:9]}" in ran.out

    def test_a_folder_is_compared_with_what_it_held(self, compare: Here, repository: Repository) -> None:
        head, rest = STOPPED.split("walls:", 1)
        repository.stage("my house/plan.yaml", head)
        repository.stage("my house/übriges.yaml", "dryfit: 1\nwalls:" + rest)
        repository.commit()
        repository.write("my house/übriges.yaml", "dryfit: 1\nwalls:" + rest.replace("19 mm/m", "25 mm/m"))
        ran = compare("HEAD", "my house")
        assert ran.status == 0
        assert "cured      Waste as steep" in ran.out

    def test_it_works_from_another_folder(
        self, compare: Here, repository: Repository, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        repository.commit(plan=STOPPED)
        repository.write("plan.yaml", GOOD)
        (tmp_path / "link").symlink_to(repository.top)
        monkeypatch.chdir(tmp_path)
        assert "cured  " in compare("HEAD", str(tmp_path / "work" / "plan.yaml")).out
        assert "cured  " in compare("HEAD", "link/plan.yaml").out

    def test_a_plan_in_a_submodule_is_compared_within_it(
        self, compare: Here, repository: Repository, tmp_path: Path
    ) -> None:
        inner = repository.top / "inner"
        inner.mkdir()
        repository.git("-C", str(inner), "init", "--quiet")
        (inner / "plan.yaml").write_text(STOPPED)
        repository.git("-C", str(inner), "add", "plan.yaml")
        repository.git("-C", str(inner), "commit", "--quiet", "-m", "x")
        (inner / "plan.yaml").write_text(GOOD)
        assert "cured  " in compare("HEAD", "inner/plan.yaml").out


class TestTrouble:
    def refused(self, ran: Ran, said: str) -> None:
        assert (ran.status, ran.out) == (2, "")
        assert said in ran.err

    def test_a_revision_there_is_not_is_said_with_the_one_meant(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD)
        repository.git("branch", "as-measured")
        ran = compare("as-mesured")
        self.refused(ran, "There is no revision `as-mesured`")
        assert "Perhaps «as-measured» was meant." in ran.err

    @pytest.mark.parametrize("revision", ["", "HEAD:plan.yaml", "HEAD~9", "main..other", "'; rm -rf x"])
    def test_what_is_no_commit_is_no_revision(self, compare: Here, repository: Repository, revision: str) -> None:
        repository.commit(plan=GOOD)
        self.refused(compare(revision), f"There is no revision `{revision}`")

    def test_a_word_that_looks_like_an_option_of_git_is_no_revision(self, here: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD)
        ran = here("check", "--against=--output=x", "plan.yaml")
        self.refused(ran, "There is no revision `--output=x`")
        assert not (repository.top / "x").exists()

    def test_a_plan_that_was_not_there_is_said_with_what_it_was_then(
        self, compare: Here, repository: Repository
    ) -> None:
        repository.commit(kitchen=GOOD)
        repository.write("kitchen1.yaml", GOOD)
        ran = compare("HEAD", "kitchen1.yaml")
        self.refused(ran, "`kitchen1.yaml` is not in HEAD")
        assert "Perhaps «kitchen.yaml» was it then." in ran.err

    def test_without_a_commit_there_is_nothing_to_compare_with(self, compare: Here, repository: Repository) -> None:
        repository.write("plan.yaml", GOOD)
        self.refused(compare("HEAD"), "has no commit yet")

    def test_a_plan_in_no_repository_is_said(self, here: Here, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(folder.parent))
        (folder / "plan.yaml").write_text(GOOD)
        self.refused(here("check", "--against", "HEAD", "plan.yaml"), "is in no git repository")

    def test_a_plan_that_is_gone_is_said_as_ever(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD)
        (repository.top / "plan.yaml").unlink()
        self.refused(compare("HEAD"), "there is no file `plan.yaml`")

    def test_standard_input_has_no_revisions(self, compare: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD)
        self.refused(compare("HEAD", "-"), "Standard input has no revisions")

    def test_a_repository_fetched_without_its_history_says_so(
        self, here: Here, repository: Repository, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        old = repository.commit(plan=GOOD)
        repository.commit(plan=STOPPED)
        repository.git("clone", "--quiet", "--depth", "1", f"file://{repository.top}", str(tmp_path / "shallow"))
        monkeypatch.chdir(tmp_path / "shallow")
        self.refused(here("check", "--against", old, "plan.yaml"), "fetched without its history")

    def test_without_git_that_is_said(
        self, compare: Here, repository: Repository, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        repository.commit(plan=GOOD)
        monkeypatch.setenv("PATH", str(tmp_path))
        self.refused(compare("HEAD"), "git is not to be found")

    def test_a_plan_with_trouble_does_not_keep_the_others_from_being_told(
        self, compare: Here, repository: Repository
    ) -> None:
        repository.commit(plan=GOOD)
        repository.write("new.yaml", GOOD)
        ran = compare("HEAD", "new.yaml", "plan.yaml")
        assert ran.status == 2
        assert "NOTHING HAS CHANGED" in ran.out
