"""Embedment and holes against published examples. Sizes in millimetres unless a name says inches."""

from __future__ import annotations

import pytest

from tests.measures.plans import rows
from tests.standards.by_hand import SILENT, Value, applied, cell, judged, met, need, row
from validator.judging.outcomes import Result
from validator.measures.drilling.drill_points import DrillPoint
from validator.measures.fixings.fixings import FixingInWall
from validator.measures.rows import Given

INCH = 25.4


def frame_fixing(**values: Value | Given) -> FixingInWall:
    usual: dict[str, Value | Given] = {
        "kind_of": "frame fixing",
        "carries": "wall units",
        "base": "solid brick",
        "plug_diameter": 8,
        "maker_embedment": SILENT,
    }
    return row(FixingInWall, **usual | values)


def wood_screw(length: float, through: float, coverings: tuple[float, ...]) -> FixingInWall:
    return row(
        FixingInWall,
        kind_of="wood screw",
        carries="wall units",
        base="stud",
        length=length,
        through=through,
        coverings=coverings,
    )


def test_a_ninety_long_anchor_through_forty_keeps_fifty() -> None:
    """EOTA ETAG 020 Part 4 (2006), figure 5.1, the guideline's own example of greatest fixture thickness: secondary."""
    assert frame_fixing(length=90, through=40, coverings=()).embedment == pytest.approx(50)


USABLE = [
    # length, greatest total of fixture and finishes that leaves 50 in solid units (None: not usable at 70), and 70
    (8, 60, 10, None),
    (8, 80, 30, 10),
    (8, 100, 50, 30),
    (8, 120, 70, 50),
    (8, 140, 90, 70),
    (8, 160, 110, 90),
    (10, 80, 30, 10),
    (10, 100, 50, 30),
    (10, 115, 65, 45),
    (10, 135, 85, 65),
    (10, 160, 110, 90),
]


@pytest.mark.parametrize(("diameter", "length", "solid", "hollow"), USABLE)
def test_usable_thickness_of_stock_lengths(diameter: float, length: float, solid: float, hollow: float | None) -> None:
    """EOTA ETAG 020 Part 4 (2006), figure 5.1: usable thickness is length less nominal embedment (secondary). The rows
    are arithmetic on usual stock lengths.
    """
    for base, greatest in (("dense block", solid), ("perforated brick", hollow), ("aircrete block", hollow)):
        if greatest is None:
            assert not met("GB", "wall-unit-fixing-depth", _through(diameter, length, base, 0))
            continue
        assert met("GB", "wall-unit-fixing-depth", _through(diameter, length, base, greatest))
        assert not met("GB", "wall-unit-fixing-depth", _through(diameter, length, base, greatest + 1))


def _through(diameter: float, length: float, base: str, thickness: float) -> FixingInWall:
    return frame_fixing(plug_diameter=diameter, length=length, through=0, coverings=(thickness,), base=base)


ASSESSED = [("concrete", 8, 50), ("solid brick", 10, 50), ("calcium silicate brick", 8, 50), ("clay brick", 14, 70)]


@pytest.mark.parametrize(("base", "diameter", "embedment"), ASSESSED)
def test_nominal_embedment_agrees_with_assessed_types(base: str, diameter: float, embedment: float) -> None:
    """Load tables of three European Technical Assessments of plastic frame anchors (ETAG 020, now EAD 330284-00-0604)
    as printed in a catalogue of 2024: 8 and 10 mm at 50, 14 mm at 70. Secondary.
    """
    assert cell("GB", "nominal-embedment", "embedment", base=base, plug=diameter) == embedment


def test_no_embedment_is_guessed_for_a_thin_plug() -> None:
    """No source was read for plugs of 6 mm, so nothing is known of them. Common practice gives no figure either."""
    assert cell("GB", "nominal-embedment", "embedment", base="solid brick", plug=6) is None


LAYERS = [
    # what, length, through, coverings, embedment
    ("dense block behind a dab of 15", 100, 3, (2.5, 12.5, 15), 67),
    ("the same behind a dab of 25, 80 long", 80, 3, (3, 12.5, 25), 36.5),
    ("brick behind plaster and a batten", 60, 18, (15,), 27),
    ("brick behind tile, adhesive and plaster", 80, 2, (8, 4, 15), 51),
    ("dense block behind insulated board", 140, 3, (3, 62.5, 15), 56.5),
]


@pytest.mark.parametrize(
    ("what", "length", "through", "coverings", "embedment"), LAYERS, ids=[each[0] for each in LAYERS]
)
def test_embedment_is_what_the_layers_leave(
    what: str, length: float, through: float, coverings: tuple[float, ...], embedment: float
) -> None:
    """Arithmetic on the rule of makers' instructions: length less fixture less every layer that carries nothing. The
    inputs are chosen for the check: memory.
    """
    fixing = frame_fixing(length=length, through=through, coverings=coverings)
    assert fixing.embedment == pytest.approx(embedment)
    assert met("GB", "wall-unit-fixing-depth", fixing) is (embedment >= 50)


def test_the_length_needed_behind_a_deep_dab() -> None:
    """The same arithmetic turned round: 3 + 3 + 12.5 + 25 + 50 = 93.5. Inputs chosen for the check: memory."""
    fixing = frame_fixing(length=80, through=3, coverings=(3, 12.5, 25))
    assert 80 + judged("GB", "wall-unit-fixing-depth", fixing).short == pytest.approx(93.5)


