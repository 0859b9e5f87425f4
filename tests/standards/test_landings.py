"""Worktop beside hobs and sinks against published figures and worked examples."""

from __future__ import annotations

import pytest

from tests.standards.by_hand import DAY, SILENT, Value, applied, books, judged, library, met, need, plan, row
from validator.judging.apply import apply
from validator.judging.outcomes import Result
from validator.measures.appliances.beside_hobs import UnitBesideHob
from validator.measures.appliances.hobs_at_openings import HobByDoorway, HobByWindow
from validator.measures.appliances.landings import HobSide, WorktopBesideHob
from validator.measures.appliances.set_downs import PlaceToSetDown
from validator.measures.appliances.sinks import DishwasherBySink, WorktopBesideSink
from validator.measures.appliances.work_triangles import WorkTriangle
from validator.measures.rows import Missing, Why
from validator.measures.site import Site

INCH = 25.4


def side(room: float, upright: str = "tall unit", ends_at: str = "wall", fuel: str = "gas", **more: Value) -> HobSide:
    return row(
        HobSide,
        fuel=fuel,
        ends_at=ends_at,
        end_further=room,
        end_nearer=0,
        upright=upright,
        upright_further=room,
        upright_nearer=0,
        **{"maker_says": SILENT, **more},
    )


def both(left: float, right: float) -> WorktopBesideHob:
    return row(WorktopBesideHob, left=left, right=right, island=False)


def on_run(beside: float) -> dict[str, Result]:
    """The rules about the sides of a hob, in a run of tall unit 600, worktop, hob 600, worktop 600 and sink 800."""
    said = {
        "dryfit": "1",
        "project": {"country": "GB-ENG", "lengths in": "mm"},
        "walls": {"north": {"length": "4000"}},
        "kinds": {"base": {"height": "720"}, "tall": {"height": "2100"}},
        "runs": {
            "run": {
                "against": "north",
                "order": {
                    "T1": "tall 600",
                    "B1": f"base {beside:g}",
                    "B2": "base 600",
                    "B3": "base 600",
                    "B4": "base 800",
                },
            }
        },
        "appliances": {
            "hob": {"is": "gas hob", "in": "B2", "width": "600"},
            "sink": {"in": "B4", "cut-out": "800 x 480"},
        },
        "stated": {"hob": {"read": "leaflet", "to tall unit": "none", "to wall": "none"}},
    }
    site = Site(plan(said), library(), DAY)
    rows = [*site.rows(HobSide.kind).rows, *site.rows(WorktopBesideHob.kind).rows]
    found = [
        (rule.name, apply(rule, about, site))
        for rule in books("GB-ENG").rules
        for about in rows
        if rule.each == about.kind
    ]
    return {name: outcome.result for name, outcome in found if outcome is not None}


def test_a_hob_on_a_run_between_tall_unit_and_sink() -> None:
    """Planning guides: 300 mm to the tall unit and 600 mm to the sink both pass. Worked through by hand; secondary."""
    found = on_run(300)
    assert found["worktop-beside-hob"] is Result.MET
    assert found["gas-hob-clear-of-tall-unit"] is Result.MET
    assert found["hob-away-from-sink"] is Result.MET
    assert found["hob-well-away-from-sink"] is Result.MET


def test_the_same_run_with_150_to_the_tall_unit() -> None:
    """The same: 150 mm is below what use asks for, and just what the gas trade takes where the paper is silent."""
    found = on_run(150)
    assert found["worktop-on-both-sides-of-hob"] is Result.NOT_MET
    assert found["gas-hob-clear-of-tall-unit"] is Result.MET
    assert on_run(149)["gas-hob-clear-of-tall-unit"] is Result.NOT_MET


def test_in_england_one_rule_reports_a_strip() -> None:
    """Common practice: of a strip too narrow to be worktop one rule speaks, not two."""
    assert "worktop-beside-hob" not in on_run(199)
    assert on_run(199)["worktop-on-both-sides-of-hob"] is Result.NOT_MET
    assert on_run(200)["worktop-on-both-sides-of-hob"] is Result.MET
    assert on_run(200)["worktop-beside-hob"] is Result.NOT_MET


def test_the_papers_of_a_hob_come_before_what_the_trade_takes() -> None:
    """Gas trade defaults as quoted by installers: the maker's figure overrides. Secondary."""
    assert met("GB", "gas-hob-clear-of-tall-unit", side(120, maker_says=100))
    assert not met("GB", "gas-hob-clear-of-tall-unit", side(180, maker_says=200))
    unread = Missing("/stated/hob", "hob maker's figure", Why.UNREAD)
    found = judged("GB", "gas-hob-clear-of-tall-unit", side(300, maker_says=unread))  # type: ignore[arg-type]
    assert found.result is Result.NOT_KNOWN


