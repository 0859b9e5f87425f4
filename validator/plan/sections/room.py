"""Layers, walls, ceiling and floor as found, and the floors to be laid on it."""

import re
from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from validator.plan.choices import NameOfWall, OneOf, YesOrNo
from validator.plan.elements import Element, Unfit
from validator.plan.fields import (
    Along,
    Angle,
    Date,
    Height,
    Length,
    Level,
    MakersLength,
    Moisture,
    Readings,
    Size,
    Term,
)
from validator.plan.lines import runs_on, words_and_quantity
from validator.plan.names import fold
from validator.plan.sections.beyond import OtherFace, PointsBeyond
from validator.plan.sections.joists import Joists
from validator.plan.values import ToFind
from validator.plan.written import Written

_MOISTURE = re.compile(r"(?P<reading>.+?)(?:\s+by\s+(?P<meter>.+?))?(?:\s+on\s+(?P<taken>\d{4}-\d\d-\d\d))?\s*", re.S)

_PLUMB = re.compile(
    r"(?P<lean>.+?)(?:\s+(?P<way>in|out)\s+at\s+top)?(?:\s+over\s+(?P<over>.+))?\s*", re.IGNORECASE | re.DOTALL
)

_TAPED = re.compile(r"(?P<across>.+?)\s+across\s+(?P<left>.+?)\s+and\s+(?P<right>.+)", re.IGNORECASE | re.DOTALL)
_OUTSIDE = re.compile(r"outside(?:\s*,\s*|\s+|$)(?P<rest>.*)", re.IGNORECASE | re.DOTALL)

_CORNER = re.compile(r"(?P<out>.+?)\s+(?P<way>open|closed)\s+in\s+(?P<over>.+)", re.IGNORECASE | re.DOTALL)

_PART = re.compile(
    r"(?P<made_of>.+?)(?:\s+from\s+(?P<from>.+?)(?:\s+to\s+(?P<to>[^ ].*))?|\s+to\s+(?P<to_only>.+))", re.IGNORECASE
)


class Layer(Element):
    """One layer of a wall or floor, room side first: `dabs 10 to 25`."""

    called: ClassVar[str] = "a layer"
    asks: ClassVar[tuple[str, ...]] = ("material",)
    line: ClassVar[Written | None] = Written(
        "(?!.*,)<one name>( <thickness>)?", ("skim 3", "dabs 10 to 25", "brick 102")
    )

    material: Term
    thickness: Length | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        if not isinstance(written, str) or "," in written:
            raise Unfit("a layer is written as its material and its thickness", "`skim 3`; several in brackets")
        material, thickness = words_and_quantity(written)
        if not material:
            raise Unfit(
                f"the layer `{written}` has no material", "`skim 3`; a decimal with a point, `plasterboard 12.5`"
            )
        if runs_on(material):
            raise Unfit(f"`{written}`: two layers run into one", f"a comma between them, or {{material: {material}}}")
        return {"material": material, "thickness": thickness} if thickness else {"material": material}


class Studs(Element):
    """The studs of a wall: `found` from its left end one by one, or the first and how far apart they are.

    Both count to the middle of a stud. Where `found` is given, it alone counts.
    """

    called: ClassVar[str] = "the studs of a wall"

    every: Length | None = None
    first: Length | None = None
    found: tuple[Length, ...] | None = None
    face: Length | None = None  # the side towards the room, 38 of a 38 x 89


class Noggin(Element):
    """A noggin between studs: the middle of it up the wall, and its size, face first (`95 x 45`)."""

    called: ClassVar[str] = "a noggin"

    up: Height | None = None
    size: Size | None = None


class Plumb(Element):
    """How far a wall leans: `4 out at top`, `6 in at top over 2000`; in is into the room. Without `over`, a storey."""

    called: ClassVar[str] = "how far a wall leans"
    asks: ClassVar[tuple[str, ...]] = ("lean",)
    line: ClassVar[Written | None] = Written(
        "<lean>( <way> <=at> <=top>)?( <=over> <over>)?", ("4 out at top", "6 in at top over 2000")
    )

    lean: Length | None = None
    way: Annotated[Literal["in", "out"], OneOf()] | None = None
    over: Length | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        found = _PLUMB.fullmatch(written) if isinstance(written, str) else None
        if found is None:
            raise Unfit("a lean is written with the way the top of the wall leans", "`4 out at top`")
        return {key: value for key, value in found.groupdict().items() if value}


