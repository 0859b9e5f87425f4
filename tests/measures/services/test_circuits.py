"""Circuits: what hangs on them, and what their cables carry as they lie."""

from __future__ import annotations

import pytest

from tests.measures.plans import PROJECT, ends, gaps, known, left_out, row, rows, site, to_find, working
from validator.measures.reading import exactly
from validator.measures.rows import Subject, Why
from validator.measures.services.circuits import CookingDemand

KIND = "circuit"
DEMAND = "cooking appliance's demand"

KITCHEN = """
kinds:
  double socket: {plate: 146 x 86}
  cooker switch: {plate: 86 x 86}
walls: {north: {length: 4000}}
points:
  S1: {is: double socket, wall: north}
  S2: {is: double socket, wall: north}
  C1: {is: cooker switch, wall: north}
appliances:
  dishwasher: {power: 2.3 kW, supply: S1}
  washing machine: {power: 1.84 kW, supply: S2}
  hob: {is: induction hob, power: 6.9 kW, supply: C1}
  sink: {bowl: 340 w x 400 d x 180 h}
circuits:
  sockets:
    {is: ring, device: 32 A, rcd: 30 mA, cable: 2.5 mm2, laid: clipped direct or in plaster,
      in insulation: 0, serves: all sockets}
  hob circuit:
    {device: 32 A, rcd: 30 mA, cable: 6 mm2, laid: clipped direct or in plaster, in insulation: 80, serves: C1}
"""


def test_the_design_current_is_the_power_of_all_it_serves_over_the_voltage() -> None:
    sockets, _ = rows(KITCHEN, KIND)
    assert sockets.design_current == pytest.approx((2300 + 1840) / 230)
    assert sockets.feeds_sockets is True
    assert sockets.ring is True


def test_nobody_takes_a_circuit_for_a_radial_that_does_not_say_so() -> None:
    _, hob = rows(KITCHEN, KIND)
    unsure, _ = rows(KITCHEN.replace("is: ring", "is: to find out by electrician"), KIND)
    assert to_find(hob, "ring") == {"/circuits/hob circuit/is"}
    assert [gap.by for gap in gaps(unsure, "ring")] == ["electrician"]


def test_the_working_names_each_appliance() -> None:
    sockets, _ = rows(KITCHEN, KIND)
    assert [label for _, label in working(sockets, "design_current")][:3] == ["dishwasher", "washing machine", "supply"]


@pytest.mark.parametrize(
    ("full_current", "demand"),
    [
        (14400 / 230, 30.8 - 5),  # a 14.4 kW cooker at 230 V draws 30.8 A with 5 A for a socket on its switch
        (70, 28),
        (30, 16),
        (9.5, 9.5),
    ],
)
def test_a_cooking_appliance_draws_ten_amperes_in_full_and_thirty_per_cent_of_the_rest(
    full_current: float, demand: float
) -> None:
    """On-Site Guide to BS 7671, table A2, cooking appliances (secondary: examples as electricians publish them)."""
    cooker = CookingDemand(
        Subject("cooker", ""),
        power=exactly(full_current * 230e6, "", "power"),
        voltage=exactly(230e6, "", "supply"),
        in_full=exactly(10, "", "reckoned in full"),
        share=exactly(0.3, "", "share"),
    )
    assert cooker.demand == pytest.approx(demand, abs=0.05)


def test_a_hob_comes_into_its_circuit_through_its_demand_and_nowhere_else() -> None:
    sockets, hob = rows(KITCHEN, KIND)
    (demand,) = rows(KITCHEN, DEMAND)
    assert demand.current == pytest.approx(30)
    assert hob.design_current == pytest.approx(16)
    assert known(sockets, "demands").parts == ()
    assert known(hob, "powers").parts == ()


def test_a_further_load_is_added() -> None:
    plan = KITCHEN.replace("rcd: 30 mA, cable: 6 mm2", "rcd: 30 mA, load: 460 W, cable: 6 mm2")
    _, hob = rows(plan, KIND)
    assert hob.design_current == pytest.approx(16 + 2)


