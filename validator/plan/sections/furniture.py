"""Runs of units, what stands in them, and the worktops on them."""

import re
from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import BeforeValidator, GetCoreSchemaHandler
from pydantic_core import CoreSchema, core_schema

from validator.plan.choices import NameOfWall, OneOf, YesOrNo
from validator.plan.elements import Element, Unfit, is_to_find
from validator.plan.fields import Along, Count, Height, Length, LineLoad, MakersLength, Mass, Moisture, Size, Term
from validator.plan.names import fold
from validator.plan.order import ITEM_LINE
from validator.plan.sections.room import MoistureReading
from validator.plan.values import ToFind
from validator.plan.written import Written

_JOINT = re.compile(r"(?P<is>.+?)(?: at (?P<at>.+?))?(?: with (?P<with>.+))?", re.IGNORECASE)
_SEATS = re.compile(r"(?P<on>.+?)(?: (?P<past>with|without) a way past)?", re.IGNORECASE)
_STRIPS = re.compile(r"(?P<how_many>[0-9]+) of (?P<thick>.+?) ?[x×] ?(?P<wide>.+)", re.IGNORECASE)
_SEAL = re.compile(r"(?P<width>.+?),? class (?P<class>.+)", re.IGNORECASE)


class _LevelOrHeight:
    """Marks the tops of hung units: `level with T1` gives the name, anything else is a height."""

    line: ClassVar[Written] = Written("<=level with> <name>|<height>", ("level with T1", "2110 from bare floor"))

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        def read(written: object, height: core_schema.ValidatorFunctionWrapHandler) -> object:
            if isinstance(written, str) and fold(written).startswith("level with "):
                return " ".join(written.split()[2:])
            return height(written)

        return core_schema.no_info_wrap_validator_function(read, handler.generate_schema(Height))


Tops = Annotated[str | Height, _LevelOrHeight()]
"""`level with T1` (the name), or a height."""


class Hangers(Element):
    """Where a wall unit's hangers sit: down from its top, in from its sides; `rated` is what one of them may carry."""

    called: ClassVar[str] = "a pair of hangers"
    asks: ClassVar[tuple[str, ...]] = ("down", "in_")

    down: Length | None = None
    in_: Length | None = None
    rated: Mass | None = None


class Strips(Element):
    """The strips behind a thin back through which a unit is screwed to its wall: `2 of 1/2 x 2-1/2`; `none`."""

    called: ClassVar[str] = "the strips of a unit"
    asks: ClassVar[tuple[str, ...]] = ("how_many", "thick", "wide")
    line: ClassVar[Written | None] = Written("<how_many> <=of> <thick><x><wide>|<=none>", ("2 of 1/2 x 2-1/2", "none"))

    how_many: Count | None = None
    thick: Length | None = None
    wide: Length | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        text = " ".join(written.split()) if isinstance(written, str) else ""
        if fold(text) == "none":
            return {"how_many": "0", "thick": "0 mm", "wide": "0 mm"}
        found = _STRIPS.fullmatch(text)
        if found is None:
            raise Unfit("strips are written as how many there are, how thick and how wide", "`2 of 1/2 x 2-1/2`")
        return found.groupdict()


