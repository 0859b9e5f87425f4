"""Reading a plan from TOML: the same data as from YAML, the place of everything, and all that is refused."""

from __future__ import annotations

import time
import tomllib
from typing import Any

import pytest
import tomli_w
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.same_data import as_texts, has_one_name_twice, plans, scalars
from validator.plan.documents import Document, Limits
from validator.plan.problems import Place, Problem, Unreadable
from validator.plan.toml_reader import read_toml

TEXT = """\
dryfit = 1
"heights from" = "bare floor"       # said once
ceiling = [2405,  # at the door
  2398.5]
[project]
starts = 2026-06-01
heated = false
[walls.north]
"made of" = "dabbed brick"
length = 3_804
[runs."sink run"]
against = 'north'
order.B1 = {is = "door", width = 500}
[[agreed.hob-to-sink]]
at = "hob"
[[agreed.hob-to-sink]]
reason = \"\"\"the window
fixes it\"\"\"
"""


def read(text: str) -> Document:
    return read_toml(text, "plan.toml")


def problems_in(text: str, limits: Limits | None = None) -> list[Problem]:
    with pytest.raises(Unreadable) as caught:
        read_toml(text, "plan.toml", limits or Limits())
    return caught.value.problems


def only_problem(text: str) -> tuple[str, str, int, int]:
    """Message, what was expected, line and column of the one thing wrong with the text."""
    (problem,) = problems_in(text)
    return problem.message, problem.expected, problem.place.line, problem.place.column


class TestPlainData:
    def test_tables_keys_and_values_come_out_as_groups_and_texts(self) -> None:
        assert read(TEXT).data == {
            "dryfit": "1",
            "heights from": "bare floor",
            "ceiling": ["2405", "2398.5"],
            "project": {"starts": "2026-06-01", "heated": "false"},
            "walls": {"north": {"made of": "dabbed brick", "length": "3_804"}},
            "runs": {"sink run": {"against": "north", "order": {"B1": {"is": "door", "width": "500"}}}},
            "agreed": {"hob-to-sink": [{"at": "hob"}, {"reason": "the window\nfixes it"}]},
        }

    @pytest.mark.parametrize(
        "word",
        ["12.50", "1e3", "-0", "+5", "0x1F", "true", "inf", "12:30:00", "2026-06-01 08:30:00", "1979-05-27T07:32:00Z"],
    )
    def test_what_is_no_text_is_kept_as_it_was_written(self, word: str) -> None:
        assert read(f"value = {word} # behind\n").data == {"value": word}

    def test_tables_come_in_the_order_in_which_they_are_written(self) -> None:
        text = "[walls.north]\na = 1\n[walls.east]\na = 1\n[walls.south]\na = 1\n"
        assert list(read(text).data["walls"]) == ["north", "east", "south"]

    def test_a_name_is_kept_as_written_in_composed_form(self) -> None:
        assert list(read('"cafe\u0301_Bar" = 1\n').data) == ["caf\u00e9_Bar"]

    def test_line_ends_of_any_sort_read_the_same(self) -> None:
        texts = ["a = 1\nb = 2\n", "a = 1\r\nb = 2\r\n", "\ufeffa = 1\nb = 2\n"]
        assert {read(text).text for text in texts} == {"a = 1\nb = 2\n"}


class TestPlaces:
    @pytest.mark.parametrize(
        ("pointer", "line", "value"),
        [
            ("/heights from", 2, '"bare floor"'),
            ("/Heights_from", 2, '"bare floor"'),
            ("/ceiling", 3, "[2405,  # at the door\n  2398.5]"),
            ("/ceiling/1", 4, "2398.5"),
            ("/project/starts", 6, "2026-06-01"),
            ("/walls/north", 8, '[walls.north]\n"made of" = "dabbed brick"\nlength = 3_804'),
            ("/runs/sink run/order/B1", 13, '{is = "door", width = 500}'),
            ("/runs/sink run/order/B1/width", 13, "500"),
            ("/agreed/hob-to-sink/1/reason", 17, '"""the window\nfixes it"""'),
        ],
    )
    def test_everything_has_its_line_and_its_text(self, pointer: str, line: int, value: str) -> None:
        document = read(TEXT)
        span = document.span(pointer)
        assert span is not None
        assert span.key_start.line == line
        assert document.written(pointer) == value

    def test_what_is_not_in_the_file_has_no_span(self) -> None:
        assert read(TEXT).span("/walls/garden") is None


