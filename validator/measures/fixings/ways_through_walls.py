"""The way through a wall: its layers from the room side, which of them carries, and what lies before and behind that.

A wall may be made of other layers from one place to another (`parts`). Which terms carry and which do not stands in
`rules/groups.yaml`; what is in neither group is a question, and never a guess.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.drilling.records import Found, layers_as_found
from validator.measures.rows import Given, Known, Missing, Why
from validator.plan.names import fold, nearest
from validator.plan.pointers import join, split
from validator.plan.values import ToFind

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.room import Layer, Noggin, Part, Wall
    from validator.reference.library import Library

NOGGINS = ("noggin", "noggins", "blocking")
"""What `into` may call the noggins of a wall."""

Gaps = tuple[Missing, ...]
"""All that has to be found out before there is an answer."""


class LayerMet(NamedTuple):
    """One layer that a drill meets: its material as written, and its thickness with its range and doubts."""

    material: str
    pointer: str
    thickness: Given

    @property
    def term(self) -> str:
        return fold(self.material)


class WayThroughWall(NamedTuple):
    """A wall cut through where something is fixed: the layers before what carries, that layer, and those behind it.

    `unknown` is the first layer behind it of which nobody knows what it is; `behind` ends before that.
    """

    before: tuple[LayerMet, ...]
    base: LayerMet
    behind: tuple[LayerMet, ...]
    unknown: Missing | None = None

    @property
    def layers(self) -> tuple[LayerMet, ...]:
        """All layers, room side first."""
        return (*self.before, self.base, *self.behind)

    @property
    def coverings(self) -> Given:
        """The thicknesses of the layers before what carries."""
        return reading.parts([layer.thickness for layer in self.before])

    def first(self, terms: Iterable[str]) -> LayerMet | None:
        """The first layer from the room whose material is one of the terms, as a group of terms holds them."""
        return next((layer for layer in self.layers if layer.term in terms), None)

    def up_to(self, layer: LayerMet) -> Given:
        """The thicknesses of the layers between the face of the wall and a layer."""
        return reading.parts([other.thickness for other in self.layers[: self.layers.index(layer)]])


class MakeUp(NamedTuple):
    """What a wall, or a part of it, is made of: its name, where the plan says so, and its layers or what is missing.

    Two walls of one make-up have one name; a wall with noggins, or of which nobody knows the layers, has one of its
    own. `part` is what a reader calls a part of a wall, '' for a wall itself.
    """

    name: str
    pointer: str
    layers: Sequence[Layer] | Gaps
    noggin: LayerMet | None = None
    part: str = ""

    def way_to(self, library: Library, into: str) -> WayThroughWall | Missing:
        """The way to the layer that `into` names, folded, or to the first that carries where it is ''.

        Missing where a layer is still to find out, where nobody knows whether one carries, and where none does.
        """
        bases = library.groups.get("bases", frozenset())
        coverings = library.groups.get("coverings", frozenset())
        met: list[LayerMet] = []
        at: int | None = None
        unknown: Missing | None = None
        for layer in self.layers:
            if isinstance(layer, Missing):
                return layer
            if isinstance(layer.material, ToFind):
                unknown = Missing(layer.pointer_to("material"), "layer of the wall", Why.TO_FIND, layer.material.by)
                break
            found = _met(library, layer, layer.material)
            if at is None and into in NOGGINS and _same(found.term, "stud") and self.noggin is not None:
                found, at = self.noggin, len(met)
            elif at is None and (_same(found.term, into) if into else found.term in bases):
                at = len(met)
            elif at is None and not into and found.term not in coverings:
                question = f"does {found.material} carry, or does the fixing have to go through it?"
                return Missing(layer.pointer_to("material"), found.material, Why.UNCLEAR, detail=question)
            met.append(found)
        if at is None and unknown is not None:
            return unknown
        if at is None:
            near = nearest(into, (layer.term for layer in met)) if into else None
            question = f"no layer of the wall is {into}" if into else "no layer of the wall carries a fixing"
            question += f"; perhaps {near} was meant" if near else ""
            return Missing(self.pointer, "what carries it", Why.UNCLEAR, detail=question)
        return WayThroughWall(tuple(met[:at]), met[at], tuple(met[at + 1 :]), unknown)


class _Part(NamedTuple):
    """A part of a wall by its ends, None where it goes on to the end of the wall."""

    made: MakeUp
    left: Given | None
    right: Given | None


class MakeUps:
    """What the walls of a plan are made of, wall by wall and part by part; each is read once."""

    def __init__(self, site: Site) -> None:
        self._site = site
        self._plan = site.plan
        self._walls: dict[str, tuple[MakeUp, list[_Part]]] = {}
        self._drawn: dict[str, tuple[MakeUp, list[_Part]]] = {}

    @cached_property
    def any_parts(self) -> bool:
        """Whether any wall is made of other layers from one place to another."""
        return any(wall.parts for wall in self._plan.walls.values())

    def at(self, wall: str, left: Given | None = None, right: Given | None = None) -> list[MakeUp]:
        """Every make-up of a wall that a thing between two places may lie on, the wall's own last.

        Where the places are not known, or not needed because the wall has no parts, all of them.
        """
        own, parts = self._of(wall)
        if not parts:
            return [own]
        if not isinstance(left, Known) or not isinstance(right, Known):
            return [*(part.made for part in parts), own]
        start, end = float(left.low or 0.0), float(right.high or 0.0)
        met = [part.made for part in parts if _may_reach(part, start, end)]
        return met if _surely_on(parts, start, end) else [*met, own]

    def drawn_at(self, wall: str, place: Given | None) -> MakeUp:
        """What a wall of the plan is drawn to be made of at a place, whatever trial holes met."""
        self._of(wall)
        own, parts = self._drawn[fold(wall)]
        at = _ends(place)
        return next((part.made for part in parts if at is not None and _may_reach(part, *at)), own)

    def _of(self, name: str) -> tuple[MakeUp, list[_Part]]:
        key = fold(name)
        if key not in self._walls:
            self._walls[key] = self._read(name)
        return self._walls[key]

    def _read(self, name: str) -> tuple[MakeUp, list[_Part]]:
        if name not in self._plan.walls:
            missing = Missing(join(self._plan.walls.pointer, name), f"{name} wall")
            return MakeUp(f"wall {fold(name)}", missing.pointer, (missing,)), []
        wall = self._plan.walls[name]
        noggin = _noggin(self._site.records.noggins(name, wall.noggins))
        label = f"what the {name} wall is made of"
        own = self._made_of(wall, f"wall {fold(name)}", label, noggin)
        parts = []
        for number, part in enumerate(wall.parts or ()):
            made = self._made_of(part, f"{own.name} part {number}", f"what part of the {name} wall is made of")
            called = part.made_of if isinstance(part.made_of, str) else f"part {number + 1}"
            start = None if part.from_ is None else reading.read(part, "from_", f"start of a part of the {name} wall")
            end = None if part.to is None else reading.read(part, "to", f"end of a part of the {name} wall")
            parts.append(_Part(made._replace(part=called), start, end))
        self._drawn[fold(name)] = (own, parts)
        return self._as_found(name, own, parts)

    def _as_found(self, wall: str, own: MakeUp, parts: list[_Part]) -> tuple[MakeUp, list[_Part]]:
        """The make-ups of a wall with the layers that trial holes met in place of those drawn.

        A hole counts for the part of the wall it was drilled in, outside of them for the rest, and for all where
        nobody knows its place.
        """
        in_parts: list[list[Found]] = [[] for _ in parts]
        in_own: list[Found] = []
        for hole in self._site.records.trial_holes(wall):
            at = _ends(hole.along)
            met = [at is None or _may_reach(part, *at) for part in parts]
            for holes in (holes for holes, there in zip(in_parts, met, strict=True) if there):
                holes.append(hole)
            if at is None or not any(met):
                in_own.append(hole)
        found = [part._replace(made=_found(part.made, holes)) for part, holes in zip(parts, in_parts, strict=True)]
        return _found(own, in_own), found

    def _made_of(self, made: Wall | Part, otherwise: str, label: str, noggin: LayerMet | None = None) -> MakeUp:
        pointer = made.pointer_to("made_of")
        if isinstance(made.made_of, ToFind):
            return MakeUp(otherwise, pointer, (Missing(pointer, label, Why.TO_FIND, made.made_of.by),))
        if made.made_of is None:
            return MakeUp(otherwise, pointer, (Missing(pointer, label),))
        if made.made_of not in self._plan.layers:
            return MakeUp(otherwise, pointer, (Missing(join(self._plan.layers.pointer, made.made_of), label),))
        written = self._plan.layers.written(made.made_of)
        name = fold(written) if noggin is None else f"{fold(written)}, {noggin.pointer}"
        return MakeUp(name, pointer, self._plan.layers[written], noggin)


def _found(made: MakeUp, holes: Sequence[Found]) -> MakeUp:
    """A make-up as trial holes found it; one that nobody looked into stays as drawn."""
    if not holes:
        return made
    layers = layers_as_found(holes, [layer for layer in made.layers if not isinstance(layer, Missing)])
    gaps = (layers,) if isinstance(layers, Missing) else layers
    return made._replace(name=f"{made.name}, {holes[0].built.pointer}", layers=gaps)


def _met(library: Library, layer: Layer, material: str) -> LayerMet:
    pointer = layer.pointer_to("material")
    if layer.thickness is None and fold(material) in library.groups.get("sheets_of_no_thickness", frozenset()):
        return LayerMet(material, pointer, reading.exactly(0, pointer, material, "a sheet without a thickness"))
    found = fold(split(layer.pointer)[0]) == "built"
    return LayerMet(material, pointer, reading.read(layer, "thickness", f"{material} as found" if found else material))


def _noggin(noggins: Sequence[Noggin] | None) -> LayerMet | None:
    """The noggins of a wall, let in between its studs behind the same layers; how deep they are is their own size."""
    if not noggins:
        return None
    noggin = noggins[0]
    pointer = noggin.pointer_to("size")
    return LayerMet("noggin", pointer, reading.quantity(noggin.size.h if noggin.size else None, pointer, "noggin"))


def _may_reach(part: _Part, start: float, end: float) -> bool:
    """Whether a part lies behind a stretch of wall as far as anybody knows."""
    left, right = _ends(part.left), _ends(part.right)
    return (left is None or left[0] < end) and (right is None or right[1] > start)


def _surely_on(parts: Sequence[_Part], start: float, end: float) -> bool:
    """Whether a whole stretch lies on parts, wherever they begin and end between their ranges."""
    spans = []
    for part in parts:
        left, right = _ends(part.left), _ends(part.right)
        if (part.left is None or left is not None) and (part.right is None or right is not None):
            spans.append((left[1] if left else start, right[0] if right else end))
    reached = start
    for left_most, right_least in sorted(spans):
        if left_most <= reached:
            reached = max(reached, right_least)
    return reached >= end


def _ends(place: Given | None) -> tuple[float, float] | None:
    if not isinstance(place, Known) or place.low is None or place.high is None:
        return None
    return place.low, place.high


def _same(term: str, into: str) -> bool:
    """Whether a layer is what `into` names, in the singular or the plural: `stud`, `metal stud` and `studs`."""
    term, into = term.removesuffix("s"), into.removesuffix("s")
    return term == into or (into != "" and term.endswith(f" {into}"))
