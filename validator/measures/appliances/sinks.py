"""Sinks: the worktop to each side of them, and the dishwasher within reach."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import of_kinds, place_of, width_of
from validator.measures.appliances.landings import ends_at, left_out
from validator.measures.arithmetic import least, most
from validator.measures.plane.footprints import drawn, two_drawn
from validator.measures.plane.shapes import apart
from validator.measures.room.walls import called_wall, difference, half_of
from validator.measures.rows import NAME, Given, Known, Missing, Row, Rows, Subject, Why, figure, gaps_of, given
from validator.measures.worktops.tops import SIDES, cut_of
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.measures.worktops.tops import Cut

SINKS = frozenset({"sink"})
DISHWASHERS = frozenset({"dishwasher"})


class WorktopBesideSink(Row, kind="worktop beside a sink"):
    """A sink with the worktop to its left and to its right, from the edges of its cut-out."""

    left: float = given(LENGTH, "worktop to the left")
    right: float = given(LENGTH, "worktop to the right")

    @figure(LENGTH, "worktop on the narrower side", start="edge of the sink", end="end of the worktop")
    def lesser(self) -> float:
        return least(self.left, self.right)

    @figure(LENGTH, "worktop on the wider side", start="edge of the sink", end="end of the worktop")
    def greater(self) -> float:
        return most(self.left, self.right)


class DishwasherBySink(Row, kind="dishwasher by a sink"):
    """A dishwasher and the nearest sink, along the same wall, or on the plan of the room where none is there.

    On the plan the fronts count, of the sink that part of its unit's front which its cut-out takes. Less than 0 where
    one is over the other.
    """

    sink: str = given(NAME, "nearest sink")
    further: float = given(LENGTH, "further side of what lies between them")
    nearer: float = given(LENGTH, "nearer side of what lies between them")

    @figure(LENGTH, "from the sink", start="edge of the sink", end="side of the dishwasher")
    def away(self) -> float:
        return self.further - self.nearer


def worktops_beside_sinks(site: Site) -> Rows:
    """A row for each sink."""
    rows = left_out(site, WorktopBesideSink.kind, SINKS)
    for place in _places(site, SINKS):
        left, right = (worktop_beside(site, place, side) for side in SIDES)
        rows.rows.append(WorktopBesideSink(_subject(site, place), left=left, right=right))
    return rows


def worktop_beside(site: Site, place: ApplianceAt, side: str) -> Given:
    """How much worktop lies to one side of a sink."""
    thing, name = place.standing, place.name
    if thing is None:
        return place.wall
    if not site.tops.stands(thing):
        detail = f"{thing.name}, where it is, does not stand in a run"
        return Missing(place.appliance.pointer_to("in"), f"worktop at {name}", Why.UNCLEAR, detail=detail)
    cut = cut_of(place, "sink")
    end = site.tops.end_beside(thing, side, cut)
    further, nearer = ends_at(end.place, cut.edge(side), side)
    return difference(further, nearer, Subject(name, place.appliance.pointer), f"worktop to the {side}")


def dishwashers_by_sinks(site: Site) -> Rows:
    """A row for each dishwasher of a plan with a sink."""
    rows = left_out(site, DishwasherBySink.kind, DISHWASHERS)
    sinks = _places(site, SINKS)
    if sinks:
        rows.rows += [_by_a_sink(site, place, sinks) for place in _places(site, DISHWASHERS)]
    return rows


def _by_a_sink(site: Site, place: ApplianceAt, sinks: list[ApplianceAt]) -> Row:
    subject, thing = _subject(site, place), place.standing
    if thing is None:
        return DishwasherBySink(subject, sink=place.wall, further=place.wall, nearer=place.wall)
    near = [cut_of(sink, "sink") for sink in sinks if fold(sink.on) == fold(place.on)]
    if near:
        cut = min(near, key=lambda cut: _away(thing, cut))
        further, nearer = _between(thing, cut)
        return DishwasherBySink(
            subject, sink=reading.exactly(cut.name, cut.pointer, "nearest sink"), further=further, nearer=nearer
        )
    ways = [(_on_the_plan(site, thing, sink), sink) for sink in sinks]
    way, sink = min(ways, key=lambda entry: _shortest(entry[0]))
    return DishwasherBySink(
        subject,
        sink=reading.exactly(sink.name, sink.appliance.pointer, "nearest sink"),
        further=way,
        nearer=reading.exactly(0, place.appliance.pointer, "side of the dishwasher"),
    )


def _places(site: Site, kinds: frozenset[str]) -> list[ApplianceAt]:
    return [] if site.plan.runs.left_out else [place_of(site, name) for name in of_kinds(site.plan, kinds)]


def _subject(site: Site, place: ApplianceAt) -> Subject:
    thing = place.standing
    along = thing.subject.along if thing is not None else None
    return Subject(place.name, place.appliance.pointer, called_wall(site.plan, place.on), place.on, along)


def _between(thing: Standing, cut: Cut) -> tuple[Given, Given]:
    """The places between which a machine and a sink stand apart."""
    to_right = (
        isinstance(thing.middle, Known) and isinstance(cut.middle, Known) and thing.middle.value > cut.middle.value
    )
    return (thing.left, cut.right) if to_right else (cut.left, thing.right)


def _on_the_plan(site: Site, thing: Standing, sink: ApplianceAt) -> Given:
    """How far the front of a machine is from that part of a unit's front behind which a sink lies."""
    at = sink.standing
    if at is None:
        return sink.wall
    label = f"from {sink.name} to {thing.name} on the plan"
    both = two_drawn(site, thing, at, label)
    if not isinstance(both, list):
        return both
    here, there = both
    half = half_of(width_of(sink), Subject(sink.name, sink.appliance.pointer), f"half of {sink.name}")
    middle = difference(sink.middle, at.left, Subject(sink.name, sink.appliance.pointer), f"middle of {sink.name}")
    if not isinstance(half, Known) or not isinstance(middle, Known):
        return (*gaps_of(half), *gaps_of(middle))
    ends = [there.place_from_left(float(middle.value) + side * float(half.value)) for side in (-1, 1)]
    front = there.line.part(min(ends), max(ends), there.face, there.face)
    way = apart(here.line.part(here.left, here.right, here.face, here.face), front)
    spread = sum(float(each.high or 0) - float(each.low or 0) for each in (half, middle))
    slack = here.slack + there.slack + here.line.slack_to(there.line) + spread
    assumed = tuple(each for each in (half, middle) if each.rests_on_assumption)
    found = drawn(way, slack, thing.item.pointer, label, here.assumed + there.assumed + assumed)
    return found._replace(value=way, low=max(way - slack, 0.0))


def _shortest(way: Given) -> float:
    """How short a way may be; one that is not known may be the shortest."""
    return float(way.low or 0.0) if isinstance(way, Known) else -1.0


def _away(thing: Standing, cut: Cut) -> float:
    """How far a sink is; one of unknown place may be the nearest."""
    further, nearer = _between(thing, cut)
    if not isinstance(further, Known) or not isinstance(nearer, Known):
        return 0.0
    return float(further.value) - float(nearer.value)
