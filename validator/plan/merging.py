"""The files of a plan put together as one: sections go on from file to file, each name stands once."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from validator.plan.documents import Document, Span
from validator.plan.names import fold, nearest
from validator.plan.pointers import join, parent
from validator.plan.problems import Place, Problem, Unreadable

DATUMS = ("bare floor", "finished floor")
VERSION = "1"
KEYS_OF_FILES = ("dryfit", "heights from")


@dataclass(frozen=True, slots=True)
class Merged:
    """A plan as plain data: section by section, and where everything stands.

    `data` leaves out what each file says of itself (`dryfit`, `heights from`); `digest` changes when the text of any
    file does, but not with its line ends.
    """

    data: dict[str, Any]
    files: tuple[str, ...]
    digest: str
    _documents: tuple[Document, ...] = field(repr=False)
    _datums: Mapping[str, str] = field(repr=False)

    def place(self, pointer: str) -> Place:
        """Where the value stands; its name, where the value starts on a later line; else the nearest thing around."""
        while pointer:
            document = self._document(pointer)
            if document is not None:
                return _value_place(document, pointer)
            pointer = parent(pointer)
        return Place(self.files[0] if self.files else "")

    def span(self, pointer: str) -> Span | None:
        """From where to where the name and the value stand, in the file that `file_of` gives; None if nowhere."""
        document = self._document(pointer)
        return None if document is None else document.span(pointer)

    def written(self, pointer: str) -> str | None:
        """The value exactly as it stands in its file, quotes and all; None if it stands nowhere."""
        document = self._document(pointer)
        return None if document is None else document.written(pointer)

    def file_of(self, pointer: str) -> str:
        """The file that holds the pointer, or the nearest thing around it."""
        return self.place(pointer).file

    def heights_from(self, file: str) -> str:
        """What heights in this file start from: 'bare floor', 'finished floor', or '' where the file does not say."""
        return self._datums.get(file, "")

    def _document(self, pointer: str) -> Document | None:
        return next((document for document in self._documents if document.span(pointer) is not None), None)


def merge(documents: Sequence[Document]) -> Merged:
    """One plan from its files, in their order. Raises Unreadable with everything that does not go together."""
    problems: list[Problem] = []
    datums: dict[str, str] = {}
    data: dict[str, Any] = {}
    spelt: dict[str, str] = {}
    digest = hashlib.sha256()
    for at, document in enumerate(documents):
        digest.update(hashlib.sha256(document.text.encode()).digest())
        _check_version(document, problems)
        datums[document.file] = _datum(document, problems)
        for section, value in document.data.items():
            name = fold(section)
            if name in KEYS_OF_FILES:
                continue
            if name not in spelt:
                spelt[name] = section
                data[section] = dict(value) if isinstance(value, dict) else value
            else:
                _go_on(data[spelt[name]], section, document, documents[:at], problems)
    if problems:
        raise Unreadable(problems)
    files = tuple(document.file for document in documents)
    return Merged(data, files, digest.hexdigest(), tuple(documents), datums)


def _go_on(so_far: Any, section: str, document: Document, before: Sequence[Document], problems: list[Problem]) -> None:
    """Add what a section says in a further file to what it says so far."""
    value = document.data[section]
    if not (isinstance(so_far, dict) and isinstance(value, dict)):
        problems.append(_twice(join("", section), section, document, before, f"all of `{section}` in one file"))
        return
    known = {fold(name): name for name in so_far}
    for name in value:
        if fold(section) == "rooms" and fold(name) in known:
            _go_on_with_room(so_far, known[fold(name)], section, name, document, before, problems)
        elif fold(name) in known:
            pointer = join("", section, name)
            problems.append(_twice(pointer, name, document, before, "each name once in all files of a plan"))
        else:
            so_far[name] = value[name]


def _go_on_with_room(
    rooms: dict[str, Any],
    room: str,
    section: str,
    name: str,
    document: Document,
    before: Sequence[Document],
    problems: list[Problem],
) -> None:
    """Add what a further file says of a room: a survey its walls, a layout its floors."""
    so_far, value = rooms[room], document.data[section][name]
    pointer = join("", section, name)
    if not (isinstance(so_far, dict) and isinstance(value, dict)):
        problems.append(_twice(pointer, name, document, before, f"all of `{name}` in one file"))
        return
    rooms[room] = dict(so_far)
    known = {fold(part) for part in so_far}
    for part in value:
        if fold(part) in known:
            expected = "each part of a room in one file"
            problems.append(_twice(join(pointer, part), part, document, before, expected))
        else:
            rooms[room][part] = value[part]


def _twice(pointer: str, name: str, document: Document, before: Sequence[Document], expected: str) -> Problem:
    first = next(_name_place(earlier, pointer) for earlier in before if earlier.span(pointer) is not None)
    message = f"`{name}` is already in {first.file}, line {first.line}"
    return Problem(message, _name_place(document, pointer), expected, pointer=pointer, also=(first,))


def _name_place(document: Document, pointer: str) -> Place:
    span = document.span(pointer)
    return Place(document.file, *span.key_start[:2]) if span else Place(document.file)


def _value_place(document: Document, pointer: str) -> Place:
    span = document.span(pointer)
    if span is None:
        return Place(document.file)
    return Place(
        document.file, *(span.value_start if span.value_start.line == span.key_start.line else span.key_start)[:2]
    )


def _said(document: Document, wanted: str) -> object:
    return next((value for name, value in document.data.items() if fold(name) == wanted), None)


def _check_version(document: Document, problems: list[Problem]) -> None:
    version = _said(document, "dryfit")
    if version is None:
        meant = nearest("dryfit", document.data)
        place = Place(document.file) if meant is None else _name_place(document, join("", meant))
        message = "the file does not say which version of the form it is written in"
        problems.append(Problem(message, place, f"`dryfit: {VERSION}` as its first line", "dryfit" if meant else ""))
    elif version != VERSION:
        message = f"`dryfit: {document.written('/dryfit')}` is a version that cannot be read"
        problems.append(Problem(message, _value_place(document, "/dryfit"), f"`dryfit: {VERSION}`", pointer="/dryfit"))


def _datum(document: Document, problems: list[Problem]) -> str:
    """What heights of the file start from, or '' where it does not say."""
    said = _said(document, "heights from")
    if said is None:
        return ""
    datum = next((datum for datum in DATUMS if isinstance(said, str) and fold(said) == datum), "")
    if not datum:
        meant = nearest(said, DATUMS) if isinstance(said, str) else None
        place = _value_place(document, "/heights from")
        expected = " or ".join(f"`{each}`" for each in DATUMS)
        problems.append(Problem("heights cannot start from this", place, expected, meant or "", "/heights from"))
    return datum