def test_a_cooker_without_worktop_on_both_sides_is_a_serious_fault_in_england() -> None:
    """HHSRS worked examples, flames and hot surfaces: worktop on both sides. Primary; 200 mm is the least quoted."""
    assert not met("GB-ENG", "worktop-on-both-sides-of-hob", both(5, 800))
    assert judged("GB-ENG", "worktop-on-both-sides-of-hob", both(5, 800)).rule.severity == "put right"
    assert met("GB-ENG", "worktop-on-both-sides-of-hob", both(200, 800))


@pytest.mark.parametrize(
    ("left", "right", "holds"), [(12, 15, True), (15, 12, True), (12, 14.5, False), (11.5, 30, False)]
)
def test_american_landing_at_the_cooktop(left: float, right: float, holds: bool) -> None:
    """NKBA kitchen planning guideline 17: 12 in on one side and 15 in on the other. Secondary."""
    found = both(left * INCH, right * INCH)
    assert (met("US", "worktop-beside-hob", found) and met("US", "worktop-on-wider-side-of-hob", found)) is holds


def test_american_end_wall_and_island() -> None:
    """NKBA kitchen planning guideline 17: 3 in to an end wall, 9 in behind the cooktop on an island. Secondary."""
    assert need("US", "hob-clear-of-wall", side(50, upright="wall", fuel="induction")) == pytest.approx(3 * INCH)
    island = row(
        WorktopBesideHob, left=400, right=400, island=True, depth=31 * INCH, from_front=3 * INCH, cut_out=19 * INCH
    )
    assert met("US", "worktop-behind-island-hob", island)
    assert need("US", "worktop-behind-island-hob", island) == pytest.approx(9 * INCH)


def test_australian_burner_beside_what_burns() -> None:
    """AS/NZS 5601.1:2013 as a building authority explains it: within 200 mm of a burner it is protected. Secondary."""
    rule = "burner-clear-of-wall"
    assert met("AU", rule, side(160, burner_in=40, protected=False))
    assert not met("AU", rule, side(159, burner_in=40, protected=False))
    assert applied("AU", rule, side(100, burner_in=40, protected=True)) is None
    assert applied("AU", rule, side(200)) is None
    assert applied("AU", rule, side(100, upright="wall", burner_in=40, lining="fibre cement")) is None
    assert not met("AU", rule, side(100, upright="wall", burner_in=40, lining="plasterboard"))


@pytest.mark.parametrize(("room", "protected", "result"), [(449, False, Result.NOT_MET), (449, True, Result.MET)])
def test_canadian_cabinet_beside_a_cooktop(room: float, protected: bool, result: Result) -> None:
    """Ontario Building Code 9.10.22.3: cabinets within 450 mm beside a cooktop are protected. Primary."""
    assert judged("CA-ON", "tall-unit-beside-hob-protected", side(room, protected=protected)).result is result
    assert applied("CA-ON", "tall-unit-beside-hob-protected", side(450)) is None


def beside(clearance: float, aside: float, **more: Value) -> UnitBesideHob:
    return row(
        UnitBesideHob,
        unit="W1",
        fuel="gas",
        further=1000,
        nearer=1000 - aside,
        underside=940 + clearance,
        surface=900,
        supports=40,
        **{"hob_stated": SILENT, "hob_from": 0, "protected": False, **more},
    )


@pytest.mark.parametrize(("clearance", "holds"), [(460, True), (459, False)])
def test_british_unit_beside_a_gas_hob(clearance: float, holds: bool) -> None:
    """Gas trade defaults as quoted from BS 6172: 460 mm to wall units beside, where the paper is silent. Secondary."""
    assert met("GB", "unit-beside-gas-hob", beside(clearance, aside=60)) is holds
    assert met("GB", "unit-beside-gas-hob", beside(clearance, aside=60, hob_stated=400))


def test_the_room_above_a_gas_hob_reaches_past_its_edge() -> None:
    """The same: 760 mm up to 50 mm beyond its edge. Instructions as printed: 400 mm to units in line with the edge."""
    assert not met("GB", "unit-close-beside-gas-hob", beside(500, aside=49))
    assert met("GB", "unit-close-beside-gas-hob", beside(760, aside=49))
    assert met("GB", "unit-close-beside-gas-hob", beside(470, aside=0, hob_stated=400))
    assert applied("GB", "unit-close-beside-gas-hob", beside(500, aside=50)) is None


