"""The schema of a plan: sound itself, and of one mind with the models about what can be read.

Checked against the meta-schema of JSON Schema, draft 2020-12 (json-schema.org, primary, as the library jsonschema has
it), by that library.
"""

from __future__ import annotations

import copy
import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from tests.plan.plans import HEAD, plan
from tests.reporting.plan_forms import (
    Way,
    data_of,
    files,
    for_its_form,
    places,
    refused_by_model,
    refused_by_schema,
    schema,
    value_at,
)
from validator.commands.inspecting import library
from validator.judging.requirements import read_requirements
from validator.plan.elements import Element
from validator.plan.load import SECTIONS
from validator.plan.problems import Unreadable
from validator.plan.yaml_reader import read_yaml
from validator.reporting.plan_schema import models

PLANS = files()
NO_UNIT = "dryfit: 1\nheights from: bare floor\n"


def said(text: str, head: str = HEAD) -> dict[str, Any]:
    return read_yaml(head + text, "plan.yaml").data


def test_the_schema_is_sound_by_its_meta_schema() -> None:
    Draft202012Validator.check_schema(schema())
    assert schema()["$schema"] == Draft202012Validator.META_SCHEMA["$id"]


def test_no_address_but_that_of_the_meta_schema_is_in_it() -> None:
    assert re.findall(r"\w+://[^'\"]*", str(schema())) == [schema()["$schema"]]


def test_every_section_is_offered_under_its_name() -> None:
    assert list(schema()["properties"]) == ["dryfit", "heights from", *SECTIONS]


def test_everything_that_has_a_short_form_says_how_it_is_written() -> None:
    by_the_word = [model for model in models() if model.short.__func__ is not Element.short.__func__]  # type: ignore[attr-defined]
    assert len(by_the_word) > 10
    assert [model.__name__ for model in by_the_word if model.line is None] == []


def test_what_a_remark_in_the_models_says_of_a_key_is_shown_with_it() -> None:
    properties = schema()["$defs"]["Appliance"]["properties"]
    assert properties["bowl"] == {"$ref": "#/$defs/Size"}
    assert properties["pan support"] == {"$ref": "#/$defs/length"}
    assert properties["over"]["description"] == "a hood: the hob"


@pytest.mark.parametrize("file", PLANS.values(), ids=PLANS)
def test_every_plan_of_the_repository_is_valid(file: Path) -> None:
    assert refused_by_schema(data_of(file)) == []


def _with_examples(part: Any) -> list[dict[str, Any]]:
    below = part.values() if isinstance(part, dict) else part if isinstance(part, list) else ()
    own = [part] if isinstance(part, dict) and isinstance(part.get("examples"), list) else []
    return [*own, *(found for each in below for found in _with_examples(each))]


def test_every_example_is_valid_where_it_is_offered() -> None:
    parts = _with_examples(schema())
    assert len(parts) > 40
    for part in parts:
        one = Draft202012Validator({**part, "$defs": schema()["$defs"]})
        assert [text for text in part["examples"] if not one.is_valid(text)] == []


