"""What the hook says of a staged change: how each plan that it touches stands, and what of it is refused."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator

from validator.commands.hook_settings import Settings
from validator.commands.judging_staged import Judge, explained
from validator.commands.staged import Files, Staged, StagedPlan
from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome, Result
from validator.judging.ready import ready
from validator.judging.rules import SEVERITIES, Rule
from validator.plan.problems import Unreadable
from validator.reporting.changes import new_stops
from validator.reporting.columns import tamed
from validator.reporting.commit_report import commit_report
from validator.reporting.lines import counted, wrapped

PASSED, REFUSED, UNREADABLE = 0, 1, 2

UNREADABLE_BEFORE = "It could not be read in the last commit, so that every STOP counts as new."


class CommitCheck:
    """One look at a staged change; `folder` is one for passing files."""

    def __init__(self, folder: str, found: Staged, settings: Settings) -> None:
        self._folder = folder
        self._found = found
        self._settings = settings
        self._now = Judge(os.path.join(folder, "now"), found.given, settings.other_rules, settings.on)
        self._before = self._now
        if found.given != found.given_before:
            before = os.path.join(folder, "before")
            self._before = Judge(before, found.given_before, settings.other_rules, settings.on)

    def run(self) -> int:
        """Print it all; the exit status: 1 where something is refused, 2 where something cannot be read."""
        if not self._books_can_be_read():
            return _refuse(UNREADABLE, ["a rulebook cannot be read"])
        refused = [entry for plan in self._found.plans for entry in self._plan(plan)]
        if refused:
            return _refuse(max(status for status, _ in refused), [why for _, why in refused])
        return PASSED

    def _books_can_be_read(self) -> bool:
        """Whether all rulebooks touched can be; those of the settings are read together, as they will be used."""
        touched, given = self._found.books, self._found.given
        if not touched:
            return True
        from validator.commands.staged_books import check_books

        alone: list[Files] = [{name: text} for name, text in touched.items() if name not in given]
        fine = True
        for number, books in enumerate([given, *alone] if touched.keys() & given.keys() else alone):
            try:
                check_books(os.path.join(self._folder, str(number)), books)
            except Unreadable as unreadable:
                sys.stdout.write(tamed(explained(unreadable, books) + "\n"))
                fine = False
        return fine

    def _plan(self, plan: StagedPlan) -> Iterator[tuple[int, str]]:
        """Say how a plan stands; what of it is refused and why, with the exit status for that."""
        try:
            now = self._now.judge(plan.files, _may_block)
        except Unreadable as unreadable:
            said = explained(unreadable, {**plan.files, **self._found.given})
            sys.stdout.write(tamed(f"{plan.name}\n\n{said}\n"))
            yield UNREADABLE, f"{plan.name} cannot be read"
            return
        new, remark = self._new_stops(plan, now) if self._settings.refuses == "new-stops" else ([], "")
        sys.stdout.write(tamed(commit_report(plan.name, now, new, remark)))
        if new:
            yield REFUSED, f"{plan.name} has {counted(len(new), 'STOP', 'STOPs')} that the last commit did not have"
        elif self._settings.refuses == "not-ready" and not ready(now):
            yield REFUSED, f"{plan.name} is not ready"

    def _new_stops(self, plan: StagedPlan, now: Judgement) -> tuple[list[Outcome], str]:
        """The stops that the last commit did not have, and a remark on how that was found.

        What the last commit had is judged only where it matters, by the rules that matter.
        """
        stops = {o.rule.name for o in now.outcomes if o.result is Result.NOT_MET and o.rule.severity == "stop"}
        if not stops:
            return [], ""
        if not plan.before:
            return new_stops(None, now), "It is new in this commit."
        try:
            before = self._before.judge(plan.before, lambda rule: rule.name in stops or self._before is not self._now)
        except Unreadable:
            return new_stops(None, now), UNREADABLE_BEFORE
        return new_stops(before, now), ""


def _may_block(rule: Rule) -> bool:
    return SEVERITIES.index(rule.severity) <= SEVERITIES.index("put right")


def _refuse(status: int, why: list[str]) -> int:
    said = [
        f"REFUSED: {'; '.join(why)}.",
        "`git commit --no-verify` commits all the same; `dryfit githook --help` says how to ask for less.",
    ]
    sys.stdout.write(tamed("\n".join(line for text in said for line in wrapped(text)) + "\n"))
    return status
