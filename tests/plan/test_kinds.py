"""Kinds are said once; each use takes from them what it does not say itself."""

from __future__ import annotations

import pytest

from tests.plan.plans import HEAD, Wrong, merged, plan, problems
from validator.plan.load import load
from validator.plan.merging import merge
from validator.plan.problems import Unreadable
from validator.plan.sections.furniture import Item
from validator.plan.values import NothingStated, Quantity
from validator.plan.yaml_reader import read_yaml

KINDS = """\
kinds:
  base: {height: 715, depth: 555, legs: 130 to 170}
  door: {like: base, opens: door}
  tall: {like: base, height: 2015}
  hung: {height: 705, hangers: {down: 38, in: 45}, weight: 34 kg/m assumed}
  bench: {height: 420, legs: none}
  end panel: {like: panel, width: 18}
  filler: {least: 12, most: 70, width: 50}
  double socket: {plate: 147 x 87, up: 160 above worktop, cable: straight up}
  oak: {thickness: 40}
"""


def items(*lines: str, kinds: str = KINDS) -> list[Item]:
    order = "".join(f"      U{at}: {line}\n" for at, line in enumerate(lines, 1))
    return list(
        plan(f"{kinds}runs:\n  river run:\n    against: river\n    order:\n{order}").runs["river run"].order.values()
    )


def low(value: object) -> float:
    assert isinstance(value, Quantity)
    return value.low


def test_a_use_takes_what_its_kind_and_the_kinds_before_it_say() -> None:
    (door,) = items("door 450 left")
    assert (low(door.width), low(door.height), low(door.depth), door.opens) == (450, 715, 555, "door")


def test_a_kind_says_it_better_than_the_kind_it_is_like() -> None:
    assert low(items("tall 600")[0].height) == 2015


def test_a_use_says_it_better_than_its_kind() -> None:
    assert low(items("{is: door, width: 450, height: 800}")[0].height) == 800


def test_rest_takes_the_place_of_a_width_in_the_kind_and_a_width_that_of_rest() -> None:
    rest, wide = items("filler rest", "filler 30")
    assert (rest.width, rest.rest) == (None, True)
    assert (low(wide.width), wide.rest) == (30, False)


def test_the_long_form_of_a_thing_is_the_same_as_its_line() -> None:
    by_line = items("door 450 left", "hung 600 right over U1", "filler rest", "600", "hung 300 left of U2")
    written_out = items(
        "{is: door, width: 450, hand: left}",
        "{is: hung, width: 600, hand: right, over: U1}",
        "{is: filler, width: rest}",
        "{is: opening, width: 600}",
        "{is: hung, width: 300, left of: U2}",
    )
    assert by_line == written_out


def test_rest_may_be_said_with_yes() -> None:
    assert items("filler rest") == items("{is: filler, rest: yes}")


@pytest.mark.parametrize(
    ("line", "family"),
    [
        ("door 450", "unit"),
        ("filler rest", "filler"),
        ("panel 18", "panel"),
        ("end panel", "panel"),
        ("post 60", "post"),
        ("gap rest", "gap"),
        ("600", "opening"),
        ("opening 600", "opening"),
    ],
)
def test_the_family_follows_from_the_kind(line: str, family: str) -> None:
    assert items(line)[0].family == family


def test_words_that_need_no_kind_may_be_given_one() -> None:
    assert low(items("filler rest")[0].most) == 70
    assert items("filler rest", kinds="")[0].most is None


def test_a_unit_without_legs_says_so_in_its_kind() -> None:
    assert items("bench 800")[0].legs == NothingStated("none")


def test_points_and_worktops_take_from_their_kinds_too() -> None:
    found = plan(KINDS + "points: {S1: {is: double socket, wall: river}}\nworktops: {top: {is: oak, on: river run}}\n")
    assert found.points["S1"].cable == "straight up"
    assert low(found.worktops["top"].thickness) == 40


def test_a_worktop_that_names_no_kind_takes_from_the_kind_worktop() -> None:
    assert low(plan("kinds: {Worktop: {thickness: 38}}\nworktops: {top: {on: run}}\n").worktops["top"].thickness) == 38


