"""A strip of each wall as one faces it, with the numbers of the points under the things they are about."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from validator.measures.rows import NotKnown, Row
from validator.measures.site import Site
from validator.reporting.columns import columns, cut, filled, one_line
from validator.reporting.points import Points

STRIP_WIDTH = 62
NUMBERS_WIDTH = 66


class Strip(NamedTuple):
    """One row of things on a wall as text: the things in proportion, and lines of numbers below."""

    wall: str
    things: str
    numbers: tuple[str, ...]


def strips(site: Site, points: Points) -> list[Strip]:
    """The strips of all walls on which something stands, standing things and hung things apart."""
    found: list[Strip] = []
    by_run: dict[tuple[str, str], list[tuple[float, float, str]]] = {}
    for row in site.rows("unit in a run").rows:
        span = _span(row)
        if span is not None and row.subject.wall:
            run = str(row.known["run"].value) if "run" in row.known else ""
            by_run.setdefault((row.subject.wall, run), []).append((*span, row.subject.name))
    marks = _marks(points)
    shown: set[tuple[str, int]] = set()
    for (wall, _), things in sorted(by_run.items(), key=lambda item: _wall_order(site, item[0][0])):
        length = _wall_length(site, wall)
        if length is None:
            continue
        numbers = [mark for mark in marks.get(wall, []) if _belongs(mark, things, (wall, mark[1]) in shown)]
        shown |= {(wall, mark[1]) for mark in numbers}
        found.append(Strip(wall, _things(things, length), _numbers(numbers, length)))
    return found


def _span(row: Row) -> tuple[float, float] | None:
    try:
        return float(row.left), float(row.right)  # type: ignore[attr-defined]
    except NotKnown:
        return None


def _wall_order(site: Site, wall: str) -> int:
    names = list(site.plan.walls)
    return names.index(wall) if wall in names else len(names)


def _wall_length(site: Site, wall: str) -> float | None:
    length = site.plan.walls[wall].length if wall in site.plan.walls else None
    return getattr(length, "low", None)


def _marks(points: Points) -> dict[str, list[tuple[float, int, str]]]:
    """Where each point and errand is on its wall: middle, number, name of the thing."""
    found: dict[str, list[tuple[float, int, str]]] = {}
    for entry in points.numbered:
        for outcome in entry.outcomes:
            subject = outcome.subject
            if subject.wall and subject.along is not None:
                middle = sum(subject.along) / 2
                found.setdefault(subject.wall, []).append((middle, entry.number, subject.name))
    return found


def _belongs(mark: tuple[float, int, str], things: Sequence[tuple[float, float, str]], shown: bool) -> bool:
    """A number stands under the run that has its thing; what is in no run stands under the first."""
    middle, _, name = mark
    named = any(name == thing or name.startswith(thing + " ") for _, _, thing in things)
    return named or (not shown and any(left <= middle <= right for left, right, _ in things))


def _things(things: Sequence[tuple[float, float, str]], length: float) -> str:
    line = [" "] * (STRIP_WIDTH + 1)
    for left, right, name in things:
        start, end = _column(left, length), _column(right, length)
        line[start] = line[end] = "|"
        room = max(0, end - start - 1)
        line[start + 1 : start + 1 + room] = _cells(name, room)
    return "".join(line).rstrip()


def _cells(name: str, room: int) -> list[str]:
    """The name column by column; behind a character of two columns stands nothing."""
    cells: list[str] = []
    for character in filled(cut(one_line(name), room), room):
        cells += [character, *[""] * (columns(character) - 1)]
    return cells


def _numbers(marks: Sequence[tuple[float, int, str]], length: float) -> tuple[str, ...]:
    """The numbers under their places, each moved right until it stands free; the next line takes what finds no room."""
    lines = [""]
    for middle, number, _ in sorted(set(marks)):
        start = max(0, _column(middle, length) - len(str(number)) // 2)
        behind = max(start, len(lines[-1]) + 1 if lines[-1] else 0)
        if behind + len(str(number)) > NUMBERS_WIDTH:
            lines.append("")
            behind = start
        lines[-1] = lines[-1].ljust(behind) + str(number)
    return tuple(line for line in lines if line)


def _column(along: float, length: float) -> int:
    return max(0, min(STRIP_WIDTH, round(along / length * STRIP_WIDTH)))
