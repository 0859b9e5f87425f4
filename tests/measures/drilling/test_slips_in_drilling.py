"""Slips in points, routes and holes: each is found at its place, and the rest is judged all the same."""

from __future__ import annotations

from collections import Counter

import pytest

from tests.measures.plans import PROJECT, library, row, rows, site, to_find
from validator.judging.apply import Judgement, judge_site
from validator.judging.books import read_rulebooks
from validator.judging.outcomes import Result
from validator.plan.files import read_plan
from validator.plan.load import load
from validator.plan.problems import Unreadable
from validator.reference.folder import rules_folder

ROOM = """
heights from: bare floor
layers: {brick: [plaster 13, brick 102]}
ceiling: 2400
runs: none
floors: none
worktops: none
appliances: none
fixings: none
circuits: {oven circuit: {device: 16 A, rcd: 100 mA}}
walls:
  north: {made of: brick, length: 3000, beyond: none}
  east: {made of: brick, length: 2000, beyond: none}
  south: {made of: brick, length: 3000, beyond: none}
  west: {made of: brick, length: 2000, beyond: none}
kinds: {double socket: {plate: 146 x 86, cable: straight up}}
"""
POINT = "point on a wall"
SOUND = "  sound: {wall: south, along: 1500 from east, up: 1500, hole: 8 x 60}\n"
CABLE = "is: cable, wall: east, from: '900 from north, 300', to: '900 from north, 2000', known by: photo, deep: 12"


def judged(text: str) -> Judgement:
    return judge_site(site(ROOM + text), read_rulebooks(rules_folder(), library(), "GB-ENG"))


def said(text: str, result: Result) -> set[tuple[str, str]]:
    """The rules about drilling that come out so, each with the thing it is about."""
    books = ("drill point", "hole near a route", "hole seen from the other face", "route in a wall", "point on a wall")
    found = judged(text).outcomes
    return {(each.rule.name, each.subject.name) for each in found if each.rule.each in books and each.result is result}


def problems(text: str) -> list[tuple[str, str]]:
    """What a plan that cannot be read is told, each with the nearest name there is."""
    with pytest.raises(Unreadable) as unreadable:
        load(read_plan(["-"], f"dryfit: 1\n{PROJECT}\n{ROOM}{text}".encode))
    return [(problem.message, problem.nearest) for problem in unreadable.value.problems]


@pytest.mark.parametrize("place", ["along: 3100 from west, up: 1100", "along: 900 from west, up: 2450"])
def test_a_point_off_its_wall_is_found_there(place: str) -> None:
    wrong = said(f"points: {{S1: {{is: double socket, wall: north, {place}}}}}\n", Result.NOT_MET)
    assert ("point-on-its-wall", "S1") in wrong


def test_a_point_that_touches_the_end_of_its_wall_is_on_it() -> None:
    found = row(ROOM + "points: {S1: {is: double socket, wall: north, along: 2927 from west, up: 1100}}", POINT)
    assert found.inside_wall == 0


def test_a_route_that_leaves_its_wall_is_found_and_the_others_are_judged() -> None:
    routes = f"routes:\n  R1: {{{CABLE.replace('2000', '2500')}}}\n  R2: {{{CABLE}}}\npoints: none\n"
    wrong = {name for rule, name in said(routes, Result.NOT_MET) if rule == "route-on-its-wall"}
    assert wrong == {"R1"}
    assert ("route-on-its-wall", "R2") in said(routes, Result.MET)


def test_a_route_from_a_place_to_the_same_place_is_a_slip() -> None:
    routes = f"routes: {{R1: {{{CABLE.replace('2000', '300')}}}}}\npoints: none\n"
    assert ("route-longer-than-a-spot", "R1") in said(routes, Result.NOT_MET)


def test_a_route_of_one_corner_asks_for_the_other() -> None:
    text = f"{ROOM}routes: {{R1: {{is: cable, wall: east, from: '900 from north, 300'}}}}\n"
    assert to_find(row(text, "route in a wall"), "length") == {"/routes/R1/to"}


@pytest.mark.parametrize(("depth", "behind"), [(115, 0), (116, -1)])
def test_a_hole_deeper_than_its_wall_is_found(depth: int, behind: int) -> None:
    text = f"drill: {{D1: {{wall: north, along: 900 from west, up: 900, hole: 8 x {depth}}}}}\npoints: none\n"
    assert row(ROOM + text, "hole seen from the other face").left_behind == behind
    assert (("given-hole-not-deeper-than-its-wall", "D1") in said(text, Result.NOT_MET)) is (behind < 0)


