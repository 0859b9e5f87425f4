"""Rulebooks whose files are at hand as bytes: copied for the moment to where books are read, and checked."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from validator.commands.inspecting import UnreadableBooks, library
from validator.commands.staged import Files
from validator.judging.book_reading import read_book
from validator.judging.books import read_rulebooks
from validator.plan.problems import Place, Problem, Unreadable
from validator.reference.countries import EVERYWHERE
from validator.reference.entries import read_file
from validator.reference.folder import rules_folder


class Copies:
    """Rulebooks written into a folder for the moment, since books are read from disk; mistakes in them are said by the
    names that the repository gives them.
    """

    def __init__(self, folder: str, files: Files) -> None:
        self._names: dict[str, str] = {}
        os.makedirs(folder)
        for number, (name, content) in enumerate(files.items()):
            copy = os.path.join(folder, f"{number}.yaml")
            with open(copy, "wb") as opened:
                opened.write(content)
            self._names[copy] = name

    @property
    def paths(self) -> list[str]:
        return list(self._names)

    @contextmanager
    def named(self) -> Iterator[None]:
        """Gives every place in a copy, in what is raised inside, the name of the file that was copied."""
        try:
            yield
        except Unreadable as unreadable:
            raise type(unreadable)(map(self.renamed, unreadable.problems)) from None

    def renamed(self, problem: Problem) -> Problem:
        """A problem with the files' own names in place of the copies'."""
        return problem._replace(place=self._renamed(problem.place), also=tuple(map(self._renamed, problem.also)))

    def _renamed(self, place: Place) -> Place:
        return place._replace(file=self._names.get(place.file, place.file))


def check_books(folder: str, books: Files) -> None:
    """Read rulebooks that are given together, for every country that they cover. Raises UnreadableBooks."""
    copies = Copies(folder, books)
    problems: list[Problem] = []
    covers: dict[str, None] = {}
    for path in copies.paths:
        page = read_file(Path(path), path, problems)
        book = read_book(page, given=True) if page is not None else None
        if book is not None:
            covers[book.book.covers] = None
    shelf = library()
    for country in covers if not problems else ():
        try:
            read_rulebooks(rules_folder(), shelf, "" if country == EVERYWHERE else country, copies.paths)
        except Unreadable as unreadable:
            problems += unreadable.problems
    if problems:
        raise UnreadableBooks(map(copies.renamed, problems))
