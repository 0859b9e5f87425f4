"""What holds the things that hang on a wall: which fixing carries each, how many share it, and how many count."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.appliances.appliance_places import HOODS, of_kinds, standing_of
from validator.measures.fixings.fixing_capacity import Capacity, capacity, papers_of
from validator.measures.fixings.fixings import is_appliance
from validator.measures.fixings.hung_on_fixings import (
    AT,
    HANGERS,
    AlongRail,
    CountedAlongRail,
    HangingRail,
    HeightBetween,
    HoodOnFixings,
    HoodOnFixingsApart,
    HungOnFixings,
    HungOnFixingsApart,
)
from validator.measures.fixings.sharing import shared
from validator.measures.fixings.timber_screws import screws_that_count
from validator.measures.fixings.unit_loads import Hung, hung_appliance, hung_unit, load_on_fixings
from validator.measures.looking_up import looked_up
from validator.measures.room.walls import named_gap, worked
from validator.measures.rows import Given, Known, LeftOut, Missing, Row, Rows, Subject, Why, gaps_of
from validator.measures.runs.of_kinds import asked_at
from validator.plan.names import fold
from validator.plan.order import BUILT_IN
from validator.plan.pointers import join
from validator.plan.values import Quantity

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.sections.appliances import Appliance
    from validator.plan.sections.furniture import Item
    from validator.plan.sections.work import Fixing

MASONRY = ("solid_masonry_bases", "hollow_bases", "light_bases", "aerated_bases")
"""Bases of bricks or blocks, in which two plugs may sit in the same one."""


class _Thing(NamedTuple):
    """A hung thing with what is known of it; `item` only of a unit."""

    name: str
    subject: Subject
    hung: Hung
    width: Given
    standing: Standing | None


def hung_units_on_fixings(site: Site) -> Rows:
    """A row for each hung unit."""
    units = [thing for thing in site.setting_out.things() if thing.item.family == "unit" and site.levels.is_hung(thing)]
    if not units:
        return Rows()
    if site.plan.fixings.left_out:
        return Rows(left_out=[LeftOut(HungOnFixings.kind, Missing("/fixings", "fixings"))])
    machines: dict[tuple[str, str], list[tuple[str, Appliance]]] = {}
    for name, appliance in site.plan.appliances.items():
        host = site.plan.unit(appliance.in_) if appliance.in_ is not None else None
        if host is not None:
            machines.setdefault(host, []).append((name, appliance))
    rows = Rows()
    holding = _Holding(site, units)
    for thing in units:
        hung = hung_unit(site, thing, machines.get((thing.run, thing.name), ()))
        width = thing.row.known.get("width") or thing.row.why_not_known("width")
        rows.rows.append(holding.row(_Thing(thing.name, thing.subject, hung, width, thing)))
    return rows


def hoods_on_fixings(site: Site) -> Rows:
    """A row for each hood that hangs on a wall by itself."""
    rows = Rows()
    holding = _Holding(site, [])
    for name in of_kinds(site.plan, HOODS):
        appliance = site.plan.appliances[name]
        if appliance.in_ is not None:
            continue  # it is one of the machines in that unit
        over = standing_of(site, name)
        if over is not None and site.plan.runs[over.run].faces is not None:
            continue  # over an island it hangs from the ceiling
        pointer = appliance.pointer_to("width")
        width = reading.quantity(appliance.width, pointer, f"width of {name}")
        rows.rows.append(
            holding.row(_Thing(name, Subject(name, appliance.pointer), hung_appliance(name, appliance), width, None))
        )
    return rows


def hanging_rails(site: Site) -> Rows:
    """A row for each rail and each make of wall it is fixed to."""
    rows = Rows()
    for row in site.fixings.rows:
        fixing = site.plan.fixings.get(row.subject.name)
        if fixing is not None and fixing.at == "rail":
            rows.rows.append(
                HangingRail(
                    row.subject,
                    apart=reading.read(fixing, "centres", "distance between its fixings"),
                    from_ends=reading.read(fixing, "from_ends", "from its ends to the nearest fixing"),
                    base=row.known.get("base") or row.why_not_known("base"),
                )
            )
    return rows


class _Carrier(NamedTuple):
    """A fixing that carries a thing, by its name, with its rows where that hangs."""

    name: str
    fixing: Fixing
    rows: list[Row]


class _Holding:
    """Which fixing holds each hung thing, and where plugs sit so close that they count as one."""

    def __init__(self, site: Site, units: Sequence[Standing]) -> None:
        self._site = site
        self._failed = {fold(name) for name, built in site.plan.built.items() if built.failed is not None}
        self._fixings: dict[str, list[_Carrier]] = {unit.item.pointer: self._of_unit(unit) for unit in units}
        self._loose: dict[str, list[str]] = {}
        self._plugs: dict[str, list[float]] = {}
        for unit in units:
            found = self._fixings[unit.item.pointer]
            if not found:
                self._loose.setdefault(unit.run, []).append(unit.name)
            elif any(fixing.at == "hangers" for _, fixing, _ in found):
                places = _plugs(unit)
                self._plugs.setdefault(fold(unit.wall), []).extend(places or ())
        for places in self._plugs.values():
            places.sort()

    def _of_unit(self, unit: Standing) -> list[_Carrier]:
        """The fixings that carry a unit, with their rows where it hangs; those of a machine in it do not."""
        plan = self._site.plan
        rows: dict[str, list[Row]] = {}
        for row in self._site.fixings.of.get(unit.item.pointer, ()):
            rows.setdefault(row.subject.name, []).append(row)
        carriers = [_Carrier(name, plan.fixings[name], found) for name, found in rows.items()]
        return [
            carrier
            for carrier in carriers
            if (carrier.fixing.at is None or carrier.fixing.at in AT)
            and not all(is_appliance(plan, wanted) for wanted in carrier.fixing.for_)
        ]

    def _of_appliance(self, name: str) -> list[_Carrier]:
        return [
            _Carrier(called, fixing, self._site.fixings.of.get(fixing.pointer, []))
            for called, fixing in self._site.plan.fixings.items()
            if fold(name) in {fold(wanted) for wanted in fixing.for_}
        ]

    def row(self, thing: _Thing) -> Row:
        """The row of one hung thing."""
        unit = thing.standing
        found = self._fixings[unit.item.pointer] if unit is not None else self._of_appliance(thing.name)
        values: dict[str, Given] = {
            "width": thing.width,
            "depth": thing.hung.depth,
            "height_of_unit": thing.hung.height,
            "person": self._load("somebody leaning", thing, "somebody who leans on it"),
        }
        test = self._load("test of strength", thing, "load of a test of strength")
        if isinstance(test, Known):  # not every country has such a test
            values["test"] = test
        values |= self._by_all(thing, found) if found else self._nothing(thing)
        apart = "pull_may" in values
        values |= load_on_fixings(thing.hung, values["drop"], Subject(thing.name, thing.subject.pointer))
        if unit is not None:
            values["lower_edge"] = _lower_edge(unit.item)
            values["rated"] = _rated(unit.item)
            row = HungOnFixingsApart if apart else HungOnFixings
            return row(thing.subject, **values)
        hood = HoodOnFixingsApart if apart else HoodOnFixings
        return hood(thing.subject, **values)

    def _load(self, of: str, thing: _Thing, label: str) -> Given:
        return looked_up(self._site, "loads-on-hung-things", "force", {"of": of}, thing.subject.pointer, label)

    def _nothing(self, thing: _Thing) -> dict[str, Given]:
        """What is not known of a thing that no fixing is for; one question for all such units of a run."""
        plan = self._site.plan
        loose = self._loose[thing.standing.run] if thing.standing is not None else [thing.name]
        kind = HoodOnFixings.kind if thing.standing is None else HungOnFixings.kind
        missing = Missing(plan.fixings.pointer, f"what holds {', '.join(loose)}", asks=f"{kind}.held_by")
        fields = ("held_by", "at", "base", "kind_of", "drop", "number", "counted", "load_may", "joints", "once")
        return dict.fromkeys((*fields, "to_failure", "thread", "diameter"), missing)

    def _by_all(self, thing: _Thing, found: Sequence[_Carrier]) -> dict[str, Given]:
        """The fields of a thing for what holds it; several fixings share its load."""
        may = [capacity(self._site, *carrier) for carrier in found]
        each = [self._held(thing, *carrier, one) for carrier, one in zip(found, may, strict=True)]
        if len(each) == 1:
            return each[0]
        aparts = [
            self._apart(name, fixing, one.base)
            for (name, fixing, _), one in zip(found, may, strict=True)
            if one.category in MASONRY and isinstance(one.base, Known)
        ]
        return shared(each, thing.width, aparts, Subject(thing.name, thing.subject.pointer))

    def _held(self, thing: _Thing, name: str, fixing: Fixing, rows: Sequence[Row], may: Capacity) -> dict[str, Given]:
        number = self._number(thing, fixing)
        kind = rows[0].known.get("kind_of") or rows[0].why_not_known("kind_of") if rows else _no_rows(fixing)
        at = Missing(fixing.pointer_to("at"), "where on it the fixings sit")
        values: dict[str, Given] = {
            "held_by": reading.exactly(name, fixing.pointer, "what holds it"),
            "at": at if fixing.at is None else reading.exactly(fixing.at, fixing.pointer_to("at"), "where they sit"),
            "base": may.base,
            "kind_of": kind,
            "drop": self._drop(thing, fixing),
            "number": number,
            "counted": self._counted(thing, name, fixing, number, may),
            "joints": may.joints,
            "once": self._factor(may, "once", "what a load that comes once may take up"),
            "to_failure": self._factor(may, "whole", "from what a fixing may carry to what it fails at"),
            "thread": may.thread,
            "diameter": may.diameter,
        }
        if may.category != "timber_bases":
            del values["thread"], values["diameter"]
        if may.load is not None:
            return values | {"load_may": may.load}
        return values | {"pull_may": may.pull, "shear_may": may.shear}

    def _factor(self, may: Capacity, gives: str, label: str) -> Given:
        if not isinstance(may.base, Known):
            return may.base
        by = {"base": str(may.base.value)}
        return looked_up(self._site, "anchor-factors", gives, by, may.base.pointer, label)

    def _drop(self, thing: _Thing, fixing: Fixing) -> Given:
        label = f"how far the fixings of {thing.name} sit below its top"
        item = thing.standing.item if thing.standing is not None else None
        if fixing.down is None and item is not None and item.hangers is not None:
            down = reading.read(item.hangers, "down", label)
        else:
            down = reading.read(fixing, "down", label)
        row = HeightBetween(Subject(thing.name, thing.subject.pointer), height=thing.hung.height, down=down)
        return worked(row, "between", "from its fixings to its lower edge")

    def _number(self, thing: _Thing, fixing: Fixing) -> Given:
        """How many fixings share the load of a thing; of those at its hangers one that failed is none."""
        label = "fixings that share it"
        failed = sum(fold(f"{thing.name} {side} hanger") in self._failed for side in ("left", "right"))
        if fixing.at == "hangers" and fixing.each is None:
            note = f"one at each side, {failed} failed" if failed else "one at each side"
            return reading.exactly(HANGERS - failed, fixing.pointer_to("at"), label, note)
        if fixing.at == "rail" and fixing.each is None:
            if fixing.centres is None and thing.standing is not None:
                return self._on_studs(thing.standing, fixing)
            apart = reading.read(fixing, "centres", "distance between the fixings of the rail")
            return worked(AlongRail(Subject(thing.name, ""), width=thing.width, apart=apart), "number", label)
        each = reading.read(fixing, "each", "how many of them hold each thing")
        if not failed or not isinstance(each, Known):
            return each
        left = float(each.value) - failed
        return reading.exactly(left, each.pointer, label, f"{each.text} less {failed} failed")

    def _on_studs(self, unit: Standing, fixing: Fixing) -> Given:
        for row in self._site.rows("hung unit on studs").rows:
            if row.subject.pointer == unit.item.pointer:
                return row.known.get("studs_behind") or row.why_not_known("studs_behind")
        return Missing(fixing.pointer_to("centres"), "distance between the fixings of the rail")

    def _counted(self, thing: _Thing, name: str, fixing: Fixing, number: Given, may: Capacity) -> Given:
        """How many of the fixings carry their whole load: plugs that may share a brick share its load.

        Of several screws in timber n^0.9 count (EN 1995-1-1, 8.41); American practice takes each in full.
        """
        label = "fixings that count in full"
        european = self._site.library.table("screw-withdrawal", self._site.country) is None
        if may.category == "timber_bases" and european and isinstance(number, Known):
            value, low, high = (screws_that_count(float(end or 0.0)) for end in (number.value, number.low, number.high))
            note = "n to the power 0.9, EN 1995-1-1, 8.41"
            return Known(value, number.pointer, "", label, low=low, high=high, assumed=number.assumed, note=note)
        if may.category not in MASONRY or not isinstance(may.base, Known):
            return number
        apart = self._apart(name, fixing, may.base)
        if not isinstance(apart, Known) or not isinstance(number, Known):
            return apart if not isinstance(apart, Known) else number
        if fixing.at == "hangers" and thing.standing is not None:
            return self._counted_at_hangers(thing.standing, float(apart.value), number, label)
        row = CountedAlongRail(Subject(thing.name, ""), width=thing.width, apart=apart, number=number)
        return worked(row, "counted", label)

    def _apart(self, name: str, fixing: Fixing, base: Known) -> Given:
        """How far plugs have to be apart to carry their load each: as their maker says, else by the approvals."""
        papers = papers_of(self._site, name, fixing)
        if papers is not None and isinstance(papers.spacing, Quantity):
            return reading.stated(papers.spacing, papers.pointer_to("spacing"), "apart where each counts")
        by = {"base": str(base.value)}
        return looked_up(self._site, "anchor-factors", "apart", by, fixing.pointer, "apart where each counts")

    def _counted_at_hangers(self, unit: Standing, apart: float, number: Known, label: str) -> Given:
        own = _plugs(unit)
        if own is None:
            gaps = gaps_of(unit.left, unit.right)
            return gaps or Missing(unit.item.pointer, "in from its side to the hanger")
        places = self._plugs.get(fold(unit.wall), own)
        each = float(number.value) / len(own)
        found = 0.0
        for place in own:
            close = bisect_left(places, place + apart - 0.5) - bisect_right(places, place - apart + 0.5)
            found += each / (max(close, 1) * max(each, 1.0))
        note = (
            ""
            if found >= float(number.value)
            else f"those less than {apart:.0f} mm from the next share what one carries"
        )
        return reading.exactly(found, unit.item.pointer, label, note)


def _plugs(unit: Standing) -> list[float] | None:
    """Where the two hangers of a unit sit along its wall; None where that is not known."""
    hangers = unit.item.hangers
    inward = hangers.in_ if hangers is not None else None
    if not isinstance(unit.left, Known) or not isinstance(unit.right, Known) or not isinstance(inward, Quantity):
        return None
    return [float(unit.left.value) + inward.low, float(unit.right.value) - inward.low]


def _no_rows(fixing: Fixing) -> Given:
    return Missing(fixing.pointer, "kind of fixing")


def _rated(item: Item) -> Given:
    pointer = item.pointer_to("hangers") if item.is_ in BUILT_IN else join("/kinds", item.is_, "hangers", "rated")
    label = "load one hanger is rated for"
    if item.hangers is None or item.hangers.rated is None:
        return named_gap(Missing(pointer, label, Why.UNREAD), f"load one hanger of {item.is_} is rated for")
    return reading.read(item.hangers, "rated", label)


def _lower_edge(item: Item) -> Given:
    label = f"what holds the lower edge of {item.is_}"
    return reading.word(item.lower_edge, asked_at(item, "lower_edge"), label)