BROKEN = {
    "an unknown section": "rooms: {a: 1}",
    "an unknown key": "walls: {a: {lenght: 3}, b: {}}",
    "a key that is worked out": "kinds: {door: {family: unit}}",
    "a kind that says what it is": "kinds: {door: {is: base}}",
    "a kind that says nothing": "kinds: {door: 700}",
    "a kind whose name ends in a number": "kinds: {wall 600: {height: 700}}",
    "a kind whose name starts with a number": "kinds: {600 wall: {height: 700}}",
    "a kind whose name has a word of the line": "kinds: {over-fridge unit: {height: 400}}",
    "a unit of something else": "floors: {cork: {thickness: 6 kg}}",
    "a unit in the wrong case": "circuits: {a: {device: 32 a}}",
    "a number without the unit it needs": "circuits: {a: {device: 32}}",
    "a number with a comma": 'ceiling: "2,400"',
    "a range without `to`": "floors: {cork: {thickness: 6-8}}",
    "a range with one unit too early": "floors: {cork: {thickness: 6 mm to 8}}",
    "a guess": "floors: {cork: {thickness: about 8}}",
    "an unknown figure": "floors: {cork: {thickness: tbc}}",
    "feet with too many inches": "floors: {cork: {thickness: 5 ft 13 in}}",
    "a day that is not in the calendar": "project: {starts: 2026-02-30}",
    "a day written the other way round": "project: {starts: 01-02-2026}",
    "`none` where a figure has to stand": "floors: {cork: {thickness: none}}",
    "a spot that is neither low nor high": "floor: {levels: {by the door: 6}}",
    "a height that is low": "ceiling: 2400 low",
    "an empty list of readings": "ceiling: []",
    "a reading that is a range": "ceiling: [2400 to 2410]",
    "a group where a figure stands": "walls: {a: {length: {x: y}}, b: {}}",
    "a list where a wall stands": "walls: {a: [1, 2], b: {}}",
    "a figure where a group stands": "floor: {levels: 9}",
    "a text where a list stands": "coatings: {a: {coats: neat}}",
    "a word that is none of those asked for": "floor: {moisture: 74 % by hygrometre}",
    "neither yes nor no": "floor: {heated: perhaps}",
    "a country that is none": "project: {country: Wales}",
    "a currency in small letters": "project: {currency: gbp}",
    "a year long gone": "project: {built: 193}",
    "a unit no plan counts in": "project: {lengths in: miles}",
    "a fixing for nothing": "fixings: {a: {at: hangers}}",
    "a worktop on nothing": "worktops: {a: {thickness: 38}}",
    "a departure without a reason": "agreed: {rule: {at: B1, by: householder}}",
    "a height from nothing known": "points: {S1: {is: socket, up: 150 above sill}}",
    "a place along no wall": "points: {S1: {is: socket, along: 1950}}",
    "a size of three without letters": "appliances: {oven: {body: 595 x 595 x 550}}",
    "a size with a letter twice": "appliances: {oven: {body: 595 w x 595 w}}",
    "a size with one unit": "points: {S1: {is: socket, plate: 146 x 86 mm}}",
    "a maker's figure above something": "stated: {hob: {read: p. 4, hood above: 650 above hob}}",
    "papers that nobody read": "stated: {hob: {hood above: 650}}",
    "a layer without a material": "layers: {a: [3]}",
    "a layer of a wrong unit": "layers: {a: [skim 3 kg]}",
    "two layers in one": "layers: {a: [skim 3 brick]}",
    "layers in one text": 'layers: {a: "skim 3, brick 102"}',
    "a coat with a figure that is no water": "coatings: {a: {coats: [matt 10]}}",
    "a hole with three figures": "fixings: {a: {for: b, hole: 8 x 90 x 3}}",
    "legs at a place that is none": "runs: {a: {against: b, legs: 140 at low spot, order: {}}}",
    "a run without an order": "runs: {a: {against: b}}",
    "a thing with a width and `rest`": "runs: {a: {against: b, order: {F1: filler 300 rest}}}",
    "a thing over nothing": "runs: {a: {against: b, order: {W1: filler 300 over}}}",
    "a thing with a wrong width": "runs: {a: {against: b, order: {B1: filler 300 kg left}}}",
    "a point left of nothing": "points: {S1: socket left of}",
    "a corner without its length": "corners: {a-b: 6 open}",
    "a lean that goes nowhere": "walls: {a: {plumb: 4 sideways}}",
    "a boxing in no way": "boxings: {pipe: 180}",
    "a corner by a tape with one length": "corners: {a-b: 1422 across 1000}",
    "a corner with a length for its angle": "corners: {a-b: 135 mm}",
    "a part that no room has": "rooms: {utility: {wall: {}}}",
    "a room that is a text": "rooms: {utility: tidy}",
    "a slip inside a room": "rooms: {utility: {walls: {a: {lenght: 900}}}}",
    "a paper with a standing of its own": "papers: {consent: perhaps}",
    "a task that takes a length": "work: {paint: {takes: 3 mm}}",
    "work that is a text": "work: usual",
    "a value of one's own that is none": "own: {reach: far}",
    "a requirement that says nothing": "requirements: {reach: 940}",
}


