"""Sag, overhang and weight of worktops against published formulas and a library for frames."""

from __future__ import annotations

from typing import Any

import pytest
from Pynite import FEModel3D

from tests.standards.by_hand import cell, met, row
from validator.measures.worktops.beams import at_edge_of_overhang, at_middle_of_span, spread_on_overhang, spread_on_span
from validator.measures.worktops.masses import WorktopToCarry
from validator.measures.worktops.overhangs import Overhang
from validator.measures.worktops.spans import WorktopOverOpening

CHIPBOARD = 1200 * 1000.0
"""E of chipboard P2 of 32 to 40 mm in base units, 1200 N/mm²; 1 N/mm² is 1000 kg/(mm·s²)."""

NEWTON = 1000.0


def top_of_chipboard(span: float) -> WorktopOverOpening:
    """A laminate top of 38 mm, 600 mm deep, over an opening, under 50 kg/m² and 1000 N."""
    return row(
        WorktopOverOpening,
        span=span,
        material="laminate",
        thickness=38,
        depth=600,
        density=650e-9,
        stiffness=CHIPBOARD,
        creep=2.25,
        in_use=50e-6,
        person=1000 * NEWTON,
        gravity=9810,
        support="nothing",
        has_makers_span=False,
        longest_span=900,
    )


def test_a_laminate_top_over_one_machine_keeps_two_millimetres() -> None:
    """American Wood Council Design Aid 6 for the formulas (secondary); EN 312 P2 for E, of 32 to 40 mm from memory;
    Eurocode 5 table 3.2 for creep (secondary). 0.225 mm at first, 0.73 mm in time, 1.37 mm under 1000 N.
    """
    top = top_of_chipboard(600)
    assert top.sag_at_first == pytest.approx(0.225, abs=0.0005)
    assert top.sag_in_time == pytest.approx(0.73, abs=0.005)
    assert top.sag_under_a_person == pytest.approx(1.37, abs=0.005)
    assert met("GB-ENG", "worktop-sag-in-time", top)
    assert met("GB-ENG", "worktop-sag-under-a-person", top)


def test_two_machines_side_by_side_without_a_panel_are_too_far() -> None:
    """As above: 3.61 mm at first, 11.7 mm in time, 10.9 mm under 1000 N."""
    top = top_of_chipboard(1200)
    assert top.sag_at_first == pytest.approx(3.61, abs=0.01)
    assert top.sag_in_time == pytest.approx(11.7, abs=0.05)
    assert top.sag_under_a_person == pytest.approx(10.9, abs=0.1)
    assert not met("GB-ENG", "worktop-sag-in-time", top)
    assert not met("GB-ENG", "worktop-sag-under-a-person", top)
    assert not met("GB-ENG", "worktop-span-within-its-strength", top)


SPANS = [
    # material, thickness in mm, longest span in mm
    ("granite", 20, 609.6),
    ("quartz", 20, 609.6),
    ("quartz", 30, 914.4),
    ("laminate", 38, 900),
]


@pytest.mark.parametrize(("material", "thickness", "span"), SPANS)
def test_support_spacing(material: str, thickness: float, span: float) -> None:
    """Stone: the rule of the US trade body as fabricators quote it, 2 ft at 20 mm and 3 ft at 30 mm; laminate: up to
    900 mm, trade reference (both secondary).
    """
    assert cell("GB-ENG", "span-between-supports", "longest", material=material, thickness=thickness) == (
        pytest.approx(span)
    )


CREEP = [("laminate", 2.25), ("MDF", 2.25), ("oak", 0.6), ("birch plywood", 0.8), ("granite", None)]


@pytest.mark.parametrize(("material", "creep"), CREEP)
def test_creep(material: str, creep: float | None) -> None:
    """EN 1995-1-1 table 3.2, service class 1 (secondary): P4 chipboard, MDF.LA, timber, plywood."""
    assert cell("GB-ENG", "creep-factor", "creep", material=material) == creep


def bar_of_chipboard(overhang: float) -> Overhang:
    """A laminate bar of 38 mm, 500 N on 600 mm of its edge."""
    return row(
        Overhang,
        overhang=overhang,
        edge=2000,
        material="laminate",
        thickness=38,
        stiffness=CHIPBOARD,
        at_edge=500 * NEWTON,
        strip=600,
        support="nothing",
        has_makers_overhang=False,
    )


def test_a_breakfast_bar_of_chipboard_keeps_two_millimetres_at_three_hundred() -> None:
    """American Wood Council Design Aid 6, P L³ / 3 E I (secondary): 1.37 mm at 300, 4.61 mm at 450."""
    assert bar_of_chipboard(300).sag == pytest.approx(1.37, abs=0.005)
    assert bar_of_chipboard(450).sag == pytest.approx(4.61, abs=0.01)
    assert met("GB-ENG", "edge-of-an-overhang-firm", bar_of_chipboard(300))
    assert not met("GB-ENG", "edge-of-an-overhang-firm", bar_of_chipboard(450))


STONE = [
    # thickness, width of the top, overhang, within the rule
    (20, 900, 152, True),
    (20, 900, 300, False),
    (30, 900, 254, True),
    (30, 900, 256, False),
    (30, 600, 200, True),
    (30, 600, 202, False),
]


