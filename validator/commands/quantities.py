"""`dryfit quantities`: what has to be cut and bought for the cabinets and worktops of a plan."""

from __future__ import annotations

import argparse
import sys
from datetime import date

from validator.commands.inspecting import say_unreadable, style, unjudged
from validator.measures.worktops.quantities import quantities
from validator.plan.problems import Unreadable

DONE, UNREADABLE = 0, 2


def run(chosen: argparse.Namespace) -> int:
    """Print the list; there is nothing to fail but reading the plan."""
    on: date = chosen.on or date.today()
    try:
        site = unjudged(chosen.plan, on)
        found = quantities(site)
    except Unreadable as unreadable:
        say_unreadable(unreadable)
        return UNREADABLE
    if chosen.form == "json":
        from validator.reporting.json_form import as_text
        from validator.reporting.quantities_data import as_data

        sys.stdout.write(as_text(as_data(site, found, on)))
    else:
        from validator.reporting.quantities_text import as_lines

        sys.stdout.write(as_lines(site, found, on, style()))
    return DONE
