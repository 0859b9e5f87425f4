"""Files of a git repository as they are staged, or as they were at a revision: never as they lie in the folder."""

from __future__ import annotations

import os
import posixpath
import subprocess
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from validator.plan.files import LARGEST

LINK, SUBMODULE = "120000", "160000"
MOST_LINKS = 8


class GitTrouble(Exception):
    """What cannot be had from git; the text says why, in words."""


@dataclass(frozen=True, slots=True)
class Blob:
    """One version of a file: its mode, and the name that git gives its content."""

    mode: str
    name: str


@dataclass(frozen=True)
class Tree:
    """The files of the index or of a revision by their paths from the top of the repository, in their order.

    Submodules are left out. `unsettled` are the paths that a merge has left in two versions.
    """

    files: Mapping[str, Blob]
    unsettled: frozenset[str] = frozenset()

    @cached_property
    def folders(self) -> Mapping[str, tuple[str, ...]]:
        """The paths of the files that lie in each folder itself; `` is the top."""
        found: dict[str, list[str]] = {}
        for path in self.files:
            found.setdefault(posixpath.dirname(path), []).append(path)
        return {folder: tuple(paths) for folder, paths in found.items()}

    def below(self, path: str) -> tuple[str, ...]:
        """The file of this path, or all files of the folder and its folders."""
        if path in self.files:
            return (path,)
        start = f"{path}/" if path else ""
        return tuple(file for file in self.files if file.startswith(start))


NOTHING = Tree({})


