"""How clear doors and drawers open: corners, aisles, hinges beside walls, doors of the room, and what is not known."""

from __future__ import annotations

import math
from collections.abc import Iterable
from random import Random
from typing import Any

import pytest

from tests.measures.plans import ends, known, row, rows, to_find

DOOR, DRAWERS, MACHINE = "door of a unit", "drawers of a unit", "door of a machine"
ROOM = "walls: {north: {length: 4000}, east: {length: 3000}, south: {length: 4000}, west: {length: 3000}}\n"
BASE = "base: {height: 720, depth: 560, front: 20, void behind: 50, handle: 35}"
KINDS = f"kinds: {{{BASE}, door: {{like: base, opens: door}}, drawers: {{like: base, opens: drawers}}}}\n"


def _corner(post: object = 50, walls: str = ROOM, kinds: str = KINDS) -> str:
    """Drawers and a post in the north run, a post and a door in the run round the corner."""
    return (
        walls
        + kinds
        + "runs:\n"
        + f"  a: {{against: north, order: {{F1: filler 2120, B1: drawers 600, B2: drawers 600, P1: post {post}}}}}\n"
        + f"  b: {{against: east, from: fronts of a, order: {{P2: post {post}, B3: door 500 right}}}}\n"
    )


def _of(text: str, kind: str, name: str) -> Any:
    (found,) = [found for found in rows(text, kind) if found.subject.name == name]
    return found


def test_a_drawer_in_a_corner_passes_the_handle_round_it() -> None:
    drawers = _of(_corner(50), DRAWERS, "B2")
    assert (drawers.clear, drawers.nearest) == (15, "B3")


def test_with_too_small_a_post_it_hits_that_handle_by_what_is_missing() -> None:
    text = _corner(20).replace("filler 2120", "filler 2150")
    drawers = _of(text, DRAWERS, "B2")
    assert (drawers.clear, drawers.nearest) == (-15, "B3")


def test_a_corner_that_is_closed_makes_it_worse_and_one_that_is_open_better() -> None:
    two = "walls: {north: {length: 4000}, east: {length: 3000}}\n"
    square, closed, open_ = (
        _of(_corner(walls=two + corners), DRAWERS, "B2").clear
        for corners in (
            "",
            "corners: {north-east: 6 closed in 600}\n",
            "corners: {north-east: 6 open in 600}\n",
        )
    )
    # The fronts of the other run lie at 1:100; the drawer passes them from its front to the end of its run.
    assert closed < square - 5
    assert open_ > square


def test_a_door_that_is_wider_than_the_aisle_hits_what_stands_across_it() -> None:
    text = (
        "walls: {north: {length: 3000}, east: {length: 1800}, south: {length: 3000}, west: {length: 1800}}\n"
        + KINDS
        + "runs: {a: {against: north, order: {F1: filler 1000, B1: door 600 left}},"
        + " b: {against: south, order: {F2: filler 1400, B2: door 600 left}}}"
    )
    # 1800 − 2 × 630 − the handle across − the door
    assert _of(text, DOOR, "B1").clear == 1800 - 2 * 630 - 35 - 600


def test_drawers_run_out_as_far_as_their_runners_let_them() -> None:
    text = _corner().replace("opens: drawers}", "opens: drawers, runner: 450}")
    assert _of(text, DRAWERS, "B2").clear == 15
    facing = (
        "walls: {north: {length: 3000}, east: {length: 1800}, south: {length: 3000}, west: {length: 1800}}\n"
        + KINDS.replace("opens: drawers}", "opens: drawers, runner: 450}")
        + "runs: {a: {against: north, order: {F1: filler 1000, B1: drawers 600}},"
        + " b: {against: south, order: {F2: filler 1000, B2: door 600 left}}}"
    )
    assert row(facing, DRAWERS).clear == 1800 - 2 * 630 - 35 - 35 - 450


def test_far_from_everything_nobody_is_asked_how_a_thing_opens_or_what_its_handle_is() -> None:
    text = (
        ROOM
        + "kinds: {base: {height: 720, depth: 560}}\nruns: {a: {against: north, order: {G: gap 900, B1: base 600}}}"
    )
    assert row(text, DOOR).clear == 300


def test_near_a_corner_the_handle_round_it_is_asked_for() -> None:
    text = _corner(kinds=KINDS.replace(", handle: 35", ""))
    drawers = _of(text, DRAWERS, "B2")
    assert "/runs/b/order/B3/handle" in to_find(drawers, "clear")


def test_the_side_of_the_hinge_is_asked_for_only_where_it_matters() -> None:
    text = (
        ROOM
        + KINDS.replace("void behind: 50", "void behind: 0")
        + ("runs: {a: {against: north, order: {F1: filler 40, B1: door 500, F2: filler 900, B2: door 500}}}")
    )
    near, far = rows(text, "hinge side of a door")
    assert to_find(near, "beside") == {"/runs/a/order/B1/hand"}
    assert to_find(far, "beside") == set()


