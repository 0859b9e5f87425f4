"""Whatever is given to `dryfit` in place of a plan or a book: words that say what, where and what was expected; status
2; within a second of processor time and 200 MB; never a pass, never a traceback.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from tests.commands.conftest import Here, Write
from tests.commands.running import DEMO, ON, PUMP_HOUSE, Ran, dryfit, own_rule
from validator.judging.apply import judge
from validator.judging.books import read_books
from validator.judging.ready import ready
from validator.plan.files import read_plan
from validator.plan.load import load
from validator.plan.problems import Unreadable
from validator.reference.folder import rules_folder
from validator.reference.library import read_library

SECONDS = 1.5
"""Of processor time; to read every book anew takes about a third of it."""

MEMORY = 200_000_000
DAY = date.fromisoformat(ON)
FAULT = "Dryfit itself has failed"


def refused(*words: str | Path, stdin: bytes = b"") -> str:
    """What is said of something that cannot be read, with everything that holds of every such thing made sure of."""
    ran = dryfit(*words, stdin=stdin, most_memory=MEMORY)
    assert ran.out == ""
    assert ran.status == 2
    assert ran.err.strip()
    assert "Traceback" not in ran.err
    assert FAULT not in ran.err
    assert ran.seconds < SECONDS
    return ran.err


def with_line(line: int, text: str) -> str:
    """The small plan with one line written anew; its waste stands in line 8."""
    lines = PUMP_HOUSE.splitlines()
    lines[line - 1] = text
    return "\n".join(lines) + "\n"


BOMB = "a: &a [x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{name}: &{name} [{', '.join([f'*{before}'] * 9)}]\n" for before, name in zip("abcdefgh", "bcdefghi", strict=True)
)
MISTAKES = [
    # the file, the line that is named (0 where there is none), and what is said of it
    pytest.param("", 0, "the file is empty", id="nothing"),
    pytest.param("# a remark\n\n", 0, "the file is empty", id="remarks only"),
    pytest.param("- walls\n- runs\n", 1, "a list stands at the top", id="a list at the top"),
    pytest.param("walls and runs\n", 1, "a text without a name", id="a text at the top"),
    pytest.param(bytes(range(256)) * 64, 0, "this is not a text file", id="binary"),
    pytest.param(b"dryfit: 1\nwalls: caf\xe9\n", 2, "0xE9", id="another encoding"),
    pytest.param(with_line(1, "dryfit: 7"), 1, "is a version that cannot be read", id="unknown version"),
    pytest.param("walls: none\n", 0, "`dryfit: 1` as its first line", id="no version"),
    pytest.param(with_line(4, "wals: none"), 4, "Perhaps «walls» was meant", id="unknown key"),
    pytest.param(with_line(4, "walls:"), 4, "a colon without a value", id="empty value"),
    pytest.param(with_line(4, "walls: ~"), 4, "~", id="a mark for nothing"),
    pytest.param(PUMP_HOUSE + "walls: none\n", 17, "`walls` is already in line 4", id="a key twice"),
    pytest.param(PUMP_HOUSE + "Walls: none\n", 17, "`Walls` is already in line 4", id="a key twice, spelt otherwise"),
    pytest.param(with_line(4, "walls: &w none"), 4, "cannot be done here", id="anchor"),
    pytest.param(with_line(4, "walls: *w"), 4, "cannot be done here", id="alias"),
    pytest.param(with_line(4, "walls: !!set none"), 4, "cannot be done here", id="tag"),
    pytest.param(with_line(4, "walls: !!python/object/apply:os.system [ls]"), 4, "cannot be done here", id="code"),
    pytest.param("dryfit: 1\n" + BOMB, 2, "cannot be done here", id="a bomb of aliases"),
    pytest.param(with_line(4, "<<: {walls: none}"), 4, "<<", id="a merge key"),
    pytest.param("dryfit: 1\nwalls: " + "[" * 100_000, 2, "more than 64 levels", id="100,000 brackets"),
    pytest.param("dryfit: 1\nwalls: " + "[" * 50_000 + "]" * 50_000, 2, "more than 64 levels", id="closed brackets"),
    pytest.param("dryfit: 1\nwalls: " + "{a: " * 100_000, 2, "more than 64 levels", id="100,000 braces"),
    pytest.param("dryfit: 1\nwalls:\n  " + "- " * 100_000, 3, "more than 64 levels", id="100,000 dashes"),
    pytest.param(PUMP_HOUSE + "---\ndryfit: 1\n", 17, "a second document", id="two documents"),
    pytest.param("%YAML 1.1\n---\n" + PUMP_HOUSE, 1, "%", id="a directive"),
    pytest.param(with_line(8, "\tdishwasher: {waste: none}"), 8, "a tab", id="a tab"),
    pytest.param(with_line(8, "  dishwasher: {waste: \x1b[2Jnone}"), 8, "U+001B", id="a terminal sequence"),
    pytest.param(with_line(8, '  dishwasher: {note: "\\e[2J"}'), 8, "U+001B", id="a sequence written as an escape"),
    pytest.param(with_line(8, '  dishwasher: {note: "\\ud800"}'), 8, "stands for no character", id="half a character"),
    pytest.param(with_line(8, "  dishwasher: {waste: 40 mm to stack 1500 at .nan}"), 8, "nan", id="not a number"),
    pytest.param(with_line(8, "  dishwasher: {power: NaN kW}"), 8, "no number", id="not a number, spelt out"),
    pytest.param(with_line(8, "  dishwasher: {power: .inf}"), 8, ".inf", id="infinity"),
    pytest.param(with_line(8, "  dishwasher: {power: 1e400 kW}"), 8, "without a power of ten", id="beyond all numbers"),
    pytest.param(with_line(8, f"  dishwasher: {{power: {'9' * 400} kW}}"), 8, "40 characters", id="400 digits"),
    pytest.param(with_line(8, "  dishwasher: {power: -2 kW}"), 8, "sign", id="a negative where none can be"),
    pytest.param(with_line(8, "  dishwasher: {power: 2 kg}"), 8, "2 kg is a mass; a power is expected", id="unit"),
    pytest.param(with_line(8, "  dishwasher: {power: 2 kWw}"), 8, "kWw", id="no unit there is"),
    pytest.param(with_line(8, "  dishwasher: {powr: 2 kW}"), 8, "Perhaps «power» was meant", id="a key misspelt"),
    pytest.param(with_line(8, "  dishwasher: {in: B1}"), 8, "is called `B1`", id="a unit there is not"),
    pytest.param(with_line(8, "  dishwasher: {supply: S1}"), 8, "is called `S1`", id="a point there is not"),
    pytest.param(with_line(3, "project: {country: England}"), 3, "`England` is no country code", id="no country"),
    pytest.param(
        with_line(4, "kinds:\n  base: {like: door}\n  door: {like: base}\nwalls: none"),
        5,
        "in a circle",
        id="kinds",
    ),
    pytest.param(with_line(4, "kinds:\n  base: {like: base}\nwalls: none"), 5, "in a circle", id="like itself"),
    pytest.param(PUMP_HOUSE + "agreed:\n  wast-fall: {at: x, reason: y, by: z}\n", 18, "waste-fall", id="no rule"),
    pytest.param(PUMP_HOUSE + "requirements:\n  more: {each: wase, figure: slope}\n", 18, "waste", id="no row"),
]


class TestContents:
    """One mistake each in what stands in a file."""

    @pytest.mark.parametrize(("content", "line", "said"), MISTAKES)
    def test_one_mistake(self, write: Write, content: str | bytes, line: int, said: str) -> None:
        err = refused("check", write("plan.yaml", content).name)
        place = f"In plan.yaml, line {line}:" if line else "In plan.yaml:"
        assert place in err
        assert said in " ".join(err.split())

    @pytest.mark.parametrize(("content", "line", "said"), MISTAKES[::6])
    def test_the_same_from_standard_input(self, content: str | bytes, line: int, said: str) -> None:
        err = refused("check", "-", stdin=content if isinstance(content, bytes) else content.encode())
        assert "In standard input" in err
        assert said in " ".join(err.split())

    @pytest.mark.parametrize(("content", "line", "said"), MISTAKES[::6])
    def test_no_form_of_report_is_made(self, write: Write, content: str | bytes, line: int, said: str) -> None:
        assert said in " ".join(refused("check", write("plan.yaml", content).name, "--form", "json").split())

    def test_what_a_terminal_would_obey_is_not_repeated_to_it(self, write: Write) -> None:
        err = refused("check", write("plan.yaml", with_line(8, "  dishwasher: {waste: \x1b[2J\x9b5mnone}")).name)
        assert "\x1b" not in err
        assert "\x9b" not in err

    def test_all_mistakes_of_all_files_are_shown_at_once_with_their_lines(self, write: Write) -> None:
        write("plan/a.yaml", with_line(8, "  dishwasher: {power: 2 kg, supply: S9}"))
        write("plan/b.yaml", "dryfit: 1\nceiling: low\npeople:\n  plumber: {trad: plumbing}\n")
        err = refused("check", "plan")
        assert err.count("In plan/") == 4
        for place in ("In plan/a.yaml, line 8:", "In plan/b.yaml, line 2:", "In plan/b.yaml, line 4:"):
            assert place in err

    def test_things_that_stand_on_one_another_in_a_circle_are_named(self, write: Write) -> None:
        text = (
            "dryfit: 1\nproject: {title: Loft, lengths in: mm}\nwalls: {north: {length: 3000}, east: {length: 3000}}\n"
            "kinds: {base: {height: 720, depth: 560}}\nruns:\n"
            "  one: {against: north, from: fronts of two, order: {A: base 500}}\n"
            "  two: {against: east, from: fronts of one, order: {B: base 500}}\n"
        )
        err = " ".join(refused("check", write("plan.yaml", text).name).split())
        assert "one starts at the fronts of two, two starts at the fronts of one" in err


class TestFiles:
    def test_a_file_of_50_mb(self, write: Write) -> None:
        line = b"walls: none # " + b"x" * 1_000_000 + b"\n"
        assert "more than 5 MB in one file" in refused("check", write("plan.yaml", line * 50).name)

    def test_50_mb_on_standard_input(self) -> None:
        assert "more than 5 MB" in refused("check", "-", stdin=b"#" * 50_000_000)

    def test_a_file_there_is_not_is_told_with_the_nearest_there_is(self, write: Write) -> None:
        write("kitchen.yaml", PUMP_HOUSE)
        err = refused("check", "kichen.yaml")
        assert "there is no file `kichen.yaml`" in err
        assert "Perhaps «kitchen.yaml» was meant." in err

    def test_a_folder_there_is_not(self) -> None:
        assert "there is no folder `nowhere`" in refused("check", "nowhere/plan.yaml")

    def test_a_folder_without_a_plan(self, folder: Path) -> None:
        (folder / "empty").mkdir()
        assert "no file of a plan is in this folder" in refused("check", "empty")

    @pytest.mark.parametrize("name", ["plan.txt", "plan", "plan.yaml.bak"])
    def test_a_file_that_is_not_called_like_a_plan(self, write: Write, name: str) -> None:
        err = refused("check", write(name, PUMP_HOUSE).name)
        assert f"In {name}" in err

    def test_links_that_lead_to_each_other(self, folder: Path) -> None:
        (folder / "a.yaml").symlink_to("b.yaml")
        (folder / "b.yaml").symlink_to("a.yaml")
        assert "this cannot be opened" in refused("check", "a.yaml")

    def test_a_link_to_nothing(self, folder: Path) -> None:
        (folder / "a.yaml").symlink_to("gone.yaml")
        assert "a.yaml" in refused("check", "a.yaml")

    def test_a_pipe_is_not_waited_for(self, folder: Path) -> None:
        os.mkfifo(folder / "plan.yaml")
        assert "this is not an ordinary file" in refused("check", "plan.yaml")

    @pytest.mark.parametrize("device", ["/dev/zero", "/dev/null", "/dev/tty"])
    def test_a_device_is_not_read(self, device: str) -> None:
        assert f"In {device}" in refused("check", device)

    @pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may read everything")
    def test_a_file_nobody_may_read(self, write: Write) -> None:
        write("plan.yaml", PUMP_HOUSE).chmod(0)
        assert "this cannot be opened: Permission denied" in refused("check", "plan.yaml")

    @pytest.mark.parametrize("error", [FileNotFoundError(2, "gone"), PermissionError(13, "Permission denied")])
    def test_a_file_that_vanishes_or_closes_between_a_look_and_a_read(
        self, here: Here, write: Write, monkeypatch: pytest.MonkeyPatch, error: OSError
    ) -> None:
        plan = write("plan.yaml", PUMP_HOUSE)
        look = os.stat

        def look_and_lose(path: object, *words: object, **names: object) -> os.stat_result:
            found = look(path, *words, **names)  # type: ignore[arg-type]
            if str(path) == "plan.yaml":
                plan.unlink(missing_ok=True)
                if isinstance(error, PermissionError):
                    plan.symlink_to("plan.yaml")
            return found

        monkeypatch.setattr(os, "stat", look_and_lose)
        ran = here("check", "plan.yaml")
        assert (ran.status, ran.out) == (2, "")
        assert "In plan.yaml:" in ran.err
        assert FAULT not in ran.err

    def test_a_name_that_would_steer_the_terminal(self, write: Write) -> None:
        name = "\x1b]0;owned\x07\x1b[31m.yaml"
        for content in ("- a\n", PUMP_HOUSE.replace("25 mm/m", "5 mm/m")):
            ran = dryfit("check", write(name, content).name)
            assert ran.status in (1, 2)
            assert "\x1b" not in ran.out + ran.err
            assert "\x07" not in ran.out + ran.err

    @pytest.mark.parametrize("path", ["", " ", "\n", "x" * 5000, "\udcff"])
    def test_a_path_that_is_none(self, here: Here, path: str) -> None:
        ran = here("check", path)
        assert (ran.status, ran.out) == (2, "")
        assert FAULT not in ran.err


class TestAllTheSame:
    """Ways to save a file that change nothing of what it says."""

    FLAT = PUMP_HOUSE.replace("25 mm/m", "5 mm/m")

    @pytest.mark.parametrize(
        "content",
        [
            pytest.param(FLAT.replace("\n", "\r\n").encode(), id="line ends of another system"),
            pytest.param(FLAT.replace("\n", "\r").encode(), id="line ends of an old one"),
            pytest.param(b"\xef\xbb\xbf" + FLAT.encode(), id="byte-order mark"),
            pytest.param(b"\xef\xbb\xbf" + FLAT.replace("\n", "\r\n").encode(), id="both"),
            pytest.param(FLAT.encode("utf-16"), id="UTF-16"),
            pytest.param(b"\xfe\xff" + FLAT.encode("utf-16-be"), id="UTF-16, the other way round"),
            pytest.param(FLAT.rstrip("\n").encode(), id="no line end at the end"),
            pytest.param(FLAT.encode() + b"\n\n\n", id="empty lines at the end"),
        ],
    )
    def test_it_is_judged_the_same(self, here: Here, write: Write, content: bytes) -> None:
        plain = without_digest(here("check", write("plan.yaml", self.FLAT), "--on", ON))
        other = without_digest(here("check", write("plan.yaml", content), "--on", ON))
        assert plain.status == 1
        assert other == plain

    def test_utf_16_without_a_mark_is_no_text(self, write: Write) -> None:
        assert "this is not a text file" in refused("check", write("plan.yaml", self.FLAT.encode("utf-16-le")).name)


def without_digest(ran: Ran) -> Ran:
    return ran._replace(out=re.sub(r"plan [0-9a-f]{9}", "plan", ran.out))


class TestBooks:
    """A book given on the command line, with a mistake of each kind; the tests of the books hold them all."""

    @pytest.mark.parametrize(
        ("content", "line", "said"),
        [
            pytest.param("", 0, "the file is empty", id="nothing"),
            pytest.param("- a\n", 1, "a list stands at the top", id="a list"),
            pytest.param(b"\x00\x01", 0, "", id="binary"),
            pytest.param(b"book: caf\xe9\n", 0, "", id="another encoding"),
            pytest.param(own_rule("sotp"), 8, "Perhaps «stop» was meant", id="severity"),
            pytest.param(own_rule(limit="30"), 7, "30", id="a limit without a unit"),
            pytest.param(own_rule(limit="30 kg"), 7, "this is a mass", id="a limit of another kind"),
            pytest.param(own_rule(limit="__import__('os').system('ls')"), 7, "", id="code"),
            pytest.param(own_rule(limit="(" * 5000 + "30 mm/m" + ")" * 5000), 7, "", id="5,000 brackets"),
            pytest.param(own_rule(limit="9 mm/m " + "+ 9 mm/m " * 5000), 7, "", id="5,000 terms"),
            pytest.param(own_rule(limit="9 mm/m ** 999999999"), 7, "", id="a power"),
            pytest.param(own_rule().replace("slope", "slop"), 6, "slop", id="no figure there is"),
            pytest.param(own_rule().replace("each: waste", "each: wate"), 5, "waste", id="no row there is"),
            pytest.param(own_rule().replace("{need}", "{nede}"), 11, "need", id="a remedy that names nothing"),
            pytest.param(own_rule().replace("{need}", "{need.__class__}"), 11, "", id="a remedy that reaches out"),
            pytest.param(
                own_rule().replace("common practice", "{document: bs-0}"), 12, "bs-0", id="no source there is"
            ),
            pytest.param(own_rule().replace("    source: common practice\n", ""), 3, "source", id="no source"),
            pytest.param(
                own_rule().replace("steeper-waste", "SW-01"), 3, "SW-01", id="a name made of letters and numbers"
            ),
            pytest.param(own_rule().replace("    title", "   title"), 0, "", id="out of step"),
            pytest.param(own_rule().replace("everywhere", "Europe"), 1, "`Europe` is no country", id="no country"),
            pytest.param(own_rule().replace("title: A", "title: &a A"), 4, "cannot be done here", id="anchor"),
            pytest.param(own_rule() + "  steeper-waste: {withdraws: a}\n", 13, "already", id="a name twice"),
        ],
    )
    def test_one_mistake(self, write: Write, content: str | bytes, line: int, said: str) -> None:
        write("plan.yaml", PUMP_HOUSE)
        err = refused("check", "plan.yaml", "--rules", write("own.yaml", content).name)
        assert (f"In own.yaml, line {line}:" if line else "In own.yaml") in err
        assert said in " ".join(err.split())

    def test_the_book_the_mistakes_are_made_in_is_sound(self, here: Here, write: Write) -> None:
        write("plan.yaml", PUMP_HOUSE)
        assert here("check", "plan.yaml", "--rules", write("own.yaml", own_rule())).status == 0

    def test_a_book_whose_name_is_no_text(self, write: Write) -> None:
        write("plan.yaml", PUMP_HOUSE)
        ran = dryfit("check", "plan.yaml", "--rules", write("own\udcff.yaml", own_rule()))
        assert (ran.status, ran.err) == (0, "")

    @pytest.mark.parametrize("path", ["nowhere.yaml", "nowhere/", "/dev/zero", "pipe", "loop.yaml", ""])
    def test_a_book_that_is_none(self, write: Write, folder: Path, path: str) -> None:
        write("plan.yaml", PUMP_HOUSE)
        os.mkfifo(folder / "pipe")
        (folder / "loop.yaml").symlink_to("loop.yaml")
        refused("check", "plan.yaml", "--rules", path)

    def test_a_book_of_50_mb(self, write: Write) -> None:
        write("plan.yaml", PUMP_HOUSE)
        write("own.yaml", (b"# " + b"x" * 1_000_000 + b"\n") * 50)
        refused("check", "plan.yaml", "--rules", "own.yaml")


class TestSlips:
    """A slip of the hand anywhere in the demo plan that is ready: refused, or not ready, or nothing was lost by it."""

    @pytest.mark.parametrize("slip", ["{", "}", "[", "]", ":", ",", "in", "out"])
    def test_a_lost_value_never_passes_in_silence(self, folder: Path, slip: str) -> None:
        files = {path.name: path.read_text("utf-8") for path in sorted((DEMO / "tern-cottage").glob("*.yaml"))}
        for name, text in files.items():
            (folder / name).write_text(text, "utf-8")
        whole = read_plan(["."], bytes)
        library = read_library(rules_folder())
        books = read_books(rules_folder(), library, load(whole))
        said = dict(leaves(whole.data))
        tried, lost_in_silence = 0, []
        for name, text in files.items():
            for line, slipped in slips(text, slip):
                tried += 1
                (folder / name).write_text(slipped, "utf-8")
                try:
                    merged = read_plan(["."], bytes)
                    plan = load(merged)
                except Unreadable:
                    continue
                if dict(leaves(merged.data)) != said and ready(judge(plan, library, books, DAY)):
                    lost_in_silence.append(f"{name}, line {line}: {slipped.splitlines()[line - 1]}")
            (folder / name).write_text(text, "utf-8")
        assert tried > 5
        assert lost_in_silence == []


def slips(text: str, slip: str) -> Iterator[tuple[int, str]]:
    """The text with one mark left out, or one line moved by two columns, for each such mark or line."""
    lines = text.splitlines()
    for at, line in enumerate(lines):
        changed = [line[: found.start()] + line[found.end() :] for found in re.finditer(re.escape(slip), line)]
        if slip == "in":
            changed = ["  " + line]
        elif slip == "out":
            changed = [line[2:]] if line.startswith("  ") else []
        for other in changed:
            yield at + 1, "\n".join([*lines[:at], other, *lines[at + 1 :]]) + "\n"


def leaves(data: object, pointer: str = "") -> Iterator[tuple[str, object]]:
    """Everything that is written in a plan, by where it stands; titles and remarks are not judged."""
    if isinstance(data, dict):
        for name, value in data.items():
            if name not in ("title", "note", "reason", "read"):
                yield from leaves(value, f"{pointer}/{name}")
    elif isinstance(data, list):
        for number, value in enumerate(data):
            yield from leaves(value, f"{pointer}/{number}")
    else:
        yield pointer, data
