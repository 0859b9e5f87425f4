"""One line of a plan taken apart: words, then a quantity (`dabs 10 to 25`, `frame fixing 8 x 100`)."""

from __future__ import annotations

import re

from validator.plan.elements import is_to_find
from validator.plan.names import fold
from validator.plan.units import UNITS

_STARTS_A_NUMBER = frozenset("½¼¾⅛⅜⅝⅞~-")
GOES_ON = frozenset(("x", "×", "to", "and", "assumed", "of", "mix", "paint", "water", *map(fold, UNITS)))
"""Words that go on a quantity which has begun, folded."""

NUMBERED = frozenset(("type", "class", "grade", "code", "mark", "no.", "no", "number"))
"""Words behind which a number is part of a name, folded."""


def is_number(word: str) -> bool:
    """Whether a word starts a quantity."""
    first = word[:1]
    return (first.isdecimal() or first in _STARTS_A_NUMBER) and any(letter.isnumeric() for letter in word)


def words_and_quantity(line: str) -> tuple[str, str]:
    """The words of a line and the quantity at its end; either may be ''. `to find out …` counts as a quantity."""
    words = line.split()
    starts = [at for at, word in enumerate(words) if is_number(word) or is_to_find(" ".join(words[at : at + 3]))]
    for at in starts:
        rest = words[at:]
        if is_to_find(" ".join(rest)) or all(is_number(word) or fold(word) in GOES_ON for word in rest):
            return " ".join(words[:at]), " ".join(rest)
    return " ".join(words), ""


def runs_on(words: str) -> bool:
    """Whether a figure stands among the words, as where the comma between two entries was left out: `skim 3 brick`.

    Not where it is part of a name: `type 2 board`.
    """
    before = ["", *map(fold, words.split())]
    return any(is_number(word) and name not in NUMBERED for name, word in zip(before, words.split(), strict=False))


def times(text: str) -> list[str]:
    """The parts of a size: `8 x 100` is 8 and 100."""
    return [part.strip() for part in re.split(r"\s*[x×]\s*", text)] if text else []


def product_and_water(line: str) -> tuple[str, str]:
    """The product and the thinning of a coat, either ''; `matt 10 % water` is matt with `10 % water`."""
    words = line.split()
    if words and fold(words[-1]) == "neat":
        return " ".join(words[:-1]), words[-1]
    wet = len(words) > 1 and fold(words[-1]) == "water"
    product, amount = words_and_quantity(" ".join(words[:-1]) if wet else line)
    return product, f"{amount} {words[-1]}" if wet else amount