def test_a_place_that_may_be_off_widens_the_distance_both_ways() -> None:
    text = _corner().replace("drawers 600, P1", "drawers 600 to 604, P1")
    assert ends(_of(text, DRAWERS, "B2"), "clear") == (11, 15)


def test_what_is_assumed_of_a_thing_is_assumed_of_the_distance() -> None:
    text = _corner(kinds=KINDS.replace("handle: 35", "handle: 35 assumed"))
    drawn = known(_of(text, DRAWERS, "B2"), "drawn")
    assert drawn.assumed
    assert {value.pointer for value in drawn.rests_on} == {"/runs/a/order/B2/handle", "/runs/b/order/B3/handle"}


def test_a_thing_nobody_knows_the_place_of_leaves_the_others_open() -> None:
    text = _corner().replace("B3: door 500 right", "B3: door 500 right, B4: {is: base}")
    assert to_find(_of(text, DRAWERS, "B1"), "clear") == {"/runs/b/order/B4/width"}


def test_an_island_in_the_aisle_is_met() -> None:
    text = (
        ROOM
        + KINDS
        + "runs: {a: {against: north, order: {F1: filler 1000, B1: door 600 left}},"
        + " island: {faces: north, along: 800 from west, aisle: 700 to a, order: {B2: drawers 900}}}"
    )
    door = _of(text, DOOR, "B1")
    assert (door.clear, door.nearest) == (700 - 35 - 600, "B2")


def test_the_hand_of_a_door_in_an_island_is_seen_by_whoever_faces_it() -> None:
    text = (
        ROOM
        + KINDS
        + "runs: {a: {against: north, order: {F1: filler 1000, B1: drawers 600}},"
        + " island: {faces: north, along: 100 from west, aisle: 1200 to a, order: {B2: door 600 right}}}"
    )
    # Facing the island one has the west wall at one's right.
    assert _of(text, "hinge side of a door", "B2").beside == 100


def test_a_hung_door_beside_a_tall_unit_has_that_beside_its_hinge() -> None:
    text = (
        "heights from: finished floor\n"
        + ROOM
        + "kinds: {base: {height: 720, depth: 560, front: 20, void behind: 50},"
        + " tall: {height: 1970, depth: 560, front: 20, void behind: 50, opens: nothing},"
        + " wall: {height: 720, depth: 300, front: 20, void behind: 0, opens: door, handle: 35}}\n"
        + "runs: {a: {against: north, order: {G1: gap 500, T1: tall 600, B1: base 1000}},"
        + " hung: {against: north, underside: 1400, order: {G2: gap 1100, F: filler 18, W1: wall 400 left}}}"
    )
    found = _of(text, "hinge side of a door", "W1")
    assert (found.beside, found.nearest, found.handle) == (18, "T1", 35)


def test_beside_a_wall_at_the_hinge_lies_what_the_filler_leaves() -> None:
    text = ROOM + KINDS + "runs: {a: {against: north, order: {F1: filler 30, B1: door 500 left}}}"
    assert row(text, "hinge side of a door").beside == 30


def test_a_corner_unit_opens_where_it_is_not_blind() -> None:
    text = (
        ROOM
        + KINDS
        + (
            "runs: {a: {against: north, order: {G: gap 3000, B1: {is: door, width: 1000, hand: left, blind: 700}}},"
            " b: {against: east, from: fronts of a, order: {P: post 50, B2: drawers 600}}}"
        )
    )
    # The door, 300 wide, passes the corner of the handle round it: 335 along from its hinge, and 50 out.
    assert _of(text, DOOR, "B1").clear == pytest.approx(math.hypot(335, 50) - 300)


MACHINES = "appliances: {dishwasher: {body: 598 w x 815 h x 550 d, handle: 30, open: 600}}\n"
FACING = (
    "walls: {north: {length: 3600}, east: {length: 2400}, south: {length: 3600}, west: {length: 2400}}\n"
    + KINDS
    + "runs: {a: {against: north, order: {F1: filler 1200, B0: door 600 left, dishwasher: 600}},"
    + " b: {against: south, order: {F2: filler 1200, B1: drawers 600}}}\n"
)


def test_a_dishwasher_drops_its_door_as_far_as_the_plan_says() -> None:
    machine = row(FACING + MACHINES, MACHINE)
    assert (machine.clear_of_open, machine.other) == (2400 - 1260 - 600 - 560 - 35, "B1")


