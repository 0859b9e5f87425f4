"""Screws in cabinets and what is glued, against published values and worked examples."""

from __future__ import annotations

import pytest

from tests.standards.by_hand import SILENT, applied, cell, judged, met, need, row
from validator.judging.outcomes import Result
from validator.measures.joinery.adhesives import GluedThing
from validator.measures.joinery.screws import ScrewInWorktop, ScrewOfJoinery
from validator.measures.joinery.unit_joints import ScrewedJoint
from validator.measures.joinery.unit_parts import BackOfUnit, BoredDoor
from validator.plan.dimensions import DAY
from validator.plan.units import screw_diameter

INCH = 25.4


def joint(first: float, second: float, length: float, *, framed: bool = False) -> ScrewedJoint:
    return row(
        ScrewedJoint,
        meets="unit",
        framed=framed,
        hung=True,
        heights=(720.0,),
        first=first,
        second=second,
        length=length,
        each=4.0,
        at="unused holes",
    )


@pytest.mark.parametrize(
    ("length", "stays", "holds"), [(30, True, 12), (34, True, 16), (35, False, 17), (40, False, 22)]
)
def test_screws_through_two_sides_of_eighteen(length: float, stays: bool, holds: float) -> None:
    """The trade's sum, length at most both sides less 2 mm, worked for 18 + 18 mm: 34 is the limit, 40 comes through.
    Arithmetic on practice; the margin of 2 mm as remembered.
    """
    found = joint(18, 18, length)
    assert met("GB", "joining-screw-stays-inside", found) is stays
    assert found.held == holds


def test_two_sides_of_sixteen_take_thirty() -> None:
    """The same sum: 16 + 16 − 2. Arithmetic on practice."""
    assert met("GB", "joining-screw-stays-inside", joint(16, 16, 30))
    assert not met("GB", "joining-screw-stays-inside", joint(16, 16, 31))


def test_two_stiles_of_an_inch_and_a_half_take_a_screw_of_two_and_a_half() -> None:
    """American cabinet-fitting guides: 2-1/2 in through two stiles of 1-1/2 in. Secondary."""
    found = joint(1.5 * INCH, 1.5 * INCH, 2.5 * INCH, framed=True)
    assert met("US", "joining-screw-stays-inside", found)
    assert met("US", "frame-screw-into-the-second-stile", found)
    assert not met("US", "frame-screw-into-the-second-stile", joint(1.5 * INCH, 1.5 * INCH, 2 * INCH, framed=True))


def test_sides_without_a_frame_take_an_inch_to_an_inch_and_a_quarter() -> None:
    """The same guides for frameless cabinets, with sides of 5/8 and 3/4 in. Secondary."""
    for side, length in ((0.625, 1.1), (0.75, 1.25)):
        found = joint(side * INCH, side * INCH, length * INCH)
        assert met("US", "joining-screw-stays-inside", found)
        assert met("US", "joining-screw-into-the-second-side", found)
        assert applied("US", "frame-screw-into-the-second-stile", found) is None


@pytest.mark.parametrize(("thickness", "longest"), [(38, 50), (22, 34)])
def test_screws_up_through_a_rail_of_eighteen(thickness: float, longest: float) -> None:
    """The trade's sum, rail and worktop less 6 mm: 50 for 38 mm, 34 for 22 mm. Margin as remembered."""
    for length, stays in ((longest, True), (longest + 1, False)):
        found = row(
            ScrewInWorktop, material="laminate", type="pan head screw", length=length, through=18.0, thickness=thickness
        )
        assert met("GB", "worktop-screw-stops-short", found) is stays


@pytest.mark.parametrize(("number", "inches"), [(6, 0.138), (8, 0.164), (10, 0.190), (12, 0.216), (14, 0.242)])
def test_thickness_of_a_numbered_screw(number: int, inches: float) -> None:
    """Basic diameters of wood screws as handbook pages on the NDS print them for no. 8 and no. 10 (secondary); the
    others by the rule of ASME B18.6.1 (memory).
    """
    assert screw_diameter(number) / INCH == pytest.approx(inches, abs=0.0005)


