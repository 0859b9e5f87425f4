"""The entries of a book's file: plain data with where it stands, and the mistakes found while it is read.

Everything is read to the end, so that all mistakes of all files are shown at once: a reader that finds one notes it on
the page and goes on with None.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal, NamedTuple, TypeVar

from validator.plan.conflict_marks import check_decided
from validator.plan.documents import Document
from validator.plan.files import read_sources
from validator.plan.names import fold, nearest
from validator.plan.pointers import escape, join, parent
from validator.plan.problems import Place, Problem, Unreadable
from validator.plan.yaml_reader import read_yaml

Where = Literal["value", "key"]
Choice = TypeVar("Choice", bound=str)
A_BOOK = "a text file in UTF-8 that ends in .yaml, of 5 MB at most, or a folder of such files"


class Page(NamedTuple):
    """What an entry belongs to: a way from pointers to places, and the list that mistakes are noted in."""

    place: Callable[[str], Place]
    place_of_key: Callable[[str], Place]
    problems: list[Problem]


@dataclass(frozen=True, slots=True)
class Entry:
    """One value of a file: text, a list or a mapping."""

    value: object
    pointer: str
    page: Page

    @property
    def place(self) -> Place:
        return self.page.place(self.pointer)

    def mistake(
        self,
        message: str,
        *,
        expected: str = "",
        near: str | None = None,
        at: Where = "value",
        offset: int = 0,
        also: tuple[Place, ...] = (),
    ) -> None:
        """Note a mistake at the value, or at the key that names it; `offset` counts characters into its text."""
        place = self.page.place_of_key(self.pointer) if at == "key" else self.place
        if offset and isinstance(self.value, str) and "\n" not in self.value:
            place = place._replace(column=place.column + offset)
        self.page.problems.append(Problem(message, place, expected, near or "", self.pointer, also))

    def at(self, key: str | int) -> Entry:
        """The entry below, by a key as written or a number; KeyError or IndexError where there is none."""
        holder: Any = self.value
        return Entry(holder[key], join(self.pointer, key), self.page)

    @property
    def is_mapping(self) -> bool:
        return isinstance(self.value, Mapping)

    @property
    def is_list(self) -> bool:
        return isinstance(self.value, list | tuple)

    @property
    def written(self) -> str | None:
        """The text as written, or None for a list or a mapping."""
        value = self.value
        if isinstance(value, str):
            return value.strip()
        if isinstance(value, int | float) and not isinstance(value, bool):
            return str(value)
        return None

    def items(self, what: str) -> Iterator[tuple[str, Entry]]:
        """The entries of a mapping by their keys as written; a mistake where it is no mapping."""
        value = self.value
        if not isinstance(value, dict) and not isinstance(value, Mapping):
            self.mistake(f"{what}: a list of `name: value` lines is expected here")
            return
        for key, below in value.items():
            yield str(key), Entry(below, f"{self.pointer}/{escape(str(key))}", self.page)

    def members(self, what: str) -> list[Entry]:
        """The entries of a list; a mistake, and none, where it is no list."""
        if not isinstance(self.value, list | tuple):
            self.mistake(f"{what}: a list is expected here", expected="[one, another]")
            return []
        return [Entry(value, join(self.pointer, number), self.page) for number, value in enumerate(self.value)]

    def fields(self, what: str, known: Collection[str], required: Iterable[str] = ()) -> dict[str, Entry] | None:
        """The entries of a mapping whose keys are given (folded: `at least`); a mistake for each other key and each
        required one that is not there. None where it is no mapping.
        """
        if not isinstance(self.value, Mapping):
            self.mistake(f"{what} is a list of `key: value` lines", expected=", ".join(known))
            return None
        found: dict[str, Entry] = {}
        for key, entry in self.items(what):
            name = fold(key)
            if name in known:
                found[name] = entry
            else:
                entry.mistake(f"{what} has no `{key}`", expected=", ".join(known), near=nearest(name, known), at="key")
        for name in required:
            if name not in found:
                self.mistake(f"{what} has no `{name}`: it is needed", expected=f"{name}: …", at="key")
        return found

    def text(self, what: str) -> str | None:
        """The text of a value that must be one; white space and line breaks count as one space."""
        written = self.written
        if written:
            return " ".join(written.split())
        self.mistake(f"{what} is a text", expected=f"{what}: some words")
        return None

    def choice(self, what: str, choices: Collection[Choice]) -> Choice | None:
        """One of several words, compared as names are; the word as the choices spell it."""
        written = self.written
        for choice in choices:
            if written is not None and fold(choice) == fold(written):
                return choice
        said = f"`{written}`" if written is not None else "this"
        self.mistake(f"{what} cannot be {said}", expected=", ".join(choices), near=nearest(written or "", choices))
        return None


def read_file(file: Path, shown: str, problems: list[Problem]) -> Entry | None:
    """The whole of a YAML file as an entry, or None where it cannot be read; its mistakes go into `problems`.

    `shown` is what the file is called in places.
    """
    found = read_sources([str(file)], bytes)
    for problem in found.problems:
        expected = problem.expected if problem.place.line else A_BOOK
        problems.append(problem._replace(place=problem.place._replace(file=shown), expected=expected))
    if not found.sources:
        return None
    try:
        check_decided(found.sources[0].text, shown)
        document = read_yaml(found.sources[0].text, shown)
    except Unreadable as unreadable:
        problems += unreadable.problems
        return None
    return Entry(document.data, "", Page(_places(document, key=False), _places(document, key=True), problems))


def _places(document: Document, *, key: bool) -> Callable[[str], Place]:
    def place(pointer: str) -> Place:
        while pointer:
            span = document.span(pointer)
            if span is not None:
                mark = span.key_start if key else span.value_start
                return Place(document.file, mark.line, mark.column)
            pointer = parent(pointer)
        return Place(document.file)

    return place
