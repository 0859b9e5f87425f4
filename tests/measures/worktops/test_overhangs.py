"""Overhangs of worktops, and what a worktop weighs."""

from __future__ import annotations

import pytest

from tests.measures.plans import gaps, left_out, row, rows, to_find
from validator.measures.rows import Why

KIND = "overhang of a worktop"
MASS = "worktop to carry in"
WALLS = "walls: {north: {length: 3600}, east: {length: 3000}, south: {length: 3600}, west: {length: 3000}}\n"
ISLAND = "{faces: north, aisle: 1200, order: {B1: base 1200, B2: base 800}}"
QUARTZ = "material: quartz, thickness: 30, depth: 900"


def kitchen(top: str, run: str = ISLAND, more: str = "") -> str:
    kinds = "kinds: {base: {height: 720, depth: 560}}\n"
    return f"{WALLS}{kinds}runs: {{a: {run}}}\nworktops: {{top: {{on: a, {top}}}}}\n{more}"


def test_an_overhang_at_the_back_crosses_the_depth_along_the_whole_length() -> None:
    found = row(kitchen(f"{QUARTZ}, past: {{back: 250}}"), KIND)
    assert (found.overhang, found.width, found.edge) == (250, 900, 2000)
    assert found.subject.name == "top past its units, back"


@pytest.mark.parametrize("side", ["ends", "east", "left", "right end"])
def test_an_overhang_at_an_end_crosses_the_length_along_the_depth(side: str) -> None:
    found = row(kitchen(f"{QUARTZ}, past: {{{side}: 250}}"), KIND)
    assert (found.width, found.edge) == (2000, 900)


def test_an_overhang_at_one_end_is_that_of_the_piece_there() -> None:
    """A cooker parts the worktop into 1200 and 800."""
    run = "{against: north, order: {B1: base 1200, range: 600, B2: base 800}}"
    found = row(kitchen(f"{QUARTZ}, past: {{right: 180}}", run, "appliances: {range: {is: gas cooker}}"), KIND)
    assert (found.overhang, found.width) == (180, 800)


def test_timber_bends_across_its_grain_at_the_back_and_along_it_at_the_ends() -> None:
    oak = "material: oak, thickness: 40, depth: 900"
    back, end = rows(kitchen(f"{oak}, past: {{south: 200, ends: 200}}"), KIND)
    assert end.stiffness / back.stiffness == pytest.approx(15, rel=1e-2)


def test_past_end_is_an_overhang_too() -> None:
    run = "{against: north, order: {B1: base 1200}}"
    assert row(kitchen(f"{QUARTZ}, past end: 180", run), KIND).overhang == 180


def test_an_island_that_does_not_say_where_its_top_passes_is_asked() -> None:
    assert to_find(row(kitchen(QUARTZ), KIND), "overhang") == {"/worktops/top/past"}


def test_a_run_against_a_wall_is_not_asked() -> None:
    assert rows(kitchen(QUARTZ, "{against: north, order: {B1: base 1200}}"), KIND) == []


def test_the_longest_overhang_is_that_of_stone_and_its_thickness() -> None:
    assert row(kitchen(f"{QUARTZ}, past: {{back: 250}}"), KIND).longest == pytest.approx(254)
    thin = QUARTZ.replace("30", "20")
    assert row(kitchen(f"{thin}, past: {{back: 250}}"), KIND).longest == pytest.approx(152.4)


def test_laminate_reaches_less_far_in_the_united_states() -> None:
    top = "material: laminate, thickness: 38, depth: 900, past: {back: 250}"
    american = "project: {title: Heron Wharf, country: US-OR, lengths in: mm}"
    assert row(kitchen(top), KIND).longest == 300
    assert row(kitchen(top), KIND, american).longest == pytest.approx(152.4)


def test_what_its_maker_says_of_an_overhang_goes_first() -> None:
    more = "stated: {top: {read: fitting guide, overhang: 350}}"
    found = row(kitchen(f"{QUARTZ}, past: {{back: 250}}", more=more), KIND)
    assert (found.longest, found.has_makers_overhang) == (350, True)


def test_another_material_asks_its_maker() -> None:
    top = "material: solid surface, thickness: 12, depth: 900, past: {back: 250}"
    assert [gap.why for gap in gaps(row(kitchen(top), KIND), "longest")] == [Why.UNREAD]


def test_brackets_share_the_edge() -> None:
    found = row(kitchen(f"{QUARTZ}, past: {{back: 400}}, supports: {{back: 4 steel brackets}}"), KIND)
    assert (found.support, found.spacing) == ("steel brackets", 500)


def test_brackets_without_a_number_are_counted() -> None:
    found = row(kitchen(f"{QUARTZ}, past: {{back: 400}}, supports: {{back: corbels}}"), KIND)
    assert to_find(found, "spacing") == {"/worktops/top/supports/back/how many"}


def test_supports_at_another_side_do_not_hold_this_one() -> None:
    found = row(kitchen(f"{QUARTZ}, past: {{back: 400}}, supports: {{ends: 2 legs}}"), KIND)
    assert found.support == "nothing"


def test_a_worktop_weighs_what_its_size_and_its_material_make() -> None:
    found = row(kitchen(f"{QUARTZ}, carried by: 4, past: {{ends: 30}}"), MASS)
    assert found.mass == pytest.approx((2.0 + 0.06) * 0.9 * 0.03 * 2400)
    assert (found.persons, found.by_hand) == (4, True)


def test_a_worktop_that_its_supplier_brings_is_not_carried_by_hand() -> None:
    found = row(kitchen(f"{QUARTZ}, carried by: supplier"), MASS)
    assert found.by_hand is False


def test_who_carries_it_is_asked() -> None:
    assert to_find(row(kitchen(QUARTZ), MASS), "persons") == {"/worktops/top/carried by"}


def test_each_length_between_joints_is_carried_by_itself() -> None:
    run = "{against: north, order: {B1: base 1200, B2: base 800}}"
    found = rows(kitchen(f"{QUARTZ}, joint: butt at 1500 from west, past end: 0", run), MASS)
    assert [each.mass for each in found] == pytest.approx([1.5 * 0.9 * 0.03 * 2400, 0.5 * 0.9 * 0.03 * 2400])


@pytest.mark.parametrize("kind", [KIND, MASS])
def test_a_plan_without_worktops_is_asked_for_them(kind: str) -> None:
    assert left_out(WALLS, kind) == ["/worktops"]


def test_what_closes_a_run_beside_a_tall_unit_has_no_top_to_carry() -> None:
    tall = kitchen(QUARTZ, run="{against: north, order: {F1: filler 30, T1: tall 600, B1: base 1200}}")
    tall = tall.replace("kinds: {", "kinds: {tall: {height: 2100, depth: 560}, ")
    assert [each.subject.name for each in rows(tall, MASS)] == ["top, B1"]
