"""What one fixing may carry in what it sits in: what its maker says, else a published formula for screws in timber.

Nothing else is a capacity. A figure that was found in one kind of base does not hold in another.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.fixings.fixing_parts import screw_diameter
from validator.measures.fixings.timber_screws import (
    ThreadInTimber,
    ThreadOfScrew,
    WithdrawalByDensity,
    WithdrawalByGravity,
    WithdrawalOfLagScrew,
    lag_strength,
    scaled_strength,
    withdrawal_strength,
)
from validator.measures.looking_up import looked_up
from validator.measures.room.walls import worked
from validator.measures.rows import Given, Known, Missing, Row, Subject, Why, figure, given
from validator.measures.tracing import derived
from validator.plan.dimensions import FORCE, NUMBER
from validator.plan.names import fold
from validator.plan.pointers import join
from validator.plan.values import NothingStated, Quantity, ToFind

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.appliances import PlugPapers
    from validator.plan.sections.work import Fixing
    from validator.reference.library import Library

KINDS_OF_BASE = (
    "concrete_bases",
    "solid_masonry_bases",
    "hollow_bases",
    "light_bases",
    "aerated_bases",
    "metal_studs",
    "backing_boards",
    "timber_bases",
)
"""Groups of terms among which a figure of a fixing does not carry over (ETAG 020, parts 2 to 5)."""

FORMULA_FROM, FORMULA_TO = 6.0, 12.0
"""The diameters for which EN 1995-1-1, 8.7.2 gives the withdrawal strength; others are tested."""

ANY_TIMBER = "any"


class FromCharacteristic(Row, kind="load of a fixing from its characteristic one"):
    """A characteristic resistance brought down to what may hang there every day: F_Rk ÷ γM ÷ γF."""

    characteristic: float = given(FORCE, "characteristic resistance")
    material: float = given(NUMBER, "factor for the base")
    load: float = given(NUMBER, "factor for the load")
    joints: float = given(NUMBER, "joints that nobody sees")

    @figure(FORCE, "load a fixing may carry")
    def allowable(self) -> float:
        return self.characteristic / self.material / self.load * self.joints


class FromMeanFailure(Row, kind="load of a fixing from tests"):
    """The mean load at which fixings failed, by one factor for all that differs from the test."""

    mean: float = given(FORCE, "mean load at failure")
    whole: float = given(NUMBER, "factor on a mean failure load")
    joints: float = given(NUMBER, "joints that nobody sees")

    @figure(FORCE, "load a fixing may carry")
    def allowable(self) -> float:
        return self.mean / self.whole * self.joints


class Capacity(NamedTuple):
    """What one fixing may carry: `load` whichever way it is pulled, else None and `pull` and `shear` apart.

    `joints` is what is left of it where the fixing may sit in a joint, as far as that is not counted yet. `category`
    is the group of what it sits in, '' where that is not known; `thread` and `diameter` are of a screw in timber.
    """

    category: str
    base: Given
    load: Given | None
    pull: Given
    shear: Given
    joints: Given
    thread: Given
    diameter: Given


def capacity(site: Site, name: str, fixing: Fixing, rows: Sequence[Row]) -> Capacity:
    """What one of a fixing may carry where its rows say that it sits; on several makes of wall, in all of them."""
    label = f"pull that one of {name} may carry"
    gaps = [gap for row in rows for gap in row.missing.get("base", ())]
    if gaps or not rows:
        nothing: Given = tuple(dict.fromkeys(gaps)) or Missing(fixing.pointer, "what carries it")
        return Capacity("", nothing, *(nothing,) * 6)
    bases = [row.known["base"] for row in rows]
    categories = {category(site.library, str(base.value)) for base in bases}
    if len(categories) > 1:
        detail = f"it is {' in one place and '.join(dict.fromkeys(str(base.value) for base in bases))} in another"
        mixed = Missing(bases[0].pointer, "what carries it", Why.UNCLEAR, detail=detail)
        return Capacity("", mixed, *(mixed,) * 6)
    kind = categories.pop()
    joints = _joints(site, fixing, rows, bases[0])
    papers = papers_of(site, name, fixing)
    timber = kind == "timber_bases" and rows[0].known.get("kind_of", Known("")).value == "wood screw"
    thread = thread_in_timber(site, fixing, rows) if timber else Missing(fixing.pointer, "screw in timber")
    diameter = screw_diameter(fixing, rows[0].subject)
    says = _Says(site, name, papers, kind, bases[0], joints)
    found = Capacity(kind, bases[0], None, thread, says.of("shear"), says.joints_left, thread, diameter)
    if papers is not None and isinstance(papers.load, Quantity):
        return found._replace(load=says.of("load"))
    apart = papers is not None and (papers.pull is not None or papers.shear is not None)
    if not timber and not apart:
        return found._replace(load=says.of("load"))
    pull = says.of("pull")
    if timber and (papers is None or papers.pull is None):
        pull = _out_of_timber(site, fixing, papers, thread, diameter, rows[0].subject, label)
    return found._replace(pull=pull)


def category(library: Library, base: str) -> str:
    """The kind of base that a term stands for, by its group; the term itself where it is in none."""
    term = fold(base)
    return next((kind for kind in KINDS_OF_BASE if term in library.groups.get(kind, frozenset())), term)


def papers_of(site: Site, name: str, fixing: Fixing) -> PlugPapers | None:
    """The maker's paper of a fixing, under its own name or that of its plug."""
    from validator.plan.sections.appliances import PlugPapers

    for stated_as in (name, fixing.plug.type if fixing.plug is not None else None):
        papers = site.plan.stated.get(stated_as) if stated_as else None
        if isinstance(papers, PlugPapers):
            return papers
    return None


