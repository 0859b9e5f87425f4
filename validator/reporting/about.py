"""Everything worked out about one thing of a plan: figures with their working, what is missing, and what rules say."""

from __future__ import annotations

from collections.abc import Iterator

from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome
from validator.measures.catalogue import MEASURES
from validator.measures.rows import NotKnown, Row
from validator.measures.tracing import all_missing
from validator.plan.dimensions import Dimension
from validator.plan.names import fold, nearest
from validator.plan.pointers import split
from validator.reporting.columns import one_line, tamed, wrap
from validator.reporting.findings import finding
from validator.reporting.lines import WIDTH
from validator.reporting.printing import Printer
from validator.reporting.working import datum, work_out

INDENT = "  "
RESERVE = "reserve"
"""The figure of a row about what holds a thing on its wall."""


def about(judgement: Judgement, name: str) -> tuple[str, bool]:
    """The text about every row that the name fits, and whether there is one; else the nearest names."""
    rows = list(_rows(judgement))
    found = [row for row in rows if _fits(row, name)]
    if not found:
        names = sorted({row.subject.name for row in rows})
        near = nearest(name, names)
        hint = f" Perhaps «{near}» was meant." if near else ""
        said = [f"Nothing in the plan is worked out about «{one_line(name)}».{hint}", f"There is: {', '.join(names)}"]
        return tamed("\n".join(line for text in said for line in wrap(text, WIDTH)) + "\n"), False
    printer = Printer(judgement.site)
    lines: list[str] = []
    found.sort(key=lambda row: RESERVE not in row.figures)  # what holds a thing is what one asks of it first
    for row in found:
        for line in _about_row(row, judgement, printer):
            lines += _hanging(line)
        lines.append("")
    return tamed("\n".join(lines)), True


def _hanging(line: str) -> Iterator[str]:
    """The line over as many as it takes, those below the first set further in."""
    text = line.lstrip()
    indent = len(line) - len(text)
    first, *_ = wrap(text, WIDTH - indent)
    yield " " * indent + first
    indent += 2 * len(INDENT)
    for part in wrap(text[len(first) :].lstrip(), WIDTH - indent):
        yield " " * indent + part


def _rows(judgement: Judgement) -> Iterator[Row]:
    for kind, measure in MEASURES.items():
        if measure.measure:
            yield from judgement.site.rows(kind).rows
    yield from (o.row for o in judgement.outcomes if o.row is not None and not MEASURES[o.rule.each].measure)


def _fits(row: Row, name: str) -> bool:
    wanted = fold(name)
    names = {fold(row.subject.name), fold(row.subject.context)}
    segments = split(row.subject.pointer)
    if segments:
        names.add(fold(segments[-1]))
    if len(segments) > 2:
        names.add(f"{fold(segments[1])} / {fold(segments[-1])}")
    return wanted in names or fold(row.subject.wall) == wanted or f"wall {fold(row.subject.wall)}" == wanted


def _about_row(row: Row, judgement: Judgement, printer: Printer) -> Iterator[str]:
    context = f", {row.subject.context}" if row.subject.context else ""
    yield f"{row.subject.name}{context}: {printer.text(row.kind)}   ({printer.lines([row.subject.pointer])})"
    if RESERVE in row.figures:
        yield INDENT + _what_holds(row, printer)
    told: set[str] = set()
    for name in row.figures:
        if not _not_of_this(row, name):
            yield from _figure(row, name, printer, told)
    for name, declared in row.fields.items():
        known = row.known.get(name)
        if declared.many or (known is None and name not in row.missing):
            continue
        label = printer.text(known.label if known and known.label else declared.label)
        if known is None:
            for gap in row.why_not_known(name):
                who = f", ask {gap.by}" if gap.by else ""
                yield f"{INDENT}{label}: not known ({printer.text(gap.label)}: {gap.why.value}{who})"
        elif known.origin is None:
            shown = _ends(known.low, known.high, known.value, declared.type, printer)
            doubt = ", assumed" if known.assumed else ""
            place = f"   ({printer.lines([known.pointer])})" if known.pointer else ""
            yield f"{INDENT}{label}: {shown}{doubt}{place}"
    for outcome in judgement.outcomes:
        if outcome.row is not None and outcome.subject == row.subject and outcome.rule.each == row.kind:
            yield f"{INDENT}rule {outcome.rule.name}: {outcome.result.value}{_margin(outcome, printer)}"


def _what_holds(row: Row, printer: Printer) -> str:
    """What holds a thing, with how many and what reserve: `held by rail in brick, 2 of them, reserve 4.07`."""
    parts = []
    for name, said in (
        ("held_by", "held by {}"),
        ("base", "in {}"),
        ("number", "{} of them"),
        (RESERVE, "reserve {}"),
    ):
        dimension = row.figures[name].dimension if name in row.figures else row.fields[name].type
        try:
            values = [getattr(corner, name) for corner in row.corners()]
        except NotKnown:
            parts.append(said.format("not known"))
            continue
        worst = min(values) if isinstance(values[0], float) else values[0]
        shown = printer.value(worst, dimension) if isinstance(dimension, Dimension) else printer.text(str(worst))
        parts.append(said.format(shown))
    return ", ".join(parts)


def _not_of_this(row: Row, name: str) -> bool:
    """Whether a figure rests on a field that the measure has left out of this row: it is not about such a thing."""
    left_out = {f"{row.kind}.{field}" for field in row.fields if field not in row.known and field not in row.missing}
    return any(gap.asks in left_out for gap in all_missing(row, name))


def _figure(row: Row, name: str, printer: Printer, told: set[str]) -> Iterator[str]:
    """A figure with its working; `told` are the lines that stand below an earlier figure of the row already."""
    figure = row.figures[name]
    label = printer.text(figure.label)
    missing = all_missing(row, name)
    if missing:
        gaps = "; ".join(dict.fromkeys(printer.text(gap.label) for gap in missing))
        yield f"{INDENT}{label}: not known (missing: {gaps})"
        return
    measured = datum(row, name, printer)
    try:
        values = [getattr(corner, name) for corner in row.corners()]
    except NotKnown:
        return
    shown = _ends(min(values), max(values), values[0], figure.dimension, printer)
    working = work_out(row, name, printer)
    sums = f" = {working.sum}" if working and working.sum else ""
    yield f"{INDENT}{label}: {shown}{sums}" + (f"   ({measured})" if measured else "")
    if working:
        for depth, line in working.flat():
            said = f"{line.label} {line.result} = {line.sum}"
            if depth and said not in told:
                told.add(said)
                yield f"{INDENT * (depth + 1)}{said}"


def _ends(low: object, high: object, value: object, type: object, printer: Printer) -> str:
    dimension = type if isinstance(type, Dimension) else None
    if isinstance(low, float) and isinstance(high, float) and low != high:
        return printer.ends(low, high, dimension, unit=True)
    if isinstance(value, str):
        return value
    return printer.value(value if isinstance(value, float | bool) else str(value), dimension, unit=True)


def _margin(outcome: Outcome, printer: Printer) -> str:
    said = finding(outcome, printer)
    if said is None or not said.short:
        return ""
    spare = f"{said.short} to spare" if outcome.short <= 0 else f"{said.out} {said.short}"
    return f", {said.have} where {said.bound} {said.need} is needed, {spare}"
