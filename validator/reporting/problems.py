"""Why a plan or a rulebook could not be read, in words, with the line as it stands in the file."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from validator.plan.problems import Place, Problem, Unreadable
from validator.reporting.columns import columns, cut, tamed, wrap

WIDTH = 80
MOST_SHOWN = 50

LineOf = Callable[[Place], str | None]
"""Gives the text of a line of a file, or None where it cannot be shown."""


def explain(unreadable: Unreadable, line_of: LineOf, what: str = "plan") -> str:
    """All problems in the order of the files, each with its line and what was expected; ends in a line break."""
    count = len(unreadable.problems)
    things = "one thing has" if count == 1 else f"{count} things have"
    head = f"THE {what.upper()} CANNOT BE READ: {things} to be mended first. Nothing was judged."
    return f"{head}\n\n{listed(unreadable, line_of)}"


def listed(unreadable: Unreadable, line_of: LineOf) -> str:
    """All problems in the order of the files, each with its line; ends in a line break."""
    lines: list[str] = []
    for problem in unreadable.problems[:MOST_SHOWN]:
        lines += _problem(problem, line_of)
        lines.append("")
    if len(unreadable.problems) > MOST_SHOWN:
        lines += [f"... and {len(unreadable.problems) - MOST_SHOWN} more of the kind.", ""]
    return tamed("\n".join(lines))


def _problem(problem: Problem, line_of: LineOf) -> Iterator[str]:
    yield f"In {_where(problem.place)}:"
    text = line_of(problem.place)
    if text is not None:
        yield from _excerpt(text, problem.place.column)
    yield from _wrapped(problem.message)
    if problem.expected:
        yield from _wrapped(f"Expected: {problem.expected}")
    if problem.nearest:
        yield from _wrapped(f"Perhaps «{problem.nearest}» was meant.")
    for place in problem.also:
        yield from _wrapped(f"See also {_where(place)}.")


def _excerpt(text: str, column: int) -> Iterator[str]:
    """The line, cut to fit around the column, with an arrow under it."""
    text = text.rstrip().replace("\t", " ")
    start = max(0, column - 1 - 30) if columns(text) > WIDTH - 8 else 0
    before = "… " if start else ""
    yield f"    | {before}{cut(text[start:], WIDTH - 8)}"
    if column > 0:
        yield "    | " + " " * columns(before + text[start : column - 1]) + "↑"


def _where(place: Place) -> str:
    return f"{place.file}, line {place.line}" if place.line else place.file


def _wrapped(text: str) -> Iterator[str]:
    for line in wrap(text, WIDTH - 4):
        yield f"    {line}"
