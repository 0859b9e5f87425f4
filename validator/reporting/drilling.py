"""The holes of a plan as somebody drills them: wall by wall from the left, as text for 80 columns or as data."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf
from typing import TYPE_CHECKING, Any, NamedTuple

from validator.judging.outcomes import Outcome, Result
from validator.measures import reading
from validator.measures.drilling.drill_points import DrillPoint
from validator.measures.drilling.holes_beyond import HoleBeyond
from validator.measures.drilling.routes import HoleNearRoute
from validator.measures.room.walls import difference
from validator.measures.rows import Given, Known, Missing, Why
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold
from validator.reporting.columns import at_right, columns, filled
from validator.reporting.findings import finding
from validator.reporting.lines import WIDTH, apart, some, wrapped
from validator.reporting.printing import Printer
from validator.reporting.style import Style

if TYPE_CHECKING:
    from validator.judging.apply import Judgement
    from validator.measures.drilling.holes import Hole
    from validator.plan.sections.work import Hole as BitAndDepth

STRIP = "strip"
OF_WHAT_IS_NEAR = ("clear_of_strip", "clear_of_route")
STRIPS = ("drill point", "hole seen from the other face")
ROUTES = "hole near a route"
CLEAR, WITH_CARE, NOT_KNOWN, IN_STRIP = "clear", "with care", "not known", "in a strip"
WRONG = {"inside_wall": "off its wall", "left_behind": "too deep", "clear_of_route": "too near"}
"""What is wrong with a hole, by the figure of the rule that says so; of all other figures it lies in a strip."""
NO_HAMMER = "hammer off"
DRILLS = (("timber_bases", "wood bit"), ("metal_studs", "metal bit"), ("solid_bases", "hammer on"))
"""How a hole is drilled, by the group of what it goes into; hollow and light blocks break under a hammer."""
MEASURED = ("along", "up", "from the worktop", "bit", "depth")
HEADS = ("along", "up", "worktop", "bit", "depth")
NAME, COLUMN = 21, 10


class Near(NamedTuple):
    """What lies near a hole: its name, a strip or what a route is, and what is clear of it, in mm; less than 0 inside
    a strip."""

    name: str
    what: str
    clear: float


class Entry(NamedTuple):
    """One hole of the schedule; `said` is what rules say of it that is not met or not known."""

    hole: Hole
    figures: dict[str, Given]
    into: str
    drill: str
    outcome: str
    near: tuple[Near, ...]
    said: tuple[Outcome, ...]


def entries(judgement: Judgement) -> list[Entry]:
    """Every hole, wall by wall in the order of the plan's walls, on each from the left."""
    site = judgement.site
    about: dict[tuple[str, str], list[Outcome]] = {}
    for outcome in judgement.outcomes:
        if outcome.rule.each in (*STRIPS, ROUTES) and outcome.row is not None:
            about.setdefault((outcome.subject.name, outcome.subject.pointer), []).append(outcome)
    order = {fold(wall): number for number, wall in enumerate(site.plan.walls)}
    holes = sorted(site.holes.all, key=lambda hole: (order.get(fold(hole.wall), len(order)), _at(hole.along)))
    everywhere = _of_every_hole(judgement)
    return [_entry(judgement, hole, about.get(hole.subject[:2], []), everywhere) for hole in holes]


def _of_every_hole(judgement: Judgement) -> list[Outcome]:
    """What is not known of any hole, because the plan leaves out what may run in its walls."""
    return [outcome for outcome in judgement.outcomes if outcome.rule.each == ROUTES and outcome.row is None]


def _at(value: Given) -> float:
    return float(value.value) if isinstance(value, Known) else float("inf")


