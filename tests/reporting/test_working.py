"""A working can be followed with a pencil: signs, brackets and labels, and what it comes to.

Every line is read as arithmetic by Python's own grammar, and has to come to the figure beside it.
"""

from __future__ import annotations

import ast
import operator
import re
from collections.abc import Callable

import pytest

from tests.measures.plans import site
from tests.reporting.plans import judged
from validator.measures.arithmetic import least, most, total
from validator.measures.rows import Known, Missing, Row, Subject, figure, given
from validator.plan.dimensions import AREA, LENGTH, NUMBER
from validator.reporting.printing import Printer
from validator.reporting.working import Working, work_out


class Crate(Row, kind="crate of slates"):
    """A crate with everything a working may hold."""

    deep: float = given(LENGTH, "deep")
    lid: float = given(LENGTH, "lid")
    foot: float = given(LENGTH, "foot")
    slates: tuple[float, ...] = given(LENGTH, "slates", many=True)
    rows: float = given(NUMBER, "rows")
    layers: float = given(NUMBER, "layers")

    @figure(LENGTH, "room", start="foot", end="lid")
    def room(self) -> float:
        return self.deep - (self.lid + self.foot)

    @figure(LENGTH, "room left")
    def left(self) -> float:
        return self.deep - (self.lid - self.foot)

    @figure(LENGTH, "stack")
    def stack(self) -> float:
        return self.foot + total(self.slates)

    @figure(LENGTH, "half")
    def half(self) -> float:
        return (self.deep - self.lid) / 2

    @figure(LENGTH, "deep less half a lid")
    def less_half(self) -> float:
        return self.deep - self.lid / 2

    @figure(LENGTH, "share")
    def share(self) -> float:
        return self.deep / (self.rows * self.layers)

    @figure(LENGTH, "share of a share")
    def share_of_share(self) -> float:
        return self.deep / (self.lid / self.foot)

    @figure(AREA, "front")
    def front(self) -> float:
        return self.deep * (self.lid + self.foot)

    @figure(LENGTH, "thickest")
    def thickest(self) -> float:
        return most(self.slates) - least(self.lid, self.foot)

    @figure(LENGTH, "over all")
    def over_all(self) -> float:
        return self.room + self.stack


VALUES = {"deep": 420.0, "lid": 18.0, "foot": 40.0, "rows": 3.0, "layers": 2.0}


def crate(**changes: Known | Missing) -> Crate:
    values: dict[str, Known | Missing] = {
        name: Known(value, f"/crate/{name}", f"{value:g}", name, low=value, high=value)
        for name, value in VALUES.items()
    }
    slates = tuple(
        Known(value, f"/crate/slates/{number}", f"{value:g}", f"slate {number}", low=value, high=value)
        for number, value in enumerate((7.0, 9.5), 1)
    )
    values["slates"] = Known(tuple(slate.value for slate in slates), "/crate/slates", parts=slates)
    return Crate(Subject("crate", "/crate"), **(values | changes))


@pytest.fixture(scope="module")
def printer() -> Printer:
    return Printer(site(""))


def worked(name: str, printer: Printer, of: Row | None = None) -> Working:
    working = work_out(of or crate(), name, printer)
    assert working is not None
    return working


@pytest.mark.parametrize(
    ("name", "line", "result"),
    [
        ("room", "420 deep − 18 lid − 40 foot", "362"),
        ("left", "420 deep − 18 lid + 40 foot", "442"),
        ("stack", "40 foot + 7 slate 1 + 9.5 slate 2", "56.5"),
        ("half", "(420 deep − 18 lid) ÷ 2", "201"),
        ("less_half", "420 deep − 18 lid ÷ 2", "411"),
        ("share", "420 deep ÷ (3 rows × 2 layers)", "70"),
        ("share_of_share", "420 deep ÷ (18 lid ÷ 40 foot)", "933.3"),
        ("front", "420 deep × (18 lid + 40 foot)", "0.02 m²"),
        ("thickest", "most of (7 slate 1, 9.5 slate 2) − least of (18 lid, 40 foot)", "−8.5"),
        ("over_all", "420 deep − 18 lid − 40 foot + 40 foot + 7 slate 1 + 9.5 slate 2", "418.5"),
    ],
)
def test_a_sum_has_its_signs_brackets_and_labels(name: str, line: str, result: str, printer: Printer) -> None:
    working = worked(name, printer)
    assert working.sum == line
    assert working.result == result