class Repository:
    """A repository with a folder of files; every call raises GitTrouble where git cannot answer."""

    def __init__(self, top: str) -> None:
        self.top = top
        self._texts: dict[str, bytes] = {}

    @classmethod
    def around(cls, folder: str) -> Repository:
        """The repository that a folder belongs to."""
        asked = _run(folder, "rev-parse", "--is-inside-work-tree", "--show-toplevel")
        inside, _, top = asked.stdout.partition(b"\n")
        if b"not a git repository" in asked.stderr:
            raise GitTrouble(f"`{folder}` is in no git repository: `git init` makes one of it.")
        if inside == b"false":
            raise GitTrouble(
                f"`{folder}` is in a repository without a folder of files (a bare one, or the inside of one): nothing "
                "is staged there, and no plan lies there. Work in a clone of it."
            )
        _output(asked)
        return cls(os.fsdecode(top).removesuffix("\n"))

    def within(self, path: str) -> str:
        """A path of the disk as the repository knows it, from its top, with `/`; '' for the top itself.

        A link that is a file stays one: where it leads is for the revision to say.
        """
        folder, name = (path, "") if os.path.isdir(path) else os.path.split(path)
        real = os.path.join(os.path.realpath(folder), name)
        found = os.path.relpath(real, os.path.realpath(self.top)).split(os.sep)
        if found[0] == os.pardir:
            raise GitTrouble(f"`{path}` is not in the repository at {self.top}.")
        return "/".join(part for part in found if part not in ("", os.curdir))

    def git(self, *words: str, feed: bytes = b"") -> bytes:
        """What git prints; GitTrouble with its own words where it cannot."""
        return _output(_run(self.top, *words, feed=feed))

    def said(self, *words: str) -> str | None:
        """What git prints, without the last line break; None where it leaves with anything but 0."""
        ran = _run(self.top, *words)
        return os.fsdecode(ran.stdout).removesuffix("\n") if ran.returncode == 0 else None

    def settings(self, section: str) -> dict[str, list[str]]:
        """Every setting of a section (`dryfit`), be it of this repository, of the user or of the machine: its values
        by its name, the last to count the last.
        """
        found: dict[str, list[str]] = {}
        listed = _run(self.top, "config", "--null", "--get-regexp", rf"^{section}\.").stdout
        for entry in listed.split(b"\0")[:-1]:
            key, _, value = os.fsdecode(entry).partition("\n")
            found.setdefault(key, []).append(value)
        return found

    def set_settings(self, key: str, values: Iterable[str]) -> None:
        """Give a setting of this repository these values and no others."""
        self.said("config", "--local", "--unset-all", key)
        for value in values:
            self.git("config", "--local", "--add", key, value)

    def staged(self) -> Tree:
        """The files that a commit would hold now."""
        files: dict[str, Blob] = {}
        unsettled: set[str] = set()
        for entry in self.git("ls-files", "--stage", "-z").split(b"\0")[:-1]:
            about, _, path = entry.partition(b"\t")
            mode, name, stage = about.decode("ascii").split(" ")
            if stage != "0":
                unsettled.add(os.fsdecode(path))
            elif mode != SUBMODULE:
                files[os.fsdecode(path)] = Blob(mode, name)
        return Tree(files, frozenset(unsettled))

    def commit(self, revision: str) -> str | None:
        """The full name of the commit that a revision stands for; None where there is none."""
        if revision.startswith("-") or not revision:
            return None
        found = self.said("rev-parse", "--verify", "--quiet", revision)
        return None if found is None else self.said("rev-parse", "--verify", "--quiet", f"{found}^{{commit}}")

    def at(self, commit: str) -> Tree:
        """The files of a commit."""
        files: dict[str, Blob] = {}
        for entry in self.git("ls-tree", "-r", "-z", "--full-tree", commit).split(b"\0")[:-1]:
            about, _, path = entry.partition(b"\t")
            mode, _, name = about.decode("ascii").split(" ")
            if mode != SUBMODULE:
                files[os.fsdecode(path)] = Blob(mode, name)
        return Tree(files)

    def renamed(self, commit: str) -> dict[str, str]:
        """The old path of each staged file that was another file's in the commit, by the likeness of what they say."""
        found = self.git("diff-index", "--cached", "-z", "-M", "--diff-filter=R", "--name-status", commit).split(b"\0")
        pairs = iter(found[:-1])
        return {os.fsdecode(new): os.fsdecode(old) for _, old, new in zip(pairs, pairs, pairs, strict=True)}

    def contents(self, tree: Tree, paths: Iterable[str]) -> dict[str, bytes]:
        """What stands in files of a tree, links followed within it; of a file too long for a plan, a byte too much."""
        blobs = {path: self._follow(tree, path) for path in paths}
        self._read(set(blobs.values()))
        return {path: self._texts[name] for path, name in blobs.items()}

    def _follow(self, tree: Tree, path: str) -> str:
        at = path
        for _ in range(MOST_LINKS):
            blob = tree.files.get(at)
            if blob is None:
                break
            if blob.mode != LINK:
                return blob.name
            self._read({blob.name})
            target = os.fsdecode(self._texts[blob.name])
            at = posixpath.normpath(posixpath.join(posixpath.dirname(at), target))
        raise GitTrouble(f"`{path}` is a link that leads to no file of the repository.")

    def _read(self, names: set[str]) -> None:
        """Have the content of each blob at hand."""
        names = names - self._texts.keys()
        if not names:
            return
        sizes: dict[str, int] = {}
        for line in self.git("cat-file", "--batch-check", feed=_lines(names)).decode("ascii").splitlines():
            name, *about = line.split(" ")
            if about[0] != "blob":
                raise GitTrouble(f"git has lost the content {name} of this repository; `git fsck` says more.")
            sizes[name] = int(about[1])
        long = {name for name, size in sizes.items() if size > LARGEST}
        self._texts |= {name: self._start_of(name) for name in long}
        self._texts |= _contents(self.git("cat-file", "--batch", feed=_lines(names - long)))

    def _start_of(self, name: str) -> bytes:
        with subprocess.Popen(["git", "-C", self.top, "cat-file", "blob", name], stdout=subprocess.PIPE) as running:
            assert running.stdout is not None
            start = running.stdout.read(LARGEST + 1)
            running.kill()
        return start


def _lines(names: Iterable[str]) -> bytes:
    return "".join(f"{name}\n" for name in sorted(names)).encode("ascii")


def _contents(output: bytes) -> Iterator[tuple[str, bytes]]:
    """Each name and content of what `git cat-file --batch` prints."""
    at = 0
    while at < len(output):
        end = output.index(b"\n", at)
        name, _, size = output[at:end].decode("ascii").split(" ")
        at = end + 1 + int(size)
        yield name, output[end + 1 : at]
        at += 1


def _run(folder: str, *words: str, feed: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    environment = {**os.environ, "LC_ALL": "C", "GIT_OPTIONAL_LOCKS": "0"}
    try:
        return subprocess.run(["git", "-C", folder, *words], input=feed, capture_output=True, env=environment)
    except FileNotFoundError:
        raise GitTrouble("git is not to be found: it is not installed, or not in a folder of PATH.") from None
    except OSError as error:
        raise GitTrouble(f"git cannot be started: {error.strerror}.") from None


def _output(ran: subprocess.CompletedProcess[bytes]) -> bytes:
    if ran.returncode != 0:
        said = os.fsdecode(ran.stderr).strip().removeprefix("fatal: ").removeprefix("error: ")
        raise GitTrouble(f"git says: {said or f'nothing, and leaves with {ran.returncode}'}")
    return ran.stdout
