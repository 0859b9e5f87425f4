"""All that stands on the sheet of one trade, as plain values; `pages` makes it into HTML."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from validator.judging.apply import Judgement
from validator.judging.cautions import cautions
from validator.judging.ready import stage_verdicts
from validator.measures.room.walls import length_of
from validator.measures.rows import Known, NotKnown, Row
from validator.measures.tracing import all_missing
from validator.plan.dimensions import LENGTH
from validator.plan.values import Quantity
from validator.reference.jobsheets import Jobsheets, Trade
from validator.reporting.findings import Finding, finding, makers, remedy, rests_on
from validator.reporting.points import Point, Points, put_together
from validator.reporting.printing import Printer
from validator.reporting.sentences import place
from validator.reporting.sheets import visits as work
from validator.reporting.sheets.asking import Question, questions
from validator.reporting.sheets.tables import Table, Tables, appliance_table
from validator.reporting.sheets.values import Binding, given, of_row
from validator.reporting.sheets.visits import Handed, Isolation, Visit, Who
from validator.reporting.summary import NO_COUNTRY, agreed_on, caution_said
from validator.reporting.working import datum, work_out


class Verdict(NamedTuple):
    """Whether one visit may begin, in words, and the numbers of the open points of the trade and of others."""

    stage: str
    ready: bool
    own: tuple[int, ...]
    others: tuple[int, ...]


class OpenPoint(NamedTuple):
    """A finding that concerns the trade, as the report has it."""

    number: int
    severity: str
    title: str
    because: str
    places: tuple[tuple[str, Finding], ...]
    papers: str
    remedy: str
    rests: str


class Worked(NamedTuple):
    """A figure worked out for the trade: what it is, of what, from where to where, and how."""

    thing: str
    label: str
    value: str
    datum: str
    sums: tuple[str, ...]


class Agreed(NamedTuple):
    """A departure that was agreed, with the figures it covers."""

    about: str
    have: str
    need: str
    said: str


class Sheet(NamedTuple):
    """The sheet of one trade for one issue of a plan."""

    trade: Trade
    person: str
    title: str
    american: bool
    on: date
    country: str
    files: tuple[str, ...]
    digest: str
    books: str
    books_digest: str
    no_country: str
    verdicts: tuple[Verdict, ...]
    visits: tuple[Visit, ...]
    points: tuple[OpenPoint, ...]
    cautions: tuple[tuple[str, str], ...]
    isolations: tuple[Isolation, ...]
    heights: tuple[tuple[str, str], ...]
    walls: tuple[tuple[str, str], ...]
    tables: tuple[Table, ...]
    worked: tuple[Worked, ...]
    appliances: Table | None
    agreed: tuple[Agreed, ...]
    questions: tuple[Question, ...]
    ready: tuple[str, ...]
    due: tuple[str, ...]
    leaves: tuple[Handed, ...]
    people: tuple[Who, ...]
    units: str


def content(
    judgement: Judgement, trade: Trade, sheets: Jobsheets, on: date, *, person: str = "", money: bool = False
) -> Sheet:
    """The sheet of a trade, for one `person` of it or for whoever does it."""
    site = judgement.site
    printer, points = Printer(site), put_together(judgement)
    numbers = {id(outcome): entry.number for entry in points.numbered for outcome in entry.outcomes}
    people = work.everybody(site, trade, printer, money=money)
    own = work.visits(trade, person, site, printer)
    return Sheet(
        trade,
        person,
        site.plan.project.title or site.plan.files[0],
        site.country.startswith("US"),
        on,
        site.country,
        site.plan.files,
        site.plan.digest,
        judgement.books.applied,
        judgement.books.digest,
        NO_COUNTRY if judgement.books.country_missing else "",
        tuple(_verdicts(judgement, trade, points)),
        tuple(own),
        tuple(_open_points(points, trade, printer)),
        tuple(_cautions(judgement, trade, printer)),
        tuple(work.isolations(trade, sheets, site, printer)),
        tuple(_heights(judgement, printer)),
        tuple((wall, given(length_of(site.plan, wall), printer)) for wall in site.plan.walls),
        tuple(Tables(judgement, trade, printer, Binding(judgement.outcomes, numbers, printer)).all()),
        tuple(_worked(judgement, trade, printer)),
        appliance_table(judgement, trade, printer),
        tuple(_agreed(points, trade, printer)),
        tuple(questions(judgement, trade, printer)),
        tuple(printer.text(text) for text in trade.ready),
        tuple(work.due(trade, own, site, printer)),
        tuple(work.handed_over(trade, people, site, printer)),
        tuple(people),
        {"in": "inches", "ft": "feet and inches", "cm": "centimetres", "m": "metres"}.get(
            site.plan.project.lengths_in or "mm", "millimetres"
        ),
    )


def _verdicts(judgement: Judgement, trade: Trade, points: Points) -> Iterator[Verdict]:
    for verdict in stage_verdicts(judgement):
        if verdict.stage in trade.stages:
            own = [outcome for outcome in verdict.blocking if trade.concerns(outcome.rule.each)]
            mine = points.numbers(own)
            earlier = [
                number
                for other in stage_verdicts(judgement)
                if other.stage in verdict.earlier or other.stage == verdict.stage
                for number in points.numbers(other.blocking)
                if number not in mine
            ]
            yield Verdict(verdict.stage, verdict.ready, tuple(mine), tuple(sorted(set(earlier))))


def _open_points(points: Points, trade: Trade, printer: Printer) -> Iterator[OpenPoint]:
    for point in points.points:
        if trade.concerns(point.rule.each):
            yield open_point(point, printer)


def open_point(point: Point, printer: Printer) -> OpenPoint:
    """A point of the report with the figures of each of its places."""
    worst = max(point.outcomes, key=lambda outcome: outcome.short)
    said = [(place(outcome), found) for outcome in point.outcomes if (found := finding(outcome, printer, unit=True))]
    return OpenPoint(
        point.number,
        "STOP" if point.rule.severity == "stop" else point.rule.severity,
        printer.text(point.rule.title),
        printer.text(point.rule.because),
        tuple(said),
        "; ".join(makers(worst, printer)),
        remedy(worst, printer),
        rests_on(point.rule.source),
    )


def _cautions(judgement: Judgement, trade: Trade, printer: Printer) -> Iterator[tuple[str, str]]:
    """The standing cautions of what the trade works on, and those of the house as a whole."""
    kinds = {*(trade.about or trade.own), *(each.each for each in trade.schedules)}
    for caution in cautions(judgement.site):
        if not caution.kinds or not trade.about or kinds & set(caution.kinds):
            yield caution.signal, caution_said(caution, judgement.site, printer)


def _heights(judgement: Judgement, printer: Printer) -> Iterator[tuple[str, str]]:
    """The levels that everything hangs on, each with its datum; the finished floor as what is added later."""
    site = judgement.site
    for levels in site.levels.rooms:
        named = f", {levels.room.name}" if len(site.plan.rooms) > 1 and levels.room.name else ""
        floor = levels.finished_floor
        if isinstance(floor, Known) and not floor.value:
            yield f"Finished floor{named}", "the bare floor: nothing is laid on it"
        else:
            laid = f", laid {levels.laid.value}" if isinstance(levels.laid, Known) else ""
            yield f"Finished floor{named}", printer.text(f"{given(floor, printer)} above the bare floor{laid}")
        ceiling = levels.room.ceiling
        if isinstance(ceiling, Quantity):
            yield f"Ceiling{named}", f"{printer.ends(ceiling.low, ceiling.high, LENGTH)} above the bare floor"
    for name, row in site.levels.worktops.items():
        bare, finished = (of_row(row, figure, printer) for figure in ("above_bare_floor", "height"))
        yield name, f"{bare} above the bare floor, {finished} above the finished floor"
    for run in site.plan.runs:
        yield from _hung(judgement, run, printer)


def _hung(judgement: Judgement, run: str, printer: Printer) -> Iterator[tuple[str, str]]:
    """From where to where the hung units of a run reach, above the bare floor."""
    levels = judgement.site.levels
    lows, highs = [], []
    for unit in judgement.site.setting_out.in_run(run):
        if unit.item.family == "unit" and levels.is_hung(unit):
            top, height = levels.top_of(unit), unit.item.height
            if not isinstance(top, Known) or not isinstance(height, Quantity):
                return
            lows.append(float(top.value) - height.low)
            highs.append(float(top.value))
    if lows:
        low, high = printer.value(min(lows), LENGTH), printer.value(max(highs), LENGTH)
        yield run, f"from {low} to {high} above the bare floor"


def _worked(judgement: Judgement, trade: Trade, printer: Printer) -> Iterator[Worked]:
    """The figures of the trade; things of which one comes out alike stand together, with the working of the first."""
    for kind, names in trade.figures.items():
        alike: dict[tuple[object, ...], list[Worked]] = {}
        for row in judgement.site.rows(kind).rows:
            for name in names:
                found = _figure(row, name, printer)
                if found is not None:
                    alike.setdefault(_but_for_its_name(found), []).append(found)
        for first, *others in alike.values():
            same = [other.thing for other in others if other.sums == first.sums]
            likewise = [other.thing for other in others if other.sums != first.sums]
            named = ", ".join(dict.fromkeys([first.thing, *same]))
            yield first._replace(thing=f"{named}; likewise {', '.join(likewise)}" if likewise else named)


def _but_for_its_name(worked: Worked) -> tuple[object, ...]:
    """A figure with its working, in which its thing goes by no name of its own."""
    own = re.compile(rf"(?<!\w){re.escape(worked.thing)}(?!\w)")
    return (*worked[1:4], *(own.sub("…", text) for text in worked.sums))


def _figure(row: Row, name: str, printer: Printer) -> Worked | None:
    """A figure with its working; None for one that is not of this thing or not known (that is asked for elsewhere)."""
    figure = row.figures.get(name)
    if figure is None or all_missing(row, name):
        return None
    try:
        working = work_out(row, name, printer)
    except NotKnown:
        return None
    if working is None:
        return None
    sums = [f"{line.label} {line.result} = {line.sum}" for depth, line in working.flat() if depth and line.sum]
    value = of_row(row, name, printer, unit=True) or ""
    return Worked(
        row.subject.name,
        printer.text(figure.label),
        value,
        datum(row, name, printer),
        tuple([working.sum, *sums] if working.sum else sums),
    )


def _agreed(points: Points, trade: Trade, printer: Printer) -> Iterator[Agreed]:
    for outcome in points.agreed:
        if outcome.departure is not None and trade.concerns(outcome.rule.each):
            said = finding(outcome, printer, unit=True)
            yield Agreed(
                f"{printer.text(outcome.rule.title)}, {place(outcome)}",
                said.have if said is not None else "",
                f"{said.bounds} {said.need}".strip() if said is not None else "",
                agreed_on(outcome.departure),
            )


__all__ = ["Sheet", "content", "open_point"]
