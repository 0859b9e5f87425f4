"""What open doors and drawers leave in an aisle, and doors that swing before a hob."""

from __future__ import annotations

from typing import Any

import pytest

from tests.measures.plans import rows, to_find

ROOM = "walls: {north: {length: 2400}, east: {length: 2500}, south: {length: 2400}, west: {length: 2500}}\n"
KINDS = "kinds: {base: {height: 720, depth: 560, front: 20, void behind: 50, handle: 30, opens: nothing}}\n"
RUNS = (
    "runs: {a: {against: north, order: {B1: base 600, dishwasher: 600, B2: base 600}}, "
    "b: {against: south, order: {B3: base 2400}}}\n"
)
MACHINE = "appliances: {dishwasher: {body: 598 w x 815 h x 550 d, door: drops, open: 600, handle: 30}}\n"
HOB = "runs: {a: {against: north, order: {B1: base 1200, B2: base 600}}}\nappliances: {hob: {is: gas hob, in: B2}}\n"


def door(swings: str = "in, hinge: left", along: str = "600 from east") -> str:
    return f"openings: {{hall door: {{wall: south, along: {along}, size: 762 w x 1981 h, swings: {swings}}}}}\n"


def found(text: str, kind: str = "open door in an aisle") -> dict[str, Any]:
    return {each.subject.name: each for each in rows(text, kind)}


def test_what_a_door_that_drops_leaves_is_the_way_to_the_fronts_across_without_it() -> None:
    machine = found(ROOM + KINDS + RUNS + MACHINE)["dishwasher"]
    assert (machine.left, machine.to, machine.sort) == (2500 - 2 * 630 - 600, "B3", "machine")


def test_drawers_run_out_with_their_handle() -> None:
    kinds = KINDS.replace("nothing", "drawers")
    assert found(ROOM + kinds + RUNS + MACHINE)["B1"].left == 2500 - 2 * 630 - 560 - 30


def test_a_door_on_hinges_reaches_out_as_far_as_it_is_wide() -> None:
    machine = MACHINE.replace("dishwasher", "fridge").replace("drops, open: 600", "left")
    assert found(ROOM + KINDS + RUNS.replace("dishwasher", "fridge") + machine)["fridge"].left == pytest.approx(640)


def test_a_worktop_across_counts_as_far_as_it_comes() -> None:
    top = "worktops: {top: {on: b, depth: 700}}"
    assert found(ROOM + KINDS + RUNS + MACHINE + top)["dishwasher"].left == 2500 - 630 - 700 - 600


def test_what_is_far_off_leaves_no_less_than_the_reach() -> None:
    machine = found(ROOM.replace("2500", "4000") + KINDS + RUNS + MACHINE)["dishwasher"]
    assert (machine.left, machine.to) == (700, "anything")


def test_a_door_nobody_measured_is_asked_for() -> None:
    machine = found(ROOM + KINDS + RUNS + MACHINE.replace(", open: 600", ""))["dishwasher"]
    assert to_find(machine, "left") == {"/appliances/dishwasher/open"}


def test_an_island_nobody_placed_may_lie_across() -> None:
    island = RUNS.replace("}}}\n", "}}, isle: {faces: north, aisle: 900, order: {B4: base 600}}}\n")
    assert to_find(found(ROOM + KINDS + island + MACHINE)["dishwasher"], "left") == {"/runs/isle/along"}


def test_a_door_that_swings_over_the_place_before_a_hob_comes_near_its_front() -> None:
    """Hinged 200 mm beside the hob, 762 mm wide: its edge passes 735 mm from the wall across."""
    place = found(ROOM.replace("2500", "1800").replace("2400", "2600") + KINDS + HOB + door(), "place before a hob")[
        "hob"
    ]
    assert place.clear == pytest.approx(1800 - 630 - (762**2 - 200**2) ** 0.5, abs=1)
    assert place.door == "hall door"


def test_a_door_beside_a_hob_is_not_before_it() -> None:
    text = ROOM.replace("2500", "1800").replace("2400", "2600") + KINDS + HOB + door(along="1700 from east")
    assert found(text, "place before a hob")["hob"].clear == 700


def test_a_door_that_swings_out_is_before_no_hob() -> None:
    assert found(ROOM + KINDS + HOB + door("out"), "place before a hob")["hob"].door == "anything"


def test_the_hinge_is_asked_for_where_one_way_comes_nearer() -> None:
    text = ROOM.replace("2500", "1800").replace("2400", "2600") + KINDS + HOB + door("in")
    assert to_find(found(text, "place before a hob")["hob"], "clear") == {"/openings/hall door/hinge"}
