"""What a fixing meets on its way through a wall besides what carries it."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.measures.plans import ends, gaps, row, to_find, working
from tests.standards.by_hand import judged, met
from validator.judging.outcomes import Result
from validator.measures.rows import Why

KIND = "fixing in a wall"


def plan(layers: str, fixing: str, wall: str = "", more: str = "") -> str:
    return f"""
layers: {{wall layers: [{layers}]}}
walls: {{north: {{made of: wall layers{wall}}}}}
kinds: {{wall: {{height: 700, depth: 320}}}}
runs: {{upper run: {{against: north, underside: 1500 from bare floor, order: {{W1: wall 450}}}}}}
fixings: {{rail: {{for: upper run, through: 2, {fixing}}}}}
{more}
"""


FRAME = "plug: frame fixing 8 x 100, hole: 8 x 110"


def test_packers_count_with_what_the_fixing_passes() -> None:
    packed = row(plan("skim 3, brick 215", f"packers: 5, {FRAME}"), KIND)
    assert packed.embedment == 100 - 2 - 5 - 3
    assert working(packed, "embedment") == [(100, "long"), (7, "fixture and packers"), (3, "skim")]


def test_packers_make_the_hole_in_the_wall_reach_less_past_the_tip_and_not_the_other_way() -> None:
    plain, packed = (row(plan("skim 3, brick 215", words + FRAME), KIND) for words in ("", "packers: 5, "))
    assert packed.hole_past_tip == plain.hole_past_tip + 5
    assert packed.left_behind == plain.left_behind


@pytest.mark.parametrize(
    ("layers", "has_void"),
    [
        ("skim 3, plasterboard 12.5, dabs 15, brick 102", True),
        ("insulated plasterboard 62.5, brick 102", True),
        ("plasterboard 12.5, battens void 25, brick 102", True),
        ("plaster 13, brick 102, cavity 50, brick 102", False),
    ],
)
def test_a_void_counts_where_it_lies_before_what_carries(layers: str, has_void: bool) -> None:
    assert row(plan(layers, FRAME), KIND).has_void is has_void


def test_a_membrane_is_pierced_where_the_tip_comes_behind_it() -> None:
    behind = row(plan("plaster 13, brick 102, membrane, brick 102", FRAME), KIND)
    assert behind.has_membrane
    assert behind.clear_of_membrane == 2 + 13 + 102 - 100
    before = row(plan("plasterboard 12.5, vapour barrier, brick 102", FRAME), KIND)
    assert before.clear_of_membrane == 2 + 12.5 - 100


def test_what_lies_behind_a_layer_nobody_knows_may_hold_a_membrane_or_a_flue() -> None:
    found = row(plan("plaster 13, brick 102, to find out by builder", FRAME), KIND)
    assert found.embedment == 100 - 2 - 13
    for field in ("has_membrane", "has_flue"):
        assert to_find(found, field) == {"/layers/wall layers/2/material"}


def test_a_flue_is_as_far_as_all_that_lies_before_it() -> None:
    found = row(plan("plaster 10 to 15, brick 102, flue", FRAME), KIND)
    assert ends(found, "clear_of_flue") == (2 + 10 + 102 - 100, 2 + 15 + 102 - 100)
    assert ends(found, "before_flue") == (112, 117)


BREAST = """
layers: {{masonry: [plaster 13, brick 102]}}
walls:
  north: {{made of: masonry, length: 1500}}
  cheek: {{made of: masonry, length: 400}}
  breast: {{made of: masonry, length: 1200{flue}}}
  other cheek: {{made of: masonry, length: 400}}
  south: {{made of: masonry, length: 1500}}
