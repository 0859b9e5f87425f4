"""The holes of a plan as somebody drills them: wall by wall from the left, as text for 80 columns or as data."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, NamedTuple

from validator.judging.outcomes import Outcome, Result
from validator.measures.rows import Given, Known, Missing
from validator.measures.walls import difference
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold
from validator.reporting.columns import at_right, filled
from validator.reporting.findings import finding
from validator.reporting.lines import apart, wrapped
from validator.reporting.printing import Printer
from validator.reporting.style import Style

if TYPE_CHECKING:
    from validator.judging.apply import Judgement
    from validator.measures.holes import Hole
    from validator.plan.sections.work import Hole as BitAndDepth

STRIPS = ("drill point", "hole seen from the other face")
ROUTES = "hole near a route"
CLEAR, IN_STRIP, TOO_NEAR, NOT_KNOWN = "clear", "in a strip", "too near", "not known"
ROTARY = ("hollow_bases", "aerated_bases")
TILES = frozenset({"tile", "tiles", "wall tile", "wall tiles"})
MEASURED = ("along", "up", "from the worktop", "bit", "depth")


class Entry(NamedTuple):
    """One hole of the schedule; `said` is what rules say of it that is not met or not known."""

    hole: Hole
    figures: dict[str, Given]
    into: str
    drill: str
    outcome: str
    said: tuple[Outcome, ...]


def entries(judgement: Judgement) -> list[Entry]:
    """Every hole, wall by wall in the order of the plan's walls, on each from the left."""
    site = judgement.site
    about: dict[tuple[str, str], list[Outcome]] = {}
    everywhere: list[Outcome] = []
    for outcome in judgement.outcomes:
        if outcome.rule.each in (*STRIPS, ROUTES) and outcome.result is not Result.MET:
            if outcome.row is None:
                everywhere.append(outcome)
            else:
                about.setdefault((outcome.subject.name, outcome.subject.pointer), []).append(outcome)
    order = {fold(wall): number for number, wall in enumerate(site.plan.walls)}
    holes = sorted(site.holes.all, key=lambda hole: (order.get(fold(hole.wall), len(order)), _at(hole.along)))
    everywhere = [outcome for outcome in everywhere if outcome.rule.each == ROUTES]
    return [_entry(judgement, hole, [*about.get(hole.subject[:2], ()), *everywhere]) for hole in holes]


def _at(value: Given) -> float:
    return float(value.value) if isinstance(value, Known) else float("inf")


def _entry(judgement: Judgement, hole: Hole, said: list[Outcome]) -> Entry:
    site, subject = judgement.site, hole.subject
    there = site.levels.at(hole.wall)
    made: BitAndDepth | None = hole.made_for.hole if hole.made_for is not None else None
    bit: Given = Missing(subject.pointer, "bit")
    if made is not None and made.diameter is not None:
        from validator.measures import reading

        bit = reading.read(made, "diameter", "bit")
    figures = {
        "along": hole.along,
        "up": difference(hole.up, there.laid_before, subject, "above the floor there is"),
        "from the worktop": difference(hole.up, site.levels.worktop_by(hole.wall, None), subject, "above the worktop"),
        "bit": bit,
        "depth": hole.depth,
    }
    into, drill = _drill(judgement, hole)
    return Entry(hole, figures, into, drill, _outcome(said), tuple(said))


def _outcome(said: list[Outcome]) -> str:
    """The worst that is said of a hole by a rule that is in the way of drilling."""
    grave = [outcome for outcome in said if outcome.rule.severity in ("stop", "put right")]
    for result in (Result.NOT_MET, Result.NOT_KNOWN):
        for outcome in grave:
            if outcome.result is result:
                if result is Result.NOT_KNOWN:
                    return NOT_KNOWN
                return IN_STRIP if outcome.rule.each in STRIPS else TOO_NEAR
    return CLEAR


def _drill(judgement: Judgement, hole: Hole) -> tuple[str, str]:
    """What the hole goes into, and how it is drilled there."""
    site = judgement.site
    into = getattr(hole.made_for, "into", None)
    wanted = fold(into) if isinstance(into, str) else ""
    made = site.make_ups.at(hole.wall, hole.along, hole.along)
    way = made[0].way_to(site.library, wanted)
    if isinstance(way, Missing):
        return "", "open"
    groups = site.library.groups
    base = way.base.term
    if base in groups.get("timber_bases", frozenset()):
        drill = "wood bit"
    elif base in groups.get("solid_bases", frozenset()):
        drill = "hammer"
    else:
        drill = "no hammer"
    tiled = any(layer.term in TILES for layer in way.before)
    return way.base.material, f"tile bit, then {drill}" if tiled else drill


def as_text(judgement: Judgement, style: Style) -> str:
    """The whole schedule; ends in a line break."""
    return style.tamed("\n".join(_lines(judgement, style)) + "\n")


def _lines(judgement: Judgement, style: Style) -> Iterator[str]:
    printer = Printer(judgement.site)
    found = entries(judgement)
    yield from apart("HOLES TO DRILL", judgement.site.plan.project.title or "")
    yield from wrapped(
        "Each wall from its left end; heights from the floor that is there when the holes are drilled, and from the "
        "worktop. Look for cables and pipes again before every hole."
    )
    wall = None
    for entry in found:
        if entry.hole.wall != wall:
            wall = entry.hole.wall
            yield ""
            yield style.strong(f"{wall} wall".upper())
            heads = ("along", "up", "worktop", "bit", "depth")
            yield filled("", 22) + "".join(at_right(head, 10) for head in heads)
        yield from _hole(entry, printer)
    if not found:
        yield "There is no hole to drill."


def _hole(entry: Entry, printer: Printer) -> Iterator[str]:
    shown = [_shown(entry.figures[name], printer) for name in MEASURED]
    name = entry.hole.subject.name
    line = "".join(at_right(text, 10) for text in shown)
    if len(name) > 21 or len(line) > 58:
        yield from wrapped(name)
        name = ""
    yield (filled(name, 22) + line).rstrip()
    how = [entry.hole.called, f"into {entry.into}" if entry.into else "", entry.drill, entry.outcome]
    yield from wrapped(", ".join(filter(None, how)), 4)
    for outcome in entry.said:
        told = finding(outcome, printer)
        beside = f": {told.have}, {told.bound} {told.need}" if told is not None and outcome.checks else ""
        yield from wrapped(f"{outcome.rule.title}{beside}", 6)


def _shown(value: Given, printer: Printer) -> str:
    if not isinstance(value, Known):
        return "open"
    low, high = (float(value.value if end is None else end) for end in (value.low, value.high))
    if high - low <= 0.05:
        return printer.value(high, LENGTH)
    return f"{printer.value(low, LENGTH)}-{printer.value(high, LENGTH)}"


def as_data(judgement: Judgement) -> dict[str, Any]:
    """The schedule as plain data; lengths in mm, both ends of what is not certain, None for what is open."""
    return {
        "holes": [
            {
                "name": entry.hole.subject.name,
                "wall": entry.hole.wall,
                **{name: _ends(value) for name, value in entry.figures.items()},
                "for": entry.hole.called,
                "into": entry.into,
                "drill": entry.drill,
                "outcome": entry.outcome,
                "rules": {outcome.rule.name: outcome.result.value for outcome in entry.said},
            }
            for entry in entries(judgement)
        ]
    }


def _ends(value: Given) -> list[float] | None:
    return [float(value.low or 0.0), float(value.high or 0.0)] if isinstance(value, Known) else None
