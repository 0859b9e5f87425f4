"""`dryfit githook` in real repositories: what is staged is judged, never what lies in the folder."""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path

import pytest

from tests.bench.plans import plan as long_plan
from tests.commands.conftest import Here
from tests.commands.repositories import FLAT, GOOD, STOPPED, Repository, make
from tests.commands.running import ON, Ran, dryfit, own_rule

UNREADABLE = GOOD.replace("25 mm/m", "25 kg")
CONFLICT = GOOD.replace("points: none\n", "<<<<<<< HEAD\npoints: none\n=======\npoints: {}\n>>>>>>> the other branch\n")
STEEPER = own_rule("stop", "30 mm/m")
"""A book by which the good plan has a STOP."""


@pytest.fixture
def repository(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Repository:
    return make(folder, monkeypatch)


@pytest.fixture
def look(here: Here, repository: Repository) -> Here:
    """Looks at what is staged, as the hook does."""

    def run(*words: str) -> Ran:
        ran = here("githook", "run", "--on", ON, *words)
        assert "Traceback" not in ran.out + ran.err
        return ran

    return run


class TestWhatIsRefused:
    def test_a_plan_that_is_ready_passes(self, look: Here, repository: Repository) -> None:
        repository.stage("plan.yaml", GOOD)
        ran = look()
        assert (ran.status, ran.err) == (0, "")
        assert ran.out.split() == ["plan.yaml", "READY"]

    def test_a_new_stop_is_refused_with_its_line_and_its_cure(self, look: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD)
        repository.stage("plan.yaml", STOPPED)
        ran = look()
        assert ran.status == 1
        assert "new STOP   Waste as steep as we want it: dishwasher" in ran.out
        assert "line 8" in ran.out
        assert "do this" in ran.out
        assert "REFUSED: plan.yaml has one STOP that the last commit did not have." in ran.out

    def test_a_stop_of_the_last_commit_is_told_and_not_refused(self, look: Here, repository: Repository) -> None:
        repository.commit(plan=STOPPED)
        repository.stage("plan.yaml", STOPPED.replace("19 mm/m", "18.5 mm/m"))
        ran = look()
        assert ran.status == 0
        assert "NOT READY" in ran.out
        assert "STOP       Waste as steep" in ran.out
        assert "new STOP" not in ran.out

    def test_a_stop_that_only_moved_to_another_line_is_not_new(self, look: Here, repository: Repository) -> None:
        repository.commit(plan=STOPPED)
        repository.stage("plan.yaml", "# a remark\n\n\n" + STOPPED)
        assert look().status == 0

    def test_without_a_commit_every_stop_is_new(self, look: Here, repository: Repository) -> None:
        repository.stage("plan.yaml", STOPPED)
        ran = look()
        assert ran.status == 1
        assert "It is new in this commit." in ran.out

    def test_where_the_last_commit_cannot_be_read_every_stop_is_new(self, look: Here, repository: Repository) -> None:
        repository.commit(plan=UNREADABLE)
        repository.stage("plan.yaml", STOPPED)
        ran = look()
        assert ran.status == 1
        assert "could not be read in the last commit" in ran.out

    def test_a_point_to_put_right_is_told_and_not_refused(self, look: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD)
        repository.stage("plan.yaml", FLAT)
        ran = look()
        assert ran.status == 0
        assert "put right" in ran.out

    def test_what_cannot_be_read_is_refused_with_the_line_as_it_is_staged(
        self, look: Here, repository: Repository
    ) -> None:
        repository.commit(plan=GOOD)
        repository.stage("plan.yaml", UNREADABLE)
        repository.write("plan.yaml", "no plan at all")
        ran = look()
        assert ran.status == 2
        assert "In plan.yaml, line 8:" in ran.out
        assert "|   dishwasher: {waste: 40 mm to stack 1500 at 25 kg" in ran.out
        assert "REFUSED: plan.yaml cannot be read." in ran.out

    @pytest.mark.parametrize(
        ("refuses", "text", "status"),
        [
            ("unreadable", STOPPED, 0),
            ("unreadable", UNREADABLE, 2),
            ("new-stops", FLAT, 0),
            ("New Stops", STOPPED, 1),
            ("not-ready", FLAT, 1),
            ("not-ready", GOOD, 0),
        ],
    )
    def test_the_setting_says_what_else_is_refused(
        self, look: Here, repository: Repository, refuses: str, text: str, status: int
    ) -> None:
        repository.git("config", "dryfit.refuses", refuses)
        repository.stage("plan.yaml", text)
        assert look().status == status

    def test_a_setting_that_says_nothing_sensible_is_refused_with_the_word_meant(
        self, look: Here, repository: Repository
    ) -> None:
        repository.git("config", "dryfit.refuses", "new-stop")
        repository.stage("plan.yaml", GOOD)
        ran = look()
        assert ran.status == 2
        assert "Expected: unreadable, new-stops, not-ready. Perhaps «new-stops» was meant." in ran.err

    def test_a_departure_from_law_that_was_there_before_is_not_new(self, look: Here, repository: Repository) -> None:
        departing = STOPPED + "agreed:\n  steep waste: {at: dishwasher, reason: no room, by: householder}\n"
        repository.commit(plan=departing)
        repository.stage("plan.yaml", departing + "# a remark\n")
        assert look().status == 0


class TestStagedAndNotInTheFolder:
    def test_what_is_mended_in_the_folder_alone_is_refused(self, look: Here, repository: Repository) -> None:
        repository.stage("plan.yaml", STOPPED)
        repository.write("plan.yaml", GOOD)
        assert look().status == 1

    def test_what_is_spoilt_in_the_folder_alone_passes(self, look: Here, repository: Repository) -> None:
        repository.stage("plan.yaml", GOOD)
        repository.write("plan.yaml", STOPPED)
        assert look().status == 0

    def test_a_half_staged_file_is_judged_by_its_staged_half(self, look: Here, repository: Repository) -> None:
        """Two changes of one file, the first of them staged by itself."""
        repository.commit(plan=GOOD)
        repository.write("plan.yaml", GOOD.replace("points: none", "points: {}").replace("Pump house", "Pump room"))
        first = GOOD.replace("Pump house", "Pump room")
        blob = repository.git("hash-object", "-w", "--stdin", feed=first.encode())
        repository.git("update-index", "--cacheinfo", f"100644,{blob},plan.yaml")
        assert repository.git("status", "--short") == "MM plan.yaml"
        assert look().status == 0

    def test_a_file_only_announced_is_not_looked_at(self, look: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD)
        repository.write("other.yaml", STOPPED)
        repository.git("add", "--intent-to-add", "other.yaml")
        ran = look()
        assert (ran.status, ran.out) == (0, "Nothing that is staged touches a plan or a rulebook.\n")

    def test_a_plan_taken_away_in_the_folder_alone_is_still_judged(self, look: Here, repository: Repository) -> None:
        repository.stage("plan.yaml", STOPPED).unlink()
        assert look().status == 1

    def test_files_that_are_no_plans_are_left_alone(self, look: Here, repository: Repository) -> None:
        repository.stage("notes.md", "dryfit: 1\n")
        repository.stage("other.yaml", "services: {dryfit: 1}\n")
        repository.stage("package.json", '{"name": "x", "dryfit": "^1"}')
        repository.stage("pyproject.toml", '[project]\nname = "x"\n')
        assert look().status == 0

    def test_the_folder_in_which_it_is_run_makes_no_difference(
        self, look: Here, repository: Repository, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        repository.stage("house/plan.yaml", STOPPED)
        monkeypatch.chdir(repository.top / "house")
        ran = look()
        assert ran.status == 1
        assert ran.out.startswith("house/plan.yaml ")


class TestWhichPlans:
    def test_only_plans_that_the_change_touches_are_judged(self, look: Here, repository: Repository) -> None:
        repository.stage("bad/plan.yaml", STOPPED)
        repository.commit()
        repository.stage("good/plan.yaml", GOOD)
        ran = look()
        assert ran.status == 0
        assert ran.out.split() == ["good/plan.yaml", "READY"]

    def test_the_files_of_plans_in_one_folder_are_one_plan(self, look: Here, repository: Repository) -> None:
        repository.stage("house/plan.yaml", GOOD.replace(GOOD.splitlines()[7] + "\n", "").replace("appliances:\n", ""))
        repository.stage("house/appliances.yaml", "dryfit: 1\n" + "\n".join(GOOD.splitlines()[6:8]) + "\n")
        repository.stage("house/compose.yaml", "services: {}\n")
        ran = look()
        assert ran.status == 0
        assert ran.out.split() == ["house", "READY"]

    def test_files_that_each_have_a_project_are_each_a_plan(self, look: Here, repository: Repository) -> None:
        repository.stage("upstairs.yaml", GOOD)
        repository.stage("downstairs.yaml", STOPPED)
        ran = look()
        assert ran.status == 1
        assert "REFUSED: downstairs.yaml has one STOP" in ran.out
        assert [line.split()[0] for line in ran.out.splitlines() if line.endswith("READY")] == [
            "downstairs.yaml",
            "upstairs.yaml",
        ]

    def test_a_file_that_no_longer_says_that_it_is_a_plan_is_still_one(
        self, look: Here, repository: Repository
    ) -> None:
        repository.commit(plan=GOOD)
        repository.stage("plan.yaml", GOOD.replace("dryfit: 1", "dryft: 1"))
        ran = look()
        assert ran.status == 2
        assert "Perhaps «dryfit» was meant." in ran.out

    def test_a_part_of_a_plan_that_goes_changes_the_plan(self, look: Here, repository: Repository) -> None:
        repository.stage("house/plan.yaml", GOOD)
        repository.stage("house/people.yaml", "dryfit: 1\npeople: {}\n")
        repository.commit()
        repository.git("rm", "--quiet", "house/people.yaml")
        ran = look()
        assert ran.out.split() == ["house/plan.yaml", "READY"]

    def test_plans_named_in_the_settings_are_the_only_ones(self, look: Here, repository: Repository) -> None:
        repository.git("config", "dryfit.plan", "house")
        repository.stage("house/plan.yaml", GOOD)
        repository.stage("elsewhere/plan.yaml", STOPPED)
        assert look().status == 0

    def test_several_plans_may_be_named(self, look: Here, repository: Repository) -> None:
        repository.git("config", "--add", "dryfit.plan", "one.yaml")
        repository.git("config", "--add", "dryfit.plan", "two.yaml")
        repository.stage("one.yaml", GOOD)
        repository.stage("two.yaml", STOPPED)
        assert "REFUSED: two.yaml has one STOP" in look().out

    def test_a_path_of_the_settings_where_nothing_is_is_said(self, look: Here, repository: Repository) -> None:
        repository.git("config", "dryfit.plan", "haus")
        repository.stage("house/plan.yaml", STOPPED)
        ran = look()
        assert ran.status == 0
        assert "`haus`, which the settings name, is not among the files of this commit." in ran.out

    def test_a_plan_may_be_named_for_one_look(self, look: Here, repository: Repository) -> None:
        repository.stage("one.yaml", STOPPED)
        repository.stage("two.yaml", GOOD)
        assert look("--plan", "two.yaml").status == 0

    def test_plans_in_toml_and_json_are_plans(self, look: Here, repository: Repository) -> None:
        repository.stage("a/plan.toml", 'dryfit = 1\nproject = {title = "Hall", countri = "GB-ENG"}\n')
        repository.stage("b/plan.json", '{"dryfit": 1, "project": {"title": "Hall", "countri": "GB-ENG"}}')
        ran = look()
        assert ran.status == 2
        assert "REFUSED: a/plan.toml cannot be read; b/plan.json cannot be read." in ran.out

    @pytest.mark.parametrize(
        "name",
        ["my plans/küche 2.yaml", 'it\'s "quoted".yaml', "-plan.yaml", "two\nlines.yaml", "[a]*?.yaml", "ñ/é.yaml"],
    )
    def test_any_name_will_do(self, look: Here, repository: Repository, name: str) -> None:
        repository.stage(name, GOOD)
        repository.commit()
        repository.stage(name, STOPPED)
        ran = look()
        assert ran.status == 1
        assert "new STOP" in ran.out

    def test_a_name_that_is_no_utf_8_will_do(self, look: Here, repository: Repository) -> None:
        repository.stage(os.fsdecode(b"caf\xe9.yaml"), STOPPED)
        assert look().status == 1


class TestRenamedAndDeleted:
    def test_a_renamed_plan_brings_no_new_stop(self, look: Here, repository: Repository) -> None:
        repository.commit(plan=STOPPED)
        repository.git("mv", "plan.yaml", "kitchen.yaml")
        ran = look()
        assert ran.status == 0
        assert "kitchen.yaml" in ran.out
        assert "taken away" not in ran.out

    def test_a_plan_renamed_and_changed_is_compared_with_what_it_was(self, look: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD)
        repository.git("mv", "plan.yaml", "kitchen.yaml")
        repository.stage("kitchen.yaml", STOPPED)
        ran = look()
        assert ran.status == 1
        assert "It is new" not in ran.out

    def test_a_plan_moved_to_another_folder_is_the_same_plan(self, look: Here, repository: Repository) -> None:
        repository.stage("house/plan.yaml", STOPPED)
        repository.stage("house/people.yaml", "dryfit: 1\npeople: {}\n")
        repository.commit()
        repository.git("mv", "house", "cottage")
        ran = look()
        assert ran.status == 0
        assert ran.out.startswith("cottage ")

    def test_a_plan_split_into_a_folder_is_the_same_plan(self, look: Here, repository: Repository) -> None:
        repository.commit(plan=STOPPED)
        repository.git("rm", "--quiet", "plan.yaml")
        head, rest = STOPPED.split("walls:", 1)
        repository.stage("house/project.yaml", head)
        repository.stage("house/rest.yaml", "dryfit: 1\nheights from: bare floor\nwalls:" + rest)
        ran = look()
        assert ran.status == 0
        assert "new STOP" not in ran.out

    def test_a_plan_taken_away_is_said_and_passes(self, look: Here, repository: Repository) -> None:
        repository.commit(plan=STOPPED)
        repository.git("rm", "--quiet", "plan.yaml")
        ran = look()
        assert (ran.status, ran.out) == (0, "plan.yaml: taken away by this commit.\n")


class TestMerges:
    def test_conflict_marks_are_said_to_be_that_with_their_lines(self, look: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD)
        repository.stage("plan.yaml", CONFLICT)
        ran = look()
        assert ran.status == 2
        assert "conflict marks stand in lines 10, 12, 14" in ran.out
        assert "one thing has to be mended first" in ran.out

    def test_a_merge_not_settled_is_said(self, look: Here, repository: Repository) -> None:
        repository.commit(plan=GOOD)
        repository.git("checkout", "--quiet", "-b", "other")
        repository.commit(plan=GOOD.replace("25 mm/m", "26 mm/m"))
        repository.git("checkout", "--quiet", "main")
        repository.commit(plan=GOOD.replace("25 mm/m", "27 mm/m"))
        assert repository.try_git("merge", "other").returncode == 1
        ran = look()
        assert ran.status == 2
        assert "A merge left two versions of plan.yaml" in ran.err

    def test_a_submodule_is_left_alone(self, look: Here, repository: Repository, tmp_path: Path) -> None:
        inner = tmp_path / "inner"
        inner.mkdir()
        for words in (("init", "--quiet"), ("commit", "--quiet", "--allow-empty", "-m", "x")):
            repository.git("-C", str(inner), *words)
        repository.git("-c", "protocol.file.allow=always", "submodule", "--quiet", "add", str(inner), "plan.yaml")
        assert look().status == 0


class TestLinks:
    def test_a_link_that_is_named_is_followed_within_the_commit(self, look: Here, repository: Repository) -> None:
        repository.git("config", "dryfit.plan", "now.yaml")
        repository.stage("plans/kitchen.yaml", STOPPED)
        (repository.top / "now.yaml").symlink_to("plans/kitchen.yaml")
        repository.git("add", "now.yaml")
        repository.write("plans/kitchen.yaml", GOOD)
        assert look().status == 1

    @pytest.mark.parametrize("target", ["/etc/hostname", "../outside.yaml", "now.yaml"])
    def test_a_link_that_leads_out_or_nowhere_is_refused(self, look: Here, repository: Repository, target: str) -> None:
        repository.git("config", "dryfit.plan", "now.yaml")
        (repository.top / "now.yaml").symlink_to(target)
        repository.git("add", "now.yaml")
        ran = look()
        assert ran.status == 2
        assert "`now.yaml` is a link that leads to no file of the repository" in ran.err


class TestRulebooks:
    def test_a_book_of_the_settings_judges_as_it_is_staged(self, look: Here, repository: Repository) -> None:
        repository.git("config", "dryfit.rules", "books/house.yaml")
        repository.stage("books/house.yaml", STEEPER)
        repository.write("books/house.yaml", own_rule("stop", "1 mm/m"))
        repository.stage("plan.yaml", GOOD)
        ran = look()
        assert ran.status == 1
        assert "A steeper waste: dishwasher" in ran.out

    def test_a_book_that_changes_has_every_plan_judged_again(self, look: Here, repository: Repository) -> None:
        repository.git("config", "dryfit.rules", "books")
        repository.stage("one/plan.yaml", GOOD)
        repository.stage("two/plan.yaml", GOOD)
        repository.stage("books/house.yaml", own_rule("stop", "20 mm/m"))
        repository.commit()
        repository.stage("books/house.yaml", STEEPER)
        ran = look()
        assert ran.status == 1
        assert "one/plan.yaml has one STOP that the last commit did not have; two/plan.yaml has one STOP" in (
            " ".join(ran.out.split())
        )

    def test_a_stop_that_a_book_brought_in_the_last_commit_is_not_new(self, look: Here, repository: Repository) -> None:
        repository.git("config", "dryfit.rules", "books")
        repository.stage("books/house.yaml", STEEPER)
        repository.commit(plan=GOOD)
        repository.stage("plan.yaml", GOOD.replace("25 mm/m", "26 mm/m"))
        assert look().status == 0

    def test_a_book_that_cannot_be_read_is_refused_by_the_name_it_has_in_the_repository(
        self, look: Here, repository: Repository
    ) -> None:
        repository.git("config", "dryfit.rules", "books")
        repository.stage("books/house.yaml", own_rule("stopp"))
        repository.stage("plan.yaml", GOOD)
        ran = look()
        assert ran.status == 2
        assert "THE RULEBOOK CANNOT BE READ" in ran.out
        assert "In books/house.yaml, line 8:" in ran.out
        assert "REFUSED: a rulebook cannot be read." in ran.out

    def test_a_book_that_no_setting_names_must_at_least_be_readable(self, look: Here, repository: Repository) -> None:
        repository.stage("firm.yaml", own_rule("stopp"))
        assert look().status == 2
        repository.stage("firm.yaml", own_rule("stop"))
        assert look().status == 0

    def test_a_book_with_conflict_marks_is_refused(self, look: Here, repository: Repository) -> None:
        repository.stage("firm.yaml", STEEPER + "<<<<<<< HEAD\n=======\n>>>>>>> other\n")
        assert "conflict marks stand in lines" in look().out

    def test_a_book_outside_of_the_repository_is_read_where_it_lies(
        self, look: Here, repository: Repository, tmp_path: Path
    ) -> None:
        firm = tmp_path / "firm.yaml"
        firm.write_text(STEEPER)
        repository.git("config", "dryfit.rules", str(firm))
        repository.stage("plan.yaml", GOOD)
        assert look().status == 1

    def test_a_book_outside_that_is_not_there_is_refused(self, look: Here, repository: Repository) -> None:
        repository.git("config", "dryfit.rules", "/nowhere/firm.yaml")
        repository.stage("plan.yaml", GOOD)
        ran = look()
        assert ran.status == 2
        assert "There is no rulebook /nowhere/firm.yaml." in ran.err

    def test_a_book_of_the_settings_that_is_not_in_the_commit_is_refused(
        self, look: Here, repository: Repository
    ) -> None:
        repository.git("config", "dryfit.rules", "books/house.yaml")
        repository.write("books/house.yaml", STEEPER)
        repository.stage("plan.yaml", GOOD)
        ran = look()
        assert ran.status == 2
        assert "`books/house.yaml`, a rulebook of the settings, is not among the files of this commit" in ran.err

    def test_nothing_read_of_a_staged_book_is_kept_for_the_next_run(
        self, look: Here, repository: Repository, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "caches"))
        repository.git("config", "dryfit.rules", "books")
        repository.stage("books/house.yaml", STEEPER)
        repository.stage("plan.yaml", GOOD)
        look()
        assert not list((tmp_path / "caches").rglob("books-*"))


class TestTrouble:
    def test_with_a_detached_head_it_works_as_ever(self, look: Here, repository: Repository) -> None:
        repository.commit(plan=STOPPED)
        repository.git("checkout", "--quiet", "--detach")
        repository.stage("plan.yaml", STOPPED + "# a remark\n")
        assert look().status == 0

    @pytest.mark.parametrize("task", ["install", "remove", "run"])
    def test_a_folder_in_no_repository_is_said(
        self, here: Here, folder: Path, task: str, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(folder.parent))
        ran = here("githook", task)
        assert (ran.status, ran.out) == (2, "")
        assert "is in no git repository" in ran.err

    @pytest.mark.parametrize("task", ["install", "remove", "run"])
    def test_a_bare_repository_has_nothing_staged(
        self, here: Here, repository: Repository, task: str, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        repository.git("init", "--quiet", "--bare", "bare.git")
        monkeypatch.chdir(repository.top / "bare.git")
        ran = here("githook", task)
        assert (ran.status, ran.out) == (2, "")
        assert "a bare one" in ran.err

    def test_without_git_that_is_said(
        self, here: Here, repository: Repository, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setenv("PATH", str(tmp_path))
        ran = here("githook", "run")
        assert (ran.status, ran.out) == (2, "")
        assert "git is not to be found" in ran.err

    def test_what_git_itself_says_is_passed_on(self, here: Here, repository: Repository) -> None:
        (repository.top / ".git" / "index").write_bytes(b"no index at all")
        ran = here("githook", "run")
        assert (ran.status, ran.out) == (2, "")
        assert ran.err.startswith("git says: ")

    def test_a_content_that_git_has_lost_is_said(self, here: Here, repository: Repository) -> None:
        repository.stage("plan.yaml", GOOD)
        blob = repository.git("rev-parse", ":plan.yaml")
        (repository.top / ".git" / "objects" / blob[:2] / blob[2:]).unlink()
        ran = here("githook", "run")
        assert ran.status == 2
        assert "git has lost the content" in ran.err

    def test_a_file_too_long_for_a_plan_is_refused_without_being_read_whole(
        self, look: Here, repository: Repository
    ) -> None:
        repository.stage("plan.yaml", GOOD + "# " + "x" * 5_000_000)
        ran = look()
        assert ran.status == 2
        assert "more than 5 MB in one file" in ran.out


class TestInstalling:
    def test_a_commit_with_a_new_stop_is_not_made(self, here: Here, repository: Repository) -> None:
        assert here("githook", "install").status == 0
        repository.stage("plan.yaml", STOPPED)
        ran = repository.try_git("commit", "-m", "x")
        assert ran.returncode == 1
        assert b"REFUSED" in ran.stderr
        assert repository.try_git("rev-parse", "HEAD").returncode != 0

    def test_a_commit_that_touches_no_plan_is_made_without_a_word(self, here: Here, repository: Repository) -> None:
        here("githook", "install")
        repository.stage("notes.md", "nothing\n")
        ran = repository.try_git("commit", "--quiet", "-m", "x")
        assert (ran.returncode, ran.stdout, ran.stderr) == (0, b"", b"")

    def test_a_commit_of_paths_is_judged_by_what_it_would_hold(self, here: Here, repository: Repository) -> None:
        """`git commit PATH` takes the file from the folder, and leaves what else is staged for later."""
        here("githook", "install")
        repository.commit(one=GOOD, two=GOOD)
        repository.stage("one.yaml", STOPPED)
        repository.write("two.yaml", GOOD + "# a remark\n")
        assert repository.try_git("commit", "-m", "x", "two.yaml").returncode == 0
        assert repository.try_git("commit", "-m", "x", "one.yaml").returncode == 1

    def test_it_works_from_a_worktree_for_a_worktree(
        self, here: Here, repository: Repository, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        repository.commit(plan=GOOD)
        beside = Repository(tmp_path / "bei de")
        repository.git("worktree", "add", "--quiet", "-b", "other", str(beside.top))
        monkeypatch.chdir(beside.top)
        assert here("githook", "install").status == 0
        beside.stage("plan.yaml", STOPPED)
        assert beside.try_git("commit", "-m", "x").returncode == 1
        assert repository.try_git("commit", "--allow-empty", "-m", "x").returncode == 0

    def test_modules_that_lie_in_the_repository_are_not_run(self, here: Here, repository: Repository) -> None:
        here("githook", "install")
        for name in ("json.py", "argparse.py", "validator/__init__.py"):
            repository.write(name, "raise SystemExit('taken over')\n")
        repository.stage("plan.yaml", GOOD)
        assert repository.try_git("commit", "-m", "x").returncode == 0

    def test_installing_twice_is_no_trouble(self, here: Here, repository: Repository) -> None:
        here("githook", "install")
        assert here("githook", "install").status == 0
        assert here("githook", "remove").status == 0
        assert not (repository.top / ".git" / "hooks" / "pre-commit").exists()

    def test_what_is_said_at_installing_is_kept_as_settings(self, here: Here, repository: Repository) -> None:
        repository.write("house/-plan.yaml", GOOD)
        repository.write("books/house.yaml", STEEPER)
        words = ("--plan", "house/-plan.yaml", "--plan", "house", "--rules", "books", "--refuse", "not-ready")
        assert here("githook", "install", *words).status == 0
        kept = repository.git("config", "--get-regexp", "^dryfit").splitlines()
        assert kept == [
            "dryfit.plan house/-plan.yaml",
            "dryfit.plan house",
            "dryfit.rules books",
            "dryfit.refuses not-ready",
        ]

    def test_a_plan_that_is_not_there_installs_nothing(self, here: Here, repository: Repository) -> None:
        ran = here("githook", "install", "--plan", "haus")
        assert ran.status == 2
        assert "There is no `haus`" in ran.err
        assert not (repository.top / ".git" / "hooks" / "pre-commit").exists()

    @pytest.mark.parametrize(
        ("here_then", "elsewhere_now"),
        [(f"python={sys.executable}", "python=/nowhere/python"), ("validator.commands.main", "gone.main")],
    )
    def test_a_dryfit_that_has_gone_stops_the_commit_and_says_why(
        self, here: Here, repository: Repository, here_then: str, elsewhere_now: str
    ) -> None:
        here("githook", "install")
        repository.stage("plan.yaml", GOOD)
        hook = repository.top / ".git" / "hooks" / "pre-commit"
        hook.write_text(hook.read_text().replace(here_then, elsewhere_now))
        ran = repository.try_git("commit", "-m", "x")
        assert ran.returncode == 1
        assert ran.stderr.startswith(b"Dryfit is no longer where it was")


class TestHooksOfOthers:
    THEIRS = "#!/bin/sh\necho first >> said\nexit ${THEIRS:-0}\n"

    @pytest.fixture
    def hook(self, repository: Repository) -> Path:
        hook = repository.write(".git/hooks/pre-commit", self.THEIRS)
        hook.chmod(0o755)
        return hook

    def test_a_hook_that_is_there_is_left_alone(self, here: Here, hook: Path) -> None:
        ran = here("githook", "install")
        assert (ran.status, ran.out) == (1, "")
        assert "There is a hook already" in ran.err
        assert hook.read_text() == self.THEIRS

    def test_beside_it_both_run_theirs_first(self, here: Here, hook: Path, repository: Repository) -> None:
        assert here("githook", "install", "--beside").status == 0
        repository.stage("plan.yaml", GOOD)
        assert repository.try_git("commit", "-m", "x").returncode == 0
        assert (repository.top / "said").read_text() == "first\n"
        repository.stage("plan.yaml", STOPPED)
        assert repository.try_git("commit", "-m", "x").returncode == 1

    def test_what_theirs_refuses_is_refused(self, here: Here, hook: Path, repository: Repository) -> None:
        here("githook", "install", "--beside")
        repository.stage("plan.yaml", GOOD)
        ran = repository.try_git("commit", "-m", "x", environment={"THEIRS": "3"})
        assert ran.returncode == 1
        assert b"READY" not in ran.stdout + ran.stderr

    def test_removing_ours_puts_theirs_back(self, here: Here, hook: Path) -> None:
        here("githook", "install", "--beside")
        assert here("githook", "remove").status == 0
        assert hook.read_text() == self.THEIRS
        assert os.access(hook, os.X_OK)
        assert [file.name for file in hook.parent.iterdir() if file.suffix != ".sample"] == ["pre-commit"]

    def test_theirs_is_never_removed(self, here: Here, hook: Path) -> None:
        ran = here("githook", "remove")
        assert ran.status == 1
        assert "is not the one that Dryfit wrote" in ran.err
        assert hook.read_text() == self.THEIRS

    def test_ours_with_a_line_of_theirs_in_it_is_not_removed(self, here: Here, repository: Repository) -> None:
        here("githook", "install")
        hook = repository.top / ".git" / "hooks" / "pre-commit"
        changed = hook.read_text() + "echo more\n"
        hook.write_text(changed)
        assert here("githook", "remove").status == 1
        assert hook.read_text() == changed

    def test_where_there_is_none_removing_says_so(self, here: Here, repository: Repository) -> None:
        ran = here("githook", "remove")
        assert ran.status == 1
        assert "There is no hook to remove" in ran.err

    def test_hooks_kept_in_the_repository_are_found(self, here: Here, repository: Repository) -> None:
        repository.git("config", "core.hooksPath", "my hooks")
        assert here("githook", "install").status == 0
        repository.stage("plan.yaml", STOPPED)
        assert repository.try_git("commit", "-m", "x").returncode == 1

    def test_hooks_shared_with_other_repositories_are_left_alone(
        self, here: Here, repository: Repository, tmp_path: Path
    ) -> None:
        repository.git("config", "core.hooksPath", str(tmp_path / "shared"))
        ran = here("githook", "install")
        assert ran.status == 2
        assert "core.hooksPath" in ran.err
        assert not (tmp_path / "shared").exists()

    def test_a_folder_that_may_not_be_written_is_said(self, here: Here, repository: Repository) -> None:
        shutil.rmtree(repository.top / ".git" / "hooks")
        (repository.top / ".git" / "hooks").write_text("a file where a folder should be")
        ran = here("githook", "install")
        assert ran.status == 2
        assert "The hook cannot be written" in ran.err


def test_the_declaration_for_hook_managers_runs_what_the_hook_runs() -> None:
    from ruamel.yaml import YAML

    declared = YAML(typ="safe").load(Path(__file__).parents[2] / ".pre-commit-hooks.yaml")
    assert [entry["id"] for entry in declared] == ["dryfit"]
    assert declared[0]["entry"] == "dryfit githook run"
    assert declared[0]["pass_filenames"] is False


def test_a_plan_of_five_thousand_lines_takes_about_as_long_as_checking_it(repository: Repository) -> None:
    """A second on a quiet machine; here held against the check alone, since other tests run beside it."""
    text = long_plan(5000)
    repository.commit(plan=text)
    repository.stage("plan.yaml", text.replace("8 x 100", "8 x 70", 1))  # worse, where there is a STOP already
    dryfit("check", "plan.yaml", "--on", "2026-06-01")  # the books are kept from here on
    checked = min(dryfit("check", "plan.yaml", "--on", "2026-06-01").seconds for _ in range(2))
    looked = [dryfit("githook", "run", "--on", "2026-06-01") for _ in range(2)]
    assert {ran.status for ran in looked} == {0}
    assert "STOP       " in looked[0].out
    assert min(ran.seconds for ran in looked) < 1.5 * checked
