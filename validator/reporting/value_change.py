"""What the change of one value did: the value before and now, the points it cured and those it brought, the verdict."""

from __future__ import annotations

import json
import shlex
from collections.abc import Iterable, Iterator, Mapping, Sequence

from validator.judging.apply import Judgement
from validator.judging.cures import Cure, key, trouble
from validator.judging.outcomes import Outcome, Result
from validator.judging.rules import Severity
from validator.plan.editing import Change
from validator.plan.pointers import as_key, split
from validator.plan.quoting import Value, Yaml
from validator.reporting.columns import tamed
from validator.reporting.findings import finding, remedy
from validator.reporting.lines import counted, labelled, sentence, some, wrapped
from validator.reporting.points import Point
from validator.reporting.printing import Printer
from validator.reporting.standing import Standing, Wrong, standing

MOST_LINES = 12
_YAML = Yaml()


def changed(change: Change, before: Standing | None, after: Judgement, *, done: bool) -> str:
    """The whole text about a change; `before` is None where the plan could not be read before it."""
    head = "CHANGED" if done else "WOULD CHANGE (nothing was written)"
    lines = [f"{head}: {change.after.file}, line {change.line}", ""]
    lines += wrapped(as_key(change.pointer), 7)
    if change.old is None:
        lines += labelled("added", shown(change.new))
    else:
        lines += labelled("was", shown(change.old))
        lines += labelled("now", shown(change.new))
    lines.append("")
    now = standing(after)
    moved = [] if before is None else list(_moved(before, now, after))
    lines += [*moved, *([""] if moved else []), *wrapped(_verdict(before, now))]
    return tamed("\n".join(lines)) + "\n"


def unchanged(pointer: str, value: Value, after: Judgement) -> str:
    """What is said where the plan says already what it was to say."""
    said = f"Nothing to change: {' / '.join(split(pointer))} is {shown(value)} already."
    return tamed("\n".join([*wrapped(said), "", *wrapped(_verdict(None, standing(after)))])) + "\n"


def choices(plan: str, point: Point, cures: Sequence[Cure], judgement: Judgement) -> str:
    """Why a point was not cured without asking: by what it could be, each with the command to type."""
    printer = Printer(judgement.site)
    title = f"Point {point.number}, {printer.text(point.rule.title)}"
    do_this = sentence(remedy(max(point.outcomes, key=lambda outcome: outcome.short), printer))
    if not cures:
        where = f" at all of its {len(point.outcomes)} places" if len(point.outcomes) > 1 else ""
        said = f"{title}: no one value of the plan that somebody decides would cure it{where}. Nothing was changed."
        return tamed("\n".join([*wrapped(said), *wrapped(f"Do this: {do_this}")])) + "\n"
    ways = counted(len(cures), "value of the plan would cure it", "values of the plan would cure it")
    asks = "Type the command if you want it:" if len(cures) == 1 else "Choose one, and type:"
    lines = list(wrapped(f"{title}: {ways}. Nothing was changed. {asks}"))
    for cure in cures:
        lines += ["", f"  {command(plan, cure.change.pointer, cure.change.new)}"]
        lines += wrapped(f"{split(cure.change.pointer)[-1]}: now {shown(cure.change.old or '')}", 4)
        lines += _by_rule("brings", cure.brings, printer)
    return tamed("\n".join(lines)) + "\n"


def command(plan: str, pointer: str, value: Value) -> str:
    """What to type to set a value."""
    return " ".join(map(shlex.quote, ("dryfit", "set", plan, pointer, shown(value))))


def shown(value: Value) -> str:
    """A value in one line, as it would be typed."""
    if isinstance(value, str):
        return value if "\n" not in value else json.dumps(value, ensure_ascii=False)
    return _YAML.value(value)


def _moved(before: Standing, now: Standing, after: Judgement) -> Iterator[str]:
    """What is cured, new, worse, found out and to find out since the change."""
    printer = Printer(after.site)
    outcomes = {key(outcome): outcome for outcome in after.outcomes}
    cured = [wrong for at, wrong in before.wrong.items() if at not in now.wrong and _is_at_rest(outcomes.get(at))]
    new = [outcomes[at] for at in now.wrong if at not in before.wrong]
    worse = [outcome for outcome in trouble(before.grave, after.outcomes) if key(outcome) in before.wrong]
    yield from _cured(cured, printer)
    yield from _by_rule("new", new, printer)
    yield from _by_rule("worse", [outcome for outcome in worse if outcome.result is Result.NOT_MET], printer)
    yield from _labels("found out", (label for at, label in before.asked.items() if at not in now.asked), printer)
    yield from _labels("find out", (label for at, label in now.asked.items() if at not in before.asked), printer)


def _cured(cured: Iterable[Wrong], printer: Printer) -> Iterator[str]:
    by_rule: dict[str, list[Wrong]] = {}
    for wrong in cured:
        by_rule.setdefault(wrong.rule, []).append(wrong)
    for group in list(by_rule.values())[:MOST_LINES]:
        names = some(list(dict.fromkeys(wrong.name for wrong in group)))
        yield from labelled("cured", f"{_severity(group[0].severity)}: {printer.text(group[0].title)}, {names}")
    yield from _more("cured", by_rule)


def _is_at_rest(outcome: Outcome | None) -> bool:
    """Whether nothing is left to do about what an outcome was about."""
    return outcome is None or outcome.result in (Result.MET, Result.AGREED)


def _by_rule(label: str, outcomes: Iterable[Outcome], printer: Printer) -> Iterator[str]:
    by_rule: dict[str, list[Outcome]] = {}
    for outcome in outcomes:
        by_rule.setdefault(outcome.rule.name, []).append(outcome)
    for group in list(by_rule.values())[:MOST_LINES]:
        worst = max(group, key=lambda outcome: outcome.short)
        names = some(list(dict.fromkeys(outcome.subject.name for outcome in group)))
        said = finding(worst, printer)
        out = f", {said.out} {said.short}" if said is not None and said.short else ""
        yield from labelled(label, f"{_severity(worst.rule.severity)}: {printer.text(worst.rule.title)}, {names}{out}")
    yield from _more(label, by_rule)


def _more(label: str, by_rule: Mapping[str, object]) -> Iterator[str]:
    if len(by_rule) > MOST_LINES:
        yield from labelled(label, f"… and {len(by_rule) - MOST_LINES} more")


def _labels(label: str, names: Iterable[str], printer: Printer) -> Iterator[str]:
    shown_names = list(dict.fromkeys(printer.text(name) for name in names))
    if shown_names:
        yield from labelled(label, some(shown_names, 6))


def _severity(severity: Severity) -> str:
    return "STOP" if severity == "stop" else severity


def _verdict(before: Standing | None, now: Standing) -> str:
    """`NOT READY, as before: 14 points (15 before), one thing to find out.`"""
    verdict = "READY" if now.ready else "NOT READY"
    wrong = counted(now.points, "point", "points") if now.points else "no points"
    asked = counted(now.errands, "thing", "things") + " to find out" if now.errands else "nothing to find out"
    if before is None:
        return f"{verdict}: {wrong}, {asked}."
    as_before = "as before" if before.ready == now.ready else "which it was not before"
    wrong += f" ({before.points} before)" if before.points != now.points else ""
    asked += f" ({before.errands} before)" if before.errands != now.errands else ""
    return f"{verdict}, {as_before}: {wrong}, {asked}."
