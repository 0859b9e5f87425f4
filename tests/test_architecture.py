"""The house rules that no single module can keep: which way imports go, what is never run, what a check may load."""

from __future__ import annotations

import ast
import functools
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

REPOSITORY = Path(__file__).resolve().parent.parent
FOLDERS = ("plan", "reference", "measures", "judging", "reporting", "commands")
"""Each folder imports only from itself and those before it."""

MODULES = sorted((REPOSITORY / "validator").rglob("*.py"))


@functools.cache
def tree(module: Path) -> ast.Module:
    return ast.parse(module.read_text("utf-8"), str(module))


def imported(module: Path) -> Iterator[tuple[int, str]]:
    """Every module named in an import, wherever it stands: at the top, in a function, for the type checker only; and in
    a text, as where modules are loaded by their names.
    """
    for node in ast.walk(tree(module)):
        match node:
            case ast.Import(names):
                yield from ((node.lineno, name.name) for name in names)
            case ast.ImportFrom(None | "", _, _) | ast.ImportFrom(_, _, 1 | 2 | 3):
                yield node.lineno, "a relative import"
            case ast.ImportFrom(str() as whence, names, _):
                yield node.lineno, whence
                yield from ((node.lineno, f"{whence}.{name.name}") for name in names)
            case ast.Constant(str() as text) if re.fullmatch(r"validator\.[\w.]+", text):
                yield node.lineno, text


def folder_of(name: str) -> str | None:
    """The folder of the house that a dotted name belongs to."""
    parts = name.split(".")
    return parts[1] if parts[0] == "validator" and len(parts) > 1 and parts[1] in FOLDERS else None


def test_every_module_stands_in_a_folder_of_the_house() -> None:
    strays = [str(module) for module in MODULES if module.parent.name == "validator" and module.name != "__init__.py"]
    assert strays == []
    assert {module.relative_to(REPOSITORY).parts[1] for module in MODULES} == {"__init__.py", *FOLDERS}


def test_imports_go_one_way() -> None:
    wrong = []
    for module in MODULES:
        own = folder_of(".".join(module.relative_to(REPOSITORY).parts[:-1]))
        for line, name in imported(module):
            other = folder_of(name)
            if own is not None and other is not None and FOLDERS.index(other) > FOLDERS.index(own):
                wrong.append(f"{module.relative_to(REPOSITORY)}, line {line}: {own} imports {name}")
    assert wrong == []


def test_imports_name_whole_modules() -> None:
    relative = [f"{module}: {line}" for module in MODULES for line, name in imported(module) if " " in name]
    assert relative == []


def test_the_walk_sees_imports_inside_functions_and_for_the_type_checker_only() -> None:
    names = {name for _, name in imported(REPOSITORY / "validator" / "measures" / "site.py")}
    assert "validator.measures.runs.run_places" in names  # in a function
    assert "validator.measures.heights.levels.Levels" in names  # under TYPE_CHECKING
    assert "validator.measures.catalogue" in names  # at the top


RUNS_TEXT = {"eval", "exec", "compile", "__import__"}
UNSAFE = {"marshal", "pickle", "shelve", "dill", "code", "codeop", "runpy", "builtins", "ctypes"}


def test_no_text_is_ever_run_and_nothing_is_unpickled() -> None:
    found = []
    for module in MODULES:
        for node in ast.walk(tree(module)):
            if isinstance(node, ast.Name) and node.id in RUNS_TEXT:
                found.append(f"{module}, line {node.lineno}: {node.id}")
        found += [f"{module}, line {line}: {name}" for line, name in imported(module) if name.split(".")[0] in UNSAFE]
    assert found == []


def test_no_module_is_longer_than_500_lines() -> None:
    long = {str(module): lines for module in MODULES if (lines := module.read_text("utf-8").count("\n")) > 500}
    assert long == {}


PACKAGES = {"pydantic", "pydantic_core", "annotated_types", "typing_extensions", "typing_inspection", "ruamel"}
"""The packages that a check may load; with what they are compiled with."""

COMPILED_WITH = {"_ruamel_yaml", "cython_runtime"}
HEAVY = {
    "asyncio", "concurrent", "doctest", "http", "logging", "multiprocessing", "pdb", "pydoc", "socketserver", "sqlite3",
    "ssl", "statistics", "subprocess", "unittest", "xml", "importlib.metadata", "importlib.resources",
}  # fmt: skip
"""What of Python's own library takes long to load and has no business in a check."""

LIST_MODULES = "import sys; print(); print(*sorted(sys.modules))"
CHECK = "from validator.commands.main import main; assert main(sys.argv[1:]) in (0, 1)"


def loaded(code: str, *words: str, caches: Path) -> set[str]:
    """The modules in memory once a process of its own has run some code."""
    environment = {**os.environ, "PYTHONPATH": str(REPOSITORY), "XDG_CACHE_HOME": str(caches)}
    ran = subprocess.run(
        [sys.executable, "-c", f"import sys; {code}; {LIST_MODULES}", *words],
        capture_output=True,
        text=True,
        env=environment,
        check=True,
    )
    return set(ran.stdout.splitlines()[-1].split())


def of_check(plan: str | Path, caches: Path) -> set[str]:
    return loaded(CHECK, "check", str(plan), caches=caches)


