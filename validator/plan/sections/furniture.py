"""Runs of units, what stands in them, and the worktops on them."""

from __future__ import annotations

from typing import Literal

from validator.plan.elements import Element
from validator.plan.fields import Along, Height, Length, LineLoad


class Hangers(Element):
    """Where a wall unit's hangers sit: down from its top, in from its sides."""

    down: Length | None = None
    in_: Length | None = None


class Item(Element):
    """A thing in a run: `door 300 left`, `filler rest`, `wall 600 over B1`, `corner wall 600 in north-east`, `600`.

    A number alone is the opening of the appliance of that name (kind `opening`). `family` is worked out when it is read:
    unit, filler, panel, post, gap or opening. `width` is None where `rest` takes what is left.
    """

    is_: str
    family: Literal["unit", "filler", "panel", "post", "gap", "opening"]
    width: Length | None = None
    rest: bool = False
    hand: Literal["left", "right"] | None = None
    over: str | None = None
    left_of: str | None = None
    right_of: str | None = None
    corner: str | None = None
    height: Length | None = None
    depth: Length | None = None
    front: Length | None = None
    void_behind: Length | None = None
    legs: Length | None = None  # the range its legs can be set to: `135 to 180`
    plinth: Length | None = None
    opens: Literal["door", "two doors", "doors", "drawers", "pull-out", "nothing"] | None = None
    post: Length | None = None
    other_side: Length | None = None
    hangers: Hangers | None = None
    underside: Height | None = None
    weight: LineLoad | None = None
    load: LineLoad | None = None
    least: Length | None = None  # what a filler or gap may be, where it takes the rest
    most: Length | None = None


class LegSetting(Element):
    """`140 at high spot`."""

    setting: Length
    at: Literal["high spot"] = "high spot"


class Run(Element):
    """A run along a wall, its things from the left as one stands in the room and faces the wall.

    `from` says where it starts (default: the wall's left end); `tops: level with T1` or a height sets hung units.
    """

    against: str
    from_: Along | None = None
    legs: LegSetting | None = None
    tops: str | Height | None = None
    underside: Height | None = None
    order: dict[str, Item]


class Worktop(Element):
    """A worktop on a run; `is` names a kind that carries its thickness."""

    is_: str = "worktop"
    on: str
    thickness: Length | None = None
