"""Studs and noggins behind hung units."""

from __future__ import annotations

import pytest

from tests.measures.plans import row, rows, to_find


def wall(studs: str, unit: str = "W1: wall 600", more: str = "") -> str:
    return f"""
heights from: bare floor
ceiling: 2400
walls: {{north: {{length: 3000, studs: {studs}{more}}}}}
kinds: {{wall: {{height: 720, depth: 300, hangers: {{down: 30, in: 40}}}}}}
points: none
runs: {{units: {{against: north, tops: 2050 from bare floor, order: {{F1: {{is: gap, width: 500}}, {unit}}}}}}}
"""


@pytest.mark.parametrize(
    ("studs", "behind"),
    [
        ("{every: 400, first: 200}", 2),  # 600 and 1000
        ("{every: 600, first: 400}", 1),  # 1000
        ("{every: 400, first: 100}", 1),  # 900; 500 lies behind its side
        ("{found: [120, 530, 955, 1360]}", 2),
        ("{found: [120, 505, 1105, 1400]}", 0),
    ],
)
def test_studs_count_whose_middle_lies_between_the_sides(studs: str, behind: int) -> None:
    assert row(wall(studs), "hung unit on studs").studs_behind == behind


def test_studs_beyond_the_last_one_found_are_not_known() -> None:
    assert to_find(row(wall("{found: [120, 530]}"), "hung unit on studs"), "studs_behind") == {
        "/walls/north/studs/found"
    }


def test_a_first_stud_to_find_out_leaves_the_number_open() -> None:
    text = wall("{every: 400, first: to find out}")
    assert to_find(row(text, "hung unit on studs"), "studs_behind") == {"/walls/north/studs/first"}


@pytest.mark.parametrize("studs", ["{every: 400 to 420, first: 600}", "{found: [620, 1070 to 1090, 1500]}"])
def test_a_stud_that_may_lie_behind_a_side_does_not_count(studs: str) -> None:
    """The second may stand at 1020, or at 1090, and the unit has its sides at 500 to 518 and 1082 to 1100."""
    behind = row(wall(studs), "hung unit on studs").studs_behind
    assert behind == (2 if "every" in studs else 1)
    assert row(wall(studs.replace("420", "490")), "hung unit on studs").studs_behind == 1


def test_the_noggin_nearest_to_the_hole_counts() -> None:
    """The hangers sit at 2050 − 30; the nearer noggin has its middle 8 below, and a face of 95."""
    text = wall("{every: 400, first: 200}", more=", noggins: [{up: 1400, size: 95 x 45}, {up: 2012, size: 95 x 45}]")
    assert [each.inside for each in rows(text, "hanger in a noggin")] == [pytest.approx(39.5)] * 2


def test_holes_into_studs_and_holes_for_something_else_need_no_noggin() -> None:
    text = wall("{every: 400, first: 200}", more=", noggins: [{up: 1400, size: 95 x 45}]")
    text += "drill: {pipe: {wall: north, along: 100 from left, up: 300}}\n".replace("from left", "from west")
    text = text.replace("walls: {", "walls: {west: {length: 2000}, ")
    assert len(rows(text, "hanger in a noggin")) == 2
    studs = "fixings: {rail: {for: units, at: hangers, into: studs, through: 2, screw: 5 x 80}}\n"
    assert rows(text + studs, "hanger in a noggin") == []


def test_where_noggins_are_let_in_the_studs_do_not_count() -> None:
    text = wall("{every: 400, first: 200}", more=", noggins: [{up: 2012, size: 95 x 45}]")
    assert rows(text, "hung unit on studs") == []


@pytest.mark.parametrize(("into", "judged"), [("studs", 1), ("noggins", 0)])
def test_noggins_let_in_for_something_else_leave_screws_into_studs_to_their_studs(into: str, judged: int) -> None:
    text = wall("{every: 400, first: 200}", more=", noggins: [{up: 1400, size: 95 x 45}]")
    rail = f"fixings: {{rail: {{for: units, at: hangers, into: {into}, through: 2, screw: 5 x 80}}}}\n"
    assert len(rows(text + rail, "hung unit on studs")) == judged


def test_american_screws_go_into_blocking() -> None:
    text = wall("{every: 400, first: 200}", more=", made of: partition, noggins: [{up: 2012, size: 95 x 45}]")
    layers = "layers: {partition: [plasterboard 12.5, stud 70]}\n"
    fixing = "fixings: {s: {for: units, into: blocking, through: 2, screw: 5 x 80}}"
    assert row(f"{text}{layers}{fixing}", "fixing in a wall").base == "noggin"


def test_a_screw_into_noggins_bites_into_the_noggin_behind_the_layers_before_the_studs() -> None:
    """80 long, through a rail of 2 and board of 12.5: 65.5 go in, and 45 of that is noggin."""
    text = wall("{every: 400, first: 200}", more=", made of: partition, noggins: [{up: 2012, size: 95 x 45}]")
    layers = "layers: {partition: [plasterboard 12.5, stud 70]}\n"
    fixing = "fixings: {s: {for: units, into: noggins, through: 2, screw: 5 x 80}}"
    found = row(f"{text}{layers}{fixing}", "fixing in a wall")
    assert (found.base, found.base_thickness) == ("noggin", 45)
