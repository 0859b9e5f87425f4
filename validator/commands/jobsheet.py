"""`dryfit jobsheet`: what a trade is handed, as HTML or PDF; and whether such a sheet still belongs to its plan."""

from __future__ import annotations

import argparse
import os
import re
import sys
from datetime import date

from validator.commands.inspecting import Inspector, inspect, say_unreadable
from validator.commands.replacing import put
from validator.judging.apply import Judgement
from validator.plan.names import nearest
from validator.plan.problems import Unreadable
from validator.reference.folder import rules_folder
from validator.reference.jobsheets import ALL, Jobsheets, Trade, read_jobsheets
from validator.reporting.columns import tamed
from validator.reporting.lines import day
from validator.reporting.printing import Printer
from validator.reporting.sheets.content import Sheet, content
from validator.reporting.sheets.drawn import drawings_for
from validator.reporting.sheets.kept import LARGEST, Change, Facts, Kept, NoSheet, changes, facts, next_issue, read_back
from validator.reporting.sheets.pages import Since, jobsheet
from validator.reporting.sheets.visits import has_work, trade_named

DONE, MOVED, UNREADABLE = 0, 1, 2
PAPER = re.compile(r"var\(--drawing-paper(?:,[^)]*)?\)")
"""The paper of a drawing, which a printed page always has white; WeasyPrint knows no variables within a drawing."""


class Refused(Exception):
    """What was asked for cannot be done; the text says why."""


def run(chosen: argparse.Namespace) -> int:
    """Write one sheet or all, or verify one."""
    try:
        return _verify(chosen) if chosen.verify is not None else _write(chosen)
    except Unreadable as unreadable:
        say_unreadable(unreadable)
    except Refused as refused:
        sys.stderr.write(f"{tamed(str(refused))}\n")
    return UNREADABLE


def _write(chosen: argparse.Namespace) -> int:
    on: date = chosen.on or date.today()
    judgement = inspect(chosen.plan, chosen.rules, on)
    sheets = read_jobsheets(rules_folder(), judgement.site.library.documents)
    if chosen.trade != ALL:
        trade, person = _trade(chosen.trade, sheets, judgement)
        page = _page(chosen, judgement, sheets, trade, person, chosen.since)
        _put(chosen.out, page, pdf=chosen.pdf)
        return DONE
    if chosen.out is None:
        raise Refused("Several sheets go into a folder: say which with --out.")
    try:
        os.makedirs(chosen.out, exist_ok=True)
    except OSError as error:
        raise _cannot_write(chosen.out, error) from None
    for trade in sheets.trades.values():
        if has_work(trade, judgement.site):
            name = trade.name.replace(" ", "-")
            held = chosen.since
            if held is not None and os.path.isdir(held):
                held = os.path.join(held, f"{name}.html")
                held = held if os.path.isfile(held) else None
            page = _page(chosen, judgement, sheets, trade, "", held)
            _put(os.path.join(chosen.out, name + (".pdf" if chosen.pdf else ".html")), page, pdf=chosen.pdf)
    return DONE


def _trade(word: str, sheets: Jobsheets, judgement: Judgement) -> tuple[Trade, str]:
    found = trade_named(word, sheets, judgement.site)
    if found is None:
        names = [*sheets.trades, *judgement.site.plan.people]
        near = nearest(word, names)
        hint = f" Perhaps «{near}» was meant." if near else ""
        raise Refused(f"There is no sheet for «{word}».{hint} There is: {', '.join([*sheets.trades, ALL])}.")
    return found


def _page(
    chosen: argparse.Namespace, judgement: Judgement, sheets: Jobsheets, trade: Trade, person: str, held: str | None
) -> str:
    """One sheet; with what changed since the one that is held, and under the next letter where anything has."""
    sheet = content(judgement, trade, sheets, judgement.site.on, person=person, money=chosen.money)
    issue, since = chosen.issue or "A", None
    if held is not None:
        former, called, issue = _held(chosen, held, trade, sheets)
        found = changes(former, facts(sheet))
        since = Since(called, found)
        issue = chosen.issue or (next_issue(issue) if found and issue else issue)
    printer = Printer(judgement.site)
    return jobsheet(sheet, drawings_for(judgement, sheet), printer, issue=issue, since=since)


