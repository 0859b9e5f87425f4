"""Circuits against the wiring regulations and their guide. Amperes, and watts in base units."""

from __future__ import annotations

import pytest

from tests.standards.by_hand import applied, cell, met, row
from validator.judging.outcomes import Result
from validator.measures.room.survey import NewCircuits
from validator.measures.services.circuits import Circuit, CookingDemand
from validator.measures.services.loads import OnCircuit

WATT = VOLT = 1e6
CLIPPED = "clipped direct or in plaster"
OVER_THIN = "over ceiling, insulation up to 100 mm"
OVER_THICK = "over ceiling, insulation over 100 mm"
TOUCHING = "in insulated wall, touching the board"
AWAY = "in insulated wall, not touching"
CONDUIT = "in conduit in insulated wall"


def cooker(power: float, voltage: float) -> CookingDemand:
    in_full, share = cell("GB", "cooking-diversity", "in_full"), cell("GB", "cooking-diversity", "share")
    assert in_full is not None
    assert share is not None
    return row(CookingDemand, power=power * WATT, voltage=voltage * VOLT, in_full=in_full, share=share)


PUBLISHED = [
    # power, voltage, full current, demand without a socket on the control unit (5 A less than with one)
    (14400, 230, 62.6, 30.8 - 5),  # electricians' calculation page on the guide's allowance, 2026: secondary
    (70 * 230, 230, 70, 28),  # cooker service firm's page citing the 15th edition: secondary
    (30 * 230, 230, 30, 16),  # trade discussion of the allowance: secondary
    (14000, 240, 58.3, 24.5),  # Whitfield, The Electrician's Guide, 5th edition, example 6.2: memory
]


@pytest.mark.parametrize(("power", "voltage", "full", "demand"), PUBLISHED)
def test_demand_of_a_cooker(power: float, voltage: float, full: float, demand: float) -> None:
    """IET On-Site Guide, Appendix A, Table A2: 10 A and 30 % of the rest (secondary); the examples as marked."""
    found = cooker(power, voltage)
    assert found.current == pytest.approx(full, abs=0.05)
    assert found.demand == pytest.approx(demand, abs=0.05)


WITH_SOCKET = [
    # power, voltage, demand with a socket on the control unit; sources as above
    (14400, 230, 30.8),
    (70 * 230, 230, 33),
    (14000, 240, 29.5),
]


@pytest.mark.parametrize(("power", "voltage", "demand"), WITH_SOCKET)
def test_demand_of_a_cooker_with_a_socket_on_its_switch(power: float, voltage: float, demand: float) -> None:
    """IET On-Site Guide, Appendix A, Table A2: 5 A more for a socket on the control unit. Secondary."""
    socket = cell("GB", "cooking-diversity", "socket")
    assert socket is not None
    demands = (cooker(power, voltage).demand, socket)
    circuit = row(Circuit, powers=(), demands=demands, voltage=voltage * VOLT)
    assert circuit.design_current == pytest.approx(demand, abs=0.05)


def test_a_small_appliance_is_reckoned_in_full() -> None:
    """The same allowance: below 10 A nothing is left to take a share of. Arithmetic on the rule."""
    assert cooker(2000, 230).demand == pytest.approx(2000 / 230)


def test_the_largest_cooker_on_a_device_of_32() -> None:
    """The allowance turned round: 83.3 A in full, 19.2 kW at 230 V. Worked from Table A2; a trade forum rounds it to
    19.3 kW: secondary.
    """
    assert cooker(19167, 230).demand == pytest.approx(32, abs=0.01)
    for power, holds in ((19100, True), (19300, False)):
        demands = (cooker(power, 230).demand,)
        circuit = row(Circuit, ring=False, powers=(), demands=demands, rating=32, voltage=230 * VOLT)
        assert met("GB", "device-carries-the-load", circuit) is holds


