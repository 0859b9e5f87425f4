"""What a book or a table covers: everywhere, a country, or a part of one."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from validator.reference.entries import Entry

EVERYWHERE = "everywhere"
CODE = re.compile(r"[A-Z]{2}(-[A-Z0-9]{1,3})?")


def read_covers(entry: Entry) -> str | None:
    """`everywhere`, or a country or part of one by ISO 3166 (`GB`, `US-CA`)."""
    written = entry.text("covers")
    if written is None:
        return None
    if written == EVERYWHERE or CODE.fullmatch(written):
        return written
    entry.mistake(f"`{written}` is no country", expected="everywhere, or a code of ISO 3166: GB, GB-ENG, US-CA")
    return None


def applies(covers: str, country: str) -> bool:
    """Whether what covers this is for the country; without a country only `everywhere` is."""
    return covers == EVERYWHERE or country == covers or country.startswith(covers + "-")


def depth(covers: str) -> int:
    """How special it is: 0 for everywhere, 1 for a country, 2 for a part of one."""
    return 0 if covers == EVERYWHERE else 1 + covers.count("-")
