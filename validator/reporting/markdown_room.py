"""As much of several reports as a comment has room for: every verdict before any detail, and what was cut is said."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import takewhile
from typing import Literal

from validator.reporting.lines import counted
from validator.reporting.markdown_text import table

LONGEST = 60_000
"""Characters. The hosts that take the most take 65,536 in one comment."""

FOR_THE_CUT = 400
What = Literal["plan", "point", "errand", "mistake", "note"]
WORDS: dict[What, tuple[str, str]] = {
    "plan": ("plan", "plans"),
    "mistake": ("mistake", "mistakes"),
    "point": ("point", "points"),
    "errand": ("thing to find out", "things to find out"),
    "note": ("note", "notes"),
}


@dataclass(frozen=True, slots=True)
class Block:
    """A piece of a report that is shown whole or not at all, and what it counts as when it is left out."""

    what: What
    text: str


@dataclass(frozen=True, slots=True)
class Part:
    """The report of one plan: head and foot together, and between them as many blocks as there is room for."""

    title: str
    ready: bool
    verdict: str
    in_numbers: str
    head: str
    blocks: tuple[Block, ...]
    foot: str


class _Room:
    """How many characters are left."""

    def __init__(self, characters: int) -> None:
        self.left = characters

    def take(self, *texts: str) -> bool:
        needed = sum(len(text) + len("\n\n") for text in texts)
        if needed > self.left:
            return False
        self.left -= needed
        return True


def whole(parts: Sequence[Part]) -> str:
    """The comment about all plans, those that are not ready first."""
    parts = sorted(parts, key=lambda part: part.ready)
    room = _Room(LONGEST - FOR_THE_CUT)
    pieces = [_overview(parts, room)] if len(parts) > 1 else []
    shown = [part for part in parts if room.take(part.head, part.foot)]
    left_out: Counter[What] = Counter({"plan": len(parts) - len(shown)})
    for part in shown:
        fitting = list(takewhile(lambda block: room.take(block.text), part.blocks))
        left_out.update(block.what for block in part.blocks[len(fitting) :])
        pieces += [part.head, *(block.text for block in fitting), part.foot]
    if left_out.total():
        pieces.append(_cut(left_out))
    return "\n\n".join(pieces) + "\n"


def _overview(parts: Sequence[Part], room: _Room) -> str:
    """A table of all plans, which leaves half of the room to what is in them."""
    rows = [(part.title, part.verdict, part.in_numbers) for part in parts]
    lines = takewhile(lambda line: room.left > LONGEST // 2 and room.take(line), table(("plan", "verdict", ""), rows))
    return "\n".join(lines)


def _cut(left_out: Counter[What]) -> str:
    more = [counted(left_out[what], *words) for what, words in WORDS.items() if left_out[what]]
    return f"**Cut here to fit into a comment:** {_listed(more)} more. `dryfit check` prints everything."


def _listed(things: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(things[:-1]), things[-1])))


def under(heading: str, blocks: Sequence[Block]) -> Iterator[Block]:
    """The blocks of a section, the first with the heading above it; nothing where there are none."""
    for number, block in enumerate(blocks):
        yield block if number else Block(block.what, f"### {heading}\n\n{block.text}")
