"""What is cut and bought, as text for A4 at 80 columns: worktops, boards, strips, units, and what is still open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from validator.measures.rows import Given, Known, Missing
from validator.measures.site import Site
from validator.measures.worktops.cuts import CutOut, CutTop
from validator.measures.worktops.quantities import Count, FromStock, Plinth, Quantities, Strip
from validator.plan.dimensions import LENGTH
from validator.plan.pointers import split
from validator.reporting.columns import at_right, columns, filled, one_line
from validator.reporting.findings import asked
from validator.reporting.lines import INDENT, WIDTH, apart, counted, day, labelled, sentence, wrapped, wrapped_right
from validator.reporting.printing import Printer
from validator.reporting.style import Style

NAMES = 24
"""The column up to which names stand before what is said of them."""

HAIR = 0.05
"""Lengths nearer to each other than this are one, in mm."""

OPEN = "open"


def as_lines(site: Site, found: Quantities, on: date, style: Style) -> str:
    """The whole list; ends in a line break."""
    return style.tamed("\n".join(_Lines(site, style).all(found, on)) + "\n")


def shown(value: Given | None, printer: Printer) -> str:
    """A length with both ends of its range, or that it is open; '' for none that is asked for."""
    return "" if value is None else printer.given(value, OPEN)


def how_found(missing: Missing, site: Site, printer: Printer) -> str:
    """What to do about an open figure."""
    how = site.ways.of(missing.pointer).how if site.ways is not None else ""
    return asked(missing, how, site.library.questions, printer)


def doubtful(value: Given) -> bool:
    return isinstance(value, Known) and value.ends[1] - value.ends[0] > HAIR


class _Lines:
    """The lines of one list."""

    def __init__(self, site: Site, style: Style) -> None:
        self._site = site
        self._style = style
        self._printer = Printer(site)

    def all(self, found: Quantities, on: date) -> Iterator[str]:
        yield from apart("TO CUT AND TO BUY", self._site.plan.project.title or "")
        yield day(on)
        yield ""
        yield from wrapped(
            self._text(
                "Lengths are finished lengths, worked out from the plan, and each range is cut for its longer end. "
                "Measure on site before anything is cut."
            )
        )
        yield from self._part("Worktops", [line for top in found.tops for line in self._top(top)])
        yield from self._part("Boards and what is cut from each", self._stock(found))
        yield from self._part("Plinths", [line for plinth in found.plinths for line in self._plinth(plinth)])
        strips = [line for strip in found.strips for line in self._strip(strip)]
        yield from self._part("Panels, fillers and posts", strips)
        for heading, counts in (
            ("Units", found.units),
            ("Appliances", found.appliances),
            ("What holds them", found.bought),
        ):
            yield from self._part(heading, [line for count in counts for line in self._count(count)])
        yield from self._part("Open", [line for gap in found.open for line in self._open(gap)])
        if found.open:
            yield ""
            open_figures = counted(len(found.open), "figure is", "figures are")
            yield from wrapped(sentence(f"{open_figures} open, and the list is not whole until they are known"))

    def _text(self, text: str) -> str:
        return self._printer.text(text)

    def _part(self, heading: str, lines: Sequence[str]) -> Iterator[str]:
        if lines:
            yield ""
            yield self._style.strong(self._text(heading).upper())
            yield from lines

    def _line(self, pointer: str) -> str:
        return self._printer.line(self._printer.place(pointer))

    def _top(self, top: CutTop) -> Iterator[str]:
        piece = top.piece
        size = " x ".join(shown(value, self._printer) for value in (top.length, piece.depth, piece.thickness))
        yield from self._entry(piece.name, size, self._line(piece.top.pointer))
        words = [piece.top.material if isinstance(piece.top.material, str) else OPEN]
        if doubtful(top.length) or top.corner:
            words.append("cut to fit")
        yield from labelled("material", ", ".join(words))
        for joint in top.joints:
            yield from labelled("joint", f"{joint.form}, {shown(joint.from_left, self._printer)} from the left end")
        if top.corner:
            yield from labelled("corner", "reckoned to the fronts of the units; fit the joint before cutting to length")
        for cut_out in top.cut_outs:
            yield from labelled("cut-out", self._cut_out(cut_out))
        if top.upstand is not None:
            yield from labelled("upstand", f"{shown(top.upstand, self._printer)} high, along the wall")

    def _cut_out(self, cut_out: CutOut) -> str:
        size = f"{shown(cut_out.across, self._printer)} x {shown(cut_out.front_to_back, self._printer)}"
        place = "its place along the worktop open"
        if isinstance(cut_out.from_left, Known):
            place = f"its middle {shown(cut_out.from_left, self._printer)} from the left end"
        front = "" if cut_out.from_front is None else f", {shown(cut_out.from_front, self._printer)} from the front"
        return f"{cut_out.name}: {size}, {place}{front}"

    def _stock(self, found: Quantities) -> list[str]:
        lines: list[str] = []
        for stock in found.stock:
            lines += self._boards(stock)
        if found.stock:
            saw = shown(found.saw_cut, self._printer)
            usual = " (usual; say it under `boards: {saw cut: …}`)" if self._is_usual() else ""
            lines += wrapped(f"Reckoned with a saw cut of {saw}{usual}.", INDENT)
        return lines

    def _is_usual(self) -> bool:
        boards = self._site.plan.boards
        return boards is None or boards.saw_cut is None

    def _boards(self, stock: FromStock) -> Iterator[str]:
        lengths = [board.stock for board in stock.boards]
        bought = ", ".join(
            f"{lengths.count(length)} of {self._printer.value(length, LENGTH)}" for length in sorted(set(lengths))
        )
        yield from self._entry(self._text(stock.what), bought, "")
        for number, board in enumerate(stock.boards, 1):
            cuts = "; ".join(f"{cut.name}: {self._printer.value(cut.length, LENGTH)}" for cut in board.cuts)
            left = self._printer.value(board.offcut, LENGTH)
            yield from labelled(f"{number}", cuts, f"left over {left}" if board.offcut > HAIR else "nothing left over")

    def _plinth(self, plinth: Plinth) -> Iterator[str]:
        heights = (shown(plinth.least_height, self._printer), shown(plinth.most_height, self._printer))
        high = heights[0] if heights[0] == heights[1] else f"{heights[0]} to {heights[1]} high, cut to fit"
        yield from self._entry(plinth.name, f"{shown(plinth.length, self._printer)} long, {high}", "")

    def _strip(self, strip: Strip) -> Iterator[str]:
        sizes = [
            shown(strip.width, self._printer),
            shown(strip.height, self._printer),
            shown(strip.depth, self._printer),
        ]
        letters = [f"{size} {letter}" for size, letter in zip(sizes, ("wide", "high", "deep"), strict=True) if size]
        fit = ", cut to fit" if strip.to_fit else ""
        yield from self._entry(f"{strip.name}  {strip.family}", f"{', '.join(letters)}{fit}", strip.run)

    def _count(self, count: Count) -> Iterator[str]:
        size = f" {shown(count.size, self._printer)}" if count.size is not None else ""
        names = "" if count.names in ((count.what,), (self._text(count.what),)) else ", ".join(count.names)
        lines = list(wrapped(f"{self._text(count.what)}{size}", INDENT))
        yield at_right(str(count.number), 5) + "  " + lines[0].strip()
        yield from lines[1:]
        yield from wrapped(names, INDENT + 2)

    def _open(self, missing: Missing) -> Iterator[str]:
        first, *others = list(wrapped(one_line(self._text(missing.label)), INDENT))
        yield f"   [ ] {first.strip()}"
        yield from others
        yield from wrapped(how_found(missing, self._site, self._printer), INDENT)
        who = f" (ask {missing.by})" if missing.by else ""
        yield from wrapped(f"answer at  {' / '.join(split(missing.pointer))}{who}", INDENT)

    def _entry(self, name: str, what: str, aside: str) -> Iterator[str]:
        """A name and a size on one line if they fit, else one below the other; `aside` at the right end."""
        name, aside = one_line(name), one_line(aside)
        line = filled(f"   {name}", NAMES) + f" {what}"
        if columns(name) + 3 > NAMES or columns(line) > WIDTH:
            yield from wrapped(name, 3)
            *before, line = list(wrapped(what, NAMES + 1 if columns(what) + NAMES < WIDTH else INDENT))
            yield from before
        if aside and columns(line) + 2 + columns(aside) <= WIDTH:
            yield filled(line, WIDTH - columns(aside)) + aside
        else:
            yield line
            yield from wrapped_right(aside)
