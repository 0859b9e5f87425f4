"""Random texts: the language of rules held to an interpreter written a second time, and to never failing otherwise."""

from __future__ import annotations

import json
import time
from collections.abc import Callable
from typing import Any, TypeVar

import pytest
from hypothesis import event, example, given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy

from tests.judging.language_rows import GROUPS, Shelf, row, scope
from tests.judging.slow_interpreter import CONDITION, Interpreter, Kind, Refused, Unknown
from validator.judging.expressions import BadExpression, Expression, Template, read_expression, read_template
from validator.measures.rows import NotKnown, Row, Why

SHELF = scope("shelf")
KINDS = {
    "board": Kind("words", words=("oak", "ash", "plywood", "glass")),
    "base": Kind("term"),
    **dict.fromkeys(("length", "depth", "thickness", "spanned", "need", "own.reach"), Kind("number", "mm")),
    "area": Kind("number", "mm**2"),
    "load": Kind("number", "kg"),
    "tilt": Kind("number", sort="slope"),
    "damp": Kind("number", sort="humidity"),
    "waste": Kind("number", sort="share"),
    "brackets": Kind("number"),
    "painted": CONDITION,
    "oiled": CONDITION,
    "owner": Kind("name"),
    "put_up": Kind("number", "s", "date"),
    "loaded": Kind("number", "s", "date"),
    "cure": Kind("number", "s"),
}
DAY = 86400.0
START = 739000 * DAY
LENGTHS = st.sampled_from([0.0, 3.0, 18.0, 250.0, 650.0, 900.0])
VALUES: dict[str, SearchStrategy[Any]] = {
    "board": st.sampled_from(["oak", "ash", "plywood", "glass"]),
    "base": st.sampled_from(["brick", "Dense-Block", "lath and  plaster", "cob"]),
    "length": LENGTHS,
    "depth": LENGTHS,
    "thickness": LENGTHS,
    "load": st.sampled_from([0.0, 1.5, 20.0]),
    "tilt": st.sampled_from([0.0, 0.004, 0.01]),
    "damp": st.sampled_from([0.3, 0.6, 0.75]),
    "waste": st.sampled_from([0.0, 0.1, 0.3]),
    "brackets": st.sampled_from([0.0, 2.0, 3.0]),
    "painted": st.booleans(),
    "oiled": st.booleans(),
    "owner": st.sampled_from(["Ines", "Tom"]),
    "put_up": st.sampled_from([START, START + DAY]),
    "loaded": st.sampled_from([START + DAY, START + 3 * DAY]),
    "cure": st.sampled_from([0.0, DAY, 2 * DAY]),
    "spans": st.lists(LENGTHS, max_size=3),
}
EXTRA = {"need": 300.0, "own.reach": 650.0}


@st.composite
def shelves(draw: DrawFn) -> dict[str, Any]:
    """The values of a shelf, each of which may not be known."""
    return {name: draw(values) for name, values in VALUES.items() if draw(st.integers(0, 3))}


# Texts: each comes with how tightly it binds, from 1 (or) to 8 (a name), so that brackets are put only where needed.

Text = tuple[int, str]
LITERALS = {
    "length": ["3 mm", "0.9 m", "25 cm", "650mm", "0 mm"],
    "mass": ["1.5 kg", "20 kg"],
    "ratio": ["30 %", "0 %", "75%", "1 %"],
    "slope": ["4 mm/m", "10 mm/m"],
    "number": ["0", "2", "3", "0.5"],
    "date": ["2024-04-27", "2024-04-28"],
    "duration": ["1 days", "48 h"],
    "area": ["250000 mm2"],
}
NAMES = {
    "length": ["length", "depth", "thickness", "spanned", "need", "own.reach"],
    "mass": ["load"],
    "humidity": ["damp"],
    "share": ["waste"],
    "slope": ["tilt"],
    "number": ["brackets"],
    "date": ["put_up", "loaded"],
    "duration": ["cure"],
    "area": ["area"],
}
WORDS = [
    "board == 'oak'", "'ash' != board", "board in ('oak', 'glass')", "board not in ['ash']", "board in hardwoods",
    "base == 'brick'", "base != 'Lath and plaster'", "base in solid_bases", "base not in hollow_bases",
    "base in ('brick', 'plasterboard')",
]  # fmt: skip
ORDER = ["==", "!=", "<", "<=", ">", ">="]


