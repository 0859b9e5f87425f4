"""Walls and the corners between them: which wall meets which end of another, and places given from an end."""

from __future__ import annotations

from validator.measures import reading
from validator.measures.rows import Given, Known, Missing, Row, Subject, Why, figure, gaps_of, given
from validator.measures.tracing import derived
from validator.plan.dimensions import LENGTH
from validator.plan.fields import Along
from validator.plan.plan import Plan
from validator.plan.values import NothingStated


class FromRightEnd(Row, kind="place from the right end of a wall"):
    """A place that is given from the wall at the right, counted from the left end as all places are."""

    wall: float = given(LENGTH, "wall")
    amount: float = given(LENGTH, "from the right end")

    @figure(LENGTH, "place along the wall", start="left end of the wall", end="place")
    def place(self) -> float:
        return self.wall - self.amount


class Difference(Row, kind="distance between two places"):
    """How far one place is from another, on one wall."""

    further: float = given(LENGTH, "further place")
    nearer: float = given(LENGTH, "nearer place")

    @figure(LENGTH, "distance", start="nearer place", end="further place")
    def distance(self) -> float:
        return self.further - self.nearer


class Half(Row, kind="half of a width"):
    """Half of a thing that is placed by its middle."""

    whole: float = given(LENGTH, "width")

    @figure(LENGTH, "half", start="middle", end="edge")
    def half(self) -> float:
        return self.whole / 2


def worked(row: Row, name: str, label: str) -> Given:
    """A figure that needs every field of its row, as a value for another row; else all that is missing for it."""
    if row.missing:
        return gaps_of(*row.missing.values())
    return derived(row, name, label)


def half_of(whole: Given, subject: Subject, label: str) -> Given:
    """Half a width, with its working."""
    return worked(Half(subject, whole=whole), "half", label)


def difference(further: Given, nearer: Given, subject: Subject, label: str) -> Given:
    """Further place − nearer place; less than 0 where they stand the other way round."""
    return worked(Difference(subject, further=further, nearer=nearer), "distance", label)


def apart(one: Given, other: Given, subject: Subject, label: str) -> Given:
    """How far two places are apart, whichever comes first; down to 0 where doubt lets them coincide."""
    ahead = isinstance(one, Known) and isinstance(other, Known) and one.value >= other.value
    found = difference(one, other, subject, label) if ahead else difference(other, one, subject, label)
    if not isinstance(found, Known) or found.low is None or found.high is None or found.low >= 0:
        return found
    return Known(
        found.value,
        found.pointer,
        found.text,
        label,
        low=0.0,
        high=max(-found.low, found.high),
        assumed=found.assumed,
        origin=found.origin,
    )


def at_left(plan: Plan, wall: str) -> str | None:
    """The wall that meets the left end of a wall, as one stands in the room and faces it."""
    return _beside(plan, wall, -1)


def at_right(plan: Plan, wall: str) -> str | None:
    """The wall that meets the right end of a wall."""
    return _beside(plan, wall, 1)


def _beside(plan: Plan, wall: str, step: int) -> str | None:
    room = plan.room_of(wall)
    if room is None or wall not in room.walls:
        return None
    names = list(room.walls)
    place = names.index(room.walls.written(wall)) + step
    if 0 <= place < len(names):
        return names[place]
    # Fewer than three walls do not close a room, so the last does not meet the first.
    return names[place % len(names)] if len(names) > 2 else None


def wall_of(plan: Plan, run: str) -> str:
    """The wall a run stands against, as the plan writes it; an island is a wall of its own, by the name of its run."""
    against = plan.runs[run].against
    if not against:
        return plan.runs.written(run)
    return plan.walls.written(against) if against in plan.walls else against


def called_wall(plan: Plan, wall: str) -> str:
    """What a reader calls a wall: `north wall`; an island keeps its name."""
    return wall if wall in plan.runs and wall not in plan.walls else f"{wall} wall"


def length_of(plan: Plan, wall: str) -> Given:
    """The length of a wall, with all its readings."""
    if wall not in plan.walls:
        return Missing(f"{plan.walls.pointer}/{wall}/length", f"length of the {wall} wall")
    name = plan.walls.written(wall)
    found = reading.read(plan.walls[wall], "length", f"{name} wall")
    return named_gap(found, f"length of the {name} wall")


def tiles_on(plan: Plan, wall: str) -> Given:
    """Tiles to come on a wall. Where no wall of the plan speaks of tiles, none is to be tiled."""
    walls = plan.walls
    tiles, pointer, label = walls[wall].tiles, walls[wall].pointer_to("tiles"), f"tiles on the {wall} wall"
    if isinstance(tiles, NothingStated):
        return reading.exactly(0, pointer, label, "none come")
    if tiles is None and all(each.tiles is None for each in walls.values()):
        return reading.exactly(0, pointer, label, "no wall of the plan is to be tiled")
    return reading.quantity(tiles, pointer, label)


def named_gap(value: Given, label: str) -> Given:
    """The same value; where it is missing, called by another name than in a working."""
    if isinstance(value, Missing):
        return Missing(value.pointer, label, value.why, value.by, value.detail)
    return value


def place_along(plan: Plan, wall: str, along: Along, pointer: str, name: str) -> Given:
    """A place given from a wall that meets this one, counted from the left end."""
    amount = named_gap(reading.quantity(along.amount, pointer, name), f"place of {name} along the {wall} wall")
    end = which_end(plan, wall, along.from_)
    if end == "left":
        return amount
    if end == "right":
        subject = Subject(name, pointer, f"{wall} wall", wall)
        return worked(FromRightEnd(subject, wall=length_of(plan, wall), amount=amount), "place", name)
    detail = f"{along.from_} and the {wall} wall do not meet"
    return Missing(pointer, f"place of {name}", Why.UNCLEAR, detail=detail)


def which_end(plan: Plan, wall: str, other: str) -> str:
    """`left` or `right`: the end of a wall at which another meets it; '' where it does not."""
    room = plan.room_of(wall)
    if room is None or other not in room.walls:
        return ""
    other = room.walls.written(other)
    return next((end for end, beside in (("left", at_left), ("right", at_right)) if beside(plan, wall) == other), "")
