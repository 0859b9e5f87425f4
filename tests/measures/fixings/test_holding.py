"""What holds the things that hang on a wall, and what they put on it."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.measures.plans import ends, gaps, row, rows, to_find

KIND = "hung unit on its fixings"
PAPERS = "{read: leaflet, load: 0.9 kN, as: recommended, in: solid brick}"
HANGERS = "{for: wall units, at: hangers, through: 2, plug: frame fixing 8 x 100, hole: 8 x 110}"
LOADS = "weight: 33.75 kg/m, load: 60 kg/m"
WALL = f"{{height: 720, depth: 281, front: 19, {LOADS}, hangers: {{down: 60, in: 40, rated: 65 kg}}}}"


def plan(
    *,
    fixing: str = HANGERS,
    papers: str = PAPERS,
    kind: str = WALL,
    order: str = "{W1: wall 800}",
    made_of: str = "[skim 3, undercoat plaster 11, brick 215]",
    more: str = "",
) -> str:
    return f"""
heights from: bare floor
layers: {{wall: {made_of}}}
walls: {{north: {{made of: wall, length: 4000}}}}
kinds: {{wall: {kind}}}
stated: {{rail: {papers}}}
runs: {{wall units: {{against: north, underside: 1400, order: {order}}}}}
fixings: {{rail: {fixing}}}
{more}
"""


def reserve(**changes: str) -> float:
    return float(row(plan(**changes), KIND).reserve)


def test_a_unit_pulls_by_its_weight_over_its_depth_and_its_height() -> None:
    found = row(plan(), KIND)
    assert found.full == pytest.approx(27 + 48)
    assert found.down / 1000 == pytest.approx(75 * 9.80665)
    assert found.pull == pytest.approx(found.down * 150 / 660)
    assert (found.number, found.counted) == (2, 2)
    assert found.reserve == pytest.approx(2 * 900 / ((75 * 9.80665) ** 2 * (1 + (150 / 660) ** 2)) ** 0.5)


def test_the_reserve_of_one_fixing_is_that_of_all() -> None:
    found = row(plan(), KIND)
    assert found.reserve == pytest.approx(900_000 / found.load_each)


def test_a_weight_nobody_gives_is_taken_from_the_table_by_its_height() -> None:
    found = row(plan(kind=WALL.replace(f"{LOADS}, ", "")), KIND)
    assert found.full == pytest.approx(0.8 * 36 + 3 * 0.764 * 0.281 * 50, rel=1e-3)


def test_a_machine_in_the_unit_hangs_with_it() -> None:
    found = row(plan(more="appliances: {microwave: {in: W1, weight: 14 kg}}"), KIND)
    assert found.full == pytest.approx(27 + 48 + 14)


def test_a_machine_that_nobody_weighed_leaves_it_open() -> None:
    found = row(plan(more="appliances: {microwave: {in: W1}}"), KIND)
    assert to_find(found, "reserve") == {"/appliances/microwave/weight"}


def test_what_no_fixing_is_for_is_not_known_to_hold() -> None:
    first, second = rows(plan(fixing=HANGERS.replace("wall units", "W2"), order="{W1: wall 600, W2: wall 600}"), KIND)
    assert {gap.label for gap in gaps(first, "number")} == {"what holds W1"}
    assert second.number == 2


def test_no_load_of_a_maker_is_no_load() -> None:
    for papers in ("{read: leaflet, load: none}", "{read: leaflet}", "{read: leaflet, load: to find out}"):
        assert to_find(row(plan(papers=papers), KIND), "reserve") == {"/stated/rail/load"}


def test_a_load_has_to_say_what_figure_it_is_and_in_what_it_was_found() -> None:
    found = row(plan(papers="{read: leaflet, load: 0.9 kN}"), KIND)
    assert to_find(found, "reserve") == {"/stated/rail/as", "/stated/rail/in"}


@pytest.mark.parametrize("base", ["concrete", "perforated brick", "aerated block", "timber", "lightweight block"])
def test_what_was_found_in_another_base_does_not_carry_over(base: str) -> None:
    found = row(plan(papers=PAPERS.replace("solid brick", base)), KIND)
    (gap,) = gaps(found, "reserve")
    assert gap.detail == f"it was found in {base}, and here brick carries"


def test_joints_behind_plaster_leave_half_and_bare_ones_all() -> None:
    assert row(plan(), KIND).joints == 0.5
    assert row(plan(made_of="[brick 215]"), KIND).joints == 1
    assert row(plan(fixing=HANGERS.replace("through", "in joints: no, through")), KIND).joints == 1
    concrete = PAPERS.replace("solid brick", "concrete")
    assert row(plan(made_of="[skim 3, concrete 150]", papers=concrete), KIND).joints == 1


def test_hangers_of_neighbours_share_a_brick() -> None:
    """Two holes 80 mm apart count as one, so that each unit has one and a half."""
    first, second = rows(plan(order="{W1: wall 600, W2: wall 600}"), KIND)
    assert (first.counted, second.counted) == (1.5, 1.5)


def test_hangers_of_a_narrow_unit_share_a_brick() -> None:
    assert row(plan(order="{W1: wall 300}"), KIND).counted == 1
    assert row(plan(order="{W1: wall 330}"), KIND).counted == 2


def test_a_maker_may_say_how_close_fixings_count() -> None:
    papers = PAPERS.replace("load", "spacing: 80, load")
    first, _ = rows(plan(order="{W1: wall 600, W2: wall 600}", papers=papers), KIND)
    assert first.counted == 2


def test_two_screws_in_each_hanger_count_as_one() -> None:
    found = row(plan(fixing=HANGERS.replace("through", "each: 4, through")), KIND)
    assert (found.number, found.counted) == (4, 2)


def test_a_hanger_whose_hole_failed_is_none() -> None:
    more = "built: {W1 left hanger: {wall: north, failed: 70 deep}}"
    found = row(plan(more=more), KIND)
    assert found.number == 1
    assert found.reserve == pytest.approx(reserve() / 2)


def test_a_rail_has_its_fixings_by_its_width() -> None:
    rail = HANGERS.replace("hangers", "rail, centres: 300, from ends: 50")
    found = row(plan(fixing=rail), KIND)
    assert (found.number, found.counted) == pytest.approx((800 / 300, 800 / 300))
    close = row(plan(fixing=rail.replace("300", "200")), KIND)
    assert (close.number, close.counted) == pytest.approx((4, 800 / 250))


def test_a_range_of_weights_keeps_its_ends() -> None:
    low, high = ends(row(plan(kind=WALL.replace("load: 60 kg/m", "load: 40 to 80 kg/m")), KIND), "reserve")
    assert low == pytest.approx(reserve(kind=WALL.replace("load: 60", "load: 80")))
    assert high == pytest.approx(reserve(kind=WALL.replace("load: 60", "load: 40")))


def test_pull_and_shear_apart_add_their_shares() -> None:
    papers = "{read: leaflet, pull: 0.3 kN, shear: 0.6 kN, as: recommended, in: solid brick}"
    found = row(plan(papers=papers), KIND)
    assert found.reserve == pytest.approx(1 / found.shares)
    assert found.pull_share == pytest.approx(found.pull_each / 300_000)


TOP = "{for: W1, at: top, each: 2, down: 60, through: 2, plug: frame fixing 8 x 100}"
LOW = "{for: W1, at: back, each: 2, down: 400, through: 2, plug: frame fixing 8 x 100}"


def held_twice(second: str, papers: str, more: str = "") -> Any:
    text = plan(more=more).replace("fixings: {", f"fixings: {{second: {second}, ")
    return row(text.replace("stated: {", f"stated: {{second: {papers}, "), KIND)


def test_two_fixings_of_one_unit_share_its_load() -> None:
    """Bolts of one plate: the highest of heights h takes M h ÷ Σh², and all of them the weight alike."""
    found = held_twice(LOW, PAPERS)
    assert (found.held_by, found.number, found.counted) == ("second and rail", 4, 4)
    assert found.pull_each == pytest.approx(found.down * 150 * 660 / (2 * 660**2 + 2 * 320**2))
    assert found.reserve == pytest.approx(900_000 / found.load_each)


def test_of_several_fixings_the_weakest_sets_what_each_may_carry() -> None:
    weak = PAPERS.replace("0.9", "0.1")
    assert held_twice(LOW, weak).reserve == pytest.approx(held_twice(LOW, PAPERS).reserve / 9)
    assert to_find(held_twice(LOW, "{read: leaflet}"), "reserve") == {"/stated/second/load"}


def test_two_fixings_at_one_height_sit_in_the_same_bricks() -> None:
    """800 wide has room for 3.2 plugs 250 apart; two of each are 4."""
    found = held_twice(TOP, PAPERS)
    assert (found.number, found.counted, found.drop) == (4, 3.2, 660)


def test_a_load_any_way_and_a_pull_and_a_shear_apart_share_by_the_less_of_each() -> None:
    found = held_twice(LOW, "{read: leaflet, pull: 0.5 kN, shear: 1 kN, as: recommended, in: solid brick}")
    assert (found.pull_may, found.shear_may) == (500_000, 900_000)


def test_the_screws_of_a_machine_in_a_unit_do_not_carry_the_unit() -> None:
    machine = LOW.replace("W1", "hood")
    found = held_twice(machine, PAPERS, "appliances: {hood: {is: canopy hood, in: W1, weight: 8 kg}}")
    assert (found.held_by, found.number) == ("rail", 2)


def test_a_hood_hangs_by_its_own_fixings() -> None:
    text = """
