"""What a trade is asked to tell: what nobody knows yet, each with the key under which its answer goes into the plan."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from validator.judging.apply import Judgement
from validator.measures.worktops.quantities import quantities
from validator.plan.american import KEYS
from validator.plan.elements import Element, Section
from validator.plan.names import fold
from validator.plan.plan import Plan
from validator.plan.pointers import as_key, join, split
from validator.plan.values import ToFind
from validator.reference.jobsheets import Trade
from validator.reference.measuring import our_words
from validator.reporting.measuring_list import to_measure
from validator.reporting.points import put_together
from validator.reporting.printing import Printer
from validator.reporting.quantities_text import how_found

ANY = "*"
_THEIRS = {ours: theirs for theirs, ours in KEYS.items()}


class Question(NamedTuple):
    """What is not known, how it is found, the key of its answer, its number in the report, whether a *stop* hangs on
    it, and who else can say.
    """

    what: str
    how: str
    key: str
    number: int | None = None
    stops: bool = False
    who: str = ""


def questions(judgement: Judgement, trade: Trade, printer: Printer) -> list[Question]:
    """What this trade can say: what is asked of it, what stands in its part of the plan, and what its work tells.

    What keeps it from starting is among them, whoever can say it.
    """
    in_the_way = {
        errand.number
        for errand in put_together(judgement).errands
        if errand.stops and any(trade.concerns(outcome.rule.each) for outcome in errand.outcomes)
    }
    ways = judgement.site.ways
    found: dict[str, Question] = {}
    for part in to_measure(judgement, ways) if ways is not None else ():
        is_asked = fold(part.ask) in {fold(word) for word in (*trade.called, trade.name)}
        for entry in part.entries:
            if is_asked or entry.number in in_the_way or any(_within(entry.at, place) for place in trade.asks):
                key = as_key(entry.at)
                who = "" if is_asked else part.ask
                found[_folded(key)] = Question(entry.what, entry.how, key, entry.number, entry.stops, who)
    for gap in quantities(judgement.site).open if any(schedule.pieces for schedule in trade.schedules) else ():
        key = " / ".join(_spelt(gap.pointer, judgement.site.plan))
        if fold(split(gap.pointer)[0]) == "worktops" and _folded(key) not in found:
            found[_folded(key)] = Question(printer.text(gap.label), how_found(gap, judgement.site, printer), key)
    for want in trade.wants:
        for pointer in open_places(judgement.site.plan, want.at):
            key = " / ".join(_spelt(pointer, judgement.site.plan))
            if _folded(key) not in found:
                found[_folded(key)] = Question(printer.text(want.says), "", key)
    return list(found.values())


def open_places(plan: Plan, pattern: str) -> Iterator[str]:
    """The pointers of the values at a place (`circuits / * / length`) that the plan leaves out or has to find out.

    Nothing where what the value belongs to is not in the plan at all, unless that is a single thing such as the survey.
    """
    yield from _open(plan, tuple(fold(segment) for segment in pattern.split(" / ")), "")


def _open(node: object, wanted: tuple[str, ...], pointer: str) -> Iterator[str]:
    if not wanted:
        if node is None or isinstance(node, ToFind) or (isinstance(node, Section) and node.left_out):
            yield pointer
        return
    name, *below = wanted
    if isinstance(node, Mapping):
        for each in node if name == ANY else [name] if name in node else []:
            yield from _open(node[each], tuple(below), join(pointer, each))
    elif isinstance(node, Plan | Element):
        field = name.replace(" ", "_")
        value = getattr(node, field, getattr(node, f"{field}_", None))
        if field in ("corners", "ceiling", "floor", "floors") and isinstance(node, Plan):
            value = getattr(next(iter(node.rooms.values())), field, None)
        yield from _open(value, tuple(below), join(pointer, name))
    elif node is None:
        yield join(pointer, *wanted)


def value_at(plan: Plan, pattern: str) -> object:
    """The value at a place without `*`; None where there is none."""
    node: object = plan
    for segment in pattern.split(" / "):
        field = fold(segment).replace(" ", "_")
        node = getattr(node, field, getattr(node, f"{field}_", None))
    return node


def key_of(plan: Plan, pattern: str) -> str:
    """A place as the plan would write it, in American words in an American plan."""
    return " / ".join(_spelt(join("", *pattern.split(" / ")), plan))


def _spelt(pointer: str, plan: Plan) -> list[str]:
    american = (plan.project.country or "").startswith("US")
    written = split(plan.places.written(pointer))
    return [_THEIRS.get(fold(segment), segment) if american else segment for segment in written]


def _within(at: str, place: str) -> bool:
    wanted, segments = [fold(part) for part in place.split(" / ")], our_words(at)
    pairs = zip(wanted, segments, strict=False)
    return len(wanted) <= len(segments) and all(part in (ANY, segment) for part, segment in pairs)


def _folded(key: str) -> str:
    return " / ".join(KEYS.get(fold(part), fold(part)) for part in key.split(" / "))
