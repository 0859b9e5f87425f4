"""Screws that join the neighbours of a run: side to side, side to panel, side to filler, frame to frame."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import least
from validator.measures.joinery.screws import known_number, length, screws_for
from validator.measures.room.walls import difference, named_gap
from validator.measures.rows import TERM, YES_NO, Given, Known, Missing, Row, Rows, Subject, Why, Words, figure, given
from validator.measures.runs.of_kinds import of_kind
from validator.measures.runs.touching import touching
from validator.plan.dimensions import LENGTH, NUMBER
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.runs.run_places import Standing
    from validator.measures.site import Site
    from validator.plan.plan import Plan
    from validator.plan.sections.furniture import Item, Run
    from validator.plan.sections.joinery import Screws

CALLED = {"unit": ("units", "cabinets"), "panel": ("panels",), "filler": ("fillers",)}
"""What screws are for, by what a unit meets."""


class ScrewedJoint(Row, kind="screwed joint of a run"):
    """Neighbours of a run that screws hold together, driven from the thicker side; `first` and `second` are what the
    screw passes and what it ends in: sides, stiles of face frames, a panel's thickness, a filler's width.
    """

    meets: str = given(Words(("unit", "panel", "filler")), "what the unit meets")
    framed: bool = given(YES_NO, "whether the units have face frames")
    hung: bool = given(YES_NO, "whether the units hang")
    heights: tuple[float, ...] = given(LENGTH, "height", many=True)
    first: float = given(LENGTH, "first side")
    second: float = given(LENGTH, "second side")
    length: float = given(LENGTH, "long")
    each: float = given(NUMBER, "screws for each joint")
    at: str = given(TERM, "where on the side they sit")

    @figure(LENGTH, "left before the screw comes through", start="tip of the screw", end="far face of the second side")
    def left_behind(self) -> float:
        return self.first + self.second - self.length

    @figure(LENGTH, "screw in the second side", start="face between the two", end="tip of the screw")
    def held(self) -> float:
        return self.length - self.first

    @figure(LENGTH, "height of the joint")
    def height(self) -> float:
        return least(self.heights)

    @figure(NUMBER, "screws in the joint")
    def screws(self) -> float:
        return self.each


def screwed_joints(site: Site) -> Rows:
    """A row for each run and each make-up of joint in it, so that one answer settles all joints that are alike."""
    rows = Rows()
    for name, run in site.plan.runs.items():
        alike: dict[tuple[object, ...], list[Row]] = {}
        for left, right in touching(site, name):
            row = _joint(site, name, run, left, right)
            if row is not None:
                alike.setdefault(_make_up(row), []).append(row)
        rows.rows += [_with_others(joints) for joints in alike.values()]
    return rows


def _joint(site: Site, name: str, run: Run, left: Standing, right: Standing) -> Row | None:
    """The joint of two neighbours, None where no screws are asked of them: neither is a unit, bolts join them, or glue.

    Two units are joined by screws where the run says so, or where screws of the plan are for units.
    """
    families = {left.item.family, right.item.family}
    meets = next((family for family in ("panel", "filler") if family in families), "unit")
    if "unit" not in families or not families <= {"unit", meets}:
        return None
    screws = screws_for(site.plan, name, *CALLED[meets])
    joined = run.joined.with_ if run.joined is not None else None
    if meets == "unit" and joined != "screws" and (screws is None or joined is not None):
        return None
    if meets != "unit" and screws is None and _glued(site.plan, CALLED[meets][0]):
        return None
    return _row(site, name, run, left, right, meets, screws)


def _glued(plan: Plan, what: str) -> bool:
    return any(what in map(fold, glue.for_) for glue in plan.adhesives.values())


def _row(site: Site, name: str, run: Run, left: Standing, right: Standing, meets: str, screws: Screws | None) -> Row:
    unit, other = (left, right) if left.item.family == "unit" else (right, left)
    sides = [_side(unit.item), _side(other.item) if meets == "unit" else _size(other)]
    if meets == "unit" and (known_number(sides[0]) or 0) < (known_number(sides[1]) or 0):
        sides.reverse()
    nothing = Missing(site.plan.screws.pointer, f"screws that join {CALLED[meets][0]}", Why.LEFT_OUT)
    pointer = screws.pointer if screws is not None else run.pointer
    joined_by = run.joined if meets == "unit" else None
    counted: Given = Missing(run.pointer_to("joined"), "screws for each joint")
    if joined_by is not None:
        counted = reading.read(joined_by, "connectors", "screws for each joint")
    heights = [of_kind(each.item, "height", "height") for each in (left, right) if each.item.family == "unit"]
    return ScrewedJoint(
        Subject(f"{left.name} and {right.name}", pointer, name, run.against),
        meets=reading.exactly(meets, pointer, "what the unit meets"),
        framed=_framed(unit.item),
        hung=reading.exactly(site.levels.is_hung(unit), unit.item.pointer, "whether the units hang"),
        heights=reading.parts(heights),
        first=sides[0],
        second=sides[1],
        length=nothing if screws is None else length(screws),
        each=counted,
        at=nothing
        if screws is None
        else reading.word(screws.at, screws.pointer_to("at"), "where on the side they sit"),
    )


def _side(item: Item) -> Given:
    """What a screw passes at the side of a unit: the stile of its face frame, else its side."""
    return of_kind(item, "stiles", "stile") if item.stiles is not None else of_kind(item, "sides", "side")


def _size(other: Standing) -> Given:
    """What a screw driven from a unit finds in a panel or a filler: its thickness, its width as it comes out."""
    item = other.item
    if item.width is not None:
        return named_gap(reading.read(item, "width", item.family), f"width of {other.name}")
    return difference(other.right, other.left, other.subject, other.name)


def _framed(item: Item) -> Given:
    if item.stiles is not None:
        return reading.exactly(True, item.pointer_to("stiles"), "face frame")
    sides = of_kind(item, "sides", "side")
    return reading.exactly(False, sides.pointer, "face frame") if isinstance(sides, Known) else sides


def _make_up(row: Row) -> tuple[object, ...]:
    """What tells joints apart for the rules; what is not known is told apart by the place of its answer."""
    told: list[object] = []
    for name in row.fields:
        known = row.known.get(name)
        told.append((known.value, known.low, known.high) if known is not None else row.why_not_known(name)[0].pointer)
    return tuple(told)


def _with_others(joints: list[Row]) -> Row:
    row, others = joints[0], len(joints) - 1
    if others:
        more = "1 more joint" if others == 1 else f"{others} more joints"
        row.__dict__["subject"] = row.subject._replace(context=f"{row.subject.context}, and {more} alike")
    return row
