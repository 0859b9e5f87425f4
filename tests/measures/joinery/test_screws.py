"""Screws of the joinery and of worktops."""

from __future__ import annotations

import pytest

from tests.measures.plans import row, rows, to_find

TOP = """
walls: {{north: {{length: 4000}}}}
kinds: {{base: {{height: 720}}}}
runs: {{sink run: {{against: north, order: {{B1: base 600}}}}}}
worktops: {{top: {{on: sink run, {said}}}}}
{screws}
"""
SCREWS = "screws: {tops: {for: worktops, screw: pan head screw 4 x 50, through: 18}}"


def in_tops(said: str, screws: str = SCREWS) -> list[object]:
    return list(rows(TOP.format(said=said, screws=screws), "screw in a worktop"))


def test_what_is_left_of_the_worktop_over_the_tip() -> None:
    (found,) = in_tops("material: laminate, thickness: 38")
    assert (found.left_over, found.held) == (6, 32)  # type: ignore[attr-defined]


def test_nobody_says_what_screws_hold_a_worktop() -> None:
    (found,) = in_tops("material: laminate, thickness: 38", "")
    assert to_find(found, "left_over") == {"/screws"}  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "said", ["material: granite, thickness: 30", "material: oak, thickness: 38, held by: silicone"]
)
def test_stone_and_what_is_glued_ask_for_no_screws(said: str) -> None:
    assert in_tops(said, "") == []


def test_screws_for_a_worktop_of_stone_are_seen() -> None:
    (found,) = in_tops("material: granite, thickness: 30")
    assert found.material == "granite"  # type: ignore[attr-defined]


def test_screws_for_one_worktop_go_before_those_for_all() -> None:
    both = SCREWS[:-1] + ", thin: {for: top, screw: 4 x 30, through: 18}}"
    (found,) = in_tops("material: laminate, thickness: 22", both)
    assert found.length == 30  # type: ignore[attr-defined]


@pytest.mark.parametrize(("screw", "thick"), [("4 x 30", 4), ("no. 8 x 30", 4.1656), ("no. 10 x 30", 4.826)])
def test_a_number_stands_for_a_thickness(screw: str, thick: float) -> None:
    found = row(f"screws: {{a: {{for: plinths, screw: {screw}}}}}", "screw of the joinery")
    assert found.diameter == pytest.approx(thick)


def test_a_number_nobody_knows_is_not_guessed() -> None:
    found = row("screws: {a: {for: plinths, screw: no. ten}}", "screw of the joinery")
    assert to_find(found, "diameter") == {"/screws/a/screw/gauge"}


def test_no_pilot_hole_is_one_of_nothing_and_silence_is_not_known() -> None:
    assert row("screws: {a: {for: plinths, screw: 4 x 30, pilot: none}}", "screw of the joinery").pilot_width == 0
    silent = row("screws: {a: {for: plinths, screw: 4 x 30}}", "screw of the joinery")
    assert to_find(silent, "pilot_width") == {"/screws/a/pilot"}


def test_a_screw_without_a_word_is_an_ordinary_one() -> None:
    assert row("screws: {a: {for: plinths, screw: 4 x 30}}", "screw of the joinery").type == "screw"


def test_the_tip_stays_short_of_the_end_of_its_pilot_hole() -> None:
    said = "{for: plinths, screw: 4 x 30, through: 18, pilot depth: 14}"
    assert row(f"screws: {{a: {said}}}", "screw of the joinery").pilot_past_tip == 2


def test_a_name_that_is_nothing_to_screw_is_a_slip() -> None:
    from validator.plan.problems import Unreadable

    with pytest.raises(Unreadable, match="worktop"):
        rows("screws: {a: {for: worktosp}}\nworktops: none\nruns: none", "screw of the joinery")
