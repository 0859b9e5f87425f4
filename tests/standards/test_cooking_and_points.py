"""Clearances round hobs and sinks against published figures."""

from __future__ import annotations

import pytest

from tests.standards.by_hand import SILENT, Value, applied, judged, met, need, row
from validator.judging.outcomes import Result
from validator.measures.appliances.hoods import HobUnderHood
from validator.measures.appliances.landings import HobSide
from validator.measures.appliances.over_hobs import UnitOverHob
from validator.measures.appliances.splashbacks import BehindHob
from validator.measures.rows import Given, Missing, Why
from validator.measures.runs.setting_out import PointPlace
from validator.measures.services.points import PointNearHob, PointNearSink

INCH = 25.4
LITRE = 1e6
UNREAD = Missing("/stated/hob", "hob maker's figure", Why.UNREAD)


def hood(
    clearance: float, fuel: str = "gas", hob: Value | Given = SILENT, over: Value | Given = SILENT
) -> HobUnderHood:
    return row(
        HobUnderHood,
        fuel=fuel,
        underside=950 + clearance,
        surface=910,
        supports=40,
        hob_stated=hob,
        hob_from=0,
        hood_stated=over,
        hood_from=0,
    )


@pytest.mark.parametrize(("clearance", "holds"), [(760, True), (759, False), (650, False)])
def test_british_gas_hob_without_makers_figures(clearance: float, holds: bool) -> None:
    """BS 6172 as reported by gas trainers: 760 mm above a gas hob where the instructions give nothing. Secondary."""
    assert met("GB", "hood-over-gas-hob", hood(clearance)) is holds


def test_a_hood_at_650_when_both_makers_allow_it() -> None:
    """BS 6172 as reported: the instructions override, and 650 passes only if those of hob and hood both allow it.
    Secondary.
    """
    assert met("GB", "hood-over-gas-hob", hood(650, hob=650, over=650))
    assert not met("GB", "hood-over-gas-hob", hood(650, over=650))


def test_of_two_leaflets_the_greater_figure_holds() -> None:
    """UK gas practice as quoted by installers and in training notes: the greater minimum of hob and hood. Secondary."""
    assert need("GB", "hood-over-gas-hob", hood(690, hob=700, over=650)) == 700


def test_nothing_is_settled_while_a_leaflet_is_unread() -> None:
    """The same practice: without the hob's own figure a hood at 800 is not known to be right. Secondary."""
    assert judged("GB", "hood-over-gas-hob", hood(800, hob=UNREAD, over=650)).result is Result.NOT_KNOWN


@pytest.mark.parametrize(("country", "least"), [("US", 24 * INCH), ("AU", 600.0)])
def test_gas_hobs_elsewhere(country: str, least: float) -> None:
    """IRC M1901.1 (2018) with 24 in below a metal hood as manuals quote it; AS/NZS 5601.1:2013, 600 mm to a range
    hood. Both secondary.
    """
    assert need(country, "hood-over-gas-hob", hood(500)) == pytest.approx(least)


def test_electric_hobs_are_no_matter_of_the_gas_rule() -> None:
    """Manufacturers' figures begin at 500 mm above electric hobs (several instructions compared: secondary)."""
    assert applied("GB", "hood-over-gas-hob", hood(500, fuel="induction")) is None
    assert met("GB", "hood-over-electric-hob", hood(500, fuel="induction"))
    assert not met("GB", "hood-over-electric-hob", hood(499, fuel="induction"))


def unit_over(
    clearance: float,
    fuel: str = "gas",
    hob: Value | Given = SILENT,
    overlap: Value | Given = 590,
    protected: bool = False,
) -> UnitOverHob:
    return row(
        UnitOverHob,
        unit="W2",
        protected=protected,
        overlap=overlap,
        fuel=fuel,
        underside=950 + clearance,
        surface=910,
        supports=40,
        hob_stated=hob,
        hob_from=0,
    )


@pytest.mark.parametrize(("clearance", "holds"), [(760, True), (759, False)])
def test_british_unit_over_a_gas_hob(clearance: float, holds: bool) -> None:
    """BS 6172 as reported by gas trainers: nothing that burns within 760 mm above a gas hob where the instructions give
    nothing; otherwise the instructions rule. Secondary.
    """
    assert met("GB", "unit-over-gas-hob", unit_over(clearance)) is holds
    assert met("GB", "unit-over-gas-hob", unit_over(clearance, hob=700))
    assert not met("GB", "unit-over-gas-hob", unit_over(clearance, hob=800))


@pytest.mark.parametrize(("fuel", "severity"), [("gas", "stop"), ("ceramic", "put right")])
def test_american_cabinet_over_a_cooktop(fuel: str, severity: str) -> None:
    """IRC M1901.1 (2018): 30 in above any cooktop to unprotected material that burns. Secondary."""
    rule = "unit-over-gas-hob" if fuel == "gas" else "unit-over-electric-hob"
    assert met("US", rule, unit_over(30 * INCH, fuel))
    outcome = judged("US", rule, unit_over(30 * INCH - 1, fuel))
    assert (outcome.result, outcome.rule.severity) == (Result.NOT_MET, severity)