OPERATORS: dict[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}


def come_to(line: str) -> float:
    """What a line of working comes to, read as arithmetic; labels and units are left out."""
    signs = line.replace("−", "-").replace("×", "*").replace("÷", "/")
    signs = signs.replace("most of", "max").replace("least of", "min")
    bare = re.sub(r"(?<=\d) [A-Za-z][^-+*/(),]*", "", signs)
    return _value(ast.parse(bare, mode="eval").body)


def _value(node: ast.expr) -> float:
    match node:
        case ast.BinOp(left, sign, right):
            return OPERATORS[type(sign)](_value(left), _value(right))
        case ast.UnaryOp(ast.USub(), operand):
            return -_value(operand)
        case ast.Call(ast.Name(name), arguments):
            return {"max": max, "min": min}[name](*map(_value, arguments))
        case ast.Constant(float() | int() as value):
            return value
    raise AssertionError(f"no arithmetic: {ast.dump(node)}")


@pytest.mark.parametrize("name", sorted(Crate.figures))
def test_a_line_comes_to_the_figure_that_was_judged(name: str, printer: Printer) -> None:
    of = crate()
    assert come_to(worked(name, printer, of).sum) == pytest.approx(getattr(of, name), rel=1e-9)


def test_what_is_nothing_is_left_out_of_a_sum(printer: Printer) -> None:
    nothing = Known(0.0, "/crate/lid", "0", "lid", low=0.0, high=0.0)
    assert worked("room", printer, crate(lid=nothing)).sum == "420 deep − 40 foot"


def test_a_long_sum_says_how_many_parts_it_has(printer: Printer) -> None:
    slates = tuple(
        Known(7.0, f"/crate/slates/{number}", "7", f"slate {number}", low=7.0, high=7.0) for number in range(30)
    )
    many = Known((7.0,) * 30, "/crate/slates", parts=slates)
    assert worked("stack", printer, crate(slates=many)).sum == "250 (31 parts)"


def test_there_is_no_working_where_something_is_missing(printer: Printer) -> None:
    assert work_out(crate(lid=Missing("/crate/lid", "lid")), "room", printer) is None


def test_a_part_that_was_worked_out_has_a_line_of_its_own_below(printer: Printer) -> None:
    of = crate()
    half = Known(of.half, "/crate", "", "half of it", low=of.half, high=of.half, origin=(of, "half"))
    working = worked("less_half", printer, crate(deep=half))
    assert working.sum == "201 half of it − 18 lid ÷ 2"
    assert [(depth, line.label, line.sum, line.result) for depth, line in working.flat()][1:] == [
        (1, "half of it", "(420 deep − 18 lid) ÷ 2", "201")
    ]


def test_lengths_are_printed_as_the_plan_writes_them() -> None:
    american = Printer(site("", "project: {title: Dry dock, country: US-OR, lengths in: in}"))
    inch = 25.4
    values = {
        name: Known(value * inch, f"/crate/{name}", "", name)
        for name, value in (("deep", 34.5), ("lid", 0.75), ("foot", 1.0))
    }
    assert worked("room", american, crate(**values)).sum == "34-1/2 deep − 3/4 lid − 1 foot"


@pytest.mark.parametrize("kind", ["fixing in a wall", "hob under hood"])
def test_the_figures_of_the_demo_rows_come_to_what_they_say(kind: str) -> None:
    found = judged("weavers-row").site
    printer = Printer(found)
    for of in found.rows(kind).rows:
        for name in of.figures:
            working = work_out(of, name, printer)
            if working is not None and working.sum:
                assert come_to(working.sum) == pytest.approx(getattr(of, name), abs=0.06)
