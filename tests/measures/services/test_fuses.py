"""Fused connection units and what hangs on them."""

from __future__ import annotations

import pytest

from tests.measures.plans import row, rows, to_find

KIND = "fused point"
POINTS = "points: {C1: {is: connection unit, fuse: 3 A}}\n"


def on_c1(appliances: str, points: str = POINTS) -> str:
    return f"appliances: {{{appliances}}}\n" + points


def test_the_load_of_a_fuse_is_the_power_of_all_that_hangs_on_it() -> None:
    """690 W at 230 V are 3 A: P = U I."""
    text = on_c1("hood: {power: 230 W, supply: C1}") + "lights: {under units: {power: 460 W, supply: C1}}\n"
    fused = row(text, KIND)
    assert (fused.load, fused.fuse) == (pytest.approx(3), 3)


def test_a_gas_hob_on_a_connection_unit_draws_nothing_worth_counting() -> None:
    assert row(on_c1("hob: {is: gas hob, power: 7 kW, supply: C1}"), KIND).load == 0


@pytest.mark.parametrize(
    ("appliances", "asked"),
    [
        ("hood: {supply: C1}", "/appliances/hood/power"),
        ("hood: {power: 200 W, supply: C1}, oven: {power: 3 kW}", "/appliances/oven/supply"),
        ("sink: {waste: 40 mm}", "/points/C1"),
    ],
)
def test_a_load_without_one_of_its_parts_is_not_known(appliances: str, asked: str) -> None:
    assert to_find(row(on_c1(appliances), KIND), "load") == {asked}


def test_an_appliance_that_a_circuit_feeds_hangs_on_no_connection_unit() -> None:
    circuit = "circuits: {oven circuit: {serves: oven}}\n"
    assert row(on_c1("hood: {power: 230 W, supply: C1}, oven: {power: 3 kW}") + circuit, KIND).load == pytest.approx(1)


def test_a_connection_unit_without_a_word_of_its_fuse_asks_for_it() -> None:
    points = "kinds: {switched connection unit: {plate: 86 x 86}}\npoints: {C1: {is: switched connection unit}}\n"
    assert to_find(row(on_c1("hood: {power: 230 W, supply: C1}", points), KIND), "fuse") == {"/points/C1/fuse"}


@pytest.mark.parametrize("point", ["double socket", "cooker connection unit", "unfused connection unit", "flex outlet"])
def test_what_holds_no_fuse_is_none_of_them(point: str) -> None:
    assert (
        rows(
            on_c1(
                "hood: {power: 230 W, supply: C1}",
                f"kinds: {{{point}: {{plate: 86 x 86}}}}\npoints: {{C1: {{is: {point}}}}}\n",
            ),
            KIND,
        )
        == []
    )


@pytest.mark.parametrize(
    ("appliances", "alone"),
    [
        ("hood: {power: 230 W, supply: C1}", True),
        ("hood: {power: 230 W, supply: C1}, fridge: {power: 200 W, supply: C1}", False),
    ],
)
def test_a_hood_may_be_all_that_hangs_on_a_fuse(appliances: str, alone: bool) -> None:
    assert row(on_c1(appliances), KIND).hood_alone is alone
