"""Rows and figures: what is missing is never a value, ranges keep both ends, and the working is what was judged."""

from __future__ import annotations

import itertools
from collections.abc import Callable

import pytest
from hypothesis import given as for_all
from hypothesis import strategies as st

from validator.measures.arithmetic import least, most, root, total, whole_up
from validator.measures.rows import NAME, Known, Missing, NotKnown, Row, Subject, Why, figure, given
from validator.measures.tracing import MeasureFault, Step, all_missing, at_this_end, derived, trace
from validator.plan.dimensions import AREA, LENGTH, NUMBER, SLOPE, WrongDimension


class Shelf(Row, kind="shelf on two battens"):
    """A shelf with a stack of boards on it."""

    batten: float = given(LENGTH, "batten")
    boards: tuple[float, ...] = given(LENGTH, "boards", many=True)
    wide: float = given(LENGTH, "wide")
    room: str = given(NAME, "room")

    @figure(LENGTH, "stack", start="wall", end="face of the last board")
    def stack(self) -> float:
        return self.batten + total(self.boards)

    @figure(LENGTH, "half of it")
    def half(self) -> float:
        return self.stack / 2

    @figure(AREA, "face")
    def face(self) -> float:
        return self.stack * self.wide

    @figure(LENGTH, "thickest piece")
    def thickest(self) -> float:
        return most(self.batten, most(self.boards))


class Gap(Row, kind="gap beside a shelf"):
    """What is left between a niche and the shelf."""

    niche: float = given(LENGTH, "niche")
    shelf: float = given(LENGTH, "shelf")
    trim: float = given(LENGTH, "trim")

    @figure(LENGTH, "gap", start="shelf", end="side of the niche")
    def gap(self) -> float:
        return self.niche - self.shelf - self.trim


class Muddled(Row, kind="muddled thing"):
    """Figures whose dimensions contradict what they are declared."""

    wide: float = given(LENGTH, "wide")
    fall: float = given(SLOPE, "fall")

    @figure(LENGTH, "said to be a length")
    def an_area(self) -> float:
        return self.wide * self.wide

    @figure(LENGTH, "a length and a slope together")
    def nonsense(self) -> float:
        return self.wide + self.fall


class Shared(Row, kind="share of a width"):
    """Never more than the most."""

    most: float = given(LENGTH, "most")
    boards: float = given(AREA, "boards")
    wide: float = given(LENGTH, "wide")

    @figure(LENGTH, "share")
    def share(self) -> float:
        return least(self.most, self.boards / self.wide)


SUBJECT = Subject("shelf", "/shelf")


def known(low: float, high: float | None = None, at: str = "", *, assumed: bool = False) -> Known:
    return Known(low, at, low=low, high=low if high is None else high, assumed=assumed)


def several(*values: Known) -> Known:
    return Known(tuple(value.value for value in values), parts=values)


def shelf(**values: Known | Missing | tuple[Missing, ...]) -> Shelf:
    usual = {"batten": known(45, at="/batten"), "boards": several(known(18, at="/a"), known(22, at="/b"))}
    return Shelf(SUBJECT, **{**usual, **values})


def ends(value: Known | tuple[Missing, ...]) -> tuple[float | None, float | None]:
    assert isinstance(value, Known)
    return value.low, value.high


def test_a_figure_is_a_sum_of_fields() -> None:
    assert shelf().stack == 85
    assert shelf().half == 42.5


def test_reading_what_is_missing_names_where_it_would_stand() -> None:
    row = shelf(batten=Missing("/battens/thickness", "batten", Why.TO_FIND, by="joiner"))
    with pytest.raises(NotKnown) as caught:
        row.half  # noqa: B018
    (missing,) = caught.value.missing
    assert (missing.pointer, missing.why, missing.by) == ("/battens/thickness", Why.TO_FIND, "joiner")


def test_a_field_nobody_filled_in_is_left_out_at_the_thing_itself() -> None:
    with pytest.raises(NotKnown, match="/shelf"):
        shelf().wide  # noqa: B018


def test_what_is_missing_says_which_question_asks_for_it() -> None:
    assert all_missing(shelf(), "face")[0].asks == "shelf on two battens.wide"


def test_everything_missing_for_a_figure_is_found_at_once() -> None:
    boards = (Missing("/a", "first board"), Missing("/b", "second board"))
    row = shelf(batten=Missing("/battens", "batten"), boards=boards)
    assert [missing.pointer for missing in all_missing(row, "face")] == ["/battens", "/a", "/b", "/shelf"]


def test_a_field_nobody_declared_is_a_fault_of_the_measure() -> None:
    with pytest.raises(TypeError, match="colour"):
        shelf(colour=known(1))


