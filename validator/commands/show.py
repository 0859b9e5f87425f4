"""`dryfit show`: everything worked out about one thing of a plan, with its working."""

from __future__ import annotations

import argparse
import sys

from validator.commands.inspecting import inspect, say_unreadable
from validator.plan.problems import Unreadable
from validator.reporting.about import about

FOUND, NOT_FOUND, UNREADABLE = 0, 1, 2


def run(chosen: argparse.Namespace) -> int:
    """Print all figures of the thing named; 1 where the plan has nothing of that name."""
    try:
        judged = inspect(chosen.plan, chosen.rules, chosen.on)
    except Unreadable as unreadable:
        say_unreadable(unreadable)
        return UNREADABLE
    text, found = about(judged, chosen.name)
    (sys.stdout if found else sys.stderr).write(text)
    return FOUND if found else NOT_FOUND
