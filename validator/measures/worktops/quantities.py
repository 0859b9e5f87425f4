"""What a plan's cabinets and worktops take: pieces to cut, boards to cut them from, and things to buy by their number.

What is not known stays open, with the place of its answer; nothing is guessed to make a list look whole.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby, pairwise
from typing import TYPE_CHECKING, NamedTuple

from validator.measures import reading
from validator.measures.arithmetic import total
from validator.measures.fixings.fixings import held_by
from validator.measures.heights.heights import has_legs
from validator.measures.looking_up import looked_up
from validator.measures.room.walls import worked
from validator.measures.rows import Given, Known, Missing, Row, Why, figure, gaps_of, given
from validator.measures.runs.storage_loads import HANGERS
from validator.measures.runs.touching import touching
from validator.measures.tracing import derived
from validator.measures.worktops.cuts import CutTop, cut_tops
from validator.measures.worktops.cutting import HAIR, Board, Cut, cut_from, split_up
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold
from validator.plan.values import NothingStated, Quantity

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.sections.furniture import Worktop
    from validator.plan.sections.work import Fixing

STRIPS = ("panel", "filler", "post")


class PlinthLength(Row, kind="length of a plinth"):
    """The board before things that follow each other."""

    widths: tuple[float, ...] = given(LENGTH, "what stands behind it", many=True)

    @figure(LENGTH, "length", start="left end", end="right end")
    def length(self) -> float:
        return total(self.widths)


class Strip(NamedTuple):
    """A panel, filler or post of a run; `to_fit` where it takes what is left, and is cut on site."""

    family: str
    name: str
    run: str
    width: Given
    height: Given | None
    depth: Given | None
    to_fit: bool


class Plinth(NamedTuple):
    """A plinth before units that follow each other, from its height at the high spot to that at the low spot."""

    name: str
    length: Given
    least_height: Given
    most_height: Given


class FromStock(NamedTuple):
    """What is cut from boards of one kind."""

    what: str
    boards: tuple[Board, ...]


class Count(NamedTuple):
    """So many of one thing, and which they are."""

    what: str
    size: Given | None
    number: int
    names: tuple[str, ...]


class Quantities(NamedTuple):
    """All that is cut and bought, and what has to be found out before the rest can be told."""

    tops: list[CutTop]
    strips: list[Strip]
    plinths: list[Plinth]
    stock: list[FromStock]
    saw_cut: Given
    units: list[Count]
    appliances: list[Count]
    bought: list[Count]
    open: list[Missing]


def quantities(site: Site) -> Quantities:
    """Everything about cabinets and worktops that a plan's rows settle."""
    tops, strips, plinths = cut_tops(site), _strips(site), _plinths(site)
    saw_cut = _saw_cut(site)
    stock, asked = _from_stock(site, tops, plinths, saw_cut)
    bought, not_counted = _bought(site)
    gaps = [*_gaps_of_tops(tops), *_gaps_of_others(strips, plinths), *asked, *not_counted]
    for section, label in (("runs", "runs of units"), ("worktops", "worktops"), ("appliances", "appliances")):
        if getattr(site.plan, section).left_out:
            gaps.append(Missing(f"/{section}", label))
    once = {gap.pointer: gap for gap in reversed(gaps)}
    return Quantities(
        tops, strips, plinths, stock, saw_cut, _units(site), _appliances(site), bought, list(reversed(once.values()))
    )


def _saw_cut(site: Site) -> Given:
    boards = site.plan.boards
    if boards is not None and boards.saw_cut is not None:
        return reading.read(boards, "saw_cut", "saw cut")
    return looked_up(site, "usual-sizes", "size", {"thing": "saw cut"}, "/boards/saw cut", "saw cut")


def _strips(site: Site) -> list[Strip]:
    found = []
    for thing in site.setting_out.things():
        item = thing.item
        if item.family in STRIPS:
            height, depth = (
                None if getattr(item, field) is None else reading.read(item, field, f"{field} of {thing.name}")
                for field in ("height", "depth")
            )
            width = _width(thing)
            doubtful = isinstance(width, Known) and width.low != width.high
            found.append(Strip(item.family, thing.name, thing.run, width, height, depth, item.rest or doubtful))
    return found


def _width(thing: Standing) -> Given:
    return thing.row.known.get("width") or thing.row.why_not_known("width")