def screw(diameter: float, into: str, pilot: float, **more: float | str | bool) -> ScrewOfJoinery:
    return row(ScrewOfJoinery, type="wood screw", diameter=diameter, into=into, pilot=pilot, **more)


@pytest.mark.parametrize(
    ("thick", "soft", "hard"),
    [(3.5, 1.6, 2.1), (4.0, 1.9, 2.4), (4.5, 2.1, 2.7), (5.0, 2.3, 3.0), (6.0, 2.8, 3.6)],
)
def test_pilot_holes_by_core_and_wood(thick: float, soft: float, hard: float) -> None:
    """NDS Commentary 11.1.2.1: 70 % of the core in softwood, 90 % in hardwood (primary); core two thirds of the shank
    (Wood Handbook, chapter 8, primary). The table is this sum, rounded to a tenth.
    """
    assert soft == pytest.approx(0.7 * screw(thick, "pine", 0).core, abs=0.06)
    assert hard == pytest.approx(0.9 * screw(thick, "oak", 0).core, abs=0.06)
    assert need("GB", "pilot-hole-wide-enough", screw(thick, "pine", soft)) == pytest.approx(soft)
    assert need("GB", "pilot-hole-wide-enough", screw(thick, "oak", hard)) == pytest.approx(hard)


@pytest.mark.parametrize(
    ("number", "soft", "hard"), [(6, 1 / 16, 5 / 64), (8, 5 / 64, 7 / 64), (10, 3 / 32, 1 / 8), (12, 7 / 64, 1 / 8)]
)
def test_pilot_holes_by_number(number: int, soft: float, hard: float) -> None:
    """An archived woodworker's chart of bits by number (secondary). No bit of it is wider than 0.7 of the screw."""
    thick = screw_diameter(number)
    assert cell("US", "pilot-holes", "pilot", wood="pine", screw=thick) == pytest.approx(soft * INCH)
    assert cell("US", "pilot-holes", "pilot", wood="oak", screw=thick) == pytest.approx(hard * INCH)
    for wood, bit in (("pine", soft), ("oak", hard)):
        assert met("US", "pilot-hole-not-too-wide", screw(thick, wood, bit * INCH))


def test_thin_screws_into_softwood_need_no_hole_and_thick_ones_always_do() -> None:
    """EN 1995-1-1 asks for holes from over 6 mm (secondary); LVL Handbook Europe, 0.5 to 0.7 of the screw (primary)."""
    assert applied("GB", "pilot-hole-wide-enough", screw(4, "pine", 0)) is None
    assert not met("GB", "thick-screw-pre-drilled", screw(8, "pine", 0))
    assert met("GB", "thick-screw-pre-drilled", screw(8, "pine", 4))
    assert not met("GB", "pilot-hole-not-too-wide", screw(8, "pine", 6))


def test_screws_in_mdf() -> None:
    """European MDF information site, screwing (primary): 12 mm from the edge and 25 mm from the corner in the face,
    70 mm from the corner in the edge, pilot 85 to 95 % of the core and 1 mm deeper.
    """
    face = screw(4, "MDF", 2.4, enters="face", from_edge=12.0, from_corner=25.0, length=30, through=18, pilot_depth=13)
    for rule in ("mdf-screw-from-the-edge", "mdf-screw-from-the-corner", "mdf-pilot-hole", "mdf-pilot-hole-deeper"):
        assert met("GB", rule, face)
    assert need("GB", "mdf-edge-screw-from-the-corner", screw(4, "MDF", 2.4, enters="edge", from_corner=60.0)) == 70


@pytest.mark.parametrize(("number", "edge"), [(6, 13), (8, 16), (10, 25)])
def test_american_edges_of_mdf_by_number(number: int, edge: float) -> None:
    """American note on MDF: 13, 16 and 25 mm for no. 6, 8 and 10 (as the MDF site's fact lists it, primary page)."""
    found = screw(screw_diameter(number), "MDF", 2.4, enters="face", from_edge=float(edge))
    assert need("US", "mdf-screw-from-the-edge", found) == edge


