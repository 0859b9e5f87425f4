"""Elevations: coordinates times the scale are the figures that are judged; what is not known is dashed and named."""

from __future__ import annotations

import cProfile
import json

import pytest

from tests.measures.plans import site
from tests.reporting.drawings.svg import kinds, overlapping, read, rectangle, texts
from validator.measures.site import Site
from validator.reporting.drawings.canvas import Drawing
from validator.reporting.drawings.elevations import elevations

GALLEY = """
heights from: bare floor
ceiling: 2400
walls: {north: {length: 3000}, east: {length: 2400}, south: {length: 3000}, west: {length: 2400}}
floors: none
openings: {hatch: {wall: north, along: 1900 from west, size: 700 w x 600 h, up: 1100}}
kinds:
  base: {height: 720, depth: 560, front: 19, void behind: 40}
  wall: {height: 600, depth: 300, front: 19, hangers: {down: 35, in: 55}}
  worktop: {thickness: 38, depth: 640, gap at wall: 0}
  socket: {plate: 86 x 86, up: 150 above worktop, cable: straight up}
runs:
  galley:
    against: north
    legs: 150 at high spot
    order: {B1: base 600, B2: base 800, dishwasher: 600, F1: filler rest}
  shelf: {against: north, tops: 2100 from bare floor, order: {W1: wall 500 over B2}}
worktops: {top: {on: galley}}
appliances: {sink: {in: B2, cut-out: 780 x 480}}
points: {S1: {is: socket, wall: north, along: 300 from west}}
fixings: none
routes:
  old cable:
    {is: cable, wall: north, from: {along: 2700 from west, up: 300}, to: {along: 2700 from west, up: 2400}}
"""


def north(text: str = GALLEY, **wanted: object) -> Drawing:
    return one(site(text), **wanted)


def one(of: Site, **wanted: object) -> Drawing:
    (drawing,) = elevations(of, ["north"], **wanted)  # type: ignore[arg-type]
    return drawing


def test_units_stand_where_they_are_judged() -> None:
    drawing = north()
    assert rectangle(drawing, "B1") == (0, 150, 600, 870)
    assert rectangle(drawing, "B2") == (600, 150, 1400, 870)
    assert rectangle(drawing, "W1") == (600, 1500, 1100, 2100)
    assert rectangle(drawing, "dishwasher") == (1400, 0, 2000, 870)
    assert rectangle(drawing, "north wall") == (0, 0, 3000, 2400)


def test_the_worktop_points_and_openings_stand_where_they_are_judged() -> None:
    drawing = north()
    assert rectangle(drawing, "top") == (0, 870, 3000, 908)
    assert rectangle(drawing, "S1") == (257, 1015, 343, 1101)
    assert rectangle(drawing, "hatch") == (1900, 1100, 2600, 1700)


def test_every_width_and_height_is_lettered() -> None:
    found = texts(north())
    for figure in ("600", "800", "3000", "1900", "700", "worktop 908", "tops 2100", "S1 1058", "S1 300"):
        assert figure in found, figure


def test_drill_points_are_crosses_with_their_place_and_height() -> None:
    drawing = north()
    assert {"+ 655", "+ 1045", "+ 2065"} <= set(texts(drawing))
    assert {stroke.points for stroke in drawing.strokes if stroke.of == "W1 left hanger"}


def test_a_route_that_nobody_has_seen_says_so() -> None:
    drawing = north()
    assert kinds(drawing, "old cable") == {"route"}
    assert any("old cable" in gap and "nobody has seen it" in gap for gap in drawing.unknown)


def test_what_is_not_known_is_dashed_and_named() -> None:
    drawing = north(GALLEY.replace("height: 720, ", "").replace("ceiling: 2400", ""))
    assert kinds(drawing, "B1") == {"unknown"}
    assert "height of B1" in drawing.unknown
    assert any("ceiling" in gap for gap in drawing.unknown)
    assert "?" in texts(drawing)


def test_a_wall_without_a_length_is_drawn_as_far_as_its_things_go() -> None:
    drawing = north(GALLEY.replace("north: {length: 3000}", "north: {}"))
    assert rectangle(drawing, "B2") == (600, 150, 1400, 870)
    assert "length of the north wall" in "; ".join(drawing.unknown)


def test_a_length_with_doubt_shows_both_ends() -> None:
    found = texts(north(GALLEY.replace("north: {length: 3000}", "north: {length: [3002, 2998]}")))
    assert "2998 to 3002" in found
    assert any(text.endswith("998 to 1002") for text in found)  # the filler that takes the rest


