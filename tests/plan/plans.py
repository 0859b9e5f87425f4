"""Plans as text, for tests of reading them into models: what they come to, or what is wrong with them."""

from __future__ import annotations

from typing import NamedTuple

from validator.plan.load import load
from validator.plan.merging import Merged, merge
from validator.plan.plan import Plan
from validator.plan.problems import Unreadable
from validator.plan.yaml_reader import read_yaml

HEAD = "dryfit: 1\nheights from: bare floor\nproject: {title: Osier loft, lengths in: mm}\n"
"""Three lines, so that what a test writes starts at line 4."""


class Wrong(NamedTuple):
    """A problem as a test looks at it."""

    line: int
    message: str
    nearest: str


def merged(text: str) -> Merged:
    return merge([read_yaml(text, "plan.yaml")])


def plan(text: str, head: str = HEAD) -> Plan:
    return load(merged(head + text))


def problems(text: str, head: str = HEAD) -> list[Wrong]:
    """Everything that is wrong with a plan, in the order of its lines."""
    try:
        plan(text, head)
    except Unreadable as unreadable:
        return [Wrong(each.place.line, each.message, each.nearest) for each in unreadable.problems]
    return []
