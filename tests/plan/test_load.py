"""A whole plan, typed; or everything that is wrong with it, at once."""

from __future__ import annotations

import copy
import dataclasses
import random
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.plans import Wrong, merged, plan, problems
from validator.plan import dimensions as dim
from validator.plan.load import SECTIONS, load
from validator.plan.merging import merge
from validator.plan.plan import Plan
from validator.plan.problems import Unreadable
from validator.plan.sections.appliances import (
    AppliancePapers,
    FloorPapers,
    HobPapers,
    HoodPapers,
    PaintPapers,
    PlugPapers,
)
from validator.plan.values import NothingStated, Quantity, ToFind
from validator.plan.yaml_reader import read_yaml

LOFT = (Path(__file__).parent / "data" / "osier_loft.yaml").read_text("utf-8")
FILES = merged(LOFT)


@pytest.fixture(scope="module")
def loft() -> Plan:
    return load(FILES)


def test_a_plan_of_three_hundred_lines_is_read_whole(loft: Plan) -> None:
    assert LOFT.count("\n") > 300
    (room,) = loft.rooms.values()
    assert [len(section) for section in (loft.layers, loft.walls, room.floors, loft.runs, loft.worktops)] == [
        4,
        4,
        1,
        5,
        2,
    ]
    assert [len(section) for section in (loft.appliances, loft.points, loft.circuits, loft.built)] == [6, 8, 2, 1]
    assert [len(section) for section in (loft.stated, loft.fixings, loft.coatings, loft.people)] == [6, 2, 2, 3]


def test_the_things_of_a_run_keep_their_order(loft: Plan) -> None:
    assert list(loft.runs["river run"].order) == ["F1", "T1", "B1", "dishwasher", "B2", "B3", "B4"]


def test_every_element_knows_its_pointer(loft: Plan) -> None:
    moisture = loft.coatings["river plaster"].moisture
    coats = loft.coatings["river plaster"].coats
    assert moisture is not None
    assert coats is not None
    assert loft.work is not None
    assert [
        loft.project.pointer,
        loft.layers["river wall"][2].pointer,
        loft.runs["river run"].order["B1"].pointer,
        moisture.pointer,
        coats[1].pointer,
        loft.work.tasks["fit units"].pointer,
        loft.agreed[1].pointer,
        loft.agreed[2].pointer,
    ] == [
        "/project",
        "/layers/river wall/2",
        "/runs/river run/order/B1",
        "/coatings/river plaster/moisture",
        "/coatings/river plaster/coats/1",
        "/work/fit units",
        "/agreed/hob-to-sink/1",
        "/agreed/first-coat-on-new-plaster",
    ]


def test_a_pointer_has_the_place_of_its_value(loft: Plan) -> None:
    def written_at(pointer: str) -> str:
        place = loft.place(pointer)
        return LOFT.splitlines()[place.line - 1][place.column - 1 :]

    assert written_at("/appliances/hob/width") == "585"
    assert written_at("/runs/river run/order/B1/height") == "715"
    assert written_at("/runs/river run/order/B1/hand") == "door 450 left"
    assert written_at("/work/gas/by") == "gas engineer"


def test_papers_are_typed_by_what_the_name_is(loft: Plan) -> None:
    assert {name: type(papers) for name, papers in loft.stated.items()} == {
        "hob": HobPapers,
        "hood": HoodPapers,
        "dishwasher": AppliancePapers,
        "frame fixing": PlugPapers,
        "cork": FloorPapers,
        "river plaster": PaintPapers,
    }


def test_papers_tell_a_figure_from_none_and_from_not_yet_read(loft: Plan) -> None:
    hood, paint, hob = loft.stated["hood"], loft.stated["river plaster"], loft.stated["hob"]
    assert isinstance(hood, HoodPapers)
    assert isinstance(paint, PaintPapers)
    assert isinstance(hob, HobPapers)
    assert hood.hob_below is not None
    assert hob.hood_above is not None
    assert hood.hob_below.amount == NothingStated("none")
    assert paint.dry_before == ToFind(None, "to find out")
    assert (hob.hood_above.from_, isinstance(hob.pan_support, Quantity)) == ("pan supports", True)


@pytest.mark.parametrize(
    ("appliance", "papers"),
    [
        ("oven: {is: electric cooker}", HobPapers),
        ("oven: {is: gas range}", HobPapers),
        ("oven: {is: induction cooktop}", HobPapers),
        ("oven: {is: canopy hood}", HoodPapers),
        ("oven: {in: B1}", AppliancePapers),
    ],
)
def test_papers_of_an_appliance_follow_its_kind(appliance: str, papers: type[object]) -> None:
    assert type(plan(f"stated: {{oven: {{read: leaflet}}}}\nappliances: {{{appliance}}}\n").stated["oven"]) is papers


