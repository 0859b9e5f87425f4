"""`dryfit check`: judge plans and print their reports."""

from __future__ import annotations

import argparse
import importlib
import sys
from datetime import date

from validator.commands.inspecting import inspect, say_unreadable, style
from validator.judging.ready import ready
from validator.plan.problems import Unreadable

READY, NOT_READY, UNREADABLE = 0, 1, 2

FORMS = {
    "sarif": "validator.reporting.sarif_form",
    "junit": "validator.reporting.junit_form",
    "markdown": "validator.reporting.markdown",
}
"""Forms in which a plan that cannot be read has its part too; each module has of_plan, of_unreadable and whole."""


def run(chosen: argparse.Namespace) -> int:
    """Judge every plan named; the exit status is that of the worst."""
    on: date = chosen.on or date.today()
    status = READY
    reports = []
    form = importlib.import_module(FORMS[chosen.form]) if chosen.form in FORMS else None
    for path in chosen.plans:
        try:
            judged = inspect(path, chosen.rules, on)
        except Unreadable as unreadable:
            say_unreadable(unreadable)
            status = UNREADABLE
            if form is not None:
                reports.append(form.of_unreadable(unreadable))
            continue
        status = max(status, READY if ready(judged, chosen.fail_on) else NOT_READY)
        if form is not None:
            reports.append(form.of_plan(judged, on, chosen.fail_on))
        elif chosen.form == "json":
            from validator.reporting.json_form import as_data

            reports.append(as_data(judged, on, chosen.fail_on))
        else:
            from validator.reporting.text import report

            sys.stdout.write(report(judged, on, style(), chosen.fail_on))
    if form is not None:
        sys.stdout.write(form.whole(reports))
    elif chosen.form == "json" and reports:
        from validator.reporting.json_form import as_text

        sys.stdout.write(as_text(reports[0] if len(chosen.plans) == 1 else reports))
    return status
