"""Puts a slip of the hand into words, at the line that is out of step, where a parser only says where it gave up."""

from __future__ import annotations

import dataclasses
import itertools
import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from validator.plan.line_structure import Fault, Line, next_section, scan, section_before
from validator.plan.problems import Place, Problem

_NOT_AT_START = {
    "%": "a % belongs behind its number: `30 %`",
    "@": "`every 16 in` in place of `@ 16 in`",
    "`": "the text without it",
    "?": "`to find out`, where something is not known yet",
    "-": "`none`, or `to find out`; a list has each `- entry` on a line of its own",
    ">": "the figure alone, or `10 to 25` for a range",
    "|": "the text itself",
    "&": "`and`",
    "*": "the text itself",
    "!": "the text itself",
    "=": "the text itself",
}
_REMARK = re.compile(r"(?P<colon>:)?\s#(?:(?P<number>\d+)|(?P<word>\S))?")
_WORDS_AROUND = 40
_LINES_AROUND = 40
_BACK = 12


def explain(text: str, file: str, gave_up: int, opened: int | None = None, start: int = 0) -> Problem:
    """The slip behind a syntax error.

    `gave_up` is the offset at which the parser stopped, `opened` that of the quote or bracket it was in, if any;
    reading began at `start`.
    """
    source = _Text(text, file)
    since = gave_up if opened is None else min(opened, gave_up)
    begin = section_before(text, since, start, 1)
    after = next_section(text, gave_up)
    end = None if after is None else next_section(text, after)
    lines, faults = scan(text, begin, len(text) if end is None else end)
    return (
        _tab(source, gave_up)
        or _fault(source, [fault for fault in faults if _shows_at(text, fault, gave_up)])
        or _start_of_value(source, gave_up, opened)
        or _step(source, lines, gave_up)
        or _fault(source, [fault for fault in faults if fault.offset <= gave_up])
        or _fault(source, [Fault("unclosed", at, gave_up) for at in (opened,) if at is not None and text[at] in "\"'"])
        or source.problem(min(gave_up, len(text.rstrip())), "this line cannot be read", "`name: value`")
    )


@dataclass(frozen=True, slots=True)
class _Text:
    text: str
    file: str

    def place(self, offset: int) -> Place:
        start = self.text.rfind("\n", 0, offset) + 1
        return Place(self.file, self.text.count("\n", 0, start) + 1, offset - start + 1)

    def line(self, offset: int) -> str:
        return self.text[self.text.rfind("\n", 0, offset) + 1 :].partition("\n")[0]

    def problem(self, offset: int, message: str, expected: str, *also: Place) -> Problem:
        return Problem(message, self.place(offset), expected, also=also)

    def here(self, offset: int) -> str:
        """A few words from `offset` to the end of the line."""
        words = self.line(offset)[offset - self.text.rfind("\n", 0, offset) - 1 :].strip()
        return words if len(words) <= _WORDS_AROUND else words[: _WORDS_AROUND - 1].rstrip() + "…"


def _shows_at(text: str, fault: Fault, gave_up: int) -> bool:
    """Whether a parser that stumbles over the fault gives up at `gave_up`: in its line or in the next with content."""
    if fault.offset > gave_up:
        return text.find("\n", gave_up, fault.offset) < 0
    between = text[fault.until : gave_up].strip().splitlines()
    return len([line for line in between if line.strip() and not line.lstrip().startswith("#")]) <= 1 or (
        fault.kind == "unclosed" and text[fault.offset] in "\"'"
    )


def _tab(source: _Text, gave_up: int) -> Problem | None:
    line = source.line(gave_up)
    indent = line[: len(line) - len(line.lstrip())]
    if "\t" not in indent:
        return None
    at = source.text.rfind("\n", 0, gave_up) + 1 + indent.index("\t")
    return source.problem(at, "a tab at the start of the line", "spaces: two for each step to the right")


