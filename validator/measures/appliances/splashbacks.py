"""What is behind a hob: its material, what that is fixed on, how high it comes and how far it is from the burners."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import (
    FUEL,
    HOBS,
    fuel_of,
    none_yet,
    of_kinds,
    place_of,
    subject_of,
)
from validator.measures.appliances.hob_heights import supports_of
from validator.measures.room.walls import named_gap
from validator.measures.rows import TERM, Given, Missing, Row, Rows, figure, given
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.site import Site


class BehindHob(Row, kind="splashback behind a hob"):
    """A hob or a cooker along a wall, and what covers the wall behind it. An island has nothing there."""

    fuel: str = given(FUEL, "fuel of the hob")
    material: str = given(TERM, "what covers the wall behind it")
    backing: str = given(TERM, "what the splashback is fixed on")
    gap: float = given(LENGTH, "gap below the splashback")
    height: float = given(LENGTH, "splashback")
    supports: float = given(LENGTH, "pan supports")
    to_burners: float = given(LENGTH, "from the splashback to the nearest burner")

    @figure(LENGTH, "room behind the burners", start="face of the splashback", end="edge of the nearest burner")
    def room(self) -> float:
        return self.to_burners

    @figure(LENGTH, "splashback above the burners", start="pan supports", end="top of the splashback")
    def above_burners(self) -> float:
        return self.gap + self.height - self.supports


def splashbacks_behind_hobs(site: Site) -> Rows:
    """A row for each hob and cooker that is not on an island."""
    plan = site.plan
    rows = none_yet(plan, BehindHob.kind)
    for name in of_kinds(plan, HOBS):
        place = place_of(site, name)
        if place.standing is None or plan.runs[place.standing.run].faces is None:
            rows.rows.append(_row(site, place))
    return rows


def _row(site: Site, place: ApplianceAt) -> Row:
    name, hob = place.name, place.appliance
    subject = subject_of(site, place)
    fuel = fuel_of(name, hob)
    supports = supports_of(site, place, fuel)
    covers = hob.splashback
    if covers is None:
        nothing = Missing(hob.pointer_to("splashback"), f"what covers the wall behind {name}")
        fields = dict.fromkeys(("material", "backing", "gap", "height", "to_burners"), nothing)
        return BehindHob(subject, fuel=fuel, supports=supports, **fields)
    label = f"splashback behind {name}"
    # Without a gap it counts from the worktop: so it reaches less high than it does, never higher.
    gap: Given = reading.exactly(0, covers.pointer, "gap below the splashback")
    if covers.gap is not None:
        gap = reading.read(covers, "gap", "gap below the splashback")
    return BehindHob(
        subject,
        fuel=fuel,
        material=reading.word(covers.is_, covers.pointer_to("is"), f"material of the {label}"),
        backing=reading.word(covers.backing, covers.pointer_to("backing"), f"what the {label} is fixed on"),
        gap=gap,
        height=named_gap(reading.read(covers, "height", "splashback"), f"height of the {label}"),
        to_burners=named_gap(
            reading.read(covers, "to_burners", "splashback"), f"from the {label} to the nearest burner"
        ),
        supports=supports,
    )
