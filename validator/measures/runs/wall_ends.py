"""The ends of runs at walls: what is left there for tiles, a corner out of square, handles and the door of a fridge."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import COLD, kind_of, standing_of
from validator.measures.arithmetic import total
from validator.measures.room.corners import corner_found
from validator.measures.room.walls import at_left, at_right, called_wall, difference, length_of, tiles_on
from validator.measures.rows import YES_NO, Given, LeftOut, Missing, Row, Rows, Subject, Words, figure, given
from validator.measures.runs.hinges import End, handle_on, hinged_at, machines_of, opens_of, own_front
from validator.measures.runs.of_kinds import of_kind
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site

OPENS = ("door", "two doors", "doors", "drawers", "pull-out", "lift-up", "nothing", "appliance")


class WallEnd(Row, kind="end of a run at a wall"):
    """An end of a run and the wall it comes up to; `corner` is what the plan says of the corner there.

    `side` runs to the nearest carcass or appliance, past fillers, panels and posts. In a corner that is closed the run
    loses `taper` at its fronts; in an open one its last filler grows wider by it towards the front.
    """

    side: float = given(LENGTH, "from the wall to the first carcass")
    closes: bool = given(YES_NO, "whether a piece that takes the rest closes it")
    tiles: float = given(LENGTH, "tiles to come")
    opens: str = given(Words(OPENS), "what opens there")
    cold: bool = given(YES_NO, "whether a fridge or freezer stands there")
    hinged_at_wall: bool = given(YES_NO, "whether its door is hinged at the wall")
    handle: float = given(LENGTH, "handle")
    corner: str = given(Words(("open", "closed", "not said")), "how the corner is out of square")
    out: float = given(LENGTH, "corner out of square")
    over: float = given(LENGTH, "length over which it was measured")
    depths: tuple[float, ...] = given(LENGTH, "depth of the run", many=True)

    @figure(LENGTH, "room", start="face of the wall", end="first carcass")
    def room(self) -> float:
        return self.side - self.tiles

    @figure(LENGTH, "what the corner takes", start="wall at the back of the run", end="wall at its fronts")
    def taper(self) -> float:
        return self.out * total(self.depths) / self.over

    @figure(LENGTH, "room at the fronts", start="face of the wall", end="first carcass")
    def room_at_fronts(self) -> float:
        return self.side - self.tiles - self.taper


def wall_ends(site: Site) -> Rows:
    """A row for each end of each run along a wall, where another wall stands at that end."""
    plan = site.plan
    if plan.runs.left_out:
        return Rows(left_out=[LeftOut(WallEnd.kind, Missing("/runs", "runs of units"))])
    cold, machines = _cold(site), machines_of(site)
    rows = Rows()
    for name, run in plan.runs.items():
        if run.faces is not None or run.against not in plan.walls:
            continue
        things = site.setting_out.in_run(name)
        ends: tuple[tuple[End, str | None], ...] = (
            ("left", at_left(plan, run.against)),
            ("right", at_right(plan, run.against)),
        )
        for end, beside in ends:
            from_wall = things if end == "left" else things[::-1]
            row = _row(site, name, end, beside, from_wall, cold, machines) if beside else None
            if row is not None:
                rows.rows.append(row)
    return rows


def _row(
    site: Site,
    run: str,
    end: End,
    beside: str,
    from_wall: list[Standing],
    cold: frozenset[tuple[str, str]],
    machines: dict[tuple[str, str], str],
) -> Row | None:
    """The row of one end; None for a run without units. `from_wall` are its things, the one nearest the wall first."""
    plan = site.plan
    at = next((place for place, thing in enumerate(from_wall) if thing.item.family in ("unit", "opening")), None)
    if at is None:
        return None
    first = from_wall[at]
    subject = Subject(f"{run} at the {beside} wall", first.item.pointer, called_wall(plan, first.wall), first.wall)
    side: Given = first.left
    if end == "right":
        side = difference(length_of(plan, first.wall), first.right, subject, f"from {first.name} to the {beside} wall")
    is_unit = first.item.family == "unit"
    closing = any(thing.item.rest and thing.item.family != "gap" for thing in from_wall[:at])
    machine = own_front(first, machines)
    return WallEnd(
        subject,
        side=side,
        closes=reading.exactly(closing, subject.pointer, "whether a piece that takes the rest closes it"),
        tiles=tiles_on(site.plan, beside),
        opens=opens_of(first.item) if is_unit else reading.exactly("appliance", first.item.pointer, "what opens there"),
        cold=reading.exactly((first.run, first.name) in cold, first.item.pointer, "whether a fridge stands there"),
        hinged_at_wall=hinged_at(site, first, machine, end),
        handle=handle_on(site, first.item, machine),
        depths=_depths(site, first),
        **_corner(site, first.wall, beside),
    )


def _depths(site: Site, thing: Standing) -> Given:
    """How far a thing reaches from its wall: void, carcass and front; a hung unit has no void."""
    fields = [("depth", "depth"), ("front", "front")]
    if not site.levels.is_hung(thing):
        fields.insert(0, ("void_behind", "void behind"))
    return reading.parts([of_kind(thing.item, field, called) for field, called in fields])


def _corner(site: Site, wall: str, beside: str) -> dict[str, Given]:
    """What the plan says of the corner of two walls."""
    room = site.plan.room_of(wall)
    corner = corner_found(room, wall, beside) if room is not None else None
    if corner is None or corner.square_by_default:
        pointer = room.corners.pointer if room is not None else "/corners"
        return {"corner": reading.exactly("not said", pointer, f"corner of the {wall} and {beside} walls")}
    return {"corner": corner.way, "out": corner.out, "over": corner.over}


def _cold(site: Site) -> frozenset[tuple[str, str]]:
    """The things of runs in which a fridge or freezer stands."""
    found = set()
    for name, appliance in site.plan.appliances.items():
        standing = standing_of(site, name) if kind_of(name, appliance) in COLD else None
        if standing is not None:
            found.add((standing.run, standing.name))
    return frozenset(found)
