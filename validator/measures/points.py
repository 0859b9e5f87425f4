"""Electrical points beside sinks and hobs."""

from __future__ import annotations

from validator.measures.rows import YES_NO, Row, Words, figure, given
from validator.plan.dimensions import LENGTH, VOLUME


class PointNearSink(Row, kind="point near a sink"):
    """A point above the worktop on the wall of a sink; level distances, along the wall."""

    apart: float = given(LENGTH, "apart, middle to middle")
    half_plate: float = given(LENGTH, "half the plate")
    half_sink: float = given(LENGTH, "half the sink")
    above_worktop: float = given(LENGTH, "height above the worktop")
    volume: float = given(VOLUME, "what the bowl holds")
    protected: bool = given(YES_NO, "whether a device of 30 mA or less (a GFCI of 5 mA) protects it")

    @figure(LENGTH, "distance", start="edge of the sink", end="edge of the plate")
    def distance(self) -> float:
        return self.apart - self.half_plate - self.half_sink


class PointNearHob(Row, kind="point near a hob"):
    """A point above the worktop on the wall of a hob; level distances, along the wall."""

    apart: float = given(LENGTH, "apart, middle to middle")
    half_plate: float = given(LENGTH, "half the plate")
    half_hob: float = given(LENGTH, "half the hob")
    above_worktop: float = given(LENGTH, "height above the worktop")
    fuel: str = given(Words(("gas", "induction", "ceramic", "solid plate")), "fuel of the hob")

    @figure(LENGTH, "distance", start="edge of the hob", end="edge of the plate")
    def distance(self) -> float:
        return self.apart - self.half_plate - self.half_hob
