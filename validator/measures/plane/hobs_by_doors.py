"""Hobs by the doors that swing into their room: how clear of the swing a pan stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import HOBS, kind_of, of_no_kind, standing_of
from validator.measures.plane.clear_to_open import REACH, Found, settled, values_of
from validator.measures.plane.footprints import Footprint, Sum
from validator.measures.plane.shapes import Shape, apart
from validator.measures.rows import NAME, Missing, Row, Rows, Subject, figure, given
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.plane.sweeps import Sweep
    from validator.measures.plane.wall_lines import WallLine
    from validator.measures.site import Site


class HobByDoor(Row, kind="hob by a door of the room"):
    """A hob or a cooker and the nearest door that swings into the room."""

    drawn: float = given(LENGTH, "by the drawing")
    nearest: str = given(NAME, "nearest door")

    @figure(LENGTH, "clear of the door's swing", start="what the door sweeps", end="hob or cooker")
    def clear(self) -> float:
        return self.drawn


def hobs_by_doors(site: Site) -> Rows:
    """A row for each hob and cooker. Without `openings` nobody knows what swings against it."""
    rows = Rows(left_out=list(of_no_kind(site.plan, HobByDoor.kind)))
    for name, appliance in site.plan.appliances.items():
        if kind_of(name, appliance) in HOBS:
            rows.rows.append(_hob(site, name))
    return rows


def _hob(site: Site, name: str) -> Row:
    appliance = site.plan.appliances[name]
    subject = Subject(name, appliance.pointer)
    standing = standing_of(site, name)
    footprint = site.plane.of.get(standing.item.pointer) if standing is not None else None
    if standing is None or footprint is None:
        gap = Missing(appliance.pointer_to("in"), f"unit that {name} sits in")
        lacking = site.plane.lacking.get(standing.run, (gap,)) if standing is not None else gap
        return HobByDoor(subject, drawn=lacking, nearest=lacking)
    subject = standing.subject._replace(name=name, pointer=appliance.pointer)
    room = site.plan.rooms[footprint.line.room]
    if room.openings.left_out:
        gap = Missing(room.pointer_to("openings"), "doors and windows")
        return HobByDoor(subject, drawn=gap, nearest=gap)
    shape = _hob_shape(site, name, footprint)
    doors = [
        _to_door(shape, footprint, door, door.line)
        for door in site.opening.of("room door")
        if door.line is not None and door.line.room == room.name
    ]
    missing = tuple(dict.fromkeys(gap for door in doors for gap in door.missing))
    found = min(doors, key=lambda door: door.value, default=Found(REACH, None))._replace(missing=missing)
    return HobByDoor(subject, **values_of(found, subject, "drawn", "nearest"))


def _hob_shape(site: Site, name: str, footprint: Footprint) -> Shape:
    """The hob in its unit: as wide as the plan says it is, in the middle of the unit."""
    width = Sum().add(reading.read(site.plan.appliances[name], "width", ""))
    if width.missing or width.value > footprint.right - footprint.left:
        return footprint.shape
    spare = (footprint.right - footprint.left - width.value) / 2
    return footprint.line.part(footprint.left + spare, footprint.right - spare, footprint.back, footprint.face)


def _to_door(shape: Shape, footprint: Footprint, door: Sweep, line: WallLine) -> Found:
    if door.missing:
        return Found(0, None, missing=door.missing)
    each = [min((apart(shape, swept) for swept in way.shapes), default=REACH) for way in door.ways]
    slack = footprint.slack + door.slack + line.slack_to(footprint.line)
    assumed = footprint.assumed + door.assumed
    found = [Found(value, door.subject, slack, assumed) for value in each]
    return settled(found, door, ())
