"""Heights for those who use them, against what guidance publishes, in millimetres."""

from __future__ import annotations

import pytest

from tests.standards.by_hand import cell, met, row
from validator.measures.heights.household import OvenForSeated, WorktopForCook, WorktopForSeated

INCH = 25.4


@pytest.mark.parametrize(("below", "suits"), [(99, False), (100, True), (150, True), (151, False)])
def test_a_worktop_lies_a_hand_below_the_bent_elbow(below: float, suits: bool) -> None:
    """German ergonomics guidance: preparation 100 to 150 below the bent elbow. Secondary."""
    top = row(WorktopForCook, has_elbow=True, elbow=1050, height=1050 - below, has_hob=True, has_sink=True)
    assert met("GB", "worktop-below-the-elbow", top) is suits


@pytest.mark.parametrize(("body", "worktop"), [(1550, 850), (1600, 900), (1700, 950), (1800, 1000), (1900, 1060)])
def test_worktops_by_how_tall_a_cook_is(body: float, worktop: float) -> None:
    """The same guidance by body height: 155 cm 85, 160 cm 90, 170 cm 95, 180 cm 100, 190 cm 106. Secondary."""
    assert cell("GB", "worktop-by-body", "worktop", body=body) == worktop


def test_a_wheelchair_worktop_in_britain() -> None:
    """BS 8300:2009, 12.1, as an accessibility guide lists it: worktop at 760, knees 700 clear. Secondary."""
    low = row(WorktopForSeated, heights=(900, 760), undersides=(870, 700))
    assert (low.lowest, low.knees) == (760, 700)
    assert met("GB", "worktop-for-somebody-seated", low)
    assert met("GB", "room-for-the-knees", low)


@pytest.mark.parametrize(("controls", "reached"), [(699, False), (700, True), (1050, True), (1051, False)])
def test_oven_controls_for_somebody_seated(controls: float, reached: bool) -> None:
    """BS 8300:2009, 12.1: oven controls between 700 and 1050. Secondary."""
    oven = row(OvenForSeated, sort="oven", base=controls - 595, body=595)
    assert met("GB", "oven-controls-within-reach", oven) is reached


def test_a_microwave_for_somebody_seated() -> None:
    """BS 8300:2009, 12.1: base of a microwave no higher than 850. Secondary."""
    assert met("GB", "microwave-within-reach", row(OvenForSeated, sort="microwave", base=850, body=390))
    assert not met("GB", "microwave-within-reach", row(OvenForSeated, sort="microwave", base=852, body=390))


def test_an_american_work_surface_for_somebody_seated() -> None:
    """2010 ADA Standards, 804: work surface no higher than 34 in. Secondary, the aligned standards of a state."""
    low = row(WorktopForSeated, heights=(34 * INCH,), undersides=(32 * INCH,))
    assert met("US", "worktop-for-somebody-seated", low)
    assert not met("US", "worktop-for-somebody-seated", row(WorktopForSeated, heights=(34.1 * INCH,)))
