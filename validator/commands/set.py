"""`dryfit set`: one value of a plan changed in its file, judged before it is written."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from functools import cached_property
from typing import NamedTuple

from validator.commands.beside import beside
from validator.commands.inspecting import Inspector, UnreadableBooks, say_unreadable
from validator.commands.replacing import CannotReplace, replace
from validator.judging.apply import Judgement
from validator.judging.cures import Cures, File, the_one
from validator.judging.ready import ready
from validator.plan.american import WORDS
from validator.plan.editing import Change, WouldNotRead, change
from validator.plan.elements import Unfit
from validator.plan.files import read_document, read_sources
from validator.plan.load import SECTIONS
from validator.plan.merging import Merged, merge
from validator.plan.names import fold
from validator.plan.order import BUILT_IN, item_line, point_line
from validator.plan.paths import InOneLine, Target, find
from validator.plan.plan import Plan
from validator.plan.pointers import join, split
from validator.plan.problems import Place, Unreadable
from validator.plan.quoting import Value
from validator.plan.yaml_reader import read_yaml
from validator.reporting.columns import tamed
from validator.reporting.lines import wrapped
from validator.reporting.points import Errand, put_together
from validator.reporting.problems import listed
from validator.reporting.standing import Standing, packed, standing, unpacked
from validator.reporting.value_change import changed, choices, command, unchanged

READY, NOT_READY, REFUSED = 0, 1, 2
WORTH_A_PROCESS = 60_000
"""From how many characters on a plan is judged before and after a change at the same time."""


class Refused(Exception):
    """Nothing is changed; the text says why and what to type instead."""


class _Done(NamedTuple):
    """A change that may be written, how the plan stands before it and with it, and what else is to be said."""

    change: Change
    before: Standing | None
    after: Judgement
    note: str = ""


def run(chosen: argparse.Namespace) -> int:
    """Change one value; 0 where the plan is ready with it, 1 where it is not, 2 where nothing was changed."""
    try:
        return _Setting(chosen).run()
    except Refused as refused:
        sys.stderr.write(tamed(str(refused)))
    except Unreadable as unreadable:
        say_unreadable(unreadable)
    return REFUSED


class _Setting:
    """One call of the command."""

    def __init__(self, chosen: argparse.Namespace) -> None:
        self._chosen = chosen
        if chosen.plan == "-":
            raise Refused("What comes from standard input cannot be changed there.\nExpected: a file or a folder\n")
        if (chosen.point is None) != (chosen.value is not None) or (chosen.point is None) != (chosen.path is not None):
            raise Refused("Say which value and what it is to be, or --point and a number.\nExpected: PATH VALUE\n")
        self._files = _read(chosen.plan)
        self._inspector = Inspector(chosen.rules, chosen.on)
        self._documents = [file.document for file in self._files]

    def run(self) -> int:
        done = self._at_path() if self._chosen.point is None else self._at_point(self._chosen.point)
        made, before, after, note = done
        if made.old == made.new:
            sys.stdout.write(unchanged(made.pointer, made.new, after))
        else:
            if not self._chosen.only_show:
                self._write(made)
            sys.stdout.write(changed(made, before, after, done=not self._chosen.only_show))
        if note:
            sys.stdout.write(tamed(f"\n{note}\n"))
        return READY if ready(after) else NOT_READY

    def _at_path(self) -> _Done:
        """The change that the words of the command ask for."""
        try:
            value = _value(self._chosen.value)
            target = find(self._documents, self._chosen.path, SECTIONS)
            file = next(file for file in self._files if file.document is target.document)
            made = change(file.document, file.content, target.pointer, value)
        except InOneLine as in_one_line:
            raise Refused(self._write_it_out(in_one_line)) from None
        except Unfit as unfit:
            raise Refused(_in_words(unfit)) from None
        except WouldNotRead as broken:
            raise Refused(self._would_break(broken, target.document.file, broken.text)) from None
        before = self._standing
        if self._before is not None and sum(len(each.text) for each in self._documents) >= WORTH_A_PROCESS:
            before = beside(self._standing)
        try:
            after = self._inspector.inspect(self._with(made))
        except UnreadableBooks:
            raise
        except Unreadable as broken:
            raise Refused(self._would_break(broken, target.document.file, made.after.text)) from None
        return _Done(made, unpacked(before()), after, self._from_kind(target))

    def _at_point(self, number: int) -> _Done:
        """The change that does what a point of the report asks for."""
        judged = self._inspector.inspect(merge(self._documents))
        points = put_together(judged)
        entry = next((entry for entry in points.numbered if entry.number == number), None)
        if entry is None:
            there = f"points 1 to {len(points.numbered)}" if points.numbered else "no points"
            raise Refused(f"The report has no point {number}.\nExpected: it has {there}\n")
        if isinstance(entry, Errand):
            answer = command(self._chosen.plan, judged.site.plan.places.written(entry.missing.pointer), "ANSWER")
            raise Refused(f"Point {number} is something to find out. Once you know, type:\n  {answer}\n")
        cures = Cures(self._files, judged, self._inspector.site, self._inspector.inspect).find(entry.outcomes)
        cure = the_one(cures)
        if cure is None:
            raise Refused(choices(self._chosen.plan, entry, cures, judged))
        return _Done(cure.change, standing(judged, points), cure.after)

    @cached_property
    def _before(self) -> Plan | None:
        """The plan before the change; None where it cannot be read."""
        try:
            return self._inspector.site(merge(self._documents)).plan
        except UnreadableBooks:
            raise
        except Unreadable:
            return None

    def _standing(self) -> str:
        """How the plan stands before the change, packed."""
        try:
            return packed(None if self._before is None else standing(self._inspector.judge(self._before)))
        except Unreadable:
            return packed(None)

    def _with(self, made: Change) -> Merged:
        file = made.after.file
        return merge([made.after if document.file == file else document for document in self._documents])

    def _write(self, made: Change) -> None:
        content = next(file.content for file in self._files if file.document.file == made.after.file)
        try:
            replace(made.after.file, content, made.content)
        except CannotReplace as reason:
            raise Refused(f"Not changed: {reason}.\nThe file is as it was: {made.after.file}\n") from None

    def _from_kind(self, target: Target) -> str:
        """Says so where a thing's value stood in its kind until now, and how to change it there."""
        kind = None if target.there else self._kind_of(target.pointer)
        if kind is None:
            return ""
        said = wrapped(f"Until now the value came from `{kind}`, which has not changed. For all of the kind:")
        return "\n".join([*said, f"  {command(self._chosen.plan, kind, self._chosen.value)}"])

    def _kind_of(self, pointer: str) -> str | None:
        """The pointer of a value in the kind that gives it; None where no kind does."""
        if self._before is None:
            return None
        written = self._before.places.written(pointer)
        return written if split(written)[0] != split(pointer)[0] else None

    def _write_it_out(self, found: InOneLine) -> str:
        """What to type instead, where a thing written in one line is to get a value of its own."""
        lines = list(wrapped(f"Not changed: {found}."))
        long = _long_form(found, [document.data for document in self._documents])
        if long is not None:
            long[found.key] = _value(self._chosen.value)
            lines += ["Written out it has:", f"  {command(self._chosen.plan, found.pointer, long)}"]
        else:
            lines += ["Set the whole line:", f"  {command(self._chosen.plan, found.pointer, found.line)}"]
        kind = self._kind_of(join(found.pointer, found.key))
        if kind is not None:
            lines += ["For all of its kind:", f"  {command(self._chosen.plan, kind, self._chosen.value)}"]
        return "\n".join(lines) + "\n"

    def _would_break(self, broken: Unreadable, file: str, text: str) -> str:
        """Why a change is not made, with the lines as they would have been."""
        texts = {each.document.file: each.document.text for each in self._files}
        texts[file] = text.replace("\r\n", "\n").replace("\r", "\n")
        lines = {name: content.split("\n") for name, content in texts.items()}

        def line_of(place: Place) -> str | None:
            found = lines.get(place.file, [])
            return found[place.line - 1] if 0 < place.line <= len(found) else None

        head = "Not changed: with this value the plan could not be read."
        if unpacked(self._standing()) is None:
            head = "Not changed: the plan cannot be read, and this value does not mend all of it."
        return f"{head}\nThe file is as it was: {file}\n\n{listed(broken, line_of)}"


