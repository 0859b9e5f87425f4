"""Marks that a merge leaves: said to be that, whatever the file is written in, and taken for nothing else."""

from __future__ import annotations

import pytest

from validator.plan.files import documents_of
from validator.plan.problems import Problem, Unreadable

MARKS = "<<<<<<< HEAD\n{ours}\n=======\n{theirs}\n>>>>>>> the other branch\n"


def problems(name: str, text: str) -> list[Problem]:
    try:
        documents_of([(name, text.encode())])
    except Unreadable as unreadable:
        return unreadable.problems
    return []


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("plan.yaml", "dryfit: 1\n" + MARKS.format(ours="walls: none", theirs="walls: {}")),
        ("plan.toml", "dryfit = 1\n" + MARKS.format(ours='walls = "none"', theirs="")),
        ("plan.json", '{"dryfit": 1,\n' + MARKS.format(ours='"walls": "none"', theirs="") + "}"),
    ],
)
def test_they_are_one_mistake_with_all_their_lines(name: str, text: str) -> None:
    found = problems(name, text)
    assert len(found) == 1
    assert found[0].message.startswith("conflict marks stand in lines 2, 4, 6: ")
    assert found[0].place == (name, 2, 1)


def test_the_common_forerunner_is_marked_too() -> None:
    text = "dryfit: 1\n<<<<<<< ours\na: 1\n||||||| 3c0ffee\na: 2\n=======\na: 3\n>>>>>>> theirs\n"
    assert problems("plan.yaml", text)[0].message.startswith("conflict marks stand in lines 2, 4, 6, 8: ")


def test_a_mark_left_over_is_enough() -> None:
    assert problems("plan.yaml", "dryfit: 1\n>>>>>>> theirs\n")[0].message.startswith(
        "conflict marks stand in line 2: "
    )


def test_of_many_the_first_six_are_named() -> None:
    text = "dryfit: 1\n" + MARKS.format(ours="a: 1", theirs="a: 2") * 3
    assert problems("plan.yaml", text)[0].message.startswith(
        "conflict marks stand in lines 2, 4, 6, 7, 9, 11 and 3 more: "
    )


def test_windows_line_ends_make_no_difference() -> None:
    text = "dryfit: 1\n" + MARKS.format(ours="a: 1", theirs="a: 2")
    assert problems("plan.yaml", text.replace("\n", "\r\n"))[0].place.line == 2


@pytest.mark.parametrize(
    "text",
    [
        "dryfit: 1\n# =======\n",
        "dryfit: 1\nproject: {note: '<<<<<<< HEAD'}\n",
        "dryfit: 1\nproject:\n  note: |\n    =======\n    >>>>>>> x\n",
        "dryfit: 1\n# <<<<<<<\n#======= \n",
    ],
)
def test_what_only_looks_like_one_is_none(text: str) -> None:
    assert problems("plan.yaml", text) == []
