"""Floor plans and details: everything where the plane has it; what opens sweeps; corners in which runs meet."""

from __future__ import annotations

import pytest

from tests.measures.plans import site
from tests.reporting.drawings.svg import kinds, overlapping, rectangle, texts
from validator.reporting.drawings.canvas import Drawing, Kind
from validator.reporting.drawings.corner_details import corner_details
from validator.reporting.drawings.floor_plans import floor_plans

ROOM = """
heights from: bare floor
walls: {north: {length: 3600}, east: {length: 2600}, south: {length: 3600}, west: {length: 2600}}
openings:
  door: {wall: south, along: 500 from west, size: 762 w x 1981 h, swings: in, hinge: right}
floors: none
kinds:
  base: {height: 720, depth: 560, front: 19, void behind: 40, opens: door}
  wall: {height: 600, depth: 300, front: 19, void behind: 0, opens: door, hangers: {down: 35, in: 55}}
  worktop: {thickness: 38, depth: 640, gap at wall: 0}
runs:
  galley: {against: north, legs: 150 at high spot, order: {B1: base 600 left, B2: base 800 right, F1: gap rest}}
  shelf: {against: north, tops: 2100 from bare floor, order: {W1: wall 500 left over B2}}
  leg: {against: east, from: 600 from north, legs: 150 at high spot, order: {B3: base 600}}
worktops: {top: {on: galley}}
appliances: {sink: {in: B2, cut-out: 700 x 480, from front: 60}}
"""


def plan(text: str = ROOM, **wanted: object) -> Drawing:
    (drawing,) = floor_plans(site(text), **wanted)  # type: ignore[arg-type]
    return drawing


def test_units_stand_where_the_plane_has_them_the_north_wall_above() -> None:
    # the origin is the south-west corner of what is drawn
    drawing = plan()
    assert rectangle(drawing, "B1") == (0, 2600 - 619, 600, 2600)
    assert rectangle(drawing, "B2") == (600, 2600 - 619, 1400, 2600)
    assert rectangle(drawing, "B3") == (3600 - 619, 2600 - 1200, 3600, 2600 - 600)
    assert rectangle(drawing, "W1") == (600, 2600 - 319, 1100, 2600)


def test_cut_outs_lie_so_far_from_the_front_of_the_worktop() -> None:
    assert rectangle(plan(), "cut-out of sink") == (650, 2600 - 580, 1350, 2600 - 100)


def test_a_joint_crosses_its_worktop_from_back_to_front() -> None:
    joined = ROOM.replace("{on: galley}", "{on: galley, joint: butt at 600 from west}")
    assert rectangle(plan(joined), "butt of top") == (600, 2600 - 640, 600, 2600)


def test_what_hangs_is_dashed_and_what_stands_is_not() -> None:
    drawing = plan()
    assert kinds(drawing, "W1") == {"above"}
    assert kinds(drawing, "B1") == {"edge"}


def test_points_are_marked_at_their_wall_those_above_one_another_once() -> None:
    points = "points: {S1: {is: double socket, wall: north, along: 900 from west, up: 1100 from bare floor}, "
    points += "C1: {is: connection unit, wall: north, along: 900 from west, up: 400 from bare floor}}"
    drawing = plan(ROOM + points, strong=["S1", "C1"])
    left, _, right, high = rectangle(drawing, "S1 C1")
    assert ((left + right) / 2, high) == (900, 2600)
    assert kinds(drawing, "S1 C1") == {"edge"}
    assert "S1 C1" in texts(drawing)
    assert kinds(plan(ROOM + points, strong=["B1"]), "S1 C1") == {"light"}


def test_doors_sweep_a_quarter_turn_as_wide_as_they_are() -> None:
    drawing = plan()
    radii = {round(stroke.arc * drawing.scale) for stroke in drawing.strokes if stroke.arc}
    assert {600, 800, 500, 762} <= radii


def test_a_door_of_which_the_hinge_is_not_known_gets_a_question_mark() -> None:
    drawing = plan()
    assert "hinge side of B3" in drawing.unknown
    assert "?" in texts(drawing)


def test_walls_and_openings_are_dimensioned() -> None:
    found = texts(plan())
    for figure in ("north wall 3600", "east wall 2600", "door 762", "500", "2338", "600", "800"):
        assert figure in found, figure


