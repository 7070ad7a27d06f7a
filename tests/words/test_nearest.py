"""The nearest known names."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.words.nearest import distance, nearest

HEADS = ("Fenner 12 head", "Fenner 30 head", "Cobble 5 head", "Pell 50")


@pytest.mark.parametrize(
    ("word", "known", "expected"),
    [
        ("hieght", ("mass", "height", "weighed"), ("height",)),
        ("HEAD", ("head", "lens"), ("head",)),
        ("Fenner 12 haed", HEADS, ("Fenner 12 head", "Fenner 30 head")),
        ("Fenner", HEADS, ("Fenner 12 head", "Fenner 30 head")),
        ("Pell 50 mm", HEADS, ("Pell 50",)),
        ("zebra", HEADS, ()),
        ("", HEADS, ()),
        ("ab", ("aa", "ac", "ad", "ae"), ("aa", "ac", "ad")),
    ],
)
def test_what_is_near(word: str, known: tuple[str, ...], expected: tuple[str, ...]) -> None:
    assert nearest(word, known) == expected


@given(st.text(max_size=12), st.text(max_size=12))
def test_distance_is_the_same_both_ways_and_0_only_for_equal_words(one: str, other: str) -> None:
    steps = distance(one, other, 99)
    assert steps == distance(other, one, 99)
    assert (steps == 0) == (one == other)
    assert abs(len(one) - len(other)) <= steps <= max(len(one), len(other))


@given(st.text(max_size=12), st.text(max_size=12), st.integers(0, 5))
def test_a_limit_only_cuts_short(one: str, other: str, limit: int) -> None:
    whole, cut = distance(one, other, 99), distance(one, other, limit)
    assert cut == whole if whole <= limit else cut > limit


@given(st.text(min_size=1, max_size=12), st.lists(st.text(max_size=12)))
def test_at_most_three_of_the_known(word: str, known: list[str]) -> None:
    near = nearest(word, known)
    assert len(near) <= 3
    assert set(near) <= set(known)
