"""What a fixing goes through and into, against published figures. Sizes in millimetres unless a name says inches."""

from __future__ import annotations

import pytest

from tests.standards.by_hand import SILENT, Value, judged, met, need, row
from validator.measures.fixings.fixing_edges import FixingAtEdge, FixingBesideEdge, FixingsSideBySide
from validator.measures.fixings.fixing_parts import GaugedScrew
from validator.measures.fixings.fixings import FixingInWall, PlugAndScrewInWall
from validator.measures.rows import Given

INCH = 25.4


def in_front_of_a_flue(**values: Value | Given) -> FixingInWall:
    usual: dict[str, Value | Given] = {"has_flue": True, "through": 0, "up_to_flue": (102.5,)}
    return row(FixingInWall, **usual | values)


def test_sixty_in_a_half_brick_chimney_is_too_near_its_flue() -> None:
    """NHBC Standards 2020, 6.8.22: metal fixings stay 50 from a flue (primary). Half a brick is 102.5: 60 leave 42.5,
    and 52.5 is the most that may sit in it.
    """
    rule = "fixing-clear-of-the-flue"
    sixty = in_front_of_a_flue(length=60)
    assert sixty.clear_of_flue == pytest.approx(42.5)
    assert not met("GB", rule, sixty)
    assert sixty.length - judged("GB", rule, sixty).short == pytest.approx(52.5)
    assert met("GB", rule, in_front_of_a_flue(length=52.5))


def test_what_burns_stays_two_hundred_from_a_flue() -> None:
    """NHBC Standards 2020, 6.8.22: combustible material stays 200 from a flue in brick or block (primary)."""
    rule = "units-away-from-the-flue"
    assert not met("GB", rule, in_front_of_a_flue(length=50))
    assert met("GB", rule, in_front_of_a_flue(length=50, up_to_flue=(200,)))


NARROW = [(27, 3.4), (33, 4.1), (39, 4.9), (45, 5.6), (51, 6.4), (57, 7.1), (63, 7.9), (69, 8.6), (75, 9.4)]


@pytest.mark.parametrize(("width", "greatest"), NARROW)
def test_the_greatest_screw_in_a_narrow_edge(width: float, greatest: float) -> None:
    """LVL Handbook Europe 2025, Table 5.2: the greatest screw at an edge distance of four diameters (primary). The
    table is rounded to 0.1.
    """
    rule = "screw-away-from-the-edge-of-a-stud"
    assert width / 8 == pytest.approx(greatest, abs=0.051)
    assert met("GB", rule, _screw_in_stud(width, width / 8))
    assert not met("GB", rule, _screw_in_stud(width, width / 8 + 0.2))


def test_a_five_screw_is_just_over_for_a_stud_of_thirty_eight() -> None:
    """The same rule at 38 gives 4.75, calculated: a 5 mm screw asks for 20 and has 19."""
    assert need("GB", "screw-away-from-the-edge-of-a-stud", _screw_in_stud(38, 5)) == 20
    assert not met("GB", "screw-away-from-the-edge-of-a-stud", _screw_in_stud(38, 5))


def _screw_in_stud(face: float, diameter: float) -> FixingInWall:
    return row(
        FixingInWall,
        kind_of="wood screw",
        base="stud",
        carries="wall units",
        stud_faces=(face,),
        screw_diameter=diameter,
    )


def test_the_least_timber_for_a_five_screw() -> None:
    """LVL Handbook Europe 2025, equation 5.38: the greater of 5 d and (10 d − 30) ρ ÷ 400, here 25 and 24 (primary)."""
    rule = "timber-thick-enough-for-its-screw"
    thin, enough = (
        row(
            FixingInWall, kind_of="wood screw", base="stud", carries="wall units", screw_diameter=5, base_thickness=deep
        )
        for deep in (24, 25)
    )
    assert need("GB", rule, thin) == 25
    assert not met("GB", rule, thin)
    assert met("GB", rule, enough)


EDGES = [("solid brick", 80, False), ("solid brick", 100, True), ("aerated block", 80, False), ("brick", 50, False)]


@pytest.mark.parametrize(("base", "edge", "well_away"), EDGES)
def test_a_fixing_beside_a_reveal(base: str, edge: float, well_away: bool) -> None:
    """Load tables of European Technical Assessments of plastic anchors: 100 from an edge of masonry (secondary). That
    is twice an embedment of 50; makers of aerated block take once, below which it fails.
    """
    hole = row(FixingBesideEdge, base=base, aside=edge, diameter=8, maker_edge=SILENT)
    assert met("GB", "fixing-away-from-an-edge", hole)
    assert met("GB", "fixing-well-away-from-an-edge", hole) is well_away


