"""A fixing by its parts: what kind it is, its plug, its screw and its hole, and what its maker says of it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.room.walls import worked
from validator.measures.rows import Given, Missing, Row, Subject, Why, figure, given
from validator.plan.dimensions import LENGTH, NUMBER
from validator.plan.elements import Element
from validator.plan.names import fold
from validator.plan.pointers import join
from validator.plan.values import ToFind

if TYPE_CHECKING:
    from validator.plan.plan import Plan
    from validator.plan.sections.work import Fixing
    from validator.reference.library import Library

_GAUGE = re.compile(r"no[. _-]*(\d+)", re.IGNORECASE)


class PackedFixture(Row, kind="fixture on packers"):
    """What a fixing passes in front of the wall: a rail, bracket or batten, and the packers behind it."""

    fixture: float = given(LENGTH, "fixture")
    packers: float = given(LENGTH, "packers")

    @figure(LENGTH, "fixture and packers", start="head of the fixing", end="face of the wall")
    def in_front(self) -> float:
        return self.fixture + self.packers


class GaugedScrew(Row, kind="screw with a gauge"):
    """The diameter of a screw from its gauge: 0.060 in, and 0.013 in for each number (ASME B18.6.1)."""

    number: float = given(NUMBER, "gauge")
    nought: float = given(LENGTH, "diameter of gauge nought")
    step: float = given(LENGTH, "more for each number")

    @figure(LENGTH, "diameter of the screw")
    def diameter(self) -> float:
        return self.nought + self.number * self.step


def kind_of(fixing: Fixing) -> str | Missing:
    """A frame fixing, a plug with a screw of its own, or a wood screw."""
    if fixing.plug is None:
        return "wood screw" if fixing.screw is not None else Missing(fixing.pointer, "plug or screw")
    if "frame" in fold(fixing.plug.type or "").split():
        return "frame fixing"
    if fixing.screw is not None or fixing.plug.type is not None:
        return "plug and screw"
    return Missing(fixing.pointer_to("plug"), "type of the plug")


def part(fixing: Fixing, part: str, field: str, label: str) -> Given:
    """A figure of the plug, the screw or the hole, or that the fixing says nothing of it."""
    element: Element | None = getattr(fixing, part)
    if element is None:
        return Missing(fixing.pointer_to(part), part)
    return reading.read(element, field, label)


def in_front(fixing: Fixing, subject: Subject) -> Given:
    """What a fixing passes before the wall: its fixture, and packers where the plan says that there are any."""
    fixture = reading.read(fixing, "through", "rail" if fixing.at == "hangers" else "fixture")
    if fixing.packers is None:
        return fixture
    packers = reading.read(fixing, "packers", "packers")
    return worked(PackedFixture(subject, fixture=fixture, packers=packers), "in_front", "fixture and packers")


def through_metal(library: Library, fixing: Fixing) -> Given:
    """Whether what a fixing passes is a rail or bracket of metal, which the plan says where it is one."""
    pointer, label = fixing.pointer_to("fixture"), "whether what it passes is of metal"
    if fixing.fixture is None:
        return reading.exactly(False, fixing.pointer, label)
    if isinstance(fixing.fixture, ToFind):
        return Missing(pointer, label, Why.TO_FIND, fixing.fixture.by)
    return reading.exactly(fold(fixing.fixture) in library.groups["metal_fixtures"], pointer, label)


def screw_type(fixing: Fixing) -> Given:
    """What sort of screw it is, as its box says."""
    if fixing.screw is None:
        return Missing(fixing.pointer_to("screw"), "screw")
    return reading.word(fixing.screw.type, fixing.screw.pointer_to("type"), "kind of screw")


def screw_diameter(fixing: Fixing, subject: Subject) -> Given:
    """The diameter of the screw, from its gauge where it has one."""
    gauge = _GAUGE.fullmatch(fixing.screw.gauge or "") if fixing.screw is not None else None
    if fixing.screw is None or gauge is None:
        return part(fixing, "screw", "diameter", "diameter of the screw")
    pointer = fixing.screw.pointer_to("gauge")
    row = GaugedScrew(
        subject,
        number=reading.exactly(float(gauge[1]), pointer, "gauge"),
        nought=reading.exactly(1.524, pointer, "gauge nought", "0.060 in"),
        step=reading.exactly(0.3302, pointer, "for each number", "0.013 in"),
    )
    return worked(row, "diameter", "diameter of the screw")


def maker_says(plan: Plan, name: str, fixing: Fixing, field: str, label: str) -> Given:
    """What the maker's paper gives, under the name of the fixing or of its plug; unread where there is none."""
    from validator.plan.sections.appliances import PlugPapers

    for stated_as in (name, fixing.plug.type if fixing.plug is not None else None):
        papers = plan.stated.get(stated_as) if stated_as else None
        if isinstance(papers, PlugPapers):
            return reading.quantity(getattr(papers, field), papers.pointer_to(field), label, absent=Why.UNREAD)
    return Missing(join(plan.stated.pointer, name), label, Why.UNREAD)


def into(fixing: Fixing) -> str | Missing:
    """The layer a fixing is meant for, '' for the first that carries. A screw alone needs wood, and must say which."""
    label = "what it goes into"
    if isinstance(fixing.into, ToFind):
        return Missing(fixing.pointer_to("into"), label, Why.TO_FIND, fixing.into.by)
    if fixing.into is None and fixing.plug is None and fixing.screw is not None:
        return Missing(fixing.pointer_to("into"), label, Why.LEFT_OUT, detail="studs, noggins or board?")
    return fold(fixing.into or "")
