"""A hood that hangs by itself is held by what the plan says of it, or nobody knows whether it is held."""

from __future__ import annotations

from datetime import date

import pytest

from validator.commands.inspecting import Inspector
from validator.judging.outcomes import Outcome, Result
from validator.plan.files import read_plan

DAY = date(2027, 4, 15)
PLAN = """dryfit: 1
heights from: bare floor
project: {title: A hood, country: GB-ENG, lengths in: mm}
layers: {brickwork: [plaster 13, solid brick 215]}
walls: {north: {made of: brickwork, length: 4000}}
kinds: {base: {height: 720, depth: 560}, wall: {height: 720, depth: 300}}
runs:
  island: {faces: north, order: {I1: base 600}}
  low: {against: north, order: {B1: base 600}}
  high: {against: north, underside: 1400, order: {G1: gap 600, W1: wall 600}}
"""


def held(appliances: str, more: str = "fixings: none") -> list[Outcome]:
    text = f"{PLAN}appliances: {{hob: {{is: induction hob, in: B1}}, {appliances}}}\n{more}\n"
    judged = Inspector((), DAY).inspect(read_plan(["-"], text.encode))
    return [outcome for outcome in judged.outcomes if outcome.rule.name == "hood-held"]


@pytest.mark.parametrize("kind", ["hood", "chimney hood", "canopy hood"])
@pytest.mark.parametrize("fixings", ["", "fixings: none"])
def test_a_hood_with_neither_weight_nor_fixing_is_not_known_to_be_held(kind: str, fixings: str) -> None:
    (outcome,) = held(f"extractor: {{is: {kind}, over: hob, width: 600}}", fixings)
    assert (outcome.subject.name, outcome.result, outcome.rule.severity) == ("extractor", Result.NOT_KNOWN, "stop")
    assert {gap.pointer for gap in outcome.missing} == {
        "/appliances/extractor/weight",
        "/appliances/extractor/body",
        "/fixings",
    }


def test_the_fixings_of_another_thing_do_not_hold_it() -> None:
    rail = "fixings: {rail: {for: high, at: hangers, through: 2, plug: frame fixing 8 x 100}}"
    (outcome,) = held("hood: {over: hob, width: 600}", rail)
    assert outcome.result is Result.NOT_KNOWN
    assert {gap.asks for gap in outcome.missing if gap.pointer == "/fixings"} == {"hood on its fixings.held_by"}


def test_a_hood_in_a_unit_hangs_with_the_unit() -> None:
    assert held("hood: {in: W1}") == []


def test_a_hood_over_an_island_hangs_from_the_ceiling_which_is_not_judged() -> None:
    assert held("cooktop: {is: induction hob, in: I1}, hood: {over: cooktop, width: 600}") == []


def test_a_hood_of_unknown_place_may_hang_on_a_wall() -> None:
    (outcome,) = held("hood: {width: 600}")
    assert outcome.result is Result.NOT_KNOWN
