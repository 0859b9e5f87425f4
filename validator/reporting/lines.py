"""Lines of a text report: 80 columns, labels in a column of their own, and words for small numbers."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from validator.plan.dimensions import DAY
from validator.reporting.columns import at_right, columns, filled, one_line, wrap

WIDTH = 80
INDENT = 7
LABEL = 11

_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def wrapped(text: str, indent: int = 0) -> Iterator[str]:
    """The text over as many lines as it takes."""
    for line in wrap(text, WIDTH - indent):
        yield " " * indent + line


def wrapped_right(text: str) -> Iterator[str]:
    """The text at the right end of as many lines as it takes."""
    for line in wrap(text, WIDTH):
        yield at_right(line, WIDTH)


def labelled(label: str, text: str, aside: str = "") -> Iterator[str]:
    """A text behind its label, with something at the right end of its last line; nothing where both are empty."""
    if not text and not aside:
        return
    body = wrap(text, WIDTH - INDENT - LABEL) or [""]
    if columns(label) >= LABEL:
        yield from wrapped(label, INDENT)
        label = ""
    lines = [" " * INDENT + filled(label if not number else "", LABEL) + line for number, line in enumerate(body)]
    if aside and columns(lines[-1]) + 2 + columns(aside) <= WIDTH:
        lines[-1] = filled(lines[-1], WIDTH - columns(aside)) + aside
        aside = ""
    yield from lines
    yield from wrapped_right(aside)


def apart(left: str, right: str) -> Iterator[str]:
    """Two texts at the two ends of a line, or of two lines where one has no room for both."""
    right = one_line(right)
    if columns(left) + columns(right) + 2 <= WIDTH:
        yield filled(left, WIDTH - columns(right)) + right
    else:
        yield from wrapped(left)
        yield from wrapped_right(right)


def at_column(left: str, right: str, column: int) -> str:
    """A text that starts at a column, behind another."""
    return (filled(left, column) + right if columns(left) < column else f"{left} {right}").rstrip()


def day(value: date) -> str:
    """`1 June 2026`."""
    return f"{value.day} {value:%B} {value.year}"


def day_of(seconds: float) -> date:
    """The day of a date in base units."""
    return date.fromordinal(round(seconds / DAY))


def counted(count: int, one: str, many: str) -> str:
    """`one point is`, `two points are`."""
    number = _NUMBERS[count] if count < len(_NUMBERS) else str(count)
    return f"{number} {one if count == 1 else many}"


def sentence(text: str) -> str:
    """The text with its first letter large and a full stop."""
    return text[:1].upper() + text[1:] + ("" if text.endswith(".") else ".")


def some(names: list[str], most: int = 3) -> str:
    """The first few of several names: `S1, S2, S3 and 4 more`."""
    shown = ", ".join(names[:most])
    return shown + (f" and {len(names) - most} more" if len(names) > most else "")
