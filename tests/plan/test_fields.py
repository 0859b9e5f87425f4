"""Fields of a plan, read by pydantic from the text a person wrote."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from validator.plan import dimensions as dim
from validator.plan.fields import (
    Along,
    AnyQuantity,
    Current,
    Date,
    Height,
    Length,
    Level,
    MakersLength,
    Size,
    StatedFigure,
    Term,
)
from validator.plan.units import PERCENT
from validator.plan.values import NothingStated, Quantity, ToFind


def read(kind: Any, written: object, lengths_in: str | None = "mm") -> Any:
    return TypeAdapter(kind).validate_python(written, context={"lengths in": lengths_in})


def refused(kind: Any, written: object, lengths_in: str | None = "mm") -> tuple[str, str]:
    """The message and the nearest valid form of the one refusal."""
    with pytest.raises(ValidationError) as raised:
        read(kind, written, lengths_in)
    (error,) = raised.value.errors()
    assert error["type"] == "plan"
    assert error["ctx"]["expected"]
    return error["msg"], error["ctx"]["nearest"]


def length(figure: float, text: str | None = None, *, assumed: bool = False) -> Quantity:
    return Quantity(figure, figure, dim.LENGTH, f"{figure:g}" if text is None else text, assumed)


# Quantities -----------------------------------------------------------------------------------------------------------


def test_a_number_alone_is_a_length_in_the_unit_of_the_plan() -> None:
    assert read(Length, "34-1/2", "in") == length(876.3, "34-1/2")


def test_a_number_of_the_file_format_is_as_good_as_its_text() -> None:
    assert read(Length, 600) == read(Length, "600")
    assert read(Length, 12.5) == read(Length, "12.5")


def test_without_a_unit_in_the_plan_a_number_alone_is_refused() -> None:
    message = "600 has no unit: say the unit, or write `lengths in: mm` under project"
    assert refused(Length, "600", None) == (message, "")


def test_a_field_may_be_left_out_of_the_plan() -> None:
    assert read(Length | None, None) is None


def test_readings_come_as_a_list() -> None:
    found = read(Length, ["4522", "4518", 4516])
    assert (found.low, found.high, found.readings) == (4516.0, 4522.0, (4522.0, 4518.0, 4516.0))


def test_to_find_out_may_stand_for_any_quantity() -> None:
    assert read(Date, "to find out by joiner") == ToFind("joiner", "to find out by joiner")


def test_none_may_stand_only_where_a_field_takes_it() -> None:
    assert read(MakersLength, "none") == NothingStated("none")
    assert refused(Length, "none") == ("`none` cannot stand here", "")


def test_only_levels_are_low_or_high() -> None:
    assert read(Level, "4 high") == length(-4.0, "4 high")
    assert refused(Length, "600 high") == ("`600 high`: only levels of a floor are low or high", "")


def test_a_unit_in_the_wrong_case_is_named() -> None:
    message = "`32 a`: capital and small letters differ in units: A, not a"
    assert refused(Current, "32 a") == (message, "A")


@pytest.mark.parametrize(
    ("written", "message"),
    [
        (True, "True cannot stand here"),
        ({"width": "600"}, "a group of keys cannot stand here"),
        ([["600"]], "a list cannot stand here"),
        (float("nan"), "`nan`: that is no number"),
        ("", "nothing is written here"),
    ],
)
def test_what_is_no_text_is_refused(written: object, message: str) -> None:
    assert refused(Length, written) == (message, "")


def test_braces_in_a_text_are_repeated_as_they_stand() -> None:
    assert refused(Length, "{0} {x}")[0] == "`{0} {x}` is not a length"


def test_a_figure_of_any_kind_is_known_by_its_unit() -> None:
    assert read(AnyQuantity, "250") == length(250.0)
    assert read(AnyQuantity, "35 %").dimension is PERCENT
    assert refused(AnyQuantity, "to find out") == ("`to find out`: a figure has to stand here", "")


def test_a_term_is_a_word_or_to_find_out() -> None:
    assert read(Term, " gas  hob ") == "gas hob"
    assert read(Term, "to find out by gas engineer") == ToFind("gas engineer", "to find out by gas engineer")
    assert refused(Term, "  ") == ("nothing is written here", "")


# Places along a wall --------------------------------------------------------------------------------------------------


def test_a_place_is_measured_from_a_named_wall() -> None:
    assert read(Along, "1950 from west") == Along(length(1950.0), "west")
    assert read(Along, "21-1/2 from north wall", "in") == Along(length(546.1, "21-1/2"), "north wall")


def test_a_run_may_start_at_the_fronts_of_another() -> None:
    assert read(Along, "fronts of sink run") == Along(length(0.0, "fronts of sink run"), "", "sink run")


@pytest.mark.parametrize("written", ["1950 assumed from west", "1950 from west assumed"])
def test_assumed_belongs_to_the_figure_wherever_it_stands(written: str) -> None:
    assert read(Along, written) == Along(length(1950.0, "1950 assumed", assumed=True), "west")


def test_a_place_may_be_to_find_out() -> None:
    assert read(Along, "to find out") == Along(ToFind(None, "to find out"), "")
    assert read(Along, "to find out by joiner from west") == Along(ToFind("joiner", "to find out by joiner"), "west")


@pytest.mark.parametrize(
    ("written", "message"),
    [
        ("1950", "`1950`: say from which wall"),
        ("1950 from", "`1950 from`: nothing stands behind `from`"),
        ("from west", "`from west` has no figure"),
        ("1950 above worktop", "`1950 above worktop`: a place along a wall is measured from a wall"),
        ("12 A from west", "12 A is a current; a length is expected (mm, m, in, ft)"),
        (
            "20 from fronts of sink run",
            "`20 from fronts of sink run`: `fronts of sink run` stands alone, without a figure",
        ),
    ],
)
def test_a_place_that_cannot_be_read_is_refused(written: str, message: str) -> None:
    assert refused(Along, written)[0] == message


# Heights --------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("written", "height"),
    [
        ("1060", Height(length(1060.0))),
        ("1060 from bare floor", Height(length(1060.0), "from", "bare floor")),
        ("1060 from Finished-Floor", Height(length(1060.0), "from", "finished floor")),
        ("150 above worktop", Height(length(150.0), "above", "worktop")),
        ("150 above the countertop", Height(length(150.0), "above", "worktop")),
        ("340 below ceiling", Height(length(340.0), "below", "ceiling")),
        ("340 below ceiling assumed", Height(length(340.0, "340 assumed", assumed=True), "below", "ceiling")),
        ("to find out", Height(ToFind(None, "to find out"))),
    ],
)
def test_a_height_says_what_it_is_measured_from(written: str, height: Height) -> None:
    assert read(Height, written) == height


def test_above_a_floor_is_from_a_floor() -> None:
    assert read(Height, "900 above finished floor") == read(Height, "900 from finished floor")


def test_the_height_of_a_ceiling_may_be_several_readings() -> None:
    assert read(Height, ["2405", "2398"]).amount.readings == (2405.0, 2398.0)


@pytest.mark.parametrize(
    ("written", "message", "nearest"),
    [
        ("340 from ceiling", "`from ceiling` is no way to say a height", "below ceiling"),
        ("150 from worktop", "`from worktop` is no way to say a height", "above worktop"),
        ("150 above worktp", "`above worktp` is no way to say a height", "above worktop"),
        ("150 above", "`150 above`: nothing stands behind `above`", ""),
        ("150 over worktop", "`150 over worktop`: over worktop is not a unit that is read here", ""),
    ],
)
def test_a_height_that_cannot_be_read_is_refused(written: str, message: str, nearest: str) -> None:
    assert refused(Height, written) == (message, nearest)


# Sizes ----------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "written", ["598 w x 820 h x 550 d", "550 d x 598 w x 820 h", "598w × 820h × 550d", "820 H X 550 D X 598 W"]
)
def test_a_size_of_three_comes_in_any_order(written: str) -> None:
    assert read(Size, written) == Size(length(598.0), length(820.0), length(550.0))


def test_a_size_may_give_some_of_the_three() -> None:
    assert read(Size, "340 w x 400 d") == Size(w=length(340.0), d=length(400.0))


def test_a_figure_of_a_size_may_be_a_range() -> None:
    size = read(Size, "598 w x 820 to 870 h x 550 d")
    assert (size.h.low, size.h.high) == (820.0, 870.0)


def test_two_figures_alone_are_width_by_height() -> None:
    assert read(Size, "146 x 86") == Size(w=length(146.0), h=length(86.0))


def test_each_figure_of_a_size_has_its_unit() -> None:
    assert read(Size, '29-7/8 in w x 36" h', None) == Size(w=length(758.825, "29-7/8 in"), h=length(914.4, '36"'))


def test_an_assumed_size_is_assumed_in_every_figure() -> None:
    size = read(Size, "146 x 86 assumed")
    assert (size.w.assumed, size.h.assumed) == (True, True)


def test_a_size_to_find_out_leaves_all_three_open() -> None:
    unknown = ToFind("you", "to find out by you")
    assert read(Size, "to find out by you") == Size(unknown, unknown, unknown)


@pytest.mark.parametrize(
    ("written", "message"),
    [
        (
            "598 x 820 x 550",
            "`598 x 820 x 550`: say which is which (w, h, d), because makers' papers differ in the order",
        ),
        ("598 w x 820 x 550 d", "`598 w x 820 x 550 d`: give every figure its letter (w, h, d)"),
        ("598 w x 820 w", "`598 w x 820 w`: w stands there twice"),
        ("598", "`598` is not a size"),
        ("146 x 86 mm", "`146 x 86 mm`: say the unit of every figure, or of none"),
        ("12 A w x 3 A h", "12 A is a current; a length is expected (mm, m, in, ft)"),
    ],
)
def test_a_size_that_can_be_read_in_two_ways_is_refused(written: str, message: str) -> None:
    assert refused(Size, written) == (message, "")


# Makers' figures ------------------------------------------------------------------------------------------------------


def test_a_makers_figure_says_what_it_is_measured_from() -> None:
    assert read(StatedFigure, "650 from pan supports") == StatedFigure(length(650.0), "pan supports")
    assert read(StatedFigure, "650") == StatedFigure(length(650.0))


def test_a_paper_read_without_a_figure_differs_from_one_unread() -> None:
    assert read(StatedFigure, "none") == StatedFigure(NothingStated("none"))
    assert read(StatedFigure, "to find out") == StatedFigure(ToFind(None, "to find out"))


def test_a_makers_figure_that_cannot_be_read_is_refused() -> None:
    assert refused(StatedFigure, "none from hob")[0] == "`none from hob`: `none` stands alone"
    assert refused(StatedFigure, "650 above hob")[0] == "`650 above hob`: write `from` and what the maker measures from"


# Anything at all ------------------------------------------------------------------------------------------------------

_LINE = (
    "600 34-1/2 A mm x × w h d from above below west ceiling worktop bare floor fronts of none assumed low - ' {} ½ ²"
)
_WORDS = st.sampled_from([*_LINE.split(), "to find out", "by", '"', "\x00"])
_WRITTEN = st.one_of(
    st.lists(_WORDS, max_size=9).map(" ".join),
    st.text(max_size=30),
    st.floats(),
    st.lists(st.text(max_size=5), max_size=3),
)


@settings(max_examples=300)
@given(written=_WRITTEN, kind=st.sampled_from([Along, Height, Size, StatedFigure, Length, Level, Term, AnyQuantity]))
def test_anything_is_read_or_refused_in_our_own_words(written: object, kind: Any) -> None:
    errors: list[str] = []
    try:
        read(kind, written)
    except ValidationError as error:
        errors = [found["type"] for found in error.errors()]
    assert errors in ([], ["plan"])
