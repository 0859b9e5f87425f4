"""Hobs and hoods: both leaflets on one footing, whatever each measures from."""

from __future__ import annotations

from typing import Any

import pytest

from tests.measures.plans import ends, gaps, left_out, row, rows, to_find, working
from validator.measures.rows import Why

KIND = "hob under hood"

COOKING = """
heights from: bare floor
walls: {north: {length: 4200}, east: {length: 3000}, south: {length: 4200}, west: {length: 3000}}
ceiling: 2450
floors: {cork planks: {thickness: 10.5, underlay: 1.5, laid: after units}}
kinds: {base: {height: 715, legs: 90 to 140}, worktop: {thickness: 28}}
runs: {long: {against: north, legs: 105 at high spot, order: {A1: base 600, A2: base 700}}}
worktops: {long top: {on: long}}
"""

GAS = "hob: {is: gas hob, in: A2, width: 580, pan support: 44}"
HOOD = "hood: {is: canopy hood, over: hob, up: 1590 from finished floor}"


def cooking(hob: str = GAS, hood: str = HOOD, stated: str = "") -> Any:
    return rows(_plan(hob, hood, stated), KIND)[0]


def _plan(hob: str = GAS, hood: str = HOOD, stated: str = "") -> str:
    return f"{COOKING}\nappliances: {{{hob}, {hood}}}\n" + (f"stated: {{{stated}}}\n" if stated else "")


def test_clearance_is_from_the_pan_supports_to_the_hood() -> None:
    """Worktop 105 + 715 + 28 − 12 = 836; 1590 − 836 − 44 = 710."""
    row = cooking()
    assert (row.surface, row.supports, row.clearance) == (836, 44, 710)
    assert working(row, "clearance") == [(1590, "hood"), (836, "worktop"), (44, "pan supports")]


def test_the_hob_stands_on_its_wall() -> None:
    """The middle of A2 is 600 + 350 = 950; the hob reaches 290 to each side."""
    subject = cooking().subject
    assert (subject.name, subject.context, subject.along) == ("hob", "north wall", (660, 1240))


@pytest.mark.parametrize(
    ("up", "underside"),
    [("1602 from bare floor", 1590), ("1602", 1590), ("754 above worktop", 1590), ("848 below ceiling", 1590)],
)
def test_a_hood_may_be_given_from_anything(up: str, underside: float) -> None:
    row = cooking(hood=f"hood: {{is: hood, over: hob, up: {up}}}")
    assert row.underside == underside


def test_a_hood_given_from_the_finished_floor_does_not_hang_on_its_thickness() -> None:
    text = _plan().replace("thickness: 10.5", "thickness: 8 to 14")
    row = rows(text, KIND)[0]
    assert row.underside == 1590
    assert ends(row, "surface") == (832.5, 838.5)
    assert ends(row, "clearance") == (707.5, 713.5)


def test_a_hood_above_the_worktop_keeps_its_distance_whatever_the_floor() -> None:
    row = cooking(hood="hood: {is: hood, over: A2, up: 754 above worktop}")
    assert row.clearance == 710


def test_a_built_hood_hangs_where_it_was_measured() -> None:
    row = rows(_plan() + "built: {hood: {up: 1611 from bare floor}}", KIND)[0]
    assert row.underside == 1599


@pytest.mark.parametrize(("kind", "fuel"), [("induction hob", "induction"), ("ceramic hob", "ceramic")])
def test_flat_glass_has_no_pan_supports(kind: str, fuel: str) -> None:
    row = cooking(f"hob: {{is: {kind}, in: A2, width: 580}}")
    assert (row.fuel, row.supports, row.clearance) == (fuel, 0, 754)


def test_pan_supports_of_gas_come_from_the_hob_or_from_its_leaflet() -> None:
    bare = "hob: {is: gas hob, in: A2, width: 580}"
    assert to_find(cooking(bare), "clearance") == {"/appliances/hob/pan support"}
    assert cooking(bare, stated="hob: {read: hob leaflet p. 5, pan support: 47}").supports == 47


@pytest.mark.parametrize(
    ("figure", "says"),
    [
        ("690 from pan supports", 690),
        ("690 from pan support", 690),
        ("690 from hob surface", 690 - 44),
        ("690 from worktop", 690 - 44),
        ("1560 from finished floor", 1560 - 836 - 44),
    ],
)
def test_every_leaflet_is_brought_down_to_the_pan_supports(figure: str, says: float) -> None:
    of_hob = cooking(stated=f"hob: {{read: hob leaflet p. 5, hood above: {figure}}}")
    assert of_hob.hob_says == says
    of_hood = cooking(stated=f"hood: {{read: hood leaflet p. 2, hob below: {figure}}}")
    assert of_hood.hood_says == says