def _fault(source: _Text, faults: Sequence[Fault]) -> Problem | None:
    if not faults:
        return None
    fault = min(faults, key=lambda fault: fault.offset)
    mark, here = source.text[fault.offset], source.here(fault.offset)
    if fault.kind == "unclosed" and mark in "\"'":
        message = f"the {mark} opened here is never closed"
        return source.problem(fault.offset, message, f"a second {mark} behind the text")
    if fault.kind in ("unclosed", "run together") and (swallowed := _swallowed(source, fault)):
        return swallowed
    if fault.kind == "unclosed":
        closing = "}" if mark == "{" else "]"
        until = source.text[fault.until : fault.until + 1].strip()
        where = f"the {until} in column {source.place(fault.until).column}" if until else "the next name"
        return source.problem(fault.offset, f"the {mark} opened here is never closed", f"a {closing} before {where}")
    if fault.kind == "closes nothing":
        opening = "{" if mark == "}" else "["
        return source.problem(fault.offset, f"this {mark} closes nothing", f"as many {opening} as {mark} in the line")
    if fault.kind == "left over":
        return source.problem(
            fault.offset, f"`{here}` stands behind a value that has ended", "one value; quotes go around all of a text"
        )
    if fault.kind == "run together":
        return source.problem(
            fault.offset, f"`{here}`: two entries run into one", "a comma between entries: `{width: 600, height: 720}`"
        )
    return source.problem(
        fault.offset,
        f"a second colon in one line: `{source.line(fault.offset).strip()}`",
        "one `name: value` a line, or several in braces: `name: {width: 600, height: 720}`",
    )


def _swallowed(source: _Text, fault: Fault) -> Problem | None:
    """A remark that took the end of an entry with it, in the line of the fault or the one before."""
    start = source.text.rfind("\n", 0, max(source.text.rfind("\n", 0, fault.offset), 0)) + 1
    for line in source.text[start : fault.until].split("\n"):
        remark = _REMARK.search(line)
        if remark is not None:
            lost = line[remark.end() :]
            if remark["number"] or (remark["colon"] and remark["word"]) or "}" in lost or "]" in lost:
                message = "a # starts a remark, so that the rest of the line is lost"
                expected = f"`no. {remark['number']}`" if remark["number"] else "quotes around a text with a #"
                return source.problem(start + line.index("#", remark.start()), message, expected)
        start += len(line) + 1
    return None


def _start_of_value(source: _Text, gave_up: int, opened: int | None) -> Problem | None:
    for offset in (gave_up, gave_up if opened is None else opened):
        mark = source.text[offset : offset + 1]
        before = source.text[source.text.rfind("\n", 0, offset) + 1 : offset].rstrip()
        if mark in _NOT_AT_START and (before[-1:] in (":", ",", "[", "{", "-") or mark in "%@`"):
            what = "value" if before else "name"
            message = f"a {what} cannot start with {mark} unless it is in quotes"
            return source.problem(offset, message, _NOT_AT_START[mark])
    return None


@dataclass(frozen=True, slots=True)
class _Repair:
    """A line set right: `lines` is the whole passage after it, `at` the index of the line, `column` where it goes."""

    lines: list[Line]
    at: int
    column: int
    wrong: int
    cost: tuple[int, float, int, int]
    colon: bool = False


def _step(source: _Text, lines: Sequence[Line], gave_up: int) -> Problem | None:
    """The line whose column is out of step, or that lacks its colon: the one by which setting right mends most."""
    if not lines:
        return None
    number = source.place(gave_up).line
    stuck = max((index for index, line in enumerate(lines) if line.number <= number), default=0)
    lines, stuck = _passage(lines, stuck)
    before = _judge(lines, 2)[0]
    repairs = [repair for repair in _repairs(lines, stuck) if repair.wrong < before]
    if not repairs:
        return None
    best = min(repairs, key=lambda repair: (repair.wrong, repair.cost))
    line = lines[best.at]
    place = Place(source.file, line.number, line.indent + 1)
    if best.colon:
        return Problem(f"`{_short(line.name)}` has no colon", place, "`name: value`, with a space behind the colon")
    neighbour = _neighbour(best.lines, best.at)
    expected = f"column {best.column + 1}"
    if neighbour is not None:
        expected += f", as `{_short(neighbour.name)}` in line {neighbour.number}"
    also: tuple[Place, ...] = ()
    others = [repair for repair in repairs if repair.at != best.at and not repair.colon]
    other = min(others, key=lambda repair: (repair.wrong, repair.cost), default=None)
    if other is not None and (other.wrong, other.cost[0]) == (best.wrong, best.cost[0]):
        second = lines[other.at]
        expected += f"; or else `{_short(second.name)}` in line {second.number} belongs in column {other.column + 1}"
        also = (Place(source.file, second.number, second.indent + 1),)
    message = f"`{_short(line.name)}` starts in column {line.indent + 1}, out of step with the lines around it"
    return Problem(message, place, expected, also=also)


