"""Parts of units as their kinds have them: doors bored for hinges, and backs that screws go through."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.rows import YES_NO, Given, Missing, Row, Rows, Subject, figure, given
from validator.measures.runs.of_kinds import asked_at, of_kind
from validator.plan.dimensions import LENGTH, NUMBER
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site

HINGED = ("door", "two doors", "doors")


class BoredDoor(Row, kind="door bored for hinges"):
    """The doors of a kind of unit, and the holes for the cups of their concealed hinges."""

    thickness: float = given(LENGTH, "door")
    says_cup: bool = given(YES_NO, "whether the plan says how deep it is bored")
    cup: float = given(LENGTH, "hole for the cup")

    @figure(LENGTH, "thickness of the door", start="back of the door", end="face of the door")
    def door(self) -> float:
        return self.thickness

    @figure(LENGTH, "door left before the cup", start="bottom of the hole", end="face of the door")
    def left_before(self) -> float:
        return self.thickness - self.cup


class BackOfUnit(Row, kind="back of a unit"):
    """What a kind of unit that is screwed to its wall is screwed through: its back, and strips behind or before it."""

    back: float = given(LENGTH, "back")
    height: float = given(LENGTH, "unit")
    how_many: float = given(NUMBER, "strips")
    thick: float = given(LENGTH, "thickness of the strips")
    wide: float = given(LENGTH, "width of the strips")

    @figure(LENGTH, "thickness of the strips")
    def strip_thickness(self) -> float:
        return self.thick

    @figure(LENGTH, "width of the strips")
    def strip_width(self) -> float:
        return self.wide

    @figure(NUMBER, "strips")
    def strips(self) -> float:
        return self.how_many


def doors_bored_for_hinges(site: Site) -> Rows:
    """A row for each kind of unit with doors; a thing whose door is another's thickness has a row of its own."""
    hinged = (thing for thing in site.setting_out.things() if thing.item.opens in HINGED)
    return Rows([_door(thing) for thing in _one_of_each(hinged, ("front", "cup"))])


def _door(thing: Standing) -> Row:
    return BoredDoor(
        Subject(thing.item.is_, thing.item.pointer, f"doors, as of {thing.name}"),
        thickness=of_kind(thing.item, "front", "door"),
        says_cup=reading.exactly(thing.item.cup is not None, thing.item.pointer, "hole for the cup"),
        cup=of_kind(thing.item, "cup", "hole for the cup"),
    )


def backs_of_units(site: Site) -> Rows:
    """A row for each kind of unit that hangs, or stands as high as a hung one, against a wall."""
    return Rows([_back(thing) for thing in _one_of_each(_screwed_through(site), ("back", "strips", "height"))])


def _screwed_through(site: Site) -> Iterator[Standing]:
    for thing in site.setting_out.things():
        tall = "tall" in fold(thing.item.is_).split()
        if thing.item.family == "unit" and (tall or site.levels.is_hung(thing)):
            yield thing


def _back(thing: Standing) -> Row:
    item = thing.item
    strips: dict[str, Given] = {
        "how_many": Missing(asked_at(item, "strips"), f"strips of {item.is_}"),
        "thick": Missing(asked_at(item, "strips"), f"thickness of the strips of {item.is_}"),
        "wide": Missing(asked_at(item, "strips"), f"width of the strips of {item.is_}"),
    }
    if item.strips is not None:
        strips = {field: reading.read(item.strips, field, f"{field} strips".replace("_", " ")) for field in strips}
    return BackOfUnit(
        Subject(item.is_, item.pointer, f"as {thing.name}"),
        back=of_kind(item, "back", "back"),
        height=of_kind(item, "height", "height"),
        **strips,
    )


def _one_of_each(things: Iterator[Standing], fields: tuple[str, ...]) -> Iterator[Standing]:
    """The first thing of each kind and of each make-up within it."""
    seen: set[tuple[object, ...]] = set()
    for thing in things:
        made = tuple(str(getattr(thing.item, field)) for field in fields)
        if (key := (fold(thing.item.is_), *made)) not in seen:
            seen.add(key)
            yield thing
