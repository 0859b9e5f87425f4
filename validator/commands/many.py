"""Checking many plans: one after another, in processes, or on any executor of `concurrent.futures`.

What goes to a worker and what comes back is plain data, so that a worker may be another machine.
"""

from __future__ import annotations

import importlib
from collections.abc import Iterable, Iterator
from datetime import date
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

from validator.commands.inspecting import explained, inspect
from validator.judging.ready import ready
from validator.judging.rules import Severity
from validator.plan.problems import Unreadable
from validator.reporting.style import Style

if TYPE_CHECKING:
    from concurrent.futures import Executor

READY, NOT_READY, UNREADABLE = 0, 1, 2
Form = Literal["text", "json", "sarif", "junit", "markdown", "html"]

IN_PARTS = {
    "sarif": "validator.reporting.sarif_form",
    "junit": "validator.reporting.junit_form",
    "markdown": "validator.reporting.markdown",
    "html": "validator.reporting.html_form",
}
"""Forms in which a plan that cannot be read has its part too; each module has of_plan, of_unreadable and whole."""


class Request(NamedTuple):
    """How plans are to be judged and told: the day, extra rulebooks, what makes one not ready, and the form."""

    on: date
    rules: tuple[str, ...] = ()
    fail_on: Severity = "put right"
    form: Form = "json"
    plain: bool = True


class Checked(NamedTuple):
    """What came of one plan: 0 ready, 1 not ready, 2 unreadable; its report in the form asked for (None where the
    plan cannot be read and the form has nothing for that), and in `problems` why it cannot be read.
    """

    path: str
    status: int
    report: Any
    problems: str = ""


def check_plan(path: str, request: Request) -> Checked:
    """Judge one plan. Raises nothing of a plan's making; a fault of the program is raised as it is."""
    parts = importlib.import_module(IN_PARTS[request.form]) if request.form in IN_PARTS else None
    try:
        judged = inspect(path, request.rules, request.on)
    except Unreadable as unreadable:
        report = parts.of_unreadable(unreadable) if parts is not None else None
        return Checked(path, UNREADABLE, report, explained(unreadable))
    status = READY if ready(judged, request.fail_on) else NOT_READY
    if parts is not None:
        return Checked(path, status, parts.of_plan(judged, request.on, request.fail_on))
    if request.form == "json":
        from validator.reporting.json_form import as_data

        return Checked(path, status, as_data(judged, request.on, request.fail_on))
    from validator.reporting.text import report as text_report

    return Checked(path, status, text_report(judged, request.on, Style(request.plain), request.fail_on))


def check_plans(paths: Iterable[str], request: Request, executor: Executor | None = None) -> Iterator[Checked]:
    """Judge plans in the order given, on an executor if there is one; each comes once those before it are done."""
    if executor is None:
        for path in paths:
            yield check_plan(path, request)
        return
    asked = [executor.submit(check_plan, path, request) for path in paths]
    try:
        for answer in asked:
            yield answer.result()
    finally:
        for answer in asked:
            answer.cancel()


def check(
    paths: Iterable[str],
    *,
    on: date | None = None,
    rules: Iterable[str] = (),
    fail_on: Severity = "put right",
    executor: Executor | None = None,
) -> list[Checked]:
    """Judge plans (files or folders) from Python; each report is the data of `--form json`.

    `executor` may be any executor of `concurrent.futures`, such as a process pool or a cluster's. A worker needs the
    same files under the same paths. The day is today unless `on` says another.
    """
    request = Request(on or date.today(), tuple(rules), fail_on)
    return list(check_plans(paths, request, executor))
