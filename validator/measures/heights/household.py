"""Heights for those who use them: worktops below the elbow, shelves within reach, and what is used sitting down."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import HOBS, kind_of, of_kinds, standing_of
from validator.measures.arithmetic import least
from validator.measures.looking_up import looked_up
from validator.measures.room.walls import difference, named_gap, worked
from validator.measures.rows import NAME, YES_NO, Given, Known, Missing, Row, Rows, Subject, Words, figure, given
from validator.measures.worktops.pieces import worktop_over
from validator.plan.dimensions import LENGTH, NUMBER

if TYPE_CHECKING:
    from validator.measures.heights.heights import WorktopOnRun
    from validator.measures.site import Site
    from validator.plan.sections.appliances import Appliance
    from validator.plan.sections.household import Member


class WorktopForCook(Row, kind="worktop for a cook"):
    """A worktop and somebody who works at it standing; heights from the finished floor.

    `suited` is the height that goes with how tall they are, for whom the plan gives no elbow.
    """

    cook: str = given(NAME, "cook")
    has_elbow: bool = given(YES_NO, "whether the plan gives the elbow")
    elbow: float = given(LENGTH, "elbow")
    suited: float = given(LENGTH, "worktop for somebody as tall")
    height: float = given(LENGTH, "worktop")
    has_hob: bool = given(YES_NO, "whether a hob sits in it")
    has_sink: bool = given(YES_NO, "whether a sink sits in it")

    @figure(LENGTH, "below the elbow", start="worktop", end="bent elbow")
    def below_elbow(self) -> float:
        return self.elbow - self.height

    @figure(LENGTH, "worktop", start="finished floor", end="surface of the worktop")
    def worktop(self) -> float:
        return self.height


class WorktopForSeated(Row, kind="worktop for somebody seated"):
    """Somebody who works sitting down, and the lowest of the worktops."""

    heights: tuple[float, ...] = given(LENGTH, "worktop", many=True)
    undersides: tuple[float, ...] = given(LENGTH, "underside", many=True)

    @figure(LENGTH, "lowest worktop", start="finished floor", end="surface of the worktop")
    def lowest(self) -> float:
        return least(self.heights)

    @figure(LENGTH, "room for the knees", start="finished floor", end="underside of the lowest worktop")
    def knees(self) -> float:
        return least(self.undersides)


class ShelvesToReach(Row, kind="shelves to reach"):
    """A hung unit and how high the shortest reach of the household comes; shelves are taken to stand evenly."""

    underside: float = given(LENGTH, "unit")
    height: float = given(LENGTH, "height of the unit")
    shelves: float = given(NUMBER, "shelves")
    reach: float = given(LENGTH, "reach")

    @figure(LENGTH, "bottom of the unit", start="finished floor", end="bottom of the unit")
    def bottom(self) -> float:
        return self.underside

    @figure(LENGTH, "highest shelf", start="finished floor", end="highest shelf")
    def top_shelf(self) -> float:
        return self.underside + self.height * (self.shelves / (self.shelves + 1))


class OvenForSeated(Row, kind="oven for somebody seated"):
    """An oven or a microwave where somebody cooks sitting down; an oven's controls are taken to be at its top."""

    sort: str = given(Words(("oven", "microwave")), "what it is")
    base: float = given(LENGTH, "its underside")
    body: float = given(LENGTH, "height of it")

    @figure(LENGTH, "underside of it", start="finished floor", end="underside of it")
    def underside(self) -> float:
        return self.base

    @figure(LENGTH, "controls", start="finished floor", end="top of it")
    def controls(self) -> float:
        return self.base + self.body


def worktops_for_cooks(site: Site) -> Rows:
    """A row for each worktop and each cook of whom the plan says how tall they are or where the elbow comes."""
    cooks = {
        name: member
        for name, member in site.plan.household.items()
        if member.seated is not True and member.cooks is not False and (member.elbow or member.height)
    }
    rows = Rows()
    if not cooks:
        return rows
    with_hob, with_sink = _worktops_with(site, HOBS), _worktops_with(site, frozenset({"sink"}))
    for worktop in site.levels.worktops.values():
        for name, member in cooks.items():
            top, pointer = worktop.subject, member.pointer
            row = WorktopForCook(
                top._replace(name=f"{top.name} for {name}"),
                cook=reading.exactly(name, pointer, "cook"),
                has_elbow=reading.exactly(member.elbow is not None, pointer, "whether the plan gives the elbow"),
                elbow=named_gap(reading.read(member, "elbow", f"elbow of {name}"), f"elbow of {name}"),
                suited=_suited(site, name, member),
                height=worked(worktop, "height", "worktop"),
                has_hob=reading.exactly(top.name in with_hob, top.pointer, "whether a hob sits in it"),
                has_sink=reading.exactly(top.name in with_sink, top.pointer, "whether a sink sits in it"),
            )
            rows.rows.append(row)
    return rows


