"""Which one value cures a point, by how much, and what it brings; sums by hand on the faulty demo plan."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from validator.commands.inspecting import Inspector
from validator.judging.cures import Cure, Cures, File, number_in, the_one
from validator.judging.outcomes import Result
from validator.plan.files import read_document
from validator.plan.merging import merge

WEAVERS_ROW = Path(__file__).parents[2] / "plans_demo" / "weavers-row" / "plan.yaml"
INSPECTOR = Inspector([], date(2027, 3, 1))


def cures_of(rule: str, text: str | None = None) -> list[Cure]:
    content = WEAVERS_ROW.read_bytes() if text is None else text.encode()
    files = [File(read_document(content.decode(), "plan.yaml"), content)]
    judged = INSPECTOR.inspect(merge([files[0].document]))
    failing = [o for o in judged.outcomes if o.rule.name == rule and o.result is Result.NOT_MET]
    return Cures(files, judged, INSPECTOR.site, INSPECTOR.inspect).find(failing)


def chosen(rule: str) -> tuple[str, object]:
    cure = the_one(cures_of(rule))
    assert cure is not None
    return cure.change.pointer, cure.change.new


@pytest.mark.parametrize(
    ("rule", "pointer", "value"),
    [
        # 1580 and the 53 that are missing
        ("hood-over-gas-hob", "/appliances/hood/up", "1633 from finished floor"),
        # 80 long, 32.5 of it in brick, 50 wanted: 97.5, and fixings come in whole millimetres
        ("wall-unit-fixing-depth", "/fixings/rail/plug", "frame fixing 8 x 98"),
        # 12 mm in a metre, 18 wanted
        ("waste-fall", "/appliances/sink/waste", "40 mm to stack 2600 at 18 mm/m"),
        # 6 and the 2 that are missing at each of four walls
        ("laminate-gap", "/floors/laminate/gap", "8"),
        # 2230 and 81 further from the sink
        ("socket-well-away-from-sink", "/points/S2/along", "2311 from west"),
        # plaster ends on 9 April at midday; 21 days later it is 30 April at midday, so paint the morning after
        ("plaster-dry-before-the-next-task", "/work/paint/on", "2027-05-01"),
        # no thinner than the neat coat below
        ("coat-never-thinner-than-the-one-below", "/coatings/old walls/coats/2", "0 % water"),
    ],
)
def test_the_one_value_that_cures_is_changed_by_what_is_missing(rule: str, pointer: str, value: str) -> None:
    assert chosen(rule) == (pointer, value)


def test_the_changed_plan_has_the_point_no_more() -> None:
    cure = the_one(cures_of("hood-over-gas-hob"))
    assert cure is not None
    results = {o.result for o in cure.after.outcomes if o.rule.name == "hood-over-gas-hob"}
    assert results == {Result.MET}
    assert cure.brings == ()


def test_where_several_values_would_do_none_is_chosen_and_the_smallest_change_comes_first() -> None:
    cures = cures_of("run-not-longer-than-its-wall")
    assert the_one(cures) is None
    changes = {cure.change.pointer.rpartition("/")[2]: cure.change.new for cure in cures}
    # 42 out of each unit in turn; the panel and the filler have not that much
    assert changes == {
        "B4": "corner 958 left",
        "B2": "sink base 758",
        "T1": "tall 558 right",
        "washing machine": "558",
        "B1": "drawers 458",
        "B3": "door 358 right",
    }
    shares = [cure.share for cure in cures if not cure.brings]
    assert shares == sorted(shares)


def test_a_cure_that_makes_another_point_worse_is_told_with_it_and_not_chosen() -> None:
    (cure,) = cures_of("appliance-goes-in-and-out")
    assert (cure.change.pointer, cure.change.new) == ("/runs/window run/legs", "150 at high spot")
    assert {outcome.rule.name for outcome in cure.brings} == {"legs-reach-the-low-spot"}
    assert the_one([cure]) is None


@pytest.mark.parametrize(
    "rule",
    [
        "gas-work-registered",  # a condition, not a figure
        "cable-carries-what-the-device-lets-through",  # devices and cables come in sizes of a standard
        "base-dry-by-hygrometer",  # a reading, found on site
        "departure-not-from-law",  # words
    ],
)
def test_what_is_found_or_comes_in_standard_sizes_is_never_bent_to_suit_a_rule(rule: str) -> None:
    assert cures_of(rule) == []


def test_inches_go_up_to_the_next_sixteenth() -> None:
    number = number_in("34-1/2 from bare floor", "34-1/2")
    assert number is not None
    moved = number.moved(Fraction(3, 50))
    assert (moved, number.write(moved)) == (Fraction(553, 16), "34-9/16")


@pytest.mark.parametrize(
    ("text", "part", "start", "value"),
    [
        ("1580 from finished floor", "1580", 0, 1580),
        ("frame fixing 8 x 80", "80", 17, 80),
        ("frame fixing 8 x 80", "8", 13, 8),
        ("18 mm/m", "18 mm/m", 0, 18),
        ("12.5", "12.5", 0, Fraction(25, 2)),
        ("2027-04-19", "2027-04-19", 0, date(2027, 4, 19).toordinal()),
    ],
)
def test_the_number_of_a_part_is_found_in_its_line(text: str, part: str, start: int, value: Fraction | int) -> None:
    number = number_in(text, part)
    assert number is not None
    assert (number.start, number.value) == (start, Fraction(value))


@pytest.mark.parametrize(
    ("text", "part"), [("8 x 8", "8"), ("10 to 25", "10 to 25"), ("1:40", "1:40"), ("neat", "neat"), ("880", "80")]
)
def test_what_is_not_one_plain_number_in_one_place_is_left_alone(text: str, part: str) -> None:
    assert number_in(text, part) is None