def test_units_over_hobs_where_no_book_of_the_country_says() -> None:
    """Common practice: 750 mm above gas (as codes outside Britain ask, too), 650 mm above electric hobs."""
    assert need("NZ", "unit-over-gas-hob", unit_over(600)) == 750
    assert need("NZ", "unit-over-electric-hob", unit_over(600, "induction")) == 650


def test_a_unit_that_only_may_hang_over_a_gas_hob_is_not_known_unless_it_is_high_enough() -> None:
    """Common practice: what nobody knows is neither met nor a fault; at 760 mm it does not matter."""
    unsure = Missing("/appliances/hob/width", "width of hob")
    assert judged("GB", "unit-over-gas-hob", unit_over(700, overlap=unsure)).result is Result.NOT_KNOWN
    assert met("GB", "unit-over-gas-hob", unit_over(760, overlap=unsure))


def sink(distance: float, **values: Value) -> PointNearSink:
    usual: dict[str, Value] = {"above_worktop": 160, "half_plate": 73, "half_sink": 400, "socket": False}
    return row(PointNearSink, apart=distance + 73 + 400, **usual | values)


def at_counter(inches: float, *, protected: bool, socket: bool = True) -> PointPlace:
    """A point so far above a counter of 36 in."""
    heights: dict[str, Value] = {"up": (36 + inches) * INCH, "worktop": 36 * INCH, "over_worktop": True}
    return row(PointPlace, protected=protected, socket=socket, **heights)


def hob(distance: float) -> PointNearHob:
    return row(PointNearHob, apart=distance + 73 + 295, half_plate=73, half_hob=295, above_worktop=160, fuel="gas")


def test_three_hundred_from_a_sink_is_advice() -> None:
    """Electrical Safety First, answers to questions (web page): at least 300 mm from water where possible. Primary.
    Advice, so no more than *improve*.
    """
    outcome = judged("GB", "socket-well-away-from-sink", sink(299))
    assert outcome.result is Result.NOT_MET
    assert outcome.rule.severity == "improve"
    assert met("GB", "socket-well-away-from-sink", sink(300))


@pytest.mark.parametrize(("litres", "least"), [(20, 150), (45, 150), (46, 500), (60, 500)])
def test_australian_zone_beside_a_sink(litres: float, least: float) -> None:
    """AS/NZS 3000:2018, 6.2, figures 6.10 and 6.11: 150 mm for up to 45 litres, 500 mm for more. Secondary."""
    rules = ("socket-clear-of-small-sink", "socket-clear-of-large-sink")
    for distance, holds in ((least, True), (least - 1, False)):
        found = [applied("AU", rule, sink(distance, volume=litres * LITRE)) for rule in rules]
        assert [outcome.result is Result.MET for outcome in found if outcome is not None] == [holds]


def test_australian_cooking_surface() -> None:
    """AS/NZS 3000:2018, 4.7.3: nothing within 150 mm of the edge of a cooking surface. Secondary."""
    assert met("AU", "point-not-over-hob", hob(150))
    assert not met("AU", "point-not-over-hob", hob(149))


def test_american_receptacles_at_the_counter() -> None:
    """NFPA 70 (2020), 210.8(A)(6): ground-fault protection for every receptacle that serves the counter, however far
    its sink is; those count that stand no more than 20 in above it, 210.52(C)(3). Secondary.
    """
    rule = "receptacle-at-counter-protected"
    assert not met("US", rule, at_counter(10, protected=False))
    assert met("US", rule, at_counter(10, protected=True))
    assert not met("US", rule, at_counter(20, protected=False))
    assert applied("US", rule, at_counter(21, protected=False)) is None
    assert applied("US", rule, at_counter(10, protected=False, socket=False)) is None


def test_american_points_within_six_feet_of_a_sink() -> None:
    """NFPA 70 (2020), 210.8(A)(7): ground-fault protection of receptacles within 6 ft of the bowl; those at the counter
    have it anyway, and a switch is none. Secondary.
    """
    near, far = 6 * 12 * INCH - 1, 6 * 12 * INCH + 1
    rule = "receptacle-near-sink-protected"
    beside: dict[str, Value] = {"socket": True, "at_counter": False}
    assert not met("US", rule, sink(near, protected=False, **beside))
    assert met("US", rule, sink(near, protected=True, **beside))
    assert applied("US", rule, sink(far, protected=False, **beside)) is None
    assert applied("US", rule, sink(near, protected=False, socket=True, at_counter=True)) is None
    assert not met("US", rule, sink(near, protected=False, socket=True, at_counter=True, above_worktop=21 * INCH))
    assert applied("US", rule, sink(near, protected=False, socket=False, at_counter=False)) is None