@pytest.mark.parametrize("served", ["C1, S2", "C1, all sockets"])
def test_a_socket_on_the_circuit_of_a_cooker_draws_five_amperes_more(served: str) -> None:
    """On-Site Guide to BS 7671, table A2: 5 A for a socket on the control unit of a cooker (secondary)."""
    plan = KITCHEN.replace("serves: C1", f"serves: [{served}]").replace("serves: all sockets", "serves: S1")
    plan = plan.replace("{power: 1.84 kW, supply: S2}", "none").replace("{power: 2.3 kW, supply: S1}", "none")
    plan = plan.replace("  dishwasher: none\n", "").replace("  washing machine: none\n", "")
    _, hob = rows(plan, KIND)
    assert hob.design_current == pytest.approx(16 + 5)
    assert (5.0, "socket on its switch") in working(hob, "design_current")


def test_sockets_alone_draw_nothing_of_their_own() -> None:
    sockets, _ = rows(KITCHEN, KIND)
    assert known(sockets, "demands").parts == ()


def test_a_socket_on_no_circuit_of_the_plan_hangs_on_one_that_nobody_wrote_down() -> None:
    plan = KITCHEN.replace("serves: all sockets", "serves: S1")
    assert left_out(plan, KIND) == ["/circuits"]
    assert left_out(KITCHEN, KIND) == []
    (gap,) = [entry.missing for entry in site(plan).rows(KIND).left_out]
    assert gap.label == "circuit that feeds S2"


def test_a_circuit_that_does_not_say_what_it_serves_may_feed_any_socket() -> None:
    assert left_out(KITCHEN.replace(", serves: all sockets}", "}"), KIND) == []


def test_an_appliance_may_name_its_circuit_or_be_named_by_it() -> None:
    plan = KITCHEN.replace("supply: C1", "supply: hob circuit").replace("serves: C1", "serves: [C1, washing machine]")
    plan = plan.replace("power: 1.84 kW, supply: S2", "power: 1.84 kW")
    sockets, hob = rows(plan, KIND)
    assert hob.design_current == pytest.approx(16 + 8)
    assert sockets.design_current == pytest.approx(10)


def test_the_power_of_a_gas_hob_is_gas() -> None:
    plan = KITCHEN.replace("is: induction hob", "is: gas hob")
    _, hob = rows(plan, KIND)
    assert hob.design_current == 0
    assert rows(plan, DEMAND) == []


def test_a_missing_power_is_to_find_out_at_the_appliance() -> None:
    sockets, hob = rows(KITCHEN.replace("power: 2.3 kW, ", ""), KIND)
    assert to_find(sockets, "design_current") == {"/appliances/dishwasher/power"}
    assert hob.design_current == pytest.approx(16)


def test_an_appliance_that_nobody_says_what_feeds_may_hang_on_any_circuit() -> None:
    plan = KITCHEN.replace("{power: 2.3 kW, supply: S1}", "{power: 2.3 kW}")
    for circuit in rows(plan, KIND):
        assert to_find(circuit, "design_current") == {"/appliances/dishwasher/supply"}


def test_a_circuit_that_does_not_say_what_it_serves_has_no_known_design_current() -> None:
    plan = KITCHEN.replace(", serves: C1}", "}")
    _, hob = rows(plan, KIND)
    assert "/circuits/hob circuit/serves" in to_find(hob, "design_current")
    assert to_find(hob, "feeds_sockets") == {"/circuits/hob circuit/serves"}


def test_the_capacity_of_a_cable_is_the_tables_times_the_factor_for_insulation() -> None:
    """BS 7671 table 4D5, method C: 6 mm² 47 A; table 52.2: 100 mm of insulation 0.78, longer row counts (secondary)."""
    _, hob = rows(KITCHEN, KIND)
    assert hob.capacity == pytest.approx(47 * 0.78)
    assert "BS 7671" in known(hob, "tabulated").note


@pytest.mark.parametrize(
    ("surrounded", "factor"), [("0", 1.0), ("50", 0.88), ("51", 0.78), ("200", 0.63), ("400", 0.51), ("900", 0.5)]
)
def test_the_factor_for_insulation_falls_with_the_stretch_it_surrounds(surrounded: str, factor: float) -> None:
    """BS 7671 table 52.2 (secondary): 50 mm 0.88, 100 mm 0.78, 200 mm 0.63, 400 mm 0.51, from 500 mm on 0.5."""
    _, hob = rows(KITCHEN.replace("in insulation: 80", f"in insulation: {surrounded}"), KIND)
    assert hob.insulation_factor == factor


