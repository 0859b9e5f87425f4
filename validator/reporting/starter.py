"""Starter plans: the texts in `rules/starters`, put together for a country as one file or as several."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

from validator.plan.names import nearest
from validator.plan.problems import Problem, Unreadable
from validator.plan.yaml_reader import read_yaml
from validator.reference.countries import applies
from validator.reference.entries import read_file
from validator.reference.folder import STARTERS, shown
from validator.reference.lists import read_texts

HEAD = "head"
PARTS = ("survey", "kinds", "layout", "job")
_CODE = re.compile(r"[A-Z]{2}(-[A-Z0-9]{1,3})?")


def countries(rules: Path) -> dict[str, str]:
    """The codes of the countries there is a starter plan for, each with what it is called. Raises Unreadable."""
    problems: list[Problem] = []
    file = rules / STARTERS / "countries.yaml"
    page = read_file(file, shown(rules, file), problems)
    found = read_texts(page) if page else {}
    if problems:
        raise Unreadable(problems)
    return found


def country_meant(written: str, choices: Mapping[str, str]) -> str | None:
    """The code as a plan writes it (`gb-eng` is GB-ENG, US-OR is in US); None where there is no starter plan for it."""
    code = written.strip().upper().replace("_", "-")
    fits = _CODE.fullmatch(code) is not None and any(applies(choice, code) for choice in choices)
    return code if fits else None


def country_nearest(written: str, choices: Mapping[str, str]) -> str | None:
    """The choice that somebody probably meant: by its code, or by what the country is called."""
    by_name = {called.partition(";")[0]: code for code, called in choices.items()}
    found = nearest(written, [*choices, *by_name])
    return by_name.get(found, found) if found else None


def parts(rules: Path, country: str) -> dict[str, str]:
    """The parts of the starter plan for a country, by the names of their files, each a file of its own."""
    head = _text(rules, country, HEAD)
    return {part: f"{head}{_text(rules, country, part)}" for part in PARTS}


def whole(rules: Path, country: str) -> str:
    """The starter plan for a country as one file."""
    return "".join(_text(rules, country, part) for part in (HEAD, *PARTS))


def as_toml(text: str) -> str:
    """A starter plan in TOML: the same content, without the remarks."""
    from tomli_w import dumps

    return dumps(read_yaml(text, STARTERS).data)


def _text(rules: Path, country: str, part: str) -> str:
    home = country.partition("-")[0]
    text = (rules / STARTERS / home / f"{part}.yaml").read_text("utf-8")
    return text.replace(f"country: {home}\n", f"country: {country}\n")