class Item(Element):
    """A thing in a run: `door 300 left`, `filler rest`, `wall 600 over B1`, `corner wall 600 in north-east`, `600`.

    A number alone is the opening of the appliance of that name (kind `opening`). `family` is worked out when it is
    read: unit, filler, panel, post, gap or opening. `width` is None where `rest` takes what is left. `legs` may be
    `none`: the unit stands on the floor itself.
    """

    called: ClassVar[str] = "a thing in a run"
    worked_out: ClassVar[frozenset[str]] = frozenset({"family"})
    line: ClassVar[Written | None] = ITEM_LINE

    is_: str
    family: Literal["unit", "filler", "panel", "post", "gap", "opening"]
    width: Annotated[Length | None, Written("<length>|<=rest>", ("600", "rest"))] = None
    rest: Annotated[bool, YesOrNo()] = False
    hand: Annotated[Literal["left", "right"], OneOf()] | None = None
    over: str | None = None
    left_of: str | None = None
    right_of: str | None = None
    corner: str | None = None
    height: Length | None = None
    depth: Length | None = None
    front: Length | None = None
    handle: MakersLength | None = None  # how far it stands out from the front; none: a front without one
    void_behind: Length | None = None
    sides: Length | None = None  # thickness of each side of the carcass
    stiles: Length | None = None  # width of the stiles of its face frame, where it has one
    back: Length | None = None  # thickness of its back
    strips: Strips | None = None  # what it is screwed to the wall through
    cup: Length | None = None  # how deep its doors are bored for their hinges
    inside: Size | None = None  # the clear space in it, where that does not follow from its sides
    tolerance: Length | None = None  # how far its width may be off, either way
    legs: MakersLength | None = None  # the range its legs can be set to: `135 to 180`; none: it has no legs
    plinth: MakersLength | None = None  # how high its board is as bought; none: it shows its legs
    set_back: Length | None = None  # its plinth behind its fronts
    opens: (
        Annotated[Literal["door", "two doors", "doors", "drawers", "pull-out", "lift-up", "nothing"] | ToFind, OneOf()]
        | None
    ) = None
    runner: Length | None = None  # how far its drawers run out; left out: as far as it is deep
    post: Length | None = None
    blind: Length | None = None  # a corner unit: how much of it, from the corner on, has no front that opens
    other_side: Length | None = None  # a corner unit of two legs: how far the other leg reaches along its wall
    hangers: Hangers | None = None
    protected: Annotated[bool | ToFind, YesOrNo()] | None = None  # against the heat of a hob, as the code allows
    lower_edge: Term | None = None  # what keeps the foot of a wall unit where it is: `screw`, `none`
    underside: Height | None = None
    cornice: MakersLength | None = None  # what stands on its top: cornice, capping, light
    stood_up: (
        Annotated[Literal["as it comes", "put together lying", "put together upright", "in parts"] | ToFind, OneOf()]
        | None
    ) = None
    shelves: Count | None = None  # besides its bottom
    weight: LineLoad | None = None  # of the unit itself
    load: LineLoad | None = None  # what its fixings are reckoned to carry besides its own weight
    least: Length | None = None  # what a filler or gap may be, where it takes the rest
    most: Length | None = None


class LegSetting(Element):
    """`140 at high spot`; `none` where the units of a run stand on the floor itself."""

    called: ClassVar[str] = "the setting of legs"
    asks: ClassVar[tuple[str, ...]] = ("setting",)
    line: ClassVar[Written | None] = Written("<setting>( at <at>)?", ("140 at high spot", "none"))

    setting: MakersLength
    at: Annotated[Literal["high spot"], OneOf()] = "high spot"

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        if not isinstance(written, str):
            raise Unfit("the setting of legs is written with the spot it holds at", "`140 at high spot`")
        setting, at, spot = written.partition(" at ")
        return {"setting": setting.strip(), "at": spot.strip()} if at else {"setting": setting}


class Aisle(Element):
    """The passage between an island and what it faces, worktop to worktop: `1100 to sink run`."""

    called: ClassVar[str] = "an aisle"
    asks: ClassVar[tuple[str, ...]] = ("width",)
    line: ClassVar[Written | None] = Written("<width>( to <name>)?", ("1100 to sink run",))

    width: Length | None = None
    to: Annotated[str | None, NameOfWall()] = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        width, to, other = written.partition(" to ") if isinstance(written, str) else ("", "", "")
        if not width.strip():
            raise Unfit("an aisle is written with its width and what lies across it", "`1100 to sink run`")
        return {"width": width.strip(), "to": other.strip()} if to else {"width": width.strip()}


class Joining(Element):
    """How neighbouring units of a run are joined: `4 connectors`, `4 screws`, for each pair."""

    called: ClassVar[str] = "what joins units"
    asks: ClassVar[tuple[str, ...]] = ("connectors",)
    line: ClassVar[Written | None] = Written("<connectors>( <=connectors|screws|bolts>)?", ("4 connectors", "4"))

    connectors: Count | None = None
    with_: Annotated[Literal["connectors", "screws", "bolts"], OneOf()] | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        *number, last = written.split() if isinstance(written, str) and written.strip() else ("",)
        said = fold(last) in ("connectors", "screws", "bolts")
        text = " ".join(number if said else (*number, last))
        if not text:
            raise Unfit("how units are joined is written as how many connectors each pair gets", "`4 connectors`")
        return {"connectors": text, "with_": last} if said else {"connectors": text}


