"""What keeps units, islands and cookers where they stand."""

from __future__ import annotations

import pytest

from tests.measures.plans import left_out, row, rows, to_find

LARDER = """
walls: {north: {length: 3000}}
kinds:
  tall: {height: 1970, depth: 560}
  base: {height: 720, depth: 560}
  wall: {height: 720, underside: 1400 from bare floor}
runs: {larder: {against: north, order: {T1: tall 600, B1: base 600, B2: base 400}}}
"""


def tall(fixings: str) -> object:
    return next(each for each in rows(LARDER + fixings, "standing unit") if each.subject.name == "T1")


def test_the_fixings_of_a_unit_are_counted_over_all_that_are_for_it() -> None:
    found = tall("fixings: {b: {for: T1, at: top, each: 2}, s: {for: larder, at: top, each: 1}}")
    assert found.at_top == 3  # type: ignore[attr-defined]


def test_a_fixing_for_a_kind_of_units_holds_each_of_them() -> None:
    assert tall("fixings: {b: {for: tall units, at: top, each: 2}}").at_top == 2  # type: ignore[attr-defined]


def test_nobody_says_what_holds_a_unit_that_no_fixing_names() -> None:
    assert to_find(tall("fixings: {b: {for: B1, at: top, each: 2}}"), "at_top") == {"/fixings"}  # type: ignore[arg-type]


def test_without_fixings_in_the_plan_nothing_is_known_and_none_means_none() -> None:
    assert to_find(tall(""), "at_top") == {"/fixings"}  # type: ignore[arg-type]
    assert tall("fixings: none").at_top == 0  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("fixing", "asked"),
    [("{for: T1, each: 2}", "/fixings/b/at"), ("{for: T1, at: top}", "/fixings/b/each")],
)
def test_a_fixing_has_to_say_where_it_sits_and_how_many_there_are(fixing: str, asked: str) -> None:
    assert to_find(tall(f"fixings: {{b: {fixing}}}"), "at_top") == {asked}  # type: ignore[arg-type]


def test_hung_units_and_islands_stand_against_no_wall() -> None:
    others = "hung: {against: north, order: {W1: wall 600}}, island: {faces: north, order: {B9: base 600}}"
    text = LARDER.replace("B2: base 400}}", f"B2: base 400}}}}, {others}")
    assert [each.subject.name for each in rows(text, "standing unit")] == ["T1", "B1", "B2"]


def test_without_runs_there_is_nothing_known_to_stand() -> None:
    assert left_out("walls: {north: {length: 3000}}", "standing unit") == ["/runs"]


@pytest.mark.parametrize(("written", "connectors"), [("4 connectors", 4), ("3 screws", 3), ("2", 2)])
def test_connectors_are_written_with_or_without_their_word(written: str, connectors: int) -> None:
    text = LARDER.replace("against: north,", f"against: north, joined: {written},")
    assert row(text, "units side by side").connectors == connectors


@pytest.mark.parametrize("order", ["T1: tall 600", "T1: tall 600, F1: filler 50, B1: base 600", "T1: tall 600, P: 600"])
def test_units_that_nothing_touches_need_no_connectors(order: str) -> None:
    room = "walls: {n: {length: 3000}}\nkinds: {tall: {depth: 560}, base: {depth: 560}}"
    assert rows(f"{room}\nruns: {{r: {{against: n, order: {{{order}}}}}}}", "units side by side") == []


def island(screwed: str, floors: str = "floors: none") -> object:
    return row(
        f"""
walls: {{north: {{length: 4000}}}}
{floors}
kinds: {{base: {{height: 720, depth: 560}}}}
runs: {{island: {{faces: north{screwed}, order: {{B1: base 600}}}}}}
""",
        "island",
    )


def test_an_island_is_held_with_one_thing_on_another() -> None:
    found = island(", screwed to: cleats on joists")
    assert (found.held_with, found.held_on) == ("cleats", "joists")  # type: ignore[attr-defined]


def test_an_island_of_which_nothing_is_said_may_stand_loose() -> None:
    assert to_find(island(""), "held_with") == {"/runs/island/screwed to"}  # type: ignore[arg-type]


def test_where_no_floor_is_laid_none_is_clamped() -> None:
    found = island("")
    assert (found.covering, found.laid) == ("none", "never")  # type: ignore[attr-defined]


def test_the_floor_under_an_island_is_the_one_that_is_laid() -> None:
    found = island("", "floors: {vinyl: {is: click vinyl, thickness: 5, laid: before units}}")
    assert (found.covering, found.laid) == ("click vinyl", "before units")  # type: ignore[attr-defined]


def test_a_cooker_stands_by_itself_and_a_hob_does_not() -> None:
    text = "appliances: {range cooker: {is: gas cooker, anti-tip: chain}, hob: {is: gas hob}}"
    found = row(text, "free-standing cooker")
    assert (found.subject.name, found.anti_tip) == ("range cooker", "chain")


def test_what_keeps_a_cooker_from_tipping_has_to_be_said() -> None:
    found = row("appliances: {cooker: {is: electric cooker}}", "free-standing cooker")
    assert to_find(found, "anti_tip") == {"/appliances/cooker/anti tip"}


@pytest.mark.parametrize(("floor", "open_"), [("{heated: no}", {"traced"}), ("{traced: yes}", {"heated"})])
def test_what_lies_in_the_floor_under_an_island_is_asked_for(floor: str, open_: set[str]) -> None:
    found = island(", screwed to: cleats on slab", f"floors: none\nfloor: {floor}")
    assert {name for name in ("heated", "traced") if to_find(found, name)} == open_  # type: ignore[arg-type]
