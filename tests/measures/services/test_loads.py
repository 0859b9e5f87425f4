"""Appliances on their circuits: plugged or wired, on a ring, alone or in company."""

from __future__ import annotations

from typing import Any

import pytest

from tests.measures.plans import PROJECT, left_out, rows, to_find

KIND = "appliance on a circuit"

KITCHEN = """
kinds: {double socket: {plate: 146 x 86}, connection unit: {plate: 86 x 86}}
walls: {north: {length: 4000}}
points:
  S1: {is: double socket, wall: north}
  S2: {is: double socket, wall: north}
  C1: {is: connection unit, wall: north}
appliances:
  dishwasher: {power: 2.3 kW, supply: S1}
  oven: {power: 3.45 kW, supply: C1}
  hob: {is: induction hob, power: 6.9 kW}
  sink: {bowl: 340 w x 400 d x 180 h}
circuits:
  sockets: {is: ring, serves: all sockets}
  oven circuit: {is: radial, serves: C1}
  hob circuit: {is: radial, serves: hob}
"""


def found(text: str = KITCHEN) -> dict[str, Any]:
    return {row.subject.name: row for row in rows(text, KIND)}


def test_a_row_for_each_appliance_that_draws_from_the_mains() -> None:
    assert list(found()) == ["dishwasher", "oven", "hob"]
    assert found()["oven"].current == pytest.approx(15)


@pytest.mark.parametrize(
    ("name", "cooks", "plugged", "ring"),
    [("dishwasher", False, True, True), ("oven", True, False, False), ("hob", True, False, False)],
)
def test_what_feeds_it_says_whether_it_is_plugged_and_on_a_ring(
    name: str, cooks: bool, plugged: bool, ring: bool
) -> None:
    row = found()[name]
    assert (row.cooks, row.plugged, row.ring) == (cooks, plugged, ring)


def test_a_circuit_with_other_points_feeds_nothing_alone() -> None:
    assert {name: row.alone for name, row in found().items()} == {"dishwasher": False, "oven": True, "hob": True}


def test_two_appliances_on_one_point_are_not_alone() -> None:
    assert found(KITCHEN.replace("power: 6.9 kW", "power: 6.9 kW, supply: C1"))["oven"].alone is False


def test_one_that_nobody_says_what_feeds_is_asked_and_may_keep_others_company() -> None:
    text = KITCHEN.replace(", supply: S1", "")
    assert to_find(found(text)["dishwasher"], "plugged") == {"/appliances/dishwasher/supply"}
    assert to_find(found(text)["oven"], "alone") == {"/appliances/dishwasher/supply"}


def test_a_socket_on_no_circuit_leaves_ring_and_company_open() -> None:
    text = KITCHEN.replace("serves: all sockets", "serves: S2")
    assert to_find(found(text)["dishwasher"], "ring") == {"/circuits"}
    assert to_find(found(text)["dishwasher"], "alone") == {"/circuits"}
    assert found(text)["dishwasher"].plugged is True


def test_appliances_left_out_are_not_known() -> None:
    assert left_out("", KIND) == ["/appliances"]
    assert rows(KITCHEN, KIND, project=PROJECT.replace("GB-ENG", "DE-BE"))[1].alone is True


def test_without_circuits_only_what_names_its_supply_is_asked() -> None:
    text = KITCHEN[: KITCHEN.index("circuits:")] + "circuits: none"
    assert list(found(text)) == ["dishwasher", "oven"]
    assert found(text)["dishwasher"].plugged is True
