"""Where a worktop lies: its pieces, what is below each, and the stretches that nothing holds."""

from __future__ import annotations

from tests.measures.plans import row, rows, site, to_find
from validator.measures.rows import Known
from validator.measures.worktops.pieces import Piece, unheld

WALLS = "walls: {north: {length: 2800}, east: {length: 2500}, south: {length: 2800}, west: {length: 2500}}\n"
KINDS = "kinds: {base: {height: 720, depth: 560}, tall: {height: 2000, depth: 560}}\n"
MACHINES = "appliances: {range: {is: gas cooker}, fridge: {body: 600 w x 1780 h x 600 d}}\n"


def pieces(order: str, top: str = "{on: a}", more: str = "") -> list[Piece]:
    runs = f"runs: {{a: {{against: north, order: {{{order}}}}}}}\n"
    return site(WALLS + KINDS + runs + f"worktops: {{top: {top}}}\n" + more).worktop_pieces["top"]


def stretches(order: str, top: str = "{on: a}", more: str = "") -> list[tuple[float, float, bool, bool]]:
    """From where to where nothing holds the worktop, and whether something holds it at the left and at the right."""
    found = []
    for piece in pieces(order, top, more):
        for stretch in unheld(piece):
            assert isinstance(stretch.left, Known)
            assert isinstance(stretch.right, Known)
            held = stretch.held_left is not None, stretch.held_right is not None
            found.append((float(stretch.left.value), float(stretch.right.value), *held))
    return found


def test_a_worktop_ends_where_the_tall_units_begin() -> None:
    runs = "runs: {a: {against: north, order: {T1: tall 600, B1: base 1000, B2: base 1200}}}\n"
    found = row(WALLS + KINDS + runs + "worktops: {top: {on: a, stock: [2000, 3000]}}", "length of a worktop")
    assert (found.length, found.stock) == (2200, 3000)


def test_a_worktop_reaches_between_what_it_names() -> None:
    runs = "runs: {a: {against: north, order: {T1: tall 600, B1: base 1000, B2: base 600}}}\n"
    top = "worktops: {top: {on: a, between: T1 and east wall, stock: 3000}}"
    assert row(WALLS + KINDS + runs + top, "length of a worktop").length == 2200


def test_a_worktop_of_units_whose_height_nobody_knows_lies_on_all_of_them() -> None:
    runs = "kinds: {base: {depth: 560}}\nruns: {a: {against: north, order: {B1: base 600, B2: base 400}}}\n"
    found = row(WALLS + runs + "worktops: {top: {on: a, stock: 3000, past end: 0}}", "length of a worktop")
    assert found.length == 1000


def test_a_worktop_on_nothing_asks_what_it_lies_on() -> None:
    runs = "runs: {a: {against: north, order: {F1: gap 600}}}\n"
    found = row(WALLS + KINDS + runs + "worktops: {top: {on: a, stock: 3000}}", "length of a worktop")
    assert to_find(found, "length") == {"/worktops/top/on"}


def test_a_cooker_parts_a_worktop_in_two() -> None:
    found = pieces("B1: base 600, range: 600, B2: base 900", more=MACHINES)
    assert [piece.name for piece in found] == ["top, B1", "top, B2"]
    assert [piece.start.value for piece in found if isinstance(piece.start, Known)] == [0, 1200]


def test_a_tall_machine_parts_a_worktop_and_one_under_it_does_not() -> None:
    order = "B1: base 600, fridge: 600, B2: base 300, dishwasher: 600, B3: base 400"
    assert [piece.name for piece in pieces(order, more=MACHINES)] == ["top, B1", "top, B2 to B3"]


def test_a_tall_unit_in_the_middle_parts_a_worktop() -> None:
    assert [piece.name for piece in pieces("B1: base 600, T1: tall 600, B2: base 900")] == ["top, B1", "top, B2"]


def test_each_piece_is_held_against_the_lengths_sold() -> None:
    runs = "runs: {a: {against: north, order: {B1: base 600, range: 600, B2: base 900}}}\n"
    text = WALLS + KINDS + runs + "worktops: {top: {on: a, stock: 3000, past end: 0}}\n" + MACHINES
    assert [each.length for each in rows(text, "length of a worktop")] == [600, 900]


def test_an_opening_between_two_units_is_held_at_both_sides() -> None:
    assert stretches("B1: base 600, dishwasher: 600, B2: base 900") == [(600, 1200, True, True)]


def test_two_machines_side_by_side_are_one_stretch() -> None:
    order = "B1: base 600, dishwasher: 600, washing machine: 600, B2: base 900"
    assert stretches(order) == [(600, 1800, True, True)]


def test_a_panel_between_two_machines_holds_the_worktop() -> None:
    order = "B1: base 600, dishwasher: 600, P1: panel 18, washing machine: 600, B2: base 900"
    assert stretches(order) == [(600, 1200, True, True), (1218, 1818, True, True)]


def test_a_machine_at_the_end_of_a_run_is_held_at_one_side() -> None:
    assert stretches("B1: base 600, dishwasher: 600") == [(600, 1200, True, False)]
    assert stretches("dishwasher: 600, F1: filler 30, B1: base 600") == [(0, 630, False, True)]


def test_a_filler_alone_is_no_stretch() -> None:
    assert stretches("F1: filler 40, B1: base 600, F2: filler 40") == []


def test_a_gap_at_the_end_is_bridged_only_by_a_worktop_that_says_so() -> None:
    order = "B1: base 600, F1: gap 500, B2: base 600, F2: gap rest"
    assert stretches(order) == [(600, 1100, True, True)]
    between = "{on: a, between: west wall and east wall}"
    assert stretches(order, between) == [(600, 1100, True, True), (1700, 2800, True, False)]


def test_hung_units_of_the_same_run_are_not_below_its_worktop() -> None:
    hung = "W1: {is: base, width: 600, over: B1, underside: 1500 from bare floor}"
    (found,) = pieces(f"B1: base 600, B2: base 600, {hung}")
    assert [thing.name for thing in found.below] == ["B1", "B2"]
