"""Each short form of an element says the same as its long form."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from tests.plan.plans import plan, problems
from validator.plan.elements import Element, Section
from validator.plan.sections.appliances import Appliance, Waste
from validator.plan.sections.furniture import Item, Joint, LegSetting, Run, Seal, Worktop
from validator.plan.sections.project import Project
from validator.plan.sections.room import Ceiling, Covering, Floor, Layer, MoistureReading, Wall
from validator.plan.sections.services import Circuit, Point
from validator.plan.sections.work import Coat, Coating, Fixing, Hole, Plug, Screw, Task, Work
from validator.plan.values import NothingStated, Quantity, ToFind


def read(model: type[Element], written: object, names: dict[str, dict[str, str]] | None = None) -> Any:
    return model.model_validate(written, context={"lengths in": "mm", "names": names or {}})


@pytest.mark.parametrize(
    ("model", "short", "long"),
    [
        (Layer, "skim 3", {"material": "skim", "thickness": "3"}),
        (Layer, "dabs 12 to 28", {"material": "dabs", "thickness": "12 to 28"}),
        (Layer, "lime plaster 25 assumed", {"material": "lime plaster", "thickness": "25 assumed"}),
        (Layer, "plywood 3/4 in", {"material": "plywood", "thickness": "3/4 in"}),
        (Layer, "type 2 board 12", {"material": "type 2 board", "thickness": "12"}),
        (Layer, "dabs to find out by plasterer", {"material": "dabs", "thickness": "to find out by plasterer"}),
        (Layer, "brick", {"material": "brick"}),
        (Ceiling, "2371", {"height": "2371"}),
        (Ceiling, ["2378", "2371"], {"height": ["2378", "2371"]}),
        (MoistureReading, "74 % by hygrometer", {"reading": "74 %", "meter": "hygrometer"}),
        (
            MoistureReading,
            "1.9 % by carbide on 2026-06-30",
            {"reading": "1.9 %", "meter": "carbide", "taken": "2026-06-30"},
        ),
        (LegSetting, "150 at high spot", {"setting": "150", "at": "high spot"}),
        (LegSetting, "150", {"setting": "150"}),
        (Joint, "butt at 3000 from west", {"is": "butt", "at": "3000 from west"}),
        (Joint, "masons mitre", {"is": "masons mitre"}),
        (Joint, "Masons  Mitre with hob top", {"is": "masons mitre", "with": "hob top"}),
        (Joint, "seam at 60 in from west", {"is": "butt", "at": "60 in from west"}),
        (Seal, "8, class 25", {"width": "8", "class": "25"}),
        (Seal, "10 class 12.5", {"width": "10", "class": "12.5"}),
        (Plug, "frame fixing 10 x 115", {"type": "frame fixing", "diameter": "10", "length": "115"}),
        (Plug, "10 x 115", {"diameter": "10", "length": "115"}),
        (Plug, "frame fixing", {"type": "frame fixing"}),
        (Screw, "5 x 80", {"diameter": "5", "length": "80"}),
        (Screw, "no. 10 x 75", {"gauge": "no. 10", "length": "75"}),
        (Hole, "8 x 90", {"diameter": "8", "depth": "90"}),
        (Hole, "8x90", {"diameter": "8", "depth": "90"}),
        (Coat, "35 % water", {"water": "35 % water"}),
        (Coat, "25 % of mix", {"water": "25 % of mix"}),
        (Coat, "3 to 1", {"water": "3 to 1"}),
        (Coat, "neat", {"water": "neat"}),
        (Coat, "matt 10 % water", {"product": "matt", "water": "10 % water"}),
        (Coat, "matt neat", {"product": "matt", "water": "neat"}),
        (Coat, "undercoat", {"product": "undercoat"}),
        (
            Waste,
            "40 mm to stack 1750 at 19 mm/m",
            {"pipe": "40 mm", "to": "stack", "length": "1750", "fall": "19 mm/m"},
        ),
        (Waste, "40 mm to stack behind the wall", {"pipe": "40 mm", "to": "stack behind the wall"}),
        (
            Waste,
            "40 mm to gully to find out at 19 mm/m",
            {"pipe": "40 mm", "to": "gully", "length": "to find out", "fall": "19 mm/m"},
        ),
        (Waste, "into sink trap", {"to": "sink trap"}),
    ],
)
def test_the_short_form_is_the_long_form(model: type[Element], short: object, long: dict[str, object]) -> None:
    assert without_texts(read(model, short)) == without_texts(read(model, long))


def without_texts(element: Element) -> dict[str, object]:
    """The fields of an element; of quantities what they come to, since the two forms are not written alike."""
    return {
        name: (value.low, value.high, value.dimension, value.assumed) if isinstance(value, Quantity) else value
        for name, value in element
    }


@pytest.mark.parametrize(
    ("model", "open_fields"),
    [
        (Layer, ["material"]),
        (Wall, ["made_of", "length"]),
        (MoistureReading, ["reading"]),
        (LegSetting, ["setting"]),
        (Joint, ["is_"]),
        (Seal, ["width", "class_"]),
        (Plug, ["diameter", "length"]),
        (Hole, ["diameter", "depth"]),
        (Waste, ["pipe", "length", "fall"]),
    ],
)
def test_to_find_out_in_place_of_a_thing_leaves_its_figures_open(model: type[Element], open_fields: list[str]) -> None:
    element = read(model, "to find out by plumber")
    assert [getattr(element, field) for field in open_fields] == [ToFind("plumber", "to find out by plumber")] * len(
        open_fields
    )


@pytest.mark.parametrize(
    ("model", "field"), [(Covering, "laid"), (Floor, "heated"), (Circuit, "laid"), (Circuit, "conductor")]
)
def test_to_find_out_may_stand_where_a_word_may(model: type[Element], field: str) -> None:
    assert getattr(read(model, {field: "to find out by joiner"}), field) == ToFind("joiner", "to find out by joiner")


def test_to_find_out_in_place_of_a_name_is_as_if_it_were_left_out() -> None:
    assert read(Circuit, {"serves": "to find out by electrician"}).serves is None
    assert read(Appliance, {"supply": "to find out"}).supply is None


@pytest.mark.parametrize(
    ("model", "written"), [(Layer, "skim 3 plasterboard 12.5"), (Layer, "skim 3 brick"), (Coat, "10 % water neat")]
)
def test_two_entries_without_a_comma_between_them_are_refused(model: type[Element], written: str) -> None:
    with pytest.raises(ValidationError, match="run into one"):
        read(model, written)


def test_a_list_of_layers_in_one_text_is_refused() -> None:
    with pytest.raises(ValidationError, match="a layer is written as its material"):
        read(Layer, "skim 3, brick 102")


@pytest.mark.parametrize(
    ("written", "names"),
    [
        ("all sockets", ("all sockets",)),
        ("all sockets and C1", ("all sockets", "C1")),
        ("all sockets and C1 C2", ("all sockets", "C1", "C2")),
        ("all sockets, C1, C2", ("all sockets", "C1", "C2")),
        ("C1 waste and drain point c2", ("C1", "waste and drain point", "C2")),
        (["C1", "all sockets"], ("C1", "all sockets")),
        ("all receptacles", ("all sockets",)),
        ("C1 and C9", ("C1", "C9")),
        ("C1 the old fan C2", ("C1", "the old fan", "C2")),
    ],
)
def test_a_line_of_names_is_taken_apart_where_known_names_end(written: object, names: tuple[str, ...]) -> None:
    known = {"points": {"c1": "C1", "c2": "C2", "waste and drain point": "waste and drain point"}}
    assert read(Circuit, {"serves": written}, known).serves == names


def test_names_with_the_same_start_are_told_apart_by_the_longer_one() -> None:
    known = {"runs": {"wall": "wall", "wall units": "wall units"}}
    assert read(Fixing, {"for": "wall units wall"}, known).for_ == ("wall units", "wall")


@pytest.mark.parametrize(
    ("written", "walls"), [("all", ("all",)), ("river", ("river",)), (["river", "lane"], ("river", "lane"))]
)
def test_walls_are_all_or_named(written: object, walls: tuple[str, ...]) -> None:
    assert read(Coating, {"walls": written}).walls == walls


def test_somebody_or_several_do_a_task() -> None:
    assert read(Task, {"by": "electrician"}).by == ("electrician",)
    assert read(Task, {"by": ["electrician", "plumber"]}).by == ("electrician", "plumber")


def test_every_key_of_the_work_that_is_not_its_own_is_a_task() -> None:
    work = read(Work, {"Order": "usual", "strip out": {"takes": "2 days"}, "paint": {"by": "householder"}})
    assert (work.order, list(work.tasks)) == ("usual", ["strip out", "paint"])


def test_units_without_legs_say_none() -> None:
    assert read(Item, {"is": "bench", "family": "unit", "legs": "none"}).legs == NothingStated("none")
    assert read(Run, {"against": "yard", "legs": "none", "order": {}}).legs.setting == NothingStated("none")


def test_tops_are_level_with_another_unit_or_at_a_height() -> None:
    assert read(Run, {"against": "lane", "tops": "level with T1", "order": {}}).tops == "T1"
    assert read(Run, {"against": "lane", "tops": "2110 from bare floor", "order": {}}).tops.amount.low == 2110


def test_work_may_be_none() -> None:
    assert read(Work, "none").tasks == {}


def test_a_worktop_is_of_the_kind_worktop_unless_it_says_so() -> None:
    assert read(Worktop, {"on": "river run"}).is_ == "worktop"


@pytest.mark.parametrize("key", ["void behind", "void_behind", "void-behind", "Void Behind", "VOID  BEHIND"])
def test_keys_compare_as_names_do(key: str) -> None:
    assert read(Item, {"is": "door", "family": "unit", key: "55"}).void_behind.low == 55


@pytest.mark.parametrize(
    ("model", "theirs", "ours"),
    [
        (Item, {"is": "base", "family": "unit", "toe kick": "145"}, {"is": "base", "family": "unit", "plinth": "145"}),
        (Circuit, {"breaker": "20 A", "gfci": "5 mA"}, {"device": "20 A", "rcd": "5 mA"}),
        (Point, {"is": "outlet", "gfci": "yes"}, {"is": "outlet", "rcd": "yes"}),
        (Appliance, {"is": "range hood"}, {"is": "hood"}),
        (Appliance, {"is": "Gas Cooktop", "cutout": "560 x 490"}, {"is": "gas hob", "cut-out": "560 x 490"}),
        (Appliance, {"is": "faucet"}, {"is": "tap"}),
        (Appliance, {"drain": "40 mm to stack"}, {"waste": "40 mm to stack"}),
        (Covering, {"laid": "before cabinets"}, {"laid": "before units"}),
        (Wall, {"blocking": [{"up": "77"}]}, {"noggins": [{"up": "77"}]}),
        (Fixing, {"for": "W1", "anchor": "8 x 60"}, {"for": "W1", "plug": "8 x 60"}),
    ],
)
def test_american_words_mean_the_same(model: type[Element], theirs: object, ours: object) -> None:
    assert read(model, theirs) == read(model, ours)


@given(st.permutations(["length", "made of", "note"]), st.sampled_from(["{}", "{} ", " {}"]))
def test_the_order_of_keys_changes_nothing(keys: list[str], spelling: str) -> None:
    written = {"made of": "brick", "length": "3120", "note": "by tape"}
    assert read(Wall, {spelling.format(key): written[key] for key in keys}) == read(Wall, written)


def test_a_note_may_stand_on_everything() -> None:
    assert read(Project, {"note": "first draft"}).note == "first draft"


def test_an_element_knows_the_pointers_of_its_fields() -> None:
    wall = plan("walls: {river/side: {made of: to find out, length: 3}, b: {length: 2}}\n").walls["river/side"]
    assert (wall.pointer, wall.pointer_to("made_of")) == ("/walls/river~1side", "/walls/river~1side/made of")


def test_a_section_finds_names_however_they_are_spelt() -> None:
    section = Section("/points", {"Ofen-Dose": 1, "Kühlschrank": 2})
    assert section["ofen_dose"] == 1
    assert section["KU\u0308HLSCHRANK"] == 2
    assert "herd" not in section


def test_a_section_left_out_is_not_an_empty_one() -> None:
    left_out, none = plan("").circuits, plan("circuits: none\n").circuits
    assert (left_out.left_out, left_out.none) == (True, False)
    assert (none.left_out, none.none) == (False, True)


@pytest.mark.parametrize(
    ("written", "message", "nearest"),
    [
        ("floor: {moisture: 74 % by hygrometre}", "`hygrometre` cannot stand here", "hygrometer"),
        ("floor: {heated: perhaps}", "`perhaps` cannot stand here", ""),
        ("project: {lengths in: mm, country: gb-wls}", "`gb-wls` is no country code", "GB-WLS"),
        ("project: {lengths in: mm, country: Wales}", "`Wales` is no country code", "GB-WLS"),
        ("project: {lengths in: mm, country: UK}", "`UK` is no country code", "GB"),
        ("project: {lengths in: mm, country: Elsewhere}", "`Elsewhere` is no country code", ""),
        ("project: {lengths in: mm, currency: gbp}", "`gbp` is no currency code", "GBP"),
        ("project: {lengths in: mm, built: 193}", "`193` cannot stand here", ""),
        ("project: {lengths in: mm, built: long ago}", "`long ago` cannot stand here", ""),
        ("project: {lengths in: mm, starts: 2026-02-30}", "2026-02-30 is not in the calendar", ""),
        ("project: {lengths in: miles}", "`miles` cannot stand here", ""),
        ("floors: {cork: {thickness: 6 kg}}", "6 kg is a mass; a length is expected (mm, m, in, ft)", ""),
        ("walls: {a: [1, 2], b: {}}", "a wall is written as `key: value` lines, or in braces", ""),
        ("walls: {a: {length: {x: y}}, b: {}}", "`y` is not a length", ""),
        ("floor: {levels: 9}", "`9` cannot stand here", ""),
        ("coatings: {a: {coats: neat}}", "`neat` cannot stand here", ""),
        ("fixings: {a: {at: hangers}}", "a fixing needs `for`", ""),
    ],
)
def test_what_cannot_stand_is_said_in_plain_words(written: str, message: str, nearest: str) -> None:
    assert [
        each[1:]
        for each in problems(
            f"{written}\n",
            head="dryfit: 1\nheights from: bare floor\n"
            + ("" if written.startswith("project") else "project: {lengths in: mm}\n"),
        )
    ] == [(message, nearest)]
