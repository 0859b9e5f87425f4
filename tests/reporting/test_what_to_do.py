"""What a report asks of its reader: a cure for each place, a question for what is assumed, the keys of the country."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.measures.plans import site
from tests.reporting.plans import DAY
from validator.commands.inspecting import Inspector
from validator.judging.apply import Judgement
from validator.plan.files import read_plan
from validator.reporting.findings import asked, remedies
from validator.reporting.points import put_together
from validator.reporting.printing import Printer

INSPECTOR = Inspector((), DAY)

GAS_HOB = """\
dryfit: 1
heights from: finished floor
project: {title: Slate Yard, country: GB-ENG, lengths in: mm}
walls: {north: {length: 3000, made of: block}, east: {length: 2600}, south: {length: 3000}, west: {length: 2600}}
layers: {block: [plaster 13, dense block 140]}
kinds:
  base: {height: 720, depth: 560, front: 19, void behind: 50, handle: 30, opens: door}
  wall: {height: 720, depth: 300, front: 19, void behind: 0, handle: none, opens: nothing, hangers: {down: 35, in: 40}}
  worktop: {thickness: 38, depth: 650}
runs:
  cooking: {against: north, legs: 150 at high spot, order: {B1: base 600 left, B2: base 600 left, B3: base 600 left}}
  hung: {against: north, underside: 450 above worktop, order: {W1: wall 600 over B1, G1: gap 600, W2: wall 600 over B3}}
worktops: {top: {on: cooking}}
appliances: {hob: {is: gas hob, in: B2, width: 590}}
stated: {hob: {read: leaflet, pan support: 45, unit beside: none}}
fixings: {rail: {for: hung, at: hangers, through: 2, plug: frame fixing 8 x 100, hole: 8 x 110}}
routes:
  old gas: {is: gas pipe, wall: north, from: {along: 1 m from west, up: 0}, to: {along: 1 m from west, up: 500},
            known by: detector}
floors: none
floor: {levels: {middle: 0}}
"""

AMERICAN = """\
dryfit: 1
project: {title: Pier house, country: COUNTRY, lengths in: in}
survey: {consumer unit: {in: hall, ways free: 2}}
circuits: {range circuit: {device: 50 A}}
appliances: {hood: {is: chimney hood}}
"""


def judged(tmp_path: Path, text: str) -> Judgement:
    plan = tmp_path / "plan.yaml"
    plan.write_text(text, "utf-8")
    return INSPECTOR.inspect(read_plan([str(plan)], bytes))


def test_where_two_places_ask_for_two_things_each_is_told(tmp_path: Path) -> None:
    found = judged(tmp_path, GAS_HOB)
    [point] = [each for each in put_together(found).points if each.rule.name == "unit-beside-gas-hob"]
    told = remedies(point.outcomes, Printer(found.site))
    assert [each.partition(" 55 mm")[0] for each in told] == ["hob, left side: Hang W1", "hob, right side: Hang W2"]


def test_where_only_the_figures_differ_the_worst_speaks_for_all(tmp_path: Path) -> None:
    text = (
        "dryfit: 1\nproject: {title: x, country: GB-ENG, lengths in: mm}\n"
        "walls: {north: {length: 3000, flatness: 8 under 2 m}, south: {length: 3000, flatness: 9 under 2 m}}\n"
    )
    found = judged(tmp_path, text)
    [point] = [each for each in put_together(found).points if len(each.outcomes) == 2]
    assert remedies(point.outcomes, Printer(found.site)) == [
        "Fill or plane the wall by 6 mm where units and upstands come, or scribe them to it."
    ]


def test_what_is_only_assumed_is_asked_for_with_what_to_do(tmp_path: Path) -> None:
    found = judged(tmp_path, GAS_HOB)
    [errand] = [each for each in put_together(found).errands if each.at == "/routes/old gas"]
    said = asked(errand.missing, errand.how, found.site.library.questions, Printer(found.site))
    assert said.startswith("from old gas to the hole is assumed. Open the wall up at one place")


@pytest.mark.parametrize(("country", "key"), [("US-OR", "spaces"), ("GB-ENG", "ways")])
def test_a_key_that_is_not_there_yet_is_asked_for_in_the_words_of_the_country(
    tmp_path: Path, country: str, key: str
) -> None:
    errands = put_together(judged(tmp_path, AMERICAN.replace("COUNTRY", country))).errands
    asked_at = [each.at for each in errands if each.missing.pointer == "/circuits/range circuit/ways"]
    assert asked_at == [f"/circuits/range circuit/{key}"]


@pytest.mark.parametrize(
    ("ours", "theirs"),
    [
        ("duct of the hood", "duct of the range hood"),
        ("duct of the range hood", "duct of the range hood"),
        ("a skim of 3", "a skim coat of 3"),
        ("a skim coat of 3", "a skim coat of 3"),
        ("Range hood", "Range hood"),
    ],
)
def test_a_word_that_is_american_already_is_not_made_so_twice(ours: str, theirs: str) -> None:
    assert Printer(site("", "project: {title: x, country: US-OR, lengths in: in}")).text(ours) == theirs
