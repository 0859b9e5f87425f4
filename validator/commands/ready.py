"""`dryfit ready`: yes or no for one stage of the work."""

from __future__ import annotations

import argparse
import sys
from datetime import date

from validator.commands.inspecting import inspect, library, say_unreadable, style
from validator.plan.names import fold, nearest
from validator.plan.problems import Unreadable
from validator.reference.folder import rules_folder
from validator.reference.library import Library
from validator.reference.measuring import read_ways
from validator.reporting.columns import tamed
from validator.reporting.stage_answer import answer, may_start

YES, NOT_YET, UNREADABLE = 0, 1, 2


def run(chosen: argparse.Namespace) -> int:
    """Print the answer; the exit status is it."""
    on: date = chosen.on or date.today()
    try:
        stages = library().stages
        stage = _stage(chosen.stage, library())
        if stage is None:
            meant = nearest(chosen.stage, stages)
            sys.stderr.write(tamed(f"There is no stage `{chosen.stage}`.\nExpected: {', '.join(stages)}\n"))
            sys.stderr.write(f"Perhaps «{meant}» was meant.\n" if meant else "")
            return UNREADABLE
        judged = inspect(chosen.plan, chosen.rules, on)
        ways = read_ways(rules_folder())
    except Unreadable as unreadable:
        say_unreadable(unreadable)
        return UNREADABLE
    sys.stdout.write(answer(judged, stage, ways, on, style()))
    return YES if may_start(judged, stage) else NOT_YET


def _stage(written: str, library: Library) -> str | None:
    """The stage of this name, also by what a report calls it in another country: `rough-in` is the first fix."""
    wanted = fold(written)
    called = {fold(theirs): ours for words in library.words.values() for ours, theirs in words.items()}
    return next((name for name in library.stages if fold(name) in (wanted, fold(called.get(wanted, "")))), None)
