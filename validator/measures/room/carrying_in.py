"""The way in: what has to pass each narrow place, come in under each head and go round each turn."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.arithmetic import least
from validator.measures.heights.tall_units import standing_tall
from validator.measures.room.round_corners import longest_round, shortest_on_plan
from validator.measures.room.walls import difference, named_gap
from validator.measures.rows import (
    NAME,
    YES_NO,
    Given,
    Known,
    Missing,
    Row,
    Rows,
    Subject,
    Words,
    figure,
    gaps_of,
    given,
)
from validator.measures.worktops.lengths import joint_to_joint
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.openings import Passage

CARRIED = ("upright only", "on its back")
"""How makers let their machines be carried."""


class ThingToCarryIn(Row, kind="thing to carry in"):
    """A machine, a tall unit or a length of worktop that has to come in, by the narrowest place on its way.

    It is carried upright, a worktop on its edge. `passes` is the longest thing as wide as this that comes round the
    tightest turn, `length` how long it is there, tilted as far as the headroom lets it.
    """

    sort: str = given(Words(("machine", "tall unit", "worktop")), "what it is")
    widths: tuple[float, ...] = given(LENGTH, "places on the way in", many=True)
    heads: tuple[float, ...] = given(LENGTH, "headroom on the way in", many=True)
    width: float = given(LENGTH, "wide")
    depth: float = given(LENGTH, "deep")
    high: float = given(LENGTH, "high")
    carried: str = given(Words(CARRIED), "how it may be carried")
    has_turn: bool = given(YES_NO, "whether there is a turn on the way")
    turn: str = given(NAME, "tightest turn")
    passes: float = given(LENGTH, "longest that comes round")
    length: float = given(LENGTH, "long, as it is carried")

    @figure(LENGTH, "to spare", start="narrowest place on the way in", end="narrower side")
    def to_spare(self) -> float:
        return least(self.widths) - least(self.width, self.depth)

    @figure(LENGTH, "to spare under the lowest head", start="lowest head on the way in", end="its top, upright")
    def under_heads(self) -> float:
        return least(self.heads) - self.high

    @figure(LENGTH, "to spare round the tightest turn", start="longest that comes round", end="its length")
    def round_turn(self) -> float:
        return self.passes - self.length


class Thing(NamedTuple):
    """A thing as it is carried: how thick it is across, how deep or tall upright, and how long on the plan."""

    subject: Subject
    sort: str
    width: Given
    depth: Given
    high: Given
    carried: Given


def things_to_carry_in(site: Site) -> Rows:
    """A row for each machine with a body, each tall unit that comes in one piece, and each length of worktop.

    There are none where the plan does not say what lies on the way in.
    """
    passages = list(site.plan.way_in.items())
    if not passages:
        return Rows()
    widths = reading.parts([reading.read(place, "width", name) for name, place in passages])
    heads = reading.parts([_head(name, place) for name, place in passages])
    turns = [(name, place) for name, place in passages if place.turn is not None]
    things = [*_machines(site), *_tall_units(site), *(_lengths(site) if turns else ())]
    return Rows([_row(thing, widths, heads, turns) for thing in things])


def _head(name: str, place: Passage) -> Given:
    return named_gap(reading.read(place, "headroom", name), f"headroom of the {name}")


def _machines(site: Site) -> Iterator[Thing]:
    for name, appliance in site.plan.appliances.items():
        body, pointer = appliance.body, appliance.pointer_to("body")
        if body is not None:
            yield Thing(
                Subject(name, appliance.pointer),
                "machine",
                reading.quantity(body.w, pointer, f"width of the {name}"),
                reading.quantity(body.d, pointer, f"depth of the {name}"),
                reading.quantity(body.h, pointer, f"height of the {name}"),
                reading.word(appliance.carried, appliance.pointer_to("carried"), f"how the {name} may be carried"),
            )


def _tall_units(site: Site) -> Iterator[Thing]:
    for thing in standing_tall(site):
        item, name = thing.item, thing.name
        if item.stood_up in ("put together lying", "put together upright", "in parts"):
            continue
        pointer = item.pointer_to("stood_up")
        how = reading.word(item.stood_up, pointer, f"how {name} is stood up")
        high = named_gap(reading.read(item, "height", name), f"height of {name}")
        yield Thing(
            thing.subject,
            "tall unit",
            named_gap(reading.read(item, "width", name), f"width of {name}"),
            named_gap(reading.read(item, "depth", name), f"depth of {name}"),
            high if isinstance(how, Known) else how,
            reading.exactly("on its back", pointer, "how it may be carried"),
        )


def _lengths(site: Site) -> Iterator[Thing]:
    for pieces in site.worktop_pieces.values():
        for piece in pieces:
            for subject, start, end in joint_to_joint(site, piece):
                length = difference(end, start, subject, f"length of {subject.name}")
                edge = reading.exactly("on its back", piece.top.pointer, "how it may be carried")
                yield Thing(subject, "worktop", piece.thickness, length, piece.depth, edge)


def _row(thing: Thing, widths: Given, heads: Given, turns: list[tuple[str, Passage]]) -> Row:
    pointer = thing.subject.pointer
    passes, length, turn = _round(thing, turns)
    return ThingToCarryIn(
        thing.subject,
        sort=reading.exactly(thing.sort, pointer, "what it is"),
        widths=widths,
        heads=heads,
        width=thing.width,
        depth=thing.depth,
        high=thing.high,
        carried=thing.carried,
        has_turn=reading.exactly(bool(turns), pointer, "whether there is a turn on the way"),
        turn=turn,
        passes=passes,
        length=length,
    )


def _round(thing: Thing, turns: list[tuple[str, Passage]]) -> tuple[Given, Given, Given]:
    """The longest that comes round the turn with least to spare, how long the thing is there, and which turn it is."""
    missing = gaps_of(thing.width, thing.depth)
    best: tuple[float, float, float, str, str] | None = None
    for name, place in turns:
        size, at = place.turn, place.pointer_to("turn")
        ways = [reading.quantity(way, at, f"turn of the {name}") for way in (size.w, size.h)] if size else []
        gaps = gaps_of(*ways)
        if missing or gaps:
            missing += gaps
            continue
        across, long = sorted((_high(thing.width), _high(thing.depth)))
        one, other = (float(way.low or 0) for way in ways if isinstance(way, Known))
        passes = longest_round(one, other, across)
        if thing.sort == "worktop" and passes < long:
            deep, head = thing.high, _head(name, place)
            if gaps_of(deep, head):
                missing += gaps_of(deep, head)
                continue
            if isinstance(head, Known) and isinstance(deep, Known):
                long = shortest_on_plan(long, _high(deep), float(head.low or 0))
        if best is None or passes - long < best[0]:
            best = passes - long, passes, long, name, at
    if missing or best is None:
        gaps = tuple(dict.fromkeys(missing)) or (Missing(thing.subject.pointer, "turn on the way in"),)
        return gaps, gaps, gaps
    _, passes, long, name, at = best
    return (
        reading.exactly(passes, at, f"comes round the {name}"),
        reading.exactly(long, thing.subject.pointer, f"length of {thing.subject.name} there"),
        reading.exactly(name, at, "tightest turn"),
    )


def _high(value: Given) -> float:
    return float(value.high or 0.0) if isinstance(value, Known) else 0.0