class TestRefused:
    @pytest.mark.parametrize(
        ("text", "message", "expected", "line", "column"),
        [
            ("a = 1\nb: 5\n", "a colon stands where TOML has an equals sign", '`b = "5"`', 2, 1),
            ("walls:\n", "a colon stands where TOML has an equals sign", "`[walls]`", 1, 1),
            ('made of = "brick"\n', "the name `made of` has a space", '`"made of" = …`', 1, 1),
            ("[sink run]\na = 1\n", "the name `sink run` has a sign in it", '`["sink run"]`', 1, 2),
            ("hob = gas hob\n", "`gas hob` stands without quotes", '`hob = "gas hob"`', 1, 7),
            ("up = 600 mm\n", "`600 mm` stands without quotes", '`up = "600 mm"`', 1, 6),
            ("up = \n", "`up` has no value", "`up = …`", 1, 1),
            ("up = # later\n", "`up` has no value", "`up = …`", 1, 1),
            ('a = "open\n', "a quote that opens in this line is not closed", "the quote", 1, 10),
            ('a = """open\n', "a quote that opens above is not closed", "the quote", 1, 11),
            ("on = 2026-02-30\n", "there is no such day", "2026-06-01", 1, 6),
            ('a = "\\q"\n', "means nothing in TOML", "single quotes", 1, 8),
            ("a = {b = 1 c = 2}\n", "a brace is not closed, or lacks a comma", "`}`", 1, 12),
            ("[walls\na = 1\n", "this is no header of a table", "`[walls]`", 1, 7),
            ('a = "x" y\n', "something stands behind the value", "one entry in a line", 1, 9),
            ('a = "\\u0000"\n', "an invisible character (U+0000)", "without it", 1, 5),
            ("a = 1\nb = '\u200e\x07'\n", "an invisible character (U+0007)", "without it", 2, 7),
        ],
    )
    def test_a_slip_is_told_in_words_at_its_place(
        self, text: str, message: str, expected: str, line: int, column: int
    ) -> None:
        found, wanted, *place = only_problem(text)
        assert message in found
        assert expected in wanted
        assert place == [line, column]

    def test_slips_of_several_lines_are_told_at_once(self) -> None:
        problems = problems_in("a = gas hob\nb = 2\nmade of = 3\nc: 4\n")
        assert [problem.place.line for problem in problems] == [1, 3, 4]

    @pytest.mark.parametrize(
        "text",
        [
            "made_of = 1\n\nMade-Of = 2\n",
            "made_of = 1\n\nmade_of = 2\n",
            "[a]\nx = 1\n[A]\n",
            "[a]\nx = 1\n[a]\n",
            "a.b = 1\n\nA.c = 2\n",
        ],
    )
    def test_a_name_twice_is_told_with_both_places(self, text: str) -> None:
        (problem,) = problems_in(text)
        assert "is already in line 1" in problem.message
        assert problem.place.line == 3
        assert [place.line for place in problem.also] == [1]

    @pytest.mark.parametrize("text", ["", "\n\n", "# a remark only\n"])
    def test_an_empty_file_is_told(self, text: str) -> None:
        assert problems_in(text) == [Problem("the file is empty", Place("plan.toml"), "lines of `name = value`")]

    @pytest.mark.parametrize(
        "text", ["a = " + "[" * 100_000, "a" + ".a" * 100_000 + " = 1\n", "[a" + ".a" * 99_999 + "]"]
    )
    def test_100_000_levels_are_refused_within_a_second(self, text: str) -> None:
        begun = time.perf_counter()
        assert only_problem(text)[0] == "more than 64 levels, one inside the other"
        assert time.perf_counter() - begun < 1

    def test_64_levels_can_be_read_and_65_cannot(self) -> None:
        assert read("a = " + "[" * 63 + "5" + "]" * 63).data["a"]
        assert only_problem("a = " + "[" * 64 + "5" + "]" * 64)[0] == "more than 64 levels, one inside the other"

    def test_a_file_of_too_many_values_is_refused(self) -> None:
        (problem,) = problems_in("a = [" + "5, " * 200 + "5]", Limits(nodes=100))
        assert problem.message == "more than 100 names and values in one file"

    def test_a_number_of_10_000_figures_is_refused_or_kept_as_text(self) -> None:
        (problem,) = problems_in("a = " + "9" * 10_000)
        assert problem.message == "a number is too long"


PIECES = [
    *("a", "B", '"c d"', "'e'", ".", " = ", "\n", ", ", "# x\n", "x = 1\n", "[t]\n", "[[s]]\n", "\\"),
    *("[", "]", "[[", "]]", "{", "}", '"', "'", '"""', "'''"),
    *("1", "+2.5", "0x1F", "true", "2026-06-01", " 07:30:00"),
]


class TestAgainstPython:
    """Against Python's own reader and an independent writer of TOML."""

    @settings(max_examples=150, deadline=None)
    @given(data=plans.filter(lambda data: not has_one_name_twice(data)))
    def test_what_was_written_is_read_and_every_place_points_at_it(self, data: dict[str, Any]) -> None:
        document = read(tomli_w.dumps(data))
        assert document.data == data
        for pointer, value in scalars(data):
            assert tomllib.loads(f"value = {document.written(pointer)}") == {"value": value}

    @settings(max_examples=600, deadline=None)
    @given(st.lists(st.sampled_from(PIECES), max_size=14).map("".join))
    def test_what_python_reads_is_followed_and_what_it_refuses_is_told(self, text: str) -> None:
        try:
            meant: Any = tomllib.loads(text)
        except tomllib.TOMLDecodeError:
            meant = None
        try:
            document = read(text)
        except Unreadable as unreadable:
            problems = unreadable.problems
            assert all(problem.place.line <= text.count("\n") + 1 for problem in problems)
            assert meant is None or all("already" in p.message or "empty" in p.message for p in problems)
        else:
            assert as_texts(document.data) == as_texts(meant, document)
