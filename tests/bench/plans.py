"""Plans of any length: one long room in which every wall has a run, hung units, a worktop, appliances and points.

Written the way people write plans, mostly a value to a line, so that 50,000 lines stay under 400,000 names and values
and 5 MB, the most that is read of one file.
"""

from __future__ import annotations

HEAD = """\
dryfit: 1
heights from: bare floor
project:
  title: A long room
  country: GB-ENG
  currency: GBP
  lengths in: mm
  built: 1987
  starts: 2026-06-01
layers:                                # room side first
  dabbed brick: [skim 3, plasterboard 12.5, dabs 10 to 25, brick 102]
  slab: [cement screed 65, concrete 100]
ceiling: [2424, 2420, 2421]
floor:
  made of: slab
  levels: {by the door: 0, under the window: 6 low}
  moisture: 68 % by hygrometer
  heated: no
kinds:
  base: {height: 720, depth: 560, front: 19, void behind: 50, legs: 135 to 180}
  door: {like: base, opens: door}
  drawers: {like: base, opens: drawers}
  sink base: {like: base, opens: two doors}
  wall: {height: 720, depth: 300, opens: door, hangers: {down: 35, in: 40}}
  filler: {least: 20, most: 80}
  worktop: {thickness: 38}
  double socket: {plate: 146 x 86, up: 150 above worktop, cable: straight up, deep: 20}
  low socket: {plate: 86 x 86, up: 400 from bare floor, cable: straight down, deep: 20}
  connection unit: {plate: 86 x 86, up: 400 from bare floor, cable: straight down, deep: 20}
people:
  electrician: {trade: electrical, register: scheme number 40117, looked up: 2026-05-14}
  gas engineer: {trade: gas, register: card 731902, looked up: 2026-05-14}
work:
  order: usual
  days: monday to friday
  plaster: {by: householder, takes: 2 days, dries: 21 days}
  paint: {by: householder, takes: 3 days, on: 2026-07-13}
  connect gas: {by: gas engineer, takes: 1 day}
  lay floor: {by: householder, takes: 2 days}
floors:
  laminate: {thickness: 10, underlay: 2, laid: after units, gap: 12, runs: wall 1 to wall 2}
"""

BAYS: dict[str, str] = {
    "walls": """\
  wall {n}:
    made of: dabbed brick
    length: [4213, 4210, 4211]
""",
    "runs": """\
  run {n}:
    against: wall {n}
    legs: 150 at high spot
    order:
      F{n}a: filler 40
      B{n}a: drawers 500
      B{n}b: sink base 800
      P{n}a: panel 18
      dishwasher {n}: 600
      B{n}c: door 500 right
      oven {n}: 600
      B{n}d: door 500 left
      B{n}e: drawers 600
      F{n}b: filler rest
  hung {n}:
    against: wall {n}
    underside: 520 above worktop
    order:
      W{n}a: wall 600 over dishwasher {n}
      W{n}b: wall 500 right of W{n}a
""",
    "worktops": """\
  top {n}:
    on: run {n}
""",
    "appliances": """\
  hob {n}:
    is: gas hob
    in: oven {n}
    width: 590
  hood {n}:
    is: chimney hood
    over: hob {n}
    up: {hood}
    power: 0.2 kW
    supply: S{n}b
  oven {n}:
    is: oven
    body: 595 w x 595 h x 550 d
    power: 2.9 kW
    supply: C{n}
  dishwasher {n}:
    is: dishwasher
    body: 598 w x 815 h x 550 d
    power: 2.1 kW
    supply: S{n}c
    waste: 40 mm to gully 1600 at 25 mm/m
  sink {n}:
    is: sink
    in: B{n}b
    cut-out: 740 x 480
    bowl: 340 w x 400 d x 180 h
    waste: 40 mm to gully 1400 at 25 mm/m
""",
    "stated": """\
  hob {n}:
    read: hob leaflet p. 6
    hood above: 650 from pan supports
    pan support: 45
  hood {n}:
    read: hood leaflet p. 3
    hob below: 650 from hob surface
  rail {n}:
    read: plug leaflet
    embedment: 60
""",
    "points": """\
  S{n}a:
    is: double socket
    wall: wall {n}
    along: {along} from wall {before}
  S{n}b: double socket over B{n}c
  S{n}c: low socket in B{n}c
  C{n}: connection unit in B{n}d
""",
    "circuits": """\
  ring {n}:
    is: ring
    device: 32 A
    rcd: 30 mA
    cable: 2.5 mm2
    laid: clipped direct or in plaster
    in insulation: 0
    serves: [S{n}a, S{n}b, S{n}c]
  oven circuit {n}:
    device: 16 A
    rcd: 30 mA
    cable: 2.5 mm2
    laid: clipped direct or in plaster
    in insulation: 0
    serves: C{n}
""",
    "fixings": """\
  rail {n}:
    for: hung {n}
    at: hangers
    through: 2
    plug: frame fixing 8 x {plug}
    hole: 8 x 110
""",
    "coatings": """\
  paint {n}:
    on: new gypsum plaster
    walls: [wall {n}]
    plastered: 2026-06-10
    moisture: 0.6 % by pin meter
    coats: [30 % water, 10 % water, neat]
    between: 4 h
""",
}
"""What one wall adds to each section; every tenth wall has a plug too short, every seventh a hood too low."""


def plan(lines: int) -> str:
    """A plan of this many lines or the fewest more that whole walls allow; 130 at least."""
    a_wall = sum(text.count("\n") for text in BAYS.values())
    walls = max(1, -(-(lines - HEAD.count("\n") - len(BAYS)) // a_wall))
    return HEAD + "".join(_section(name, text, walls) for name, text in BAYS.items())


def _section(name: str, text: str, walls: int) -> str:
    bays = (
        text.format(
            n=number,
            before=(number - 2) % walls + 1,
            along=805 if number % 3 else 2230,
            hood=1640 if number % 7 else 1590,
            plug=100 if number % 10 else 80,
        )
        for number in range(1, walls + 1)
    )
    return f"{name}:\n{''.join(bays)}"
