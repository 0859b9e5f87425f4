"""What a short check loads, held on names and not on a time: what is not loaded costs nothing on any machine."""

from __future__ import annotations

import importlib
import pkgutil
from pathlib import Path

import pytest

import validator.plan.sections
from tests.bench.cold import COMMAND, WORDS, run
from validator.plan.elements import Element

FOREIGN = {
    "concurrent.futures",
    "difflib",
    "importlib.resources.readers",
    "jinja2",
    "jsonschema",
    "logging",
    "multiprocessing",
    "networkx",
    "numpy",
    "pint",
    "rich",
    "shapely",
    "tomllib",
    "unittest",
    "xml",
}
"""Modules that cost milliseconds and that a check of a plan in YAML has no use for."""

OURS = {
    "validator.commands.githook",
    "validator.commands.new",
    "validator.judging.book_layers",
    "validator.judging.book_reading",
    "validator.plan.json_reader",
    "validator.plan.line_structure",
    "validator.plan.slips",
    "validator.plan.toml_reader",
    "validator.reference.table_reading",
    "validator.reporting.json_form",
    "validator.reporting.plan_schema",
    "validator.reporting.sarif_form",
}
"""Modules of ours for mistakes, other forms and books that have changed; a check of a sound plan runs without."""

NAMES = """
import os, sys
leave = os._exit
def say_and_leave(status):
    print("\\n".join(sys.modules), file=sys.stderr, flush=True)
    leave(status)
os._exit = say_and_leave
"""
"""What makes a run print the names of its modules at its end."""


@pytest.fixture(scope="module")
def loaded(tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    """The modules loaded by the second run of a check: the first has kept the books."""
    home = tmp_path_factory.mktemp("home")
    assert run(COMMAND, home, *WORDS).returncode < 2
    return set(run(NAMES + COMMAND, home, *WORDS).stderr.split())


def test_a_check_loads_the_model_and_the_report(loaded: set[str]) -> None:
    assert {"pydantic", "ruamel.yaml", "validator.plan.sections.room", "validator.reporting.text"} <= loaded


def test_a_check_loads_no_library_it_has_no_use_for(loaded: set[str]) -> None:
    assert not FOREIGN & loaded


def test_a_check_with_kept_books_loads_nothing_that_reads_books_or_explains_mistakes(loaded: set[str]) -> None:
    assert not OURS & loaded
    for name in OURS:
        importlib.import_module(name)  # a name that is gone would hold nothing


def test_sections_a_plan_does_not_have_are_not_loaded(tmp_path: Path) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text("dryfit: 1\nproject: {title: A wall, country: GB-ENG}\nwalls: {north: {length: 3000}}\n", "utf-8")
    ran = run(NAMES + COMMAND, tmp_path, "check", str(plan))
    sections = {name for name in ran.stderr.split() if name.startswith("validator.plan.sections.")}
    assert sections == {f"validator.plan.sections.{name}" for name in ("project", "room", "beyond", "joists")}


def _models() -> list[type[Element]]:
    for module in pkgutil.iter_modules(validator.plan.sections.__path__, "validator.plan.sections."):
        importlib.import_module(module.name)
    found: list[type[Element]] = [Element]
    for model in found:
        found += model.__subclasses__()
    return [model for model in found if model.__module__.startswith("validator.")]


@pytest.mark.parametrize("model", _models(), ids=lambda model: model.__name__)
def test_no_annotation_of_a_model_is_text_that_pydantic_has_to_work_out(model: type[Element]) -> None:
    put_off = [name for name, said in model.__annotations__.items() if isinstance(said, str)]
    assert not put_off, f"take `from __future__ import annotations` out of {model.__module__}"
