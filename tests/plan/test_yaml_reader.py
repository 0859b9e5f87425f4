"""Reading a file: plain data with every scalar as text, the place of everything, and all that is refused."""

from __future__ import annotations

import io
import json
import subprocess
import sys
import time
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from validator.plan import yaml_reader
from validator.plan.documents import Document, Limits
from validator.plan.names import fold
from validator.plan.pointers import join
from validator.plan.problems import Problem, Unreadable
from validator.plan.yaml_reader import read_yaml


@pytest.fixture(params=["compiled", "pure"])
def either_parser(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Runs a test with the compiled parser and without it."""
    if request.param == "pure":
        monkeypatch.setattr(yaml_reader, "CParser", None)


def problems_in(text: str, limits: Limits | None = None) -> list[Problem]:
    with pytest.raises(Unreadable) as caught:
        read_yaml(text, "plan.yaml", limits or Limits())
    return caught.value.problems


def problems_or_none(text: str) -> list[Problem] | None:
    """What is wrong with a text that is refused; None for one that is read."""
    try:
        read_yaml(text, "plan.yaml")
    except Unreadable as unreadable:
        return unreadable.problems
    return None


def only_problem(text: str) -> tuple[str, str, int, int]:
    """Message, what was expected, line and column of the one thing wrong with the text."""
    (problem,) = problems_in(text)
    return problem.message, problem.expected, problem.place.line, problem.place.column


def marked(document: Document, pointer: str) -> tuple[str, str]:
    """The name and the value that the span of a pointer encloses, cut out of the text by line and column."""
    span = document.span(pointer)
    assert span is not None
    lines = document.text.split("\n")

    def cut(start: tuple[int, int], end: tuple[int, int]) -> str:
        chosen = lines[start[0] - 1 : end[0]]
        chosen[-1] = chosen[-1][: end[1] - 1]
        chosen[0] = chosen[0][start[1] - 1 :]
        return "\n".join(chosen)

    return cut(span.key_start[:2], span.key_end[:2]), cut(span.value_start[:2], span.value_end[:2])


class TestPlainData:
    pytestmark = pytest.mark.usefixtures("either_parser")

    @pytest.mark.parametrize(
        "word",
        ["no", "on", "12:30", "0777", "1_000", "2026-03-01", "3:1", "1e3", ".nan", "null", "~", "0x1F", "34-1/2"],
    )
    def test_a_plain_word_stays_the_text_that_was_written(self, word: str) -> None:
        assert read_yaml(f"cover: {word}\n", "plan.yaml").data == {"cover": word}

    def test_mappings_lists_and_quoted_texts_are_read(self) -> None:
        text = "walls:\n  quay: {length: [4310, 4306], note: 'Jo''s'}\ncoats:\n- neat\n- \"30 %\"\n"
        assert read_yaml(text, "plan.yaml").data == {
            "walls": {"quay": {"length": ["4310", "4306"], "note": "Jo's"}},
            "coats": ["neat", "30 %"],
        }

    def test_a_ratio_with_a_colon_may_stand_in_braces(self) -> None:
        assert read_yaml("mix: {plaster: 3:1}\n", "plan.yaml").data == {"mix": {"plaster": "3:1"}}

    def test_a_name_is_kept_as_written_in_composed_form(self) -> None:
        assert list(read_yaml("cafe\u0301_Bar: 600\n", "plan.yaml").data) == ["caf\u00e9_Bar"]

    def test_line_ends_of_any_sort_read_the_same(self) -> None:
        texts = ["a: 1\nb: 2\n", "a: 1\r\nb: 2\r\n", "a: 1\rb: 2\r", "\ufeffa: 1\nb: 2\n"]
        assert {read_yaml(text, "plan.yaml").text for text in texts} == {"a: 1\nb: 2\n"}

    def test_three_dashes_and_three_dots_may_enclose_a_plan(self) -> None:
        assert read_yaml("---\ndryfit: 1\n...\n", "plan.yaml").data == {"dryfit": "1"}


class TestPlaces:
    pytestmark = pytest.mark.usefixtures("either_parser")

    TEXT = (
        "# survey\n"
        "walls:\n"
        "  quay wall: {made of: old brick, length: [4310, '4306']}\n"
        "notes:\n"
        "- |\n"
        "  two\n"
        "  lines\n"
        "\n"
        "- {on: 😀, to: end}\n"
    )

    @pytest.mark.parametrize(
        ("pointer", "name", "value"),
        [
            ("/walls/quay wall/made of", "made of", "old brick"),
            ("/Walls/quay_wall/made-of", "made of", "old brick"),
            ("/walls/quay wall/length/1", "'4306'", "'4306'"),
            ("/walls/quay wall/length", "length", "[4310, '4306']"),
            ("/walls", "walls", "quay wall: {made of: old brick, length: [4310, '4306']}"),
            ("/notes/0", "|\n  two\n  lines", "|\n  two\n  lines"),
            ("/notes/1/to", "to", "end"),
        ],
    )
    def test_a_span_encloses_a_name_and_its_value(self, pointer: str, name: str, value: str) -> None:
        document = read_yaml(self.TEXT, "plan.yaml")
        assert marked(document, pointer) == (name, value)
        assert document.written(pointer) == value

    def test_lines_and_columns_count_from_one(self) -> None:
        span = read_yaml(self.TEXT, "plan.yaml").span("/walls/quay wall/made of")
        assert span is not None
        assert (span.key_start.line, span.key_start.column) == (3, 15)
        assert (span.value_start.line, span.value_start.column) == (3, 24)

    def test_what_is_not_in_the_file_has_no_span(self) -> None:
        assert read_yaml(self.TEXT, "plan.yaml").span("/walls/garden") is None


class TestRefused:
    pytestmark = pytest.mark.usefixtures("either_parser")

    @pytest.mark.parametrize(
        ("text", "message", "line", "column"),
        [
            ("a: &wide 600\n", "`&wide` gives the value a mark", 1, 4),
            ("a: 5\nb: *wide\n", "`*wide` repeats a marked value", 2, 4),
            ("a: 5\nb: {<<: {c: 1}}\n", "`<<` merges other entries in", 2, 5),
            ("a: !!int 5\n", "`!!int` sets a type", 1, 4),
            ("a: !mm [1, 2]\n", "`!mm` sets a type", 1, 4),
            ("%YAML 1.2\n---\na: 5\n", "a line with % at the start", 1, 1),
            ("a: 5\n---\nb: 6\n", "a second document starts here", 2, 1),
            ("a: {[b, c]: 5}\n", "a bracket or dash stands where a name should", 1, 5),
            ("? {a: 5}\n: b\n", "a bracket or dash stands where a name should", 1, 3),
            ("a: 5\nb: {: 6}\n", "a value without a name", 2, 5),
            ("- a\n- b\n", "a list stands at the top", 1, 1),
            ("[a, b]\n", "a list stands at the top", 1, 1),
            ("a plan\n", "a text without a name stands at the top", 1, 1),
            ("", "the file is empty", 0, 0),
            ("# a remark\n\n", "the file is empty", 0, 0),
            ("a: 5\nb: 6\x07\n", "an invisible character (U+0007)", 2, 5),
            ("a: 5\u2028b: 6\n", "an invisible character (U+2028)", 1, 5),
            ('a: "\\e[31m"\n', "an invisible character (U+001B)", 1, 4),
            ('a: "\\UFFFFFFFF"\n', "`\\UFFFFFFFF` stands for no character", 1, 5),
            ('a: "\\ud83d\\ude00"\n', "`\\ud83d` stands for no character", 1, 5),
        ],
    )
    def test_what_a_plan_may_not_hold(self, text: str, message: str, line: int, column: int) -> None:
        found, expected, *place = only_problem(text)
        assert found.startswith(message)
        assert expected
        assert place == [line, column]

    def test_a_second_name_shows_the_first_too(self) -> None:
        (problem,) = problems_in("runs: {}\nwalls:\n  sea_wall: {a: 1}\n  Sea wall: {a: 1}\n")
        assert problem.message == "`Sea wall` is already in line 3"
        assert (problem.place.line, problem.place.column) == (4, 3)
        assert [(place.line, place.column) for place in problem.also] == [(3, 3)]

    def test_everything_wrong_is_shown_at_once(self) -> None:
        text = "a: &x 1\nb:\nc: {d: 1, d: 2}\nwalls:\n  quay: 1\n    yard: 2\n  sea: 3\nf: %\ng: !h i\n"
        assert [problem.place.line for problem in problems_in(text)] == [1, 2, 3, 6, 8, 9]


class TestEmptyValues:
    @pytest.mark.parametrize(
        ("text", "message", "expected", "line", "column"),
        [
            ("a: 1\nmade of:\nc: 2\n", "a colon without a value behind `made of`", "a value", 2, 1),
            ("a: {b: , c: 2}\n", "a colon without a value behind `b`", "a value", 1, 5),
            ("a: {b:5}\n", "`b:5` has no space behind the colon", "`b: 5`", 1, 5),
            ("a: {length 5, up: 6}\n", "`length 5` has no value", "a colon and a space", 1, 5),
            ("screw: #10 x 3\n", "a # starts a remark", "`no. 10`", 1, 1),
            ("a: {screw: #10 x 3\n  , b: 5}\n", "a # starts a remark", "`no. 10`", 1, 5),
            ("paint: #cream\n", "a # starts a remark", '"#cream", in quotes', 1, 1),
            ("a: {price: $1,250}\n", "`250` stands alone behind a comma", "`1250`", 1, 15),
            ("a:\n- 5\n-\n", "a dash or comma without a value", "a value", 3, 2),
        ],
    )
    def test_an_empty_value_is_refused_with_the_likely_slip(
        self, text: str, message: str, expected: str, line: int, column: int
    ) -> None:
        found, wanted, *place = only_problem(text)
        assert message in found
        assert expected in wanted
        assert place == [line, column]

    def test_empty_brackets_and_quotes_are_values(self) -> None:
        assert read_yaml("a: {}\nb: []\nc: ''\n", "plan.yaml").data == {"a": {}, "b": [], "c": ""}


class TestLimits:
    def test_64_levels_can_be_read_and_65_cannot(self) -> None:
        def nested(levels: int) -> str:
            return "a: " + "[" * (levels - 1) + "5" + "]" * (levels - 1)

        assert read_yaml(nested(64), "plan.yaml").data["a"]
        assert only_problem(nested(65))[0] == "more than 64 levels, one inside the other"

    def test_deep_lines_are_refused_as_deep_brackets_are(self) -> None:
        text = "\n".join(" " * level + "a:" for level in range(70))
        assert only_problem(text)[0] == "more than 64 levels, one inside the other"

    def test_a_file_of_too_many_values_is_refused(self) -> None:
        (problem,) = problems_in("a: [" + "5, " * 200 + "5]", Limits(nodes=100))
        assert problem.message == "more than 100 names and values in one file"

    @pytest.mark.parametrize("start", ["[", "a: [", "a: {b: ", "- "])
    def test_100_000_openings_are_refused_within_a_second_and_200_megabytes(self, start: str) -> None:
        script = (
            "import resource, sys, time\n"
            "resource.setrlimit(resource.RLIMIT_AS, (200 << 20, 200 << 20))\n"
            "from validator.plan.problems import Unreadable\n"
            "from validator.plan.yaml_reader import read_yaml\n"
            "begun = time.perf_counter()\n"
            "try:\n    read_yaml(sys.argv[1] + sys.argv[1].split()[-1] * 100_000, 'plan.yaml')\n"
            "except Unreadable as unreadable:\n    print(len(unreadable.problems))\n"
            "print(time.perf_counter() - begun)\n"
        )
        run = subprocess.run([sys.executable, "-c", script, start], capture_output=True, text=True, check=True)
        count, seconds = run.stdout.split()
        assert int(count) >= 1
        assert float(seconds) < 1


names = st.text("abcXYZ _-/~é%&#'\"{:5", min_size=1, max_size=8).filter(lambda name: fold(name) != "")
values = st.text(st.characters(exclude_categories=("Cs", "Cc", "Co", "Cn"), exclude_characters="\u2028\u2029\ufeff"))
plain = st.recursive(
    values | st.integers().map(str) | st.sampled_from(["no", "~", "12:30", "0o17", "<<", "&a", "*a"]),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(names, inner, max_size=4),
    max_leaves=12,
)
plans = st.dictionaries(names, plain, min_size=1, max_size=4)


def has_one_name_twice(data: Any) -> bool:
    if isinstance(data, dict):
        return len({fold(name) for name in data}) < len(data) or any(map(has_one_name_twice, data.values()))
    return isinstance(data, list) and any(map(has_one_name_twice, data))


def as_block(data: Any) -> str:
    written = io.StringIO()
    dumper = YAML(typ="safe", pure=True)
    dumper.default_flow_style = False
    dumper.allow_unicode = True
    dumper.dump(data, written)
    return written.getvalue()


def as_json(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False, indent=2)


def scalars(data: Any, pointer: str = "") -> list[tuple[str, str]]:
    if isinstance(data, dict):
        return [found for name, value in data.items() for found in scalars(value, join(pointer, name))]
    if isinstance(data, list):
        return [found for at, value in enumerate(data) for found in scalars(value, join(pointer, at))]
    return [(pointer, data)]


def value_of(written: str) -> object:
    """What a dumped scalar stands for, read alone by the library that dumped it, as text."""
    return YAML(typ="base", pure=True).load("- " + written)[0]


class TestRoundTrip:
    """Against two independent writers: the YAML library's own dumper and Python's json."""

    @pytest.mark.parametrize("write", [as_block, as_json])
    @settings(max_examples=150, deadline=None)
    @given(data=plans.filter(lambda data: not has_one_name_twice(data)))
    def test_what_was_written_is_read_and_every_place_points_at_it(
        self, write: Callable[[Any], str], data: dict[str, Any]
    ) -> None:
        document = read_yaml(write(data), "plan.yaml")
        assert document.data == data
        for pointer, value in scalars(data):
            written = document.written(pointer)
            assert written is not None
            assert value_of(written) == value

    @settings(max_examples=300, deadline=None)
    @given(st.text("ab:-?{}[],#&*!|>'\"%@ \n1~<\\x", max_size=30))
    def test_any_text_is_read_or_refused_with_places_inside_it(self, text: str) -> None:
        problems = problems_or_none(text)
        if problems is not None:
            assert problems
            assert all(problem.place.line <= text.count("\n") + 1 for problem in problems)


def test_5_000_lines_are_read_in_well_under_100_milliseconds() -> None:
    pytest.importorskip("ruamel.yaml.cyaml", reason="the compiled parser is not on this machine")
    wall = "  wall {}: {{made of: old brick, length: [4310, 4306], note: about {} in all}}\n  unit {}: door 450 left\n"
    text = "walls:\n" + "".join(wall.format(at, at, at) for at in range(2500))
    taken = []
    for _ in range(5):
        begun = time.process_time()
        read_yaml(text, "plan.yaml")
        taken.append(time.process_time() - begun)
    assert min(taken) < 0.1
