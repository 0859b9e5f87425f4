"""The language of rules, case by case: the cases stand in data/*.yaml, where an author of rules can read them."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from tests.judging.language_rows import GROUPS, Shelf, plain, row, scope
from validator.judging.expressions import (
    BadExpression,
    Expression,
    Scope,
    Template,
    read_expression,
    read_template,
    scope_of,
)
from validator.measures.rows import YES_NO, FieldType, Known, Missing, NotKnown, Row, Subject, Why
from validator.plan import dimensions as dim


def data(name: str) -> Any:
    return YAML(typ="safe").load(Path(__file__).parent / "data" / f"{name}.yaml")


CONDITIONS, REFUSALS, TEMPLATES = data("conditions"), data("refusals"), data("templates")


def rows(of: str) -> Row:
    return row(of, CONDITIONS[of])


def check(case: dict[str, Any], text: str, wanted: FieldType) -> None:
    """Hold one case to what it says: a value, or what is not known."""
    expression = read_expression(text, scope(case["of"]), wanted)
    if "not known" in case:
        with pytest.raises(NotKnown) as unknown:
            expression.evaluate(rows(case["of"]))
        assert [missing.pointer for missing in unknown.value.missing] == case["not known"]
    else:
        gives = case["gives"]
        expected = gives if isinstance(gives, bool) else pytest.approx(plain(gives), rel=1e-12)
        assert expression.evaluate(rows(case["of"])) == expected


def check_refused(case: dict[str, Any], read: Any) -> None:
    with pytest.raises(BadExpression) as refused:
        read()
    assert refused.value.message == case["error"]
    assert case["text"][refused.value.offset :].startswith(case["at"])
    assert refused.value.nearest == case.get("nearest", "")


@pytest.mark.parametrize("case", CONDITIONS["conditions"], ids=lambda case: f"{case['of']}: {case['when']}")
def test_condition(case: dict[str, Any]) -> None:
    check(case, case["when"], YES_NO)


@pytest.mark.parametrize("case", CONDITIONS["limits"], ids=lambda case: case["limit"])
def test_limit(case: dict[str, Any]) -> None:
    check(case, case["limit"], dim.BY_NAME[case["wanted"]])


@pytest.mark.parametrize("case", REFUSALS["refusals"], ids=lambda case: ascii(case["text"]))
def test_refusal(case: dict[str, Any]) -> None:
    check_refused(case, lambda: read_expression(case["text"], scope("shelf"), YES_NO))


def shown(value: float | str | bool, type: FieldType) -> str:
    return f"{value:g} {type.name}" if isinstance(type, dim.Dimension) else str(value)


@pytest.mark.parametrize("case", TEMPLATES["filled"], ids=lambda case: case["text"] or "nothing")
def test_template(case: dict[str, Any]) -> None:
    extra = {name: plain(value) for name, value in TEMPLATES["extra"].items()}
    template = read_template(case["text"], scope("shelf"))
    assert template.fill(row("shelf", TEMPLATES["shelf"]), extra, shown) == case["gives"]
    again = Template.from_json(json.loads(json.dumps(template.as_json())))
    assert again == template


@pytest.mark.parametrize("case", TEMPLATES["refused"], ids=lambda case: case["text"])
def test_template_refused(case: dict[str, Any]) -> None:
    check_refused(case, lambda: read_template(case["text"], scope("shelf")))


def test_every_place_of_a_refusal_is_told_apart() -> None:
    for case in (*REFUSALS["refusals"], *TEMPLATES["refused"]):
        whole_text = case["at"].strip() == ""
        assert whole_text or case["text"].count(case["at"]) == 1, case


def test_reads_are_the_names_of_the_row_and_of_own_values() -> None:
    expression = read_expression("board == 'oak' and length < own.reach * 2 and base in solid_bases", scope("shelf"))
    assert expression.reads == {"board", "length", "own.reach", "base"}


def test_type_without_a_wanted_one_is_that_of_the_expression() -> None:
    assert read_expression("length * depth", scope("shelf")).type == dim.AREA
    assert read_expression("painted", scope("shelf")).type == YES_NO
    assert read_expression("30 %", scope("shelf")).type == dim.NUMBER
    assert read_expression("board", scope("shelf")).type == Shelf.fields["board"].type


@pytest.mark.parametrize(
    ("text", "wanted", "message"),
    [
        ("length", dim.DURATION, "this is a length, where a duration is wanted"),
        ("painted", dim.LENGTH, "this is a condition, where a length is wanted"),
        ("650", dim.LENGTH, "a number without a unit is never a length; write 650 mm"),
        ("30 %", dim.LENGTH, "this is a percentage, where a length is wanted"),
        ("waste", dim.HUMIDITY, "this is a share, where a relative humidity is wanted"),
        ("base", YES_NO, "this is a term of the trade, where a condition is wanted"),
        ("owner", YES_NO, "this is a name, where a condition is wanted"),
    ],
)
def test_another_type_than_the_wanted_one_is_refused(text: str, wanted: FieldType, message: str) -> None:
    with pytest.raises(BadExpression) as refused:
        read_expression(text, scope("shelf"), wanted)
    assert refused.value.message == message


def test_a_term_that_no_group_has_is_not_known_to_be_one_or_the_other() -> None:
    cob = Shelf(Subject("shelf", "/shelf"), base=Known("Cob wall", "/walls/north"))
    for text in ("base in solid_bases", "base not in solid_bases", "base == 'brick'", "base != 'brick'"):
        with pytest.raises(NotKnown) as unknown:
            read_expression(text, scope("shelf")).evaluate(cob)
        assert unknown.value.missing == (
            Missing(
                "/walls/north",
                "what carries the brackets",
                Why.UNCLEAR,
                detail="no group of terms has 'Cob wall'",
            ),
        )


def test_division_by_zero_is_not_known_and_says_why() -> None:
    with pytest.raises(NotKnown) as unknown:
        read_expression("length / (brackets - 3)", scope("shelf")).evaluate(rows("shelf"))
    assert unknown.value.missing == (Missing("/", "length / (brackets - 3)", Why.UNCLEAR, detail="it divides by 0"),)


def test_an_extra_name_still_to_find_out_is_not_known_at_its_own_place() -> None:
    reach = Missing("/own/reach", "reach", Why.TO_FIND)
    with pytest.raises(NotKnown) as unknown:
        read_expression("length < own.reach", scope("shelf")).evaluate(rows("shelf"), {"own.reach": reach})
    assert unknown.value.missing == (reach,)


def test_an_extra_name_cannot_hide_a_name_of_the_row() -> None:
    for name in ("length", "spans", "area"):
        with pytest.raises(BadExpression, match=f"`{name}` is already a name in a row of 'shelf on brackets'"):
            scope_of(Shelf, GROUPS, {name: dim.LENGTH})


def test_a_group_cannot_hide_a_name_of_the_row() -> None:
    names = Scope({"board": YES_NO}, {"board": frozenset({"oak"})}, "a row of 'x'")
    with pytest.raises(BadExpression, match="`board` is both a group and a name in a row of 'x'"):
        read_expression("board", names)


@pytest.mark.parametrize(
    ("text", "message", "offset"),
    [
        ("(" * 13 + "painted" + ")" * 13, "brackets may stand 12 deep", 12),
        ("1+" * 60 + "1", "an expression may have 120 words and signs", 120),
        (" " * 401, "an expression may have 400 characters, and this has 401", 400),
    ],
)
def test_a_text_too_long_or_too_deep_is_refused(text: str, message: str, offset: int) -> None:
    with pytest.raises(BadExpression) as refused:
        read_expression(text, scope("shelf"))
    assert (refused.value.message, refused.value.offset) == (message, offset)


@pytest.mark.parametrize(
    "text",
    [
        "not " * 96 + "oiled",
        "0 mm <" + "-" * 110 + "length",
        "1+" * 58 + "1 == 59",
        "(" * 12 + "painted" + ")" * 12,
    ],
)
def test_the_longest_and_deepest_texts_there_may_be_are_read_and_evaluated(text: str) -> None:
    expression = read_expression(text, scope("shelf"), YES_NO)
    stored = Expression.from_json(json.loads(json.dumps(expression.as_json())))
    assert stored.evaluate(row("shelf", {"length": "1 mm", "oiled": True, "painted": True})) is True


def test_a_number_too_large_is_refused() -> None:
    with pytest.raises(BadExpression, match="this number is too large"):
        read_expression("brackets < " + "9" * 310, scope("shelf"))


DAMAGED: list[Any] = [
    None,
    {},
    [],
    ["a", ["number"], ["number", 1.0]],
    ["a", ["name"], ["number", 1.0]],
    ["a", ["yes or no"], ["number", 1.0]],
    ["a", ["yes or no"], ["call", "print"]],
    ["a", ["yes or no"], ["<", ["read", "number", "length"], ["read", "word", "board"]]],
    ["a", ["yes or no"], ["<", ["number", 1.0]]],
    ["a", ["yes or no"], ["and", ["read", "yes or no", "painted"]]],
    ["a", ["yes or no"], ["in", ["read", "number", "length"], ["oak"]]],
    ["a", ["yes or no"], ["in", ["read", "word", "board"], []]],
    ["a", ["yes or no"], ["in", ["read", "word", "board"], [1]]],
    ["a", ["yes or no"], ["in", ["read", "term", "base"], ["brick"]]],
    ["a", ["yes or no"], ["not", ["not"]]],
    ["a", ["yes or no"], ["not", ["read", "number", "length"]]],
    ["a", ["yes or no"], ["or", ["read", "yes or no", "painted"], ["read", "word", "board"]]],
    ["a", ["yes or no"], ["<", ["read", "yes or no", "painted"], ["number", 1.0]]],
    ["a", ["number", "number", [0, 0, 0, 0, 0, 0], "", False], ["negative", ["read", "word", "board"]]],
    ["a", ["number", "number", [0, 0, 0, 0, 0, 0], "", False], ["+", ["number", 1.0], ["read", "term", "base"]]],
    ["a", ["term"], ["read", "thing", "base"]],
    ["a", ["term"], ["read", "term", 3]],
    ["a", ["word"], ["read", "word", "board"]],
    ["a", ["number", "length", [1, 0], "", False], ["number", 1.0]],
    ["a", ["number", "length", [1, 0, 0, 0, 0, True], "", False], ["number", 1.0]],
    ["a", ["number", "number", [0, 0, 0, 0, 0, 0], "", False], ["number", float("nan")]],
    ["a", ["number", "number", [0, 0, 0, 0, 0, 0], "", False], ["number", True]],
]


@pytest.mark.parametrize("damaged", DAMAGED, ids=json.dumps)
def test_a_damaged_store_is_refused(damaged: Any) -> None:
    with pytest.raises(BadExpression):
        Expression.from_json(damaged)


def test_a_store_that_is_too_deep_is_refused() -> None:
    tree: Any = ["read", "yes or no", "painted"]
    for _ in range(100_000):
        tree = ["not", tree]
    with pytest.raises(BadExpression):
        Expression.from_json(["a", ["yes or no"], tree])


@pytest.mark.parametrize("name", ["subject", "known", "__class__", "subject.pointer", "corners", "kind"])
def test_a_forged_store_reaches_nothing_but_declared_names(name: str) -> None:
    forged = Expression.from_json(["a", ["name"], ["read", "name", name]])
    with pytest.raises(NotKnown):
        forged.evaluate(rows("shelf"))


@pytest.mark.parametrize(
    ("sort", "name"), [("number", "board"), ("number", "spans"), ("term", "board"), ("word", "area")]
)
def test_a_forged_store_cannot_take_a_value_for_another_sort(sort: str, name: str) -> None:
    type = ["word", "oak"] if sort == "word" else ["term"]
    if sort == "number":
        type = ["number", "number", [0, 0, 0, 0, 0, 0], "", False]  # type: ignore[list-item]
    forged = Expression.from_json(["a", type, ["read", sort, name]])
    with pytest.raises(BadExpression, match=f"`{name}` of a row of 'shelf on brackets' is not a {sort}"):
        forged.evaluate(row("shelf", {"spans": ["3 mm"], "board": "oak", "length": "3 mm", "depth": "3 mm"}))


def test_an_extra_value_of_another_sort_is_refused() -> None:
    expression = read_expression("own.reach > 3 mm", scope("shelf"))
    for wrong in ("3", True):
        with pytest.raises(BadExpression, match=r"`own\.reach` was given as"):
            expression.evaluate(rows("shelf"), {"own.reach": wrong})