def test_how_far_a_door_comes_open_is_asked_for_where_it_matters() -> None:
    machine = row(FACING + MACHINES.replace(", open: 600", ""), MACHINE)
    assert to_find(machine, "clear_of_open") == {"/appliances/dishwasher/open"}


def test_a_machine_that_stands_nowhere_is_asked_for() -> None:
    machine = row(FACING + "appliances: {fridge: {door: left}}", MACHINE)
    assert to_find(machine, "clear") == {"/appliances/fridge/in"}


def test_a_machine_behind_the_door_of_a_unit_opens_with_it() -> None:
    assert rows(FACING + "appliances: {fridge: {in: B0}}", MACHINE) == []


HALL = "openings: {hall door: {wall: east, along: 700 from north, size: 800 w x 2000 h, swings: in, hinge: right}}\n"
HOB = KINDS + (
    "runs: {a: {against: north, order: {G: gap 3300, B1: drawers 600}}}\n"
    "appliances: {hob: {is: induction hob, in: B1}}\n"
)


def test_a_door_of_the_room_meets_a_drawer_that_is_open() -> None:
    door = row(ROOM + HALL + HOB, "door of the room")
    # From the hinge to the handle of the drawers, shut: 100 along the wall they stand at, 1500 − 665 out from it.
    assert (door.nearest, door.clear) == ("B1", pytest.approx(math.hypot(100, 835) - 800))
    assert (door.other, door.clear_of_open < -500) == ("B1", True)


def test_a_door_that_swings_out_sweeps_nothing_of_the_room() -> None:
    text = ROOM + HALL.replace("swings: in", "swings: out") + HOB
    assert rows(text, "door of the room") == []
    assert row(text, "hob by a door of the room").clear == 300


def test_a_hob_in_the_swing_of_a_door_is_as_deep_in_it_as_it_would_have_to_move() -> None:
    text = ROOM + HALL.replace("700 from north", "200 from north") + HOB
    hob = row(text, "hob by a door of the room")
    assert hob.nearest == "hall door"
    assert hob.clear < 0


def test_without_doors_and_windows_nobody_knows_of_a_swing() -> None:
    text = ROOM + HOB
    assert to_find(row(text, "hob by a door of the room"), "clear") == {"/openings"}


def test_a_door_that_may_swing_in_or_out_is_asked_about_where_it_matters() -> None:
    text = ROOM + HALL.replace("swings: in, ", "").replace("700 from north", "500 from north") + HOB
    assert to_find(row(text, "hob by a door of the room"), "clear") == {"/openings/hall door/swings"}


def test_a_window_that_opens_inwards_meets_the_unit_that_hangs_beside_it() -> None:
    text = (
        "heights from: finished floor\n"
        + ROOM
        + "openings: {window: {wall: west, along: 350 from north, size: 600 w x 900 h, opens: in, hinge: right}}\n"
        + "kinds: {wall: {height: 720, depth: 300, front: 20, void behind: 0, handle: 20, opens: door}}\n"
        + "runs: {hung: {against: north, underside: 1400, order: {W1: wall 500 right}}}"
    )
    window = row(text, "window that opens inwards")
    assert (window.clear, window.nearest) == (10, "W1")


KINDS_BY_LOT = ("drawers {}", "door {} left", "door {} right")
OTHER = {"left": "right", "right": "left"}


def _by_lot(lot: Random, letter: str) -> list[tuple[str, str, int]]:
    return [(f"{letter}{number}", lot.choice(KINDS_BY_LOT), lot.choice((300, 400, 500, 600))) for number in range(3)]


def _mirrored(kind: str) -> str:
    return " ".join(OTHER.get(word, word) for word in kind.split())


def _run(name: str, wall: str, start: str, things: Iterable[tuple[str, str, int]], before: str = "") -> str:
    order = [before] if before else []
    order += [f"{thing}: {kind.format(width)}" for thing, kind, width in things]
    return f"  {name}: {{against: {wall}, from: {start}, order: {{{', '.join(order)}}}}}\n"


def _clear(text: str) -> dict[tuple[str, str], tuple[float, str]]:
    kinds = (DOOR, DRAWERS, "hinge side of a door")
    return {
        (kind, found.subject.name): (round(found.drawn, 6), found.nearest)
        for kind in kinds
        for found in rows(text, kind)
    }