def test_a_leaflet_that_measures_from_nobody_knows_where_is_not_converted() -> None:
    row = cooking(stated="hob: {read: hob leaflet p. 5, hood above: 690 from burner caps}")
    assert row.hob_stated == 690
    (gap,) = gaps(row, "hob_says")
    assert (gap.why, gap.pointer) == (Why.UNCLEAR, "/stated/hob/hood above")
    assert "burner caps" in gap.detail


def test_a_figure_without_a_start_is_not_taken_for_any() -> None:
    row = cooking(stated="hood: {read: hood leaflet p. 2, hob below: 690}")
    assert gaps(row, "hood_says")[0].why is Why.UNCLEAR


@pytest.mark.parametrize(
    ("stated", "why"),
    [
        ("", Why.UNREAD),
        ("hob: {read: hob leaflet p. 5}", Why.UNREAD),
        ("hob: {read: hob leaflet p. 5, hood above: to find out}", Why.UNREAD),
        ("hob: {read: hob leaflet p. 5, hood above: none}", Why.NOTHING_STATED),
    ],
)
def test_unread_and_nothing_stated_are_told_apart(stated: str, why: Why) -> None:
    row = cooking(stated=stated)
    (gap,) = gaps(row, "hob_stated")
    assert (gap.why, gap.pointer) == (why, "/stated/hob/hood above")
    assert {missing.why for missing in gaps(row, "hob_says")} == {why}


def test_the_leaflet_of_a_hob_is_filed_under_its_name() -> None:
    named = "burners: {is: gas hob, in: A2, width: 580, pan support: 44}"
    over = "hood: {is: hood, over: burners, up: 1590 from finished floor}"
    row = cooking(named, over, "burners: {read: hob leaflet p. 5, hood above: 690 from pan supports}")
    assert row.hob_says == 690


def test_an_appliance_of_unknown_kind_may_be_a_hob() -> None:
    assert left_out(f"{COOKING}\nappliances: {{flames: {{in: A2}}}}", KIND) == ["/appliances/flames/is"]


def test_a_cooker_brings_its_own_height() -> None:
    """906 above the finished floor, whatever the worktops beside it: 1590 − 906 − 30 = 654."""
    text = f"""{COOKING.replace("A2: base 700", "cooker: 700")}
appliances:
  cooker: {{is: gas cooker, body: 598 w x 906 h x 600 d, width: 598, pan support: 30}}
  hood: {{is: hood, over: cooker, up: 1590 from finished floor}}
"""
    row = rows(text, KIND)[0]
    assert (row.fuel, row.surface, row.clearance) == ("gas", 906, 654)


def test_a_hob_without_a_hood_has_no_row() -> None:
    assert rows(f"{COOKING}\nappliances: {{{GAS}}}", KIND) == []


def test_appliances_left_out_are_not_appliances_without_a_hood() -> None:
    assert left_out(COOKING, KIND) == ["/appliances"]


def test_a_hood_that_does_not_say_what_it_is_over_may_be_over_the_hob() -> None:
    row = cooking(hood="hood: {is: hood, up: 1590 from finished floor}")
    assert to_find(row, "clearance") == {"/appliances/hood/over"}


@pytest.mark.parametrize(
    ("hob", "hood", "pointers"),
    [
        (GAS, "hood: {is: hood, over: hob}", {"/appliances/hood/up"}),
        ("hob: {is: gas hob, width: 580, pan support: 44}", HOOD, {"/appliances/hob/in"}),
        (GAS, "hood: {is: hood, over: hob, up: to find out by fitter}", {"/appliances/hood/up"}),
    ],
)
def test_a_clearance_names_what_it_lacks(hob: str, hood: str, pointers: set[str]) -> None:
    assert to_find(cooking(hob, hood), "clearance") == pointers


def test_a_hob_in_a_run_without_a_worktop_has_no_surface() -> None:
    text = _plan().replace("worktops: {long top: {on: long}}", "worktops: none")
    (gap,) = gaps(rows(text, KIND)[0], "surface")
    assert gap.detail == "no worktop lies on long, where hob is"


def test_an_electric_cooker_says_what_its_hob_is() -> None:
    """Its glass is flat, so that nothing stands above the surface."""
    text = """
appliances:
  cooker: {is: electric cooker, hob: ceramic, body: 600 w x 900 h x 600 d}
  hood: {over: cooker, up: 1600 from finished floor}
"""
    found = row(text, "hob under hood")
    assert (found.fuel, found.clearance) == ("ceramic", 700)
