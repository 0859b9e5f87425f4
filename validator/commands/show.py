"""`dryfit show`: everything worked out about one thing of a plan, with its working, or all that is known of a wall."""

from __future__ import annotations

import argparse
import sys

from validator.commands.inspecting import inspect, say_unreadable, style
from validator.judging.apply import Judgement
from validator.plan.names import fold
from validator.plan.problems import Unreadable
from validator.reporting.about import about
from validator.reporting.wall_sheet import as_lines, wall_named

FOUND, NOT_FOUND, UNREADABLE = 0, 1, 2
DRILLING = "drilling"


def run(chosen: argparse.Namespace) -> int:
    """Print all figures of the thing named; 1 where the plan has nothing of that name."""
    try:
        judged = inspect(chosen.plan, chosen.rules, chosen.on)
    except Unreadable as unreadable:
        say_unreadable(unreadable)
        return UNREADABLE
    name = " ".join(chosen.name)
    if fold(name) == DRILLING:
        _drilling(judged, chosen.form)
        return FOUND
    wall = wall_named(judged, name)
    if wall:
        sys.stdout.write(as_lines(judged, wall, judged.site.on, style()))
        return FOUND
    text, found = about(judged, name)
    (sys.stdout if found else sys.stderr).write(text)
    return FOUND if found else NOT_FOUND


def _drilling(judged: Judgement, form: str) -> None:
    """The holes of the plan, wall by wall."""
    from validator.reporting.drilling import as_data, as_text

    if form == "json":
        from validator.reporting.json_form import as_text as as_json

        sys.stdout.write(as_json(as_data(judged)))
    else:
        sys.stdout.write(as_text(judged, style()))
