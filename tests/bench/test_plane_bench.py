"""Ten rooms of sixty things drawn from above, and how clear each of them opens, beside reading the plan.

The aim: drawing and clearances together cost less than twice what reading and validating the plan costs.
"""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.bench.phases import DAY, library
from tests.bench.ten_rooms import ten_rooms
from validator.measures.site import Site
from validator.plan.files import read_plan
from validator.plan.load import load
from validator.plan.plan import Plan

KINDS = (
    "door of a unit",
    "drawers of a unit",
    "door of a machine",
    "door of the room",
    "window that opens inwards",
    "hinge side of a door",
    "hob by a door of the room",
    "aisle",
    "open door in an aisle",
    "place before a hob",
)
TEXT = ten_rooms().encode()


def _read() -> Plan:
    return load(read_plan(["-"], lambda: TEXT))


def _set_out(plan: Plan) -> Site:
    """A site whose things have their places along the walls, which other measures have asked for before."""
    site = Site(plan, library(), DAY)
    assert all(thing.left and thing.right for thing in site.setting_out.things())
    assert not site.worktop_pieces
    return site


@pytest.fixture(autouse=True)
def _no_looking_for_garbage() -> Iterator[None]:
    """As in the command, which is over before there is garbage worth looking for."""
    gc.collect()
    gc.disable()
    yield
    gc.enable()


@pytest.mark.parametrize("what", ["reading and validating", "opening"])
def test_ten_rooms(what: str, benchmark: BenchmarkFixture) -> None:
    benchmark.group = "ten rooms"
    plan = _read()

    def prepared() -> tuple[tuple[Callable[[], int]], dict[str, object]]:
        if what == "opening":
            site = _set_out(plan)
            return (lambda: sum(len(site.rows(kind).rows) for kind in KINDS),), {}
        return (lambda: len(_read().runs),), {}

    found = benchmark.pedantic(lambda part: part(), setup=prepared, rounds=9)  # type: ignore[no-untyped-call]
    assert found >= 80
