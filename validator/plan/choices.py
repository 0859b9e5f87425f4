"""Fields that hold one of a few words, yes or no, or names of the plan's own; compared as names are."""

from __future__ import annotations

import re
from collections import ChainMap
from collections.abc import Mapping
from typing import Any, NamedTuple, get_args

from pydantic import GetCoreSchemaHandler
from pydantic_core import CoreSchema, core_schema

from validator.plan.american import WORDS
from validator.plan.elements import Unfit, is_to_find
from validator.plan.names import fold, nearest
from validator.plan.quantities import read_to_find
from validator.plan.values import ToFind

_YES_NO = {"yes": True, "true": True, "no": False, "false": False}
_JOINTS = re.compile(r"(\s*,\s*|\s+and\s+|\s+)")


def one_of(written: object, words: Mapping[str, Any]) -> Any:
    """The word meant by what is written (`words` by their folded form); Unfit where it is none of them."""
    if isinstance(written, str):
        folded = fold(written)
        found = words.get(folded, words.get(WORDS.get(folded, folded)))
        if found is not None:
            return found
    shown = [word if isinstance(word, str) else folded for folded, word in words.items()]
    between = "; " if any("," in word for word in shown) else ", "
    raise Unfit(f"`{shown_text(written)}` cannot stand here", between.join(shown), nearest(str(written), shown) or "")


def shown_text(written: object) -> str:
    """What is written, short enough for a message."""
    if isinstance(written, Mapping):
        return "{…}"
    if isinstance(written, list):
        return "[…]"
    text = str(written)
    return text if len(text) <= 60 else text[:59] + "…"


class OneOf:
    """Marks a field that holds one of the words of its Literal, or `to find out` where its type says so."""

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        words = {fold(word): word for word in _literals(source)}
        doubtful = ToFind in get_args(source)

        def read(written: object) -> object:
            if isinstance(written, ToFind):
                return written
            if doubtful and isinstance(written, str) and is_to_find(written):
                return read_to_find(written)
            return one_of(written, words)

        return core_schema.no_info_plain_validator_function(read)


class YesOrNo:
    """Marks a field that holds `yes` or `no`, or `to find out`."""

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        def read(written: object) -> object:
            if isinstance(written, bool | ToFind):
                return written
            if isinstance(written, str) and is_to_find(written):
                return read_to_find(written)
            if isinstance(written, str) and fold(written) in _YES_NO:
                return _YES_NO[fold(written)]
            raise Unfit(f"`{shown_text(written)}` cannot stand here", "yes, no, to find out")

        return core_schema.no_info_plain_validator_function(read)


class NamesOf(NamedTuple):
    """Marks a list of names, also written in one line; `sections` say where the names are from.

    One line is taken apart at `and`, commas, and wherever a name known to those sections begins and ends.
    """

    sections: tuple[str, ...]
    words: tuple[str, ...] = ()

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        words = {fold(word): word for word in self.words}
        words.update({theirs: words[ours] for theirs, ours in WORDS.items() if ours in words})

        def read(written: object, info: core_schema.ValidationInfo) -> tuple[str, ...]:
            if isinstance(written, tuple):
                return written
            names_of = info.context["names"] if info.context else {}
            known = ChainMap(*(names_of.get(section, {}) for section in reversed(self.sections)), words)
            parts = written if isinstance(written, list) else [written]
            names = [name for part in parts if isinstance(part, str) for name in names_in(part, known)]
            if not names or not all(isinstance(part, str) for part in parts):
                raise Unfit(f"`{shown_text(written)}` cannot stand here", "a name, or a list of names in brackets")
            return tuple(names)

        return core_schema.with_info_plain_validator_function(read)


class NameOfWall:
    """Marks a field that names a wall: in whatever way it is written, it comes out as the plan calls that wall."""

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        def read(name: str | None, info: core_schema.ValidationInfo) -> str | None:
            walls = info.context["names"].get("walls", {}) if info.context else {}
            return walls.get(fold(name), name) if name else name

        return core_schema.with_info_after_validator_function(read, handler(source))


def names_in(line: str, known: Mapping[str, str]) -> list[str]:
    """The names in a line, the longest known first; what is not known stays together up to the next known name.

    `known` gives the name of the plan by its folded form.
    """
    pieces = _JOINTS.split(line.strip())  # words at the even places, what joins them at the odd ones
    found: list[str] = []
    loose: list[str] = []
    at = 0
    while at < len(pieces):
        ends = range(len(pieces), at, -2)
        end = next((end for end in ends if fold("".join(pieces[at:end])) in known), None)
        if end is None:
            loose.append(pieces[at])
        if loose and (end is not None or "".join(pieces[at + 1 : at + 2]).strip()):
            found.append(" ".join(loose))
            loose = []
        if end is not None:
            found.append(known[fold("".join(pieces[at:end]))])
        at = at + 2 if end is None else end + 1
    if loose:
        found.append(" ".join(loose))
    return [name for name in found if name]


def _literals(annotation: object) -> list[str]:
    parts = get_args(annotation)
    return [word for part in parts for word in ([part] if isinstance(part, str) else _literals(part))]
