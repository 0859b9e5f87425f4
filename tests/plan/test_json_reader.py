"""Reading a plan from JSON: the same data as from YAML, the place of everything, and all that is refused."""

from __future__ import annotations

import json
import time
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.same_data import has_one_name_twice, plans, scalars
from validator.plan import json_reader
from validator.plan.documents import Document, Limits
from validator.plan.json_places import JsonPlaces
from validator.plan.json_reader import read_json
from validator.plan.problems import Place, Problem, Unreadable

TEXT = """\
{"dryfit": 1, "heights from": "bare floor",
 "ceiling": [2405, 2398.50],
 "walls": {
  "north": {"made of": "dabbed brick", "heated": false, "note": "caf\\u00e9 \\ud83d\\ude00"}
 }}
"""


def read(text: str) -> Document:
    return read_json(text, "plan.json")


def problems_in(text: str, limits: Limits | None = None) -> list[Problem]:
    with pytest.raises(Unreadable) as caught:
        read_json(text, "plan.json", limits or Limits())
    return caught.value.problems


def only_problem(text: str) -> tuple[str, str, int, int]:
    """Message, what was expected, line and column of the one thing wrong with the text."""
    (problem,) = problems_in(text)
    return problem.message, problem.expected, problem.place.line, problem.place.column


class TestPlainData:
    def test_objects_lists_and_values_come_out_as_groups_lists_and_texts(self) -> None:
        assert read(TEXT).data == {
            "dryfit": "1",
            "heights from": "bare floor",
            "ceiling": ["2405", "2398.50"],
            "walls": {"north": {"made of": "dabbed brick", "heated": "false", "note": "café 😀"}},
        }

    @pytest.mark.parametrize("word", ["12.50", "1e3", "-0", "-1.5E+10", "true", "9" * 10_000])
    def test_what_is_no_text_is_kept_as_it_was_written(self, word: str) -> None:
        assert read(f'{{"value": {word}}}').data == {"value": word}

    def test_a_name_is_kept_as_written_in_composed_form(self) -> None:
        assert list(read('{"cafe\u0301_Bar": 1, "A\\u030a": 2}').data) == ["caf\u00e9_Bar", "\u00c5"]

    def test_line_ends_of_any_sort_read_the_same(self) -> None:
        texts = ['{"a": 1,\n"b": 2}\n', '{"a": 1,\r\n"b": 2}\r\n', '\ufeff{"a": 1,\n"b": 2}\n']
        assert {read(text).text for text in texts} == {'{"a": 1,\n"b": 2}\n'}


class TestPlaces:
    @pytest.mark.parametrize(
        ("pointer", "name", "line", "value"),
        [
            ("/heights from", '"heights from"', 1, '"bare floor"'),
            ("/Heights_from", '"heights from"', 1, '"bare floor"'),
            ("/ceiling", '"ceiling"', 2, "[2405, 2398.50]"),
            ("/ceiling/1", "", 2, "2398.50"),
            ("/walls/north/made of", '"made of"', 4, '"dabbed brick"'),
            ("/walls/north/heated", '"heated"', 4, "false"),
        ],
    )
    def test_everything_has_its_line_and_its_text(self, pointer: str, name: str, line: int, value: str) -> None:
        document = read(TEXT)
        span = document.span(pointer)
        assert span is not None
        assert document.text[span.key_start.offset : span.key_end.offset] == name
        assert span.value_start.line == line
        assert document.written(pointer) == value

    def test_places_are_looked_up_only_when_one_is_asked_for(self, monkeypatch: pytest.MonkeyPatch) -> None:
        looked_up: list[str] = []

        class Counting(JsonPlaces):
            def __init__(self, *arguments: Any) -> None:
                looked_up.append("once")
                super().__init__(*arguments)

        monkeypatch.setattr(json_reader, "JsonPlaces", Counting)
        document = read(TEXT)
        assert looked_up == []
        assert document.span("/ceiling/0") is not None
        assert document.span("/walls/garden") is None
        assert looked_up == ["once"]


