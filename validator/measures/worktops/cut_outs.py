"""Cut-outs for hobs and sinks: the strips of worktop round them, the unit below, and what hangs down into it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.appliances.appliance_places import FUELS, fuel_of, kind_of, of_kinds, place_of
from validator.measures.arithmetic import least
from validator.measures.looking_up import looked_up
from validator.measures.room.walls import difference, named_gap, worked
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
    Why,
    Words,
    figure,
    given,
)
from validator.measures.worktops.materials import held_by
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.appliances.appliance_places import ApplianceAt
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.measures.worktops.pieces import Piece
    from validator.plan.sections.appliances import Appliance

CUT_OUT_FOR = frozenset({*FUELS, "sink"}) - {"gas cooker"}
"""What goes into a cut-out of a worktop; cookers stand between worktops."""


class CutEdges(Row, kind="edges of a cut-out"):
    """The two sides of a cut-out along its worktop."""

    middle: float = given(LENGTH, "middle")
    width: float = given(LENGTH, "cut-out")

    @figure(LENGTH, "left edge", start="left end of the wall", end="left edge of the cut-out")
    def left(self) -> float:
        return self.middle - self.width / 2

    @figure(LENGTH, "right edge", start="left end of the wall", end="right edge of the cut-out")
    def right(self) -> float:
        return self.middle + self.width / 2


class CutOut(Row, kind="cut-out in a worktop"):
    """A cut-out for a hob or a sink, with the worktop that is left round it and the unit it hangs down into."""

    sort: str = given(Words(("hob", "sink")), "what it is for")
    fuel: str = given(Words(("gas", "induction", "ceramic", "solid plate")), "fuel")
    material: str = given(TERM, "material of the worktop")
    set: str = given(Words(("drop-in", "undermount")), "how it is set")
    front: float = given(LENGTH, "front strip")
    worktop_depth: float = given(LENGTH, "worktop")
    cut_depth: float = given(LENGTH, "cut-out, front to back")
    left: float = given(LENGTH, "left edge of the cut-out")
    right: float = given(LENGTH, "right edge of the cut-out")
    start: float = given(LENGTH, "left end of the worktop")
    end: float = given(LENGTH, "right end of the worktop")
    has_next: bool = given(YES_NO, "whether there is another cut-out in the same worktop")
    to_next: float = given(LENGTH, "worktop between the two cut-outs")
    corner_radius: float = given(LENGTH, "radius of its inside corners")
    has_lining: bool = given(YES_NO, "whether its edge is lined against heat")
    unit: float = given(LENGTH, "unit")
    side: float = given(LENGTH, "side of the unit")
    through: float = given(LENGTH, "what hangs between the sides")
    below: str = given(Words(("drawers", "other")), "what is below")
    to_underside: float = given(LENGTH, "from where it hangs down to the underside of the worktop")
    free_below: float = given(LENGTH, "underside of the worktop to what is below")
    body: float = given(LENGTH, "what hangs down")
    maker_air: float = given(LENGTH, "air below that the maker asks for")
    support: str = given(TERM, "what holds the worktop there")

    @figure(LENGTH, "length of the cut-out", start="left edge of the cut-out", end="right edge of the cut-out")
    def length(self) -> float:
        return self.right - self.left

    @figure(LENGTH, "back strip", start="back edge of the cut-out", end="back edge of the worktop")
    def back(self) -> float:
        return self.worktop_depth - self.front - self.cut_depth

    @figure(LENGTH, "out from the back edge", start="back edge of the worktop", end="middle of the cut-out")
    def out(self) -> float:
        return self.back + self.cut_depth / 2

    @figure(LENGTH, "narrower strip", start="cut-out", end="front or back edge of the worktop")
    def narrower_strip(self) -> float:
        return least(self.front, self.back)

    @figure(LENGTH, "worktop beside it", start="edge of the cut-out", end="nearer end of the worktop")
    def to_end(self) -> float:
        return least(self.left - self.start, self.end - self.right)

    @figure(LENGTH, "room beside it", start="what hangs down", end="inside of each side of the unit")
    def beside(self) -> float:
        return (self.unit - 2 * self.side - self.through) / 2

    @figure(LENGTH, "air below", start="underside of what hangs down", end="what is below it")
    def air(self) -> float:
        return self.to_underside + self.free_below - self.body


class Placed(NamedTuple):
    """A hob or sink in a piece of a worktop, with the edges of its cut-out along the wall."""

    at: ApplianceAt
    piece: Piece
    standing: Standing
    left: Given
    right: Given


def cut_outs_of(site: Site) -> dict[str, list[Placed]]:
    """The hobs and sinks in each piece of worktop, by the name of the piece, from the left as far as known."""
    over = {
        (thing.run, thing.name): piece
        for pieces in site.worktop_pieces.values()
        for piece in pieces
        for thing in piece.below
    }
    found: dict[str, list[Placed]] = {}
    for name in of_kinds(site.plan, CUT_OUT_FOR):
        at = place_of(site, name)
        piece = over.get((at.standing.run, at.standing.name)) if at.standing is not None else None
        if at.standing is not None and piece is not None:
            left, right = _edges(at)
            found.setdefault(piece.name, []).append(Placed(at, piece, at.standing, left, right))
    for placed in found.values():
        placed.sort(key=lambda each: float(each.left.value) if isinstance(each.left, Known) else 0.0)
    return found


def cut_outs(site: Site) -> Rows:
    """A row for each hob and sink in a worktop; one whose unit or worktop nobody says is cut into some worktop too."""
    plan = site.plan
    for section, label in ((plan.worktops, "worktops"), (plan.appliances, "appliances")):
        if section.left_out:
            return Rows(left_out=[LeftOut(CutOut.kind, Missing(section.pointer, label))])
    rows = Rows()
    for placed in site.cut_outs.values():
        for number, each in enumerate(placed):
            rows.rows.append(_row(site, each, [*placed[max(0, number - 1) : number], *placed[number + 1 : number + 2]]))
    found = {each.at.name for placed in site.cut_outs.values() for each in placed}
    missing = (_nowhere(site, name) for name in of_kinds(plan, CUT_OUT_FOR) if plan.worktops and name not in found)
    rows.left_out += [LeftOut(CutOut.kind, each) for each in missing]
    return rows


def _nowhere(site: Site, name: str) -> Missing:
    """What to find out of a hob or sink that is in no worktop: its unit, or the worktop on that."""
    standing = place_of(site, name).standing
    if standing is None:
        return Missing(site.plan.appliances[name].pointer_to("in_"), f"unit that {name} sits in")
    return Missing(site.plan.worktops.pointer, f"worktop over {standing.name}, which {name} is cut into")


def _row(site: Site, placed: Placed, beside: list[Placed]) -> Row:
    name, appliance, piece, item = placed.at.name, placed.at.appliance, placed.piece, placed.standing.item
    is_sink = kind_of(name, appliance) == "sink"
    subject = Subject(name, appliance.pointer, piece.worktop, placed.standing.wall)
    if isinstance(placed.left, Known) and isinstance(placed.right, Known):
        subject = subject._replace(along=(float(placed.left.value), float(placed.right.value)))
    label = f"side of {placed.standing.name}"
    side = reading.read(item, "sides", label)
    if item.family == "opening":
        side = reading.exactly(0, item.pointer, label, "an opening has none")
    elif item.sides is None:
        side = looked_up(site, "usual-sizes", "size", {"thing": "side of a cabinet"}, item.pointer, label)
    pointer = appliance.pointer_to("is")
    return CutOut(
        subject,
        sort=reading.exactly("sink" if is_sink else "hob", pointer, "what it is for"),
        fuel=Missing(pointer, "fuel") if is_sink else fuel_of(name, appliance),
        material=piece.material,
        support=held_by(piece, (name,)),
        set=reading.word(appliance.set, appliance.pointer_to("set"), f"how {name} is set"),
        front=reading.read(appliance, "from_front", "front strip"),
        worktop_depth=piece.depth,
        cut_depth=_cut_depth(appliance),
        left=placed.left,
        right=placed.right,
        start=piece.start,
        end=piece.end,
        has_next=reading.exactly(bool(beside), pointer, "whether there is another cut-out"),
        to_next=_to_next(placed, beside, subject),
        corner_radius=reading.read(appliance, "corners", f"corners of the cut-out for {name}"),
        has_lining=_has_lining(name, appliance),
        unit=reading.read(item, "width", placed.standing.name),
        side=side,
        through=_through(name, appliance) if is_sink else _cut_width(appliance),
        below=_below(placed),
        to_underside=_to_underside(name, appliance, piece, is_sink),
        free_below=reading.read(appliance, "free_below", "free below"),
        body=_body(name, appliance, is_sink),
        maker_air=_maker_air(site, name),
    )


def _edges(at: ApplianceAt) -> tuple[Given, Given]:
    subject = Subject(at.name, at.appliance.pointer_to("cut_out"))
    edges = CutEdges(subject, middle=at.middle, width=_cut_width(at.appliance))
    return worked(edges, "left", f"left edge of {at.name}"), worked(edges, "right", f"right edge of {at.name}")


def _cut_width(appliance: Appliance) -> Given:
    size = appliance.cut_out
    return reading.quantity(size.w if size else None, appliance.pointer_to("cut_out"), "width of the cut-out")


def _cut_depth(appliance: Appliance) -> Given:
    """From front to back: the second of two figures without letters."""
    size = appliance.cut_out
    depth = (size.d or size.h) if size else None
    return reading.quantity(depth, appliance.pointer_to("cut_out"), "depth of the cut-out")


def _through(name: str, appliance: Appliance) -> Given:
    """What of a sink hangs between the sides of its unit: its bowl, not the drainer beside it."""
    size = appliance.bowl
    return reading.quantity(size.w if size else None, appliance.pointer_to("bowl"), f"bowl of {name}")


def _body(name: str, appliance: Appliance, is_sink: bool) -> Given:
    size, field = (appliance.bowl, "bowl") if is_sink else (appliance.body, "body")
    return reading.quantity(size.h if size else None, appliance.pointer_to(field), f"height of {name}")


def _to_underside(name: str, appliance: Appliance, piece: Piece, is_sink: bool) -> Given:
    """What drops in hangs from the surface of the worktop, an undermount sink from its underside."""
    pointer, label = appliance.pointer_to("set"), f"how {name} is set"
    said = reading.word(appliance.set, pointer, label) if is_sink else None
    if isinstance(said, Missing):
        return said
    if isinstance(said, Known) and said.value == "undermount":
        return reading.exactly(0, pointer, "underside of the worktop", "it is set from below")
    return piece.thickness


def _to_next(placed: Placed, beside: list[Placed], subject: Subject) -> Given:
    """To the nearer of the cut-outs on either side."""
    gaps: list[Given] = []
    for other in beside:
        first, second = (placed, other) if _starts(placed) <= _starts(other) else (other, placed)
        gaps.append(difference(second.left, first.right, subject, f"between {first.at.name} and {second.at.name}"))
    known = [gap for gap in gaps if isinstance(gap, Known)]
    if len(known) < len(gaps):
        return next(gap for gap in gaps if not isinstance(gap, Known))
    nothing = Missing(subject.pointer, "next cut-out", Why.UNCLEAR, detail="there is no other in this worktop")
    return min(known, key=lambda gap: gap.low or 0.0, default=nothing)


def _starts(placed: Placed) -> float:
    return float(placed.left.value) if isinstance(placed.left, Known) else 0.0


def _has_lining(name: str, appliance: Appliance) -> Given:
    pointer = appliance.pointer_to("lined")
    said = reading.word(appliance.lined, pointer, f"lining of the cut-out for {name}")
    if not isinstance(said, Known):
        return said
    return reading.exactly(fold(str(said.value)) not in ("none", "no"), pointer, "lining", str(said.value))


def _below(placed: Placed) -> Given:
    """Drawers are what a hob or a bowl gets in the way of; an opening holds a machine that its own maker allows."""
    item = placed.standing.item
    if item.family == "opening":
        return reading.exactly("other", item.pointer, "what is below")
    opens = reading.word(item.opens, item.pointer_to("opens"), f"how {placed.standing.name} opens")
    if not isinstance(opens, Known):
        return opens
    return reading.exactly("drawers" if opens.value == "drawers" else "other", opens.pointer, "what is below")


def _maker_air(site: Site, name: str) -> Given:
    from validator.plan.sections.appliances import HobPapers

    label = "air below that the maker asks for"
    papers = site.plan.stated.get(name)
    if isinstance(papers, HobPapers):
        return named_gap(reading.stated(papers.air_below, papers.pointer_to("air_below"), label), label)
    return Missing(f"{site.plan.stated.pointer}/{name}/air below", label, Why.UNREAD)