def _entry(judgement: Judgement, hole: Hole, found: list[Outcome], everywhere: list[Outcome]) -> Entry:
    site, subject = judgement.site, hole.subject
    there = site.levels.at(hole.wall)
    made: BitAndDepth | None = hole.made_for.hole if hole.made_for is not None else None
    bit: Given = Missing(subject.pointer, "bit")
    if made is not None and made.diameter is not None:
        bit = reading.read(made, "diameter", "bit")
    figures = {
        "along": hole.along,
        "up": difference(hole.up, there.laid_before, subject, "above the floor there is"),
        "from the bare floor": hole.up,
        "from the worktop": difference(hole.up, site.levels.worktop_by(hole.wall, None), subject, "above the worktop"),
        "bit": bit,
        "depth": hole.depth,
    }
    into, drill = _drill(judgement, hole)
    said = tuple(outcome for outcome in found if outcome.result is not Result.MET)
    return Entry(hole, figures, into, drill, _outcome([*said, *everywhere]), _near(found), said)


def _near(found: list[Outcome]) -> tuple[Near, ...]:
    """The strip and the routes that rules have looked at, the nearest first, each at its worse end."""
    least: dict[tuple[str, str], float] = {}
    for outcome in found:
        row = outcome.row
        if outcome.rule.figure not in OF_WHAT_IS_NEAR:
            continue
        for check in outcome.checks:
            if isinstance(row, HoleNearRoute):
                key = (row.route, row.what)
            elif isinstance(row, DrillPoint | HoleBeyond):
                key = (row.strip_of, STRIP)
            else:
                continue
            least[key] = min(least.get(key, inf), float(check.have))
    return tuple(sorted((Near(*key, clear) for key, clear in least.items()), key=lambda near: near.clear))


def _outcome(said: list[Outcome]) -> str:
    """The worst that is said of a hole: what is wrong by a rule that is in the way of drilling, then what is open."""
    grave = [outcome for outcome in said if outcome.rule.severity in ("stop", "put right")]
    wrong = [outcome for outcome in grave if outcome.result is Result.NOT_MET]
    if wrong:
        first = min(
            wrong, key=lambda outcome: list(WRONG).index(outcome.rule.figure) if outcome.rule.figure in WRONG else 9
        )
        return WRONG.get(first.rule.figure, IN_STRIP)
    if any(outcome.result is Result.NOT_KNOWN for outcome in grave):
        return NOT_KNOWN
    return WITH_CARE if said else CLEAR


def _drill(judgement: Judgement, hole: Hole) -> tuple[str, str]:
    """What the hole goes into, and how it is drilled there."""
    site = judgement.site
    into = getattr(hole.made_for, "into", None)
    wanted = fold(into) if isinstance(into, str) else ""
    made = site.make_ups.at(hole.wall, hole.along, hole.along)
    ways = [each.way_to(site.library, wanted) for each in made]
    groups = site.library.groups
    bits: list[str] = []
    bases: list[str] = []
    for way in ways:
        if isinstance(way, Missing):
            return "", "open"
        bit = next((how for group, how in DRILLS if way.base.term in groups.get(group, frozenset())), NO_HAMMER)
        if any(layer.term in groups.get("wall_tiles", frozenset()) for layer in way.before):
            bit = f"tile bit with hammer off, then {bit}"
        bits.append(bit)
        bases.append(way.base.material)
    return " or ".join(dict.fromkeys(bases)), " or ".join(dict.fromkeys(bits))


def as_text(judgement: Judgement, style: Style) -> str:
    """The whole schedule; ends in a line break."""
    return style.tamed("\n".join(_lines(judgement, style)) + "\n")


def _lines(judgement: Judgement, style: Style) -> Iterator[str]:
    printer = Printer(judgement.site)
    found = entries(judgement)
    yield from apart("HOLES TO DRILL", judgement.site.plan.project.title or "")
    if not found:
        yield "There is no hole to drill."
        return
    unit = "inches" if printer.units.inches else "mm"
    yield from wrapped(
        f"In {unit}, to the middle of each hole, along from the left end of its wall; open: not in the plan. «Clear» "
        "is what the plan says, not what the wall holds: look for cables and pipes again before every hole."
    )
    for outcome in _of_every_hole(judgement)[:1]:  # all of them ask for the same
        missing = outcome.missing[0]
        told = f"{missing.label} are not in the plan, so that no hole is clear. Answer at {missing.pointer.strip('/')}."
        yield from wrapped(printer.text(f"NOT KNOWN of every hole: {told}"))
    wall = None
    for entry in found:
        if entry.hole.wall != wall:
            wall = entry.hole.wall
            yield ""
            heading = apart(f"{wall} wall".upper(), printer.text(_datum(judgement, wall)))
            yield from (style.strong(line) for line in heading)
            yield filled("", NAME + 1) + "".join(at_right(head, COLUMN) for head in HEADS)
        yield from _hole(entry, printer, style)


