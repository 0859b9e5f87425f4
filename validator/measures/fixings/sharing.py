"""A thing that several fixings hold: what they carry together, the weakest of them setting what each may take.

A rail and the brackets below it share the weight alike. Of the pull each takes as much as it sits above the lower edge
of the thing, as bolts of one plate do, so that the highest takes most.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from validator.measures import reading
from validator.measures.arithmetic import least, most, total
from validator.measures.fixings.hung_on_fixings import CountedAlongRail
from validator.measures.room.walls import worked
from validator.measures.rows import Given, Known, Row, Subject, figure, given
from validator.plan.dimensions import FORCE, LENGTH, NUMBER

OF_THE_WEAKEST = {
    "joints": "joints that nobody sees",
    "once": "what a load that comes once may take up",
    "to_failure": "from what a fixing may carry to what it fails at",
}


class ShareOfPull(Row, kind="share of the pull of some fixings"):
    """What fixings at one height take of a pull: the more, the higher they sit above the edge the thing turns about."""

    number: float = given(NUMBER, "fixings")
    drop: float = given(LENGTH, "from these to its lower edge")
    highest: float = given(LENGTH, "from the highest to its lower edge")

    @figure(LENGTH, "what they count for")
    def lever(self) -> float:
        return self.number * self.drop * (self.drop / self.highest)


class Sharing(Row, kind="fixings that share a load"):
    """Several fixings on one thing: their numbers and heights, and what one of each may carry."""

    numbers: tuple[float, ...] = given(NUMBER, "fixings", many=True)
    counts: tuple[float, ...] = given(NUMBER, "fixings that count in full", many=True)
    drops: tuple[float, ...] = given(LENGTH, "from its fixings to its lower edge", many=True)
    levers: tuple[float, ...] = given(LENGTH, "what they count for", many=True)
    loads: tuple[float, ...] = given(FORCE, "load a fixing may carry", many=True)
    shares: tuple[float, ...] = given(NUMBER, "factor", many=True)

    @figure(NUMBER, "fixings that share it")
    def number(self) -> float:
        return total(self.numbers)

    @figure(NUMBER, "fixings that count in full")
    def counted(self) -> float:
        return total(self.counts)

    @figure(LENGTH, "from the highest to its lower edge")
    def highest(self) -> float:
        return most(self.drops)

    @figure(LENGTH, "height that the pull of the highest is worked out with")
    def drop(self) -> float:
        return total(self.levers) / total(self.numbers)

    @figure(FORCE, "load the weakest may carry")
    def load(self) -> float:
        return least(self.loads)

    @figure(NUMBER, "factor of the weakest")
    def share(self) -> float:
        return least(self.shares)


def shared(
    each: Sequence[dict[str, Given]], width: Given, aparts: Sequence[Given], subject: Subject
) -> dict[str, Given]:
    """The fields of a hung thing for all of its fixings at once, from those that each has by itself.

    `aparts` are how far plugs of each have to be apart to carry their load each; 0 where that makes no difference.
    """

    def of(field: str) -> list[Given]:
        return [values[field] for values in each]

    def together(figure_: str, label: str, **fields: list[Given]) -> Given:
        return worked(
            Sharing(subject, **{name: reading.parts(values) for name, values in fields.items()}), figure_, label
        )

    highest = together("highest", "from the highest to its lower edge", drops=of("drop"))
    levers = [
        worked(ShareOfPull(subject, number=number, drop=drop, highest=highest), "lever", "what they count for")
        for number, drop in zip(of("number"), of("drop"), strict=True)
    ]
    counted = together("counted", "fixings that count in full", counts=of("counted"))
    close = _close(of("drop"), aparts)
    if close is not None:
        counted = worked(CountedAlongRail(subject, width=width, apart=close, number=counted), "counted", "that count")
    values = {
        **_of_one(each),
        "number": together("number", "fixings that share it", numbers=of("number")),
        "counted": counted,
        "drop": together("drop", "from its fixings to its lower edge", levers=levers, numbers=of("number")),
        **{field: together("share", label, shares=of(field)) for field, label in OF_THE_WEAKEST.items()},
    }
    if all("load_may" in one for one in each):
        return values | {"load_may": together("load", "load the weakest may carry", loads=of("load_may"))}
    for field in ("pull_may", "shear_may"):
        loads = [one.get("load_may") or one[field] for one in each]
        values[field] = together("load", f"{field.removesuffix('_may')} the weakest may carry", loads=loads)
    return values


def _of_one(each: Sequence[dict[str, Given]]) -> dict[str, Given]:
    """What is asked of one of several: a rail before hangers before the rest, and a screw in timber for its thread."""
    held_by = [one["held_by"] for one in each]
    names = " and ".join(str(name.value) for name in held_by if isinstance(name, Known))
    place = held_by[0].pointer if isinstance(held_by[0], Known) else ""
    at = [one["at"] for one in each]
    open_ = next((value for value in at if not isinstance(value, Known)), None)
    found = {value.value: value for value in at if isinstance(value, Known)}
    timber = next((one for one in each if "thread" in one), each[0])
    of_timber = ("base", "kind_of", "thread", "diameter")
    return {
        **{str(field): timber[field] for field in of_timber if field in timber},
        "held_by": reading.exactly(names, place, "what holds it"),
        "at": open_ or found.get("rail") or found.get("hangers") or at[0],
    }


def _close(drops: Sequence[Given], aparts: Sequence[Given]) -> Known | None:
    """How far plugs have to be apart, where two rows of them sit closer above each other than that."""
    known = [apart for apart in aparts if isinstance(apart, Known)]
    heights = sorted(float(drop.value) for drop in drops if isinstance(drop, Known))
    widest = max(known, key=lambda apart: float(apart.value), default=None)
    if widest is None or all(above - below >= widest.value for below, above in pairwise(heights)):
        return None
    return widest