class Flatness(Element):
    """The widest gap under a straight edge laid on a wall or a floor: `6 under 2 m`. Without `under`, one of 2 m."""

    called: ClassVar[str] = "a flatness"
    asks: ClassVar[tuple[str, ...]] = ("gap",)
    line: ClassVar[Written | None] = Written("<gap>( <=under> <under>)?", ("6", "6 under 2 m"))

    gap: Length | None = None
    under: Length | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        gap, under, edge = written.partition(" under ") if isinstance(written, str) else ("", "", "")
        if not under:
            return {"gap": written}
        return {"gap": gap.strip(), "under": edge.strip()}


class Part(Element):
    """A part of a wall that is made of other layers: `lined brick from 1200 to 2400`, from the left end of the wall.

    Where `from` is left out it begins at the left end, where `to` is left out it goes on to the right end.
    """

    called: ClassVar[str] = "a part of a wall"
    asks: ClassVar[tuple[str, ...]] = ("made_of",)
    line: ClassVar[Written | None] = Written(
        "<one name>( <=from> <from_>( <=to> <to>)?| <=to> <to>)",
        ("lined brick from 1200 to 2400", "lined brick from 1200", "block to 800"),
    )

    made_of: Term | None = None
    from_: Length | None = None
    to: Length | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        found = _PART.fullmatch(" ".join(written.split())) if isinstance(written, str) else None
        if found is None:
            raise Unfit(
                "a part of a wall is written as what it is made of, and from where to where",
                "`lined brick from 1200 to 2400`",
            )
        to = found["to"] or found["to_only"]
        said = {"made of": found["made_of"], "from": found["from"], "to": to}
        return {key: value for key, value in said.items() if value}


class Wall(Element):
    """A wall; the walls of a room are listed clockwise, seen from above. Facing it, the one before is at the left."""

    called: ClassVar[str] = "a wall"
    asks: ClassVar[tuple[str, ...]] = ("made_of", "length")

    made_of: Term | None = None
    length: Readings | None = None
    parts: tuple[Part, ...] | None = None  # where it is made of something else
    separating: Annotated[bool | ToFind, YesOrNo()] | None = None  # between two homes
    flue: Annotated[Literal["in use", "disused", "none"] | ToFind, OneOf()] | None = None  # in a chimney breast
    studs: Studs | None = None
    noggins: tuple[Noggin, ...] | None = None
    tiles: MakersLength | None = None  # tiles still to come on it, with their adhesive; none: no tiles come
    plumb: Plumb | None = None
    flatness: Flatness | None = None
    height: Height | None = None  # where it ends below the ceiling, as a knee wall does
    other_face: OtherFace | None = None
    beyond: PointsBeyond | None = None


class Boxing(Element):
    """A boxed-in pipe or a bulkhead on a wall: its near edge along it, its size, and from where it starts up.

    Without `up` it starts at the floor, without a height it reaches to the ceiling.
    """

    called: ClassVar[str] = "a boxing"

    wall: Annotated[str | None, NameOfWall()] = None
    along: Along | None = None
    size: Size | None = None
    up: Height | None = None


class Slope(Element):
    """A sloping ceiling over a wall: how high it starts there, and what a tape laid along it reads to the flat part."""

    called: ClassVar[str] = "a sloping ceiling"

    made_of: Term | None = None
    from_: Height | None = None
    sloping_length: Length | None = None


class Ceiling(Element):
    """The ceiling: `2400`, or its readings in brackets; `slopes` by the wall from which each rises to that height."""

    called: ClassVar[str] = "the ceiling"
    line: ClassVar[Written | None] = Written("<height>", ("2400",))

    height: Height | None = None
    slopes: dict[str, Slope] | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        return {"height": written}


