"""What was found in the walls while they could be looked into, wall by wall: it wins over what is drawn.

Of the layers that a trial hole met the thickness found counts, of several holes from the least to the most. Studs and
noggins count as found last. Where holes met layers in another order, nobody knows which part of the wall is which.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from validator.measures.room.walls import place_along
from validator.measures.rows import Given, Missing, Why
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold
from validator.plan.values import Quantity, ToFind

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.record import Built
    from validator.plan.sections.room import Layer, Noggin, Studs


FROM_OUTSIDE = ("detector", "tapping", "drawing", "guess")
"""How a wall may be known by somebody who has not looked into it."""


class Found(NamedTuple):
    """One record of a wall by its name, and how far along the wall it was found; None where it does not say."""

    name: str
    built: Built
    wall: str
    along: Given | None

    @property
    def day(self) -> float:
        """When it was seen, for an order; what bears no date comes before everything that does."""
        return self.built.seen.low if isinstance(self.built.seen, Quantity) else 0.0


class Records:
    """The records of a plan that name a wall, in the plan's order."""

    def __init__(self, site: Site) -> None:
        plan = site.plan
        self._by_wall: dict[str, list[Found]] = {}
        for name, built in plan.built.items():
            if built.wall is not None:
                pointer = built.pointer_to("along")
                along = None if built.along is None else place_along(plan, built.wall, built.along, pointer, name)
                self._by_wall.setdefault(fold(built.wall), []).append(Found(name, built, built.wall, along))

    def all(self) -> list[Found]:
        """Every record of every wall."""
        return [found for records in self._by_wall.values() for found in records]

    def of(self, wall: str) -> list[Found]:
        """The records of one wall."""
        return self._by_wall.get(fold(wall), [])

    def trial_holes(self, wall: str) -> list[Found]:
        """The records of a wall that say what layers were met, by whoever looked into it."""
        return [found for found in self.of(wall) if found.built.layers and found.built.known_by not in FROM_OUTSIDE]

    def studs(self, wall: str, drawn: Studs | None) -> Studs | None:
        """The studs of a wall as found last, else as drawn."""
        found = [record for record in self.of(wall) if record.built.studs is not None]
        return max(found, key=lambda record: record.day).built.studs if found else drawn

    def noggins(self, wall: str, drawn: tuple[Noggin, ...] | None) -> tuple[Noggin, ...] | None:
        """All noggins of a wall as found, else as drawn."""
        found = [noggin for record in self.of(wall) for noggin in record.built.noggins or ()]
        return tuple(found) or drawn


def layers_as_found(holes: Sequence[Found], drawn: Sequence[Layer]) -> tuple[Layer, ...] | Missing:
    """The layers that trial holes met, each from its thinnest to its thickest, with what is drawn behind the deepest.

    A hole need not go through the last layer it met: where none gives a thickness for it, the drawn one counts.
    Missing where the holes met other materials.
    """
    met = {hole.name: hole.built.layers or () for hole in holes}
    name, deepest = max(met.items(), key=lambda hole: len(hole[1]))
    for hole in holes:
        if any(_term(one) != _term(other) for one, other in zip(met[hole.name], deepest, strict=False)):
            label = f"layers of the {hole.wall} wall"
            detail = f"{hole.name} and {name} met other layers: which part of the wall is made of which?"
            return Missing(hole.built.pointer_to("layers"), label, Why.UNCLEAR, detail=detail)
    behind = next((place for place, layer in enumerate(drawn) if _term(layer) == _term(deepest[-1])), None)
    found = [
        _spanning([layers[place] for layers in met.values() if place < len(layers)]) for place in range(len(deepest))
    ]
    if behind is None:
        return tuple(found)
    if found[-1].thickness is None:
        found[-1] = drawn[behind]
    return (*found, *drawn[behind + 1 :])


def _term(layer: Layer) -> str:
    return "" if isinstance(layer.material, ToFind) else fold(layer.material)


def _spanning(layers: Sequence[Layer]) -> Layer:
    """One layer for the same layer met by several holes, as thin and as thick as they found it."""
    measured = [layer for layer in layers if isinstance(layer.thickness, Quantity)]
    if len(measured) < 2:
        return measured[0] if measured else layers[0]
    found = [layer.thickness for layer in measured if isinstance(layer.thickness, Quantity)]
    text = ", ".join(dict.fromkeys(thickness.text for thickness in found))
    low, high = min(thickness.low for thickness in found), max(thickness.high for thickness in found)
    together = Quantity(low, high, LENGTH, text, any(thickness.assumed for thickness in found))
    one = measured[0].model_copy(update={"thickness": together})
    one.stand_at(measured[0].pointer)
    return one
