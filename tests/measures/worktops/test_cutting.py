"""Pieces cut from boards: each once, no board used beyond its length, and no more bought than need be."""

from __future__ import annotations

import itertools
import math
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from validator.measures.worktops.cutting import TRIED, Cut, cut_from, split_up

LENGTHS = st.lists(st.integers(50, 3000), min_size=1, max_size=25)
SAW = st.sampled_from([0.0, 3.0, 4.0])


def pieces(*lengths: float) -> list[Cut]:
    return [Cut(f"piece {number}", length) for number, length in enumerate(lengths, 1)]


def first_fit_decreasing(lengths: list[int], stock: float, saw: float) -> int:
    """How many boards first-fit decreasing takes, with every piece and the stock longer by one saw cut."""
    room: list[float] = []
    for length in sorted(lengths, reverse=True):
        at = next((at for at, left in enumerate(room) if length + saw <= left), None)
        if at is None:
            room.append(stock + saw)
            at = -1
        room[at] -= length + saw
    return len(room)


@settings(max_examples=60, deadline=None)
@given(LENGTHS, SAW)
def test_every_piece_is_cut_once_and_no_board_is_used_up_twice(lengths: list[int], saw: float) -> None:
    wanted = pieces(*lengths)
    boards = cut_from(wanted, [3000], saw)
    assert Counter(cut for board in boards for cut in board.cuts) == Counter(wanted)
    for board in boards:
        used = sum(cut.length for cut in board.cuts) + saw * (len(board.cuts) - 1)
        assert used <= board.stock + 1e-6
        assert board.offcut == pytest.approx(max(0, board.stock - used - saw))


@settings(max_examples=60, deadline=None)
@given(LENGTHS, SAW)
def test_no_more_boards_than_first_fit_decreasing(lengths: list[int], saw: float) -> None:
    assert len(cut_from(pieces(*lengths), [3000], saw)) <= first_fit_decreasing(lengths, 3000, saw)


@settings(max_examples=60, deadline=None)
@given(LENGTHS, SAW)
def test_never_fewer_boards_than_the_pieces_are_long(lengths: list[int], saw: float) -> None:
    assert len(cut_from(pieces(*lengths), [3000], saw)) >= math.ceil(sum(lengths) / 3000)


@settings(max_examples=25, deadline=None)
@given(st.lists(st.integers(300, 3000), min_size=1, max_size=5), SAW)
def test_few_pieces_are_shared_out_as_well_as_by_trying_everything(lengths: list[int], saw: float) -> None:
    stocks = [2000, 3000]
    found = sum(board.stock for board in cut_from(pieces(*lengths), stocks, saw))
    assert found == min(_bought(lengths, groups, stocks, saw) for groups in _groupings(len(lengths)))


def _groupings(count: int) -> list[tuple[int, ...]]:
    return list(itertools.product(range(count), repeat=count))


def _bought(lengths: list[int], groups: tuple[int, ...], stocks: list[int], saw: float) -> float:
    total = 0.0
    for group in set(groups):
        mine = [length for length, at in zip(lengths, groups, strict=True) if at == group]
        total += min((s for s in stocks if sum(mine) + saw * (len(mine) - 1) <= s), default=math.inf)
    return total


def test_first_fit_decreasing_is_beaten_where_every_way_is_tried() -> None:
    """1700, 800 and 500 fill one board and 1100, 1000 and 900 another: taking the longest first needs a third."""
    lengths = [1700, 1100, 1000, 900, 800, 500]
    assert first_fit_decreasing(lengths, 3000, 0) == 3
    assert len(cut_from(pieces(*lengths), [3000], 0)) == 2


def test_the_saw_cut_is_counted_between_pieces() -> None:
    assert len(cut_from(pieces(1500, 1500), [3000], 0)) == 1
    assert len(cut_from(pieces(1500, 1500), [3000], 3)) == 2
    assert len(cut_from(pieces(1500, 1497), [3000], 3)) == 1


def test_a_whole_board_needs_no_cut_at_all() -> None:
    (board,) = cut_from(pieces(3000), [3000], 3)
    assert board.offcut == 0


def test_the_shorter_board_is_bought_where_it_does() -> None:
    assert [board.stock for board in cut_from(pieces(1900, 2800), [2000, 3000], 4)] == [2000, 3000]


def test_one_long_board_before_two_short_ones_of_more_length() -> None:
    assert [board.stock for board in cut_from(pieces(1400, 1400), [2000, 3000], 4)] == [3000]


def test_a_piece_longer_than_any_board_is_refused() -> None:
    with pytest.raises(ValueError, match="longer than the longest"):
        cut_from(pieces(3001), [2000, 3000], 4)


def test_a_piece_that_may_be_joined_is_whole_boards_and_the_rest() -> None:
    assert [part.length for part in split_up(Cut("plinth", 7000), 2700)] == pytest.approx([2700, 2700, 1600])
    assert split_up(Cut("plinth", 2700), 2700) == (Cut("plinth", 2700),)


def test_many_pieces_take_no_time_to_speak_of() -> None:
    boards = cut_from(pieces(*(400 + 7 * number % 900 for number in range(600))), [3000], 4)
    assert sum(len(board.cuts) for board in boards) == 600 > TRIED
