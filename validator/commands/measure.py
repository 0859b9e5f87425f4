"""`dryfit measure`: what is not known, as a list to take round the room."""

from __future__ import annotations

import argparse
import sys
from datetime import date

from validator.commands.inspecting import inspect, say_unreadable, style
from validator.plan.problems import Unreadable
from validator.reference.folder import rules_folder
from validator.reference.measuring import read_ways
from validator.reporting.measuring_list import as_data, as_lines, to_measure

DONE, UNREADABLE = 0, 2


def run(chosen: argparse.Namespace) -> int:
    """Print the list; there is nothing to fail but reading the plan."""
    on: date = chosen.on or date.today()
    try:
        judged = inspect(chosen.plan, chosen.rules, on)
        parts = to_measure(judged, read_ways(rules_folder()))
    except Unreadable as unreadable:
        say_unreadable(unreadable)
        return UNREADABLE
    if chosen.form == "json":
        from validator.reporting.json_form import as_text

        sys.stdout.write(as_text(as_data(judged, parts, on)))
    else:
        sys.stdout.write(as_lines(judged, parts, on, style()))
    return DONE