def _read(plan: str) -> list[File]:
    """The files of a plan with their bytes. Raises Unreadable."""
    found = read_sources([plan], lambda: b"")
    problems = list(found.problems)
    files: list[File] = []
    for source in found.sources:
        try:
            files.append(File(read_document(source.text, source.file), source.content))
        except Unreadable as unreadable:
            problems += unreadable.problems
    if problems:
        raise Unreadable(problems)
    return files


def _value(text: str) -> Value:
    """What is typed as a value: a list in brackets, a group in braces, or a text. Raises Unfit."""
    text = text.strip()
    if not text:
        raise Unfit("no value is given", "a value, such as `600`")
    if text[0] not in "[{":
        return text
    try:
        found: Value = read_yaml(f"value: {text}", "the value").data["value"]
    except Unreadable as unreadable:
        raise Unfit(
            f"`{text}` cannot be read: {unreadable.problems[0].message}", unreadable.problems[0].expected
        ) from None
    return found


def _long_form(found: InOneLine, plans: Sequence[dict[str, Value]]) -> dict[str, Value] | None:
    """What a thing in a run or a point on a wall says in its line, key by key; None for anything else."""
    segments = [fold(segment) for segment in split(found.pointer)]
    kinds: set[str] = {*BUILT_IN, *WORDS}
    for plan in plans:
        for section, entries in plan.items():
            if fold(section) == "kinds" and isinstance(entries, dict):
                kinds |= {fold(name) for name in entries}
    try:
        if len(segments) == 4 and segments[0] == "runs" and segments[2] == "order":
            form = item_line(found.line, kinds)
        elif len(segments) == 2 and segments[0] in ("points", "receptacles"):
            form = point_line(found.line, kinds)
        else:
            return None
    except Unfit:
        return None
    return {fold(name): "yes" if value is True else str(value) for name, value in form.items()}


def _in_words(unfit: Unfit) -> str:
    lines = list(wrapped(f"Not changed: {unfit}."))
    if unfit.expected:
        lines += wrapped(f"Expected: {unfit.expected}")
    if unfit.nearest:
        lines += wrapped(f"Perhaps «{unfit.nearest}» was meant.")
    return "\n".join(lines) + "\n"
