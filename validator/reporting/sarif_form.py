"""The report as a SARIF 2.1.0 log: one run a plan, the same bytes for the same input and day.

Every outcome is a result: *met* is `pass`, *not met* is `fail`, *not known* is `open`, *agreed* is a `fail` with an
accepted suppression, a rule without anything to judge is `notApplicable`. What the standard has no property for (the
figures in base units, severity, stage) stands in property bags.
"""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date
from hashlib import sha256
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import Any
from urllib.parse import quote_from_bytes

from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome, Result
from validator.judging.ready import ready
from validator.judging.rules import Rule, Severity
from validator.plan.files import STANDARD_INPUT
from validator.plan.names import fold
from validator.plan.pointers import as_key, split
from validator.plan.problems import Place, Unreadable
from validator.reporting.columns import one_line
from validator.reporting.findings import gap, rests_on, supposition, work_out_outcome
from validator.reporting.json_form import as_text
from validator.reporting.points import put_together
from validator.reporting.printing import Printer
from validator.reporting.sentences import message, mistake
from validator.reporting.summary import NO_COUNTRY, STANDING_SENTENCE, agreed_on
from validator.reporting.working import pointers

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
LEVELS = {"stop": "error", "put right": "error", "improve": "warning", "note": "note"}
KINDS = {Result.MET: "pass", Result.NOT_MET: "fail", Result.NOT_KNOWN: "open", Result.AGREED: "fail"}
BASE_UNITS = "mm, kg, s, A, K, one unit of money, and their products; a date is the seconds since the day before year 1"
READABLE = "plan-can-be-read"

Data = dict[str, Any]


def of_plan(judgement: Judgement, on: date, fail_on: Severity = "put right") -> Data:
    """The run of one plan, as plain data."""
    plan, books = judgement.site.plan, judgement.books
    printer = Printer(judgement.site)
    numbers = {rule.name: number for number, rule in enumerate(books.rules)}
    seen: Counter[tuple[str, str]] = Counter()
    results = [_result(outcome, numbers, seen, printer) for outcome in judgement.outcomes]
    results += [_nothing_to_judge(rule, numbers, printer) for rule in judgement.idle]
    tally = put_together(judgement).tally
    run = _run([_rule(rule, printer) for rule in books.rules], results, plan.files)
    run["language"] = "en-US" if judgement.site.country.startswith("US") else "en-GB"
    if books.country_missing:
        notice = {"level": "warning", "message": _text(NO_COUNTRY)}
        run["invocations"][0]["toolConfigurationNotifications"] = [notice]
    run["properties"] = {
        "title": plan.project.title,
        "on": on.isoformat(),
        "ready": ready(judgement, fail_on),
        "plan digest": plan.digest,
        "rules applied": books.applied,
        "rules digest": books.digest,
        "withdrawn": dict(books.withdrawn),
        "tally": {result.value: tally[result] for result in Result},
        "base units": BASE_UNITS,
        "says": STANDING_SENTENCE,
    }
    return run


def of_unreadable(unreadable: Unreadable) -> Data:
    """The run of a plan that could not be read: every mistake is a result, so that nothing takes it for a pass."""
    rule = {
        "id": READABLE,
        "shortDescription": _text("The plan and its rulebooks can be read"),
        "fullDescription": _text("What cannot be read is not judged."),
        "defaultConfiguration": {"level": "error"},
    }
    results = [
        {
            "ruleId": READABLE,
            "ruleIndex": 0,
            "kind": "fail",
            "level": "error",
            "message": _text(mistake(problem)),
            "locations": [_at(problem.place)],
        }
        for problem in unreadable.problems
    ]
    run = _run([rule], results, list(dict.fromkeys(problem.place.file for problem in unreadable.problems)))
    run["invocations"][0]["executionSuccessful"] = False
    return run


def whole(runs: Sequence[Data]) -> str:
    """The log of all runs as JSON, ending in a line break."""
    return as_text({"$schema": SCHEMA, "version": "2.1.0", "runs": list(runs)})


def _run(rules: list[Data], results: list[Data], files: Sequence[str]) -> Data:
    return {
        "tool": {"driver": {"name": "Dryfit", **_version(), "rules": rules}},
        "invocations": [{"executionSuccessful": True}],
        "columnKind": "unicodeCodePoints",
        "artifacts": [
            {"location": {"uri": _uri(file)}, "roles": ["analysisTarget"]} for file in files if file != STANDARD_INPUT
        ],
        "results": results,
    }


def _version() -> Data:
    try:
        return {"semanticVersion": version("dryfit")}
    except PackageNotFoundError:  # run from its folder, not installed
        return {}