@pytest.mark.parametrize("text", BROKEN.values(), ids=BROKEN)
def test_what_a_model_refuses_the_schema_refuses_too(text: str) -> None:
    data = said(f"{text}\n", NO_UNIT if text.startswith("project") else HEAD)
    assert refused_by_model(data)
    assert refused_by_schema(data)


@pytest.mark.parametrize("head", ["dryfit: 2\n", "dryfit: 1\nheights from: the lane\n", "heights from: bare floor\n"])
def test_a_file_says_in_which_version_it_is_and_from_where_its_heights_count(head: str) -> None:
    data = said("ceiling: 2400 mm\n", head)
    assert refused_by_model(data)
    assert refused_by_schema(data)


REQUIREMENTS = {
    "an unknown kind of row": "{each: waist, figure: slope, at least: 18 mm/m}",
    "no kind of row": "{figure: slope, at least: 18 mm/m}",
    "a figure without a limit": "{each: waste, figure: slope}",
    "a limit without a figure": "{each: waste, at least: 18 mm/m}",
    "an unknown severity": "{each: waste, figure: slope, at least: 18 mm/m, severity: bad}",
    "a key that only books have": "{each: waste, figure: slope, at least: 18 mm/m, tightens: the book}",
}


@pytest.mark.parametrize("text", REQUIREMENTS.values(), ids=REQUIREMENTS)
def test_a_requirement_is_refused_as_a_rule_is(text: str) -> None:
    whole = f"{HEAD}requirements: {{a steep waste: {text}}}\n"
    with pytest.raises(Unreadable):
        read_requirements(plan(whole, ""), library(), ())
    assert refused_by_schema(said(whole, ""))


def test_a_requirement_is_not_called_by_a_code() -> None:
    whole = f"{HEAD}requirements: {{W-12: {{each: waste, figure: slope, at least: 18 mm/m}}}}\n"
    with pytest.raises(Unreadable):
        read_requirements(plan(whole, ""), library(), ())
    (error,) = refused_by_schema(said(whole, ""))
    assert error.startswith("requirements: ")


SPELLINGS = {
    "keys in capitals, with hyphens and underscores": "Walls: {a: {Made-Of: brick, LENGTH: 3 m}, b: {made_of: brick}}",
    "a needed key in another spelling": "runs: {a: {Against: b, ORDER: none}}\nworktops: {t: {On: a}}",
    "American keys": "countertops: {t: {on: a}}\nfasteners: {f: {for: W1, anchor: 8 x 60}}\n"
    "circuits: {c: {breaker: 20 A, gfci: 5 mA}}",
    "American words": "appliances: {x: {is: range hood}, y: {is: Gas Cooktop, cutout: 560 x 490}}\n"
    "floors: {f: {laid: before cabinets}}",
    "printed signs": "layers: {a: [plasterboard ½ in]}\nwalls: {a: {length: 5′−6″}, b: {length: 12 ft 6½ in}}",
    "a whole section left open": "layers: none\nwalls: {a: to find out by plasterer, b: {length: to find out}}",
    "a name left open": "appliances: {hob: {in: to find out by joiner, is: to find out}}",
    "a task by any name": "work: {order: usual, strip out: {takes: 2 days}, lay floor: {by: householder}}",
    "one departure, and several": "agreed: {a: {at: x, reason: y, by: z}, b: [{at: x, reason: y, by: z}]}",
    "a layer alone": "layers: {a: brick 102, b: type 2 board 12}",
    "rest as a width": "runs: {a: {against: b, order: {F1: {is: filler, width: rest}}}}",
    "tops level with another": "runs: {a: {against: b, tops: level with T1, order: {}}}",
    "suspects in one text": "survey: {asbestos: none, lead paint: present}",
    "corners in all their forms": "corners: {a-b: 1422 across 1000 and 1000, b-c: 135 deg, c-d: outside, d-e: Square,"
    " e-f: 'outside, 4 closed in 600', f-g: outside 90 deg, g-h: outside 1 m across 70 cm and 70 cm, h-i: to find out}",
    "readings by their heights": "walls: {a: {length: {floor: 4522, worktop: 4 m}, plumb: 4 Out at top over 2 m}}",
    "a wall as found": "walls: {a: {plumb: 0, flatness: 3, height: 1200 mm from bare floor}, b: {flatness: 3 under 2}}",
    "a boxing": "boxings: {pipe: {wall: a, along: 0 from b, size: 180 w x 150 d}, beam: {up: 2100 from bare floor}}",
    "a diagonal": "diagonals: {a-b to c-d: [5700, 5702], b-c to d-a: to find out}",
    "a room, and one without floors": "rooms: {a: {ceiling: 2200, walls: {b: {length: 900}}, Openings: none},"
    " c: {note: later, flooring: none}}",
    "tax that is included": "money: {vat: included}",
}


