"""`dryfit new`: write a starter plan, and never over anything."""

from __future__ import annotations

import argparse
import os
import shlex
import sys
from pathlib import Path

from validator.commands.inspecting import say_unreadable
from validator.plan.problems import Unreadable
from validator.reference.folder import rules_folder
from validator.reporting.columns import tamed
from validator.reporting.lines import at_column, wrapped
from validator.reporting.starter import as_toml, countries, country_meant, country_nearest, parts, whole

WRITTEN, NOT_WRITTEN, UNREADABLE = 0, 1, 2
YAML, TOML = (".yaml", ".yml"), ".toml"


class Refused(Exception):
    """Why nothing was written."""


def run(chosen: argparse.Namespace) -> int:
    """Write the file or the folder and say what to do next."""
    rules = rules_folder()
    try:
        choices = countries(rules)
        country = _country(chosen.country, choices)
        toml = _wants_toml(chosen.path, chosen.toml)
        written = _write(chosen.path, rules, country, toml)
    except Unreadable as unreadable:
        say_unreadable(unreadable, "rulebook")
        return UNREADABLE
    except Refused as refused:
        sys.stderr.write(tamed(f"{refused}\n"))
        return NOT_WRITTEN
    sys.stdout.write(tamed("\n".join(_next_steps(chosen.path, written, toml)) + "\n"))
    return WRITTEN


def _country(written: str | None, choices: dict[str, str]) -> str:
    country = country_meant(written, choices) if written is not None else None
    if country is not None:
        return country
    said = "Say in which country the kitchen is, for its rules differ. Nothing was written."
    if written is not None:
        said = f"There is no starter plan for `{written}`. Nothing was written."
    lines = [said, "", *(at_column(f"  --country {code}", called, 22) for code, called in choices.items())]
    meant = country_nearest(written, choices) if written is not None else None
    if meant:
        lines += ["", f"Perhaps «{meant}» was meant."]
    elif written is not None:
        lines += ["", "Start from the nearest of these, and write your own code into the plan."]
    raise Refused("\n".join(lines))


def _wants_toml(path: str, asked: bool) -> bool:
    suffix = os.path.splitext(path)[1].lower() if not _is_folder(path) else ""
    if suffix == TOML:
        return True
    if suffix in YAML:
        if asked:
            raise Refused(f"`{path}` is the name of a YAML file. For TOML, end it in {TOML}. Nothing was written.")
        return False
    if suffix:
        raise Refused(f"The name of a plan ends in .yaml or {TOML}, not in {suffix}. Nothing was written.")
    return asked


def _is_folder(path: str) -> bool:
    """Whether a folder is meant: it is one, it ends in a slash, or its name has no suffix."""
    return os.path.isdir(path) or path.endswith(("/", os.sep)) or not os.path.splitext(path)[1]


def _write(path: str, rules: Path, country: str, toml: bool) -> list[Path]:
    """Write what is asked for; all of it, or nothing."""
    if _is_folder(path):
        suffix = TOML if toml else YAML[0]
        texts = {Path(path) / f"{part}{suffix}": text for part, text in parts(rules, country).items()}
    else:
        texts = {Path(path): whole(rules, country)}
    if toml:
        texts = {file: _in_toml(text) for file, text in texts.items()}
    folder = next(iter(texts)).parent
    try:
        there = [file for file in folder.iterdir() if file in texts or (_is_folder(path) and _is_plan(file))]
    except OSError:
        there = []
    if there:
        raise Refused(f"`{there[0]}` is there already. Nothing was written.")
    done: list[Path] = []
    made = not folder.exists()
    try:
        if _is_folder(path):
            folder.mkdir(exist_ok=True)
        for file, text in texts.items():
            with open(file, "x", encoding="utf-8", newline="\n") as opened:
                done.append(file)
                opened.write(text)
    except OSError as error:
        for file in done:
            file.unlink(missing_ok=True)
        if made and folder.is_dir() and not any(folder.iterdir()):
            folder.rmdir()
        why = error.strerror or str(error)
        raise Refused(f"`{error.filename or path}` cannot be written: {why}. Nothing was written.") from None
    return done


def _in_toml(text: str) -> str:
    try:
        return as_toml(text)
    except ImportError:
        raise Refused("TOML is written by the package tomli-w: install dryfit[toml]. Nothing was written.") from None


def _is_plan(file: Path) -> bool:
    return file.suffix.lower() in (*YAML, TOML, ".json")


def _next_steps(path: str, written: list[Path], toml: bool) -> list[str]:
    named = shlex.quote(path)
    files = ", ".join(str(file) for file in written)
    told = "Put a figure in the place of each `to find out`."
    told += (
        " TOML has no remarks here; the list below says what to measure."
        if toml
        else " The remark beside it says what to measure, read or ask."
    )
    lines = [*wrapped(f"Written: {files}"), *wrapped(told), ""]
    for command, about in (("measure", "what to find out, as a list to take round"), ("check", "what is wrong so far")):
        line = f"  dryfit {command} {named}"
        lines += [f"{line:<40}  {about}"]
    return lines