class _Says(NamedTuple):
    """What the maker's paper gives, for a fixing that sits in one kind of base."""

    site: Site
    name: str
    papers: PlugPapers | None
    kind: str
    base: Known
    joints: Given

    @property
    def joints_left(self) -> Given:
        """The factor for joints, where it is not in the load already: 1 for a load that is brought down by factors."""
        if self.papers is not None and self.papers.as_ in ("characteristic", "mean failure"):
            return reading.exactly(1, self.papers.pointer, "joints", "already counted")
        return self.joints

    def of(self, field: str) -> Given:
        """A load of the paper as what may hang there every day."""
        papers, label = self.papers, f"{field} that one of {self.name} may carry"
        if papers is None:
            return Missing(join(self.site.plan.stated.pointer, self.name), label, Why.UNREAD)
        written: Quantity | ToFind | NothingStated | None = getattr(papers, field)
        found = reading.stated(written, papers.pointer_to(field), label)
        gaps = self._not_of_this_base() if isinstance(found, Known) else ()
        if gaps or not isinstance(found, Known):
            return gaps or found
        if papers.as_ == "recommended":
            return found
        subject = Subject(self.name, papers.pointer)
        if papers.as_ == "characteristic":
            row: Row = FromCharacteristic(
                subject,
                characteristic=found._replace(label="characteristic resistance"),
                material=self._factor("material", "factor for the base"),
                load=self._factor("load", "factor for the load"),
                joints=self.joints,
            )
        else:
            mean = found._replace(label="mean load at failure")
            whole = self._factor("whole", "factor on a mean failure load")
            row = FromMeanFailure(subject, mean=mean, whole=whole, joints=self.joints)
        return worked(row, "allowable", label)

    def _factor(self, gives: str, label: str) -> Given:
        return looked_up(self.site, "anchor-factors", gives, {"base": str(self.base.value)}, self.base.pointer, label)

    def _not_of_this_base(self) -> tuple[Missing, ...]:
        papers = self.papers
        assert papers is not None
        gaps = []
        if papers.as_ is None or isinstance(papers.as_, ToFind):
            gaps.append(Missing(papers.pointer_to("as_"), f"what figure that is for {self.name}", Why.UNREAD))
        if papers.in_ is None or isinstance(papers.in_, ToFind):
            gaps.append(Missing(papers.pointer_to("in_"), f"what the load of {self.name} was found in", Why.UNREAD))
        elif category(self.site.library, papers.in_) != self.kind:
            detail = f"it was found in {papers.in_}, and here {self.base.value} carries"
            gaps.append(
                Missing(papers.pointer_to("in_"), f"load that one of {self.name} may carry", Why.UNCLEAR, detail=detail)
            )
        return tuple(gaps)


def _joints(site: Site, fixing: Fixing, rows: Sequence[Row], base: Known) -> Given:
    """What is left of a load where the joints of a wall cannot be seen: all of it where nothing covers them."""
    pointer = fixing.pointer_to("in_joints")
    covered = any("coverings" in row.missing or row.coverings for row in rows)  # type: ignore[attr-defined]
    if fixing.in_joints is False:
        return reading.exactly(1, pointer, "joints", "each hole is clear of them")
    if not covered:
        return reading.exactly(1, base.pointer, "joints", "they are seen")
    return looked_up(site, "anchor-factors", "hidden", {"base": str(base.value)}, pointer, "joints that nobody sees")


def thread_in_timber(site: Site, fixing: Fixing, rows: Sequence[Row]) -> Given:
    """The thread of a screw that sits in timber, the least of several places."""
    screw, subject = fixing.screw, rows[0].subject
    if screw is None:
        return Missing(fixing.pointer_to("screw"), "screw")
    if screw.thread is not None:
        thread = reading.read(screw, "thread", "thread of the screw")
    else:
        row = ThreadOfScrew(
            subject,
            length=reading.read(screw, "length", "long"),
            part=looked_up(
                site, "screw-threads", "part", {"screw": "any"}, screw.pointer, "part of it that is threaded"
            ),
        )
        thread = worked(row, "thread", "thread of the screw")
    found = [
        worked(ThreadInTimber(subject, embedment=derived(row, "embedment"), thread=thread), "in_timber", "thread in it")
        for row in rows
    ]
    gap = next((value for value in found if not isinstance(value, Known)), None)
    if gap is not None:
        return gap
    shortest = min(found, key=_low)
    if _low(shortest) <= 0:
        return Missing(screw.pointer_to("length"), "thread in the timber", Why.UNCLEAR, detail="it does not reach it")
    return shortest


