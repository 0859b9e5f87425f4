"""What a fixing meets on its way through a wall besides what carries it: voids, tiles, membranes, flues, linings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.room.walls import at_left, at_right
from validator.measures.rows import Given, Known, Missing, Why
from validator.plan.values import ToFind

if TYPE_CHECKING:
    from validator.measures.fixings.ways_through_walls import LayerMet, WayThroughWall
    from validator.measures.site import Site
    from validator.plan.plan import Plan
    from validator.plan.sections.room import Wall

DEPENDS_ON_THE_WAY = (
    "coverings",
    "base",
    "base_thickness",
    "has_void",
    "has_tile",
    "has_membrane",
    "up_to_membrane",
    "has_flue",
    "up_to_flue",
    "boards",
)
FLUE = "whether a flue runs in it"


def met_on(site: Site, way: WayThroughWall | Missing, walls: Sequence[str]) -> dict[str, Given]:
    """The fields of a fixing that its way through these walls gives; they have one make-up."""
    of_walls = {"separating": _separating(site.plan, walls), "stud_faces": _faces(site.plan, walls)}
    if isinstance(way, Missing):
        return of_walls | dict.fromkeys(DEPENDS_ON_THE_WAY, way)
    groups = site.library.groups
    boards = [layer for layer in way.before if layer.term in groups["gypsum_boards"]]
    doubled = [layer for layer in boards if layer.term in groups["double_boards"]]
    membrane = way.first(groups["membranes"])
    return {
        **of_walls,
        "coverings": way.coverings,
        "base": reading.exactly(way.base.material, way.base.pointer, "what carries it"),
        "base_thickness": way.base.thickness,
        "has_void": _any(way, way.before, groups["voids_to_bridge"], "whether there is a void before it"),
        "has_tile": _any(way, way.before, groups["wall_tiles"], "whether it goes through a tile"),
        **_membrane(way, membrane),
        "boards": reading.exactly(float(len(boards) + len(doubled)), way.base.pointer, "layers of gypsum board"),
        **_flue(site, way, walls),
    }


def _any(way: WayThroughWall, layers: Sequence[LayerMet], terms: frozenset[str], label: str) -> Given:
    found = next((layer for layer in layers if layer.term in terms), None)
    return reading.exactly(found is not None, (found or way.base).pointer, label)


def _membrane(way: WayThroughWall, membrane: LayerMet | None) -> dict[str, Given]:
    label = "whether there is a membrane in the wall"
    if membrane is not None:
        return {
            "has_membrane": reading.exactly(True, membrane.pointer, label),
            "up_to_membrane": way.up_to(membrane),
        }
    return {"has_membrane": way.unknown or reading.exactly(False, way.base.pointer, label)}


def _flue(site: Site, way: WayThroughWall, walls: Sequence[str]) -> dict[str, Given]:
    """Whether a flue runs behind a fixing, and what lies before it.

    A layer tells; else the wall does. Of a wall that stands out into the room between two corners, as a chimney breast
    does, somebody has to say.
    """
    plan = site.plan
    layer = way.first(site.library.groups["flues"])
    if layer is not None:
        return {"has_flue": reading.exactly(True, layer.pointer, FLUE), "up_to_flue": way.up_to(layer)}
    for name in walls:
        wall = plan.walls.get(name)
        if wall is None:
            return dict.fromkeys(("has_flue", "up_to_flue"), Missing(plan.walls.pointer, FLUE))
        pointer = wall.pointer_to("flue")
        missing = Missing(pointer, FLUE)
        if isinstance(wall.flue, ToFind):
            missing = Missing(pointer, FLUE, Why.TO_FIND, wall.flue.by)
        elif wall.flue == "in use":
            before = Missing(
                way.base.pointer, "what lies before the flue", Why.UNCLEAR, detail="which layer is the flue?"
            )
            return {"has_flue": reading.exactly(True, pointer, FLUE), "up_to_flue": before}
        elif wall.flue is not None or way.first(site.library.groups["disused_flues"]) or not _stands_out(plan, name):
            continue
        return {"has_flue": missing, "up_to_flue": missing}
    return {"has_flue": way.unknown or reading.exactly(False, way.base.pointer, FLUE)}


def _stands_out(plan: Plan, wall: str) -> bool:
    """Whether both ends of a wall are corners that stick into the room, as those of a chimney breast."""
    room = plan.room_of(wall)
    if room is None:
        return False
    for beside in (at_left(plan, wall), at_right(plan, wall)):
        corner = room.corner_at(wall, beside) if beside is not None else None
        if corner is None or not corner.outside:
            return False
    return True


def _separating(plan: Plan, walls: Sequence[str]) -> Given:
    """Whether one of the walls separates dwellings. A wall of which nothing is said is one of the home's own."""
    label = "whether it separates two homes"
    said = [plan.walls[name] for name in walls if name in plan.walls]
    read = [
        reading.word(wall.separating, wall.pointer_to("separating"), label)
        for wall in said
        if wall.separating is not None
    ]
    true = next((value for value in read if isinstance(value, Known) and value.value), None)
    unknown = next((value for value in read if not isinstance(value, Known)), None)
    return true or unknown or reading.exactly(False, said[0].pointer if said else plan.walls.pointer, label)


def _faces(plan: Plan, walls: Sequence[str]) -> Given:
    """How wide the studs or noggins of the walls are, seen from the room."""
    faces = [_face(plan.walls[name]) for name in walls if name in plan.walls]
    return reading.parts(faces) if faces else Missing(plan.walls.pointer, "face of the studs")


def _face(wall: Wall) -> Given:
    if wall.noggins:
        noggin = wall.noggins[0]
        return reading.quantity(noggin.size.w if noggin.size else None, noggin.pointer_to("size"), "face of the noggin")
    if wall.studs is None:
        return Missing(wall.pointer_to("studs"), "face of the studs")
    return reading.read(wall.studs, "face", "face of the studs")