class FloorFixing(Element):
    """What holds an island to the floor: `cleats on joists`; `none` where it only stands there."""

    called: ClassVar[str] = "what holds an island"
    asks: ClassVar[tuple[str, ...]] = ("with_", "on")
    line: ClassVar[Written | None] = Written("<words>( on <words>)?", ("cleats on joists", "brackets on slab", "none"))

    with_: Term | None = None
    on: Term | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        if not isinstance(written, str):
            raise Unfit("what holds an island is written with what it is screwed to", "`cleats on joists`")
        what, on, base = " ".join(written.split()).partition(" on ")
        return {"with_": what, "on": base} if on else {"with_": what}


class Run(Element):
    """A run along a wall, its things from the left as one stands in the room and faces the wall.

    An island `faces` a wall instead, across an `aisle`; its things count from its own left end as one faces its fronts,
    with that wall behind one. `along` is how far its nearer end is from a wall that meets the one it faces.
    `from` says where it starts (default: the wall's left end); `tops: level with T1` or a height sets hung units.
    """

    called: ClassVar[str] = "a run"

    against: Annotated[str, NameOfWall()] = ""  # an island stands against no wall
    faces: Annotated[str | None, NameOfWall()] = None
    aisle: Aisle | None = None
    along: Along | None = None
    from_: Along | None = None
    legs: LegSetting | None = None
    tops: Tops | None = None
    underside: Height | None = None
    joined: Joining | None = None
    screwed_to: FloorFixing | None = None  # an island
    order: Annotated[dict[str, Item], Written("<=none>")]


class Joint(Element):
    """A joint in a worktop, `butt at 3000 from west`; in a corner `masons mitre with hob top`, the top it meets."""

    called: ClassVar[str] = "a joint of a worktop"
    asks: ClassVar[tuple[str, ...]] = ("is_", "at")
    line: ClassVar[Written | None] = Written(
        "<is_>( <=at> <length> <=from> <name>)?( <=with> <name>)?",
        ("butt at 3000 from west", "masons mitre", "masons mitre with hob top"),
    )

    is_: Annotated[Literal["butt", "mitre", "masons mitre"] | ToFind, OneOf()] | None = None
    at: Along | None = None
    with_: str | None = None  # at a corner: the worktop it meets
    bolts: Count | None = None
    filled_with: Term | None = None
    width: Length | None = None  # of a stone joint, as fitted
    step: Length | None = None  # how far one side of it stands above the other

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        found = _JOINT.fullmatch(" ".join(written.split())) if isinstance(written, str) else None
        if found is None:
            raise Unfit("a joint is written as what it is and where", "`butt at 3000 from west`, `masons mitre`")
        return {key: value for key, value in found.groupdict().items() if value}


class Seal(Element):
    """The sealant along the back of a worktop: `8, class 25`, its width and the percentage that its class can move."""

    called: ClassVar[str] = "the sealant of a worktop"
    asks: ClassVar[tuple[str, ...]] = ("width", "class_")
    line: ClassVar[Written | None] = Written("<width>,? <=class> <class_>", ("8, class 25", "10 class 12.5"))

    is_: Term | None = None  # `neutral silicone`
    width: Length | None = None
    class_: Count | None = None
    moves: Length | None = None  # how far the joint opens and closes

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        found = _SEAL.fullmatch(" ".join(written.split())) if isinstance(written, str) else None
        if found is None:
            raise Unfit("a sealant joint is written with its width and its class", "`8, class 25`")
        return found.groupdict()


class Support(Element):
    """What holds a worktop where no unit does, and how many there are: `3 steel brackets`, `wall batten`, `none`."""

    called: ClassVar[str] = "what holds a worktop"
    asks: ClassVar[tuple[str, ...]] = ("by",)
    line: ClassVar[Written | None] = Written("([0-9]+ )?<words>", ("3 steel brackets", "wall batten"))

    by: Term
    how_many: Count | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        count, _, by = written.strip().partition(" ") if isinstance(written, str) else ("", "", "")
        if not count:
            raise Unfit("what holds a worktop is written as how many there are and what", "`3 steel brackets`")
        return {"how_many": count, "by": by} if count.isdecimal() else {"by": written}


