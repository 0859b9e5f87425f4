"""What hung units carry: their own weight, and what is stored on their bottoms and shelves."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.looking_up import looked_up
from validator.measures.rows import YES_NO, LeftOut, Missing, Row, Rows, figure, given
from validator.plan.dimensions import AREA, AREA_LOAD, LENGTH, LINE_LOAD, MASS, NUMBER

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site

HANGERS = 2
"""A wall unit hangs by one hanger at each side."""


class HungUnitLoad(Row, kind="load of a hung unit"):
    """A hung unit, what furniture of its class may be loaded with, and what its fixings are reckoned for."""

    width: float = given(LENGTH, "width")
    sides: float = given(LENGTH, "side")
    depth: float = given(LENGTH, "depth")
    shelves: float = given(NUMBER, "shelves")
    class_load: float = given(AREA_LOAD, "load of its class")
    says_load: bool = given(YES_NO, "whether the plan says for what load it is fixed")
    load: float = given(LINE_LOAD, "load reckoned with")
    weight: float = given(LINE_LOAD, "weight of the unit")

    @figure(AREA, "storage surface", start="bottom", end="uppermost shelf")
    def surface(self) -> float:
        return (self.shelves + 1) * ((self.width - 2 * self.sides) * self.depth)

    @figure(MASS, "what may be stored in it")
    def stored(self) -> float:
        return self.surface * self.class_load

    @figure(MASS, "stored load reckoned with")
    def reckoned(self) -> float:
        return self.load * self.width

    @figure(MASS, "empty weight")
    def empty(self) -> float:
        return self.weight * self.width

    @figure(MASS, "full weight")
    def full(self) -> float:
        return self.stored + self.weight * self.width

    @figure(MASS, "on each hanger")
    def on_a_hanger(self) -> float:
        return self.full / HANGERS


def hung_unit_loads(site: Site) -> Rows:
    """A row for each hung unit."""
    if site.plan.runs.left_out:
        return Rows(left_out=[LeftOut(HungUnitLoad.kind, Missing("/runs", "runs of units"))])
    units = (thing for thing in site.setting_out.things() if thing.item.family == "unit")
    return Rows([_load(site, thing) for thing in units if site.levels.is_hung(thing)])


def _load(site: Site, thing: Standing) -> Row:
    item = thing.item
    side, surface = "side of a cabinet", "shelf or bottom"
    usual = looked_up(site, "usual-sizes", "size", {"thing": side}, item.pointer, side)
    return HungUnitLoad(
        thing.subject,
        width=reading.read(item, "width", thing.name),
        sides=usual if item.sides is None else reading.read(item, "sides", side),
        depth=reading.read(item, "depth", f"depth of {thing.name}"),
        shelves=reading.read(item, "shelves", f"shelves of {thing.name}"),
        class_load=looked_up(site, "storage-load", "load", {"surface": surface}, item.pointer, "load of its class"),
        says_load=reading.exactly(item.load is not None, item.pointer_to("load"), "whether its load is given"),
        load=reading.read(item, "load", f"load of {thing.name}"),
        weight=reading.read(item, "weight", f"weight of {thing.name}"),
    )
