"""Comparing the names and keys that people write."""

from __future__ import annotations

import functools
import re
import unicodedata
from collections.abc import Iterable

_GAPS = re.compile(r"[\s_-]+")


@functools.lru_cache(maxsize=16384)
def fold(name: str) -> str:
    """The form in which two names are compared: NFC, space, `_` and `-` one, case left aside."""
    return _GAPS.sub(" ", unicodedata.normalize("NFC", name)).strip().casefold()


def nearest(name: str, known: Iterable[str]) -> str | None:
    """The known name that somebody probably meant by `name`, or None."""
    import difflib

    choices = {fold(choice): choice for choice in known}
    found = difflib.get_close_matches(fold(name), choices, n=1, cutoff=0.6)
    if found:
        return choices[found[0]]
    last = fold(name).rpartition(" ")[2]  # `in B4`, where `B4` is expected
    return choices.get(last)
