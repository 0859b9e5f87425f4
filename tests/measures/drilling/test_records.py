"""What was found in a wall wins over what is drawn of it."""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, gaps, row, rows, site, to_find

WALLS = """
heights from: bare floor
layers:
  lined brick: [skim 3, plasterboard 12.5, dabs 10 to 25, brick 102]
  partition: [plasterboard 12.5, stud 70, plasterboard 12.5]
ceiling: 2400
walls:
  north: {made of: lined brick, length: 3000PARTS}
  east: {length: 2500}
  south: {length: 3000}
  west: {length: 2500}
kinds: {wall: {height: 720, depth: 300, hangers: {down: 30, in: 40}}}
points: none
runs: {units: {against: north, tops: 2050 from bare floor, order: {F1: {is: gap, width: 500}, W1: wall 600}}}
fixings: {rail: {for: units, at: hangers, through: 2, plug: frame fixing 8 x 120, hole: 8 x 110}}
"""


def plan(*records: str, parts: str = "") -> str:
    return WALLS.replace("PARTS", parts) + "built:\n" + "".join(f"  {record}\n" for record in records)


def test_layers_that_a_trial_hole_met_win_over_those_drawn() -> None:
    """120 − 2 rail − 3 skim − 12.5 board − 31 dabs."""
    found = row(plan("hole: {wall: north, layers: [skim 3, plasterboard 12.5, dabs 31, brick]}"), "fixing in a wall")
    assert ends(found, "embedment") == pytest.approx((71.5, 71.5))


def test_the_working_says_what_was_found() -> None:
    found = row(plan("hole: {wall: north, layers: [skim 3, plasterboard 12.5, dabs 31, brick]}"), "fixing in a wall")
    labels = [part.label for part in found.known["coverings"].parts]
    assert labels == ["skim as found", "plasterboard as found", "dabs as found"]


def test_several_holes_count_from_the_thinnest_to_the_thickest() -> None:
    holes = ["one: {wall: north, layers: [skim 3, plasterboard 12.5, dabs 18, brick]}"]
    holes += ["two: {wall: north, layers: [skim 3, plasterboard 12.5, dabs 27, brick]}"]
    assert ends(row(plan(*holes), "fixing in a wall"), "embedment") == pytest.approx((75.5, 84.5))


def test_the_last_layer_a_hole_met_is_as_thick_as_drawn() -> None:
    found = row(plan("hole: {wall: north, layers: [lime plaster 26, brick]}"), "fixing in a wall")
    assert ends(found, "base_thickness") == (102, 102)


def test_holes_that_met_other_materials_are_a_question() -> None:
    holes = ["one: {wall: north, layers: [skim 3, plasterboard 12.5, dabs 18, brick]}"]
    holes += ["two: {wall: north, layers: [lime plaster 26, brick]}"]
    found = row(plan(*holes), "fixing in a wall")
    assert to_find(found, "embedment") == {"/built/two/layers"}
    assert "one met other layers" in gaps(found, "embedment")[0].detail


def test_a_hole_counts_for_the_part_of_the_wall_it_was_drilled_in() -> None:
    parts = ", parts: [partition from 2000]"
    hole = "hole: {wall: north, along: 2400 from west, layers: [lime plaster 26, stud 70]}"
    found = row(plan(hole, parts=parts), "fixing in a wall")
    assert [part.label for part in found.known["coverings"].parts] == ["skim", "plasterboard", "dabs"]


def test_layers_that_nobody_looked_into_stay_as_drawn() -> None:
    hole = "hole: {wall: north, known by: guess, layers: [skim 3, plasterboard 12.5, dabs 31, brick]}"
    assert ends(row(plan(hole), "fixing in a wall"), "embedment") == pytest.approx((77.5, 92.5))


def test_another_wall_of_the_same_make_up_stays_as_drawn() -> None:
    text = plan("hole: {wall: south, layers: [skim 3, plasterboard 12.5, dabs 31, brick]}")
    assert ends(row(text, "fixing in a wall"), "embedment") == pytest.approx((77.5, 92.5))


def test_studs_found_last_win() -> None:
    text = plan(
        "first look: {wall: north, studs: {found: [700, 900, 1300]}, seen: 2027-01-01}",
        "second look: {wall: north, studs: {found: [820, 1300]}, seen: 2027-02-01}",
    )
    assert row(text, "hung unit on studs").studs_behind == 1


def test_noggins_as_found_win_over_those_drawn() -> None:
    text = plan("backing: {wall: north, noggins: [{up: 2012, size: 95 x 45}]}")
    assert [each.inside for each in rows(text, "hanger in a noggin")] == [pytest.approx(39.5)] * 2
    assert rows(text, "hung unit on studs") == []


def test_a_record_of_no_wall_is_of_a_thing_of_the_plan() -> None:
    assert site(plan("W1: {along: 520 from west}")).records.all() == []