def _supports(written: object) -> object:
    """`none`: nothing but its units holds it; one support alone is everywhere."""
    if isinstance(written, str) and not is_to_find(written):
        return {} if fold(written) == "none" else {"everywhere": written}
    return written


Supports = Annotated[dict[str, Support], BeforeValidator(_supports), Written("<=none>|<support>", ("none",))]
"""What holds a worktop, by the thing it lies over or by its side; empty where nothing but units does."""


class _PersonsOrSupplier:
    """Marks who carries a worktop in: `4` persons, or the `supplier`."""

    line: ClassVar[Written] = Written("<number>|<=supplier>", ("4", "supplier"))

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        def read(written: object, count: core_schema.ValidatorFunctionWrapHandler) -> object:
            return "supplier" if isinstance(written, str) and fold(written) == "supplier" else count(written)

        return core_schema.no_info_wrap_validator_function(read, handler.generate_schema(Count))


Carriers = Annotated[str | Count, _PersonsOrSupplier()]
"""How many persons carry a thing in; `supplier` where whoever sells it brings it in with gear of their own."""


class Boards(Element):
    """In what lengths boards are sold that are cut on site, and how wide the saw cuts."""

    called: ClassVar[str] = "what boards are cut from"

    plinth: Length | None = None
    upstand: Length | None = None
    saw_cut: Length | None = None


class Seats(Element):
    """Seats along a side of a worktop: `south with a way past`, `back`; the side by the wall it looks at."""

    called: ClassVar[str] = "seats at a worktop"
    asks: ClassVar[tuple[str, ...]] = ("on", "passage")
    line: ClassVar[Written | None] = Written(
        "<name>( <=with|without> a way past)?", ("south with a way past", "back without a way past")
    )

    on: Annotated[str, NameOfWall()]
    passage: Annotated[bool | ToFind, YesOrNo()] | None = None  # whether others walk past behind those who sit there

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        found = _SEATS.fullmatch(" ".join(written.split())) if isinstance(written, str) else None
        if found is None:
            raise Unfit("seats are written with the side of the worktop they are at", "`south with a way past`")
        past = found["past"]
        return {"on": found["on"]} if past is None else {"on": found["on"], "passage": fold(past) == "with"}


class Worktop(Element):
    """A worktop on a run; `is` names a kind that carries its thickness."""

    called: ClassVar[str] = "a worktop"

    is_: str = "worktop"
    on: str
    thickness: Length | None = None
    material: Term | None = None
    depth: Length | None = None
    stock: Length | None = None  # the lengths it is sold in
    between: str | None = None  # "P2 and range": the things of the run from which to which it reaches
    joint: Joint | None = None
    joints: dict[str, Joint] | None = None  # where there are several, by name
    corner: Joint | None = None  # where it meets the top of the run round the corner
    bolts: Count | None = None  # in each of its joints that says nothing else
    past_end: Length | None = None
    past: dict[str, Length] | None = None  # how far it passes the units, by side
    seats: Seats | None = None
    gap_at_wall: Length | None = None
    upstand: MakersLength | None = None  # how high it stands on the worktop; none: there is none
    cover_at_wall: MakersLength | None = None  # how far an upstand comes forward over the gap; `none`: only sealant
    seal: Seal | None = None
    sealed: Annotated[bool | ToFind, YesOrNo()] | None = None  # every cut edge of it, before it is fitted
    barrier: Term | None = None  # what keeps steam of machines from its underside: `foil`, `none`
    held_by: Term | None = None
    supports: Supports | None = None  # where no unit holds it: `{dishwasher: wall batten, back: 3 steel brackets}`
    carried_by: Carriers | None = None
    slots: Length | None = None  # how far the slots of its brackets let solid timber move
    finish: Term | None = None
    moisture: MoistureReading | None = None  # of solid timber, as it is fitted
    settles_at: Moisture | None = None  # moisture of solid timber in use, from dry winter to damp summer: `8 to 12 %`
    stored: Term | None = None
    cut: (
        Annotated[Literal["in the workshop", "wet on site", "with extraction on site", "dry on site"] | ToFind, OneOf()]
        | None
    ) = None  # where and how it is cut to size and cut out