def test_eighty_from_a_reveal_is_twenty_short() -> None:
    """Arithmetic on the rule above: twice 50 less 80. Inputs chosen for the check: memory."""
    hole = row(FixingBesideEdge, base="solid brick", aside=80, diameter=8, maker_edge=SILENT)
    assert judged("GB", "fixing-well-away-from-an-edge", hole).short == pytest.approx(20)


@pytest.mark.parametrize(
    ("diameter", "edge", "well_away"), [(8, 70, True), (8, 69, False), (10, 85, True), (10, 84, False)]
)
def test_a_fixing_beside_an_edge_of_concrete(diameter: float, edge: float, well_away: bool) -> None:
    """The same load tables: 70 from an edge of concrete at 8 mm, 85 at most at 10 mm (secondary)."""
    hole = row(FixingBesideEdge, base="concrete", aside=edge, diameter=diameter, maker_edge=SILENT)
    assert met("GB", "fixing-well-away-from-an-edge", hole) is well_away


def test_a_fixing_over_an_opening_counts_from_its_head() -> None:
    """A hole in line with a window of which the head is 70 below it: 70 from the edge, not 200 beside it."""
    hole = row(FixingAtEdge, base="brick", aside=-200, upward=70)
    assert hole.to_edge == 70


def test_a_hundred_and_twenty_apart_are_a_group() -> None:
    """The same load tables: 100 is the least in a group, 250 between two that each carry their own (secondary)."""
    assert met("GB", "fixings-not-in-one-spot", row(FixingsSideBySide, base="solid brick", between=120))
    assert not met("GB", "fixings-not-in-one-spot", row(FixingsSideBySide, base="solid brick", between=80))


MEMBERS = [(100, 100, True), (102.5, 110, False), (110, 110, True), (115, 175, False)]


@pytest.mark.parametrize(("wall", "asked", "enough"), MEMBERS)
def test_a_wall_as_thick_as_its_maker_asks(wall: float, asked: float, enough: bool) -> None:
    """The same load tables: 100 for 8 and 10 mm at 50, 110 for 10 mm at 70, 175 for 14 mm in weak aerated block
    (secondary).
    """
    fixing = row(
        FixingInWall,
        kind_of="frame fixing",
        base="aerated block",
        carries="wall units",
        base_thickness=wall,
        maker_thickness=asked,
    )
    assert met("GB", "wall-thick-enough-for-its-fixings", fixing) is enough


def test_without_a_makers_figure_a_wall_of_a_hundred_will_do() -> None:
    """The least of those tables, where a maker gives none."""
    values: dict[str, Value | Given] = {
        "kind_of": "frame fixing",
        "base": "dense block",
        "carries": "wall units",
        "maker_thickness": SILENT,
    }
    assert met("GB", "wall-thick-enough-for-its-fixings", row(FixingInWall, **values, base_thickness=100))
    assert not met("GB", "wall-thick-enough-for-its-fixings", row(FixingInWall, **values, base_thickness=75))


def test_a_plug_sits_wholly_in_the_brick_and_its_screw_comes_through() -> None:
    """Makers' rule: the hole takes finishes and plug; the screw takes fixture, finishes, plug and its own diameter
    (secondary). 2 + 15 + 50 + 6 = 73. Inputs chosen for the check: memory.
    """
    plug = row(
        PlugAndScrewInWall,
        kind_of="plug and screw",
        base="brick",
        length=73,
        through=2,
        coverings=(15,),
        plug_length=50,
        screw_diameter=6,
        hole_depth=65,
    )
    assert (plug.hole_past_plug, plug.screw_past_plug, plug.embedment) == (0, 6, 50)
    assert met("GB", "hole-takes-the-plug", plug)
    assert met("GB", "screw-passes-the-plug", plug)


GAUGES = [(6, 0.138), (8, 0.164), (10, 0.190), (12, 0.216), (14, 0.242)]


@pytest.mark.parametrize(("gauge", "inches"), GAUGES)
def test_the_diameter_of_a_gauge(gauge: float, inches: float) -> None:
    """ASME B18.6.1, wood screws: 0.060 in and 0.013 in for each number; the printed table, from memory."""
    screw = row(GaugedScrew, number=gauge, nought=1.524, step=0.3302)
    assert screw.diameter == pytest.approx(inches * INCH, abs=0.001)


def test_an_anchor_strip_is_half_an_inch_thick() -> None:
    """Architectural Woodwork Standards, 1st edition (2009), 4.4.18: strips of 1/2 in or more (primary)."""
    back, strip = (
        row(FixingInWall, kind_of="wood screw", carries="wall units", through_metal=False, through=thick * INCH)
        for thick in (0.25, 0.5)
    )
    assert not met("US", "cabinet-screw-through-an-anchor-strip", back)
    assert met("US", "cabinet-screw-through-an-anchor-strip", strip)