def test_an_appliance_whose_name_is_a_kind_need_not_say_it(loft: Plan) -> None:
    assert [loft.appliances[name].is_ for name in ("washing machine", "tap", "hood")] == [
        "washing machine",
        "tap",
        "chimney hood",
    ]
    assert plan("appliances: {faucet: {}, Cooker 2: {}}\n").appliances["faucet"].is_ == "tap"
    assert plan("appliances: {faucet: {}, Cooker 2: {}}\n").appliances["cooker 2"].is_ is None


def test_own_values_are_of_any_dimension() -> None:
    own = plan("own: {reach: 1830, noise: to find out, current: 13 A}\n").own
    reach, current = own["reach"], own["current"]
    assert isinstance(reach, Quantity)
    assert isinstance(current, Quantity)
    assert (reach.low, reach.dimension, current.dimension) == (1830, dim.LENGTH, dim.CURRENT)
    assert own["noise"] == ToFind(None, "to find out")


def test_requirements_stay_as_they_are_written(loft: Plan) -> None:
    assert loft.requirements["short cook reaches the shelf"] == {
        "each": "unit in a run",
        "figure": "right",
        "at_most": "own.reach_of_the_short_cook",
        "title": "Shelf within reach",
    }


def test_several_departures_from_one_rule_are_several(loft: Plan) -> None:
    assert [(agreed.rule, agreed.at) for agreed in loft.agreed] == [
        ("hob-to-sink", "hob"),
        ("hob-to-sink", "sink"),
        ("first-coat-on-new-plaster", "stairs"),
    ]


def test_a_plan_of_a_head_alone_has_nothing_but_what_is_left_out() -> None:
    bare = plan("", head="dryfit: 1\n")
    (room,) = bare.rooms.values()
    assert (bare.project.title, room.ceiling, bare.work, bare.agreed) == (None, None, None, ())
    assert all(section.left_out for section in (bare.walls, bare.runs, bare.points, bare.circuits, bare.built))


def test_the_plan_has_the_digest_and_the_files_it_was_read_from() -> None:
    one, other = (
        read_yaml("dryfit: 1\nwalls: {river: {}}\n", "survey.yaml"),
        read_yaml("dryfit: 1\nwalls: {lane: {}}\n", "more.yaml"),
    )
    found = load(merge([one, other]))
    assert (found.files, list(found.walls)) == (("survey.yaml", "more.yaml"), ["river", "lane"])
    assert found.digest != load(merge([one])).digest


def test_american_sections_mean_the_same_and_keep_their_place() -> None:
    found = plan("flooring: {cork: {thickness: 6, laid: after cabinets}}\nreceptacles: none\n")
    (room,) = found.rooms.values()
    assert (room.floors["cork"].laid, found.points.none, found.place("/floors/cork/laid").column) == (
        "after units",
        True,
        39,
    )


def test_an_american_key_keeps_its_place() -> None:
    assert plan("circuits:\n  one:\n    breaker: 20 A\n").place("/circuits/one/device").line == 6


