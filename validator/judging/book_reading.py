"""Reading a rulebook: its header, which says what it covers, and the rules below it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from validator.judging.rule_reading import RuleReader
from validator.judging.rules import Book, Rule
from validator.plan.names import fold
from validator.plan.problems import Place, Problem
from validator.reference.countries import applies, read_covers
from validator.reference.entries import Entry, read_file
from validator.reference.folder import book_files, digest, files_of, shown


@dataclass(frozen=True, slots=True)
class Withdrawal:
    """A rule that a book given on the command line takes away, and why."""

    name: str
    why: str
    entry: Entry


@dataclass(frozen=True, slots=True)
class ReadBook:
    """A book with the entries of its rules, as yet unread, by name."""

    book: Book
    entries: dict[str, Entry]

    @property
    def names(self) -> set[str]:
        """The names of its rules, also of those with mistakes."""
        return {name for name, entry in self.entries.items() if not _withdraws(entry)}

    def withdrawals(self) -> Iterator[Withdrawal]:
        """What the book withdraws; a mistake where it may not, or where it says more of the rule than why."""
        for name, entry in self.entries.items():
            if not _withdraws(entry):
                continue
            fields = entry.fields(f"the rule `{name}`, which is withdrawn,", ("withdraws",)) or {}
            why = fields["withdraws"].text("why it is withdrawn") if "withdraws" in fields else None
            if not self.book.given:
                entry.mistake(
                    "only a book given on the command line may withdraw a rule",
                    expected="tightens or replaces, with why, in a book for a part of the country",
                    at="key",
                )
            elif why is not None:
                yield Withdrawal(name, why, entry)

    def rules(self, reader: RuleReader) -> Iterator[Rule]:
        """The rules of the book that have no mistake."""
        for name, entry in self.entries.items():
            if not _withdraws(entry):
                rule = reader.read(name, entry, self.book)
                if rule is not None:
                    yield rule


@dataclass(slots=True)
class Shelf:
    """The books of the rules' folder and those given on the command line, as far as they could be read."""

    books: list[ReadBook] = field(default_factory=list)
    digest: str = ""

    def for_country(self, country: str) -> list[ReadBook]:
        return [book for book in self.books if applies(book.book.covers, country)]

    def left_aside(self, country: str) -> list[Book]:
        """The books given on the command line that do not cover the country."""
        return [book.book for book in self.books if book.book.given and not applies(book.book.covers, country)]

    def elsewhere(self, country: str) -> dict[str, str]:
        """The rules that only books for other countries have, each with the country."""
        here = {name for book in self.for_country(country) for name in book.names}
        return {name: book.book.covers for book in self.books for name in book.names if name not in here}


def read_shelf(folder: Path, given: Sequence[str | Path], problems: list[Problem]) -> Shelf:
    """All books: those of the folder of rules, and the files (or folders of files) given on the command line.

    The digest changes when any file of the folder but the fragments does, or any of the given ones.
    """
    shelf = Shelf()
    for file in book_files(folder):
        _add(shelf, file, shown(folder, file), problems, given=False)
    for path in given:
        files = files_of(path)
        if not files:
            problems.append(Problem("holds no rulebook", Place(str(path)), expected="files that end in .yaml"))
        for file in files:
            _add(shelf, file, str(file), problems, given=True)
    shelf.digest = digest(folder, given)
    return shelf


def _add(shelf: Shelf, file: Path, name: str, problems: list[Problem], *, given: bool) -> None:
    page = read_file(file, name, problems)
    book = read_book(page, given=given) if page is not None else None
    if book is not None:
        shelf.books.append(book)


def read_book(page: Entry, *, given: bool) -> ReadBook | None:
    """A book's header and the entries of its rules; None after a mistake in the header."""
    fields = page.fields("a rulebook", ("book", "rules"), ("book", "rules"))
    if fields is None or "book" not in fields or "rules" not in fields:
        return None
    known = ("title", "covers", "edition", "note")
    header = fields["book"].fields("the head of a book", known, ("title", "covers"))
    if header is None or "title" not in header or "covers" not in header:
        return None
    title, covers = header["title"].text("title"), read_covers(header["covers"])
    edition = header["edition"].text("edition") if "edition" in header else ""
    entries = dict(fields["rules"].items("rules"))
    if title is None or covers is None or edition is None:
        return None
    return ReadBook(Book(title, covers, edition, page.page.place_of_key("/book"), given), entries)


def _withdraws(entry: Entry) -> bool:
    return isinstance(entry.value, dict) and any(fold(str(key)) == "withdraws" for key in entry.value)
