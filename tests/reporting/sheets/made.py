"""Sheets of the demo plans, made once."""

from __future__ import annotations

import functools
from datetime import date
from pathlib import Path

from tests.reporting.sheets.pages import Page
from validator.commands.inspecting import inspect
from validator.judging.apply import Judgement
from validator.reference.folder import rules_folder
from validator.reference.jobsheets import Jobsheets, read_jobsheets
from validator.reporting.printing import Printer
from validator.reporting.sheets.content import Sheet, content
from validator.reporting.sheets.drawn import drawings_for
from validator.reporting.sheets.pages import jobsheet

REPOSITORY = Path(__file__).parents[3]
AWKWARD = REPOSITORY / "tests" / "reporting" / "data" / "awkward.yaml"
DEMOS = sorted(path.name for path in (REPOSITORY / "plans_demo").iterdir() if path.is_dir())
DAY = date(2027, 3, 1)
TRADES = (
    "electrician",
    "plumber",
    "gas engineer",
    "worktop maker",
    "floor layer",
    "decorator",
    "joiner",
    "helper",
)


@functools.cache
def judged(plan: str) -> Judgement:
    path = AWKWARD if plan == "awkward" else REPOSITORY / "plans_demo" / plan
    return inspect(str(path), (), DAY)


@functools.cache
def sheets() -> Jobsheets:
    return read_jobsheets(rules_folder(), judged("tern-cottage").site.library.documents)


@functools.cache
def sheet(plan: str, trade: str) -> Sheet:
    return content(judged(plan), sheets().trades[trade], sheets(), DAY)


@functools.cache
def html(plan: str, trade: str) -> str:
    made = sheet(plan, trade)
    return jobsheet(made, drawings_for(judged(plan), made), Printer(judged(plan).site), issue="A")


@functools.cache
def page(plan: str, trade: str) -> Page:
    return Page(html(plan, trade))
