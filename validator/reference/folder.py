"""Where the rules are: beside the installed package, or beside its folder in a checkout."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable, Iterator
from pathlib import Path

from validator.plan.files import LARGEST
from validator.plan.problems import Place, Problem, Unreadable

SIGN = "sources.yaml"
STARTERS = "starters"
NOT_BOOKS = frozenset({"tables", "fragments", STARTERS})
NOT_JUDGED_BY = frozenset({"fragments", STARTERS})


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


def files_of(given: str | Path) -> list[Path]:
    """The files of a book given by its path: the file itself, or those of the folder."""
    path = Path(given)
    return sorted(path.rglob("*.yaml")) if path.is_dir() else [path]


def digest(folder: Path, given: Iterable[str | Path] = ()) -> str:
    """A digest that changes when any file of the folder does, or any of those given; plans to try and to start from
    change nothing.
    """
    whole = hashlib.sha256()
    others = [(str(file), str(file)) for path in given for file in files_of(path)]
    for name, file in [*sorted(_read_files(folder)), *others]:
        if not os.path.isfile(file):
            continue  # said once it is read for what stands in it; a pipe would be waited for
        try:
            with open(file, "rb") as opened:
                content = opened.read(LARGEST + 1)
        except OSError:
            continue
        whole.update(f"{name}\0{len(content)}\0".encode("utf-8", "surrogatepass") + content)
    return whole.hexdigest()


def _read_files(folder: Path) -> Iterator[tuple[str, str]]:
    """Every file that is read where a plan is judged: its name in the folder, and its path."""
    start = len(os.path.join(folder, ""))
    for within, folders, names in os.walk(folder):
        folders[:] = [name for name in folders if name not in NOT_JUDGED_BY]
        for name in names:
            if name.endswith(".yaml"):
                file = os.path.join(within, name)
                yield file[start:].replace(os.sep, "/"), file


def shown(folder: Path, file: Path) -> str:
    """What a report calls a file of the rules, whatever the folder they are installed in."""
    return "rules/" + file.relative_to(folder).as_posix()
