"""How things are written in one line, said beside what reads them, for whoever describes the form of a plan."""

from __future__ import annotations

from typing import NamedTuple


class Written(NamedTuple):
    """A pattern for the text, and examples of it.

    The pattern is a regular expression with spaces for any white space. In it `<thickness>` stands for what the field
    of that name holds, `<length>`, `<name>` and the like for any such value, and `<=high spot>` for words that compare
    as names do (`<=open|closed>`: one of them).
    """

    pattern: str
    examples: tuple[str, ...] = ()
