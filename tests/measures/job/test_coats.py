"""Coats of paint in their order.

Water is a share of the paint: p of the mix is p / (1 − p) of the paint, and n parts of paint to one of water are 1 / n
(arithmetic of ratios).
"""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, gaps, left_out, row, rows, to_find
from validator.measures.rows import Why

COAT = "coat"
SURFACE = "surface to paint"


def painted(coats: str) -> str:
    return f"walls: {{east: {{}}}}\ncoatings: {{larder: {{on: new skim, walls: [east], coats: {coats}}}}}\n"


@pytest.mark.parametrize(
    ("written", "water"),
    [
        ("20 % water", 0.2),
        ("20 % of mix", 0.25),
        ("4 to 1", 0.25),
        ("'4:1'", 0.25),
        ("1 paint to 1 water", 1.0),
        ("neat", 0.0),
        ("contract matt 15 % water", 0.15),
        ("contract matt neat", 0.0),
    ],
)
def test_every_way_to_write_thinning_is_water_as_a_share_of_the_paint(written: str, water: float) -> None:
    assert row(painted(f"[{written}]"), COAT).water == pytest.approx(water, abs=1e-12)


def test_each_coat_knows_its_number_and_the_coat_below() -> None:
    found = rows(painted("[4 to 1, 10 % water, neat]"), COAT)
    assert [(coat.number, coat.first) for coat in found] == [(1, True), (2, False), (3, False)]
    assert [coat.water_below for coat in found[1:]] == [0.25, 0.1]
    assert [coat.subject.name for coat in found] == ["larder, coat 1", "larder, coat 2", "larder, coat 3"]


def test_a_range_of_thinning_is_kept_at_both_ends() -> None:
    first, second = rows(painted("[20 % to 30 % water, neat]"), COAT)
    assert ends(first, "water") == ends(second, "water_below") == (0.2, 0.3)


@pytest.mark.parametrize(("coats", "thinned"), [("[neat, 10 % water]", True), ("[neat, neat]", False)])
def test_a_system_is_thinned_if_any_of_its_coats_is(coats: str, thinned: bool) -> None:
    assert [coat.any_thinned for coat in rows(painted(coats), COAT)] == [thinned, thinned]


def test_one_thinned_coat_settles_it_though_another_is_not_known() -> None:
    assert rows(painted("[to find out, 10 % water]"), COAT)[0].any_thinned is True


def test_a_coat_nobody_knows_the_water_of_leaves_the_system_open() -> None:
    first, second = rows(painted("[undercoat, neat]"), COAT)
    assert to_find(first, "water") == to_find(second, "water_below") == {"/coatings/larder/coats/0/water"}
    assert to_find(second, "any_thinned") == {"/coatings/larder/coats/0/water"}
    assert second.water == 0


def test_the_first_coat_has_no_coat_below() -> None:
    first, *_ = rows(painted("[10 % water, neat]"), COAT)
    assert "water_below" not in first.known


def test_the_makers_water_is_read_from_the_paper_of_the_paint() -> None:
    stated = "stated: {larder: {read: tin, first coat: 15 % water}}\n"
    first, *_ = rows(painted("[10 % water, neat]") + stated, COAT)
    assert first.maker_water == 0.15


def test_a_tin_nobody_has_read_is_unread() -> None:
    first, *_ = rows(painted("[10 % water, neat]"), COAT)
    assert [gap.why for gap in gaps(first, "maker_water")] == [Why.UNREAD]


def test_the_surface_has_its_reading_its_meter_and_the_number_of_coats() -> None:
    plan = painted("[10 % water, neat, neat]").replace("on: new skim", "on: new skim, moisture: 72 % by hygrometer")
    surface = row(plan, SURFACE)
    assert (surface.on, surface.reading, surface.meter, surface.coats) == ("new skim", 0.72, "hygrometer", 3)


def test_a_surface_without_a_reading_is_to_find_out() -> None:
    assert to_find(row(painted("[neat]"), SURFACE), "reading") == {"/coatings/larder/moisture"}


def test_a_coating_without_coats_is_not_known_coat_by_coat() -> None:
    plan = "coatings: {larder: {on: new skim}}\n"
    assert left_out(plan, COAT) == ["/coatings/larder/coats"]
    assert to_find(row(plan, SURFACE), "coats") == {"/coatings/larder/coats"}


def test_coatings_left_out_are_not_known_and_none_are_none() -> None:
    for kind in (COAT, SURFACE):
        assert left_out("", kind) == ["/coatings"]
        assert left_out("coatings: none\n", kind) == []
