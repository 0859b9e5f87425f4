"""What is not known of a plan, as a list to take round the room: by wall in walking order, by who can say, by paper."""

from __future__ import annotations

import functools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome
from validator.measures.appliances.appliance_places import place_of
from validator.measures.rows import Known, Missing
from validator.measures.site import Site
from validator.plan.names import fold
from validator.plan.pointers import as_key, split
from validator.reference.measuring import Way, Ways, our_words
from validator.reporting.columns import columns, filled, one_line
from validator.reporting.findings import asked
from validator.reporting.lines import INDENT, WIDTH, apart, counted, day, sentence, wrapped
from validator.reporting.points import of_each, put_together, question_of, section_left_out, where_to_answer
from validator.reporting.printing import Printer
from validator.reporting.style import Style

FORM = 1
BLANK, BLANK_OF_SEVERAL, GAP = "_" * 24, "_" * 10, "  "
ROOM = "Floor, ceiling and the rest of the room"
PAPERS = "In lists, leaflets and boxes, on rating plates and parts"
CHOICES = "To choose"


@dataclass(frozen=True, slots=True)
class Asked:
    """One value to find out: the number it has in the report (None for what is only assumed there), what it is, how it
    is found, the pointer where the answer is written, and how many readings to take.
    """

    number: int | None
    what: str
    how: str
    at: str
    readings: int
    stops: bool


@dataclass(frozen=True, slots=True)
class Part:
    """What is found out in one place or from one person; `wall` is its wall, `ask` the person."""

    heading: str
    entries: tuple[Asked, ...]
    wall: str = ""
    ask: str = ""


@dataclass(slots=True)
class _Open:
    """A value to find out, with everything that misses it."""

    number: int | None
    stops: bool
    missing: list[Missing] = field(default_factory=list)
    outcomes: list[Outcome] = field(default_factory=list)


def to_measure(judgement: Judgement, ways: Ways) -> list[Part]:
    """The whole list, in the order in which it is walked; empty where nothing is left to find out."""
    site, printer = judgement.site, Printer(judgement.site)
    found: dict[tuple[int, int | str], list[tuple[tuple[float, ...], Asked]]] = {}
    walls = list(site.plan.walls)
    people: list[str] = []
    things: list[str] = []
    for order, (at, value) in enumerate(_open_values(judgement)):
        way = _way(site, at, ways)
        who = next((missing.by for missing in value.missing if missing.by), None) or way.ask
        wall, along = _on_wall(site, at, value.outcomes) if way.at == "wall" else ("", None)
        row = _number_in_list(at)
        key: tuple[int, int | str]
        if who:
            key = (2, _place_in(people, who))
        elif wall:
            key = (0, walls.index(wall))
        else:
            key = ({"papers": 3, "choice": 4}.get(way.at or "", 1), 0)
        place = (0.0, along, row, order) if along is not None else (1.0, _place_in(things, _thing(at)), row, order)
        found.setdefault(key, []).append((place, _asked(at, value, way, site.library.questions, printer)))
    parts = []
    for (kind, which), entries in sorted(found.items()):
        wall = walls[int(which)] if kind == 0 else ""
        who = people[int(which)] if kind == 2 else ""
        ordered = tuple(entry for _, entry in sorted(entries, key=lambda found: found[0]))
        heading = (f"{_wall_called(wall)}, from left to right", ROOM, f"Ask: {who}", PAPERS, CHOICES)[kind]
        parts.append(Part(heading, ordered, wall, who))
    return parts


def as_lines(judgement: Judgement, parts: Sequence[Part], on: date, style: Style) -> str:
    """The list as text for A4 at 80 columns, with a box to tick and room to write; ends in a line break."""
    return style.tamed("\n".join(_lines(judgement, parts, on, style)) + "\n")


def as_data(judgement: Judgement, parts: Sequence[Part], on: date) -> dict[str, Any]:
    """The list as plain data."""
    printer = Printer(judgement.site)
    plan = judgement.site.plan
    return {
        "dryfit measure": FORM,
        "on": on.isoformat(),
        "plan": {"title": plan.project.title, "files": list(plan.files), "digest": plan.digest},
        "to find out": [
            {
                "number": entry.number,
                "what": entry.what,
                "how": entry.how,
                "key": as_key(entry.at),
                "at": entry.at,
                "file": printer.place(entry.at).file,
                "line": printer.place(entry.at).line,
                "readings": entry.readings,
                "stop": entry.stops,
                "part": part.heading,
                **({"wall": part.wall} if part.wall else {}),
                **({"ask": part.ask} if part.ask else {}),
            }
            for part in parts
            for entry in part.entries
        ],
    }


def _open_values(judgement: Judgement) -> list[tuple[str, _Open]]:
    """Every value to find out with the pointer of its answer: the errands of the report, then what it only supposes."""
    plan = judgement.site.plan
    open_at, asked_at = functools.cache(plan.places.open_at), functools.cache(plan.places.asked_at)

    def key_of(at: str, missing: Missing) -> tuple[str, str]:
        return at, question_of(missing, plan, open_at(missing.pointer), asked_at(missing.pointer))

    found: dict[tuple[str, str], _Open] = {}
    first: dict[str, tuple[str, str]] = {}
    for errand in put_together(judgement).errands:
        key = key_of(errand.at, errand.missing)
        found[key] = _Open(errand.number, errand.stops)
        first.setdefault(errand.at, key)
    for outcome in judgement.outcomes:
        for missing in (*outcome.missing, *outcome.supposing):
            at = where_to_answer(missing, judgement)
            key = key_of(at, missing)
            if key not in found:
                key = first.setdefault(at, key)
            value = found.setdefault(key, _Open(None, False))
            value.missing.append(missing)
            value.outcomes.append(outcome)
    return [(at, value) for (at, _), value in found.items()]