def test_a_hole_in_no_wall_is_refused_with_what_to_write() -> None:
    assert [message for message, _ in problems("drill: {D1: {along: 9 from west, up: 9}}")] == [
        "a hole to drill without a wall"
    ]


@pytest.mark.parametrize(
    ("slip", "meant"),
    [
        ("drill: {D1: {wall: nroth, along: 9 from west, up: 9}}", "north"),
        ("drill: {D1: {wall: north, along: 9 from wst, up: 9}}", "west"),
        ("routes: {R1: {is: cabel, wall: north}}", "cable"),
        ("routes: {R1: {is: cable, wall: noth}}", "north"),
        ("routes: {R1: {is: cable, wall: north, known by: phto}}", "photo"),
        ("routes: {R1: {is: cable, wall: north, from: '9 from wets, 9'}}", "west"),
        ("routes: {R1: {is: cable, wall: north, circuit: oven circus}}", "oven circuit"),
    ],
)
def test_a_name_that_there_is_not_is_answered_with_the_nearest(slip: str, meant: str) -> None:
    ((_, nearest),) = problems(slip)
    assert nearest == meant


def test_every_slip_of_a_plan_is_told_at_once() -> None:
    slips = "drill: {D1: {wall: nroth, along: 9 from west, up: 9}, D2: {wall: north, along: -9 from west, up: 9}}\n"
    assert len(problems(slips + "routes: {R1: {is: cabel, wall: north}}\n")) == 3


def test_beside_a_hole_off_its_wall_the_sound_one_is_judged() -> None:
    holes = f"drill:\n{SOUND}  wild: {{wall: south, along: 3001 from east, up: 1500, hole: 8 x 60}}\npoints: none\n"
    assert ("hole-on-its-wall", "wild") in said(holes, Result.NOT_MET)
    assert ("hole-on-its-wall", "sound") in said(holes, Result.MET)


def test_a_row_of_holes_ends_with_the_first_beyond_its_wall() -> None:
    holes = "drill: {D: {wall: north, along: 600 from west, up: 900, every: 1000, number: 1000000}}\npoints: none\n"
    assert [each.along for each in rows(ROOM + holes, "drill point")] == [600, 1600, 2600, 3600]
    wrong = {name for rule, name in said(holes, Result.NOT_MET) if rule == "hole-on-its-wall"}
    assert wrong == {"D 4"}


def test_holes_of_a_row_that_lie_nowhere_apart_are_not_known() -> None:
    holes = "drill: {D: {wall: north, along: 600 from west, up: 900, every: 0, number: 3}}\npoints: none\n"
    first, second, third = rows(ROOM + holes, "drill point")
    assert first.along == 600
    assert to_find(second, "along") == to_find(third, "along") == {"/drill/D/every"}


def test_two_thousand_given_holes_are_all_judged() -> None:
    holes = "".join(
        f"  D{number}: {{wall: north, along: {number} from west, up: {900 + number % 7}, hole: 8 x 60}}\n"
        for number in range(1, 2001)
    )
    outcomes = judged(f"drill:\n{holes}points: none\nroutes: none\n").outcomes
    judged_ = Counter(each.result for each in outcomes if each.rule.name == "hole-on-its-wall")
    assert judged_ == {Result.MET: 2000}


def test_a_shallow_cable_asks_for_its_circuit_or_for_metal_about_it() -> None:
    rule = "shallow-cable-behind-a-residual-device"
    for more, result in (
        ("", Result.NOT_KNOWN),
        (", circuit: oven circuit", Result.NOT_KNOWN),
        (", circuit: oven circuit, protected: no", Result.NOT_MET),
        (", circuit: oven circuit, protected: yes", Result.MET),
        (", protected: yes", Result.MET),
    ):
        assert (rule, "R1") in said(f"routes: {{R1: {{{CABLE}{more}}}}}\npoints: none\n", result), more


def test_a_cable_deep_in_masonry_is_not_asked_for_its_circuit() -> None:
    deep = f"routes: {{R1: {{{CABLE.replace('deep: 12', 'deep: 50')}}}}}\npoints: none\n"
    for result in Result:
        assert ("shallow-cable-behind-a-residual-device", "R1") not in said(deep, result)
