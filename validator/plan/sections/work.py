"""Fixings, coatings, the order of work and the people who do it."""

import re
from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from validator.plan.choices import NamesOf, OneOf, YesOrNo
from validator.plan.elements import Element, LongForm, Unfit
from validator.plan.fields import Count, Date, Duration, Height, Length, Money, Term, WaterAdded
from validator.plan.lines import product_and_water, runs_on, times, words_and_quantity
from validator.plan.names import fold
from validator.plan.sections.room import MoistureReading
from validator.plan.values import ToFind
from validator.plan.written import Written


class Plug(Element):
    """`nylon frame 8 x 80`: type, diameter and length."""

    called: ClassVar[str] = "a plug"
    asks: ClassVar[tuple[str, ...]] = ("diameter", "length")
    line: ClassVar[Written | None] = Written(
        "(?!$)(<words>( |$))?(<diameter>(<x><length>)?)?", ("frame fixing 8 x 100", "8 x 80")
    )

    type: str | None = None
    diameter: Length | None = None
    length: Length | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        type, size = words_and_quantity(written) if isinstance(written, str) else ("", "")
        return _filled(cls, {"type": type}, ("diameter", "length"), size, "`frame fixing 8 x 100`")


class Screw(Element):
    """`5 x 80`, `no. 10 x 3`, `cabinet screw 5 x 80`: type, diameter or gauge, and length."""

    called: ClassVar[str] = "a screw"
    asks: ClassVar[tuple[str, ...]] = ("diameter", "length")
    line: ClassVar[Written | None] = Written(
        "(?!$)(<words>( |$))?(<diameter>(<x><length>)?|<=no>[.\\s_-][^x×]*(<x><length>)?)?",
        ("5 x 80", "no. 10 x 3", "cabinet screw 5 x 80", "cabinet screw no. 10 x 3"),
    )

    type: Term | None = None
    diameter: Length | None = None
    gauge: str | None = None
    length: Length | None = None
    thread: Length | None = None  # how much of its length is threaded, to its tip

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        line = " ".join(written.split()) if isinstance(written, str) else ""
        if (gauged := _GAUGED.fullmatch(line)) is not None:
            gauge, *length = times(gauged["size"])
            sizes = {"gauge": gauge, "length": length[0]} if len(length) == 1 else {"gauge": gauged["size"]}
            return sizes | ({"type": gauged["type"]} if gauged["type"] else {})
        type, size = words_and_quantity(line)
        return _filled(cls, {"type": type}, ("diameter", "length"), size, "`5 x 80` or `no. 10 x 3`")


_GAUGED = re.compile(r"(?:(?P<type>.+?) )?(?P<size>no[. _-].*)", re.IGNORECASE)
"""A screw with a gauge, and what stands before it."""


class Hole(Element):
    """`8 x 90`: bit and depth."""

    called: ClassVar[str] = "a hole"
    asks: ClassVar[tuple[str, ...]] = ("diameter", "depth")
    line: ClassVar[Written | None] = Written("<diameter>(<x><depth>)?", ("8 x 90",))

    diameter: Length | None = None
    depth: Length | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        return _filled(cls, {}, ("diameter", "depth"), written if isinstance(written, str) else "", "`8 x 90`")


def _filled(
    element: type[Element], words: Mapping[str, str], fields: tuple[str, str], size: str, expected: str
) -> Mapping[str, object]:
    """Words and the one or two figures of a size, by their fields; Unfit where there are neither or too many."""
    sizes = times(size)
    found = {key: value for key, value in (*words.items(), *zip(fields, sizes, strict=False)) if value}
    if not found or len(sizes) > len(fields):
        raise Unfit(f"{element.called} is written in one line", expected)
    return found


