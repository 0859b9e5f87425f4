"""Bold and colour for a terminal; nothing a report says is said by colour alone."""

from __future__ import annotations

import re
from typing import NamedTuple

from validator.reporting.columns import tamed

BOLD, RESET = "\x1b[1m", "\x1b[0m"
SEVERITY_COLOURS = {"STOP": "\x1b[1;35m", "put right": "\x1b[36m"}
_SEQUENCES = re.compile("(" + "|".join(map(re.escape, (BOLD, RESET, *SEVERITY_COLOURS.values()))) + ")")


class Style(NamedTuple):
    """How to set text off: with terminal sequences, or (`plain`) not at all."""

    plain: bool = True

    def strong(self, text: str) -> str:
        return text if self.plain else f"{BOLD}{text}{RESET}"

    def severity(self, text: str) -> str:
        colour = SEVERITY_COLOURS.get(text)
        return text if self.plain or colour is None else f"{colour}{text}{RESET}"

    def tamed(self, text: str) -> str:
        """The text with a mark in place of what a terminal would obey; our own sequences stay where there are any."""
        if self.plain:
            return tamed(text)
        parts = _SEQUENCES.split(text)
        return "".join(part if number % 2 else tamed(part) for number, part in enumerate(parts))