@pytest.fixture(scope="module")
def demo_modules(tmp_path_factory: pytest.TempPathFactory) -> tuple[set[str], set[str]]:
    """What checking a demo plan loads: with nothing kept from an earlier run, and with the books kept."""
    caches = tmp_path_factory.mktemp("caches")
    plan = REPOSITORY / "plans_demo" / "tern-cottage"
    return of_check(plan, caches), of_check(plan, caches)


@pytest.fixture(scope="module")
def own_modules(tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    """What the packages bring with them, whoever loads them."""
    return loaded(
        "import argparse, pydantic, ruamel.yaml; pydantic.create_model('Crate', deep=(int, 1))",
        caches=tmp_path_factory.mktemp("none"),
    )


def test_a_check_loads_no_package_but_two_and_what_they_need(demo_modules: tuple[set[str], set[str]]) -> None:
    for modules in demo_modules:
        packages = {name.split(".")[0] for name in modules} - sys.stdlib_module_names - {"validator", "__main__"}
        compiled = {name for name in packages if name in COMPILED_WITH or name.startswith("_cython_")}
        of_python = {
            name
            for name in packages
            if name.endswith("_finder") or name.startswith(("_distutils", "__edit", "_sysconfig"))
        }
        assert packages - compiled - of_python - {"sitecustomize", "usercustomize"} <= PACKAGES


def test_a_check_loads_nothing_heavy_of_its_own(demo_modules: tuple[set[str], set[str]], own_modules: set[str]) -> None:
    for modules in demo_modules:
        own = modules - own_modules
        heavy = {name for name in own if name in HEAVY or name.split(".")[0] in HEAVY}
        assert heavy == set()


def test_other_commands_and_forms_are_not_loaded_for_a_check(demo_modules: tuple[set[str], set[str]]) -> None:
    for modules in demo_modules:
        ours = {name for name in modules if name.startswith("validator.")}
        assert "validator.reporting.text" in ours
        for other in ("json_form", "sarif_form", "junit_form", "markdown", "about", "rule_texts"):
            assert f"validator.reporting.{other}" not in ours
        for other in ("show", "rules", "new", "set", "measure", "quantities"):
            assert f"validator.commands.{other}" not in ours


HEAD = "dryfit: 1\nproject: {title: Ice house, country: GB-ENG, lengths in: mm}\n"
SECTIONS = [
    ("money", "money: {contingency: 10 %}\n"),
    ("survey", "survey: {asbestos: none}\n"),
    ("furniture", "walls: {quay: {}}\nruns: {bench: {against: quay, order: {}}}\n"),
    ("work", "work: {order: usual}\n"),
]


@pytest.mark.parametrize(("module", "section"), SECTIONS)
def test_a_section_is_loaded_only_for_a_plan_that_has_it(module: str, section: str, tmp_path: Path) -> None:
    name = f"validator.plan.sections.{module}"
    reads = "from validator.plan import files, load; load.load(files.read_plan(sys.argv[1:], bytes))"
    without, having = tmp_path / "without.yaml", tmp_path / "with.yaml"
    without.write_text(HEAD, "utf-8")
    having.write_text(HEAD + section, "utf-8")
    assert name not in loaded(reads, str(without), caches=tmp_path)
    assert name in loaded(reads, str(having), caches=tmp_path)


KEPT_OUT = re.compile(
    "|".join(
        [
            "transcr" + "ipt",
            r"\bseed (?:docu" + r"ment|fi" + "le)",
            "video" + "-0",
            "source" + "book",
            r"\.\./sha" + "red",
            "/work/sha" + "red",
        ]
    ),
    re.IGNORECASE,
)
TOP = re.compile(r"\..*|README\.md|DEVELOPERS\.md|LICENSE.*|pyproject\.toml|validator|rules|tests|plans_demo")
CODE_FOR_A_NAME = re.compile(r'^\s*-?\s*(id|rule|name|code):\s*"?[A-Z]{1,5}-?[0-9]{2,5}"?\s*$', re.MULTILINE)


@functools.cache
def files() -> tuple[Path, ...]:
    """The files of the project that git keeps; skips where this is no checkout."""
    if not (REPOSITORY / ".git").exists():
        pytest.skip("no checkout")
    listed = subprocess.run(
        ["git", "ls-files", "-z"], cwd=REPOSITORY, capture_output=True, text=True, check=True
    ).stdout
    return tuple(REPOSITORY / name for name in listed.split("\0") if name and (REPOSITORY / name).is_file())


def test_the_project_speaks_only_of_itself() -> None:
    found = []
    for file in files():
        text = file.read_bytes().decode("utf-8", "replace")
        found += [f"{file}: {match[0]}" for match in KEPT_OUT.finditer(text)]
    assert found == []


def test_rules_have_names_and_not_codes() -> None:
    texts = {
        file: file.read_text("utf-8") for file in files() if file.parts[len(REPOSITORY.parts)] in ("rules", "validator")
    }
    assert [
        f"{file}: {match[0].strip()}" for file, text in texts.items() for match in CODE_FOR_A_NAME.finditer(text)
    ] == []


def test_nothing_else_stands_at_the_top() -> None:
    tops = {file.relative_to(REPOSITORY).parts[0] for file in files()}
    assert [name for name in sorted(tops) if not TOP.fullmatch(name)] == []
