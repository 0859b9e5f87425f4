"""The triangle of sink, hob and fridge, walked between the middles of their fronts on the plan of the room."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from validator.measures.appliances.appliance_places import HOBS, of_kinds, place_of
from validator.measures.arithmetic import least, most
from validator.measures.plane.footprints import Footprint, Plane, drawn
from validator.measures.rows import Given, LeftOut, Missing, Row, Rows, Subject, Why, figure, given
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
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
    """One row where sink, hob and fridge stand in runs of one room; of several of a kind the first counts."""
    plan = site.plan
    if plan.appliances.left_out:
        return Rows(left_out=[LeftOut(WorkTriangle.kind, Missing("/appliances", "appliances"))])
    if plan.runs.left_out:
        return Rows()
    corners: list[tuple[str, Standing]] = []
    for kinds in (SINKS, HOBS, COLD):
        places = [place_of(site, name) for name in of_kinds(plan, kinds)]
        corners += [(place.name, place.standing) for place in places if place.standing is not None][:1]
    if len(corners) < 3 or len({id(plan.room_of(thing.wall)) for _, thing in corners}) > 1:
        return Rows()
    (sink, at_sink), (hob, at_hob), (fridge, at_fridge) = corners
    subject = Subject(f"{sink}, {hob} and {fridge}", plan.appliances.pointer)
    row = WorkTriangle(
        subject,
        sink_to_hob=_way(site, at_sink, at_hob, f"from {sink} to {hob}"),
        hob_to_fridge=_way(site, at_hob, at_fridge, f"from {hob} to {fridge}"),
        fridge_to_sink=_way(site, at_fridge, at_sink, f"from {fridge} to {sink}"),
    )
    return Rows([row])


def _way(site: Site, one: Standing, other: Standing, label: str) -> Given:
    """How far the middles of two fronts are apart on the plan of the room."""
    if not isinstance(site.plane, Plane):
        return site.plane
    both = [(thing, site.plane.of.get(thing.item.pointer)) for thing in (one, other)]
    here, there = (footprint for _, footprint in both)
    if here is None or there is None:
        unplaced = next(thing for thing, footprint in both if footprint is None)
        lacking = site.plane.lacking.get(unplaced.run)
        if lacking:
            return lacking
        detail = f"the plan does not say where {unplaced.name} stands in the room"
        return Missing(unplaced.item.pointer, label, Why.UNCLEAR, detail=detail)
    (x, y), (to_x, to_y) = _front(here), _front(there)
    way = math.hypot(to_x - x, to_y - y)
    slack = here.slack + there.slack + here.line.slack_to(there.line)
    found = drawn(way, slack, one.item.pointer, label, here.assumed + there.assumed)
    return found._replace(value=way, low=max(way - slack, 0.0))


def _front(footprint: Footprint) -> tuple[float, float]:
    return footprint.line.at((footprint.left + footprint.right) / 2, footprint.face)