heights from: bare floor
layers: {wall: [brick 215]}
walls: {north: {made of: wall, length: 4000}}
kinds: {base: {height: 720, depth: 560}}
stated: {hood screws: {read: leaflet, load: 0.3 kN, as: recommended, in: brick}}
runs: {units: {against: north, order: {B1: base 600}}}
appliances:
  hob: {is: induction hob, in: B1}
  hood: {over: hob, width: 600, body: 600 w x 500 h x 480 d, weight: 18 kg}
fixings: {hood screws: {for: hood, at: top, each: 2, down: 50, through: 2, plug: frame fixing 8 x 100}}
"""
    found = row(text, "hood on its fixings")
    assert found.pull == pytest.approx(18 * 9806.65 * 240 / 450)
    assert found.reserve == pytest.approx(2.999, abs=0.001)


NOGGINS = "{for: wall units, at: hangers, into: studs, through: 18, screw: SCREW, timber: C24}"
STUDS = "[skim 2.5, plasterboard 12.5, stud 89]"
SHEAR = "{read: declaration, shear: 0.6 kN, as: recommended, in: timber}"


def screws(screw: str, papers: str = SHEAR) -> str:
    return plan(fixing=NOGGINS.replace("SCREW", screw), papers=papers, made_of=STUDS)


def test_a_thick_screw_in_timber_is_pulled_out_by_the_formula() -> None:
    found = row(screws("{diameter: 6, length: 100, thread: 50}"), KIND)
    assert (found.thread, found.counted) == (50, pytest.approx(2**0.9))
    assert found.pull_may / 1000 == pytest.approx(1617 / 1.5, rel=1e-3)


def test_a_unit_that_is_only_said_to_be_over_another_hangs_too() -> None:
    order = "{B1: base 600}}, upper: {against: north, order: {W1: wall 600 over B1}"
    text = plan(order=order, kind="{height: 720, depth: 281}").replace("underside: 1400, ", "")
    text = text.replace("kinds: {", "kinds: {base: {height: 720, depth: 560}, ").replace(
        "for: wall units", "for: upper"
    )
    assert [found.subject.name for found in rows(text, KIND)] == ["W1"]
    assert {found.subject.name.split()[0] for found in rows(text, "drill point")} == {"W1"}
    assert [found.subject.name for found in rows(text, "standing unit")] == ["B1"]


def test_a_thin_screw_needs_the_strength_its_maker_tested() -> None:
    found = row(screws("5 x 80"), KIND)
    assert to_find(found, "pull_may") == {"/stated/rail/withdrawal"}
    tested = SHEAR.replace("shear", "withdrawal: 12 N/mm2, density: 350 kg/m3, shear")
    found = row(screws("5 x 80", tested), KIND)
    assert found.pull_may / 1000 == pytest.approx(12 * 5 * 47 * 0.6 / 1.3 / 1.5)


def test_a_screw_that_does_not_reach_the_timber_carries_nothing_known() -> None:
    found = row(screws("6 x 30"), KIND)
    assert "/fixings/rail/screw/length" in to_find(found, "reserve")


ROUND = st.floats(10, 200, allow_nan=False).map(lambda value: round(value, 1))


@settings(max_examples=25, deadline=None)
@given(ROUND, ROUND)
def test_more_load_never_improves(one: float, other: float) -> None:
    less, more = sorted((one, other))
    assert reserve(kind=WALL.replace("load: 60", f"load: {more}")) <= reserve(
        kind=WALL.replace("load: 60", f"load: {less}")
    )


@settings(max_examples=25, deadline=None)
@given(st.integers(1, 6), st.integers(1, 6))
def test_fewer_fixings_never_improve(one: int, other: int) -> None:
    few, many = sorted((one, other))
    at_top = HANGERS.replace("hangers", "top, each: {}, down: 60")
    assert reserve(fixing=at_top.replace("{}", str(few), 1)) <= reserve(fixing=at_top.replace("{}", str(many), 1))


@settings(max_examples=25, deadline=None)
@given(st.integers(70, 120), st.integers(70, 120))
def test_less_embedment_never_improves(one: int, other: int) -> None:
    tested = SHEAR.replace("shear", "withdrawal: 12 N/mm2, density: 350 kg/m3, shear")
    short, long = sorted((one, other))
    assert row(screws(f"5 x {short}", tested), KIND).reserve <= row(screws(f"5 x {long}", tested), KIND).reserve


@settings(max_examples=25, deadline=None)
@given(st.integers(100, 3000))
def test_a_change_of_units_alters_nothing(newtons: int) -> None:
    inches = WALL.replace("height: 720", "height: 0.72 m").replace("60 kg/m", f"{60 / 0.45359237 * 0.0254} lb/in")
    pounds = PAPERS.replace("0.9 kN", f"{newtons / (0.45359237 * 9.80665)} lbf")
    metric = reserve(papers=PAPERS.replace("0.9 kN", f"{newtons} N"))
    assert reserve(papers=pounds, kind=inches) == pytest.approx(metric, rel=1e-9)