def test_canadian_receptacles_within_a_metre_and_a_half_of_a_sink() -> None:
    """Canadian Electrical Code: class A protection of receptacles within 1.5 m of a sink. Secondary."""
    assert not met("CA", "receptacle-near-sink-protected", sink(1500, protected=False, socket=True))
    assert met("CA", "receptacle-near-sink-protected", sink(1500, protected=True, socket=True))
    assert applied("CA", "receptacle-near-sink-protected", sink(1501, protected=False, socket=True)) is None


@pytest.mark.parametrize(
    ("lining", "holds"), [("drywall", True), ("gypsum board", True), ("cement board", True), ("plywood", False)]
)
def test_canadian_wall_beside_a_cooktop(lining: str, holds: bool) -> None:
    """Ontario Building Code 9.10.22.3: within 450 mm beside a cooktop a wall has protection as good as gypsum board of
    9.5 mm. Primary; law.
    """
    side: dict[str, Value] = {"upright": "wall", "upright_nearer": 0, "lining": lining}
    assert met("CA", "wall-beside-hob-protected", row(HobSide, upright_further=449, **side)) is holds
    assert applied("CA", "wall-beside-hob-protected", row(HobSide, upright_further=450, **side)) is None


@pytest.mark.parametrize(("protected", "least"), [(False, 600.0), (True, 450.0)])
def test_australian_unit_over_a_gas_cooktop(protected: bool, least: float) -> None:
    """AS/NZS 5601.1 as instructions give it: 600 mm to what burns overhead, 450 where protected. Secondary."""
    rule = "protected-unit-over-hob" if protected else "unit-over-gas-hob"
    assert met("AU", rule, unit_over(least, protected=protected))
    assert not met("AU", rule, unit_over(least - 1, protected=protected))


@pytest.mark.parametrize(("protected", "least"), [(False, 750.0), (True, 600.0)])
def test_canadian_cabinet_over_a_cooktop(protected: bool, least: float) -> None:
    """Ontario Building Code 9.10.22.2: 750 mm to what burns, 600 mm where it is protected. Primary; law."""
    for fuel in ("gas", "ceramic"):
        rule = "protected-unit-over-hob" if protected else f"unit-over-{'gas' if fuel == 'gas' else 'electric'}-hob"
        assert need("CA-ON", rule, unit_over(500, fuel, protected=protected)) == least


def test_american_cabinet_with_a_protected_underside() -> None:
    """IRC M1901.1 as guides quote it: 24 in to a protected surface. Secondary."""
    assert need("US", "protected-unit-over-hob", unit_over(500, protected=True)) == pytest.approx(24 * INCH)


def behind(material: str, **more: Value) -> BehindHob:
    return row(BehindHob, fuel="gas", material=material, **{"supports": 40, "to_burners": 60, "gap": 0, **more})


@pytest.mark.parametrize("material", ["toughened glass", "stainless steel", "ceramic tile", "stone"])
def test_what_may_be_behind_a_gas_hob(material: str) -> None:
    """Several makers' installation instructions: toughened glass, steel, tile or stone; 50 to 100 mm. Secondary."""
    assert met("GB", "splashback-behind-gas-hob", behind(material))
    assert need("GB", "burners-clear-of-splashback", behind(material)) == 50


@pytest.mark.parametrize("material", ["acrylic", "PVC", "laminate", "glass"])
def test_what_may_not_be_behind_a_gas_hob(material: str) -> None:
    """The same instructions: acrylic, PVC and laminate stop short of gas hobs. Secondary."""
    assert not met("GB", "splashback-behind-gas-hob", behind(material))


def test_australian_lining_behind_a_gas_cooktop() -> None:
    """AS/NZS 5601.1:2013 as a building authority explains it: within 200 mm, 150 mm up, not glass alone. Secondary."""
    glass = behind("toughened glass", backing="plasterboard", height=190)
    assert not met("AU", "lining-behind-gas-hob", glass)
    assert met("AU", "lining-high-enough-behind-gas-hob", glass)
    assert not met("AU", "lining-high-enough-behind-gas-hob", behind("tile", backing="fibre cement", height=189))
    assert applied("AU", "lining-behind-gas-hob", behind("tile", to_burners=200)) is None


def test_hoods_and_the_width_of_hobs() -> None:
    """Remodelling articles: as wide as the hob, better 3 in wider to each side. Secondary; common practice here."""
    narrow, wide = (row(HobUnderHood, fuel="gas", hood_width=width * INCH, hob_width=30 * INCH) for width in (29, 36))
    assert not met("US", "hood-as-wide-as-hob", narrow)
    assert met("US", "hood-wider-than-hob", wide)
    assert applied("US", "hood-wider-than-hob", narrow) is None


def test_a_hood_reckoned_with_by_the_guidance_on_ventilation() -> None:
    """Approved Document F, 650 to 750 mm above the hob. From memory, so no more than a note."""
    outcome = judged("GB-ENG", "hood-not-too-high", hood(751, fuel="induction"))
    assert (outcome.result, outcome.rule.severity) == (Result.NOT_MET, "note")
    assert met("GB-ENG", "hood-not-too-high", hood(750, fuel="induction"))
