"""Pieces cut from boards of the lengths that are sold: as little bought as can be, with the saw cut counted.

Lengths may be in any one unit. Up to TRIED pieces every way of sharing them out is tried; beyond that they are put, the
longest first, where they first fit (Johnson's first-fit decreasing), and each board is then made as short as may be.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

TRIED = 10
HAIR = 1e-6


class Cut(NamedTuple):
    """A piece to be cut: what it is for, and how long it is."""

    name: str
    length: float


class Board(NamedTuple):
    """A board as bought, and what is cut from it in this order; `offcut` is what is left."""

    stock: float
    cuts: tuple[Cut, ...]
    offcut: float


def cut_from(pieces: Sequence[Cut], stocks: Sequence[float], saw_cut: float) -> tuple[Board, ...]:
    """The boards to buy for the pieces, in the order of the pieces. ValueError where one is longer than any board."""
    longest = max(stocks)
    if any(piece.length > longest + HAIR for piece in pieces):
        raise ValueError("a piece is longer than the longest board")
    shared = _every_way(pieces, stocks, saw_cut) if len(pieces) <= TRIED else _first_fit(pieces, stocks, saw_cut)
    boards = (_board([pieces[number] for number in group], stocks, saw_cut) for group in sorted(shared))
    return tuple(boards)


def split_up(piece: Cut, longest: float) -> tuple[Cut, ...]:
    """A piece that may be joined, as whole boards and the rest."""
    whole = max(0, math.ceil(piece.length / longest - HAIR) - 1)
    rest = piece.length - whole * longest
    parts = [*[longest] * whole, rest]
    if not whole:
        return (piece,)
    return tuple(Cut(f"{piece.name}, part {number}", part) for number, part in enumerate(parts, 1))


def _needed(lengths: float, count: int, saw_cut: float) -> float:
    """How long a board has to be: the pieces, and a cut between each two."""
    return lengths + saw_cut * max(0, count - 1)


def _shortest(needed: float, stocks: Sequence[float]) -> float:
    return min((stock for stock in stocks if needed <= stock + HAIR), default=math.inf)


def _board(cuts: Sequence[Cut], stocks: Sequence[float], saw_cut: float) -> Board:
    lengths = math.fsum(cut.length for cut in cuts)
    stock = _shortest(_needed(lengths, len(cuts), saw_cut), stocks)
    return Board(stock, tuple(cuts), max(0.0, stock - lengths - saw_cut * len(cuts)))


def _every_way(pieces: Sequence[Cut], stocks: Sequence[float], saw_cut: float) -> list[list[int]]:
    """The cheapest way to share the pieces out, by what is bought and then by the number of boards.

    Sets of pieces are numbers whose bits are the pieces; the cheapest way for a set is that for a board which takes its
    first piece, and the cheapest way for what the board leaves.
    """
    sets = 1 << len(pieces)
    length, price = [0.0] * sets, [0.0] * sets
    for chosen in range(1, sets):
        last = chosen.bit_length() - 1
        length[chosen] = length[chosen ^ (1 << last)] + pieces[last].length
        price[chosen] = _shortest(_needed(length[chosen], chosen.bit_count(), saw_cut), stocks)
    best: list[tuple[float, int]] = [(0.0, 0)] * sets
    taken = [0] * sets
    for chosen in range(1, sets):
        first = chosen & -chosen
        best[chosen] = (math.inf, 0)
        board = chosen
        while board:
            if board & first and price[board] < math.inf:
                bought, count = best[chosen ^ board]
                if (bought + price[board], count + 1) < best[chosen]:
                    best[chosen], taken[chosen] = (bought + price[board], count + 1), board
            board = (board - 1) & chosen
    found: list[list[int]] = []
    left = sets - 1
    while left:
        board = taken[left]
        found.append([number for number in range(len(pieces)) if board >> number & 1])
        left ^= board
    return found


def _first_fit(pieces: Sequence[Cut], stocks: Sequence[float], saw_cut: float) -> list[list[int]]:
    """First-fit decreasing into boards of each length that takes the longest piece; the cheapest of these ways."""
    longest = max(piece.length for piece in pieces)
    ways = [_first_fit_into(pieces, stock, saw_cut) for stock in sorted(set(stocks)) if longest <= stock + HAIR]

    def bought(way: list[list[int]]) -> tuple[float, int]:
        boards = [_board([pieces[number] for number in group], stocks, saw_cut) for group in way]
        return math.fsum(board.stock for board in boards), len(boards)

    return min(ways, key=bought)


def _first_fit_into(pieces: Sequence[Cut], stock: float, saw_cut: float) -> list[list[int]]:
    groups: list[list[int]] = []
    needed: list[float] = []
    for number in sorted(range(len(pieces)), key=lambda number: -pieces[number].length):
        length = pieces[number].length
        at = next((at for at, taken in enumerate(needed) if taken + saw_cut + length <= stock + HAIR), None)
        if at is None:
            groups.append([number])
            needed.append(length)
        else:
            groups[at].append(number)
            needed[at] += saw_cut + length
    return [sorted(group) for group in groups]
