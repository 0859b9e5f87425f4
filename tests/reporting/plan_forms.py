"""Plans as plain data, what their schema says of them, and what their models refuse in them for its form."""

from __future__ import annotations

import functools
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from unittest import mock

from jsonschema import Draft202012Validator

from validator.commands.inspecting import library
from validator.plan.files import SUFFIXES, read_document
from validator.plan.load import load
from validator.plan.merging import merge
from validator.plan.problems import Problem, Unreadable
from validator.plan.references import References
from validator.reporting.plan_schema import plan_schema

REPOSITORY = Path(__file__).parents[2]
Way = tuple[str | int, ...]
"""The keys and numbers that lead to a value."""

NO_MATTER_OF_FORM = {
    "kinds, and what they are used for": r"no kind of this plan|kinds are like one another|`rest` in `|"
    r"^a (thing in a run|point|worktop) has no `",
    "what a maker's paper is about": r"^nothing in this plan is called|^what .* states (has no|needs) `",
    "which unit and which floor a file counts from": r"has no unit: say the unit|does not say from where",
    "figures against one another": r"goes from the smaller|stays under one|at most 100 %|in two ways|no paint in it|"
    r"second part is 0|at most 40 characters",
}
"""What a model refuses because of something else in the plan, or because of what a figure comes to."""

_WORDS_BEHIND_A_KIND = re.compile(r"`[A-Za-z][^`]*`(?: in `[^`]*`)?(?: is not a length|: the number| cannot be read)")
"""In a line that is no kind's name as a whole, how far the name goes depends on the kinds of the plan."""

_LINES_WITH_A_KIND = (("runs", "order"), ("points",))


@functools.cache
def schema() -> dict[str, Any]:
    return plan_schema(library())


@functools.cache
def _checker() -> Draft202012Validator:
    return Draft202012Validator(schema())


def refused_by_schema(data: object) -> list[str]:
    return [f"{'/'.join(map(str, error.absolute_path))}: {error.message}" for error in _checker().iter_errors(data)]


def refused_by_model(data: object) -> list[Problem]:
    """Everything that is wrong with a plan but names that lead nowhere."""
    try:
        document = read_document(json.dumps(data), "plan.json")
        with mock.patch.object(References, "check", return_value=None):
            load(merge([document]))
    except Unreadable as unreadable:
        return unreadable.problems
    return []


def for_its_form(problem: Problem, at: Way) -> bool:
    """Whether the form of what was changed at this place is what the problem is about."""
    if any(re.search(pattern, problem.message) for pattern in NO_MATTER_OF_FORM.values()):
        return False
    in_a_line = any(set(names) <= set(map(str, at)) for names in (*_LINES_WITH_A_KIND, ("kinds",)))
    return not (in_a_line and _WORDS_BEHIND_A_KIND.match(problem.message))


def files() -> dict[str, Path]:
    """Every file of a plan in the repository that is meant to be read."""
    folders = (REPOSITORY / "plans_demo", REPOSITORY / "rules" / "fragments", REPOSITORY / "tests" / "plan" / "data")
    found = [file for folder in folders for file in sorted(folder.rglob("*")) if file.suffix in SUFFIXES]
    return {str(file.relative_to(REPOSITORY)): file for file in found if "book" not in data_of(file)}


def books() -> dict[str, Path]:
    folders = (REPOSITORY / "rules", REPOSITORY / "plans_demo")
    found = [file for folder in folders for file in sorted(folder.rglob("*.yaml"))]
    return {str(file.relative_to(REPOSITORY)): file for file in found if "book" in data_of(file)}


@functools.cache
def data_of(file: Path) -> dict[str, Any]:
    """What a file says, every value a text."""
    return read_document(file.read_text("utf-8"), file.name).data


def places(data: object, at: Way = ()) -> Iterator[Way]:
    """The way to every value below this one."""
    if at:
        yield at
    members = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in members:
        yield from places(value, (*at, key))


def value_at(data: Any, at: Way) -> Any:
    for key in at:
        data = data[key]
    return data
