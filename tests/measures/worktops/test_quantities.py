"""What is cut and bought: lengths with their ranges, boards, counts, and what stays open."""

from __future__ import annotations

import pytest

from tests.measures.plans import site
from validator.measures.rows import Given, Known
from validator.measures.worktops.quantities import Quantities, quantities

ROOM = """
heights from: bare floor
walls: {north: {length: [3010, 3004]}, east: {length: 2600}, south: {length: 3010}, west: {length: 2600}}
floor: {levels: {door: 0, sink: 9 low}}
floors: {laminate: {thickness: 8, underlay: 2, laid: after units}}
"""
KINDS = """
kinds:
  base: {height: 720, depth: 560, front: 19, void behind: 40, legs: 135 to 180}
  tall: {height: 1970, depth: 560, legs: 135 to 180}
  worktop: {material: laminate, thickness: 38, depth: 600}
"""
RUN = """
runs:
  r: {against: north, legs: 150 at high spot, order: {F1: filler 20, B1: base 600, B2: base 800, F2: filler rest}}
"""


def found(*parts: str) -> Quantities:
    return quantities(site(ROOM + KINDS + "\n".join(parts)))


def ends(value: Given) -> tuple[float | None, float | None]:
    assert isinstance(value, Known)
    return value.low, value.high


def asked(quantities: Quantities) -> set[str]:
    return {missing.pointer for missing in quantities.open}


def test_a_worktop_from_wall_to_wall_is_cut_for_the_longest_reading() -> None:
    (top,) = found(RUN, "worktops: {t: {on: r}}").tops
    assert ends(top.length) == (3004, 3010)


def test_a_gap_at_the_wall_is_left_at_both_ends() -> None:
    (top,) = found(RUN, "worktops: {t: {on: r, gap at wall: 5}}").tops
    assert ends(top.length) == (2994, 3000)


OPEN_END = "runs: {r: {against: north, legs: 150 at high spot, order: {F1: filler 20, B1: base 600, B2: base 800}}}"


def test_how_far_a_free_end_passes_the_units_is_asked_and_counted() -> None:
    assert "/worktops/t/past end" in asked(found(OPEN_END, "worktops: {t: {on: r}}"))
    (top,) = found(OPEN_END, "worktops: {t: {on: r, past end: 15}}").tops
    assert ends(top.length) == (1435, 1435)


def test_an_island_has_two_free_ends() -> None:
    island = "runs: {i: {faces: north, legs: 150 at high spot, order: {B1: base 900}}}"
    (top,) = found(island, "worktops: {t: {on: i, past: {ends: 30}, upstand: 80}}").tops
    assert ends(top.length) == (960, 960)
    assert top.upstand is None


def test_a_worktop_ends_flush_at_a_tall_unit_and_a_filler_behind_it_gets_none() -> None:
    run = RUN.replace("F1: filler 20", "F1: filler 20, T1: tall 600")
    (top,) = found(run, "worktops: {t: {on: r}}").tops
    assert ends(top.length) == (2384, 2390)


def test_a_cut_out_is_placed_from_the_left_end_of_its_piece() -> None:
    sink = "appliances: {sink: {in: B2, cut-out: 780 x 480, from front: 55}}"
    (top,) = found(RUN, "worktops: {t: {on: r, gap at wall: 5}}", sink).tops
    (cut_out,) = top.cut_outs
    assert ends(cut_out.from_left) == (1015, 1015)  # 20 + 600 + 400, less the gap
    assert (ends(cut_out.across)[1], ends(cut_out.front_to_back)[1]) == (780, 480)


def test_a_cut_out_nobody_gives_is_asked_for() -> None:
    assert "/appliances/hob/cut out" in asked(
        found(RUN, "worktops: {t: {on: r}}", "appliances: {hob: {is: gas hob, in: B1}}")
    )


def test_a_cooker_cuts_no_hole() -> None:
    run = RUN.replace("B2: base 800", "cooker: 600, B2: base 800")
    tops = found(run, "worktops: {t: {on: r}}", "appliances: {cooker: {is: gas cooker}}").tops
    assert [top.piece.name for top in tops] == ["t, F1 to B1", "t, B2 to F2"]
    assert not any(top.cut_outs for top in tops)


def test_pieces_of_one_sort_share_boards() -> None:
    run = RUN.replace("B2: base 800", "cooker: 600, B2: base 800")
    tops = "worktops: {t: {on: r, stock: [2000, 3000]}}\nappliances: {cooker: {is: gas cooker}}"
    (stock,) = found(run, tops, "boards: {saw cut: 3}").stock
    assert [board.stock for board in stock.boards] == [3000]
    assert {cut.name: cut.length for cut in stock.boards[0].cuts} == {"t, F1 to B1": 620, "t, B2 to F2": 1790}
    assert stock.boards[0].offcut == 3000 - 620 - 1790 - 2 * 3


def test_a_saw_cut_nobody_gives_is_the_usual_one() -> None:
    saw_cut = found(RUN).saw_cut
    assert isinstance(saw_cut, Known)
    assert (saw_cut.value, saw_cut.note) == (4, "from usual-sizes, common practice")


@pytest.mark.parametrize(
    ("joint", "parts"),
    [("butt at 1800 from west", [1800, 1210]), ("butt at 1800 from east", [1210, 1800]), ("butt at 500 from west", [])],
)
def test_a_worktop_longer_than_any_is_parted_only_where_the_plan_says(joint: str, parts: list[float]) -> None:
    listed = found(RUN, f"worktops: {{t: {{on: r, stock: 2000, joint: {joint}}}}}")
    assert [cut.length for stock in listed.stock for board in stock.boards for cut in board.cuts] == parts
    assert ("/worktops/t/joint" in asked(listed)) == (not parts)


