"""What each trade is handed, as it is read: shipped entries, and slips found at their place."""

from __future__ import annotations

from pathlib import Path

import pytest

from validator.plan.problems import Unreadable
from validator.reference.folder import rules_folder
from validator.reference.jobsheets import Jobsheets, read_jobsheets
from validator.reference.library import read_library

BOOK = """\
isolate: {water: {says: The stopcock is, at: survey / stopcock}}
trades:
  well digger:
    title: Well digger
    called: [well digger, wells]
    about: [waste]
    isolate: [water]
    schedules: [{title: Wells, each: waste, columns: {pipe: bore, done: done at}}]
    figures: {drop of a waste: [fall]}
    ready: [The turf is off.]
    leaves:
      - {says: A lid., source: common practice}
      - {says: A licence., country: US-OR, source: common practice}
"""


def read(folder: Path, book: str) -> Jobsheets:
    (folder / "jobsheets.yaml").write_text(book, "utf-8")
    return read_jobsheets(folder, {})


def problems(folder: Path, book: str) -> list[tuple[int, str]]:
    with pytest.raises(Unreadable) as caught:
        read(folder, book)
    return [(problem.place.line, problem.message) for problem in caught.value.problems]


def test_a_trade_has_its_words_tables_and_papers(tmp_path: Path) -> None:
    trade = read(tmp_path, BOOK).trades["well digger"]
    assert trade.called == ("well digger", "wells")
    assert trade.schedules[0].columns == {"pipe": "bore", "done": "done at"}
    assert trade.figures == {"drop of a waste": ("fall",)}
    assert [(leave.says, leave.covers) for leave in trade.leaves] == [("A lid.", "everywhere"), ("A licence.", "US-OR")]


def test_a_trade_reads_of_what_it_is_about(tmp_path: Path) -> None:
    trade = read(tmp_path, BOOK).trades["well digger"]
    assert (trade.concerns("waste"), trade.concerns("circuit")) == (True, False)
    everything = read(tmp_path, BOOK.replace("about: [waste]", "about: all\n    own: [circuit]")).trades["well digger"]
    assert (everything.concerns("waste"), everything.concerns("circuit")) == (False, True)


@pytest.mark.parametrize(
    ("slip", "line", "says"),
    [
        (("title: Well digger", "titel: Well digger"), 4, "the trade `well digger` has no `titel`"),
        (("isolate: [water]", "isolate: [wine]"), 7, "what is cut off cannot be `wine`"),
        (("country: US-OR", "country: Oregon"), 13, "`Oregon` is no country"),
        (("says: A lid., source", "say: A lid., source"), 12, "what is handed over has no `say`"),
        (("columns: {pipe", "colums: {pipe"), 8, "a schedule has no `colums`"),
    ],
)
def test_a_slip_is_found_at_its_line(tmp_path: Path, slip: tuple[str, str], line: int, says: str) -> None:
    assert (line, says) in problems(tmp_path, BOOK.replace(*slip))


def test_the_trades_that_come_with_dryfit_can_be_read() -> None:
    sheets = read_jobsheets(rules_folder(), read_library(rules_folder()).documents)
    assert {"electrician", "plumber", "gas engineer", "worktop maker", "floor layer", "decorator"} <= set(sheets.trades)
    assert all(trade.ready and trade.leaves for trade in sheets.trades.values())
