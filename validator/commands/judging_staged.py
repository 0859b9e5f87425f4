"""Judging plans whose files are at hand as bytes, by the names that the repository gives them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from contextlib import nullcontext
from datetime import date

from validator.commands.inspecting import Inspector, UnreadableBooks
from validator.commands.staged import Files
from validator.judging.apply import Judgement
from validator.judging.rules import Rule
from validator.plan.files import decoded, documents_of
from validator.plan.merging import merge
from validator.plan.problems import Place, Unreadable
from validator.reporting.problems import explain


class Judge:
    """Judges plans by Dryfit's books and those given: `books` as bytes, for which `folder` is made, and `others` by
    their paths.
    """

    def __init__(self, folder: str, books: Files, others: Iterable[str], on: date | None) -> None:
        self._copies = None
        if books:
            from validator.commands.staged_books import Copies

            self._copies = Copies(folder, books)
        copied = self._copies.paths if self._copies is not None else []
        self._inspector = Inspector([*copied, *others], on, passing=bool(books))

    def judge(self, files: Files, only: Callable[[Rule], bool] | None = None) -> Judgement:
        """The plan that these files make, by all rules or `only` by some; raises Unreadable."""
        with self._copies.named() if self._copies is not None else nullcontext():
            return self._inspector.inspect(merge(documents_of(files.items())), only)


def explained(unreadable: Unreadable, files: Mapping[str, bytes]) -> str:
    """All that has to be mended, in words, with the lines as they are staged."""
    lines: dict[str, list[str]] = {}

    def line_of(place: Place) -> str | None:
        if place.file not in lines:
            text = decoded(files.get(place.file, b""))
            lines[place.file] = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
        return lines[place.file][place.line - 1] if 0 < place.line <= len(lines[place.file]) else None

    return explain(unreadable, line_of, "rulebook" if isinstance(unreadable, UnreadableBooks) else "plan")
