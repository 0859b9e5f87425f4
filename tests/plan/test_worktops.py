"""Worktops that cannot be read: each mistake at its place, with what was expected."""

from __future__ import annotations

import pytest

from tests.plan.plans import problems

ROOM = """walls: {north: {length: 3000}, east: {length: 2500}, south: {length: 3000}, west: {length: 2500}}
runs: {sink run: {against: north, order: {B1: {is: base, width: 600}}}}
kinds: {base: {height: 720}}
worktops:
"""


@pytest.mark.parametrize(
    ("said", "message", "nearest"),
    [
        ("joint: mitre joint at 900 from west", "`mitre joint` cannot stand here", "mitre"),
        ("joint: butt at 900", "`900`: say from which wall", ""),
        ("joint: butt at 900 from south", "the south wall does not meet the north wall", ""),
        ("joint: butt at 900 from wset", "no wall of this plan is called `wset`", "west"),
        ("joint: [butt]", "a joint is written as what it is and where", ""),
        ("joints: {J1: butt at 900 from noth}", "no wall of this plan is called `noth`", "north"),
        ("corner: masons mitre with hob tpo", "no worktop of this plan is called `hob tpo`", "hob top"),
        ("seal: 8", "a sealant joint is written with its width and its class", ""),
        ("sealed: maybe", "`maybe` cannot stand here", ""),
        ("bolts: three", "`three` is not a number", ""),
    ],
)
def test_what_cannot_be_read_of_a_worktop_is_told_at_its_line(said: str, message: str, nearest: str) -> None:
    (found,) = problems(ROOM + "  hob top: {on: sink run}\n" + f"  sink top: {{on: sink run, {said}}}\n")
    assert message in found.message
    assert (found.line, found.nearest) == (9, nearest)
