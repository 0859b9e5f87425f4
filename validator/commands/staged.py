"""Which plans and rulebooks a staged change touches, and what each plan was in the last commit.

A file is one of a plan where `dryfit` is one of its top-level names (in JSON the first), and a rulebook where `book`
and `rules` are. The files of plans that lie in one folder are one plan, unless several of them have a `project`: then
each file is a plan. Where plans are named in the settings, those are the plans and no others are looked for.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from validator.commands.revisions import LINK, NOTHING, GitTrouble, Repository, Tree
from validator.plan.files import SUFFIXES, decoded, suffix_of
from validator.reference.folder import SIGN

A_PLAN, A_BOOK = "dryfit", ("book", "rules")
BOOK_SUFFIX = ".yaml"

Files = Mapping[str, bytes]
"""Files by their paths from the top of the repository, with what stands in them."""


@dataclass(frozen=True, slots=True)
class StagedPlan:
    """A plan that a change touches, now and in the last commit; `before` is empty where it was not there."""

    name: str
    files: Files
    before: Files


@dataclass(frozen=True, slots=True)
class Staged:
    """What of a staged change has to be looked at.

    `given` are the rulebooks of the settings now and `given_before` as they were; `books` are all rulebooks that the
    change touches. `taken_away` are plans that it removes, `not_there` plans of the settings that are not there,
    `unsettled` files that a merge has left in two versions.
    """

    plans: tuple[StagedPlan, ...] = ()
    given: Files = field(default_factory=dict)
    given_before: Files = field(default_factory=dict)
    books: Files = field(default_factory=dict)
    taken_away: tuple[str, ...] = ()
    not_there: tuple[str, ...] = ()
    unsettled: tuple[str, ...] = ()


def staged(repository: Repository, named: Collection[str], rules: Collection[str]) -> Staged:
    """The plans whose files or rulebooks are not as in the last commit, and those rulebooks.

    `named` and `rules` are the paths of plans and of rulebooks in the settings, as the repository knows them. Raises
    GitTrouble.
    """
    head = repository.commit("HEAD")
    now, before = repository.staged(), NOTHING if head is None else repository.at(head)
    touched = {path for path, blob in now.files.items() if before.files.get(path) != blob}
    touched |= before.files.keys() - now.files.keys()
    unsettled = tuple(sorted(path for path in now.unsettled if suffix_of(path) in SUFFIXES))
    if unsettled:
        return Staged(unsettled=unsettled)
    books_now, books_before = _books_below(now, rules), _books_below(before, rules)
    all_plans = not touched.isdisjoint([*books_now, *books_before])
    if not all_plans and not any(suffix_of(path) in SUFFIXES for path in touched):
        return Staged()
    for path in rules:
        if not now.below(path):
            raise GitTrouble(
                f"`{path}`, a rulebook of the settings, is not among the files of this commit: `git add` it."
            )
    folders = {*now.folders, *before.folders} if all_plans else {posixpath.dirname(path) for path in touched}
    plans_before = _plans(repository, before, folders, named)
    known = {file for files in plans_before.values() for file in files}
    plans_now = _plans(repository, now, folders, named, known)
    renamed = _renamed(repository, head, plans_now, now, before)
    found = _Pairs(plans_now, plans_before, renamed, now)
    pairs = list(found.pairs())
    return Staged(
        tuple(
            StagedPlan(name, files, was)
            for name, files, was in pairs
            if all_plans or not touched.isdisjoint([*files, *was])
        ),
        repository.contents(now, books_now),
        repository.contents(before, books_before),
        _books(repository, now, touched, books_now),
        tuple(found.taken_away),
        tuple(path for path in named if not now.below(path) and path not in found.taken_away),
    )


@dataclass(slots=True)
class _Pairs:
    """Each plan of the index with what it was in the last commit."""

    now: Mapping[str, Files]
    before: Mapping[str, Files]
    renamed: Mapping[str, str]
    tree: Tree
    taken_away: list[str] = field(default_factory=list)

    def pairs(self) -> Iterator[tuple[str, Files, Files]]:
        """A plan is what was under its name, or what shared a file with it, also one that is called otherwise now; a
        single new plan is the single one that went.
        """
        was = {name: self._before(name, files) for name, files in self.now.items()}
        new = [name for name, earlier in was.items() if earlier is None]
        known = set(was.values())
        gone = [
            name
            for name, files in self.before.items()
            if name not in known and not any(file in self.tree.files for file in files)
        ]
        if len(new) == len(gone) == 1:
            was[new[0]] = gone.pop()
        self.taken_away += gone
        for name, files in self.now.items():
            earlier = was[name]
            yield name, files, {} if earlier is None else self.before[earlier]

    def _before(self, name: str, files: Files) -> str | None:
        if name in self.before:
            return name
        paths = {self.renamed.get(file, file) for file in files}
        return next((other for other, earlier in self.before.items() if not paths.isdisjoint(earlier)), None)


def _plans(
    repository: Repository,
    tree: Tree,
    folders: Iterable[str],
    named: Collection[str],
    known: Collection[str] = (),
) -> dict[str, Files]:
    """The plans of a tree by their names: those named in the settings, or all in these folders.

    `known` are files that were a plan's: they are even if they no longer say so.
    """
    if named:
        found = {path or ".": _files_of(tree, path) for path in named}
        texts = repository.contents(tree, [file for files in found.values() for file in files])
        return {name: {file: texts[file] for file in files} for name, files in found.items() if files}
    inside = {
        folder: [file for file in _of_a_plan(tree, folder) if tree.files[file].mode != LINK] for folder in folders
    }
    texts = repository.contents(tree, [file for files in inside.values() for file in files])
    plans: dict[str, Files] = {}
    for folder in sorted(inside):
        files = {file: texts[file] for file in inside[folder] if (file in known or _says(A_PLAN, file, texts[file]))}
        if sum(_says("project", file, text) for file, text in files.items()) > 1 or len(files) == 1:
            plans |= {file: {file: text} for file, text in files.items()}
        elif files:
            plans[folder or "."] = files
    return plans


def plan_at(repository: Repository, tree: Tree, path: str) -> Files:
    """The files of the plan at a path: the file itself, or those of the folder; none where nothing is there."""
    return repository.contents(tree, _files_of(tree, path))


def _files_of(tree: Tree, path: str) -> tuple[str, ...]:
    return (path,) if path in tree.files else tuple(_of_a_plan(tree, path))


def _of_a_plan(tree: Tree, folder: str) -> Iterator[str]:
    """The files in a folder that may be a plan's by their names."""
    for path in tree.folders.get(folder, ()):
        if suffix_of(path) in SUFFIXES and not posixpath.basename(path).startswith("."):
            yield path


