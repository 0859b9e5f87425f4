"""The schedules of a sheet: what is set out where, wall by wall from the left, with a blank for what was done."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from validator.judging.apply import Judgement
from validator.measures.appliances.appliance_places import kind_of, place_of
from validator.measures.rows import Known, Row
from validator.measures.worktops.quantities import quantities
from validator.plan.elements import Element
from validator.plan.fields import Height
from validator.plan.names import fold
from validator.plan.pointers import split
from validator.plan.values import Quantity
from validator.reference.jobsheets import ALL, Schedule, Trade
from validator.reporting.printing import Printer
from validator.reporting.sheets.values import NONE, OPEN, Binding, Cell, given, left_of, of_row, written

DONE = "done"
STRONG = ("along", "up", "out", "left", "length")


class Line(NamedTuple):
    """One thing of a table: its name, its cells, and where on its wall it is, for the order."""

    name: str
    cells: tuple[Cell, ...]
    wall: str = ""
    along: float = 0.0


class Table(NamedTuple):
    """A table with its heads; the first column holds the names of the things."""

    title: str
    heads: tuple[str, ...]
    lines: tuple[Line, ...]
    wall: str = ""


class _Thing(NamedTuple):
    """What a line is about: its name, wall and place, its row, and what the plan itself says of it."""

    name: str
    wall: str
    along: float
    row: Row | None
    element: Element | None
    own: dict[str, str]


class Tables:
    """Makes the tables of one trade."""

    def __init__(self, judgement: Judgement, trade: Trade, printer: Printer, binding: Binding) -> None:
        self._site, self._plan = judgement.site, judgement.site.plan
        self._trade, self._printer, self._binding = trade, printer, binding
        self._own: dict[str, Callable[[_Thing], str]] = {
            "what": self._what,
            "feeds": self._feeds,
            "circuit": self._circuit,
            "cable": self._cable,
            "moves": self._moves,
            "context": lambda thing: thing.row.subject.context if thing.row is not None else "",
        }

    def all(self) -> list[Table]:
        """The tables of walls in the order of the plan's walls, then those of no wall."""
        order = {fold(wall): number for number, wall in enumerate(self._plan.walls)}
        found: list[Table] = []
        for schedule in self._trade.schedules:
            things = list(self._things(schedule))
            walls = list(dict.fromkeys(thing.wall for thing in things))
            for wall in sorted(walls, key=lambda name: order.get(fold(name), len(order))):
                here = sorted((thing for thing in things if thing.wall == wall), key=lambda thing: thing.along)
                found.append(self._table(schedule, wall, here))
        return found

    def _things(self, schedule: Schedule) -> Iterator[_Thing]:
        if schedule.each:
            for row in self._site.rows(schedule.each).rows:
                segments = split(row.subject.pointer)
                element = self._plan.points.get(segments[-1]) if fold(segments[0]) == "points" else None
                wall = "" if schedule.together else row.subject.wall
                yield _Thing(row.subject.name, wall, _middle(row), row, element, {})
        elif schedule.pieces:
            yield from self._pieces()
        else:
            cut_outs = {row.subject.name: row for row in self._site.rows("cut-out in a worktop").rows}
            for name, appliance in self._plan.appliances.items():
                if kind_of(name, appliance) in schedule.appliances:
                    place = place_of(self._site, name)
                    middle = float(place.middle.value) if isinstance(place.middle, Known) else 0.0
                    own = {
                        "along": given(place.middle, self._printer),
                        "unit": _sits_in(name, place.standing.name if place.standing is not None else appliance.behind),
                        "up": self._up(name, place.on, appliance.up, appliance.pointer_to("up")),
                        "out": (of_row(cut_outs[name], "out", self._printer) if name in cut_outs else None) or NONE,
                    }
                    yield _Thing(name, place.on, middle, None, appliance, own)

    def _pieces(self) -> Iterator[_Thing]:
        printer = self._printer
        for top in quantities(self._site).tops:
            piece = top.piece
            cut_outs = [
                f"{cut.name}: {given(cut.across, printer)} x {given(cut.front_to_back, printer)}, middle "
                f"{given(cut.from_left, printer)}"
                + (f", {given(cut.from_front, printer)} from the front edge" if cut.from_front is not None else "")
                for cut in top.cut_outs
            ]
            joints = [f"{printer.text(joint.form)} at {given(joint.from_left, printer)}" for joint in top.joints]
            if top.corner:
                joints.append("meets another piece in a corner; fit the joint before cutting to length")
            own = {
                "material": written(piece.top.material, printer),
                "length": given(top.length, printer),
                "depth": given(piece.depth, printer),
                "thickness": given(piece.thickness, printer),
                "joints": "; ".join(joints) or "none",
                "cut_outs": "; ".join(cut_outs) or "none",
                "upstand": given(top.upstand, printer) if top.upstand is not None else "none",
            }
            yield _Thing(piece.name, "", 0.0, None, piece.top, own)

    def _table(self, schedule: Schedule, wall: str, things: Sequence[_Thing]) -> Table:
        cells = [[self._cell(name, thing) for name in schedule.columns] for thing in things]
        kept = [
            number
            for number, name in enumerate(schedule.columns)
            if name == DONE or any(row[number].text not in ("", NONE) for row in cells)
        ]
        names = list(schedule.columns.values())
        left = left_of(self._plan, wall) if wall in self._plan.walls else "its left end"
        heads = tuple(self._head(names[number], left) for number in kept)
        seen: dict[str, int] = {}
        lines = []
        for thing, row in zip(things, cells, strict=True):
            seen[thing.name] = seen.get(thing.name, 0) + 1
            name = thing.name if seen[thing.name] == 1 else f"{thing.name} ({seen[thing.name]})"
            lines.append(Line(name, tuple(row[number] for number in kept), wall, thing.along))
        return Table(self._printer.text(schedule.title), heads, tuple(lines), wall)

    def _head(self, heading: str, left: str) -> str:
        before, marked, after = heading.partition("{left}")
        return self._printer.text(before) + (left if marked else "") + self._printer.text(after)

    def _cell(self, name: str, thing: _Thing) -> Cell:
        if name == DONE:
            return Cell(self._done(thing), blank=True)
        if name in thing.own:
            return Cell(thing.own[name], strong=name in STRONG)
        if name in self._own and (name != "circuit" or thing.element is not None):
            return Cell(self._own[name](thing))
        if thing.row is not None:
            said = of_row(thing.row, name, self._printer)
            return Cell(NONE if said is None else said, strong=name in STRONG)
        return Cell(written(getattr(thing.element, name, None), self._printer))

    def _done(self, thing: _Thing) -> str:
        """The measured place, where the plan has it already."""
        built = self._plan.built.get(thing.name)
        if built is None:
            return ""
        said = [written(built.along, self._printer)] if built.along is not None else []
        if built.up is not None:
            said.append(f"{self._up(thing.name, thing.wall, built.up, built.pointer_to('up'))} up")
        if isinstance(built.seen, Quantity):
            said.append(written(built.seen, self._printer))
        return ", ".join(said)

    def _up(self, name: str, wall: str, height: Height | None, pointer: str) -> str:
        """A height of the plan above the bare floor, whatever it is given from."""
        if height is None:
            return NONE
        worktop = self._site.points.worktop(name) if name in self._plan.points else None
        return given(self._site.levels.at(wall).above_bare_floor(height, pointer, name, worktop), self._printer)

    def _what(self, thing: _Thing) -> str:
        said = getattr(thing.element, "is_", None)
        if thing.row is not None and "what" in thing.row.fields:
            return of_row(thing.row, "what", self._printer) or ""
        plate = getattr(thing.element, "plate", None)
        size = f", plate {written(plate, self._printer)}" if plate is not None else ""
        return self._printer.text(said if isinstance(said, str) else thing.name) + size

    def _feeds(self, thing: _Thing) -> str:
        """The appliances and lights that hang on a point, with what they draw; else what it stands by."""
        said = []
        for name, appliance in self._plan.appliances.items():
            if appliance.supply is not None and fold(appliance.supply) == fold(thing.name):
                power = f", {written(appliance.power, self._printer)}" if appliance.power is not None else ""
                said.append(name + power)
        said += [name for name, light in self._plan.lights.items() if fold(light.supply or "") == fold(thing.name)]
        fuse = getattr(thing.element, "fuse", None)
        if fuse is not None:
            said.append(f"fuse {written(fuse, self._printer)}")
        return "; ".join(said) or "worktop and room" if thing.element is not None else ""

    def _circuit(self, thing: _Thing) -> str:
        serving = self._site.points.circuits.get(fold(thing.name), [])
        names = [name for name, circuit in self._plan.circuits.items() if any(circuit is each for each in serving)]
        return ", ".join(names) or OPEN

    def _cable(self, thing: _Thing) -> str:
        """Which way the cable leaves, and how deep it lies."""
        built = self._plan.built.get(thing.name)
        deep = getattr(thing.element, "deep", None)
        if built is not None and built.cable is not None:
            deep = built.cable
        way = written(getattr(thing.element, "cable", None), self._printer)
        how_deep = f", {written(deep, self._printer)} deep" if deep is not None else ""
        return (OPEN if way == NONE else way) + how_deep

    def _moves(self, thing: _Thing) -> str:
        if self._plan.built.get(thing.name) is not None:
            return "made; the layout follows it"
        held = getattr(thing.element, "in_", None) or getattr(thing.element, "behind", None)
        free = "free to choose; tell us where" if thing.element is not None else "as drawn"
        return self._binding.says(thing.name, free, held_in=held if isinstance(held, str) else "")


def appliance_table(judgement: Judgement, trade: Trade, printer: Printer) -> Table | None:
    """What each appliance of the trade needs, by the columns that any of them fills."""
    plan = judgement.site.plan
    chosen = {
        name: appliance
        for name, appliance in plan.appliances.items()
        if ALL in trade.appliances or kind_of(name, appliance) in trade.appliances
    }
    if not chosen or not trade.needs:
        return None
    needs = [need for need in trade.needs if any(getattr(each, need, None) is not None for each in chosen.values())]
    lines = []
    for name, appliance in chosen.items():
        cells = [
            Cell(printer.text(appliance.is_ or name)),
            *(Cell(written(getattr(appliance, need, None), printer)) for need in needs),
        ]
        lines.append(Line(name, tuple(cells)))
    heads = ["what", *(need.replace("_", " ") for need in needs)]
    return Table("", tuple(map(printer.text, heads)), tuple(lines)) if needs else None


def _sits_in(name: str, unit: str | None) -> str:
    if unit is None:
        return OPEN
    return unit if fold(unit) != fold(name) else "an opening of its own"


def _middle(row: Row) -> float:
    return sum(row.subject.along) / 2 if row.subject.along is not None else 0.0
