"""How long a long plan takes to become typed; run with `pytest tests/bench --benchmark-only`."""

from __future__ import annotations

from typing import Any

from validator.plan.load import load
from validator.plan.merging import merge
from validator.plan.yaml_reader import read_yaml

_HEAD = """\
dryfit: 1
heights from: bare floor
project: {lengths in: mm}
walls: {river: {length: 4912}, lane: {length: 3311}, stairs: {length: 4915}, yard: {length: 3312}}
kinds:
  base: {height: 715, depth: 555, front: 20, void behind: 55, legs: 130 to 170}
  door: {like: base, opens: door}
  hung: {height: 705, depth: 310, hangers: {down: 38, in: 45}, weight: 34 kg/m, load: 90 kg/m}
  double socket: {plate: 147 x 87, up: 160 above worktop, cable: straight up, deep: 22}
"""


def long_plan(runs: int) -> str:
    """A plan of about 113 lines a run: units, hung units, points, a sink, a circuit."""
    lines = ["runs:"]
    for run in range(runs):
        lines += [f"  run {run}:", "    against: river", "    legs: 150 at high spot", "    order:"]
        lines += [f"      B{run}-{at}: door 450 left" for at in range(30)]
        lines += [f"  hung {run}:", "    against: river", "    underside: 510 above worktop", "    order:"]
        lines += [f"      W{run}-{at}: hung 450 left over B{run}-{at}" for at in range(20)]
    lines.append("points:")
    for run in range(runs):
        lines += [f"  S{run}-{at}: double socket over B{run}-{at}" for at in range(20)]
        lines += [f"  C{run}:", "    is: double socket", "    wall: lane", "    along: 1260 from river", "    up: 1080"]
    lines.append("appliances:")
    for run in range(runs):
        lines += [f"  sink {run}:", "    is: sink", f"    in: B{run}-2", "    cut-out: 790 x 490"]
        lines += ["    bowl: 345 w x 405 d x 185 h", "    waste: 40 mm to stack 1750 at 19 mm/m"]
    lines.append("circuits:")
    for run in range(runs):
        lines += [f"  ring {run}:", "    is: ring", "    device: 32 A", "    rcd: 30 mA", "    cable: 2.5 mm2"]
        lines += ["    length: 46 m", "    laid: clipped direct or in plaster", f"    serves: [S{run}-0, S{run}-1]"]
    return _HEAD + "\n".join(lines) + "\n"


def test_a_plan_of_five_thousand_lines(benchmark: Any) -> None:
    text = long_plan(52)
    assert 5000 <= text.count("\n") <= 5200
    files = merge([read_yaml(text, "plan.yaml")])
    assert len(benchmark(load, files).runs) == 104