CAPACITY: dict[str, dict[float, float]] = {
    # BS 7671:2018+A2:2022, Appendix 4, Table 4D5: secondary; two independent tables agree on C, 100 and 103
    CLIPPED: {1: 16, 1.5: 20, 2.5: 27, 4: 37, 6: 47, 10: 64, 16: 85},
    OVER_THIN: {1: 13, 1.5: 16, 2.5: 21, 4: 27, 6: 34, 10: 45, 16: 57},
    OVER_THICK: {1: 10.5, 1.5: 13},
    TOUCHING: {1: 13, 1.5: 16},
    AWAY: {1: 8, 1.5: 10, 2.5: 13.5, 4: 17.5, 6: 23.5, 10: 32, 16: 42.5},
    CONDUIT: {1: 11.5, 1.5: 14.5},
}


@pytest.mark.parametrize("laid", CAPACITY)
def test_what_twin_and_earth_carries(laid: str) -> None:
    """BS 7671:2018+A2:2022, Appendix 4, Table 4D5. Secondary."""
    found = {size: cell("GB", "twin-and-earth-capacity", "capacity", cable=size, laid=laid) for size in CAPACITY[laid]}
    assert found == CAPACITY[laid]


@pytest.mark.parametrize("laid", [OVER_THICK, TOUCHING, CONDUIT])
@pytest.mark.parametrize("size", [2.5, 4, 6, 10, 16])
def test_cells_of_the_table_that_nobody_read_are_not_known(laid: str, size: float) -> None:
    """Table 4D5, methods 101, 102 and A above 1.5 mm²: known from memory only, so no limit may rest on them."""
    assert cell("GB", "twin-and-earth-capacity", "capacity", cable=size, laid=laid) is None


FACTORS = [(0, 1), (50, 0.88), (100, 0.78), (101, 0.63), (200, 0.63), (300, 0.51), (400, 0.51), (500, 0.5), (2000, 0.5)]


@pytest.mark.parametrize(("length", "factor"), FACTORS)
def test_what_insulation_leaves_of_a_cable(length: float, factor: float) -> None:
    """BS 7671:2018+A2:2022, 523.9, Table 52.2 (secondary); between two rows the longer one, as the trade takes it."""
    assert cell("GB", "insulation-factor", "factor", surrounded=length) == factor


@pytest.mark.parametrize(
    ("size", "laid", "enough"),
    [(2.5, CLIPPED, True), (2.5, OVER_THIN, True), (2.5, AWAY, False), (4, AWAY, False), (6, AWAY, True)],
)
def test_the_cable_of_a_ring_in_insulation(size: float, laid: str, enough: bool) -> None:
    """BS 7671:2018+A2:2022, 433.1.204 with Table 4D5: a ring needs 20 A as it lies, and 2.5 mm² away from the board
    of an insulated wall carries 13.5. Secondary.
    """
    tabulated = cell("GB", "twin-and-earth-capacity", "capacity", cable=size, laid=laid)
    assert tabulated is not None
    ring = row(Circuit, ring=True, tabulated=tabulated, insulation_factor=1)
    assert met("GB", "ring-cable", ring) is enough


@pytest.mark.parametrize(("size", "enough"), [(1.5, False), (2.5, True), (4, True)])
def test_the_conductors_of_a_ring(size: float, enough: bool) -> None:
    """BS 7671:2018+A2:2022, 433.1.204: 2.5 mm² of copper at least, though 1.5 mm² clipped direct carries 20 A.
    Secondary.
    """
    assert met("GB", "ring-conductors", row(Circuit, ring=True, cable=size)) is enough


@pytest.mark.parametrize(("rating", "fits"), [(20, False), (30, True), (32, True), (40, False)])
def test_the_device_of_a_ring(rating: float, fits: bool) -> None:
    """BS 7671:2018+A2:2022, 433.1.204: 30 A or 32 A. Secondary."""
    assert met("GB", "ring-device", row(Circuit, ring=True, rating=rating)) is fits


