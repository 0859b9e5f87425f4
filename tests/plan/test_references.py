"""Every name that refers to something names one thing of the plan; no place depends on itself."""

from __future__ import annotations

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.plans import HEAD, Wrong, merged, plan, problems
from validator.plan.load import load
from validator.plan.problems import Unreadable

ROOM = """\
layers: {river wall: [brick 215], slab: [concrete 120]}
walls: {river: {made of: river wall}, lane: {}, stairs: {}, yard: {}}
floor: {made of: slab}
kinds: {door: {height: 715}, hung: {height: 705}, double socket: {plate: 147 x 87}}
runs:
  river run: {against: river, order: {F1: filler rest, B1: door 450, dishwasher: 600, B2: door 900}}
  lane run: {against: lane, from: fronts of river run, order: {B3: door 300, B4: door 600}}
  hung units: {against: river, order: {W1: hung 450 over B1, W2: hung 300 right of W1}}
appliances: {hob: {is: gas hob, in: B4}, hood: {over: hob, supply: C1}, dishwasher: {supply: S1}, sink: {in: B2}}
points: {S1: double socket over B1, S2: double socket in B2, C1: double socket right of S1}
circuits: {ring: {serves: all sockets and C1}}
people: {electrician: {trade: electrics}}
"""
LINE = 3 + ROOM.count("\n") + 1
"""The line on which stands what a test adds to the room."""


def changed(before: str, after: str) -> list[Wrong]:
    assert ROOM.count(before) == 1
    return problems(ROOM.replace(before, after))


def test_a_plan_whose_names_all_refer_to_something_has_no_problems() -> None:
    assert problems(ROOM) == []


@pytest.mark.parametrize(
    ("before", "after", "wrong"),
    [
        (
            "made of: river wall",
            "made of: rivr wall",
            Wrong(5, "no layers of this plan is called `rivr wall`", "river wall"),
        ),
        ("made of: slab", "made of: slap", Wrong(6, "no layers of this plan is called `slap`", "slab")),
        ("against: lane", "against: laen", Wrong(10, "no wall of this plan is called `laen`", "lane")),
        (
            "fronts of river run",
            "fronts of river rum",
            Wrong(10, "no run of this plan is called `river rum`", "river run"),
        ),
        ("fronts of river run", "900 from rivre", Wrong(10, "no wall of this plan is called `rivre`", "river")),
        ("over B1, W2", "over B11, W2", Wrong(11, "no thing in a run or appliance of this plan is called `B11`", "B1")),
        ("right of W1", "left of w3", Wrong(11, "no thing in a run of this plan is called `w3`", "")),
        ("in: B4", "in: C4", Wrong(12, "no thing in a run of this plan is called `C4`", "")),
        ("over: hob", "over: hop", Wrong(12, "no appliance or thing in a run of this plan is called `hop`", "hob")),
        ("supply: C1", "supply: ringg", Wrong(12, "no point or circuit of this plan is called `ringg`", "ring")),
        (
            "socket in B2",
            "socket in sinc",
            Wrong(13, "no thing in a run or appliance of this plan is called `sinc`", "sink"),
        ),
        ("right of S1", "right of S11", Wrong(13, "no point of this plan is called `S11`", "S1")),
        ("sockets and C1", "sockets and C11", Wrong(14, "no point or appliance of this plan is called `C11`", "C1")),
    ],
)
def test_a_name_of_nothing_is_said_with_its_line_and_the_nearest(before: str, after: str, wrong: Wrong) -> None:
    assert changed(before, after) == [wrong]


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("worktops: {top: {on: river rnu}}", Wrong(LINE, "no run of this plan is called `river rnu`", "river run")),
        (
            "fixings: {rail: {for: hung unit}}",
            Wrong(LINE, "no run, thing in a run or appliance of this plan is called `hung unit`", "hung units"),
        ),
        ("coatings: {new: {walls: [river, lain]}}", Wrong(LINE, "no wall of this plan is called `lain`", "lane")),
        ("work: {paint: {}, tidy: {after: pant}}", Wrong(LINE, "no task of this plan is called `pant`", "paint")),
        (
            "work: {paint: {by: electrican}}",
            Wrong(LINE, "no person of this plan is called `electrican`", "electrician"),
        ),
        (
            "built: {S3: {cable: 18 deep}}",
            Wrong(LINE, "no thing in a run, point or appliance of this plan is called `S3`", ""),
        ),
        ("floors: {cork: {runs: yard to laen}}", Wrong(LINE, "no wall of this plan is called `laen`", "lane")),
        ("floors: {cork: {runs: lengthways}}", Wrong(LINE, "`lengthways` does not say which way the boards run", "")),
        (
            "stated: {hobb: {read: leaflet}}",
            Wrong(LINE, "nothing in this plan is called `hobb`, so that nobody knows what its maker states", "hob"),
        ),
        (
            "agreed: {hob-to-sink: {at: hob, reason: beam, by: electrican}}",
            Wrong(LINE, "no person of this plan is called `electrican`", "electrician"),
        ),
    ],
)
def test_sections_that_name_things_are_looked_at(text: str, wrong: Wrong) -> None:
    assert problems(f"{ROOM}{text}\n") == [wrong]