def test_a_joint_without_a_place_leaves_its_parts_open() -> None:
    listed = found(RUN, "worktops: {t: {on: r, stock: 2000, joint: butt}}")
    assert listed.stock == []
    assert "/worktops/t/joint/at" in asked(listed)


def test_a_joint_lies_from_the_end_of_the_worktop_not_of_the_wall() -> None:
    (top,) = found(RUN, "worktops: {t: {on: r, gap at wall: 5, joint: butt at 1800 from west}}").tops
    assert [(joint.form, ends(joint.from_left)) for joint in top.joints] == [("butt", (1795, 1795))]


def test_a_worktop_that_starts_at_the_fronts_of_another_run_is_fitted_in_the_corner() -> None:
    """Fronts of the other run stand 40 void, 560 unit and 19 front from its wall."""
    order = "order: {F1: filler 20, B1: base 600, B2: base 800, F2: filler rest}"
    runs = f"""
runs:
  r: {{against: north, legs: 150 at high spot, {order}}}
  s: {{against: east, from: fronts of r, legs: 150 at high spot, order: {{B5: base 600}}}}
"""
    first, second = found(runs, "worktops: {t: {on: r}, u: {on: s, past end: 0}}").tops
    assert (first.corner, second.corner) == (False, True)
    assert ends(second.length) == (600, 600)


def test_a_corner_at_the_right_is_where_a_run_comes_from_the_fronts_at_its_right() -> None:
    """The left end of the second worktop is free."""
    runs = """
runs:
  r: {against: east, legs: 150 at high spot, order: {B1: base 600, B2: base 800}}
  s: {against: north, from: fronts of r, legs: 150 at high spot, order: {B5: base 600}}
"""
    corner = found(runs, "worktops: {u: {on: s, past end: 30}}").tops[0]
    assert ends(corner.length) == (630, 630)
    assert ends(corner.right) == (3004 - 40 - 560 - 19, 3010 - 40 - 560 - 19)


def test_an_end_may_be_called_by_the_wall_it_looks_at() -> None:
    island = "runs: {i: {faces: north, legs: 150 at high spot, order: {B1: base 900}}}"
    (top,) = found(island, "worktops: {t: {on: i, past: {west: 30, ends: 10}}}").tops
    assert ends(top.length) == (940, 940)


def test_stone_is_cut_from_slabs_that_nobody_here_buys() -> None:
    listed = found(RUN, "worktops: {t: {on: r, material: granite}}")
    assert "/worktops/t/stock" not in asked(listed)
    assert "/worktops/t/stock" in asked(found(RUN, "worktops: {t: {on: r}}"))


def test_a_plinth_is_as_high_as_the_deepest_spot_of_the_floor_asks_for() -> None:
    (plinth,) = found(RUN).plinths
    assert ends(plinth.length) == (3004, 3010)
    assert ends(plinth.least_height) == (140, 140)  # 150 less the laminate and its underlay
    assert ends(plinth.most_height) == (149, 149)


def test_panels_part_a_plinth_and_long_ones_are_joined() -> None:
    run = RUN.replace("B2: base 800", "P1: panel 18, B2: base 800")
    listed = found(run, "boards: {plinth: 1000}")
    assert [plinth.name for plinth in listed.plinths] == ["r, 1", "r, 2"]
    cuts = [cut for stock in listed.stock for board in stock.boards for cut in board.cuts]
    assert sorted(cut.length for cut in cuts) == [372, 620, 1000, 1000]


def test_a_filler_that_takes_the_rest_is_cut_to_fit_and_the_others_are_not() -> None:
    listed = found(RUN)
    assert [(strip.name, strip.to_fit) for strip in listed.strips] == [("F1", False), ("F2", True)]
    assert ends(listed.strips[1].width) == (1584, 1590)


def test_units_of_a_kind_a_width_and_a_hand_are_one_line() -> None:
    run = "runs: {r: {against: north, order: {B1: base 600 left, B2: base 600 right, B3: base 600 left, B4: base 500}}}"
    counted = [(count.what, count.number, count.names) for count in found(run).units]
    assert counted == [("base, left", 2, ("B1", "B3")), ("base, right", 1, ("B2",)), ("base", 1, ("B4",))]


def test_only_what_the_plan_says_is_bought_to_hold_units() -> None:
    assert found(RUN).bought == []
    held = "fixings: {brackets: {for: r, at: top, each: 2, plug: frame fixing 8 x 100}, straps: {for: B1}}"
    listed = found(RUN.replace("legs:", "joined: 4 connectors, legs:"), held)
    assert [(count.what, count.number) for count in listed.bought] == [
        ("connectors, r", 4),
        ("brackets, frame fixing 8 x 100", 4),
    ]
    assert "/fixings/straps/each" in asked(listed)


def test_a_plan_without_runs_asks_for_them_and_nothing_else_is_made_up() -> None:
    listed = quantities(site(ROOM))
    assert asked(listed) == {"/runs", "/worktops", "/appliances"}
    assert not any((listed.tops, listed.strips, listed.plinths, listed.stock, listed.units, listed.bought))


def test_a_worktop_on_a_run_that_cannot_be_placed_stays_open() -> None:
    run = "runs: {r: {against: north, order: {B1: base to find out, B2: base 800}}}"
    listed = found(run, "worktops: {t: {on: r, past end: 0}}")
    assert not isinstance(listed.tops[0].length, Known)
    assert "/runs/r/order/B1/width" in asked(listed)
