"""What a report says of one outcome, in words: figures, working, datum, remedy, source and lines of the plan."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from validator.judging.outcomes import Check, Outcome
from validator.judging.rules import Citation, Rule
from validator.measures.rows import FieldType, Missing, NotKnown, Row, Why
from validator.plan.dimensions import LENGTH, Dimension, subtracted
from validator.reporting.lines import some
from validator.reporting.points import section_left_out
from validator.reporting.printing import Printer
from validator.reporting.working import Working, datum, pointers, work_out

BOUND_WORDS = {"at least": "at least", "at most": "at most", "equals": "exactly"}
OUT_WORDS = {"at least": "short by", "at most": "over by", "equals": "out by"}
_FIGURE = re.compile(r"(?<![\w])[\d][\d.,/⁄'\"-]*(?:\s(?:mm|cm|m|in|ft|kg|lb|lbf|kN|N|days?|weeks?|h))?\b")
"""What differs between two remedies that ask for the same: a figure with its unit."""
MOST_REMEDIES = 4
SIXTEENTH = 25.4 / 16
"""In mm: the finest that a plan in inches is written to."""
SEEN_WORDS = {"secondary": "as reported", "memory": "from memory", "primary": "", "": ""}


class Finding(NamedTuple):
    """One check of an outcome in words.

    `bound` is «at least», «at most» or «exactly»; `out` says which way the figure is out.
    """

    have: str
    need: str
    working: str = ""
    bound: str = ""
    datum: str = ""
    short: str = ""
    out: str = ""
    need_from: str = ""

    @property
    def bounds(self) -> str:
        """How the need binds, without the figure: `at least, from pan supports to hood (what the hob's maker asks)`."""
        whose = f" ({self.need_from})" if self.need_from else ""
        measured = f", {self.datum}" if self.datum else ""
        return f"{self.bound}{measured}{whose}"


def failed_or_first(outcome: Outcome) -> Check | None:
    """The check that fails by most, or the one with least to spare."""
    return max(outcome.checks, key=lambda check: (not check.ok, check.short), default=None)


def finding(outcome: Outcome, printer: Printer, *, unit: bool = False) -> Finding | None:
    """The decisive check of an outcome in words; None where nothing was compared.

    Lengths carry no unit unless `unit`, as in the plan.
    """
    check = failed_or_first(outcome)
    row, rule = outcome.row, outcome.rule
    if check is None or row is None:
        return None
    if rule.dimension is None or isinstance(check.have, str | bool) or isinstance(check.need, str | bool):
        return _in_words(rule, row, check, printer)
    have, need = printer.pair(check.have, check.need, rule.dimension, unit=unit)
    working = work_out(row, rule.figure, printer)
    return Finding(
        have=have,
        working=working.sum or working.label if working else "",
        need=need,
        bound=BOUND_WORDS[check.bound],
        datum=datum(row, rule.figure, printer),
        out=OUT_WORDS[check.bound],
        short=printer.value(abs(check.short), subtracted(rule.dimension, rule.dimension), unit=unit),
        need_from=_need_from(row, check, printer),
    )


def remedy(outcome: Outcome, printer: Printer) -> str:
    """What to do, with the target figure, for the decisive check."""
    if outcome.row is None:
        return ""
    check = failed_or_first(outcome)
    extra = dict(outcome.rule.names)
    if check is not None:
        extra |= {"have": check.have, "need": check.need, "short": _enough(abs(check.short), outcome.rule, printer)}

    def shown(value: float | str | bool, type: FieldType) -> str:
        return printer.value(value, type, unit=isinstance(type, Dimension))

    return printer.text(outcome.rule.remedy.fill(outcome.row, extra, shown))


def remedies(outcomes: Sequence[Outcome], printer: Printer) -> list[str]:
    """What to do at the places of one point: of the worst, and of each where something else has to be changed.

    Where only the figures differ the worst speaks for all; else each is told with its places.
    """
    found: dict[str, tuple[str, list[str]]] = {}
    for outcome in sorted(outcomes, key=lambda each: -each.short):
        said = remedy(outcome, printer)
        found.setdefault(_FIGURE.sub("", said), (said, []))[1].append(outcome.subject.name)
    if len(found) == 1:
        return [said for said, _ in found.values()]
    told = [f"{some(list(dict.fromkeys(names)))}: {said}" for said, names in found.values()]
    more = len(told) - MOST_REMEDIES
    return told if more < 1 else [*told[:MOST_REMEDIES], f"{more} more likewise, each by its own figure."]


def _enough(short: float, rule: Rule, printer: Printer) -> float:
    """What is short, in inches up to the next sixteenth: the nearest may leave the plan a little short again."""
    if rule.dimension is None or not rule.dimension.same_as(LENGTH) or not printer.units.inches:
        return short
    return math.ceil(short / SIXTEENTH - 1e-6) * SIXTEENTH


def makers(outcome: Outcome, printer: Printer) -> list[str]:
    """What each maker's paper asks, where the rule looks at papers."""
    row = outcome.row
    said = []
    for name in outcome.rule.stated if row is not None else ():
        assert row is not None
        figure = row.figures.get(name)
        label = figure.label if figure else row.fields[name].label
        dimension = figure.dimension if figure else row.fields[name].type
        try:
            value = printer.value(getattr(row, name), dimension)
        except NotKnown as unknown:
            said.append(f"{printer.text(label)}: {unknown.missing[0].why.value}")
        else:
            working = work_out(row, name, printer)
            sum_of = f" ({working.sum})" if working and working.sum and len(working.pointers) > 1 else ""
            said.append(f"{printer.text(label)}: {value}{sum_of}")
    return said