def gap(draw: DrawFn) -> str:
    return draw(st.sampled_from([" ", " ", " ", "  ", "\n"]))


def bracketed(draw: DrawFn, text: Text, least: int) -> str:
    level, written = text
    return f"({written})" if level < least or not draw(st.integers(0, 9)) else written


def infix(draw: DrawFn, sign: str, level: int, left: Text, right: Text) -> Text:
    space = gap(draw)
    return level, f"{bracketed(draw, left, level)}{space}{sign}{space}{bracketed(draw, right, level + 1)}"


@st.composite
def figures(draw: DrawFn, kind: str, depth: int = 2) -> Text:
    """A text whose value is of the kind."""
    shape = draw(st.integers(0, 7)) if depth else 7
    smaller = depth - 1
    if kind == "date":
        if shape < 3:
            sign = draw(st.sampled_from("+-"))
            return infix(draw, sign, 5, draw(figures("date", smaller)), draw(figures("duration", smaller)))
    elif kind == "duration" and shape < 2:
        return infix(draw, "-", 5, draw(figures("date", smaller)), draw(figures("date", smaller)))
    elif shape < 2:
        return infix(draw, draw(st.sampled_from("+-")), 5, draw(figures(kind, smaller)), draw(figures(kind, smaller)))
    elif shape == 2:
        return infix(draw, "*", 6, draw(figures("number", smaller)), draw(figures(kind, smaller)))
    elif shape == 3:
        return infix(draw, "/", 6, draw(figures(kind, smaller)), draw(divisors("number", smaller)))
    elif shape == 4:
        return 7, f"-{bracketed(draw, draw(figures(kind, smaller)), 7)}"
    elif shape == 5 and kind == "number":
        return infix(draw, "/", 6, draw(figures("length", smaller)), draw(divisors("length", smaller)))
    elif shape == 5 and kind == "area":
        return infix(draw, "*", 6, draw(figures("length", smaller)), draw(figures("length", smaller)))
    elif shape == 5 and kind == "length":
        return infix(draw, "*", 6, draw(figures("slope", smaller)), draw(figures("length", smaller)))
    literals = LITERALS["ratio"] if kind in ("humidity", "share") else LITERALS[kind]
    return 8, draw(st.sampled_from([*NAMES.get(kind, []), *literals]))


def divisors(kind: str, depth: int) -> SearchStrategy[Text]:
    """Anything but a written 0, which is refused."""
    return figures(kind, depth).filter(lambda text: text[1].strip("-() \n") not in ("0", "0 mm"))


@st.composite
def conditions(draw: DrawFn, depth: int = 3) -> Text:
    """A text that is a condition."""
    shape = draw(st.integers(0, 9)) if depth else draw(st.integers(4, 9))
    if shape < 2:
        return infix(draw, "or", 1, draw(conditions(depth - 1)), draw(conditions(depth - 1)))
    if shape == 2:
        return infix(draw, "and", 2, draw(conditions(depth - 1)), draw(conditions(depth - 1)))
    if shape == 3:
        return 3, f"not {bracketed(draw, draw(conditions(depth - 1)), 3)}"
    if shape == 4:
        return 8, draw(st.sampled_from(["painted", "oiled"]))
    if shape == 5:
        return 4, draw(st.sampled_from(WORDS))
    kind = draw(st.sampled_from(sorted(NAMES)))
    left, right = draw(figures(kind)), draw(figures(kind))
    return 4, f"{bracketed(draw, left, 5)} {draw(st.sampled_from(ORDER))} {bracketed(draw, right, 5)}"