class MoistureReading(Element):
    """A reading with its meter: `78 % by hygrometer`, `2.1 % by carbide on 2026-05-30`, `9 % by pin meter`."""

    called: ClassVar[str] = "a moisture reading"
    asks: ClassVar[tuple[str, ...]] = ("reading",)
    line: ClassVar[Written | None] = Written(
        "<reading>( by <meter>)?( on <taken>)?", ("78 % by hygrometer", "2.1 % by carbide on 2026-05-30")
    )

    reading: Moisture | None = None
    meter: Annotated[Literal["hygrometer", "carbide", "pin meter", "gypsum scale"] | ToFind, OneOf()] | None = None
    taken: Date | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        found = _MOISTURE.fullmatch(written) if isinstance(written, str) else None
        if found is None:
            raise Unfit("a moisture reading is written with its meter", "`78 % by hygrometer`")
        return {key: value for key, value in found.groupdict().items() if value}


class Corner(Element):
    """A corner of two walls, right or not: `6 open in 600`, `1422 across 1000 and 1000`, `90.6 deg`, `square`.

    `across` is what a tape reads from a mark so far along the left wall (`left`) to one along the right wall. In a
    corner that is `outside` the walls stick into the room, as at a chimney breast; out, across and angle are then those
    of what stands out.
    """

    called: ClassVar[str] = "a corner"
    asks: ClassVar[tuple[str, ...]] = ("out",)
    line: ClassVar[Written | None] = Written(
        "(<=outside>,? )?(<out> <way> <=in> <over>|<across> <=across> <left> <=and> <right>|<angle>|<=square>)"
        "|<=outside>",
        ("6 open in 600", "4 closed in 600", "1422 across 1000 and 1000", "135 deg", "outside", "outside, square"),
    )

    out: Length | None = None
    way: Annotated[Literal["open", "closed"], OneOf()] | None = None
    over: Length | None = None
    across: Length | None = None
    left: Length | None = None
    right: Length | None = None
    angle: Angle | None = None
    outside: Annotated[bool, YesOrNo()] = False

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        text = " ".join(written.split()) if isinstance(written, str) else ""
        outside = _OUTSIDE.fullmatch(text)
        found: dict[str, object] = {"outside": "yes"} if outside else {}
        rest = (outside["rest"] or "") if outside else text
        for form in (_CORNER, _TAPED):
            said = form.fullmatch(rest)
            if said is not None:
                return {**found, **said.groupdict()}
        if fold(rest) == "square":
            return {**found, "angle": "90 deg"}
        if outside and not rest:
            return found
        if not rest or rest.split()[-1].isdecimal():
            raise Unfit(
                "a corner is written with how far it is out and over what length, with a tape across it, or its angle",
                "`6 open in 600`, `1422 across 1000 and 1000`, `135 deg`, `square`, or `outside`",
            )
        return {**found, "angle": rest}


class Diagonal(Element):
    """A tape from one corner of the room to another: `north-west to south-east: 5705`."""

    called: ClassVar[str] = "a diagonal"
    asks: ClassVar[tuple[str, ...]] = ("length",)
    line: ClassVar[Written | None] = Written("<length>", ("5705",))

    length: Length | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        return {"length": written}


class Floor(Element):
    """The floor as found. Levels: how far each spot lies below the high spot, `9 low`; the high spot itself is 0."""

    called: ClassVar[str] = "the floor as found"
    asks: ClassVar[tuple[str, ...]] = ("made_of",)

    made_of: Term | None = None
    levels: dict[str, Level] | None = None
    moisture: MoistureReading | None = None
    heated: Annotated[bool | ToFind, YesOrNo()] | None = None
    traced: Annotated[bool | ToFind, YesOrNo()] | None = None  # heating loops, pipes and cables in it were located
    flatness: Flatness | None = None
    joists: Joists | None = None


class Covering(Element):
    """A floor to be laid: `laminate: {thickness: 8, underlay: 3, laid: after units, gap: 10}`. `is` may be the name."""

    called: ClassVar[str] = "a floor to be laid"

    is_: Term | None = None
    thickness: Length | None = None
    underlay: MakersLength | None = None  # `none` where the floor has none
    sheet: Length | None = None
    laid: Annotated[Literal["before units", "after units"] | ToFind, OneOf()] | None = None
    under_machines: Annotated[bool | ToFind, YesOrNo()] | None = None  # no: it stops in front of machines
    gap: Length | None = None
    fixed: dict[str, Length] | None = None  # gap left at each fixed thing, by its name
    board: Size | None = None
    runs: str | None = None  # "north to south": from which wall to which the boards run
    moved_by: Annotated[Literal["humid air", "heated floor"] | ToFind, OneOf()] | None = None  # recorded only
