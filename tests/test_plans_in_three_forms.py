"""The same plan in YAML, TOML and JSON: it reads the same, and it is judged the same."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import tomli_w
from hypothesis import given, settings

from tests.plan.same_data import has_one_name_twice, plans
from validator.commands.inspecting import inspect
from validator.plan.files import read_document

DEMO_PLANS = Path(__file__).parents[1] / "plans_demo"
DAY = date(2027, 3, 1)
_WHOLE = re.compile(r"0|[1-9][0-9]{0,17}")
_DAY = re.compile(r"[12][0-9]{3}-[01][0-9]-[0-3][0-9]")


def as_people_write_it(value: Any) -> Any:
    """The data with numbers and days for the texts that are nothing else, as one writes them in TOML."""
    if isinstance(value, dict):
        return {name: as_people_write_it(inner) for name, inner in value.items()}
    if isinstance(value, list):
        return [as_people_write_it(inner) for inner in value]
    if _WHOLE.fullmatch(value):
        return int(value)
    if _DAY.fullmatch(value):
        return date.fromisoformat(value)
    return value


def rewritten(folder: Path, into: Path, suffix: str, write: Callable[[Any], str]) -> Path:
    """The files of a folder written in another form, each read from the file that the last form left."""
    into.mkdir()
    for file in sorted(folder.iterdir()):
        if file.suffix in (".yaml", ".toml", ".json"):
            data = read_document(file.read_text(encoding="utf-8"), str(file)).data
            (into / file.with_suffix(suffix).name).write_text(write(data), encoding="utf-8")
    return into


def judged(folder: Path) -> list[tuple[str, str, str, str, list[str]]]:
    """Every outcome, sorted: the writer of TOML puts texts before tables, so that points come in another order."""
    outcomes = inspect(str(folder), [], DAY).outcomes
    return sorted(
        (
            outcome.rule.name,
            outcome.subject.name,
            outcome.subject.pointer,
            outcome.result.value,
            list(map(str, outcome.checks)),
        )
        for outcome in outcomes
    )


@pytest.mark.parametrize("plan", ["tern-cottage", "weavers-row"])
@pytest.mark.parametrize("to_toml", [tomli_w.dumps, lambda data: tomli_w.dumps(as_people_write_it(data))])
def test_a_demo_plan_from_yaml_to_toml_to_json_is_judged_the_same(
    plan: str, to_toml: Callable[[Any], str], tmp_path: Path
) -> None:
    yaml = DEMO_PLANS / plan
    toml = rewritten(yaml, tmp_path / "toml", ".toml", to_toml)
    from_toml = rewritten(toml, tmp_path / "json", ".json", json.dumps)
    outcomes = judged(yaml)
    assert len(outcomes) > 20
    assert judged(toml) == outcomes
    assert judged(from_toml) == outcomes


@settings(max_examples=150, deadline=None)
@given(data=plans.filter(lambda data: not has_one_name_twice(data)))
def test_the_same_data_reads_the_same_from_all_three(data: dict[str, Any]) -> None:
    in_json = json.dumps(data, ensure_ascii=False)
    assert read_document(in_json, "plan.yaml").data == data
    assert read_document(in_json, "plan.json").data == data
    assert read_document(tomli_w.dumps(data), "plan.toml").data == data
