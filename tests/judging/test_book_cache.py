"""Checked books are kept between runs, and what is kept is believed only where nothing about it is out of order."""

from __future__ import annotations

import hashlib
import json
import os
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from validator.judging import book_cache
from validator.judging.book_cache import keep, read_or_recall, recall
from validator.judging.rules import Rule
from validator.plan.problems import Unreadable
from validator.reference.folder import rules_folder

RulesOf = Callable[[dict[str, str]], Path]

HOB = """\
book: {title: Cooking, covers: everywhere}
rules:
  room-above-a-hob:
    title: Room above a hob
    each: hob under hood
    when: fuel == 'gas'
    figure: clearance
    at_least: [650 mm, surface * 0.5]
    stated: [hob_says]
    severity: put right
    before: drilling
    because: Flames reach what hangs too low.
    remedy: Hang the hood {short} higher, at {surface + supports + need}.
    source: {document: gas-standard, clause: "4.2"}
    tried: {plan: fragments/hob, vary: /appliances/hood/up, met: 1800, not_met: [1700, {up: 1}]}
  depth-in-the-wall:
    title: Depth in the wall
    each: fixing in a wall
    figure: embedment
    at_least: {table: depth, by: {base: base, plug: plug_diameter}, gives: depth}
    severity: put right
    before: drilling
    because: It pulls out.
    remedy: Take a longer one.
    source: common practice
    tried: {plan: fragments/rail, vary: /fixings/rail/plug, met: 80, not_met: 79}
"""


@pytest.fixture
def folder(rules_of: RulesOf) -> Path:
    return rules_of({"everywhere/hob.yaml": HOB})


@pytest.fixture
def caches(tmp_path: Path) -> Path:
    return tmp_path / "home" / ".cache" / "dryfit"