def _short(name: str) -> str:
    return name if len(name) <= _WORDS_AROUND else name[: _WORDS_AROUND - 1].rstrip() + "…"


def _passage(lines: Sequence[Line], stuck: int) -> tuple[list[Line], int]:
    """The lines around the one in which the parser got stuck, with those that lead to the first of them."""
    first = max(0, stuck - _LINES_AROUND)
    leading: list[Line] = []
    column = lines[first].indent
    for line in reversed(lines[:first]):
        if line.indent < column:
            leading.insert(0, line)
            column = line.indent
    return leading + list(lines[first : stuck + _LINES_AROUND]), len(leading) + stuck - first


def _repairs(lines: Sequence[Line], stuck: int) -> Iterator[_Repair]:
    step = _usual_step(lines)
    for at in range(max(0, stuck - _BACK), min(len(lines), stuck + 2)):
        line = lines[at]
        if not line.named and not line.dash:
            for opens in (False, True):
                yield _repair(lines, at, [dataclasses.replace(line, named=True, opens=opens)], step, colon=True)
            continue
        below = at + 1
        while below < len(lines) and lines[below].indent > line.indent:
            below += 1
        for column in _columns(lines, at, step):
            moved = [_moved(each, column - line.indent) for each in lines[at:below]]
            yield _repair(lines, at, moved[:1], step)
            if len(moved) > 1:
                yield _repair(lines, at, moved, step)


def _columns(lines: Sequence[Line], at: int, step: int) -> set[int]:
    """The columns in which a line could be meant to stand: those of the lines before it, and one step further in."""
    near = lines[: at + 3]
    columns = {line.indent for line in near} | {line.inner for line in near if line.dash}
    if at and lines[at - 1].opens:
        columns.add(lines[at - 1].inner + step)
    return columns - {lines[at].indent}


def _moved(line: Line, by: int) -> Line:
    return dataclasses.replace(line, indent=line.indent + by, inner=line.inner + by)


def _repair(lines: Sequence[Line], at: int, new: Sequence[Line], step: int, colon: bool = False) -> _Repair:
    after = [*lines[:at], *new, *lines[at + len(new) :]]
    wrong, uneven, alike = _judge(after, step)
    return _Repair(after, at, new[0].indent, wrong, (uneven, -alike, len(new), -at), colon)


def _usual_step(lines: Sequence[Line]) -> int:
    pairs = itertools.pairwise(lines)
    steps = Counter(below.indent - line.inner for line, below in pairs if line.opens and below.indent > line.inner)
    return steps.most_common(1)[0][0] if steps else 2


def _judge(lines: Sequence[Line], step: int) -> tuple[int, int, float]:
    """How many lines fit no level, how many levels are set in unevenly, and how much neighbours are alike."""
    levels: list[tuple[int, bool, Line]] = []
    wrong, uneven, alike = 0, int(lines[0].indent > 0), 0.0
    above: Line | None = None
    for line in lines:
        if not line.named and not line.dash:
            if above is None or not above.runs_on or line.indent <= above.indent:
                wrong += 1
            else:
                uneven += above.opens
                above = dataclasses.replace(above, opens=False)
            continue
        if (
            above is not None
            and above.opens
            and (line.indent > levels[-1][0] or (line.dash and line.indent == levels[-1][0] and not levels[-1][1]))
        ):
            if line.indent - above.inner not in (0, step):
                uneven += 1
        else:
            wrong += above is not None and above.opens
            while len(levels) > 1 and (
                levels[-1][0] > line.indent or (levels[-1][0] == line.indent and levels[-1][1] and not line.dash)
            ):
                levels.pop()
            if levels:
                column, dash, sibling = levels.pop()
                wrong += (column, dash) != (line.indent, line.dash)
                alike += len(sibling.shape & line.shape) / len(sibling.shape | line.shape)
        levels.append((line.indent, line.dash, line))
        if line.dash and line.named:
            levels.append((line.inner, False, line))
        above = line
    return wrong, uneven, alike


def _neighbour(lines: Sequence[Line], at: int) -> Line | None:
    """The nearest line on the same level as this one, before it or else after it."""
    for others in (reversed(lines[:at]), lines[at + 1 :]):
        for other in others:
            if other.indent < lines[at].indent:
                break
            if other.indent == lines[at].indent:
                return other
    return None