class Fixing(Element):
    """What holds a thing to a wall. `for` names runs, units or appliances; `through` is what it passes first.

    `each` is how many of them each thing gets, `at` where on it they sit: at its hangers, in a row at its top or across
    its back, along a rail behind hung units, or along a batten under a worktop. Such a row keeps `from_ends` of both
    ends, and lies `down` from the top of the thing (a batten: from the underside of the worktop), or at `up`. The
    screws of a rail into studs come where the studs are. `packers` are between the wall and what it passes; `spacers`
    bridge a void behind the lining, so that the fixing does not bend in it.
    `timber` is the strength class or the species of the wood that a screw goes into.
    """

    called: ClassVar[str] = "a fixing"

    for_: Annotated[
        tuple[str, ...], NamesOf(("runs", "items", "appliances"), ("wall units", "base units", "tall units"))
    ]
    at: Annotated[Literal["hangers", "top", "back", "rail", "batten"], OneOf()] | None = None
    each: Count | None = None
    centres: Length | None = None  # the most that the holes of a rail or batten are apart
    from_ends: Length | None = None
    down: Length | None = None
    up: Height | None = None
    timber: Term | None = None
    into: Term | None = None
    through: Length | None = None
    fixture: Term | None = None  # what that is: a steel rail, an anchor strip
    packers: Length | None = None
    spacers: Term | None = None
    sealed: Annotated[bool | ToFind, YesOrNo()] | None = None  # where it goes through a membrane
    in_joints: Annotated[bool | ToFind, YesOrNo()] | None = None  # of brick, and not in its face
    tile_edge: Length | None = None  # from the hole to the nearest edge of its tile
    plug: Plug | None = None
    screw: Screw | None = None
    hole: Hole | None = None


class Coat(Element):
    """One coat: `30 % water` (added to the paint), `25 % of mix`, `3 to 1`, `neat`; `undercoat`, `matt 10 % water`."""

    called: ClassVar[str] = "a coat"
    asks: ClassVar[tuple[str, ...]] = ("water",)
    line: ClassVar[Written | None] = Written(
        "(?!$)(<one name>( |$))?(<water>)?",
        ("30 % water", "25 % of mix", "3 to 1", "neat", "undercoat", "matt 10 % water"),
    )

    water: WaterAdded | None = None
    product: str | None = None

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        if not isinstance(written, str):
            raise Unfit("a coat is written as what is added to it", "`neat`, `30 % water`, `3 to 1`, `matt 10 % water`")
        product, water = product_and_water(written)
        if runs_on(product):
            raise Unfit(f"`{written}`: two coats run into one", f"a comma between them, or {{product: {product}}}")
        return {key: value for key, value in (("product", product), ("water", water)) if value}


class Coating(Element):
    """A paint system on some walls, its coats from the first to the last. Walls: names, or `all`."""

    called: ClassVar[str] = "a coating"

    on: Term | None = None
    walls: Annotated[tuple[str, ...], NamesOf(("walls",), ("all",))] | None = None
    plastered: Date | None = None
    moisture: MoistureReading | None = None
    coats: tuple[Coat, ...] | None = None
    between: Duration | None = None


class Task(Element):
    """A task of the work. `after` adds to what the usual order asks; `dries` is the wait that it starts."""

    called: ClassVar[str] = "a task"

    by: Annotated[tuple[str, ...], NamesOf(("people",), ("householder",))] | None = None
    takes: Duration | None = None
    on: Date | None = None
    after: Annotated[tuple[str, ...], NamesOf(("tasks",))] | None = None
    dries: Duration | None = None


class Work(Element):
    """The order of work: `usual` (the rulebook's), or `as written` (each task after the one above it)."""

    called: ClassVar[str] = "the work"
    line: ClassVar[Written | None] = Written("<=none>", ("none",))
    worked_out: ClassVar[frozenset[str]] = frozenset({"tasks"})

    order: Annotated[Literal["usual", "as written"], OneOf()] | None = None
    days: Annotated[Literal["every day", "monday to friday"], OneOf()] | None = None
    tasks: dict[str, Task]

    @classmethod
    def long_form(cls, written: object) -> LongForm:
        """Every key that is none of the work's own is the name of a task; `none` is work without any."""
        if isinstance(written, str) and fold(written) == "none":
            written = {}
        if not isinstance(written, Mapping) or isinstance(written, LongForm):
            return super().long_form(written)
        own = {key: value for key, value in written.items() if fold(key) in cls.written_keys()}
        found = super().long_form(own)
        found["tasks"] = {key: value for key, value in written.items() if key not in own}
        return found


class Person(Element):
    """Somebody who does a part: registration or licence, and when it was looked up."""

    called: ClassVar[str] = "somebody who does a part of the work"
    asks: ClassVar[tuple[str, ...]] = ("register_",)

    trade: str | None = None
    register_: Term | None = None
    looked_up: Date | None = None
    quote: Money | None = None  # a fixed price in writing
    estimate: Money | None = None  # a price that may grow
    deposit: Money | None = None
