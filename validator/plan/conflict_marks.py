"""Marks that a merge leaves in a file where two versions of it disagree and nobody has decided yet."""

from __future__ import annotations

import re

from validator.plan.problems import Place, Problem, Unreadable

_MARK = re.compile(r"^(?:<{7}|\|{7}|>{7})(?: .*)?\r?$|^={7}\r?$", re.MULTILINE)
"""A line of seven such signs in the first column; no plan and no book has one, whatever it is written in."""

_MOST_LINES = 6


def check_decided(text: str, file: str) -> None:
    """Raise Unreadable where such marks stand, with their lines; everything else would be said of the marks too."""
    lines = [text.count("\n", 0, mark.start()) + 1 for mark in _MARK.finditer(text)] if _suspect(text) else []
    if not lines:
        return
    shown = [str(line) for line in lines[:_MOST_LINES]]
    which = f"line {shown[0]}" if len(lines) == 1 else f"lines {', '.join(shown)}"
    more = f" and {len(lines) - _MOST_LINES} more" if len(lines) > _MOST_LINES else ""
    raise Unreadable(
        [
            Problem(
                f"conflict marks stand in {which}{more}: two versions of the file have not been made one yet",
                Place(file, lines[0], 1),
                "one version of what stands between the marks, and the marks gone",
            )
        ]
    )


def _suspect(text: str) -> bool:
    return "<<<<<<<" in text or ">>>>>>>" in text or "=======" in text or "|||||||" in text
