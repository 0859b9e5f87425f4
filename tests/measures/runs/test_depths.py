"""Depths from the wall outwards: the worktop over its units, and hung units."""

from __future__ import annotations

from tests.measures.plans import ends, left_out, row, rows, to_find

TOP, HUNG = "depth of a worktop", "depth of a hung unit"
KINDS = """
heights from: bare floor
kinds:
  base: {height: 720, depth: 560, front: 19, void behind: 50}
  deep: {like: base, depth: 600}
  tall: {like: deep, height: 1970}
  plain: {height: 720}
  wall: {height: 720, depth: 320}
"""


def top(order: str, depth: str = "depth: 650, ") -> str:
    return KINDS + f"runs: {{low: {{against: north, order: {{{order}}}}}}}\nworktops: {{top: {{{depth}on: low}}}}"


def test_the_overhang_is_what_void_carcass_and_front_leave_of_the_depth() -> None:
    """650 − 50 − 560 − 19 is 21."""
    assert row(top("B1: base 600"), TOP).past_fronts == 21


def test_the_deepest_unit_under_the_worktop_counts_and_a_tall_one_beside_it_does_not() -> None:
    assert row(top("B1: base 600, B2: deep 600"), TOP).past_fronts == -19
    assert row(top("B1: base 600, T1: tall 600"), TOP).past_fronts == 21


def test_a_depth_in_doubt_keeps_both_ends() -> None:
    assert ends(row(top("B1: base 600", "depth: 640 to 650, "), TOP), "past_fronts") == (11, 21)


def test_what_is_missing_is_asked_of_the_worktop_and_of_the_kind() -> None:
    found = row(top("B1: base 600, B2: plain 600", ""), TOP)
    assert to_find(found, "past_fronts") == {
        "/worktops/top/depth",
        "/kinds/plain/void behind",
        "/kinds/plain/depth",
        "/kinds/plain/front",
    }


def test_islands_and_worktops_without_units_have_no_depth_to_compare() -> None:
    text = (
        KINDS + "runs: {isle: {faces: north, order: {B1: base 600}}}\nworktops: {top: {on: isle}}\nwalls: {north: {}}"
    )
    assert rows(text, TOP) == []
    assert rows(top("F1: filler 40"), TOP) == []


def test_every_hung_unit_has_its_depth() -> None:
    text = KINDS + "runs: {up: {against: north, underside: 1400, order: {W1: wall 600, F1: filler 20, B1: plain 600}}}"
    found = {each.subject.name: each for each in rows(text, HUNG)}
    assert (set(found), found["W1"].depth) == ({"W1", "B1"}, 320)
    assert to_find(found["B1"], "depth") == {"/kinds/plain/depth"}


def test_without_worktops_or_runs_they_are_asked_for() -> None:
    assert (left_out(KINDS, TOP), left_out(KINDS, HUNG)) == (["/worktops"], ["/runs"])
