"""Water: where that of each appliance can be shut off, the stopcock, and how the hoses of machines drain."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import kind_of, none_yet, of_kinds, standing_of
from validator.measures.rows import YES_NO, Given, LeftOut, Missing, Row, Rows, Subject, Words, gaps_of, given
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.appliances import Appliance

FED = ("sink", "dishwasher", "washing machine", "boiling tap")
"""What cannot be without water; of anything else only a `feed` tells that it has some."""

DRAINED_BY_HOSE = ("dishwasher", "washing machine")

FILLS_ITS_PLACE = frozenset(
    {
        *("oven", "microwave", "fridge", "freezer", "fridge freezer"),
        *("dishwasher", "washing machine", "tumble dryer", "electric cooker", "gas cooker"),
    }
)
"""What has to be pulled out before anybody reaches behind it."""

HOSES = ("raised", "into a standpipe", "low")


class OnWater(Row, kind="appliance on water"):
    """What is fed with water, and where it can be shut off: in a unit, or behind a machine."""

    appliance: str = given(Words((*FED, "other")), "what is fed")
    feed: str = given(Words(("in a unit", "behind a machine")), "where its water is shut off")


class Stopcock(Row, kind="stopcock"):
    """The stop valve of the home, as the survey found it."""

    turns: bool = given(YES_NO, "whether the stopcock turns and shuts")
    within_reach: bool = given(YES_NO, "whether it can be reached once the units are in")


class DrainHose(Row, kind="drain hose of a machine"):
    """The hose of a dishwasher or a washing machine, and what keeps foul water from running back through it."""

    machine: str = given(Words(DRAINED_BY_HOSE), "what it drains")
    air_gap: bool = given(YES_NO, "whether it has an air gap")
    hose: str = given(Words(HOSES), "how it runs")


def appliances_on_water(site: Site) -> Rows:
    """A row for each sink, dishwasher, washing machine and boiling tap, and for whatever else has a feed.

    A plan that has no runs by its own word has no unit for a valve, and is not asked for one.
    """
    rows = none_yet(site.plan, OnWater.kind)
    if not site.plan.runs and not site.plan.runs.left_out:
        return rows
    machines = {
        at.item.pointer for each in of_kinds(site.plan, FILLS_ITS_PLACE) if (at := standing_of(site, each)) is not None
    }
    taps = {fold(each.behind): each for each in site.plan.appliances.values() if each.behind and each.feed}
    for name, appliance in site.plan.appliances.items():
        kind = kind_of(name, appliance)
        if kind not in FED and (appliance.feed is None or appliance.behind is not None):
            continue
        rows.rows.append(
            OnWater(
                Subject(name, appliance.pointer),
                appliance=reading.exactly(kind if kind in FED else "other", appliance.pointer, "what is fed"),
                feed=_feed(
                    site, appliance if appliance.feed is not None else taps.get(fold(name), appliance), name, machines
                ),
            )
        )
    return rows


def _feed(site: Site, said: Appliance, name: str, machines: set[str]) -> Given:
    """Where the valve is; a sink that says nothing itself has it from its tap."""
    pointer, label = said.pointer_to("feed"), f"where the water of {name} is shut off"
    found = site.setting_out.find(said.feed) if said.feed is not None else None
    if found is None:
        return Missing(pointer, label)
    behind = found.item.family == "opening" or found.item.pointer in machines
    return reading.exactly("behind a machine" if behind else "in a unit", pointer, label)


def stopcocks(site: Site) -> Rows:
    """One row where the plan has something that is fed with water."""
    plan = site.plan
    if plan.appliances.left_out:
        return Rows(left_out=[LeftOut(Stopcock.kind, Missing("/appliances", "appliances and sinks"))])
    if not of_kinds(plan, frozenset(FED)):
        return Rows()
    found = plan.survey.stopcock if plan.survey is not None else None
    if found is None:
        missing = Missing("/survey/stopcock", "stopcock")
        return Rows([Stopcock(Subject("stopcock", missing.pointer), turns=missing, within_reach=missing)])
    where = reading.word(found.in_, found.pointer_to("in"), "where the stopcock is")
    turns = reading.word(found.turns, found.pointer_to("turns"), "whether the stopcock turns and shuts")
    label = "whether the stopcock can be reached once the units are in"
    within_reach = reading.word(found.within_reach, found.pointer_to("within_reach"), label)
    return Rows(
        [
            Stopcock(
                Subject("stopcock", found.pointer, found.in_ if isinstance(found.in_, str) else ""),
                turns=gaps_of(where, turns) or turns,
                within_reach=gaps_of(where, within_reach) or within_reach,
            )
        ]
    )


def drain_hoses(site: Site) -> Rows:
    """A row for each dishwasher and washing machine."""
    rows = none_yet(site.plan, DrainHose.kind)
    for name in of_kinds(site.plan, frozenset(DRAINED_BY_HOSE)):
        appliance = site.plan.appliances[name]
        rows.rows.append(
            DrainHose(
                Subject(name, appliance.pointer),
                machine=reading.exactly(kind_of(name, appliance), appliance.pointer, "what it drains"),
                air_gap=_air_gap(name, appliance),
                hose=reading.word(appliance.hose, appliance.pointer_to("hose"), f"how the drain hose of {name} runs"),
            )
        )
    return rows


def _air_gap(name: str, appliance: Appliance) -> Given:
    """Wherever it is said to be, there is one; `none` says that there is none."""
    pointer, label = appliance.pointer_to("air_gap"), f"air gap of {name}"
    where = appliance.air_gap
    if isinstance(where, str):
        return reading.exactly(fold(where) != "none", pointer, label)
    return reading.word(where, pointer, label)