@pytest.mark.parametrize(
    "text",
    [
        "work: {paint: {by: householder}}",
        "coatings: {new: {walls: all}}",
        "fixings: {rail: {for: hung units and B1}}",
        "worktops: {top: {on: River-Run}}",
        "built: {B2: {legs: 152}, S1: {cable: 18 deep}, sink: {seen: 2026-08-19}}",
    ],
)
def test_names_that_do_refer_are_taken(text: str) -> None:
    assert problems(f"{ROOM}{text}\n") == []


def test_the_householder_is_known_without_being_listed_and_umlauts_are_compared_after_nfc() -> None:
    assert problems("people: {Mu\u0308ller: {}}\nwork: {paint: {by: [Müller, householder]}}\n") == []


def test_names_in_a_section_that_is_left_out_are_not_known_to_be_wrong() -> None:
    assert problems("runs: {r: {against: river, order: {B1: filler 20}}}\ncoatings: {new: {walls: lane}}\n") == []


def test_names_in_a_section_that_is_said_to_be_empty_are_wrong() -> None:
    assert problems("points: none\nappliances: none\ncircuits: {ring: {serves: S1}}\n") == [
        Wrong(6, "no point or appliance of this plan is called `S1`", "")
    ]


def test_a_section_that_cannot_be_read_does_not_make_every_name_wrong() -> None:
    assert problems("walls: [river, lane]\nruns: {r: {against: river, order: {B1: filler 20}}}\n") == [
        Wrong(4, "`walls` cannot be `[…]`", "")
    ]


def test_a_place_along_a_wall_counts_from_a_wall_that_meets_it() -> None:
    assert changed("double socket in B2", "{is: double socket, wall: lane, along: 90 from yard}") == [
        Wrong(13, "the yard wall does not meet the lane wall", "")
    ]


@pytest.mark.parametrize("corner", ["river-lane", "lane-river", "yard river", "River_Lane"])
def test_a_corner_is_where_two_neighbouring_walls_meet(corner: str) -> None:
    assert changed("300 right of W1", f"300 in {corner}") == []


def test_walls_that_do_not_meet_make_no_corner() -> None:
    assert [each[:2] for each in changed("300 right of W1", "300 in river-stairs")] == [
        (11, "`river-stairs` is no corner of the room")
    ]


def test_a_corner_misspelt_is_said_with_the_nearest() -> None:
    assert changed("300 right of W1", "300 in river-lame") == [
        Wrong(11, "`river-lame` is no corner of the room", "river-lane")
    ]


def test_the_plan_gives_the_walls_of_a_corner_in_their_order() -> None:
    (found,) = plan(ROOM).rooms.values()
    assert [found.corner("lane-river"), found.corner("river yard"), found.corner("river-stairs")] == [
        ("river", "lane"),
        ("yard", "river"),
        None,
    ]


TWO_B1 = ROOM.replace("B3: door 300, B4", "B1: door 300, B4")


def test_a_name_that_stands_in_two_runs_has_to_say_which() -> None:
    assert problems(TWO_B1) == [
        Wrong(11, "`B1` stands in several runs", ""),
        Wrong(13, "`B1` stands in several runs", ""),
    ]


def test_a_departure_at_a_name_that_stands_in_two_runs_has_to_say_which() -> None:
    departure = "agreed: {hob-to-sink: {at: B1, reason: beam, by: householder}}\n"
    assert [wrong.message for wrong in problems(TWO_B1 + departure)] == ["`B1` stands in several runs"] * 3
    assert len(problems(TWO_B1 + departure.replace("at: B1", "at: lane run / B1"))) == 2


def test_the_run_and_the_name_tell_which() -> None:
    text = TWO_B1.replace("over B1, W2", "over river run / B1, W2").replace("over B1, S2", "over lane run / b1, S2")
    found = plan(text)
    assert [found.unit("river run / B1"), found.unit("lane RUN / b1"), found.unit("b2"), found.unit("B1")] == [
        ("river run", "B1"),
        ("lane run", "B1"),
        ("river run", "B2"),
        None,
    ]


def test_the_rest_of_a_run_can_be_taken_only_once() -> None:
    assert changed("B2: door 900}", "B2: door 900, F2: gap rest}") == [
        Wrong(9, "two things in river run take the rest, so that neither has a width", "")
    ]