def test_holes_of_a_one_piece_connector() -> None:
    """A peer-reviewed study's screw: 7 mm thread, 4 mm core, hole of 5 mm, 25 mm deep (secondary)."""
    found = row(
        ScrewOfJoinery,
        type="connector screw",
        diameter=7.0,
        length=50.0,
        through=18.0,
        into="chipboard",
        enters="edge",
        pilot=5.0,
        pilot_depth=34.0,
        clearance=7.0,
        from_corner=45.0,
    )
    for rule in (
        "connector-screw-in-thick-panels",
        "connector-screw-pilot-hole",
        "connector-screw-clearance-hole",
        "connector-screw-from-the-end",
    ):
        assert met("GB", rule, found)
    assert found.pilot_past_tip == 2


@pytest.mark.parametrize("cup", [10.5, 12.5, 13])
def test_the_usual_cups_leave_a_door_of_fifteen_whole(cup: float) -> None:
    """Hinge makers' instructions: cups 10.5 to 13 mm deep, doors of 15 to 16 mm (secondary)."""
    found = row(BoredDoor, thickness=15.0, says_cup=True, cup=cup)
    assert met("GB", "door-thick-enough-for-hinge-cups", found)
    assert met("GB", "hinge-cup-short-of-the-face", found)


def test_strips_behind_thin_backs() -> None:
    """Architectural Woodwork Standards, 1st edition, 4.4.18 (primary): 1/2 by 2-1/2 in at top and bottom, a third one
    over 60 in; none where the back is 1/2 in or thicker.
    """
    good = row(BackOfUnit, back=6.0, height=30 * INCH, how_many=2.0, thick=0.5 * INCH, wide=2.5 * INCH)
    for rule in ("strips-behind-a-thin-back", "strips-wide-enough", "strips-at-top-and-bottom"):
        assert met("US", rule, good)
    tall = row(BackOfUnit, back=6.0, height=61 * INCH, how_many=2.0, thick=0.5 * INCH, wide=2.5 * INCH)
    assert not met("US", "strips-in-a-tall-cabinet", tall)
    thick = row(BackOfUnit, back=0.5 * INCH, height=30 * INCH, how_many=0.0, thick=0.0, wide=0.0)
    assert applied("US", "strips-behind-a-thin-back", thick) is None


def glued(**said: float | str | bool) -> GluedThing:
    usual: dict[str, float | str | bool] = {
        "of": "laminate",
        "on": "plaster",
        "surface": "sound and dry",
        "cold": False,
    }
    return row(GluedThing, **(usual | said), maker_cure=SILENT)


@pytest.mark.parametrize("thing", ["wall units", "hood", "shelf", "appliance door"])
def test_what_must_not_hang_on_glue_alone(thing: str) -> None:
    """Practice of the trade: adhesive is never the only support of what can hurt when it falls (secondary)."""
    assert judged("GB", "never-on-glue-alone", glued(thing=thing, also="none")).result is Result.NOT_MET
    assert met("GB", "never-on-glue-alone", glued(thing=thing, also="screws"))


def test_an_upstand_may_hang_on_glue() -> None:
    """The same practice: upstands and light trim may (secondary)."""
    assert applied("GB", "never-on-glue-alone", glued(thing="upstand", also="none")) is None


def test_a_mirror_of_more_than_a_square_metre_wants_fasteners() -> None:
    """Advice on fixing glass: over one square metre by mechanical means (secondary)."""
    for area, result in ((1.0e6, Result.MET), (1.02e6, Result.NOT_MET)):
        mirror = glued(thing="mirror", of="glass", also="none", area=area)
        assert judged("GB", "large-glass-not-on-glue-alone", mirror).result is result


def test_construction_adhesive_cures_in_three_days_and_in_twice_that_near_ten_degrees() -> None:
    """Several makers' instructions: 24 to 72 h, about double at 10 °C against 21 °C (secondary)."""
    assert met("GB", "glue-left-to-cure", glued(thing="upstand", left=3 * DAY))
    assert not met("GB", "glue-left-longer-in-the-cold", glued(thing="upstand", cold=True, left=5 * DAY))
    assert met("GB", "glue-left-longer-in-the-cold", glued(thing="upstand", cold=True, left=6 * DAY))
