"""Extract, exhaust and their ducts against published figures."""

from __future__ import annotations

import pytest

from tests.standards.by_hand import met, row
from validator.measures.services.air import DuctOutside, Extract

LITRE_A_SECOND = 1e6  # a flow is kept in cubic millimetres a second
CFM = 304.8**3 / 60


@pytest.mark.parametrize(("rate", "holds"), [(29.9, False), (30, True), (60, True)])
def test_hood_ducted_outside(rate: float, holds: bool) -> None:
    """Approved Document F, Volume 1 (2021), Tables 1.1 and 1.2: 30 l/s intermittent, hood ducted outside. Secondary."""
    hood = row(Extract, hood=True, ducted=True, rate=rate * LITRE_A_SECOND)
    assert met("GB-ENG", "extract-rate-of-a-hood", hood) is holds


@pytest.mark.parametrize(("rate", "holds"), [(30, False), (59.9, False), (60, True)])
def test_fan_without_a_ducted_hood(rate: float, holds: bool) -> None:
    """Approved Document F, Volume 1 (2021), Tables 1.1 and 1.2: 60 l/s where no hood is ducted outside. Secondary."""
    fan = row(Extract, hood=False, ducted=True, ducted_hood=False, rate=rate * LITRE_A_SECOND)
    assert met("GB-ENG", "extract-rate-of-a-fan", fan) is holds


@pytest.mark.parametrize(("rate", "holds"), [(99, False), (100, True)])
def test_exhaust_in_the_united_states(rate: float, holds: bool) -> None:
    """IRC M1505.4.4: 100 cfm intermittent in kitchens. Secondary."""
    assert met("US", "exhaust-rate", row(Extract, hood=True, ducted=True, rate=rate * CFM)) is holds


@pytest.mark.parametrize(("bends", "length"), [(0, 4000), (1, 2800), (2, 1600), (3, 400)])
def test_a_bend_takes_more_than_a_metre(bends: float, length: float) -> None:
    """Common practice: 4 m of straight duct, and 1.0 to 1.2 m for each right-angled bend of 150 mm rigid duct."""
    assert met("GB-ENG", "duct-short-enough", row(DuctOutside, length=length, bends=bends))
    assert not met("GB-ENG", "duct-short-enough", row(DuctOutside, length=length + 1, bends=bends))