def _datum(judgement: Judgement, wall: str) -> str:
    """Which floor heights on a wall are counted from: the one that is there when its holes are drilled."""
    room = judgement.site.levels.at(wall)
    if not isinstance(room.laid_before, Known):
        return "up from the bare floor; which floor is there that day is not known"
    laid_first = isinstance(room.laid, Known) and room.laid.value == "before units"
    return f"up from the {'finished' if laid_first else 'bare'} floor, there that day, at its high spot"


def _hole(entry: Entry, printer: Printer, style: Style) -> Iterator[str]:
    figures = dict(entry.figures)
    if not isinstance(figures["up"], Known):
        figures["up"] = figures["from the bare floor"]
    shown = [_shown(figures[name], printer) for name in MEASURED]
    name = entry.hole.subject.name
    line = "".join(at_right(text, max(COLUMN, columns(text) + 2)) for text in shown)
    if columns(name) > NAME or columns(line) > WIDTH - NAME - 1:
        yield from wrapped(name)
        name = ""
    yield (filled(name, NAME + 1) + line).rstrip()
    outcome = entry.outcome if entry.outcome == CLEAR else entry.outcome.upper()
    how = [entry.hole.called, f"into {entry.into}" if entry.into else "", entry.drill, outcome]
    yield from wrapped(", ".join(filter(None, how)), 4)
    near = "; ".join(_beside(each, printer) for each in entry.near)
    if near or not entry.said:
        yield from wrapped(f"near: {near or 'nothing that the plan knows of'}", 6)
    gaps: dict[str, str] = {}
    for said in entry.said:
        told = finding(said, printer)
        if said.result is Result.NOT_KNOWN:
            gaps |= {missing.label: printer.line(printer.place(missing.pointer)) for missing in said.missing}
        elif said.result is Result.AGREED:
            yield from wrapped(f"{printer.text(said.rule.title)}: agreed otherwise", 6)
        elif told is not None:
            yield from wrapped(f"{printer.text(said.rule.title)}: {told.out} {told.short}", 6)
    if gaps:
        yield from wrapped("find out: " + some([f"{gap} ({line})" for gap, line in gaps.items()], 4), 6)


def _beside(near: Near, printer: Printer) -> str:
    """`oven cable 120 away`, `inside the strip of S1 by 56`."""
    if near.what != STRIP:
        name = near.name if fold(near.what) in fold(near.name) else f"{near.name} ({near.what})"
        return f"{name} {printer.value(near.clear, LENGTH)} away"
    if near.clear < 0:
        return f"inside the strip of {near.name} by {printer.value(-near.clear, LENGTH)}"
    return f"strip of {near.name} {printer.value(near.clear, LENGTH)} away"


def _shown(value: Given, printer: Printer) -> str:
    if not isinstance(value, Known):
        gaps = (value,) if isinstance(value, Missing) else value
        there = any(gap.why is Why.UNCLEAR and gap.label == "worktop" for gap in gaps)
        return "-" if there else "open"
    return printer.given(value, "")


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
                "near": [near._asdict() for near in entry.near],
                "rules": {outcome.rule.name: outcome.result.value for outcome in entry.said},
            }
            for entry in entries(judgement)
        ],
        "not known of every hole": [outcome.rule.name for outcome in _of_every_hole(judgement)],
    }


def _ends(value: Given) -> list[float] | None:
    return list(value.ends) if isinstance(value, Known) else None