def test_a_name_that_is_neither_field_nor_figure_is_loud() -> None:
    with pytest.raises(AttributeError, match="colour"):
        shelf().colour  # type: ignore[attr-defined]  # noqa: B018


def test_corners_take_every_range_to_both_its_ends() -> None:
    row = shelf(batten=known(40, 50), boards=several(known(18), known(20, 26)))
    assert sorted(corner.stack for corner in row.corners()) == [78, 84, 88, 94]


def test_a_row_without_ranges_is_its_own_corner() -> None:
    row = shelf()
    assert list(row.corners()) == [row]


def test_a_corner_keeps_what_is_missing() -> None:
    row = shelf(batten=known(40, 50), wide=Missing("/wide", "wide"))
    assert {all_missing(corner, "face")[0].pointer for corner in row.corners()} == {"/wide"}


def test_twelve_ranges_still_reach_both_extremes() -> None:
    boards = several(*(known(1, 2, f"/{number}") for number in range(12)))
    sums = [corner.stack for corner in shelf(boards=boards).corners()]
    assert (min(sums), max(sums)) == (57, 69)


class Pile(Row, kind="pile of boards in a box"):
    """What is left over a pile, with the box named after the boards."""

    boards: tuple[float, ...] = given(LENGTH, "boards", many=True)
    box: float = given(LENGTH, "box")

    @figure(LENGTH, "left over")
    def left(self) -> float:
        return self.box - total(self.boards)


def test_a_single_value_stands_against_any_number_of_parts() -> None:
    """The least is a box of 30 with every board at 2, the most one of 40 with every board at 1."""
    boards = several(*(known(1, 2, f"/{number}") for number in range(13)))
    left = [corner.left for corner in Pile(Subject("pile", ""), boards=boards, box=known(30, 40, "/box")).corners()]
    assert (min(left), max(left)) == (30 - 26, 40 - 13)


def test_a_working_names_its_leaves_and_agrees_with_the_figure() -> None:
    row = shelf(batten=Known(45, "/batten", "45", "batten of oak", low=45, high=45))
    step, seen = trace(row, "half")
    assert step.value == row.half == 42.5
    assert step.sign == "÷"
    leaves = [(leaf.label, leaf.value) for leaf in step.leaves()]
    assert leaves == [("batten of oak", 45), ("boards", 18), ("boards", 22)]
    assert set(seen.read) == {"batten", "boards"}


def test_a_working_goes_on_where_something_is_missing() -> None:
    step, seen = trace(shelf(batten=Missing("/battens", "batten")), "stack")
    assert step.value != step.value
    assert [missing.pointer for missing in seen.missing] == ["/battens"]


def test_a_figure_of_another_dimension_than_declared_is_a_fault() -> None:
    with pytest.raises(MeasureFault, match="declared a length and comes out as a area"):
        trace(Muddled(SUBJECT, wide=known(3)), "an_area")


def test_a_length_and_a_slope_cannot_be_added() -> None:
    with pytest.raises(WrongDimension, match="slope cannot be added to a length"):
        trace(Muddled(SUBJECT, wide=known(3), fall=known(0.02)), "nonsense")


def test_a_derived_value_carries_range_label_and_working() -> None:
    row = shelf(batten=known(40, 50, "/batten"))
    found = derived(row, "stack", "shelf and boards")
    assert isinstance(found, Known)
    assert (found.low, found.high, found.label, found.origin) == (80, 90, "shelf and boards", (row, "stack"))
    assert found.pointer == "/shelf"


def test_what_is_missing_for_a_derived_value_is_passed_on() -> None:
    found = derived(shelf(batten=Missing("/battens", "batten")), "half")
    assert isinstance(found, tuple)
    assert [missing.pointer for missing in found] == ["/battens"]


@pytest.mark.parametrize(("name", "assumed"), [("stack", True), ("wide_only", False)])
def test_a_derived_value_is_assumed_only_where_it_reads_something_assumed(name: str, assumed: bool) -> None:
    row = shelf(batten=known(45, at="/batten", assumed=name == "stack"), wide=known(300, assumed=True))
    found = derived(row, "stack")
    assert isinstance(found, Known)
    assert found.rests_on_assumption is assumed


def test_a_doubt_that_comes_in_twice_counts_once() -> None:
    """A niche as wide as the stack and 10 more: whatever the batten turns out to be, 10 are left."""
    batten = known(40, 50, "/batten")
    stack = derived(shelf(batten=batten), "stack")
    wider = derived(shelf(batten=batten, boards=several(known(18), known(22), known(10))), "stack")
    assert ends(wider) == (90, 100)
    assert ends(derived(Gap(SUBJECT, niche=wider, shelf=stack, trim=known(0)), "gap")) == (10, 10)


