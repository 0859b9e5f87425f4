"""The line that says what stands in a run or on a wall: `door 300 left over B1`, `double socket over B3`.

    KIND [WIDTH | rest] [left | right] [over | in | left of | right of NAME]

A kind is one of those declared, the longest that fits; a number alone is the opening of the appliance of that name.
"""

from __future__ import annotations

from collections.abc import Collection

from validator.plan.elements import LongForm, Unfit, is_to_find
from validator.plan.lines import is_number
from validator.plan.names import fold, nearest
from validator.plan.written import Written

BUILT_IN = ("filler", "panel", "post", "gap", "opening")
"""Words that need no kind; each is a family of its own."""

POINTS = (
    "socket",
    "single socket",
    "double socket",
    "receptacle",
    "switch",
    "cooker switch",
    "connection unit",
)
"""Points that need no kind either: what is not said of them is not known."""

WORDS_OF_A_LINE = ("left", "right", "over", "in", "of")
"""Words with a meaning of their own in a line, which no name of a kind may hold."""

_HANDS = ("left", "right")
_GOES_ON = (*WORDS_OF_A_LINE, "assumed", "to", "rest")
_ITEM_RELATIONS = {"over": "over", "in": "corner", "left of": "left_of", "right of": "right_of"}
_POINT_RELATIONS = {
    "over": "over",
    "in": "in_",
    "behind": "behind",
    "above": "above",
    "left of": "left_of",
    "right of": "right_of",
}
_ITEM = "`door 300 left over B1`: kind, width or `rest`, left or right, and where it stands"
_POINT = "`double socket over B3`: kind, and where it sits"


ITEM_LINE = Written(
    f"<width>|<kind>( <length>| <=rest>)?( <=left|right>)?( <={'|'.join(_ITEM_RELATIONS)}> <name>)?",
    ("door 300 left", "filler rest", "wall 600 over B1", "corner wall 600 in north-east", "600"),
)
POINT_LINE = Written(
    f"<kind>( <={'|'.join(_POINT_RELATIONS)}> <name>)?",
    ("double socket over B3", "low socket in B2", "connection unit right of S4"),
)
"""How the two lines are written."""


def item_line(line: str, kinds: Collection[str]) -> LongForm:
    """The long form of a thing in a run, `is` as the line has it; `kinds` are folded. Raises Unfit."""
    words = line.split()
    if words and (is_number(words[0]) or is_to_find(line)):
        return LongForm(is_="opening", width=line)
    used = _kind(words, kinds, line, _ITEM)
    found = LongForm(is_=" ".join(words[:used]))
    at = used
    while at < len(words) and not _ends_width(words, at):
        at += 1
    if at > used:
        found["width"] = " ".join(words[used:at])
    if at < len(words) and fold(words[at]) == "rest":
        if at > used:
            raise Unfit(f"`{line}` gives a width and says `rest`", _ITEM)
        found["rest"] = True
        at += 1
    if at < len(words) and fold(words[at]) in _HANDS and not _is_of(words, at + 1):
        found["hand"] = fold(words[at])
        at += 1
    _relation(words, at, _ITEM_RELATIONS, found, line, _ITEM)
    return found


def point_line(line: str, kinds: Collection[str]) -> LongForm:
    """The long form of a point on a wall. Raises Unfit."""
    words = line.split()
    used = _kind(words, kinds, line, _POINT)
    found = LongForm(is_=" ".join(words[:used]))
    _relation(words, used, _POINT_RELATIONS, found, line, _POINT)
    return found


def _kind(words: list[str], kinds: Collection[str], line: str, expected: str) -> int:
    """How many words at the start are the name of a kind, as many as can be."""
    for used in range(len(words), 0, -1):
        if fold(" ".join(words[:used])) in kinds:
            return used
    end = next(
        (at for at, word in enumerate(words) if at and (is_number(word) or _starts_relation(words, at))), len(words)
    )
    meant = " ".join(words[:end])
    raise Unfit(f"`{meant}` is no kind of this plan", expected, nearest(meant, kinds) or "")


def _starts_relation(words: list[str], at: int) -> bool:
    return fold(words[at]) in ("left", "right", "over", "in", "behind", "above", "rest")


def _ends_width(words: list[str], at: int) -> bool:
    """Whether the width is over; `in` behind a number and before another word of the line is the inch."""
    word = fold(words[at])
    if word == "in" and is_number(words[at - 1]):
        return at + 1 < len(words) and fold(words[at + 1]) not in _GOES_ON
    return word in ("left", "right", "over", "in", "rest")


def _is_of(words: list[str], at: int) -> bool:
    return at < len(words) and fold(words[at]) == "of"


def _relation(words: list[str], at: int, relations: dict[str, str], found: LongForm, line: str, expected: str) -> None:
    """Read `over B1`, `left of S4` at the end of a line into its field."""
    if at == len(words):
        return
    length = 2 if _is_of(words, at + 1) else 1
    relation = fold(" ".join(words[at : at + length]))
    name = " ".join(words[at + length :])
    if relation not in relations:
        said = " ".join(words[at:])
        raise Unfit(f"`{said}` in `{line}` cannot be read", expected, nearest(relation, relations) or "")
    if not name:
        raise Unfit(f"`{line}` does not say what it is {relation}", expected)
    found[relations[relation]] = name