def _suited(site: Site, name: str, member: Member) -> Given:
    height = named_gap(reading.read(member, "height", name), f"height of {name}")
    if not isinstance(height, Known):
        return height
    by = {"body": float(height.value)}
    label = f"worktop for somebody as tall as {name}"
    return looked_up(site, "worktop-by-body", "worktop", by, member.pointer_to("height"), label)


def _worktops_with(site: Site, kinds: frozenset[str]) -> set[str]:
    """The names of the worktops in which something of these kinds sits."""
    found = set()
    for name in of_kinds(site.plan, kinds):
        standing = standing_of(site, name)
        worktop: WorktopOnRun | None = worktop_over(site, standing) if standing is not None else None
        if worktop is not None:
            found.add(worktop.subject.name)
    return found


def worktops_for_seated(site: Site) -> Rows:
    """A row for each one of the household who works sitting down."""
    rows = Rows()
    worktops = list(site.levels.worktops.values())
    for name, member in site.plan.household.items():
        if member.seated is not True or member.cooks is False:
            continue
        heights = [worked(worktop, "height", worktop.subject.name) for worktop in worktops]
        undersides = [
            difference(height, row.known.get("thickness") or row.why_not_known("thickness"), row.subject, "underside")
            for height, row in zip(heights, worktops, strict=True)
        ]
        missing = Missing(site.plan.worktops.pointer, "worktops")
        row = WorktopForSeated(
            Subject(name, member.pointer),
            heights=reading.parts(heights) if heights else missing,
            undersides=reading.parts(undersides) if undersides else missing,
        )
        rows.rows.append(row)
    return rows


def shelves_to_reach(site: Site) -> Rows:
    """A row for each hung unit, where the plan says how far up anybody reaches; the shortest reach counts."""
    reaches = [
        named_gap(reading.read(member, "reach", f"reach of {name}"), f"reach of {name}")
        for name, member in site.plan.household.items()
        if member.reach is not None
    ]
    rows = Rows()
    if not reaches:
        return rows
    shortest = min(reaches, key=lambda reach: float(reach.low or 0.0) if isinstance(reach, Known) else 0.0)
    for thing in site.setting_out.things():
        if thing.item.family == "unit" and site.levels.is_hung(thing) and not site.levels.worktop_on(thing.run):
            row = ShelvesToReach(
                thing.subject,
                underside=site.levels.underside_of(thing),
                height=reading.read(thing.item, "height", f"height of {thing.name}"),
                shelves=reading.read(thing.item, "shelves", "shelves"),
                reach=shortest,
            )
            rows.rows.append(row)
    return rows


def ovens_for_seated(site: Site) -> Rows:
    """A row for each oven and microwave, where somebody cooks sitting down."""
    rows = Rows()
    if not any(member.seated is True and member.cooks is not False for member in site.plan.household.values()):
        return rows
    for name in of_kinds(site.plan, frozenset({"oven", "microwave"})):
        appliance = site.plan.appliances[name]
        base, body = _oven(site, name, appliance)
        sort = reading.exactly(kind_of(name, appliance), appliance.pointer, "what it is")
        rows.rows.append(OvenForSeated(Subject(name, appliance.pointer), sort=sort, base=base, body=body))
    return rows


def _oven(site: Site, name: str, appliance: Appliance) -> tuple[Given, Given]:
    """Underside of an oven above the finished floor, and its height; one in an opening under a worktop ends there."""
    standing = standing_of(site, name)
    subject, pointer = Subject(name, appliance.pointer), appliance.pointer_to("body")
    body = reading.quantity(appliance.body.h if appliance.body is not None else None, pointer, f"height of {name}")
    worktop = worktop_over(site, standing) if standing is not None else None
    if appliance.up is None and worktop is not None and standing is not None and standing.item.family == "opening":
        under = difference(worked(worktop, "underside", "worktop"), _floor(site, standing.wall), subject, "worktop")
        return difference(under, body, subject, f"underside of {name}"), body
    levels = site.levels.at(standing.wall if standing is not None else "")
    return levels.above_finished_floor(appliance.up, appliance.pointer_to("up"), f"underside of {name}", None), body


def _floor(site: Site, wall: str) -> Given:
    return site.levels.at(wall).finished_floor
