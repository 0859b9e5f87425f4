"""What keeps standing things where they are: units on a wall, islands on the floor, cookers when leaned on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import of_kinds, of_no_kind
from validator.measures.arithmetic import total
from validator.measures.fixings.fixings import held_by, is_appliance
from validator.measures.heights.heights import COOKERS
from validator.measures.rows import (
    TERM,
    YES_NO,
    Given,
    Known,
    LeftOut,
    Missing,
    Row,
    Rows,
    Subject,
    Words,
    figure,
    given,
)
from validator.measures.runs.touching import touching
from validator.plan.dimensions import LENGTH, NUMBER

if TYPE_CHECKING:
    from validator.measures.heights.room_levels import RoomLevels
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.rooms import Room
    from validator.plan.sections.furniture import Run
    from validator.plan.sections.work import Fixing


class StandingUnit(Row, kind="standing unit"):
    """A unit that stands against a wall, and the fixings that hold its top to it."""

    height: float = given(LENGTH, "unit")
    depth: float = given(LENGTH, "depth")
    each: tuple[float, ...] = given(NUMBER, "fixings", many=True)

    @figure(NUMBER, "fixings at its top")
    def at_top(self) -> float:
        return total(self.each)


class UnitsSideBySide(Row, kind="units side by side"):
    """The units of a run that touch, and how many connectors pull each pair together."""

    connectors: float = given(NUMBER, "connectors for each pair")


class Island(Row, kind="island"):
    """An island, what holds it to the floor, and the floor that is there when it is set."""

    held_with: str = given(TERM, "what holds it to the floor")
    held_on: str = given(TERM, "what that is screwed to")
    covering: str = given(TERM, "floor to be laid")
    laid: str = given(Words(("before units", "after units", "never")), "when the floor is laid")
    heated: bool = given(YES_NO, "whether the floor is heated")
    traced: bool = given(YES_NO, "whether what runs in the floor was traced")


class FreestandingCooker(Row, kind="free-standing cooker"):
    """A cooker on the floor: somebody who leans or climbs on its open door tips it."""

    anti_tip: str = given(TERM, "what keeps it from tipping")


def standing_units(site: Site) -> Rows:
    """A row for each unit that stands against a wall."""
    plan = site.plan
    if plan.runs.left_out:
        return Rows(left_out=[LeftOut(StandingUnit.kind, Missing("/runs", "runs of units"))])
    holding: dict[int, list[Fixing]] = {}
    for fixing in plan.fixings.values():
        for wanted in fixing.for_:
            for item, *_ in () if is_appliance(plan, wanted) else held_by(plan, wanted):
                holding.setdefault(id(item), []).append(fixing)
    things = (thing for thing in site.setting_out.things() if thing.item.family == "unit")
    standing = (thing for thing in things if not site.levels.is_hung(thing) and plan.runs[thing.run].faces is None)
    return Rows([_standing(site, thing, holding.get(id(thing.item), [])) for thing in standing])


def _standing(site: Site, thing: Standing, fixings: list[Fixing]) -> Row:
    none_named = Missing(site.plan.fixings.pointer, f"what holds the top of {thing.name} to the wall")
    each: Given = reading.parts([_at_top(fixing) for fixing in fixings])
    if not fixings:
        each = Known((), site.plan.fixings.pointer) if site.plan.fixings.none else none_named
    return StandingUnit(
        thing.subject,
        height=reading.read(thing.item, "height", f"height of {thing.name}"),
        depth=reading.read(thing.item, "depth", f"depth of {thing.name}"),
        each=each,
    )


def _at_top(fixing: Fixing) -> Given:
    """How many of a fixing hold the top of each thing it is for; a hanger holds at the top as well."""
    if fixing.at is None:
        return Missing(fixing.pointer_to("at"), "where on the unit the fixings sit")
    return reading.read(fixing, "each", "fixings for each unit")


def units_side_by_side(site: Site) -> Rows:
    """A row for each run in which two units stand or hang next to each other."""
    rows = Rows()
    for name, run in site.plan.runs.items():
        if any(left.item.family == right.item.family == "unit" for left, right in touching(site, name)):
            pointer = run.pointer_to("joined")
            connectors: Given = Missing(pointer, f"connectors between the units of {name}")
            if run.joined is not None:
                connectors = reading.read(run.joined, "connectors", "connectors for each pair")
            rows.rows.append(UnitsSideBySide(Subject(name, run.pointer), connectors=connectors))
    return rows


def islands(site: Site) -> Rows:
    """A row for each run that stands against no wall."""
    rows = Rows()
    for name, run in site.plan.runs.items():
        if run.faces is not None:
            rows.rows.append(_island(site, name, run))
    return rows


def _island(site: Site, name: str, run: Run) -> Row:
    pointer, held = run.pointer_to("screwed_to"), run.screwed_to
    loose = held is not None and held.with_ == "none"
    return Island(
        Subject(name, run.pointer),
        held_with=reading.word(held.with_ if held else None, pointer, f"what holds {name} to the floor"),
        held_on=reading.word("none" if loose else held.on if held else None, pointer, "what that is screwed to"),
        covering=_covering(site.levels.at(name)),
        laid=site.levels.at(name).laid,
        **_below(site.levels.at(name).room),
    )


def _below(room: Room) -> dict[str, Given]:
    """What a hole in the floor of a room may meet: heating, and whether everything in it was looked for."""
    floor, label = room.floor, "whether the floor is heated"
    pointer = room.pointer_to("floor")
    return {
        "heated": reading.word(floor.heated if floor else None, f"{pointer}/heated", label),
        "traced": reading.word(
            floor.traced if floor else None, f"{pointer}/traced", "whether what runs in the floor was traced"
        ),
    }


def _covering(levels: RoomLevels) -> Given:
    """The floor that is to be laid in a room, by what it is; `none` where there is none."""
    covering, floors = levels.covering, levels.room.floors
    if covering is None:
        return reading.exactly("none", floors.pointer, "floor to be laid")
    if isinstance(covering, Missing):
        return covering
    return reading.word(covering.is_ or next(iter(floors)), covering.pointer, "floor to be laid")


def freestanding_cookers(site: Site) -> Rows:
    """A row for each cooker; a hob in a worktop and an oven in a unit tip no more than what they sit in."""
    plan = site.plan
    if plan.appliances.left_out:
        return Rows()
    rows = Rows(left_out=of_no_kind(plan, FreestandingCooker.kind))
    for name in of_kinds(plan, COOKERS):
        appliance = plan.appliances[name]
        pointer = appliance.pointer_to("anti_tip")
        anti_tip = reading.word(appliance.anti_tip, pointer, f"what keeps {name} from tipping")
        rows.rows.append(FreestandingCooker(Subject(name, appliance.pointer), anti_tip=anti_tip))
    return rows
