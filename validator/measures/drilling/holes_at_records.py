"""Holes still to be drilled beside what is on record of their wall: a hole that failed, what a detector showed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import root
from validator.measures.room.walls import apart
from validator.measures.rows import NAME, YES_NO, Given, Known, Missing, Row, Rows, Subject, Words, figure, given
from validator.plan.dimensions import LENGTH
from validator.plan.values import ToFind

if TYPE_CHECKING:
    from collections.abc import Callable

    from validator.measures.drilling.records import Found
    from validator.measures.site import Site

SHOWN = ("live cable", "metal", "plastic pipe")


class HoleAtRecord(Row, kind="hole at a record"):
    """What holes at records of their wall have in common: how far they lie apart along the wall and up it."""

    record: str = given(NAME, "record")
    aside: float = given(LENGTH, "beside it along the wall")
    upward: float = given(LENGTH, "above or below it")

    @figure(LENGTH, "distance", start="place on record", end="middle of the hole")
    def distance(self) -> float:
        return root(self.aside * self.aside + self.upward * self.upward)


class HoleAtFailed(HoleAtRecord, kind="hole near a failed one"):
    """A hole to be drilled and the failed hole of its wall that is nearest to it."""

    deep: float = given(LENGTH, "depth of the hole that failed")
    filled: bool = given(YES_NO, "whether it was filled with mortar")


class HoleAtDetected(HoleAtRecord, kind="hole near what a detector showed"):
    """A hole to be drilled and the nearest place on its wall where a detector showed something in the wall."""

    showed: str = given(Words(SHOWN), "what the detector showed")


def holes_at_failed(site: Site) -> Rows:
    """A row for each hole on a wall in which a hole has failed."""
    return _beside(site, lambda record: record.built.failed is not None, _at_failed)


def holes_at_detected(site: Site) -> Rows:
    """A row for each hole on a wall in which a detector showed something."""
    return _beside(site, _showed, _at_detected)


def _showed(record: Found) -> bool:
    sweep = record.built.detector
    return sweep is not None and (isinstance(sweep.shows, ToFind) or sweep.shows in SHOWN)


def _beside(
    site: Site, wanted: Callable[[Found], bool], made: Callable[[Subject, Found, dict[str, Given]], Row]
) -> Rows:
    """A row for each hole and the nearest of the records wanted on its wall; one of unknown place comes first."""
    rows = Rows()
    if not any(wanted(record) for record in site.records.all()):
        return rows
    for hole in site.rows("drill point").rows:
        records = [record for record in site.records.of(hole.subject.wall) if wanted(record)]
        found = [made(hole.subject, record, _apart(site, hole, record)) for record in records]
        if found:
            rows.rows.append(min(found, key=_near))
    return rows


def _apart(site: Site, hole: Row, record: Found) -> dict[str, Given]:
    """How far a hole and a place on record lie apart, along the wall and up it."""
    built, subject = record.built, hole.subject
    along: Given = record.along or Missing(built.pointer_to("along"), f"where along the wall {record.name} is")
    levels = site.levels.at(record.wall)
    up = levels.above_bare_floor(built.up, built.pointer_to("up"), f"height of {record.name}", None)
    return {
        "record": reading.exactly(record.name, built.pointer, "record"),
        "aside": apart(_of(hole, "along"), along, subject, "along the wall"),
        "upward": apart(_of(hole, "up"), up, subject, "up the wall"),
    }


def _of(hole: Row, field: str) -> Given:
    return hole.known.get(field) or hole.why_not_known(field)


def _near(row: Row) -> float:
    aside, upward = row.known.get("aside"), row.known.get("upward")
    if not isinstance(aside, Known) or not isinstance(upward, Known):
        return 0.0
    return float(aside.low or 0.0) ** 2 + float(upward.low or 0.0) ** 2


def _at_failed(subject: Subject, record: Found, apart_: dict[str, Given]) -> Row:
    failed = record.built.failed
    assert failed is not None
    return HoleAtFailed(
        subject,
        deep=reading.read(failed, "deep", f"depth of {record.name}"),
        filled=reading.exactly(failed.filled, failed.pointer, "whether it was filled with mortar"),
        **apart_,
    )


def _at_detected(subject: Subject, record: Found, apart_: dict[str, Given]) -> Row:
    sweep = record.built.detector
    assert sweep is not None
    showed = reading.word(sweep.shows, sweep.pointer_to("shows"), f"what {record.name} showed")
    return HoleAtDetected(subject, showed=showed, **apart_)