@pytest.mark.parametrize("text", SPELLINGS.values(), ids=SPELLINGS)
def test_every_spelling_a_model_reads_is_valid(text: str) -> None:
    data = said(text)
    assert refused_by_model(data) == []
    assert refused_by_schema(data) == []


@pytest.mark.parametrize(
    "text",
    [
        "ceiling: 2400\nproject: {built: 1968, title: 1984}",
        "ceiling: [2424, 2420.5]\nfloors: {a: {thickness: 8}}",
        "floor: {heated: true}\nruns: {a: {against: 1, order: {dishwasher: 600}}}",
    ],
)
def test_numbers_and_yes_or_no_may_be_those_of_an_editor(text: str) -> None:
    """An editor reads `2400` as a number and `true` as a truth value; to a plan both are text."""

    def as_an_editor(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: as_an_editor(each) for key, each in value.items()}
        if isinstance(value, list):
            return [as_an_editor(each) for each in value]
        return True if value == "true" else float(value) if re.fullmatch(r"\d+(\.\d+)?", value) else value

    data = as_an_editor(said(text, "dryfit: 1\n"))
    data["project"] = {**data.get("project", {}), "lengths in": "mm"}
    data["dryfit"] = 1
    assert refused_by_schema(data) == []


def test_an_empty_value_is_refused() -> None:
    assert refused_by_schema({"dryfit": 1, "project": {"title": None}, "ceiling": None})


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("walls: {a: {length: 3 kg}, b: {}}", "walls/a/length"),
        ("runs: {a: {against: b, order: {B1: filler 300 kg}}}", "runs/a/order/B1"),
        ("work: {paint: {takes: 3 mm}}", "work/paint/takes"),
        ("agreed: {a: [{at: x, reason: y, by: z, until: soon}]}", "agreed/a/0/until"),
        ("ceiling: {height: 3 kg}", "ceiling/height"),
        ("requirements: {a: {each: waste, figure: slop, at least: 1 %}}", "requirements/a/figure"),
    ],
)
def test_one_slip_is_one_error_where_it_stands(text: str, place: str) -> None:
    (error,) = refused_by_schema(said(text))
    assert error.startswith(f"{place}: ")


DIFFER = {
    "a share above 100 % is a matter of what figures come to": ("money: {contingency: 120 %}", "model"),
    "a range that runs backwards, too": ("floors: {a: {thickness: 10 to 8}}", "model"),
    "a fraction of one or more, too": ("floors: {a: {thickness: 5/3}}", "model"),
    "which part is water, too": ("coatings: {a: {coats: [1 to 3]}}", "model"),
    "the 29th of February in a common year, too": ("project: {starts: 2027-02-29}", "model"),
    "which unit numbers are in is said elsewhere": ("floors: {a: {thickness: 8}}", "model"),
    "how far the name of a kind goes depends on the kinds": (
        "kinds: {wall: {}}\nruns: {a: {against: b, order: {W1: wall units on studs}}}",
        "model",
    ),
    "which keys a kind may have depends on its uses": (
        "kinds: {door: {plate: 86 x 86}}\nruns: {a: {against: b, order: {B1: door 500}}}",
        "model",
    ),
    "which papers a thing has depends on what it is": (
        "appliances: {hob: {is: gas hob}}\nstated: {hob: {read: p. 4, gap: 10}}",
        "model",
    ),
    "a kind cannot take the rest, its uses can": ("kinds: {infill: {width: rest}}", "model"),
    "what a kind's note holds is not looked at": ("kinds: {infill: {note: {by: tape}}}", "schema"),
    "years are read as numbers are": ("project: {built: '1968.0'}", "schema"),
}
"""Where the two honestly differ, and which of them refuses."""