def _rule(rule: Rule, printer: Printer) -> Data:
    source = rests_on(rule.source)
    to_do = "".join(piece if isinstance(piece, str) else "…" for piece in rule.remedy.pieces)
    because = printer.text(rule.because)
    return {
        "id": rule.name,
        **({"deprecatedIds": list(rule.aliases)} if rule.aliases else {}),
        "shortDescription": _text(printer.text(rule.title)),
        "fullDescription": _text(because),
        "help": _text(f"{because}\n\nDo this: {printer.text(to_do)}\n\nRests on: {source}."),
        "defaultConfiguration": {"level": LEVELS[rule.severity]},
        "properties": {
            "severity": rule.severity,
            "standing": rule.source.standing,
            "seen": rule.source.seen or None,
            "before": rule.before,
            "judges": rule.each,
            "book": rule.book,
            "covers": rule.covers,
        },
    }


def _result(outcome: Outcome, numbers: dict[str, int], seen: Counter[tuple[str, str]], printer: Printer) -> Data:
    rule, subject = outcome.rule, outcome.subject
    kind = KINDS[outcome.result]
    thing = (rule.name, fold(subject.name))
    seen[thing] += 1
    data = {
        "ruleId": rule.name,
        "ruleIndex": numbers[rule.name],
        "kind": kind,
        "level": LEVELS[rule.severity] if kind == "fail" else "none",
        "message": _text(message(outcome, printer)),
        "locations": [_location(subject.pointer, printer)],
        "partialFingerprints": {"ruleAndThing/v1": _fingerprint(*thing, seen[thing])},
        "properties": _properties(outcome),
    }
    related = list(_related(outcome, printer))
    if related:
        data["relatedLocations"] = [{"id": number, **location} for number, location in enumerate(related, 1)]
    if outcome.departure is not None:
        data["suppressions"] = [
            {
                "kind": "external",
                "status": "accepted",
                "justification": one_line(agreed_on(outcome.departure)),
                "location": _location(outcome.departure.pointer, printer),
            }
        ]
    return data


def _properties(outcome: Outcome) -> Data:
    rule = outcome.rule
    return {
        "severity": rule.severity,
        "before": rule.before,
        "thing": outcome.subject.name,
        "dimension": rule.dimension.name if rule.dimension is not None else None,
        "checks": [
            {
                "bound": check.bound,
                "have": check.have,
                "need": check.need,
                "ok": check.ok,
                "short": check.short,
                "limit of": check.need_from,
            }
            for check in outcome.checks
        ],
    }


def _related(outcome: Outcome, printer: Printer) -> Iterator[Data]:
    """What has to be found out, what was supposed, and for what is not met every value behind the figure."""
    for missing in outcome.missing:
        yield _location(missing.pointer, printer, gap(missing, printer))
    for missing in outcome.supposing:
        yield _location(missing.pointer, printer, f"supposed: {supposition(missing, printer)}")
    working = work_out_outcome(outcome, printer) if outcome.result in (Result.NOT_MET, Result.AGREED) else None
    for pointer in dict.fromkeys(pointers(working)) if working is not None else ():
        if pointer and pointer != outcome.subject.pointer:
            yield _location(pointer, printer, as_key(pointer))


def _nothing_to_judge(rule: Rule, numbers: dict[str, int], printer: Printer) -> Data:
    return {
        "ruleId": rule.name,
        "ruleIndex": numbers[rule.name],
        "kind": "notApplicable",
        "level": "none",
        "message": _text(f"{printer.text(rule.title)}: nothing in the plan to judge."),
    }


def _fingerprint(rule: str, thing: str, occurrence: int) -> str:
    """The same as long as rule and thing keep their names; never the line, which moves."""
    named = "\0".join((rule, thing) if occurrence == 1 else (rule, thing, str(occurrence)))
    return sha256(named.encode("utf-8", "surrogatepass")).hexdigest()[:32]


def _location(pointer: str, printer: Printer, says: str = "") -> Data:
    location = _at(printer.place(pointer), says)
    if pointer:
        name = split(pointer)[-1]
        location["logicalLocations"] = [{"name": name, "fullyQualifiedName": pointer, "kind": "object"}]
    return location


def _at(place: Place, says: str = "") -> Data:
    """A place in a file, with something said of it; standard input has no address, and is said in words too."""
    if place.file == STANDARD_INPUT:
        address = f"{place.file}, line {place.line}" if place.line else place.file
        return {"message": _text(f"{says} ({address})" if says else address)}
    physical: Data = {"artifactLocation": {"uri": _uri(place.file)}}
    if place.line:
        physical["region"] = {"startLine": place.line} | ({"startColumn": place.column} if place.column else {})
    return {"physicalLocation": physical} | ({"message": _text(says)} if says else {})


def _uri(file: str) -> str:
    """Relative to the working folder where the file is inside it, so that a repository's paths stay its own."""
    path = Path(os.path.abspath(file))
    try:
        return quote_from_bytes(os.fsencode(path.relative_to(Path.cwd()).as_posix()))
    except ValueError:
        return path.as_uri()


def _text(text: str) -> Data:
    """A message string (3.11): braces are doubled and links broken, so that a name is never a placeholder or a link."""
    return {"text": text.replace("{", "{{").replace("}", "}}").replace("](", "] (")}
