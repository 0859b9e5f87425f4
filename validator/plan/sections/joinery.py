"""Screws that hold cabinets, panels and worktops together, and what is only or also glued."""

from typing import Annotated, ClassVar, Literal

from validator.plan.choices import NamesOf, OneOf, YesOrNo
from validator.plan.elements import Element
from validator.plan.fields import Area, Duration, Length, MakersDuration, MakersLength, Term
from validator.plan.sections.work import Screw
from validator.plan.values import ToFind

JOINED = ("units", "cabinets", "panels", "fillers", "worktops", "carcasses", "plinths", "handles", "boxings")
"""What screws of a kitchen hold, besides runs and worktops by their names."""

GLUED = (
    "upstand",
    "splashback",
    "mirror",
    "panels",
    "end panel",
    "plinth",
    "trim",
    "shelf",
    "wall units",
    "hood",
    "appliance door",
)
"""Names of glued things of more than one word, so that a line of them is taken apart rightly; others may stand too."""


class Screws(Element):
    """One sort of screw and what it is for: `{for: units, screw: 4 x 30, into: chipboard, pilot: 3}`.

    `through` is what it passes first, `into` what holds it, `in` whether that is entered by its face or its edge.
    """

    called: ClassVar[str] = "a sort of screw"

    for_: Annotated[tuple[str, ...], NamesOf(("runs", "worktops"), JOINED)]
    screw: Screw | None = None
    through: Length | None = None
    into: Term | None = None
    in_: Annotated[Literal["face", "edge"] | ToFind, OneOf()] | None = None
    pilot: MakersLength | None = None  # diameter of the hole in what holds it; none: it is driven without
    pilot_depth: Length | None = None
    clearance: Length | None = None  # diameter of the hole in what it passes
    from_edge: Length | None = None
    from_corner: Length | None = None
    at: Term | None = None  # where on the side of a unit: `unused holes`, `beside the hinge plates`


class Glue(Element):
    """An adhesive and what it holds: `{for: splashback, on: plaster, surface: sound and dry, left: 72 h}`."""

    called: ClassVar[str] = "an adhesive"

    for_: Annotated[tuple[str, ...], NamesOf((), GLUED)]
    of: Term | None = None  # what the glued thing itself is made of
    on: Term | None = None
    surface: Annotated[Literal["sound and dry", "loose", "damp", "dusty", "greasy"] | ToFind, OneOf()] | None = None
    also: Term | None = None  # what holds the thing besides: `screws`, `clips`; `none`
    supported: Annotated[bool | ToFind, YesOrNo()] | None = None  # propped, clamped or taped while it cures
    area: Area | None = None  # of the largest piece
    left: Duration | None = None  # how long it is left before anything leans on it, hangs on it or covers it
    cures: MakersDuration | None = None  # what its maker asks for; none: the paper gives no time
    cold: Annotated[bool | ToFind, YesOrNo()] | None = None  # whether the room is near 10 °C while it cures
