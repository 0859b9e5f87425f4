"""Coats of paint in order, and the plaster under them."""

from __future__ import annotations

from validator.measures.rows import TERM, YES_NO, Row, Words, given
from validator.plan.dimensions import MOISTURE, NUMBER, WATER_ADDED


class Coat(Row, kind="coat"):
    """One coat of a paint system: water added to it and to the coat below, as a share of the paint."""

    number: float = given(NUMBER, "number of the coat")
    first: bool = given(YES_NO, "whether it is the first")
    any_thinned: bool = given(YES_NO, "whether any coat of the system is thinned")
    water: float = given(WATER_ADDED, "water added")
    water_below: float = given(WATER_ADDED, "water added to the coat below")
    on: str = given(TERM, "what is painted")
    maker_water: float = given(WATER_ADDED, "water the maker asks for in a first coat")


class SurfaceToPaint(Row, kind="surface to paint"):
    """A surface before its first coat, with its moisture by the meter that read it."""

    on: str = given(TERM, "what is painted")
    reading: float = given(MOISTURE, "moisture")
    meter: str = given(Words(("hygrometer", "carbide", "pin meter", "gypsum scale")), "meter")
    coats: float = given(NUMBER, "number of coats")