CHAIN = [
    # size, rating, enough clipped direct; usual sizes of Linsley, Basic Electrical Installation Work, 14.4: secondary
    (2.5, 16, True),
    (6, 32, True),
    (10, 45, True),
    (2.5, 32, False),
    (6, 50, False),
]


@pytest.mark.parametrize(("size", "rating", "enough"), CHAIN)
def test_a_device_no_larger_than_its_cable(size: float, rating: float, enough: bool) -> None:
    """BS 7671:2018+A2:2022, 433.1.1 (ii): the rating is not above what the cable carries as installed. Secondary."""
    tabulated = cell("GB", "twin-and-earth-capacity", "capacity", cable=size, laid=CLIPPED)
    assert tabulated is not None
    circuit = row(Circuit, ring=False, rating=rating, tabulated=tabulated, insulation_factor=1)
    assert met("GB", "cable-carries-what-the-device-lets-through", circuit) is enough


@pytest.mark.parametrize(("residual", "holds"), [(0.03, True), (0.1, False)])
def test_sockets_in_a_home_have_thirty_milliamps(residual: float, holds: bool) -> None:
    """BS 7671:2018+A2:2022, 411.3.3 with 415.1.1: 30 mA or less for sockets up to 32 A. Secondary."""
    assert met("GB", "sockets-behind-residual-device", row(Circuit, feeds_sockets=True, residual=residual)) is holds
    assert cell("GB", "residual-device", "most") == 0.03


@pytest.mark.parametrize("country", ["DE", "AU"])
@pytest.mark.parametrize(("residual", "holds"), [(0.03, True), (0.1, False)])
def test_sockets_of_a_kitchen_elsewhere_have_thirty_milliamps(country: str, residual: float, holds: bool) -> None:
    """HEA, Elektroinstallationen (web page): 30 mA for all sockets, primary; AS/NZS 3000, 2.6.3: memory."""
    assert met(country, "sockets-behind-residual-device", row(Circuit, feeds_sockets=True, residual=residual)) is holds


@pytest.mark.parametrize(("power", "holds"), [(2990, True), (3000, False), (3450, False)])
def test_what_a_plug_carries(power: float, holds: bool) -> None:
    """BS 1363 as public advice repeats it: 13 A in all, 2.99 kW at 230 V. Secondary."""
    plugged = row(OnCircuit, plugged=True, power=power * WATT, voltage=230 * VOLT)
    assert met("GB", "plug-carries-its-appliance", plugged) is holds


@pytest.mark.parametrize(("power", "alone", "holds"), [(2000, False, False), (2000, True, True), (1990, False, None)])
def test_german_circuits_of_their_own(power: float, alone: bool, holds: bool | None) -> None:
    """HEA, Elektroinstallationen (web page), after DIN 18015-2: a circuit of its own from 2000 W. Primary."""
    found = applied("DE", "heavy-load-on-its-own-circuit", row(OnCircuit, power=power * WATT, alone=alone))
    assert (found.result is Result.MET if found is not None else None) is holds


def test_heavy_cooking_appliances_are_not_on_a_ring() -> None:
    """BS 7671:2018+A2:2022, Appendix 15: fixed loads over 2 kW on a circuit of their own. Secondary."""
    for power, ring, holds in ((2100, True, False), (2100, False, True), (2000, True, None)):
        found = applied("GB", "heavy-cooking-not-on-a-ring", row(OnCircuit, cooks=True, power=power * WATT, ring=ring))
        assert (found.result is Result.MET if found is not None else None) is holds


@pytest.mark.parametrize(("inches", "enough"), [(36, True), (35.9, False)])
def test_a_panel_has_room_in_front_of_it_to_work(inches: float, enough: bool) -> None:
    """NFPA 70 (2020), 110.26(A): a working space 36 in deep in front of a panelboard. Secondary."""
    assert met("US", "room-to-work-at-the-panel", row(NewCircuits, clear=inches * 25.4)) is enough