def test_an_american_countertop_is_the_kind_worktop() -> None:
    found = plan("kinds: {countertop: {thickness: 38}}\ncountertops: {top: {on: run}}\n")
    assert low(found.worktops["top"].thickness) == 38


def test_names_of_kinds_compare_after_nfc() -> None:
    (item,) = items("SCHRA\u0308NKCHEN 400 left", kinds="kinds: {Schränkchen: {height: 700}}\n")
    assert (low(item.height), item.is_) == (700, "Schränkchen")


def test_a_value_from_a_kind_stands_in_the_kind_that_says_it() -> None:
    found = plan(KINDS + "runs:\n  river run: {against: river, order: {U1: door 450, W1: hung 500}}\n")
    lines = {
        pointer: found.place(f"/runs/river run/order/{pointer}").line
        for pointer in ("U1/height", "U1/opens", "U1/width", "W1/hangers/down", "w1/Hangers/in")
    }
    assert lines == {"U1/height": 5, "U1/opens": 6, "U1/width": 15, "W1/hangers/down": 8, "w1/Hangers/in": 8}


def test_a_value_of_the_use_itself_stands_at_the_use() -> None:
    found = plan(
        KINDS
        + "runs:\n  river run:\n    against: river\n    order:\n      U1:\n        is: door\n        height: 800\n"
    )
    assert found.place("/runs/river run/order/U1/height").line == 20


def test_things_inside_a_value_from_a_kind_have_their_own_pointers() -> None:
    one, other = items("hung 500", "hung 600")
    assert one.hangers is not None
    assert other.hangers is not None
    assert [one.hangers.pointer, other.hangers.pointer] == [
        "/runs/river run/order/U1/hangers",
        "/runs/river run/order/U2/hangers",
    ]


def test_a_height_from_a_kind_starts_from_what_the_file_of_the_kind_says() -> None:
    kinds = read_yaml("dryfit: 1\nheights from: finished floor\nkinds: {low socket: {up: 380}}\n", "kinds.yaml")
    layout = read_yaml(f"{HEAD}points: {{S1: low socket over B1, S2: {{is: low socket, up: 400}}}}\n", "layout.yaml")
    found = load(merge([kinds, layout]))
    assert found.heights_from("/points/S1/up") == "finished floor"
    assert found.heights_from("/points/S2/up") == "bare floor"


USES = "runs: {r: {against: river, order: {U1: door 400, U2: door 500, U3: tall 600}}}\n"


def test_a_mistake_in_a_kind_is_said_once_however_often_it_is_used() -> None:
    kinds = "kinds:\n  base: {heigth: 715, depth: 555 kg}\n  door: {like: base}\n  tall: {like: base}\n"
    assert problems(kinds + USES) == [
        Wrong(5, "a thing in a run has no `heigth`", "height"),
        Wrong(5, "555 kg is a mass; a length is expected (mm, m, in, ft)", ""),
    ]


def test_a_mistake_inside_a_value_of_a_kind_stands_at_that_value() -> None:
    kinds = "kinds:\n  door:\n    hangers:\n      down: 38\n      inn: 45\n  tall: {like: door}\n"
    assert problems(kinds + USES) == [Wrong(8, "a pair of hangers has no `inn`", "in")]


def test_a_kind_that_nothing_uses_is_looked_at_too() -> None:
    assert problems("kinds:\n  low socket: {plate: 87 x 87, deeep: 18}\n  door: {depht: 500}\n") == [
        Wrong(5, "a point has no `deeep`", "deep"),
        Wrong(6, "a thing in a run has no `depht`", "depth"),
    ]


