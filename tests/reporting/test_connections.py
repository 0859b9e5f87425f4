"""Points that hang together: what is moved to cure one moves the figures of others."""

from __future__ import annotations

from tests.reporting.made import judgement, rule
from validator.judging.outcomes import Check, Outcome, Result
from validator.measures.rows import Known, Row, Subject, figure, given
from validator.measures.tracing import derived
from validator.plan.dimensions import LENGTH
from validator.reporting.connections import Connections
from validator.reporting.points import Points, put_together


class Top(Row, kind="top on blocks"):
    """How high a top comes."""

    blocks: float = given(LENGTH, "blocks")
    board: float = given(LENGTH, "board")

    @figure(LENGTH, "height")
    def height(self) -> float:
        return self.blocks + self.board


class Lamp(Row, kind="lamp over a top"):
    """What is left below a lamp."""

    lamp: float = given(LENGTH, "lamp")
    top: float = given(LENGTH, "top")

    @figure(LENGTH, "clearance")
    def clearance(self) -> float:
        return self.lamp - self.top


def length(value: float, pointer: str, label: str) -> Known:
    return Known(value, pointer, f"{value:g}", label, low=value, high=value)


def top(name: str, blocks: str = "/runs/bench/legs", board: str = "/kinds/top/thickness") -> Top:
    return Top(
        Subject(name, f"/worktops/{name}"), blocks=length(150.0, blocks, "blocks"), board=length(38.0, board, "board")
    )


def lamp(over: Top, pointer: str = "/points/lamp/up") -> Lamp:
    hanging = length(1600.0, pointer, "lamp")
    height = derived(over, "height")
    assert isinstance(height, Known)
    return Lamp(Subject("lamp", "/points/lamp"), lamp=hanging, top=height)


def wrong(name: str, row: Row, of: str) -> Outcome:
    return Outcome(
        rule(name)._replace(figure=of), row.subject, Result.NOT_MET, row, (Check("at least", 1.0, 2.0, False, 1.0),)
    )


def moves(points: Points, number: int) -> list[tuple[str, str, tuple[int, ...]]]:
    point = next(point for point in points.points if point.number == number)
    return [(found.label, found.pointer, found.numbers) for found in Connections(points).of(point)]


def test_a_value_that_two_points_rest_on_connects_them_both_ways() -> None:
    bench = top("bench")
    points = put_together(judgement([wrong("top", bench, "height"), wrong("lamp", lamp(bench), "clearance")]))
    assert moves(points, 1) == [("blocks", "/runs/bench/legs", (2,))]
    assert moves(points, 2) == [("blocks", "/runs/bench/legs", (1,))]


def test_points_that_share_nothing_are_not_connected() -> None:
    points = put_together(
        judgement([wrong("top", top("bench"), "height"), wrong("other", top("desk", "/runs/desk/legs"), "height")])
    )
    assert moves(points, 1) == []


def test_what_all_share_and_nobody_moves_connects_nothing() -> None:
    points = put_together(
        judgement(
            [
                wrong("top", top("bench", "/floor/levels/door"), "height"),
                wrong("other", top("desk", "/floor/levels/door"), "height"),
            ]
        )
    )
    assert moves(points, 1) == []


def test_the_places_of_one_point_do_not_connect_it_with_itself() -> None:
    one, other = wrong("top", top("bench"), "height"), wrong("top", top("desk"), "height")
    points = put_together(judgement([one, other]))
    assert len(points.points) == 1
    assert moves(points, 1) == []


def test_a_value_is_named_once_with_all_the_points_it_moves() -> None:
    bench = top("bench")
    points = put_together(
        judgement([wrong(name, bench, "height") for name in ("a", "b")] + [wrong("c", lamp(bench), "clearance")])
    )
    assert moves(points, 1) == [("blocks", "/runs/bench/legs", (2, 3))]


def test_values_that_move_the_same_points_are_told_in_one_line() -> None:
    """The judge's own arithmetic: both lengths of the first lamp's height stand in the second's too."""
    under = top("a", board="/worktops/a/thickness")
    points = put_together(judgement([wrong("top", under, "height"), wrong("lamp", lamp(under), "clearance")]))
    [told] = Connections(points).together(points.points[0])

    assert told.numbers == (2,)
    assert told.condition == "if any of these is changed: blocks, board"
    assert told.pointers == ("/runs/bench/legs", "/worktops/a/thickness")
