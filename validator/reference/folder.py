"""Where the rules are: beside the installed package, or beside its folder in a checkout."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from validator.plan.problems import Place, Problem, Unreadable

SIGN = "sources.yaml"
NOT_BOOKS = frozenset({"tables", "fragments"})


def rules_folder(package: Path | None = None) -> Path:
    """The folder of rules that belongs to the package: `_rules` in it, else `../rules` if it holds `sources.yaml`.

    Raises Unreadable where neither is there: an installation without its rules must not pass anything.
    """
    home = package or Path(__file__).resolve().parent.parent
    for folder in (home / "_rules", home.parent / "rules"):
        if (folder / SIGN).is_file():
            return folder
    raise Unreadable(
        [
            Problem(
                "the rules that belong to dryfit are not there",
                Place(str(home)),
                expected=f"{SIGN} in {home / '_rules'} or in {home.parent / 'rules'}; install dryfit again",
            )
        ]
    )


def book_files(folder: Path) -> Iterator[Path]:
    """The rulebooks of a folder of rules, in the order of their names."""
    for part in sorted(folder.iterdir()):
        if part.is_dir() and part.name not in NOT_BOOKS:
            yield from sorted(part.rglob("*.yaml"))


def table_files(folder: Path) -> Iterator[Path]:
    yield from sorted((folder / "tables").rglob("*.yaml"))


def shown(folder: Path, file: Path) -> str:
    """What a report calls a file of the rules, whatever the folder they are installed in."""
    return "rules/" + file.relative_to(folder).as_posix()