def test_all_problems_of_all_sections_come_at_once_in_the_order_of_the_lines() -> None:
    assert problems(
        "celing: 2371\n"
        "walls: {river: {lenght: 4912, made of: brik}, lane: {}}\n"
        "layers: {brick: [brick 215 kg]}\n"
        "kinds: {door: {opens: dor}}\n"
        "runs:\n"
        "  river run: {against: rivr, legs: high, order: {B1: door 450 left, B2: dorr 500}}\n"
        "points: {S1: door over B9}\n"
        "work: {order: usul, paint: {takes: 3 days, by: painter, aftr: plaster}}\n"
        "people: none\n"
    ) == [
        Wrong(4, "a plan has no section `celing`", "ceiling"),
        Wrong(5, "a wall has no `lenght`", "length"),
        Wrong(5, "no layers of this plan is called `brik`", "brick"),
        Wrong(6, "215 kg is a mass; a length is expected (mm, m, in, ft)", ""),
        Wrong(7, "`dor` cannot stand here", "door"),
        Wrong(7, "a point has no `opens`", ""),
        Wrong(9, "no wall of this plan is called `rivr`", "river"),
        Wrong(9, "`high` is not a length", ""),
        Wrong(9, "`dorr` is no kind of this plan", "door"),
        Wrong(10, "no thing in a run or appliance of this plan is called `B9`", ""),
        Wrong(11, "`usul` cannot stand here", "usual"),
        Wrong(11, "no person of this plan is called `painter`", ""),
        Wrong(11, "a task has no `aftr`", "after"),
    ]


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("walls: 3", Wrong(4, "`walls` cannot be `3`", "")),
        ("people: [a, b]", Wrong(4, "`people` cannot be `[…]`", "")),
        ("circuits: {ring: 32 A}", Wrong(4, "a circuit is written as `key: value` lines, or in braces", "")),
        ("layers: {brick: [brick 215, [a]]}", Wrong(4, "a layer is written as its material and its thickness", "")),
        ("work: usual", Wrong(4, "the work is written as `key: value` lines, or in braces", "")),
        ("work: {paint: 3 days}", Wrong(4, "a task is written as `key: value` lines, or in braces", "")),
        ("agreed: {hob-to-sink: {at: hob, by: householder}}", Wrong(4, "a departure needs `reason`", "")),
        ("agreed: {hob-to-sink: yes}", Wrong(4, "a departure is written as `key: value` lines, or in braces", "")),
        ("own: {reach: high}", Wrong(4, "`high` is not a quantity", "")),
        ("own: {reach: [1, 2]}", Wrong(4, "`[…]` cannot stand here", "")),
        ("requirements: {reach: 3}", Wrong(4, "the requirement `reach` says nothing", "")),
        ("points: none\nreceptacles: none", Wrong(5, "`receptacles` and `points` are one section", "")),
        ("circuits: {a: {breaker: 6 A, device: 6 A}}", Wrong(4, "`device` stands here twice, in two spellings", "")),
        (
            "agreed: {hob-to-sink: {at: hob, reason: beam, by: householder, rule: x}}",
            Wrong(4, "a departure has no `rule`", ""),
        ),
    ],
)
def test_a_shape_that_cannot_be_is_said_with_its_line(text: str, wrong: Wrong) -> None:
    assert problems(f"{text}\n") == [wrong]


def test_what_was_expected_is_said_too() -> None:
    with pytest.raises(Unreadable) as refused:
        plan("walls: {river: {lenght: 4912}}\n")
    (problem,) = refused.value.problems
    assert (problem.expected.split(", ")[:1], problem.pointer) == (["made of"], "/walls/river/lenght")
    assert "length" in problem.expected.split(", ")


def test_a_height_says_from_where_or_its_file_does() -> None:
    head = "dryfit: 1\nproject: {lengths in: mm}\n"
    text = (
        "ceiling: 2371\n"
        "kinds: {socket: {up: 380}}\n"
        "points: {A: socket over x, B: socket over y, C: {is: socket, up: 160 above worktop}}\n"
    )
    assert problems(text, head) == [
        Wrong(3, "`2371` does not say from where it is measured", ""),
        Wrong(4, "`380` does not say from where it is measured", ""),
    ]
    assert problems(text, head + "heights from: finished floor\n") == []


def test_a_height_that_is_to_find_out_has_no_datum_to_say() -> None:
    assert problems("ceiling: to find out by plasterer\n", "dryfit: 1\n") == []


def test_a_unit_of_length_nobody_knows_is_said_once_and_not_at_every_number() -> None:
    assert problems("walls: {a: {length: 3}, b: {length: 4}}\n", "dryfit: 1\nproject: {lengths in: yards}\n") == [
        Wrong(2, "`yards` cannot stand here", "")
    ]


def test_names_compare_after_nfc_and_are_shown_as_written() -> None:
    found = plan(
        "kinds: {Steckdose: {up: 380}}\npoints: {Küche 1: Steckdose}\n"
        "circuits: {Ring: {serves: [KU\u0308CHE-1]}}\nbuilt: {ku\u0308che_1: {cable: 18 deep}}\n"
    )
    assert (list(found.points), found.circuits["ring"].serves) == (["Küche 1"], ("Küche 1",))


