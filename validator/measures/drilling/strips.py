"""The strips of a wall in which cables may run, and the one most dangerous to a hole.

A strip is as wide as a plate, upright or level from a point whose cable may lie in the wall. Those of one wall are kept
in order along it and up it, so that a hole looks only at what may be nearest.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import inf
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.nearest import Nearest, Stretch
from validator.measures.room.walls import apart
from validator.measures.rows import Given, Known, Missing, gaps_of

if TYPE_CHECKING:
    from validator.measures.drilling.holes import Hole

WAYS = {
    "straight up": ("up",),
    "straight down": ("down",),
    "from left": ("left",),
    "from right": ("right",),
    "on the surface": (),
}
ALL_WAYS = ("up", "down", "left", "right")
FIELDS = ("has_strip", "aside", "half_strip", "strip_of", "runs")
RUNS = ("upright", "level")


class Source(NamedTuple):
    """A point whose cable may lie in a wall: its middle along and up, half its plate either way, and the ways."""

    name: str
    pointer: str
    along: Given
    up: Given
    half_width: Given
    half_height: Given
    cable: object

    @property
    def ways(self) -> tuple[str, ...]:
        return WAYS.get(self.cable, ALL_WAYS) if isinstance(self.cable, str) else ALL_WAYS


class Strip(NamedTuple):
    """One strip: where it lies across and from where on it starts, as values and, for a quick look, as plain ends.

    It starts at the edge of the plate, and goes `onward` (up, to the right), back, or both. Ends are None where nobody
    knows them.
    """

    source: Source
    runs: str
    across: Given
    half: Given
    ends: tuple[float, float] | None
    half_most: float
    start: Given
    start_ends: tuple[float, float] | None
    plate: float
    onward: bool
    back: bool

    def reaches(self, hole: tuple[float, float] | None) -> bool:
        """Whether it passes a hole between two ends along the strip; doubt counts as passing."""
        if self.onward == self.back:
            return self.onward
        if hole is None or self.start_ends is None:
            return True
        if self.onward:
            return hole[1] >= self.start_ends[0] - self.plate
        return hole[0] <= self.start_ends[1] + self.plate

    def gaps(self, along_it: Given) -> tuple[Missing, ...]:
        """What leaves open whether it passes a hole."""
        if self.onward == self.back or (ends_of(along_it) is not None and self.start_ends is not None):
            return ()
        return gaps_of(along_it, self.start)

    def aside(self, hole: Hole) -> Given:
        """From the middle of the strip to the middle of the hole."""
        here = hole.along if self.runs == "upright" else hole.up
        return apart(here, self.across, hole.subject, f"from {self.source.name} to the hole")

    def clear(self, hole: Hole) -> float:
        """What is clear at the worse end: less than 0 where the hole lies in the strip. Where nobody knows, 0."""
        aside = self.aside(hole)
        return float(aside.low or 0.0) - self.half_most if isinstance(aside, Known) else 0.0


class StripsOfWall:
    """All strips of one face of a wall."""

    def __init__(self, sources: Iterable[Source]) -> None:
        upright: list[Stretch[Strip]] = []
        level: list[Stretch[Strip]] = []
        self._open: list[Strip] = []
        for source in sources:
            for strip in _strips(source):
                if strip.ends is None or not isinstance(strip.half, Known):
                    self._open.append(strip)
                else:
                    low, high = strip.ends[0] - strip.half_most, strip.ends[1] + strip.half_most
                    (upright if strip.runs == "upright" else level).append(Stretch(low, high, strip))
        self.placed = [each.thing for each in (*upright, *level)]
        """Those of which the place is known."""
        self._upright, self._level = Nearest(upright), Nearest(level)

    def most_dangerous(self, hole: Hole) -> Strip | None:
        """The strip that leaves least clear of a hole; one of unknown place counts as touching it."""
        along, up = ends_of(hole.along), ends_of(hole.up)
        best, found = inf, None
        for index, here, on in ((self._upright, along, up), (self._level, up, along)):
            if here is not None:
                best, nearer = index.search(*here, _Away(hole, here, on), best)
                found = nearer or found
        if best <= 0.0 and found is not None:
            return found
        unplaced = [] if along is not None and up is not None else self.placed
        for strip in (*self._open, *unplaced):
            here, on = (along, up) if strip.runs == "upright" else (up, along)
            if (here is None or strip.ends is None or not isinstance(strip.half, Known)) and strip.reaches(on):
                return strip
        return found


class _Away:
    """How far a strip is from one hole; the plain ends settle it where neither place is in doubt."""

    __slots__ = ("_here", "_hole", "_on")

    def __init__(self, hole: Hole, here: tuple[float, float], on: tuple[float, float] | None) -> None:
        self._hole = hole
        self._here = here
        self._on = on

    def __call__(self, strip: Strip, best: float) -> float:
        low, high = self._here
        assert strip.ends is not None
        from_, to = strip.ends
        bound = max(low - to, from_ - high, 0.0) - strip.half_most
        if bound >= best or not strip.reaches(self._on):
            return inf
        return bound if low == high and from_ == to else strip.clear(self._hole)


def strip_fields(strips: StripsOfWall, hole: Hole, none_pointer: str) -> dict[str, Given]:
    """The fields of the strip most dangerous to a hole, for a row; without any strip only that there is none."""
    label = "whether a cable may run near it"
    nearest = strips.most_dangerous(hole)
    if nearest is None:
        return {"has_strip": reading.exactly(False, none_pointer, label)}
    gaps = nearest.gaps(hole.up if nearest.runs == "upright" else hole.along)
    source = nearest.source
    return {
        "has_strip": gaps or reading.exactly(True, source.pointer, label),
        "aside": gaps or nearest.aside(hole),
        "half_strip": nearest.half,
        "strip_of": reading.exactly(source.name, source.pointer, "point whose cable may run there"),
        "runs": reading.exactly(nearest.runs, source.pointer, "how the strip runs"),
    }


def _strips(source: Source) -> list[Strip]:
    """The upright and the level strip of a point, so far as its cable may run that way."""
    ways = source.ways
    found = []
    for runs, across, half, start, plate, onward, back in (
        ("upright", source.along, source.half_width, source.up, source.half_height, "up", "down"),
        ("level", source.up, source.half_height, source.along, source.half_width, "right", "left"),
    ):
        if onward in ways or back in ways:
            strip = Strip(
                source,
                runs,
                across,
                half,
                ends_of(across),
                _most(half),
                start,
                ends_of(start),
                _most(plate),
                onward in ways,
                back in ways,
            )
            found.append(strip)
    return found


def ends_of(value: Given) -> tuple[float, float] | None:
    """Both ends of a value; None where it is not known."""
    if not isinstance(value, Known) or value.low is None or value.high is None:
        return None
    return value.low, value.high


def _most(value: Given) -> float:
    return float(value.high or 0.0) if isinstance(value, Known) else 0.0
