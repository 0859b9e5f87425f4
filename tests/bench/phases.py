"""The parts of a check one by one, each started afresh from what the part before it gives."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cache
from pathlib import Path

from tests.bench.plans import plan as text_of
from validator.judging.apply import Judgement, judge_site
from validator.judging.books import Books, read_rulebooks
from validator.measures.catalogue import MEASURES
from validator.measures.site import Site, row_class
from validator.plan.files import read_plan
from validator.plan.load import load
from validator.plan.merging import Merged
from validator.plan.plan import Plan
from validator.reference.folder import rules_folder
from validator.reference.library import Library, read_library
from validator.reporting.style import Style
from validator.reporting.text import report

DAY = date(2026, 6, 1)
PHASES = ("reading", "validating", "measuring", "judging", "reporting")
KINDS = tuple(kind for kind, measure in MEASURES.items() if measure.measure)


@cache
def library() -> Library:
    return read_library(rules_folder())


@cache
def books() -> Books:
    """The books of the plans' country, with the modules of every kind of row loaded."""
    for kind in KINDS:
        row_class(kind)
    return read_rulebooks(rules_folder(), library(), "GB-ENG")


class Phases:
    """A plan of some length, written into a folder, and each part of its check as a function of no arguments."""

    def __init__(self, lines: int, folder: Path) -> None:
        self._file = folder / f"plan-{lines}.yaml"
        self._file.write_text(text_of(lines), "utf-8")
        self._files = self._read()
        self._plan = load(self._files)
        self._measured = self._measure(self._site())
        self._judgement = judge_site(self._measured, books())

    def prepared(self, phase: str) -> Callable[[], object]:
        """One part, with everything it needs at hand; every call of this gives a part that nothing has begun."""
        match phase:
            case "reading":
                return self._read
            case "validating":
                files: Merged = self._files
                return lambda: load(files)
            case "measuring":
                site = self._site()
                return lambda: self._measure(site)
            case "judging":
                measured = self._measure(self._site())
                return lambda: judge_site(measured, books())
            case _:
                judgement: Judgement = judge_site(self._measure(self._site()), books())
                return lambda: report(judgement, DAY, Style())

    def _read(self) -> Merged:
        return read_plan([str(self._file)], bytes)

    def _site(self) -> Site:
        plan: Plan = self._plan
        return Site(plan, library(), DAY)

    @staticmethod
    def _measure(site: Site) -> Site:
        for kind in KINDS:
            site.rows(kind)
        return site

    @property
    def outcomes(self) -> int:
        """How much there is to judge and to report: 0 would make every figure worthless."""
        return len(self._judgement.outcomes)
