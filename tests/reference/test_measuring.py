"""How open values are found out, by place: the most exact place counts, and mistakes in the file are told."""

from __future__ import annotations

from pathlib import Path

import pytest

from validator.plan.plan import Plan
from validator.plan.problems import Unreadable
from validator.plan.rooms import Room
from validator.reference.folder import rules_folder
from validator.reference.measuring import Way, Ways, our_words, read_ways

NOT_FIELDS_OF_A_PLAN = {"kinds"}


def ways(tmp_path: Path, text: str) -> Ways:
    (tmp_path / "measuring.yaml").write_text(text, "utf-8")
    return read_ways(tmp_path)


def test_the_most_exact_place_counts(tmp_path: Path) -> None:
    found = ways(tmp_path, "points: {at: wall}\npoints / * / plate: {at: papers}\npoints / S1 / plate: {at: room}\n")
    assert [found.of(f"/points/{at}").at for at in ("S2/up", "S2/plate", "S1/plate")] == ["wall", "papers", "room"]


def test_a_place_stands_for_all_below_it(tmp_path: Path) -> None:
    found = ways(tmp_path, "floor / moisture: {at: room, how: Have it measured., readings: 2}\n")
    assert found.of("/floor/moisture/reading") == Way("room", "", "Have it measured.", 2)


def test_american_keys_are_found_by_our_words(tmp_path: Path) -> None:
    assert our_words("/receptacles/R1/gfci") == ("points", "r1", "rcd")
    assert ways(tmp_path, "points / * / rcd: {ask: electrician}\n").of("/receptacles/R1/gfci").ask == "electrician"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("walls: {at: cellar}\n", "at cannot be `cellar`"),
        ("walls: {at: wall, ask: mason}\n", "says where to look, or whom to ask"),
        ("walls: {how: Look.}\n", "says where to look, or whom to ask"),
        ("walls: {at: wall, readings: 9}\n", "readings cannot be `9`"),
        ("walls: {at: wall, hwo: Look.}\n", "has no `hwo`"),
    ],
)
def test_a_mistake_is_told_with_its_line(tmp_path: Path, text: str, said: str) -> None:
    with pytest.raises(Unreadable) as found:
        ways(tmp_path, text)
    assert [said in problem.message for problem in found.value.problems] == [True]
    assert found.value.problems[0].place.line == 1


def test_our_ways_are_for_sections_that_a_plan_has() -> None:
    sections = {place[0].replace(" ", "_") for place in read_ways(rules_folder()).by_place}
    assert sections - NOT_FIELDS_OF_A_PLAN <= {*Plan.__dataclass_fields__, *Room.__dataclass_fields__}