def _plinths(site: Site) -> list[Plinth]:
    """A plinth for each row of things on legs; panels reach the floor and part it, and so does what needs none."""
    under = {(thing.run, thing.name) for of_one in site.worktop_pieces.values() for p in of_one for thing in p.below}
    found = []
    for row in site.rows("plinth of a run").rows:
        run = row.subject.name
        things = [thing for thing in site.setting_out.in_run(run) if not site.levels.is_hung(thing)]
        before = [_has_plinth(site, thing, (thing.run, thing.name) in under) for thing in things]
        grouped = groupby(zip(before, things, strict=True), lambda pair: pair[0])
        stretches = [[thing for _, thing in group] for needed, group in grouped if needed]
        stretches = [stretch for stretch in stretches if any(thing.item.family == "unit" for thing in stretch)]
        for number, stretch in enumerate(stretches, 1):
            name = run if len(stretches) == 1 else f"{run}, {number}"
            widths = PlinthLength(row.subject, widths=reading.parts([_width(thing) for thing in stretch]))
            length = worked(widths, "length", f"plinth of {name}")
            ends = (derived(row, figure) for figure in ("at_high_spot", "at_low_spot"))
            found.append(Plinth(name, length, *ends))
    return found


def _has_plinth(site: Site, thing: Standing, under_a_worktop: bool) -> bool:
    item = thing.item
    if item.family == "unit":
        return has_legs(site, thing) and not isinstance(item.plinth, NothingStated)
    return item.family in ("filler", "post") or (item.family == "opening" and under_a_worktop)


class _Kind(NamedTuple):
    """Boards that are one to the saw."""

    what: str
    stocks: tuple[float, ...]


def _from_stock(
    site: Site, tops: Sequence[CutTop], plinths: Sequence[Plinth], saw_cut: Given
) -> tuple[list[FromStock], list[Missing]]:
    """What is cut from which board, and what has to be known before that can be said."""
    kinds: dict[_Kind, list[Cut]] = {}
    asked: list[Missing] = []
    stones = site.library.groups["stone_worktops"]
    for cut_top in tops:
        piece = cut_top.piece
        if isinstance(piece.top.material, str) and fold(piece.top.material) in stones:
            continue  # a slab is cut by whoever sells it
        stocks = _lengths(piece.top.stock)
        if not stocks:
            asked.append(Missing(piece.top.pointer_to("stock"), f"lengths in which {piece.worktop} is sold"))
        else:
            cuts, unclear = _parts(cut_top, stocks)
            kinds.setdefault(_Kind(_called(piece.top), stocks), []).extend(cuts)
            asked += unclear
    upstands = [
        Cut(f"upstand of {top.piece.name}", _most(top.length))
        for top in tops
        if top.upstand is not None and isinstance(top.length, Known)
    ]
    boards = [
        Cut(f"plinth of {plinth.name}", _most(plinth.length)) for plinth in plinths if isinstance(plinth.length, Known)
    ]
    for field, strips in (("plinth", boards), ("upstand", upstands)):
        stocks = _lengths(getattr(site.plan.boards, field)) if site.plan.boards is not None else ()
        if strips and stocks:
            parts = [part for strip in strips for part in split_up(strip, max(stocks))]
            kinds.setdefault(_Kind(field, stocks), []).extend(parts)
        elif strips:
            asked.append(Missing(f"/boards/{field}", f"lengths in which the {field} is sold"))
    if not isinstance(saw_cut, Known):
        return [], [*asked, *gaps_of(saw_cut)]
    saw = _most(saw_cut)
    return [FromStock(kind.what, cut_from(cuts, kind.stocks, saw)) for kind, cuts in kinds.items() if cuts], asked


def _lengths(stock: object) -> tuple[float, ...]:
    """The lengths that are sold, each written; of a range its longest."""
    if not isinstance(stock, Quantity):
        return ()
    return tuple(sorted(set(stock.readings))) or (stock.high,)


def _called(top: Worktop) -> str:
    words = [top.material if isinstance(top.material, str) else "", fold(top.is_)]
    sizes = [size.text for size in (top.depth, top.thickness) if isinstance(size, Quantity)]
    return " ".join([*filter(None, words), " x ".join(sizes)]).strip()