corners: {{cheek-breast: outside, breast-other cheek: outside}}
kinds: {{wall: {{height: 700, depth: 320}}}}
runs: {{upper run: {{against: breast, underside: 1500 from bare floor, order: {{W1: wall 450}}}}}}
fixings: {{rail: {{for: upper run, through: 2, plug: frame fixing 8 x 60}}}}
"""


def test_a_wall_that_stands_out_into_the_room_may_hold_a_flue() -> None:
    assert to_find(row(BREAST.format(flue=""), KIND), "has_flue") == {"/walls/breast/flue"}


@pytest.mark.parametrize("said", ["none", "disused"])
def test_a_chimney_breast_whose_flue_is_out_of_use_holds_none_to_keep_clear_of(said: str) -> None:
    assert row(BREAST.format(flue=f", flue: {said}"), KIND).has_flue is False


def test_a_flue_in_use_that_no_layer_shows_is_a_question() -> None:
    found = row(BREAST.format(flue=", flue: in use"), KIND)
    assert found.has_flue
    assert [gap.why for gap in gaps(found, "clear_of_flue")] == [Why.UNCLEAR]


def test_boards_are_counted_before_what_carries() -> None:
    layers = "plasterboard 15, plasterboard 15, timber stud 89, plasterboard 15, plasterboard 15"
    screw = "into: studs, screw: 5 x 80"
    assert row(plan(layers, screw), KIND).boards == 2
    assert row(plan("double drywall 25, timber stud 89", screw), KIND).boards == 2


@pytest.mark.parametrize(
    ("said", "separating"), [("", False), (", separating: yes", True), (", separating: no", False)]
)
def test_a_wall_says_whether_it_separates_homes(said: str, separating: bool) -> None:
    assert row(plan("plaster 13, brick 215", FRAME, said), KIND).separating is separating


def test_whether_a_wall_separates_homes_may_be_still_to_find_out() -> None:
    found = row(plan("plaster 13, brick 215", FRAME, ", separating: to find out by owner"), KIND)
    assert to_find(found, "separating") == {"/walls/north/separating"}


@pytest.mark.parametrize(
    ("stud", "into"), [("metal stud 70", "studs"), ("timber stud 89", "stud"), ("stud 89", "studs")]
)
def test_studs_are_met_by_their_last_word(stud: str, into: str) -> None:
    found = row(plan(f"plasterboard 12.5, {stud}", f"into: {into}, screw: 5 x 80"), KIND)
    assert found.embedment == 80 - 2 - 12.5


def test_the_face_of_a_noggin_counts_where_there_are_noggins() -> None:
    wall = ", studs: {every: 400, first: 0, face: 38}, noggins: [{up: 2000 from bare floor, size: 95 x 45}]"
    found = row(plan("plasterboard 12.5, stud 89", "into: noggins, screw: 5 x 80", wall), KIND)
    assert found.stud_edge == 47.5


def test_the_face_of_studs_nobody_measured_is_to_find_out() -> None:
    found = row(plan("plasterboard 12.5, stud 89", "into: studs, screw: 5 x 80"), KIND)
    assert to_find(found, "stud_edge") == {"/walls/north/studs"}


@pytest.mark.parametrize(
    ("layers", "fixing", "field"),
    [
        ("plaster, brick 215", FRAME, "embedment"),
        ("plaster 13, brick", FRAME, "left_behind"),
        ("plaster 13, brick 102, flue", "plug: frame fixing 8", "clear_of_flue"),
        ("tile 8, plaster 13, brick 215", FRAME, "tile_edge"),
        ("plasterboard 12, dabs 10, brick 102", FRAME, "spacers"),
    ],
)
def test_nothing_is_assumed_of_what_is_left_out(layers: str, fixing: str, field: str) -> None:
    assert to_find(row(plan(layers, fixing), KIND), field)


RULE = "wall-unit-fixing-depth"
lengths = st.integers(min_value=40, max_value=200)
layer = st.integers(min_value=0, max_value=60)


def outcome(length: float, covering: float, unit: str = "mm") -> Result:
    def said(value: float) -> str:
        return f"{value / 25.4:.6f} in" if unit == "in" else f"{value} mm"

    layers = f"plaster {said(covering)}, brick {said(215)}"
    fixing = f"plug: {{type: frame fixing, diameter: 8 mm, length: {said(length)}}}"
    found = row(plan(layers, fixing, more="stated: {rail: {read: box, embedment: none}}"), KIND)
    return judged("GB", RULE, found).result


@settings(max_examples=40, deadline=None)
@given(length=lengths, less=st.integers(min_value=0, max_value=100), covering=layer, more=layer)
def test_a_shorter_fixing_or_more_before_the_wall_is_never_better(
    length: int, less: int, covering: int, more: int
) -> None:
    better, worse = outcome(length, covering), outcome(max(length - less, 1), covering + more)
    assert not (worse is Result.MET and better is not Result.MET)


@settings(max_examples=40, deadline=None)
@given(length=lengths, covering=layer)
def test_inches_and_millimetres_are_judged_alike(length: int, covering: int) -> None:
    assert outcome(length, covering, "in") is outcome(length, covering)


@settings(max_examples=30, deadline=None)
@given(thin=layer, thick=layer, length=lengths)
def test_a_layer_of_uncertain_thickness_is_judged_at_its_worse_end(thin: int, thick: int, length: int) -> None:
    low, high = min(thin, thick), max(thin, thick)
    layers = f"plaster {low} to {high}, brick 215"
    fixing = f"plug: frame fixing 8 x {length}, hole: 8 x 90"
    found = row(plan(layers, fixing, more="stated: {rail: {read: box, embedment: none}}"), KIND)
    assert met("GB", RULE, found) is (outcome(length, high) is Result.MET)
    assert ends(found, "left_behind")[0] == low + 215 - 90


def test_what_a_fixing_goes_into_is_named_by_the_nearest_layer() -> None:
    found = row(plan("plasterboard 12.5, timber stud 89", "into: plasterbord, screw: 5 x 80"), KIND)
    (gap,) = gaps(found, "base")
    assert gap.detail == "no layer of the wall is plasterbord; perhaps plasterboard was meant"


def test_studs_of_walls_that_are_not_in_the_plan_are_to_find_out() -> None:
    text = plan("stud 89", "into: studs, screw: 5 x 80").replace("walls: {north: {made of: wall layers}}", "")
    assert to_find(row(text, KIND), "stud_edge") == {"/walls"}