@pytest.mark.parametrize("width", ["0", "0 to 600"])
def test_a_unit_or_an_opening_has_a_width(width: str) -> None:
    assert changed("B2: door 900}", f"B2: door {width}}}") == [Wrong(9, "B2 has no width", "")]


def test_a_filler_may_come_to_nothing() -> None:
    assert changed("B2: door 900}", "B2: door 900, F2: filler 0}") == []


def test_an_opening_close_to_the_name_of_an_appliance_without_a_place_is_a_slip() -> None:
    assert changed("dishwasher: 600", "dishwaser: 600") == [
        Wrong(9, "`dishwaser` is an opening, and no appliance has that name", "dishwasher")
    ]


def test_an_opening_for_an_appliance_that_the_plan_does_not_have_yet_is_fine() -> None:
    assert changed("dishwasher: 600", "dishwasher: 600, freezer: 600") == []


@pytest.mark.parametrize(
    ("before", "after", "message"),
    [
        (
            "450 over B1",
            "450 left of W2",
            "the place of W1 depends on itself: W1 left of W2, W2 right of W1",
        ),
        (
            "B1: door 450",
            "B1: door 450 over W2",
            "the place of B1 depends on itself: B1 over W2, W2 right of W1, W1 over B1",
        ),
        (
            "fronts of river run",
            "fronts of lane run",
            "the place of lane run depends on itself: lane run starts at the fronts of lane run",
        ),
        (
            "run: {against: river, order: {F1",
            "run: {against: river, from: fronts of lane run, order: {F1",
            (
                "the place of river run depends on itself: river run starts at the fronts of lane run, "
                "lane run starts at the fronts of river run"
            ),
        ),
        (
            "units: {against: river",
            "units: {against: river, tops: level with W2",
            "the height of hung units depends on itself: hung units is level with one in hung units",
        ),
        (
            "double socket over B1, S2",
            "double socket left of C1, S2",
            "the place of S1 depends on itself: S1 left of C1, C1 right of S1",
        ),
        (
            "{is: gas hob, in: B4}",
            "{is: gas hob, over: hood}",
            "the place of hob depends on itself: hob over hood, hood over hob",
        ),
    ],
)
def test_a_circle_of_places_is_shown_once(before: str, after: str, message: str) -> None:
    assert [each.message for each in changed(before, after)] == [message]


def test_a_thing_follows_the_one_before_it_and_so_closes_a_circle() -> None:
    wrong = changed("W1: hung 450 over B1, W2: hung 300 right of W1", "W1: hung 4 left of W2, W2: hung 3")
    assert [each.message for each in wrong] == ["the place of W1 depends on itself: W1 left of W2, W2 follows W1"]


def test_a_circle_names_the_places_of_all_its_steps() -> None:
    text = "points:\n  A: double socket left of B\n  B: double socket left of C\n  C: double socket left of A\n"
    with pytest.raises(Unreadable) as refused:
        load(merged(f"{HEAD}kinds: {{double socket: {{up: 3}}}}\n{text}"))
    (circle,) = refused.value.problems
    assert (circle.place.line, [place.line for place in circle.also]) == (6, [7, 8])


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(min_value=0, max_value=7), min_size=8, max_size=8))
def test_circles_are_found_where_networkx_finds_them(targets: list[int]) -> None:
    """Each point hangs on one other, or on none where it would hang on itself; networkx counts the circles."""
    text = "kinds: {socket: {up: 3}}\npoints:\n" + "".join(
        f"  S{at}: socket" + ("\n" if to == at else f" left of S{to}\n") for at, to in enumerate(targets)
    )
    graph = networkx.DiGraph([(at, to) for at, to in enumerate(targets) if to != at])
    assert len(problems(text)) == len(list(networkx.simple_cycles(graph)))


@pytest.mark.parametrize(
    ("part", "wrong"),
    [
        ("rivr wall from 200", Wrong(5, "no layers of this plan is called `rivr wall`", "river wall")),
        ("river wall from 900 to 200", Wrong(5, "a part from 900 to 200 ends before it begins", "")),
        ("river wall from 4000", Wrong(5, "a part from 4000 begins where the wall has ended", "")),
    ],
)
def test_a_part_of_a_wall_lies_on_it_and_is_made_of_layers_there_are(part: str, wrong: Wrong) -> None:
    assert changed("lane: {}", f"lane: {{length: 4000, parts: [{part}]}}") == [wrong]


def test_parts_whose_ends_are_not_certain_may_touch() -> None:
    part = "{made of: river wall, from: 900 to 1000, to: 950 to 1100}"
    assert changed("lane: {}", f"lane: {{length: 4000, parts: [{part}]}}") == []


def test_a_name_with_a_word_before_it_is_told_the_name() -> None:
    found = problems(ROOM + "gas: {valve: in B4}\n")
    assert [each.nearest for each in found] == ["B4"]
