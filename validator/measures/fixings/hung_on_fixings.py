"""Rows of the things that hang on a wall by their fixings: the load on each, and what is left of what those may carry.

A hung thing turns about its lower back edge: its weight, as far from the wall as its middle, pulls at its fixings over
the height between the two, and all of its weight shears them. What holds its foot is not counted in its favour.
"""

from __future__ import annotations

from validator.measures.arithmetic import least, most, root
from validator.measures.rows import NAME, TERM, Row, Words, figure, given
from validator.plan.dimensions import FORCE, LENGTH, MASS, NUMBER

AT = ("hangers", "rail", "top", "back")
"""Where the fixings sit that carry a hung thing."""

HANGERS = 2
"""A wall unit hangs by one hanger at each side."""


class HungOnFixings(Row, kind="hung unit on its fixings"):
    """A hung unit and its fixings, each of which may carry a load whichever way it is pulled.

    `number` are those that share the load, `counted` as many as carry their whole load: of plugs that may sit in one
    brick only a part. `joints` is what is left of the load where a fixing may sit in a joint.
    """

    held_by: str = given(NAME, "what holds it")
    at: str = given(Words(AT), "where the fixings sit")
    base: str = given(TERM, "what carries it")
    kind_of: str = given(Words(("frame fixing", "plug and screw", "wood screw")), "kind of fixing")
    full: float = given(MASS, "full weight")
    down: float = given(FORCE, "full weight as a force")
    pull: float = given(FORCE, "pull away from the wall")
    together: float = given(FORCE, "both together")
    width: float = given(LENGTH, "width")
    depth: float = given(LENGTH, "depth with its front")
    height_of_unit: float = given(LENGTH, "height")
    drop: float = given(LENGTH, "from its fixings to its lower edge")
    number: float = given(NUMBER, "fixings that share it")
    counted: float = given(NUMBER, "fixings that count in full")
    load_may: float = given(FORCE, "load a fixing may carry")
    pull_may: float = given(FORCE, "pull a fixing may carry")
    shear_may: float = given(FORCE, "shear a fixing may carry")
    joints: float = given(NUMBER, "joints that nobody sees")
    person: float = given(FORCE, "somebody who leans on it")
    once: float = given(NUMBER, "what a load that comes once may take up")
    test: float = given(FORCE, "load of a test of strength")
    to_failure: float = given(NUMBER, "from what a fixing may carry to what it fails at")
    rated: float = given(MASS, "load one hanger is rated for")
    lower_edge: str = given(TERM, "what holds its lower edge")
    thread: float = given(LENGTH, "thread in the timber")
    diameter: float = given(LENGTH, "diameter of the screw")

    @figure(MASS, "on each hanger")
    def on_a_hanger(self) -> float:
        return self.full / HANGERS

    @figure(FORCE, "pull on each fixing")
    def pull_each(self) -> float:
        return self.pull / self.number

    @figure(FORCE, "shear on each fixing")
    def shear_each(self) -> float:
        return self.down / self.number

    @figure(FORCE, "both together on each fixing")
    def load_each(self) -> float:
        return root(self.pull_each * self.pull_each + self.shear_each * self.shear_each)

    @figure(FORCE, "pull with somebody leaning on its front")
    def pull_leaned_on(self) -> float:
        return self.pull + self.person * self.depth / self.drop

    @figure(FORCE, "shear with somebody leaning on its front")
    def shear_leaned_on(self) -> float:
        return self.down + self.person

    @figure(FORCE, "pull under a test of strength")
    def pull_tested(self) -> float:
        return self.test * self.depth / self.drop

    @figure(NUMBER, "reserve")
    def reserve(self) -> float:
        return self.load_may * self.counted / self.together

    @figure(NUMBER, "reserve with its fixings in joints")
    def reserve_in_joints(self) -> float:
        return self.reserve * self.joints

    @figure(NUMBER, "reserve with one fixing gone")
    def reserve_with_one_less(self) -> float:
        return self.reserve * (self.number - 1) / self.number

    @figure(NUMBER, "reserve with somebody leaning on its front")
    def reserve_leaned_on(self) -> float:
        pull, shear = self.pull_leaned_on, self.shear_leaned_on
        return self.load_may * self.once * self.counted / root(pull * pull + shear * shear)

    @figure(NUMBER, "reserve under a test of strength")
    def reserve_tested(self) -> float:
        pull, shear = self.pull_tested, self.test
        return self.load_may * self.to_failure * self.counted / root(pull * pull + shear * shear)