def rests_on(source: Citation) -> str:
    """The source as a report cites it: document, edition, clause, standing, and how it was seen."""
    if not source.title:
        return source.standing
    seen = SEEN_WORDS[source.seen]
    return f"{source}: {source.standing}" + (f", {seen}" if seen else "")


def where(outcome: Outcome, printer: Printer, most: int = 3) -> str:
    """The lines of the plan that an outcome rests on, the thing's own first."""
    return printer.lines(_pointers(outcome, printer), most)


def gap(missing: Missing, printer: Printer) -> str:
    """What is missing and why: `hood maker's figure: the maker's paper has not been read`."""
    label = printer.text(missing.label)
    if missing.why is Why.ASSUMED:
        return f"{label} is {missing.detail or 'assumed'}"
    detail = f" ({missing.detail})" if missing.detail else ""
    return f"{label}: {missing.why.value}{detail}"


def asked(missing: Missing, how: str, questions: Mapping[str, str], printer: Printer) -> str:
    """What to do about it: `how` its place is found out, else the question for the field, a section that is not there,
    or why it is missing.
    """
    section = section_left_out(missing, printer.plan)
    if section and printer.may_be_none(section):
        return f"The plan has no `{section}`: say what there is, or `{section}: none` if there is nothing."
    question = printer.text(how or questions.get(missing.asks, ""))
    if not question:
        return f"{gap(missing, printer)}."
    if missing.why in (Why.ASSUMED, Why.UNREAD, Why.NO_TABLE_ROW, Why.UNCLEAR):
        return f"{gap(missing, printer)}. {question}"
    return question


def supposition(missing: Missing, printer: Printer) -> str:
    """What has to be so for *met* to hold: `the dabs are 22`, `the maker asks no more`."""
    label = printer.text(missing.label)
    if missing.why is Why.ASSUMED:
        return f"{label} is {missing.detail or 'as assumed'}"
    return f"{label} is no stricter (paper not read)"


def _pointers(outcome: Outcome, printer: Printer) -> Iterator[str]:
    if outcome.row is not None and outcome.rule.figure in outcome.row.figures:
        working = work_out(outcome.row, outcome.rule.figure, printer)
        if working is not None:
            leaves = [pointer for pointer in pointers(working) if pointer]
            yield outcome.subject.pointer
            yield from leaves
            return
    yield outcome.subject.pointer
    if outcome.row is not None and outcome.rule.figure in outcome.row.known:
        yield outcome.row.known[outcome.rule.figure].pointer


def _in_words(rule: Rule, row: Row, check: Check, printer: Printer) -> Finding:
    """A check of words or of a condition: the fields it looked at, each with what it is."""
    looked_at = sorted(rule.holds.reads) if check.bound == "holds" and rule.holds is not None else [rule.figure]
    said = []
    for name in looked_at:
        figure = row.figures.get(name)
        declared = row.fields.get(name)
        label = figure.label if figure else declared.label if declared else name
        type = figure.dimension if figure else declared.type if declared else None
        try:
            shown = printer.value(getattr(row, name), type)
        except NotKnown:
            shown = "not known"
        said.append(f"{printer.text(label)}: {shown}")
    return Finding(have="; ".join(said), need="" if check.bound == "holds" else str(check.need))


def _need_from(row: Row, check: Check, printer: Printer) -> str:
    if check.need_from == "rule":
        return ""
    figure = row.figures.get(check.need_from)
    return printer.text(figure.label if figure else row.fields[check.need_from].label)


def work_out_outcome(outcome: Outcome, printer: Printer) -> Working | None:
    """The whole working of the figure an outcome compares; None for words, conditions and what is not known."""
    if outcome.row is None or outcome.rule.figure not in outcome.row.figures:
        return None
    return work_out(outcome.row, outcome.rule.figure, printer)
