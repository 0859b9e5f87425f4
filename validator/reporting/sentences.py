"""One outcome, or one mistake in a file, as a sentence or two: what a form shows that has room for a line only."""

from __future__ import annotations

from collections.abc import Iterator

from validator.judging.outcomes import Outcome, Result
from validator.plan.problems import Problem
from validator.reporting.columns import one_line
from validator.reporting.findings import finding, gap, makers, remedy, rests_on, supposition, where, work_out_outcome
from validator.reporting.lines import sentence
from validator.reporting.printing import Printer
from validator.reporting.summary import agreed_on


def message(outcome: Outcome, printer: Printer) -> str:
    """What the rule is, where, how it came out with both figures, and what to do; lengths have their unit."""
    head = f"{printer.text(outcome.rule.title)} ({place(outcome)}): {outcome.result.value}"
    figures = _figures(outcome, printer)
    match outcome.result:
        case Result.NOT_KNOWN:
            gaps = "; ".join(gap(missing, printer) for missing in outcome.missing)
            said = sentence(f"{head}: {gaps}")
        case Result.NOT_MET:
            said = sentence(f"{head}{figures}") + f" {remedy(outcome, printer)}"
        case Result.AGREED if outcome.departure is not None:
            said = sentence(f"{head}{figures}") + " " + sentence(agreed_on(outcome.departure))
        case _:
            supposed = "; ".join(supposition(missing, printer) for missing in outcome.supposing)
            said = sentence(head + (f", if {supposed}" if supposed else "") + figures)
    return one_line(said)


def place(outcome: Outcome) -> str:
    """`hob, east wall`; the name alone where it says already where it is."""
    name, context = outcome.subject.name, outcome.subject.context
    return one_line(f"{name}, {context}" if context and context not in name else name)


def details(outcome: Outcome, printer: Printer) -> Iterator[str]:
    """What stands behind an outcome that is not met, agreed or not known, one thing a line."""
    yield f"why: {printer.text(outcome.rule.because)}"
    working = work_out_outcome(outcome, printer)
    for depth, line in working.flat() if working is not None else ():
        if line.sum:
            yield f"{'  ' * depth}{line.label}: {line.result} = {line.sum}"
    said = makers(outcome, printer)
    if said:
        yield f"papers: {'; '.join(said)}"
    if outcome.result in (Result.NOT_MET, Result.AGREED):
        yield f"do this: {remedy(outcome, printer)}"
    yield f"before: {outcome.rule.before}"
    yield f"rests on: {rests_on(outcome.rule.source)}"
    yield f"in the plan: {where(outcome, printer)}"


def mistake(problem: Problem) -> str:
    """Why a file cannot be read: what is wrong, what was expected, and what was probably meant."""
    parts = [sentence(problem.message)]
    if problem.expected:
        parts.append(sentence(f"expected: {problem.expected}"))
    if problem.nearest:
        parts.append(f"Perhaps «{problem.nearest}» was meant.")
    return one_line(" ".join(parts))


def _figures(outcome: Outcome, printer: Printer) -> str:
    said = finding(outcome, printer, unit=True)
    if said is None:
        return ""
    if not said.short:
        return f", {said.have}" + (f" (need: {said.need})" if said.need else "")
    measured = f", {said.datum}" if said.datum else ""
    whose = f" ({said.need_from})" if said.need_from else ""
    out = f"; {said.out} {said.short}" if outcome.result is not Result.MET else ""
    return f", have {said.have}, need {said.bound} {said.need}{measured}{whose}{out}"