@pytest.mark.parametrize("seed", range(25))
def test_a_mirrored_room_opens_as_its_image_does(seed: int) -> None:
    lot = Random(seed)
    north, east, post = _by_lot(lot, "N"), _by_lot(lot, "E"), lot.randrange(10, 90, 10)
    long = sum(width for _, _, width in north)
    gap = 4000 - 630 - post - long
    here = _run("a", "north", f"{gap} from west", north) + _run("b", "east", "fronts of a", east, f"P: post {post}")
    flipped = [(name, _mirrored(kind), width) for name, kind, width in reversed(north)]
    turned = [(name, _mirrored(kind), width) for name, kind, width in reversed(east)]
    there = _run("a", "north", f"{gap} from east", flipped)
    order = ", ".join([*(f"{name}: {kind.format(width)}" for name, kind, width in turned), f"P: post {post}"])
    there += f"  b: {{against: west, from: fronts of a, order: {{{order}}}}}\n"
    image = {
        key: (value, {"east wall": "west wall", "west wall": "east wall"}.get(to, to))
        for key, (value, to) in _clear(ROOM + KINDS + "runs:\n" + there).items()
    }
    original = _clear(ROOM + KINDS + "runs:\n" + here)
    assert {key: value for key, (value, _) in original.items()} == {key: value for key, (value, _) in image.items()}


@pytest.mark.parametrize("seed", range(25))
def test_two_runs_that_move_together_open_as_before(seed: int) -> None:
    lot = Random(100 + seed)
    north, south, by = _by_lot(lot, "N"), _by_lot(lot, "S"), lot.randrange(-300, 300)
    walls = "walls: {north: {length: 6000}, east: {length: 2200}, south: {length: 6000}, west: {length: 2200}}\n"

    def clear(moved: int) -> dict[tuple[str, str], tuple[float, str]]:
        runs = _run("a", "north", f"{2000 + moved} from west", north) + _run(
            "b", "south", f"{2000 - moved} from east", south
        )
        return _clear(walls + KINDS + "runs:\n" + runs)

    assert clear(by) == clear(0)


def test_a_machine_of_unknown_depth_beside_no_unit_is_asked_how_deep_it_is() -> None:
    """Drawn as deep as nothing, it would stand in nobody's way."""
    runs = "runs:\n  a: {against: north, order: {F1: filler 2760, B1: drawers 600, P1: post 20}}\n"
    text = ROOM + KINDS + runs + "  b: {against: east, from: fronts of a, order: {P2: post 20, dishwasher: 600}}\n"
    assert to_find(_of(text, DRAWERS, "B1"), "clear") == {"/appliances/dishwasher/body"}


def test_what_stands_beside_the_hinge_is_across_the_corner_or_deeper_in_its_row() -> None:
    runs = "runs:\n  a: {against: north, order: {F1: filler 400, B1: door 400 right, T1: deep 600}}\n"
    kinds = KINDS.replace("drawers: {", "deep: {like: base, depth: 900, opens: nothing}, drawers: {")
    beside = _of(ROOM + kinds + runs, "hinge side of a door", "B1")
    assert (beside.beside, beside.nearest, beside.in_its_row) == (0, "T1", True)
    assert not _of(_corner(20), "hinge side of a door", "B3").in_its_row


def test_drawers_pass_a_machine_that_stands_behind_the_first_front_round_the_corner() -> None:
    """The door beside the corner stands out 35 and is nearest; the oven past it comes out 30 and 10 more to spare."""
    runs = "runs:\n  a: {against: north, order: {F1: filler 2720, B1: drawers 600, P1: post 50}}\n"
    runs += "  b: {against: east, from: fronts of a, order: {P2: post 50, B2: door 200 right, oven: 600}}\n"
    found = _of(ROOM + KINDS + runs + "appliances: {oven: {body: 595 w x 595 h x 550 d, handle: 25}}", DRAWERS, "B1")
    assert (found.clear, found.nearest, found.clear_of_machine, found.machine) == (15, "B2", 25, "oven")


def test_the_machine_straight_across_the_corner_is_left_to_the_post_between_them() -> None:
    runs = "runs:\n  a: {against: north, order: {F1: filler 2720, B1: drawers 600, P1: post 50}}\n"
    runs += "  b: {against: east, from: fronts of a, order: {P2: post 50, oven: 600, B2: door 200 right}}\n"
    found = _of(ROOM + KINDS + runs + "appliances: {oven: {body: 595 w x 595 h x 550 d, handle: 25}}", DRAWERS, "B1")
    assert (found.nearest, found.machine) == ("oven", "anything")


def test_tiles_to_come_bring_a_wall_nearer_to_what_opens_beside_it() -> None:
    runs = "runs: {a: {against: north, order: {F1: filler 40, B1: door 500 left}}}"
    tiled = ROOM.replace("west: {length: 3000}", "west: {length: 3000, tiles: 12}")
    assert [_of(walls + KINDS + runs, "hinge side of a door", "B1").beside for walls in (ROOM, tiled)] == [40, 28]
    unsaid = ROOM.replace("north: {length: 4000}", "north: {length: 4000, tiles: 12}")
    assert to_find(_of(unsaid + KINDS + runs, "hinge side of a door", "B1"), "beside") == {"/walls/west/tiles"}
