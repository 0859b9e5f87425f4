"""Fixings of islands in the floor: how far their holes stay above a membrane in it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import total
from validator.measures.fixing_parts import part
from validator.measures.rows import YES_NO, Given, Missing, Row, Rows, Subject, Why, figure, given
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold
from validator.plan.values import ToFind

if TYPE_CHECKING:
    from validator.measures.site import Site

LABEL = "whether there is a membrane in the floor"


class FixingInFloor(Row, kind="fixing in a floor"):
    """A fixing of an island in the floor as found, with the layers before the first membrane in that.

    Its hole counts from the bare floor: a floor laid on it before only makes the hole reach less deep.
    """

    has_membrane: bool = given(YES_NO, LABEL)
    up_to_membrane: tuple[float, ...] = given(LENGTH, "layers above the membrane", many=True)
    hole_depth: float = given(LENGTH, "depth of the hole")

    @figure(LENGTH, "above the membrane", start="end of the hole", end="membrane")
    def above_membrane(self) -> float:
        return total(self.up_to_membrane) - self.hole_depth


def fixings_in_floors(site: Site) -> Rows:
    """A row for each fixing and each island it is for. Without fixings there is nothing to say of floors."""
    rows = Rows()
    for name, fixing in site.plan.fixings.items():
        depth = part(fixing, "hole", "depth", "hole")
        for run in islands_of(site, fixing.for_):
            subject = Subject(name, fixing.pointer, f"{run}, floor")
            rows.rows.append(FixingInFloor(subject, hole_depth=depth, **_membrane(site, run)))
    return rows


def islands_of(site: Site, names: tuple[str, ...]) -> list[str]:
    """The runs among some names that stand against no wall, as the plan writes them."""
    runs = site.plan.runs
    return [runs.written(name) for name in names if name in runs and not runs[name].against]


def _membrane(site: Site, run: str) -> dict[str, Given]:
    """Whether a membrane lies in the floor under an island, and what lies above it."""
    plan = site.plan
    room = plan.room_of(plan.runs[run].faces or "")
    floor = room.floor if room is not None else None
    pointer = floor.pointer_to("made_of") if floor is not None else "/floor/made of"
    made_of = floor.made_of if floor is not None else None
    missing = Missing(pointer, "what the floor is made of")
    if isinstance(made_of, ToFind):
        missing = Missing(pointer, "what the floor is made of", Why.TO_FIND, made_of.by)
    if not isinstance(made_of, str) or made_of not in plan.layers:
        return {"has_membrane": missing, "up_to_membrane": missing}
    above: list[Given] = []
    for layer in plan.layers[made_of]:
        if isinstance(layer.material, ToFind):
            gap = Missing(layer.pointer_to("material"), "layer of the floor", Why.TO_FIND, layer.material.by)
            return {"has_membrane": gap, "up_to_membrane": gap}
        if fold(layer.material) in site.library.groups["membranes"]:
            found = reading.exactly(True, layer.pointer_to("material"), LABEL)
            return {"has_membrane": found, "up_to_membrane": reading.parts(above)}
        above.append(reading.read(layer, "thickness", layer.material))
    return {"has_membrane": reading.exactly(False, pointer, LABEL)}