NEED_A_UNIT = ("floors: {a: {thickness: 8}}",)


@pytest.mark.parametrize(("text", "who"), DIFFER.values(), ids=DIFFER)
def test_the_two_differ_where_it_is_said_that_they_do(text: str, who: str) -> None:
    data = said(text, NO_UNIT if text.startswith("project") or text in NEED_A_UNIT else HEAD)
    assert (bool(refused_by_model(data)), bool(refused_by_schema(data))) == (who == "model", who == "schema")


SOUND = [data_of(file) for file in PLANS.values() if not refused_by_model(data_of(file))]
TEXTS = sorted(
    {value for data in SOUND for at in places(data) if isinstance(value := value_at(data, at), str)}
    | {example for part in _with_examples(schema()) for example in part["examples"]}
    | {
        "none",
        "all",
        "yes",
        "maybe",
        "?",
        "0",
        "600",
        "1/2",
        "5'-6\"",
        "1,250",
        "x",
        "tbc",
        "gb",
        "2026-02-30",
        "2026-13-01",
    }
    | {"to find out", "To Find Out by joiner", "600 kg", "32 a", "10 mm to 25", "2 months", "38 ft assumed"}
    | {"9 low", "18 deep", "146 x 86 x 20", "598 w x 820 w", "door 500 kg left", "600 left", "skim 3 kg", "34½ in"}
    | {"1950", "from west", "150 above worktp", "none from hob", "140 at low spot", "at 20 mm/m", "socket over"}
)
ODD: list[Any] = [{}, [], ["600", "610"], ["600 kg"], ["x"], {"x": "y"}, {"note": "n"}, [["600"]], ["none"], [{}]]
KEYS = ["note", "is", "family", "like", "rule", "tasks", "lenght", "height", "plate", "read"]


@st.composite
def changed_plans(draw: st.DrawFn) -> tuple[dict[str, Any], Way]:
    """A plan of the repository with one value or key changed, and where."""
    data = copy.deepcopy(draw(st.sampled_from(SOUND)))
    at = draw(st.sampled_from([at for at in places(data) if at[0] != "requirements"]))
    holder, key = value_at(data, at[:-1]), at[-1]
    how = draw(st.sampled_from(["text", "text", "text", "odd", "leave out", "spell", "rename"]))
    if how == "text":
        holder[key] = draw(st.sampled_from(TEXTS))
    elif how == "odd":
        holder[key] = draw(st.sampled_from(ODD))
    elif how == "leave out" or isinstance(key, int):
        del holder[key]
    else:
        new = draw(st.sampled_from(_spellings(key) if how == "spell" else [*KEYS, key + "s", key[:-1]]))
        value = holder.pop(key)
        holder.setdefault(new, value)
    return data, at


def _spellings(key: str) -> list[str]:
    return [key.upper(), key.title(), key.replace(" ", "_"), key.replace(" ", "-"), f"_{key}", key.replace(" ", "  ")]


_NOTE_OF_A_KIND = re.compile(r"kinds/[^/]+/note: ", re.IGNORECASE)


@settings(max_examples=400, deadline=None)
@given(changed_plans())
def test_whatever_is_changed_in_a_plan_model_and_schema_are_of_one_mind(changed: tuple[dict[str, Any], Way]) -> None:
    data, at = changed
    model, by_schema = refused_by_model(data), refused_by_schema(data)
    if any(for_its_form(problem, at) for problem in model):
        assert by_schema, model
    if not all(map(_NOTE_OF_A_KIND.match, by_schema)):
        assert model, by_schema
