"""What a sheet carries of itself: a later one says by it what changed, and anybody can see whether it still holds."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from datetime import date
from html.parser import HTMLParser
from typing import Any, NamedTuple

from validator.reporting.sheets.content import Sheet
from validator.reporting.sheets.tables import Table

FORM = 1
SIGN = "dryfit jobsheet"
PLACE = "dryfit-jobsheet"
"""The id of the element that holds the data."""

LARGEST = 5_000_000
"""Characters of a file that is looked at; a sheet is a tenth of that."""

Facts = Mapping[str, Mapping[str, Mapping[str, str]]]
"""What can change: by part of the sheet, by thing, by what is said of it."""


class NoSheet(Exception):
    """A file that carries no sheet; the text says why."""


class Kept(NamedTuple):
    """What was read back from a sheet."""

    trade: str
    person: str
    issue: str
    on: date
    title: str
    digest: str
    books_digest: str
    facts: Facts


class Change(NamedTuple):
    """One thing that changed: the part of the sheet, the thing, what of it; None where one side has nothing."""

    part: str
    thing: str
    what: str
    before: str | None
    now: str | None

    @property
    def said(self) -> str:
        """`S1, middle: 807 → 830`."""
        about = f"{self.thing}, {self.what}" if self.what else self.thing
        if self.before is None:
            return f"{about}: new" + (f", {self.now}" if self.now else "")
        if self.now is None:
            return f"{about}: no longer there" + (f" (was {self.before})" if self.before else "")
        return f"{about}: {self.before} → {self.now}"


def facts(sheet: Sheet) -> dict[str, dict[str, dict[str, str]]]:
    """All of a sheet that can change, in the words it is printed in."""
    found: dict[str, dict[str, dict[str, str]]] = {}
    found["Ready"] = {verdict.stage: {"": "ready" if verdict.ready else "not ready"} for verdict in sheet.verdicts}
    found["Visits"] = {visit.task: {"when": visit.when, "by": visit.by} for visit in sheet.visits}
    found["Heights"] = {name: {"": text} for name, text in sheet.heights}
    found["Walls"] = {name: {"length": length} for name, length in sheet.walls}
    for table in (*sheet.tables, *([sheet.appliances] if sheet.appliances is not None else [])):
        found.setdefault(table.title or "Appliances", {}).update(_of_table(table))
    worked = found.setdefault("Worked out", {})
    for figure in sheet.worked:
        worked.setdefault(figure.thing, {})[figure.label] = figure.value
    found["Open points"] = {
        f"{point.title}, {where}": {"": f"{said.have}, {said.bounds} {said.need}".strip(", ")}
        for point in sheet.points
        for where, said in point.places
    }
    found["Agreed"] = {agreed.about: {"": f"{agreed.have}; {agreed.said}"} for agreed in sheet.agreed}
    found["Please tell us"] = {question.key: {"": question.what} for question in sheet.questions}
    return {part: things for part, things in found.items() if things}


def _of_table(table: Table) -> dict[str, dict[str, str]]:
    found = {}
    for line in table.lines:
        said = {head: cell.text for head, cell in zip(table.heads, line.cells, strict=True)}
        found[line.name] = ({"wall": line.wall} if line.wall else {}) | said
    return found


def data(sheet: Sheet, issue: str) -> dict[str, Any]:
    return {
        SIGN: FORM,
        "for": sheet.trade.name,
        "person": sheet.person,
        "issue": issue,
        "on": sheet.on.isoformat(),
        "title": sheet.title,
        "plan": sheet.digest,
        "rules": sheet.books_digest,
        "facts": facts(sheet),
    }


def as_text(kept: Mapping[str, Any]) -> str:
    """The data as JSON in ASCII without a sign that HTML would obey."""
    text = json.dumps(kept, ensure_ascii=True, separators=(",", ":"))
    return text.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e")


def read_back(page: str) -> Kept:
    """What a page carries. Raises NoSheet."""
    finder = _Finder()
    finder.feed(page[:LARGEST])
    if not finder.found:
        raise NoSheet("it carries no data of a jobsheet")
    try:
        read = json.loads("".join(finder.found))
    except (ValueError, RecursionError):
        raise NoSheet("the data it carries has been damaged") from None
    if not isinstance(read, dict) or read.get(SIGN) != FORM:
        raise NoSheet("it was written by another version of dryfit")
    texts = {key: read.get(key) for key in ("for", "person", "issue", "on", "title", "plan", "rules")}
    if not all(isinstance(text, str) for text in texts.values()) or not _are_facts(read.get("facts")):
        raise NoSheet("the data it carries has been damaged")
    try:
        on = date.fromisoformat(read["on"])
    except ValueError:
        raise NoSheet("the data it carries has been damaged") from None
    trade, person, issue = read["for"], read["person"], read["issue"]
    return Kept(trade, person, issue, on, read["title"], read["plan"], read["rules"], read["facts"])


def _are_facts(found: object) -> bool:
    return isinstance(found, dict) and all(
        isinstance(things, dict)
        and all(
            isinstance(said, dict) and all(isinstance(text, str) for text in said.values()) for said in things.values()
        )
        for things in found.values()
    )


class _Finder(HTMLParser):
    """Collects the text of the element that holds the data."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[str] = []
        self._inside = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._inside = self._inside or (tag == "template" and ("id", PLACE) in attrs)

    def handle_endtag(self, tag: str) -> None:
        if tag == "template":
            self._inside = False

    def handle_data(self, data: str) -> None:
        if self._inside:
            self.found.append(data)


def changes(before: Facts, now: Facts) -> list[Change]:
    """What changed from one sheet to the next, in the order of the new one; what is gone comes last in its part."""
    return [
        change
        for part in dict.fromkeys([*now, *before])
        for change in _in_part(part, before.get(part, {}), now.get(part, {}))
    ]


def _in_part(
    part: str, before: Mapping[str, Mapping[str, str]], now: Mapping[str, Mapping[str, str]]
) -> Iterator[Change]:
    for thing in dict.fromkeys([*now, *before]):
        was, is_now = before.get(thing), now.get(thing)
        if was is None or is_now is None:
            yield Change(part, thing, "", None if was is None else was.get("", ""), _only(is_now))
            continue
        for what in dict.fromkeys([*is_now, *was]):
            if was.get(what) != is_now.get(what):
                yield Change(part, thing, what, was.get(what), is_now.get(what))


def _only(said: Mapping[str, str] | None) -> str | None:
    return None if said is None else said.get("", "")


def next_issue(issue: str) -> str:
    """The letter after one: B after A, AA after Z; A after none."""
    number = 0
    for letter in issue:
        number = number * 26 + ord(letter) - ord("A") + 1
    number, letters = number + 1, ""
    while number:
        number, place = divmod(number - 1, 26)
        letters = chr(ord("A") + place) + letters
    return letters