@pytest.mark.parametrize(
    ("kinds", "wrong"),
    [
        ("{door: {like: bas}, base: {height: 700}}", Wrong(4, "`bas` is no kind of this plan", "base")),
        ("{door: {like: [a]}}", Wrong(4, "`[…]` is no kind of this plan", "")),
        ("{door: {like: door}}", Wrong(4, "kinds are like one another in a circle: door → door", "")),
        (
            "{a: {like: b}, b: {like: c}, c: {like: a}, d: {like: a}}",
            Wrong(4, "kinds are like one another in a circle: a → b → c → a", ""),
        ),
        (
            "{wall 600: {height: 700}}",
            Wrong(4, "`wall 600` cannot name a kind: it ends in a number, which a line would read as a width", ""),
        ),
        (
            "{600 wall: {height: 700}}",
            Wrong(4, "`600 wall` cannot name a kind: it starts with a number, which a line would read as a width", ""),
        ),
        (
            "{over-fridge unit: {height: 400}}",
            Wrong(4, "`over-fridge unit` cannot name a kind: `over` has a meaning of its own in a line", ""),
        ),
        (
            "{left door: {height: 700}}",
            Wrong(4, "`left door` cannot name a kind: `left` has a meaning of its own in a line", ""),
        ),
        ("{door: 700}", Wrong(4, "the kind `door` says nothing", "")),
        ("{door: {is: base}}", Wrong(4, "the kind `door` says what it is", "like")),
        ("{door: {family: unit, height: 700}}", Wrong(4, "a thing in a run has no `family`", "")),
    ],
)
def test_a_kind_that_cannot_be_is_said_with_its_place(kinds: str, wrong: Wrong) -> None:
    assert problems(f"kinds: {kinds}\n") == [wrong]


def test_a_circle_of_kinds_names_the_places_of_all_of_them() -> None:
    with pytest.raises(Unreadable) as refused:
        load(merged(HEAD + "kinds:\n  a: {like: b}\n  b: {like: a}\n"))
    (circle,) = refused.value.problems
    assert (circle.place.line, [place.line for place in circle.also]) == (5, [6])


def test_a_name_that_only_holds_a_word_of_the_line_is_fine() -> None:
    assert problems("kinds: {oven unit: {height: 700}, indoor: {height: 3}, lefthand: {height: 3}}\n") == []


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("points: {S1: doubel socket over B1}", Wrong(14, "`doubel socket` is no kind of this plan", "double socket")),
        (
            "points: {S1: {is: doubel socket, wall: x}}",
            Wrong(14, "`doubel socket` is no kind of this plan", "double socket"),
        ),
        ("points: {S1: {wall: x}}", Wrong(14, "a point needs `is`", "")),
        ("worktops: {t: {is: oka, on: x}}", Wrong(14, "`oka` is no kind of this plan", "oak")),
        ("runs: {r: {against: x, order: {U1: dor 300}}}", Wrong(14, "`dor` is no kind of this plan", "door")),
        ("runs: {r: {against: x, order: {U1: {is: dor}}}}", Wrong(14, "`dor` is no kind of this plan", "door")),
        ("runs: {r: {against: x, order: {U1: {width: 300}}}}", Wrong(14, "a thing in a run needs `is`", "")),
        (
            "runs: {r: {against: x, order: {U1: {is: door, family: unit}}}}",
            Wrong(14, "a thing in a run has no `family`", ""),
        ),
        (
            "runs: {r: {against: x, order: {U1: {is: door, width: 3, rest: yes}}}}",
            Wrong(14, "a width is given, and `rest` as well", ""),
        ),
    ],
)
def test_a_use_of_no_kind_is_said_with_the_nearest(text: str, wrong: Wrong) -> None:
    assert problems(KINDS + text + "\n") == [wrong]


def test_kinds_that_lead_into_a_circle_are_not_part_of_it() -> None:
    (wrong,) = problems("kinds: {a: {like: b}, b: {like: c}, c: {like: b}}\n")
    assert "b → c → b" in wrong.message


def test_a_long_line_of_kinds_is_read_through_to_its_end() -> None:
    """So long a line took minutes where each kind walked it anew."""
    line = "".join(f"  k{number}: {{like: k{number + 1}}}\n" for number in range(1500))
    (item,) = items("k0 600", kinds=f"kinds:\n{line}  k1500: {{height: 700}}\n")
    assert low(item.height) == 700


def test_what_one_kind_alone_has_is_asked_of_that_kind_and_not_of_all_it_builds_on() -> None:
    found = plan("kinds: {base: {height: 720}, corner: {like: base}}\n")
    assert found.places.asked_at("/kinds/corner/blind") == "/kinds/corner/blind"
    assert found.places.asked_at("/kinds/corner/depth") == "/kinds/base/depth"
