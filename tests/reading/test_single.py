"""One quantity by itself, as rule files and settings have it."""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.reading.single import read_quantity
from kitproof.words.dimensions import ANGLE, LENGTH, MASS, NUMBER


def test_what_it_reads() -> None:
    assert read_quantity("23 kg").low == 23
    assert read_quantity(" 51 lb ").dimension == MASS
    assert (read_quantity("4..6 in").low, read_quantity("4..6 in").high) == (0.1016, 0.1524)
    assert read_quantity("-5").low == -5
    assert read_quantity("1.5").dimension == NUMBER
    assert read_quantity("30 %").low == 0.3
    assert read_quantity("10°").dimension == ANGLE
    assert not read_quantity("?").known


def test_equal_lengths_in_different_units_are_one_number() -> None:
    assert read_quantity("1400 mm").low == read_quantity("1.4 m").low == read_quantity("140 cm").low
    assert read_quantity("12 in").low == read_quantity("1 ft").low
    assert read_quantity("12 in").dimension == LENGTH


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "write a number and a unit"),
        ("heavy", "cannot be read as a quantity"),
        ("6,4 kg", 'write "6.4" for "6,4"'),
        ("6 kgg", "the nearest are kg"),
        ("8..6 kg", "the smaller figure comes first"),
        ("6 kg and more", 'at "and"'),
        ("\x00", "cannot be read"),
    ],
)
def test_what_it_refuses_in_a_persons_words(text: str, words: str) -> None:
    with pytest.raises(ValueError, match="cannot be read as a quantity") as refused:
        read_quantity(text)
    assert words in str(refused.value)


@given(st.text())
def test_any_text_reads_or_is_refused(text: str) -> None:
    """Nothing but ValueError may come out."""
    with suppress(ValueError):
        value = read_quantity(text)
        assert value.low <= value.high
