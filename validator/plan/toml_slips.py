"""What is wrong with a text that is no TOML, in plain words, at the place where it is to be mended."""

from __future__ import annotations

import re
import tomllib

from validator.plan.documents import SourceText
from validator.plan.problems import Place, Problem

_MOST_SLIPS = 20
_LONGEST_LINE = 1000  # as much of a line as is looked at to find the likely slip in it
_PLACE = re.compile(r"(?s)(.*) \(at (?:line (\d+), column (\d+)|end of document)\)")
_YAML_HABIT = re.compile(r"""[ \t]*((?:"[^"]*"|'[^']*'|[^\[{"'=:#\s][^\[{"'=:#\n]*?))[ \t]*:(?:[ \t]+(.*)|[ \t]*)$""")
_ENTRY = re.compile(r"""[ \t]*((?:"[^"]*"|'[^']*'|[^\[{"'=#\s][^\[{"'=#\n]*?))[ \t]*=[ \t]*(.*)$""")
_BARE = re.compile(r"[A-Za-z0-9_-]+(?:[ \t]*\.[ \t]*[A-Za-z0-9_-]+)*")
_HEADER = re.compile(r"[ \t]*(\[\[?)([^\[\]]*)")
_SEVERAL_LINES = ('"""', "'''")


def slips(source: SourceText) -> list[Problem]:
    """Every slip that can be told apart: behind one that concerns its line only, reading goes on without that line."""
    found: list[Problem] = []
    text = source.text
    for _ in range(_MOST_SLIPS):
        try:
            tomllib.loads(text)
        except tomllib.TOMLDecodeError as error:
            offset, message = _where(source, str(error))
        except RecursionError:
            return [*found, Problem("brackets lie too deep in one another", Place(source.file), "fewer levels")]
        except ValueError:
            return [*found, Problem("a number is too long", Place(source.file), "a number, or a text in quotes")]
        else:
            break
        line = source.place(offset).line
        start = source.line_starts[line - 1]
        end = source.line_starts[line] - 1 if line < len(source.line_starts) else len(source.text)
        found.append(_slip(source, offset, start, source.text[start:end], message))
        content = source.text[start:end]
        if not content.strip() or content.lstrip().startswith("[") or _goes_on(content):
            break
        text = text[:start] + " " * (end - start) + text[end:]
    return found


def _where(source: SourceText, said: str) -> tuple[int, str]:
    """The offset and the message in what Python's reader says of a fault."""
    match = _PLACE.fullmatch(said)
    if match is None or match[2] is None:
        last = len(source.text.rstrip())
        return max(last - 1, 0), match[1] if match else said
    return source.line_starts[int(match[2]) - 1] + int(match[3]) - 1, match[1]


def _goes_on(line: str) -> bool:
    """Whether a value in the line may go on below it, so that the lines below make no sense without it."""
    return any(mark in line for mark in _SEVERAL_LINES) or line.count("[") != line.count("]")


def _slip(source: SourceText, offset: int, start: int, line: str, said: str) -> Problem:
    """The fault in the words of people who write a plan, with the likeliest way to mend it."""
    line = line[:_LONGEST_LINE]
    header = _HEADER.match(line)
    if header:
        return _in_header(source, offset, start, header, said)
    habit = _YAML_HABIT.match(line)
    if habit:
        name, value = _quoted_name(habit[1]), habit[2]
        expected = f"`{name} = {_quoted_value(value)}`" if value else f"`[{name}]`, and its entries below"
        return source.problem(start + habit.start(1), "a colon stands where TOML has an equals sign", expected)
    entry = _ENTRY.match(line)
    if entry:
        problem = _in_entry(source, start, entry, said)
        if problem is not None:
            return problem
    if said.startswith(("Cannot overwrite a value", "Duplicate inline table key")):
        return source.problem(offset, "a name stands here that was given a value before", "each name once")
    return source.problem(offset, *_FAULTS.get(said, _other(said)))


