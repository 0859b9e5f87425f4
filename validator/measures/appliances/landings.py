"""The worktop beside hobs and cookers: how much there is to each side, what ends it, and what stands up beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import (
    FUEL,
    HOBS,
    fuel_of,
    none_yet,
    of_kinds,
    place_of,
    subject_of,
)
from validator.measures.arithmetic import least, most
from validator.measures.room.walls import named_gap
from validator.measures.rows import TERM, YES_NO, Given, LeftOut, Missing, Row, Rows, Why, Words, figure, given
from validator.measures.tracing import derived
from validator.measures.worktops.pieces import worktop_over
from validator.measures.worktops.tops import ENDS, LEFT, SIDES, cut_of
from validator.plan.dimensions import LENGTH

if TYPE_CHECKING:
    from collections.abc import Iterable

    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.site import Site
    from validator.measures.worktops.tops import Cut, End

PLACES = ("ends_at", "end_further", "end_nearer", "upright", "upright_further", "upright_nearer")
UPRIGHTS = ("wall", "tall unit", "nothing")


class HobSide(Row, kind="side of a hob"):
    """One side of a hob or a cooker: the worktop there with what ends it, and the wall or tall unit that stands up.

    `maker_says` is what the hob's paper asks to a wall or to a tall unit, whichever it is.
    """

    fuel: str = given(FUEL, "fuel of the hob")
    ends_at: str = given(Words(ENDS), "what ends the worktop")
    end_further: float = given(LENGTH, "further end of the worktop")
    end_nearer: float = given(LENGTH, "nearer end of the worktop")
    upright: str = given(Words(UPRIGHTS), "what stands up beside it")
    upright_further: float = given(LENGTH, "further side of the room beside the hob")
    upright_nearer: float = given(LENGTH, "nearer side of the room beside the hob")
    maker_says: float = given(LENGTH, "what the hob's maker asks beside it")
    protected: bool = given(YES_NO, "whether the tall unit is protected against heat")
    lining: str = given(TERM, "what the splashback on the wall beside it is fixed on")
    burner_in: float = given(LENGTH, "nearest burner in from the side of the hob")

    @figure(LENGTH, "worktop beside the hob", start="edge of the hob", end="end of the worktop")
    def landing(self) -> float:
        return self.end_further - self.end_nearer

    @figure(LENGTH, "room beside the hob", start="edge of the hob", end="wall or tall unit")
    def room(self) -> float:
        return self.upright_further - self.upright_nearer

    @figure(LENGTH, "room beside the burner", start="edge of the burner", end="wall or tall unit")
    def burner_room(self) -> float:
        return self.room + self.burner_in


class WorktopBesideHob(Row, kind="worktop beside a hob"):
    """A hob or a cooker with the worktop to its left and to its right; what lies behind it counts on an island."""

    left: float = given(LENGTH, "worktop to the left")
    right: float = given(LENGTH, "worktop to the right")
    island: bool = given(YES_NO, "whether it is on an island")
    depth: float = given(LENGTH, "worktop")
    from_front: float = given(LENGTH, "cut-out from the front edge")
    cut_out: float = given(LENGTH, "cut-out from front to back")

    @figure(LENGTH, "worktop on the narrower side", start="edge of the hob", end="end of the worktop")
    def lesser(self) -> float:
        return least(self.left, self.right)

    @figure(LENGTH, "worktop on the wider side", start="edge of the hob", end="end of the worktop")
    def greater(self) -> float:
        return most(self.left, self.right)

    @figure(LENGTH, "worktop behind the hob", start="cut-out", end="back edge of the worktop")
    def behind(self) -> float:
        return self.depth - self.from_front - self.cut_out


def sides_of_hobs(site: Site) -> Rows:
    """A row for each side of each hob and cooker."""
    rows = left_out(site, HobSide.kind, HOBS)
    for place in _hobs(site):
        rows.rows += [_side(site, place, side) for side in SIDES]
    return rows


def worktops_beside_hobs(site: Site) -> Rows:
    """A row for each hob and cooker."""
    rows = left_out(site, WorktopBesideHob.kind, HOBS)
    sides = iter(site.rows(HobSide.kind).rows)
    for place in _hobs(site):
        hob = place.appliance
        left, right = (worked_landing(next(sides), side) for side in SIDES)
        rows.rows.append(
            WorktopBesideHob(
                subject_of(site, place),
                left=left,
                right=right,
                island=_on_island(site, place),
                depth=_depth_of_top(site, place),
                from_front=reading.read(hob, "from_front", f"cut-out of {place.name} from the front edge"),
                cut_out=_cut_out(place),
            )
        )
    return rows


def left_out(site: Site, kind: str, kinds: frozenset[str]) -> Rows:
    """No rows yet, and what the plan has left out of what they are made from."""
    plan = site.plan
    rows = none_yet(plan, kind)
    if plan.runs.left_out and of_kinds(plan, kinds):
        rows.left_out.append(LeftOut(kind, Missing("/runs", "runs of units")))
    return rows


def worked_landing(row: Row, side: str) -> Given:
    """The worktop on one side, as a value for the row of both."""
    gaps = [gap for name in ("end_further", "end_nearer") for gap in row.missing.get(name, ())]
    if gaps:
        return tuple(dict.fromkeys(gaps))
    return derived(row, "landing", f"worktop to the {side}")


def ends_at(end: Given, edge: Given, side: str) -> tuple[Given, Given]:
    """The further and the nearer place of what lies between the edge of a thing and an end on that side of it."""
    return (edge, end) if side == LEFT else (end, edge)


def _hobs(site: Site) -> Iterable[ApplianceAt]:
    if site.plan.runs.left_out:
        return ()
    return [place_of(site, name) for name in of_kinds(site.plan, HOBS)]


def _side(site: Site, place: ApplianceAt, side: str) -> Row:
    name, hob, thing = place.name, place.appliance, place.standing
    subject = subject_of(site, place, f"{name}, {side} side")
    fuel = fuel_of(name, hob)
    if thing is None or not site.tops.stands(thing):
        nowhere: Given = place.wall
        if thing is not None:
            detail = f"{thing.name}, where it is, does not stand in a run"
            nowhere = Missing(hob.pointer_to("in"), f"worktop at {name}", Why.UNCLEAR, detail=detail)
        return HobSide(subject, fuel=fuel, **dict.fromkeys(PLACES, nowhere))
    own = cut_of(place, "hob")
    end = site.tops.end_beside(thing, side, own)
    further, nearer = ends_at(end.place, own.edge(side), side)
    upright = site.tops.upright_beside(thing, side)
    values: dict[str, Given] = {"upright": reading.exactly("nothing", thing.item.pointer, "what stands up beside it")}
    if upright is not None:
        values = _upright(site, place, own, side, upright)
    return HobSide(subject, fuel=fuel, ends_at=end.by, end_further=further, end_nearer=nearer, **values)


def _upright(site: Site, place: ApplianceAt, own: Cut, side: str, upright: End) -> dict[str, Given]:
    """What stands up beside a hob, how far away, and what the papers and the plan say of it."""
    from validator.plan.sections.appliances import HobPapers

    further, nearer = ends_at(upright.place, own.edge(side), side)
    papers, field = site.plan.stated.get(place.name), "to_wall" if upright.thing is None else "to_tall_unit"
    called = f"what the maker of {place.name} asks beside it"
    maker: Given = Missing(f"{site.plan.stated.pointer}/{place.name}/{field.replace('_', ' ')}", called, Why.UNREAD)
    burner: Given = Missing(
        f"{site.plan.stated.pointer}/{place.name}/burner in",
        f"nearest burner in from the side of {place.name}",
        Why.UNREAD,
    )
    if isinstance(papers, HobPapers):
        maker = reading.stated(getattr(papers, field), papers.pointer_to(field), called)
        burner = reading.stated(
            papers.burner_in, papers.pointer_to("burner_in"), f"nearest burner in from the side of {place.name}"
        )
    return {
        "upright": upright.by,
        "upright_further": further,
        "upright_nearer": nearer,
        "maker_says": maker,
        "burner_in": burner,
        **_shielded(place, upright),
    }


def _shielded(place: ApplianceAt, upright: End) -> dict[str, Given]:
    """Whether a tall unit is protected against heat; on a wall, what lies below the splashback beside the hob."""
    if upright.thing is not None:
        item = upright.thing.item
        label = f"whether {upright.name} is protected against heat"
        return {"protected": reading.word(item.protected, item.pointer_to("protected"), label)}
    hob = place.appliance
    label = f"what covers the wall beside {place.name}"
    if hob.side_splashback is None:
        return {"lining": Missing(hob.pointer_to("side_splashback"), label)}
    covers = hob.side_splashback
    return {"lining": reading.word(covers.backing, covers.pointer_to("backing"), label)}


def _on_island(site: Site, place: ApplianceAt) -> Given:
    if place.standing is None:
        return place.wall
    run = site.plan.runs[place.standing.run]
    return reading.exactly(run.faces is not None, run.pointer, "whether it is on an island")


def _cut_out(place: ApplianceAt) -> Given:
    """How far a cut-out reaches from front to back: of `560 x 490` that is the second."""
    size, pointer = place.appliance.cut_out, place.appliance.pointer_to("cut_out")
    across = None if size is None else size.d if size.d is not None else size.h
    return named_gap(reading.quantity(across, pointer, "cut-out"), f"cut-out of {place.name}")


def _depth_of_top(site: Site, place: ApplianceAt) -> Given:
    row = worktop_over(site, place.standing) if place.standing is not None else None
    if row is None:
        return Missing(site.plan.worktops.pointer, f"worktop at {place.name}")
    worktop = site.plan.worktops[row.subject.name]
    return named_gap(reading.read(worktop, "depth", "worktop"), f"depth of {row.subject.name}")
