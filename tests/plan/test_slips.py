"""Slips of the hand in words: at the line that is out of step, saying what it wants, never in a parser's words."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from validator.plan.problems import Problem, Unreadable
from validator.plan.yaml_reader import read_yaml

PLAN = (Path(__file__).parent / "data" / "lock_keepers_kitchen.yaml").read_text("utf-8")
LINES = PLAN.splitlines()
PARSERS_WORDS = ("block", "flow", "scalar", "mapping", "sequence", "token", "expected", "scanning", "context", "stream")


def problems_in(text: str) -> list[Problem]:
    try:
        read_yaml(text, "plan.yaml")
    except Unreadable as unreadable:
        return unreadable.problems
    return []


def only_problem(text: str) -> tuple[str, str, int, int]:
    """Message, what was expected, line and column of the one thing wrong with the text."""
    (problem,) = problems_in(text)
    return problem.message, problem.expected, problem.place.line, problem.place.column


class TestIndentation:
    def test_a_line_too_far_in_is_named_with_the_column_it_wants(self) -> None:
        text = "walls:\n  quay: {length: 4310}\n    yard: {length: 2950}\n  sea: {length: 4306}\n"
        assert only_problem(text) == (
            "`yard` starts in column 5, out of step with the lines around it",
            "column 3, as `quay` in line 2",
            3,
            5,
        )

    def test_a_line_too_far_out_is_named_and_not_the_next_one(self) -> None:
        text = "walls:\n  quay: {length: 4310}\nyard: {length: 2950}\n  sea: {length: 4306}\nfloor: {made of: slab}\n"
        message, expected, line, column = only_problem(text)
        assert message == "`yard` starts in column 1, out of step with the lines around it"
        assert expected.startswith("column 3, as `quay` in line 2")
        assert (line, column) == (3, 1)

    def test_the_first_line_below_a_name_may_be_the_one_out_of_step(self) -> None:
        text = "kinds:\n    base: {height: 720}\n  door: {like: base}\n  wall: {height: 900}\n"
        assert only_problem(text)[1:] == ("column 3, as `door` in line 3", 2, 5)

    def test_where_either_of_two_lines_may_be_meant_both_are_shown(self) -> None:
        (problem,) = problems_in("oven:\n  fuel: gas\nhob: 590\n  sink: [860]\n")
        assert (problem.place.line, problem.place.column) == (4, 3)
        assert problem.expected == "column 1, as `hob` in line 3; or else `hob` in line 3 belongs in column 3"
        assert [place.line for place in problem.also] == [3]

    def test_a_tab_is_named(self) -> None:
        assert only_problem("walls:\n\tquay: {length: 4310}\n") == (
            "a tab at the start of the line",
            "spaces: two for each step to the right",
            2,
            1,
        )


class TestBrackets:
    @pytest.mark.parametrize(
        ("text", "message", "expected", "line", "column"),
        [
            ("a: {b: 1\nc: 2\n", "the { opened here is never closed", "a } before the next name", 1, 4),
            (
                "a:\n  b: {c: [1, 2}\n  d: 5\n",
                "the [ opened here is never closed",
                "a ] before the } in column 15",
                2,
                10,
            ),
            ("a: {b: 1,\n  c: 2\n# end\nd: 3\n", "the { opened here is never closed", "a } before the next name", 1, 4),
            ("a: {b: 1}}\n", "this } closes nothing", "as many { as }", 1, 10),
            ("a: b: 1, c: 2}\n", "this } closes nothing", "as many { as }", 1, 14),
            ("a: {b: 1, c: 2 d: 3}\n", "`2 d: 3}`: two entries run into one", "a comma between entries", 1, 14),
            ("a: {b: 1, c: [2]] }\n", "the { opened here is never closed", "a } before the ]", 1, 4),
            ("a: {b: 1} c\n", "`c` stands behind a value that has ended", "one value", 1, 11),
            ("a: {b: #8 x 1}\nc: 5\n", "a # starts a remark", "`no. 8`", 1, 8),
            ("a: {b: #8 x 1,\n  c: 5}\n", "a # starts a remark", "`no. 8`", 1, 8),
        ],
    )
    def test_a_bracket_or_comma_is_named_where_it_was_opened_or_left_out(
        self, text: str, message: str, expected: str, line: int, column: int
    ) -> None:
        found, wanted, *place = only_problem(text)
        assert found.startswith(message)
        assert wanted.startswith(expected)
        assert place == [line, column]


class TestValues:
    @pytest.mark.parametrize(
        ("form", "mark"),
        [("gap: {} 16\n", mark) for mark in "%@`?->|"] + [("hob: {{gap: {} 16}}\n", mark) for mark in "%@`->|"],
    )
    def test_a_mark_that_may_not_start_a_value_is_named(self, form: str, mark: str) -> None:
        text = form.format(mark)
        message, expected, line, column = only_problem(text)
        assert message == f"a value cannot start with {mark} unless it is in quotes"
        assert expected
        assert (line, column) == (1, text.index(mark) + 1)

    @pytest.mark.parametrize(
        ("text", "message", "line", "column"),
        [
            ("a: B5: left\n", "a second colon in one line: `a: B5: left`", 1, 6),
            ('a: "34" deep\n', "`deep` stands behind a value that has ended", 1, 9),
            ('a: "34\nb: 5\n', 'the " opened here is never closed', 1, 4),
            ("a: {b: 'old}\nc: 5\n", "the ' opened here is never closed", 1, 8),
            ('"a: 5\nb: 6\n', 'the " opened here is never closed', 1, 1),
            ("a: 1\nb 2\nc: 3\n", "`b 2` has no colon", 2, 1),
            ("a: 1\nb:2\nc: 3\n", "`b:2` has no colon", 2, 1),
            ("a: 1\nb\n  c: 3\n", "`b` has no colon", 2, 1),
        ],
    )
    def test_other_slips_within_a_line(self, text: str, message: str, line: int, column: int) -> None:
        found, expected, *place = only_problem(text)
        assert found == message
        assert expected
        assert place == [line, column]

    def test_a_slip_does_not_hide_what_is_wrong_further_down(self) -> None:
        text = (
            "walls: {quay: {length: 4310}\nfloor:\n  made of: slab\nkinds:\n  base: @ 5\nruns: {a: 1 b: 2}\nwork: *x\n"
        )
        assert [problem.place.line for problem in problems_in(text)] == [1, 5, 6, 7]


def slips(old: str, new: str) -> Iterator[tuple[int, str]]:
    """The plan with one occurrence of a mark replaced, for each occurrence, and the number of its line."""
    for at, line in enumerate(LINES):
        start = line.find(old)
        while start >= 0:
            changed = line[:start] + new + line[start + len(old) :]
            yield at + 1, "\n".join([*LINES[:at], changed, *LINES[at + 1 :]]) + "\n"
            start = line.find(old, start + 1)


def shifted(by: int) -> Iterator[tuple[int, str]]:
    """The plan with one line moved by some columns, for each line that can be moved."""
    for at, line in enumerate(LINES):
        if by > 0 or line.startswith(" " * -by):
            changed = " " * by + line if by > 0 else line[-by:]
            yield at + 1, "\n".join([*LINES[:at], changed, *LINES[at + 1 :]]) + "\n"


def first_line(problems: list[Problem]) -> int:
    return min(problem.place.line for problem in problems)


class TestMeasured:
    """Each slip made everywhere in a plan of 63 lines that has none; the floors are what was measured."""

    def test_the_plan_itself_is_read(self) -> None:
        assert problems_in(PLAN) == []

    @pytest.mark.parametrize(("by", "refused_at_least", "right_at_least"), [(2, 55, 0.98), (-2, 30, 0.84)])
    def test_of_lines_shifted_by_two_columns_most_are_named(
        self, by: int, refused_at_least: int, right_at_least: float
    ) -> None:
        refused = [(line, problems) for line, text in shifted(by) if (problems := problems_in(text))]
        right = sum(first_line(problems) == line for line, problems in refused)
        assert len(refused) >= refused_at_least
        assert right / len(refused) >= right_at_least

    def test_of_all_shifted_lines_that_are_refused_nine_in_ten_are_named(self) -> None:
        refused = [(line, found) for by in (2, -2) for line, text in shifted(by) if (found := problems_in(text))]
        assert sum(first_line(found) == line for line, found in refused) / len(refused) > 0.9

    @pytest.mark.parametrize(
        ("old", "new", "refused_at_least"),
        [("{", "", 19), ("}", "", 19), ("]", "", 5), (",", "", 30), (": ", " ", 90), (": ", ":", 90), ("{", "{{", 15)],
    )
    def test_every_lost_mark_that_is_refused_is_named_in_its_line(
        self, old: str, new: str, refused_at_least: int
    ) -> None:
        refused = [(line, problems) for line, text in slips(old, new) if (problems := problems_in(text))]
        assert len(refused) >= refused_at_least
        assert [line for line, problems in refused if first_line(problems) != line] == []

    def test_no_slip_is_told_in_a_parsers_words(self) -> None:
        texts = [text for by in (2, -2) for _, text in shifted(by)]
        texts += [text for old in "{}[],:" for _, text in slips(old, "")]
        told = {problem.message for text in texts for problem in problems_in(text)}
        assert not [message for message in told if any(word in message.split() for word in PARSERS_WORDS)]
