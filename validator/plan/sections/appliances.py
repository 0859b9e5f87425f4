"""Appliances with sink and tap, each with all that is known of it; and what their makers' papers say."""

import re
from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal, get_args

from validator.plan.american import WORDS
from validator.plan.choices import OneOf
from validator.plan.elements import Element, Unfit
from validator.plan.fields import (
    Along,
    Date,
    Density,
    Duration,
    Flow,
    Height,
    Length,
    MakersDuration,
    MakersForce,
    MakersLength,
    MakersPressure,
    MakersWaterAdded,
    Mass,
    Money,
    Power,
    Size,
    Slope,
    StatedFigure,
    Term,
)
from validator.plan.lines import words_and_quantity
from validator.plan.names import fold
from validator.plan.sections.ducts import Duct
from validator.plan.values import ToFind
from validator.plan.written import Written

ApplianceKind = Literal[
    "gas hob",
    "induction hob",
    "ceramic hob",
    "solid plate hob",
    "gas cooker",
    "electric cooker",
    "oven",
    "microwave",
    "hood",
    "chimney hood",
    "canopy hood",
    "extract fan",
    "fridge",
    "freezer",
    "fridge freezer",
    "dishwasher",
    "washing machine",
    "tumble dryer",
    "sink",
    "tap",
    "waste disposer",
    "boiling tap",
]


_KINDS = {fold(kind): kind for kind in get_args(ApplianceKind)}


def kind_named(name: str) -> str | None:
    """The kind of appliance that a name is, American words included; None for any other name."""
    folded = fold(name)
    return _KINDS.get(WORDS.get(folded, folded))


_TO = re.compile(r"(?:^|\s+)(?:in)?to\s+(?!find out)")


class Waste(Element):
    """A waste: `40 mm to stack 1900 at 20 mm/m`. Its fall is stated, or follows from drop and length."""

    called: ClassVar[str] = "a waste"
    asks: ClassVar[tuple[str, ...]] = ("pipe", "length", "fall")
    line: ClassVar[Written | None] = Written(
        "(?!$|at )(<pipe>( |$))?((in)?to (<words>( |$))?(<length>( |$))?)?(at <fall>)?",
        ("40 mm to stack 1900 at 20 mm/m",),
    )

    pipe: Length | None = None
    length: Length | None = None
    fall: Slope | None = None
    drop: Length | None = None
    to: str | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        parts = re.split(r"\s+at\s+", written) if isinstance(written, str) else []
        if not 1 <= len(parts) <= 2:
            raise Unfit(
                "a waste is written as its bore, where it runs to, how long it is and its fall",
                "`40 mm to stack 1900 at 20 mm/m`",
            )
        pipe, *onward = _TO.split(parts[0], maxsplit=1)
        to, length = words_and_quantity(onward[0]) if onward else ("", "")
        found = {"pipe": pipe, "to": to, "length": length, "fall": parts[1] if len(parts) == 2 else ""}
        return {key: value for key, value in found.items() if value}


class Splashback(Element):
    """What covers the wall at a hob, on what: `toughened glass on cement board`; `to burners` counts from its face."""

    called: ClassVar[str] = "a splashback"
    asks: ClassVar[tuple[str, ...]] = ("is_", "backing")
    line: ClassVar[Written | None] = Written("<words>( on <words>)?", ("toughened glass on cement board",))

    is_: Term | None = None
    backing: Term | None = None
    height: Length | None = None  # of the panel itself
    gap: Length | None = None  # below it, above the worktop
    to_burners: Length | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        parts = re.split(r"\s+on\s+", written.strip()) if isinstance(written, str) else []
        if not 1 <= len(parts) <= 2:
            raise Unfit(
                "a splashback is written with its material and what it is fixed on", "`toughened glass on cement board`"
            )
        return dict(zip(("is", "backing"), parts, strict=False))


