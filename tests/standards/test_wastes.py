"""Wastes and drains against published tables."""

from __future__ import annotations

import pytest

from tests.standards.by_hand import cell, met, row
from validator.measures.services.wastes import Drop, Waste

INCH = 25.4
FOOT = 12 * INCH


def waste(pipe: float, length: float, slope: float) -> Waste:
    """A waste without a vent of its own."""
    return row(Waste, appliance="sink", pipe=pipe, length=length, slope=slope, vented=False)


@pytest.mark.parametrize("country", ["GB-ENG", "GB-SCT"])
@pytest.mark.parametrize(("pipe", "longest"), [(40, 3000), (50, 4000)])
def test_longest_branch(country: str, pipe: float, longest: float) -> None:
    """Approved Document H (2015), Diagram 3, and City & Guilds Plumbing Book 1, Table 9.1: 3 m at 40 mm, 4 m at 50.
    Secondary.
    """
    assert met(country, "waste-length", waste(pipe, longest, 0.02))
    assert not met(country, "waste-length", waste(pipe, longest + 1, 0.02))


@pytest.mark.parametrize(("slope", "holds"), [(17.9, False), (18, True), (50, True), (90, True), (90.1, False)])
def test_fall_of_a_branch(slope: float, holds: bool) -> None:
    """Approved Document H (2015), Diagram 3: 18 to 90 mm in a metre. Secondary."""
    assert met("GB-ENG", "waste-fall", waste(40, 2000, slope / 1000)) is holds


def test_least_drop_of_the_longest_branch() -> None:
    """The same diagram: 3 m at 18 mm in a metre drop by 54 mm. Arithmetic on it."""
    branch = row(Drop, drop=54, length=3000)
    assert met("GB-ENG", "waste-fall", waste(40, 3000, branch.fall))
    assert not met("GB-ENG", "waste-fall", waste(40, 3000, row(Drop, drop=53, length=3000).fall))


def test_kitchen_wastes_have_forty_millimetres() -> None:
    """Approved Document H (2015), Table 1: trap of 40 mm for sink, dishwasher and washing machine. Secondary."""
    assert met("GB-ENG", "waste-bore", waste(40, 1000, 0.02))
    assert not met("GB-ENG", "waste-bore", waste(32, 1000, 0.02))


@pytest.mark.parametrize(("bore", "feet"), [(1.25, 5), (1.5, 6), (2, 8), (3, 12), (4, 16)])
def test_american_trap_arms(bore: float, feet: float) -> None:
    """International Residential Code (2021), Table P3105.1. Secondary."""
    assert cell("US", "longest-branch", "longest", pipe=bore * INCH) == pytest.approx(feet * FOOT)


@pytest.mark.parametrize("bore", [1.5, 2])
def test_an_american_arm_falls_by_its_own_bore_at_most(bore: float) -> None:
    """IPC 909.1 and 909.2 as quoted in a plumbing code forum: at 1/4 in a foot the longest arm of 1-1/2 and of 2 in
    falls by its own bore. Secondary.
    """
    longest = cell("US", "longest-branch", "longest", pipe=bore * INCH)
    assert longest is not None
    assert row(Drop, drop=bore * INCH, length=longest).fall == pytest.approx(1 / 48)


def test_american_slope_of_a_small_drain() -> None:
    """International Plumbing Code, 704.1, as adopted by Chicago: 1/4 in a foot (20.8 mm in a metre) up to 2-1/2 in.
    Primary.
    """
    assert met("US", "waste-fall", waste(1.5 * INCH, 1000, 0.25 / 12))
    assert not met("US", "waste-fall", waste(1.5 * INCH, 1000, 0.0207))


@pytest.mark.parametrize(("slope", "holds"), [(1 / 48, True), (1 / 40, False)])
def test_an_american_arm_that_falls_by_more_than_its_bore_is_reported(slope: float, holds: bool) -> None:
    """IPC and IRC as trade pages give them: an arm falls by one pipe diameter at most; 6 ft of 1-1/2 in do at 1/4 in a
    foot. Secondary.
    """
    assert met("US", "trap-arm-falls-little", waste(1.5 * INCH, 6 * FOOT, slope)) is holds


@pytest.mark.parametrize(("country", "least"), [("CA", 0.02), ("AU", 0.025), ("DE", 0.01)])
def test_least_fall_elsewhere(country: str, least: float) -> None:
    """National Plumbing Code of Canada 1 in 50, AS/NZS 3500.2 1 in 40, DIN 1986-100 1 cm in a metre. From memory."""
    assert met(country, "waste-fall", waste(50, 2000, least))
    assert not met(country, "waste-fall", waste(50, 2000, least - 0.0003))


def test_longest_german_branch() -> None:
    """DIN 1986-100: 4 m without a vent. From memory."""
    assert met("DE", "waste-length", waste(50, 4000, 0.02))
    assert not met("DE", "waste-length", waste(50, 4001, 0.02))
