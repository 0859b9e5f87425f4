"""A house with many holes: hung units on every wall, points, and cables and pipes in the walls."""

from __future__ import annotations

HEAD = """\
dryfit: 1
heights from: bare floor
project: {title: A house of holes, country: GB-ENG, lengths in: mm}
layers: {brick: [plaster 13, brick 215]}
ceiling: 2400
kinds:
  wall: {height: 720, depth: 300, hangers: {down: 35, in: 40}}
  double socket: {plate: 146 x 86}
"""
UNITS, POINTS = 25, 8


def plan(walls: int, *, routes: int = 4, points: int = POINTS) -> str:
    """A plan of so many walls with 25 hung units (50 holes), some points and some routes each."""
    length = UNITS * 600 + 400
    per_route, per_point = 12_400 // routes, 13_840 // points
    parts = {
        "walls": [f"  w{n}: {{made of: brick, length: {length}}}" for n in range(walls)],
        "runs": [
            f"  r{n}: {{against: w{n}, underside: 1400, order: {{G{n}: gap 200, "
            + ", ".join(f"U{n}x{each}: wall 600" for each in range(UNITS))
            + "}}"
            for n in range(walls)
        ],
        "points": [
            f"  P{n}x{each}: {{is: double socket, wall: w{n}, along: {900 + each * per_point} from w{(n - 1) % walls}, "
            f"up: {300 if each % 2 else 1100}}}"
            for n in range(walls)
            for each in range(points)
        ],
        "fixings": ["  rail: {for: wall units, at: hangers, through: 2, plug: frame fixing 8 x 100, hole: 8 x 110}"],
        "routes": [
            f"  R{n}x{each}: {{is: cable, wall: w{n}, from: '{700 + each * per_route} from w{(n - 1) % walls}, 100', "
            f"via: ['{700 + each * per_route} from w{(n - 1) % walls}, 2300'], "
            f"to: '{2100 + each * per_route} from w{(n - 1) % walls}, 2300', "
            "deep: 30, known by: photo, seen: 2026-05-01}"
            for n in range(walls)
            for each in range(routes)
        ],
    }
    return HEAD + "".join(f"{name}:\n" + "\n".join(lines) + "\n" for name, lines in parts.items())
