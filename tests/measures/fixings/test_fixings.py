"""How deep fixings sit in what carries: layer by layer, at both ends of what is not certain.

Every figure here is a sum that can be followed by hand; which layers carry and which do not is common practice.
"""

from __future__ import annotations

import pytest

from tests.measures.plans import ends, gaps, known, left_out, row, rows, to_find, working
from validator.measures.rows import Why

KIND = "fixing in a wall"

ROOM = """
layers:
  lined block: [skim 2.5, plasterboard 12.5, dabs 8 to 22, dense block 100]
  plastered brick: [skim 3, undercoat plaster 11, brick 215]
  partition: [plasterboard 12.5, stud 89, plasterboard 12.5]
walls:
  north: {made of: lined block, length: 4100}
  east: {made of: plastered brick, length: 2900}
  south: {made of: lined block, length: 4100}
  west: {made of: partition, length: 2900}
kinds:
  wall: {height: 700, depth: 320, hangers: {down: 40, in: 35}}
  tall: {height: 2000, depth: 580}
"""

NORTH = """
runs:
  upper run: {against: north, underside: 1500 from bare floor, order: {W1: wall 450, W2: wall 600}}
"""

RAIL = "fixings: {rail: {for: upper run, at: hangers, through: 2, plug: frame fixing 10 x 120, hole: 10 x 135}}"


def test_a_frame_fixing_reaches_through_the_rail_and_every_layer_that_carries_nothing() -> None:
    rail = row(ROOM + NORTH + RAIL, KIND)
    assert rail.base == "dense block"
    assert ends(rail, "embedment") == (120 - 2 - 2.5 - 12.5 - 22, 120 - 2 - 2.5 - 12.5 - 8)


def test_the_working_names_the_fixing_the_rail_and_each_layer_in_order() -> None:
    rail = row(ROOM + NORTH + RAIL, KIND)
    assert working(rail, "embedment") == [
        (120, "long"),
        (2, "rail"),
        (2.5, "skim"),
        (12.5, "plasterboard"),
        (8, "dabs"),
    ]


def test_the_hole_ends_behind_the_tip_whatever_the_layers_are() -> None:
    assert ends(row(ROOM + NORTH + RAIL, KIND), "hole_past_tip") == (135 + 2 - 120, 135 + 2 - 120)


def test_what_is_left_of_the_block_behind_the_hole_is_least_where_the_dabs_are_thinnest() -> None:
    rail = row(ROOM + NORTH + RAIL, KIND)
    assert ends(rail, "left_behind") == (2.5 + 12.5 + 8 + 100 - 135, 2.5 + 12.5 + 22 + 100 - 135)


def test_one_fixing_in_two_make_ups_of_wall_has_a_row_for_each() -> None:
    runs = """
runs:
  window run: {against: north, underside: 1500 from bare floor, order: {W1: wall 450}}
  door run: {against: east, underside: 1500 from bare floor, order: {W2: wall 450}}
fixings: {rail: {for: wall units, through: 2, plug: frame fixing 10 x 120}}
"""
    found = rows(ROOM + runs, KIND)
    assert [(entry.subject.context, entry.base) for entry in found] == [
        ("north wall", "dense block"),
        ("east wall", "brick"),
    ]
    assert found[1].embedment == 120 - 2 - 3 - 11


def test_two_walls_of_one_make_up_share_a_row() -> None:
    runs = """
runs:
  window run: {against: north, underside: 1500 from bare floor, order: {W1: wall 450}}
  sink run: {against: south, underside: 1500 from bare floor, order: {W2: wall 450}}
fixings: {rail: {for: wall units, through: 2, plug: frame fixing 10 x 120}}
"""
    assert [entry.subject.context for entry in rows(ROOM + runs, KIND)] == ["north and south walls"]


def test_wall_units_are_told_from_tall_units() -> None:
    runs = """
runs:
  upper run: {against: east, underside: 1500 from bare floor, order: {W1: wall 450}}
  end run: {against: east, order: {T1: tall 600}}
fixings:
  rail: {for: wall units, through: 2, plug: frame fixing 10 x 120}
  brackets: {for: tall units, through: 2, plug: frame fixing 8 x 80}
"""
    found = rows(ROOM + runs, KIND)
    assert [(entry.subject.name, entry.carries) for entry in found] == [
        ("rail", "wall units"),
        ("brackets", "tall units"),
    ]


def test_a_hood_is_fixed_to_the_wall_behind_the_hob_it_hangs_over() -> None:
    hob = """
runs:
  range run: {against: east, order: {hob: 600}}
appliances:
  hob: {is: induction hob}
  hood: {is: chimney hood, over: hob}
fixings: {bracket: {for: hood, through: 3, plug: frame fixing 8 x 80}}
"""
    bracket = row(ROOM + hob, KIND)
    assert (bracket.base, bracket.carries) == ("brick", "hoods")
    assert bracket.embedment == 80 - 3 - 3 - 11