def test_two_readings_of_the_same_value_are_one_doubt() -> None:
    """The same line of the plan read twice, under two labels, is not two doubts."""
    niche, shelf_ = known(600, 606, "/niche"), known(600, 606, "/niche")
    assert ends(derived(Gap(SUBJECT, niche=niche, shelf=shelf_, trim=known(4)), "gap")) == (-4, -4)


def test_a_product_of_two_ranges_is_taken_at_its_corners() -> None:
    row = shelf(batten=known(40, 50, "/batten"), boards=several(known(0)), wide=known(2, 3, "/wide"))
    assert ends(derived(row, "face")) == (80, 150)


def test_what_divides_by_zero_is_not_known_to_another_row_whatever_stands_beside_it() -> None:
    """Nothing wide shares nothing; with a width of 0 to 2, one end of the range cannot be worked out."""
    for wide in (known(0), known(0, 2, "/wide"), known(2, 0, "/wide")):
        found = derived(Shared(SUBJECT, most=known(5), boards=known(10), wide=wide), "share")
        assert isinstance(found, tuple)
        assert [gap.why for gap in found] == [Why.UNCLEAR]


def test_the_thickest_piece_is_taken_at_its_corners() -> None:
    row = shelf(batten=known(10, 30, "/batten"))
    assert ends(derived(row, "thickest")) == (22, 30)


def test_the_working_of_a_value_at_one_end_is_shown_at_that_end() -> None:
    found = derived(shelf(batten=known(40, 50, "/batten")), "stack")
    gap = Gap(SUBJECT, niche=known(100), shelf=found, trim=known(0))
    worst = min(gap.corners(), key=lambda corner: corner.gap)
    behind = at_this_end(worst.known["shelf"])
    assert behind is not None
    row, name = behind
    assert getattr(row, name) == worst.shelf == 90
    assert row.known["batten"].value == 50


def _span(low_and_width: tuple[int, int]) -> tuple[float, float]:
    return float(low_and_width[0]), float(sum(low_and_width))


SPANS = st.tuples(st.integers(-500, 500), st.integers(0, 60)).map(_span)


@for_all(st.lists(SPANS, min_size=1, max_size=4), SPANS, SPANS)
def test_derived_ranges_hold_every_value_and_reach_both_ends(
    boards: list[tuple[float, float]], batten: tuple[float, float], trim: tuple[float, float]
) -> None:
    """Against brute force over every end of every value that the plan gives."""
    leaves = [("/batten", batten), ("/trim", trim), *((f"/{number}", span) for number, span in enumerate(boards))]
    value = {pointer: known(*span, pointer) for pointer, span in leaves}
    stack = derived(shelf(batten=value["/batten"], boards=several(*(value[p] for p, _ in leaves[2:]))), "stack")
    row = Gap(SUBJECT, niche=stack, shelf=value["/batten"], trim=value["/trim"])
    every = [sum(chosen[2:]) - chosen[1] for chosen in itertools.product(*(sorted(set(span)) for _, span in leaves))]
    low, high = ends(derived(row, "gap"))
    assert low == pytest.approx(min(every))
    assert high == pytest.approx(max(every))


@pytest.mark.parametrize(
    ("function", "values", "expected"),
    [(total, (3.0, 4.0, 5.5), 12.5), (least, (3.0, 4.0, 5.5), 3.0), (most, (3.0, 4.0, 5.5), 5.5), (total, (), 0.0)],
)
def test_functions_of_lists_give_the_same_plain_and_traced(
    function: Callable[..., float], values: tuple[float, ...], expected: float
) -> None:
    assert function(values) == expected
    traced = function(tuple(Step(value, LENGTH) for value in values))
    assert (traced.value if isinstance(traced, Step) else traced) == expected


@pytest.mark.parametrize(("value", "whole"), [(2.0, 2.0), (2.1, 3.0), (2.0 + 1e-12, 2.0), (-0.5, 0.0)])
def test_whole_up(value: float, whole: float) -> None:
    assert whole_up(value) == whole
    traced: object = whole_up(Step(value, NUMBER))  # type: ignore[arg-type]
    assert isinstance(traced, Step)
    assert traced.value == whole


def test_the_root_of_an_area_is_a_length() -> None:
    traced: object = root(Step(9.0, AREA))  # type: ignore[arg-type]
    assert isinstance(traced, Step)
    assert (traced.value, traced.dimension) == (3.0, LENGTH)
    assert root(9.0) == 3.0


def test_the_least_of_a_length_and_a_slope_is_a_fault() -> None:
    with pytest.raises(WrongDimension):
        least(Step(3.0, LENGTH), Step(0.02, SLOPE))