class Appliance(Element):
    """An appliance, a sink or a tap. `is` is the name where the name is a kind (`dishwasher`)."""

    called: ClassVar[str] = "an appliance"

    is_: Annotated[ApplianceKind, OneOf()] | None = None
    in_: str | None = None  # the unit or opening it sits in; an opening of its own name needs no `in`
    over: str | None = None  # a hood: the hob
    along: Along | None = None  # its middle, where it does not sit in the middle of its unit
    up: Height | None = None  # its underside: of a hood, of an oven in a housing
    hob: Annotated[Literal["ceramic", "induction", "solid plate"], OneOf()] | None = None  # of an electric cooker
    body: Size | None = None  # with feet wound in
    handle: MakersLength | None = None  # how far it stands out from the body; none: a front without one
    door: Annotated[Literal["drops", "left", "right", "none"] | ToFind, OneOf()] | None = (
        None  # how it opens: which side its hinges are as one faces it
    )
    carried: Annotated[Literal["upright only", "on its back"] | ToFind, OneOf()] | None = None
    open: Length | None = None  # how far its door stands out from its front when it is open
    width: Length | None = None
    weight: Mass | None = None
    cut_out: Size | None = None
    bowl: Size | None = None
    pan_support: Length | None = None
    splashback: Splashback | None = None  # of a hob: behind it
    side_splashback: Splashback | None = None  # of a hob: on the wall beside it
    power: Power | None = None
    supply: str | None = None  # the point or circuit that feeds it
    waste: Waste | None = None
    behind: str | None = None  # a tap: the sink
    height: Length | None = None  # a tap, above the worktop
    niche: Size | None = None  # the opening a built-in appliance asks for
    from_front: Length | None = None  # a cut-out, from the front edge of the worktop
    corners: Length | None = None  # a cut-out: radius of its inside corners
    set: Annotated[Literal["drop-in", "undermount"] | ToFind, OneOf()] | None = None  # a sink or a hob
    free_below: Length | None = None  # from the underside of the worktop to the drawer, oven or panel below it
    lined: Term | None = None  # what keeps the heat of a hob from the edge of its cut-out: `aluminium tape`, `none`
    feed: str | None = None  # the unit in which its water can be shut off
    vent: Term | None = None  # of its waste: `air admittance valve`, `none`
    hose: Annotated[Literal["raised", "into a standpipe", "low"] | ToFind, OneOf()] | None = (
        None  # how the drain hose of a machine runs: raised and held under the worktop, or low to the trap
    )
    ducted: Duct | None = None  # a hood or a fan
    makeup_air: Term | None = None  # a hood: what lets in the air that it takes out
    anti_tip: Term | None = None  # what keeps a cooker from tipping when its door is leaned on
    air_gap: Term | None = None  # of a machine's drain: where its fitting is, `none`
    rate: Flow | None = None  # a hood or a fan, as installed
    price: Money | None = None
    ordered: Date | None = None
    lead_time: Duration | None = None  # from its order to its delivery, as the supplier says
    due: Date | None = None
    for_: str | None = None  # the task that needs it on site


class HobPapers(Element):
    called: ClassVar[str] = "what a hob's maker states"

    read: str
    hood_above: StatedFigure | None = None
    unit_above: StatedFigure | None = None  # what may hang over it that burns, where the paper says so apart
    unit_beside: StatedFigure | None = None  # how high what hangs beside it has to be
    to_wall: MakersLength | None = None  # from its edge to a wall beside it
    to_tall_unit: MakersLength | None = None
    burner_in: MakersLength | None = None  # how far the edge of the nearest burner lies in from its side
    pan_support: MakersLength | None = None
    air_below: MakersLength | None = None  # between the hob and what is below it
    opening_width: MakersLength | None = None  # a cooker, between what stands beside it


class HoodPapers(Element):
    called: ClassVar[str] = "what a hood's maker states"

    read: str
    hob_below: StatedFigure | None = None


class AppliancePapers(Element):
    """What the maker of a machine or of a built-in appliance asks of the place it goes into."""

    called: ClassVar[str] = "what an appliance's maker states"

    read: str
    opening_height: MakersLength | None = None
    opening_width: MakersLength | None = None
    niche: Size | None = None  # the clear space of the housing it is built into
    air_behind: MakersLength | None = None


class PlugPapers(Element):
    """What one fixing may carry: `load` whichever way it is pulled, or `pull` and `shear` apart.

    `as` says what figure that is, `in` what it was found in.
    """

    called: ClassVar[str] = "what a fixing's maker states"

    read: str
    embedment: MakersLength | None = None
    hole_depth: MakersLength | None = None
    wall_thickness: MakersLength | None = None  # of what carries, without its coverings
    load: MakersForce | None = None
    pull: MakersForce | None = None
    shear: MakersForce | None = None
    as_: Annotated[Literal["recommended", "characteristic", "mean failure"] | ToFind, OneOf()] | None = None
    in_: Term | None = None
    edge: MakersLength | None = None  # from the edge of a wall to the fixing
    spacing: MakersLength | None = None  # between fixings that each carry their whole load
    withdrawal: MakersPressure | None = None  # of a screw in timber, characteristic, as tested
    density: Density | None = None  # of the timber it was tested in


class FloorPapers(Element):
    called: ClassVar[str] = "what a floor's maker states"

    read: str
    gap: MakersLength | None = None
    longest_run: MakersLength | None = None


class WorktopPapers(Element):
    """How far a worktop may reach without support, as its maker says."""

    called: ClassVar[str] = "what a worktop's maker states"

    read: str
    span: MakersLength | None = None
    overhang: MakersLength | None = None


class PaintPapers(Element):
    called: ClassVar[str] = "what a paint's maker states"

    read: str
    first_coat: MakersWaterAdded | None = None
    dry_before: MakersDuration | None = None


Papers = HobPapers | HoodPapers | AppliancePapers | PlugPapers | FloorPapers | PaintPapers | WorktopPapers