@pytest.mark.parametrize(("thickness", "width", "overhang", "within"), STONE)
def test_overhang_of_stone(thickness: float, width: float, overhang: float, within: bool) -> None:
    """Dimension Stone Design Manual as fabricators quote it (secondary): 6 in at 20 mm, 10 in at 30 mm, never more than
    a third of the width.
    """
    longest = cell("GB-ENG", "free-overhang", "overhang", material="granite", thickness=thickness)
    assert longest is not None
    bar = row(Overhang, overhang=overhang, width=width, material="granite", longest=longest, support="nothing")
    assert met("GB-ENG", "stone-overhang-held", bar) is within


MASSES = [("laminate", 38, 44.5), ("granite", 30, 145.8), ("quartz", 20, 86.4)]


@pytest.mark.parametrize(("material", "thickness", "mass"), MASSES)
def test_mass_of_a_worktop(material: str, thickness: float, mass: float) -> None:
    """3000 x 600 at the densities of practice, 650, 2700 and 2400 kg/m³ (memory: plain arithmetic)."""
    density = cell("GB-ENG", "top-density", "density", material=material)
    assert density is not None
    top = row(WorktopToCarry, start=0, end=3000, depth=600, thickness=thickness, density=density)
    assert top.mass == pytest.approx(mass, abs=0.05)


TEAMS = [(1, 25, True), (1, 26, False), (2, 33, True), (2, 35, False), (3, 37, True), (3, 38, False)]


@pytest.mark.parametrize(("persons", "mass", "within"), TEAMS)
def test_what_a_team_can_lift(persons: float, mass: float, within: bool) -> None:
    """HSE L23, team handling (secondary): of 25 kg each, two manage two thirds of the sum, three a half."""
    size = {"start": 0.0, "end": 1000.0, "depth": 1000.0, "thickness": 1.0}
    top = row(WorktopToCarry, **size, density=mass * 1e-6, persons=persons, by_hand=True)
    assert met("GB-ENG", "worktop-carried-by-enough", top) is within


STRIPS = [
    # E in N/mm², width and thickness in mm, spread load in kg/m², force in N
    (1200, 600, 38, 75, 1000),
    (12400, 640, 27, 78, 1000),
    (826, 600, 40, 78, 500),
    (9000, 900, 12, 68, 750),
    (30000, 600, 20, 98, 1000),
    (40000, 1200, 30, 131, 500),
]


@pytest.mark.parametrize("strip", STRIPS)
@pytest.mark.parametrize("length", [150, 300, 600, 914, 1200])
def test_sag_agrees_with_a_frame_by_finite_elements(strip: tuple[float, ...], length: float) -> None:
    """PyNite (a library for frames, primary) with one member of the same section, in N and mm."""
    stiffness, width, thickness, spread, force = strip
    pressure = spread * 1e-6 * 9806.65
    line = pressure / 1000 * width
    e, p = stiffness * 1000, force * NEWTON
    assert spread_on_span(pressure, length, e, thickness) == pytest.approx(span_bends(strip, length, line=line), 1e-5)
    assert at_middle_of_span(p, length, e, width, thickness) == pytest.approx(
        span_bends(strip, length, force=force), 1e-5
    )
    assert spread_on_overhang(pressure, length, e, thickness) == pytest.approx(
        overhang_bends(strip, length, line=line), 1e-5
    )
    assert at_edge_of_overhang(p, length, e, width, thickness) == pytest.approx(
        overhang_bends(strip, length, force=force), 1e-5
    )


def span_bends(strip: tuple[float, ...], length: float, *, line: float = 0, force: float = 0) -> float:
    """The middle of a span on a pin and a roller."""
    model = frame(strip, (0, length / 2, length))
    model.def_support("N0", True, True, True, True, False, False)
    model.def_support("N2", False, True, True, False, False, False)
    return bends(model, "N1", line, force)


def overhang_bends(strip: tuple[float, ...], length: float, *, line: float = 0, force: float = 0) -> float:
    """The free end of a member built in at the other."""
    model = frame(strip, (0, length))
    model.def_support("N0", True, True, True, True, True, True)
    return bends(model, "N1", line, force)


def frame(strip: tuple[float, ...], places: tuple[float, ...]) -> Any:
    stiffness, width, thickness, *_ = strip
    model = FEModel3D()
    model.add_material("top", stiffness, stiffness / 2.5, 0.25, 1e-9)
    inertia = width * thickness**3 / 12
    model.add_section("strip", width * thickness, thickness * width**3 / 12, inertia, inertia)
    for number, place in enumerate(places):
        model.add_node(f"N{number}", place, 0, 0)
    for number in range(len(places) - 1):
        model.add_member(f"M{number}", f"N{number}", f"N{number + 1}", "top", "strip")
    return model


def bends(model: Any, at: str, line: float, force: float) -> float:
    """How far a node comes down under a load along all members and a force at that node."""
    for member in model.members:
        model.add_member_dist_load(member, "Fy", -line, -line)
    model.add_node_load(at, "FY", -force)
    model.analyze_linear()
    return -float(model.nodes[at].DY["Combo 1"])