ATOMS = [name for names in NAMES.values() for name in names] + [text for texts in LITERALS.values() for text in texts]
ATOMS += [
    "board",
    "base",
    "painted",
    "oiled",
    "owner",
    "spans",
    "solid_bases",
    "lenght",
    "'oak'",
    "'brick'",
    "'teak'",
    *WORDS,
]
SIGNS = ["+", "-", "*", "/", *ORDER, "and", "or", "in", "not in"]


@st.composite
def loose_texts(draw: DrawFn, depth: int = 2) -> str:
    """A text of names, quantities and signs by turns, whose types mostly do not fit."""
    text = ""
    for number in range(draw(st.integers(1, 3))):
        if number:
            text += f" {draw(st.sampled_from(SIGNS))} "
        text += draw(st.sampled_from(["", "", "", "", "", "not ", "-"]))
        nested = depth and not draw(st.integers(0, 4))
        text += f"({draw(loose_texts(depth - 1))})" if nested else draw(st.sampled_from(ATOMS))
    return text


def reader(values: dict[str, Any]) -> Callable[[str], Any]:
    """How the slow interpreter reads a shelf; the figures once more, by hand."""

    def read(name: str) -> Any:
        if name in EXTRA:
            return EXTRA[name]
        if name == "spanned":
            return sum(values["spans"]) if "spans" in values else Unknown(frozenset({"/spans"}))
        if name == "area":
            missing = [needed for needed in ("length", "depth") if needed not in values]
            return Unknown(frozenset({f"/{missing[0]}"})) if missing else values["length"] * values["depth"]
        return values.get(name, Unknown(frozenset({f"/{name}"})))

    return read


def expected(text: str, values: dict[str, Any]) -> Any:
    """What the slow interpreter makes of the text: a value, Unknown, or Refused."""
    try:
        return Interpreter(KINDS, GROUPS, reader(values)).run(text).value
    except Refused:
        return Refused


def found(text: str, shelf: Row) -> Any:
    """What the language of rules makes of the text, from the text and from its store."""
    expression = read_or_refused(lambda: read_expression(text, SHELF), text)
    if expression is None:
        return Refused
    stored = Expression.from_json(json.loads(json.dumps(expression.as_json())))
    assert stored == expression
    results = [outcome(one, shelf) for one in (expression, stored)]
    assert results[0] == results[1]
    return results[0]


T = TypeVar("T")


def read_or_refused(read: Callable[[], T], text: str) -> T | None:
    """What was read; None where it was refused, at a place that is in the text."""
    refused: BadExpression | None = None
    try:
        return read()
    except BadExpression as problem:
        refused = problem
    assert 0 <= refused.offset <= len(text)
    return None


def outcome(expression: Expression, shelf: Row) -> Any:
    try:
        return expression.evaluate(shelf, EXTRA)
    except NotKnown as unknown:
        return Unknown(frozenset(map(said, unknown.missing)))


def said(missing: Any) -> str:
    if missing.why is Why.UNCLEAR:
        return "division by zero" if missing.detail == "it divides by 0" else "a term in no group"
    return str(missing.pointer)


@settings(max_examples=400, deadline=None)
@given(conditions(), shelves())
def test_well_typed_conditions_give_what_the_slow_interpreter_gives(text: Text, values: dict[str, Any]) -> None:
    wanted = expected(text[1], values)
    assert wanted is not Refused
    event(type(wanted).__name__)
    assert found(text[1], row("shelf", values)) == wanted


@settings(max_examples=200, deadline=None)
@given(st.sampled_from(sorted(NAMES)).flatmap(figures), shelves())
def test_well_typed_figures_give_what_the_slow_interpreter_gives(text: Text, values: dict[str, Any]) -> None:
    wanted = expected(text[1], values)
    assert wanted is not Refused
    assert found(text[1], row("shelf", values)) == wanted


