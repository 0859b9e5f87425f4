"""Reads the part of YAML in which plans and rulebooks are written, and keeps where everything stands.

One pass over the parser's events: no anchors, tags or second documents, every scalar kept as the text that was
written, names compared as `fold` compares them.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from typing import Any, NamedTuple

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError
from ruamel.yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from validator.plan.documents import INVISIBLE, MOST_PROBLEMS, USUAL_LIMITS, Document, Limits, Offsets, SourceText
from validator.plan.names import fold
from validator.plan.pointers import escape
from validator.plan.problems import Place, Problem, Unreadable

try:
    from ruamel.yaml.cyaml import CParser  # type: ignore[attr-defined]
except ModuleNotFoundError:  # the compiled parser is a package of its own, which not every machine has
    CParser = None

_NO_SUCH_CHARACTER = re.compile(
    r"\\(?:U(?!00(?:10|0[0-9A-Fa-f])[0-9A-Fa-f]{4})[0-9A-Fa-f]{8}|(?:u|U0000)[dD][89A-Fa-f][0-9A-Fa-f]{2})"
)
_DIRECTIVE = re.compile(r"^%", re.MULTILINE)
_MOST_SLIPS = 20


def read_yaml(text: str, file: str, limits: Limits = USUAL_LIMITS) -> Document:
    """Read one file whose top is a mapping.

    Raises Unreadable with everything that is wrong: where a slip ends the parser's reading, reading goes on at the
    next name that stands in the first column.
    """
    source = SourceText.of(text, file)
    problems = source.all_invisible()
    if problems:
        raise Unreadable(problems[:MOST_PROBLEMS])
    reading = _read_from(source, 0, limits)
    if reading.gave_up is None and not reading.problems:
        return Document(file, source.text, reading.data, reading.offsets, source.line_starts)
    raise Unreadable(_all_problems(source, reading, limits)[:MOST_PROBLEMS])


def _all_problems(source: SourceText, reading: _Reading, limits: Limits) -> list[Problem]:
    """What is wrong in the whole of a file of which the first reading found something that is."""
    from validator.plan.line_structure import next_section
    from validator.plan.slips import explain

    problems: list[Problem] = []
    start = 0
    for _ in range(_MOST_SLIPS):
        if reading.gave_up is None:
            problems += reading.problems
            again = None if reading.left is None else next_section(source.text, reading.left)
        else:
            slip = explain(source.text, source.file, reading.gave_up, reading.opened, start)
            above = source.line_above(slip.place.line)
            problems += [problem for problem in reading.problems if problem.place.line < above]
            problems.append(slip)
            again = next_section(source.text, source.line_starts[slip.place.line - 1])
        if again is None:
            break
        start = again
        reading = _read_from(source, start, limits)
    return problems


def _read_from(source: SourceText, start: int, limits: Limits) -> _Reading:
    """Read with the compiled parser; the pure one is the reference, so that its verdict stands on what C refuses."""
    text = source.text[start:]
    if CParser is not None:
        reading = _Reading(source, start, limits)
        reading.follow(iter(CParser(text).get_event, None))
        if reading.gave_up is None:
            return reading
    reading = _Reading(source, start, limits)
    found = _NO_SUCH_CHARACTER.search(text)
    if found is not None:  # the pure parser would end in an error that is not its own
        message = f"`{found[0]}` stands for no character"
        reading.problems.append(source.problem(start + found.start(), message, "the character itself"))
        return reading
    reading.follow(YAML(typ="safe", pure=True).parse(text))
    return reading


class _Level(NamedTuple):
    """A mapping or list being read: what to go back to when it ends, and where it and its name start."""

    names: dict[str, Any] | None
    entries: list[Any] | None
    around: str
    here: str
    key_start: int
    key_end: int
    start: int
    flow: bool


class _Reading:
    """Builds data and places from parser events, and collects what a plan may not hold.

    A syntax error sets `gave_up`, and `opened` where it is inside a quote or bracket; `left` is where reading was left
    for a reason that is among the problems.
    """

    def __init__(self, source: SourceText, start: int, limits: Limits) -> None:
        self.data: dict[str, Any] = {}
        self.offsets: dict[str, Offsets] = {}
        self.problems: list[Problem] = []
        self.gave_up: int | None = None
        self.opened: int | None = None
        self.left: int | None = None
        self._source = source
        self._start = start
        self._limits = limits

    def follow(self, events: Iterable[Any]) -> None:
        """Read to the end, or as far as it makes sense."""
        try:
            self._follow(events)
        except MarkedYAMLError as error:
            mark = error.problem_mark or error.context_mark
            self.gave_up = len(self._source.text) if mark is None else mark.index + self._start
            if error.context_mark is not None:
                opened = error.context_mark.index + self._start
                if self._source.text[opened : opened + 1] in tuple("{[\"'|>&*!"):
                    self.opened = opened

    def _follow(self, events: Iterable[Any]) -> None:
        # One loop over local names, because it runs once for every name and every value of a plan.
        base, most, deepest = self._start, self._limits.nodes, self._limits.depth
        offsets, segments, levels = self.offsets, dict[str, tuple[str, str]](), list[_Level]()
        names: dict[str, Any] | None = None
        entries: list[Any] | None = None
        pointer = here = name = ""
        waits = False  # a name has been read and its value comes next
        key_start = key_end = last_end = nodes = documents = 0
        for event in events:
            sort = event.__class__
            if sort is ScalarEvent:
                nodes += 1
                start, end = event.start_mark.index + base, event.end_mark.index + base
                text, style = event.value, event.style
                if event.anchor is not None or event.tag is not None:
                    self._refuse_mark(start)
                if names is not None and not waits:
                    if text not in segments:
                        self._look_at_name(text, style, start)
                        segments[text] = unicodedata.normalize("NFC", text), "/" + escape(fold(text))
                    name, segment = segments[text]
                    here, key_start, key_end, waits = pointer + segment, start, end, True
                    if here in offsets:
                        self._add(self._source.second(name, start, offsets[here][0]))
                        here = f"{here} {nodes}"
                    continue
                if style:
                    self._look_at_quoted(text, start)
                    if style in "|>":
                        end = start + len(self._source.text[start:end].rstrip())
                elif not text:
                    self._refuse_empty(key_start if waits else start, key_end if waits else start)
                last_end = end
                if names is not None:
                    names[name] = text
                    offsets[here] = key_start, key_end, start, end
                    waits = False
                elif entries is not None:
                    offsets[f"{pointer}/{len(entries)}"] = start, end, start, end
                    entries.append(text)
                else:
                    self._refuse_top(start, text)
                    return
            elif sort is MappingStartEvent or sort is SequenceStartEvent:
                nodes += 1
                start = event.start_mark.index + base
                if event.anchor is not None or event.tag is not None:
                    self._refuse_mark(start)
                if names is not None and not waits:
                    message = "a bracket or dash stands where a name should"
                    self._leave(start, self._source.problem(start, message, "`name: value`"))
                    return
                if len(levels) >= deepest:
                    self._leave(start, self._source.too_deep(start, self._limits))
                    return
                if not levels and sort is SequenceStartEvent:
                    self._refuse_top(start, "-")
                    return
                new: dict[str, Any] | list[Any] = {} if sort is MappingStartEvent else []
                if names is not None:
                    names[name] = new
                else:
                    here, key_start, key_end = pointer, start, start
                    if entries is not None:
                        here = f"{pointer}/{len(entries)}"
                        entries.append(new)
                levels.append(_Level(names, entries, pointer, here, key_start, key_end, start, event.flow_style))
                names, entries = (new, None) if isinstance(new, dict) else (None, new)
                pointer, waits = here, False
                if len(levels) == 1 and names is not None:
                    self.data = names
            elif sort is MappingEndEvent or sort is SequenceEndEvent:
                names, entries, pointer, here, key_start, key_end, start, flow = levels.pop()
                if flow:
                    last_end = event.end_mark.index + base
                offsets[here] = key_start, key_end, start, last_end
                waits = False
            elif sort is AliasEvent:
                self._refuse_mark(event.start_mark.index + base)
                waits = names is not None and not waits
            elif sort is DocumentStartEvent:
                documents += 1
                if documents > 1:
                    start = event.start_mark.index + base
                    message = "a second document starts here"
                    self._leave(start, self._source.problem(start, message, "one plan in a file, without `---`"))
                    return
                if event.version is not None or event.tags:
                    self._refuse_directive()
            if nodes > most:
                self._leave(last_end, self._source.too_many(last_end, self._limits))
                return
        if not documents:
            self._add(Problem("the file is empty", Place(self._source.file), "lines of `name: value`"))

    def _add(self, problem: Problem) -> None:
        if len(self.problems) < MOST_PROBLEMS:
            self.problems.append(problem)

    def _leave(self, offset: int, problem: Problem) -> None:
        self._add(problem)
        self.left = offset

    def _refuse_top(self, start: int, text: str) -> None:
        if not text:
            self._add(Problem("the file is empty", Place(self._source.file), "lines of `name: value`"))
        else:
            what = "a list" if text == "-" or self._source.text[start] == "[" else "a text without a name"
            message = f"{what} stands at the top of the file"
            self._leave(start, self._source.problem(start, message, "lines of `name: value`"))

    def _refuse_directive(self) -> None:
        found = _DIRECTIVE.search(self._source.text)
        offset = found.start() if found else self._start
        self._add(self._source.problem(offset, "a line with % at the start of the file", "the plan without that line"))

    def _refuse_mark(self, start: int) -> None:
        """An anchor (&), an alias (*) or a tag (!): they are in the text at `start`."""
        word = self._source.text[start:].split(None, 1)[0]
        does = {"&": "gives the value a mark to be repeated by", "*": "repeats a marked value", "!": "sets a type"}
        message = f"`{word}` {does[word[0]]}, which cannot be done here"
        self._add(self._source.problem(start, message, "the value itself, in quotes if it starts with " + word[0]))

    def _look_at_name(self, text: str, style: str, start: int) -> None:
        if not text and not style:
            colon = self._source.text.rfind(":", 0, start + 1)  # the parsers differ in which side of it they report
            self._add(self._source.problem(max(colon, 0), "a value without a name", "`name: value`"))
        elif text == "<<" and not style:
            expected = "the entries themselves, written out"
            self._add(self._source.problem(start, "`<<` merges other entries in, which cannot be done here", expected))
        elif style:
            self._look_at_quoted(text, start)

    def _look_at_quoted(self, text: str, start: int) -> None:
        found = INVISIBLE.search(text)
        if found is not None:
            self._add(self._source.invisible(start, found[0]))

    def _refuse_empty(self, key_start: int, key_end: int) -> None:
        """A value that is not there; says which slip most likely left it out."""
        text = self._source.text
        written = text[key_start:key_end]
        behind = text[key_end:].partition("\n")[0]
        remark = re.match(r"\s*:?\s*#(\S+)", behind)
        if remark is not None:
            expected = f"no. {remark[1]}" if remark[1][0].isdigit() else f'"#{remark[1]}", in quotes'
            message, expected = "a # starts a remark, so that no value is left", f"`{expected}`"
        elif not written:
            message, expected = "a dash or comma without a value", "a value"
        elif behind.lstrip().startswith(":"):
            message = f"a colon without a value behind `{written}`"
            expected = "a value, or lines below it that are set further in"
        elif written.isdigit():
            message, expected = f"`{written}` stands alone behind a comma", "numbers without commas in them: `1250`"
        elif ":" in written:
            name, _, value = written.partition(":")
            message = f"`{written}` has no space behind the colon"
            expected = f"a colon and a space: `{name}: {value or 'value'}`"
        else:
            message, expected = f"`{written}` has no value", "a colon and a space: `name: value`"
        self._add(self._source.problem(key_start, message, expected))