def _held(chosen: argparse.Namespace, held: str, trade: Trade, sheets: Jobsheets) -> tuple[Facts, str, str]:
    """What the sheet that is held says, what to call it, and its letter: of a file, or as of a revision of git."""
    if os.path.isfile(held):
        kept = _read(held)
        if kept.trade != trade.name:
            raise Refused(f"`{held}` is the sheet of the {kept.trade}, not of the {trade.name}.")
        letter = f"issue {kept.issue} of " if kept.issue else "the sheet of "
        return kept.facts, letter + day(kept.on), kept.issue
    from validator.commands.against import at_revision
    from validator.commands.revisions import GitTrouble

    inspector = Inspector(chosen.rules, chosen.on)
    try:
        since = at_revision(chosen.plan, held, inspector)
    except GitTrouble as trouble:
        raise Refused(f"`{held}` is no file of a sheet. {trouble}") from None
    if since.judgement is None:
        raise Refused(f"The plan could not be read at {held}. {' '.join(since.mistakes[:1])}")
    former: Sheet = content(since.judgement, trade, sheets, since.judgement.site.on)
    return facts(former), f"{held} ({since.commit[:9]})", ""


def _read(path: str) -> Kept:
    try:
        with open(path, encoding="utf-8", errors="replace") as opened:
            page = opened.read(LARGEST)
    except OSError as error:
        raise Refused(f"`{path}` cannot be read: {error.strerror}.") from None
    try:
        return read_back(page)
    except NoSheet as none:
        raise Refused(f"`{path}` is no jobsheet of dryfit: {none}.") from None


def _put(path: str | None, page: str, *, pdf: bool) -> None:
    """A page into its file, or to standard output."""
    content_: bytes = _as_pdf(page) if pdf else page.encode("utf-8")
    if path is None:
        sys.stdout.flush()
        sys.stdout.buffer.write(content_)
        return
    try:
        put(path, content_)
    except OSError as error:
        raise _cannot_write(path, error) from None


def _cannot_write(path: str, error: OSError) -> Refused:
    return Refused(f"`{path}` cannot be written: {error.strerror}.")


def _as_pdf(page: str) -> bytes:
    try:
        from weasyprint import HTML
    except (ImportError, OSError) as error:
        raise Refused(
            f"A PDF needs WeasyPrint, which cannot be loaded here ({error}). `pip install '.[pdf]'` brings it; or "
            "print the HTML from a browser, which gives the same pages."
        ) from None
    made: bytes = HTML(string=PAPER.sub("#ffffff", page), url_fetcher=_fetch_nothing).write_pdf()
    return made


def _fetch_nothing(url: str) -> object:
    """A sheet needs nothing from anywhere."""
    raise ValueError(f"{url} is not fetched")


def _verify(chosen: argparse.Namespace) -> int:
    """Say whether a sheet still belongs to the plan, and what moved that concerns its trade where it does not."""
    kept = _read(chosen.verify)
    judgement = inspect(chosen.plan, chosen.rules, chosen.on or kept.on)
    sheets = read_jobsheets(rules_folder(), judgement.site.library.documents)
    trade = sheets.trades.get(kept.trade)
    if trade is None:
        raise Refused(f"`{chosen.verify}` is a sheet for the {kept.trade}, of whom the rules know nothing.")
    sheet = content(judgement, trade, sheets, judgement.site.on, person=kept.person)
    found = changes(kept.facts, facts(sheet))
    sys.stdout.write(tamed("\n".join(_verdict(kept, sheet, found)) + "\n"))
    return MOVED if found else DONE


def _verdict(kept: Kept, sheet: Sheet, found: list[Change]) -> list[str]:
    same = kept.digest == sheet.digest and kept.books_digest == sheet.books_digest
    letter = f"Issue {kept.issue} of" if kept.issue else "The sheet of"
    about = f"{letter} {day(kept.on)}, {kept.trade}, {kept.title}"
    if not found:
        why = "plan and rules are the same" if same else "the plan or its rules have changed, but nothing on this sheet"
        return [f"YES: it still belongs to the plan; {why}.", about]
    if same:
        why = "Plan and rules are the same, so the sheet was altered, or it was written for another day or other rules."
    else:
        why = f"The plan was {kept.digest[:9]} and is {sheet.digest[:9]}."
    lines = ["NO: it no longer says what the plan says. Hand out a new one.", about, why]
    part = ""
    for change in found:
        if change.part != part:
            part = change.part
            lines += ["", part]
        lines.append(f"   {change.said}")
    return lines
