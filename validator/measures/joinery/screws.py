"""Screws of the joinery: each sort with its holes and edges, and those that hold worktops down."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.room.walls import named_gap
from validator.measures.rows import (
    TERM,
    YES_NO,
    Given,
    Known,
    Missing,
    Row,
    Rows,
    Subject,
    Why,
    Words,
    figure,
    given,
)
from validator.plan.dimensions import LENGTH, NUMBER
from validator.plan.names import fold
from validator.plan.units import screw_diameter
from validator.plan.values import NothingStated

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.plan import Plan
    from validator.plan.sections.furniture import Worktop
    from validator.plan.sections.joinery import Screws

CORE = 2 / 3
"""The core of a wood screw is about two thirds of its shank (Wood Handbook, chapter 8)."""

WORKTOPS = "worktops"

_NUMBERED = re.compile(r"no[. _-]*(\d{1,2})")


class ScrewOfJoinery(Row, kind="screw of the joinery"):
    """A sort of screw that holds wood or board together, with its holes; a pilot of 0 is none."""

    type: str = given(TERM, "kind of screw")
    diameter: float = given(LENGTH, "screw")
    length: float = given(LENGTH, "long")
    says_through: bool = given(YES_NO, "whether the plan says what it passes first")
    through: float = given(LENGTH, "what it passes first")
    into: str = given(TERM, "what holds it")
    enters: str = given(Words(("face", "edge")), "whether it enters the face or the edge")
    pilot: float = given(LENGTH, "pilot hole")
    pilot_depth: float = given(LENGTH, "depth of the pilot hole")
    clearance: float = given(LENGTH, "clearance hole")
    from_edge: float = given(LENGTH, "screw to the edge")
    from_corner: float = given(LENGTH, "screw to the corner")

    @figure(LENGTH, "core of the screw")
    def core(self) -> float:
        return self.diameter * CORE

    @figure(LENGTH, "diameter of the pilot hole")
    def pilot_width(self) -> float:
        return self.pilot

    @figure(NUMBER, "pilot hole as a part of the core")
    def pilot_of_core(self) -> float:
        return self.pilot / self.core

    @figure(LENGTH, "screw in what holds it", start="face of what holds it", end="tip of the screw")
    def held(self) -> float:
        return self.length - self.through

    @figure(NUMBER, "part of the screw in what holds it")
    def part_held(self) -> float:
        return self.held / self.length

    @figure(LENGTH, "pilot hole past the tip", start="tip of the screw", end="end of the pilot hole")
    def pilot_past_tip(self) -> float:
        return self.pilot_depth - self.held


class ScrewInWorktop(Row, kind="screw in a worktop"):
    """A screw driven up through a rail or bracket into a worktop."""

    material: str = given(TERM, "material of the worktop")
    type: str = given(TERM, "kind of screw")
    length: float = given(LENGTH, "long")
    through: float = given(LENGTH, "rail or bracket")
    thickness: float = given(LENGTH, "worktop")

    @figure(LENGTH, "worktop left over the tip", start="tip of the screw", end="surface of the worktop")
    def left_over(self) -> float:
        return self.through + self.thickness - self.length

    @figure(LENGTH, "screw in the worktop", start="underside of the worktop", end="tip of the screw")
    def held(self) -> float:
        return self.length - self.through


def screws_of_joinery(site: Site) -> Rows:
    """A row for each sort of screw that the plan names."""
    return Rows([_screw(name, screws) for name, screws in site.plan.screws.items()])


def _screw(name: str, screws: Screws) -> Row:
    return ScrewOfJoinery(
        Subject(name, screws.pointer, f"for {' and '.join(screws.for_)}"),
        type=_type_or_plain(screws),
        diameter=diameter(screws),
        length=length(screws),
        says_through=reading.exactly(screws.through is not None, screws.pointer, "what it passes first"),
        through=reading.read(screws, "through", "what it passes first"),
        into=reading.word(screws.into, screws.pointer_to("into"), "what holds it"),
        enters=reading.word(screws.in_, screws.pointer_to("in_"), "face or edge"),
        pilot=_or_none(screws, "pilot", "pilot hole"),
        pilot_depth=reading.read(screws, "pilot_depth", "depth of the pilot hole"),
        clearance=reading.read(screws, "clearance", "clearance hole"),
        from_edge=reading.read(screws, "from_edge", "screw to the edge"),
        from_corner=reading.read(screws, "from_corner", "screw to the corner"),
    )


def _or_none(screws: Screws, field: str, label: str) -> Given:
    value = getattr(screws, field)
    if isinstance(value, NothingStated):
        return reading.exactly(0, screws.pointer_to(field), label, "there is none")
    return reading.quantity(value, screws.pointer_to(field), label)


def _type_or_plain(screws: Screws) -> Given:
    """What sort of screw it is; one written as a size alone is an ordinary screw."""
    if screws.screw is not None and screws.screw.type is None:
        return reading.exactly("screw", screws.screw.pointer, "kind of screw", "no sort is said")
    return screw_type(screws)


def screw_type(screws: Screws) -> Given:
    """What sort of screw it is."""
    if screws.screw is None:
        return Missing(screws.pointer_to("screw"), "screw")
    return reading.word(screws.screw.type, screws.screw.pointer_to("type"), "kind of screw")


def length(screws: Screws) -> Given:
    """How long a screw is."""
    if screws.screw is None:
        return Missing(screws.pointer_to("screw"), "screw")
    return named_gap(reading.read(screws.screw, "length", "long"), "length of the screw")


def diameter(screws: Screws) -> Given:
    """How thick a screw is, also by its number."""
    screw = screws.screw
    if screw is None:
        return Missing(screws.pointer_to("screw"), "screw")
    if screw.diameter is not None or screw.gauge is None:
        return reading.read(screw, "diameter", "screw")
    pointer = screw.pointer_to("gauge")
    numbered = _NUMBERED.fullmatch(fold(screw.gauge))
    if numbered is None:
        return Missing(pointer, "screw", Why.UNCLEAR, detail=f"{screw.gauge} is no number of a screw, as `no. 8`")
    return reading.exactly(screw_diameter(int(numbered[1])), pointer, "screw", screw.gauge)


def screws_for(plan: Plan, *names: str) -> Screws | None:
    """The screws for one of the names, the first name that any are for."""
    for name in names:
        for screws in plan.screws.values():
            if fold(name) in map(fold, screws.for_):
                return screws
    return None


def screws_in_worktops(site: Site) -> Rows:
    """A row for each worktop that screws hold, or of which nobody says what holds it; stone takes none."""
    plan = site.plan
    rows = Rows()
    for name, top in plan.worktops.items():
        screws = screws_for(plan, name, WORKTOPS)
        if screws is not None or _may_be_screwed(site, top):
            rows.rows.append(_in_worktop(plan, name, top, screws))
    return rows


def _may_be_screwed(site: Site, top: Worktop) -> bool:
    """Whether a worktop that no screws are for may still be held by some: nobody says that it is glued, or of stone."""
    groups = site.library.groups
    said = [fold(word) for word in (top.material, top.held_by) if isinstance(word, str)]
    return not any(word in groups["worktops_without_screws"] | groups["held_by_glue"] for word in said)


def _in_worktop(plan: Plan, name: str, top: Worktop, screws: Screws | None) -> Row:
    nothing = Missing(plan.screws.pointer, "screws that hold worktops", Why.LEFT_OUT)
    held: dict[str, Given] = {
        "type": nothing if screws is None else screw_type(screws),
        "length": nothing if screws is None else length(screws),
        "through": nothing if screws is None else reading.read(screws, "through", "rail or bracket"),
    }
    return ScrewInWorktop(
        Subject(name, top.pointer, top.on),
        material=reading.word(top.material, top.pointer_to("material"), f"material of {name}"),
        thickness=named_gap(reading.read(top, "thickness", name), f"thickness of {name}"),
        **held,
    )


def known_number(value: Given) -> float | None:
    """The number a value stands for, where it is known."""
    return float(value.value) if isinstance(value, Known) else None
