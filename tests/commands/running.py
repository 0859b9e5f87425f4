"""Running `dryfit` the way its users do: as a process of its own, with what it printed and what it cost."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

REPOSITORY = Path(__file__).resolve().parents[2]
DEMO = REPOSITORY / "plans_demo"
START = "from validator.commands.main import run; run()"
ON = "2027-03-01"

PUMP_HOUSE = """\
dryfit: 1
heights from: bare floor
project: {title: Pump house, country: GB-ENG, lengths in: mm, built: 2012, starts: 2027-02-01}
walls: none
runs: none
worktops: none
appliances:
  dishwasher: {waste: 40 mm to stack 1500 at 25 mm/m, hose: raised, air gap: none}
survey: {stopcock: {in: porch, turns: yes, within reach: yes}}
points: none
circuits: none
fixings: none
coatings: none
floors: none
openings: none
work: {order: usual, days: every day}
"""
"""A small plan that is ready: one waste, and nothing else."""

OWN_RULE = """\
book: {{title: House rules, covers: everywhere}}
rules:
  steeper-waste:
    title: A steeper waste
    each: waste
    figure: slope
    at_least: {limit}
    severity: {severity}
    before: first fix
    because: It was always so here.
    remedy: Lay it at {{need}}.
    source: common practice
"""
"""A book of one rule; the waste of the pump house falls 25 mm in a metre."""


class Ran(NamedTuple):
    """What a run came to: exit status, both streams, and the seconds of processor time it took."""

    status: int
    out: str
    err: str
    seconds: float = 0.0


def dryfit(
    *words: str | Path,
    stdin: bytes = b"",
    folder: Path | None = None,
    environment: Mapping[str, str] | None = None,
    most_memory: int | None = None,
) -> Ran:
    """Run the command in a folder, its input given; beyond `most_memory` bytes of address space it gets no more."""
    began = _seconds_of_children()
    ran = subprocess.run(
        command(words),
        input=stdin,
        capture_output=True,
        cwd=folder,
        env=environment_with(environment or {}),
        preexec_fn=None if most_memory is None else lambda: _limit_memory(most_memory),
        timeout=60,
    )
    took = _seconds_of_children() - began
    return Ran(ran.returncode, ran.stdout.decode("utf-8"), ran.stderr.decode("utf-8"), took)


def command(words: Sequence[str | Path]) -> list[str]:
    return [sys.executable, "-c", START, *map(str, words)]


def environment_with(changes: Mapping[str, str]) -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": str(REPOSITORY), **changes}


def _seconds_of_children() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def _limit_memory(most: int) -> None:
    resource.setrlimit(resource.RLIMIT_AS, (most, most))


def own_rule(severity: str = "improve", limit: str = "30 mm/m") -> str:
    return OWN_RULE.format(severity=severity, limit=limit)