@settings(max_examples=600, deadline=None)
@given(loose_texts(), shelves())
@example("length * tilt < 3 mm", {})
@example("30 % * 30 % == 9 %", {})
@example("tilt * 50 % < tilt", {"tilt": 0.004})
@example("2 * 30 % + damp < 1 mm / 1 mm", {})
@example("1 / 30 % < brackets", {})
@example("0 in -length", {})
def test_texts_of_any_type_are_refused_by_both_or_give_the_same(text: str, values: dict[str, Any]) -> None:
    wanted = expected(text, values)
    event("refused" if wanted is Refused else "given")
    assert found(text, row("shelf", values)) == wanted


FRAGMENTS = [
    "length", "board", "base", "painted", "solid_bases", "own.reach", "650 mm", "30 %", "1",
    "'oak'", "'", '"', "(", ")", "[", "]", "{", "}", ",", ".", ":", ":=", "=", "==", "<", "!", "+",
    "-", "*", "**", "/", "//", "%", "@", "&", "|", "^", "~", " ", "\n", "\t", "\x00", "\\", "#",
    ";", "`", "$", "and", "or", "not", "in", "is", "if", "else", "lambda", "for", "await", "yield",
    "import", "f'", "__class__", "__import__('os')", "None", "True", "0x1f", "1e9", "1_000", "é",
    "ｌ", "²", "٣", "\u200b", "\u202e", "\ud800", "½", "1/2 in", "5 ft 6 in", "2026-06-01",
    "2026-13-01", "12 AWG",
]  # fmt: skip


@settings(max_examples=500, deadline=None)
@given(st.one_of(st.text(max_size=60), st.lists(st.sampled_from(FRAGMENTS), max_size=14).map("".join)))
def test_any_text_is_read_or_refused_with_a_place_in_it(text: str) -> None:
    found(text, row("shelf", {}))
    template = read_or_refused(lambda: read_template(text, SHELF), text)
    if template is not None:
        assert Template.from_json(json.loads(json.dumps(template.as_json()))) == template


@pytest.mark.parametrize(
    "text",
    [
        "(" * 100_000,
        "not " * 100_000,
        "-" * 399 + "1",
        "[" * 399,
        "9" * 399,
        "9**" * 120 + "9",
        "1/" * 199 + "1",
        "1-1/1" * 79,
        "1 ft 1-1/1 " * 36,
        "a." * 199 + "a",
        "'" * 399,
        "length" + " < length" * 40,
        "2026-01-01" * 39,
    ],
    ids=lambda text: text[:12],
)
def test_a_hostile_text_is_refused_at_once(text: str) -> None:
    spent = []
    for _ in range(3):
        start = time.process_time()
        with pytest.raises(BadExpression):
            read_expression(text, SHELF)
        spent.append(time.process_time() - start)
    assert min(spent) < 0.02


JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=3), inner, max_size=2),
    max_leaves=6,
)
PIECES = st.one_of(
    JSON,
    st.sampled_from(
        [*Shelf.fields, *Shelf.figures, "subject", "__class__", "number", "word", "term", "name", "in", "<", "read"]
    ),
    st.sampled_from(
        [["read", "number", "length"], ["read", "word", "board"], ["number", 3.0], ["read", "number", "spans"]]
    ),
)


@st.composite
def damaged_stores(draw: DrawFn) -> Any:
    """A stored condition in which one piece, somewhere, was replaced."""
    _, text = draw(conditions(2))
    try:
        stored = json.loads(json.dumps(read_expression(text, SHELF).as_json()))
    except BadExpression:
        return None
    place: Any = stored
    while True:
        number = draw(st.integers(0, len(place) - 1))
        if isinstance(place[number], list) and place[number] and draw(st.integers(0, 3)):
            place = place[number]
        else:
            place[number] = draw(PIECES)
            return stored


@settings(max_examples=500, deadline=None)
@given(damaged_stores(), shelves())
def test_a_damaged_store_is_refused_or_gives_a_value_of_its_type(stored: Any, values: dict[str, Any]) -> None:
    try:
        expression = Expression.from_json(stored)
        value = expression.evaluate(row("shelf", values), EXTRA)
    except (BadExpression, NotKnown):
        return
    assert isinstance(value, bool | float | str)