class HungOnFixingsApart(HungOnFixings, kind="hung unit on its fixings"):
    """The same where a fixing may carry a pull and a shear apart: their shares are added up, which is the careful way.

    Standards allow more: a sum of 1.2, or shares raised to 1.5 or squared; those figures are there to be looked at.
    """

    @figure(NUMBER, "share of the pull it may carry")
    def pull_share(self) -> float:
        return self.pull / (self.pull_may * self.counted)

    @figure(NUMBER, "share of the shear it may carry")
    def shear_share(self) -> float:
        return self.down / (self.shear_may * self.counted)

    @figure(NUMBER, "both shares together")
    def shares(self) -> float:
        return self.pull_share + self.shear_share

    @figure(NUMBER, "both shares where a sum of 1.2 is allowed")
    def shares_three_lines(self) -> float:
        return most(self.pull_share, self.shear_share, self.shares / 1.2)

    @figure(NUMBER, "both shares raised to 1.5")
    def shares_curved(self) -> float:
        return self.pull_share * root(self.pull_share) + self.shear_share * root(self.shear_share)

    @figure(NUMBER, "both shares squared")
    def shares_squared(self) -> float:
        return self.pull_share * self.pull_share + self.shear_share * self.shear_share

    @figure(NUMBER, "reserve")
    def reserve(self) -> float:
        return self.counted / (self.pull / self.pull_may + self.down / self.shear_may)

    @figure(NUMBER, "reserve with somebody leaning on its front")
    def reserve_leaned_on(self) -> float:
        pull, shear = self.pull_leaned_on / self.pull_may, self.shear_leaned_on / self.shear_may
        return self.once * self.counted / (pull + shear)

    @figure(NUMBER, "reserve under a test of strength")
    def reserve_tested(self) -> float:
        pull, shear = self.pull_tested / self.pull_may, self.test / self.shear_may
        return self.to_failure * self.counted / (pull + shear)


class HoodOnFixings(HungOnFixings, kind="hood on its fixings"):
    """A hood that hangs on the wall by itself."""


class HoodOnFixingsApart(HungOnFixingsApart, kind="hood on its fixings"):
    """The same where a fixing of the hood may carry a pull and a shear apart."""


class HangingRail(Row, kind="hanging rail"):
    """A rail behind hung units and where its fixings are."""

    apart: float = given(LENGTH, "distance between its fixings")
    from_ends: float = given(LENGTH, "from its ends to the nearest fixing")
    base: str = given(TERM, "what carries it")


class HeightBetween(Row, kind="from fixings to lower edge"):
    """How far the fixings of a hung thing sit above the edge it turns about."""

    height: float = given(LENGTH, "height")
    down: float = given(LENGTH, "down from its top")

    @figure(LENGTH, "from its fixings to its lower edge", start="fixings", end="lower back edge")
    def between(self) -> float:
        return self.height - self.down


class AlongRail(Row, kind="fixings along a rail"):
    """How many fixings of a rail fall to a unit of a width."""

    width: float = given(LENGTH, "width")
    apart: float = given(LENGTH, "apart")

    @figure(NUMBER, "fixings that share it")
    def number(self) -> float:
        return self.width / self.apart


class CountedAlongRail(Row, kind="fixings along a rail that count"):
    """Of fixings in a row as many as there is room for where each carries its whole load."""

    width: float = given(LENGTH, "width")
    apart: float = given(LENGTH, "apart where each counts")
    number: float = given(NUMBER, "fixings that share it")

    @figure(NUMBER, "fixings that count in full")
    def counted(self) -> float:
        return least(self.number, self.width / self.apart)