def _asked(at: str, value: _Open, way: Way, questions: Mapping[str, str], printer: Printer) -> Asked:
    missing = value.missing[0]
    how = asked(missing, way.how, questions, printer)
    return Asked(value.number, _what(at, value.missing, printer), how, at, way.readings, value.stops)


def _what(at: str, missing: Sequence[Missing], printer: Printer) -> str:
    """What a value is: by the plan's own names where one answer is for several things."""
    segments, section = _in_its_room(at), our_words(at)[0]
    label = printer.text(missing[0].label)
    if section_left_out(missing[0], printer.plan) or len(segments) == 1:
        return label
    name, last = segments[1], segments[-1]
    if section == "kinds":
        return of_each(segments)
    if section == "layers":
        return f"layers of {name}"
    if len({gap.label for gap in missing}) > 1 and not last.isdecimal():
        return f"{last} of {segments[-2]}"
    if not printer.may_be_none(section) or (fold(name) in fold(label) and fold(name) != fold(label)):
        return label
    return f"{name}: {last if fold(name) == fold(label) else label}"


def _on_wall(site: Site, at: str, outcomes: Sequence[Outcome]) -> tuple[str, float | None]:
    """The wall on which a value is measured, '' for none, and how far along from its left, as far as is known."""
    plan = site.plan
    section, names = our_words(at)[0], _in_its_room(at)[1:]
    match section:
        case "walls" if names and _wall_at(at) in plan.walls:
            return plan.walls.written(_wall_at(at)), -1.0
        case "layers" if names:
            return next(iter(_walls_of(site, names[0])), ""), -1.0
        case "appliances" if names and names[0] in plan.appliances:
            place = place_of(site, plan.appliances.written(names[0]))
            middle = place.middle.low if isinstance(place.middle, Known) else None
            if place.on in plan.walls:
                return plan.walls.written(place.on), middle
    for outcome in outcomes:
        subject = outcome.subject
        if subject.wall in plan.walls:
            return plan.walls.written(subject.wall), sum(subject.along) / 2 if subject.along is not None else None
    return "", None


def _in_its_room(at: str) -> list[str]:
    """The segments of a pointer; of what is written of a room under `rooms`, those behind its name."""
    segments = split(at)
    return segments[2:] if fold(segments[0]) == "rooms" and len(segments) > 2 else segments


def _wall_at(at: str) -> str:
    """The wall a pointer is in, with its room where that has a name: `utility / north`."""
    segments = split(at)
    return f"{segments[1]} / {segments[3]}" if fold(segments[0]) == "rooms" else segments[1]


def _way(site: Site, at: str, ways: Ways) -> Way:
    """How a value is found out; the layers of what is no wall are those of the floor."""
    segments = split(at)
    if our_words(at)[0] == "layers" and len(segments) > 1 and not _walls_of(site, segments[1]):
        return ways.of("/floor/made of")
    return ways.of(at)


def _walls_of(site: Site, layers: str) -> list[str]:
    """The walls that are made of some layers."""
    return [wall for wall, what in site.plan.walls.items() if fold(str(what.made_of)) == fold(layers)]


def _wall_called(wall: str) -> str:
    return wall if "wall" in fold(wall).split() else f"{wall} wall"


def _number_in_list(at: str) -> int:
    last = split(at)[-1]
    return int(last) if last.isdecimal() else 0


def _place_in(names: list[str], name: str) -> int:
    """The place of a name in a list that takes it in where it is new."""
    for place, known in enumerate(names):
        if fold(known) == fold(name):
            return place
    names.append(name)
    return len(names) - 1


def _thing(at: str) -> str:
    """The thing a value belongs to: what stands in two sections under one name is one thing."""
    return "/".join(split(at)[1:2])


def _lines(judgement: Judgement, parts: Sequence[Part], on: date, style: Style) -> Iterator[str]:
    plan = judgement.site.plan
    count = sum(len(part.entries) for part in parts)
    stops = sum(entry.stops for part in parts for entry in part.entries)
    yield from apart("TO FIND OUT", plan.project.title or "")
    yield from apart(day(on), f"plan {plan.digest[:9]}")
    yield "_" * WIDTH
    yield ""
    if not parts:
        yield "Nothing is left to find out."
        return
    grave = f", and a STOP hangs on {stops} of them" if stops else ""
    yield from wrapped(
        sentence(counted(count, "thing is", "things are") + " not known" + grave)
        + " The numbers are those of the report. The last line of each says where in the plan the answer is written."
    )
    for part in parts:
        yield ""
        yield from (style.strong(line) for line in wrapped(part.heading[:1].upper() + part.heading[1:]))
        for entry in part.entries:
            yield ""
            yield from _entry(entry)


def _entry(entry: Asked) -> Iterator[str]:
    number = "" if entry.number is None else str(entry.number)
    first, *others = list(wrapped(("STOP  " if entry.stops else "") + one_line(entry.what), INDENT))
    yield f"{number:>2} [ ] {first.strip()}"
    yield from others
    yield from wrapped(entry.how, INDENT)
    blank = GAP.join([BLANK_OF_SEVERAL] * entry.readings) if entry.readings > 1 else BLANK
    key = list(wrapped(as_key(entry.at), INDENT))
    yield from key[:-1]
    if columns(key[-1]) + len(GAP) + len(blank) > WIDTH:
        yield key[-1]
        yield " " * (WIDTH - len(blank)) + blank
    else:
        yield filled(key[-1], WIDTH - len(blank)) + blank
