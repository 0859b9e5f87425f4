"""`dryfit check`: judge plans and print their reports."""

from __future__ import annotations

import argparse
import sys
from datetime import date

from validator.commands.inspecting import inspect, say_unreadable, style
from validator.judging.ready import ready
from validator.plan.problems import Unreadable

READY, NOT_READY, UNREADABLE = 0, 1, 2


def run(chosen: argparse.Namespace) -> int:
    """Judge every plan named; the exit status is that of the worst."""
    on: date = chosen.on or date.today()
    status = READY
    reports = []
    for path in chosen.plans:
        try:
            judged = inspect(path, chosen.rules, on)
        except Unreadable as unreadable:
            say_unreadable(unreadable)
            status = UNREADABLE
            continue
        status = max(status, READY if ready(judged, chosen.fail_on) else NOT_READY)
        if chosen.form == "json":
            from validator.reporting.json_form import as_data

            reports.append(as_data(judged, on, chosen.fail_on))
        else:
            from validator.reporting.text import report

            sys.stdout.write(report(judged, on, style(), chosen.fail_on))
    if chosen.form == "json" and reports:
        from validator.reporting.json_form import as_text

        sys.stdout.write(as_text(reports[0] if len(chosen.plans) == 1 else reports))
    return status