@pytest.fixture
def reads(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The countries for which books were read from their files, not recalled."""
    done: list[str] = []
    original = book_cache._read

    def read(folder: Path, country: str, given: Any) -> Any:
        done.append(country)
        return original(folder, country, given)

    monkeypatch.setattr(book_cache, "_read", read)
    return done


def _stored(caches: Path) -> Path:
    (file,) = caches.glob("books-*")
    return file


def _changed(file: Path, change: Callable[[Any], None]) -> None:
    """Change what a file keeps and give it the digest that goes with it: what a forger would do."""
    head, lists, body = file.read_bytes().split(b"\n", 2)
    data = json.loads(body)
    change(data)
    forged = lists + b"\n" + json.dumps(data).encode()
    file.write_bytes(head.split()[0] + b" " + hashlib.sha256(forged).hexdigest().encode() + b"\n" + forged)


def _rule(data: Any, number: int = 0) -> Any:
    """The list of a rule's fields in what a file keeps."""
    return data[1][0][number]


class TestKeeping:
    def test_what_is_recalled_equals_what_was_read(self, folder: Path, caches: Path, reads: list[str]) -> None:
        read = read_or_recall(folder, "GB-ENG", (), caches)
        recalled = read_or_recall(folder, "GB-ENG", (), caches)
        assert recalled == read
        assert reads == ["GB-ENG"]

    @pytest.mark.parametrize("country", ["", "GB-ENG", "GB-SCT", "US-OR", "AU-WA"])
    def test_every_rule_and_table_of_the_program_can_be_kept(self, country: str, tmp_path: Path) -> None:
        library, books = read_or_recall(rules_folder(), country, (), None)
        keep(tmp_path / "books", "key", library, books)
        assert recall(tmp_path / "books", "key") == (library, books)

    def test_each_country_is_kept_by_itself(self, folder: Path, caches: Path, reads: list[str]) -> None:
        for country in ("GB-ENG", "US-OR", "GB-ENG", "US-OR"):
            read_or_recall(folder, country, (), caches)
        assert reads == ["GB-ENG", "US-OR"]

    def test_without_a_folder_for_caches_the_books_are_read_each_time(self, folder: Path, reads: list[str]) -> None:
        for _ in range(2):
            read_or_recall(folder, "", (), None)
        assert len(reads) == 2

    def test_what_is_kept_is_plain_json_that_only_the_user_can_write(self, folder: Path, caches: Path) -> None:
        read_or_recall(folder, "", (), caches)
        _, *lines = _stored(caches).read_text("utf-8").split("\n")
        assert all(json.loads(line) is not None for line in lines)
        assert _stored(caches).stat().st_mode & 0o777 == 0o600
        assert caches.stat().st_mode & 0o777 == 0o700

    def test_books_with_a_mistake_are_shown_and_never_kept(self, rules_of: RulesOf, caches: Path) -> None:
        folder = rules_of({"everywhere/hob.yaml": HOB.replace("figure: clearance", "figure: clearence")})
        for _ in range(2):
            with pytest.raises(Unreadable, match="clearence"):
                read_or_recall(folder, "", (), caches)
        assert not caches.exists()

    def test_files_nobody_used_for_longest_are_cleared_away(self, folder: Path, caches: Path) -> None:
        for number in range(book_cache.MOST + 3):
            caches.mkdir(parents=True, exist_ok=True)
            old = caches / f"books-{number}.json"
            old.write_text("old", "utf-8")
            os.utime(old, (number, number))
        read_or_recall(folder, "", (), caches)
        left = {file.name for file in caches.iterdir()}
        assert len(left) == book_cache.MOST
        assert "books-0.json" not in left
        assert f"books-{book_cache.MOST + 2}.json" in left


class TestStale:
    def test_a_change_in_a_book_is_seen(self, folder: Path, caches: Path) -> None:
        read_or_recall(folder, "", (), caches)
        (folder / "everywhere/hob.yaml").write_text(HOB.replace("Room above a hob", "Space above a hob"), "utf-8")
        _, books = read_or_recall(folder, "", (), caches)
        assert books.rules[0].title == "Space above a hob"

    @pytest.mark.parametrize("name", ["sources.yaml", "tables/depth.yaml", "words.yaml", "cautions.yaml"])
    def test_a_change_in_any_other_file_that_is_read_is_seen(
        self, name: str, folder: Path, caches: Path, reads: list[str]
    ) -> None:
        read_or_recall(folder, "", (), caches)
        with open(folder / name, "a", encoding="utf-8") as opened:
            opened.write("# one more line\n")
        read_or_recall(folder, "", (), caches)
        assert len(reads) == 2

    def test_a_change_in_a_book_given_on_the_command_line_is_seen(
        self, folder: Path, caches: Path, tmp_path: Path
    ) -> None:
        given = tmp_path / "own.yaml"
        given.write_text(HOB.replace("room-above-a-hob", "our-hob").replace("depth-in-the-wall", "our-depth"), "utf-8")
        assert len(read_or_recall(folder, "", (given,), caches)[1].rules) == 4
        given.write_text("book: {title: Ours, covers: everywhere}\nrules: {}\n", "utf-8")
        assert len(read_or_recall(folder, "", (given,), caches)[1].rules) == 2

    def test_another_program_reads_the_books_itself(
        self, folder: Path, caches: Path, reads: list[str], monkeypatch: pytest.MonkeyPatch
    ) -> None:
        read_or_recall(folder, "", (), caches)
        monkeypatch.setattr(book_cache, "_program", lambda: iter(["another version"]))
        read_or_recall(folder, "", (), caches)
        assert len(reads) == 2

    def test_a_file_changed_while_it_is_read_is_not_kept(
        self, folder: Path, caches: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        original = book_cache._read

        def read(*given: Any) -> Any:
            found = original(*given)
            (folder / "words.yaml").write_text("US: {worktop: counter}\n", "utf-8")
            return found

        monkeypatch.setattr(book_cache, "_read", read)
        read_or_recall(folder, "", (), caches)
        assert not caches.exists()


class TestDamaged:
    @pytest.fixture(autouse=True)
    def _kept(self, folder: Path, caches: Path) -> None:
        self.folder, self.caches = folder, caches
        self.good = read_or_recall(folder, "", (), caches)
        self.file = _stored(caches)

    def _is_made_again(self, reads: list[str]) -> None:
        """The books are read as if nothing had been kept, and kept again."""
        assert read_or_recall(self.folder, "", (), self.caches) == self.good
        assert len(reads) == 1
        assert read_or_recall(self.folder, "", (), self.caches) == self.good
        assert len(reads) == 1

    def test_a_byte_that_changed(self, reads: list[str]) -> None:
        content = bytearray(self.file.read_bytes())
        content[-200] ^= 1
        self.file.write_bytes(content)
        self._is_made_again(reads)

    @pytest.mark.parametrize("left", [0, 10, 131, 2000])
    def test_a_file_cut_short(self, left: int, reads: list[str]) -> None:
        self.file.write_bytes(self.file.read_bytes()[:left])
        self._is_made_again(reads)

    def test_bytes_that_are_no_text(self, reads: list[str]) -> None:
        self.file.write_bytes(b"\xff\xfe" * 500)
        self._is_made_again(reads)

    def test_the_digest_of_something_else(self, reads: list[str]) -> None:
        key, _, rest = self.file.read_bytes().partition(b" ")
        self.file.write_bytes(key + b" " + b"0" * 64 + rest[64:])
        self._is_made_again(reads)

    def test_lists_in_lists_without_end(self, reads: list[str]) -> None:
        body = b"[]\n" + b"[" * 100_000
        key = self.file.read_bytes().split()[0]
        self.file.write_bytes(key + b" " + hashlib.sha256(body).hexdigest().encode() + b"\n" + body)
        self._is_made_again(reads)

    def test_a_link_in_its_place_is_not_followed_and_what_it_leads_to_is_left_alone(
        self, reads: list[str], tmp_path: Path
    ) -> None:
        elsewhere = tmp_path / "elsewhere"
        self.file.rename(elsewhere)
        before = elsewhere.read_bytes()
        self.file.symlink_to(elsewhere)
        self._is_made_again(reads)
        assert elsewhere.read_bytes() == before
        assert not self.file.is_symlink()

    def test_a_pipe_in_its_place_is_not_waited_for(self, reads: list[str]) -> None:
        self.file.unlink()
        os.mkfifo(self.file)
        self._is_made_again(reads)

    def test_a_file_that_others_can_write(self, reads: list[str]) -> None:
        self.file.chmod(0o666)
        self._is_made_again(reads)

    def test_a_file_that_belongs_to_somebody_else(self, reads: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
        mine = os.geteuid()
        monkeypatch.setattr(os, "geteuid", lambda: mine + 1)
        read_or_recall(self.folder, "", (), self.caches)
        assert len(reads) == 1

    def test_a_file_larger_than_any_that_is_kept(self, reads: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr(book_cache, "LARGEST", 100)
        read_or_recall(self.folder, "", (), self.caches)
        assert len(reads) == 1

    def test_a_folder_in_its_place(self) -> None:
        self.file.unlink()
        self.file.mkdir()
        assert read_or_recall(self.folder, "", (), self.caches) == self.good


class TestForged:
    """A file of the right key and digest, of which one part is not as the program would have written it."""

    @pytest.fixture(autouse=True)
    def _kept(self, folder: Path, caches: Path) -> None:
        read_or_recall(folder, "", (), caches)
        self.file = _stored(caches)
        self.key = self.file.read_text("utf-8").split()[0]
        assert recall(self.file, self.key) is not None

    def _refused(self, change: Callable[[Any], None]) -> bool:
        _changed(self.file, change)
        return recall(self.file, self.key) is None

    def _rule_refused(self, field: str, value: Any, number: int = 0) -> bool:
        def change(data: Any) -> None:
            _rule(data, number)[list(Rule._fields).index(field)] = value

        return self._refused(change)

    def test_changing_nothing_is_believed(self) -> None:
        assert not self._refused(lambda data: None)

    @pytest.mark.parametrize("name", ["__class__", "subject", "known", "note", "house", "have"])
    def test_a_condition_that_reads_what_the_row_does_not_declare(self, name: str) -> None:
        tree = ["<", ["read", "number", name], ["number", 1.0]]
        assert self._rule_refused("when", ["forged", ["yes or no"], tree])

    @pytest.mark.parametrize("name", ["__init__", "known", "house"])
    def test_a_remedy_that_reads_what_the_row_does_not_declare(self, name: str) -> None:
        piece = ["forged", ["number", "length", [1, 0, 0, 0, 0, 0], "", False], ["read", "number", name]]
        assert self._rule_refused("remedy", ["text", "Hang it at ", piece])

    def test_a_condition_that_takes_a_word_for_a_number(self) -> None:
        tree = ["<", ["read", "number", "fuel"], ["number", 1.0]]
        assert self._rule_refused("when", ["forged", ["yes or no"], tree])

    def test_a_condition_that_is_a_number(self) -> None:
        length = ["number", "length", [1, 0, 0, 0, 0, 0], "", False]
        assert self._rule_refused("when", ["forged", length, ["read", "number", "clearance"]])

    def test_a_limit_of_another_dimension_than_the_figure(self) -> None:
        mass = ["number", "mass", [0, 1, 0, 0, 0, 0], "", False]
        limit = ["at least", ["forged", mass, ["number", 1.0]], None, []]
        assert self._rule_refused("limits", [limit])

    def test_a_limit_without_end(self) -> None:
        def change(data: Any) -> None:
            body = json.dumps(data).replace("650.0", "Infinity")
            data[:] = json.loads(body)

        assert self._refused(change)

    @pytest.mark.parametrize(
        ("field", "value"),
        [
            ("each", "hob under stars"),
            ("figure", "__dict__"),
            ("figure", "surface_of_the_moon"),
            ("dimension", None),
            ("dimension", ["word", "gas"]),
            ("severity", "never mind"),
            ("stated", ["__class__"]),
            ("title", 5),
            ("place", ["rules/a.yaml", True, 1]),
            ("tolerance", "wide"),
            ("tried", [["a", "/b", 1.5, "c", "", ""]]),
        ],
    )
    def test_a_field_of_a_rule(self, field: str, value: Any) -> None:
        assert self._rule_refused(field, value)

    @pytest.mark.parametrize(
        "row", [["no such table", "depth", {"base": "base"}], ["depth", "depth", {"base": "__class__"}]]
    )
    def test_a_table_or_a_key_there_is_not(self, row: list[Any]) -> None:
        assert self._rule_refused("limits", [["at least", None, row, []]], number=1)

    def test_a_rule_with_a_field_too_many(self) -> None:
        assert self._refused(lambda data: _rule(data).append("more"))

    @pytest.mark.parametrize("number", [99, -1, True, "0"])
    def test_the_number_of_a_list_of_words_that_is_not_there(self, number: object) -> None:
        assert self._refused(lambda data: _rule(data).__setitem__(3, {"list": number}))

    def test_a_rule_that_is_no_list(self) -> None:
        assert self._refused(lambda data: data[1].__setitem__(0, {"rules": []}))

    def test_a_table_with_a_cell_that_is_a_list(self) -> None:
        def change(data: Any) -> None:
            body = json.dumps(data[0]).replace('"plug": 8.0', '"plug": [8.0]')
            assert body != json.dumps(data[0])
            data[0] = json.loads(body)

        assert self._refused(change)


class TestTrouble:
    def test_a_home_that_cannot_be_written_is_no_trouble(self, folder: Path, tmp_path: Path) -> None:
        in_the_way = tmp_path / "cache"
        in_the_way.write_text("a file where the folder should be", "utf-8")
        library, books = read_or_recall(folder, "", (), in_the_way / "dryfit")
        assert len(books.rules) == 2
        assert library.stages

    @pytest.mark.skipif(os.geteuid() == 0, reason="nothing is read-only for the superuser")
    def test_a_read_only_folder_is_no_trouble(self, folder: Path, caches: Path) -> None:
        caches.mkdir(parents=True)
        caches.chmod(0o500)
        assert len(read_or_recall(folder, "", (), caches)[1].rules) == 2
        assert not list(caches.iterdir())

    def test_a_disk_that_is_full_leaves_nothing_behind(
        self, folder: Path, caches: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        def full(*_: object) -> None:
            raise OSError(28, "No space left on device")

        monkeypatch.setattr(os, "replace", full)
        assert len(read_or_recall(folder, "", (), caches)[1].rules) == 2
        assert not list(caches.iterdir())

    def test_runs_side_by_side_all_find_whole_books(self, folder: Path, caches: Path) -> None:
        expected = read_or_recall(folder, "", (), None)
        found: list[Any] = []

        def run() -> None:
            for _ in range(5):
                for file in caches.glob("books-*.json"):
                    file.unlink(missing_ok=True)
                found.append(read_or_recall(folder, "", (), caches))

        runs = [threading.Thread(target=run) for _ in range(6)]
        for each in runs:
            each.start()
        for each in runs:
            each.join()
        assert len(found) == 30
        assert all(each == expected for each in found)
        assert not list(caches.glob("*.part"))
