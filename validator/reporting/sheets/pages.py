"""Pages from their templates: HTML that stands by itself, in which whatever a plan says stays text."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import NamedTuple

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from validator.reporting.columns import tamed
from validator.reporting.lines import day
from validator.reporting.printing import Printer
from validator.reporting.sheets.content import Sheet
from validator.reporting.sheets.drawn import Drawings
from validator.reporting.sheets.kept import PLACE, Change, as_text, data
from validator.reporting.summary import STANDING_SENTENCE

PIECE = 12
"""How many characters of a long word stand together."""

_NAMES = re.compile(r'( id=| aria-labelledby=)"([^"<>]*)"')
_LONG = re.compile(r"(\S{25,})")


class Since(NamedTuple):
    """What a sheet is compared with, in words (`issue B of 3 March 2027`), and what changed."""

    called: str
    changes: Sequence[Change]

    @property
    def parts(self) -> Mapping[str, list[Change]]:
        """The changes by the part of the sheet that they are in."""
        found: dict[str, list[Change]] = {}
        for change in self.changes:
            found.setdefault(change.part, []).append(change)
        return found


def jobsheet(sheet: Sheet, drawings: Drawings, printer: Printer, *, issue: str = "", since: Since | None = None) -> str:
    """The sheet of one trade as a page; the same for the same input."""
    tables: dict[str, list[object]] = {}
    for table in sheet.tables:
        tables.setdefault(table.wall, []).append(table)
    return render(
        "jobsheet.html.j2",
        printer,
        sheet=sheet,
        issue=issue,
        since=since,
        walls=[wall for wall, _ in sheet.walls if wall in tables or wall in drawings.walls],
        islands=[wall for wall in dict.fromkeys([*drawings.walls, *tables]) if wall and wall not in dict(sheet.walls)],
        lengths=dict(sheet.walls),
        tables=tables,
        drawings=drawings,
        place=PLACE,
        kept=Markup(as_text(data(sheet, issue))),
    )


def render(template: str, printer: Printer | None, **values: object) -> str:
    """A template with its values, in the words of the plan's country; ends in a line break."""
    page = _environment().get_template(template)
    say = printer.text if printer is not None else str
    return page.render(say=say, day=day, standing=STANDING_SENTENCE, **values).strip() + "\n"


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(Path(__file__).parent / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=_safe,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters |= {"soft": _soft, "numbered": _numbered}
    return environment


def _numbered(drawing: Markup, before: str) -> Markup:
    """A drawing whose names begin with something that no other plan of the page has."""
    if not before:
        return drawing
    return Markup(_NAMES.sub(lambda found: f'{found[1]}"{before}{found[2].replace(" ", " " + before)}"', drawing))


def _soft(text: str) -> Markup:
    """The text for a cell of a table, which may be broken within words that are longer than a cell is wide."""
    broken = Markup("<wbr>").join
    return broken(part for word in _LONG.split(tamed(text)) for part in _pieces(word))


def _pieces(text: str) -> Iterator[str]:
    if _LONG.fullmatch(text) is None:
        yield text
        return
    yield from (text[start : start + PIECE] for start in range(0, len(text), PIECE))


def _safe(value: object) -> object:
    """Text without characters that steer what shows it; what is markup already is left alone."""
    return tamed(value) if isinstance(value, str) and not isinstance(value, Markup) else value