def _parts(top: CutTop, stocks: Sequence[float]) -> tuple[list[Cut], list[Missing]]:
    """A piece of a worktop, from joint to joint; what is longer than any board asks where it is joined."""
    places = [joint.from_left for joint in top.joints]
    asked = list(gaps_of(*places))
    if asked or not isinstance(top.length, Known):
        return [], asked
    ends = [0.0, *sorted(_most(place) for place in places if isinstance(place, Known)), _most(top.length)]
    lengths = [end - start for start, end in pairwise(ends)]
    if max(lengths) > max(stocks) + HAIR:
        detail = "it is longer than the longest that is sold"
        pointer = top.piece.top.pointer_to("joint")
        return [], [Missing(pointer, f"where {top.piece.name} is joined", Why.UNCLEAR, detail=detail)]
    if len(lengths) == 1:
        return [Cut(top.piece.name, lengths[0])], []
    return [Cut(f"{top.piece.name}, part {number}", length) for number, length in enumerate(lengths, 1)], []


def _most(length: Known) -> float:
    return float(length.value if length.high is None else length.high)


def _units(site: Site) -> list[Count]:
    """Units by kind, width and hand; what follows the drawing of the run is one line of an order."""
    found: dict[tuple[str, str, str], list[Standing]] = {}
    for thing in site.setting_out.things():
        if thing.item.family == "unit":
            width = thing.item.width
            key = fold(thing.item.is_), width.text if isinstance(width, Quantity) else "", thing.item.hand or ""
            found.setdefault(key, []).append(thing)
    return [
        Count(
            f"{things[0].item.is_}{f', {hand}' if hand else ''}",
            reading.read(things[0].item, "width", f"width of {things[0].name}"),
            len(things),
            tuple(thing.name for thing in things),
        )
        for (_, _, hand), things in found.items()
    ]


def _appliances(site: Site) -> list[Count]:
    found: dict[str, list[str]] = {}
    for name, appliance in site.plan.appliances.items():
        found.setdefault(str(appliance.is_ or name), []).append(name)
    return [Count(kind, None, len(names), tuple(names)) for kind, names in found.items()]


def _bought(site: Site) -> tuple[list[Count], list[Missing]]:
    """Hangers, connectors and fixings, as far as the plan says that there are any."""
    found, asked = [], []
    hanging = [thing.name for thing in site.setting_out.things() if thing.item.hangers is not None]
    if hanging:
        found.append(Count("hangers", None, HANGERS * len(hanging), tuple(hanging)))
    for name, run in site.plan.runs.items():
        joined = run.joined.connectors if run.joined is not None else None
        pairs = _pairs(site, name)
        if isinstance(joined, Quantity) and pairs:
            found.append(Count(f"connectors, {name}", None, round(joined.high) * len(pairs), tuple(pairs)))
    for name, fixing in site.plan.fixings.items():
        held = {id(item): item for wanted in fixing.for_ for item, *_ in held_by(site.plan, wanted)}
        each = HANGERS if fixing.at == "hangers" and fixing.each is None else fixing.each
        number = each if isinstance(each, int) else round(each.high) if isinstance(each, Quantity) else 0
        if not number:
            asked.append(Missing(fixing.pointer_to("each"), f"how many of {name} each thing gets"))
        elif held:
            names = tuple(item.pointer.rpartition("/")[2] for item in held.values())
            found.append(Count(f"{name}, {_sort(fixing)}".removesuffix(", "), None, number * len(held), names))
    return found, asked


def _pairs(site: Site, run: str) -> list[str]:
    """The pairs of units of a run that touch, from the left."""
    return [
        f"{left.name} and {right.name}"
        for left, right in touching(site, run)
        if left.item.family == right.item.family == "unit"
    ]


def _sort(fixing: Fixing) -> str:
    """A fixing as the box has it: `frame fixing 8 x 100`."""
    part = fixing.plug or fixing.screw
    if part is None:
        return ""
    gauge = fixing.screw.gauge if fixing.screw is not None and fixing.plug is None else None
    sizes = [size.text for size in (part.diameter, part.length) if isinstance(size, Quantity)]
    words = part.type if isinstance(part.type, str) else ""
    return f"{words} {' x '.join(([gauge] if gauge else []) + sizes)}".strip()


def _gaps_of_tops(tops: Iterable[CutTop]) -> Iterator[Missing]:
    for top in tops:
        piece = top.piece
        values = [top.length, piece.depth, piece.thickness, piece.material]
        for cut_out in top.cut_outs:
            values += [cut_out.across, cut_out.front_to_back, cut_out.from_left]
        yield from gaps_of(*values)


def _gaps_of_others(strips: Iterable[Strip], plinths: Iterable[Plinth]) -> Iterator[Missing]:
    for strip in strips:
        yield from gaps_of(strip.width)
    for plinth in plinths:
        yield from gaps_of(plinth.length, plinth.least_height, plinth.most_height)