class TestRefused:
    @pytest.mark.parametrize(
        ("text", "message", "expected", "line", "column"),
        [
            ('{"a": 1,\n}', "a comma stands before the `}`", "no comma behind the last", 2, 1),
            ('{"a": [1, 2,]}', "a comma stands before the `]`", "no comma behind the last", 1, 13),
            ('{"a" 1}', "no colon stands behind `a`", '`"a": …`', 1, 6),
            ('{"a": 1\n"b": 2}', "a comma is missing", "a comma between two entries", 1, 8),
            ('{"a": }', "`a` has no value", '`"a": value`', 1, 2),
            ('{"a"}', "`a` has no value", '`"a": value`', 1, 2),
            ('{"a": null}', "`null` is no value", "the name left out", 1, 7),
            ('{"a": NaN}', "`NaN` is no number", "a number", 1, 7),
            ('{"a": -Infinity}', "`-Infinity` is no number", "a number", 1, 7),
            ('{"a": 012}', "JSON does not write a number as `012`", '`"012"`', 1, 7),
            ('{"a": +5}', "JSON does not write a number as `+5`", '`"+5"`', 1, 7),
            ('{"a": 600 mm}', "`600 mm` stands without quotes", '`"600 mm"`', 1, 7),
            ("{a: 1}", "the name `a` stands without quotes", '`"a"`', 1, 2),
            ("{\"a\": 'hob'}", "'hob' stands in single quotes", '`"hob"`', 1, 7),
            ('{"a": 1} // done', "`// done` is a remark", "a name of its own", 1, 10),
            ('{\n# oak\n"a": 1}', "`# oak` is a remark", "a name of its own", 2, 1),
            ('{"a": "open\n}', "the quote that opens here is not closed", 'a " behind', 1, 7),
            ('{"a": "\\q"}', "`\\q` means nothing in JSON", "`\\\\q`", 1, 8),
            ('{"a": "x\ty"}', "a tab stands inside quotes", "`\\t`", 1, 9),
            ('{"a": "\\u0000"}', "an invisible character (U+0000)", "without it", 1, 7),
            ('{"a": "\\ud800"}', "an invisible character (U+D800)", "without it", 1, 7),
            ('{"a": [1, 2}', "`}` stands where the `[` of line 1 has to be closed first", "a `]`", 1, 12),
            ('{"a": {"b": 1}', "the `{` here is not closed", "a `}`", 1, 1),
            ('{"a": 1}}', "something stands behind the last brace", "nothing", 1, 9),
            ('{"a": ["b": 1]}', "a colon stands in a list", "braces", 1, 11),
            ("[1, 2]", "a list stands at the top", "braces", 1, 1),
            ('"a"', "a text without a name stands at the top", "braces", 1, 1),
        ],
    )
    def test_a_slip_is_told_in_words_at_its_place(
        self, text: str, message: str, expected: str, line: int, column: int
    ) -> None:
        found, wanted, *place = only_problem(text)
        assert message in found
        assert expected in wanted
        assert place == [line, column]

    def test_all_slips_are_told_at_once(self) -> None:
        problems = problems_in('{"a": null,\n"b": 600 mm\n"c": [1,],\n"d": NaN}')
        assert [problem.place.line for problem in problems] == [1, 2, 2, 3, 4]

    @pytest.mark.parametrize(
        "text",
        ['{"made_of": 1,\n\n"Made-Of": 2}', '{"made of": 1,\n\n"made of": {"x": 2}}', '{"a": {"B": 1,\n\n"b": 2}}'],
    )
    def test_a_name_twice_is_told_with_both_places(self, text: str) -> None:
        (problem,) = problems_in(text)
        assert "is already in line 1" in problem.message
        assert problem.place.line == 3
        assert [place.line for place in problem.also] == [1]

    @pytest.mark.parametrize("text", ["", " \n"])
    def test_an_empty_file_is_told(self, text: str) -> None:
        assert problems_in(text) == [
            Problem("the file is empty", Place("plan.json"), 'braces with `"name": value` in them')
        ]

    @pytest.mark.parametrize("start", ['{"a": ' + "[" * 100_000, '{"a": ' * 100_000])
    def test_100_000_levels_are_refused_within_a_second(self, start: str) -> None:
        begun = time.perf_counter()
        assert only_problem(start)[0] == "more than 64 levels, one inside the other"
        assert time.perf_counter() - begun < 1

    def test_64_levels_can_be_read_and_65_cannot(self) -> None:
        assert read('{"a": ' + "[" * 63 + "5" + "]" * 63 + "}").data["a"]
        text = '{"a": ' + "[" * 64 + "5" + "]" * 64 + "}"
        assert only_problem(text)[0] == "more than 64 levels, one inside the other"

    def test_a_file_of_too_many_values_is_refused(self) -> None:
        (problem,) = problems_in('{"a": [' + "5, " * 200 + "5]}", Limits(nodes=100))
        assert problem.message == "more than 100 names and values in one file"


class TestAgainstPython:
    """Against Python's own reader and writer of JSON."""

    @pytest.mark.parametrize("indent", [None, 2])
    @settings(max_examples=150, deadline=None)
    @given(data=plans.filter(lambda data: not has_one_name_twice(data)), plainly=st.booleans())
    def test_what_was_written_is_read_and_every_place_points_at_it(
        self, indent: int | None, data: dict[str, Any], plainly: bool
    ) -> None:
        document = read(json.dumps(data, indent=indent, ensure_ascii=plainly))
        assert document.data == data
        for pointer, value in scalars(data):
            assert json.loads(document.written(pointer) or "") == value

    @settings(max_examples=600, deadline=None)
    @given(
        st.lists(
            st.sampled_from(
                [
                    '{"a":',
                    '"b"',
                    "{",
                    "}",
                    "[",
                    "]",
                    ",",
                    ":",
                    " ",
                    "\n",
                    "1",
                    "-2.5e1",
                    "01",
                    "true",
                    "null",
                    "NaN",
                    "x",
                ]
            ),
            max_size=12,
        ).map(lambda pieces: '{"z": [' + "".join(pieces) + "]}")
    )
    def test_what_python_reads_is_read_and_what_it_refuses_is_told(self, text: str) -> None:
        try:
            meant: Any = json.loads(text, parse_int=str, parse_float=str)
        except json.JSONDecodeError:
            meant = None
        try:
            document = read(text)
        except Unreadable as unreadable:
            problems = unreadable.problems
            assert not any("this is no JSON" in problem.message for problem in problems)
            assert all(problem.place.line <= text.count("\n") + 1 for problem in problems)
            told = ("already", "null", "NaN")
            assert meant is None or all(any(word in problem.message for word in told) for problem in problems)
        else:
            assert [value for _, value in scalars(document.data)] == [
                "true" if value is True else value for _, value in scalars(meant)
            ]
            assert all(document.span(pointer) is not None for pointer, _ in scalars(document.data))
