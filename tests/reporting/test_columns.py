"""How much room a text takes on a terminal, and texts made to fit.

Widths are those of Unicode Standard Annex 11, East Asian Width (from memory): wide and full-width characters take two
columns. Control characters are those of ISO/IEC 6429, C0 and C1 (from memory).
"""

from __future__ import annotations

import itertools
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from validator.reporting.columns import at_right, columns, cut, filled, one_line, tamed, wrap

WORDS = st.text(st.sampled_from("aé-½漢🍳ب 'x1/2"), max_size=200)
ROOM = st.integers(2, 90)


@pytest.mark.parametrize(
    ("text", "wide"),
    [
        ("", 0),
        ("worktop", 7),
        ("Küche", 5),
        ("34-1/2″", 7),
        ("漢字", 4),
        ("🍳", 2),
        ("ｋ", 2),
        ("مطبخ", 4),
        ("− × ÷ «»", 8),
    ],
)
def test_wide_characters_take_two_columns(text: str, wide: int) -> None:
    assert columns(text) == wide


@given(text=WORDS, room=ROOM)
def test_no_line_is_wider_than_the_room(text: str, room: int) -> None:
    assert all(columns(line) <= room for line in wrap(text, room))


@given(text=WORDS, room=ROOM)
def test_wrapping_loses_and_adds_nothing_but_gaps(text: str, room: int) -> None:
    assert "".join("".join(wrap(text, room)).split()) == "".join(text.split())


@given(text=WORDS, room=ROOM)
def test_a_line_ends_only_where_the_next_word_has_no_room(text: str, room: int) -> None:
    lines = wrap(text, room)
    for line, following in itertools.pairwise(lines):
        assert columns(line) + 1 + columns(following.split()[0]) > room or columns(line) == room


def test_a_figure_is_never_broken_at_its_hyphen() -> None:
    assert wrap("the worktop is 34-1/2 in high", 18) == ["the worktop is", "34-1/2 in high"]


def test_gaps_within_a_line_are_kept_for_things_set_in_columns() -> None:
    assert wrap("647      1580 hood − 891 worktop", 30) == ["647      1580 hood − 891", "worktop"]


def test_a_word_longer_than_the_line_is_broken_where_the_line_ends() -> None:
    assert wrap("x" * 25, 10) == ["x" * 10, "x" * 10, "x" * 5]


def test_a_wide_character_is_not_cut_in_half() -> None:
    assert cut("漢字", 3) == "漢"
    assert wrap("漢字漢", 3) == ["漢", "字", "漢"]


@given(text=WORDS, room=st.integers(0, 90))
def test_what_is_cut_or_filled_takes_its_room(text: str, room: int) -> None:
    assert columns(cut(text, room)) <= room
    assert text.startswith(cut(text, room))
    for made in (filled(cut(text, room), room), at_right(cut(text, room), room)):
        assert columns(made) == room


@given(text=st.text())
def test_nothing_is_left_that_a_terminal_would_obey(text: str) -> None:
    kept = tamed(text)
    assert len(kept) == len(text)
    assert not [found for found in kept if unicodedata.category(found) in ("Cc", "Cs", "Zl", "Zp") and found != "\n"]


@pytest.mark.parametrize(
    "steering", ["\x1b[2J", "\x1b]0;title\x07", "\x9b31m", "\x08", "\r", "\x7f", "\u202e", "\u2066", "\u2028"]
)
def test_sequences_and_turns_of_direction_are_shown_as_marks(steering: str) -> None:
    assert tamed(f"sink{steering}").startswith("sink\ufffd")


@pytest.mark.parametrize("text", ["Küchenzeile", "مطبخ", "👩\u200d🍳", "line\nline", "<script>", "نیم\u200cفاصله"])
def test_what_people_write_stays(text: str) -> None:
    assert tamed(text) == text


def test_one_line_has_no_break() -> None:
    assert one_line(" sink\n\tbase  unit ") == "sink base unit"
