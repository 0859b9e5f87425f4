"""A plan of ten rooms with sixty things each: a run on every wall with corners between them, hung units over it."""

from __future__ import annotations

HEAD = """\
dryfit: 1
heights from: finished floor
project: {title: Ten kitchens, country: GB-ENG, lengths in: mm}
kinds:
  base: {height: 720, depth: 560, front: 19, void behind: 50, handle: 30, legs: 135 to 180}
  door: {like: base, opens: door}
  drawers: {like: base, opens: drawers}
  sink base: {like: base, opens: two doors}
  wall: {height: 720, depth: 300, front: 19, void behind: 0, handle: 30, opens: door}
"""

WALLS = ("north", "east", "south", "west")
UNITS = (
    "post 60", "drawers 500", "sink base 800", "door 500 right", "drawers 600", "door 500 left", "door 400 left",
    "drawers 500", "door 600 right", "sink base 800", "door 400 right",
)  # fmt: skip


def ten_rooms() -> str:
    """The whole plan, about 1,100 lines."""
    rooms = "".join(_room(number) for number in range(10))
    runs = "".join(_run(number, place) for number in range(10) for place in range(len(WALLS)))
    return f"{HEAD}rooms:\n{rooms}runs:\n{runs}"


def _room(number: int) -> str:
    walls = "".join(f"      {wall}: {{length: [8002, 8000]}}\n" for wall in WALLS)
    door = "{wall: east, along: 7000 from north, size: 762 w x 1981 h, swings: in, hinge: left}"
    return f"  room {number}:\n    walls:\n{walls}    openings: {{door {number}: {door}}}\n"


def _run(number: int, place: int) -> str:
    wall, before = WALLS[place], WALLS[place - 1]
    start = f"    from: fronts of {before} run {number}\n" if place else ""
    units = "".join(f"      {wall[0].upper()}{number}x{at}: {unit}\n" for at, unit in enumerate(UNITS))
    hung = "".join(f"      H{wall[0]}{number}x{at}: wall 500 left\n" for at in range(5))
    at_wall = f"    against: room {number} / {wall}\n"
    return (
        f"  {wall} run {number}:\n{at_wall}{start}    legs: 150 at high spot\n    order:\n{units}"
        f"  {wall} hung {number}:\n{at_wall}    underside: 1400\n    order:\n{hung}"
    )