def test_no_texts_overlap_and_findings_are_numbered() -> None:
    drawing = plan(findings={"B1": [4], "B2": [4, 11], "W1": [2]})
    assert {"4", "11", "2"} <= set(texts(drawing))
    assert list(overlapping(drawing)) == []


def test_a_room_of_which_a_wall_is_not_known_is_not_drawn() -> None:
    assert floor_plans(site(ROOM.replace("east: {length: 2600}", "east: {}"))) == []


def test_an_island_is_set_out_from_two_walls() -> None:
    island = """
heights from: bare floor
walls: {north: {length: 4000}, east: {length: 4000}, south: {length: 4000}, west: {length: 4000}}
kinds: {base: {height: 720, depth: 560, front: 19, void behind: 0, opens: nothing}}
runs:
  galley: {against: north, order: {B1: base 600}}
  island: {faces: north, aisle: 1200 to galley, along: 1000 from west, order: {B2: base 800}}
"""
    drawing = plan(island)
    found = texts(drawing)
    assert {"1000", "2200", "1200"} <= set(found)
    assert rectangle(drawing, "B2") == (1000, 4000 - 579 - 1200 - 579, 1800, 4000 - 579 - 1200)


def test_the_cut_out_in_the_top_of_an_island_lies_over_its_unit() -> None:
    """The sink unit is the first from the left of whoever faces the fronts, and so stands at the east."""
    drawing = plan("""
heights from: bare floor
walls: {north: {length: 4000}, east: {length: 4000}, south: {length: 4000}, west: {length: 4000}}
kinds: {base: {height: 720, depth: 560, front: 19, void behind: 0, opens: nothing}, worktop: {thickness: 38}}
runs:
  galley: {against: north, order: {B1: base 600}}
  island: {faces: north, aisle: 1200 to galley, along: 1000 from west, order: {B2: base 800, B3: base 400}}
worktops: {slab: {on: island, depth: 600, past: {left: 20, right: 150}}}
appliances: {sink: {in: B2, cut-out: 700 x 480, from front: 60}}
""")
    assert rectangle(drawing, "B2")[::2] == (1400, 2200)
    front = 4000 - 579 - 1200
    assert rectangle(drawing, "cut-out of sink") == (1450, front - 60 - 480, 2150, front - 60)


def test_a_corner_in_which_two_runs_meet_has_a_detail() -> None:
    meeting = ROOM.replace("F1: gap rest", "F1: gap 1200, B4: base 1000 left")
    (detail,) = corner_details(site(meeting))
    assert detail.title == "Corner north-east from above"
    found = texts(detail)
    assert {"B4 1000", "B3 600", "600", "B4 619 deep"} <= set(found)
    assert list(overlapping(detail)) == []


def test_a_detail_shows_only_what_lies_in_it() -> None:
    meeting = ROOM.replace("F1: gap rest", "F1: gap 1200, B4: base 1000 left")
    (detail,) = corner_details(site(meeting))
    assert {stroke.of for stroke in detail.strokes} & {"B1", "B2"} == set()
    drawn = [stroke for stroke in detail.strokes if stroke.kind is Kind.EDGE and stroke.of]
    xs = [(x - detail.origin[0]) * detail.scale for stroke in drawn for x, _ in stroke.points]
    assert min(xs) == pytest.approx(-1250)
    assert max(xs) <= 50.1


def test_chains_at_a_corner_that_sticks_into_the_room_keep_clear_of_each_other() -> None:
    l_shaped = """
heights from: bare floor
walls:
  north: {length: 3000}
  east: {length: 2000}
  step: {length: 500}
  nib: {length: 500}
  south: {length: 2500}
  west: {length: 2500}
corners: {step-nib: outside}
openings:
  hatch: {wall: step, along: 50 from east, size: 300 w x 300 h, up: 900}
  slot: {wall: nib, along: 50 from step, size: 300 w x 300 h, up: 900}
"""
    drawing = plan(l_shaped)
    assert {"step wall 500", "nib wall 500", "hatch 300", "slot 300"} <= set(texts(drawing))
    assert list(overlapping(drawing)) == []
