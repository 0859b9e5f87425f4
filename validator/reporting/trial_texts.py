"""The trials of rules in words: both sides with figure and limit, and whether each comes out as it claims."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from validator.judging.outcomes import Outcome, Result
from validator.judging.rules import Rule
from validator.judging.trials import Side, Trials, Tried
from validator.plan.problems import Problem
from validator.reporting.columns import tamed
from validator.reporting.findings import Finding, finding, gap
from validator.reporting.lines import INDENT, counted, labelled, sentence, wrapped
from validator.reporting.printing import Printer
from validator.reporting.working import work_out

UNTRIED = "no trial: nobody has seen what it does"


def trials_text(rules: Sequence[Rule], trials: Trials) -> tuple[str, bool]:
    """Every trial of these rules with both its sides, and whether there are any and all do as they claim."""
    lines: list[str] = []
    tried = wrong = 0
    untried = [rule for rule in rules if not rule.tried]
    for (book, covers), of_book in groupby(rules, key=lambda rule: (rule.book, rule.covers)):
        lines += [f"{book}   ({covers})", ""]
        for rule in of_book:
            lines += wrapped(f"{rule.name}: {rule.title}")
            if not rule.tried:
                lines += [*labelled("", UNTRIED), ""]
            for trial in rule.tried:
                sides = trials.sides(Tried(rule, trial))
                tried += 1
                wrong += not all(side.as_claimed for side in sides)
                lines += [*_trial(Tried(rule, trial), sides), ""]
    lines += wrapped(_total(len(rules), tried, wrong, len(untried)))
    return tamed("\n".join(lines) + "\n"), bool(tried) and not wrong


def example(rule: Rule, trials: Trials) -> str:
    """A worked example from the rule's first trial, at the limit: `1710 hood − 905 worktop = 805, needed 760 at
    least`; empty for a rule that has none, or whose trial does not do what it claims.
    """
    if not rule.tried:
        return ""
    side = trials.side(Tried(rule, rule.tried[0]), Result.MET)
    outcome = side.worst
    if outcome is None or side.site is None or not side.as_claimed:
        return ""
    return f"{outcome.subject.name}: {_worked(outcome, Printer(side.site))}"


def _worked(outcome: Outcome, printer: Printer) -> str:
    found = finding(outcome, printer)
    row = outcome.row
    if found is None or row is None:
        return ""
    need = _need(found)
    working = work_out(row, outcome.rule.figure, printer) if outcome.rule.dimension is not None else None
    if working is None:
        return found.have + need
    return f"{working.sum} = {found.have}{need}" if working.sum else f"{working.label} {found.have}{need}"


def _need(found: Finding) -> str:
    return f", needed {' '.join(part for part in (found.need, found.bound) if part)}" if found.need else ""


def _trial(tried: Tried, sides: tuple[Side, Side]) -> Iterator[str]:
    thing = f", {tried.trial.thing}" if tried.trial.thing else ""
    yield from wrapped(f"{tried.trial.vary} in {tried.trial.plan}{thing}", INDENT - 3)
    said: set[str] = set()
    for side in sides:
        yield from labelled(side.claimed.value, _written(side.value))
        for line in _came_to(side, said):
            yield from labelled("", line)


def _came_to(side: Side, said: set[str]) -> Iterator[str]:
    """What one side came to; a problem that is that of the other side too is said once."""
    for problem in side.problems:
        text = _problem(problem)
        yield "NOT TRIED, as above" if text in said else f"NOT TRIED: {text}"
        said.add(text)
    outcome = side.worst
    if outcome is None or side.site is None:
        return
    printer = Printer(side.site)
    worked = _worked(outcome, printer)
    yield f"{outcome.subject.name}: {outcome.result.value}" + (f": {worked}" if worked else "")
    for missing in outcome.missing:
        yield gap(missing, printer)
    if not side.as_claimed:
        yield f"NOT AS IT CLAIMS: this value should be {side.claimed.value}, and it is {outcome.result.value}."


def _problem(problem: Problem) -> str:
    near = f" Perhaps «{problem.nearest}» was meant." if problem.nearest else ""
    expected = f" Expected: {problem.expected}." if problem.expected else ""
    return f"{problem.message}.{expected}{near}"


def _written(value: object) -> str:
    """A value of a plan on one line, as a plan would write it."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_written(part)}" for key, part in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_written, value)) + "]"
    return str(value)


def _total(rules: int, tried: int, wrong: int, untried: int) -> str:
    if not rules:
        return "There is no rule in it."
    if not tried:
        return "Nothing was tried: none of its rules has `tried`."
    said = [
        f"{wrong} of {tried} trials {'does' if wrong == 1 else 'do'} not do as claimed"
        if wrong
        else counted(tried, "trial does as claimed", "trials do as claimed")
    ]
    if untried:
        said.append(counted(untried, "rule has no trial", "rules have no trial"))
    return " ".join(map(sentence, said))
