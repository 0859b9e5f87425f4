"""The triangle of sink, hob and fridge, walked between the middles of their fronts on the plan of the room."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from validator.measures.appliances.appliance_places import HOBS, of_kinds, place_of
from validator.measures.arithmetic import least, most
from validator.measures.plane.footprints import Footprint, drawn, two_drawn
from validator.measures.rows import Given, LeftOut, Missing, Row, Rows, Subject, figure, gaps_of, given
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.site import Site

COLD = frozenset({"fridge", "fridge freezer"})
SINKS = frozenset({"sink"})


class WorkTriangle(Row, kind="work triangle"):
    """The ways between sink, hob and fridge, straight on the plan, from the middle of one front to that of another."""

    sink_to_hob: float = given(LENGTH, "from sink to hob")
    hob_to_fridge: float = given(LENGTH, "from hob to fridge")
    fridge_to_sink: float = given(LENGTH, "from fridge to sink")

    @figure(LENGTH, "all three ways", start="middle of one front", end="back there")
    def all_round(self) -> float:
        return self.sink_to_hob + self.hob_to_fridge + self.fridge_to_sink

    @figure(LENGTH, "longest way", start="middle of one front", end="middle of another")
    def longest(self) -> float:
        return most(self.sink_to_hob, self.hob_to_fridge, self.fridge_to_sink)

    @figure(LENGTH, "shortest way", start="middle of one front", end="middle of another")
    def shortest(self) -> float:
        return least(self.sink_to_hob, self.hob_to_fridge, self.fridge_to_sink)


def work_triangles(site: Site) -> Rows:
    """One row where there are sink, hob and fridge in one room; of several of a kind the first that stands in a run.

    One that sits nowhere yet may stand anywhere: the ways to it are not known.
    """
    plan = site.plan
    if plan.appliances.left_out:
        return Rows(left_out=[LeftOut(WorkTriangle.kind, Missing("/appliances", "appliances"))])
    if plan.runs.left_out:
        return Rows()
    corners: list[ApplianceAt] = []
    for kinds in (SINKS, HOBS, COLD):
        places = [place_of(site, name) for name in of_kinds(plan, kinds)]
        corners += sorted(places, key=lambda place: place.standing is None)[:1]
    rooms = {id(plan.room_of(place.standing.wall)) for place in corners if place.standing is not None}
    if len(corners) < 3 or len(rooms) > 1:
        return Rows()
    sink, hob, fridge = corners
    subject = Subject(f"{sink.name}, {hob.name} and {fridge.name}", plan.appliances.pointer)
    row = WorkTriangle(
        subject,
        sink_to_hob=_way(site, sink, hob),
        hob_to_fridge=_way(site, hob, fridge),
        fridge_to_sink=_way(site, fridge, sink),
    )
    return Rows([row])


def _way(site: Site, start: ApplianceAt, end: ApplianceAt) -> Given:
    """How far the middles of two fronts are apart on the plan of the room."""
    one, other, label = start.standing, end.standing, f"from {start.name} to {end.name}"
    if one is None or other is None:
        nowhere = [gap for place in (start, end) if place.standing is None for gap in gaps_of(place.wall)]
        return tuple(nowhere)
    both = two_drawn(site, one, other, label)
    if not isinstance(both, list):
        return both
    here, there = both
    (x, y), (to_x, to_y) = _front(here), _front(there)
    way = math.hypot(to_x - x, to_y - y)
    slack = here.slack + there.slack + here.line.slack_to(there.line)
    found = drawn(way, slack, one.item.pointer, label, here.assumed + there.assumed)
    return found._replace(value=way, low=max(way - slack, 0.0))


def _front(footprint: Footprint) -> tuple[float, float]:
    return footprint.line.at((footprint.left + footprint.right) / 2, footprint.face)
