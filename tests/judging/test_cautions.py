"""Standing cautions: by what is in a plan and by the year of the house, with the heaviest thing by name."""

from __future__ import annotations

from tests.measures.plans import site
from validator.judging.cautions import cautions, heaviest

UNITS = """
heights from: bare floor
ceiling: 2400
walls: {north: {length: 3000}, east: {length: 2500}}
kinds: {wall: {height: 720, depth: 300, hangers: {down: 30, in: 40}, weight: 30 kg/m}}
points: none
runs: {units: {against: north, tops: 2050 from bare floor, order: {W1: wall 600, W2: wall 900}}}
"""


def given(project: str) -> set[str]:
    return {caution.name for caution in cautions(site(UNITS, f"project: {{title: T, lengths in: mm, {project}}}"))}


def test_lead_pipes_and_asbestos_go_by_the_year_of_the_house() -> None:
    assert {"lead-pipe", "asbestos"} <= given("country: GB-ENG, built: 1955")
    assert "lead-pipe" not in given("country: GB-ENG, built: 1985")
    assert not {"lead-pipe", "asbestos"} & given("country: GB-ENG, built: 2005")


def test_a_house_of_unknown_age_is_taken_for_an_old_one() -> None:
    assert "asbestos-us" in given("country: US-OR")


def test_the_heaviest_unit_is_named_with_its_weight() -> None:
    at = site(UNITS)
    (lifting,) = [caution for caution in at.library.cautions if caution.name == "lifting-wall-units"]
    assert heaviest(at, lifting) == ("W2", 27.0)


def test_where_no_weight_is_known_nothing_is_named() -> None:
    at = site(UNITS.replace(", weight: 30 kg/m", ""))
    (lifting,) = [caution for caution in at.library.cautions if caution.name == "lifting-wall-units"]
    assert heaviest(at, lifting) is None