def test_a_slope_bends_the_top_of_the_wall() -> None:
    sloping = GALLEY.replace(
        "ceiling: 2400", "ceiling: {height: 2400, slopes: {west: {from: 1500, sloping length: 1500}}}"
    )
    drawing = north(sloping)
    (outline,) = [stroke for stroke in drawing.strokes if stroke.of == "north wall"]
    x0, y0 = drawing.origin
    corners = [((x - x0) * drawing.scale, (y0 - y) * drawing.scale) for x, y in outline.points]
    assert corners[1] == pytest.approx((0, 1500))
    assert corners[2] == pytest.approx((1200, 2400))  # 1500² = 900² + 1200²
    assert corners[3] == pytest.approx((3000, 2400))


def test_an_american_plan_is_lettered_in_sixteenths_and_american_words() -> None:
    plan = """
heights from: bare floor
ceiling: 96
walls: {north: {length: 120-1/16, blocking: [{up: 84, size: 3-1/2 x 1-1/2}]}}
floors: none
kinds: {base: {height: 30, depth: 24}, worktop: {thickness: 1-1/4, depth: 25-1/2}}
runs: {bench: {against: north, legs: 4-1/2 at high spot, order: {B1: base 36, B2: base 30-3/8, F1: filler rest}}}
countertops: {top: {on: bench}}
"""
    found = texts(one(site(plan, "project: {title: Chandlery, country: US-ME, lengths in: in}")))
    assert {"36", "30-3/8", "120-1/16", "countertop 35-3/4", "cabinet box 34-1/2", "ceiling 96", "blocking 84"} <= set(
        found
    )


def test_an_island_is_drawn_from_all_sides_its_fronts_as_one_faces_them() -> None:
    island = """
heights from: bare floor
walls: {north: {length: 4000}, east: {length: 4000}, south: {length: 4000}, west: {length: 4000}}
floors: none
kinds: {base: {height: 720, depth: 560, front: 19, void behind: 0}, worktop: {thickness: 40, depth: 900}}
runs:
  galley: {against: north, order: {B1: base 600}}
  island: {faces: north, aisle: 1200 to galley, along: 1000 from west, legs: 150 at high spot,
    order: {B2: base 800, B3: base 400}}
worktops: {slab: {on: island, past: {ends: 20}}}
"""
    fronts, back, *ends = elevations(site(island), ["island"])
    assert rectangle(fronts, "B2") == (0, 150, 800, 870)
    assert rectangle(back, "B2") == (400, 150, 1200, 870)
    assert rectangle(back, "slab") == (-20, 870, 1220, 910)
    assert [end.title for end in ends] == ["Island, left end", "Island, right end"]
    assert "579" in texts(ends[0])
    # At the left end one has the fronts at one's right, at the right end at one's left; the top is 900 deep.
    assert rectangle(ends[0], "B2") == (900 - 579, 150, 900, 870)
    assert rectangle(ends[1], "B3") == (0, 150, 579, 870)


def test_what_is_asked_for_is_strong_and_the_rest_light() -> None:
    drawing = north(strong=["s1"])
    assert kinds(drawing, "S1") == {"edge"}
    assert kinds(drawing, "B1") == {"light"}


def test_findings_have_the_numbers_of_the_report() -> None:
    drawing = north(findings={"B2": [7, 12]})
    assert {"7", "12"} <= set(texts(drawing))
    assert list(overlapping(drawing)) == []


HOSTILE = [
    "<script>alert(1)</script>",
    "a\"b'c&d",
    "\u05e9\u05dc\u05d5\u05dd \u202eabc",
    "x" * 200,
    "\U0001f9c1\U0001f468\u200d\U0001f373 tea",
    "]]>",
]
SHAPES = {"svg", "title", "desc", "g", "path", "rect", "text"}


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_stay_text(name: str) -> None:
    quoted = json.dumps(name, ensure_ascii=False)
    drawing = north(GALLEY.replace("B1", quoted).replace("S1", quoted).replace("hatch", quoted), findings={name: [3]})
    assert {each.tag.rpartition("}")[2] for each in read(drawing).iter()} <= SHAPES
    assert "\u202e" not in drawing.svg()
    assert list(overlapping(drawing)) == []


def test_a_long_run_costs_in_step_with_its_things() -> None:
    few, many = (calls(number) for number in (60, 600))
    assert many < 13 * few


def calls(units: int) -> int:
    """How many functions are called to draw a wall with so many units."""
    order = ", ".join(f"U{number}: base 300" for number in range(units))
    longer = GALLEY.replace("B1: base 600", order).replace("length: 3000", f"length: {units * 300 + 1500}")
    of = site(longer)
    profile = cProfile.Profile()
    profile.runcall(elevations, of, ["north"])
    return sum(entry.callcount for entry in profile.getstats())
