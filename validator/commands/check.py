"""`dryfit check`: judge plans and print their reports."""

from __future__ import annotations

import argparse
import importlib
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import date
from typing import Any

from validator.commands.inspecting import style
from validator.commands.many import IN_PARTS, NOT_READY, READY, UNREADABLE, Checked, Request, check_plans
from validator.reporting.columns import tamed

STATUS_WORDS = {READY: "ready", NOT_READY: "not ready", UNREADABLE: "cannot be read"}


def run(chosen: argparse.Namespace) -> int:
    """Judge every plan named; the exit status is that of the worst."""
    if chosen.against is not None:
        from validator.commands import against

        return against.run(chosen)
    request = Request(chosen.on or date.today(), tuple(chosen.rules), chosen.fail_on, chosen.form, style().plain)
    checked: list[Checked] = []
    with _executor(chosen.jobs, chosen.plans) as executor, _progress(chosen.plans) as step:
        for one in check_plans(chosen.plans, request, executor):
            step()
            checked.append(one)
            sys.stderr.write(one.problems)
            if chosen.form == "text" and one.report is not None:
                sys.stdout.write(one.report)
    reports = [one.report for one in checked if one.report is not None]
    if chosen.form in IN_PARTS:
        sys.stdout.write(importlib.import_module(IN_PARTS[chosen.form]).whole(reports))
    elif chosen.form == "json" and reports:
        from validator.reporting.json_form import as_text

        sys.stdout.write(as_text(reports[0] if len(chosen.plans) == 1 else reports))
    elif chosen.form == "text" and len(checked) > 1:
        sys.stdout.write(_summary(checked))
    return max(one.status for one in checked)


def _summary(checked: Sequence[Checked]) -> str:
    """One line a plan and one for all, after the reports of several plans."""
    lines = ["", f"{len(checked)} PLANS"]
    lines += [f"  {STATUS_WORDS[one.status]:<16}{tamed(one.path)}" for one in checked]
    counts = [f"{count} {word}" for status, word in STATUS_WORDS.items() if (count := _count(checked, status))]
    return "\n".join([*lines, ", ".join(counts), ""])


def _count(checked: Sequence[Checked], status: int) -> int:
    return sum(one.status == status for one in checked)


@contextmanager
def _executor(jobs: int, plans: Sequence[str]) -> Iterator[Any]:
    """A pool of processes where several are wanted; standard input can only be read in this one."""
    if jobs < 2 or len(plans) < 2 or "-" in plans:
        yield None
        return
    from concurrent.futures import ProcessPoolExecutor

    with ProcessPoolExecutor(min(jobs, len(plans))) as pool:
        yield pool


@contextmanager
def _progress(plans: Sequence[str]) -> Iterator[Any]:
    """A bar on standard error while several plans are judged, where a person may be watching and nothing else shows."""
    if len(plans) < 2 or not sys.stderr.isatty() or sys.stdout.isatty():
        yield lambda: None
        return
    from tqdm import tqdm

    with tqdm(total=len(plans), unit="plan", leave=False) as bar:
        yield lambda: bar.update(1)
