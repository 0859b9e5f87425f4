"""`dryfit ready`: yes or no for one stage of the work."""

from __future__ import annotations

import argparse
import sys
from datetime import date

from validator.commands.inspecting import inspect, library, say_unreadable, style
from validator.plan.names import fold, nearest
from validator.plan.problems import Unreadable
from validator.reference.folder import rules_folder
from validator.reference.measuring import read_ways
from validator.reporting.columns import tamed
from validator.reporting.stage_answer import answer, may_start

YES, NOT_YET, UNREADABLE = 0, 1, 2


def run(chosen: argparse.Namespace) -> int:
    """Print the answer; the exit status is it."""
    on: date = chosen.on or date.today()
    try:
        stages = library().stages
        stage = next((name for name in stages if fold(name) == fold(chosen.stage)), None)
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