def test_the_makers_embedment_goes_before_the_table() -> None:
    """A 10 mm type assessed at 70 mm in solid brick (catalogue tables of European Technical Assessments, 2024:
    secondary) needs its 70, not the usual 50.
    """
    fixing = frame_fixing(plug_diameter=10, length=100, through=2, coverings=(30,), maker_embedment=70)
    assert need("GB", "wall-unit-fixing-depth", fixing) == 70
    assert not met("GB", "wall-unit-fixing-depth", fixing)


def test_hole_in_a_hundred_leaf_leaves_twenty_three() -> None:
    """Hole of 67 + 10 in a leaf of 100 leaves 23: passes at 20. Arithmetic on fitters' practice: memory."""
    fixing = frame_fixing(
        length=100, through=3, coverings=(2.5, 12.5, 15), base="dense block", base_thickness=100, hole_depth=107
    )
    assert fixing.hole_past_tip == pytest.approx(10)
    assert fixing.left_behind == pytest.approx(23)
    assert met("GB", "wall-left-behind-the-hole", fixing)


def test_american_cabinet_screw_through_rail_and_board() -> None:
    """US note on the length of cabinet screws: 3/4 rail and 1/2 board, 2-1/2 gives 1-1/4, so 2-3/4 is the least for
    1-1/2. Secondary; the row for 3 in is arithmetic.
    """
    rule = "wall-unit-screw-well-into-timber"
    short, least, usual = (wood_screw(size * INCH, 0.75 * INCH, (0.5 * INCH,)) for size in (2.5, 2.75, 3.0))
    assert short.embedment == pytest.approx(1.25 * INCH)
    assert usual.embedment == pytest.approx(1.75 * INCH)
    assert [met("US", rule, screw) for screw in (short, least, usual)] == [False, True, True]


def test_british_screw_through_rail_board_and_skim() -> None:
    """5 x 70 through 18 and 15 leaves 37, between 25 and 38; 5 x 80 leaves 47. Arithmetic on chosen inputs: memory."""
    seventy, eighty = (wood_screw(length, 18, (12.5, 2.5)) for length in (70, 80))
    assert (seventy.embedment, eighty.embedment) == (37, 47)
    assert not met("GB", "wall-unit-screw-well-into-timber", seventy)
    assert met("GB", "wall-unit-screw-into-timber", seventy)
    assert met("GB", "wall-unit-screw-well-into-timber", eighty)


POINTS = [
    # hole along and up; what stands in its way beside a double socket in the middle of 1200 along
    ("in the strip of the socket", 1150, 2060, "drill-clear-of-cable-strip"),
    ("in the strip at the corner", 100, 2060, "drill-away-from-the-corner-strip"),
    ("in the strip below the ceiling", 1900, 2290, "drill-below-the-ceiling-strip"),
]


@pytest.mark.parametrize(("what", "along", "up", "rule"), POINTS, ids=[each[0] for each in POINTS])
def test_a_hole_in_a_zone_for_cables(what: str, along: float, up: float, rule: str) -> None:
    """BS 7671:2018+A2:2022, 522.6.202: strips of 150 mm along ceiling and corner, and straight up from an accessory
    (secondary); the width of the strip is common practice. Wall 2400 high, corner at its left end.
    """
    assert not met("GB", rule, _hole(along, up))


SOCKET_WALL = """
heights from: bare floor
ceiling: 2400
walls: {north: {length: 3000}, east: {length: 2500}, south: {length: 3000}, west: {length: 2500}}
kinds: {double socket: {plate: 146 x 86}}
points: {S1: {is: double socket, wall: north, along: 1200 from west, up: 1100}}
drill:
  P1: {wall: north, along: 1150 from west, up: 2060}
  P2: {wall: north, along: 1400 from west, up: 2060}
  P3: {wall: north, along: 100 from west, up: 2060}
  P4: {wall: north, along: 1900 from west, up: 2290}
"""


@pytest.mark.parametrize(
    ("hole", "in_the_way"),
    [
        ("P1", {"drill-clear-of-cable-strip"}),
        ("P2", set()),
        ("P3", {"drill-away-from-the-corner-strip"}),
        ("P4", {"drill-below-the-ceiling-strip"}),
    ],
)
def test_four_holes_for_a_rail_beside_one_socket(hole: str, in_the_way: set[str]) -> None:
    """BS 7671:2018+A2:2022, 522.6.202, worked from a plan: a double socket 1200 along and 1100 up, with 50 mm kept on
    each side of its strip, a corner at 0, and a ceiling of 2400 (secondary; the width of the strip is common practice).
    """
    (point,) = (each for each in rows(SOCKET_WALL, "drill point") if each.subject.name == hole)
    names = [*(rule for *_, rule in POINTS), "drill-well-clear-of-cable-strip"]
    outcomes = [applied("GB", name, point) for name in names]
    assert {each.rule.name for each in outcomes if each is not None and each.result is not Result.MET} == in_the_way


def test_a_hole_well_clear_of_every_zone() -> None:
    """The same wall: a hole at 1400 is 77 mm outside a strip of 146 with 50 mm on each side."""
    hole = _hole(1400, 2060)
    assert all(met("GB", rule, hole) for *_, rule in POINTS)
    assert hole.clear_of_strip - 50 == pytest.approx(77)


def _hole(along: float, up: float) -> DrillPoint:
    return row(
        DrillPoint,
        along=along,
        up=up,
        has_strip=True,
        aside=abs(along - 1200),
        half_strip=73,
        ceiling=2400,
        has_corner=True,
        to_corner=along,
    )
