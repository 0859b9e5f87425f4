"""Fridges and ovens that stand beside the worktop, and the worktop on which one sets down what goes in or comes out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import kind_of, of_kinds, place_of
from validator.measures.appliances.landings import ends_at, left_out
from validator.measures.arithmetic import most
from validator.measures.plane.room_to_move import Aisle
from validator.measures.room.walls import called_wall, difference
from validator.measures.rows import YES_NO, Given, Missing, Row, Rows, Subject, Words, figure, given
from validator.measures.tracing import derived
from validator.measures.worktops.tops import LEFT, RIGHT, SIDES
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site

SORTS = {"fridge": "fridge", "fridge freezer": "fridge", "freezer": "fridge", "oven": "oven", "microwave": "oven"}


class PlaceToSetDown(Row, kind="place to set down"):
    """A fridge or an oven that stands beside the worktop, with the worktop next to it and what lies across the aisle.

    `beside` is the worktop at the side of its handle, where the plan says at which side its door is hinged, else that
    at either side. A machine under the worktop has it right above and makes no row.
    """

    sort: str = given(Words(("fridge", "oven")), "what it is")
    beside: tuple[float, ...] = given(LENGTH, "worktop beside it", many=True)
    faced: bool = given(YES_NO, "whether worktop lies across the aisle")
    across: float = given(LENGTH, "aisle before it")

    @figure(LENGTH, "worktop beside it", start="its side", end="end of the worktop")
    def landing(self) -> float:
        return most(self.beside)


def places_to_set_down(site: Site) -> Rows:
    """A row for each fridge, freezer, oven and microwave that stands beside the worktop."""
    rows = left_out(site, PlaceToSetDown.kind, frozenset(SORTS))
    if site.plan.runs.left_out:
        return rows
    before = _before_runs(site)
    for name in of_kinds(site.plan, frozenset(SORTS)):
        place = place_of(site, name)
        thing = place.standing
        if thing is not None and site.tops.stands(thing) and site.tops.tall(thing) is not False:
            rows.rows.append(_row(site, place, thing, before.get(fold(thing.run))))
    return rows


def _row(site: Site, place: ApplianceAt, thing: Standing, aisle: Row | None) -> Row:
    name, appliance = place.name, place.appliance
    subject = Subject(name, appliance.pointer, called_wall(site.plan, place.on), place.on, thing.subject.along)
    hinged = appliance.door if appliance.door in SIDES else thing.item.hand
    sides = {LEFT: (RIGHT,), RIGHT: (LEFT,)}.get(str(hinged), SIDES)
    faced, across = _across(site, thing.run, aisle)
    return PlaceToSetDown(
        subject,
        sort=reading.exactly(SORTS[kind_of(name, appliance)], appliance.pointer, "what it is"),
        beside=reading.parts([_beside(site, thing, side, subject) for side in sides]),
        faced=faced,
        across=across,
    )


def _beside(site: Site, thing: Standing, side: str, subject: Subject) -> Given:
    """The worktop at one side; none where another tall thing stands there."""
    end = site.tops.end_beside(thing, side)
    edge = thing.left if side == LEFT else thing.right
    further, nearer = ends_at(end.place, edge, side)
    return difference(further, nearer, subject, f"worktop to the {side}")


def _across(site: Site, run: str, aisle: Row | None) -> tuple[Given, Given]:
    """Whether another run lies across the aisle before that of a thing, and how wide the aisle is."""
    label = "whether worktop lies across the aisle"
    to = aisle.known.get("to") if aisle is not None else None
    if aisle is not None and to is None:
        gap = aisle.why_not_known("to")
        return gap, gap
    pointer = site.plan.runs[run].pointer
    if aisle is None or to is None or str(to.value) not in site.plan.runs:
        return reading.exactly(False, pointer, label), Missing(pointer, "aisle")
    return reading.exactly(True, pointer, label), derived(aisle, "width", "aisle")


def _before_runs(site: Site) -> dict[str, Row]:
    """The aisle before each run, by its folded name; where that is not known, the one of an island that faces it."""
    fronts = [row for row in site.rows(Aisle.kind).rows if row.known["side"].value == "front"]
    found = {fold(row.subject.name): row for row in fronts}
    for row in fronts:
        to = row.known.get("to")
        if to is not None and fold(str(to.value)) in found and "to" not in found[fold(str(to.value))].known:
            found[fold(str(to.value))] = row
    return found
