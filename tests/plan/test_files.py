"""The files of a plan: found and decoded, or refused in words."""

from __future__ import annotations

import os
import time
import tracemalloc
from pathlib import Path

import pytest

from validator.plan.files import read_plan, read_sources
from validator.plan.problems import Place, Problem, Unreadable


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty current folder."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


def nothing() -> bytes:
    raise AssertionError("standard input was not asked for")


def texts(*paths: str) -> dict[str, str]:
    return {source.file: source.text for source in read_sources(paths, nothing).sources}


def only_problem(*paths: str) -> Problem:
    (problem,) = read_sources(paths, nothing).problems
    return problem


class TestFinding:
    def test_a_file_is_named_as_the_user_gave_it(self, folder: Path) -> None:
        (folder / "mill").mkdir()
        (folder / "mill" / "plan.yaml").write_text("a: 1\n")
        assert texts("mill/plan.yaml") == {"mill/plan.yaml": "a: 1\n"}

    def test_a_folder_gives_its_plan_files_by_name_and_no_others(self, folder: Path) -> None:
        for name in ("survey.yaml", "layout.yml", "notes.txt", ".draft.yaml", "JOB.YAML"):
            (folder / name).write_text(name)
        (folder / "old").mkdir()
        (folder / "old" / "survey.yaml").write_text("older")
        assert list(texts(".")) == ["JOB.YAML", "layout.yml", "survey.yaml"]

    def test_standard_input_is_read_for_a_dash(self) -> None:
        (source,) = read_sources(["-"], lambda: b"a: 1\n").sources
        assert (source.file, source.text) == ("standard input", "a: 1\n")

    def test_links_in_a_circle_do_no_harm(self, folder: Path) -> None:
        (folder / "plan.yaml").write_text("a: 1\n")
        (folder / "again").symlink_to(folder)
        (folder / "again.yaml").symlink_to(folder)
        assert list(texts(".")) == ["plan.yaml"]

    def test_a_link_to_itself_is_a_problem_in_words(self, folder: Path) -> None:
        (folder / "plan.yaml").symlink_to("plan.yaml")
        assert only_problem("plan.yaml").message.startswith("this cannot be opened")

    def test_a_file_reached_in_two_ways_is_read_once(self, folder: Path) -> None:
        (folder / "a.yaml").write_text("a: 1\n")
        (folder / "b.yaml").symlink_to("a.yaml")
        assert list(texts(".", "a.yaml")) == ["a.yaml"]

    def test_a_missing_file_is_told_with_the_nearest_name(self, folder: Path) -> None:
        (folder / "mill").mkdir()
        (folder / "mill" / "layout.yaml").write_text("a: 1\n")
        problem = only_problem("mill/layot.yaml")
        assert (problem.message, problem.nearest) == ("there is no file `layot.yaml`", "mill/layout.yaml")

    def test_a_missing_folder_is_told(self) -> None:
        assert only_problem("mill/plan.yaml").message == "there is no folder `mill`"

    def test_an_empty_folder_is_told(self) -> None:
        assert only_problem(".") == Problem(
            "no file of a plan is in this folder", Place("."), "files that end in .yaml, .toml or .json"
        )

    def test_the_end_of_a_name_says_how_the_file_is_written(self, folder: Path) -> None:
        (folder / "a.yaml").write_text("dryfit: 1\nown: {reach: 940}\n")
        (folder / "b.toml").write_text("dryfit = 1\nproject.title = 'Osier'\n[own]\nheight = 910\n")
        (folder / "c.JSON").write_text('{"dryfit": 1, "own": {"length": 600}}')
        plan = read_plan(["."], nothing)
        assert plan.data == {"own": {"reach": "940", "height": "910", "length": "600"}, "project": {"title": "Osier"}}
        assert [plan.place(f"/own/{name}") for name in ("reach", "height", "length")] == [
            Place("a.yaml", 2, 14),
            Place("b.toml", 4, 10),
            Place("c.JSON", 1, 33),
        ]

    def test_a_file_that_is_no_plan_by_its_name_is_told(self, folder: Path) -> None:
        (folder / "README.md").write_text("# Mill\n")
        assert only_problem("README.md").message == "the name of this file is not that of a plan"

    def test_a_pipe_is_refused_without_waiting_for_it(self, folder: Path) -> None:
        os.mkfifo(folder / "plan.yaml")
        assert only_problem("plan.yaml").message == "this is not an ordinary file"

    def test_a_device_is_refused(self) -> None:
        assert only_problem("/dev/zero").message == "this is not an ordinary file"

    @pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
    def test_a_file_that_may_not_be_read_is_told(self, folder: Path) -> None:
        (folder / "plan.yaml").write_text("a: 1\n")
        (folder / "plan.yaml").chmod(0)
        assert only_problem("plan.yaml").message.startswith("this cannot be opened")

    def test_all_files_that_cannot_be_read_are_told_at_once(self, folder: Path) -> None:
        (folder / "a.yaml").write_text("a: {b: 1\nc: 2\n")
        (folder / "b.yaml").write_bytes(b"\0\1\2")
        with pytest.raises(Unreadable) as caught:
            read_plan([".", "d.yaml"], nothing)
        assert [problem.place.file for problem in caught.value.problems] == ["a.yaml", "b.yaml", "d.yaml"]


class TestDecoding:
    @pytest.mark.parametrize("codec", ["utf-8", "utf-8-sig", "utf-16"])
    def test_unicode_is_read_with_and_without_a_byte_order_mark(self, folder: Path, codec: str) -> None:
        (folder / "plan.yaml").write_bytes("a: 34½\r\n".encode(codec))
        assert texts("plan.yaml") == {"plan.yaml": "a: 34½\r\n"}

    def test_a_byte_of_another_encoding_is_shown_with_its_place(self, folder: Path) -> None:
        (folder / "plan.yaml").write_bytes(b"a: 1\nb: \xc3\xa9 34\xbd\n")
        problem = only_problem("plan.yaml")
        assert problem.message == "a byte (0xBD) that is no character in UTF-8"
        assert problem.place == Place("plan.yaml", 2, 8)

    @pytest.mark.parametrize(
        "content",
        [b"\x89PNG\r\n\x1a\n\0\0", b"a: \0\n", "a: 1\n".encode("utf-16-le"), "a: 1\n".encode("utf-32"), b"\xff\xfea"],
    )
    def test_what_is_no_text_is_refused(self, folder: Path, content: bytes) -> None:
        (folder / "plan.yaml").write_bytes(content)
        assert only_problem("plan.yaml") == Problem(
            "this is not a text file", Place("plan.yaml"), "a text file in UTF-8"
        )

    def test_a_file_of_50_megabytes_is_refused_without_reading_it(self, folder: Path) -> None:
        with open(folder / "plan.yaml", "wb") as file:
            file.truncate(50_000_000)
        tracemalloc.start()
        begun = time.perf_counter()
        problem = only_problem("plan.yaml")
        taken, (_, peak) = time.perf_counter() - begun, tracemalloc.get_traced_memory()
        tracemalloc.stop()
        assert problem.message == "more than 5 MB in one file"
        assert taken < 0.5
        assert peak < 1_000_000

    def test_too_much_on_standard_input_is_refused(self) -> None:
        (problem,) = read_sources(["-"], lambda: b"a" * 5_000_001).problems
        assert (problem.message, problem.place.file) == ("more than 5 MB in one file", "standard input")