def test_a_plan_imports_only_the_sections_it_has() -> None:
    code = (
        "import sys\n"
        "from validator.plan.load import load\n"
        "from validator.plan.merging import merge\n"
        "from validator.plan.yaml_reader import read_yaml\n"
        "load(merge([read_yaml('dryfit: 1\\nwalls: {a: {}}\\npeople: none\\n', 'p')]))\n"
        "print(*sorted(name.rpartition('.')[2] for name in sys.modules if 'plan.sections.' in name))\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["beyond", "joists", "project", "room", "work"]


def shuffled(node: Any, keep: frozenset[str], chance: random.Random, key: str = "") -> Any:
    """The same data with the keys of every mapping in another order, where their order says nothing."""
    if isinstance(node, list):
        return [shuffled(each, keep, chance) for each in node]
    if not isinstance(node, dict):
        return node
    entries = list(node.items())
    if key not in keep:
        chance.shuffle(entries)
    return {name: shuffled(value, keep, chance, name) for name, value in entries}


def said(found: Plan) -> dict[str, object]:
    """What a plan says, section by section and room by room, without the order of names."""
    parts = [(name, value) for name, value in vars(found).items() if name in SECTIONS and name != "rooms"]
    parts += [(f"{room}/{part}", value) for room, each in found.rooms.items() for part, value in vars(each).items()]
    return {name: dict(value) if hasattr(value, "items") else value for name, value in parts}


@settings(max_examples=25, deadline=None)
@given(st.integers(min_value=0, max_value=10_000))
def test_the_order_of_names_and_keys_changes_nothing_where_it_means_nothing(seed: int) -> None:
    data = shuffled(FILES.data, frozenset({"order", "walls"}), random.Random(seed))
    data = {**data, "agreed": FILES.data["agreed"]}
    assert said(load(dataclasses.replace(FILES, data=data))) == said(load(FILES))


def respelt(node: Any, chance: random.Random, keys: frozenset[str]) -> Any:
    """The same data with the keys of the format spelt in other ways that compare alike."""
    if isinstance(node, list):
        return [respelt(each, chance, keys) for each in node]
    if not isinstance(node, dict):
        return node
    return {
        (another_spelling(name, chance) if name in keys else name): respelt(value, chance, keys)
        for name, value in node.items()
    }


def another_spelling(key: str, chance: random.Random) -> str:
    joined = key.replace(" ", chance.choice([" ", "_", "-", "  "])).replace("-", chance.choice(["-", "_", " "]))
    return chance.choice([joined, joined.upper(), joined.title()])


KEYS = frozenset(
    [
        *(section for section in SECTIONS if section != "gas"),  # which is also the name of a task
        *("made of", "length", "levels", "moisture", "thickness", "laid", "board", "like", "height", "void behind"),
        *("hangers", "in", "against", "from", "legs", "tops", "order", "on", "is", "over", "body", "cut-out", "waste"),
        *("wall", "along", "up", "device", "in insulation", "serves", "for", "plug", "hole", "walls", "coats", "by"),
        *("takes", "dries", "looked up", "at", "no worse than", "read", "hood above", "pan support", "first coat"),
    ]
)


@settings(max_examples=25, deadline=None)
@given(st.integers(min_value=0, max_value=10_000))
def test_the_spelling_of_keys_changes_nothing(seed: int) -> None:
    names_kept = {section: FILES.data[section] for section in ("stated", "people", "requirements")}
    data = respelt({**FILES.data, **dict.fromkeys(names_kept, "none")}, random.Random(seed), KEYS)
    data = {name: value for name, value in data.items() if value != "none"}
    assert said(load(dataclasses.replace(FILES, data={**data, **names_kept}))) == said(load(FILES))


ODD: list[Any] = [
    *({}, [], "", " ", "none", "to find out", "to find out by nobody", "rest", "600", "600 600", "½", "Ü ü", "~0/1"),
    *("left of", "door", "door 300 left of", "over", "and", ",", "to", "a to b", "at at", "8 x 9 x 10", "x" * 300),
    *(
        ["a"],
        [["b"]],
        [{}],
        {"a": "b"},
        {"is": {}},
        {"is": "door", "width": []},
        {"like": "door"},
        {"order": {"": "x"}},
    ),
]


def paths(node: Any, here: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    if here:
        yield here
    for key, value in node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ():
        yield from paths(value, (*here, key))


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(list(paths(FILES.data))), st.sampled_from(ODD))
def test_whatever_stands_anywhere_is_read_or_refused_in_words(path: tuple[Any, ...], odd: Any) -> None:
    data = copy.deepcopy(FILES.data)
    node = data
    for step in path[:-1]:
        node = node[step]
    node[path[-1]] = copy.deepcopy(odd)
    found = []
    try:
        load(dataclasses.replace(FILES, data=data))
    except Unreadable as unreadable:
        found = unreadable.problems
    assert all(problem.message and problem.place.file == "plan.yaml" for problem in found)
    assert not any("Input should" in problem.message for problem in found)
