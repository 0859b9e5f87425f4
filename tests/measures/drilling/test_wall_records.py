"""The record of walls against the drawing, and holes beside what is on record."""

from __future__ import annotations

import pytest

from tests.measures.plans import PROJECT, ends, row, rows, to_find

PLAN = """
heights from: bare floor
layers:
  lined brick: [skim 3, plasterboard 12.5, dabs 10 to 25, brick 102]
  partition: [plasterboard 12.5, stud 70, plasterboard 12.5]
ceiling: 2400
walls:
  north: {made of: lined brick, length: 3000}
  east: {length: 2500}
  south: {made of: partition, length: 3000, studs: {every: 400, first: 200}, noggins: [{up: 2000, size: 95 x 45}]}
  west: {length: 2500}
kinds: {wall: {height: 720, depth: 300, hangers: {down: 30, in: 40}}}
points: none
runs: {units: {against: north, tops: 2050 from bare floor, order: {F1: {is: gap, width: 500}, W1: wall 600}}}
"""


def plan(*records: str, more: str = "") -> str:
    return PLAN + more + "built:\n" + "".join(f"  {record}\n" for record in records)


@pytest.mark.parametrize(("dabs", "off"), [(33, 8), (25, 0), (18, -7), (8, 2), (5, 5)])
def test_a_finish_is_off_the_drawing_only_outside_the_range_drawn(dabs: int, off: float) -> None:
    hole = f"hole: {{wall: north, layers: [skim 3, plasterboard 12.5, dabs {dabs}, brick]}}"
    assert row(plan(hole), "trial hole in a wall").off == pytest.approx(off)


@pytest.mark.parametrize(
    ("layers", "same"),
    [
        ("[skim 3, plasterboard 12.5, dabs 20, brick]", True),
        ("[skim 3, plasterboard 12.5, dabs 20]", True),
        ("[skim 3, plasterboard 12.5, dabs 20, aerated block]", False),
        ("[lime plaster 25, brick]", False),
    ],
)
def test_a_hole_meets_what_is_drawn_as_far_as_it_goes(layers: str, same: bool) -> None:
    assert row(plan(f"hole: {{wall: north, layers: {layers}}}"), "trial hole in a wall").same is same


def test_a_hole_that_met_nothing_that_carries_leaves_the_finish_open() -> None:
    found = row(plan("hole: {wall: north, layers: [skim 3, plasterboard 12.5]}"), "trial hole in a wall")
    assert to_find(found, "off") == {"/built/hole/layers"}


def test_a_wall_that_nobody_drew_has_nothing_to_be_held_against() -> None:
    assert rows(plan("hole: {wall: east, layers: [lime plaster 25, brick]}"), "trial hole in a wall") == []


@pytest.mark.parametrize("kind", ["trial hole in a wall", "stud or noggin found"])
def test_without_walls_in_the_plan_there_is_no_drawing_to_hold_a_record_against(kind: str) -> None:
    records = "built: {hole: {wall: north, layers: [skim 3]}, studs: {wall: south, studs: {found: [203, 588]}}}\n"
    assert rows(f"points: none\n{records}", kind) == []


def test_a_record_says_what_was_found_and_whether_units_hang_there() -> None:
    text = plan("one: {wall: north, known by: tapping, studs: {found: [200]}}", "two: {wall: south, failed: 60 deep}")
    found = rows(text, "record of a wall")
    assert [(each.what, each.carries) for each in found] == [("studs", True), ("failed hole", False)]
    assert to_find(found[1], "known_by") == {"/built/two/known by"}


def test_a_record_without_a_day_or_a_photo_is_of_unknown_age() -> None:
    found = row(plan("one: {wall: north, known by: tapping, studs: {found: [200]}}"), "record of a wall")
    assert to_find(found, "age") | to_find(found, "has_photo") == {"/built/one/seen", "/built/one/photo"}


def test_a_sweep_counts_from_the_last_day_on_which_cables_are_laid() -> None:
    work = "work: {order: usual, first fix electrics: {by: householder, takes: 2 days, on: 2027-03-08}}\n"
    text = plan("sweep: {wall: north, detector: nothing one way, seen: 2027-03-11}", more=work)
    project = PROJECT.replace("}", ", starts: 2027-03-08}")
    found = row(text, "sweep with a detector", project)
    assert (found.swept, found.after_cables) == ("one way", 2 * 24 * 3600)


def test_a_sweep_without_a_day_is_not_known_to_be_late_enough() -> None:
    found = row(plan("sweep: {wall: north, detector: nothing both ways}"), "sweep with a detector")
    assert (found.has_first_fix, to_find(found, "seen")) == (False, {"/built/sweep/seen"})


def test_the_stud_found_furthest_from_any_drawn_counts() -> None:
    text = plan("studs: {wall: south, studs: {found: [203, 588, 1001]}}")
    found = row(text, "stud or noggin found")
    assert (found.found, found.drawn, found.apart) == (588, 600, 12)


def test_noggins_found_are_held_against_those_drawn() -> None:
    found = row(plan("backing: {wall: south, noggins: [{up: 2016, size: 95 x 45}]}"), "stud or noggin found")
    assert (found.what, found.apart) == ("noggins", 16)


def test_the_failed_hole_nearest_to_a_new_one_counts() -> None:
    """The left hanger comes to 540, 2020."""
    text = plan(
        "near: {wall: north, along: 570 from west, up: 1980, failed: 60 deep}",
        "far: {wall: north, along: 1500 from west, up: 1980, failed: '90 deep, filled'}",
    )
    left, right = rows(text, "hole near a failed one")
    assert (left.record, left.distance, left.deep, left.filled) == ("near", pytest.approx(50), 60, False)
    assert right.record == "far"


def test_a_failed_hole_of_unknown_place_may_be_anywhere() -> None:
    found = rows(plan("lost: {wall: north, up: 1980, failed: 60 deep}"), "hole near a failed one")
    assert to_find(found[0], "distance") == {"/built/lost/along"}


def test_what_a_detector_did_not_show_is_nowhere_near_a_hole() -> None:
    text = plan("sweep: {wall: north, detector: nothing both ways}", "stud: {wall: north, detector: timber}")
    assert rows(text, "hole near what a detector showed") == []


def test_a_place_in_doubt_counts_at_its_nearer_end() -> None:
    text = plan("cable: {wall: north, along: 400 to 500 from west, up: 2020, detector: live cable one way}")
    assert ends(rows(text, "hole near what a detector showed")[0], "distance") == pytest.approx((40, 140))
