"""Coats of paint in order, and the plaster under them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.rows import (
    TERM,
    YES_NO,
    Given,
    Known,
    LeftOut,
    Missing,
    Row,
    Rows,
    Subject,
    Why,
    Words,
    given,
)
from validator.plan.dimensions import MOISTURE, NUMBER, WATER_ADDED
from validator.plan.pointers import join

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.plan import Plan
    from validator.plan.sections.work import Coat as CoatWritten
    from validator.plan.sections.work import Coating


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


def coats(site: Site) -> Rows:
    """A row for each coat of each paint system, in the order of painting."""
    plan = site.plan
    if plan.coatings.left_out:
        return Rows(left_out=[LeftOut(Coat.kind, Missing("/coatings", "coats of paint"))])
    found = Rows()
    for name, coating in plan.coatings.items():
        if not coating.coats:
            missing = Missing(coating.pointer_to("coats"), f"coats of {name}")
            found.left_out.append(LeftOut(Coat.kind, missing))
            continue
        water = [reading.read(coat, "water", f"water in coat {number}") for number, coat in enumerate(coating.coats, 1)]
        thinned = _any_thinned(water, coating)
        for number, coat in enumerate(coating.coats, 1):
            values: dict[str, Given] = {
                "number": reading.exactly(number, coat.pointer, "number of the coat"),
                "first": reading.exactly(number == 1, coat.pointer, "whether it is the first"),
                "any_thinned": thinned,
                "water": water[number - 1],
                "on": _on(coating),
                "maker_water": _maker_water(plan, name, coat),
            }
            if number > 1:
                values["water_below"] = water[number - 2]
            subject = Subject(f"{name}, coat {number}", coat.pointer, _context(coating))
            found.rows.append(Coat(subject, **values))
    return found


def surfaces_to_paint(site: Site) -> Rows:
    """A row for each paint system: the surface it goes on."""
    plan = site.plan
    if plan.coatings.left_out:
        return Rows(left_out=[LeftOut(SurfaceToPaint.kind, Missing("/coatings", "coats of paint"))])
    return Rows([_surface(name, coating) for name, coating in plan.coatings.items()])


def _surface(name: str, coating: Coating) -> Row:
    moisture = coating.moisture
    at = coating.pointer_to("moisture")
    count = coating.pointer_to("coats")
    return SurfaceToPaint(
        Subject(name, coating.pointer, _context(coating)),
        on=_on(coating),
        reading=reading.read(moisture, "reading", "moisture") if moisture else Missing(at, "moisture"),
        meter=reading.word(moisture.meter, moisture.pointer_to("meter"), "meter") if moisture else Missing(at, "meter"),
        coats=(
            reading.exactly(len(coating.coats), count, "number of coats")
            if coating.coats
            else Missing(count, "number of coats")
        ),
    )


def _context(coating: Coating) -> str:
    names = coating.walls or ()
    if not names:
        return ""
    if len(names) == 1:
        return "all walls" if names[0] == "all" else f"{names[0]} wall"
    return f"{', '.join(names[:-1])} and {names[-1]} walls"


def _on(coating: Coating) -> Given:
    return reading.word(coating.on, coating.pointer_to("on"), "what is painted")


def _any_thinned(water: list[Given], coating: Coating) -> Given:
    """True as soon as one coat is known to be thinned; false only when every coat is known to be neat."""
    known = [value for value in water if isinstance(value, Known)]
    label = "whether any coat of the system is thinned"
    if any((value.low or 0.0) > 0 for value in known):
        return reading.exactly(True, coating.pointer_to("coats"), label)
    if len(known) < len(water):
        return tuple(value for value in water if isinstance(value, Missing))
    if any((value.high or 0.0) > 0 for value in known):
        return Missing(coating.pointer_to("coats"), label, Why.UNCLEAR)
    return reading.exactly(False, coating.pointer_to("coats"), label)


def _maker_water(plan: Plan, name: str, coat: CoatWritten) -> Given:
    from validator.plan.sections.appliances import PaintPapers

    label = "water the maker asks for in a first coat"
    for stated_as in (coat.product, name):
        papers = plan.stated.get(stated_as) if stated_as else None
        if isinstance(papers, PaintPapers):
            return reading.quantity(papers.first_coat, papers.pointer_to("first_coat"), label, absent=Why.UNREAD)
    return Missing(join(plan.stated.pointer, coat.product or name), label, Why.UNREAD)