def test_a_plug_with_a_screw_holds_no_deeper_than_the_plug() -> None:
    plug = "fixings: {rail: {for: upper run, through: 2, plug: nylon 10 x 60, screw: 7 x 130}}"
    rail = row(ROOM + NORTH + plug, KIND)
    assert rail.kind_of == "plug and screw"
    assert ends(rail, "embedment") == (60, 60)


def test_a_plug_with_a_screw_too_short_for_it_holds_as_deep_as_the_screw() -> None:
    plug = "fixings: {rail: {for: upper run, through: 2, plug: nylon 10 x 60, screw: 7 x 90}}"
    assert ends(row(ROOM + NORTH + plug, KIND), "embedment") == (51, 60)


STUDS = """
runs:
  upper run: {against: west, underside: 1500 from bare floor, order: {W1: wall 450}}
"""


def test_a_screw_into_studs_passes_the_board() -> None:
    screw = "fixings: {rail: {for: upper run, into: studs, through: 16, screw: 5 x 70}}"
    rail = row(ROOM + STUDS + screw, KIND)
    assert (rail.kind_of, rail.base) == ("wood screw", "stud")
    assert rail.embedment == 70 - 16 - 12.5


def test_a_screw_that_does_not_say_what_it_goes_into_is_not_known() -> None:
    screw = "fixings: {rail: {for: upper run, through: 16, screw: 5 x 70}}"
    assert to_find(row(ROOM + STUDS + screw, KIND), "embedment") == {"/fixings/rail/into"}


def test_a_screw_into_noggins_that_no_layer_shows_is_not_known() -> None:
    screw = "fixings: {rail: {for: upper run, into: noggins, through: 16, screw: 5 x 70}}"
    (gap,) = gaps(row(ROOM + STUDS + screw, KIND), "base")
    assert (gap.pointer, gap.why) == ("/walls/west/made of", Why.UNCLEAR)


def test_a_layer_nobody_knows_the_strength_of_is_a_question_and_neither_carries_nor_counts() -> None:
    room = ROOM.replace("dense block 100]", "clinker slab 100]", 1)
    rail = row(room + NORTH + RAIL, KIND)
    (gap,) = gaps(rail, "base")
    assert gap.why is Why.UNCLEAR
    assert gap.detail == "does clinker slab carry, or does the fixing have to go through it?"
    assert "base" not in rail.known
    assert "coverings" not in rail.known


@pytest.mark.parametrize(
    ("written", "without", "figure", "pointer"),
    [
        ("through: 2, ", "", "embedment", "/fixings/rail/through"),
        (", hole: 10 x 135", "", "hole_past_tip", "/fixings/rail/hole"),
        ("frame fixing 10 x 120", "{type: frame fixing, diameter: 10}", "embedment", "/fixings/rail/plug/length"),
        ("plug: frame fixing 10 x 120, ", "", "kind_of", "/fixings/rail"),
        ("dense block 100]", "dense block]", "left_behind", "/layers/lined block/3/thickness"),
        ("dabs 8 to 22", "dabs", "embedment", "/layers/lined block/2/thickness"),
        ("dabs 8 to 22", "dabs to find out by plasterer", "embedment", "/layers/lined block/2/thickness"),
        ("north: {made of: lined block, ", "north: {", "embedment", "/walls/north/made of"),
    ],
)
def test_what_the_plan_leaves_out_is_to_find_out_at_its_place(
    written: str, without: str, figure: str, pointer: str
) -> None:
    plan = ROOM + NORTH + RAIL
    assert written in plan
    assert pointer in to_find(row(plan.replace(written, without, 1), KIND), figure)


def test_a_makers_figure_counts_once_it_is_read() -> None:
    stated = "stated: {rail: {read: box of the fixings, embedment: 70}}"
    assert row("\n".join((ROOM, NORTH, RAIL, stated)), KIND).maker_embedment == 70


@pytest.mark.parametrize(
    ("stated", "why"),
    [
        ("", Why.UNREAD),
        ("stated: {rail: {read: box of the fixings, hole depth: 80}}", Why.UNREAD),
        ("stated: {rail: {read: box of the fixings, embedment: none}}", Why.NOTHING_STATED),
    ],
)
def test_a_makers_paper_is_unread_or_gives_no_figure(stated: str, why: Why) -> None:
    rail = row("\n".join((ROOM, NORTH, RAIL, stated)), KIND)
    assert [gap.why for gap in gaps(rail, "maker_embedment")] == [why]


def test_hung_units_that_no_fixing_is_for_are_not_passed_over() -> None:
    hung = row(ROOM + NORTH + "fixings: none", KIND)
    assert (hung.subject.name, hung.carries) == ("upper run", "wall units")
    assert to_find(hung, "embedment") == {"/fixings"}


def test_a_hung_unit_beside_one_that_is_held_is_not_passed_over() -> None:
    plug = "fixings: {rail: {for: W1, through: 2, plug: frame fixing 10 x 120}}"
    rail, loose = rows(ROOM + NORTH + plug, KIND)
    assert rail.subject.name == "rail"
    assert [gap.label for gap in gaps(loose, "kind_of")] == ["what holds W2"]


