"""The files of a plan, found and decoded: one file, a folder of files, or standard input."""

from __future__ import annotations

import codecs
import os
import stat
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from validator.plan.conflict_marks import check_decided
from validator.plan.documents import Document
from validator.plan.merging import Merged, merge
from validator.plan.names import nearest
from validator.plan.problems import Place, Problem, Unreadable
from validator.plan.yaml_reader import read_yaml

STANDARD_INPUT = "standard input"
LARGEST = 5_000_000
"""The most bytes that a file of a plan may have."""

SUFFIXES = (".yaml", ".yml", ".toml", ".json")
"""How the name of a file of a plan may end; that tells how it is written."""

_UTF_16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
_A_PLAN = "a file that ends in .yaml, .toml or .json, or a folder of such files"


@dataclass(frozen=True, slots=True)
class Source:
    """A file as text, and the bytes it was read from; `file` is its path as the user gave it."""

    file: str
    text: str
    content: bytes = field(repr=False)


class Sources(NamedTuple):
    """The files that could be read as text, in order, and what is wrong with the others."""

    sources: tuple[Source, ...]
    problems: tuple[Problem, ...]


def read_plan(paths: Sequence[str], stdin: Callable[[], bytes]) -> Merged:
    """The files at these paths as one plan. Raises Unreadable with the problems of all files."""
    return merge(read_documents(paths, stdin))


def read_documents(paths: Sequence[str], stdin: Callable[[], bytes]) -> list[Document]:
    """The files at these paths one by one. Raises Unreadable with the problems of all of them."""
    return _documents(read_sources(paths, stdin))


def documents_of(files: Iterable[tuple[str, bytes]]) -> list[Document]:
    """Files whose bytes are at hand, each with its name, one by one. Raises Unreadable with the problems of all."""
    sources: list[Source] = []
    problems: list[Problem] = []
    for file, content in files:
        if suffix_of(file) not in SUFFIXES:
            problems.append(_not_named_so(file))
        elif (text := _text(file, content, problems)) is not None:
            sources.append(Source(file, text, content))
    return _documents(Sources(tuple(sources), tuple(problems)))


def _documents(found: Sources) -> list[Document]:
    problems = list(found.problems)
    documents: list[Document] = []
    for source in found.sources:
        try:
            documents.append(read_document(source.text, source.file))
        except Unreadable as unreadable:
            problems += unreadable.problems
    if problems:
        raise Unreadable(problems)
    return documents


def read_document(text: str, file: str) -> Document:
    """A text as the name of its file says that it is written. Raises Unreadable."""
    check_decided(text, file)
    match suffix_of(file):
        case ".toml":
            from validator.plan.toml_reader import read_toml

            return read_toml(text, file)
        case ".json":
            from validator.plan.json_reader import read_json

            return read_json(text, file)
    return read_yaml(text, file)


def read_sources(paths: Sequence[str], stdin: Callable[[], bytes]) -> Sources:
    """The texts of one plan: each path is a file, a folder (the files of a plan in it, by name) or `-`."""
    sources: list[Source] = []
    problems: list[Problem] = []
    for file in _files(paths, problems):
        content = stdin() if file == STANDARD_INPUT else _content(file, problems)
        text = None if content is None else _text(file, content, problems)
        if content is not None and text is not None:
            sources.append(Source(file, text, content))
    return Sources(tuple(sources), tuple(problems))


def _files(paths: Sequence[str], problems: list[Problem]) -> list[str]:
    """The files behind the paths, each once, however many paths or links lead to it."""
    files: dict[str, str] = {}
    for path in paths:
        if path == "-":
            files.setdefault(path, STANDARD_INPUT)
            continue
        for file in _files_in(path, problems) if os.path.isdir(path) else [path]:
            files.setdefault(os.path.realpath(file), file)
    return list(files.values())


def _files_in(folder: str, problems: list[Problem]) -> list[str]:
    try:
        names = sorted(os.listdir(folder))
    except OSError as error:
        problems.append(_cannot_open(folder, error))
        return []
    files = [name if folder == os.curdir else os.path.join(folder, name) for name in names if name[0] != "."]
    plans = [file for file in files if suffix_of(file) in SUFFIXES and not os.path.isdir(file)]
    if not plans:
        expected = "files that end in .yaml, .toml or .json"
        problems.append(Problem("no file of a plan is in this folder", Place(folder), expected))
    return plans


def suffix_of(file: str) -> str:
    return ".yaml" if file == STANDARD_INPUT else os.path.splitext(file)[1].lower()


def _content(file: str, problems: list[Problem]) -> bytes | None:
    """The bytes of an ordinary file, no more than one beyond the largest size; a pipe is not opened: it may wait."""
    try:
        status = os.stat(file)
        if stat.S_ISREG(status.st_mode) and suffix_of(file) in SUFFIXES and status.st_size <= LARGEST:
            with open(file, "rb") as opened:
                return opened.read(LARGEST + 1)
    except FileNotFoundError:
        problems.append(_missing(file))
    except OSError as error:
        problems.append(_cannot_open(file, error))
    else:
        problems.append(_unfit(file, status))
    return None


def _unfit(file: str, status: os.stat_result) -> Problem:
    if not stat.S_ISREG(status.st_mode):
        return Problem("this is not an ordinary file", Place(file), _A_PLAN)
    if suffix_of(file) not in SUFFIXES:
        return _not_named_so(file)
    return _too_large(file)


def _not_named_so(file: str) -> Problem:
    return Problem("the name of this file is not that of a plan", Place(file), _A_PLAN)


def _too_large(file: str) -> Problem:
    return Problem(f"more than {LARGEST // 1_000_000} MB in one file", Place(file), "a plan split into several files")


def _cannot_open(path: str, error: OSError) -> Problem:
    return Problem(f"this cannot be opened: {error.strerror}", Place(path), _A_PLAN)


def _missing(file: str) -> Problem:
    folder, name = os.path.split(file)
    if folder and not os.path.isdir(folder):
        return Problem(f"there is no folder `{folder}`", Place(file), _A_PLAN)
    try:
        meant = nearest(name, sorted(os.listdir(folder or os.curdir)))
    except OSError as error:
        return _cannot_open(folder, error)
    return Problem(f"there is no file `{name}`", Place(file), _A_PLAN, os.path.join(folder, meant) if meant else "")


def decoded(content: bytes, errors: str = "replace") -> str:
    """The bytes of a file as text; UnicodeDecodeError if `errors` is `strict` and they are none."""
    return content.decode("utf-16" if content.startswith(_UTF_16) else "utf-8-sig", errors)


def _text(file: str, content: bytes, problems: list[Problem]) -> str | None:
    if len(content) > LARGEST:
        problems.append(_too_large(file))
        return None
    wide = content.startswith(_UTF_16)
    try:
        text = decoded(content, "strict")
    except UnicodeDecodeError as error:
        if not wide and b"\0" not in content:
            problems.append(_not_utf8(file, content, error.start))
            return None
        text = "\0"
    if "\0" in text:
        problems.append(Problem("this is not a text file", Place(file), "a text file in UTF-8"))
        return None
    return text


def _not_utf8(file: str, content: bytes, offset: int) -> Problem:
    start = content.rfind(b"\n", 0, offset) + 1
    column = len(content[start:offset].decode("utf-8-sig")) + 1
    message = f"a byte (0x{content[offset]:02X}) that is no character in UTF-8"
    place = Place(file, content.count(b"\n", 0, offset) + 1, column)
    return Problem(message, place, "the file saved as UTF-8")
