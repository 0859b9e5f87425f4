"""Air taken out of the room by hoods and fans, and the ducts that carry it away."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import HOBS, HOODS, kind_of, none_yet, of_kinds
from validator.measures.rows import (
    TERM,
    YES_NO,
    Given,
    Known,
    LeftOut,
    Missing,
    Row,
    Rows,
    Subject,
    Words,
    gaps_of,
    given,
)
from validator.plan.dimensions import FLOW, LENGTH, NUMBER
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.plan import Plan
    from validator.plan.sections.appliances import Appliance
    from validator.plan.sections.ducts import Duct

FAN = "extract fan"
FLUES = ("none", "boiler", "water heater", "gas fire", "oil boiler", "stove", "open fire")


class Extract(Row, kind="extract of a kitchen"):
    """A hood or a fan: how much air it moves, and whether that air leaves the house."""

    hood: bool = given(YES_NO, "whether it is a hood")
    ducted: bool = given(YES_NO, "whether its air goes outside")
    rate: float = given(FLOW, "rate")
    ducted_hood: bool = given(YES_NO, "whether there is a hood ducted outside")
    other_extract: bool = given(YES_NO, "whether another one is ducted outside")
    makeup_air: bool = given(YES_NO, "whether air is let in for it")


class Fumes(Row, kind="fumes of cooking"):
    """A hob or a cooker, and whether there is anything that catches what rises from it."""

    planned: bool = given(YES_NO, "whether a hood or fan is planned")


class DuctOutside(Row, kind="duct to outside"):
    """The duct of a hood or a fan whose air leaves the room, and what its draught may pull fumes from."""

    bore: float = given(LENGTH, "bore")
    length: float = given(LENGTH, "straight length")
    bends: float = given(NUMBER, "bends")
    flexible: float = given(LENGTH, "flexible part")
    ends: str = given(TERM, "where it ends")
    open_flue: str = given(Words(FLUES), "open flue in the room")
    spillage_test: str = given(Words(("passed", "failed", "not yet")), "test for spilled fumes")


def extracts(site: Site) -> Rows:
    """A row for each hood and extract fan."""
    plan = site.plan
    outside = {name: _outside(name, plan.appliances[name]) for name in _all(plan)}
    hoods = {name: where for name, where in outside.items() if kind_of(name, plan.appliances[name]) in HOODS}
    ducted_hood = _any_outside(hoods, plan.appliances.pointer, "hood ducted outside")
    rows = none_yet(plan, Extract.kind)
    rows.rows += [_extract(plan, name, outside, name in hoods, ducted_hood) for name in outside]
    return rows


def fumes_of_cooking(site: Site) -> Rows:
    """A row for each hob and cooker. While one appliance does not say what it is, it may be the fan."""
    plan = site.plan
    rows = none_yet(plan, Fumes.kind)
    catches = bool(_all(plan))
    unsaid = tuple(entry.missing for entry in rows.left_out)
    for name in of_kinds(plan, HOBS):
        pointer = plan.appliances[name].pointer
        planned: Given = reading.exactly(catches, pointer, "whether a hood or fan is planned")
        rows.rows.append(Fumes(Subject(name, pointer), planned=unsaid if unsaid and not catches else planned))
    return rows


def ducts_to_outside(site: Site) -> Rows:
    """A row for each hood or fan that is ducted outside; one that does not say so may be."""
    plan = site.plan
    rows = none_yet(plan, DuctOutside.kind)
    for name in _all(plan):
        duct = plan.appliances[name].ducted
        outside = _outside(name, plan.appliances[name])
        rows.left_out += [LeftOut(DuctOutside.kind, gap) for gap in gaps_of(outside)]
        if duct is not None and isinstance(outside, Known) and outside.value:
            rows.rows.append(_duct(plan, name, duct))
    return rows


def _all(plan: Plan) -> list[str]:
    return of_kinds(plan, HOODS | {FAN})


def _outside(name: str, appliance: Appliance) -> Given:
    """Whether the air leaves the house: said, or a bore or an end says that there is a duct."""
    duct, label = appliance.ducted, f"duct of the {name}"
    if duct is None:
        return Missing(appliance.pointer_to("ducted"), label)
    if duct.outside is None and any(value is not None for value in (duct.bore, duct.to, duct.length)):
        return reading.exactly(True, duct.pointer, label)
    return reading.word(duct.outside, duct.pointer_to("outside"), label)


def _extract(plan: Plan, name: str, outside: Mapping[str, Given], hood: bool, ducted_hood: Given) -> Row:
    appliance = plan.appliances[name]
    others = {other: where for other, where in outside.items() if other != name}
    makeup: Given = Missing(appliance.pointer_to("makeup_air"), f"makeup air of the {name}")
    if isinstance(appliance.makeup_air, str):
        there = fold(appliance.makeup_air) != "none"
        makeup = reading.exactly(there, appliance.pointer_to("makeup_air"), "makeup air")
    elif appliance.makeup_air is not None:
        makeup = reading.word(appliance.makeup_air, appliance.pointer_to("makeup_air"), "makeup air")
    return Extract(
        Subject(name, appliance.pointer),
        hood=reading.exactly(hood, appliance.pointer, "whether it is a hood"),
        ducted=outside[name],
        rate=reading.read(appliance, "rate", f"rate of the {name}"),
        ducted_hood=ducted_hood,
        other_extract=_any_outside(others, appliance.pointer, "another extract"),
        makeup_air=makeup,
    )


def _any_outside(outside: Mapping[str, Given], pointer: str, label: str) -> Given:
    """Whether one of them is ducted outside; not known while one that does not say it might be."""
    if any(isinstance(each, Known) and each.value for each in outside.values()):
        return reading.exactly(True, pointer, label)
    gaps = [each for each in outside.values() if isinstance(each, Missing)]
    return tuple(gaps) or reading.exactly(False, pointer, label)


def _duct(plan: Plan, name: str, duct: Duct) -> Row:
    return DuctOutside(
        Subject(name, plan.appliances[name].pointer),
        bore=reading.read(duct, "bore", f"bore of the duct of the {name}"),
        length=reading.read(duct, "length", "straight length of the duct"),
        bends=reading.read(duct, "bends", "bends of the duct"),
        flexible=reading.read(duct, "flexible", "flexible part of the duct"),
        ends=reading.word(duct.to, duct.pointer_to("to"), "where the duct ends"),
        open_flue=_surveyed(plan, "open_flue", "open flue in the room"),
        spillage_test=_surveyed(plan, "spillage_test", "test for spilled fumes"),
    )


def _surveyed(plan: Plan, field: str, label: str) -> Given:
    if plan.survey is None:
        return Missing("/survey", label)
    return reading.word(getattr(plan.survey, field), plan.survey.pointer_to(field), label)
