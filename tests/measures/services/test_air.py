"""Hoods and fans, and where their air goes."""

from __future__ import annotations

import pytest

from tests.measures.plans import left_out, row, rows, to_find

EXTRACT, DUCT, FUMES = "extract of a kitchen", "duct to outside", "fumes of cooking"
LITRE_A_SECOND = 1e6  # a flow is kept in cubic millimetres a second


@pytest.mark.parametrize(
    ("ducted", "outside"),
    [
        ("recirculating", False),
        ("150 mm through the outside wall", True),
        ("{outside: yes}", True),
        ("{bore: 125}", True),
        ("{outside: no, bore: 125}", False),
    ],
)
def test_a_bore_or_an_end_says_that_the_air_goes_outside(ducted: str, outside: bool) -> None:
    assert row(f"appliances: {{hood: {{ducted: {ducted}}}}}", EXTRACT).ducted is outside


def test_a_rate_in_cubic_metres_an_hour_is_the_one_in_litres_a_second() -> None:
    """Arithmetic: 108 cubic metres are 108 000 litres, and an hour is 3600 seconds."""
    assert row("appliances: {hood: {rate: 108 m3/h}}", EXTRACT).rate == pytest.approx(30 * LITRE_A_SECOND)


def test_a_hood_that_does_not_say_where_its_air_goes_is_asked() -> None:
    assert to_find(row("appliances: {hood: {over: hob}, hob: {}}", EXTRACT), "ducted") == {"/appliances/hood/ducted"}


def test_a_hood_ducted_outside_counts_for_the_fan_beside_it() -> None:
    fan = rows("appliances: {hood: {ducted: 150 mm to roof}, fan: {is: extract fan}}", EXTRACT)[1]
    assert (fan.hood, fan.ducted_hood, fan.other_extract) == (False, True, True)


def test_only_a_duct_to_outside_asks_for_an_open_flue() -> None:
    assert rows("appliances: {hood: {ducted: recirculating}}", DUCT) == []
    assert to_find(row("appliances: {hood: {ducted: 150 mm to roof}}", DUCT), "open_flue") == {"/survey"}


def test_a_duct_in_one_line_gives_bore_and_end() -> None:
    found = row("appliances: {hood: {ducted: 125 mm round through the outside wall}}", DUCT)
    assert (found.bore, found.ends) == (125, "outside wall")


def test_a_hood_that_does_not_say_where_its_air_goes_may_have_a_duct() -> None:
    assert left_out("appliances: {hood: {}}", DUCT) == ["/appliances/hood/ducted"]
    assert left_out("appliances: {hood: {ducted: recirculating}}", DUCT) == []


@pytest.mark.parametrize("kind", [EXTRACT, DUCT, FUMES])
def test_without_appliances_nobody_knows_what_air_goes_out(kind: str) -> None:
    assert left_out("", kind) == ["/appliances"]
    assert left_out("appliances: none", kind) == []


@pytest.mark.parametrize(
    ("more", "planned"),
    [("", False), (", hood: {ducted: recirculating}", True), (", fan: {is: extract fan}", True)],
)
def test_whether_anything_catches_the_fumes_of_a_hob(more: str, planned: bool) -> None:
    assert row(f"appliances: {{hob: {{is: gas hob}}{more}}}", FUMES).planned is planned


def test_an_appliance_of_no_kind_may_be_the_fan() -> None:
    found = row("appliances: {hob: {is: gas hob}, thing in the wall: {}}", FUMES)
    assert to_find(found, "planned") == {"/appliances/thing in the wall/is"}