def _books_below(tree: Tree, rules: Iterable[str]) -> list[str]:
    """The files of the rulebooks at these paths: a file whatever its name, of a folder those that end in .yaml."""
    found: dict[str, None] = {}
    for path in rules:
        found |= dict.fromkeys(file for file in tree.below(path) if file == path or file.endswith(BOOK_SUFFIX))
    return list(found)


def _books(repository: Repository, tree: Tree, touched: Collection[str], given: Collection[str]) -> Files:
    """The rulebooks that a change touches: those of the settings, and others that look like one. Not the books of a
    folder of rules that has its own sources: they are no books to be given with a plan.
    """
    with_sources = [posixpath.dirname(path) for path in tree.files if posixpath.basename(path) == SIGN]
    others = [
        path
        for path in sorted(touched)
        if path in tree.files
        and tree.files[path].mode != LINK
        and path.endswith(BOOK_SUFFIX)
        and not any(not folder or path.startswith(f"{folder}/") for folder in with_sources)
    ]
    texts = repository.contents(tree, {*others, *(path for path in given if path in touched)})
    return {
        path: text
        for path, text in sorted(texts.items())
        if path in given or all(_says(name, path, text) for name in A_BOOK)
    }


def _renamed(
    repository: Repository, head: str | None, plans: Mapping[str, Files], now: Tree, before: Tree
) -> Mapping[str, str]:
    """The old path of each file that is called otherwise now; asked only where files of plans came and went."""
    new = any(file not in before.files for files in plans.values() for file in files)
    gone = any(suffix_of(file) in SUFFIXES for file in before.files.keys() - now.files.keys())
    return repository.renamed(head) if head is not None and new and gone else {}


def _says(name: str, file: str, content: bytes) -> bool:
    """Whether a file has a name at its top level; of JSON only the start is looked at for `dryfit`."""
    text = decoded(content).removeprefix("\ufeff")
    match suffix_of(file):
        case ".json":
            pattern = rf'\A\s*\{{\s*"{name}"\s*:' if name == A_PLAN else rf'"{name}"\s*:'
        case ".toml":
            pattern = rf"^\s*\[?[\"']?{name}[\"']?[ \t]*[=.\]]"
        case _:
            pattern = rf"^(?:\{{\s*)?[\"']?{name}[\"']?[ \t]*:"
    return re.search(pattern, text, re.MULTILINE | re.IGNORECASE) is not None
