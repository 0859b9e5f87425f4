"""A strip of each wall: things in proportion, names cut to their room, numbers under the thing they are about."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.measures.plans import site
from tests.reporting.made import judgement, not_known, not_met, rule
from validator.judging.outcomes import Outcome
from validator.measures.rows import Missing, Subject
from validator.reporting.columns import columns
from validator.reporting.points import put_together
from validator.reporting.walls import STRIP_WIDTH, Strip, strips

ROOM = """\
walls: {{quay: {{length: {length}}}, lane: {{length: 2400}}}}
kinds:
  base: {{height: 720, depth: 560}}
  wall: {{height: 720, depth: 300}}
runs:
  bench: {{against: quay, order: {{{order}}}}}
"""


def strip_of(order: str, *outcomes: Outcome, length: int = 3100) -> list[Strip]:
    found = site(ROOM.format(length=length, order=order))
    return strips(found, put_together(judgement(outcomes)._replace(site=found)))


def at(number: str, thing: str, left: float, right: float) -> Outcome:
    """A rule of its own that is not met at a thing which takes this stretch of the wall."""
    of = not_met(rule(number), thing)
    return of._replace(subject=Subject(thing, f"/runs/bench/order/{thing}", wall="quay", along=(left, right)))


def edges(strip: Strip) -> list[int]:
    return [column for column, character in enumerate(strip.things) if character == "|"]


def under(strip: Strip, number: int) -> int:
    """The column in which a number starts, whichever line of numbers it stands in."""
    (found,) = [f" {line} ".find(f" {number} ") for line in strip.numbers if f" {number} " in f" {line} "]
    return found


def test_a_wall_of_3100_is_62_columns_and_a_unit_of_500_is_ten_of_them() -> None:
    (strip,) = strip_of("A: base 500, B: base 1000, C: base 1600")
    assert strip.wall == "quay"
    assert edges(strip) == [0, 10, 30, 62]
    assert strip.things == "|A        |B                  |C                              |"


def test_what_is_left_of_the_wall_stays_empty() -> None:
    (strip,) = strip_of("A: base 500")
    assert strip.things == "|A        |"


def test_a_name_is_cut_to_the_room_of_its_thing() -> None:
    (strip,) = strip_of("tall larder: base 250, under counter fridge: base 500")
    assert strip.things == "|tall|under cou|"


def test_a_number_stands_under_the_middle_of_its_thing() -> None:
    (strip,) = strip_of("A: base 500, B: base 1000", at("fault", "B", 500.0, 1500.0))
    assert strip.numbers == (" " * 20 + "1",)


def test_numbers_at_one_place_stand_side_by_side() -> None:
    (strip,) = strip_of("A: base 500", at("one", "A", 0.0, 500.0), at("two", "A", 0.0, 500.0))
    assert strip.numbers == (" " * 5 + "1 2",)


def test_a_rule_that_fails_at_several_things_has_its_number_under_each() -> None:
    (strip,) = strip_of("A: base 500, B: base 1000", at("fault", "A", 0.0, 500.0), at("fault", "B", 500.0, 1500.0))
    assert strip.numbers == (" " * 5 + "1" + " " * 14 + "1",)


def test_something_to_find_out_has_its_number_there_too() -> None:
    missing = Missing("/runs/bench/order/A", "height")
    unknown = not_known(rule("fault"), "A", missing)._replace(
        subject=Subject("A", "/runs/bench/order/A", wall="quay", along=(0.0, 500.0))
    )
    (strip,) = strip_of("A: base 500", unknown)
    assert strip.numbers == ("     1",)


def test_what_is_on_no_wall_has_no_number() -> None:
    (strip,) = strip_of("A: base 500", not_met(rule("fault"), "the whole plan"))
    assert strip.numbers == ()


def test_a_wall_with_nothing_on_it_has_no_strip() -> None:
    assert [strip.wall for strip in strip_of("A: base 500")] == ["quay"]


def test_a_wall_whose_length_nobody_knows_has_no_strip() -> None:
    found = site(ROOM.format(length="to find out", order="A: base 500"))
    assert strips(found, put_together(judgement([])._replace(site=found))) == []


@pytest.mark.parametrize("count", [12, 30, 60])
def test_no_number_is_lost_however_many_there_are(count: int) -> None:
    (strip,) = strip_of("A: base 3100", *(at(f"rule {number}", "A", 3000.0, 3100.0) for number in range(count)))
    assert sorted(int(number) for line in strip.numbers for number in line.split()) == list(range(1, count + 1))
    assert all(len(line) <= 66 for line in strip.numbers)


NAMES = st.text(st.sampled_from("abcö漢🍳ب"), min_size=1, max_size=40)


@given(names=st.lists(NAMES, min_size=1, max_size=5, unique_by=lambda name: name.casefold()))
def test_edges_stay_in_their_columns_whatever_things_are_called(names: list[str]) -> None:
    order = ", ".join(f"x{name}: base 500" for name in names)
    (strip,) = strip_of(order)
    assert columns(strip.things) == 10 * len(names) + 1
    assert len(edges(strip)) == len(names) + 1
    assert columns(strip.things) <= STRIP_WIDTH + 1
