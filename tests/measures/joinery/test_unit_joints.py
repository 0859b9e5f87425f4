"""Screws that join the neighbours of a run."""

from __future__ import annotations

import pytest

from tests.measures.plans import known, rows, to_find

RUN = """
walls: {{north: {{length: 4000}}}}
kinds: {{base: {{height: 720, sides: 18}}, tall: {{height: 1970, sides: 16}}, framed: {{height: 720, stiles: 38}}}}
runs: {{sink run: {{against: north, joined: {joined}, order: {{{order}}}}}}}
{screws}
"""
JOINING = "screws: {joining: {for: units, screw: 4 x 30}}"


def joints(order: str, screws: str = JOINING, joined: str = "4 screws") -> list[object]:
    return list(rows(RUN.format(joined=joined, order=order, screws=screws), "screwed joint of a run"))


def test_a_screw_passes_one_side_and_ends_in_the_other() -> None:
    (joint,) = joints("B1: base 600, B2: base 600")
    assert (joint.left_behind, joint.held) == (6, 12)  # type: ignore[attr-defined]


def test_joints_that_are_alike_make_one_row_for_their_run() -> None:
    (joint,) = joints("B1: base 600, B2: base 600, B3: base 500, B4: base 500")
    assert joint.subject.context == "sink run, and 2 more joints alike"  # type: ignore[attr-defined]


def test_a_screw_is_driven_from_the_thicker_of_two_sides() -> None:
    (joint,) = joints("T1: tall 600, B1: base 600")
    assert (joint.first, joint.second, joint.height) == (18, 16, 720)  # type: ignore[attr-defined]


def test_face_frames_are_joined_through_their_stiles() -> None:
    (joint,) = joints("B1: framed 600, B2: framed 600", "screws: {joining: {for: cabinets, screw: 4 x 64}}")
    assert (joint.framed, joint.held, joint.left_behind) == (True, 26, 12)  # type: ignore[attr-defined]


def test_bolts_and_connectors_are_no_screws() -> None:
    assert joints("B1: base 600, B2: base 600", joined="4 connectors") == []
    assert joints("B1: base 600, B2: base 600", joined="4 bolts") == []


def test_a_count_alone_is_of_screws_where_screws_are_for_units() -> None:
    assert len(joints("B1: base 600, B2: base 600", joined="4")) == 1
    assert joints("B1: base 600, B2: base 600", "", joined="4") == []


def test_nobody_says_which_screws_join_units() -> None:
    (joint,) = joints("B1: base 600, B2: base 600", "")
    assert to_find(joint, "held") == {"/screws"}  # type: ignore[arg-type]


def test_the_thickness_of_sides_is_asked_of_the_kind_once() -> None:
    text = RUN.format(joined="4 screws", order="B1: base 600, B2: base 600", screws=JOINING).replace(", sides: 18", "")
    (joint,) = rows(text, "screwed joint of a run")
    assert to_find(joint, "held") == {"/kinds/base/sides"}


@pytest.mark.parametrize(("thing", "left"), [("P1: panel 18", 6), ("F1: filler 20", 8)])
def test_a_panel_and_a_filler_are_screwed_from_the_unit(thing: str, left: float) -> None:
    (joint,) = joints(f"B1: base 600, {thing}", "screws: {ends: {for: panels and fillers, screw: 4 x 30}}")
    assert joint.left_behind == left  # type: ignore[attr-defined]


def test_a_filler_that_takes_the_rest_is_as_wide_as_it_comes_out() -> None:
    (joint,) = joints("B1: base 3900, F1: filler rest", "screws: {ends: {for: fillers, screw: 4 x 30}}")
    assert known(joint, "second").value == 100  # type: ignore[arg-type]


def test_a_glued_panel_needs_no_screws() -> None:
    assert joints("B1: base 600, P1: panel 18", "adhesives: {grab: {for: panels, on: chipboard}}") == []


def test_openings_and_gaps_part_units() -> None:
    assert joints("B1: base 600, G1: gap 600, B2: base 600") == []


def test_a_longer_screw_never_leaves_more_before_it_comes_through() -> None:
    left = [
        joints("B1: base 600, B2: base 600", f"screws: {{j: {{for: units, screw: 4 x {long}}}}}")[0].left_behind  # type: ignore[attr-defined]
        for long in (25, 30, 35, 40)
    ]
    assert left == sorted(left, reverse=True)
