"""Plans as text, for tests of measures: what stands in the text is all that is known."""

from __future__ import annotations

import functools
from datetime import date
from typing import Any

from validator.measures.rows import Known, Missing, Row
from validator.measures.site import Site
from validator.measures.tracing import trace
from validator.plan.files import read_plan
from validator.plan.load import load
from validator.reference.folder import rules_folder
from validator.reference.library import Library, read_library

PROJECT = "project: {title: Heron Wharf, country: GB-ENG, lengths in: mm}"


@functools.cache
def library() -> Library:
    return read_library(rules_folder())


def site(text: str, project: str = PROJECT) -> Site:
    """The site of a plan of one file; `text` holds all but its head."""
    written = f"dryfit: 1\n{project}\n{text}"
    return Site(load(read_plan(["-"], written.encode)), library(), date(2027, 3, 1))


def rows(text: str, kind: str, project: str = PROJECT) -> list[Any]:
    """The rows of one kind; typed loosely, because a field read from a row is of the row's own class."""
    return list(site(text, project).rows(kind).rows)


def row(text: str, kind: str, project: str = PROJECT) -> Any:
    """The only row of a kind."""
    (found,) = rows(text, kind, project)
    return found


def left_out(text: str, kind: str, project: str = PROJECT) -> list[str]:
    """The pointers of what has to be found out before there are any rows."""
    return [entry.missing.pointer for entry in site(text, project).rows(kind).left_out]


def ends(row: Row, name: str) -> tuple[float, float]:
    """A figure or field at both ends of everything that is not certain about the row."""
    values = [getattr(corner, name) for corner in row.corners()]
    return min(values), max(values)


def to_find(row: Row, name: str) -> set[str]:
    """The pointers of all that has to be found out before a figure or a field of the row is known."""
    return {missing.pointer for missing in gaps(row, name)}


def gaps(row: Row, name: str) -> list[Missing]:
    return list(trace(row, name)[1].missing)


def working(row: Row, name: str) -> list[tuple[float, str]]:
    """The values a figure was worked out from, each with what it is called, in the order of the working."""
    return [(leaf.value, leaf.label) for leaf in trace(row, name)[0].leaves()]


def known(row: Row, name: str) -> Known:
    return row.known[name]