def test_canadian_cabinets_hung_beside_a_cooktop() -> None:
    """Ontario Building Code 9.10.22.3: 450 mm above, or protected, within 450 mm beside. Primary."""
    assert met("CA-ON", "unit-beside-hob", beside(450, aside=100))
    assert not met("CA-ON", "unit-beside-hob", beside(449, aside=100))
    assert applied("CA-ON", "unit-beside-hob", beside(300, aside=450)) is None
    assert applied("CA-ON", "unit-beside-hob", beside(300, aside=100, protected=True)) is None


def test_a_cooker_beside_a_doorway_in_england() -> None:
    """HHSRS worked examples: a cooker beside a door is rated several times worse; 300 mm is what they call unsafe."""
    found = row(HobByDoorway, doorway="door", fuel="gas", further=1000, nearer=701)
    outcome = judged("GB-ENG", "hob-away-from-doorway", found)
    assert (outcome.result, outcome.rule.severity) == (Result.NOT_MET, "put right")
    assert judged("US", "hob-away-from-doorway", found).rule.severity == "improve"


@pytest.mark.parametrize(("opens", "clear", "holds"), [("in", -1, False), ("in", 0, True)])
def test_no_cooking_surface_under_a_window_that_opens(opens: str, clear: float, holds: bool) -> None:
    """NKBA kitchen planning guidelines: no cooking surface under an operable window. Secondary."""
    found = row(HobByWindow, window="window", opens=opens, fuel="gas", further=clear, nearer=0)
    assert met("US", "hob-not-under-window", found) is holds
    fixed = row(HobByWindow, window="window", opens="fixed", fuel="gas", further=clear, nearer=0)
    assert applied("US", "hob-not-under-window", fixed) is None


def sink(left: float, right: float) -> WorktopBesideSink:
    return row(WorktopBesideSink, left=left * INCH, right=right * INCH)


def test_american_landing_at_the_sink() -> None:
    """NKBA kitchen planning guidelines: 24 in on one side of the main sink, 18 in on the other. Secondary."""
    assert met("US", "worktop-on-narrower-side-of-sink", sink(18, 24))
    assert met("US", "worktop-on-wider-side-of-sink", sink(18, 24))
    assert not met("US", "worktop-on-narrower-side-of-sink", sink(17.9, 24))
    assert not met("US", "worktop-on-wider-side-of-sink", sink(23.9, 18))


def test_a_stretch_to_prepare_on() -> None:
    """NKBA: 36 in wide next to a sink. German kitchen trade association: 900 mm. Both secondary."""
    assert need("US", "stretch-to-prepare-on", sink(36, 18)) == pytest.approx(36 * INCH)
    assert need("DE", "stretch-to-prepare-on", sink(36, 18)) == 900


def test_american_dishwasher_within_reach() -> None:
    """NKBA kitchen planning guidelines: within 36 in of the sink. Secondary."""
    assert met("US", "dishwasher-near-sink", row(DishwasherBySink, sink="sink", further=36 * INCH, nearer=0))
    assert not met("US", "dishwasher-near-sink", row(DishwasherBySink, sink="sink", further=37 * INCH, nearer=0))


@pytest.mark.parametrize(("sort", "rule"), [("fridge", "worktop-beside-fridge"), ("oven", "worktop-beside-oven")])
def test_american_landing_at_fridge_and_oven(sort: str, rule: str) -> None:
    """NKBA kitchen planning guidelines: 15 in beside, or within 48 in across. Secondary."""
    assert met("US", rule, row(PlaceToSetDown, sort=sort, faced=False, beside=(0, 15 * INCH)))
    assert not met("US", rule, row(PlaceToSetDown, sort=sort, faced=False, beside=(0, 14 * INCH)))
    assert applied("US", rule, row(PlaceToSetDown, sort=sort, beside=(0, 0), faced=True, across=48 * INCH)) is None


def test_a_work_triangle() -> None:
    """NKBA kitchen planning guidelines: 4 to 9 ft each, 26 ft in all; a German figure is 6.5 m. Worked through by hand
    with ways of 1.5, 2.4 and 1.8 m: 5.7 m in all passes, and a way of 3.1 m is too long. Secondary.
    """
    good = row(WorkTriangle, sink_to_hob=1500, hob_to_fridge=2400, fridge_to_sink=1800)
    assert good.all_round == 5700
    assert all(met("US", rule, good) for rule in ("ways-not-too-long", "ways-not-too-short", "ways-round-not-too-long"))
    assert met("DE", "ways-round-not-too-long", good)
    far = row(WorkTriangle, sink_to_hob=1500, hob_to_fridge=3100, fridge_to_sink=1800)
    assert not met("US", "ways-not-too-long", far)
    assert judged("US", "ways-not-too-long", far).rule.severity == "note"