def test_a_plan_without_fixings_says_so_and_makes_no_rows() -> None:
    assert left_out(ROOM + NORTH, KIND) == ["/fixings"]
    assert rows(ROOM + NORTH, KIND) == []


def test_every_value_names_its_place_in_the_plan() -> None:
    rail = row(ROOM + NORTH + RAIL, KIND)
    assert known(rail, "length").pointer == "/fixings/rail/plug/length"
    assert [part.pointer for part in known(rail, "coverings").parts] == [
        "/layers/lined block/0/thickness",
        "/layers/lined block/1/thickness",
        "/layers/lined block/2/thickness",
    ]


PARTS = """
layers:
  plastered block: [plaster 13, dense block 100]
  chimney breast: [plaster 13, brick 215]
walls:
  west: {made of: plastered block, parts: [chimney breast from 1200 to 2400], length: 4000}
kinds:
  wall: {height: 700, depth: 320}
fixings: {rail: {for: wall units, through: 2, plug: frame fixing 10 x 120}}
"""


def hung(order: str) -> str:
    return PARTS + f"runs: {{upper run: {{against: west, underside: 1500 from bare floor, order: {{{order}}}}}}}"


def test_a_unit_on_a_part_of_a_wall_is_fixed_in_what_that_part_is_made_of() -> None:
    found = rows(hung("G: gap 1300, W1: wall 800"), KIND)
    assert [(entry.base, entry.subject.context) for entry in found] == [("brick", "west wall, chimney breast")]


def test_a_unit_beside_a_part_of_a_wall_is_fixed_in_what_the_wall_is_made_of() -> None:
    found = rows(hung("W1: wall 1200"), KIND)
    assert [(entry.base, entry.subject.context) for entry in found] == [("dense block", "west wall")]


def test_a_unit_across_the_end_of_a_part_is_fixed_in_both() -> None:
    assert {entry.base for entry in rows(hung("W1: wall 1000, W2: wall 600"), KIND)} == {"dense block", "brick"}


def test_a_unit_of_which_nobody_knows_the_place_may_be_on_any_part() -> None:
    assert {entry.base for entry in rows(hung("G: gap, W1: wall 600"), KIND)} == {"dense block", "brick"}


def test_a_part_whose_end_is_not_certain_counts_wherever_it_may_reach() -> None:
    plan = hung("G: gap 1200, W1: wall 1200").replace("from 1200 to 2400", "from 1200")
    assert [entry.base for entry in rows(plan, KIND)] == ["brick"]
    plan = plan.replace("chimney breast from 1200", "{made of: chimney breast, from: 1190 to 1210}", 1)
    assert {entry.base for entry in rows(plan, KIND)} == {"dense block", "brick"}


def test_a_part_of_which_nobody_knows_the_layers_is_a_question_at_its_place() -> None:
    part = "{made of: to find out, from: 1200, to: 2400}"
    plan = hung("G: gap 1200, W1: wall 1200").replace("chimney breast from 1200 to 2400", part)
    assert to_find(row(plan, KIND), "embedment") == {"/walls/west/parts/0/made of"}


def test_a_membrane_needs_no_thickness() -> None:
    room = ROOM.replace("[skim 2.5, plasterboard 12.5,", "[skim 2.5, plasterboard 12.5, vapour barrier,", 1)
    assert ends(row(room + NORTH + RAIL, KIND), "embedment") == (120 - 2 - 2.5 - 12.5 - 22, 120 - 2 - 2.5 - 12.5 - 8)


HOOD = """
heights from: bare floor
layers: {brickwork: [plaster 13, brick 215]}
walls: {north: {made of: brickwork, length: 4000}}
kinds: {base: {height: 720, depth: 560}, wall: {height: 720, depth: 300}}
runs:
  low: {against: north, order: {B1: base 600}}
  high: {against: north, underside: 1400, order: {W1: wall 600}}
fixings: {screws: {for: hood, at: back, each: 2, through: 2, plug: frame fixing 8 x 80}}
"""


@pytest.mark.parametrize(
    ("hood", "carries"), [("over: hob", "hoods"), ("over: hob, is: canopy hood", "hoods"), ("in: W1", "wall units")]
)
def test_a_hood_that_hangs_by_itself_is_told_from_one_in_a_unit(hood: str, carries: str) -> None:
    found = rows(f"{HOOD}appliances: {{hob: {{is: induction hob, in: B1}}, hood: {{{hood}}}}}", KIND)
    assert found[0].carries == carries


def test_the_screws_of_a_hood_do_not_hold_the_unit_below_it() -> None:
    text = f"{HOOD}appliances: {{hob: {{is: induction hob, in: B1}}, hood: {{over: hob}}}}"
    assert "/fixings" in to_find(row(text, "standing unit"), "at_top")