def test_a_stretch_that_is_not_certain_leaves_the_factor_between_two_ends() -> None:
    _, hob = rows(KITCHEN.replace("in insulation: 80", "in insulation: 40 to 180"), KIND)
    assert ends(hob, "insulation_factor") == (0.63, 0.88)


def test_a_way_of_lying_that_allows_for_insulation_is_not_reduced_twice() -> None:
    """BS 7671 table 4D5, method 103: 6 mm² 23.5 A (secondary)."""
    plan = KITCHEN.replace(
        "cable: 6 mm2, laid: clipped direct or in plaster", "cable: 6 mm2, laid: 'in insulated wall, not touching'"
    )
    _, hob = rows(plan, KIND)
    assert hob.capacity == 23.5
    assert known(hob, "insulation_factor").note == "the figure of the table already allows for insulation"


@pytest.mark.parametrize(
    ("written", "without", "pointer", "why"),
    [
        ("in insulation: 80, ", "", "/circuits/hob circuit/in insulation", Why.LEFT_OUT),
        ("in insulation: 80", "in insulation: to find out", "/circuits/hob circuit/in insulation", Why.TO_FIND),
        ("cable: 6 mm2, ", "", "/circuits/hob circuit/cable", Why.LEFT_OUT),
        ("cable: 6 mm2", "cable: 7 mm2", "/circuits/hob circuit/cable", Why.NO_TABLE_ROW),
        ("cable: 6 mm2", "cable: 6 mm2, conductor: aluminium", "/circuits/hob circuit/conductor", Why.NO_TABLE_ROW),
        ("6 mm2, laid: clipped direct or in plaster", "6 mm2", "/circuits/hob circuit/laid", Why.LEFT_OUT),
    ],
)
def test_a_capacity_nobody_can_tell_is_not_known(written: str, without: str, pointer: str, why: Why) -> None:
    assert written in KITCHEN
    _, hob = rows(KITCHEN.replace(written, without), KIND)
    assert [(gap.pointer, gap.why) for gap in gaps(hob, "capacity")] == [(pointer, why)]


def test_without_a_country_there_is_no_voltage() -> None:
    sockets, _ = rows(KITCHEN, KIND, project="project: {title: Heron Wharf, lengths in: mm}")
    assert "/project/country" in to_find(sockets, "design_current")


def test_a_country_without_a_table_of_cables_leaves_the_capacity_open() -> None:
    _, hob = rows(KITCHEN, KIND, project=PROJECT.replace("GB-ENG", "US-ME"))
    assert [gap.why for gap in gaps(hob, "tabulated")] == [Why.NO_TABLE_ROW]


def test_the_device_and_the_residual_device_are_read_as_written() -> None:
    sockets, _ = rows(KITCHEN, KIND)
    assert (sockets.device, sockets.residual) == (32, pytest.approx(0.03))


def test_a_receptacle_is_a_socket() -> None:
    plan = """
kinds: {duplex receptacle: {plate: 70 x 115}}
walls: {north: {length: 4000}}
points: {R1: {is: duplex receptacle, wall: north}}
appliances: {fridge: {power: 240 W, supply: R1}}
circuits: {counter: {device: 20 A, serves: all sockets}}
"""
    counter = row(plan, KIND, project=PROJECT.replace("GB-ENG", "US-ME"))
    assert counter.design_current == pytest.approx(240 / 120)


def test_circuits_left_out_are_not_known_and_none_are_none() -> None:
    assert left_out("", KIND) == ["/circuits"]
    assert left_out("circuits: none\n", KIND) == []
    assert left_out("", DEMAND) == ["/appliances"]


@pytest.mark.parametrize(
    ("conductor", "copper"), [("", True), ("conductor: copper, ", True), ("conductor: al, ", False)]
)
def test_conductors_are_copper_unless_a_plan_says_something_else(conductor: str, copper: bool) -> None:
    text = f"circuits: {{ring: {{{conductor}device: 32 A}}}}\n"
    assert row(text, "circuit").copper is copper
