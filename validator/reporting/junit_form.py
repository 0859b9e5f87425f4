"""The report as JUnit XML: a suite for each plan and book, a case for each rule and thing.

A case fails where the plan is not ready because of it: `failure` for what is *not met*, `error` for a *stop* that is
*not known*. What does not stand in the way is `skipped` with the reason: the other things not known, what is milder
than the verdict asks for, and what is agreed. No times, so that the same input gives the same bytes.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal
from xml.etree import ElementTree

from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome, Result
from validator.judging.ready import blocks, ready
from validator.judging.rules import Severity
from validator.plan.problems import Unreadable
from validator.reporting.columns import OBEYED, one_line
from validator.reporting.printing import Printer
from validator.reporting.sentences import details, message, mistake, place
from validator.reporting.summary import NO_COUNTRY, STANDING_SENTENCE

DECLARATION = '<?xml version="1.0" encoding="UTF-8"?>\n'
NO_CHARACTER = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What XML 1.0 (2.2) does not allow in a document, not even as a reference."""

Kind = Literal["met", "failure", "error", "skipped"]


@dataclass(frozen=True, slots=True)
class Case:
    """What one rule says of one thing: `type` is one word for why it is not simply met, `body` the details."""

    rule: str
    name: str
    kind: Kind
    type: str
    message: str
    body: str = ""


@dataclass(frozen=True, slots=True)
class Suite:
    """What one book says of one plan, or the mistakes in a plan that cannot be read."""

    plan: str
    file: str
    book: str
    properties: tuple[tuple[str, str], ...]
    cases: tuple[Case, ...]


def of_plan(judgement: Judgement, on: date, fail_on: Severity = "put right") -> list[Suite]:
    """The suites of one plan, in the order of the books."""
    plan, books = judgement.site.plan, judgement.books
    printer = Printer(judgement.site)
    properties = (
        ("on", on.isoformat()),
        ("ready", "yes" if ready(judgement, fail_on) else "no"),
        ("plan", plan.digest),
        ("rules", f"{books.applied} {books.digest}"),
        *((f"withdrawn: {name}", why) for name, why in books.withdrawn.items()),
        ("says", STANDING_SENTENCE),
    )
    by_book: dict[str, list[Case]] = {}
    if books.country_missing:
        case = Case("rules of the country", "project", "error", Result.NOT_KNOWN.value, NO_COUNTRY)
        by_book["Country"] = [case]
    for outcome in judgement.outcomes:
        book = f"{outcome.rule.book} ({outcome.rule.covers})"
        by_book.setdefault(book, []).append(_case(outcome, printer, fail_on))
    title = one_line(plan.project.title or "") or plan.files[0]
    return [Suite(title, plan.files[0], book, properties, tuple(_told_apart(cases))) for book, cases in by_book.items()]


def of_unreadable(unreadable: Unreadable) -> list[Suite]:
    """A suite in which every mistake is an error, so that nothing takes the plan for a pass."""
    file = unreadable.problems[0].place.file
    cases = [
        Case("the plan can be read", _line(problem.place.file, problem.place.line), "error", "unreadable", said)
        for problem in unreadable.problems
        for said in (mistake(problem),)
    ]
    return [Suite(file, file, "cannot be read", (), tuple(_told_apart(cases)))]


def whole(plans: Sequence[Sequence[Suite]]) -> str:
    """The document of all plans, ending in a line break."""
    suites = [suite for plan in plans for suite in plan]
    names = _names(plans)
    cases = [case for suite in suites for case in suite.cases]
    root = ElementTree.Element("testsuites", {"name": "Dryfit"} | _counts(cases, "tests", "failures", "errors"))
    for suite in suites:
        root.append(_suite(suite, names[suite.file]))
    ElementTree.indent(root)
    text = ElementTree.tostring(root, encoding="unicode")
    return DECLARATION + OBEYED.sub(lambda found: f"&#x{ord(found.group()):x};", text) + "\n"


def _case(outcome: Outcome, printer: Printer, fail_on: Severity) -> Case:
    rule, said = outcome.rule, message(outcome, printer)
    if outcome.result is Result.MET:
        return Case(rule.name, place(outcome), "met", "", said)
    kind: Kind = "skipped"
    if blocks(outcome, fail_on):
        kind = "failure" if outcome.result is Result.NOT_MET else "error"
    type = rule.severity if outcome.result is Result.NOT_MET else outcome.result.value
    return Case(rule.name, place(outcome), kind, type, said, "\n".join(details(outcome, printer)))


def _told_apart(cases: Iterable[Case]) -> Iterator[Case]:
    """The cases, those with the rule and name of one before numbered: readers of the form know a case by its name."""
    seen: Counter[tuple[str, str]] = Counter()
    for case in cases:
        seen[case.rule, case.name] += 1
        count = seen[case.rule, case.name]
        name = case.name if count == 1 else f"{case.name} ({count})"
        yield Case(case.rule, name, case.kind, case.type, case.message, case.body)


def _names(plans: Sequence[Sequence[Suite]]) -> dict[str, str]:
    """What each plan is called, by its first file: its title, and the file too where several have the title."""
    titles = {suites[0].file: suites[0].plan for suites in plans if suites}
    count = Counter(titles.values())
    return {file: title if count[title] == 1 else f"{title} ({file})" for file, title in titles.items()}


def _suite(suite: Suite, plan: str) -> ElementTree.Element:
    counts = _counts(suite.cases, "tests", "failures", "errors", "skipped")
    element = _element("testsuite", {"name": f"{plan}: {suite.book}", **counts, "file": suite.file})
    if suite.properties:
        properties = ElementTree.SubElement(element, "properties")
        for name, value in suite.properties:
            properties.append(_element("property", {"name": name, "value": value}))
    for case in suite.cases:
        shown = _element("testcase", {"classname": f"{plan}: {case.rule}", "name": case.name})
        if case.kind == "met":
            shown.append(_element("system-out", {}, case.message))
        else:
            shown.append(_element(case.kind, {"type": case.type, "message": case.message}, case.body))
        element.append(shown)
    return element


def _counts(cases: Sequence[Case], *names: str) -> dict[str, str]:
    kinds = Counter(case.kind for case in cases)
    counts = {
        "tests": len(cases),
        "failures": kinds["failure"],
        "errors": kinds["error"],
        "skipped": kinds["skipped"],
    }
    return {name: str(counts[name]) for name in names}


def _element(tag: str, attributes: dict[str, str], text: str = "") -> ElementTree.Element:
    element = ElementTree.Element(tag, {name: _legal(value) for name, value in attributes.items()})
    element.text = _legal(text) or None
    return element


def _legal(text: str) -> str:
    return NO_CHARACTER.sub("\ufffd", text)


def _line(file: str, line: int) -> str:
    return f"{file}, line {line}" if line else file