def _in_header(source: SourceText, offset: int, start: int, header: re.Match[str], said: str) -> Problem:
    if said.startswith(("Cannot declare", "Cannot overwrite", "Cannot mutate")):
        return source.problem(
            start + header.start(1), f"`{header[2].strip()}` is declared a second time", "each table once"
        )
    parts = [part.strip() for part in re.findall(r"""(?:"[^"]*"|'[^']*'|[^."'])+""", header[2])]
    mended = ".".join(map(_quoted_name, parts))
    if header[2].strip() and mended != header[2].strip():
        message = f"the name `{header[2].strip()}` has a sign in it that needs quotes"
        return source.problem(start + header.start(2), message, f"`[{mended}]`")
    whole = header[1] + (mended or "name") + "]" * len(header[1])
    return source.problem(offset, "this is no header of a table", f"`{whole}`, alone in its line")


def _in_entry(source: SourceText, start: int, entry: re.Match[str], said: str) -> Problem | None:
    name, value = entry[1].strip(), entry[2].strip()
    if name[0] not in "\"'" and not _BARE.fullmatch(name):
        message = f"the name `{name}` has a space or another sign in it that needs quotes"
        return source.problem(start + entry.start(1), message, f"`{_quoted_name(name)} = …`")
    if not value or value.startswith("#"):
        return source.problem(start + entry.start(1), f"`{name}` has no value", f"`{name} = …`")
    bare = value.partition(" #")[0].strip()
    if bare[0] not in "\"'[{" and said.startswith(("Invalid value", "Expected newline")):
        message = f"`{_short(bare)}` stands without quotes"
        return source.problem(start + entry.start(2), message, f"`{name} = {_quoted_value(bare)}`")
    return None


def _quoted_name(name: str) -> str:
    name = name.strip()
    return name if not name or name[0] in "\"'" or _BARE.fullmatch(name) else f'"{name}"'


def _quoted_value(value: str) -> str:
    value = value.strip()
    return value if value[:1] in ('"', "'", "[", "{") else f'"{_short(value)}"'


def _short(text: str) -> str:
    return text if len(text) <= 40 else text[:39] + "…"


def _other(said: str) -> tuple[str, str]:
    for beginning, found in _BEGINNINGS.items():
        if said.startswith(beginning):
            return found
    return "this is no TOML", "`name = value`, or `[table]`"


_NOT_CLOSED = "a quote that opens in this line is not closed", "the quote that closes it"
_TWICE = "a name stands here that was given a value before", "each name once"
_FAULTS: dict[str, tuple[str, str]] = {
    "Invalid value": ("no value can start like this", "a text in quotes, a number, or a list in brackets"),
    "Invalid statement": ("this is neither an entry nor a header", "`name = value`, or `[table]`"),
    "Expected '=' after a key in a key/value pair": ("no equals sign stands behind the name", "`name = value`"),
    "Expected newline or end of document after a statement": (
        "something stands behind the value",
        "one entry in a line; a text with spaces needs quotes",
    ),
    "Unclosed array": ("a list is not closed, or lacks a comma", "a comma between two entries, and `]` at the end"),
    "Unclosed inline table": ("a brace is not closed, or lacks a comma", "a comma between two entries, and `}`"),
    "Unterminated string": ("a quote that opens above is not closed", "the quote that closes it"),
    "Unescaped '\\' in a string": ("this `\\…` means nothing in TOML", "`\\\\` for the sign itself, or single quotes"),
    "Invalid hex value": ("this `\\u…` stands for no character", "four hexadecimal digits behind `\\u`"),
    "Escaped character is not a Unicode scalar value": ("this `\\u…` stands for no character", "the character itself"),
    "Invalid date or datetime": ("there is no such day", "a day such as 2026-06-01"),
    "Invalid initial character for a key part": (
        "no name can start like this",
        "a name, in quotes unless one plain word",
    ),
}
"""By what Python's reader says: the fault in plain words, and what could stand there."""

_BEGINNINGS = {
    "Expected": _NOT_CLOSED,
    "Illegal character": _NOT_CLOSED,
    "Found invalid character": _NOT_CLOSED,
    "Cannot mutate immutable": ("this adds to what braces or brackets have closed", "the entry inside them"),
    "Cannot redefine": _TWICE,
    "Cannot declare": _TWICE,
    "Cannot overwrite": _TWICE,
}
