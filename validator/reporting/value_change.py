"""What the change of one value did: the value before and now, the points it cured and those it brought, the verdict."""

from __future__ import annotations

import json
import shlex
from collections.abc import Iterable, Iterator, Sequence

from validator.judging.apply import Judgement
from validator.judging.cures import Cure, key, trouble
from validator.judging.outcomes import Outcome, Result
from validator.judging.ready import ready
from validator.plan.editing import Change
from validator.plan.pointers import split
from validator.plan.quoting import Value, Yaml
from validator.reporting.columns import tamed
from validator.reporting.findings import finding, remedy
from validator.reporting.lines import counted, labelled, sentence, some, wrapped
from validator.reporting.points import Point, Points, put_together
from validator.reporting.printing import Printer

MOST_LINES = 12
_YAML = Yaml()


def changed(change: Change, before: Judgement | None, after: Judgement, *, done: bool) -> str:
    """The whole text about a change; `before` is None where the plan could not be read before it."""
    head = "CHANGED" if done else "WOULD CHANGE (nothing was written)"
    lines = [f"{head}: {change.after.file}, line {change.line}", ""]
    lines += wrapped(" / ".join(split(change.pointer)), 7)
    if change.old is None:
        lines += labelled("added", shown(change.new))
    else:
        lines += labelled("was", shown(change.old))
        lines += labelled("now", shown(change.new))
    lines.append("")
    points = put_together(after)
    then = None if before is None else (before, put_together(before))
    if then is not None:
        moved = list(_moved(*then, after, points))
        lines += [*moved, *([""] if moved else [])]
    lines += wrapped(_verdict(then, after, points))
    return tamed("\n".join(lines)) + "\n"


def unchanged(pointer: str, value: Value, after: Judgement) -> str:
    """What is said where the plan says already what it was to say."""
    said = f"Nothing to change: {' / '.join(split(pointer))} is {shown(value)} already."
    return tamed("\n".join([*wrapped(said), "", *wrapped(_verdict(None, after, put_together(after)))])) + "\n"


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


def _moved(before: Judgement, points_before: Points, after: Judgement, points_after: Points) -> Iterator[str]:
    """What is cured, new, worse, found out and to find out since the change."""
    printer = Printer(after.site)
    wrong_before, wrong_after = _wrong(before), _wrong(after)
    known = {key(outcome): outcome for outcome in after.outcomes}
    gone = [outcome for at, outcome in wrong_before.items() if at not in wrong_after]
    cured = [outcome for outcome in gone if _is_at_rest(known.get(key(outcome)))]
    new = [outcome for at, outcome in wrong_after.items() if at not in wrong_before]
    worse = [outcome for outcome in trouble(before.outcomes, after.outcomes) if key(outcome) in wrong_before]
    asked, asks = _asked(points_before), _asked(points_after)
    yield from _by_rule("cured", cured, printer)
    yield from _by_rule("new", new, printer)
    yield from _by_rule("worse", [outcome for outcome in worse if outcome.result is Result.NOT_MET], printer)
    yield from _labels("found out", (asked[name] for name in asked if name not in asks), printer)
    yield from _labels("find out", (asks[name] for name in asks if name not in asked), printer)


def _is_at_rest(outcome: Outcome | None) -> bool:
    """Whether nothing is left to do about what an outcome was about."""
    return outcome is None or outcome.result in (Result.MET, Result.AGREED)


def _wrong(judgement: Judgement) -> dict[tuple[str, str, str, str], Outcome]:
    return {key(outcome): outcome for outcome in judgement.outcomes if outcome.result is Result.NOT_MET}


def _asked(points: Points) -> dict[tuple[str, str], str]:
    return {(errand.missing.pointer, errand.missing.label): errand.missing.label for errand in points.errands}


def _by_rule(label: str, outcomes: Iterable[Outcome], printer: Printer) -> Iterator[str]:
    by_rule: dict[str, list[Outcome]] = {}
    for outcome in outcomes:
        by_rule.setdefault(outcome.rule.name, []).append(outcome)
    for group in list(by_rule.values())[:MOST_LINES]:
        worst = max(group, key=lambda outcome: outcome.short)
        names = some(list(dict.fromkeys(outcome.subject.name for outcome in group)))
        said = finding(worst, printer) if label != "cured" else None
        out = f", {said.out} {said.short}" if said is not None and said.short else ""
        yield from labelled(label, f"{_severity(worst)}: {printer.text(worst.rule.title)}, {names}{out}")
    if len(by_rule) > MOST_LINES:
        yield from labelled(label, f"… and {len(by_rule) - MOST_LINES} more")


def _labels(label: str, names: Iterable[str], printer: Printer) -> Iterator[str]:
    shown_names = list(dict.fromkeys(printer.text(name) for name in names))
    if shown_names:
        yield from labelled(label, some(shown_names, 6))


def _severity(outcome: Outcome) -> str:
    return "STOP" if outcome.rule.severity == "stop" else outcome.rule.severity


def _verdict(before: tuple[Judgement, Points] | None, after: Judgement, points: Points) -> str:
    """`NOT READY, as before: 14 points (15 before), one thing to find out.`"""
    verdict = "READY" if ready(after) else "NOT READY"
    wrong = _counted(points.points, "point", "points") or "no points"
    asked = _counted(points.errands, "thing to find out", "things to find out") or "nothing to find out"
    if before is None:
        return f"{verdict}: {wrong}, {asked}."
    judged, then = before
    as_before = "as before" if ready(judged) == ready(after) else "which it was not before"
    wrong += _earlier(points.points, then.points)
    asked += _earlier(points.errands, then.errands)
    return f"{verdict}, {as_before}: {wrong}, {asked}."


def _counted(entries: Sequence[object], one: str, many: str) -> str:
    return counted(len(entries), one, many) if entries else ""


def _earlier(now: Sequence[object], then: Sequence[object]) -> str:
    return "" if len(now) == len(then) else f" ({len(then)} before)"