def _low(value: Given) -> float:
    return float(value.low or 0.0) if isinstance(value, Known) else 0.0


def _out_of_timber(
    site: Site,
    fixing: Fixing,
    papers: PlugPapers | None,
    thread: Given,
    diameter: Given,
    subject: Subject,
    label: str,
) -> Given:
    """How hard one screw may be pulled out of timber, by the formula of the country's own standard."""
    if site.library.table("screw-withdrawal", site.country) is not None:
        return _by_gravity(site, fixing, thread, diameter, subject, label)
    density = _of_timber(site, fixing, "density")
    strength = _strength(fixing, papers, thread, diameter, density)
    formula = papers is None or not isinstance(papers.withdrawal, Quantity)
    thin: Given = reading.exactly(1, fixing.pointer, "factor for a thin screw", "its strength was tested")
    if formula and isinstance(diameter, Known):
        part = min(float(diameter.low or diameter.value) / 8.0, 1.0)
        thin = reading.exactly(part, diameter.pointer, "factor for a thin screw", "its diameter ÷ 8 mm, 1 at most")
    factors = {
        gives: looked_up(site, "timber-factors", gives, {"timber": ANY_TIMBER}, fixing.pointer, said)
        for gives, said in (
            ("duration", "factor for a load that stays"),
            ("material", "factor for the timber"),
            ("load", "factor for the load"),
        )
    }
    row = WithdrawalByDensity(subject, strength=strength, diameter=diameter, thread=thread, thin=thin, **factors)
    return worked(row, "pull", label)


def _by_gravity(site: Site, fixing: Fixing, thread: Given, diameter: Given, subject: Subject, label: str) -> Given:
    gravity = _of_timber(site, fixing, "gravity")
    type = fixing.screw.type if fixing.screw is not None else None
    if isinstance(type, str) and fold(type) in site.library.groups.get("lag_screws", frozenset()):
        strength: Given = gravity if not isinstance(gravity, Known) else diameter
        if isinstance(gravity, Known) and isinstance(diameter, Known):
            value = lag_strength(float(gravity.value), float(diameter.value))
            strength = reading.exactly(value, fixing.pointer, "withdrawal strength", "NDS 12.2-1")
        row: Row = WithdrawalOfLagScrew(subject, strength=strength, diameter=diameter, thread=thread)
        return worked(row, "pull", label)
    kind = {"screw": "wood screw"}
    constant = looked_up(site, "screw-withdrawal", "constant", kind, fixing.pointer, "constant of the formula")
    row = WithdrawalByGravity(subject, constant=constant, gravity=gravity, diameter=diameter, thread=thread)
    return worked(row, "pull", label)


def _of_timber(site: Site, fixing: Fixing, gives: str) -> Given:
    """Density or specific gravity by what the plan says of the timber; the lightest where it says nothing."""
    timber = fixing.timber if isinstance(fixing.timber, str) else ANY_TIMBER
    label = "density of the timber" if gives == "density" else "specific gravity of the wood"
    table = "timber-density" if gives == "density" else "wood-gravity"
    return looked_up(site, table, gives, {"timber": timber}, fixing.pointer_to("timber"), label)


def _strength(fixing: Fixing, papers: PlugPapers | None, thread: Given, diameter: Given, density: Given) -> Given:
    """The withdrawal strength of a screw: as its maker tested it, else by the formula in its range of diameters."""
    label = "withdrawal strength of the screw"
    if papers is not None and isinstance(papers.withdrawal, Quantity):
        tested = reading.stated(papers.withdrawal, papers.pointer_to("withdrawal"), label)
        tested_in = reading.stated(
            papers.density, papers.pointer_to("density"), "density of the timber it was tested in"
        )
        values = (tested, density, tested_in)
        gap = next((value for value in values if not isinstance(value, Known)), None)
        if gap is not None:
            return gap
        low = [_low(value) for value in values]
        scaled = scaled_strength(low[0], low[1], max(low[1], low[2]))
        return reading.exactly(scaled, papers.pointer_to("withdrawal"), label, "as tested, for this timber")
    for value in (thread, diameter, density):
        if not isinstance(value, Known):
            return value
    assert isinstance(thread, Known)
    assert isinstance(diameter, Known)
    assert isinstance(density, Known)
    if not FORMULA_FROM <= float(diameter.value) <= FORMULA_TO:
        where = papers.pointer_to("withdrawal") if papers is not None else fixing.pointer_to("screw")
        detail = "the formula of EN 1995-1-1 is for screws of 6 to 12 mm"
        return Missing(where, label, Why.UNREAD, detail=detail)
    found = withdrawal_strength(float(diameter.value), float(thread.high or 0.0), _low(density))
    return reading.exactly(found, diameter.pointer, label, "EN 1995-1-1, 8.39")
